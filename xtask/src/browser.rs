//! The workbench tried in a real browser.

use crate::run::run;
use anyhow::{Context as _, Result};
use std::path::Path;

/// Runs the tests of `crates/app/browser` over the program as built.
pub fn tests(root: &Path) -> Result<()> {
    let folder = root.join("crates/app/browser");
    if !folder.join("node_modules/playwright-core").exists() {
        run(&folder, "npm", &["ci", "--no-audit", "--no-fund"])?;
    }
    crate::app::probe(root)?;
    let mut files: Vec<String> = std::fs::read_dir(&folder)?
        .filter_map(|item| item.ok()?.file_name().into_string().ok())
        .filter(|name| name.ends_with(".test.mjs"))
        .collect();
    files.sort();
    let mut words = vec!["--test", "--test-concurrency=1"];
    words.extend(files.iter().map(String::as_str));
    // A real browser on a busy machine now and then misses a deadline; what fails twice is a fault.
    if run(&folder, "node", &words).is_err() {
        println!("The workbench failed in the browser; once more.");
        run(&folder, "node", &words).context("the workbench failed in the browser, twice")?;
    }
    Ok(())
}
