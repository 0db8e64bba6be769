//! Rival ways of doing what a recommendation asks, side by side.

use super::wording::{ended, sentence_case};
use crate::{Column, Table};
use survey::payload::Way;

/// A column: its heading, its share of the width, and what stands there.
type Shown<'a> = (&'static str, f64, &'a dyn Fn(&Way) -> String);

/// Returns the ways as a table; a column that no way fills is left out.
pub(super) fn ways(ways: &[Way]) -> Table {
    let said = |text: &str| sentence_case(&ended(text));
    let when = |way: &Way| {
        let urgency = way.urgency.map(|urgency| super::recommendations::urgency(urgency).words(None));
        said([urgency.unwrap_or_default(), way.who.trim().to_owned()].join("; ").trim_matches([';', ' ']))
    };
    let all: [Shown<'_>; 6] = [
        ("Way", 1.3, &|way| {
            let advised = if way.advised { " (advised)" } else { "" };
            let how = if way.how.trim().is_empty() { String::new() } else { format!(": {}", way.how.trim()) };
            sentence_case(&format!("{}{advised}{how}", way.kind))
        }),
        ("Needs", 1.4, &|way| said(&way.needs)),
        ("Lasts", 1.0, &|way| said(&way.lasts)),
        ("Risks", 1.4, &|way| said(&way.risks)),
        ("What else it opens up", 1.4, &|way| said(&way.opens)),
        ("When, and by whom", 1.2, &when),
    ];
    let used: Vec<_> = all.into_iter().filter(|(_, _, cell)| ways.iter().any(|way| !cell(way).is_empty())).collect();
    Table {
        title: if ways.is_empty() { String::new() } else { "Ways of doing it".to_owned() },
        columns: used.iter().map(|(title, share, _)| Column::words(*title, *share)).collect(),
        rows: ways.iter().map(|way| used.iter().map(|(_, _, cell)| cell(way)).collect()).collect(),
        note: String::new(),
    }
}
