//! Comparables and their adjustments, every step shown.

use crate::Fault;
use crate::line::Table;

/// Whether a price was asked or paid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Asked for.
    Asking,
    /// Paid.
    Sold,
    /// Not said.
    Unknown,
}

/// One comparable boat as listed.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparable {
    /// Name or reference.
    pub name: String,
    /// Price, in the one currency of the table.
    pub price: f64,
    /// Whether asked or paid.
    pub status: Status,
    /// Length in metres, if listed.
    pub length_m: Option<f64>,
    /// The surveyor's own adjustments: what for, and percent (negative: the comparable is the better boat).
    pub adjustments: Vec<(String, f64)>,
}

/// Adjustments that hold for the whole table. All are the user's; none is built in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Adjustments {
    /// How much lower than asked such boats sell, in percent.
    pub asking_discount_percent: Option<f64>,
    /// Length of the boat valued, in metres.
    pub length_m: Option<f64>,
    /// Power of length with which prices go; with `length_m`, each price is multiplied by (length / its length) to this power.
    pub length_exponent: Option<f64>,
}

/// One step of an adjustment.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What for.
    pub what: String,
    /// By how much, in percent of the figure before it.
    pub percent: f64,
    /// The figure after it.
    pub after: f64,
}

/// A comparable with its adjustments.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjusted {
    /// The comparable.
    pub comparable: Comparable,
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// The adjusted price.
    pub price: f64,
}

/// Reads comparables from a CSV with the columns `name, price` and, if wanted, `status` (`asking` or `sold`), `length_m`,
/// `currency` and any number of columns `adjust_…_percent`. Other columns are left alone.
///
/// # Errors
/// A column is missing, a cell cannot be read, currencies are mixed, or there is no row.
pub fn read_comparables(csv: &str) -> Result<Vec<Comparable>, Fault> {
    const ACCEPTED: &str = "name, price and optional status, length_m, currency, adjust_…_percent";
    let table = Table::read(csv)?;
    table.need(&["name", "price"], ACCEPTED)?;
    let columns: Vec<&String> =
        table.head.iter().filter(|name| name.starts_with("adjust_") && name.ends_with("_percent")).collect();
    let mut comparables = Vec::new();
    let mut currency: Option<String> = None;
    for row in table.rows() {
        let price = row.needed("price")?;
        if price <= 0.0 {
            return Err(row.fault("price", "a number above 0"));
        }
        let status = match row.words("status").map(str::to_lowercase).as_deref() {
            Some("asking") => Status::Asking,
            Some("sold") => Status::Sold,
            None => Status::Unknown,
            Some(_) => return Err(row.fault("status", "asking or sold")),
        };
        let length_m = row.number("length_m")?;
        if length_m.is_some_and(|length| length <= 0.0) {
            return Err(row.fault("length_m", "a number above 0"));
        }
        if let Some(own) = row.words("currency") {
            if currency.as_deref().is_some_and(|first| first != own) {
                return Err(row.fault("currency", "the one currency of the table; convert first, at the date's rate"));
            }
            currency = Some(own.to_owned());
        }
        let mut adjustments = Vec::new();
        for column in &columns {
            if let Some(percent) = row.number(column)? {
                if percent <= -100.0 {
                    return Err(row.fault(column, "a number above -100"));
                }
                let what = column.trim_start_matches("adjust_").trim_end_matches("_percent").replace('_', " ");
                adjustments.push((what, percent));
            }
        }
        let name = row.words("name").unwrap_or("unnamed").to_owned();
        comparables.push(Comparable { name, price, status, length_m, adjustments });
    }
    if comparables.is_empty() {
        return Err(Fault::Nothing("an opinion without comparables is only an assertion".to_owned()));
    }
    Ok(comparables)
}

impl Comparable {
    /// Adjusts the price to the boat valued: asking price, length, then the surveyor's own, one after another.
    pub fn adjusted(&self, table: &Adjustments) -> Adjusted {
        let mut price = self.price;
        let mut steps = Vec::new();
        let mut step = |what: String, percent: f64| {
            price *= 1.0 + percent / 100.0;
            steps.push(Step { what, percent, after: price });
        };
        if let (Status::Asking, Some(discount)) = (self.status, table.asking_discount_percent) {
            step("asked, not paid".to_owned(), -discount);
        }
        if let (Some(own), Some(theirs), Some(power)) = (table.length_m, self.length_m, table.length_exponent) {
            step("length".to_owned(), 100.0 * (libm::pow(own / theirs, power) - 1.0));
        }
        for (what, percent) in &self.adjustments {
            step(what.clone(), *percent);
        }
        Adjusted { comparable: self.clone(), steps, price }
    }
}
