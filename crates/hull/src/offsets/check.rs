//! Checking a table: what cannot be meant is refused; what is merely odd is a doubt, offered and never applied.

use super::Offsets;
use crate::{
    HullError,
    spline::{Cubic, Ends},
};

/// A value that deserves a second look.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// Station, as the table names it.
    pub station: String,
    /// Line of the boat.
    pub line: String,
    /// The value as read, in metres.
    pub value_m: f64,
    /// What the neighbours suggest, in metres, when they suggest something.
    pub suggested_m: Option<f64>,
    /// Why, in one sentence.
    pub why: String,
}

type Level = (f64, Vec<Option<f64>>, usize);

pub(crate) fn half_breadth(y: f64, line: usize, station: &str, what: &str) -> Result<(), HullError> {
    if y >= 0.0 {
        return Ok(());
    }
    Err(HullError::Table {
        line,
        place: format!("station {station}, {what}"),
        why: format!("the half-breadth is {y} m; accepted is 0 or more, measured from the centre plane"),
    })
}

pub(crate) fn growing(names: &[String], xs: &[f64], line: usize) -> Result<(), HullError> {
    let up = xs.last() >= xs.first();
    for (i, pair) in xs.windows(2).enumerate() {
        if (pair[1] > pair[0]) != up || pair[1] == pair[0] {
            return Err(HullError::Table {
                line,
                place: format!("stations {} and {}", names[i], names[i + 1]),
                why: format!("x goes from {} m to {} m, against the run of the table", pair[0], pair[1]),
            });
        }
    }
    Ok(())
}

/// Looks for slips of the pen and for level lines that cross.
#[expect(clippy::needless_range_loop, reason = "the index names a station or an axis in several tables at once")]
pub(crate) fn doubtful_levels(doubts: &mut Vec<Doubt>, names: &[String], xs: &[f64], levels: &[Level]) {
    crossings(doubts, names, levels);
    let greatest = levels.iter().flat_map(|l| l.1.iter().flatten()).fold(0.0f64, |m, y| m.max(*y));
    let n = names.len();
    let mut along = vec![vec![None; n]; levels.len()];
    let mut up = vec![vec![None; n]; levels.len()];
    for (j, level) in levels.iter().enumerate() {
        let known: Vec<(f64, f64, usize)> = (0..n).filter_map(|i| level.1[i].map(|y| (xs[i], y, i))).collect();
        for (k, miss) in left_out(&known) {
            along[j][known[k].2] = Some(miss);
        }
    }
    for i in 0..n {
        let known: Vec<(f64, f64, usize)> =
            levels.iter().enumerate().filter_map(|(j, l)| l.1[i].map(|y| (l.0, y, j))).collect();
        for (k, miss) in left_out(&known) {
            up[known[k].2][i] = Some(miss);
        }
    }
    let (sd_along, sd_up) = (robust_sd(&along), robust_sd(&up));
    let mut found: Vec<(f64, Doubt)> = Vec::new();
    for (j, level) in levels.iter().enumerate() {
        for i in 0..n {
            let Some(value) = level.1[i] else { continue };
            let miss = match (along[j][i], up[j][i]) {
                (Some(a), Some(u)) => {
                    let alike = a * u > 0.0 && (0.35..2.9).contains(&(a / u).abs());
                    let far = a.abs() > 4.0 * sd_along && u.abs() > 4.0 * sd_up && a.abs() > 0.004;
                    if alike && far { Some(if sd_along < sd_up { a } else { u }) } else { None }
                }
                // At the table's ends only one direction can tell, and only of gross slips.
                (None, Some(one)) | (Some(one), None)
                    if one.abs() > 0.3 * greatest && one.abs() > 4.0 * sd_up.max(sd_along) =>
                {
                    Some(one)
                }
                _ => None,
            };
            if let Some(miss) = miss {
                found.push((
                    miss.abs(),
                    Doubt {
                        station: names[i].clone(),
                        line: format!("half-breadth at {:.3} m", level.0),
                        value_m: value,
                        suggested_m: Some(value - miss),
                        why: format!(
                            "It stands {:.0} mm off the fair run of its neighbours, which suggest {:.3} m.",
                            miss.abs() * 1000.0,
                            value - miss
                        ),
                    },
                ));
            }
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    doubts.extend(found.into_iter().map(|f| f.1));
}

/// Two neighbouring level lines cross when one is wider on both neighbours of a station and narrower there.
#[expect(clippy::needless_range_loop, reason = "the index names a station or an axis in several tables at once")]
fn crossings(doubts: &mut Vec<Doubt>, names: &[String], levels: &[Level]) {
    for pair in levels.windows(2) {
        let gap = |i: usize| Some(pair[1].1[i]? - pair[0].1[i]?);
        for i in 1..names.len().saturating_sub(1) {
            if let (Some(a), Some(b), Some(c)) = (gap(i - 1), gap(i), gap(i + 1))
                && a > 1e-3
                && c > 1e-3
                && b < -1e-3
            {
                doubts.push(Doubt {
                    station: names[i].clone(),
                    line: format!("half-breadths at {:.3} and {:.3} m", pair[0].0, pair[1].0),
                    value_m: pair[1].1[i].unwrap_or_default(),
                    suggested_m: None,
                    why: "The two level lines cross here and uncross at the next station; one of the two values is likely wrong.".to_owned(),
                });
            }
        }
    }
}

/// A buttock's height must lie on the section that the level lines give.
pub(crate) fn buttocks_agree(doubts: &mut Vec<Doubt>, station: &str, points: &[(f64, f64, usize)]) {
    for pair in points.windows(2) {
        let (dy, dz) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
        if dz.abs() < 1e-6 && dy.abs() > 0.02 && pair[0].2 != pair[1].2 {
            doubts.push(Doubt {
                station: station.to_owned(),
                line: format!("level line and buttock at height {:.3} m", pair[0].1),
                value_m: pair[0].0,
                suggested_m: None,
                why: format!(
                    "They meet at the same height with half-breadths {:.3} and {:.3} m.",
                    pair[0].0, pair[1].0
                ),
            });
        }
    }
}

/// Warns of particulars that hardly any boat has.
pub(crate) fn particulars(offsets: &mut Offsets) {
    let all: Vec<[f64; 3]> = offsets
        .lines
        .sections
        .iter()
        .flat_map(|s| s.points.iter().map(|p| [s.x_m, p.0, p.1]))
        .chain([&offsets.lines.bow, &offsets.lines.stern].into_iter().flatten().flat_map(|e| e.points.clone()))
        .collect();
    let range = |k: usize| {
        let (low, high) = all.iter().fold((f64::MAX, f64::MIN), |(l, h), p| (l.min(p[k]), h.max(p[k])));
        if low <= high { high - low } else { 0.0 }
    };
    let beam = 2.0 * all.iter().map(|p| p[1]).fold(0.0, f64::max);
    let (length, depth) = (range(0), range(2));
    let mut doubt = |line: &str, value: f64, why: String| {
        offsets.doubts.push(Doubt {
            station: "all".to_owned(),
            line: line.to_owned(),
            value_m: value,
            suggested_m: None,
            why,
        });
    };
    if beam > length && length > 0.0 {
        doubt(
            "beam",
            beam,
            format!("The beam of {beam:.3} m is larger than the length of {length:.3} m; look at units and columns."),
        );
    }
    if depth > 1.5 * beam && beam > 0.0 {
        doubt(
            "depth",
            depth,
            format!("The depth of {depth:.3} m is more than one and a half times the beam of {beam:.3} m."),
        );
    }
    let xs: Vec<f64> = offsets.lines.sections.iter().map(|s| s.x_m).collect();
    let mut gaps: Vec<f64> = xs.windows(2).map(|p| p[1] - p[0]).collect();
    gaps.sort_by(f64::total_cmp);
    if let Some(middle) = gaps.get(gaps.len() / 2).copied() {
        for (i, pair) in xs.windows(2).enumerate() {
            if xs.len() > 3 && pair[1] - pair[0] > 2.2 * middle {
                let (a, b) = (&offsets.lines.sections[i].name, &offsets.lines.sections[i + 1].name);
                offsets.assumed.push(format!(
                    "Between stations {a} and {b} lie {:.2} m without a station, more than twice the usual; the surface runs through there as a batten would.",
                    pair[1] - pair[0]
                ));
            }
        }
    }
}

/// Each interior value against the spline through the others: (index, value - prediction).
fn left_out(known: &[(f64, f64, usize)]) -> Vec<(usize, f64)> {
    if known.len() < 5 {
        return Vec::new();
    }
    (1..known.len() - 1)
        .filter_map(|k| {
            let others: Vec<_> = known.iter().enumerate().filter(|(i, _)| *i != k).map(|(_, p)| p).collect();
            let x: Vec<f64> = others.iter().map(|p| p.0).collect();
            let y: Vec<f64> = others.iter().map(|p| p.1).collect();
            let curve = Cubic::through(&x, &y, Ends::NotAKnot).ok()?;
            Some((k, known[k].1 - curve.at(known[k].0)))
        })
        .collect()
}

/// 1.4826 times the median absolute deviation, with a floor of half a millimetre.
fn robust_sd(misses: &[Vec<Option<f64>>]) -> f64 {
    let mut all: Vec<f64> = misses.iter().flatten().flatten().map(|m| m.abs()).collect();
    all.sort_by(f64::total_cmp);
    all.get(all.len() / 2).map_or(0.0, |m| m * 1.4826).max(0.0005)
}
