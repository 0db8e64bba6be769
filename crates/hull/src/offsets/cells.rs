//! Rows and cells of a table, and lengths in them.

use crate::HullError;

/// One row with its line in the text, counted from 1.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    pub line: usize,
    pub cells: Vec<String>,
}

/// The unit of a bare number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unit {
    Metre,
    Millimetre,
    FeetInchesEighths,
}

/// Splits a text into rows of trimmed cells; remarks and empty lines are left out.
pub(crate) fn split(text: &str) -> Vec<Row> {
    // Quotation marks stand for inches here, so they do not quote.
    let body: Vec<&str> = text.lines().filter(|l| !l.trim().is_empty() && !l.trim_start().starts_with('#')).collect();
    let count = |c: char| body.iter().map(|l| l.matches(c).count()).sum::<usize>();
    let by = if count('\t') > count(';').max(count(',')) {
        '\t'
    } else if count(';') > 0 && count(';') >= body.len() / 2 {
        ';'
    } else {
        ','
    };
    let mut rows = Vec::new();
    for (i, line) in text.trim_start_matches('\u{feff}').lines().enumerate() {
        if line.trim().is_empty() || line.trim_start().starts_with('#') {
            continue;
        }
        let cells: Vec<String> = line.split(by).map(|c| c.trim().trim_matches('\u{feff}').to_owned()).collect();
        rows.push(Row { line: i + 1, cells });
    }
    rows
}

/// Reads a length in metres from a cell; none for an empty one.
pub(crate) fn length_m(cell: &str, unit: Unit, line: usize, place: &str) -> Result<Option<f64>, HullError> {
    if cell.is_empty() || cell == "-" {
        return Ok(None);
    }
    let refuse = |why: String| HullError::Table { line, place: place.to_owned(), why };
    let bare = cell.parse::<f64>().ok();
    let m = match (bare, unit) {
        (Some(n), Unit::Metre) => n,
        (Some(n), Unit::Millimetre) => n / 1000.0,
        (Some(0.0), Unit::FeetInchesEighths) => 0.0,
        (Some(_), Unit::FeetInchesEighths) => {
            return Err(refuse(format!(
                "`{cell}` has no unit; accepted is feet-inches-eighths, such as 2-3-4 or 2-3-4+"
            )));
        }
        (None, _) => {
            let length = measure::Length::read(&dotted(cell));
            length.map_err(|fault| refuse(format!("`{cell}`, {fault}")))?.mm() / 1000.0
        }
    };
    if m.is_finite() && m.abs() < 1000.0 {
        Ok(Some(m))
    } else {
        Err(refuse(format!("`{cell}` is out of range; accepted is less than 1000 m")))
    }
}

/// Some tables part feet, inches and eighths by points: `2.3.4`.
fn dotted(cell: &str) -> String {
    let plain = cell.trim_end_matches(['+', '-']);
    if plain.matches('.').count() == 2 && plain.chars().all(|c| c.is_ascii_digit() || c == '.') {
        cell.replace('.', "-")
    } else {
        cell.to_owned()
    }
}
