//! Which entries a store accepts; the same for every store.

use crate::named::{Named, named_by};
use crate::{Head, Refusal, StoreFault};
use survey::{Digest, Entry, EntryId, Stamp, SurveyId};

/// Checks what holds for every entry, wherever it was written.
pub(crate) fn check_any(entry: &Entry) -> Result<(), StoreFault> {
    let refuse = |why| Err(StoreFault::Refused { id: entry.id, why });
    if entry.time.utc().is_none() {
        return refuse(Refusal::BeyondCalendar);
    }
    // What is kept is the line; the fields, by which it is filed, are what the caller believes it says.
    match Entry::read(entry.line()) {
        Err(fault) => refuse(Refusal::Unreadable(fault.to_string())),
        Ok(read) if says(&read) != says(entry) => refuse(Refusal::Unreadable("its fields differ".to_owned())),
        Ok(_) => Ok(()),
    }
}

fn says(entry: &Entry) -> (EntryId, SurveyId, &str, Stamp, Option<Digest>) {
    (entry.id, entry.survey, &entry.device, entry.time, entry.prev)
}

/// Checks entries that a device has just written after `head`, in their order. `name_is_taken` tells whether an entry
/// of that name is kept, `length_of` how long an attachment is that is here.
pub(crate) fn check_written(
    entries: &[Entry],
    survey: SurveyId,
    device: &str,
    head: &Head,
    mut name_is_taken: impl FnMut(EntryId) -> Result<bool, StoreFault>,
    mut length_of: impl FnMut(&Named) -> Result<Option<u64>, StoreFault>,
) -> Result<(), StoreFault> {
    let mut head = *head;
    let mut names = std::collections::BTreeSet::new();
    for entry in entries {
        let refuse = |why| Err(StoreFault::Refused { id: entry.id, why });
        check_any(entry)?;
        if entry.survey != survey {
            return refuse(Refusal::OtherSurvey(entry.survey));
        }
        if entry.device != device {
            return refuse(Refusal::OtherDevice(entry.device.clone()));
        }
        if entry.prev != head.prev {
            return refuse(Refusal::DoesNotFollow);
        }
        if entry.time <= head.latest {
            return refuse(Refusal::NotLater);
        }
        if !names.insert(entry.id) || name_is_taken(entry.id)? {
            return refuse(Refusal::NameTaken);
        }
        if let Some(named) = named_by(entry).filter(|named| named.required) {
            match (length_of(&named)?, named.bytes) {
                (None, _) => return refuse(Refusal::AttachmentMissing(named.sha256)),
                (Some(found), Some(said)) if found != said => {
                    return refuse(Refusal::AttachmentLength { sha256: named.sha256, said, found });
                }
                _ => {}
            }
        }
        head = Head { prev: Some(entry.hash()), latest: entry.time };
    }
    Ok(())
}
