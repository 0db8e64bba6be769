//! The shapes a drawing is made of.

use crate::Hatch;

/// Which of the drawing's few inks a line or letter is drawn in.
///
/// The actual colour belongs to the page (light, dark or print); a drawing names only the role.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Ink {
    /// The drawing's main line.
    #[default]
    Main,
    /// Construction lines, grids, dimension lines.
    Faint,
    /// The one accent: what the reader's eye should go to.
    Accent,
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Pen {
    /// Line width in millimetres on paper; 0 draws no line.
    pub width_mm: f64,
    /// Ink.
    pub ink: Ink,
    /// Whether the line is dashed (used for what was not seen or lies behind).
    pub dashed: bool,
}

impl Pen {
    /// No line at all.
    pub const NONE: Pen = Pen { width_mm: 0.0, ink: Ink::Main, dashed: false };
    /// A thin line, 0.18 mm.
    pub const THIN: Pen = Pen { width_mm: 0.18, ink: Ink::Main, dashed: false };
    /// A middling line, 0.35 mm.
    pub const MIDDLE: Pen = Pen { width_mm: 0.35, ink: Ink::Main, dashed: false };
    /// A thick line, 0.7 mm.
    pub const THICK: Pen = Pen { width_mm: 0.7, ink: Ink::Main, dashed: false };
    /// A faint construction line, 0.13 mm.
    pub const FAINT: Pen = Pen { width_mm: 0.13, ink: Ink::Faint, dashed: false };

    /// Returns the same pen, dashed.
    pub const fn dashed(mut self) -> Pen {
        self.dashed = true;
        self
    }

    /// Returns the same pen in another ink.
    pub const fn ink(mut self, ink: Ink) -> Pen {
        self.ink = ink;
        self
    }
}

/// Which point of a text its position names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Anchor {
    /// The text begins at the point.
    #[default]
    Start,
    /// The text is centred on the point.
    Middle,
    /// The text ends at the point.
    End,
}

/// One shape. Positions and sizes are in millimetres on paper, y downwards; angles in degrees, clockwise.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A run of straight lines, closed or open, with a hatch inside when closed.
    Path {
        /// Points (x, y) in millimetres.
        points: Vec<(f64, f64)>,
        /// Whether the last point joins the first.
        closed: bool,
        /// Outline.
        pen: Pen,
        /// Filling, when closed.
        hatch: Hatch,
    },
    /// A circle.
    Circle {
        /// Centre (x, y) in millimetres.
        centre: (f64, f64),
        /// Radius in millimetres.
        radius_mm: f64,
        /// Outline.
        pen: Pen,
        /// Filling.
        hatch: Hatch,
    },
    /// A line of lettering.
    Text {
        /// Position of the anchor on the baseline, in millimetres.
        at: (f64, f64),
        /// What it says.
        words: String,
        /// Height of the letters' em in millimetres.
        size_mm: f64,
        /// Which point of the text `at` is.
        anchor: Anchor,
        /// Turn about `at`, in degrees clockwise.
        turn_deg: f64,
        /// Ink.
        ink: Ink,
    },
    /// Shapes that belong together, with a name that the page can find again (a member, an entry) and words
    /// for a screen reader.
    Group {
        /// Name, e.g. `strake-port-4`; empty when none is needed.
        name: String,
        /// What the group is, in words; empty when none is needed.
        label: String,
        /// What a page wants to know of the group when it is pointed at, by name: `("strake", "4")`. Written to SVG
        /// only, as `data-strake="4"`.
        data: Vec<(&'static str, String)>,
        /// The shapes.
        shapes: Vec<Shape>,
    },
}

impl Shape {
    /// Returns an open run of lines through the points, in the thin pen.
    pub fn line(points: impl Into<Vec<(f64, f64)>>) -> Shape {
        Shape::Path { points: points.into(), closed: false, pen: Pen::THIN, hatch: Hatch::Bare }
    }

    /// Returns a closed outline through the points, in the thin pen, bare inside.
    pub fn outline(points: impl Into<Vec<(f64, f64)>>) -> Shape {
        Shape::Path { points: points.into(), closed: true, pen: Pen::THIN, hatch: Hatch::Bare }
    }

    /// Returns an upright rectangle with its upper left corner at (x, y).
    pub fn rectangle(x_mm: f64, y_mm: f64, width_mm: f64, height_mm: f64) -> Shape {
        let (right, bottom) = (x_mm + width_mm, y_mm + height_mm);
        Shape::outline([(x_mm, y_mm), (right, y_mm), (right, bottom), (x_mm, bottom)])
    }

    /// Returns a circle in the thin pen, bare inside.
    pub fn circle(centre: (f64, f64), radius_mm: f64) -> Shape {
        Shape::Circle { centre, radius_mm, pen: Pen::THIN, hatch: Hatch::Bare }
    }

    /// Returns lettering that begins at the point, in the main ink.
    pub fn text(at: (f64, f64), size_mm: f64, words: impl Into<String>) -> Shape {
        Shape::Text { at, words: words.into(), size_mm, anchor: Anchor::Start, turn_deg: 0.0, ink: Ink::Main }
    }

    /// Returns a named group.
    pub fn group(name: impl Into<String>, label: impl Into<String>, shapes: Vec<Shape>) -> Shape {
        Shape::Group { name: name.into(), label: label.into(), data: Vec::new(), shapes }
    }

    /// Returns a group that also tells a page the value of a name (lower-case letters and hyphens); other shapes stay
    /// as they are.
    pub fn telling(mut self, name: &'static str, value: impl Into<String>) -> Shape {
        if let Shape::Group { data, .. } = &mut self {
            data.push((name, value.into()));
        }
        self
    }

    /// Returns the shape with another pen; lettering and groups stay as they are.
    pub fn pen(mut self, new: Pen) -> Shape {
        if let Shape::Path { pen, .. } | Shape::Circle { pen, .. } = &mut self {
            *pen = new;
        }
        self
    }

    /// Returns the shape with another filling; lettering and groups stay as they are.
    pub fn hatch(mut self, new: Hatch) -> Shape {
        if let Shape::Path { hatch, .. } | Shape::Circle { hatch, .. } = &mut self {
            *hatch = new;
        }
        self
    }

    /// Returns lettering anchored otherwise; other shapes stay as they are.
    pub fn anchored(mut self, new: Anchor) -> Shape {
        if let Shape::Text { anchor, .. } = &mut self {
            *anchor = new;
        }
        self
    }

    /// Returns lettering turned by an angle in degrees clockwise; other shapes stay as they are.
    pub fn turned(mut self, degrees: f64) -> Shape {
        if let Shape::Text { turn_deg, .. } = &mut self {
            *turn_deg = degrees;
        }
        self
    }

    /// Returns lettering in another ink; other shapes stay as they are.
    pub fn inked(mut self, new: Ink) -> Shape {
        if let Shape::Text { ink, .. } = &mut self {
            *ink = new;
        }
        self
    }
}
