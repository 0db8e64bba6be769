//! The places of a survey. Each is a file; a place with nothing in it yet is not in the list.

pub mod bench;
pub mod brief;
mod carry;
mod client_links;
pub mod device;
mod devices;
pub mod find;
pub mod frame;
pub mod hammer;
pub mod hull;
pub mod issue;
pub mod look_page;
pub mod pair;
pub mod photos;
mod reading;
pub mod report;
pub mod start;
pub mod talk;
pub mod walk;

/// The places, in the order of the work.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Place {
    /// What the survey is for, the boat, the conditions.
    #[default]
    Brief,
    /// The boat as a drawing.
    Hull,
    /// The walk round the boat.
    Walk,
    /// Working it out.
    Bench,
    /// The written report.
    Report,
}

impl Place {
    /// All places.
    pub const ALL: [Place; 5] = [Place::Brief, Place::Hull, Place::Walk, Place::Bench, Place::Report];

    /// Returns the place's word in addresses.
    pub fn word(self) -> &'static str {
        match self {
            Place::Brief => "brief",
            Place::Hull => "hull",
            Place::Walk => "walk",
            Place::Bench => "bench",
            Place::Report => "report",
        }
    }

    /// Returns what the place is called.
    pub fn name(self) -> &'static str {
        match self {
            Place::Brief => "Brief",
            Place::Hull => "Hull",
            Place::Walk => "Walk",
            Place::Bench => "Bench",
            Place::Report => "Report",
        }
    }

    /// Returns the place of a word in an address.
    pub fn named(word: &str) -> Option<Place> {
        Place::ALL.into_iter().find(|place| place.word() == word)
    }
}
