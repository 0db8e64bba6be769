//! A drawing as a tree of shapes, and its writing out as SVG and DXF.
//!
//! For: plans of a hull, curves of a reckoning, marks on a sheet. The same [`Sheet`] always gives the
//! same bytes, so drawings can be compared letter by letter. Not for: knowing anything about boats, or
//! laying out text (that is the report's typesetter). No input or output, no clock, no randomness.
//!
//! Read first: [`Sheet`], [`Shape`], [`Hatch`].
//!
//! ```
//! use drawing::{Pen, Sheet, Shape};
//! let mut sheet = Sheet::new(60.0, 30.0, "A plank", "One plank, drawn as a rectangle.");
//! sheet.add(Shape::rectangle(5.0, 5.0, 50.0, 20.0).pen(Pen::THIN));
//! assert!(sheet.to_svg().starts_with("<svg"));
//! ```

pub mod blow;
pub mod chart;
mod cost;
mod dxf;
mod hatch;
mod hatch_lines;
mod shape;
mod svg;
mod worth;

pub use cost::{CostSpread, cost_spread};
pub use hatch::Hatch;
pub use shape::{Anchor, Ink, Pen, Shape};
pub use svg::PAGE_STYLE;
pub use worth::{WorthRow, worth};

/// One drawing: its size on paper in millimetres, a title, a description for those who cannot see it,
/// and its shapes, in the order in which they are drawn. x runs to the right and y downwards, as on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Width on paper, in millimetres.
    pub width_mm: f64,
    /// Height on paper, in millimetres.
    pub height_mm: f64,
    /// Short title, shown by a screen reader first.
    pub title: String,
    /// What the drawing shows, in words.
    pub description: String,
    /// The shapes, drawn in this order.
    pub shapes: Vec<Shape>,
}

impl Sheet {
    /// Returns an empty sheet of the given size in millimetres.
    pub fn new(width_mm: f64, height_mm: f64, title: impl Into<String>, description: impl Into<String>) -> Self {
        Self { width_mm, height_mm, title: title.into(), description: description.into(), shapes: Vec::new() }
    }

    /// Puts a shape on top of those already there.
    pub fn add(&mut self, shape: Shape) {
        self.shapes.push(shape);
    }

    /// Returns the drawing as SVG text, coordinates rounded to a hundredth of a millimetre.
    pub fn to_svg(&self) -> String {
        svg::write(self)
    }

    /// Returns the drawing as DXF text (release R12, the plainest that every drawing office reads),
    /// in millimetres with y upwards. Named groups become layers; hatching is written as lines, since R12 knows no
    /// hatch; paper-coloured fills are left out, and what they hid stays visible.
    pub fn to_dxf(&self) -> String {
        dxf::write(self)
    }
}
