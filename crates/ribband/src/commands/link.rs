//! `ribband link`: a link that opens one report, for its client.

use super::{print, print_json};
use crate::arguments::LinkArgs;
use crate::desk::{Desk, Planned};
use crate::fault::Fault;
use crate::time::today;
use jiff::ToSpan as _;
use serde_json::json;
use survey::Digest;
use survey::payload::ClientLink;

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: &LinkArgs, as_json: bool) -> Result<(), Fault> {
    let author = desk.author(args.author.as_deref())?;
    let survey = desk.choose(args.of.as_deref().or(chosen))?;
    let state = desk.state(survey)?;
    let wanted = |version: u32| args.version.is_none_or(|wanted| wanted == version);
    let report =
        state.reports_issued().filter(|report| wanted(report.payload.version)).max_by_key(|r| r.payload.version);
    let Some(report) = report else {
        return Err(match args.version {
            Some(version) => Fault::input(format!("--version {version}: no such version of this report went out")),
            None => Fault::input("no report of this survey went out yet; `ribband issue` issues it"),
        });
    };
    let until = match args.until {
        Some(until) if until < today() => {
            return Err(Fault::input(format!("--until {until}: that day is over; accepted is today or a later day")));
        }
        Some(until) => until,
        None => today().checked_add(30.days()).map_err(Fault::undone)?,
    };
    let mut random = [0; 32];
    getrandom::fill(&mut random).map_err(Fault::undone)?;
    let token = ClientLink::token(random);
    let token_sha256 = Digest::of(token.as_bytes());
    let link = ClientLink { report: report.id(), token_sha256, to: args.to.trim().to_owned(), until };
    let version = report.payload.version;
    let entries = desk.write(survey, &author, &[Planned { id: None, payload: link.into() }])?;
    let entry = entries.first().map(|entry| entry.id.to_string()).unwrap_or_default();
    let path = ClientLink::path(&token);
    let address = args.clients.as_ref().map(|clients| format!("{clients}{path}"));
    if as_json {
        return print_json(&json!({
            "survey": survey.to_string(), "entry": entry, "version": version, "to": args.to.trim(),
            "until": until.to_string(), "path": path, "address": address,
        }));
    }
    print(&address.clone().unwrap_or_else(|| format!("http://localhost:7340{path}")))?;
    print(&format!("It opens version {version} and nothing else, until the end of {until}. It is shown this once."))?;
    if address.is_none() {
        print("Only browsers of this machine can open it: for a client, serve with --clients (docs/client-links.md).")?;
    }
    print(&format!("To revoke it: ribband amend {entry} --withdraw --why REASON"))
}
