//! An invented survey, written entry by entry.

use serde_json::{Value, json};
use survey::payload::Payload;
use survey::{EntryId, Pen, State, SurveyId};

/// Writes entries one after another, a minute apart.
pub struct Book {
    pen: Pen,
    entries: Vec<survey::Entry>,
    next: u128,
}

impl Book {
    pub fn new() -> Self {
        Self { pen: Pen::new(SurveyId::from_bits(7), "A. Surveyor", "office"), entries: Vec::new(), next: 1 }
    }

    /// Writes an entry as it would come from a form, so that what is refused there is refused here.
    pub fn write(&mut self, kind: &str, payload: Value) -> EntryId {
        let id = EntryId::from_bits(self.next);
        let wall_ms = 1_780_480_000_000 + u64::try_from(self.next).expect("small") * 60_000;
        self.next += 1;
        let payload = Payload::read_strict(kind, &payload).expect("accepted");
        self.entries.push(self.pen.write(id, wall_ms, &payload));
        id
    }

    /// Returns what the survey says so far.
    pub fn now(&self) -> State {
        State::fold(SurveyId::from_bits(7), self.entries.iter().cloned())
    }

    pub fn state(self) -> State {
        State::fold(SurveyId::from_bits(7), self.entries)
    }
}

/// Words that an office program would run, and words that XML must not take for its own.
pub const HOSTILE: &str = "=HYPERLINK(\"x\") <w:p>&amp;]]> \u{7}\u{202e}end";

/// A small boat with two findings, three recommendations, one of them with rival ways, and an estimate.
pub fn small() -> State {
    let mut book = Book::new();
    book.write(
        "brief",
        json!({"purpose": "pre-purchase", "client": "C. Example", "surveyor": "A. Surveyor",
            "invented": "Boat, people and places are invented."}),
    );
    book.write("vessel", json!({"name": "Invented Tern", "vessel_type": "cutter", "construction": "carvel"}));
    book.write("conditions", json!({"date": "2026-06-03", "place": "an invented yard"}));
    let dull = book.write(
        "observation",
        json!({"member": "garboard", "place": {"side": "port", "strake": 1, "frame_from": 6, "frame_to": 9},
            "reading": {"method": "sound", "answer": "dull_or_hollow"}}),
    );
    let rot = book.write(
        "finding",
        json!({"title": "garboard decayed", "member": "garboard", "condition": "work_needed", "serious": true,
            "places": [{"side": "port", "frame_from": 6, "frame_to": 9}],
            "text": "The lower edge is decayed.", "basis": [dull.to_string()]}),
    );
    let bolts = book.write(
        "finding",
        json!({"title": "keel bolt 4 wasted", "member": "keel-bolt", "condition": "failed", "places": [{"number": 4}],
            "text": "It no longer does its work.", "serious": true}),
    );
    let renew = book.write(
        "recommendation",
        json!({"title": "garboard, port", "findings": [rot.to_string()], "action": "Renew from frame 4 to frame 11",
            "urgency": "before_she_floats", "who": "a shipwright", "proof": "seen before closing up",
            "ways": [
                {"kind": "leave_and_watch", "needs": "nothing", "risks": "the seam opens in a seaway", "lasts": "not known"},
                {"kind": "repair_in_place", "how": "graving piece", "needs": "dry wood about it", "lasts": "some years",
                 "risks": "decay left behind", "opens": "the keel rabbet"},
                {"kind": "renew", "needs": "larch, steaming", "lasts": "as long as her other planks",
                 "opens": "the frame heels", "who": "a shipwright", "urgency": "before_she_floats", "advised": true}]}),
    );
    let draw = book.write(
        "recommendation",
        json!({"title": "keel bolts", "findings": [bolts.to_string()], "action": "Draw the other eight",
            "urgency": "before_she_floats"}),
    );
    book.write(
        "recommendation",
        json!({"title": HOSTILE, "action": "Measure again", "urgency": "watch", "by": "2027-05-01"}),
    );
    for (item, of, trade, quantity, unit, (low, likely, high)) in [
        ("plank, got out and fitted", Some(renew), "shipwright", Some(3.2), "m", (1000.0, 2000.0, 6000.0)),
        ("caulk and pay", Some(renew), "shipwright", Some(6.5), "m", (500.0, 1000.0, 3000.0)),
        ("keel bolts", Some(draw), "smith", Some(8.0), "", (1000.0, 2000.0, 6000.0)),
        ("haul out", None, "", None, "", (400.0, 450.0, 600.0)),
    ] {
        let mut line = json!({"item": item, "trade": trade, "unit": unit, "low": low, "likely": likely, "high": high,
            "currency": "EUR", "rates_from": "invented, May 2026"});
        if let Some(of) = of {
            line["recommendation"] = json!(of.to_string());
        }
        if let Some(quantity) = quantity {
            line["quantity"] = json!(quantity);
        }
        book.write("estimate_line", line);
    }
    book.state()
}
