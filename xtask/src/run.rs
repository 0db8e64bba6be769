//! Running other programs, with their output shown and their failure named.

use anyhow::{Context as _, Result, bail};
use std::path::Path;
use std::process::Command;
use std::time::Instant;

/// Runs a program in a folder; fails when it does.
pub fn run(folder: &Path, program: &str, words: &[&str]) -> Result<()> {
    run_with(folder, program, words, &[])
}

/// Runs a program with environment variables.
pub fn run_with(folder: &Path, program: &str, words: &[&str], environment: &[(&str, &str)]) -> Result<()> {
    println!("» {program} {}", words.join(" "));
    let start = Instant::now();
    let status = Command::new(program)
        .args(words)
        .current_dir(folder)
        .envs(environment.iter().copied())
        .status()
        .with_context(|| format!("`{program}` cannot be run"))?;
    println!("» {} s", start.elapsed().as_secs());
    if !status.success() {
        bail!("`{program} {}` failed ({status})", words.join(" "));
    }
    Ok(())
}

/// Tells whether a program is there and answers.
pub fn answers(program: &str, words: &[&str]) -> bool {
    let mut said = Command::new(program);
    said.args(words).stdout(std::process::Stdio::null()).stderr(std::process::Stdio::null());
    said.status().is_ok_and(|status| status.success())
}
