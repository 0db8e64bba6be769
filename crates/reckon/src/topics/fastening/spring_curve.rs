//! The curve that `spring` is asked about: by radius, string, three offsets, or every frame measured.

use super::lists::numbers;
use super::wood_flags::{refusal, refusal_as};
use crate::{Inputs, Refusal};
use fastening::plank::beam::{constant_curve, pull_sd_n};
use fastening::plank::curve::{Curvature, from_radius, from_string, from_three_offsets};
use fastening::plank::sprung::{Asked, Plank, on_a_curve, through};

pub(super) type AskedOf = (Option<Curvature>, Asked, Option<f64>);

/// Returns the curve where there is one, what it asks, and the error of the worst pull from errors of reading.
pub(super) fn asked(inputs: &Inputs, plank: &Plank, cautions: &mut Vec<String>) -> Result<AskedOf, Refusal> {
    let per_row = u32::try_from(inputs.need_count("fastenings-per-row")?).unwrap_or(2);
    let sd = inputs.need_number("offset-sd-mm")?;
    if let Some(text) = inputs.words("positions-mm") {
        let positions = numbers("positions-mm", text)?;
        let offsets = match inputs.words("frame-offsets-mm") {
            Some(text) => numbers("frame-offsets-mm", text)?,
            None => {
                let curvature = curvature(inputs, sd)?;
                constant_curve(&positions, curvature.per_mm)
            }
        };
        let asked = through(plank, &positions, &offsets, per_row).map_err(refusal)?;
        let measured = inputs.words("frame-offsets-mm").is_some();
        let force_sd = if measured {
            let sds = pull_sd_n(plank.stiffness_n_mm2(), &positions, sd).map_err(refusal)?;
            cautions.push(
                "Offsets at close frames are a poor measure of pull: look at the error beside it. The plank was taken as straight when \
                 freed."
                    .to_owned(),
            );
            Some(sds[asked.worst_row] / f64::from(per_row))
        } else {
            None
        };
        let curvature = if measured { None } else { Some(curvature(inputs, sd)?) };
        return Ok((curvature, asked, force_sd));
    }
    let curvature = curvature(inputs, sd)?;
    let missing =
        |flag: &str, accepted: &str| Refusal::Missing { flag: flag.to_owned(), accepted: accepted.to_owned() };
    let spacing = inputs
        .number("spacing-mm")
        .ok_or_else(|| missing("spacing-mm", "a length from 20 to 3000 mm, or --positions-mm"))?;
    let rows = inputs
        .count("rows")
        .ok_or_else(|| missing("rows", "the number of frames crossed, from 3, or --positions-mm"))?;
    let rows = usize::try_from(rows).unwrap_or(0);
    let asked = on_a_curve(plank, curvature, spacing, rows, per_row).map_err(refusal)?;
    let sd = asked.force_per_fastening_n * curvature.sd_per_mm / curvature.per_mm.abs().max(1e-12);
    Ok((Some(curvature), asked, (curvature.sd_per_mm > 0.0).then_some(sd)))
}

fn curvature(inputs: &Inputs, sd: f64) -> Result<Curvature, Refusal> {
    let hollow = inputs.words("form") == Some("hollow");
    if let Some(radius) = inputs.number("radius-m") {
        return from_radius(radius, hollow).map_err(refusal);
    }
    if let (Some(chord), Some(rise)) = (inputs.number("chord-mm"), inputs.number("rise-mm")) {
        let found = from_string(chord, rise, sd).map_err(refusal)?;
        return Ok(if hollow { Curvature { per_mm: -found.per_mm, ..found } } else { found });
    }
    if let (Some(spacing), Some(text)) = (inputs.number("offset-spacing-mm"), inputs.words("three-offsets-mm")) {
        let list = numbers("three-offsets-mm", text)?;
        let Ok(three) = <[f64; 3]>::try_from(list) else {
            return Err(Refusal::value(
                "three-offsets-mm",
                text,
                "these are not three",
                "three numbers with commas between them",
            ));
        };
        return from_three_offsets(spacing, three, sd).map_err(refusal_as("three-offsets-mm"));
    }
    let accepted = "a radius, or --chord-mm with --rise-mm, or --offset-spacing-mm with --three-offsets-mm, or --positions-mm with \
                    --frame-offsets-mm";
    Err(Refusal::Missing { flag: "radius-m".to_owned(), accepted: accepted.to_owned() })
}
