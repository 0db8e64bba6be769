//! The yard's list as files: an XLSX workbook to price in, and a CSV of the same rows.

mod columns;
mod table;
mod workbook;

pub use table::csv;
pub use workbook::xlsx;

/// Why there is no file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum SheetFault {
    /// The writer of workbooks refused; this is a fault of ours, not of the survey, and worth reporting.
    #[error("the workbook could not be written: {0}")]
    Workbook(String),
    /// The writer of tables refused; as above.
    #[error("the table could not be written: {0}")]
    Table(String),
}
