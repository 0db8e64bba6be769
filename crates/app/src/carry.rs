//! Surveys as files: packed for the share sheet, a cable or a stick, and taken in from one, with no server in reach.
//!
//! The work is done beside the page, by the code that does it at the desk; here it is given what this browser keeps, and
//! what comes of it is kept.

use crate::exchange::{fetch_attachment, plan::attachment_named};
use crate::keep::Keep;
use js_sys::{Array, Function, Map, Object, Promise, Reflect};
use measure::System;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use survey::{Digest, Entry, SurveyId};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, MessageEvent, Worker};

/// A survey as one file.
#[derive(Clone)]
pub struct Packed {
    /// The file.
    pub file: Blob,
    /// How many entries are in it.
    pub entries: u64,
    /// How many attachments are in it.
    pub attachments: u64,
    /// How many attachments its entries name that are neither on this device nor on a server in reach.
    pub left_out: u32,
}

/// What came of taking a file in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unpacked {
    /// The surveys in it, each with how many entries were new here.
    pub surveys: Vec<(SurveyId, usize)>,
    /// How many attachments the file left out.
    pub lacking: u32,
}

/// How far a piece of work has come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Far {
    /// So many attachments are at hand, of so many.
    Gathered(usize, usize),
    /// So many bytes of them, or of the package, were read.
    Read(f64),
    /// So many attachments are kept, of so many.
    Kept(usize, usize),
}

/// Packs a survey as it is kept here. It stops where the work is not waited for any more.
///
/// # Errors
/// One sentence for the person who packs.
pub async fn pack(keep: &Keep, survey: SurveyId, far: impl Fn(Far) + Copy + 'static) -> Result<Packed, String> {
    let entries = keep.entries(survey).await.map_err(|fault| fault.to_string())?;
    let (lines, files) = (Array::new(), Map::new());
    entries.iter().for_each(|entry| {
        lines.push(&entry.line().into());
    });
    let named: Vec<Digest> = entries.iter().filter_map(attachment_named).collect();
    for (n, sha256) in named.iter().enumerate() {
        far(Far::Gathered(n, named.len()));
        // What is nowhere in reach is left out, and the package says so.
        if let Ok(file) = fetch_attachment(keep, *sha256).await {
            files.set(&sha256.to_string().into(), &file);
        }
    }
    let words = Array::of3(&survey.to_string().into(), &lines, &files);
    let done = ask("pack", &words, move |bytes| far(Far::Read(bytes))).await?;
    let figure = |name: &str| get(&done, name).as_f64().map_or(0, |figure| figure as u64);
    let file = get(&done, "package").dyn_into().map_err(|_| "The package was not made.".to_owned())?;
    let left_out = get(&done, "left_out").dyn_into::<Array>().map_or(0, |all| all.length());
    Ok(Packed { file, entries: figure("entries"), attachments: figure("attachments"), left_out })
}

/// Composes what the report says of a survey as it is kept here, as HTML whose every word is escaped.
///
/// # Errors
/// One sentence for the person who reads.
pub async fn compose(keep: &Keep, survey: SurveyId, system: System) -> Result<String, String> {
    let entries = keep.entries(survey).await.map_err(|fault| fault.to_string())?;
    let lines: Array = entries.iter().map(|entry| JsValue::from(entry.line())).collect();
    let units = if system == System::Customary { "customary" } else { "metric" };
    let done = ask("compose", &Array::of3(&survey.to_string().into(), &lines, &units.into()), |_| ()).await?;
    done.as_string().ok_or_else(|| "The report was not composed.".to_owned())
}

/// Takes in what a package holds, once all of it was found to fit; what is here already is passed over. Where the work is
/// not waited for any more it stops; surveys of the package that were taken by then stay, each whole or not at all.
///
/// # Errors
/// One sentence for the person who takes it in, that says what does not fit; nothing is taken then.
pub async fn unpack(keep: &Keep, file: &Blob, far: impl Fn(Far) + Copy + 'static) -> Result<Unpacked, String> {
    let done = ask("unpack", &Array::of1(file), move |bytes| far(Far::Read(bytes))).await?;
    let unread = || "The package could not be read.".to_owned();
    let files: Map = get(&done, "files").dyn_into().map_err(|_| unread())?;
    let mut surveys: BTreeMap<SurveyId, Vec<Entry>> = BTreeMap::new();
    for one in get(&done, "surveys").dyn_into::<Array>().map_err(|_| unread())?.iter() {
        let survey = get(&one, "survey").as_string().and_then(|text| text.parse().ok()).ok_or_else(unread)?;
        let lines: Array = get(&one, "lines").dyn_into().map_err(|_| unread())?;
        let entries = lines.iter().map(|line| Entry::read(&line.as_string().unwrap_or_default()));
        surveys.insert(survey, entries.collect::<Result<_, _>>().map_err(|fault| fault.to_string())?);
    }
    let mut unpacked = Unpacked {
        surveys: Vec::new(),
        lacking: get(&done, "lacking").dyn_into::<Array>().map_or(0, |all| all.length()),
    };
    for (survey, entries) in surveys {
        // Files first: an entry never names one that is not here.
        let named: Vec<Digest> = entries.iter().filter_map(attachment_named).collect();
        for (n, sha256) in named.iter().copied().enumerate() {
            far(Far::Kept(n, named.len()));
            if let Ok(file) = files.get(&sha256.to_string().into()).dyn_into::<Blob>() {
                let (found, _) = keep.put_attachment(survey, &file).await.map_err(|fault| fault.to_string())?;
                same(found, sha256)?;
            }
        }
        let new = keep.bring_in(survey, entries).await.map_err(|fault| fault.to_string())?;
        unpacked.surveys.push((survey, new.len()));
    }
    Ok(unpacked)
}

fn same(found: Digest, named: Digest) -> Result<(), String> {
    if found == named { Ok(()) } else { Err(format!("Attachment {named} is not what its name says.")) }
}

fn get(of: &JsValue, name: &str) -> JsValue {
    Reflect::get(of, &name.into()).unwrap_or(JsValue::UNDEFINED)
}

/// A worker that ends when it is not waited for any more.
struct Carrier(Worker);

impl Drop for Carrier {
    fn drop(&mut self) {
        self.0.terminate();
    }
}

/// Has the carrier do something; `far` is told how many bytes it has read.
async fn ask(act: &str, words: &Array, far: impl Fn(f64) + 'static) -> Result<JsValue, String> {
    let away = |thrown: JsValue| {
        let why = crate::keep::said(&thrown);
        format!("This browser cannot do it ({why}).")
    };
    let open: Function = get(&js_sys::global(), "openCarrier").dyn_into().map_err(away)?;
    let carrier = Carrier(open.call0(&JsValue::UNDEFINED).and_then(JsValue::dyn_into).map_err(away)?);
    let settle = Rc::new(RefCell::new(None::<Function>));
    let answer = Promise::new(&mut |kept, broken| {
        *settle.borrow_mut() = Some(kept);
        carrier.0.set_onerror(Some(&broken));
    });
    let heard =
        Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| match get(&event.data(), "far").as_f64() {
            Some(bytes) => far(bytes),
            None => {
                if let Some(kept) = settle.borrow_mut().take() {
                    let _ = kept.call1(&JsValue::UNDEFINED, &event.data());
                }
            }
        });
    carrier.0.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    let asked = Object::new();
    Reflect::set(&asked, &"act".into(), &act.into()).map_err(away)?;
    Reflect::set(&asked, &"words".into(), words).map_err(away)?;
    carrier.0.post_message(&asked).map_err(away)?;
    let answer = JsFuture::from(answer).await.map_err(away)?;
    match get(&answer, "fault").as_string() {
        Some(fault) => Err(crate::book::sentence(&fault)),
        None => Ok(get(&answer, "done")),
    }
}
