//! Reading the room's data files.

use crate::Fault;

/// Reads a data file with `#` lines for remarks, and returns its rows.
pub(crate) fn rows<T: serde::de::DeserializeOwned>(file: &'static str, text: &str) -> Result<Vec<T>, Fault> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let rows: Result<Vec<T>, csv::Error> = reader.deserialize().collect();
    rows.map_err(|fault| Fault::Data { file, why: fault.to_string() })
}
