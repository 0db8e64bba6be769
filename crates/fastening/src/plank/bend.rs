//! How sharp a plank is bent, against what is known of cold and steamed bending.

use crate::Fault;
use timber::Mark;

/// A known limit and how the bend lies to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// What it is a limit of.
    pub what: &'static str,
    /// Least radius over thickness, low and high of the source.
    pub least_r_over_t: (f64, f64),
    /// What it rests on.
    pub mark: Mark,
    /// Source.
    pub source: &'static str,
    /// How the bend lies to it.
    pub reading: Reading,
}

/// How a bend lies to a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Gentler than the limit.
    Gentler,
    /// Within the range of the limit.
    AtLimit,
    /// Sharper than the limit.
    Sharper,
}

/// A bend described.
#[derive(Clone, Debug, PartialEq)]
pub struct Bend {
    /// Radius over thickness.
    pub r_over_t: f64,
    /// Strain of the outer face, %: t/(2R).
    pub strain_percent: f64,
    /// The limits, from the gentlest.
    pub limits: Vec<Limit>,
    /// In a sentence.
    pub reading: String,
}

/// Returns how a bend lies to the known limits. `cold_limit_strain` is MOR/E of the wood, when known; it adds the
/// limit for clear wood bent cold.
///
/// # Errors
/// When thickness or radius is not a length.
pub fn bend(thickness_mm: f64, radius_m: f64, cold_limit_strain: Option<f64>) -> Result<Bend, Fault> {
    let t = Fault::between("thickness_mm", thickness_mm, 2.0, 300.0)?;
    let r = Fault::between("radius_m", radius_m, 0.02, f64::INFINITY)? * 1000.0;
    let r_over_t = r / t;
    let strain = t / (2.0 * r);
    let read = |(low, high): (f64, f64)| match r_over_t {
        x if x >= high => Reading::Gentler,
        x if x < low => Reading::Sharper,
        _ => Reading::AtLimit,
    };
    let limit = |what, least_r_over_t, mark, source| Limit {
        what,
        least_r_over_t,
        mark,
        source,
        reading: read(least_r_over_t),
    };
    let cold = cold_limit_strain.map(|e| 1.0 / (2.0 * e)).filter(|x| x.is_finite());
    let cold_range = cold.map_or((55.0, 85.0), |x| (x, x));
    let limits = vec![
        limit(
            "bending stress from forming may be left out of account",
            (240.0, 240.0),
            Mark::Read,
            "EN 1995-1-1 (Eurocode 5), glued laminated timber",
        ),
        limit(
            "curved laminations, softwood 125 and hardwood 100",
            (100.0, 125.0),
            Mark::FromMemory,
            "National Design Specification (2018) 5.3.8",
        ),
        limit(
            "clear wood breaks when bent cold",
            cold_range,
            Mark::Derived,
            "MOR/E of the wood; wood that yields in compression goes somewhat beyond",
        ),
        limit(
            "steamed without strap, outer face stretched 1 to 2 %",
            (25.0, 50.0),
            Mark::FromMemory,
            "Forest Products Laboratory bending handbooks",
        ),
        limit(
            "southern pine steamed with strap and end pressure, three pieces in four good",
            (12.0, 16.0),
            Mark::Read,
            "Lemoine and Koch (1971), abstract",
        ),
        limit(
            "oak, ash, elm steamed with strap",
            (2.0, 4.0),
            Mark::FromMemory,
            "Forest Products Laboratory bending handbooks",
        ),
    ];
    let reading = match r_over_t {
        x if x >= cold_range.1 && strain <= 0.005 => "Gentle enough to be sprung on cold.".to_owned(),
        x if x >= cold_range.1 => {
            "It can be sprung on cold, but its outer face is strained over 0.5 %: fastenings at its ends work from the \
             day it is hung (a convention of this workbench)."
                .to_owned()
        }
        x if x >= cold_range.0 => "At the limit of what clear wood bears cold.".to_owned(),
        x if x >= 25.0 => {
            "Sharper than clear wood bears cold: it was steamed, laminated or sawn to shape, and its free shape is not \
             straight. Reckon with the radius it takes when freed."
                .to_owned()
        }
        _ => "So sharp that it was steamed with a strap, laminated or sawn to shape.".to_owned(),
    };
    Ok(Bend { r_over_t, strain_percent: strain * 100.0, limits, reading })
}
