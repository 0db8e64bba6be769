//! A measured quantity over the shell as contours, blank where nothing was measured near.

use super::{
    annotate,
    fitted::Fitted,
    labels::Labels,
    page::{self, Field as Room, Paper},
};
use crate::{Basis, HullError, Layout, Patch, Place, Side, spline::invert};
use drawing::{Ink, Pen, Shape, Sheet};
use std::collections::BTreeMap;

/// One reading on the planking.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Where; for a stretch its middle.
    pub place: Patch,
    /// The value.
    pub value: f64,
    /// The name of the entry it is from, for a page that is pointed at; or empty.
    pub entry: String,
}

/// What is measured, and how far a reading speaks for its surroundings.
#[derive(Clone, Debug, PartialEq)]
pub struct Quantity {
    /// What is measured, e.g. `moisture of the planking`.
    pub name: String,
    /// Unit, e.g. `%`.
    pub unit: String,
    /// Standard deviation of one reading, in the unit.
    pub sd: f64,
    /// Distance over which readings still resemble each other, along the planking, in metres.
    pub reach_along_m: f64,
    /// The same across the strakes.
    pub reach_across_m: f64,
}

/// The estimate at one point of the shell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// Value.
    pub value: f64,
    /// Standard deviation.
    pub sd: f64,
    /// Share of the spread of all readings that the readings near by leave open: 1 where nothing is known.
    pub open: f64,
}

/// An estimate over the shell of one side: readings weighed by nearness.
///
/// Value and deviation are those of a Gaussian process about the mean of the readings, with covariance
/// s² exp(-d²/2), d the distance in reaches (simple kriging; any text of spatial statistics).
#[derive(Clone, Debug)]
pub struct FieldEstimate {
    at: Vec<(f64, f64)>,
    weights: Vec<f64>,
    inverse: Vec<Vec<f64>>,
    mean: f64,
    spread: f64,
    reach: (f64, f64),
}

impl FieldEstimate {
    /// Prepares the estimate from readings at points (along, up) of a layout, in metres.
    ///
    /// # Errors
    /// Refuses fewer than three readings, more than 400, and reaches or deviations not above 0.
    pub fn new(at: &[(f64, f64)], values: &[f64], quantity: &Quantity) -> Result<FieldEstimate, HullError> {
        let n = at.len();
        if !(3..=400).contains(&n) || values.len() != n {
            return Err(HullError::value("The number of readings for contours", n, "3 to 400"));
        }
        let (a, b) = (quantity.reach_along_m, quantity.reach_across_m);
        if !(a > 0.0 && b > 0.0 && quantity.sd > 0.0) || values.iter().any(|v| !v.is_finite()) {
            let value = format!("{a} m, {b} m, {}", quantity.sd);
            return Err(HullError::value(
                "Reach or standard deviation of the readings",
                value,
                "more than 0 each, and finite readings",
            ));
        }
        let mean = values.iter().sum::<f64>() / n as f64;
        let variance = values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / (n - 1) as f64;
        let spread = variance.max(quantity.sd * quantity.sd).sqrt();
        let mut field =
            FieldEstimate { at: at.to_vec(), weights: Vec::new(), inverse: Vec::new(), mean, spread, reach: (a, b) };
        let matrix: Vec<Vec<f64>> = (0..n)
            .map(|i| {
                (0..n)
                    .map(|j| field.alike(at[i], at[j]) + if i == j { quantity.sd * quantity.sd } else { 0.0 })
                    .collect()
            })
            .collect();
        let inverse = invert(matrix);
        field.inverse = inverse
            .ok_or_else(|| HullError::value("The readings", "too close together", "readings apart from each other"))?;
        field.weights =
            field.inverse.iter().map(|row| row.iter().zip(values).map(|(w, v)| w * (v - mean)).sum()).collect();
        Ok(field)
    }

    /// Returns the estimate at a point (along, up) of the layout.
    pub fn at(&self, p: (f64, f64)) -> Estimate {
        let k: Vec<f64> = self.at.iter().map(|q| self.alike(p, *q)).collect();
        let value = self.mean + k.iter().zip(&self.weights).map(|(k, w)| k * w).sum::<f64>();
        let told: f64 = k
            .iter()
            .zip(&self.inverse)
            .filter(|(k, _)| **k > 1e-9)
            .map(|(ki, row)| ki * row.iter().zip(&k).map(|(w, kj)| w * kj).sum::<f64>())
            .sum();
        let left = (self.spread * self.spread - told).max(0.0);
        Estimate { value, sd: left.sqrt(), open: left / (self.spread * self.spread) }
    }

    fn alike(&self, p: (f64, f64), q: (f64, f64)) -> f64 {
        let d = ((p.0 - q.0) / self.reach.0).powi(2) + ((p.1 - q.1) / self.reach.1).powi(2);
        self.spread * self.spread * libm::exp(-0.5 * d)
    }
}

/// Beyond this share left open nothing is drawn; beyond the second the lines are faint.
const BLANK: f64 = 0.6;
const FAINT: f64 = 0.25;

/// Returns a side of the shell with contours of a quantity: full lines where readings stand near, faint lines where they
/// stand further off, nothing where there are none; each reading as a dot with its value.
///
/// # Errors
/// Refuses readings that [`FieldEstimate::new`] refuses and places that the boat does not have.
pub fn field(
    paper: impl Into<Paper>,
    layout: &Layout,
    side: Side,
    quantity: &Quantity,
    readings: &[Reading],
) -> Result<Sheet, HullError> {
    let paper = paper.into();
    let page = paper.page;
    let here: Vec<&Reading> = readings.iter().filter(|r| r.place.side == side).collect();
    let at = here.iter().map(|r| layout.middle(&r.place)).collect::<Result<Vec<_>, _>>()?;
    let values: Vec<f64> = here.iter().map(|r| r.value).collect();
    let estimate = FieldEstimate::new(&at, &values, quantity)?;
    let levels = levels(&values);

    let unit = if quantity.unit.is_empty() { String::new() } else { format!(", {}", quantity.unit) };
    let title = format!("{}{unit}, {side} side", capital(&quantity.name));
    let note = format!(
        "Contours from {} readings, each ± {} (one standard deviation), alike over about {} m along and {} m across. Full \
         lines: readings near, within ± {}. Faint lines: further off, within ± {}. Blank: nothing measured near.{}",
        values.len(),
        trimmed(quantity.sd),
        trimmed(quantity.reach_along_m),
        trimmed(quantity.reach_across_m),
        trimmed(estimate.spread * FAINT.sqrt()),
        trimmed(estimate.spread * BLANK.sqrt()),
        if layout.basis == Basis::Schematic { " Schematic: distances are invented." } else { "" }
    );
    let (mut sheet, room) = page::begin(&paper, &title, &note, &[], &[]);
    let letter = page.letter_mm;
    let inner = Room {
        left: room.left + letter * 2.0,
        right: room.right - letter * 2.0,
        top: room.top + letter,
        bottom: room.bottom - letter * 2.4,
    };
    let high = (0..=layout.strakes()).filter_map(|k| layout.seam(k)).flatten().map(|p| p.1).fold(1e-6, f64::max);
    let turn = |p: (f64, f64)| if side == Side::Port { p } else { (layout.length_m - p.0, p.1) };
    let fit = Fitted::new(&inner, [0.0, 0.0, layout.length_m, high]);
    let put = |p: (f64, f64)| fit.at(turn(p));
    let line = |points: &[(f64, f64)]| points.iter().map(|p| put(*p)).collect::<Vec<_>>();
    for k in 0..=layout.strakes() {
        let pen = if k == 0 || k == layout.strakes() { Pen::MIDDLE } else { Pen::FAINT };
        sheet.add(Shape::line(line(layout.seam(k).unwrap_or_default())).pen(pen));
    }
    for end in [true, false] {
        let edge: Vec<_> = (0..=layout.strakes())
            .filter_map(|k| {
                let s = layout.seam(k)?;
                if end { s.first() } else { s.last() }.copied()
            })
            .collect();
        sheet.add(Shape::line(line(&edge)).pen(Pen::MIDDLE));
    }
    let mut labels = Labels::within(room.left, room.top, room.right, room.bottom);
    let mut dots = Vec::new();
    for (p, reading) in at.iter().zip(&here) {
        let q = put(*p);
        labels.take(q.0 - 0.7, q.1 - 0.7, q.0 + 0.7, q.1 + 0.7);
        dots.push((q, *reading));
    }
    let mut lettering = Vec::new();
    let mut contours = Vec::new();
    for level in &levels {
        for (faint, run) in runs(layout, &estimate, *level) {
            let pen =
                if faint { Pen::THIN.ink(Ink::Faint) } else { Pen { width_mm: 0.3, ink: Ink::Main, dashed: false } };
            let drawn = line(&run);
            if let (true, Some(middle)) = (run.len() > 6, drawn.get(drawn.len() / 2)) {
                lettering.extend(labels.centred(*middle, page.small_mm() * 0.9, &trimmed(*level), Ink::Main));
            }
            contours.push(Shape::line(drawn).pen(pen));
        }
    }
    sheet.add(Shape::group("contours", format!("Contours at {} levels", levels.len()), contours));
    for (q, reading) in dots {
        let dot = Shape::circle(q, 0.45).pen(Pen::THIN.ink(Ink::Accent)).hatch(drawing::Hatch::Paper);
        let word = trimmed(reading.value);
        let dot = Shape::group("mark", format!("{}: {word}{unit}", quantity.name), vec![dot]);
        sheet.add(annotate::told(dot, &reading.entry, &Place::Shell(reading.place)));
        lettering.extend(labels.beside(q, 0.9, page.small_mm() * 0.85, &word, Ink::Accent));
    }
    sheet.add(Shape::group("words", "", lettering));
    fit.mark_scale(&mut sheet, page, (room.right - 1.0, room.bottom - letter * 0.3), layout.basis == Basis::Schematic);
    sheet.description = format!(
        "Contours of {}{unit} over the {side} side from {} readings between {} and {}; blank where nothing was measured near.",
        quantity.name,
        values.len(),
        trimmed(values.iter().copied().fold(f64::MAX, f64::min)),
        trimmed(values.iter().copied().fold(f64::MIN, f64::max))
    );
    Ok(sheet)
}

/// Round levels, about seven over the range.
fn levels(values: &[f64]) -> Vec<f64> {
    let (low, high) = values.iter().fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(*v), h.max(*v)));
    let rough = (high - low) / 7.0;
    if rough <= 0.0 {
        return Vec::new();
    }
    let power = libm::pow(10.0, libm::floor(libm::log10(rough)));
    let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|m| m * power).find(|s| *s >= rough).unwrap_or(rough);
    let first = (low / step).ceil();
    (0..20).map(|i| (first + f64::from(i)) * step).take_while(|l| *l <= high).collect()
}

/// A grid point of the layout with the estimate there.
type Node = ((f64, f64), Estimate);

/// The runs of one contour: cut through a grid of triangles and joined end to end.
fn runs(layout: &Layout, estimate: &FieldEstimate, level: f64) -> Vec<(bool, Vec<(f64, f64)>)> {
    let (columns, rows) = (90, 2 * layout.strakes());
    let node = |i: usize, j: usize| -> Option<Node> {
        let (strake, across) = if j == rows { (layout.strakes(), 1.0) } else { (j / 2 + 1, 0.5 * (j % 2) as f64) };
        let p = layout.point(strake, across, layout.length_m * i as f64 / columns as f64)?;
        Some((p, estimate.at(p)))
    };
    let grid: Vec<Vec<Option<Node>>> = (0..=columns).map(|i| (0..=rows).map(|j| node(i, j)).collect()).collect();
    let mut pieces: [Vec<[(f64, f64); 2]>; 2] = [Vec::new(), Vec::new()];
    for i in 0..columns {
        for j in 0..rows {
            let corners = [grid[i][j], grid[i + 1][j], grid[i + 1][j + 1], grid[i][j + 1]];
            for triple in [[0, 1, 2], [0, 2, 3]] {
                let Some(t) = triple.iter().map(|k| corners[*k]).collect::<Option<Vec<_>>>() else { continue };
                let open = t.iter().map(|n| n.1.open).fold(0.0, f64::max);
                if open > BLANK {
                    continue;
                }
                let mut cuts = Vec::new();
                for (a, b) in [(0, 1), (1, 2), (2, 0)] {
                    let (p, q) = (t[a], t[b]);
                    if (p.1.value < level) != (q.1.value < level) {
                        let s = (level - p.1.value) / (q.1.value - p.1.value);
                        cuts.push((p.0.0 + s * (q.0.0 - p.0.0), p.0.1 + s * (q.0.1 - p.0.1)));
                    }
                }
                if let [a, b] = cuts[..] {
                    pieces[usize::from(open > FAINT)].push([a, b]);
                }
            }
        }
    }
    let [near, far] = pieces;
    let joined = joined(near).into_iter().map(|r| (false, r));
    joined.chain(self::joined(far).into_iter().map(|r| (true, r))).collect()
}

/// Joins pieces that meet end to end, in a fixed order.
fn joined(pieces: Vec<[(f64, f64); 2]>) -> Vec<Vec<(f64, f64)>> {
    let key = |p: (f64, f64)| ((p.0 * 1e6).round() as i64, (p.1 * 1e6).round() as i64);
    let mut ends: BTreeMap<(i64, i64), Vec<usize>> = BTreeMap::new();
    for (i, piece) in pieces.iter().enumerate() {
        for p in piece {
            ends.entry(key(*p)).or_default().push(i);
        }
    }
    let mut used = vec![false; pieces.len()];
    let mut runs = Vec::new();
    for start in 0..pieces.len() {
        if used[start] {
            continue;
        }
        used[start] = true;
        let mut run = pieces[start].to_vec();
        for _ in 0..2 {
            while let Some(tip) = run.last().copied() {
                let next = ends.get(&key(tip)).and_then(|list| list.iter().copied().find(|i| !used[*i]));
                let Some(next) = next else { break };
                used[next] = true;
                let [a, b] = pieces[next];
                run.push(if key(a) == key(tip) { b } else { a });
            }
            run.reverse();
        }
        runs.push(run);
    }
    runs
}

fn trimmed(value: f64) -> String {
    let text = format!("{:.2}", value);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
