//! The drawn pictures that stand in for photographs, embedded.

use survey::Digest;

/// A picture, whole, with its digest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Picture {
    /// SHA-256 of its bytes: its name beside the record.
    pub digest: Digest,
    /// Its file's own name.
    pub file_name: &'static str,
    /// The bytes of the JPEG file.
    pub bytes: &'static [u8],
}

impl Picture {
    /// Returns the letter to the client.
    pub(crate) fn letter() -> Picture {
        let bytes = crate::LETTER.as_bytes();
        Picture { digest: Digest::of(bytes), file_name: "letter.txt", bytes }
    }

    /// Returns the picture of a file named as in the field book's source: `pictures/stem-check.jpg`.
    pub(crate) fn of_file(file: &str) -> Option<Self> {
        let wanted = file.strip_prefix("pictures/")?;
        let (file_name, bytes) = FILES.iter().find(|(name, _)| *name == wanted)?;
        Some(Self { digest: Digest::of(bytes), file_name, bytes })
    }
}

macro_rules! embedded {
    ($($name:literal),+ $(,)?) => {
        &[$(($name, include_bytes!(concat!("../marram/pictures/", $name)))),+]
    };
}

/// All files of `marram/pictures`.
const FILES: &[(&str, &[u8])] = embedded![
    "beam-end.jpg",
    "bilge.jpg",
    "bow.jpg",
    "broadside.jpg",
    "covering-board.jpg",
    "deck.jpg",
    "drawn-rivets.jpg",
    "engine-cement.jpg",
    "floor-bolt.jpg",
    "hood-ends.jpg",
    "keel-bolts.jpg",
    "keel-joint.jpg",
    "loose-planks.jpg",
    "mast-step.jpg",
    "mast.jpg",
    "moisture.jpg",
    "propeller.jpg",
    "roves.jpg",
    "rudder.jpg",
    "scarph.jpg",
    "seacock.jpg",
    "sheer-strake.jpg",
    "sisters.jpg",
    "split-land.jpg",
    "stem-check.jpg",
];
