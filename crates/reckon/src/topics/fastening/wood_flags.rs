//! The woods that a fastening sits in, and the room's faults as refusals.

use crate::{Flag, FlagKind, Inputs, Refusal};
use fastening::Fault;
use fastening::gravity::Gravity;
use timber::species::{Species, find, loose_name_caution};

/// What a bare gravity accepts.
pub(super) const GRAVITY: FlagKind = FlagKind::Number { unit: "", least: 0.1, greatest: 1.3 };

/// Species by name.
pub(super) const SPECIES: Flag = Flag::optional("species", "wood, by any name of the trade", FlagKind::Words);

/// Gravity given bare.
pub(super) const SPECIFIC_GRAVITY: Flag =
    Flag::optional("specific-gravity", "specific gravity, when no wood is named", GRAVITY);

/// Condition of the wood round the fastening.
pub(super) const WOOD_FACTOR: Flag = Flag::or(
    "wood-factor",
    "condition of the wood round the fastening, 1 sound to 0 gone (the surveyor's)",
    FlagKind::Number { unit: "", least: 0.0, greatest: 1.0 },
    "1",
);

/// Wet or dry in service.
pub(super) const WET: Flag = Flag::or("wet", "wet in service", FlagKind::Choice(&["yes", "no"]), "yes");

/// How long the load acts.
pub(super) const DURATION: Flag = Flag::or(
    "duration",
    "how long the load acts",
    FlagKind::Choice(&["permanent", "ten-years", "two-months", "seven-days", "ten-minutes"]),
    "permanent",
);

/// Returns the service that the flags describe.
pub(super) fn service(inputs: &Inputs) -> fastening::service::Service {
    use fastening::service::{Duration, Service};
    let duration = match inputs.words("duration") {
        Some("ten-years") => Duration::TenYears,
        Some("two-months") => Duration::TwoMonths,
        Some("seven-days") => Duration::SevenDays,
        Some("ten-minutes") => Duration::TenMinutes,
        _ => Duration::Permanent,
    };
    let wet = inputs.words("wet") != Some("no");
    Service { duration, wet, wood_factor: inputs.number("wood-factor").unwrap_or(1.0) }
}

/// A wood as given: its gravity on both bases and what to say of it.
pub(super) struct Wood {
    /// Gravity.
    pub gravity: Gravity,
    /// Cautions.
    pub cautions: Vec<String>,
}

/// Returns the wood that either flag gives, or none.
pub(super) fn wood(inputs: &Inputs, species_flag: &str, gravity_flag: &str) -> Result<Option<Wood>, Refusal> {
    let mut cautions = Vec::new();
    if let Some(g) = inputs.number(gravity_flag) {
        cautions.push(
            "The specific gravity was taken as given in every equation; the handbook's ultimate wants it on volume at 12 % \
             moisture, design values on oven-dry volume, a few hundredths higher."
                .to_owned(),
        );
        return Ok(Some(Wood { gravity: Gravity::as_given(g).map_err(refusal)?, cautions }));
    }
    let Some(name) = inputs.words(species_flag) else { return Ok(None) };
    let species = named(species_flag, name)?;
    cautions.extend(loose_name_caution(name));
    let gravity = Gravity::of(species).ok_or_else(|| {
        let why = format!("no specific gravity of {} is known", species.common);
        Refusal::value(species_flag, name, why, format!("another wood, or --{gravity_flag}"))
    })?;
    let known = species.gravity_at(12.0).or(species.gravity_12);
    cautions.extend(known.and_then(|known| known.caution(&format!("specific gravity of {}", species.common))));
    Ok(Some(Wood { gravity, cautions }))
}

/// Returns the wood, or says that one of the two flags is missing.
pub(super) fn need_wood(inputs: &Inputs, species_flag: &str, gravity_flag: &str) -> Result<Wood, Refusal> {
    wood(inputs, species_flag, gravity_flag)?.ok_or_else(|| Refusal::Missing {
        flag: species_flag.to_owned(),
        accepted: format!("the name of a wood, or --{gravity_flag} with a number from 0.1 to 1.3"),
    })
}

/// Returns the species of a name.
pub(super) fn named(flag: &str, name: &str) -> Result<&'static Species, Refusal> {
    find(name).map_err(|unknown| {
        let accepted = format!("a wood of the table, the nearest being {}", unknown.nearest.join(", "));
        Refusal::value(flag, unknown.name, "this is not a wood in the table", accepted)
    })
}

/// Returns the room's fault as the refusal of the flag of the same name.
pub(super) fn refusal(fault: Fault) -> Refusal {
    match fault {
        Fault::Value { name, value, why, accepted } => Refusal::value(&flag_name(name), shown(value), why, accepted),
        Fault::Text { name, text, why, accepted } => Refusal::value(&flag_name(name), text, why, accepted),
        other => Refusal::Meaningless(other.to_string()),
    }
}

/// Says of which flag a fault is, where the room's name for it is another.
pub(super) fn refusal_as(flag: &'static str) -> impl Fn(Fault) -> Refusal {
    move |fault| match fault {
        Fault::Value { value, why, accepted, .. } => Refusal::value(flag, shown(value), why, accepted),
        other => refusal(other),
    }
}

fn flag_name(name: &str) -> String {
    name.replace('_', "-")
}

fn shown(value: f64) -> String {
    let text = format!("{value:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
