//! What keeps borers out, and what is left of the exposure.

use crate::Fault;
use crate::borers::Activity;

/// What stands between the water and the wood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Protection {
    /// Nothing.
    None,
    /// Antifouling paint kept up, unbroken when last seen.
    AntifoulingKeptUp,
    /// Antifouling old, scraped or of unknown age.
    AntifoulingLapsed,
    /// Copper sheathing seen whole.
    CopperIntact,
    /// Copper sheathing torn, lifted or not seen whole.
    CopperBroken,
    /// Epoxy or glass sheathing seen whole.
    SheathingIntact,
    /// Epoxy or glass sheathing cracked, lifted or not seen whole.
    SheathingBroken,
    /// Bare timber of a wood that borers like less.
    ResistantTimber,
}

/// How much of the waters' exposure is left, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// The exposure of the waters in words.
    pub exposure: &'static str,
    /// Least share of the exposure that reaches the wood, 0 to 1.
    pub share_low: f64,
    /// Greatest share of the exposure that reaches the wood, 0 to 1.
    pub share_high: f64,
    /// What to make of it, one or two sentences.
    pub reading: String,
    /// What to look at, and sources, in sentences.
    pub reasons: Vec<String>,
}

impl Protection {
    /// The words a form offers, in order.
    pub const WORDS: [&str; 8] = [
        "none",
        "antifouling-kept-up",
        "antifouling-lapsed",
        "copper-intact",
        "copper-broken",
        "sheathing-intact",
        "sheathing-broken",
        "resistant-timber",
    ];

    /// Returns the protection of a word of [`Protection::WORDS`].
    pub fn from_word(word: &str) -> Option<Self> {
        let all = [
            Protection::None,
            Protection::AntifoulingKeptUp,
            Protection::AntifoulingLapsed,
            Protection::CopperIntact,
            Protection::CopperBroken,
            Protection::SheathingIntact,
            Protection::SheathingBroken,
            Protection::ResistantTimber,
        ];
        Self::WORDS.iter().position(|w| *w == word).and_then(|i| all.get(i).copied())
    }

    fn facts(self) -> (f64, f64, &'static [&'static str]) {
        match self {
            Protection::None => (1.0, 1.0, &["No wood is immune (US Army TB 55-1900-201-45/1, 2-7e)."]),
            Protection::AntifoulingKeptUp => (
                0.0,
                1.0,
                &[
                    "Antifouling protects only while unbroken: a scrape or tool mark lets them in (TB 55-1900-201-45/1, \
                     2-7e; Wood Handbook ch. 14). Look at the bottom of the keel, the rudder, the centreboard case and \
                     wherever a brush does not reach.",
                ],
            ),
            Protection::AntifoulingLapsed => {
                (1.0, 1.0, &["Paint that is old, scraped or of unknown age counts as broken."])
            }
            Protection::CopperIntact => (
                0.0,
                1.0,
                &[
                    "Copper kept worm out of HMS Alarm for two years (1761 to 1763), but her iron fastenings wasted: \
                     survey both sides of that bargain (Royal Museums Greenwich).",
                    "A hairline break lets them in, so the upper end holds until the whole of it was seen.",
                ],
            ),
            Protection::CopperBroken => {
                (1.0, 1.0, &["A hairline break in copper lets them in (TB 55-1900-201-45/1, 2-7e)."])
            }
            Protection::SheathingIntact => (
                0.0,
                1.0,
                &["Soft old hulls break glass sheathing; cracks let borers in unseen and rot goes on beneath, where \
                     soundness can hardly be checked (USCG NVIC 7-95, as quoted)."],
            ),
            Protection::SheathingBroken => (
                1.0,
                1.0,
                &["Broken sheathing hides attack as well as letting it in: the wood under it has to be looked at."],
            ),
            Protection::ResistantTimber => (
                0.1,
                1.0,
                &["A resistant wood is attacked less, not never: in a six-month sea test greenheart and ekki were \
                     slightly attacked and Scots pine sapwood destroyed (IRG/WP 04-10520). Sapwood is never resistant. \
                     The lower end given is our own figure."],
            ),
        }
    }
}

/// Returns the exposure of waters in words, from the index (months of full activity). Bounds of our own.
pub fn exposure_words(index: f64) -> &'static str {
    match index {
        i if i <= 0.0 => "none reckoned",
        i if i < 1.0 => "edge of the range",
        i if i < 4.5 => "a season of the year",
        i if i < 9.0 => "a long season",
        _ => "nearly all the year",
    }
}

/// Reads exposure and protection together. Nothing is multiplied into one figure: a barrier is whole or it is broken
/// somewhere, and the surveyor may enter the chance that it is broken, in per cent.
///
/// # Errors
/// A chance outside 0 to 100 %.
pub fn read(worst: &Activity, protection: Protection, broken_chance_percent: Option<f64>) -> Result<Left, Fault> {
    let (mut share_low, mut share_high, facts) = protection.facts();
    if let Some(chance) = broken_chance_percent {
        if !(0.0..=100.0).contains(&chance) {
            let accepted = "0 to 100 %, the chance that the barrier is broken somewhere";
            return Err(Fault::Value { field: "broken_chance_percent", value: chance, accepted });
        }
        if share_low < share_high && protection != Protection::ResistantTimber {
            (share_low, share_high) = (chance / 100.0, chance / 100.0);
        }
    }
    let exposure = exposure_words(worst.index());
    let season = match worst.months_most() {
        0 => format!("By the published limits no month lets {} in", worst.name),
        most if most == worst.months_least() => format!("The waters let {} in {most} months of the year", worst.name),
        most => format!("The waters let {} in {} to {most} months of the year", worst.name, worst.months_least()),
    };
    let barrier = match (share_low, share_high) {
        (1.0, _) => "and nothing that can be relied on keeps it out",
        (0.0, 1.0) => "and it is kept out only while the barrier is whole everywhere",
        (low, high) if low == high => {
            "and how much reaches the wood hangs on the chance entered that the barrier is broken"
        }
        _ => "and the wood itself only slows it",
    };
    Ok(Left {
        exposure,
        share_low,
        share_high,
        reading: if worst.months_most() == 0 {
            format!("{season}; {NONE_FOUND}")
        } else {
            format!("{season}, {barrier}.")
        },
        reasons: facts.iter().map(|fact| (*fact).to_owned()).collect(),
    })
}

const NONE_FOUND: &str = "that is no proof that none is found, so look for old attack all the same.";

/// Returns what is published of a wood's resistance to borers, by its short name in the species table; `None` when
/// nothing was found.
pub fn of_wood(species_id: &str) -> Option<&'static str> {
    match species_id {
        "greenheart" => {
            Some("Greenheart was slightly attacked in a six-month sea test (IRG/WP 04-10520): slowed, not safe.")
        }
        "scots-pine" => Some("Scots pine sapwood was destroyed in a six-month sea test (IRG/WP 04-10520)."),
        "western-redcedar" | "yellow-cedar" | "port-orford-cedar" => {
            Some("In deep test panels off Oregon cedar was attacked most, before pine, fir and oak (Tipper, thesis).")
        }
        "douglas-fir-coast" => Some(
            "In deep test panels off Oregon fir was attacked less than cedar and pine, more than oak (Tipper, thesis).",
        ),
        "white-oak" | "european-oak" | "red-oak" | "live-oak" => Some(
            "Oak was attacked least of four woods in deep test panels off Oregon (Tipper, thesis), yet in the Baltic it was riddled in about 32 weeks (an encyclopaedia article).",
        ),
        _ => None,
    }
}
