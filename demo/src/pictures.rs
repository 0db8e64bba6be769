//! The drawn pictures that stand in for photographs.

use survey::Digest;

/// A picture that an attachment of the field book names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Picture {
    /// SHA-256 of its bytes.
    pub digest: Digest,
    /// Its file's name.
    pub file_name: &'static str,
    /// Its bytes.
    pub bytes: &'static [u8],
}

macro_rules! pictures {
    ($($file:literal),+ $(,)?) => {
        const ALL: &[(&str, &[u8])] = &[$(($file, include_bytes!(concat!("../marram/pictures/", $file)))),+];
    };
}

pictures!(
    "bow.jpg",
    "broadside.jpg",
    "covering-board.jpg",
    "deck.jpg",
    "drawn-rivets.jpg",
    "hood-ends.jpg",
    "keel-bolts.jpg",
    "keel-joint.jpg",
    "loose-planks.jpg",
    "mast.jpg",
    "propeller.jpg",
    "rudder.jpg",
    "scarph.jpg",
    "sheer-strake.jpg",
    "split-land.jpg",
    "stem-check.jpg",
);

impl Picture {
    /// Returns the picture of a file as the field book names it: `pictures/bow.jpg`.
    pub(crate) fn of_file(file: &str) -> Option<Picture> {
        let name = file.strip_prefix("pictures/")?;
        let (file_name, bytes) = ALL.iter().find(|(own, _)| *own == name)?;
        Some(Picture { digest: Digest::of(bytes), file_name, bytes })
    }
}
