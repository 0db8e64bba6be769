//! The radius of a plank from what can be measured with a string or a straight edge.

use crate::Fault;

/// A curvature with the spread that reading errors give it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curvature {
    /// Curvature, 1/mm; positive when convex outwards.
    pub per_mm: f64,
    /// Its standard deviation, 1/mm.
    pub sd_per_mm: f64,
}

impl Curvature {
    /// Returns the radius in m; infinite when straight.
    pub fn radius_m(&self) -> f64 {
        1.0 / self.per_mm.abs() / 1000.0
    }

    /// Returns the least and greatest radius in m within two standard deviations; the greatest is infinite when
    /// the plank may be straight.
    pub fn radius_range_m(&self) -> (f64, f64) {
        let (k, spread) = (self.per_mm.abs(), 2.0 * self.sd_per_mm);
        let least = 1.0 / (k + spread) / 1000.0;
        (least, if k > spread { 1.0 / (k - spread) / 1000.0 } else { f64::INFINITY })
    }
}

/// Returns the curvature under a string of chord c with rise h at its middle: R = (c² + 4 h²)/(8 h).
///
/// # Errors
/// When chord or rise is not a length, or the rise is over half the chord.
pub fn from_string(chord_mm: f64, rise_mm: f64, sd_mm: f64) -> Result<Curvature, Fault> {
    let c = Fault::between("chord_mm", chord_mm, 50.0, 30_000.0)?;
    let h = Fault::positive("rise_mm", rise_mm)?;
    let sd = Fault::between("offset_sd_mm", sd_mm, 0.0, 100.0)?;
    if h > c / 2.0 {
        return Err(Fault::value(
            "rise_mm",
            h,
            "this is more than half the chord",
            format!("a rise up to {} mm", c / 2.0),
        ));
    }
    let per_mm = 8.0 * h / (c * c + 4.0 * h * h);
    Ok(Curvature { per_mm, sd_per_mm: per_mm * sd / h })
}

/// Returns the curvature of the circle through three points measured from a straight edge held outside the plank
/// at equal spacing s: offsets y₁, y₂, y₃ from the edge to the plank. Convex planking comes nearest in the middle.
///
/// # Errors
/// When a figure is not a length.
pub fn from_three_offsets(spacing_mm: f64, offsets_mm: [f64; 3], sd_mm: f64) -> Result<Curvature, Fault> {
    let s = Fault::between("offset_spacing_mm", spacing_mm, 20.0, 10_000.0)?;
    let sd = Fault::between("offset_sd_mm", sd_mm, 0.0, 100.0)?;
    for y in offsets_mm {
        Fault::between("offsets_mm", y, -5000.0, 5000.0)?;
    }
    let [y1, y2, y3] = offsets_mm;
    // Circumradius R = abc/(4 K) of the triangle; twice its area is s (y₁ − 2 y₂ + y₃).
    let twice_area = s * (y1 - 2.0 * y2 + y3);
    let (a, b, c) = (s.hypot(y2 - y1), s.hypot(y3 - y2), (2.0 * s).hypot(y3 - y1));
    let per_mm = 2.0 * twice_area / (a * b * c);
    Ok(Curvature { per_mm, sd_per_mm: 6.0_f64.sqrt() * sd / (s * s) })
}

/// Returns the curvature of a stated radius; negative for hollow planking.
///
/// # Errors
/// When the radius is not from 0.02 to 1000 m.
pub fn from_radius(radius_m: f64, hollow: bool) -> Result<Curvature, Fault> {
    let r = Fault::between("radius_m", radius_m, 0.02, 1000.0)?;
    Ok(Curvature { per_mm: if hollow { -1.0 } else { 1.0 } / (r * 1000.0), sd_per_mm: 0.0 })
}
