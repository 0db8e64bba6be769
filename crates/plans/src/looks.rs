//! Conditions from findings, from what was not seen, and from what nothing is recorded of.

use crate::boat::Boat;
use crate::place::{Part, part_of, places_of, sides_of, stretch};
use drawing::Hatch;
use hull::sheets::Condition;
use hull::{Along, Layout, Patch, Place, Side};
use survey::payload::Condition as Found;
use survey::{State, finding_numbers, members_of};

/// Returns what the record says of every place on the sheets: what nothing is recorded of first, then what was not
/// seen, then the findings, the worst on top. A finding's number stands beside it, the one it has in the report.
pub(crate) fn conditions(state: &State, boat: &Boat) -> Vec<Condition> {
    let mut all = not_recorded(state, boat);
    for unseen in state.not_seen() {
        let entry = unseen.id().to_string();
        let mut worded = Vec::new();
        for place in places_of(boat, &unseen.payload.member, &unseen.payload.place) {
            let word = if once(&mut worded, &place) { "not seen" } else { "" };
            all.push(Condition::not_seen(place).word(word).of(entry.clone()));
        }
    }
    let numbers = finding_numbers(state);
    let mut findings: Vec<_> = state.findings().collect();
    findings.sort_by_key(|view| view.payload.condition);
    for view in findings {
        let finding = view.payload;
        let number = numbers.get(&view.id()).map(u32::to_string).unwrap_or_default();
        let hatch = match finding.condition {
            Found::Sound => Hatch::Bare,
            Found::Watch => Hatch::Sparse,
            Found::WorkNeeded => Hatch::Close,
            Found::Failed => Hatch::Solid,
        };
        let whole = [survey::Place::default()];
        let places = if finding.places.is_empty() { &whole[..] } else { &finding.places[..] };
        let mut numbered = Vec::new();
        for place in places.iter().flat_map(|place| places_of(boat, &finding.member, place)) {
            let word = if once(&mut numbered, &place) { number.clone() } else { String::new() };
            all.push(Condition::seen(place, hatch).word(word).of(view.id().to_string()));
        }
    }
    all
}

/// Tells whether a place is to bear its entry's word: a run of frames or floors does once a side, not at every frame.
fn once(done: &mut Vec<(bool, Option<Side>)>, place: &Place) -> bool {
    let run = match place {
        Place::Frame { side, .. } => (true, Some(*side)),
        Place::Floor { .. } => (false, None),
        _ => return true,
    };
    let first = !done.contains(&run);
    done.push(run);
    first
}

/// Members that are planking in general. An entry about one of them that names a side or frames but no strake speaks of
/// all strakes there; an entry about hood ends or a skin fitting does not.
const PLANKING: [&str; 10] = [
    "clinker-strake",
    "bottom-plank",
    "bilge-plank",
    "topside-plank",
    "strip-plank",
    "cold-moulded-skin",
    "double-diagonal-skin",
    "ply-panel-bottom",
    "ply-panel-side",
    "seam",
];

/// An entry by which a place is looked at or excused: its member and place.
struct Spoken<'a> {
    member: &'a str,
    place: survey::Place,
}

/// Returns what was looked at, concluded or recorded as not seen; hearsay is not looking.
fn spoken(state: &State) -> Vec<Spoken<'_>> {
    let mut all = Vec::new();
    for o in state.observations().filter(|o| !o.payload.is_hearsay()) {
        all.push(Spoken { member: &o.payload.member, place: o.payload.place.clone() });
    }
    for n in state.not_seen() {
        all.push(Spoken { member: &n.payload.member, place: n.payload.place.clone() });
    }
    for f in state.findings() {
        if f.payload.places.is_empty() {
            all.push(Spoken { member: &f.payload.member, place: survey::Place::default() });
        }
        for place in &f.payload.places {
            all.push(Spoken { member: &f.payload.member, place: place.clone() });
        }
    }
    all
}

fn not_recorded(state: &State, boat: &Boat) -> Vec<Condition> {
    let spoken = spoken(state);
    let mut places = Vec::new();
    if let Some(layout) = &boat.layout {
        for side in [Side::Port, Side::Starboard] {
            for strake in 1..=layout.strakes() {
                places.extend(gaps(layout, side, strake, &spoken));
            }
        }
    }
    let members = members_of(state);
    let has = |id: &str| members.iter().any(|member| member.id == id);
    let of = |id: &str| spoken.iter().any(|s| s.member == id);
    let on = |s: &Spoken<'_>, side: Side| s.place.side.is_none() || sides_of(&s.place).contains(&side);
    for member in members.iter().filter(|m| part_of(&m.id) == Some(Part::Backbone) && m.id != "keel-bolt") {
        if !of(&member.id) {
            places.push(Place::member(member.id.clone()));
        }
    }
    for n in 1..=boat.backbone.keel_bolts.unwrap_or(0) {
        if !spoken.iter().any(|s| s.member == "keel-bolt" && s.place.number.is_none_or(|m| m as usize == n)) {
            places.push(Place::member(format!("keel-bolt-{n}")));
        }
    }
    if boat.has_transom && !of("transom") {
        places.push(Place::Transom { from: -1.0, to: 1.0, low: 0.0, high: 1.0 });
    }
    // A word about frames in general that names neither frame nor side is not a look at each of them.
    let at_frame = |s: &Spoken<'_>, n: usize| match (s.place.frame_from, s.place.frame_to) {
        (Some(from), to) => (from..=to.unwrap_or(from)).contains(&(n as u32)),
        (None, _) => s.place.side.is_some(),
    };
    for frame in 1..=boat.frames.len() {
        for side in [Side::Port, Side::Starboard] {
            let is_frame = |m: &str| part_of(m) == Some(Part::Framing) && (m.starts_with("frame-") || m == "futtock");
            if !spoken.iter().any(|s| is_frame(s.member) && on(s, side) && at_frame(s, frame)) {
                places.push(Place::Frame { side, frame });
            }
        }
    }
    for side in [Side::Port, Side::Starboard] {
        for member in ["shelf", "bilge-stringer", "covering-board"] {
            if has(member) && !spoken.iter().any(|s| s.member == member && on(s, side)) {
                places.push(Place::member(format!("{member}-{side}")));
            }
        }
    }
    for member in ["keelson", "king-plank"] {
        if has(member) && !of(member) {
            places.push(Place::member(member));
        }
    }
    for beam in 1..=boat.beams.unwrap_or(0) {
        let is_beam = |m: &str| m == "beam" || m == "beam-strong";
        if !spoken.iter().any(|s| is_beam(s.member) && s.place.number.is_none_or(|n| n as usize == beam)) {
            places.push(Place::Beam { beam });
        }
    }
    places.into_iter().map(Condition::not_recorded).collect()
}

/// Returns the stretches of a strake of which nothing is recorded. An entry without frames speaks of the whole length, one
/// at a single frame of half a bay to either side.
fn gaps(layout: &Layout, side: Side, strake: usize, spoken: &[Spoken<'_>]) -> Vec<Place> {
    let spacing = match &layout.frames[..] {
        [first, .., last] => (last.from_stem_m - first.from_stem_m) / (layout.frames.len() - 1) as f64,
        _ => 0.3,
    };
    let mut told: Vec<(f64, f64)> = Vec::new();
    for s in spoken.iter().filter(|s| part_of(s.member) == Some(Part::Shell)) {
        let at = match (s.place.strake, s.member) {
            (Some(n), _) => n as usize == strake,
            (None, "garboard") => strake == 1,
            (None, "sheer-strake") => strake == layout.strakes(),
            (None, member) => PLANKING.contains(&member) && (s.place.side.is_some() || s.place.frame_from.is_some()),
        };
        let on_side = s.place.side.is_none() || sides_of(&s.place).contains(&side);
        let Some((from, to)) = stretch(layout.frames.len(), &s.place).filter(|_| at && on_side) else { continue };
        if let (Ok(from), Ok(to)) = (layout.from_stem_m(from), layout.from_stem_m(to)) {
            let half = if to - from < spacing / 2.0 { spacing / 2.0 } else { 0.0 };
            told.push((from - half, to + half));
        }
    }
    told.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut bare = Vec::new();
    let mut reached = 0.0;
    for (from, to) in told {
        if from > reached + 1e-6 {
            bare.push((reached, from));
        }
        reached = to.max(reached);
    }
    if reached < layout.length_m - 1e-6 {
        bare.push((reached, layout.length_m));
    }
    let along = |m: f64| {
        if m <= 0.0 {
            Along::Stem
        } else if m >= layout.length_m {
            Along::Stern
        } else {
            layout.frame_at(m).map_or(Along::FromStemM(m), Along::Frame)
        }
    };
    let patches = bare.into_iter().map(|(a, b)| Patch::strake(side, strake).between(along(a), along(b)));
    patches.filter(|p| layout.outline(p).is_ok_and(|o| !o.is_empty())).map(Place::Shell).collect()
}
