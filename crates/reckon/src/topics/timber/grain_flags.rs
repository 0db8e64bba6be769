//! The flags `grain` and `ring-angle-deg`: how the rings lie in the plank.

use super::species_flag::refusal;
use crate::{Flag, FlagKind, Inputs, Refusal};
use timber::ring::Rings;

/// The flag in words.
pub(super) const GRAIN: Flag =
    Flag::optional("grain", "how the plank was sawn", FlagKind::Choice(&["flat", "rift", "quarter"]));

/// The flag as an angle; it goes before the word.
pub(super) const RING_ANGLE: Flag = Flag::optional(
    "ring-angle-deg",
    "angle of the rings to the wide face: 0 flat-sawn, 90 quarter-sawn",
    FlagKind::Number { unit: "°", least: 0.0, greatest: 90.0 },
);

/// Returns how the rings lie; one of the two flags must be given.
pub(super) fn rings(inputs: &Inputs) -> Result<Rings, Refusal> {
    if let Some(degrees) = inputs.number("ring-angle-deg") {
        return Rings::at_degrees(degrees).map_err(refusal);
    }
    match inputs.words("grain") {
        Some("flat") => Ok(Rings::FLAT),
        Some("rift") => Ok(Rings::RIFT),
        Some("quarter") => Ok(Rings::QUARTER),
        _ => Err(Refusal::Missing {
            flag: "grain".to_owned(),
            accepted: "flat, rift or quarter, or --ring-angle-deg from 0 to 90 in its place".to_owned(),
        }),
    }
}
