//! The keel line: hog, sag, breaks, twist and symmetry from points measured by string, level or laser.

mod fit;
mod read;
mod symmetry;
mod twist;

pub use fit::{Fit, KeelLine, KeelPoint, Shape, keel_line, string_sag_mm};
pub use read::read_points;
pub use symmetry::{Pair, Symmetry, symmetry};
pub use twist::{Athwart, Racking, Twist, racking, twist};
