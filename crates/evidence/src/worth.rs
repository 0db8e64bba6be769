//! What a test is worth before it is made, and what a clear result clears.

/// Losses and a test's quality, in any one unit of loss.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choice {
    /// Probability that the member is decayed.
    pub p_decayed: f64,
    /// Loss when a decayed member is left.
    pub loss_if_left: f64,
    /// Loss of opening, decayed or not.
    pub loss_of_opening: f64,
    /// Chance that the test finds decay that is there.
    pub sensitivity: f64,
    /// Chance that the test is clear when there is none.
    pub specificity: f64,
}

/// What a test is worth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Worth {
    /// Expected loss of the better choice now.
    pub loss_now: f64,
    /// Expected loss when the test is made first, its own cost left out.
    pub loss_after_test: f64,
    /// What the test saves before its own cost and the hole it leaves. Never negative.
    pub worth: f64,
    /// What knowing for certain would save.
    pub worth_of_certainty: f64,
    /// Probability of decay after a find.
    pub p_after_find: f64,
    /// Probability of decay after a clear result.
    pub p_after_clear: f64,
}

/// Returns what a test is worth: expected loss now less expected loss after it (value of sample information).
pub fn worth_of_test(choice: Choice) -> Worth {
    let p = choice.p_decayed;
    let least = |p: f64| (p * choice.loss_if_left).min(choice.loss_of_opening);
    let find = p * choice.sensitivity + (1.0 - p) * (1.0 - choice.specificity);
    let p_after_find = share(p * choice.sensitivity, find);
    let p_after_clear = share(p * (1.0 - choice.sensitivity), 1.0 - find);
    let loss_now = least(p);
    let loss_after_test = find * least(p_after_find) + (1.0 - find) * least(p_after_clear);
    let certain = p * choice.loss_of_opening.min(choice.loss_if_left);
    Worth {
        loss_now,
        loss_after_test,
        worth: (loss_now - loss_after_test).max(0.0),
        worth_of_certainty: loss_now - certain,
        p_after_find,
        p_after_clear,
    }
}

fn share(part: f64, whole: f64) -> f64 {
    if whole > 0.0 { part / whole } else { 0.0 }
}
