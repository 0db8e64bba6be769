//! Hatching as lines of its own, for formats that know no filling.

use crate::Hatch;

/// Returns the hatch lines inside a closed outline, at 45° rising to the right on paper (y downwards), cut by the
/// even-odd rule. Bare, paper and wash have none.
pub(crate) fn lines(outline: &[(f64, f64)], hatch: Hatch) -> Vec<[(f64, f64); 2]> {
    let pitch = match hatch {
        Hatch::Sparse => 2.4,
        Hatch::Close => 0.9,
        Hatch::Solid => 0.2,
        Hatch::Dots => 1.5,
        Hatch::Bare | Hatch::Paper | Hatch::Wash => return Vec::new(),
    };
    // Turned by 45°, hatch lines are level: along = (x - y)/√2, across = (x + y)/√2.
    let root = std::f64::consts::FRAC_1_SQRT_2;
    let turned: Vec<(f64, f64)> = outline.iter().map(|(x, y)| ((x - y) * root, (x + y) * root)).collect();
    let (low, high) = turned.iter().fold((f64::MAX, f64::MIN), |(l, h), p| (l.min(p.1), h.max(p.1)));
    if !(high - low).is_finite() || high - low > 5000.0 {
        return Vec::new();
    }
    let mut out = Vec::new();
    // Lines lie on one grid for the whole sheet, so that neighbouring patches of one condition join.
    let mut k = (low / pitch).ceil();
    while k * pitch < high {
        let level = k * pitch;
        let mut cuts: Vec<f64> = Vec::new();
        for (i, a) in turned.iter().enumerate() {
            let b = turned[(i + 1) % turned.len()];
            if (a.1 <= level) != (b.1 <= level) {
                cuts.push(a.0 + (level - a.1) / (b.1 - a.1) * (b.0 - a.0));
            }
        }
        cuts.sort_by(f64::total_cmp);
        k += 1.0;
        for pair in cuts.chunks_exact(2) {
            let back = |along: f64| ((along + level) * root, (level - along) * root);
            if hatch == Hatch::Dots {
                // A dot is a stroke so short that it plots as one.
                let mut dot = (pair[0] / pitch).ceil() * pitch;
                while dot < pair[1] {
                    out.push([back(dot - 0.1), back(dot + 0.1)]);
                    dot += pitch;
                }
                continue;
            }
            out.push([back(pair[0]), back(pair[1])]);
        }
    }
    out
}
