//! What is drawn of a blow, from the samples round it.

use drawing::blow::BlowTraces;
use sounding::RATE_HZ;
use sounding::describe::{LEAD, TAIL, power_of_frame};

/// Tones are drawn in so many steps from 100 Hz to 10 kHz.
const STEPS: usize = 40;
/// Length of the course drawn, in milliseconds.
const COURSE_MS: usize = 60;
/// The dying away is drawn in stretches of so many milliseconds.
const STRETCH_MS: usize = 4;

/// Returns the stretch of samples that belongs to a blow: from [`LEAD`] before its onset to [`TAIL`] after it, with silence
/// where there are none.
pub fn cut(samples: &[f32], time_s: f64) -> Vec<f64> {
    let onset = (time_s.max(0.0) * f64::from(RATE_HZ)).round() as usize;
    (0..LEAD + TAIL)
        .map(|n| (onset + n).checked_sub(LEAD).and_then(|at| samples.get(at)).map_or(0.0, |s| f64::from(*s)))
        .collect()
}

/// Returns what is drawn of a blow; `x` as [`cut`] gives it.
pub fn traces(x: &[f64]) -> BlowTraces {
    let ms = RATE_HZ as usize / 1000;
    let after = x.get(LEAD..).unwrap_or(&[]);
    let most = after.iter().fold(1e-9_f64, |m, v| m.max(v.abs()));
    let course = after
        .get(..COURSE_MS * ms)
        .unwrap_or(after)
        .chunks(ms / 2)
        .map(|part| part.iter().fold((0.0_f64, 0.0_f64), |(a, b), v| (a.min(v / most), b.max(v / most))))
        .collect();
    let levels: Vec<f64> = after
        .chunks_exact(STRETCH_MS * ms)
        .map(|part| 10.0 * (part.iter().map(|v| v * v).sum::<f64>() / part.len() as f64).max(1e-16).log10())
        .collect();
    let loudest = levels.iter().copied().fold(f64::MIN, f64::max);
    let decay = levels.iter().enumerate().map(|(n, db)| ((n * STRETCH_MS) as f64, db - loudest)).collect();
    let (power, bin_hz) = power_of_frame(x);
    let edge = |n: usize| 100.0 * 100.0_f64.powf(n as f64 / STEPS as f64);
    let steps: Vec<(f64, f64)> = (0..STEPS)
        .map(|n| {
            let (low, high) = (edge(n), edge(n + 1));
            let (from, to) = ((low / bin_hz) as usize, ((high / bin_hz) as usize).max((low / bin_hz) as usize + 1));
            let part = power.get(from..to).unwrap_or(&[]);
            let mean = part.iter().sum::<f64>() / part.len().max(1) as f64;
            ((low * high).sqrt(), 10.0 * mean.max(1e-16).log10())
        })
        .collect();
    let strongest = steps.iter().map(|(_, db)| *db).fold(f64::MIN, f64::max);
    BlowTraces {
        course,
        course_ms: COURSE_MS as f64,
        decay,
        tones: steps.into_iter().map(|(hz, db)| (hz, db - strongest)).collect(),
        ..BlowTraces::default()
    }
}

/// Puts the middle of the reference blows beside a blow.
pub fn beside(mut own: BlowTraces, references: &[BlowTraces]) -> BlowTraces {
    let middle = |of: fn(&BlowTraces) -> &Vec<(f64, f64)>| -> Vec<(f64, f64)> {
        let Some(first) = references.first() else { return Vec::new() };
        of(first)
            .iter()
            .enumerate()
            .map(|(n, (x, _))| {
                let mut values: Vec<f64> = references.iter().filter_map(|r| of(r).get(n).map(|p| p.1)).collect();
                values.sort_by(f64::total_cmp);
                (*x, values.get(values.len() / 2).copied().unwrap_or(0.0))
            })
            .collect()
    };
    own.reference_decay = middle(|traces| &traces.decay);
    own.reference_tones = middle(|traces| &traces.tones);
    own
}
