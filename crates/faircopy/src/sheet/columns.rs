//! The columns that workbook and table share: the name in the table, the heading in the workbook, and what stands there.

use crate::YardRow;

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Cell {
    /// Words; may be empty.
    Words(String),
    /// A count or other figure without decimals of its own.
    Figure(Option<f64>),
    /// Money.
    Money(Option<f64>),
    /// A day, as `2027-05-01`; may be empty.
    Day(String),
}

/// A column.
pub(super) struct Shown {
    /// Its name in the table: the name of the field in the record, where there is one.
    pub(super) name: &'static str,
    /// Its heading in the workbook.
    pub(super) title: &'static str,
    /// Its width in the workbook, in letters.
    pub(super) width: f64,
    /// What stands there.
    pub(super) cell: fn(&YardRow) -> Cell,
}

fn words(text: &str) -> Cell {
    Cell::Words(text.to_owned())
}

fn hundredths(figure: f64) -> f64 {
    (figure * 100.0).round() / 100.0
}

/// The columns, in order.
pub(super) const COLUMNS: [Shown; 25] = [
    Shown { name: "part", title: "Part of the boat", width: 16.0, cell: |row| words(&row.part) },
    Shown { name: "member", title: "Member", width: 18.0, cell: |row| words(&row.member) },
    Shown { name: "place", title: "Place", width: 26.0, cell: |row| words(&row.place) },
    Shown { name: "drawings", title: "Shown on", width: 22.0, cell: |row| words(&row.drawings) },
    Shown {
        name: "drawn_length_m",
        title: "Length on the drawing, m",
        width: 11.0,
        cell: |row| Cell::Figure(row.drawn.map(|drawn| hundredths(drawn.length_m))),
    },
    Shown {
        name: "drawn_area_m2",
        title: "Area on the drawing, m²",
        width: 11.0,
        cell: |row| Cell::Figure(row.drawn.map(|drawn| hundredths(drawn.area_m2))),
    },
    Shown {
        name: "drawn_crossings",
        title: "Frames crossed on the drawing",
        width: 11.0,
        cell: |row| Cell::Figure(row.drawn.map(|drawn| f64::from(drawn.crossings))),
    },
    Shown {
        name: "recommendation",
        title: "No. of recommendation",
        width: 9.0,
        cell: |row| Cell::Figure(row.recommendation.map(f64::from)),
    },
    Shown {
        name: "findings",
        title: "Findings",
        width: 9.0,
        cell: |row| Cell::Words(row.findings.iter().map(u32::to_string).collect::<Vec<_>>().join(", ")),
    },
    Shown { name: "work", title: "Work", width: 24.0, cell: |row| words(&row.work) },
    Shown { name: "action", title: "What is to be done", width: 44.0, cell: |row| words(&row.action) },
    Shown { name: "urgency", title: "When", width: 24.0, cell: |row| words(&row.urgency) },
    Shown { name: "by", title: "No later than", width: 12.0, cell: |row| Cell::Day(row.by.clone()) },
    Shown { name: "who", title: "By whom", width: 18.0, cell: |row| words(&row.who) },
    Shown { name: "proof", title: "Shown to be done by", width: 20.0, cell: |row| words(&row.proof) },
    Shown { name: "item", title: "To be priced", width: 28.0, cell: |row| words(&row.item) },
    Shown { name: "trade", title: "Trade", width: 12.0, cell: |row| words(&row.trade) },
    Shown { name: "quantity", title: "Quantity", width: 10.0, cell: |row| Cell::Figure(row.quantity) },
    Shown { name: "unit", title: "Unit", width: 8.0, cell: |row| words(&row.unit) },
    Shown { name: "low", title: "Low", width: 11.0, cell: |row| Cell::Money(row.low) },
    Shown { name: "likely", title: "Likely", width: 11.0, cell: |row| Cell::Money(row.likely) },
    Shown { name: "high", title: "High", width: 11.0, cell: |row| Cell::Money(row.high) },
    Shown { name: "currency", title: "Currency", width: 9.0, cell: |row| words(&row.currency) },
    Shown {
        name: "chance_percent",
        title: "Chance that it is needed, %",
        width: 12.0,
        cell: |row| Cell::Figure(row.chance_percent),
    },
    Shown { name: "rates_from", title: "Rates from", width: 24.0, cell: |row| words(&row.rates_from) },
];

/// Returns where a column stands.
pub(super) fn at(name: &str) -> u16 {
    COLUMNS.iter().position(|column| column.name == name).and_then(|at| u16::try_from(at).ok()).unwrap_or(0)
}
