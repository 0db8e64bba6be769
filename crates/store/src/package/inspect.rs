//! Going through a package without changing anything, until it is sure that all of it can be taken.

use super::manifest::{ENTRIES, FORM, HASHES, MANIFEST, Manifest, member_of, surveys_in};
use super::members::{Members, not_whole};
use super::{Limits, PackageFault};
use crate::checked::Checked;
use crate::{Store, named};
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::io::{self, BufRead, BufReader, Read, Seek};
use survey::{Digest, Entry, EntryId, LONGEST_LINE, Stamp, SurveyId};

/// What an entry is held against when another follows it.
struct Link {
    line: u64,
    id: EntryId,
    survey: SurveyId,
    device: usize,
    time: Stamp,
    prev: Option<Digest>,
}

/// The lengths that entries state for attachments, and which entry does.
type NamedAttachments = BTreeMap<Digest, (EntryId, Option<u64>, bool)>;

/// Checks everything in a package and returns what it says of itself.
pub(super) fn inspect<R: Read + Seek>(
    store: &dyn Store,
    members: &mut Members<R>,
    limits: &Limits,
) -> Result<Manifest, PackageFault> {
    let manifest = manifest(members, limits)?;
    let hashes = hashes(members, limits)?;
    let named = entries(store, members, &manifest, &hashes)?;
    attachments(store, members, &manifest, &named)?;
    Ok(manifest)
}

/// Calls `with` for each line of the package's entries, with its number from 1.
pub(super) fn each_line<R: Read + Seek>(
    members: &mut Members<R>,
    with: &mut dyn FnMut(u64, Result<Entry, PackageFault>) -> Result<(), PackageFault>,
) -> Result<(), PackageFault> {
    let (_, member) = members.member(ENTRIES)?;
    let mut from = BufReader::new(member);
    let mut number = 0;
    while let Some(entry) = next_entry(&mut from, &mut number) {
        with(number, entry)?;
    }
    Ok(())
}

/// Reads the next line as an entry; none at the end.
pub(super) fn next_entry(from: &mut impl BufRead, number: &mut u64) -> Option<Result<Entry, PackageFault>> {
    let mut line = Vec::new();
    *number += 1;
    let fault = |why: String| Some(Err(PackageFault::Entry { line: *number, id: None, why }));
    match from.take(LONGEST_LINE as u64 + 2).read_until(b'\n', &mut line) {
        Err(cause) => return fault(format!("it cannot be read ({cause})")),
        Ok(0) => return None,
        Ok(_) => {}
    }
    if line.pop() != Some(b'\n') {
        return fault("it is cut short or too long".to_owned());
    }
    match std::str::from_utf8(&line).map(Entry::read) {
        Err(_) => fault("it is not text".to_owned()),
        Ok(Err(cause)) => fault(cause.to_string()),
        Ok(Ok(entry)) => Some(Ok(entry)),
    }
}

fn manifest<R: Read + Seek>(members: &mut Members<R>, limits: &Limits) -> Result<Manifest, PackageFault> {
    // A digest, a length and the words around them take some 120 bytes.
    let most = (limits.members as u64).saturating_mul(256).saturating_add(1 << 16);
    let whole = members.whole(MANIFEST, most)?;
    #[derive(serde::Deserialize)]
    struct Form {
        package: u32,
    }
    let wrong = |fault: serde_json::Error| not_whole(format!("`{MANIFEST}`: {fault}"));
    let form: Form = serde_json::from_slice(&whole).map_err(wrong)?;
    if form.package > FORM {
        return Err(PackageFault::Newer { found: form.package, known: FORM });
    }
    let manifest: Manifest = serde_json::from_slice(&whole).map_err(wrong)?;
    let entries: u64 = manifest.surveys.iter().fold(0, |sum, survey| sum.saturating_add(survey.entries));
    if entries > limits.entries {
        return Err(PackageFault::TooGreat { what: format!("{entries} entries"), most: limits.entries });
    }
    Ok(manifest)
}

fn hashes<R: Read + Seek>(members: &mut Members<R>, limits: &Limits) -> Result<Vec<Digest>, PackageFault> {
    let whole = members.whole(HASHES, limits.entries.saturating_mul(65))?;
    let text = std::str::from_utf8(&whole).map_err(|_| not_whole(format!("`{HASHES}` is not text")))?;
    let parsed = text.lines().map(|line| line.parse::<Digest>());
    parsed.collect::<Result<_, _>>().map_err(|fault| not_whole(format!("`{HASHES}`: {fault}")))
}

fn entries<R: Read + Seek>(
    store: &dyn Store,
    members: &mut Members<R>,
    manifest: &Manifest,
    hashes: &[Digest],
) -> Result<NamedAttachments, PackageFault> {
    let surveys: BTreeSet<SurveyId> = manifest.surveys.iter().map(|survey| survey.survey).collect();
    let mut found: BTreeMap<SurveyId, Vec<Digest>> = surveys.iter().map(|survey| (*survey, Vec::new())).collect();
    let mut named = NamedAttachments::new();
    let mut devices: HashMap<String, usize> = HashMap::new();
    let mut links: HashMap<Digest, Link> = HashMap::new();
    let mut lines = 0;
    each_line(members, &mut |line, entry| {
        let entry = entry?;
        let fault = |why: String| Err(PackageFault::Entry { line, id: Some(entry.id), why });
        match hashes.get(usize::try_from(line - 1).unwrap_or(usize::MAX)) {
            None => return fault("the package says nothing of it".to_owned()),
            Some(hash) if *hash != entry.hash() => {
                return fault("it is not the entry that was packed: its hash differs".to_owned());
            }
            Some(_) => {}
        }
        if let Err(cause) = crate::admission::check_any(&entry) {
            return fault(cause.to_string());
        }
        match found.get_mut(&entry.survey) {
            None => return fault(format!("the package says nothing of its survey {}", entry.survey)),
            Some(found) => found.push(entry.hash()),
        }
        if let Some(one) = named::named_by(&entry) {
            let known = named.entry(one.sha256).or_insert((one.entry, one.bytes, one.required));
            known.2 |= one.required;
        }
        let count = devices.len();
        let device = *devices.entry(entry.device.clone()).or_insert(count);
        let link = Link { line, id: entry.id, survey: entry.survey, device, time: entry.time, prev: entry.prev };
        if links.insert(entry.hash(), link).is_some() {
            return fault("it is there twice".to_owned());
        }
        lines = line;
        Ok(())
    })?;
    if lines != hashes.len() as u64 {
        return Err(not_whole(format!("it holds {lines} of {} entries", hashes.len())));
    }
    for (said, found) in manifest.surveys.iter().zip(surveys_in(found)) {
        let survey = said.survey;
        if said.survey != found.survey {
            return Err(not_whole("its surveys are not listed once each, in order"));
        }
        if said.entries != found.entries {
            let why = format!("{} of {}", found.entries, said.entries);
            return Err(PackageFault::Survey { survey, why });
        }
        if said.field_book != found.field_book {
            return Err(PackageFault::Survey { survey, why: "the digest of the field book differs".to_owned() });
        }
    }
    if surveys.len() != manifest.surveys.len() {
        return Err(not_whole("its surveys are not listed once each, in order"));
    }
    chains(store, &links, &devices)?;
    Ok(named)
}

/// Makes sure that every entry follows one that is in the package or already here, of the same device and earlier.
fn chains(
    store: &dyn Store,
    links: &HashMap<Digest, Link>,
    devices: &HashMap<String, usize>,
) -> Result<(), PackageFault> {
    let mut in_order: Vec<&Link> = links.values().collect();
    in_order.sort_by_key(|link| link.line);
    for link in in_order {
        let Some(prev) = link.prev else { continue };
        let fault = |why: &str| Err(PackageFault::Entry { line: link.line, id: Some(link.id), why: why.to_owned() });
        let before = match links.get(&prev) {
            Some(before) => Some((before.survey, Some(before.device), before.time)),
            None => store.kept(&prev)?.map(|kept| (kept.survey, devices.get(&kept.device).copied(), kept.time)),
        };
        match before {
            None => return fault("it follows an entry that is neither in the package nor here, or was altered"),
            Some((survey, device, _)) if survey != link.survey || device != Some(link.device) => {
                return fault("it follows an entry of another device or survey");
            }
            Some((_, _, time)) if time >= link.time => return fault("it is not later than the entry before it"),
            Some(_) => {}
        }
    }
    Ok(())
}

fn attachments<R: Read + Seek>(
    store: &dyn Store,
    members: &mut Members<R>,
    manifest: &Manifest,
    named: &NamedAttachments,
) -> Result<(), PackageFault> {
    let fault = |sha256: Digest, why: String| {
        let entry = named.get(&sha256).map(|(entry, _, _)| *entry);
        Err(PackageFault::Attachment { sha256, entry, why })
    };
    let there: BTreeMap<Digest, u64> = members.attachments.iter().copied().collect();
    let mut said = BTreeMap::new();
    for attachment in &manifest.attachments {
        let sha256 = attachment.sha256;
        if said.insert(sha256, attachment.bytes).is_some() {
            return fault(sha256, "the package lists it twice".to_owned());
        }
        match (there.get(&sha256), named.get(&sha256)) {
            (None, _) => return fault(sha256, "it is missing from the package".to_owned()),
            (Some(bytes), _) if *bytes != attachment.bytes => {
                return fault(sha256, format!("it has {bytes} bytes where {} were packed", attachment.bytes));
            }
            (_, Some((_, Some(stated), _))) if *stated != attachment.bytes => {
                return fault(sha256, format!("it has {} bytes where the entry states {stated}", attachment.bytes));
            }
            _ => {}
        }
    }
    if let Some(sha256) = there.keys().find(|sha256| !said.contains_key(sha256)) {
        return fault(*sha256, "the package says nothing of it".to_owned());
    }
    let left_out: BTreeSet<Digest> = manifest.left_out.iter().copied().collect();
    let elsewhere: Vec<Digest> = named
        .iter()
        .filter(|(sha256, (_, _, required))| *required && !said.contains_key(sha256) && !left_out.contains(sha256))
        .map(|(sha256, _)| *sha256)
        .collect();
    if let Some(sha256) = store.lacks_attachments(&elsewhere)?.first() {
        return fault(*sha256, "it is neither in the package nor here".to_owned());
    }
    for (sha256, bytes) in said {
        let (_, member) = members.member(&member_of(&sha256))?;
        if let Err(cause) = io::copy(&mut Checked::new(member, sha256, bytes), &mut io::sink()) {
            return fault(sha256, format!("it is not what its name says: {cause}"));
        }
    }
    Ok(())
}
