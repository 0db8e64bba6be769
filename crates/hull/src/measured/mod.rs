//! A plausible hull from what can be measured in an hour, where no lines exist.
//!
//! The height datum is the load waterline (0, heights up), the distance datum the foremost point of the stem. What was
//! not measured is assumed and said; the fit to what was measured is shown. Lengths and areas taken from such a hull
//! carry at least the error of the fit.

mod curves;
mod section;

use crate::{Deviation, Fairing, Girth, HullError, Lines, Section, Stern, Surface};
use curves::Curves;
use section::{USUAL_P, fullness};

/// What was measured at one place along the boat. Everything but the place may be left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MeasuredSection {
    /// Distance abaft the foremost point of the stem, in metres.
    pub from_stem_m: f64,
    /// Girth from rabbet to sheer, one side, in metres.
    pub girth_m: Option<f64>,
    /// Half-breadth at the waterline, in metres.
    pub waterline_half_breadth_m: Option<f64>,
    /// Half-breadth at the sheer, in metres.
    pub sheer_half_breadth_m: Option<f64>,
    /// Height of the sheer above the waterline, in metres.
    pub freeboard_m: Option<f64>,
    /// Depth of the rabbet below the waterline, in metres.
    pub rabbet_depth_m: Option<f64>,
}

/// What a surveyor can measure in an hour.
#[derive(Clone, Debug, PartialEq)]
pub struct Particulars {
    /// Length over the planking, in metres.
    pub length_m: f64,
    /// Length on the waterline, in metres.
    pub waterline_length_m: f64,
    /// Greatest beam, in metres.
    pub beam_m: f64,
    /// Depth of the rabbet below the waterline at its lowest, in metres (not the draft of keel or ballast).
    pub rabbet_draft_m: f64,
    /// Freeboard at stem, at its least, and at the stern, in metres.
    pub freeboards_m: [f64; 3],
    /// What stands at the after end.
    pub stern: Stern,
    /// Half-breadth of the transom or archboard at the sheer, in metres; 0 for a double-ender.
    pub transom_half_breadth_m: f64,
    /// Profile of the stem's rabbet, (abaft the stem, height), from below up, when taken.
    pub stem: Vec<(f64, f64)>,
    /// Profile of the sternpost or of the transom's middle line, from below up, when taken.
    pub stern_profile: Vec<(f64, f64)>,
    /// What was measured along the boat.
    pub sections: Vec<MeasuredSection>,
}

/// A hull fitted to measurements.
#[derive(Clone, Debug)]
pub struct FittedHull {
    /// Its lines.
    pub lines: Lines,
    /// Its surface. Heights are above the load waterline.
    pub surface: Surface,
    /// How far the fitted hull is from each measurement: station `7.35 m`, and the difference in millimetres, fitted
    /// less measured. Heights in this list are not used.
    pub residuals: Vec<(String, f64)>,
    /// How far the surface runs from the fitted sections themselves.
    pub deviations: Vec<Deviation>,
    /// What was assumed, in sentences.
    pub assumed: Vec<String>,
    /// What looks odd, in sentences.
    pub warnings: Vec<String>,
}

/// Fits a hull.
///
/// Sections: y = s + (b - s)[1 - (1 - t)^p]^(1/q) with t the share of the height from rabbet to sheer; p and q from
/// girth and half-breadth at the waterline by damped least squares; between stations with a girth, p runs fair.
///
/// # Errors
/// Refuses particulars that no boat has: beam not less than length, waterline longer than the hull, measures not above
/// 0, sections beyond the ends.
pub fn fit(particulars: &Particulars) -> Result<FittedHull, HullError> {
    check(particulars)?;
    let p = particulars;
    let mut assumed = Vec::new();
    let mut warnings = Vec::new();
    let curves = Curves::new(p, &mut assumed)?;
    let mut stations: Vec<f64> = (1..12).map(|i| p.length_m * f64::from(i) / 12.0).collect();
    for s in &p.sections {
        stations.retain(|x| (x - s.from_stem_m).abs() > 0.03 * p.length_m);
        stations.push(s.from_stem_m);
    }
    stations.sort_by(f64::total_cmp);
    stations.retain(|x| curves.depth_at(*x) > 0.12 * p.freeboards_m[1]);

    let fullness = fullness(p, &curves, &mut assumed);
    let mut sections = Vec::new();
    for x in &stations {
        let shape = curves.section(*x);
        let power = fullness.as_ref().map_or(USUAL_P, |f| f.at(*x));
        let q = shape.q_for_waterline(power);
        sections.push(Section { name: format!("{x:.2} m"), x_m: *x, points: shape.points(power, q) });
    }
    let lines =
        Lines { sections, bow: Some(curves.bow.clone()), stern: Some(curves.stern.clone()), stern_kind: p.stern };
    let surface = Surface::through(&lines, Fairing::default())?;
    let residuals = residuals(p, &surface);
    let deviations = crate::deviations(&surface, &lines);
    if let Ok(h) = surface.hydrostatics(0.0) {
        // Usual ranges of sailing hulls without their keels (from memory): to warn by, not to judge by.
        if !(0.48..=0.62).contains(&h.cp) {
            warnings.push(format!("The prismatic coefficient of the fitted hull is {:.2}; 0.50 to 0.58 is usual for sailing hulls (from memory).", h.cp));
        }
        let miss = (h.waterline_length_m - p.waterline_length_m) * 1000.0;
        if miss.abs() > 20.0 {
            warnings.push(format!("The fitted hull's waterline is {miss:+.0} mm off the length given; stem, stern and freeboards do not agree with it."));
        }
    }
    if let Some(worst) = residuals.iter().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
        && worst.1.abs() > 30.0
    {
        warnings.push(format!(
            "The fit misses {} by {:+.0} mm; look at that measurement, or measure her neighbours.",
            worst.0, worst.1
        ));
    }
    Ok(FittedHull { lines, surface, residuals, deviations, assumed, warnings })
}

fn check(p: &Particulars) -> Result<(), HullError> {
    let above = |what: &str, v: f64| {
        if v > 0.0 && v.is_finite() { Ok(()) } else { Err(HullError::value(what, v, "more than 0 m")) }
    };
    above("The length in metres", p.length_m)?;
    above("The waterline's length in metres", p.waterline_length_m)?;
    above("The beam in metres", p.beam_m)?;
    above("The rabbet's draft in metres", p.rabbet_draft_m)?;
    for (name, f) in
        ["The freeboard at the stem", "The least freeboard", "The freeboard at the stern"].iter().zip(p.freeboards_m)
    {
        above(&format!("{name} in metres"), f)?;
    }
    if p.beam_m >= p.length_m {
        return Err(HullError::value(
            "The beam in metres",
            p.beam_m,
            format!("less than the length of {} m", p.length_m),
        ));
    }
    if p.waterline_length_m > p.length_m {
        let accepted = format!("at most the length over all, {} m", p.length_m);
        return Err(HullError::value("The waterline's length in metres", p.waterline_length_m, accepted));
    }
    if p.rabbet_draft_m > 1.5 * p.beam_m {
        let accepted = format!("at most one and a half times the beam of {} m, measured to the rabbet", p.beam_m);
        return Err(HullError::value("The rabbet's draft in metres", p.rabbet_draft_m, accepted));
    }
    if !(0.0..=0.5 * p.beam_m + 1e-9).contains(&p.transom_half_breadth_m) {
        return Err(HullError::value(
            "The transom's half-breadth in metres",
            p.transom_half_breadth_m,
            "0 to half the beam",
        ));
    }
    for (i, s) in p.sections.iter().enumerate() {
        let place = format!("Measured section {}, {} m abaft the stem", i + 1, s.from_stem_m);
        if !(s.from_stem_m > 0.02 * p.length_m && s.from_stem_m < 0.98 * p.length_m) {
            return Err(HullError::Place {
                place,
                why: "it lies at or beyond the ends; accepted are places between them".into(),
            });
        }
        for v in [s.girth_m, s.waterline_half_breadth_m, s.sheer_half_breadth_m, s.freeboard_m].into_iter().flatten() {
            above(&place, v)?;
        }
        for y in [s.waterline_half_breadth_m, s.sheer_half_breadth_m].into_iter().flatten() {
            if y > 0.55 * p.beam_m {
                return Err(HullError::Place {
                    place,
                    why: format!("half-breadth {y} m is more than half the beam of {} m", p.beam_m),
                });
            }
        }
    }
    Ok(())
}

fn residuals(p: &Particulars, surface: &Surface) -> Vec<(String, f64)> {
    let mut all = Vec::new();
    for s in &p.sections {
        let x = s.from_stem_m;
        let Some((low, high)) = surface.section_range(x) else { continue };
        let steps = 200;
        let points: Vec<[f64; 2]> = (0..=steps)
            .map(|i| {
                let (q, _) = surface.on_section(x, low + (high - low) * f64::from(i) / f64::from(steps));
                [q.y_m, q.z_m]
            })
            .collect();
        if let (Some(girth), Ok(curve)) = (s.girth_m, Girth::through(&points)) {
            all.push((format!("girth {x:.2} m abaft the stem"), (curve.length() - girth) * 1000.0));
        }
        if let Some(y) = s.waterline_half_breadth_m
            && let Some(w) = points.windows(2).find(|w| w[0][1] < 0.0 && w[1][1] >= 0.0)
        {
            let share = -w[0][1] / (w[1][1] - w[0][1]);
            let fitted = w[0][0] + share * (w[1][0] - w[0][0]);
            all.push((format!("waterline half-breadth {x:.2} m abaft the stem"), (fitted - y) * 1000.0));
        }
        let top = points[points.len() - 1];
        if let Some(y) = s.sheer_half_breadth_m {
            all.push((format!("sheer half-breadth {x:.2} m abaft the stem"), (top[0] - y) * 1000.0));
        }
        if let Some(z) = s.freeboard_m {
            all.push((format!("freeboard {x:.2} m abaft the stem"), (top[1] - z) * 1000.0));
        }
        if let Some(d) = s.rabbet_depth_m {
            all.push((format!("rabbet depth {x:.2} m abaft the stem"), (-points[0][1] - d) * 1000.0));
        }
    }
    all
}
