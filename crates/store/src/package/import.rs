//! Reading a package.

use super::inspect::{inspect, next_entry};
use super::manifest::{ENTRIES, member_of};
use super::members::Members;
use super::{Limits, PackageFault};
use crate::{Store, StoreFault, Taken};
use std::io::{BufReader, Read, Seek};
use survey::{Digest, SurveyId};

/// What came of reading a package.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Imported {
    /// The surveys in it.
    pub surveys: Vec<SurveyId>,
    /// What came of its entries.
    pub entries: Taken,
    /// How many attachments were new.
    pub attachments_new: u64,
    /// How many attachments were there already.
    pub attachments_known: u64,
    /// Attachments that its entries name, that it left out, and that are not here either.
    pub lacking: Vec<Digest>,
}

/// Takes what a package holds: its attachments first, then all its entries in one go.
///
/// Everything is checked before anything is recorded; a package with any fault changes nothing, and the fault names
/// the entry or attachment. Should the disk fill up while recording, no entry is recorded, though attachments may be,
/// which do no harm; the same package can be read again.
pub fn import<R: Read + Seek>(store: &dyn Store, from: R, limits: &Limits) -> Result<Imported, PackageFault> {
    let mut members = Members::open(from, limits)?;
    let manifest = inspect(store, &mut members, limits)?;
    let mut imported =
        Imported { surveys: manifest.surveys.iter().map(|survey| survey.survey).collect(), ..Imported::default() };
    for attachment in &manifest.attachments {
        let (_, mut member) = members.member(&member_of(&attachment.sha256))?;
        let kept = store.put_attachment(&mut member, Some(&attachment.sha256))?;
        imported.attachments_new += u64::from(kept.new);
        imported.attachments_known += u64::from(!kept.new);
    }
    let (_, member) = members.member(ENTRIES)?;
    let mut lines = BufReader::new(member);
    let mut number = 0;
    let mut entries = std::iter::from_fn(|| {
        let entry = next_entry(&mut lines, &mut number)?;
        Some(entry.map_err(|fault| StoreFault::Declined(Box::new(fault))))
    });
    imported.entries = store.take(&mut entries)?;
    imported.lacking = store.lacks_attachments(&manifest.left_out)?;
    Ok(imported)
}
