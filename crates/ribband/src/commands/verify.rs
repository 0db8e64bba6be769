//! `ribband verify`.

use super::{print, print_json};
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::json;

pub fn run(desk: &mut Desk, chosen: Option<&str>, as_json: bool) -> Result<(), Fault> {
    // All surveys of the folder share their attachments, so they are verified together; a survey that is named only
    // picks whose digest is printed.
    let verified = store::verify(desk.store()).map_err(Fault::undone)?;
    let surveys = match chosen {
        Some(_) => vec![desk.choose(chosen)?],
        None => desk.surveys()?,
    };
    let mut digests = Vec::new();
    for survey in surveys {
        // A survey with a damaged entry has no digest; the misfit itself is told below.
        let digest = desk.state(survey).map(|state| state.digest().to_string()).ok();
        digests.push((survey, digest));
    }
    let misfits: Vec<String> = verified.misfits.iter().map(ToString::to_string).collect();
    if as_json {
        print_json(&json!({
            "fits": verified.fits(),
            "entries": verified.entries,
            "attachments": verified.attachments,
            "misfits": misfits,
            "surveys": digests.iter().map(|(survey, digest)| json!({
                "survey": survey.to_string(), "field_book": digest,
            })).collect::<Vec<_>>(),
        }))?;
    } else {
        print(&format!("{} entries and {} attachments were hashed again.", verified.entries, verified.attachments))?;
        for (survey, digest) in &digests {
            let digest = digest.as_deref().unwrap_or("none, because an entry is damaged");
            print(&format!("survey {}: digest of the field book {digest}", survey.short()))?;
        }
        for misfit in &misfits {
            print(misfit)?;
        }
    }
    if verified.fits() {
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
