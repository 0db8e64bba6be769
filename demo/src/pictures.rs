//! The files beside the record, embedded: drawn pictures that stand in for photographs, and an invented talk-through.

use survey::Digest;

/// A file kept beside the record, whole, with its digest. Most are pictures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Picture {
    /// SHA-256 of its bytes: its name beside the record.
    pub digest: Digest,
    /// Its file's own name.
    pub file_name: &'static str,
    /// Its media type.
    pub media_type: &'static str,
    /// Its bytes.
    pub bytes: &'static [u8],
}

impl Picture {
    /// Returns the letter to the client.
    pub(crate) fn letter() -> Picture {
        let bytes = crate::LETTER.as_bytes();
        Picture { digest: Digest::of(bytes), file_name: "letter.txt", media_type: "text/plain", bytes }
    }

    /// Returns the file named as in the field book's source: `pictures/stem-check.jpg`.
    pub(crate) fn of_file(file: &str) -> Option<Self> {
        let (folder, wanted) = file.split_once('/')?;
        let of_folder = match folder {
            "pictures" => FILES,
            "talk" => TALK,
            _ => return None,
        };
        let (file_name, bytes) = of_folder.iter().find(|(name, _)| *name == wanted)?;
        let media_type = match file_name.rsplit_once('.')?.1 {
            "jpg" => "image/jpeg",
            "wav" => "audio/wav",
            _ => "text/vtt",
        };
        Some(Self { digest: Digest::of(bytes), file_name, media_type, bytes })
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

/// All files of `marram/talk`, made by `examples/talk_through.rs`.
const TALK: &[(&str, &[u8])] = &[
    ("reference-blows.wav", include_bytes!("../marram/talk/reference-blows.wav")),
    ("talk-through.vtt", include_bytes!("../marram/talk/talk-through.vtt")),
    ("talk-through.wav", include_bytes!("../marram/talk/talk-through.wav")),
];
