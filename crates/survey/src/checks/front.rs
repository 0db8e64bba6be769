//! What a report cannot do without: brief, boat, conditions, surveyor, value where asked.

use super::{Asked, Found, Rule, Weight};

pub(super) const RULES: &[Rule] = &[
    Rule {
        name: "brief-present",
        asks: "The brief says what the survey is for and for whom.",
        reason: "Without purpose and client nobody can say how far the report may be relied on.",
        weight: Weight::Blocks,
        check: brief,
    },
    Rule {
        name: "surveyor-named",
        asks: "The brief names the surveyor who signs.",
        reason: "An opinion is somebody's.",
        weight: Weight::Blocks,
        check: surveyor,
    },
    Rule {
        name: "vessel-present",
        asks: "The boat is described so that she cannot be taken for another.",
        reason: "A report must name what it is about: a name and one of length, year, builder or number.",
        weight: Weight::Blocks,
        check: vessel,
    },
    Rule {
        name: "conditions-present",
        asks: "Each day of the survey has its date, place and conditions.",
        reason: "What could be seen depends on where she lay, the light, the weather and how she was cleaned.",
        weight: Weight::Blocks,
        check: conditions,
    },
    Rule {
        name: "value-given-when-asked",
        asks: "An opinion of value is given where the brief asks for one.",
        reason: "The client asked for it.",
        weight: Weight::Blocks,
        check: value,
    },
    Rule {
        name: "value-has-comparables",
        asks: "An opinion of value names the boats it was compared with.",
        reason: "An opinion without comparables is only an assertion.",
        weight: Weight::Advises,
        check: comparables,
    },
];

fn brief(asked: &Asked<'_>) -> Vec<Found> {
    match asked.state.brief() {
        None => vec![Found::new("There is no brief.").wants("brief")],
        Some(view) => {
            let mut out = Vec::new();
            if view.payload.purpose.trim().is_empty() {
                out.push(Found::new("The brief does not say what the survey is for.").at(view.id()).field("purpose"));
            }
            if view.payload.client.trim().is_empty() && view.payload.addressees.iter().all(|a| a.trim().is_empty()) {
                out.push(Found::new("The brief does not say for whom the report is.").at(view.id()).field("client"));
            }
            out
        }
    }
}

fn surveyor(asked: &Asked<'_>) -> Vec<Found> {
    match asked.state.brief() {
        Some(view) if view.payload.surveyor.trim().is_empty() => {
            vec![Found::new("The brief does not name the surveyor.").at(view.id()).field("surveyor")]
        }
        _ => Vec::new(),
    }
}

fn vessel(asked: &Asked<'_>) -> Vec<Found> {
    let Some(view) = asked.state.vessel() else {
        return vec![Found::new("Nothing is recorded of the boat herself.").wants("vessel")];
    };
    let v = view.payload;
    let known = v.length_mm.is_some() || v.built_year.is_some() || v.builder.is_some() || !v.numbers.is_empty();
    if v.name.trim().is_empty() {
        vec![Found::new("The boat has no name in the record.").at(view.id()).field("name")]
    } else if !known {
        let words = format!("{} has neither length, year, builder nor number in the record.", v.name.trim());
        vec![Found::new(words).at(view.id()).field("length_mm")]
    } else {
        Vec::new()
    }
}

fn conditions(asked: &Asked<'_>) -> Vec<Found> {
    let mut out: Vec<Found> = Vec::new();
    for view in asked.state.conditions() {
        if view.payload.date.is_none() {
            out.push(Found::new("A day of the survey has no date.").at(view.id()).field("date"));
        }
        if view.payload.place.trim().is_empty() {
            out.push(Found::new("A day of the survey has no place.").at(view.id()).field("place"));
        }
    }
    if asked.state.conditions().next().is_none() {
        out.push(Found::new("No day of the survey is recorded: date, place, weather and light.").wants("conditions"));
    }
    out
}

fn value(asked: &Asked<'_>) -> Vec<Found> {
    let wanted = asked.state.brief().is_some_and(|view| view.payload.value_asked);
    if wanted && asked.state.opinion_of_value().is_none() {
        return vec![Found::new("The brief asks for an opinion of value; there is none.").wants("opinion_of_value")];
    }
    Vec::new()
}

fn comparables(asked: &Asked<'_>) -> Vec<Found> {
    match asked.state.opinion_of_value() {
        Some(view) if asked.state.comparables().next().is_none() => {
            vec![Found::new("The opinion of value rests on no comparable.").at(view.id()).wants("comparable")]
        }
        _ => Vec::new(),
    }
}
