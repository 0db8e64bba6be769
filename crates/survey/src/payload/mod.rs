//! What an entry can say: one type a kind, in the form in which it is written to the field book.
//!
//! These types *are* the written format: a field once used keeps its name and meaning for good; new fields are
//! optional. Lengths are in millimetres, money in the unit of its currency, dates as `2026-06-03`.

mod beforehand;
mod client_link;
mod finding;
mod money;
mod noting;
mod preparation;
mod seen;
mod upkeep;
mod way;
mod wording;

pub use beforehand::{Beforehand, OwnLikelihood};
pub use client_link::ClientLink;
pub use finding::{Alternative, CarriedFrom, Condition, Finding, LikelyState, Recommendation, Sureness, Urgency};
pub use money::{Adjustment, Comparable, EstimateLine, OpinionOfValue};
pub use preparation::{Account, Brief, Conditions, Construction, HullForm, Instrument, Vessel};
pub use seen::{Attachment, MemberHad, NotSeen, Observation, Reckoning};
pub use upkeep::{Against, Amendment, FollowUp, FollowUpStanding, Head, Issue, ReportIssued};
pub use way::{Way, WayKind};

pub(crate) use wording::not_json;

use jiff::civil::Date;
use serde_json::Value;

/// Why a payload is not accepted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PayloadFault {
    /// The text does not have the shape of its kind.
    #[error("{kind}: {why}")]
    Shape {
        /// The kind.
        kind: String,
        /// What is wrong and where.
        why: String,
    },
    /// A field that the kind does not have.
    #[error("{kind}: there is no field `{field}`; accepted are {accepted}")]
    UnknownField {
        /// The kind.
        kind: String,
        /// The field.
        field: String,
        /// The fields there are.
        accepted: String,
    },
    /// A value that cannot be.
    #[error("{kind}: {why}")]
    Value {
        /// The kind.
        kind: String,
        /// What cannot be, and what is accepted.
        why: String,
    },
    /// No such kind.
    #[error("there is no kind of entry `{kind}`; accepted are {accepted}")]
    UnknownKind {
        /// What was given.
        kind: String,
        /// The kinds there are.
        accepted: String,
    },
}

/// A kind of entry with a payload of its own.
pub trait Kind: Sized {
    /// The kind's name as written.
    const NAME: &'static str;
    /// Returns the payload when it is of this kind.
    fn of(payload: &Payload) -> Option<&Self>;
    /// Returns what cannot be in the payload, if anything.
    fn fault(&self) -> Option<String>;
}

macro_rules! kinds {
    ($($(#[$about:meta])* $variant:ident = $name:literal),+ $(,)?) => {
        /// What an entry says, by kind.
        #[derive(Clone, Debug, PartialEq)]
        pub enum Payload {
            $($(#[$about])* $variant(Box<$variant>),)+
            /// A kind, or a shape of a kind, that this version does not know. Kept and passed on as it is.
            Unknown {
                /// The kind as written.
                kind: String,
                /// Why it could not be read; `None` when only the kind is unknown.
                why: Option<String>,
            },
        }

        /// Names of all kinds of entry, as written.
        pub const KINDS: &[&str] = &[$($name),+];

        $(impl Kind for $variant {
            const NAME: &'static str = $name;
            fn of(payload: &Payload) -> Option<&Self> {
                match payload { Payload::$variant(own) => Some(own), _ => None }
            }
            fn fault(&self) -> Option<String> { self.impossible() }
        }
        impl From<$variant> for Payload {
            fn from(own: $variant) -> Payload { Payload::$variant(Box::new(own)) }
        })+

        impl Payload {
            /// Returns the kind's name as written.
            pub fn kind(&self) -> &str {
                match self { $(Payload::$variant(_) => $name,)+ Payload::Unknown { kind, .. } => kind }
            }

            /// Reads what came in an entry. Never refuses: what is not known is kept as unknown.
            pub(crate) fn read_lenient(kind: &str, json: &str) -> Payload {
                match kind {
                    $($name => match serde_json::from_str::<$variant>(json) {
                        Ok(own) => own.into(),
                        Err(fault) => Payload::Unknown { kind: kind.to_owned(), why: Some(fault.to_string()) },
                    },)+
                    _ => Payload::Unknown { kind: kind.to_owned(), why: None },
                }
            }

            /// Reads a payload that someone is about to enter: unknown kinds, unknown fields and impossible values
            /// are refused.
            pub fn read_strict(kind: &str, value: &Value) -> Result<Payload, PayloadFault> {
                match kind {
                    $($name => strict::<$variant>(kind, value).map(Payload::from),)+
                    _ => Err(PayloadFault::UnknownKind { kind: shortened(kind), accepted: KINDS.join(", ") }),
                }
            }

            /// Returns the payload as JSON text; `null` for an unknown one, whose text only its entry has.
            pub fn to_json(&self) -> String {
                let text = match self {
                    $(Payload::$variant(own) => serde_json::to_string(own),)+
                    Payload::Unknown { .. } => return "null".to_owned(),
                };
                // Payloads are plain structs with string keys and checked numbers, which always serialise.
                text.unwrap_or_else(|_| "null".to_owned())
            }

            /// Returns what is possible and yet deserves a second look, in a sentence: not refused, but said.
            pub fn caution(&self) -> Option<String> {
                match self {
                    Payload::Observation(observation) => observation.reading.caution(),
                    _ => None,
                }
            }

            /// Returns what cannot be in the payload, if anything.
            pub fn fault(&self) -> Option<PayloadFault> {
                let why = match self {
                    $(Payload::$variant(own) => own.fault(),)+
                    Payload::Unknown { .. } => None,
                };
                why.map(|why| PayloadFault::Value { kind: self.kind().to_owned(), why })
            }
        }
    };
}

kinds!(
    /// What the survey is for and on what terms.
    Brief = "brief",
    /// The boat.
    Vessel = "vessel",
    /// Her shape, as far as known.
    HullForm = "hull_form",
    /// A member that this boat has beside the catalogue's, or lacks.
    MemberHad = "member",
    /// The conditions on a day of the survey.
    Conditions = "conditions",
    /// An instrument used.
    Instrument = "instrument",
    /// What is known of her before a reading is weighed.
    Beforehand = "beforehand",
    /// Something found out at a place by a method.
    Observation = "observation",
    /// A photograph, recording or paper.
    Attachment = "attachment",
    /// A member, or part of one, that was not seen, and why.
    NotSeen = "not_seen",
    /// A computation and its answer.
    Reckoning = "reckoning",
    /// The surveyor's conclusion about a member.
    Finding = "finding",
    /// What should be done.
    Recommendation = "recommendation",
    /// A line of the repair estimate.
    EstimateLine = "estimate_line",
    /// A sale or offer to compare with.
    Comparable = "comparable",
    /// The surveyor's opinion of value.
    OpinionOfValue = "opinion_of_value",
    /// A correction of an earlier entry.
    Amendment = "amendment",
    /// A report that went out.
    ReportIssued = "report_issued",
    /// A client's link to a report that went out.
    ClientLink = "client_link",
    /// What became of a recommendation.
    FollowUp = "follow_up",
);

fn strict<T: Kind + serde::de::DeserializeOwned + serde::Serialize>(
    kind: &str,
    value: &Value,
) -> Result<T, PayloadFault> {
    let (read, notes) = noting::read::<T>(value);
    let own = read.map_err(|fault| {
        let why = wording::of(&notes.misfit_at, &fault.to_string(), value);
        PayloadFault::Shape { kind: kind.to_owned(), why }
    })?;
    if let Some(field) = notes.unknown {
        let accepted = field_names::<T>();
        return Err(PayloadFault::UnknownField { kind: kind.to_owned(), field: shortened(&field), accepted });
    }
    match own.fault() {
        Some(why) => Err(PayloadFault::Value { kind: kind.to_owned(), why }),
        None => Ok(own),
    }
}

/// Asks the type's own reader which fields it knows.
fn field_names<T: serde::de::DeserializeOwned>() -> String {
    struct Names(&'static [&'static str]);
    impl<'de> serde::Deserializer<'de> for &mut Names {
        type Error = serde::de::value::Error;
        fn deserialize_any<V: serde::de::Visitor<'de>>(self, _: V) -> Result<V::Value, Self::Error> {
            Err(serde::de::Error::custom("only the names are wanted"))
        }
        fn deserialize_struct<V: serde::de::Visitor<'de>>(
            self,
            _: &'static str,
            fields: &'static [&'static str],
            visitor: V,
        ) -> Result<V::Value, Self::Error> {
            self.0 = fields;
            self.deserialize_any(visitor)
        }
        serde::forward_to_deserialize_any! {
            bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf option unit
            unit_struct newtype_struct seq tuple tuple_struct map enum identifier ignored_any
        }
    }
    let mut names = Names(&[]);
    let _ = T::deserialize(&mut names);
    names.0.join(", ")
}

fn shortened(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).take(60).collect()
}

/// Returns a fault when a text that a kind cannot do without is empty.
fn empty(field: &str, text: &str) -> Option<String> {
    text.trim().is_empty().then(|| format!("`{field}` is empty; accepted is some text"))
}

/// Returns a fault when a day lies where no survey of a boat afloat today can have one: a year typed wrong.
fn far_day(field: &str, day: Option<Date>) -> Option<String> {
    let day = day?;
    (!(1900..=2199).contains(&day.year())).then(|| format!("`{field}` is {day}; accepted are days from 1900 to 2199"))
}

/// Returns a fault when a year of building lies before any boat still to be surveyed, or in the far future.
fn far_year(field: &str, year: Option<i32>) -> Option<String> {
    let year = year?;
    (!(1500..=2199).contains(&year)).then(|| format!("`{field}` is {year}; accepted are years from 1500 to 2199"))
}

/// Returns a fault when an amount or length is not a number from 0.
fn below_zero(field: &str, value: Option<f64>) -> Option<String> {
    let value = value?;
    (!value.is_finite() || value < 0.0).then(|| format!("`{field}` is {value}; accepted is a number from 0"))
}
