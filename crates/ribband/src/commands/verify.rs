//! `ribband verify`.

use super::{print, print_json};
use crate::desk::Desk;
use crate::fault::Fault;
use seal::{PublicKey, Seal, Statement};
use serde_json::json;
use survey::payload::ReportIssued;
use survey::{State, View};

pub fn run(desk: &mut Desk, chosen: Option<&str>, as_json: bool) -> Result<(), Fault> {
    // All surveys of the folder share their attachments, so they are verified together; a survey that is named only
    // picks whose digest is printed.
    let verified = store::verify(desk.store()).map_err(Fault::undone)?;
    let surveys = match chosen {
        Some(_) => vec![desk.choose(chosen)?],
        None => desk.surveys()?,
    };
    let mut misfits: Vec<String> = verified.misfits.iter().map(ToString::to_string).collect();
    let mut digests = Vec::new();
    let mut reports = 0;
    for survey in surveys {
        // A survey with a damaged entry has no digest; the misfit itself is told below.
        let state = desk.state(survey).ok();
        if let Some(state) = &state {
            for issued in state.reports_issued().filter(|r| r.payload.issue.is_some()) {
                reports += 1;
                misfits.extend(misfit_of(state, &issued));
            }
        }
        digests.push((survey, state.map(|state| state.digest().to_string())));
    }
    let fits = misfits.is_empty();
    if as_json {
        print_json(&json!({
            "fits": fits,
            "reports_issued": reports,
            "entries": verified.entries,
            "attachments": verified.attachments,
            "misfits": misfits,
            "surveys": digests.iter().map(|(survey, digest)| json!({
                "survey": survey.to_string(), "field_book": digest,
            })).collect::<Vec<_>>(),
        }))?;
    } else {
        print(&format!("{} entries and {} attachments were hashed again.", verified.entries, verified.attachments))?;
        if reports > 0 {
            print(&format!("Signed reports held against the field book: {reports}."))?;
        }
        for (survey, digest) in &digests {
            let digest = digest.as_deref().unwrap_or("none, because an entry is damaged");
            print(&format!("survey {}: digest of the field book {digest}", survey.short()))?;
        }
        for misfit in &misfits {
            print(misfit)?;
        }
    }
    if fits {
        if !as_json {
            print("All fits.")?;
        }
        return Ok(());
    }
    Err(Fault::undone(format!(
        "{} {} not fit; restore from a package or a copy, and do not write here before",
        misfits.len(),
        if misfits.len() == 1 { "thing does" } else { "things do" }
    )))
}

/// Says what does not fit of a report that went out signed: its field book at issue, or its signature. A letter that went
/// out without one is held against nothing.
fn misfit_of(state: &State, issued: &View<'_, ReportIssued>) -> Option<String> {
    let r = issued.payload;
    let issue = r.issue.as_ref()?;
    let of = format!("Survey {}, version {} of the report", state.survey().short(), r.version);
    if state.as_issued(issued).is_none() {
        return Some(format!("{of}: the entries it was made from are not all here, or were altered."));
    }
    let attachment = state.attachments_of(issued.id()).find(|a| a.payload.sha256 == r.sha256)?;
    let statement = Statement {
        form: seal::FORM,
        survey: state.survey(),
        version: r.version,
        date: r.date,
        signed_by: issue.signed_by.clone(),
        field_book: r.field_book,
        sha256: r.sha256,
        bytes: attachment.payload.bytes,
    };
    let seal = Seal { statement, public_key: issue.public_key.clone(), signature: issue.signature.clone() };
    let fits = issue.public_key.parse::<PublicKey>().and_then(|key| seal.check_signature(&key));
    fits.err().map(|why| format!("{of}: {why}."))
}
