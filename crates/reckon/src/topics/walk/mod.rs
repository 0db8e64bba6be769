//! Topics of the room `walk`, one file each.

use crate::{Refusal, Topic};

mod mend;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[mend::TOPIC];

/// Refuses while the list of common words is not here: without it what is mended would not be what is mended elsewhere.
pub(crate) fn common_words_are_here(flag: &str, given: &str) -> Result<(), Refusal> {
    if walk::words_are_here() {
        return Ok(());
    }
    let first = given.lines().next().unwrap_or_default();
    Err(Refusal::value(flag, first, "the list of common words is not here yet", "the same again in a moment"))
}
