//! The one interface to whatever keeps the record.

use crate::checked::Checked;
use crate::{Head, KeptAttachment, KeptEntry, Named, Position, StoreFault, SurveyKept, Taken, named};
use std::io::{Read, Seek};
use std::path::Path;
use survey::{Digest, Entry, State, SurveyId};

/// Writes a device's next entries, given where the device stands. Called at most once, while no one else can write.
/// What it returns as an error comes back as [`StoreFault::Declined`].
pub type Writer<'a> = dyn FnMut(&Head) -> Result<Vec<Entry>, Box<dyn std::error::Error + Send + Sync>> + 'a;

/// Entries on their way in. The first error ends the taking, and nothing is kept.
pub type Incoming<'a> = dyn Iterator<Item = Result<Entry, StoreFault>> + 'a;

/// The bytes of an attachment, to be read from any place in it.
pub trait AttachmentRead: Read + Seek + Send {}
impl<T: Read + Seek + Send> AttachmentRead for T {}

/// Keeps entries and attachments. Entries are only ever added.
///
/// A call that returns without a fault is an acknowledgement: what it says is kept is on the disk (or wherever the
/// store keeps things for good) and survives the sudden end of the program or the machine. A call that returns a
/// fault has recorded nothing.
///
/// Calls may block; from asynchronous code, make them where blocking is allowed. All lists are in batches, so that
/// neither side holds a whole record in memory.
pub trait Store: Send + Sync {
    /// Lets a device write its next entries, and keeps them.
    ///
    /// `write` is given where the device stands in the survey and runs inside one exclusive transaction, so that two
    /// programs writing for the same device never write two entries after the same one. It must not call the store to
    /// write. Every entry must follow the one before it, be later than all that is kept, bear a new name, and name
    /// only attachments that are already here.
    fn append_with(&self, survey: SurveyId, device: &str, write: &mut Writer<'_>) -> Result<Vec<Entry>, StoreFault>;

    /// Takes entries that were written elsewhere: all of them or, at the first fault, none. Those already here are
    /// passed over. Attachments they name may come later ([`Store::attachments_lacking`]); entries that come before
    /// the one they follow are kept and show up as a gap until it comes.
    fn take(&self, entries: &mut Incoming<'_>) -> Result<Taken, StoreFault>;

    /// Returns up to `most` entries after a position, of one survey or of all, in the order in which they came.
    fn kept_since(&self, survey: Option<SurveyId>, after: Position, most: usize) -> Result<Vec<KeptEntry>, StoreFault>;

    /// Returns the entry with this hash.
    fn kept(&self, hash: &Digest) -> Result<Option<KeptEntry>, StoreFault>;

    /// Returns which of these entries, named by hash, are not here; in the order given.
    fn lacks(&self, hashes: &[Digest]) -> Result<Vec<Digest>, StoreFault>;

    /// Returns where a device stands in a survey.
    fn head(&self, survey: SurveyId, device: &str) -> Result<Head, StoreFault>;

    /// Returns what is kept of each survey, by its name.
    fn surveys(&self) -> Result<Vec<SurveyKept>, StoreFault>;

    /// Keeps an attachment: whole or not at all, and synced before this returns. With `wanted`, bytes of any other
    /// digest are refused. An attachment already here is left alone, unless it was damaged: then it is mended.
    fn put_attachment(&self, from: &mut dyn Read, wanted: Option<&Digest>) -> Result<KeptAttachment, StoreFault>;

    /// Opens an attachment and returns its length with it. The bytes are as they lie there, unchecked; see
    /// [`Store::attachment`] and [`Store::copy_attachment`].
    fn open_attachment(&self, sha256: &Digest) -> Result<(u64, Box<dyn AttachmentRead>), StoreFault>;

    /// Returns which of these attachments are not here; in the order given. Looks for their presence only.
    fn lacks_attachments(&self, wanted: &[Digest]) -> Result<Vec<Digest>, StoreFault>;

    /// Returns up to `most` attachments, by name, after the given one.
    fn attachments_after(&self, after: Option<&Digest>, most: usize) -> Result<Vec<Digest>, StoreFault>;

    /// Returns, in sentences, what does not fit in the store's own works (its database, its folders).
    fn check_itself(&self) -> Result<Vec<String>, StoreFault>;

    /// Returns a folder for what can be made again at any time, such as reduced photographs. It is no part of the
    /// record: it is never exported, synced or verified, and may be emptied. None when the store has no folder.
    fn cache_dir(&self) -> Option<&Path>;

    /// Returns up to `most` entries of a survey after a position, each with its position, read and checked against
    /// their hash.
    fn entries_since(
        &self,
        survey: SurveyId,
        after: Position,
        most: usize,
    ) -> Result<Vec<(Position, Entry)>, StoreFault> {
        let kept = self.kept_since(Some(survey), after, most)?;
        kept.iter().map(|kept| Ok((kept.position, kept.read()?))).collect()
    }

    /// Returns what a survey says now.
    fn state(&self, survey: SurveyId) -> Result<State, StoreFault> {
        let mut state = State::new(survey);
        let mut after = Position::START;
        loop {
            let batch = self.entries_since(survey, after, BATCH)?;
            let Some((last, _)) = batch.last() else { return Ok(state) };
            after = *last;
            for (_, entry) in batch {
                state.take(entry);
            }
        }
    }

    /// Takes a batch of entries that were written elsewhere; see [`Store::take`].
    fn take_all(&self, entries: &[Entry]) -> Result<Taken, StoreFault> {
        self.take(&mut entries.iter().cloned().map(Ok))
    }

    /// Returns the attachments that a survey's entries name, by digest; the first entry to name each.
    fn attachments_named(&self, survey: SurveyId) -> Result<Vec<Named>, StoreFault> {
        let mut all = std::collections::BTreeMap::new();
        let mut after = Position::START;
        loop {
            let batch = self.entries_since(survey, after, BATCH)?;
            let Some((last, _)) = batch.last() else { return Ok(all.into_values().collect()) };
            after = *last;
            for named in batch.iter().filter_map(|(_, entry)| named::named_by(entry)) {
                all.entry(named.sha256).or_insert(named);
            }
        }
    }

    /// Returns the attachments that a survey's entries name and that are not here.
    fn attachments_lacking(&self, survey: SurveyId) -> Result<Vec<Named>, StoreFault> {
        let named = self.attachments_named(survey)?;
        let wanted: Vec<Digest> = named.iter().map(|named| named.sha256).collect();
        let lacking: std::collections::BTreeSet<Digest> = self.lacks_attachments(&wanted)?.into_iter().collect();
        Ok(named.into_iter().filter(|named| lacking.contains(&named.sha256)).collect())
    }

    /// Returns an attachment of up to `most` bytes, checked against its name.
    fn attachment(&self, sha256: &Digest, most: u64) -> Result<Vec<u8>, StoreFault> {
        let (bytes, content) = self.open_attachment(sha256)?;
        if bytes > most {
            return Err(StoreFault::AttachmentTooGreat { sha256: *sha256, bytes, most });
        }
        let mut whole = Vec::new();
        Checked::new(content, *sha256, bytes).read_to_end(&mut whole).map_err(|fault| wrong(sha256, fault))?;
        Ok(whole)
    }

    /// Copies an attachment to a writer, checked against its name: the last bytes are held back until all fit.
    fn copy_attachment(&self, sha256: &Digest, to: &mut dyn std::io::Write) -> Result<u64, StoreFault> {
        let (bytes, content) = self.open_attachment(sha256)?;
        let mut checked = Checked::new(content, *sha256, bytes);
        std::io::copy(&mut checked, to).map_err(|fault| wrong(sha256, fault))
    }
}

/// How many entries are read at a time.
pub(crate) const BATCH: usize = 500;

fn wrong(sha256: &Digest, fault: std::io::Error) -> StoreFault {
    StoreFault::AttachmentWrong { sha256: *sha256, why: fault.to_string() }
}
