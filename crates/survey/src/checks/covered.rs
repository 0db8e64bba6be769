//! Every member is seen or listed as not seen, with a reason; an unseen serious place asks to be opened.

use super::written::words_of;
use super::{Asked, Found, Rule, Weight};
use crate::payload::Urgency;
use crate::{BoatMember, Consequence, Cover};

pub(super) const RULES: &[Rule] = &[
    Rule {
        name: "members-covered",
        asks: "Every member the boat has is seen, or listed as not seen, or struck off her list.",
        reason: "What is passed over in silence is read as sound.",
        weight: Weight::Blocks,
        check: members,
    },
    Rule {
        name: "not-seen-has-reason",
        asks: "What was not seen names the barrier.",
        reason: "A reader must be able to tell a locked door from an oversight.",
        weight: Weight::Blocks,
        check: reasons,
    },
    Rule {
        name: "not-seen-says-what-it-takes",
        asks: "What was not seen says what it would take to see it.",
        reason: "Only then can a client decide to have it opened.",
        weight: Weight::Advises,
        check: needs,
    },
    Rule {
        name: "unseen-serious-place-to-be-opened",
        asks: "A place not seen whose failure may cost the boat is asked to be opened, drawn or tested in a recommendation.",
        reason: "That nothing was found there is no comfort when nobody could look.",
        weight: Weight::Blocks,
        check: unseen_serious,
    },
];

fn members(asked: &Asked<'_>) -> Vec<Found> {
    let wanting = asked.covers.iter().filter_map(|c| {
        let why = match c.cover {
            Cover::Owed => "nothing is recorded of it",
            Cover::HearsayOnly => "only what somebody says is recorded of it",
            _ => return None,
        };
        let words = format!("{}: {why}; it was neither seen nor listed as not seen.", c.member.name);
        Some(Found::new(words).of(&c.member.id).wants("not_seen"))
    });
    wanting.collect()
}

/// Words that name no barrier.
const NO_REASON: [&str; 15] = [
    "",
    "n a",
    "na",
    "none",
    "not seen",
    "unseen",
    "not sighted",
    "not inspected",
    "not checked",
    "no access",
    "inaccessible",
    "unknown",
    "no reason",
    "not looked at",
    "tbc",
];

fn reasons(asked: &Asked<'_>) -> Vec<Found> {
    let wanting = asked.state.not_seen().filter(|n| {
        let why = n.payload.why.replace(['/', '-', '.'], " ");
        NO_REASON.contains(&words_of(&why).join(" ").as_str())
    });
    wanting
        .map(|n| {
            let words = format!("{} is listed as not seen, and no barrier is named.", asked.member(&n.payload.member));
            Found::new(words).at(n.id()).of(&n.payload.member).field("why")
        })
        .collect()
}

fn needs(asked: &Asked<'_>) -> Vec<Found> {
    let wanting = asked.state.not_seen().filter(|n| n.payload.needs.trim().is_empty());
    wanting
        .map(|n| {
            let words = format!("{}: it is not said what it would take to see it.", asked.member(&n.payload.member));
            Found::new(words).at(n.id()).of(&n.payload.member).field("needs")
        })
        .collect()
}

fn unseen_serious(asked: &Asked<'_>) -> Vec<Found> {
    let serious = |m: &BoatMember| m.consequence == Some(Consequence::LossOfVessel);
    let mut out = Vec::new();
    for cover in asked.covers.iter().filter(|c| serious(&c.member) && !c.not_seen.is_empty()) {
        if !is_to_be_opened(asked, &cover.member) {
            let words = format!(
                "{} was not seen{}, its failure may cost the boat, and no recommendation asks to open, draw or test it.",
                cover.member.name,
                if cover.cover == Cover::PartlySeen { " in part" } else { "" }
            );
            out.push(Found::new(words).at(cover.not_seen[0]).of(&cover.member.id).wants("recommendation"));
        }
    }
    out
}

/// Tells whether a recommendation asks to find out about a member: one to open, draw or test whose findings are of the
/// member or rest on its not having been seen, or any whose action tells to open up and names the member.
fn is_to_be_opened(asked: &Asked<'_>, member: &BoatMember) -> bool {
    let names: Vec<String> = words_of(&member.name).iter().map(|word| singular(word)).collect();
    asked.state.recommendations().any(|view| {
        let r = view.payload;
        let words: Vec<String> = words_of(&format!("{} {}", r.title, r.action)).iter().map(|w| singular(w)).collect();
        let opens = r.urgency == Urgency::FindOut || words.iter().any(|word| OPENING.contains(&word.as_str()));
        let named = words.windows(names.len()).any(|window| window == names.as_slice());
        let answers = r.findings.iter().filter_map(|id| asked.state.find::<crate::payload::Finding>(*id)).any(|f| {
            let rests_on_it = f.payload.basis.iter().any(|id| {
                asked.state.find::<crate::payload::NotSeen>(*id).is_some_and(|n| n.payload.member == member.id)
            });
            f.payload.member == member.id || rests_on_it
        });
        opens && (named || answers)
    })
}

/// Words that ask to look behind.
const OPENING: [&str; 16] = [
    "open", "opened", "opening", "draw", "drawn", "drawing", "lift", "lifted", "remove", "removed", "expose",
    "exposed", "bore", "bored", "test", "tested",
];

fn singular(word: &str) -> String {
    word.strip_suffix('s').filter(|one| one.len() > 2 && !one.ends_with('s')).unwrap_or(word).to_owned()
}
