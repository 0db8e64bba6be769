//! Pictures of the demo's report, for the README.

use crate::run::run;
use anyhow::{Context as _, Result};
use std::path::Path;

/// Pages shown, counted from 1, and the names of their pictures.
const PAGES: &[(u32, &str)] =
    &[(1, "report-title"), (2, "report-summary"), (7, "report-drawings"), (9, "report-findings")];

pub fn pictures(root: &Path) -> Result<()> {
    run(root, "cargo", &["build", "--workspace", "--exclude", "xtask"])?;
    let folder = root.join("target/pictures");
    let book = folder.join("marram");
    let pdf = folder.join("marram.pdf");
    let out = root.join("docs/pictures");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).context("target cannot be written")?;
    std::fs::create_dir_all(&out).context("docs cannot be written")?;
    let ribband = root.join("target/debug/ribband");
    let text = |path: &Path| path.to_string_lossy().into_owned();
    run(root, &text(&ribband), &["demo", "--into", &text(&book)])?;
    run(root, &text(&ribband), &["--folder", &text(&book), "report", "--out", &text(&pdf)])?;
    for (page, name) in PAGES {
        let page = page.to_string();
        let to = text(&out.join(name));
        run(root, "pdftoppm", &["-png", "-r", "60", "-singlefile", "-f", &page, "-l", &page, &text(&pdf), &to])?;
    }
    println!("The pictures are in {}.", out.display());
    Ok(())
}
