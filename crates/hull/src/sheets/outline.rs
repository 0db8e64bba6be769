//! The boat's outlines that backbone, framing and deck are drawn on.

use crate::{Basis, Girth, HullError, Surface};

/// Profile and deck line of the boat, in metres abaft the stem and above the rabbet's lowest point.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// What it rests on.
    pub basis: Basis,
    /// Length over the planking.
    pub length_m: f64,
    /// Sheer in profile, from forward.
    pub sheer: Vec<(f64, f64)>,
    /// Rabbet in profile, from the stem head down the stem, along the keel and up the stern.
    pub rabbet: Vec<(f64, f64)>,
    /// Deck edge in plan: (abaft the stem, half-breadth).
    pub deck_edge: Vec<(f64, f64)>,
    /// Transom from its foot up: (half-breadth, height in its own plane); empty when she has none.
    pub transom: Vec<(f64, f64)>,
    /// Height of the load waterline when known.
    pub waterline_m: Option<f64>,
}

impl Outline {
    /// Returns an outline from a length alone, with the shape of no boat in particular.
    ///
    /// # Errors
    /// Refuses a length outside 1 to 200 m.
    pub fn schematic(length_m: f64) -> Result<Outline, HullError> {
        if !(1.0..=200.0).contains(&length_m) {
            return Err(HullError::value("The length over all in metres", length_m, "1 to 200"));
        }
        let l = length_m;
        let at = |points: &[(f64, f64)]| points.iter().map(|(x, y)| (x * l, y * l)).collect::<Vec<_>>();
        let steps = |f: &dyn Fn(f64) -> f64| {
            (0..=40).map(|i| (f64::from(i) / 40.0 * l, f(f64::from(i) / 40.0) * l)).collect::<Vec<_>>()
        };
        let sheer = steps(&|t| 0.185 + 0.075 * ((t - 0.65) / 0.65).powi(2));
        let deck_edge = steps(&|t| {
            if t < 0.54 {
                0.155 * (1.0 - ((0.54 - t) / 0.54).powi(2))
            } else {
                0.155 - 0.06 * ((t - 0.54) / 0.46).powi(2)
            }
        });
        let sheer_aft = 0.185 + 0.075 * (0.35f64 / 0.65).powi(2);
        let mut rabbet = fair(&at(&[
            (0.0, 0.26),
            (0.018, 0.20),
            (0.045, 0.14),
            (0.085, 0.09),
            (0.14, 0.05),
            (0.22, 0.022),
            (0.35, 0.005),
            (0.50, 0.0),
            (0.65, 0.006),
            (0.78, 0.028),
            (0.88, 0.066),
            (0.945, 0.10),
        ]));
        rabbet.push((l, sheer_aft * l));
        let transom = (0..=12)
            .map(|i| {
                let t = f64::from(i) / 12.0;
                ((0.004 + 0.091 * (1.0 - (1.0 - t).powi(2)).sqrt()) * l, (sheer_aft - 0.10) * 1.05 * t * l)
            })
            .collect();
        Ok(Outline {
            basis: Basis::Schematic,
            length_m: l,
            sheer,
            rabbet,
            deck_edge,
            transom,
            waterline_m: Some(0.105 * l),
        })
    }

    /// Returns the outline of a surface; `waterline_m` in the surface's own heights.
    pub fn of(surface: &Surface, basis: Basis, waterline_m: Option<f64>) -> Outline {
        let steps = 60;
        let fore = surface.fore_x_m();
        let share = |i: i32| f64::from(i) / f64::from(steps);
        let keel: Vec<_> = (0..=steps).map(|i| surface.at(share(i), 0.0)).collect();
        let base = keel.iter().map(|p| p.z_m).fold(f64::MAX, f64::min);
        let put = |p: &crate::Point| (p.x_m - fore, p.z_m - base);
        let top: Vec<_> = (0..=steps).map(|i| surface.at(share(i), 1.0)).collect();
        let mut rabbet: Vec<(f64, f64)> = (1..=24).rev().map(|j| put(&surface.at(0.0, f64::from(j) / 24.0))).collect();
        rabbet.extend(keel.iter().map(put));
        let stern: Vec<_> = (0..=24).map(|j| surface.at(1.0, f64::from(j) / 24.0)).collect();
        rabbet.extend(stern.iter().skip(1).map(put));
        let wide = stern.iter().map(|p| p.y_m).fold(0.0, f64::max);
        let mut transom = Vec::new();
        if wide > 0.03 * surface.length_m() {
            let mut up = 0.0;
            for (i, p) in stern.iter().enumerate() {
                if i > 0 {
                    up += libm::hypot(p.x_m - stern[i - 1].x_m, p.z_m - stern[i - 1].z_m);
                }
                transom.push((p.y_m, up));
            }
        }
        Outline {
            basis,
            length_m: surface.length_m(),
            sheer: top.iter().map(put).collect(),
            rabbet,
            deck_edge: top.iter().map(|p| (p.x_m - fore, p.y_m)).collect(),
            transom,
            waterline_m: waterline_m.map(|w| w - base),
        }
    }

    /// Returns the height of the sheer at a distance abaft the stem.
    pub fn sheer_at(&self, x: f64) -> f64 {
        on(&self.sheer, x)
    }

    /// Returns the deck's half-breadth at a distance abaft the stem.
    pub fn deck_at(&self, x: f64) -> f64 {
        on(&self.deck_edge, x)
    }

    /// Returns the lowest height of the rabbet at a distance abaft the stem.
    pub fn rabbet_at(&self, x: f64) -> f64 {
        let mut lowest = f64::MAX;
        for p in self.rabbet.windows(2) {
            let (a, b) = (p[0], p[1]);
            if (a.0 - x) * (b.0 - x) <= 0.0 {
                let share = if (b.0 - a.0).abs() > 1e-12 { (x - a.0) / (b.0 - a.0) } else { 0.0 };
                lowest = lowest.min(a.1 + share * (b.1 - a.1));
            }
        }
        if lowest == f64::MAX { 0.0 } else { lowest }
    }
}

/// A fair curve through points, as a batten would lie.
fn fair(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let through: Vec<[f64; 2]> = points.iter().map(|p| [p.0, p.1]).collect();
    match Girth::through(&through) {
        Ok(curve) => (0..=80)
            .map(|i| {
                let p = curve.point(curve.length() * f64::from(i) / 80.0);
                (p[0], p[1])
            })
            .collect(),
        Err(_) => points.to_vec(),
    }
}

fn on(line: &[(f64, f64)], x: f64) -> f64 {
    let Some(last) = line.last() else { return 0.0 };
    let i = line.partition_point(|p| p.0 < x);
    if i == 0 {
        return line[0].1;
    }
    if i >= line.len() {
        return last.1;
    }
    let (a, b) = (line[i - 1], line[i]);
    a.1 + (b.1 - a.1) * if b.0 > a.0 { (x - a.0) / (b.0 - a.0) } else { 0.0 }
}
