//! What the chores need beside cargo: installed where that is possible, named in one line where it is not.

use crate::run::{answers, run, run_with};
use anyhow::{Result, bail};
use std::path::Path;

/// A program and the Debian package that brings it.
struct Tool {
    program: &'static str,
    asks: &'static [&'static str],
    package: &'static str,
    what_for: &'static str,
}

const FOR_TESTS: &[Tool] = &[
    Tool { program: "chromium", asks: &["--version"], package: "chromium", what_for: "tests in a real browser" },
    Tool { program: "node", asks: &["--version"], package: "nodejs", what_for: "driving the browser" },
    Tool { program: "npm", asks: &["--version"], package: "npm", what_for: "driving the browser" },
    Tool { program: "pdftotext", asks: &["-v"], package: "poppler-utils", what_for: "reading reports independently" },
    Tool { program: "qpdf", asks: &["--version"], package: "qpdf", what_for: "checking the structure of reports" },
];

/// Makes sure that the WebAssembly target is there.
pub fn wasm_target(root: &Path) -> Result<()> {
    let Ok(listed) = std::process::Command::new("rustup").args(["target", "list", "--installed"]).output() else {
        println!("rustup is missing: install the target wasm32-unknown-unknown for your toolchain yourself.");
        return Ok(());
    };
    if String::from_utf8_lossy(&listed.stdout).contains("wasm32-unknown-unknown") {
        return Ok(());
    }
    run(root, "rustup", &["target", "add", "wasm32-unknown-unknown"])
}

/// Makes sure that what the tests need is there.
pub fn for_tests(root: &Path) -> Result<()> {
    let missing: Vec<&Tool> = FOR_TESTS.iter().filter(|tool| !answers(tool.program, tool.asks)).collect();
    if missing.is_empty() {
        return Ok(());
    }
    let packages: Vec<&str> = missing.iter().map(|tool| tool.package).collect();
    let may_install = answers("sh", &["-c", "command -v apt-get >/dev/null && [ \"$(id -u)\" = 0 ]"]);
    if may_install {
        run_with(root, "apt-get", &["update", "-qq"], &[])?;
        let mut words = vec!["install", "-y", "-qq", "--no-install-recommends"];
        words.extend(&packages);
        run_with(root, "apt-get", &words, &[("DEBIAN_FRONTEND", "noninteractive")])?;
    }
    let still: Vec<String> = missing
        .iter()
        .filter(|tool| !answers(tool.program, tool.asks))
        .map(|tool| format!("{} (for {})", tool.program, tool.what_for))
        .collect();
    if !still.is_empty() {
        bail!("missing: {}; on Debian: apt-get install {}", still.join(", "), packages.join(" "));
    }
    Ok(())
}

/// Returns the program that checks licences and dependencies, installing it into `target/tools` when it is missing.
pub fn cargo_deny(root: &Path) -> Result<String> {
    if answers("cargo-deny", &["--version"]) {
        return Ok("cargo-deny".to_owned());
    }
    let tools = root.join("target/tools");
    let own = tools.join("bin/cargo-deny").to_string_lossy().into_owned();
    if !answers(&own, &["--version"]) {
        let to = tools.to_string_lossy().into_owned();
        run_with(
            root,
            "cargo",
            &["install", "cargo-deny", "--version", "0.20.2", "--locked", "--debug", "--root", &to],
            &[("CARGO_TARGET_DIR", &tools.join("build").to_string_lossy())],
        )?;
    }
    Ok(own)
}
