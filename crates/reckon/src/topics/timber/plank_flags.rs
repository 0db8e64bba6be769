//! The flags of a plank set out to dry, shared by `drying` and `seam`.

use super::species_flag::refusal;
use crate::{Flag, FlagKind, Inputs, Refusal};
use timber::drying::{Coating, Exposure, Faces, Plank, Surroundings};

pub(super) const THICKNESS: Flag = Flag::required(
    "thickness-mm",
    "thickness of the plank",
    FlagKind::Length { unit: "mm", least: 3.0, greatest: 400.0 },
);
pub(super) const MC_START: Flag = Flag::required(
    "mc-start-percent",
    "moisture at the beginning",
    FlagKind::Number { unit: "%", least: 0.0, greatest: 250.0 },
);
pub(super) const TEMP: Flag = Flag::optional(
    "temp-c",
    "temperature of the air (leave out with monthly weather)",
    FlagKind::Number { unit: "°C", least: -40.0, greatest: 60.0 },
);
pub(super) const RH: Flag = Flag::optional(
    "rh-percent",
    "relative humidity of the air (leave out with monthly weather)",
    FlagKind::Number { unit: "%", least: 0.0, greatest: 100.0 },
);
pub(super) const DAYS: Flag =
    Flag::required("days", "days", FlagKind::Number { unit: "days", least: 0.0, greatest: 3660.0 });
pub(super) const FACES: Flag =
    Flag::or("faces", "wide faces open to the air", FlagKind::Count { least: 1, greatest: 2 }, "2");
pub(super) const BEHIND: Flag = Flag::or(
    "behind",
    "with one face open: what the other lies against",
    FlagKind::Choice(&["sealed", "wet"]),
    "sealed",
);
pub(super) const COATING: Flag = Flag::or(
    "coating",
    "coating of the open face",
    FlagKind::Choice(&["bare", "worn-paint", "oil-paint", "epoxy"]),
    "bare",
);
pub(super) const EXPOSURE: Flag =
    Flag::or("exposure", "how the air moves over it", FlagKind::Choice(&["breeze", "shed", "under-water"]), "breeze");
pub(super) const WEATHER: Flag =
    Flag::optional("weather", "monthly means: CSV with month, temp_c, rh_percent", FlagKind::TextFile);
pub(super) const FROM_MONTH: Flag = Flag::or(
    "from-month",
    "with monthly weather: month in which it begins, 1 for January",
    FlagKind::Count { least: 1, greatest: 12 },
    "4",
);

/// Returns the plank and what it stands in.
pub(super) fn plank(
    inputs: &Inputs,
    species: &'static timber::species::Species,
) -> Result<(Plank, Surroundings), Refusal> {
    let faces = match (inputs.count("faces"), inputs.words("behind")) {
        (Some(1), Some("wet")) => Faces::OneWetBehind,
        (Some(1), _) => Faces::One,
        _ => Faces::Both,
    };
    let coating = match inputs.words("coating") {
        Some("worn-paint") => Coating::WornPaint,
        Some("oil-paint") => Coating::OilPaint,
        Some("epoxy") => Coating::Epoxy,
        _ => Coating::Bare,
    };
    let exposure = if inputs.words("exposure") == Some("shed") { Exposure::Shed } else { Exposure::Breeze };
    let plank = Plank {
        species: species.id,
        thickness_mm: inputs.need_number("thickness-mm")?,
        mc_start_percent: inputs.need_number("mc-start-percent")?,
        faces,
        coating,
        exposure,
    };
    let missing = |flag: &str| Refusal::Missing {
        flag: flag.to_owned(),
        accepted: "a number, or --weather with monthly means in its place".to_owned(),
    };
    let surroundings = if inputs.words("exposure") == Some("under-water") {
        Surroundings::Water { temp_c: inputs.number("temp-c").unwrap_or(15.0) }
    } else if let Some(text) = inputs.words("weather") {
        let month = u8::try_from(inputs.need_count("from-month")?).unwrap_or(1);
        Surroundings::monthly_csv(text, month).map_err(refusal)?
    } else {
        let temp_c = inputs.number("temp-c").ok_or_else(|| missing("temp-c"))?;
        let rh_percent = inputs.number("rh-percent").ok_or_else(|| missing("rh-percent"))?;
        Surroundings::constant(temp_c, rh_percent).map_err(refusal)?
    };
    Ok((plank, surroundings))
}
