//! `cargo verify`: every check and every test, cheap ones first. `cargo quick`: the part for every few minutes.

use crate::app;
use crate::browser;
use crate::run::run;
use crate::tools;
use anyhow::Result;
use std::path::Path;

/// The report and what stands on it need the typesetter, which takes long to build.
const HEAVY: &[&str] = &["report", "server", "ribband", "xtask"];

/// Rooms that build for the browser too.
const GROUND: &[&str] = &[
    "drawing",
    "measure",
    "timber",
    "waters",
    "fastening",
    "hull",
    "evidence",
    "estimate",
    "reckon",
    "survey",
    "sounding",
    "plans",
    "walk",
    "faircopy",
];

pub fn verify(root: &Path) -> Result<()> {
    tools::for_tests(root)?;
    tools::wasm_target(root)?;
    run(root, "cargo", &["fmt", "--all", "--check"])?;
    // The licences of every dependency are looked at, those of other machines too; a fresh machine lacks those.
    run(root, "cargo", &["fetch", "--locked"])?;
    let deny = tools::cargo_deny(root)?;
    run(root, &deny, &["--offline", "check", "licenses", "bans", "sources"])?;
    let mut ground = vec!["check", "--quiet", "--target", "wasm32-unknown-unknown"];
    for room in GROUND {
        ground.extend(["--package", room]);
    }
    run(root, "cargo", &ground)?;
    // The server takes the app in when it is built, so the app comes first.
    app::app(root, app::Care::Shipped)?;
    run(
        root,
        "cargo",
        &[
            "clippy",
            "--package",
            "app",
            "--package",
            "carrier",
            "--lib",
            "--target",
            "wasm32-unknown-unknown",
            "--profile",
            "app",
            "--",
            "--deny",
            "warnings",
        ],
    )?;
    // One selection of packages for build, lints and tests, so that nothing is built twice.
    run(root, "cargo", &["build", "--workspace", "--exclude", "xtask", "--all-targets"])?;
    run(root, "cargo", &["clippy", "--workspace", "--all-targets", "--", "--deny", "warnings"])?;
    run(root, "cargo", &["test", "--workspace", "--exclude", "xtask", "--no-fail-fast"])?;
    browser::tests(root)?;
    println!("Everything holds.");
    Ok(())
}

pub fn quick(root: &Path) -> Result<()> {
    run(root, "cargo", &["fmt", "--all", "--check"])?;
    for words in [vec!["clippy", "--all-targets", "--workspace"], vec!["test", "--workspace", "--quiet"]] {
        let mut words = words;
        for heavy in HEAVY {
            words.extend(["--exclude", heavy]);
        }
        run(root, "cargo", &words)?;
    }
    Ok(())
}

pub fn bench(root: &Path) -> Result<()> {
    run(root, "cargo", &["bench", "--workspace", "--exclude", "xtask", "--profile", "dev"])
}
