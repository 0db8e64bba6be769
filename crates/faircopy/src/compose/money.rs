//! Estimate and value.

use super::numbers::Numbers;
use super::wording::{Wording, amount, day, ended, figure};
use crate::{Align, Column, Estimate, EstimateLine, Plan, Row, Table, Value};
use drawing::{CostSpread, WorthRow};
use estimate::value::{as_found, opinion};
use survey::State;
use survey::payload::{EstimateLine as Recorded, OpinionOfValue};

/// Returns the estimate. Lines in several currencies are shown, but not added up.
pub(super) fn estimate(state: &State, numbers: &Numbers<'_>, spread: Option<&Totals>) -> Option<Estimate> {
    let recorded: Vec<&Recorded> = state.estimate_lines().map(|l| l.payload).collect();
    let first = recorded.first()?;
    let one_currency = recorded.iter().all(|l| l.currency == first.currency);
    let shown = |line: &Recorded, value: f64| {
        if one_currency { amount(value) } else { format!("{} {}", line.currency, amount(value)) }
    };
    let lines = recorded.iter().map(|l| {
        let mut note: Vec<String> = Vec::new();
        note.extend(
            l.chance_percent.filter(|c| *c < 100.0).map(|c| format!("chance that it is needed: {} %", figure(c))),
        );
        if !l.rates_from.trim().is_empty() {
            note.push(format!("rates: {}", l.rates_from.trim()));
        }
        EstimateLine {
            item: l.item.clone(),
            quantity: l.quantity.map(|q| format!("{} {}", figure(q), l.unit).trim().to_owned()).unwrap_or_default(),
            low: shown(l, l.low),
            likely: shown(l, l.likely),
            high: shown(l, l.high),
            recommendation: l.recommendation.and_then(|id| numbers.recommendations.get(&id).copied()),
            note: note.join("; "),
        }
    });
    let totals_rows = spread.iter().flat_map(|t| {
        let money = |value: f64| format!("{} {}", t.currency, amount(t.rounded(value)));
        [
            Row::new("One chance in ten that all costs less than", money(t.p10)),
            Row::new("As likely more as less than", money(t.p50)),
            Row::new("One chance in ten that all costs more than", money(t.p90)),
        ]
    });
    let mut notes = vec![
        "Each line runs from the least it may cost to the most, with the likeliest between. Prices are those of the rates named; taxes, lifting and storage are included only where a line says so. Opening up may change any line.".to_owned(),
    ];
    if let Some(t) = spread {
        let money = |value: f64| format!("{} {}", t.currency, amount(t.rounded(value)));
        notes.push("The whole is reckoned by drawing each line at random from a triangle over its three figures, 20,000 times. Lines of one trade rise and fall together, because they share that trade's rate; different trades, and lines of no trade, go by themselves. Lines that may not be needed are counted by their chance.".to_owned());
        if recorded.len() > 1 {
            notes.push(format!("If everything were dear or cheap together, as with one yard doing all of it, the whole would lie between {} and {} in eight cases of ten.", money(t.together.0), money(t.together.1)));
        }
        notes.extend(t.drivers());
    } else {
        notes.push("The lines are not added up: they are not all in one currency, or a figure is missing.".to_owned());
    }
    Some(Estimate {
        currency: if one_currency { first.currency.clone() } else { String::new() },
        lines: lines.collect(),
        totals: totals_rows.collect(),
        drawn: spread.filter(|_| recorded.len() > 1).map(Totals::drawn),
        notes,
    })
}

/// The whole, with its spread.
pub(super) struct Totals {
    pub(super) currency: String,
    pub(super) p10: f64,
    pub(super) p50: f64,
    pub(super) p90: f64,
    /// The same range if all lines were dear or cheap together.
    pub(super) together: (f64, f64),
    /// Items with their share of the spread in percent, the strongest first.
    pub(super) shares: Vec<(String, f64)>,
    /// Cost that is not exceeded with a chance of 0, 1, … 100 %.
    percentiles: Vec<f64>,
}

/// Lines named as driving the spread.
const DRIVERS: usize = 3;
/// A line with less of the spread than this, in percent, is not named.
const LEAST_SHARE: f64 = 10.0;

impl Totals {
    /// Rounds to what the spread bears: two figures of its width.
    pub(super) fn rounded(&self, value: f64) -> f64 {
        let width = self.p90 - self.p10;
        if width <= 0.0 {
            return value.round();
        }
        let step = 10_f64.powf(width.log10().floor() - 1.0).max(1.0);
        (value / step).round() * step
    }

    /// Draws the spread and what it comes with.
    fn drawn(&self) -> Plan {
        let mark = |percent: f64, at: f64| (percent, at, amount(self.rounded(at)));
        let sheet = drawing::cost_spread(&CostSpread {
            currency: self.currency.clone(),
            percentiles: self.percentiles.clone(),
            marks: vec![mark(10.0, self.p10), mark(50.0, self.p50), mark(90.0, self.p90)],
            drivers: self.shares.clone(),
        });
        let caption = "How likely it is that all the work costs no more than a figure, and which lines the spread comes with, each with its share.";
        Plan { caption: caption.to_owned(), sheet, key: Vec::new() }
    }

    /// Says which lines drive the spread; nothing where there is only one, or none stands out.
    fn drivers(&self) -> Option<String> {
        let named: Vec<String> = self
            .shares
            .iter()
            .filter(|(_, share)| *share >= LEAST_SHARE)
            .take(DRIVERS)
            .map(|(item, share)| format!("{} ({share:.0} %)", item.trim().trim_end_matches('.')))
            .collect();
        let many = self.shares.len() > 1 && !named.is_empty();
        many.then(|| format!("Most of the spread comes with: {}.", named.join("; ")))
    }
}

/// Adds up the lines: those of one trade wholly together, the rest each by itself. None where they are not in one currency.
pub(super) fn totals(state: &State) -> Option<Totals> {
    let recorded: Vec<&Recorded> = state.estimate_lines().map(|l| l.payload).collect();
    let currency = recorded.first()?.currency.clone();
    if recorded.iter().any(|l| l.currency != currency) {
        return None;
    }
    let lines = recorded.iter().map(|l| {
        let mut line = estimate::Line::new(&l.item, l.low, l.likely, l.high).ok()?;
        line.probability = l.chance_percent.unwrap_or(100.0) / 100.0;
        line.trade = l.trade.trim().to_lowercase();
        Some(line)
    });
    let lines = lines.collect::<Option<Vec<_>>>()?;
    let mut sum = estimate::Estimate { lines, trade_dependence: 1.0, ..estimate::Estimate::default() };
    let total = sum.total().ok()?;
    sum.dependence = 1.0;
    let together = sum.total().ok()?;
    Some(Totals {
        currency,
        p10: total.p10,
        p50: total.p50,
        p90: total.p90,
        together: (together.p10, together.p90),
        percentiles: total.percentiles(),
        shares: total.drivers.into_iter().map(|driver| (driver.name, driver.share_percent)).collect(),
    })
}

/// Returns the surveyor's opinion of value, with the boats compared.
pub(super) fn value(state: &State, wording: &Wording, totals: Option<&Totals>) -> Option<Value> {
    let view = state.opinion_of_value()?;
    let v = view.payload;
    let money = |value: f64| format!("{} {}", v.currency, amount(value));
    let rows = vec![
        Row::new("Definition", ended(&v.definition)),
        Row::new("On", day(v.date)),
        Row::new("Low", money(v.low)),
        Row::new("Middle", money(v.middle)),
        Row::new("High", money(v.high)),
    ];
    let cells = state.comparables().map(|c| {
        let c = c.payload;
        let mut about: Vec<String> = vec![c.title.clone()];
        about.extend(c.length_mm.map(|mm| wording.length(mm)));
        about.extend(c.built_year.map(|year| format!("built {year}")));
        let steps: Vec<String> = c
            .adjustments
            .iter()
            .map(|a| format!("{}: {}{}", a.what, if a.amount >= 0.0 { "+" } else { "" }, amount(a.amount)))
            .collect();
        let adjusted = c.price + c.adjustments.iter().map(|a| a.amount).sum::<f64>();
        let when = c.date.map(|d| format!(", {}", day(d))).unwrap_or_default();
        vec![
            about.join(", "),
            format!("{} {}", c.currency, amount(c.price)),
            format!("{}{when}", if c.sold { "sold" } else { "asked" }),
            if steps.is_empty() { "none".to_owned() } else { steps.join("; ") },
            format!("{} {}", c.currency, amount(adjusted)),
            c.source.clone(),
        ]
    });
    let rows_compared: Vec<Vec<String>> = cells.collect();
    let comparables = if rows_compared.is_empty() {
        Vec::new()
    } else {
        vec![Table {
            title: "Boats compared, and the steps from each to this boat".to_owned(),
            columns: vec![
                Column::words("Boat", 2.2),
                Column { title: "Price".to_owned(), align: Align::Right, share: 1.2 },
                Column::words("Sold or asked", 1.3),
                Column::words("Steps", 2.4),
                Column { title: "After the steps".to_owned(), align: Align::Right, share: 1.2 },
                Column::words("Source", 1.6),
            ],
            rows: rows_compared,
            note: String::new(),
        }]
    };
    let totals = totals.filter(|t| t.currency == v.currency);
    let pointed = pointed_to(state, v);
    Some(Value {
        rows,
        reasoning: v.reasoning.clone(),
        comparables,
        drawn: side_by_side(state, v, pointed.as_ref(), totals),
        notes: by_arithmetic(v, pointed.as_ref(), totals),
    })
}

/// The boats compared that are priced in the opinion's currency, each with what it comes to after its steps.
fn compared(state: &State, opinion: &OpinionOfValue) -> Vec<(String, f64, f64)> {
    let all = state.comparables().map(|c| c.payload);
    let same = all.filter(|c| c.currency == opinion.currency);
    same.map(|c| (c.title.clone(), c.price, c.price + c.adjustments.iter().map(|a| a.amount).sum::<f64>())).collect()
}

/// What the boats compared point to after their steps: their median with its exact range.
fn pointed_to(state: &State, of: &OpinionOfValue) -> Option<estimate::value::Opinion> {
    let adjusted = compared(state, of).into_iter().map(|(name, _, price)| estimate::value::Comparable {
        name,
        price,
        status: estimate::value::Status::Unknown,
        length_m: None,
        adjustments: Vec::new(),
    });
    opinion(&adjusted.collect::<Vec<_>>(), &estimate::value::Adjustments::default()).ok()
}

/// Draws the boats compared, what they point to, the repairs and the opinion over one axis.
fn side_by_side(
    state: &State,
    of: &OpinionOfValue,
    pointed: Option<&estimate::value::Opinion>,
    totals: Option<&Totals>,
) -> Option<Plan> {
    let compared = compared(state, of).into_iter();
    let mut rows: Vec<WorthRow> =
        compared.map(|(name, price, adjusted)| WorthRow::Compared { name, price, adjusted }).collect();
    let range = |name: &str, (low, middle, high): (f64, f64, f64), wanted: bool| WorthRow::Range {
        name: name.to_owned(),
        low,
        middle,
        high,
        wanted,
    };
    rows.extend(pointed.map(|p| range("what they point to", (p.low, p.middle, p.high), false)));
    rows.extend(totals.map(|t| range("the work of the estimate", (t.p10, t.p50, t.p90), false)));
    if rows.is_empty() {
        return None;
    }
    rows.push(range("the surveyor’s opinion", (of.low, of.middle, of.high), true));
    let words = |row: &WorthRow| match row {
        WorthRow::Compared { name, price, adjusted } => {
            format!("{name}: {}, after the steps {}", amount(*price), amount(*adjusted))
        }
        WorthRow::Range { name, low, middle, high, .. } => {
            format!("{name}: {} to {}, middle {}", amount(*low), amount(*high), amount(*middle))
        }
    };
    let description = format!("In {}. {}.", of.currency, rows.iter().map(words).collect::<Vec<_>>().join("; "));
    let sheet = drawing::worth("Value side by side", &description, &of.currency, &rows);
    let caption = "Boats compared (open circle: the price; full circle: after the steps to this boat), the ranges that follow, and the surveyor’s opinion.";
    Some(Plan { caption: caption.to_owned(), sheet, key: Vec::new() })
}

/// Says what follows by arithmetic alone, so that the surveyor's opinion can be held against it.
fn by_arithmetic(
    of: &OpinionOfValue,
    pointed: Option<&estimate::value::Opinion>,
    totals: Option<&Totals>,
) -> Vec<String> {
    let money = |value: f64| format!("{} {}", of.currency, amount(value.round()));
    let mut notes = Vec::new();
    let Some(p) = pointed else { return notes };
    let range =
        if p.adjusted.len() > 1 { format!(" (from {} to {})", money(p.low), money(p.high)) } else { String::new() };
    notes.push(format!("The boats compared, after their steps, point to {}{range}: {}.", money(p.middle), p.method));
    // Of nothing, or of less, there is no share.
    if let Some(t) = totals.filter(|_| p.middle > 0.0) {
        let found = as_found(p.middle, t.p50, 0.0);
        notes.push(format!(
            "The work of the estimate comes to {:.0} % of that. If the boats compared are taken as she would be with that work done, {} is left by subtraction of the middle figures, before any allowance for trouble and for what is not opened; the range of the work alone moves it from {} to {}.",
            100.0 * found.ratio,
            money(t.rounded(found.value)),
            money(t.rounded(as_found(p.middle, t.p90, 0.0).value)),
            money(t.rounded(as_found(p.middle, t.p10, 0.0).value)),
        ));
    }
    notes
}
