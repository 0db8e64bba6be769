//! Topics of the room `estimate`, one file each.

use crate::{Refusal, Topic};
use estimate::Fault;

mod take_off;
mod total;
mod value;

/// The topics of this group.
pub const TOPICS: &[Topic] = &[total::TOPIC, value::TOPIC, take_off::TOPIC];

/// Returns the refusal of a table.
fn refused(flag: &str, text: &str, fault: &Fault) -> Refusal {
    let first = text.trim().lines().next().unwrap_or("nothing");
    let (why, accepted) = split(fault);
    Refusal::value(flag, first, why, accepted)
}

/// Splits a fault's sentence into what was wrong and what is accepted.
fn split(fault: &Fault) -> (String, String) {
    let text = fault.to_string();
    match text.split_once("; accepted is ") {
        Some((why, accepted)) => (why.to_owned(), accepted.to_owned()),
        None => (text, "a CSV table with a head and at least one row".to_owned()),
    }
}
