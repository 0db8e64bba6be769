//! Lettering that keeps clear of other lettering.

use drawing::{Anchor, Ink, Pen, Shape};

/// Boxes already taken by lettering and marks, in millimetres: left, top, right, bottom.
#[derive(Debug, Default)]
pub(crate) struct Labels {
    taken: Vec<[f64; 4]>,
    limits: [f64; 4],
}

impl Labels {
    /// Returns an empty sheet part within the limits left, top, right, bottom.
    pub(crate) fn within(left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Self { taken: Vec::new(), limits: [left, top, right, bottom] }
    }

    /// Keeps a box clear of later lettering.
    pub(crate) fn take(&mut self, left: f64, top: f64, right: f64, bottom: f64) {
        self.taken.push([left, top, right, bottom]);
    }

    /// Returns whether a box is still free.
    pub(crate) fn free(&self, spot: [f64; 4]) -> bool {
        let [l, t, r, b] = self.limits;
        let inside = spot[0] >= l && spot[1] >= t && spot[2] <= r && spot[3] <= b;
        inside && self.taken.iter().all(|o| spot[2] <= o[0] || spot[0] >= o[2] || spot[3] <= o[1] || spot[1] >= o[3])
    }

    /// Returns lettering beside a point at the first of a few spots that is free, with paper behind it and, when
    /// it had to go further off, a thin leader. Where nothing is free the lettering goes right beside the point.
    pub(crate) fn beside(&mut self, at: (f64, f64), clear_mm: f64, size_mm: f64, words: &str, ink: Ink) -> Vec<Shape> {
        if words.is_empty() {
            return Vec::new();
        }
        let (w, h) = (width_mm(words, size_mm), size_mm * 1.05);
        let mut found = None;
        'search: for ring in 0..14 {
            let gap = clear_mm + f64::from(ring) * 2.4;
            let spots = [
                (at.0 + gap, at.1 - h / 2.0),
                (at.0 - gap - w, at.1 - h / 2.0),
                (at.0 - w / 2.0, at.1 - gap - h),
                (at.0 - w / 2.0, at.1 + gap),
                (at.0 + gap, at.1 - gap - h),
                (at.0 + gap, at.1 + gap),
                (at.0 - gap - w, at.1 - gap - h),
                (at.0 - gap - w, at.1 + gap),
            ];
            for (x, y) in spots {
                if self.free([x, y, x + w, y + h]) {
                    found = Some((x, y, ring > 0));
                    break 'search;
                }
            }
        }
        let (x, y, far) = found.unwrap_or((at.0 + clear_mm, at.1 - h / 2.0, false));
        self.take(x - 0.3, y - 0.1, x + w + 0.3, y + h + 0.1);
        let mut shapes = Vec::new();
        if far {
            let end = (at.0.clamp(x, x + w), at.1.clamp(y, y + h));
            let (dx, dy) = (end.0 - at.0, end.1 - at.1);
            let long = libm::hypot(dx, dy).max(1e-9);
            let start = (at.0 + dx / long * clear_mm * 0.8, at.1 + dy / long * clear_mm * 0.8);
            shapes.push(Shape::line([start, end]).pen(Pen { width_mm: 0.13, ink, dashed: false }));
        }
        shapes.push(
            Shape::rectangle(x - 0.25, y + size_mm * 0.06, w + 0.5, size_mm * 0.96)
                .pen(Pen::NONE)
                .hatch(drawing::Hatch::Paper),
        );
        shapes.push(Shape::text((x, y + size_mm * 0.82), size_mm, words).inked(ink));
        shapes
    }

    /// Returns lettering centred on a point when it is free there; nothing otherwise.
    pub(crate) fn centred(&mut self, at: (f64, f64), size_mm: f64, words: &str, ink: Ink) -> Vec<Shape> {
        let (w, h) = (width_mm(words, size_mm), size_mm);
        let spot = [at.0 - w / 2.0, at.1 - h / 2.0, at.0 + w / 2.0, at.1 + h / 2.0];
        if !self.free(spot) {
            return Vec::new();
        }
        self.taken.push(spot);
        let paper = Shape::rectangle(spot[0] - 0.2, spot[1], w + 0.4, h).pen(Pen::NONE).hatch(drawing::Hatch::Paper);
        vec![paper, Shape::text((at.0, at.1 + size_mm * 0.34), size_mm, words).anchored(Anchor::Middle).inked(ink)]
    }
}

/// Returns about how wide lettering runs, in millimetres: letters of a plain sans are about half an em wide.
pub(crate) fn width_mm(words: &str, size_mm: f64) -> f64 {
    let units: f64 = words
        .chars()
        .map(|c| match c {
            'i' | 'j' | 'l' | 'I' | '.' | ',' | ':' | ';' | '\'' | '|' | ' ' | 'f' | 't' | 'r' | '(' | ')' => 0.32,
            'm' | 'w' | 'M' | 'W' | '%' => 0.84,
            c if c.is_uppercase() => 0.64,
            _ => 0.52,
        })
        .sum();
    units * size_mm
}
