//! Proving that no device's run of entries has a gap, a fork or a change.

use crate::{Digest, Entry, EntryId};
use std::collections::{BTreeMap, HashMap};

/// What does not fit in a device's run of entries within one survey.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ChainFault {
    /// An entry names one before it that is not there, or has been altered.
    #[error("entry {entry} of device `{device}` follows an entry that is missing or was altered (hash {prev})")]
    Gap {
        /// The entry that follows the gap.
        entry: EntryId,
        /// The device.
        device: String,
        /// The hash it names.
        prev: Digest,
    },
    /// Two entries of one device follow the same one, as when a device is restored from a copy.
    #[error("entries {first} and {second} of device `{device}` both follow the same entry")]
    Fork {
        /// One.
        first: EntryId,
        /// The other.
        second: EntryId,
        /// The device.
        device: String,
    },
    /// An entry's time is not after that of the entry before it.
    #[error("entry {entry} of device `{device}` is not later than the entry before it")]
    TimeRunsBack {
        /// The entry.
        entry: EntryId,
        /// The device.
        device: String,
    },
    /// An entry names one before it that another device wrote.
    #[error("entry {entry} of device `{device}` follows an entry of another device")]
    OtherDevice {
        /// The entry.
        entry: EntryId,
        /// The device.
        device: String,
    },
}

/// Checks the runs of all devices over the entries of one survey, in any order.
pub fn check_chains<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<ChainFault> {
    let mut all: Vec<&Entry> = entries.into_iter().collect();
    all.sort_by_key(|entry| entry.order());
    let by_hash: HashMap<Digest, &Entry> = all.iter().map(|entry| (entry.hash(), *entry)).collect();
    let mut followed: BTreeMap<(&str, Option<Digest>), EntryId> = BTreeMap::new();
    let mut faults = Vec::new();
    for entry in all {
        let device = entry.device.clone();
        if let Some(first) = followed.insert((entry.device.as_str(), entry.prev), entry.id) {
            faults.push(ChainFault::Fork { first, second: entry.id, device: device.clone() });
        }
        let Some(prev) = entry.prev else { continue };
        match by_hash.get(&prev) {
            None => faults.push(ChainFault::Gap { entry: entry.id, device, prev }),
            Some(before) if before.device != entry.device => {
                faults.push(ChainFault::OtherDevice { entry: entry.id, device });
            }
            Some(before) if before.time >= entry.time => {
                faults.push(ChainFault::TimeRunsBack { entry: entry.id, device });
            }
            Some(_) => {}
        }
    }
    faults
}
