//! Curves through and near points, as a batten lies: cubic, monotone, B-spline, smoothing; and the sums over them.

mod bspline;
mod cubic;
mod linear;
mod monotone;
mod quadrature;
mod smoothing;

pub use bspline::BSpline;
pub use cubic::{Cubic, Ends};
pub use monotone::Monotone;
pub use smoothing::smooth;

pub(crate) use bspline::{basis, interpolation_knots, span};
pub(crate) use linear::{invert, solve, solve_many};
pub(crate) use quadrature::{gauss4, points4};
