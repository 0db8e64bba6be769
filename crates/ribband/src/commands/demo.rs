//! `ribband demo`: the invented boat Marram.

use super::{print, print_json, serve};
use crate::arguments::DemoArgs;
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::json;
use store::Store as _;

pub fn run(args: &DemoArgs, as_json: bool) -> Result<(), Fault> {
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
    if args.serve { serve::run(desk, args.port) } else { Ok(()) }
}
