//! Packages that are not as they should be: each is refused, says why, and changes nothing.

use crate::boat::{NOON, SURVEY, everything, fill, fits, name, note, write_photograph};
use crate::package::packed;
use std::io::{Cursor, Read, Write};
use store::package::{Limits, PackageFault, import};
use store::{MemoryStore, Position, Store};
use survey::{Digest, Entry, Pen};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

/// A package taken apart.
type Members = Vec<(String, Vec<u8>)>;

fn taken_apart(file: &[u8]) -> Members {
    let mut archive = ZipArchive::new(Cursor::new(file)).unwrap();
    (0..archive.len())
        .map(|index| {
            let mut member = archive.by_index(index).unwrap();
            let mut content = Vec::new();
            member.read_to_end(&mut content).unwrap();
            (member.name().unwrap().into_owned(), content)
        })
        .collect()
}

fn put_together(members: &Members) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in members {
        zip.start_file(name.as_str(), SimpleFileOptions::default()).unwrap();
        zip.write_all(content).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

fn office() -> MemoryStore {
    let office = MemoryStore::default();
    fill(&office);
    office
}

fn member<'a>(members: &'a mut Members, name: &str) -> &'a mut Vec<u8> {
    &mut members.iter_mut().find(|(found, _)| found == name).unwrap().1
}

fn replace(content: &mut Vec<u8>, from: &str, to: &str) {
    let text = String::from_utf8(content.clone()).unwrap();
    assert!(text.contains(from), "{from}");
    *content = text.replacen(from, to, 1).into_bytes();
}

/// Reads the package into a store that holds something, and returns why it is refused.
#[track_caller]
fn refused(file: &[u8]) -> PackageFault {
    refused_within(file, &Limits::default())
}

#[track_caller]
fn refused_within(file: &[u8], limits: &Limits) -> PackageFault {
    let yard = MemoryStore::default();
    write_photograph(&yard, "tablet", b"taken in the yard").unwrap();
    let before = everything(&yard);
    let fault = import(&yard, Cursor::new(file), limits).expect_err("this should have been refused");
    assert_eq!(everything(&yard), before, "nothing was changed");
    fits(&yard);
    fault
}

#[test]
fn an_altered_entry_is_named() {
    let office = office();
    let entries = everything(&office).0;
    for (index, kept) in entries.iter().enumerate().take(6) {
        let mut members = taken_apart(&packed(&office));
        let line = String::from_utf8(kept.line.clone()).unwrap();
        let altered = line.replace("behind", "before").replace("under", "above");
        assert_ne!(line, altered);
        replace(member(&mut members, "entries.jsonl"), &line, &altered);
        match refused(&put_together(&members)) {
            PackageFault::Entry { line, id, .. } => assert_eq!((line, id), (index as u64 + 1, Some(kept.id))),
            other => panic!("{other}"),
        }
    }
}

#[test]
fn an_altered_entry_with_its_hash_altered_to_match_is_told_by_the_digest_or_the_entry_after_it() {
    let office = office();
    let kept = everything(&office).0[0].clone();
    let mut members = taken_apart(&packed(&office));
    let line = String::from_utf8(kept.line).unwrap();
    let altered = line.replace("behind", "before");
    replace(member(&mut members, "entries.jsonl"), &line, &altered);
    let hash = Digest::of(altered.as_bytes());
    replace(member(&mut members, "hashes.txt"), &kept.hash.to_string(), &hash.to_string());
    let fault = refused(&put_together(&members));
    assert!(matches!(&fault, PackageFault::Survey { why, .. } if why.contains("digest")), "{fault}");

    // With the digest of the field book altered too, the chain still tells.
    let mut hashes: Vec<Digest> = everything(&office).0.iter().map(|kept| kept.hash).collect();
    hashes[0] = hash;
    hashes.sort();
    let digest = Digest::of(&hashes.iter().flat_map(|hash| *hash.bytes()).collect::<Vec<u8>>());
    replace(member(&mut members, "package.json"), &crate::boat::digest(&office).to_string(), &digest.to_string());
    let next = everything(&office).0[2].id;
    let fault = refused(&put_together(&members));
    assert!(matches!(&fault, PackageFault::Entry { line: 3, id, .. } if *id == Some(next)), "{fault}");
}

#[test]
fn entries_missing_added_doubled_or_broken_are_refused() {
    let office = office();
    let alter = |with: &dyn Fn(&mut Vec<String>)| {
        let mut members = taken_apart(&packed(&office));
        let entries = member(&mut members, "entries.jsonl");
        let text = String::from_utf8(entries.clone()).unwrap();
        let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
        with(&mut lines);
        *entries = lines.iter().flat_map(|line| [line.as_bytes(), b"\n"].concat()).collect();
        refused(&put_together(&members)).to_string()
    };
    let foreign = Pen::new(SURVEY, "X", "x").write(name(), NOON, &note("smuggled in"));
    assert!(alter(&|lines| drop(lines.pop())).contains("7 of 8 entries"));
    assert!(alter(&|lines| drop(lines.remove(0))).contains("Line 1 "));
    assert!(
        alter(&|lines| lines.push(foreign.line().to_owned()))
            .contains(&format!("Line 9 of the package's entries (entry {}", foreign.id))
    );
    assert!(alter(&|lines| lines.swap(0, 1)).contains("Line 1 "));
    assert!(alter(&|lines| lines[3] = "{}".to_owned()).contains("Line 4 "));
    assert!(alter(&|lines| lines[3].clear()).contains("Line 4 "));
    let nested = "[".repeat(100_000);
    assert!(alter(&|lines| lines[3] = nested.clone()).contains("Line 4 "));

    let mut members = taken_apart(&packed(&office));
    member(&mut members, "entries.jsonl").pop();
    assert!(refused(&put_together(&members)).to_string().contains("Line 8 of the package's entries: it is cut short"));
}

#[test]
fn a_gap_in_a_devices_run_is_refused_and_named() {
    let mut pen = Pen::new(SURVEY, "A. Surveyor", "phone");
    let entries: Vec<Entry> = (0..3).map(|n| pen.write(name(), NOON, &note(&n.to_string()))).collect();
    let gappy = MemoryStore::default();
    gappy.take_all(&[entries[0].clone(), entries[2].clone()]).unwrap();
    let fault = refused(&packed(&gappy));
    assert!(matches!(&fault, PackageFault::Entry { line: 2, id, .. } if *id == Some(entries[2].id)), "{fault}");
    // It is no gap where the entry between is there already.
    let yard = MemoryStore::default();
    yard.take_all(&entries[..2]).unwrap();
    import(&yard, Cursor::new(packed(&gappy)), &Default::default()).unwrap();
    fits(&yard);
}

#[test]
fn a_run_that_is_not_one_devices_is_refused() {
    let first = Pen::new(SURVEY, "A. Surveyor", "phone").write(name(), NOON, &note("1"));
    for (device, ms) in [("tablet", NOON + 1), ("phone", NOON - 1)] {
        let pen = Pen::new(SURVEY, "A. Surveyor", device);
        let second = pen.after(Some(first.hash()), Default::default()).write(name(), ms, &note("2"));
        let store = MemoryStore::default();
        store.take_all(&[first.clone(), second.clone()]).unwrap();
        let fault = refused(&packed(&store));
        assert!(matches!(&fault, PackageFault::Entry { id, .. } if *id == Some(second.id)), "{fault}");
    }
}

#[test]
fn wrong_missing_and_unasked_attachments_are_named_with_their_entry() {
    let office = office();
    let named = office.attachments_named(SURVEY).unwrap();
    let member_of = |sha256: &Digest| format!("attachments/{}/{sha256}", &sha256.to_string()[..2]);
    for named in &named {
        let is_named = |fault: &PackageFault| {
            matches!(fault, PackageFault::Attachment { sha256, entry, .. }
                if *sha256 == named.sha256 && *entry == Some(named.entry))
        };
        let mut members = taken_apart(&packed(&office));
        member(&mut members, &member_of(&named.sha256))[10] ^= 1;
        let fault = refused(&put_together(&members));
        assert!(is_named(&fault) && fault.to_string().contains("not what its name says"), "{fault}");

        let mut members = taken_apart(&packed(&office));
        member(&mut members, &member_of(&named.sha256)).pop();
        assert!(is_named(&refused(&put_together(&members))));

        let mut members = taken_apart(&packed(&office));
        members.retain(|(name, _)| *name != member_of(&named.sha256));
        let fault = refused(&put_together(&members));
        assert!(is_named(&fault) && fault.to_string().contains("missing"), "{fault}");
    }
    let mut members = taken_apart(&packed(&office));
    let unasked = Digest::of(b"unasked");
    members.push((member_of(&unasked), b"unasked".to_vec()));
    let fault = refused(&put_together(&members));
    assert!(matches!(fault, PackageFault::Attachment { sha256, .. } if sha256 == unasked), "{fault}");
}

#[test]
fn names_that_would_lead_elsewhere_are_refused() {
    let office = office();
    let digest = Digest::of(b"x").to_string();
    for path in [
        "../../../etc/passwd".to_owned(),
        "/etc/passwd".to_owned(),
        "..\\..\\windows\\system.ini".to_owned(),
        "C:\\boot.ini".to_owned(),
        "attachments/../entries.jsonl".to_owned(),
        "./package.json".to_owned(),
        "Package.json".to_owned(),
        "package.json/".to_owned(),
        "attachments//".to_owned(),
        "attachments/zz/".to_owned(),
        format!("attachments/00/{digest}"),
        format!("attachments/{}/{}", &digest[..2], digest.to_uppercase()),
        format!("attachments/{}/{digest}/", &digest[..2]),
        format!("attachments/{}/../{}/{digest}", &digest[..2], &digest[..2]),
        "run-me.sh".to_owned(),
        "a\u{7}b".to_owned(),
    ] {
        let mut members = taken_apart(&packed(&office));
        members.push((path.clone(), b"x".to_vec()));
        let fault = refused(&put_together(&members));
        assert!(matches!(fault, PackageFault::Member { .. }), "{path}: {fault}");
        assert!(!fault.to_string().contains('\u{7}'));
    }
}

#[test]
fn links_are_refused() {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    zip.add_symlink("entries.jsonl", "/etc/passwd", SimpleFileOptions::default()).unwrap();
    let fault = refused(&zip.finish().unwrap().into_inner());
    assert!(matches!(&fault, PackageFault::Member { why, .. } if why == "it is a link"), "{fault}");
}

#[test]
fn packages_that_grow_out_of_all_measure_are_refused_before_they_do() {
    let office = office();
    let mut members = taken_apart(&packed(&office));
    *member(&mut members, "entries.jsonl") = vec![b' '; 64 << 20];
    let bomb = put_together(&members);
    assert!(bomb.len() < 1 << 20);
    let fault = refused(&bomb);
    assert!(matches!(&fault, PackageFault::TooGreat { what, .. } if what.contains("grow")), "{fault}");

    let small = packed(&office);
    let limits = |change: &dyn Fn(&mut Limits)| {
        let mut limits = Limits::default();
        change(&mut limits);
        refused_within(&small, &limits).to_string()
    };
    assert!(limits(&|limits| limits.members = 3).contains("5 members"));
    assert!(limits(&|limits| limits.entries = 7).contains("too great"));
    assert!(limits(&|limits| limits.bytes = 1000).contains("when unpacked"));
}

/// The archive's list says that a member is small; its content is not.
#[test]
fn a_member_that_states_a_smaller_length_than_it_has_is_refused() {
    let office = office();
    let mut members = taken_apart(&packed(&office));
    let line_of_spaces = vec![b' '; 3 << 20];
    members.iter_mut().filter(|(name, _)| name == "entries.jsonl").for_each(|(_, c)| *c = line_of_spaces.clone());
    let mut file = put_together(&members);
    // Both the member's own head and the archive's list state the length: little-endian, as written.
    let stated = (3u32 << 20).to_le_bytes();
    let small = 4000u32.to_le_bytes();
    let mut at = 0;
    let mut changed = 0;
    while let Some(found) = file[at..].windows(4).position(|window| window == stated) {
        file[at + found..at + found + 4].copy_from_slice(&small);
        at += found + 4;
        changed += 1;
    }
    assert!(changed >= 2);
    refused(&file);
}

#[test]
fn a_package_of_a_newer_form_is_refused() {
    let mut members = taken_apart(&packed(&office()));
    replace(member(&mut members, "package.json"), "\"package\": 1", "\"package\": 2");
    let fault = refused(&put_together(&members));
    assert!(matches!(fault, PackageFault::Newer { found: 2, known: 1 }), "{fault}");
}

#[test]
fn a_package_without_one_of_its_parts_is_refused() {
    for part in ["package.json", "hashes.txt", "entries.jsonl"] {
        let mut members = taken_apart(&packed(&office()));
        members.retain(|(name, _)| name != part);
        let fault = refused(&put_together(&members)).to_string();
        assert!(fault.contains(part), "{fault}");
    }
}

#[test]
fn a_package_packed_again_by_another_program_is_taken() {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    zip.add_directory("attachments/", SimpleFileOptions::default()).unwrap();
    let mut members = taken_apart(&packed(&office()));
    members.reverse();
    for (name, content) in members {
        let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
        zip.start_file(name, options).unwrap();
        zip.write_all(&content).unwrap();
    }
    let file = zip.finish().unwrap().into_inner();
    let yard = MemoryStore::default();
    assert_eq!(import(&yard, Cursor::new(file), &Default::default()).unwrap().entries.new, 8);
}

fn small() -> (MemoryStore, Vec<u8>) {
    let store = MemoryStore::default();
    crate::boat::write(&store, "office", note("one")).unwrap();
    write_photograph(&store, "office", b"a picture").unwrap();
    let file = packed(&store);
    (store, file)
}

#[test]
fn a_package_cut_short_anywhere_is_refused() {
    let (_, file) = small();
    for length in 0..file.len() {
        refused(&file[..length]);
    }
}

/// Any one byte changed: the package is refused, or what it says is just the same (a date, a comment).
#[test]
fn a_package_with_any_byte_changed_is_refused_or_says_the_same() {
    let (store, file) = small();
    let mut taken = 0;
    for at in 0..file.len() {
        for flip in [0x01, 0x80] {
            let mut changed = file.clone();
            changed[at] ^= flip;
            let yard = MemoryStore::default();
            match import(&yard, Cursor::new(&changed), &Default::default()) {
                Ok(_) => {
                    taken += 1;
                    assert_eq!(everything(&yard), everything(&store), "byte {at}");
                }
                Err(_) => assert!(everything(&yard) == Default::default(), "byte {at}"),
            }
        }
    }
    assert!(taken < file.len(), "{taken} of {} changes were taken", file.len() * 2);
    assert_eq!(store.entries_since(SURVEY, Position::START, 10).unwrap().len(), 2);
}
