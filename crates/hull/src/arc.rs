//! Lines on the surface with their length from the rabbet, and its area.

use crate::{Surface, spline::gauss4, surface::Row};

/// A line of constant u with its length from the rabbet.
pub(crate) struct ULine<'a> {
    pub(crate) row: Row<'a>,
    at: Vec<f64>,
    length: Vec<f64>,
}

impl<'a> ULine<'a> {
    pub(crate) fn new(row: Row<'a>, breaks: &[f64]) -> Self {
        let mut length = vec![0.0];
        let mut sum = 0.0;
        for p in breaks.windows(2) {
            sum += gauss4(p[0], p[1], |v| speed(&row, v));
            length.push(sum);
        }
        ULine { row, at: breaks.to_vec(), length }
    }

    pub(crate) fn length(&self) -> f64 {
        self.length[self.length.len() - 1]
    }

    pub(crate) fn length_to(&self, v: f64) -> f64 {
        let i = self.at.partition_point(|b| *b <= v).clamp(1, self.at.len() - 1) - 1;
        self.length[i] + gauss4(self.at[i], v, |t| speed(&self.row, t))
    }

    pub(crate) fn v_at(&self, length: f64) -> f64 {
        invert_length(&self.at, &self.length, length, |v| speed(&self.row, v))
    }

    pub(crate) fn point(&self, share: f64) -> [f64; 3] {
        self.row.at(self.v_at(share * self.length()))
    }
}

/// A section of constant distance aft, with its girth from the keel or stem up.
pub(crate) struct SectionGirth<'a> {
    surface: &'a Surface,
    x: f64,
    at: Vec<f64>,
    length: Vec<f64>,
}

impl<'a> SectionGirth<'a> {
    pub(crate) fn new(surface: &'a Surface, x: f64, low: f64, high: f64) -> Self {
        let mut at = vec![low];
        at.extend(surface.v_breaks().into_iter().filter(|v| *v > low && *v < high));
        at.push(high);
        let mut section = SectionGirth { surface, x, at, length: vec![0.0] };
        let mut sum = 0.0;
        for i in 1..section.at.len() {
            sum += gauss4(section.at[i - 1], section.at[i], |v| section.speed(v));
            section.length.push(sum);
        }
        section
    }

    pub(crate) fn speed(&self, v: f64) -> f64 {
        let (_, d) = self.surface.on_section(self.x, v);
        libm::hypot(d[0], d[1])
    }

    pub(crate) fn length(&self) -> f64 {
        self.length[self.length.len() - 1]
    }

    pub(crate) fn v_at(&self, length: f64) -> f64 {
        invert_length(&self.at, &self.length, length, |v| self.speed(v))
    }
}

pub(crate) fn invert_length(at: &[f64], lengths: &[f64], wanted: f64, speed: impl Fn(f64) -> f64) -> f64 {
    let total = lengths[lengths.len() - 1];
    if total <= 0.0 {
        return at[0];
    }
    let wanted = wanted.clamp(0.0, total);
    let i = lengths.partition_point(|l| *l <= wanted).clamp(1, at.len() - 1);
    let (low, high) = (at[i - 1], at[i]);
    let piece = lengths[i] - lengths[i - 1];
    let wanted = wanted - lengths[i - 1];
    let mut v = low + (high - low) * if piece > 0.0 { wanted / piece } else { 0.0 };
    for _ in 0..10 {
        let here = speed(v);
        let miss = gauss4(low, v, &speed) - wanted;
        if here <= 0.0 || miss.abs() <= 1e-13 * total {
            break;
        }
        v = (v - miss / here).clamp(low, high);
    }
    v
}

pub(crate) fn speed(row: &Row<'_>, v: f64) -> f64 {
    let (_, _, d) = row.all(v);
    dot(&d, &d).sqrt()
}

/// Area of the surface for a unit of u and of v.
pub(crate) fn patch(row: &Row<'_>, v: f64) -> f64 {
    let (_, a, b) = row.all(v);
    let n = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
    dot(&n, &n).sqrt()
}

pub(crate) fn dot(a: &[f64; 3], b: &[f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(crate) fn long(a: &[f64; 3], b: &[f64; 3]) -> f64 {
    let d: [f64; 3] = std::array::from_fn(|k| a[k] - b[k]);
    dot(&d, &d).sqrt()
}
