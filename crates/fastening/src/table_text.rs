//! Reading the tables that are built in.

use timber::Mark;

/// Returns the rows of a built-in table below its heading; lines that begin with `#` are its sources.
pub(crate) fn rows(text: &'static str) -> Vec<csv::StringRecord> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    // The tables are part of the program and read by its tests; a row that does not parse is left out.
    reader.records().filter_map(Result::ok).collect()
}

/// Returns a cell as a number.
pub(crate) fn number(row: &csv::StringRecord, column: usize) -> Option<f64> {
    row.get(column)?.trim().parse().ok()
}

/// Returns a cell as words.
pub(crate) fn words(row: &csv::StringRecord, column: usize) -> Option<String> {
    row.get(column).map(|cell| cell.trim().to_owned())
}

/// Returns a cell as the standing of a figure.
pub(crate) fn mark(row: &csv::StringRecord, column: usize) -> Option<Mark> {
    match row.get(column)?.trim() {
        "read" => Some(Mark::Read),
        "derived" => Some(Mark::Derived),
        "memory" => Some(Mark::FromMemory),
        _ => None,
    }
}
