//! The survey before and this one, side by side.

use super::numbers::Numbers;
use super::wording::{day, figure, listed, sentence_case};
use crate::{Column, Table, ThenAndNow};
use survey::payload::Condition;
use survey::{Cover, State, Trend, members_then_and_now, trends};

/// Returns what changed on the boat between an earlier survey and this one.
pub(super) fn then_and_now(before: &State, state: &State, numbers: &Numbers<'_>) -> ThenAndNow {
    let days = |state: &State| {
        let mut days: Vec<_> = state.conditions().filter_map(|c| c.payload.date).collect();
        days.sort();
        days.dedup();
        listed(&days.into_iter().map(day).collect::<Vec<_>>())
    };
    let when = |days: String| if days.is_empty() { "on days not recorded".to_owned() } else { format!("on {days}") };
    let words = vec![format!(
        "She was surveyed before {} (survey {}), and for this report {}. Each survey looked for itself; what stands below was not carried from one to the other.",
        when(days(before)),
        before.survey().short(),
        when(days(state))
    )];
    let tables = [carried(state, numbers), members(before, state), measured(before, state)];
    ThenAndNow {
        words,
        tables: tables.into_iter().filter(|table| !table.rows.is_empty()).collect(),
        notes: vec![
            "A change of what was measured is given with the half-width of its 95 % interval (Student's t; for readings at different places Welch's). It holds the scatter of the readings only: another meter, another depth, another season or a wetter plank shift all readings together and are not in it.".to_owned(),
        ],
    }
}

fn carried(state: &State, numbers: &Numbers<'_>) -> Table {
    let rows = state.recommendations().filter(|r| r.payload.carried_from.is_some()).map(|r| {
        let latest = state.follow_ups().filter(|f| f.payload.recommendation == r.id()).last();
        let became = latest.map_or("Nothing is recorded.".to_owned(), |f| {
            let date = f.payload.date.map(|d| format!(", {}", day(d))).unwrap_or_default();
            format!("{}{date}: {}", sentence_case(&f.payload.standing.to_string()), f.payload.text)
        });
        vec![
            numbers.recommendations.get(&r.id()).map(u32::to_string).unwrap_or_default(),
            sentence_case(r.payload.title.trim()),
            r.payload.carried_from.as_ref().map(|c| c.findings.join("; ")).unwrap_or_default(),
            became,
        ]
    });
    Table {
        title: "Recommended before, and what became of it".to_owned(),
        columns: vec![
            Column::figures("No.", 0.4),
            Column::words("Recommended", 1.6),
            Column::words("For", 1.6),
            Column::words("What became of it", 2.2),
        ],
        rows: rows.collect(),
        note: String::new(),
    }
}

fn members(before: &State, state: &State) -> Table {
    let standing = |cover: Option<Cover>, condition: Option<Condition>, findings: &[String]| {
        let seen = match cover {
            None => "not among her members".to_owned(),
            Some(Cover::Owed) => "nothing recorded".to_owned(),
            Some(Cover::NotSeen) => "not seen".to_owned(),
            Some(Cover::HearsayOnly) => "only told".to_owned(),
            Some(Cover::PartlySeen) => "seen in part".to_owned(),
            Some(Cover::Seen) => "seen".to_owned(),
        };
        match condition {
            Some(condition) => format!("{}: {}", sentence_case(&condition.to_string()), findings.join("; ")),
            None => sentence_case(&seen),
        }
    };
    let rows = members_then_and_now(before, state).into_iter().map(|m| {
        vec![
            sentence_case(&m.name),
            standing(m.cover.0, m.condition.0, &m.findings.0),
            standing(m.cover.1, m.condition.1, &m.findings.1),
            turn(m.condition.0, m.condition.1).to_owned(),
        ]
    });
    Table {
        title: "Member by member".to_owned(),
        columns: vec![
            Column::words("Member", 1.3),
            Column::words("Then", 2.2),
            Column::words("Now", 2.2),
            Column::words("Turn", 0.8),
        ],
        rows: rows.collect(),
        note: "The turn compares the worst condition found in each survey; where one of them drew no conclusion, none is given.".to_owned(),
    }
}

fn turn(then: Option<Condition>, now: Option<Condition>) -> &'static str {
    match (then, now) {
        (Some(then), Some(now)) if now > then => "worse",
        (Some(then), Some(now)) if now < then => "better",
        (Some(_), Some(_)) => "as before",
        _ => "",
    }
}

fn measured(before: &State, state: &State) -> Table {
    let rows = trends(before, state).into_iter().map(|t| {
        vec![
            format!("{}: {}", sentence_case(&t.name), t.quantity),
            sample(&t, true),
            sample(&t, false),
            change(&t),
            per_year(&t),
        ]
    });
    Table {
        title: "Measured in both surveys".to_owned(),
        columns: vec![
            Column::words("What", 2.0),
            Column::words("Then", 1.3),
            Column::words("Now", 1.3),
            Column::words("Change", 1.8),
            Column::words("In a year", 1.2),
        ],
        rows: rows.collect(),
        note: "Moisture as the meter showed it, not corrected.".to_owned(),
    }
}

fn rounded(value: f64) -> String {
    figure((value * 10.0).round() / 10.0)
}

fn signed(value: f64) -> String {
    format!("{}{}", if value < 0.0 { "−" } else { "+" }, rounded(value.abs()))
}

fn sample(trend: &Trend, then: bool) -> String {
    let s = if then { trend.then } else { trend.now };
    let many = if s.count == 1 { "one reading".to_owned() } else { format!("mean of {}", s.count) };
    format!("{} {} ({many})", rounded(s.mean), trend.unit)
}

fn change(trend: &Trend) -> String {
    let how = match trend.pairs {
        0 => "of the means".to_owned(),
        1 => "at one place".to_owned(),
        n => format!("at the same {n} places"),
    };
    let within = match trend.within {
        Some(within) => format!(" ± {}", rounded(within)),
        None => String::new(),
    };
    let verdict = match trend.stands_out() {
        Some(true) => "it stands out of the scatter",
        Some(false) => "within the scatter: no change is shown",
        None => "single readings: how far it is scatter is not known",
    };
    format!("{}{within} {} {how}; {verdict}", signed(trend.change), trend.unit)
}

fn per_year(trend: &Trend) -> String {
    match trend.per_year {
        Some((rate, Some(within))) => format!("{} ± {} {}", signed(rate), rounded(within), trend.unit),
        Some((rate, None)) => format!("{} {}", signed(rate), trend.unit),
        None => "days not known, or less than a month apart".to_owned(),
    }
}
