//! The family of sections, and its fullness from girths.

use super::{Particulars, curves::Curves};
use crate::{
    Girth,
    spline::{Monotone, solve},
};

/// One section of the family.
pub(super) struct Shape {
    pub(super) siding: f64,
    pub(super) b: f64,
    pub(super) foot: f64,
    pub(super) depth: f64,
    pub(super) waterline: Option<f64>,
}

pub(super) const USUAL_P: f64 = 2.1;
pub(super) const USUAL_Q: f64 = 1.3;

impl Shape {
    pub(super) fn y(&self, t: f64, p: f64, q: f64) -> f64 {
        self.siding + (self.b - self.siding) * libm::pow(1.0 - libm::pow((1.0 - t).max(0.0), p), 1.0 / q)
    }

    pub(super) fn points(&self, p: f64, q: f64) -> Vec<(f64, f64)> {
        // Closer at the foot, where the section turns fastest.
        (0..=16)
            .map(|i| {
                let t = libm::pow(f64::from(i) / 16.0, 1.6);
                (self.y(t, p, q), self.foot + self.depth * t)
            })
            .collect()
    }

    pub(super) fn girth(&self, p: f64, q: f64) -> f64 {
        let points: Vec<[f64; 2]> = self.points(p, q).iter().map(|p| [p.0, p.1]).collect();
        Girth::through(&points).map_or(0.0, |g| g.length())
    }

    /// The q at which the section passes through the waterline's half-breadth.
    pub(super) fn q_for_waterline(&self, p: f64) -> f64 {
        let Some(y) = self.waterline else { return USUAL_Q };
        let t = -self.foot / self.depth;
        let share = ((y - self.siding) / (self.b - self.siding)).clamp(0.02, 0.999);
        let full = 1.0 - libm::pow(1.0 - t.clamp(0.01, 0.99), p);
        // share = full^(1/q)
        (libm::log(full) / libm::log(share)).clamp(0.5, 6.0)
    }
}

/// The power p along the boat: from the girths measured, fair between.
pub(super) fn fullness(p: &Particulars, curves: &Curves, assumed: &mut Vec<String>) -> Option<Monotone> {
    let mut known: Vec<(f64, f64)> = Vec::new();
    for s in &p.sections {
        let Some(girth) = s.girth_m else { continue };
        let shape = curves.section(s.from_stem_m);
        known.push((s.from_stem_m, solve_p(&shape, girth)));
    }
    known.sort_by(|a, b| a.0.total_cmp(&b.0));
    known.dedup_by(|a, b| (a.0 - b.0).abs() < 1e-6);
    match known.len() {
        0 => assumed.push(
            "No girth was measured: usual fullness was assumed for the whole boat, and areas may be a tenth out."
                .to_owned(),
        ),
        1 => assumed.push(format!(
            "One girth only, {:.2} m abaft the stem: its fullness was taken for the whole boat.",
            known[0].0
        )),
        _ => {}
    }
    if p.sections.iter().all(|s| s.waterline_half_breadth_m.is_none()) {
        assumed.push("No half-breadth was measured at the waterline: 0.94 of half the beam amidships and a usual plan were assumed.".to_owned());
    }
    if known.is_empty() {
        known.push((0.5 * p.length_m, USUAL_P));
    }
    let (x, values): (Vec<f64>, Vec<f64>) = known.into_iter().unzip();
    Monotone::through(&x, &values)
}

/// The p at which the girth is met, q following the waterline: damped Newton on ln p, held by a weak pull to the usual.
pub(super) fn solve_p(shape: &Shape, girth: f64) -> f64 {
    let scale = 0.004 * girth;
    let mut e = libm::log(USUAL_P);
    let misfit = |e: f64| {
        let p = libm::exp(e);
        ((shape.girth(p, shape.q_for_waterline(p)) - girth) / scale, (e - libm::log(USUAL_P)) / 1.5)
    };
    let cost = |e: f64| {
        let (a, b) = misfit(e);
        a * a + b * b
    };
    let mut damping = 1e-3;
    for _ in 0..60 {
        let (a, b) = misfit(e);
        let h = 1e-5;
        let (a2, b2) = misfit(e + h);
        let (ja, jb) = ((a2 - a) / h, (b2 - b) / h);
        let normal = vec![vec![(ja * ja + jb * jb) * (1.0 + damping)]];
        let Some(step) = solve(normal, vec![-(ja * a + jb * b)]) else { break };
        let next = (e + step[0]).clamp(libm::log(0.6), libm::log(9.0));
        if cost(next) < cost(e) {
            damping *= 0.3;
            let done = (next - e).abs() < 1e-10;
            e = next;
            if done {
                break;
            }
        } else {
            damping *= 8.0;
            if damping > 1e9 {
                break;
            }
        }
    }
    libm::exp(e)
}
