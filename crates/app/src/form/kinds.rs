//! The forms, one a kind of entry.

use super::choices::{Choice, named, words};
use super::field::{Field, Kind};
use survey::payload::{Condition, Construction, FollowUpStanding, LikelyState, Sureness, Urgency, WayKind};
use survey::{BoreFinds, DrawnCondition, Knife, Language, Method, Side, SoundAnswer};

/// Returns the form of a kind of entry; empty for kinds that nobody fills in by hand.
pub fn fields_of(kind: &str) -> &'static [Field] {
    match kind {
        "brief" => BRIEF,
        "vessel" => VESSEL,
        "hull_form" => HULL_FORM,
        "conditions" => CONDITIONS,
        "instrument" => INSTRUMENT,
        "member" => MEMBER_HAD,
        "beforehand" => BEFOREHAND,
        "observation" => OBSERVATION,
        "not_seen" => NOT_SEEN,
        "finding" => FINDING,
        "recommendation" => RECOMMENDATION,
        "estimate_line" => ESTIMATE_LINE,
        "comparable" => COMPARABLE,
        "opinion_of_value" => OPINION_OF_VALUE,
        "follow_up" => FOLLOW_UP,
        "attachment" => ATTACHMENT,
        _ => &[],
    }
}

/// Returns what a kind of entry is called, for a person.
pub fn kind_in_words(kind: &str) -> &str {
    match kind {
        "hull_form" => "hull form",
        "beforehand" => "what is known beforehand",
        "not_seen" => "not seen",
        "estimate_line" => "estimate line",
        "opinion_of_value" => "opinion of value",
        "report_issued" => "report issued",
        "client_link" => "client’s link",
        "follow_up" => "follow-up",
        other => other,
    }
}

fn purposes() -> Vec<Choice> {
    named(&[
        "pre-purchase",
        "insurance",
        "damage",
        "pre-repair",
        "post-repair",
        "condition",
        "valuation only",
        "dispute",
    ])
}

fn methods() -> Vec<Choice> {
    words(&Method::ALL)
}

fn sides() -> Vec<Choice> {
    words(&[Side::Port, Side::Starboard, Side::Centreline])
}

fn constructions() -> Vec<Choice> {
    words(Construction::ALL)
}

fn languages() -> Vec<Choice> {
    Language::ALL.iter().map(|one| Choice { value: one.tag().to_owned(), words: one.to_string() }).collect()
}

fn sterns() -> Vec<Choice> {
    named(&["double-ended", "transom", "counter"])
}

/// What the eye may report so that a weighing can use it, as the table of likelihoods names it.
fn signs() -> Vec<Choice> {
    let Ok(book) = evidence::Book::elicited() else { return Vec::new() };
    let seen = book.readings().filter(|(group, _)| matches!(*group, "visual" | "moisture" | "frame"));
    let mut signs: Vec<Choice> =
        seen.map(|(_, reading)| Choice { value: reading.to_owned(), words: reading.replace('_', " ") }).collect();
    signs.dedup();
    signs
}

/// What the survey is for.
pub const BRIEF: &[Field] = &[
    Field::needed("purpose", "Purpose", Kind::Choice(purposes)),
    Field::new("client", "Client", Kind::Line).hint("Who engages you."),
    Field::new("addressees", "Who may read and rely on the report", Kind::Lines),
    Field::new("instructions_from", "Instructions from, when not the client", Kind::Line),
    Field::new("surveyor", "Surveyor, as signed", Kind::Line),
    Field::new("qualification", "Qualification, as you state it", Kind::Line),
    Field::new("scope", "What is to be done", Kind::Text),
    Field::new("excluded", "What is not to be done", Kind::Lines),
    Field::new("access_agreed", "Access agreed", Kind::Text)
        .hint("Ceiling boards lifted, ballast shifted, tanks out, …"),
    Field::new("opening_agreed", "What may be opened, bored or drawn, and who agreed", Kind::Text),
    Field::new("intended_use", "Use she is wanted for", Kind::Text),
    Field::new("intended_waters", "Waters she is going to", Kind::Text),
    Field::new("value_asked", "An opinion of value is asked for", Kind::Tick),
    Field::new("terms", "Terms accepted, when and how", Kind::Line),
    Field::new("interests", "Interests to disclose", Kind::Line).hint("“none” when none."),
    Field::new("language", "Words for the members", Kind::Choice(languages)).hint("A beam clamp, or a sheer clamp."),
    Field::new("invented", "That boat and people are invented, when they are", Kind::Line),
];

const ACCOUNT_ROW: &[Field] = &[
    Field::new("who", "Whose word", Kind::Line).hint("The owner, a yard's bill of 1998, …"),
    Field::new("when", "When it was", Kind::Line).hint("1954, about 1971, …"),
    Field::needed("said", "What is said", Kind::Text),
];

/// The boat.
pub const VESSEL: &[Field] = &[
    Field::needed("name", "Name", Kind::Line),
    Field::new("vessel_type", "Type", Kind::Line).hint("Gaff cutter, estuary fishing boat, …"),
    Field::new("construction", "Planking", Kind::Choice(constructions)),
    Field::new("stern", "Stern", Kind::Choice(sterns)),
    Field::new("built_year", "Year built, as far as known", Kind::Count),
    Field::new("builder", "Builder and place, as far as known", Kind::Line),
    Field::new("numbers", "Official, sail or hull numbers", Kind::Lines),
    Field::new("length_mm", "Length over all", Kind::Length).hint("12.4 m, or 40'-8\""),
    Field::new("waterline_length_mm", "Length on the waterline", Kind::Length),
    Field::new("beam_mm", "Beam", Kind::Length),
    Field::new("draft_mm", "Draft", Kind::Length),
    Field::new("dimensions_from", "How the dimensions were had", Kind::Line).hint("Measured, from papers, …"),
    Field::new("displacement_kg", "Displacement", Kind::Mass),
    Field::new("planking_species", "Planking timber", Kind::Species),
    Field::new("planking_thickness_mm", "Plank thickness", Kind::Length),
    Field::new("frame_species", "Frame timber", Kind::Species),
    Field::new("backbone_species", "Backbone timber", Kind::Species),
    Field::new("plank_fastening", "Plank fastenings", Kind::Line),
    Field::new("keel_bolts", "Keel bolts", Kind::Line),
    Field::new("counts.strakes", "Strakes a side", Kind::Count),
    Field::new("counts.frame-steamed", "Steamed frames", Kind::Count),
    Field::new("counts.frame-sawn", "Sawn frames", Kind::Count),
    Field::new("counts.keel-bolt", "Keel bolts, how many", Kind::Count),
    Field::new("rig", "Rig", Kind::Line),
    Field::new("engine", "Engine", Kind::Line),
    Field::new("accounts", "History as far as known, each with whose word it is", Kind::Rows(ACCOUNT_ROW)),
    Field::new("history", "History in free lines", Kind::Lines)
        .hint("For lines taken over whole, like “the owner: refastened below in 1998”."),
];

/// Her shape.
pub const HULL_FORM: &[Field] = &[
    Field::new("strakes", "Strakes a side", Kind::Count),
    Field::new("frames", "Frames, counted from the stem", Kind::Count),
    Field::new("frame_spacing_mm", "Spacing of the frames", Kind::Length),
    Field::new("first_frame_mm", "First frame, abaft the fore side of the stem", Kind::Length),
    Field::new("freeboards_mm", "Freeboard at the stem, amidships and at the stern", Kind::Lengths(3))
        .hint("Three lengths: 1.35 m; 0.82 m; 1.02 m"),
    Field::new("girths_mm", "Girths from keel to sheer", Kind::LengthRows(2))
        .hint("A line for each: distance from the stem; girth. 3.2 m; 2.05 m"),
    Field::new("offsets", "Table of offsets", Kind::Text)
        .hint("As lines of text; feet, inches and eighths, or metric."),
    Field::new("how", "How it was measured", Kind::Line),
];

/// The conditions on a day.
pub const CONDITIONS: &[Field] = &[
    Field::needed("date", "Day", Kind::Day),
    Field::new("hours", "From when to when", Kind::Line).hint("09:00 to 16:30"),
    Field::new("place", "Where she lies", Kind::Line),
    Field::new("afloat", "She is afloat", Kind::Tick),
    Field::new("ashore_since", "Ashore since", Kind::Day),
    Field::new("weather", "Weather and light", Kind::Line),
    Field::new("temp_c", "Air temperature", Kind::Number("°C")),
    Field::new("rh_percent", "Relative humidity", Kind::Number("%")),
    Field::new("present", "Who was there", Kind::Lines),
    Field::new("access", "How she lay, was cleaned, lit and opened; what stood in the way", Kind::Text),
];

/// An instrument.
pub const INSTRUMENT: &[Field] = &[
    Field::needed("name", "Instrument", Kind::Line).hint("Resistance moisture meter, pins of 10 mm, …"),
    Field::new("serial", "Its number", Kind::Line),
    Field::new("setting", "How it was set", Kind::Line),
    Field::new("checked", "Last checked", Kind::Day),
    Field::new("check", "Against what, and how it did", Kind::Line),
];

fn durabilities() -> Vec<Choice> {
    named(&["durable", "moderately_durable", "not_durable"])
}

fn waters() -> Vec<Choice> {
    named(&["salt", "brackish", "fresh"])
}

fn grades() -> Vec<Choice> {
    named(&["good", "fair", "poor"])
}

fn leaks() -> Vec<Choice> {
    named(&["none", "some", "many"])
}

fn repairs() -> Vec<Choice> {
    named(&["none_known", "elsewhere"])
}

fn metals() -> Vec<Choice> {
    named(&["iron", "galvanised_iron", "bronze", "copper", "wood"])
}

/// The readings for which the table has a likelihood, group before reading.
fn likelihood_readings() -> Vec<Choice> {
    let Ok(book) = evidence::Book::elicited() else { return Vec::new() };
    let choice = |(group, reading): (&str, &str)| Choice {
        value: format!("{group}/{reading}"),
        words: format!("{}: {}", group.replace('_', " "), reading.replace('_', " ")),
    };
    book.readings().map(choice).collect()
}

/// The states that a likelihood may be of: those of a plank, then those of a frame that are not.
fn likelihood_states() -> Vec<Choice> {
    let planks = evidence::PLANK_STATES.map(evidence::PlankState::name);
    let frames = evidence::FRAME_STATES.map(evidence::FrameState::name);
    let frames = frames.into_iter().filter(|name| !planks.contains(name));
    named(&planks.into_iter().chain(frames).collect::<Vec<_>>())
}

const LIKELIHOOD_ROW: &[Field] = &[
    Field::needed("reading", "Reading", Kind::Choice(likelihood_readings)),
    Field::needed("state", "In this state", Kind::Choice(likelihood_states)),
    Field::needed("percent", "It is given so often", Kind::Number("%")),
    Field::needed("source", "From what it is known", Kind::Line),
];

/// What is known before a reading is weighed.
pub const BEFOREHAND: &[Field] = &[
    Field::new("timber", "Heartwood of her planking", Kind::Choice(durabilities))
        .hint("By its species when left open."),
    Field::new("water", "Water she has lain in", Kind::Choice(waters)),
    Field::new("ventilation", "How she is aired", Kind::Choice(grades)),
    Field::new("deck_leaks_above", "Leaks of the deck", Kind::Choice(leaks)),
    Field::new("upkeep", "How she was kept up", Kind::Choice(grades)),
    Field::new("known_repairs", "Repairs known of", Kind::Choice(repairs)),
    Field::new("fastening_metal", "Metal of her plank fastenings", Kind::Choice(metals))
        .hint("By her particulars when left open."),
    Field::new("likelihoods", "Likelihoods of your own, in place of the table's", Kind::Rows(LIKELIHOOD_ROW)),
];

/// A member of her own, or one she lacks.
pub const MEMBER_HAD: &[Field] = &[
    Field::new("name", "What it is called", Kind::Line).hint("Left out for a member of the catalogue."),
    Field::needed("member", "Its short name", Kind::Line).hint("Lower-case letters and hyphens: breast-hook-lower"),
    Field::new("group", "Group it belongs to", Kind::Line),
    Field::new("each_side", "There is one on each side", Kind::Tick),
    Field::new("count", "How many", Kind::Count),
    Field::new("note", "Note", Kind::Text),
    Field::new("has", "She has it", Kind::Tick),
];

/// The fields of a place, under a prefix.
macro_rules! place {
    ($prefix:literal) => {
        [
            Field::new(concat!($prefix, "side"), "Side", Kind::Choice(sides)),
            Field::new(concat!($prefix, "strake"), "Strake, from the garboard", Kind::Count),
            Field::new(concat!($prefix, "frame_from"), "Frame, from the stem", Kind::Count),
            Field::new(concat!($prefix, "frame_to"), "to frame", Kind::Count),
            Field::new(concat!($prefix, "number"), "Number, from forward", Kind::Count),
            Field::new(concat!($prefix, "from_stem_mm"), "Distance from the stem", Kind::Length),
            Field::new(concat!($prefix, "height_mm"), "Height above the waterline", Kind::Length),
            Field::new(concat!($prefix, "joint_with"), "Joint with", Kind::Member),
            Field::new(concat!($prefix, "words"), "Where else, in words", Kind::Line),
        ]
    };
}

/// The place of an observation or of what was not seen.
const PLACE: [Field; 9] = place!("place.");

const PLACE_ROW: &[Field] = &[
    Field::new("side", "Side", Kind::Choice(sides)),
    Field::new("strake", "Strake", Kind::Count),
    Field::new("frame_from", "Frame", Kind::Count),
    Field::new("frame_to", "to frame", Kind::Count),
    Field::new("number", "Number", Kind::Count),
    Field::new("words", "In words", Kind::Line),
];

fn sound_answers() -> Vec<Choice> {
    words(SoundAnswer::ALL)
}

fn knives() -> Vec<Choice> {
    words(Knife::ALL)
}

fn bore_finds() -> Vec<Choice> {
    words(BoreFinds::ALL)
}

fn drawn() -> Vec<Choice> {
    words(DrawnCondition::ALL)
}

/// The fields of a reading, each asked under its method.
const READING: [Field; 25] = [
    Field::new("reading.signs", "Signs that a weighing can use", Kind::Several(signs))
        .when("reading.method", &["sight"]),
    Field::needed("reading.answer", "How the wood answers", Kind::Choice(sound_answers))
        .when("reading.method", &["sound"]),
    Field::new("reading.blows", "Blows struck", Kind::Count).when("reading.method", &["sound"]),
    Field::new("reading.knife", "Under the knife", Kind::Choice(knives)).when("reading.method", &["probe"]),
    Field::new("reading.depth_mm", "Point enters", Kind::Length).when("reading.method", &["probe"]),
    Field::new("reading.moves_under_pry", "Moves when pried", Kind::YesNo).when("reading.method", &["probe"]),
    Field::needed("reading.reading_percent", "Meter shows", Kind::Number("%")).when("reading.method", &["moisture"]),
    Field::new("reading.depth_mm", "Depth of the pins", Kind::Length).when("reading.method", &["moisture"]),
    Field::new("reading.temp_c", "Temperature of the wood", Kind::Number("°C")).when("reading.method", &["moisture"]),
    Field::new("reading.species_setting", "Meter set to", Kind::Line).when("reading.method", &["moisture"]),
    Field::new("reading.instrument", "Instrument", Kind::Entry("instrument")).when("reading.method", &["moisture"]),
    Field::needed("reading.quantity", "What was measured", Kind::Line)
        .hint("Thickness, seam gap, bung diameter, hog, …")
        .when("reading.method", &["measure"]),
    Field::needed("reading.as_written", "Value, as you read it", Kind::Line)
        .hint("5/8\", 16 mm, 12 kg, 3 deg")
        .when("reading.method", &["measure"]),
    Field::needed("reading.depth_mm", "Depth of the hole", Kind::Length).when("reading.method", &["bore"]),
    Field::needed("reading.finds", "The bore finds", Kind::Choice(bore_finds)).when("reading.method", &["bore"]),
    Field::needed("reading.fastening", "What was drawn", Kind::Line)
        .hint("8 gauge bronze screw, keel bolt, …")
        .when("reading.method", &["draw"]),
    Field::needed("reading.condition", "How it is found", Kind::Choice(drawn)).when("reading.method", &["draw"]),
    Field::new("reading.original_mm", "Diameter as new", Kind::Length).when("reading.method", &["draw"]),
    Field::new("reading.measured_mm", "Least diameter now", Kind::Length).when("reading.method", &["draw"]),
    Field::needed("reading.opened", "What was opened or lifted", Kind::Line).when("reading.method", &["open_up"]),
    Field::needed("reading.found", "What was found", Kind::Line).when("reading.method", &["open_up"]),
    Field::needed("reading.time_us", "Time of flight", Kind::Number("µs")).when("reading.method", &["stress_wave"]),
    Field::needed("reading.distance_mm", "Over", Kind::Length).when("reading.method", &["stress_wave"]),
    Field::needed("reading.who", "Who says it", Kind::Line)
        .hint("The owner, the yard's bill of 1998, …")
        .when("reading.method", &["ask"]),
    Field::needed("reading.said", "What is said", Kind::Text).when("reading.method", &["ask"]),
];

const fn observation() -> [Field; 38] {
    let [p0, p1, p2, p3, p4, p5, p6, p7, p8] = PLACE;
    let [
        r0,
        r1,
        r2,
        r3,
        r4,
        r5,
        r6,
        r7,
        r8,
        r9,
        r10,
        r11,
        r12,
        r13,
        r14,
        r15,
        r16,
        r17,
        r18,
        r19,
        r20,
        r21,
        r22,
        r23,
        r24,
    ] = READING;
    [
        Field::needed("member", "Member", Kind::Member),
        p0,
        p1,
        p2,
        p3,
        p4,
        p5,
        p6,
        p7,
        p8,
        Field::needed("reading.method", "By", Kind::Choice(methods)),
        r0,
        r1,
        r2,
        r3,
        r4,
        r5,
        r6,
        r7,
        r8,
        r9,
        r10,
        r11,
        r12,
        r13,
        r14,
        r15,
        r16,
        r17,
        r18,
        r19,
        r20,
        r21,
        r22,
        r23,
        r24,
        Field::new("note", "Note, in your words", Kind::Text),
        Field::new("seen_on", "Found out on", Kind::Day).hint("Left out when that is today."),
    ]
}

static OBSERVATION_FIELDS: [Field; 38] = observation();

/// An observation: member, place, method, reading, note.
pub static OBSERVATION: &[Field] = &OBSERVATION_FIELDS;

const fn not_seen() -> [Field; 12] {
    let [p0, p1, p2, p3, p4, p5, p6, p7, p8] = PLACE;
    [
        Field::needed("member", "Member", Kind::Member),
        p0,
        p1,
        p2,
        p3,
        p4,
        p5,
        p6,
        p7,
        p8,
        Field::needed("why", "Why it was not seen", Kind::Line).hint("Names what stood in the way."),
        Field::new("needs", "What it would take to see it", Kind::Line),
    ]
}

static NOT_SEEN_FIELDS: [Field; 12] = not_seen();

/// What was not seen.
pub static NOT_SEEN: &[Field] = &NOT_SEEN_FIELDS;

fn conditions() -> Vec<Choice> {
    words(Condition::ALL)
}

fn likely_states() -> Vec<Choice> {
    words(LikelyState::ALL)
}

fn sureness() -> Vec<Choice> {
    words(Sureness::ALL)
}

fn urgencies() -> Vec<Choice> {
    words(Urgency::ALL)
}

fn standings() -> Vec<Choice> {
    words(FollowUpStanding::ALL)
}

const ALTERNATIVE_ROW: &[Field] = &[
    Field::needed("what", "Other explanation", Kind::Line),
    Field::needed("against", "Why it is thought less likely", Kind::Line),
];

/// A finding.
pub const FINDING: &[Field] = &[
    Field::needed("member", "Member", Kind::Member),
    Field::needed("title", "Heading", Kind::Line),
    Field::needed("condition", "How it stands", Kind::Choice(conditions)),
    Field::new("likely_state", "What is probably the matter", Kind::Choice(likely_states)),
    Field::needed("text", "Your conclusion", Kind::Text),
    Field::new("basis", "Rests on", Kind::Entries(&["observation", "not_seen", "reckoning"])),
    Field::new("places", "Where", Kind::Rows(PLACE_ROW)),
    Field::new("extent", "How far it goes", Kind::Line),
    Field::new("cause", "Likely cause", Kind::Line),
    Field::new("alternatives", "Other explanations considered", Kind::Rows(ALTERNATIVE_ROW)),
    Field::new("sure", "How sure", Kind::Choice(sureness)),
    Field::new("meaning", "What it means for the use intended", Kind::Text),
    Field::new("serious", "It bears on the safety of the boat or those aboard", Kind::Tick),
];

fn way_kinds() -> Vec<Choice> {
    words(WayKind::ALL)
}

const WAY_ROW: &[Field] = &[
    Field::needed("kind", "What is done", Kind::Choice(way_kinds)),
    Field::new("how", "How, in words", Kind::Line),
    Field::new("needs", "What it needs", Kind::Line).hint("Skill, timber, time, access, dry weather, …"),
    Field::new("lasts", "How long it lasts", Kind::Line),
    Field::new("risks", "What it risks", Kind::Line),
    Field::new("opens", "What else it opens up", Kind::Line)
        .hint("What must come off, and what will be seen or disturbed then."),
    Field::new("urgency", "When, if otherwise than above", Kind::Choice(urgencies)),
    Field::new("who", "Who must do or check it, if somebody else", Kind::Line),
    Field::new("advised", "This is the way you advise", Kind::Tick),
];

/// A recommendation.
pub const RECOMMENDATION: &[Field] = &[
    Field::needed("title", "Heading", Kind::Line),
    Field::needed("action", "What is to be done, where and how far", Kind::Text),
    Field::needed("urgency", "When", Kind::Choice(urgencies)),
    Field::new("by", "No later than, or the day to measure again", Kind::Day),
    Field::new("findings", "Answers the findings", Kind::Entries(&["finding"])),
    Field::new("why", "Why", Kind::Text),
    Field::new("ways", "Ways of doing it", Kind::Rows(WAY_ROW)),
    Field::new("who", "Who must do or check it", Kind::Line),
    Field::new("proof", "How it is shown to be done", Kind::Line),
];

/// A line of the estimate.
pub const ESTIMATE_LINE: &[Field] = &[
    Field::needed("item", "What it is for", Kind::Line),
    Field::new("recommendation", "Belongs to", Kind::Entry("recommendation")),
    Field::new("trade", "Trade", Kind::Line).hint("Shipwright, engineer, rigger, …"),
    Field::new("quantity", "Quantity", Kind::Number("")),
    Field::new("unit", "Unit", Kind::Line),
    Field::needed("low", "The least it may cost", Kind::Number("")),
    Field::needed("likely", "Most likely", Kind::Number("")),
    Field::needed("high", "The most it may cost", Kind::Number("")),
    Field::needed("currency", "Currency", Kind::Line).hint("EUR, GBP, USD, …"),
    Field::new("rates_from", "Whose rates, and of when", Kind::Line),
    Field::new("chance_percent", "Chance that it is needed at all", Kind::Number("%")),
];

const ADJUSTMENT_ROW: &[Field] = &[
    Field::needed("what", "For", Kind::Line),
    Field::needed("amount", "Added to the price, or taken from it", Kind::Number("")),
];

/// A boat to compare with.
pub const COMPARABLE: &[Field] = &[
    Field::needed("title", "The boat, in words", Kind::Line),
    Field::needed("price", "Price", Kind::Number("")),
    Field::needed("currency", "Currency", Kind::Line).hint("EUR, GBP, USD, …"),
    Field::new("sold", "Sold at that price, not only offered", Kind::Tick),
    Field::new("date", "When", Kind::Day),
    Field::new("length_mm", "Her length", Kind::Length),
    Field::new("built_year", "Her year", Kind::Count),
    Field::new("source", "Where the price is from", Kind::Line),
    Field::new("adjustments", "Steps to this boat", Kind::Rows(ADJUSTMENT_ROW)),
];

/// The opinion of value.
pub const OPINION_OF_VALUE: &[Field] = &[
    Field::needed("definition", "What is meant by value", Kind::Text),
    Field::needed("date", "On what day", Kind::Day),
    Field::needed("low", "Low end", Kind::Number("")),
    Field::needed("middle", "Middle", Kind::Number("")),
    Field::needed("high", "High end", Kind::Number("")),
    Field::needed("currency", "Currency", Kind::Line).hint("EUR, GBP, USD, …"),
    Field::needed("reasoning", "How it was come by, and why other ways are left out", Kind::Text),
];

/// What became of a recommendation.
pub const FOLLOW_UP: &[Field] = &[
    Field::needed("recommendation", "Recommendation", Kind::Entry("recommendation")),
    Field::needed("standing", "Where it stands", Kind::Choice(standings)),
    Field::new("date", "Looked at on", Kind::Day),
    Field::needed("text", "What was done, and how it was seen; whose word, when not seen", Kind::Text),
];

/// What may be amended of an attachment: its words, not its bytes.
const ATTACHMENT: &[Field] = &[
    Field::new("caption", "What it shows", Kind::Line),
    Field::new("alternative", "What it shows, for someone who cannot see it", Kind::Text),
];
