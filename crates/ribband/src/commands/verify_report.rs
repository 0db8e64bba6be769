//! `ribband verify REPORT`: whether a file is what a surveyor issued, on a machine that knows nothing else of it.

use super::issue::seal_path;
use super::{print, print_json};
use crate::arguments::VerifyArgs;
use crate::fault::Fault;
use seal::{PublicKey, Seal};
use serde_json::json;
use std::fs::{self, File};
use std::path::Path;
use store::package::{Limits, import};
use store::{MemoryStore, Store as _};

pub fn run(args: &VerifyArgs, file: &Path, as_json: bool) -> Result<(), Fault> {
    let read = |path: &Path, what: &str| {
        fs::read_to_string(path)
            .map_err(|why| Fault::input(format!("{}: {what} cannot be read ({why})", path.display())))
    };
    let bytes =
        fs::read(file).map_err(|why| Fault::input(format!("{}: the report cannot be read ({why})", file.display())))?;
    let key_file = args.public_key.as_deref().ok_or_else(|| Fault::input("--public-key FILE is wanting"))?;
    let key = PublicKey::read(&read(key_file, "the public key")?)
        .map_err(|why| Fault::input(format!("{}: {why}", key_file.display())))?;
    let beside = args.signature.clone().unwrap_or_else(|| seal_path(file));
    let seal = Seal::read(&read(&beside, "the signature")?)
        .map_err(|why| Fault::undone(format!("{}: {why}", beside.display())))?;
    let fits = seal.check(&bytes, &key);
    let field_book = match (&args.package, &fits) {
        (Some(package), Ok(())) => Some(of_package(package, &seal)),
        _ => None,
    };
    let s = &seal.statement;
    if as_json {
        print_json(&json!({
            "fits": fits.is_ok() && !matches!(field_book, Some(Err(_))),
            "why": fits.as_ref().err().map(ToString::to_string)
                .or_else(|| field_book.as_ref().and_then(|f| f.as_ref().err()).map(ToString::to_string)),
            "version": s.version, "date": s.date.to_string(), "signed_by": s.signed_by, "survey": s.survey.to_string(),
            "field_book": s.field_book, "sha256": s.sha256,
            "field_book_checked": matches!(field_book, Some(Ok(_))),
        }))?;
    }
    fits.map_err(|why| Fault::undone(format!("{}: {why}", file.display())))?;
    let entries = field_book.transpose()?;
    if as_json {
        return Ok(());
    }
    print(&format!(
        "{}: this is version {} of the report on survey {}, issued on {} and signed by {}. It is unchanged.",
        file.display(),
        s.version,
        s.survey.short(),
        s.date,
        s.signed_by
    ))?;
    match entries {
        Some(entries) => print(&format!(
            "The package holds the field book it was made from: {entries} entries, digest {}; every entry and attachment in it fits.",
            s.field_book
        )),
        None => print(&format!(
            "It was made from a field book with the digest {}; that field book was not looked at (--package FILE does).",
            s.field_book
        )),
    }
}

/// Proves that a package holds the field book that a report was made from, whole and unaltered; returns its entries.
fn of_package(package: &Path, seal: &Seal) -> Result<usize, Fault> {
    let fault = |why: String| Fault::undone(format!("{}: {why}", package.display()));
    let opened = File::open(package).map_err(|why| Fault::input(format!("{}: {why}", package.display())))?;
    let store = MemoryStore::default();
    import(&store, opened, &Limits::default()).map_err(|why| fault(why.to_string()))?;
    let verified = store::verify(&store).map_err(|why| fault(why.to_string()))?;
    if let Some(misfit) = verified.misfits.first() {
        return Err(fault(misfit.to_string()));
    }
    let state = store.state(seal.statement.survey).map_err(|why| fault(why.to_string()))?;
    let issued = state.reports_issued().find(|r| r.payload.sha256 == seal.statement.sha256);
    let issued = issued.ok_or_else(|| fault("this report is not on record in it".to_owned()))?;
    let then = state.as_issued(&issued);
    let then = then.filter(|then| then.digest() == seal.statement.field_book).ok_or_else(|| {
        fault("the entries that the report was made from are not all in it, or were altered".to_owned())
    })?;
    Ok(then.len())
}
