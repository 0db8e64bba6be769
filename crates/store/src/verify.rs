//! Proving that what is kept is what was recorded.

use crate::store::BATCH;
use crate::{KeptEntry, Position, Store, StoreFault, named};
use std::collections::{BTreeMap, BTreeSet};
use survey::{ChainFault, Digest, Entry, EntryId, SurveyId, check_chains};

/// One thing that does not fit.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Misfit {
    /// An entry's bytes are not those recorded, or are no entry.
    #[error("Entry {id} (number {position} in this store): {why}.")]
    Entry {
        /// The entry, as filed.
        id: EntryId,
        /// Where it lies.
        position: Position,
        /// What does not fit.
        why: String,
    },
    /// A device's run of entries has a gap, a fork or a change.
    #[error("Survey {survey}: {fault}.")]
    Chain {
        /// The survey.
        survey: SurveyId,
        /// What does not fit.
        fault: ChainFault,
    },
    /// Two entries bear one name.
    #[error("Survey {survey}: two entries of different content bear the name {id}.")]
    Clash {
        /// The survey.
        survey: SurveyId,
        /// The name.
        id: EntryId,
    },
    /// An attachment that an entry names is not here.
    #[error("Attachment {sha256}, named by entry {entry}, is missing.")]
    AttachmentMissing {
        /// The attachment.
        sha256: Digest,
        /// The entry.
        entry: EntryId,
    },
    /// An attachment is not what its name says.
    #[error("Attachment {sha256}{}: {why}.", named_by(entry))]
    AttachmentWrong {
        /// The attachment.
        sha256: Digest,
        /// An entry that names it, if any.
        entry: Option<EntryId>,
        /// What does not fit.
        why: String,
    },
    /// Something in the store's own works.
    #[error("{0}")]
    Works(String),
}

fn named_by(entry: &Option<EntryId>) -> String {
    entry.map_or(String::new(), |entry| format!(", named by entry {entry}"))
}

/// What came of verifying a store.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Verified {
    /// How many entries were hashed again.
    pub entries: u64,
    /// How many attachments were hashed again.
    pub attachments: u64,
    /// How many of those no entry names; they do no harm.
    pub unnamed_attachments: u64,
    /// What does not fit.
    pub misfits: Vec<Misfit>,
}

impl Verified {
    /// Tells whether everything fits.
    pub fn fits(&self) -> bool {
        self.misfits.is_empty()
    }
}

/// Reads everything a store keeps and reports, by name, what does not fit: entries and attachments whose bytes are not
/// those recorded, entries filed wrongly, gaps and forks in any device's run, attachments missing, and whatever the
/// store finds wrong with itself. Changes nothing. Holds one survey's entries in memory at a time.
pub fn verify(store: &dyn Store) -> Result<Verified, StoreFault> {
    let mut verified = Verified::default();
    match store.check_itself() {
        Ok(faults) => verified.misfits.extend(faults.into_iter().map(Misfit::Works)),
        Err(fault) => verified.misfits.push(Misfit::Works(fault.to_string())),
    }
    let mut named = BTreeMap::new();
    if let Err(fault) = entries(store, &mut verified, &mut named) {
        verified.misfits.push(Misfit::Works(fault.to_string()));
    }
    attachments(store, &mut verified, &named)?;
    Ok(verified)
}

/// The entry that names an attachment, and the length it states.
type NamedAttachments = BTreeMap<Digest, (EntryId, Option<u64>, bool)>;

/// Goes through all entries once in the order they came, whatever survey they are filed under, then survey by survey.
fn entries(store: &dyn Store, verified: &mut Verified, named: &mut NamedAttachments) -> Result<(), StoreFault> {
    let mut surveys = BTreeSet::new();
    let mut names = BTreeSet::new();
    let mut after = Position::START;
    loop {
        let batch = store.kept_since(None, after, BATCH)?;
        let Some(last) = batch.last() else { break };
        after = last.position;
        for kept in &batch {
            verified.entries += 1;
            match read(kept) {
                Err(misfit) => verified.misfits.push(misfit),
                Ok(entry) => {
                    surveys.insert(entry.survey);
                    if !names.insert((entry.survey, entry.id)) {
                        verified.misfits.push(Misfit::Clash { survey: entry.survey, id: entry.id });
                    }
                    if let Some(one) = named::named_by(&entry) {
                        named.entry(one.sha256).or_insert((one.entry, one.bytes, one.required));
                    }
                }
            }
        }
    }
    drop(names);
    for survey in surveys {
        let mut all: Vec<Entry> = Vec::new();
        let mut after = Position::START;
        loop {
            let batch = store.kept_since(Some(survey), after, BATCH)?;
            let Some(last) = batch.last() else { break };
            after = last.position;
            all.extend(batch.iter().filter_map(|kept| read(kept).ok()));
        }
        let faults = check_chains(&all);
        verified.misfits.extend(faults.into_iter().map(|fault| Misfit::Chain { survey, fault }));
    }
    Ok(())
}

/// Reads an entry and holds it against what it is filed under.
fn read(kept: &KeptEntry) -> Result<Entry, Misfit> {
    let misfit = |why: String| Misfit::Entry { id: kept.id, position: kept.position, why };
    let entry = kept.read().map_err(|fault| match fault {
        StoreFault::EntryDamaged { why, .. } => misfit(why),
        other => misfit(other.to_string()),
    })?;
    let filed = (kept.id, kept.survey, kept.device.as_str(), kept.time);
    if filed != (entry.id, entry.survey, entry.device.as_str(), entry.time) {
        return Err(misfit("it is filed under another name, survey, device or time than it states".to_owned()));
    }
    Ok(entry)
}

fn attachments(store: &dyn Store, verified: &mut Verified, named: &NamedAttachments) -> Result<(), StoreFault> {
    let mut found = BTreeSet::new();
    let mut after = None;
    loop {
        let batch = store.attachments_after(after.as_ref(), BATCH)?;
        let Some(last) = batch.last() else { break };
        after = Some(*last);
        for sha256 in batch {
            found.insert(sha256);
            verified.attachments += 1;
            let name = named.get(&sha256);
            verified.unnamed_attachments += u64::from(name.is_none());
            let entry = name.map(|(entry, _, _)| *entry);
            let mut wrong = |why| verified.misfits.push(Misfit::AttachmentWrong { sha256, entry, why });
            match (store.copy_attachment(&sha256, &mut std::io::sink()), name) {
                (Err(StoreFault::AttachmentWrong { why, .. }), _) => wrong(why),
                (Err(fault), _) => wrong(fault.to_string()),
                (Ok(bytes), Some((entry, Some(said), _))) if *said != bytes => {
                    wrong(format!("entry {entry} says that it has {said} bytes, but it has {bytes}"));
                }
                _ => {}
            }
        }
    }
    for (sha256, (entry, _, required)) in named {
        if *required && !found.contains(sha256) {
            verified.misfits.push(Misfit::AttachmentMissing { sha256: *sha256, entry: *entry });
        }
    }
    Ok(())
}
