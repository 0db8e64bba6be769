//! How far the surface runs from the points it was laid through.

use crate::{Lines, Surface};

/// One point of the lines and its distance from the surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Deviation {
    /// Station.
    pub station: String,
    /// Height of the point, in metres.
    pub height_m: f64,
    /// Distance from the surface within the station's plane, in millimetres.
    pub off_mm: f64,
}

/// Returns the distance of every point of the sections from the surface, in the sections' order. Points beyond the
/// edges, which the edges replace, are left out.
pub fn deviations(surface: &Surface, lines: &Lines) -> Vec<Deviation> {
    let mut all = Vec::new();
    for section in &lines.sections {
        let Some((low, high)) = surface.section_range(section.x_m) else { continue };
        let steps = 96;
        let at = |i: usize| low + (high - low) * i as f64 / steps as f64;
        let samples: Vec<(f64, f64)> = (0..=steps)
            .map(|i| {
                let (p, _) = surface.on_section(section.x_m, at(i));
                (p.y_m, p.z_m)
            })
            .collect();
        let foot = samples[0].1.min(samples[steps].1);
        for point in &section.points {
            if low > 0.0 && point.1 < foot {
                continue;
            }
            let gap = |p: &(f64, f64)| libm::hypot(p.0 - point.0, p.1 - point.1);
            let best = (0..=steps).min_by(|a, b| gap(&samples[*a]).total_cmp(&gap(&samples[*b]))).unwrap_or(0);
            let (mut a, mut b) = (at(best.saturating_sub(1)), at((best + 1).min(steps)));
            let off = |v: f64| {
                let (p, _) = surface.on_section(section.x_m, v);
                gap(&(p.y_m, p.z_m))
            };
            for _ in 0..30 {
                let (c, d) = (a + 0.382 * (b - a), a + 0.618 * (b - a));
                if off(c) < off(d) { b = d } else { a = c }
            }
            let off_mm = off(0.5 * (a + b)).min(gap(&samples[best])) * 1000.0;
            all.push(Deviation { station: section.name.clone(), height_m: point.1, off_mm });
        }
    }
    all
}
