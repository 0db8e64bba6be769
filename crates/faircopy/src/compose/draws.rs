//! Fastenings drawn by a plan: what was picked, what was found, and just what that supports saying of the rest.

use super::numbers::Numbers;
use super::wording::{Wording, sentence_case};
use crate::{Column, PlannedDraw, Table};
use fastening::draw::posterior::Prior;
use fastening::draw::result::{Choice, Draw, result, together};
use fastening::draw::zone::Zone;
use survey::payload::Observation;
use survey::{DrawPlan, EntryId, Reading, State, Verdict, draw_plans};

/// Returns every draw plan of which something was drawn.
pub(super) fn draws(state: &State, numbers: &Numbers<'_>, wording: &Wording) -> Vec<PlannedDraw> {
    let begun = draw_plans(state)
        .into_iter()
        .filter(|plan| plan.zones.iter().any(|zone| zone.picks.iter().any(|pick| pick.drawn.is_some())));
    begun.map(|plan| one(state, &plan, numbers, wording)).collect()
}

fn one(state: &State, plan: &DrawPlan, numbers: &Numbers<'_>, wording: &Wording) -> PlannedDraw {
    let (drawn, bad) = plan.counted();
    let seed = plan.seed.map(|seed| format!(", by lot from seed {seed}")).unwrap_or_default();
    let were = if drawn == 1 { "was" } else { "were" };
    let mut words = vec![format!(
        "Of {} fastenings {} were picked beforehand{seed}. {drawn} {were} drawn, {bad} of them bad: wasted, broken, or turning \
         without bite.",
        plan.population,
        plan.to_draw()
    )];
    words.extend(ended_how(plan).map(str::to_owned));
    words.extend(supported(plan));
    PlannedDraw {
        reckoning: numbers.reckonings.get(&plan.id).copied().unwrap_or(0),
        words,
        table: table(state, plan, numbers, wording),
    }
}

fn ended_how(plan: &DrawPlan) -> Option<&'static str> {
    match plan.verdict() {
        Verdict::Acceptable => {
            Some("The drawing stopped where the test settled beforehand called the share of bad acceptable.")
        }
        Verdict::NotAcceptable => {
            Some("The drawing stopped where the test settled beforehand called the share of bad not acceptable.")
        }
        Verdict::DrawAnother => Some("The draw is not finished: fewer were drawn than were planned."),
        Verdict::AllDrawn => None,
    }
}

/// What the draw supports saying, zone by zone and together; nothing of zones of which none was drawn but that.
fn supported(plan: &DrawPlan) -> Vec<String> {
    let confidence = plan.confidence_percent / 100.0;
    let Ok(prior) = Prior::new(1.0, 1.0) else { return Vec::new() };
    let draw = |population, (drawn, bad): (u64, u64)| Draw { population, drawn, bad, choice: Choice::Random };
    let named: Option<Vec<(Zone, Draw)>> = plan
        .zones
        .iter()
        .map(|zone| Some((Zone::named(zone.zone.as_deref()?).ok()?, draw(zone.population, zone.counted()))))
        .collect();
    match named {
        Some(zones) if zones.len() > 1 => {
            together(&zones, confidence, prior).map(|all| all.statements).unwrap_or_default()
        }
        _ => result(&draw(plan.population, plan.counted()), confidence, prior)
            .map(|said| vec![said.statement])
            .unwrap_or_default(),
    }
}

fn table(state: &State, plan: &DrawPlan, numbers: &Numbers<'_>, wording: &Wording) -> Table {
    let observed = |id: EntryId| state.find::<Observation>(id);
    let mut rows = Vec::new();
    for zone in &plan.zones {
        let name = zone
            .zone
            .as_deref()
            .map(|name| Zone::named(name).map_or_else(|_| name.replace('-', " "), |zone| zone.in_words().to_owned()));
        for pick in zone.shown() {
            let place =
                pick.place.as_ref().map_or_else(|| format!("no. {} of the count", pick.number), ToString::to_string);
            let substitute = if pick.substitute { " (substitute)" } else { "" };
            let (number, found, new, now) = match pick.drawn {
                None => (String::new(), "not drawn".to_owned(), String::new(), String::new()),
                Some((id, condition)) => {
                    let length = |mm: Option<f64>| mm.map(|mm| wording.length(mm)).unwrap_or_default();
                    let (new, now) = match observed(id).map(|o| o.payload.reading.clone()) {
                        Some(Reading::Draw { original_mm, measured_mm, .. }) => {
                            (length(original_mm), length(measured_mm))
                        }
                        _ => Default::default(),
                    };
                    let number = numbers.observations.get(&id).map(u32::to_string).unwrap_or_default();
                    (number, condition.to_string(), new, now)
                }
            };
            let zone = name.as_deref().map(sentence_case).unwrap_or_default();
            rows.push(vec![number, zone, format!("{}{substitute}", sentence_case(&place)), found, new, now]);
        }
    }
    Table {
        title: "Fastenings picked, and what was found".to_owned(),
        columns: vec![
            Column::figures("No.", 0.5),
            Column::words("Zone", 1.3),
            Column::words("Place", 2.7),
            Column::words("Found", 1.2),
            Column::figures("As new", 1.2),
            Column::figures("Least now", 1.2),
        ],
        rows,
        note: "Numbers are those of the observations. One that would not draw gave way to the next substitute, and is counted \
               neither as good nor as bad."
            .to_owned(),
    }
}
