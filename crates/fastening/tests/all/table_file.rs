//! Reading the files of outside figures: lines that begin with `#` say where they come from.

/// Returns the rows below the heading.
pub fn rows(text: &str) -> Vec<csv::StringRecord> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    reader.records().map(|row| row.expect("a well-formed row")).collect()
}

/// Returns the heading.
pub fn heading(text: &str) -> csv::StringRecord {
    csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes()).headers().expect("a heading").clone()
}

/// Returns a cell as a number.
pub fn number(row: &csv::StringRecord, column: usize) -> f64 {
    row[column].trim().parse().unwrap_or_else(|_| panic!("column {column} of {row:?} is a number"))
}

/// Asserts that two figures agree to a share of the second.
pub fn assert_close(ours: f64, theirs: f64, share: f64, what: &str) {
    assert!((ours - theirs).abs() <= share * theirs.abs().max(1e-300), "{what}: {ours} against {theirs}");
}
