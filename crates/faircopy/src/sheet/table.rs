//! The CSV: RFC 4180, UTF-8 with a mark at its head so that office programs take it for that.

use super::SheetFault;
use super::columns::{COLUMNS, Cell};
use crate::YardList;

/// Writes the rows of the list as CSV with the names of the record's fields at the head.
///
/// Words that an office program would run as a formula get an apostrophe before them.
///
/// # Errors
/// [`SheetFault::Table`] when the writer refuses.
pub fn csv(list: &YardList) -> Result<Vec<u8>, SheetFault> {
    let refused = |why: &dyn std::fmt::Display| SheetFault::Table(why.to_string());
    let mut writer =
        ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer("\u{feff}".as_bytes().to_vec());
    writer.write_record(COLUMNS.iter().map(|column| column.name)).map_err(|why| refused(&why))?;
    for row in &list.rows {
        writer.write_record(COLUMNS.iter().map(|column| said((column.cell)(row)))).map_err(|why| refused(&why))?;
    }
    writer.into_inner().map_err(|why| refused(&why))
}

fn said(cell: Cell) -> String {
    match cell {
        Cell::Words(words) if words.starts_with(['=', '+', '-', '@', '\t', '\r']) => format!("'{words}"),
        Cell::Words(words) | Cell::Day(words) => words,
        Cell::Figure(figure) | Cell::Money(figure) => figure.map(|figure| figure.to_string()).unwrap_or_default(),
    }
}
