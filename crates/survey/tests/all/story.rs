//! Made-up surveys for the other tests.

use survey::payload::{Amendment, Finding, Observation, Payload};
use survey::{Entry, EntryId, Pen, Place, Reading, SoundAnswer, SurveyId};

pub const SURVEY: SurveyId = SurveyId::from_bits(7);

/// A wall clock that the tests set, and a supply of identifiers.
pub struct Desk {
    next_id: u128,
    pub wall_ms: u64,
}

impl Desk {
    pub fn new() -> Self {
        Self { next_id: 100, wall_ms: 1_780_000_000_000 }
    }

    pub fn id(&mut self) -> EntryId {
        self.next_id += 1;
        EntryId::from_bits(self.next_id)
    }

    pub fn write(&mut self, pen: &mut Pen, payload: impl Into<Payload>) -> Entry {
        self.wall_ms += 1000;
        let id = self.id();
        pen.write(id, self.wall_ms, &payload.into())
    }
}

pub fn pen(device: &str) -> Pen {
    Pen::new(SURVEY, "A. Surveyor", device)
}

pub fn sounding(note: &str) -> Observation {
    Observation {
        member: "garboard".into(),
        place: Place { strake: Some(1), frame_from: Some(9), ..Place::default() },
        reading: Reading::Sound { answer: SoundAnswer::Rings, blows: Some(3) },
        note: note.into(),
        seen_on: None,
    }
}

pub fn amend(of: EntryId, to: &Observation) -> Amendment {
    Amendment {
        amends: of,
        settles: vec![],
        why: "heard again".into(),
        payload: Some(serde_json::to_value(to).expect("an observation is plain JSON")),
    }
}

pub fn withdraw(of: EntryId) -> Amendment {
    Amendment { amends: of, settles: vec![], why: "entered twice".into(), payload: None }
}

pub fn finding(basis: Vec<EntryId>) -> Finding {
    Finding {
        title: "Garboard rings".into(),
        member: "garboard".into(),
        places: vec![],
        condition: survey::payload::Condition::Sound,
        likely_state: None,
        text: "Rings like the reference places.".into(),
        extent: String::new(),
        cause: String::new(),
        alternatives: vec![],
        basis,
        sure: None,
        meaning: String::new(),
        serious: false,
    }
}
