//! Flags of `enter`, one set a kind of entry.

use super::SideArg;
use clap::{Args, Subcommand};

/// What to enter.
#[derive(Debug, Subcommand)]
pub enum EnterWhat {
    /// Something found out about a member, at a place, by a method
    Observation(Box<ObservationArgs>),
    /// A member, or part of one, that was not seen, and why
    NotSeen(NotSeenArgs),
    /// Your conclusion about a member
    Finding(Box<FindingArgs>),
    /// What should be done
    Recommendation(RecommendationArgs),
    /// What the survey is for, and on what terms
    Brief(Box<BriefArgs>),
    /// The boat's particulars
    Vessel(Box<VesselArgs>),
    /// The conditions on a day of the survey
    Conditions(ConditionsArgs),
    /// An instrument used
    Instrument(InstrumentArgs),
    /// A member that she has beside the catalogue's, or lacks
    Member(MemberArgs),
    /// A line of the repair estimate
    EstimateLine(EstimateArgs),
    /// What became of a recommendation
    FollowUp(FollowUpArgs),
    /// Entries of any kind as JSON lines from standard input: {"kind": …, "payload": {…}}
    Lines,
}

/// Where on the boat.
#[derive(Debug, Args)]
pub struct PlaceArgs {
    /// Side
    #[arg(long, value_enum)]
    pub side: Option<SideArg>,
    /// Strake, the garboard being 1
    #[arg(long)]
    pub strake: Option<u32>,
    /// Frame, or first frame, counted from the stem
    #[arg(long)]
    pub frame: Option<u32>,
    /// Last frame
    #[arg(long, requires = "frame")]
    pub frame_to: Option<u32>,
    /// Distance from the stem, e.g. `2.4 m` or `7'-10"` [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_negative_numbers = true)]
    pub from_stem: Option<f64>,
    /// Height above the waterline; below is negative [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_hyphen_values = true)]
    pub height: Option<f64>,
    /// Number of a counted thing (keel bolt, beam), from forward
    #[arg(long)]
    pub number: Option<u32>,
    /// The other member, when the place is a joint
    #[arg(long, value_name = "MEMBER")]
    pub joint_with: Option<String>,
    /// Anything else about the place, in words
    #[arg(long, value_name = "WORDS")]
    pub at: Option<String>,
}

impl From<&PlaceArgs> for survey::Place {
    fn from(args: &PlaceArgs) -> Self {
        survey::Place {
            side: args.side.map(Into::into),
            strake: args.strake,
            frame_from: args.frame,
            frame_to: args.frame_to,
            from_stem_mm: args.from_stem,
            height_mm: args.height,
            number: args.number,
            joint_with: args.joint_with.clone(),
            words: args.at.clone(),
        }
    }
}

#[derive(Debug, Args)]
pub struct ObservationArgs {
    /// The member, by its name in the catalogue (`ribband show --members`) or your own
    #[arg(long)]
    pub member: String,
    #[command(flatten)]
    pub place: PlaceArgs,
    /// How: sight, sound, probe, moisture, measure, bore, draw, open_up, stress_wave, ask
    #[arg(long)]
    pub method: String,
    /// What else is to be said
    #[arg(long, default_value = "")]
    pub note: String,
    /// The day on which it was found out, when that is not today, e.g. 2027-04-01
    #[arg(long, value_name = "DATE")]
    pub seen_on: Option<jiff::civil::Date>,
    /// sound: rings, dull_or_hollow, chatters, cannot_be_told
    #[arg(long, help_heading = "Readings, by method")]
    pub answer: Option<String>,
    /// sound: number of blows
    #[arg(long, help_heading = "Readings, by method")]
    pub blows: Option<u32>,
    /// probe: firm, soft, sliver_breaks_short
    #[arg(long, help_heading = "Readings, by method")]
    pub knife: Option<String>,
    /// probe: whether it moves when pried, yes or no
    #[arg(long, value_parser = yes_or_no, help_heading = "Readings, by method")]
    pub moves: Option<bool>,
    /// probe, moisture, bore: depth [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_negative_numbers = true, help_heading = "Readings, by method")]
    pub depth: Option<f64>,
    /// moisture: the meter's reading, in percent
    #[arg(long, allow_negative_numbers = true, value_name = "PERCENT", help_heading = "Readings, by method")]
    pub reading_percent: Option<f64>,
    /// moisture: temperature of the wood, in °C
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true, help_heading = "Readings, by method")]
    pub temp_c: Option<f64>,
    /// moisture: the species the meter is set to
    #[arg(long, value_name = "SPECIES", help_heading = "Readings, by method")]
    pub species_setting: Option<String>,
    /// measure: what was measured
    #[arg(long, help_heading = "Readings, by method")]
    pub quantity: Option<String>,
    /// measure: a length as people write it, e.g. `5/8"`, or a number with `--unit`
    #[arg(long, allow_hyphen_values = true, help_heading = "Readings, by method")]
    pub value: Option<String>,
    /// measure: unit of the number
    #[arg(long, help_heading = "Readings, by method")]
    pub unit: Option<String>,
    /// bore: solid, soft_or_void, water
    #[arg(long, help_heading = "Readings, by method")]
    pub finds: Option<String>,
    /// draw: what was drawn
    #[arg(long, help_heading = "Readings, by method")]
    pub fastening: Option<String>,
    /// draw: good, wasted, broken, turns_without_bite, would_not_draw
    #[arg(long, help_heading = "Readings, by method")]
    pub condition: Option<String>,
    /// draw: diameter as new [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_negative_numbers = true, help_heading = "Readings, by method")]
    pub original: Option<f64>,
    /// draw: least diameter now [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_negative_numbers = true, help_heading = "Readings, by method")]
    pub measured: Option<f64>,
    /// open_up: what was opened
    #[arg(long, help_heading = "Readings, by method")]
    pub opened: Option<String>,
    /// open_up: what was found
    #[arg(long, help_heading = "Readings, by method")]
    pub found: Option<String>,
    /// stress_wave: time of flight, in microseconds
    #[arg(long, allow_negative_numbers = true, value_name = "MICROSECONDS", help_heading = "Readings, by method")]
    pub time_us: Option<f64>,
    /// stress_wave: distance between the points [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_negative_numbers = true, help_heading = "Readings, by method")]
    pub distance: Option<f64>,
    /// ask: who says it
    #[arg(long, help_heading = "Readings, by method")]
    pub who: Option<String>,
    /// ask: what is said
    #[arg(long, help_heading = "Readings, by method")]
    pub said: Option<String>,
    /// sight: a sign that the bench can weigh, by name; may repeat
    #[arg(long, help_heading = "Readings, by method")]
    pub sign: Vec<String>,
}

impl ObservationArgs {
    /// Returns the flags of readings that were given, each with the methods to which it belongs.
    pub fn readings_given(&self) -> Vec<(&'static str, &'static [&'static str])> {
        let all: [(bool, &'static str, &'static [&'static str]); 21] = [
            (self.answer.is_some(), "answer", &["sound"]),
            (self.blows.is_some(), "blows", &["sound"]),
            (self.knife.is_some(), "knife", &["probe"]),
            (self.moves.is_some(), "moves", &["probe"]),
            (self.depth.is_some(), "depth", &["probe", "moisture", "bore"]),
            (self.reading_percent.is_some(), "reading-percent", &["moisture"]),
            (self.temp_c.is_some(), "temp-c", &["moisture"]),
            (self.species_setting.is_some(), "species-setting", &["moisture"]),
            (self.quantity.is_some(), "quantity", &["measure"]),
            (self.value.is_some(), "value", &["measure"]),
            (self.unit.is_some(), "unit", &["measure"]),
            (self.finds.is_some(), "finds", &["bore"]),
            (self.fastening.is_some(), "fastening", &["draw"]),
            (self.condition.is_some(), "condition", &["draw"]),
            (self.original.is_some(), "original", &["draw"]),
            (self.measured.is_some(), "measured", &["draw"]),
            (self.opened.is_some(), "opened", &["open_up"]),
            (self.found.is_some(), "found", &["open_up"]),
            (self.time_us.is_some() || self.distance.is_some(), "time-us and --distance", &["stress_wave"]),
            (self.who.is_some() || self.said.is_some(), "who and --said", &["ask"]),
            (!self.sign.is_empty(), "sign", &["sight"]),
        ];
        all.into_iter().filter(|(given, ..)| *given).map(|(_, flag, methods)| (flag, methods)).collect()
    }
}

#[derive(Debug, Args)]
pub struct NotSeenArgs {
    /// The member
    #[arg(long)]
    pub member: String,
    #[command(flatten)]
    pub place: PlaceArgs,
    /// Why it was not seen: name the barrier
    #[arg(long)]
    pub why: String,
    /// What it would take to see it
    #[arg(long, default_value = "")]
    pub needs: String,
}

#[derive(Debug, Args)]
pub struct FindingArgs {
    /// The member
    #[arg(long)]
    pub member: String,
    #[command(flatten)]
    pub place: PlaceArgs,
    /// A short heading
    #[arg(long)]
    pub title: String,
    /// How it stands: sound, watch, work_needed, failed
    #[arg(long)]
    pub condition: String,
    /// The conclusion, in your words
    #[arg(long)]
    pub text: String,
    /// What is probably the matter: sound, surface_checks, loose, decayed, iron_sick, borer, repaired_before
    #[arg(long)]
    pub likely_state: Option<String>,
    /// How far it goes
    #[arg(long, default_value = "")]
    pub extent: String,
    /// The likely cause
    #[arg(long, default_value = "")]
    pub cause: String,
    /// Another explanation and what speaks against it, as `what: against`; may repeat
    #[arg(long, value_name = "WHAT: AGAINST")]
    pub alternative: Vec<String>,
    /// An entry it rests on: its identifier, the end of it, or LAST; may repeat
    #[arg(long, value_name = "ENTRY")]
    pub basis: Vec<String>,
    /// How sure: virtually_certain, very_likely, likely, about_as_likely_as_not, unlikely
    #[arg(long)]
    pub sure: Option<String>,
    /// What it means for the use intended
    #[arg(long, default_value = "")]
    pub meaning: String,
    /// It bears on the safety of the boat or those aboard
    #[arg(long)]
    pub serious: bool,
}

#[derive(Debug, Args)]
pub struct RecommendationArgs {
    /// A short heading
    #[arg(long)]
    pub title: String,
    /// What is to be done, where and how far
    #[arg(long)]
    pub action: String,
    /// When: before_she_floats, before_she_is_used, before_the_intended_waters, at_the_next_haul_out, watch,
    /// for_long_life, find_out
    #[arg(long)]
    pub urgency: String,
    /// A finding it answers: its identifier, the end of it, or LAST; may repeat
    #[arg(long, value_name = "ENTRY")]
    pub finding: Vec<String>,
    /// Why
    #[arg(long, default_value = "")]
    pub why: String,
    /// No later than this day, or the day to measure again, e.g. 2027-04-01
    #[arg(long, value_name = "DATE")]
    pub by: Option<jiff::civil::Date>,
    /// Who must do or check it
    #[arg(long, default_value = "")]
    pub who: String,
    /// How it is shown to be done
    #[arg(long, default_value = "")]
    pub proof: String,
    /// A rival way of doing it; may repeat. First leave_and_watch, protect, repair_in_place or renew, then what is to be
    /// said of it, parted by semicolons: `renew; needs: dry larch; lasts: 30 years; risks: …; opens: …; how: …; who: …;
    /// urgency: …; advised`
    #[arg(long, value_name = "WAY")]
    pub way: Vec<String>,
}

#[derive(Debug, Args)]
pub struct BriefArgs {
    /// Purpose: pre-purchase, insurance, damage, pre-repair, post-repair, valuation only, …
    #[arg(long)]
    pub purpose: String,
    /// Who engages the surveyor
    #[arg(long, default_value = "")]
    pub client: String,
    /// Who may rely on the report; may repeat
    #[arg(long)]
    pub addressee: Vec<String>,
    /// The surveyor, as signed
    #[arg(long, default_value = "")]
    pub surveyor: String,
    /// The surveyor's qualification
    #[arg(long)]
    pub qualification: Option<String>,
    /// What is to be done
    #[arg(long, default_value = "")]
    pub scope: String,
    /// What is not to be done; may repeat
    #[arg(long)]
    pub excluded: Vec<String>,
    /// What access is agreed
    #[arg(long, default_value = "")]
    pub access_agreed: String,
    /// What may be opened, bored or drawn, and who agreed
    #[arg(long, default_value = "")]
    pub opening_agreed: String,
    /// The use she is wanted for
    #[arg(long, default_value = "")]
    pub intended_use: String,
    /// The waters she is going to
    #[arg(long, default_value = "")]
    pub intended_waters: String,
    /// What members are called: en-GB (British terms) or en-US (American terms)
    #[arg(long)]
    pub language: Option<String>,
}

#[derive(Debug, Args)]
pub struct VesselArgs {
    /// The boat's name
    #[arg(long)]
    pub name: String,
    /// What she is
    #[arg(long, default_value = "")]
    pub vessel_type: String,
    /// carvel, clinker, strip, cold_moulded, plywood
    #[arg(long)]
    pub construction: Option<String>,
    /// Year built
    #[arg(long)]
    pub built_year: Option<i32>,
    /// Builder and place
    #[arg(long)]
    pub builder: Option<String>,
    /// Length over all [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_negative_numbers = true)]
    pub length: Option<f64>,
    /// Beam [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_negative_numbers = true)]
    pub beam: Option<f64>,
    /// Draft [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_negative_numbers = true)]
    pub draft: Option<f64>,
    /// Timber of the planking
    #[arg(long)]
    pub planking_species: Option<String>,
    /// Plank thickness [a bare number is millimetres]
    #[arg(long, value_parser = length_mm, value_name = "LENGTH", allow_negative_numbers = true)]
    pub planking_thickness: Option<f64>,
    /// Timber of the frames
    #[arg(long)]
    pub frame_species: Option<String>,
    /// Plank fastenings
    #[arg(long)]
    pub plank_fastening: Option<String>,
    /// Keel bolts
    #[arg(long)]
    pub keel_bolts: Option<String>,
    /// Stern: double-ended, transom, counter
    #[arg(long)]
    pub stern: Option<String>,
    /// A count of hers, e.g. `strakes=11` a side, `frame-steamed=34`, `keel-bolt=9`; may repeat
    #[arg(long, value_name = "MEMBER=COUNT")]
    pub count: Vec<String>,
}

#[derive(Debug, Args)]
pub struct ConditionsArgs {
    /// The day, e.g. 2027-04-01
    #[arg(long)]
    pub date: jiff::civil::Date,
    /// Where she lies
    #[arg(long)]
    pub place: String,
    /// She is afloat
    #[arg(long)]
    pub afloat: bool,
    /// Since when she has been ashore
    #[arg(long, value_name = "DATE")]
    pub ashore_since: Option<jiff::civil::Date>,
    /// Weather and light
    #[arg(long, default_value = "")]
    pub weather: String,
    /// Air temperature, in °C
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    pub temp_c: Option<f64>,
    /// Relative humidity, in percent
    #[arg(long, allow_negative_numbers = true, value_name = "PERCENT")]
    pub rh_percent: Option<f64>,
    /// From when to when
    #[arg(long, default_value = "")]
    pub hours: String,
    /// Who was there; may repeat
    #[arg(long)]
    pub present: Vec<String>,
    /// How she lay, was cleaned, lit and opened; what stood in the way
    #[arg(long, default_value = "")]
    pub access: String,
}

#[derive(Debug, Args)]
pub struct InstrumentArgs {
    /// What it is
    #[arg(long)]
    pub name: String,
    /// Its number
    #[arg(long)]
    pub serial: Option<String>,
    /// How it was set
    #[arg(long)]
    pub setting: Option<String>,
    /// When it was last checked
    #[arg(long, value_name = "DATE")]
    pub checked: Option<jiff::civil::Date>,
    /// Against what, and how it did
    #[arg(long)]
    pub check: Option<String>,
}

#[derive(Debug, Args)]
pub struct MemberArgs {
    /// Its name in the catalogue, or a new one of your own
    #[arg(long)]
    pub member: String,
    /// She lacks it
    #[arg(long)]
    pub lacks: bool,
    /// What it is called, for one of your own
    #[arg(long)]
    pub called: Option<String>,
    /// The group it belongs to, for one of your own
    #[arg(long)]
    pub group: Option<String>,
    /// There is one on each side
    #[arg(long)]
    pub each_side: bool,
    /// How many
    #[arg(long)]
    pub count: Option<u32>,
    /// Anything else
    #[arg(long, default_value = "")]
    pub note: String,
}

#[derive(Debug, Args)]
pub struct EstimateArgs {
    /// What it is for
    #[arg(long)]
    pub item: String,
    /// The recommendation it belongs to: its identifier, the end of it, or LAST
    #[arg(long, value_name = "ENTRY")]
    pub recommendation: Option<String>,
    /// The trade that does it
    #[arg(long, default_value = "")]
    pub trade: String,
    /// How much
    #[arg(long, allow_negative_numbers = true)]
    pub quantity: Option<f64>,
    /// Unit of the quantity
    #[arg(long, default_value = "")]
    pub unit: String,
    /// The least it may cost
    #[arg(long, allow_negative_numbers = true)]
    pub low: f64,
    /// What it will most likely cost
    #[arg(long, allow_negative_numbers = true)]
    pub likely: f64,
    /// The most it may cost
    #[arg(long, allow_negative_numbers = true)]
    pub high: f64,
    /// Currency
    #[arg(long)]
    pub currency: String,
    /// Whose rates, and of when
    #[arg(long, default_value = "")]
    pub rates_from: String,
    /// Chance that it is needed at all, in percent
    #[arg(long, allow_negative_numbers = true, value_name = "PERCENT")]
    pub chance_percent: Option<f64>,
}

#[derive(Debug, Args)]
pub struct FollowUpArgs {
    /// The recommendation: its identifier, the end of it, or LAST
    #[arg(long, value_name = "ENTRY")]
    pub recommendation: String,
    /// open, closed, superseded
    #[arg(long)]
    pub standing: String,
    /// What was done, and how it was seen
    #[arg(long)]
    pub text: String,
    /// When it was looked at
    #[arg(long, value_name = "DATE")]
    pub date: Option<jiff::civil::Date>,
}

/// Reads a length as people write it; a bare number is millimetres.
pub(super) fn length_mm(text: &str) -> Result<f64, String> {
    if let Ok(bare) = text.trim().replace(',', ".").parse::<f64>()
        && bare.is_finite()
    {
        return Ok(bare);
    }
    measure::Length::read(text).map(measure::Length::mm).map_err(|fault| fault.to_string())
}

fn yes_or_no(text: &str) -> Result<bool, String> {
    match text.trim().to_ascii_lowercase().as_str() {
        "yes" | "y" | "true" => Ok(true),
        "no" | "n" | "false" => Ok(false),
        _ => Err("accepted is yes or no".to_owned()),
    }
}
