//! What a moisture content means for decay.

/// What may go on in wood of a moisture content.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DecayRoom {
    /// Below 20 %: decay can neither start nor go on.
    None,
    /// 20 to 28 %: no new infection likely, but a growth fed from wetter wood may go on.
    MayGoOn,
    /// 28 % to about fibre saturation and over: spores can take.
    CanStart,
    /// Pores so full that the usual rots lack air.
    TooWet,
}

/// Returns what a moisture content leaves room for. `full_percent` is the moisture at which the pores are full
/// ([`fullest_percent`]); within a tenth of it, the usual rots lack air.
///
/// Thresholds: Wood Handbook FPL-GTR-190 (2010) pp. 5-43 and 5-44 (20 %, fibre saturation); 28 % from a US official
/// wood-infestation form as reported.
pub fn room_for_decay(mc_percent: f64, full_percent: Option<f64>) -> DecayRoom {
    match mc_percent {
        m if full_percent.is_some_and(|full| m >= 0.9 * full) => DecayRoom::TooWet,
        m if m < 20.0 => DecayRoom::None,
        m if m < 28.0 => DecayRoom::MayGoOn,
        _ => DecayRoom::CanStart,
    }
}

/// Returns the greatest moisture a wood can hold, %: 100 (1.54 − G)/(1.54 G), Wood Handbook (2021) Eq. 4-3.
pub fn fullest_percent(gravity_basic: f64) -> f64 {
    100.0 * (1.54 - gravity_basic) / (1.54 * gravity_basic)
}

/// Returns the moisture at which a wood sinks in fresh water, %: 100 (1 − G)/G, Wood Handbook (2021) Eq. 4-4.
pub fn sinks_at_percent(gravity_basic: f64) -> f64 {
    100.0 * (1.0 - gravity_basic) / gravity_basic
}

impl DecayRoom {
    /// Returns the meaning in one sentence.
    pub fn sentence(self) -> &'static str {
        match self {
            DecayRoom::None => "Below 20 % decay can neither start nor go on.",
            DecayRoom::MayGoOn => {
                "From 20 to 28 % a new infection is unlikely, but one fed from wetter wood may go on."
            }
            DecayRoom::CanStart => "At 28 % and over spores can take; above fibre saturation decay can be serious.",
            DecayRoom::TooWet => {
                "With its pores nearly full the wood has too little air for the usual rots; soft rot and borers remain."
            }
        }
    }
}
