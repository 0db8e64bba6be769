//! Writing a package.

use super::manifest::{AttachmentIn, ENTRIES, FORM, HASHES, MANIFEST, Manifest, member_of, surveys_in};
use super::{Limits, PackageFault};
use crate::store::BATCH;
use crate::{Position, Store, StoreFault, named};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, Write};
use survey::{Digest, Entry, SurveyId};
use zip::CompressionMethod;
use zip::write::{SimpleFileOptions, ZipWriter};

/// What goes into a package.
#[derive(Clone, Debug, Default)]
pub struct ExportOptions {
    /// Attachments to leave out, though entries name them: long films for a package sent by mail, or those that
    /// `verify` found damaged.
    pub leave_out: BTreeSet<Digest>,
}

/// What went into a package.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Exported {
    /// How many entries.
    pub entries: u64,
    /// How many attachments.
    pub attachments: u64,
    /// Attachments that entries name but that are not in the package, because they were to be left out or are not here.
    pub left_out: Vec<Digest>,
}

/// Writes surveys to a package, as they stand when this begins: entries that come meanwhile are left for the next.
/// The same surveys in the same store give the same bytes.
pub fn export(
    store: &dyn Store,
    surveys: &[SurveyId],
    options: &ExportOptions,
    to: &mut dyn Write,
) -> Result<Exported, PackageFault> {
    let surveys: BTreeSet<SurveyId> = surveys.iter().copied().collect();
    let kept = store.surveys()?;
    let mut ends = BTreeMap::new();
    for survey in &surveys {
        let kept = kept.iter().find(|kept| kept.survey == *survey).ok_or(PackageFault::NoSurvey(*survey))?;
        ends.insert(*survey, kept.last);
    }

    let mut hashes: BTreeMap<SurveyId, Vec<Digest>> = BTreeMap::new();
    let mut wanted: BTreeMap<Digest, bool> = BTreeMap::new();
    each_entry(store, &ends, &mut |entry| {
        hashes.entry(entry.survey).or_default().push(entry.hash());
        if let Some(named) = named::named_by(entry) {
            *wanted.entry(named.sha256).or_default() |= named.required;
        }
        Ok(())
    })?;
    let in_order: Vec<Digest> = hashes.values().flatten().copied().collect();
    let (attachments, left_out) = at_hand(store, &wanted, options)?;
    let manifest = Manifest { package: FORM, surveys: surveys_in(hashes), attachments, left_out };
    let exported = Exported {
        entries: in_order.len() as u64,
        attachments: manifest.attachments.len() as u64,
        left_out: manifest.left_out.clone(),
    };

    check_readable(&exported)?;

    let mut zip = ZipWriter::new_stream(to);
    let text = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated).unix_permissions(0o644);
    zip.start_file(MANIFEST, text).map_err(write)?;
    zip.write_all(json(&manifest)?.as_bytes()).map_err(PackageFault::Write)?;
    zip.start_file(HASHES, text).map_err(write)?;
    for hash in &in_order {
        writeln!(zip, "{hash}").map_err(PackageFault::Write)?;
    }
    // A member of unknown length has to be told beforehand that it may pass 4 GiB.
    zip.start_file(ENTRIES, text.large_file(true)).map_err(write)?;
    each_entry(store, &ends, &mut |entry| writeln!(zip, "{}", entry.line()).map_err(PackageFault::Write))?;
    // Photographs and films are packed already; and a reader can then tell a member's length from the archive's.
    let packed = SimpleFileOptions::default().compression_method(CompressionMethod::Stored).unix_permissions(0o644);
    for attachment in &manifest.attachments {
        let options = packed.large_file(attachment.bytes >= u64::from(u32::MAX) - (1 << 16));
        zip.start_file(member_of(&attachment.sha256), options).map_err(write)?;
        store.copy_attachment(&attachment.sha256, &mut zip)?;
    }
    zip.finish().map_err(write)?.into_inner().flush().map_err(PackageFault::Write)?;
    Ok(exported)
}

/// Parts the attachments into those that are here and those that are not or are to be left out.
fn at_hand(
    store: &dyn Store,
    wanted: &BTreeMap<Digest, bool>,
    options: &ExportOptions,
) -> Result<(Vec<AttachmentIn>, Vec<Digest>), PackageFault> {
    let (mut attachments, mut left_out) = (Vec::new(), Vec::new());
    for (sha256, required) in wanted {
        let found = if options.leave_out.contains(sha256) {
            None
        } else {
            match store.open_attachment(sha256) {
                Ok((bytes, _)) => Some(bytes),
                Err(StoreFault::NoAttachment { .. }) => None,
                Err(fault) => return Err(fault.into()),
            }
        };
        match found {
            Some(bytes) => attachments.push(AttachmentIn { sha256: *sha256, bytes }),
            None if *required => left_out.push(*sha256),
            None => {}
        }
    }
    Ok((attachments, left_out))
}

fn each_entry(
    store: &dyn Store,
    ends: &BTreeMap<SurveyId, Position>,
    with: &mut dyn FnMut(&Entry) -> Result<(), PackageFault>,
) -> Result<(), PackageFault> {
    for (survey, end) in ends {
        let mut after = Position::START;
        while after < *end {
            let batch = store.entries_since(*survey, after, BATCH)?;
            let Some((last, _)) = batch.last() else { break };
            after = *last;
            batch.iter().filter(|(position, _)| position <= end).try_for_each(|(_, entry)| with(entry))?;
        }
    }
    Ok(())
}

/// Refuses to write a package that no reader would take.
fn check_readable(exported: &Exported) -> Result<(), PackageFault> {
    let most = Limits::default().entries;
    if exported.entries > most {
        return Err(PackageFault::TooGreat { what: format!("{} entries", exported.entries), most });
    }
    Ok(())
}

fn json(manifest: &Manifest) -> Result<String, PackageFault> {
    serde_json::to_string_pretty(manifest).map_err(|fault| PackageFault::Write(io::Error::other(fault)))
}

fn write(fault: zip::result::ZipError) -> PackageFault {
    PackageFault::Write(match fault {
        zip::result::ZipError::Io(fault) => fault,
        other => io::Error::other(other),
    })
}
