//! Attachments as files of a folder, each named after its content.

use crate::checked::{Checked, FaultOf, copy_hashing};
use crate::{KeptAttachment, StoreFault};
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::time::Duration;
use survey::Digest;

/// A folder of attachments: `attachments/ab/abcdef…`, and `incoming/` for what is still being written.
///
/// A file gets its name only when it is whole and on the disk, so a file that bears a name is whole, whenever the
/// power fails. What was left in `incoming` by a program that ended is swept out a day later.
#[derive(Debug)]
pub(crate) struct AttachmentFolder {
    attachments: PathBuf,
    incoming: PathBuf,
}

impl AttachmentFolder {
    /// Opens the two folders within `root`, making them where they are missing.
    pub fn open(root: &Path) -> Result<Self, StoreFault> {
        let folder = Self { attachments: root.join("attachments"), incoming: root.join("incoming") };
        for path in [&folder.attachments, &folder.incoming] {
            fs::create_dir_all(path).map_err(|fault| StoreFault::io(path, fault))?;
        }
        folder.sweep();
        Ok(folder)
    }

    /// Returns the two folders within `root` as they are, to read from: neither need be there.
    pub fn to_read(root: &Path) -> Self {
        Self { attachments: root.join("attachments"), incoming: root.join("incoming") }
    }

    pub fn put(&self, from: &mut dyn Read, wanted: Option<&Digest>) -> Result<KeptAttachment, StoreFault> {
        let mut file = tempfile::Builder::new()
            .prefix("attachment-")
            .tempfile_in(&self.incoming)
            .map_err(|fault| StoreFault::io(&self.incoming, fault))?;
        // Dropping the file on any fault below removes it.
        let (sha256, bytes) = copy_hashing(from, &mut file).map_err(|(fault, of)| match of {
            FaultOf::Source => StoreFault::Source(fault),
            FaultOf::Target => StoreFault::io(&self.incoming, fault),
        })?;
        if let Some(wanted) = wanted.filter(|wanted| **wanted != sha256) {
            let why = format!("its bytes have the digest {sha256}");
            return Err(StoreFault::AttachmentWrong { sha256: *wanted, why });
        }
        let path = self.path(&sha256);
        let shelf = path.parent().unwrap_or(&self.attachments).to_owned();
        let new = !path.exists();
        if !new && self.is_whole(&sha256) {
            // Whoever put it may not have got as far as this; what is acknowledged must be on the disk.
            sync_file(&path)?;
            sync_folder(&shelf)?;
            return Ok(KeptAttachment { sha256, bytes, new });
        }
        file.as_file().sync_all().map_err(|fault| StoreFault::io(&self.incoming, fault))?;
        fs::create_dir_all(&shelf).map_err(|fault| StoreFault::io(&shelf, fault))?;
        sync_folder(&self.attachments)?;
        file.persist(&path).map_err(|fault| StoreFault::io(&path, fault.error))?;
        sync_folder(&shelf)?;
        Ok(KeptAttachment { sha256, bytes, new })
    }

    pub fn open_file(&self, sha256: &Digest) -> Result<(u64, File), StoreFault> {
        let path = self.path(sha256);
        let about = match fs::symlink_metadata(&path) {
            Ok(about) => about,
            Err(fault) if fault.kind() == io::ErrorKind::NotFound => {
                return Err(StoreFault::NoAttachment { sha256: *sha256 });
            }
            Err(fault) => return Err(StoreFault::io(path, fault)),
        };
        if !about.is_file() {
            let why = "it is a link or a folder, not a file".to_owned();
            return Err(StoreFault::AttachmentWrong { sha256: *sha256, why });
        }
        let file = File::open(&path).map_err(|fault| StoreFault::io(path, fault))?;
        Ok((about.len(), file))
    }

    /// Returns how long an attachment is; none when it is not here.
    pub fn length(&self, sha256: &Digest) -> Result<Option<u64>, StoreFault> {
        match self.open_file(sha256) {
            Ok((bytes, _)) => Ok(Some(bytes)),
            Err(StoreFault::NoAttachment { .. }) => Ok(None),
            Err(fault) => Err(fault),
        }
    }

    pub fn has(&self, sha256: &Digest) -> bool {
        fs::symlink_metadata(self.path(sha256)).is_ok_and(|about| about.is_file())
    }

    /// Returns up to `most` attachments by name after the given one.
    pub fn after(&self, after: Option<&Digest>, most: usize) -> Result<Vec<Digest>, StoreFault> {
        let mut found = Vec::new();
        let from = after.map_or(String::new(), |after| after.to_string()[..2].to_owned());
        for shelf in self.shelves()? {
            if name_of(&shelf) < from {
                continue;
            }
            let mut on_shelf: Vec<Digest> = listed(&shelf)?
                .iter()
                .filter_map(|path| name_of(path).parse::<Digest>().ok())
                .filter(|sha256| self.path(sha256).parent() == Some(&shelf))
                .filter(|sha256| after.is_none_or(|after| sha256 > after))
                .collect();
            on_shelf.sort();
            found.extend(on_shelf);
            if found.len() >= most {
                break;
            }
        }
        found.truncate(most);
        Ok(found)
    }

    /// Returns what lies in the folder and is no attachment.
    pub fn strays(&self) -> Result<Vec<PathBuf>, StoreFault> {
        let mut strays: Vec<PathBuf> = listed(&self.attachments)?.into_iter().filter(|path| !is_shelf(path)).collect();
        for shelf in self.shelves()? {
            strays.extend(
                listed(&shelf)?
                    .into_iter()
                    .filter(|path| name_of(path).parse::<Digest>().map_or(true, |sha256| self.path(&sha256) != *path)),
            );
        }
        Ok(strays)
    }

    /// Tells whether no attachment is kept here, looking no further than the first.
    pub fn is_empty(&self) -> Result<bool, StoreFault> {
        Ok(self.after(None, 1)?.is_empty())
    }

    fn path(&self, sha256: &Digest) -> PathBuf {
        let name = sha256.to_string();
        self.attachments.join(&name[..2]).join(name)
    }

    fn is_whole(&self, sha256: &Digest) -> bool {
        let Ok((bytes, file)) = self.open_file(sha256) else { return false };
        io::copy(&mut Checked::new(file, *sha256, bytes), &mut io::sink()).is_ok()
    }

    fn shelves(&self) -> Result<Vec<PathBuf>, StoreFault> {
        let mut shelves = listed(&self.attachments)?;
        shelves.retain(|path| is_shelf(path));
        shelves.sort();
        Ok(shelves)
    }

    /// Removes what other programs left unfinished more than a day ago; what cannot be removed does no harm.
    fn sweep(&self) {
        for path in listed(&self.incoming).unwrap_or_default() {
            let age = fs::symlink_metadata(&path).and_then(|about| about.modified()).map(|at| at.elapsed());
            if matches!(age, Ok(Ok(age)) if age > Duration::from_secs(24 * 60 * 60)) {
                let _ = fs::remove_file(path);
            }
        }
    }
}

/// Makes sure that the names in a folder are on the disk.
pub(crate) fn sync_folder(path: &Path) -> Result<(), StoreFault> {
    // Windows has no such call: there the file system's own journal keeps names.
    if cfg!(unix) { sync_file(path) } else { Ok(()) }
}

fn sync_file(path: &Path) -> Result<(), StoreFault> {
    File::open(path).and_then(|file| file.sync_all()).map_err(|fault| StoreFault::io(path, fault))
}

fn listed(path: &Path) -> Result<Vec<PathBuf>, StoreFault> {
    let listed = fs::read_dir(path).and_then(|listing| listing.map(|found| found.map(|f| f.path())).collect());
    match listed {
        // A copy that was made to be read may lack a folder in which there was nothing.
        Err(fault) if fault.kind() == io::ErrorKind::NotFound => Ok(Vec::new()),
        listed => listed.map_err(|fault| StoreFault::io(path, fault)),
    }
}

fn is_shelf(path: &Path) -> bool {
    let name = name_of(path);
    let hex = |b: u8| b.is_ascii_digit() || (b'a'..=b'f').contains(&b);
    name.len() == 2 && name.bytes().all(hex) && fs::symlink_metadata(path).is_ok_and(|about| about.is_dir())
}

fn name_of(path: &Path) -> String {
    path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}
