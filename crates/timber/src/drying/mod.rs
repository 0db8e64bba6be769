//! Drying and wetting of a plank through its thickness.
//!
//! ∂M/∂t = ∂/∂x (D(M, T) ∂M/∂x), at an open face −D ∂M/∂x = S (M_face − M_e), M_e the equilibrium moisture of the
//! air. Read first: [`dry`], [`Plank`], [`Surroundings`].

pub mod diffusivity;
pub mod face;
mod plank;
pub mod solver;
mod surroundings;

pub use face::{Coating, Exposure};
pub use plank::{Drying, Faces, Plank, Snapshot, dry};
pub(crate) use plank::{Error as Leaning, diffusivity_doubt, run};
pub use surroundings::{Air, Surroundings};

/// Sources of the model, for an answer.
pub const SOURCES: [&str; 3] = [
    "one-dimensional diffusion with surface resistance, finite volumes, implicit in time",
    "diffusivity of ring-porous oak: red oak desorption equation of the Simpson (1993) type, read in code, the \
     attribution from memory",
    "diffusivity of other woods from gravity: Siau, Transport Processes in Wood (1984) Eqs 6.11 to 6.26, read in code \
     that cites them; dh/du after Simpson (1973)",
];
