//! A section as a smooth curve, measured along itself.

use crate::{
    HullError,
    spline::{Cubic, Ends, gauss4},
};

/// A curve through points in space or across the boat, with its length from the first point.
#[derive(Clone, Debug)]
pub struct Girth<const D: usize> {
    curves: Option<Vec<Cubic>>,
    only: [f64; D],
    /// Parameter at the breaks, and the length up to each.
    at: Vec<f64>,
    length: Vec<f64>,
}

impl<const D: usize> Girth<D> {
    /// Returns the curve through points, by cubic splines over the length of the chords. Points nearer to each other
    /// than a thousandth of a millimetre count once; a single point gives a curve of no length.
    ///
    /// # Errors
    /// Refuses no points at all and figures that are not finite.
    pub fn through(points: &[[f64; D]]) -> Result<Self, HullError> {
        let first = *points.first().ok_or_else(|| HullError::Missing("has a section without points".to_owned()))?;
        if points.iter().flatten().any(|v| !v.is_finite()) {
            return Err(HullError::value("A point of a section", "not a number", "finite figures"));
        }
        let mut kept = vec![first];
        let mut at = vec![0.0];
        for p in points {
            let chord = distance(p, kept.last().unwrap_or(&first));
            if chord > 1e-6 {
                at.push(at.last().copied().unwrap_or(0.0) + chord);
                kept.push(*p);
            }
        }
        if kept.len() < 2 {
            return Ok(Self { curves: None, only: first, at: vec![0.0], length: vec![0.0] });
        }
        let mut curves = Vec::with_capacity(D);
        for axis in 0..D {
            let values: Vec<f64> = kept.iter().map(|p| p[axis]).collect();
            curves.push(Cubic::through(&at, &values, Ends::NotAKnot)?);
        }
        let mut girth = Self { curves: Some(curves), only: first, at: Vec::new(), length: vec![0.0] };
        // Each span in four: the speed along the curve is then smooth enough for the sum to hold ten figures.
        let mut breaks = vec![0.0];
        for pair in at.windows(2) {
            breaks.extend((1..=4).map(|i| pair[0] + (pair[1] - pair[0]) * f64::from(i) / 4.0));
        }
        for pair in breaks.windows(2) {
            let piece = gauss4(pair[0], pair[1], |t| girth.speed(t));
            girth.length.push(girth.length.last().copied().unwrap_or(0.0) + piece);
        }
        girth.at = breaks;
        Ok(girth)
    }

    /// Returns the whole length.
    pub fn length(&self) -> f64 {
        self.length.last().copied().unwrap_or(0.0)
    }

    /// Returns the point at a length from the first point, kept within the curve.
    pub fn point(&self, length: f64) -> [f64; D] {
        let Some(curves) = &self.curves else { return self.only };
        let t = self.parameter(length);
        std::array::from_fn(|axis| curves[axis].at(t))
    }

    fn parameter(&self, length: f64) -> f64 {
        let length = length.clamp(0.0, self.length());
        let i = self.length.partition_point(|l| *l <= length).clamp(1, self.length.len() - 1);
        let (low, high) = (self.at[i - 1], self.at[i]);
        let wanted = length - self.length[i - 1];
        let piece = self.length[i] - self.length[i - 1];
        let mut t = low + (high - low) * if piece > 0.0 { wanted / piece } else { 0.0 };
        for _ in 0..8 {
            let miss = gauss4(low, t, |t| self.speed(t)) - wanted;
            let speed = self.speed(t);
            if speed <= 0.0 || miss.abs() < 1e-13 * self.length() {
                break;
            }
            t = (t - miss / speed).clamp(low, high);
        }
        t
    }

    fn speed(&self, t: f64) -> f64 {
        let Some(curves) = &self.curves else { return 0.0 };
        curves.iter().map(|c| c.slope(t).powi(2)).sum::<f64>().sqrt()
    }
}

impl Girth<2> {
    /// Returns the net turning of the tangent from the first point to the last, in radians, hollow counting
    /// negative for a section that opens upwards and outwards.
    ///
    /// With it the girth outside of plank is the girth inside plus thickness times turning (parallel curves).
    pub fn turning_rad(&self) -> f64 {
        let Some(curves) = &self.curves else { return 0.0 };
        let angle = |t: f64| libm::atan2(curves[1].slope(t), curves[0].slope(t));
        let mut total = 0.0;
        let mut last = angle(self.at[0]);
        for t in self.at.iter().skip(1) {
            let here = angle(*t);
            let mut step = here - last;
            while step > std::f64::consts::PI {
                step -= std::f64::consts::TAU;
            }
            while step < -std::f64::consts::PI {
                step += std::f64::consts::TAU;
            }
            total += step;
            last = here;
        }
        total
    }

    /// Returns the girth over planking of a thickness laid on this section as its inside, in metres.
    ///
    /// g_out = g_in + t θ, exact for parallel curves while no hollow is sharper than the thickness.
    pub fn over_plank_m(&self, thickness_m: f64) -> f64 {
        self.length() + thickness_m * self.turning_rad()
    }
}

fn distance<const D: usize>(a: &[f64; D], b: &[f64; D]) -> f64 {
    a.iter().zip(b).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt()
}
