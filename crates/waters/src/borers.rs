//! Which borers are at work in which months.

use crate::year::Year;

/// Sources of the limits, for an answer.
pub const SOURCES: [&str; 6] = [
    "shipworm: no reproduction below 8 psu (Univ. of Gothenburg on WreckProtect, 2010), thrives above 9 (Animal \
     Diversity Web), prefers 11 to 25 °C (SeaLifeBase), best 15 to 25 °C (Animal Diversity Web)",
    "shipworm: larvae released at 13 to 30 °C in the laboratory (Culliney 1975)",
    "gribble: boring falls with salinity and stops at 10 to 15 psu by temperature (Eltringham 1961)",
    "gribble: best at 20 °C, a third of that at 10 °C (Eltringham 1965)",
    "warm- and cold-water gribble: breeding above 14 °C; from 9 to 10 °C and active only below 20 °C (Conservation of \
     Ancient Timbers from the Sea, p. 271)",
    "monthly scores from these limits: a screening of our own, not calibrated",
];

/// What one kind of borer does through the year.
#[derive(Clone, Debug, PartialEq)]
pub struct Activity {
    /// Short name, e.g. `shipworm`.
    pub name: &'static str,
    /// What the score counts, in words, with the animal's name.
    pub what: &'static str,
    /// Activity in each month, January first: 0 none, 1 full.
    pub score: [f64; 12],
    /// Months in which even the strictest published limits allow it.
    pub surely: [bool; 12],
    /// Reason for the limits, one sentence.
    pub reason: &'static str,
}

impl Activity {
    /// Returns months of full activity: the sum of the scores over the year, 0 to 12.
    pub fn index(&self) -> f64 {
        self.score.iter().sum()
    }

    /// Returns in how many months it is active by the widest limits.
    pub fn months_most(&self) -> usize {
        self.score.iter().filter(|score| **score > 0.0).count()
    }

    /// Returns in how many months it is active by the strictest limits.
    pub fn months_least(&self) -> usize {
        self.surely.iter().filter(|yes| **yes).count()
    }

    /// Returns the months active by the widest limits, 1 for January.
    pub fn months(&self) -> Vec<usize> {
        (1..=12).filter(|m| self.score[m - 1] > 0.0).collect()
    }
}

/// Returns the activity of each kind of borer through a year: settling shipworm, boring gribble, and breeding of
/// warm- and cold-water gribble.
pub fn activity(year: &Year) -> [Activity; 4] {
    let each =
        |f: &dyn Fn(f64, f64) -> f64| -> [f64; 12] { std::array::from_fn(|m| f(year.temp_c[m], year.salinity_psu[m])) };
    let every = |f: &dyn Fn(f64, f64) -> bool| -> [bool; 12] {
        std::array::from_fn(|m| f(year.temp_c[m], year.salinity_psu[m]))
    };
    [
        Activity {
            name: "shipworm",
            what: "shipworm settling (Teredo navalis; above 25 °C warm-water species)",
            score: each(&shipworm),
            surely: every(&|t, s| t >= 13.0 && s >= 9.0),
            reason: "It settles above 11 to 15 °C and above 8 to 9 psu; larvae were seen released from 13 °C.",
        },
        Activity {
            name: "gribble",
            what: "gribble boring (Limnoria)",
            score: each(&gribble),
            surely: every(&|t, s| t >= 10.0 && s > 15.0),
            reason: "It bores best at 20 °C and a third as fast at 10 °C; the less salt, the less, and none below 10 to \
                     15 psu. Below 10 °C its score is carried on in a straight line to nothing at 5 °C.",
        },
        Activity {
            name: "gribble_warm_breeding",
            what: "warm-water gribble breeding (Limnoria tripunctata)",
            score: each(&|t, s| if t > 14.0 && s > gribble_stops_psu(t) { 1.0 } else { 0.0 }),
            surely: every(&|t, s| t > 14.0 && s > 15.0),
            reason: "It breeds above 14 °C and is most active at 22 to 26 °C.",
        },
        Activity {
            name: "gribble_cold_breeding",
            what: "cold-water gribble breeding (Limnoria lignorum)",
            score: each(&|t, s| if (9.0..20.0).contains(&t) && s > gribble_stops_psu(t) { 1.0 } else { 0.0 }),
            surely: every(&|t, s| (10.0..20.0).contains(&t) && s > 15.0),
            reason: "It breeds from 9 to 10 °C and is active only below 20 °C.",
        },
    ]
}

/// Settling of shipworm in a month, 0 to 1: ramp(S, 8, 9) · ramp(T, 11, 15). No upper limit of temperature, since above
/// 25 °C warm-water species take over.
pub fn shipworm(temp_c: f64, salinity_psu: f64) -> f64 {
    ramp(salinity_psu, 8.0, 9.0) * ramp(temp_c, 11.0, 15.0)
}

/// Boring of gribble in a month, 0 to 1: ramp(S, S₀(T), 35) · clamp(1/3 + (2/3)(T − 10)/10, 0, 1). Held at 1 above 20 °C,
/// where the warm-water species takes over from the cold one.
pub fn gribble(temp_c: f64, salinity_psu: f64) -> f64 {
    let warmth = (1.0 / 3.0 + 2.0 / 3.0 * (temp_c - 10.0) / 10.0).clamp(0.0, 1.0);
    ramp(salinity_psu, gribble_stops_psu(temp_c), 35.0) * warmth
}

/// Salinity below which gribble stops boring, psu: a line through 12 at 17.6 °C and 15 at 14.9 °C (Eltringham 1961), held
/// between 10 and 15.
pub fn gribble_stops_psu(temp_c: f64) -> f64 {
    (12.0 - 3.0 / 2.7 * (temp_c - 17.6)).clamp(10.0, 15.0)
}

/// Returns cautions that belong to any answer about borers.
pub fn cautions() -> Vec<String> {
    vec![
        "A screening from published limits, not calibrated against losses: no months reckoned does not mean none \
         found, and animals already in the wood bore on while they live (shipworm tolerates 5 psu)."
            .to_owned(),
        "Warm outfalls, shallow warm harbours, salty dry years and cold-water shipworms are not in it; nor are pholads \
         and Sphaeroma (warm and tidal waters, wide salinity)."
            .to_owned(),
    ]
}

fn ramp(x: f64, from: f64, to: f64) -> f64 {
    ((x - from) / (to - from)).clamp(0.0, 1.0)
}
