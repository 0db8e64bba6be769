//! The web app: built for WebAssembly, bound, named by its content, packed, and laid where the server takes it from.
//!
//! What comes out in `crates/app/dist` is what is served, path for path:
//!
//! - `index.html`, `service-worker.js`, `manifest.webmanifest`, `icon.svg`: asked anew each time;
//! - `app/BUILD/…`: everything else, which never changes under its name, and `app/files.json`, the list of it.
//!
//! Beside each file that packs well lie its packed forms (`.br`, `.gz`).

use crate::run::run;
use anyhow::{Context as _, Result};
use sha2::{Digest as _, Sha256};
use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};

/// How much care the build takes.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Care {
    /// Small, as it is shipped.
    Shipped,
    /// Quick, for looking at a change.
    Quick,
}

/// Files that the page fetches only when their work is asked for; they are kept for working with no network all the same,
/// after the first page is shown.
const LATER: &[&str] = &["carry.js", "carrier.js", "carrier_bg.wasm", "solid.js", COMMON_WORDS];

/// The list of common words, which the room `walk` keeps.
const COMMON_WORDS: &str = "common-words.txt";

/// Names that are asked for anew each time, because others rest on them.
const ROOT_FILES: &[&str] = &["index.html", "service-worker.js", "manifest.webmanifest", "icon.svg"];

pub fn app(root: &Path, care: Care) -> Result<()> {
    let (profile, folder) = match care {
        Care::Shipped => ("app", "app"),
        Care::Quick => ("dev", "debug"),
    };
    let stat = root.join("crates/app/static");
    let mut files: Vec<(String, Vec<u8>)> = Vec::new();
    for package in ["app", "carrier"] {
        let bound = bind(root, package, profile, folder)?;
        collect(&bound, &bound, &mut files)?;
    }
    collect(&stat, &stat, &mut files)?;
    files.push((COMMON_WORDS.to_owned(), fs::read(root.join("crates/walk/data/words.txt"))?));
    files.retain(|(name, _)| !name.ends_with(".py") && !name.ends_with(".md"));
    files.sort();
    let build = name_by_content(&files);
    lay_out(&root.join("crates/app/dist"), &build, files, care)
}

/// Builds what the browser tests call (`crates/app/browser/probe`): the app's keep and exchange without the app. Laid in
/// `probe-bound` of the target folder, where they look for it.
pub fn probe(root: &Path) -> Result<()> {
    bind(root, "probe", "app", "app").map(drop)
}

/// Builds a package for WebAssembly and binds it for the browser; returns where it lies.
fn bind(root: &Path, package: &str, profile: &str, folder: &str) -> Result<PathBuf> {
    let words = ["build", "--package", package, "--lib", "--target", "wasm32-unknown-unknown", "--profile", profile];
    run(root, "cargo", &words)?;
    let target = std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root.join("target"), PathBuf::from);
    let wasm = target.join("wasm32-unknown-unknown").join(folder).join(format!("{package}.wasm"));
    let bound = target.join(format!("{package}-bound"));
    let _ = fs::remove_dir_all(&bound);
    wasm_bindgen_cli_support::Bindgen::new()
        .input_path(&wasm)
        .web(true)?
        .typescript(false)
        .generate(&bound)
        .with_context(|| format!("{package} cannot be bound for the browser"))?;
    Ok(bound)
}

/// Names a build by what is in it, so that the same files have the same name on every machine.
fn name_by_content(files: &[(String, Vec<u8>)]) -> String {
    let mut hash = Sha256::new();
    for (name, bytes) in files {
        hash.update(name.as_bytes());
        hash.update([0]);
        hash.update((bytes.len() as u64).to_le_bytes());
        hash.update(bytes);
    }
    hash.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

fn lay_out(dist: &Path, build: &str, files: Vec<(String, Vec<u8>)>, care: Care) -> Result<()> {
    let _ = fs::remove_dir_all(dist);
    let mut listed = vec!["/".to_owned(), "/manifest.webmanifest".to_owned(), "/icon.svg".to_owned()];
    let (mut first_load, mut later) = (0, 0);
    for (name, bytes) in files {
        let at_root = ROOT_FILES.contains(&name.as_str());
        let to = if at_root { name.clone() } else { format!("app/{build}/{name}") };
        if !at_root && !name.starts_with("fonts/OFL") {
            listed.push(format!("/{to}"));
        }
        let bytes = match name.rsplit('.').next() {
            Some("html" | "js" | "webmanifest") => String::from_utf8(bytes)?.replace("__BUILD__", build).into_bytes(),
            _ => bytes,
        };
        let travels = put(&dist.join(&to), &bytes, care)?;
        if LATER.contains(&name.as_str()) { later += travels } else { first_load += travels }
    }
    let list = serde_json::to_vec(&serde_json::json!({"build": build, "files": listed}))?;
    first_load += put(&dist.join("app").join(build).join("files.json"), &list, care)?;
    println!(
        "The app is in {} (build {build}); packed: {first_load} bytes to begin with, {later} later.",
        dist.display()
    );
    Ok(())
}

/// Writes a file and its packed forms; returns how many bytes travel when a browser asks for it.
fn put(path: &Path, bytes: &[u8], care: Care) -> Result<usize> {
    fs::create_dir_all(path.parent().context("a file lies in a folder")?)?;
    fs::write(path, bytes)?;
    let packs = !path.extension().is_some_and(|end| end == "woff2" || end == "png");
    if !packs || care == Care::Quick {
        return Ok(bytes.len());
    }
    let beside = |end: &str| PathBuf::from(format!("{}.{end}", path.display()));
    let mut packed = Vec::new();
    let settings = brotli::enc::BrotliEncoderParams { quality: 11, lgwin: 22, ..Default::default() };
    brotli::BrotliCompress(&mut &bytes[..], &mut packed, &settings)?;
    fs::write(beside("br"), &packed)?;
    let mut gzip = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    gzip.write_all(bytes)?;
    fs::write(beside("gz"), gzip.finish()?)?;
    Ok(packed.len())
}

fn collect(base: &Path, folder: &Path, into: &mut Vec<(String, Vec<u8>)>) -> Result<()> {
    for item in fs::read_dir(folder)? {
        let path = item?.path();
        if path.is_dir() {
            collect(base, &path, into)?;
        } else {
            let name = path.strip_prefix(base)?.to_string_lossy().replace('\\', "/");
            into.push((name, fs::read(&path)?));
        }
    }
    Ok(())
}
