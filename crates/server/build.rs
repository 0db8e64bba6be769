//! Builds the app for the browser into the program, when it has been made: every file below `crates/app/dist`, with
//! its packed forms beside it.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let variable = |name| env::var_os(name).map(PathBuf::from).ok_or_else(|| io::Error::other("run by Cargo only"));
    let dist = variable("CARGO_MANIFEST_DIR")?.join("../app/dist");
    // Cargo takes a missing folder for a changed one, and would build this room anew every time.
    let _ = fs::create_dir_all(&dist);
    println!("cargo:rerun-if-changed={}", dist.display());
    println!("cargo:rerun-if-changed=build.rs");
    let mut files = BTreeMap::new();
    if dist.is_dir() {
        collect(&dist, &dist, &mut files)?;
    }
    let mut table =
        String::from("/// The files that were there when this program was built.\nconst BUILT_IN: &[Asset] = &[\n");
    for (path, file) in &files {
        // `X.br` beside X is a form of X and no file of its own.
        let form_of = |ending| path.strip_suffix(ending).is_some_and(|base| files.contains_key(base));
        if form_of(".br") || form_of(".gz") {
            continue;
        }
        let bytes = |file: &PathBuf| format!("include_bytes!({:?})", file.display().to_string());
        let packed = |ending: &str| {
            files.get(&format!("{path}{ending}")).map_or("None".to_owned(), |file| format!("Some({})", bytes(file)))
        };
        let (plain, br, gz) = (bytes(file), packed(".br"), packed(".gz"));
        writeln!(table, "    Asset {{ path: {path:?}, plain: {plain}, br: {br}, gz: {gz} }},")
            .map_err(io::Error::other)?;
    }
    table.push_str("];\n");
    fs::write(variable("OUT_DIR")?.join("built_in.rs"), table)
}

fn collect(base: &Path, folder: &Path, into: &mut BTreeMap<String, PathBuf>) -> io::Result<()> {
    for item in fs::read_dir(folder)? {
        let path = item?.path();
        if path.is_dir() {
            collect(base, &path, into)?;
        } else if let Ok(below) = path.strip_prefix(base) {
            let below = below.to_string_lossy().replace('\\', "/");
            into.insert(format!("/{below}"), fs::canonicalize(&path)?);
        }
    }
    Ok(())
}
