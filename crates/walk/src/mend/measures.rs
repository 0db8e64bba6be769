//! What a candidate is weighed by.

use super::{MEASURES, Token};
use crate::lexicon::Target;
use crate::phones::Band;

/// How common a word is, from 0 for one that is in no list.
fn common(token: &Token) -> f64 {
    match token.band {
        Band::Everyday => 1.0,
        Band::Common => 0.7,
        Band::Known => 0.4,
        Band::Unlisted => 0.0,
    }
}

fn one_if(true_one: bool) -> f64 {
    f64::from(u8::from(true_one))
}

/// Returns the measures of a run of words against a target: `distance` in phones, `heard` the number of phones heard, `lead` over
/// the next term, `cues` round it, and whether what stands before and after it leaves room for a noun.
pub(super) fn measures(
    run: &[Token],
    target: &Target,
    distance: f64,
    heard: usize,
    lead: f64,
    cues: f64,
    (before, after): (bool, bool),
) -> [f64; MEASURES] {
    let count = run.len() as f64;
    let long = target.phones.len() as f64;
    let each = distance / long.max(heard as f64);
    let length = long.min(10.0) / 10.0;
    let commonness = run.iter().map(common).sum::<f64>() / count;
    let commonest = run.iter().map(common).fold(0.0, f64::max);
    let functions = run.iter().filter(|token| token.function).count() as f64;
    let edges = one_if(run.first().is_some_and(|token| token.function))
        + one_if(run.last().is_some_and(|token| token.function));
    let alone = |band: Band| one_if(matches!(run, [one] if one.band == band));
    let close = (-10.0 * each).exp();
    [
        distance,
        each,
        commonness,
        cues,
        length,
        lead,
        count - 1.0,
        functions,
        one_if(target.said.contains(' ')),
        edges,
        alone(Band::Everyday),
        commonness * length,
        commonest,
        alone(Band::Unlisted),
        close,
        close * length,
        cues * length,
        close * cues,
        if run.len() > 1 { close } else { 0.0 },
        (3.0 * lead / long).min(1.0),
        each * functions,
        one_if(before && after),
        one_if(before || after),
    ]
}
