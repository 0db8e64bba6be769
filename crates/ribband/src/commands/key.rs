//! `ribband key`: the public key, to be given away.

use super::{print, print_json};
use crate::arguments::KeyArgs;
use crate::desk::Desk;
use crate::fault::Fault;
use crate::key::surveyors_key;
use serde_json::json;

pub fn run(desk: &mut Desk, args: &KeyArgs, as_json: bool) -> Result<(), Fault> {
    let whose = desk.author(args.author.as_deref())?;
    let public = surveyors_key(desk.folder())?.public();
    if let Some(out) = &args.out {
        std::fs::write(out, public.text(&whose))
            .map_err(|why| Fault::undone(format!("{} cannot be written ({why})", out.display())))?;
    }
    if as_json {
        return print_json(&json!({"public_key": public.to_string(), "of": whose}));
    }
    match &args.out {
        Some(out) => print(&format!(
            "{}: the public key of {whose}. Hand it over by another way than the report.",
            out.display()
        )),
        None => print(public.text(&whose).trim_end()),
    }
}
