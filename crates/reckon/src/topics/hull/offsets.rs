//! What both topics that read a table of offsets have in common: reading it, and saying what was assumed.

use crate::{Answer, Inputs, Refusal};
use hull::{Fairing, HullError, Offsets, Surface, offsets::Skin};

/// A table read, its surface, and how well the surface meets it.
pub(super) struct Read {
    pub offsets: Offsets,
    pub surface: Surface,
    pub fit_rms_mm: f64,
    pub fit_greatest_mm: f64,
}

pub(super) fn read(inputs: &Inputs, fairing: Fairing) -> Result<Read, Refusal> {
    let text = inputs.need_words("offsets")?;
    let refuse = |fault: HullError| refused("offsets", text.lines().next().unwrap_or_default(), &fault);
    let offsets = Offsets::read(text).map_err(refuse)?;
    let surface = offsets.surface(fairing).map_err(refuse)?;
    let off = hull::deviations(&surface, &offsets.lines);
    let n = off.len().max(1) as f64;
    let fit_rms_mm = (off.iter().map(|d| d.off_mm * d.off_mm).sum::<f64>() / n).sqrt();
    let fit_greatest_mm = off.iter().map(|d| d.off_mm).fold(0.0, f64::max);
    Ok(Read { offsets, surface, fit_rms_mm, fit_greatest_mm })
}

/// Adds what was assumed, what is doubtful, and how good the fit is.
pub(super) fn cautions(mut answer: Answer, read: &Read) -> Answer {
    for doubt in &read.offsets.doubts {
        answer = answer.caution(format!("Station {}, {}: {}", doubt.station, doubt.line, doubt.why));
    }
    for sentence in &read.offsets.assumed {
        answer = answer.caution(sentence.clone());
    }
    match read.offsets.skin {
        Skin::Outside => {}
        Skin::Inside => {
            answer = answer
                .caution("The offsets are to the inside of the planking; volume and areas are those of the inside.");
        }
        Skin::Unsaid => {
            answer =
                answer.caution("The table does not say whether it gives the inside or the outside of the planking.");
        }
    }
    if read.fit_greatest_mm > 5.0 {
        answer = answer.caution(format!(
            "The fair surface leaves the offsets by up to {:.0} mm; the figures carry at least that error.",
            read.fit_greatest_mm
        ));
    }
    answer
}

/// Turns the room's refusal into the flag's.
pub(super) fn refused(flag: &str, value: impl ToString, fault: &HullError) -> Refusal {
    let (why, accepted) = match fault {
        HullError::Value { what, value, accepted } => (format!("{what} is {value}"), accepted.clone()),
        other => (
            other.to_string().trim_end_matches('.').to_owned(),
            "a table of offsets in the plain layout, or with columns x_m, z_m, half_breadth_m".to_owned(),
        ),
    };
    Refusal::value(flag, value, why, accepted)
}
