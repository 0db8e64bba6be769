//! The hull as a shape and as a drawing: offsets, fair surface, shell expansion, places, sheets.
//!
//! For: saying where things are on a boat, showing it, and taking off lengths and areas. Not for: what was found
//! (that is the record's) or what the timber is (that is `timber`'s). No input or output, no clock, no randomness.
//!
//! From a table to figures: [`Offsets`] → [`Lines`] → [`Surface`] → [`Expansion`] → [`Layout`] → a sheet. Without lines:
//! [`measured`] fits a hull to what can be measured in an hour, and [`Layout::schematic`] and [`sheets::Outline::schematic`]
//! draw from counts alone and say so. Apart from the shape: [`keel_line`], [`planking`], [`craft_rule`], [`check_joints`].
//!
//! Limits: a chine is rounded by the surface; keel, deadwood and ballast below the rabbet are not part of it; both sides
//! are taken to be alike unless two tables are given.
//!
//! Read first: [`Offsets`], [`Surface`], [`Expansion`], [`Layout`], [`Place`], [`sheets`].
//!
//! ```
//! use hull::{Along, Layout, Patch, Place, Side, sheets};
//! let layout = Layout::schematic(9.2, 12, 34).expect("a boat of that size can be drawn");
//! let soft = Patch::strake(Side::Port, 1).between(Along::Frame(12.0), Along::Frame(15.0));
//! let found = [sheets::Condition::seen(Place::Shell(soft), drawing::Hatch::Close)];
//! let sheet = sheets::shell(&layout, Side::Port, &found, &[]);
//! assert!(sheet.to_svg().contains("work needed"));
//! ```

mod arc;
pub mod craft_rule;
mod deviation;
mod error;
mod expansion;
mod girth;
mod hydrostatics;
mod joints;
pub mod keel_line;
mod layout;
mod lines;
mod lining;
pub mod measured;
pub mod offsets;
mod place;
pub mod planking;
pub mod sheets;
pub mod spline;
mod surface;

pub use deviation::{Deviation, deviations};
pub use error::HullError;
pub use expansion::{Bend, Expansion, Plank, Spot, StrakeFigures};
pub use girth::Girth;
pub use hydrostatics::Hydrostatics;
pub use joints::{Joint, JointKind, Offence, Rule, RuleChoice, check_joints, rules};
pub use layout::{Basis, Frame, Layout};
pub use lines::{Edge, Lines, Section, Stern};
pub use lining::{Lining, Widths};
pub use offsets::Offsets;
pub use place::{Along, Patch, Place, Side};
pub use surface::{Fairing, Point, Surface};
