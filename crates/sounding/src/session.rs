//! What can be said of a recording as a whole: too quiet, too loud, thin, drifting.

use crate::{Blow, RATE_HZ, listen::Heard};

/// Returns how much the level of blows rises over the session, in decibels: Theil and Sen's median slope over time, times the
/// time between the first and the last. `None` for fewer than eight blows. Arms vary from blow to blow; a recorder that drifts
/// shows in the whole.
pub fn drift_db(blows: &[Blow]) -> Option<f64> {
    if blows.len() < 8 {
        return None;
    }
    // Every pair of at most 200 blows spread over the session is enough for a median.
    let step = blows.len().div_ceil(200);
    let some: Vec<(f64, f64)> = blows.iter().step_by(step).map(|b| (b.time_s, b.description.level_db)).collect();
    let mut slopes = Vec::new();
    for (i, a) in some.iter().enumerate() {
        for b in &some[i + 1..] {
            if b.0 > a.0 {
                slopes.push((b.1 - a.1) / (b.0 - a.0));
            }
        }
    }
    slopes.sort_by(f64::total_cmp);
    let median = slopes.get(slopes.len() / 2)?;
    Some(median * (some.last()?.0 - some.first()?.0))
}

/// Returns what to be careful of in a recording, in sentences.
pub fn cautions(heard: &Heard, blows: &[Blow]) -> Vec<String> {
    let mut out = Vec::new();
    let seconds = heard.samples as f64 / f64::from(RATE_HZ);
    if heard.not_numbers > 0 {
        out.push(format!("{} samples were not numbers and were taken as silence.", heard.not_numbers));
    }
    if heard.peak < 1e-4 {
        out.push("The recording is silent: check that the microphone was on.".to_owned());
    } else if heard.peak < 0.01 {
        out.push("The recording is very faint; hold the microphone nearer.".to_owned());
    } else if blows.is_empty() {
        out.push(format!(
            "No hammer blow was found in {seconds:.0} s of sound, though {} sudden sounds were looked at.",
            heard.rises
        ));
    }
    if seconds < 5.0 {
        out.push(format!(
            "The recording is {seconds:.1} s long; the noise of the place is hardly known from so little."
        ));
    }
    let clipped = blows.iter().filter(|b| b.description.clipped).count();
    if clipped == 0 && heard.at_full_scale * 2000 > heard.samples {
        out.push(
            "The recording meets the recorder's limit in many places; turn it down or hold it farther away.".to_owned(),
        );
    }
    if clipped > 0 {
        out.push(format!("{clipped} blows met the recorder's limit; turn it down or hold it farther away."));
    }
    let dark = blows.iter().filter(|b| b.description.bands_db[4] < -45.0).count();
    if !blows.is_empty() && dark * 5 > blows.len() * 4 {
        out.push("Nothing above 4 kHz reaches the recording, as over a telephone or after strong compression; sharp and soft are told apart less well.".to_owned());
    }
    if let Some(drift) = drift_db(blows)
        && drift.abs() > 6.0
    {
        out.push(format!(
            "The blows {} by {:.0} dB over the session: a recorder that sets its own level, or a tired arm. Levels are not compared; \
             take fresh references.",
            if drift > 0.0 { "grow" } else { "fade" },
            drift.abs()
        ));
    }
    out
}
