//! What the app does beside the page, in a worker: packages made and read, and the report composed to be read.
//!
//! For: doing in the browser what `store::package` and `faircopy` do at the desk, by the same code, without holding
//! photographs in memory: they stay blobs, which the browser keeps where it likes. Not for: keeping anything (the app
//! does), or for the page itself, for reading a blob waits, and only a worker may wait.

#![cfg(target_arch = "wasm32")]

mod blob;
mod blob_store;

use blob::{BlobRead, BlobWrite};
use blob_store::BlobStore;
use js_sys::{Array, Map, Object, Reflect};
use store::package::{ExportOptions, Limits, export, import};
use store::{Position, Store as _};
use survey::{Entry, SurveyId};
use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::Blob;

/// Packs a survey: its lines (texts), and its attachments (blobs by digest). Returns `{package, entries, attachments,
/// left_out}`: a blob, two numbers, and the digests of attachments that entries name and that were not given.
///
/// # Errors
/// One sentence, thrown as text.
#[wasm_bindgen]
pub fn pack(survey: &str, lines: &Array, files: &Map) -> Result<Object, JsValue> {
    let survey: SurveyId = survey.parse().map_err(thrown)?;
    let store = BlobStore::default();
    for (sha256, file) in files.entries().into_iter().flatten().filter_map(pair) {
        store.has(sha256.parse().map_err(thrown)?, file);
    }
    let entries = lines.iter().map(|line| Entry::read(&line.as_string().unwrap_or_default()));
    let entries = entries.collect::<Result<Vec<_>, _>>().map_err(thrown)?;
    store.take_all(&entries).map_err(thrown)?;
    let mut to = BlobWrite::default();
    let exported = export(&store, &[survey], &ExportOptions::default(), &mut to).map_err(thrown)?;
    let left_out: Array = exported.left_out.iter().map(|sha256| JsValue::from(sha256.to_string())).collect();
    object([
        ("package", to.finish("application/zip")?.into()),
        ("entries", (exported.entries as f64).into()),
        ("attachments", (exported.attachments as f64).into()),
        ("left_out", left_out.into()),
    ])
}

/// Reads a package: checks all of it, then returns `{surveys: [{survey, lines}], files, lacking}`: texts, blobs by digest,
/// and the digests of attachments that it names and left out.
///
/// # Errors
/// One sentence, thrown as text, that says what in the package does not fit.
#[wasm_bindgen]
pub fn unpack(package: Blob) -> Result<Object, JsValue> {
    let store = BlobStore::default();
    let imported = import(&store, BlobRead::new(package), &Limits::default()).map_err(thrown)?;
    let surveys = Array::new();
    for survey in imported.surveys {
        let lines = Array::new();
        let mut after = Position::START;
        loop {
            let batch = store.kept_since(Some(survey), after, 500).map_err(thrown)?;
            let Some(last) = batch.last() else { break };
            after = last.position;
            for kept in batch {
                lines.push(&String::from_utf8_lossy(&kept.line).as_ref().into());
            }
        }
        let one = object([("survey", survey.to_string().into()), ("lines", lines.into())])?;
        surveys.push(&one);
    }
    let lacking: Array = imported.lacking.iter().map(|sha256| JsValue::from(sha256.to_string())).collect();
    object([("surveys", surveys.into()), ("files", store.files().into()), ("lacking", lacking.into())])
}

/// Composes what the report of a survey says, from its lines (texts), as HTML; lengths are given in `units` first, `metric`
/// or `customary`.
///
/// # Errors
/// One sentence, thrown as text.
#[wasm_bindgen]
pub fn compose(survey: &str, lines: &Array, units: &str) -> Result<String, JsValue> {
    let survey: SurveyId = survey.parse().map_err(thrown)?;
    let entries = lines.iter().map(|line| Entry::read(&line.as_string().unwrap_or_default()));
    let entries = entries.collect::<Result<Vec<_>, _>>().map_err(thrown)?;
    let first = if units == "customary" { measure::System::Customary } else { measure::System::Metric };
    let extras = faircopy::Extras { first, ..faircopy::Extras::default() };
    Ok(faircopy::page(&faircopy::compose(&survey::State::fold(survey, entries), &extras)))
}

fn pair(pair: JsValue) -> Option<(String, Blob)> {
    let pair: Array = pair.dyn_into().ok()?;
    Some((pair.get(0).as_string()?, pair.get(1).dyn_into().ok()?))
}

fn object<const N: usize>(fields: [(&str, JsValue); N]) -> Result<Object, JsValue> {
    let object = Object::new();
    for (name, value) in fields {
        Reflect::set(&object, &name.into(), &value)?;
    }
    Ok(object)
}

fn thrown(fault: impl std::fmt::Display) -> JsValue {
    fault.to_string().into()
}
