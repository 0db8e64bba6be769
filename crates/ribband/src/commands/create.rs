//! `ribband create`.

use super::{enter, print, print_json};
use crate::arguments::CreateArgs;
use crate::desk::{Desk, Planned};
use crate::fault::Fault;
use serde_json::json;
use std::fs::File;
use std::path::Path;
use store::package::{Limits, import};
use survey::payload::Payload;
use survey::{SurveyId, carried_over};

pub fn run(desk: &mut Desk, args: CreateArgs, as_json: bool) -> Result<(), Fault> {
    let author = desk.author(args.author.as_deref())?;
    let mut brief = args.brief;
    if brief.surveyor.is_empty() {
        brief.surveyor.clone_from(&author);
    }
    let mut first = enter::brief(&brief)?;
    let name = args.vessel.name.trim().to_owned();
    let (payloads, name, carried) = match &args.after {
        None if name.is_empty() => {
            return Err(Fault::input(
                "--name is wanting: the boat's name; or --after SURVEY, to begin from her last survey",
            ));
        }
        None => (vec![first, enter::vessel(&args.vessel)?], name, 0),
        Some(_) if !name.is_empty() => {
            return Err(Fault::input(
                "--name and --after do not go together: her particulars come from her last survey, and are amended afterwards",
            ));
        }
        Some(after) => {
            let after = last_survey(desk, after)?;
            let last = desk.state(after)?;
            let name = last.vessel().map(|v| v.payload.name.clone()).unwrap_or_default();
            if let Payload::Brief(brief) = &mut first.payload {
                brief.after = Some(after);
                // An invented boat stays one, and says so in her next report too.
                brief.invented = last.brief().and_then(|last| last.payload.invented.clone());
            }
            let over = carried_over(&last);
            let carried = over.iter().filter(|payload| matches!(payload, Payload::Recommendation(_))).count();
            let over = over.into_iter().map(|payload| Planned { id: None, payload });
            (std::iter::once(first).chain(over).collect(), name, carried)
        }
    };
    let survey = desk.new_survey();
    let entries = desk.write(survey, &author, &payloads)?;
    if as_json {
        let ids: Vec<_> = entries.iter().map(|entry| entry.id.to_string()).collect();
        return print_json(&json!({"survey": survey.to_string(), "entries": ids, "recommendations_carried": carried}));
    }
    print(&format!("Survey {} of {name} is open.", survey.short()))?;
    if carried > 0 {
        print(&format!(
            "Recommendations carried over: {carried}. Say what became of each with `ribband enter follow-up`; what was seen then is not carried over."
        ))?;
    }
    Ok(())
}

/// Returns the survey named: one of the folder, or the only one of a package, which is taken in first.
fn last_survey(desk: &Desk, named: &str) -> Result<SurveyId, Fault> {
    let path = Path::new(named);
    if !path.is_file() {
        return desk.choose(Some(named));
    }
    let opened = File::open(path).map_err(|why| Fault::input(format!("--after {named}: {why}")))?;
    let taken = import(desk.store(), opened, &Limits::default())
        .map_err(|fault| Fault::undone(format!("--after {named}: {fault}")))?;
    match taken.surveys.as_slice() {
        [one] => Ok(*one),
        all => Err(Fault::input(format!(
            "--after {named}: the package holds {} surveys and is taken in; name one of them",
            all.len()
        ))),
    }
}
