//! `cargo demo`: from a fresh clone to the workbench with the invented boat on it.

use crate::app;
use crate::run::run;
use crate::tools;
use anyhow::{Context as _, Result};
use std::path::Path;
use std::process::Command;

pub fn demo(root: &Path, words: Vec<String>) -> Result<()> {
    println!(
        "The first build takes 15 to 25 minutes on two cores: the typesetter inside is large. Later ones are quick."
    );
    tools::wasm_target(root)?;
    app::app(root, app::Care::Shipped)?;
    run(root, "cargo", &["build", "--workspace", "--exclude", "xtask"])?;
    let folder = root.join("target/marram-demo");
    let folder = folder.to_string_lossy().into_owned();
    let mut command = Command::new(root.join("target/debug/ribband"));
    command.args(["demo", "--into", &folder, "--serve"]).args(words);
    let status = command.status().context("the workbench cannot be started")?;
    anyhow::ensure!(status.success(), "the workbench ended ({status})");
    Ok(())
}
