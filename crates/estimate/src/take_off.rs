//! From a piece on the drawing to quantities, and from quantities to estimate lines by the user's own list of rates.

use crate::line::Table;
use crate::quantities::{BOARD_FOOT_M3, frame_crossings};
use crate::{Fault, Line, Shape, Spread};

/// A piece of planking between two seams, as measured on a drawing of the shell laid flat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Length along its middle, in metres.
    pub length_m: f64,
    /// Area of one face, in square metres.
    pub area_m2: f64,
    /// Greatest width, in metres.
    pub widest_m: f64,
    /// Both edges together: the seams to be caulked, ends left out, in metres.
    pub edges_m: f64,
}

impl Piece {
    /// Measures what lies between a lower and an upper edge, each given as points (along, up) in metres at the same number
    /// of stations. The area is that of the quadrilaterals between the stations: exact for straight edges.
    ///
    /// # Errors
    /// The edges have not the same number of points, two or more, or a figure is not finite.
    pub fn between(lower: &[(f64, f64)], upper: &[(f64, f64)]) -> Result<Self, Fault> {
        if lower.len() != upper.len() || lower.len() < 2 {
            let accepted = "as many points on the lower edge as on the upper, two or more".to_owned();
            return Err(Fault::Range { name: "a number of points".to_owned(), given: lower.len() as f64, accepted });
        }
        if let Some(bad) = lower.iter().chain(upper).find(|p| !(p.0.is_finite() && p.1.is_finite())) {
            let accepted = "finite figures in metres".to_owned();
            return Err(Fault::Range { name: "a point of an edge".to_owned(), given: bad.0 + bad.1, accepted });
        }
        let gap = |a: (f64, f64), b: (f64, f64)| libm::hypot(b.0 - a.0, b.1 - a.1);
        let run = |line: &[(f64, f64)]| line.windows(2).map(|w| gap(w[0], w[1])).sum::<f64>();
        let middle: Vec<(f64, f64)> =
            lower.iter().zip(upper).map(|(a, b)| ((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0)).collect();
        let cells = lower.windows(2).zip(upper.windows(2));
        let area_m2 = cells.map(|(l, u)| quadrilateral(l[0], l[1], u[1], u[0])).sum();
        Ok(Self {
            length_m: run(&middle),
            area_m2,
            widest_m: lower.iter().zip(upper).map(|(a, b)| gap(*a, *b)).fold(0.0, f64::max),
            edges_m: run(lower) + run(upper),
        })
    }
}

/// Area of a quadrilateral by the shoelace formula.
fn quadrilateral(a: (f64, f64), b: (f64, f64), c: (f64, f64), d: (f64, f64)) -> f64 {
    let cross = |p: (f64, f64), q: (f64, f64)| p.0 * q.1 - q.0 * p.1;
    ((cross(a, b) + cross(b, c) + cross(c, d) + cross(d, a)) / 2.0).abs()
}

/// What the work on a piece takes beside the piece itself: all the user's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowances {
    /// Finished thickness in millimetres.
    pub thickness_mm: f64,
    /// Share of the timber bought that becomes the finished piece, in percent.
    pub yield_percent: f64,
    /// Frame spacing in millimetres.
    pub spacing_mm: f64,
    /// Fastenings at each frame.
    pub per_crossing: u64,
    /// Butts of the piece, each with two plank ends.
    pub butts: u64,
    /// Fastenings in one plank end at a butt.
    pub per_butt_end: u64,
}

/// Units in which work on planking is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unit {
    /// Cubic metres of timber to buy.
    TimberM3,
    /// Board feet of timber to buy.
    TimberBoardFeet,
    /// Metres of plank.
    PlankM,
    /// Square metres of one face.
    FaceM2,
    /// Fastenings.
    Fastening,
    /// Metres of seam.
    SeamM,
    /// The piece as a whole.
    Piece,
}

impl Unit {
    /// All of them.
    pub const ALL: [Unit; 7] =
        [Unit::TimberM3, Unit::TimberBoardFeet, Unit::PlankM, Unit::FaceM2, Unit::Fastening, Unit::SeamM, Unit::Piece];

    /// Returns its name in a list of rates.
    pub fn name(self) -> &'static str {
        match self {
            Unit::TimberM3 => "timber_m3",
            Unit::TimberBoardFeet => "timber_board_feet",
            Unit::PlankM => "plank_m",
            Unit::FaceM2 => "face_m2",
            Unit::Fastening => "fastening",
            Unit::SeamM => "seam_m",
            Unit::Piece => "piece",
        }
    }
}

/// Returns how much of each unit a piece takes.
///
/// # Errors
/// An allowance makes no sense.
pub fn quantities(piece: &Piece, allowances: &Allowances) -> Result<Vec<(Unit, f64)>, Fault> {
    let a = allowances;
    if !(a.yield_percent > 0.0 && a.yield_percent <= 100.0) {
        let accepted = "a number above 0, up to 100".to_owned();
        return Err(Fault::Range { name: "a yield in percent".to_owned(), given: a.yield_percent, accepted });
    }
    if !(a.thickness_mm > 0.0 && a.thickness_mm.is_finite()) {
        let accepted = "a number above 0".to_owned();
        return Err(Fault::Range { name: "a thickness in millimetres".to_owned(), given: a.thickness_mm, accepted });
    }
    let crossings = frame_crossings(piece.length_m * 1000.0, a.spacing_mm)?;
    let fastenings = crossings * a.per_crossing + a.butts * 2 * a.per_butt_end;
    let timber = piece.area_m2 * a.thickness_mm / 1000.0 / (a.yield_percent / 100.0);
    Ok(vec![
        (Unit::TimberM3, timber),
        (Unit::TimberBoardFeet, timber / BOARD_FOOT_M3),
        (Unit::PlankM, piece.length_m),
        (Unit::FaceM2, piece.area_m2),
        (Unit::Fastening, fastenings as f64),
        (Unit::SeamM, piece.edges_m),
        (Unit::Piece, 1.0),
    ])
}

/// What one unit of some work costs or takes, by the user's own list: money in any one currency, or hours.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitRate {
    /// The work.
    pub item: String,
    /// What it is counted in.
    pub unit: Unit,
    /// Trade that does it; empty for none.
    pub trade: String,
    /// Cost or hours of one unit: low, likely, high.
    pub each: (f64, f64, f64),
    /// Who gave it, where and when.
    pub source: String,
}

/// Reads rates by the unit from a CSV with the columns `item, unit, low, likely, high` and, if wanted, `trade`, `source`.
///
/// # Errors
/// A column is missing, a cell cannot be read, a unit is not known, or three figures are out of order.
pub fn read_unit_rates(csv: &str) -> Result<Vec<UnitRate>, Fault> {
    let table = Table::read(csv)?;
    table
        .need(&["item", "unit", "low", "likely", "high"], "item, unit, low, likely, high and optional trade, source")?;
    let one = |row: crate::line::TableRow<'_>| {
        let item = row.words("item").unwrap_or_default().to_owned();
        let named = row.words("unit").unwrap_or_default().to_lowercase();
        let unit = Unit::ALL.into_iter().find(|unit| unit.name() == named);
        let unit = unit.ok_or_else(|| row.fault("unit", &Unit::ALL.map(Unit::name).join(", ")))?;
        let each = (row.needed("low")?, row.needed("likely")?, row.needed("high")?);
        Spread::new(&item, each.0, each.1, each.2, Shape::Triangular)?;
        let words = |column: &str| row.words(column).unwrap_or_default().to_owned();
        Ok(UnitRate { item, unit, trade: words("trade"), each, source: words("source") })
    };
    table.rows().map(one).collect()
}

/// Returns an estimate line for every rate: quantity times low, likely and high. Lines of one trade bear its name, so that
/// they can be added up together.
///
/// # Errors
/// A product is too large to be a figure.
pub fn lines(quantities: &[(Unit, f64)], rates: &[UnitRate]) -> Result<Vec<(Unit, f64, Line)>, Fault> {
    let one = |rate: &UnitRate| {
        let quantity = quantities.iter().find(|(unit, _)| *unit == rate.unit).map_or(0.0, |(_, quantity)| *quantity);
        let (low, likely, high) = rate.each;
        let line = Line::new(&rate.item, low * quantity, likely * quantity, high * quantity)?;
        Ok((rate.unit, quantity, Line { trade: rate.trade.clone(), ..line }))
    };
    rates.iter().map(one).collect()
}
