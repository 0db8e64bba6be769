//! The readings of each place as the weighing takes them, and what it makes of them.
//!
//! What a method gave is turned into the table's own readings one to one. A reading for which the table has no
//! likelihood is left out and named, never bent to fit.

use evidence::{Book, Leave, Override, Question, Weighing};
use serde_json::{Value, json};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use survey::payload::Observation;
use survey::{BoreFinds, DrawnCondition, EntryId, Knife, Place, Reading, SoundAnswer, State, View};

/// Moisture, in percent, from which wood holds free water. Fibre saturation lies near 30 % (USDA Forest Products
/// Laboratory, Wood Handbook, chapter 4); meters mean little above it, so only the fact is used.
const FIBRE_SATURATION_PERCENT: f64 = 30.0;

/// Words in the name of a member that is not of wood: the table speaks of wood, its fastening and what is behind it.
const NOT_WOOD: [&str; 16] = [
    "keel-bolt",
    "backbone-bolt",
    "ballast",
    "band",
    "chainplate",
    "fitting",
    "rigging",
    "sheathing",
    "seacock",
    "anode",
    "propeller",
    "shaft",
    "stern-bearing",
    "gudgeon",
    "stern-tube",
    "iron",
];

/// One place of a member with its readings weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceWeighed {
    /// The member, by its name in the record.
    pub member: String,
    /// Where on it.
    pub place: Place,
    /// The observations that were weighed.
    pub basis: Vec<EntryId>,
    /// Observations of the place that the table has no likelihood for.
    pub left_out: Vec<EntryId>,
    /// What was asked of the weighing, as its JSON.
    pub asked: Value,
    /// The answer.
    pub weighing: Weighing,
}

impl PlaceWeighed {
    /// Returns a name by which the page finds it again.
    pub fn key(&self) -> String {
        format!("{} {}", self.member, self.place)
    }
}

/// Weighs every place with at least one reading that can be weighed: first those where trouble leads, then by how
/// little is settled.
pub fn weigh_all(state: &State, may_open: Option<Leave>) -> Vec<PlaceWeighed> {
    let own = own_likelihoods(state);
    let Ok(book) = book_with(&own) else { return Vec::new() };
    let places = by_place(state);
    let known = context(state);
    let mut all: Vec<PlaceWeighed> = places
        .iter()
        .filter_map(|((member, _), (place, views))| {
            let mut asked = json!({"observations": readings(views), "neighbours": neighbours(&places, member, place)});
            if asked["observations"].as_array().is_none_or(Vec::is_empty) {
                return None;
            }
            if !known.is_null() {
                asked["context"] = known.clone();
            }
            if let Some(leave) = may_open {
                asked["may_open"] = json!(leave);
            }
            let question: Question = serde_json::from_value(asked.clone()).ok()?;
            // The book holds the surveyor's own likelihoods already; what is kept says so too.
            let weighing = book.weigh(&question).ok()?;
            if !own.is_empty() {
                asked["overrides"] = json!(own);
            }
            let (basis, left_out) =
                views.iter().partition::<Vec<_>, _>(|view| !table_readings(view.payload).is_empty());
            let ids = |views: Vec<&View<'_, Observation>>| views.into_iter().map(|view| view.id()).collect();
            Some(PlaceWeighed {
                member: (*member).to_owned(),
                place: (*place).clone(),
                basis: ids(basis),
                left_out: ids(left_out),
                asked,
                weighing,
            })
        })
        .collect();
    all.sort_by(|a, b| {
        let trouble = |one: &PlaceWeighed| 1.0 - one.weighing.plank[evidence::PlankState::Sound as usize];
        trouble(b).total_cmp(&trouble(a)).then_with(|| a.key().cmp(&b.key()))
    });
    all
}

type Places<'a> = BTreeMap<(&'a str, String), (&'a Place, Vec<View<'a, Observation>>)>;

fn by_place(state: &State) -> Places<'_> {
    let mut places = Places::new();
    for view in state.observations() {
        let o: &Observation = view.payload;
        if NOT_WOOD.iter().any(|word| o.member.contains(word)) {
            continue;
        }
        let key = (o.member.as_str(), o.place.to_string());
        places.entry(key).or_insert_with(|| (&o.place, Vec::new())).1.push(view);
    }
    places
}

/// The readings of places next to this one on the same member: one strake or one frame on.
fn neighbours(places: &Places<'_>, member: &str, place: &Place) -> Vec<Value> {
    let (Some(strake), Some(frame)) = (place.strake, place.frame_from) else { return Vec::new() };
    let beside = |other: &Place| {
        let (Some(s), Some(f)) = (other.strake, other.frame_from) else { return false };
        other.side == place.side && s.abs_diff(strake) + f.abs_diff(frame) == 1
    };
    let found = places.iter().filter(|((of, _), (other, _))| *of == member && beside(other));
    let read = found.map(|(_, (other, views))| json!({"place": other.to_string(), "observations": readings(views)}));
    read.filter(|one| one["observations"].as_array().is_some_and(|all| !all.is_empty())).take(4).collect()
}

/// Returns the likelihoods of the surveyor's own that the record holds.
fn own_likelihoods(state: &State) -> Vec<Override> {
    let known = state.beforehand();
    let all = known.iter().flat_map(|known| &known.payload.likelihoods);
    all.filter_map(|own| {
        let (group, reading) = own.reading.split_once('/')?;
        Some(Override {
            group: group.to_owned(),
            reading: reading.to_owned(),
            hypothesis: own.state.clone(),
            p: own.percent / 100.0,
            source: own.source.clone(),
        })
    })
    .collect()
}

/// The book of likelihoods with the surveyor's own in it; built once for all places.
fn book_with(own: &[Override]) -> Result<Cow<'static, Book>, evidence::Fault> {
    let elicited = Book::elicited()?;
    if own.is_empty() { Ok(Cow::Borrowed(elicited)) } else { elicited.with_overrides(own).map(Cow::Owned) }
}

/// Returns why nothing can be weighed, when one of the surveyor's own likelihoods does not fit the table.
pub fn refused(state: &State) -> Option<String> {
    book_with(&own_likelihoods(state)).err().map(|fault| fault.to_string())
}

/// What is known of the boat that shifts where the weighing starts: what the surveyor says beforehand, else what her
/// particulars tell.
pub fn context(state: &State) -> Value {
    let mut known = serde_json::Map::new();
    let surveyed = state.conditions().filter_map(|c| c.payload.date).last().map(|date| i32::from(date.year()));
    let built = state.vessel().and_then(|v| v.payload.built_year);
    if let (Some(surveyed), Some(built)) = (surveyed, built)
        && surveyed >= built
    {
        known.insert("age_years".to_owned(), json!(surveyed - built));
    }
    let said = state.beforehand().map(|view| view.payload.clone()).unwrap_or_default();
    let vessel = state.vessel().map(|view| view.payload);
    let timber = said.timber.or_else(|| durability(vessel?.planking_species.as_deref()?).map(str::to_owned));
    let metal = said.fastening_metal.or_else(|| metal(vessel?.plank_fastening.as_deref()?).map(str::to_owned));
    let levels = [
        ("timber", timber),
        ("water", said.water),
        ("ventilation", said.ventilation),
        ("deck_leaks_above", said.deck_leaks_above),
        ("upkeep", said.upkeep),
        ("known_repairs", said.known_repairs),
        ("fastening_metal", metal),
    ];
    known.extend(levels.into_iter().filter_map(|(factor, level)| Some((factor.to_owned(), json!(level?)))));
    if known.is_empty() { Value::Null } else { known.into() }
}

/// How her planking lasts, as the start of a weighing names it: class 1 or 2 of EN 350 is durable, 3 moderately.
fn durability(species: &str) -> Option<&'static str> {
    let wood = timber::species::find(species).ok()?;
    // `2-3 (1994)` is taken as 3: the less durable end of what the first source gives.
    let first = wood.decay_en350.as_ref()?.words.split(['(', ';']).next()?;
    let class = first.chars().rfind(char::is_ascii_digit)?;
    Some(match class {
        '1' | '2' => "durable",
        '3' => "moderately_durable",
        _ => "not_durable",
    })
}

/// The metal that her particulars name; none when they name none or several.
fn metal(words: &str) -> Option<&'static str> {
    let words = words.to_lowercase();
    let has = |all: &[&str]| all.iter().any(|word| words.contains(word));
    let found = [
        ("galvanised_iron", has(&["galvanis", "galvaniz"])),
        ("iron", has(&["iron", "steel"]) && !has(&["galvanis", "galvaniz"])),
        ("bronze", has(&["bronze", "gunmetal"])),
        ("copper", has(&["copper"])),
        ("wood", has(&["trenail", "treenail", "trunnel"])),
    ];
    let named: Vec<&str> = found.into_iter().filter(|(_, is)| *is).map(|(name, _)| name).collect();
    match named.as_slice() {
        [one] => Some(one),
        _ => None,
    }
}

fn readings(views: &[View<'_, Observation>]) -> Vec<Value> {
    // The same reading twice in one place is one witness; the table would set it aside anyway.
    let mut seen = BTreeSet::new();
    let all = views.iter().flat_map(|view| table_readings(view.payload));
    all.filter(|(group, reading)| seen.insert((*group, reading.clone())))
        .map(|(group, reading)| json!({"group": group, "reading": reading}))
        .collect()
}

/// Returns an observation as the table of likelihoods names its readings: group and reading.
pub fn table_readings(observation: &Observation) -> Vec<(&'static str, String)> {
    let one = |group: &'static str, reading: &str| vec![(group, reading.to_owned())];
    match &observation.reading {
        Reading::Sight { signs } => {
            let Ok(book) = Book::elicited() else { return Vec::new() };
            let group_of = |sign: &str| book.readings().find(|(_, reading)| *reading == sign).map(|(group, _)| group);
            signs.iter().filter_map(|sign| Some((group_of(sign)?, sign.clone()))).collect()
        }
        Reading::Sound { answer, .. } => match answer {
            SoundAnswer::Rings => one("hammer", "not_dull_or_hollow"),
            SoundAnswer::DullOrHollow => one("hammer", "dull_or_hollow"),
            SoundAnswer::Chatters => one("hammer", "chatters"),
            SoundAnswer::CannotBeTold => Vec::new(),
        },
        Reading::Probe { knife, moves_under_pry, .. } => {
            let knife = knife.map(|knife| match knife {
                Knife::Firm => "firm",
                Knife::Soft => "not_firm",
                Knife::SliverBreaksShort => "sliver_breaks_short",
            });
            let moves = moves_under_pry.map(|yes| if yes { "moves_under_pry" } else { "not_moves_under_pry" });
            let knife = knife.map(|reading| ("knife", reading.to_owned()));
            knife.into_iter().chain(moves.map(|reading| ("movement", reading.to_owned()))).collect()
        }
        Reading::Moisture { reading_percent, .. } if *reading_percent > FIBRE_SATURATION_PERCENT => {
            one("moisture", "above_fibre_saturation_when_it_should_be_dry")
        }
        Reading::Bore { finds, .. } => match finds {
            BoreFinds::Solid => one("bore", "not_soft_or_void"),
            BoreFinds::SoftOrVoid => one("bore", "soft_or_void"),
            BoreFinds::Water => Vec::new(),
        },
        Reading::Draw { condition, .. } => match condition {
            DrawnCondition::Good => one("fastening", "not_drawn_and_wasted"),
            DrawnCondition::Wasted => one("fastening", "drawn_and_wasted"),
            DrawnCondition::TurnsWithoutBite => one("fastening", "turns_without_bite"),
            DrawnCondition::Broken | DrawnCondition::WouldNotDraw => Vec::new(),
        },
        _ => Vec::new(),
    }
}

/// One thing still worth doing while she can be reached.
#[derive(Clone, Debug, PartialEq)]
pub struct StillWorth {
    /// The member.
    pub member: String,
    /// Where.
    pub place: Place,
    /// What to do, in words.
    pub what: String,
    /// Minutes it takes, elicited and not measured.
    pub minutes: f64,
    /// What it is expected to tell, in bits.
    pub information_bits: f64,
    /// What may be needed: the leave.
    pub leave: Leave,
}

/// Least expected information, in bits, for which a test is worth naming: a tenth of a yes-or-no question.
const WORTH_NAMING_BITS: f64 = 0.1;

/// Returns the best test of each place, most told a minute first.
pub fn still_worth(all: &[PlaceWeighed]) -> Vec<StillWorth> {
    let mut tests: Vec<(f64, StillWorth)> = all
        .iter()
        .filter_map(|one| {
            let next = one.weighing.next.first().filter(|next| next.information_bits >= WORTH_NAMING_BITS)?;
            let test = StillWorth {
                member: one.member.clone(),
                place: one.place.clone(),
                what: next.test.words.clone(),
                minutes: next.test.minutes,
                information_bits: next.information_bits,
                leave: next.test.leave,
            };
            Some((next.bits_per_minute, test))
        })
        .collect();
    tests.sort_by(|a, b| b.0.total_cmp(&a.0));
    tests.into_iter().map(|(_, test)| test).collect()
}
