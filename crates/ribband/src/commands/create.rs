//! `ribband create`.

use super::{enter, print, print_json};
use crate::arguments::CreateArgs;
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::json;

pub fn run(desk: &mut Desk, args: CreateArgs, as_json: bool) -> Result<(), Fault> {
    let author = desk.author(args.author.as_deref())?;
    let mut brief = args.brief;
    if brief.surveyor.is_empty() {
        brief.surveyor.clone_from(&author);
    }
    let payloads = [enter::brief(&brief)?, enter::vessel(&args.vessel)?];
    let survey = desk.new_survey();
    let entries = desk.write(survey, &author, &payloads)?;
    if as_json {
        let ids: Vec<_> = entries.iter().map(|entry| entry.id.to_string()).collect();
        return print_json(&json!({"survey": survey.to_string(), "entries": ids}));
    }
    print(&format!("Survey {} of {} is open.", survey.short(), args.vessel.name))
}
