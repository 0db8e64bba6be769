//! How fast the climate rots weather-exposed wood above the water, and which water rots a boat.

use crate::{Fault, months_csv};

/// Source of the index, for an answer.
pub const SOURCE: &str = "climate index of Scheffer (1971), Σ (T − 2)(D − 3)/16.7; the formula and its zones are from \
                          memory, unconfirmed; that it uses mean temperature and rain days is confirmed";

/// A year of weather, month by month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weather {
    /// Monthly mean temperature, January first, °C.
    pub temp_c: [f64; 12],
    /// Days in the month with 0.25 mm of rain or more.
    pub rain_days: [f64; 12],
}

impl Weather {
    /// Reads a year from CSV with the header `month,temp_c,rain_days` and twelve rows.
    ///
    /// # Errors
    /// A header, a value or a number of months that is not so.
    pub fn from_csv(text: &str) -> Result<Self, Fault> {
        const ACCEPTED: &str = "with the header month,temp_c,rain_days and one row for each of the 12 months";
        let [temp_c, rain_days] =
            months_csv::read(text, [("temp_c", -60.0, 60.0), ("rain_days", 0.0, 31.0)], ACCEPTED)?;
        Ok(Self { temp_c, rain_days })
    }
}

/// How hard the climate is on exposed wood.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zone {
    /// Below 35.
    Low,
    /// 35 to 65.
    Moderate,
    /// 65 to 70, which sources draw differently.
    ModerateToHigh,
    /// Above 70.
    High,
}

impl Zone {
    /// Returns the zone in words.
    pub fn words(self) -> &'static str {
        match self {
            Zone::Low => "low",
            Zone::Moderate => "moderate",
            Zone::ModerateToHigh => "moderate to high",
            Zone::High => "high",
        }
    }
}

/// Returns each month's part of the index: (T − 2)(D − 3)/16.7, T in °C and D rain days, neither bracket below 0.
pub fn monthly_parts(weather: &Weather) -> [f64; 12] {
    std::array::from_fn(|m| (weather.temp_c[m] - 2.0).max(0.0) * (weather.rain_days[m] - 3.0).max(0.0) / 16.7)
}

/// Returns the index: the sum of its monthly parts. Years differ much, so show it to the nearest 5.
///
/// ```
/// use waters::decay_climate::{Weather, index, zone};
/// let dry = Weather { temp_c: [20.0; 12], rain_days: [3.0; 12] };
/// assert_eq!(index(&dry), 0.0);
/// assert_eq!(zone(index(&dry)).words(), "low");
/// ```
pub fn index(weather: &Weather) -> f64 {
    monthly_parts(weather).iter().sum()
}

/// Returns the zone of an index.
pub fn zone(index: f64) -> Zone {
    match index {
        i if i < 35.0 => Zone::Low,
        i if i <= 65.0 => Zone::Moderate,
        i if i <= 70.0 => Zone::ModerateToHigh,
        _ => Zone::High,
    }
}

/// Returns cautions that belong to an index.
pub fn cautions() -> Vec<String> {
    vec![
        "The formula and its zones are from memory, and no published city value could be read to check them."
            .to_owned(),
        "For wood exposed to the weather off the ground: topsides, deck, cabin. It knows nothing of leaks, bilges or \
         covers, which matter more in a boat. Years differ much; read it to the nearest 5."
            .to_owned(),
    ]
}

/// The water that wets a part of a boat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Water {
    /// Sea water that covers or soaks it.
    Salt,
    /// Fresh water that covers it.
    FreshCovered,
    /// Rain and condensation: fresh water that comes and goes.
    Rain,
}

impl Water {
    /// The words a form offers, in order.
    pub const WORDS: [&str; 3] = ["salt", "fresh-covered", "rain"];

    /// Returns the water of a word of [`Water::WORDS`].
    pub fn from_word(word: &str) -> Option<Self> {
        match word {
            "salt" => Some(Water::Salt),
            "fresh-covered" => Some(Water::FreshCovered),
            "rain" => Some(Water::Rain),
            _ => None,
        }
    }

    /// Returns what that water does, in sentences with their sources.
    pub fn sentences(self) -> &'static [&'static str] {
        match self {
            Water::Salt => &[
                "Wood soaked with sea water rots little (common practice, no source); borers and soft rot are its enemies.",
                "Salt keeps the wood damp and makes a meter read high.",
            ],
            Water::FreshCovered => &[
                "Wood that stays under water is too wet to rot: it lacks air (Forest Products Laboratory, water and wood \
                 decay). At and just above the waterline it has both.",
                "No borers live in it.",
            ],
            Water::Rain => &[
                "Rain and leaks of fresh water are what rots boats (common practice, no source): deck edge, covering \
                 board, stem head, transom top, frame heads, butt blocks, under ice boxes (US Army TB 55-1900-201-45/1, \
                 2-7c).",
                "Decay needs wood above fibre saturation, air and mild warmth; laid-up boats were found worst and boats in \
                 use better (USDA for the US Navy, 950 small boats, 1953).",
            ],
        }
    }
}
