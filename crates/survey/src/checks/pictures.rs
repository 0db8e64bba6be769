//! Photographs are there, and show what was found.

use super::written::cut;
use super::{Asked, Found, Rule, Weight};
use crate::EntryId;

pub(super) const RULES: &[Rule] = &[
    Rule {
        name: "attachments-at-hand",
        asks: "Every photograph, recording and paper that the record names is at hand.",
        reason: "A report with holes in it where pictures belong proves less, and the loss shows only once.",
        weight: Weight::Blocks,
        check: at_hand,
    },
    Rule {
        name: "serious-finding-has-picture",
        asks: "Every serious finding has a photograph, of its own or of what it rests on.",
        reason: "What was seen is repaired or gone when it comes to a dispute.",
        weight: Weight::Advises,
        check: serious,
    },
    Rule {
        name: "picture-says-what-it-shows",
        asks: "Every photograph says what it shows.",
        reason: "A picture without a caption can be of anywhere, and says nothing to whoever cannot see it.",
        weight: Weight::Advises,
        check: captions,
    },
];

fn at_hand(asked: &Asked<'_>) -> Vec<Found> {
    let gone = asked.state.attachments().filter(|a| asked.given.missing.contains(&a.payload.sha256));
    gone.map(|a| {
        let name = if a.payload.file_name.trim().is_empty() { &a.payload.caption } else { &a.payload.file_name };
        let name = if name.trim().is_empty() { a.id().short() } else { cut(name) };
        Found::new(format!("The file of the attachment ‘{name}’ is not here.")).at(a.id()).field("sha256")
    })
    .collect()
}

fn has_picture(asked: &Asked<'_>, id: EntryId) -> bool {
    asked.state.attachments_of(id).any(|a| a.payload.media_type.starts_with("image/"))
}

fn serious(asked: &Asked<'_>) -> Vec<Found> {
    let bare = asked.state.findings().filter(|f| {
        f.payload.serious && !has_picture(asked, f.id()) && !f.payload.basis.iter().any(|id| has_picture(asked, *id))
    });
    bare.map(|f| {
        let words = format!("The serious finding ‘{}’ has no photograph.", cut(&f.payload.title));
        Found::new(words).at(f.id()).of(&f.payload.member).wants("attachment")
    })
    .collect()
}

fn captions(asked: &Asked<'_>) -> Vec<Found> {
    let mute = asked.state.attachments().filter(|a| {
        a.payload.media_type.starts_with("image/")
            && a.payload.caption.trim().is_empty()
            && a.payload.alternative.trim().is_empty()
    });
    mute.map(|a| {
        let name = if a.payload.file_name.trim().is_empty() { a.id().short() } else { cut(&a.payload.file_name) };
        Found::new(format!("The picture ‘{name}’ does not say what it shows.")).at(a.id()).field("caption")
    })
    .collect()
}
