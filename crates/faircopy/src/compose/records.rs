//! What stands behind the report: records by method, instruments, other attachments, corrections, versions, digest.

use super::numbers::{Numbers, is_picture};
use super::wording::{Wording, day, figure, listed, moment, sentence_case};
use crate::{Change, Column, Digest, Table};
use survey::payload::Payload;
use survey::{DrawnCondition, Method, Reading, SoundAnswer, State};

/// Returns the records by method; a method not used has no table.
pub(super) fn records(state: &State, numbers: &Numbers<'_>, wording: &Wording) -> Vec<Table> {
    [
        drawn(state, numbers, wording),
        sounded(state, numbers),
        moisture(state, numbers, wording),
        measured(state, numbers, wording),
        instruments(state),
        attachments(state),
        corrections(state),
    ]
    .into_iter()
    .filter(|table| !table.rows.is_empty())
    .collect()
}

fn drawn(state: &State, numbers: &Numbers<'_>, wording: &Wording) -> Table {
    let mut drawn = 0;
    let mut bad = 0;
    let rows = state.observations().filter_map(|o| {
        let Reading::Draw { fastening, condition, original_mm, measured_mm, .. } = &o.payload.reading else {
            return None;
        };
        drawn += 1;
        bad += u32::from(*condition != DrawnCondition::Good);
        let length = |mm: &Option<f64>| mm.map(|mm| wording.length(mm)).unwrap_or_default();
        Some(vec![
            numbers.observations.get(&o.id()).map(u32::to_string).unwrap_or_default(),
            wording.member_at(&numbers.member(&o.payload.member), &o.payload.place),
            fastening.clone(),
            condition.to_string(),
            length(original_mm),
            length(measured_mm),
        ])
    });
    let rows: Vec<Vec<String>> = rows.collect();
    Table {
        title: "Fastenings drawn".to_owned(),
        columns: vec![
            Column::figures("No.", 0.5),
            Column::words("Place", 2.4),
            Column::words("Fastening", 2.0),
            Column::words("Found", 1.2),
            Column::figures("As new", 1.3),
            Column::figures("Least now", 1.3),
        ],
        rows,
        note: format!(
            "Tried: {drawn}; of these not good: {bad}. How many there are of each kind, and what this sample can and cannot say of the rest, is for the findings and reckonings to state."
        ),
    }
}

fn sounded(state: &State, numbers: &Numbers<'_>) -> Table {
    let mut members: Vec<(String, [u32; 4])> = Vec::new();
    for o in state.observations() {
        let Reading::Sound { answer, .. } = &o.payload.reading else { continue };
        let name = sentence_case(&numbers.member(&o.payload.member));
        let at = match members.iter().position(|(member, _)| *member == name) {
            Some(at) => at,
            None => {
                members.push((name, [0; 4]));
                members.len() - 1
            }
        };
        let column = match answer {
            SoundAnswer::Rings => 0,
            SoundAnswer::DullOrHollow => 1,
            SoundAnswer::Chatters => 2,
            SoundAnswer::CannotBeTold => 3,
        };
        members[at].1[column] += 1;
    }
    Table {
        title: "Places sounded, by member".to_owned(),
        columns: vec![
            Column::words("Member", 2.5),
            Column::figures("Rang", 1.0),
            Column::figures("Dull or hollow", 1.2),
            Column::figures("Chattered", 1.0),
            Column::figures("Could not be told", 1.3),
        ],
        rows: members
            .into_iter()
            .map(|(name, counts)| std::iter::once(name).chain(counts.iter().map(u32::to_string)).collect())
            .collect(),
        note: "Counts of observations, not of blows.".to_owned(),
    }
}

fn moisture(state: &State, numbers: &Numbers<'_>, wording: &Wording) -> Table {
    let rows = state.observations().filter_map(|o| {
        let Reading::Moisture { reading_percent, depth_mm, temp_c, species_setting, instrument } = &o.payload.reading
        else {
            return None;
        };
        let meter =
            instrument.and_then(|id| state.find::<survey::payload::Instrument>(id)).map(|i| i.payload.name.clone());
        Some(vec![
            numbers.observations.get(&o.id()).map(u32::to_string).unwrap_or_default(),
            wording.member_at(&numbers.member(&o.payload.member), &o.payload.place),
            figure(*reading_percent),
            depth_mm.map(|mm| wording.length(mm)).unwrap_or_default(),
            temp_c.map(figure).unwrap_or_default(),
            species_setting.clone().unwrap_or_default(),
            meter.unwrap_or_default(),
        ])
    });
    Table {
        title: "Moisture readings, as the meter showed them".to_owned(),
        columns: vec![
            Column::figures("No.", 0.5),
            Column::words("Place", 2.4),
            Column::figures("Shown, %", 0.8),
            Column::figures("Depth", 1.2),
            Column::figures("Wood, °C", 0.8),
            Column::words("Set to", 1.1),
            Column::words("Meter", 1.6),
        ],
        rows: rows.collect(),
        note: "Not corrected for species, temperature or salt. Above about 30 % a resistance meter tells only that the wood is wet.".to_owned(),
    }
}

fn measured(state: &State, numbers: &Numbers<'_>, wording: &Wording) -> Table {
    let rows = state.observations().filter_map(|o| {
        let (what, value) = match &o.payload.reading {
            Reading::Measure { quantity, value, unit, .. } => {
                let value = match unit.as_str() {
                    "mm" => wording.length(*value),
                    "m" => wording.length(*value * 1000.0),
                    "kg" => wording.mass(*value),
                    unit => format!("{} {unit}", figure(*value)),
                };
                (sentence_case(quantity), value)
            }
            Reading::Bore { depth_mm, finds } => ("Bore".to_owned(), format!("{}: {finds}", wording.length(*depth_mm))),
            Reading::StressWave { time_us, distance_mm } => (
                "Stress-wave time".to_owned(),
                format!("{} µs over {}", figure(*time_us), wording.length(*distance_mm)),
            ),
            _ => return None,
        };
        Some(vec![
            numbers.observations.get(&o.id()).map(u32::to_string).unwrap_or_default(),
            wording.member_at(&numbers.member(&o.payload.member), &o.payload.place),
            what,
            value,
        ])
    });
    Table {
        title: "Measured, bored and timed".to_owned(),
        columns: vec![
            Column::figures("No.", 0.5),
            Column::words("Place", 2.6),
            Column::words("What", 1.6),
            Column::words("Found", 2.0),
        ],
        rows: rows.collect(),
        note: String::new(),
    }
}

fn instruments(state: &State) -> Table {
    let rows = state.instruments().map(|i| {
        let i = i.payload;
        let mut checked: Vec<String> = Vec::new();
        checked.extend(i.checked.map(day));
        checked.extend(i.check.clone());
        vec![
            i.name.clone(),
            i.serial.clone().unwrap_or_default(),
            i.setting.clone().unwrap_or_default(),
            checked.join(": "),
        ]
    });
    Table {
        title: "Instruments".to_owned(),
        columns: vec![
            Column::words("Instrument", 2.2),
            Column::words("Number", 1.0),
            Column::words("Set", 1.5),
            Column::words("Checked", 2.2),
        ],
        rows: rows.collect(),
        note: String::new(),
    }
}

fn attachments(state: &State) -> Table {
    let rows = state.attachments().filter(|a| !is_picture(a.payload)).map(|a| {
        let a = a.payload;
        let what = if a.caption.trim().is_empty() { a.alternative.clone() } else { a.caption.clone() };
        vec![a.file_name.clone(), what, a.media_type.clone(), a.sha256.to_string()]
    });
    Table {
        title: "Recordings and papers kept with the field book".to_owned(),
        columns: vec![
            Column::words("File", 1.4),
            Column::words("What it is", 2.0),
            Column::words("Kind", 1.0),
            Column::words("SHA-256", 2.2),
        ],
        rows: rows.collect(),
        note: String::new(),
    }
}

fn corrections(state: &State) -> Table {
    let mut rows = Vec::new();
    for record in state.records() {
        for amendment in record.amendments() {
            let Payload::Amendment(what) = &amendment.payload else { continue };
            let done = if what.withdraws() { "withdrawn" } else { "corrected" };
            rows.push(vec![
                record.first().id.short(),
                sentence_case(&record.first().kind().replace('_', " ")),
                done.to_owned(),
                what.why.clone(),
                format!("{}, {}", amendment.author, moment(amendment.time)),
            ]);
        }
    }
    Table {
        title: "Corrections".to_owned(),
        columns: vec![
            Column::words("Entry", 1.2),
            Column::words("Kind", 1.2),
            Column::words("Done", 0.9),
            Column::words("Why", 2.6),
            Column::words("By, and when", 1.8),
        ],
        rows,
        note: "What was written first stays in the field book.".to_owned(),
    }
}

/// Returns the versions issued.
pub(super) fn versions(state: &State) -> Vec<Change> {
    let mut issued: Vec<_> = state.reports_issued().map(|r| r.payload).collect();
    issued.sort_by_key(|r| r.version);
    issued
        .into_iter()
        .map(|r| Change {
            version: r.version.to_string(),
            date: day(r.date),
            change: if r.changes.trim().is_empty() && r.version == 1 {
                "First issue.".to_owned()
            } else {
                r.changes.clone()
            },
            told: listed(&r.addressees),
        })
        .collect()
}

/// Returns what proves the record.
pub(super) fn digest(state: &State) -> Option<Digest> {
    (!state.is_empty()).then(|| Digest {
        sha256: state.digest().to_string(),
        entries: u64::try_from(state.len()).unwrap_or(u64::MAX),
        how: vec![
            "This report was composed from a field book in which nothing is rubbed out. The digest covers every entry of it: SHA-256 over the SHA-256 of each entry's line, sorted. Whoever holds the field book can work it out again; if one letter of one entry differs, so does the digest.".to_owned(),
            format!("Observations by method: {}.", by_method(state)),
        ],
    })
}

fn by_method(state: &State) -> String {
    let counts = Method::ALL.iter().filter_map(|method| {
        let n = state.observations().filter(|o| o.payload.reading.method() == *method).count();
        (n > 0).then(|| format!("{method} {n}"))
    });
    let counts: Vec<String> = counts.collect();
    if counts.is_empty() { "none".to_owned() } else { counts.join(", ") }
}
