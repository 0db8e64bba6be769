//! Why a line of the demo's field book cannot be entered.

use survey::payload::PayloadFault;
use survey::{AdmitFault, EntryId};

/// Why a line cannot be entered. Lines are counted from 1.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DemoFault {
    /// The line is neither an entry nor an exchange.
    #[error(
        "line {line}: {why}; accepted is an entry with label, device, author, at, kind and payload, or an exchange"
    )]
    Shape {
        /// The line.
        line: usize,
        /// What is wrong.
        why: String,
    },
    /// The moment cannot be read, or lies before the device's last.
    #[error("line {line}: `at` is `{at}`, {why}; accepted is a moment like 2026-05-11T09:12:00Z, later than the last")]
    Moment {
        /// The line.
        line: usize,
        /// What was given.
        at: String,
        /// What is wrong with it.
        why: String,
    },
    /// Two lines have one label.
    #[error("line {line}: the label `{label}` is taken; accepted is one of its own")]
    LabelTaken {
        /// The line.
        line: usize,
        /// The label.
        label: String,
    },
    /// A label is named that no earlier line has.
    #[error("line {line}: `@{label}` names no earlier line")]
    NoSuchLabel {
        /// The line.
        line: usize,
        /// The label.
        label: String,
    },
    /// A picture is named that is not there.
    #[error("line {line}: there is no picture `{file}`; accepted is a file of marram/pictures")]
    NoSuchPicture {
        /// The line.
        line: usize,
        /// The file.
        file: String,
    },
    /// A device changes hands, which its chain of entries does not allow.
    #[error("line {line}: device `{device}` is {was}'s, not {is}'s")]
    OtherAuthor {
        /// The line.
        line: usize,
        /// The device.
        device: String,
        /// Whose it was.
        was: String,
        /// Whose it would be.
        is: String,
    },
    /// The payload is not accepted.
    #[error("line {line}: {why}")]
    Payload {
        /// The line.
        line: usize,
        /// Why not.
        why: Box<PayloadFault>,
    },
    /// The device does not have an entry that the payload names.
    #[error("line {line}, entry {id} on device `{device}`: {why}")]
    NotAdmitted {
        /// The line.
        line: usize,
        /// The entry.
        id: EntryId,
        /// The device.
        device: String,
        /// Why not.
        why: Box<AdmitFault>,
    },
}
