//! Filling by hatching, so that a drawing reads in black and white.

/// How an outline is filled: condition is told by how close the lines lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Hatch {
    /// Nothing: sound, or no condition said.
    #[default]
    Bare,
    /// Sparse lines: watch.
    Sparse,
    /// Close lines: work needed.
    Close,
    /// Solid: failed.
    Solid,
    /// Sparse dots: nothing is recorded of it.
    Dots,
    /// Paper colour, to hide what lies below.
    Paper,
    /// A light wash, for bands of uncertainty and bars.
    Wash,
}
