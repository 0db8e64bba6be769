//! Title page, particulars, statement.

use super::waters::borers_there;
use super::wording::{Wording, day, ended, listed, sentence_case};
use crate::{Document, Person, Row, Said, Standing, Statement};
use survey::State;

/// Puts in what the title page says.
pub(super) fn put(state: &State, document: &mut Document) {
    let brief = state.brief();
    let brief = brief.as_ref().map(|view| view.payload);
    let vessel = state.vessel();
    let vessel = vessel.as_ref().map(|view| view.payload);
    let mut rows = Vec::new();
    let mut row = |label: &str, value: String| {
        if !value.trim().is_empty() {
            rows.push(Row::new(label, sentence_case(value.trim())));
        }
    };
    if let Some(b) = brief {
        document.title = sentence_case(&format!("{} survey", b.purpose.trim().trim_end_matches(" survey")));
        row("Prepared for", b.client.clone());
        row("Addressed to", listed(&b.addressees));
        row("Instructed by", b.instructions_from.clone().unwrap_or_default());
        row("Use intended", b.intended_use.clone());
        row("Waters intended", b.intended_waters.clone());
        row("Borers there", borers_there(&b.intended_waters).unwrap_or_default());
        if !b.surveyor.trim().is_empty() {
            let qualification = b.qualification.clone().unwrap_or_default();
            document.front.surveyor = Some(Person { name: b.surveyor.clone(), qualification });
        }
        document.front.invented = b.invented.clone().unwrap_or_default();
    }
    let mut places: Vec<String> = Vec::new();
    for c in state.conditions() {
        if !c.payload.place.trim().is_empty() && !places.contains(&c.payload.place) {
            places.push(c.payload.place.clone());
        }
    }
    row("Seen at", places.join("; "));
    document.front.rows = rows;
    document.surveyed = surveyed(state);
    document.reference = state.survey().to_string();
    if let Some(v) = vessel {
        document.vessel_name = v.name.clone();
        let mut parts: Vec<String> = Vec::new();
        // `carvel` before a type that already says so would stammer.
        let construction = v
            .construction
            .map(|c| c.called(survey::language_of(state)))
            .filter(|c| !v.vessel_type.contains(c.as_str()));
        parts.extend(construction);
        if !v.vessel_type.trim().is_empty() {
            parts.push(v.vessel_type.clone());
        }
        let kind = parts.join(" ");
        document.front.subtitle = match (kind.is_empty(), v.built_year) {
            (false, Some(year)) => format!("{kind}, built {year}"),
            (true, Some(year)) => format!("built {year}"),
            (_, None) => kind,
        };
    }
}

/// Says that nothing is recorded, when that is so.
pub(super) fn notice(state: &State) -> String {
    let said = state.observations().next().is_some()
        || state.not_seen().next().is_some()
        || state.findings().next().is_some()
        || state.reckonings().next().is_some();
    match (state.is_empty(), said) {
        (true, _) => "Nothing is recorded in this survey: there is no brief, no boat and no observation.".to_owned(),
        (false, false) => "Nothing is recorded yet of what was seen: there is no observation, nothing listed as not seen, and no finding. Nothing can be concluded from this report.".to_owned(),
        (false, true) => String::new(),
    }
}

/// Writes the days of the survey: one, or several, those of one month together.
fn surveyed(state: &State) -> String {
    let mut days: Vec<_> = state.conditions().filter_map(|c| c.payload.date).collect();
    days.sort();
    days.dedup();
    match days.as_slice() {
        [] => String::new(),
        [one] => day(*one),
        many => {
            // `11 and 12 May 2026`: month and year are said once for the days they belong to.
            let mut groups: Vec<Vec<jiff::civil::Date>> = Vec::new();
            for d in many {
                match groups.last_mut().filter(|g| g[0].year() == d.year() && g[0].month() == d.month()) {
                    Some(group) => group.push(*d),
                    None => groups.push(vec![*d]),
                }
            }
            let said = groups.iter().filter_map(|group| {
                let (last, before) = group.split_last()?;
                let mut words: Vec<String> = before.iter().map(|d| d.day().to_string()).collect();
                words.push(day(*last));
                Some(listed(&words))
            });
            listed(&said.collect::<Vec<_>>())
        }
    }
}

/// Returns the boat's particulars.
pub(super) fn particulars(state: &State, wording: &Wording) -> Vec<Row> {
    let Some(view) = state.vessel() else { return Vec::new() };
    let v = view.payload;
    let mut rows = Vec::new();
    let mut row = |label: &str, value: Option<String>| {
        rows.extend(value.filter(|v| !v.trim().is_empty()).map(|v| Row::new(label, sentence_case(v.trim()))));
    };
    let length = |mm: Option<f64>| mm.map(|mm| wording.length(mm));
    row("Name", Some(v.name.clone()));
    row("Type", Some(v.vessel_type.clone()));
    row("Construction", v.construction.map(|c| c.called(wording.language)));
    row("Built", v.built_year.map(|year| year.to_string()));
    row("Builder", v.builder.clone());
    row("Numbers", Some(v.numbers.join(", ")));
    row("Length over all", length(v.length_mm));
    row("Waterline length", length(v.waterline_length_mm));
    row("Beam", length(v.beam_mm));
    row("Draft", length(v.draft_mm));
    row("Dimensions from", v.dimensions_from.clone());
    row("Displacement", v.displacement_kg.map(|kg| wording.mass(kg)));
    let planking = [v.planking_species.clone(), length(v.planking_thickness_mm)];
    row("Planking", Some(planking.into_iter().flatten().collect::<Vec<_>>().join(", ")));
    row("Frames", v.frame_species.clone());
    row("Backbone", v.backbone_species.clone());
    row("Plank fastenings", v.plank_fastening.clone());
    row("Keel bolts", v.keel_bolts.clone());
    row("Stern", v.stern.clone());
    row("Rig", v.rig.clone());
    row("Engine", v.engine.clone());
    rows
}

/// Returns her history: none of it is the surveyor's own knowledge.
pub(super) fn history(state: &State) -> Vec<Said> {
    let Some(view) = state.vessel() else { return Vec::new() };
    let one = |account: survey::payload::Account| {
        let when = account.when.trim();
        let words = if when.is_empty() {
            account.said.trim().to_owned()
        } else {
            format!("{}: {}", sentence_case(when), account.said.trim())
        };
        // Whose word it is stands before it.
        Said::hearsay(sentence_case(account.who.trim()), words)
    };
    view.payload.told().into_iter().map(one).collect()
}

/// Returns the surveyor's statement, when the record says who the surveyor is.
pub(super) fn statement(state: &State, standing: &Standing) -> Option<Statement> {
    let view = state.brief()?;
    let b = view.payload;
    if b.surveyor.trim().is_empty() {
        return None;
    }
    let mut words = vec![Said::opinion(
        "This report describes the vessel as she was found on the days named. It keeps apart what was seen, what was \
         told, what was reckoned and what I conclude.",
    )];
    let readers = if b.addressees.is_empty() { b.client.clone() } else { listed(&b.addressees) };
    if !readers.trim().is_empty() {
        words.push(Said::opinion(ended(&format!(
            "It is addressed to {readers}, for the purpose named: {}",
            b.purpose.trim()
        ))));
    }
    words.extend(
        b.interests.as_ref().map(|interests| Said::opinion(ended(&format!("Interests disclosed: {interests}")))),
    );
    words.extend(b.terms.as_ref().map(|terms| Said::opinion(ended(&format!("Terms: {terms}")))));
    let place_and_date = match standing {
        Standing::Issued { date, .. } => date.clone(),
        Standing::Draft => String::new(),
    };
    let qualification = b.qualification.clone().unwrap_or_default();
    Some(Statement { words, signed_by: Person { name: b.surveyor.clone(), qualification }, place_and_date })
}
