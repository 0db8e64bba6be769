//! Recording at the pace of the trade: what is recorded with one tap, what a figure makes of a method, and stepping along
//! frames and strakes.
//!
//! Needs no browser, so that it is tested natively.

use measure::{Length, System};
use survey::payload::Observation;
use survey::{BoreFinds, DrawnCondition, Knife, Method, Place, Reading, SoundAnswer, State};

/// What one tap records, in the trade's words.
#[derive(Clone, Debug, PartialEq)]
pub struct AtOnce {
    /// The words.
    pub words: String,
    /// The reading.
    pub reading: Reading,
    /// What goes with it as the note, when the reading alone says nothing.
    pub note: &'static str,
}

/// What the knife commonly meets with: knife, and what the lever does.
const PROBED: [(&str, Option<Knife>, Option<bool>); 5] = [
    ("firm", Some(Knife::Firm), None),
    ("soft", Some(Knife::Soft), None),
    ("a sliver breaks short", Some(Knife::SliverBreaksShort), None),
    ("moves when pried", None, Some(true)),
    ("does not move", None, Some(false)),
];

/// Returns what a method gives that needs no figure and no words, most usual first. A fastening is called what her
/// particulars call it.
pub fn at_once(method: Method, state: &State) -> Vec<AtOnce> {
    let plain = |words: String, reading: Reading| AtOnce { words, reading, note: "" };
    match method {
        Method::Sight => {
            let nothing = AtOnce {
                words: "nothing wrong".to_owned(),
                reading: Reading::Sight { signs: Vec::new() },
                note: "Nothing wrong was seen.",
            };
            let book = evidence::Book::elicited();
            let signs = book.iter().flat_map(|book| book.readings()).filter(|(group, _)| *group == "visual");
            let signs =
                signs.map(|(_, sign)| plain(sign.replace('_', " "), Reading::Sight { signs: vec![sign.to_owned()] }));
            std::iter::once(nothing).chain(signs.filter(|one| !one.words.starts_with("not "))).collect()
        }
        Method::Sound => SoundAnswer::ALL
            .iter()
            .map(|answer| plain(answer.to_string(), Reading::Sound { answer: *answer, blows: None }))
            .collect(),
        Method::Probe => PROBED
            .iter()
            .map(|(words, knife, moves)| {
                plain((*words).to_owned(), Reading::Probe { knife: *knife, depth_mm: None, moves_under_pry: *moves })
            })
            .collect(),
        Method::Draw => {
            let told = state.vessel().and_then(|v| v.payload.plank_fastening.clone()).filter(|told| !told.is_empty());
            let fastening = told.unwrap_or_else(|| "plank fastening".to_owned());
            DrawnCondition::ALL
                .iter()
                .map(|condition| {
                    let fastening = fastening.clone();
                    let (original_mm, measured_mm, picked) = (None, None, None);
                    plain(
                        condition.to_string(),
                        Reading::Draw { fastening, condition: *condition, original_mm, measured_mm, picked },
                    )
                })
                .collect()
        }
        _ => Vec::new(),
    }
}

/// What is recorded with a figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Figure {
    /// The meter's reading.
    Moisture,
    /// How far the point of the knife goes in.
    KnifeDepth,
    /// A length of this name.
    Measured(&'static str),
    /// A hole of this depth, and what was found in it.
    Bored(BoreFinds),
}

/// What is measured most while walking round a boat.
const MEASURED: [&str; 6] =
    ["seam gap", "thickness", "fastening diameter", "bung diameter", "depth of decay", "gap behind the plank"];

impl Figure {
    /// Returns what a method is given figures for.
    pub fn of(method: Method) -> Vec<Self> {
        match method {
            Method::Moisture => vec![Self::Moisture],
            Method::Probe => vec![Self::KnifeDepth],
            Method::Measure => MEASURED.into_iter().map(Self::Measured).collect(),
            Method::Bore => BoreFinds::ALL.iter().copied().map(Self::Bored).collect(),
            _ => Vec::new(),
        }
    }

    /// Returns what it is called.
    pub fn words(self) -> String {
        match self {
            Self::Moisture => "the meter shows".to_owned(),
            Self::KnifeDepth => "point enters".to_owned(),
            Self::Measured(quantity) => quantity.to_owned(),
            Self::Bored(finds) => finds.to_string(),
        }
    }

    /// Tells whether the figure is a length.
    pub fn is_length(self) -> bool {
        self != Self::Moisture
    }

    /// Reads what was keyed in as this figure: a length without its unit is in millimetres, or in inches where those are
    /// shown; a fraction of an inch is one (`5/8`, `1 5/8`).
    ///
    /// # Errors
    /// One sentence: what was keyed in, and what is accepted.
    pub fn read(self, typed: &str, system: System) -> Result<Reading, String> {
        let typed = typed.trim();
        if typed.is_empty() {
            return Err("Key in a figure first.".to_owned());
        }
        if !self.is_length() {
            let figure = typed.trim_end_matches('%').trim().replace(',', ".").parse::<f64>();
            let reading_percent =
                figure.map_err(|_| format!("“{typed}” is not a number; write it like 18 or 18.5."))?;
            let (depth_mm, temp_c, species_setting, instrument) = (None, None, None, None);
            let reading = Reading::Moisture { reading_percent, depth_mm, temp_c, species_setting, instrument };
            return sound(reading);
        }
        let (written, mm) = length(typed, system)?;
        sound(match self {
            Self::Measured(quantity) => Reading::Measure {
                quantity: quantity.to_owned(),
                value: mm,
                unit: "mm".to_owned(),
                as_written: (!written.ends_with("mm")).then_some(written),
            },
            Self::Bored(finds) => Reading::Bore { depth_mm: mm, finds },
            _ => Reading::Probe { knife: None, depth_mm: Some(mm), moves_under_pry: None },
        })
    }
}

fn sound(reading: Reading) -> Result<Reading, String> {
    match reading.fault() {
        None => Ok(reading),
        Some(why) => Err(format!("{why}.")),
    }
}

/// Reads a length as it was keyed in; returns it with its unit written out, and in millimetres.
fn length(typed: &str, system: System) -> Result<(String, f64), String> {
    let has_unit = typed.contains(|c: char| c.is_alphabetic() || matches!(c, '"' | '\'' | '″' | '′'));
    let in_inches = typed.contains('/') || system == System::Customary;
    let written = match (has_unit, in_inches) {
        (true, _) => typed.to_owned(),
        (false, true) => format!("{typed}\""),
        (false, false) => format!("{typed} mm"),
    };
    let read = Length::read(&written)
        .map_err(|_| format!("“{typed}” is not a length; write it like 12, 5/8, 1 5/8, 12.5 mm or 3/4\"."))?;
    // Written down exactly as it was read; worked with to a thousandth of a millimetre.
    Ok((written, (read.mm() * 1000.0).round() / 1000.0))
}

/// Where somebody stands: a member, and the place on it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Spot {
    /// The member, by its name in the record; empty as long as none is chosen.
    pub member: String,
    /// The place.
    pub place: Place,
}

/// The planks of a side, as far as the strake alone tells them.
const PLANKS: [&str; 5] = ["garboard", "broad-strake", "bottom-plank", "bilge-plank", "topside-plank"];

/// How many strakes and frames there are to step along, as far as known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Reach {
    /// Strakes a side.
    pub strakes: Option<u32>,
    /// Frames.
    pub frames: Option<u32>,
}

impl Reach {
    /// Returns what the record says of it.
    pub fn of(state: &State) -> Self {
        let form = state.hull_form().map(|form| form.payload);
        let counted = state.vessel().and_then(|v| v.payload.counts.get("strakes").copied());
        Self { strakes: form.and_then(|f| f.strakes).or(counted), frames: form.and_then(|f| f.frames) }
    }
}

fn stepped(from: Option<u32>, by: i32, last: Option<u32>) -> Option<u32> {
    let next = i64::from(from.unwrap_or(0)) + i64::from(by);
    let last = last.unwrap_or(u32::MAX).max(1);
    u32::try_from(next).ok().filter(|n| *n > 0).map(|n| n.min(last))
}

impl Spot {
    /// Returns where somebody last recorded, the member and the place of the last observation.
    pub fn last(state: &State) -> Option<Self> {
        let last: &Observation = state.observations().last()?.payload;
        let mut place = last.place.clone();
        place.words = None;
        Some(Self { member: last.member.clone(), place })
    }

    /// Goes so many frames aft, or forward; before the first there is no frame, and behind the last none.
    pub fn step_frames(&mut self, by: i32, reach: Reach) {
        let span = self.place.frame_to.zip(self.place.frame_from).map_or(0, |(to, from)| to.saturating_sub(from));
        self.place.frame_from = stepped(self.place.frame_from, by, reach.frames);
        let to = |from: u32| {
            (span > 0).then(|| from.saturating_add(span)).filter(|to| reach.frames.is_none_or(|n| *to <= n))
        };
        self.place.frame_to = self.place.frame_from.and_then(to);
        // A distance from the stem was that of the place left.
        self.place.from_stem_mm = None;
    }

    /// Goes so many strakes out, or in. Where the strake alone tells the plank, the member follows: strake 1 is the
    /// garboard, strake 2 the broad strake, when she has members of those names.
    pub fn step_strakes(&mut self, by: i32, reach: Reach, has: impl Fn(&str) -> bool) {
        self.place.strake = stepped(self.place.strake, by, reach.strakes);
        self.place.height_mm = None;
        if !PLANKS.contains(&self.member.as_str()) {
            return;
        }
        let wanted = match self.place.strake {
            Some(1) => "garboard",
            Some(2) if has("broad-strake") => "broad-strake",
            Some(_) if ["garboard", "broad-strake"].contains(&self.member.as_str()) => "bottom-plank",
            _ => return,
        };
        if has(wanted) {
            wanted.clone_into(&mut self.member);
        }
    }

    /// Chooses a member; the garboard is the first strake.
    pub fn choose(&mut self, member: &str) {
        member.clone_into(&mut self.member);
        match member {
            "garboard" => self.place.strake = Some(1),
            "broad-strake" => self.place.strake = Some(2),
            _ => {}
        }
    }

    /// Returns the observation of a reading here.
    pub fn observed(&self, reading: Reading, note: &str) -> Observation {
        Observation { note: note.to_owned(), ..Observation::new(self.member.clone(), self.place.clone(), reading) }
    }
}
