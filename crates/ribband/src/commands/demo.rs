//! `ribband demo`: the invented boat Marram.

use super::{print, print_json, serve};
use crate::arguments::{DemoArgs, ServeArgs};
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::json;
use std::path::Path;
use store::Store as _;

pub fn run(args: &DemoArgs, as_json: bool) -> Result<(), Fault> {
    // Whoever has a folder of that name has something in it, and an invented boat among real ones would be found later.
    if std::fs::read_dir(&args.into).is_ok_and(|mut names| names.next().is_some()) && !holds_only_her(&args.into) {
        let into = args.into.display();
        return Err(Fault::input(format!(
            "--into {into}: there is something in this folder; accepted is a new or an empty one"
        )));
    }
    let desk = Desk::open_or_make(Some(&args.into))?;
    let marram = demo::marram().map_err(Fault::undone)?;
    for picture in &marram.attachments {
        desk.store().put_attachment(&mut &picture.bytes[..], Some(&picture.digest)).map_err(Fault::undone)?;
    }
    let taken = desk.store().take_all(&marram.entries).map_err(Fault::undone)?;
    if as_json {
        print_json(
            &json!({"survey": marram.survey.to_string(), "entries_new": taken.new, "entries_known": taken.known,
            "folder": args.into.display().to_string()}),
        )?;
    } else {
        print(&format!(
            "Marram, an invented boat, is in {}: {} entries, {} of them new.",
            args.into.display(),
            marram.entries.len(),
            taken.new
        ))?;
    }
    if args.serve { serve::run(desk, ServeArgs::on(args.port)) } else { Ok(()) }
}

/// Tells whether a folder is the demo's own from an earlier time: a field book in which no other survey is.
fn holds_only_her(folder: &Path) -> bool {
    // Opening makes a field book where there is none, so look first.
    if !folder.join("field-book.sqlite").exists() {
        return false;
    }
    let surveys = Desk::open_to_read(Some(folder)).and_then(|desk| desk.surveys());
    let marram = demo::marram().map(|marram| marram.survey);
    matches!((surveys.as_deref(), marram), (Ok([one]), Ok(hers)) if *one == hers)
}
