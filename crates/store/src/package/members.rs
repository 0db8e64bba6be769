//! The members of a package's archive, told from what does not belong there before anything is unpacked.

use super::manifest::{ENTRIES, HASHES, MANIFEST, member_of};
use super::{Limits, PackageFault};
use std::io::{Read, Seek, SeekFrom};
use survey::Digest;
use zip::{CompressionMethod, ZipArchive};

/// The archive of a package with only members that belong there.
pub(super) struct Members<R> {
    archive: ZipArchive<R>,
    /// The attachments that have a member, with their lengths when unpacked.
    pub attachments: Vec<(Digest, u64)>,
}

impl<R: Read + Seek> Members<R> {
    /// Looks through the archive's list of members. A member's name is only ever compared with names that a package
    /// may have; it never becomes a path.
    pub fn open(mut from: R, limits: &Limits) -> Result<Self, PackageFault> {
        let packed = from.seek(SeekFrom::End(0)).map_err(|fault| not_whole(fault.to_string()))?;
        let mut archive = ZipArchive::new(from).map_err(|fault| not_whole(fault.to_string()))?;
        if archive.len() > limits.members {
            let what = format!("{} members", archive.len());
            return Err(PackageFault::TooGreat { what, most: limits.members as u64 });
        }
        let mut attachments = Vec::new();
        let mut unpacked: u64 = 0;
        for index in 0..archive.len() {
            let member = archive.by_index_raw(index).map_err(|fault| not_whole(fault.to_string()))?;
            let name = String::from_utf8_lossy(member.name_raw()).into_owned();
            let fault = |why: &str| PackageFault::Member { name: shortened(&name), why: why.to_owned() };
            if member.is_symlink() {
                return Err(fault("it is a link"));
            }
            if member.encrypted() {
                return Err(fault("it is encrypted"));
            }
            if !matches!(member.compression(), CompressionMethod::Stored | CompressionMethod::Deflated) {
                return Err(fault("it is packed in an unusual way"));
            }
            match name.as_str() {
                MANIFEST | HASHES | ENTRIES => {}
                // Left by programs that unpack and pack again.
                folder if folder == "attachments/" || is_shelf(folder) => {}
                other => match attachment(other) {
                    Some(sha256) => attachments.push((sha256, member.size())),
                    None => return Err(fault("a package has no member of this name")),
                },
            }
            unpacked = unpacked.saturating_add(member.size());
        }
        if unpacked > limits.bytes {
            let what = format!("it has {unpacked} bytes when unpacked");
            return Err(PackageFault::TooGreat { what, most: limits.bytes });
        }
        let most = packed.saturating_mul(limits.growth).saturating_add(1 << 20);
        if unpacked > most {
            let what = format!("its {packed} bytes grow to {unpacked} when unpacked");
            return Err(PackageFault::TooGreat { what, most });
        }
        attachments.sort();
        Ok(Self { archive, attachments })
    }

    /// Opens a member. Reading stops one byte after the length it states, so that it cannot grow beyond it unseen.
    pub fn member(&mut self, name: &str) -> Result<(u64, impl Read + use<'_, R>), PackageFault> {
        let member = self.archive.by_name(name).map_err(|fault| not_whole(format!("`{name}`: {fault}")))?;
        let size = member.size();
        Ok((size, member.take(size.saturating_add(1))))
    }

    /// Reads a member whole, up to `most` bytes.
    pub fn whole(&mut self, name: &str, most: u64) -> Result<Vec<u8>, PackageFault> {
        let (size, mut member) = self.member(name)?;
        if size > most {
            return Err(PackageFault::TooGreat { what: format!("`{name}` has {size} bytes"), most });
        }
        let mut whole = Vec::new();
        member.read_to_end(&mut whole).map_err(|fault| not_whole(format!("`{name}`: {fault}")))?;
        if whole.len() as u64 != size {
            return Err(not_whole(format!("`{name}` does not have the length it states")));
        }
        Ok(whole)
    }
}

pub(super) fn not_whole(why: impl Into<String>) -> PackageFault {
    PackageFault::NotWhole { why: why.into() }
}

fn attachment(name: &str) -> Option<Digest> {
    let sha256: Digest = name.rsplit('/').next()?.parse().ok()?;
    (member_of(&sha256) == name).then_some(sha256)
}

fn is_shelf(name: &str) -> bool {
    let shelf = name.strip_prefix("attachments/").and_then(|rest| rest.strip_suffix('/'));
    shelf.is_some_and(|shelf| shelf.len() == 2 && shelf.bytes().all(|b| b.is_ascii_hexdigit()))
}

fn shortened(name: &str) -> String {
    let name: String = name.chars().map(|c| if c.is_control() { '?' } else { c }).collect();
    if name.chars().count() <= 80 { name } else { format!("{}…", name.chars().take(80).collect::<String>()) }
}
