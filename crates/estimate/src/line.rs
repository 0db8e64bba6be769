//! Cost lines and rates, and reading them from tables.

use crate::{Fault, Shape, Spread};
use std::collections::BTreeMap;

/// One line of an estimate.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What is to be done.
    pub item: String,
    /// Trade that does it; empty for none.
    pub trade: String,
    /// Cost; or, when the trade has a rate, the quantity that the rate multiplies.
    pub spread: Spread,
    /// Probability that the line is needed at all, 0 to 1.
    pub probability: f64,
}

/// What one unit of a trade's work costs: drawn once for every line of that trade.
#[derive(Clone, Debug, PartialEq)]
pub struct Rate {
    /// The trade.
    pub trade: String,
    /// Cost of one unit.
    pub spread: Spread,
    /// Who gave it, where and when.
    pub source: String,
}

impl Line {
    /// Returns a triangular cost line that is certainly needed.
    ///
    /// # Errors
    /// The three are out of order.
    pub fn new(item: &str, low: f64, likely: f64, high: f64) -> Result<Self, Fault> {
        let spread = Spread::new(item, low, likely, high, Shape::Triangular)?;
        Ok(Self { item: item.to_owned(), trade: String::new(), spread, probability: 1.0 })
    }
}

/// Reads lines from a CSV with the columns `item, low, likely, high` and, if wanted, `trade`, `probability` (0 to 1) and
/// `shape` (`triangular` or `pert`; else `shape` holds). Other columns are left alone.
///
/// # Errors
/// A column is missing, a cell cannot be read, three figures are out of order, or there is no row.
pub fn read_lines(csv: &str, shape: Shape) -> Result<Vec<Line>, Fault> {
    const ACCEPTED: &str = "item, low, likely, high and optional trade, probability, shape";
    let table = Table::read(csv)?;
    table.need(&["item", "low", "likely", "high"], ACCEPTED)?;
    let mut lines = Vec::new();
    for row in table.rows() {
        let item = row.words("item").unwrap_or_default().to_owned();
        let shape = match row.words("shape") {
            Some(name) => Shape::named(&name.to_lowercase()).ok_or_else(|| row.fault("shape", "triangular or pert"))?,
            None => shape,
        };
        let probability = row.number("probability")?.unwrap_or(1.0);
        if !(0.0..=1.0).contains(&probability) {
            return Err(row.fault("probability", "a number from 0 to 1"));
        }
        let spread = Spread::new(&item, row.needed("low")?, row.needed("likely")?, row.needed("high")?, shape)?;
        lines.push(Line { item, trade: row.words("trade").unwrap_or_default().to_owned(), spread, probability });
    }
    if lines.is_empty() {
        return Err(Fault::Nothing("the table of items has no rows".to_owned()));
    }
    Ok(lines)
}

/// Reads rates from a CSV with the columns `trade, low, likely, high` and, if wanted, `source` and `shape`.
///
/// # Errors
/// A column is missing, a cell cannot be read, three figures are out of order, or a trade stands there twice.
pub fn read_rates(csv: &str, shape: Shape) -> Result<Vec<Rate>, Fault> {
    let table = Table::read(csv)?;
    table.need(&["trade", "low", "likely", "high"], "trade, low, likely, high and optional source, shape")?;
    let mut rates: Vec<Rate> = Vec::new();
    for row in table.rows() {
        let trade = row.words("trade").ok_or_else(|| row.fault("trade", "the name of a trade"))?.to_owned();
        if rates.iter().any(|rate| rate.trade == trade) {
            return Err(row.fault("trade", "a trade that stands there once"));
        }
        let shape = match row.words("shape") {
            Some(name) => Shape::named(&name.to_lowercase()).ok_or_else(|| row.fault("shape", "triangular or pert"))?,
            None => shape,
        };
        let spread = Spread::new(&trade, row.needed("low")?, row.needed("likely")?, row.needed("high")?, shape)?;
        rates.push(Rate { trade, spread, source: row.words("source").unwrap_or_default().to_owned() });
    }
    Ok(rates)
}

/// A CSV table with a head, cells by column name.
pub(crate) struct Table {
    pub head: Vec<String>,
    rows: Vec<BTreeMap<String, String>>,
}

/// One row of a [`Table`].
pub(crate) struct TableRow<'a> {
    number: usize,
    cells: &'a BTreeMap<String, String>,
}

impl Table {
    pub(crate) fn read(text: &str) -> Result<Self, Fault> {
        let mut reader = csv::ReaderBuilder::new()
            .comment(Some(b'#'))
            .trim(csv::Trim::All)
            .flexible(true)
            .from_reader(text.trim_start_matches('\u{feff}').as_bytes());
        let fault = |fault: csv::Error| Fault::Table(fault.to_string());
        let head: Vec<String> =
            reader.headers().map_err(fault)?.iter().map(|name| name.to_lowercase().replace([' ', '-'], "_")).collect();
        let mut rows = Vec::new();
        for record in reader.records() {
            let record = record.map_err(fault)?;
            if record.len() > head.len() {
                let given = format!("a row of {} cells under {} columns", record.len(), head.len());
                let accepted = "as many cells as columns (thousands are written without a comma)".to_owned();
                return Err(Fault::Cell { row: rows.len() + 1, column: "all".to_owned(), given, accepted });
            }
            let filled = head.iter().cloned().zip(record.iter().map(str::to_owned));
            rows.push(filled.filter(|(_, cell)| !cell.is_empty()).collect());
        }
        Ok(Self { head, rows })
    }

    pub(crate) fn need(&self, columns: &[&str], accepted: &str) -> Result<(), Fault> {
        match columns.iter().find(|column| !self.head.iter().any(|name| name == *column)) {
            Some(column) => Err(Fault::Column { column: (*column).to_owned(), accepted: accepted.to_owned() }),
            None => Ok(()),
        }
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = TableRow<'_>> {
        self.rows.iter().enumerate().map(|(index, cells)| TableRow { number: index + 1, cells })
    }
}

impl TableRow<'_> {
    pub(crate) fn words(&self, column: &str) -> Option<&str> {
        self.cells.get(column).map(String::as_str)
    }

    pub(crate) fn number(&self, column: &str) -> Result<Option<f64>, Fault> {
        let Some(text) = self.words(column) else { return Ok(None) };
        let number = text.parse::<f64>().ok().filter(|n| n.is_finite());
        number.map(Some).ok_or_else(|| self.fault(column, "a plain number"))
    }

    pub(crate) fn needed(&self, column: &str) -> Result<f64, Fault> {
        self.number(column)?.ok_or_else(|| self.fault(column, "a plain number"))
    }

    pub(crate) fn fault(&self, column: &str, accepted: &str) -> Fault {
        Fault::Cell {
            row: self.number,
            column: column.to_owned(),
            given: self.words(column).unwrap_or("nothing").to_owned(),
            accepted: accepted.to_owned(),
        }
    }
}
