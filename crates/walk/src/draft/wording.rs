//! How things are said: lists of words, each with what it stands for. Our own, from common practice.

/// Rings clear.
pub(super) const RINGS: &[&str] = &["rings", "ring", "ringing", "rang", "crisp", "bright"];
/// Dull or hollow.
pub(super) const DULL: &[&str] = &["dull", "duller", "dead", "hollow", "drummy", "boxy", "drumlike", "thud"];
/// Knocks against what lies behind.
pub(super) const CHATTERS: &[&str] = &["chatters", "chatter", "chattering", "rattles", "rattle", "rattling"];
/// Words that make `sound`, `good` or `clear` an answer to the hammer.
pub(super) const STRUCK: &[&str] =
    &["sounds", "sounded", "tap", "taps", "tapped", "tapping", "hammer", "note", "struck", "blow", "blows"];
/// A good answer, with one of the words above.
pub(super) const GOOD: &[&str] = &["good", "clear", "well", "solid", "sound", "true", "fine"];
/// Yields to the point.
pub(super) const SOFT: &[&str] = &["soft", "spongy", "punky", "mushy"];
/// Does not yield.
pub(super) const FIRM: &[&str] = &["firm", "hard"];
/// What is pushed in.
pub(super) const POINTS: &[&str] =
    &["knife", "spike", "probe", "probed", "probing", "point", "pricker", "awl", "bradawl", "blade"];
/// Goes in.
pub(super) const GOES_IN: &[&str] = &["in", "into", "enters", "sinks", "deep"];
/// Moves.
pub(super) const MOVES: &[&str] = &["moves", "move", "moving", "moved", "shifts", "lifts"];
/// What it is moved with.
pub(super) const LEVERS: &[&str] =
    &["lever", "pry", "pried", "prised", "prise", "push", "pushed", "lean", "hand", "bar", "leaned"];
/// Turns a word round.
pub(super) const NOT: &[&str] = &[
    "not", "no", "never", "nothing", "isn't", "doesn't", "don't", "didn't", "wasn't", "aren't", "cannot", "can't",
    "without", "nor", "won't",
];
/// What is seen.
pub(super) const SEEN: &[&str] = &[
    "crack",
    "cracks",
    "cracked",
    "split",
    "splits",
    "check",
    "checks",
    "checked",
    "shake",
    "shakes",
    "broken",
    "weep",
    "weeps",
    "weeping",
    "leak",
    "leaks",
    "leaking",
    "rust",
    "rusty",
    "stain",
    "stained",
    "stains",
    "open",
    "opened",
    "opening",
    "proud",
    "sprung",
    "started",
    "gap",
    "rot",
    "rotten",
    "decay",
    "decayed",
    "fungus",
    "mould",
    "worm",
    "shipworm",
    "gribble",
    "teredo",
    "tunnels",
    "holes",
    "tunnel",
    "missing",
    "lifted",
    "blistered",
    "blisters",
    "worn",
    "wasted",
    "torn",
    "loose",
    "repair",
    "repaired",
    "patch",
    "graving",
    "dutchman",
    "sistered",
    "doubler",
    "renewed",
    "replaced",
    "black",
    "wet",
    "dry",
    "damp",
    "fair",
    "unfair",
    "hogged",
    "sagged",
    "cupped",
    "green",
    "pink",
    "bungs",
    "sound",
    "good",
    "tight",
    "intact",
    "scarf",
    "bleeding",
    "hard",
    "dezincified",
    "delaminated",
    "tingle",
];
/// Who may say something.
pub(super) const SPEAKERS: &[&str] = &[
    "owner",
    "owners",
    "yard",
    "skipper",
    "seller",
    "vendor",
    "broker",
    "shipwright",
    "boatbuilder",
    "builder",
    "log",
    "bill",
    "he",
    "she",
    "they",
    "previous",
    "surveyor's",
    "mechanic",
    "harbourmaster",
];
/// Says.
pub(super) const SAYS: &[&str] = &[
    "says",
    "said",
    "say",
    "tells",
    "told",
    "claims",
    "claimed",
    "reckons",
    "reckoned",
    "thinks",
    "states",
    "mentioned",
    "remembers",
];
/// Begins a guess of the surveyor's own.
pub(super) const GUESS: &[&str] = &[
    "think",
    "suspect",
    "reckon",
    "probably",
    "perhaps",
    "maybe",
    "must",
    "likely",
    "suppose",
    "guess",
    "presumably",
    "suggests",
];
/// Keeps from seeing.
pub(super) const UNABLE: &[&str] = &["can't", "cannot", "couldn't", "unable", "can not", "could not"];
/// Seeing or reaching.
pub(super) const SEE: &[&str] = &[
    "see",
    "get",
    "reach",
    "inspect",
    "access",
    "sight",
    "look",
    "examine",
    "open",
    "seen",
    "reached",
    "inspected",
    "sighted",
    "examined",
];
/// Tells a barrier.
pub(super) const BARRIER: &[&str] =
    &["because", "behind", "under", "for", "due", "inside", "beneath", "covered", "hidden", "by", "without", "with"];
