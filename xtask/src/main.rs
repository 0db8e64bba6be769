//! Chores of the workspace, so that `cargo` is all a newcomer needs: `cargo demo`, `cargo verify`, `cargo quick`.

mod app;
mod browser;
mod demo;
mod pictures;
mod run;
mod tools;
mod verify;

use anyhow::{Context as _, Result, bail};
use std::path::{Path, PathBuf};

const USAGE: &str = "\
cargo demo       build, load the invented boat and serve the workbench on her
cargo verify     every check and test; what CI runs
cargo quick      format, lints and the tests of every room but the report and what stands on it
cargo run -p xtask -- app        build the workbench for the browser (--quick: larger, but sooner)
cargo run -p xtask -- browser    the tests of the workbench in a real browser, over what is built
cargo run -p xtask -- pictures   remake the pictures of the demo's report in docs/pictures
cargo run -p xtask -- bench      every benchmark, with figures";

fn main() -> Result<()> {
    let root = workspace()?;
    let mut words = std::env::args().skip(1);
    match words.next().as_deref() {
        Some("demo") => demo::demo(&root, words.collect()),
        Some("verify") => verify::verify(&root),
        Some("quick") => verify::quick(&root),
        Some("app") => {
            let quick = words.next().is_some_and(|word| word == "--quick");
            app::app(&root, if quick { app::Care::Quick } else { app::Care::Shipped })
        }
        Some("browser") => browser::tests(&root),
        Some("pictures") => pictures::pictures(&root),
        Some("bench") => verify::bench(&root),
        _ => bail!("{USAGE}"),
    }
}

/// The workspace these chores are for: the one cargo runs them from, else the one the current directory lies in, else
/// the one they were built in; a copy of this program so serves every checkout it is started from.
fn workspace() -> Result<PathBuf> {
    if let Some(from_cargo) = std::env::var_os("CARGO_MANIFEST_DIR") {
        return Ok(PathBuf::from(from_cargo).parent().context("xtask lies in the workspace")?.to_owned());
    }
    let here = std::env::current_dir()?;
    let holds = |folder: &Path| folder.join("xtask").is_dir() && folder.join("Cargo.toml").is_file();
    if let Some(found) = here.ancestors().find(|folder| holds(folder)) {
        return Ok(found.to_owned());
    }
    Ok(PathBuf::from(env!("CARGO_MANIFEST_DIR")).parent().context("xtask lies in the workspace")?.to_owned())
}
