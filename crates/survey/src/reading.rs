//! What each method of looking gives.

use crate::EntryId;
use serde::{Deserialize, Serialize};
use std::fmt;

/// How something was found out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Method {
    /// By eye.
    Sight,
    /// By hammer or mallet.
    Sound,
    /// By knife, spike or lever.
    Probe,
    /// By moisture meter.
    Moisture,
    /// By rule, gauge, callipers, string or level.
    Measure,
    /// By boring.
    Bore,
    /// By drawing a fastening.
    Draw,
    /// By opening up.
    OpenUp,
    /// By the time a blow takes through the wood.
    StressWave,
    /// By asking: what an owner, a yard or a document says.
    Ask,
}

impl Method {
    /// All methods, in the order in which a form offers them.
    pub const ALL: [Method; 10] = [
        Method::Sight,
        Method::Sound,
        Method::Probe,
        Method::Moisture,
        Method::Measure,
        Method::Bore,
        Method::Draw,
        Method::OpenUp,
        Method::StressWave,
        Method::Ask,
    ];
}

impl fmt::Display for Method {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Method::Sight => "sight",
            Method::Sound => "sound",
            Method::Probe => "probe",
            Method::Moisture => "moisture",
            Method::Measure => "measure",
            Method::Bore => "bore",
            Method::Draw => "draw a fastening",
            Method::OpenUp => "open up",
            Method::StressWave => "stress-wave time",
            Method::Ask => "ask",
        })
    }
}

macro_rules! words {
    ($(#[$about:meta])* $name:ident { $($(#[$one:meta])* $variant:ident => $said:literal),+ $(,)? }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $($(#[$one])* $variant),+ }

        impl $name {
            /// All of them, in the order in which a form offers them.
            pub const ALL: &[$name] = &[$($name::$variant),+];
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(match self { $($name::$variant => $said),+ })
            }
        }
    };
}
pub(crate) use words;

words!(
    /// How wood answers the hammer.
    SoundAnswer {
        /// Rings.
        Rings => "rings",
        /// Dull or hollow.
        DullOrHollow => "dull or hollow",
        /// Chatters: moves and knocks against what lies behind.
        Chatters => "chatters",
        /// Cannot be told, and the note says why.
        CannotBeTold => "cannot be told",
    }
);

words!(
    /// How wood answers the knife.
    Knife {
        /// Firm.
        Firm => "firm",
        /// Soft: the point goes in.
        Soft => "soft",
        /// A sliver lifted by the point breaks short instead of splintering.
        SliverBreaksShort => "a sliver breaks short",
    }
);

words!(
    /// What a bore finds.
    BoreFinds {
        /// Clean, firm shavings all the way.
        Solid => "solid all the way",
        /// Soft wood or a void.
        SoftOrVoid => "soft wood or a void",
        /// Water.
        Water => "water",
    }
);

words!(
    /// How a drawn fastening is found.
    DrawnCondition {
        /// As new.
        Good => "good",
        /// Thinner than it was.
        Wasted => "wasted",
        /// In two.
        Broken => "broken",
        /// Turns without bite: the wood no longer holds it.
        TurnsWithoutBite => "turns without bite",
        /// Did not come out.
        WouldNotDraw => "would not draw",
    }
);

/// A reading, typed by its method. Units are in the names.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "method", rename_all = "snake_case")]
pub enum Reading {
    /// By eye; the note says what is seen.
    Sight {
        /// Signs that a weighing can use, by name (`rust_weep_and_dark_halo_at_fastenings`, …). May be empty.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        signs: Vec<String>,
    },
    /// By hammer.
    Sound {
        /// How the wood answers.
        answer: SoundAnswer,
        /// Number of blows struck, when counted.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        blows: Option<u32>,
    },
    /// By knife, spike or lever.
    Probe {
        /// How the wood answers the point; absent when only the lever was used.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        knife: Option<Knife>,
        /// How far the point goes in, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        depth_mm: Option<f64>,
        /// Whether the member moves under hand or lever, when tried.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        moves_under_pry: Option<bool>,
    },
    /// By moisture meter; the reading as shown, uncorrected.
    Moisture {
        /// The meter's reading, in percent.
        reading_percent: f64,
        /// Depth of the pins, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        depth_mm: Option<f64>,
        /// Temperature of the wood, in °C.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        temp_c: Option<f64>,
        /// The species the meter is set to.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        species_setting: Option<String>,
        /// The instrument's entry.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        instrument: Option<EntryId>,
    },
    /// By rule, gauge, callipers, string or level.
    Measure {
        /// What was measured: `thickness`, `seam gap`, `hog`, `bung diameter`, …
        quantity: String,
        /// The value.
        value: f64,
        /// Its unit: `mm`, `kg`, `deg`, …
        unit: String,
        /// As it was written down, when in other units (`5/8"`).
        #[serde(default, skip_serializing_if = "Option::is_none")]
        as_written: Option<String>,
    },
    /// By boring.
    Bore {
        /// Depth of the hole, in millimetres.
        depth_mm: f64,
        /// What was found.
        finds: BoreFinds,
    },
    /// By drawing a fastening.
    Draw {
        /// What it is: `8 gauge bronze screw`, `keel bolt`, …
        fastening: String,
        /// How it is found.
        condition: DrawnCondition,
        /// Its diameter as new, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        original_mm: Option<f64>,
        /// Its least diameter now, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        measured_mm: Option<f64>,
        /// Which pick of a draw plan it is, when it was picked by one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        picked: Option<Picked>,
    },
    /// By opening up.
    OpenUp {
        /// What was opened or lifted.
        opened: String,
        /// What was found.
        found: String,
    },
    /// By stress-wave time.
    StressWave {
        /// Time of flight, in microseconds.
        time_us: f64,
        /// Distance between start and stop, in millimetres.
        distance_mm: f64,
    },
    /// By asking. Always hearsay.
    Ask {
        /// Who says it: `the owner`, `the yard's bill of 1998`, …
        who: String,
        /// What is said.
        said: String,
    },
}

/// A pick of a draw plan kept in the survey.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Picked {
    /// The plan: a reckoning of the topic `draw-plan`.
    pub plan: EntryId,
    /// The zone, as the plan names it; none when the plan has no zones.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub zone: Option<String>,
    /// The fastening's number in the zone, or in the whole.
    pub number: u64,
}

impl Reading {
    /// Returns the method.
    pub fn method(&self) -> Method {
        match self {
            Reading::Sight { .. } => Method::Sight,
            Reading::Sound { .. } => Method::Sound,
            Reading::Probe { .. } => Method::Probe,
            Reading::Moisture { .. } => Method::Moisture,
            Reading::Measure { .. } => Method::Measure,
            Reading::Bore { .. } => Method::Bore,
            Reading::Draw { .. } => Method::Draw,
            Reading::OpenUp { .. } => Method::OpenUp,
            Reading::StressWave { .. } => Method::StressWave,
            Reading::Ask { .. } => Method::Ask,
        }
    }

    /// Tells whether the reading by itself speaks against the member: a dull or chattering blow, soft wood or a sliver that
    /// breaks short, movement when pried, a void, a fastening that has wasted, broken or lost its bite. What is seen or
    /// measured speaks in words only and is never counted here.
    pub fn is_adverse(&self) -> bool {
        match self {
            Reading::Sound { answer, .. } => matches!(answer, SoundAnswer::DullOrHollow | SoundAnswer::Chatters),
            Reading::Probe { knife, moves_under_pry, .. } => {
                matches!(knife, Some(Knife::Soft | Knife::SliverBreaksShort)) || *moves_under_pry == Some(true)
            }
            Reading::Bore { finds, .. } => *finds == BoreFinds::SoftOrVoid,
            Reading::Draw { condition, .. } => {
                matches!(condition, DrawnCondition::Wasted | DrawnCondition::Broken | DrawnCondition::TurnsWithoutBite)
            }
            _ => false,
        }
    }

    /// Returns what is impossible in the reading, if anything.
    pub fn fault(&self) -> Option<String> {
        let positive = |name: &str, v: f64| {
            (!(v.is_finite() && v > 0.0)).then(|| format!("{name} is {v}; accepted is a number above 0"))
        };
        let not_negative = |name: &str, v: f64| {
            (!(v.is_finite() && v >= 0.0)).then(|| format!("{name} is {v}; accepted is a number from 0"))
        };
        match self {
            Reading::Probe { knife, depth_mm, moves_under_pry } => {
                if knife.is_none() && depth_mm.is_none() && moves_under_pry.is_none() {
                    return Some("a probe reading needs knife, depth_mm or moves_under_pry".to_owned());
                }
                depth_mm.and_then(|d| not_negative("depth_mm", d))
            }
            Reading::Moisture { reading_percent, depth_mm, temp_c, .. } => {
                if !(0.0..=300.0).contains(reading_percent) {
                    return Some(format!("reading_percent is {reading_percent}; accepted is 0 to 300 %"));
                }
                if temp_c.is_some_and(|t| !(-60.0..=80.0).contains(&t)) {
                    return Some("temp_c is out of range; accepted is -60 to 80 °C".to_owned());
                }
                depth_mm.and_then(|d| not_negative("depth_mm", d))
            }
            Reading::Measure { quantity, value, unit, .. } => {
                if quantity.trim().is_empty() || unit.trim().is_empty() {
                    return Some("a measure needs a quantity and a unit".to_owned());
                }
                if !value.is_finite() {
                    return Some("the value is not a number".to_owned());
                }
                // A hog, a height or a temperature may lie below nought; a size may not.
                let size = SIZES.iter().find(|size| quantity.to_lowercase().contains(*size));
                size.filter(|_| *value < 0.0)
                    .map(|size| format!("a {size} is {value} {unit}; accepted is a number from 0"))
            }
            Reading::Bore { depth_mm, .. } => positive("depth_mm", *depth_mm),
            Reading::Draw { original_mm, measured_mm, .. } => original_mm
                .and_then(|v| positive("original_mm", v))
                .or_else(|| measured_mm.and_then(|v| not_negative("measured_mm", v))),
            Reading::StressWave { time_us, distance_mm } => {
                positive("time_us", *time_us).or_else(|| positive("distance_mm", *distance_mm))
            }
            Reading::Ask { who, said } if who.trim().is_empty() || said.trim().is_empty() => {
                Some("what is asked needs who says it and what is said".to_owned())
            }
            _ => None,
        }
    }
}

/// Words by which a measured quantity is known to be a size, which cannot be less than nought.
const SIZES: [&str; 12] = [
    "thickness",
    "diameter",
    "width",
    "breadth",
    "depth",
    "length",
    "girth",
    "spacing",
    "gap",
    "opening",
    "weight",
    "mass",
];

impl Reading {
    /// Returns what is possible in the reading and yet deserves a second look, in a sentence; none when nothing does.
    pub fn caution(&self) -> Option<String> {
        match self {
            // Rust and verdigris swell a fastening before it is cleaned, so this may be so.
            Reading::Draw { original_mm: Some(original), measured_mm: Some(measured), .. } if measured > original => {
                Some(format!(
                    "the fastening measures {measured} mm now and {original} mm as new; measured over corrosion, or the two \
                     figures are changed about"
                ))
            }
            _ => None,
        }
    }
}

impl fmt::Display for Reading {
    /// Writes the reading in the trade's words with its units: `firm under the knife, 2 mm; does not move`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Reading::Sight { signs } if signs.is_empty() => f.write_str("seen"),
            Reading::Sight { signs } => f.write_str(&signs.join(", ").replace('_', " ")),
            Reading::Sound { answer, blows } => {
                write!(f, "{answer}")?;
                blows.map_or(Ok(()), |n| write!(f, " ({n} {})", if n == 1 { "blow" } else { "blows" }))
            }
            Reading::Probe { knife, depth_mm, moves_under_pry } => {
                let mut parts = Vec::new();
                match (knife, depth_mm) {
                    (Some(knife), Some(d)) => parts.push(format!("{knife}, point enters {d} mm")),
                    (Some(knife), None) => parts.push(knife.to_string()),
                    (None, Some(d)) => parts.push(format!("point enters {d} mm")),
                    (None, None) => {}
                }
                match moves_under_pry {
                    Some(true) => parts.push("moves when pried".to_owned()),
                    Some(false) => parts.push("does not move when pried".to_owned()),
                    None => {}
                }
                f.write_str(&parts.join("; "))
            }
            Reading::Moisture { reading_percent, depth_mm, temp_c, species_setting, .. } => {
                write!(f, "meter shows {reading_percent} %")?;
                if let Some(d) = depth_mm {
                    write!(f, " at {d} mm")?;
                }
                if let Some(t) = temp_c {
                    write!(f, ", {t} °C")?;
                }
                species_setting.as_ref().map_or(Ok(()), |s| write!(f, ", set to {s}"))
            }
            Reading::Measure { quantity, value, unit, as_written } => {
                write!(f, "{quantity} {value} {unit}")?;
                as_written.as_ref().map_or(Ok(()), |w| write!(f, " (written {w})"))
            }
            Reading::Bore { depth_mm, finds } => write!(f, "bored {depth_mm} mm: {finds}"),
            Reading::Draw { fastening, condition, original_mm, measured_mm, .. } => {
                write!(f, "{fastening} drawn: {condition}")?;
                match (measured_mm, original_mm) {
                    (Some(m), Some(o)) => write!(f, ", {m} mm left of {o} mm"),
                    (Some(m), None) => write!(f, ", {m} mm at the least"),
                    (None, Some(o)) => write!(f, ", {o} mm as new"),
                    (None, None) => Ok(()),
                }
            }
            Reading::OpenUp { opened, found } => write!(f, "{opened} opened: {found}"),
            Reading::StressWave { time_us, distance_mm } => write!(f, "{time_us} µs over {distance_mm} mm"),
            Reading::Ask { who, said } => write!(f, "{who} says: {said}"),
        }
    }
}
