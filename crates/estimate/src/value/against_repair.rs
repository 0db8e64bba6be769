//! Repair cost against value.

/// What a boat is worth as found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AsFound {
    /// Value as found; may be negative.
    pub value: f64,
    /// Repair cost over the value repaired.
    pub ratio: f64,
    /// Whether the repair would cost more than the boat is worth when repaired: the test of a constructive total loss in
    /// section 60(2)(ii) of the Marine Insurance Act 1906 (UK), which holds for damage by an insured peril unless the policy
    /// says otherwise.
    pub repair_exceeds_value: bool,
}

/// What is left when she is broken up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Floor {
    /// What her parts bring.
    pub breaking_value: f64,
    /// What disposal costs.
    pub disposal: f64,
}

impl Floor {
    /// Returns the floor; negative when disposal costs more than the parts bring.
    pub fn value(&self) -> f64 {
        self.breaking_value - self.disposal
    }
}

/// Returns the value as found: value repaired less repair cost less an allowance for trouble and risk, which is the
/// surveyor's stated judgement (common practice).
pub fn as_found(value_repaired: f64, repair_cost: f64, allowance: f64) -> AsFound {
    AsFound {
        value: value_repaired - repair_cost - allowance,
        ratio: repair_ratio(repair_cost, value_repaired),
        // The Act says exceed: a repair that costs exactly the value is none.
        repair_exceeds_value: repair_cost > value_repaired,
    }
}

/// Returns repair cost over value repaired.
pub fn repair_ratio(repair_cost: f64, value_repaired: f64) -> f64 {
    repair_cost / value_repaired
}
