//! An invented survey, written entry by entry.

use crate::boat::{Album, planks};
use jiff::civil::date;
use serde_json::json;
use survey::payload::*;
use survey::{DrawnCondition, EntryId, Knife, Pen, Place, Reading, Side, SoundAnswer, State, SurveyId};

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

    pub fn write(&mut self, payload: impl Into<Payload>) -> EntryId {
        let id = EntryId::from_bits(self.next);
        let wall_ms = 1_780_480_000_000 + u64::try_from(self.next).expect("small") * 60_000;
        self.next += 1;
        self.entries.push(self.pen.write(id, wall_ms, &payload.into()));
        id
    }

    pub fn state(self) -> State {
        State::fold(SurveyId::from_bits(7), self.entries)
    }
}

fn observation(member: &str, place: Place, reading: Reading, note: &str) -> Observation {
    Observation { note: note.into(), ..Observation::new(member, place, reading) }
}

fn way() -> Way {
    Way {
        kind: WayKind::Renew,
        how: String::new(),
        needs: String::new(),
        lasts: String::new(),
        risks: String::new(),
        opens: String::new(),
        urgency: None,
        who: String::new(),
        advised: false,
    }
}

fn port(strake: u32, from: u32, to: u32) -> Place {
    Place {
        side: Some(Side::Port),
        strake: Some(strake),
        frame_from: Some(from),
        frame_to: Some(to),
        ..Place::default()
    }
}

/// A survey with every kind of entry in it.
pub fn fullest(album: &mut Album) -> State {
    let mut book = Book::new();
    book.write(Brief {
        purpose: "pre-purchase".into(),
        client: "C. Example".into(),
        addressees: vec!["C. Example".into(), "the lender named by C. Example".into()],
        surveyor: "A. Surveyor".into(),
        qualification: Some("surveyor of wooden craft".into()),
        scope: "Hull, deck and spars".into(),
        excluded: vec!["Engine internals".into()],
        access_agreed: "All lockers emptied by the owner".into(),
        opening_agreed: "One keel bolt and two plank nails, agreed by the owner in writing".into(),
        intended_use: "coastal cruising with a crew of three".into(),
        intended_waters: "Kattegat and western Baltic".into(),
        value_asked: true,
        interests: Some("none".into()),
        terms: Some("accepted by letter of 20 May 2026".into()),
        invented: Some("Boat, people and places are invented.".into()),
        ..Brief::default()
    });
    let vessel = book.write(Vessel {
        name: "Invented Tern".into(),
        vessel_type: "cutter".into(),
        construction: Some(Construction::Carvel),
        built_year: Some(1938),
        length_mm: Some(9140.0),
        beam_mm: Some(2740.0),
        displacement_kg: Some(6200.0),
        planking_species: Some("larch".into()),
        planking_thickness_mm: Some(28.0),
        history: vec!["the owner: laid up from 1979 to 1994".into()],
        ..Vessel::default()
    });
    book.write(Conditions {
        date: Some(date(2026, 6, 3)),
        place: "an invented yard".into(),
        ashore_since: Some(date(2026, 4, 6)),
        weather: "dry, wind light".into(),
        temp_c: Some(18.0),
        rh_percent: Some(55.0),
        hours: "09:00 to 16:30".into(),
        present: vec!["the surveyor".into(), "the owner".into()],
        ..Conditions::default()
    });
    let meter = book.write(Instrument {
        name: "resistance moisture meter".into(),
        checked: Some(date(2026, 5, 30)),
        check: Some("against its own block, within 0.5 %".into()),
        ..Instrument::default()
    });
    let dull = book.write(observation(
        "garboard",
        port(1, 6, 9),
        Reading::Sound { answer: SoundAnswer::DullOrHollow, blows: Some(12) },
        "The strakes above rang",
    ));
    let soft = book.write(observation(
        "garboard",
        port(1, 7, 7),
        Reading::Probe { knife: Some(Knife::SliverBreaksShort), depth_mm: Some(14.0), moves_under_pry: Some(false) },
        "",
    ));
    let told = book.write(observation(
        "garboard",
        port(1, 6, 9),
        Reading::Ask { who: "the owner".into(), said: "The plank was renewed about twelve years ago".into() },
        "",
    ));
    book.write(observation(
        "garboard",
        port(1, 7, 7),
        Reading::Moisture {
            reading_percent: 27.0,
            depth_mm: Some(10.0),
            temp_c: Some(16.0),
            species_setting: Some("larch".into()),
            instrument: Some(meter),
        },
        "",
    ));
    let bolt = book.write(observation(
        "keel-bolt",
        Place { number: Some(4), ..Place::default() },
        Reading::Draw {
            fastening: "iron keel bolt".into(),
            condition: DrawnCondition::Wasted,
            original_mm: Some(19.0),
            measured_mm: Some(11.0),
            picked: None,
        },
        "",
    ));
    book.write(observation(
        "sheer-strake",
        Place::default(),
        Reading::Sound { answer: SoundAnswer::Rings, blows: None },
        "",
    ));
    let gap = book.write(observation(
        "sheer-strake",
        Place::default(),
        Reading::Measure {
            quantity: "seam gap".into(),
            value: 3.175,
            unit: "mm".into(),
            as_written: Some("1/8\"".into()),
        },
        "",
    ));
    book.write(NotSeen {
        member: "keel".into(),
        place: Place::default(),
        why: "iron ballast cast in place".into(),
        needs: "lifting the ballast".into(),
    });
    let weighed = book.write(Reckoning {
        topic: "evidence".into(),
        version: 1,
        inputs: json!({"observations": [{"group": "hammer", "reading": "dull_or_hollow"}, {"group": "knife", "reading": "sliver_breaks_short"}]}),
        results: json!({"states": {"sound": 0.01, "loose": 0.06, "decayed": 0.81, "repaired_before": 0.09}}),
        equation: "Bayes on a three-node network".into(),
        sources: vec!["Elicited defaults of the product, no published rates".into()],
        cautions: vec!["The likelihoods are judgement, not measurement.".into()],
        member: Some("garboard".into()),
        note: String::new(),
    });
    let air = book.write(Reckoning {
        topic: "emc".into(),
        version: 1,
        inputs: json!({"temp_c": 18.0, "rh_percent": 55.0}),
        results: json!({"emc_percent": 10.234}),
        equation: "Hailwood and Horrobin, one hydrate".into(),
        sources: vec!["Wood Handbook, FPL-GTR-190 (2010), equation 4-5".into()],
        cautions: vec![],
        member: None,
        note: "Planking above the waterline was near this.".into(),
    });
    let finding = |title: &str, member: &str, condition, text: &str, basis: Vec<EntryId>| Finding {
        title: title.into(),
        member: member.into(),
        places: vec![],
        condition,
        likely_state: None,
        text: text.into(),
        extent: String::new(),
        cause: String::new(),
        alternatives: vec![],
        basis,
        sure: None,
        meaning: String::new(),
        serious: false,
    };
    let garboard = book.write(Finding {
        places: vec![port(1, 6, 9)],
        likely_state: Some(LikelyState::Decayed),
        extent: "About 900 mm of the lower 60 mm".into(),
        cause: "Fresh water lying against the keel".into(),
        alternatives: vec![Alternative {
            what: "loose on sound fastenings".into(),
            against: "it did not move when pried".into(),
        }],
        sure: Some(Sureness::VeryLikely),
        meaning: "The keel seam may open in a seaway".into(),
        serious: true,
        ..finding(
            "garboard decayed at its lower edge",
            "garboard",
            Condition::WorkNeeded,
            "The lower edge is decayed from frame 6 to frame 9. The keel behind it was not reached.",
            vec![dull, soft, told, weighed],
        )
    });
    let bolts = book.write(Finding {
        serious: true,
        sure: Some(Sureness::VirtuallyCertain),
        ..finding("keel bolt 4 wasted", "keel-bolt", Condition::Failed, "The bolt no longer does its work.", vec![bolt])
    });
    book.write(finding(
        "seam under the sheer strake open",
        "sheer-strake",
        Condition::Watch,
        "As a dry berth explains.",
        vec![gap, air],
    ));
    let recommendation = |title: &str, action: &str, urgency, by, findings: Vec<EntryId>| Recommendation {
        title: title.into(),
        findings,
        action: action.into(),
        why: String::new(),
        urgency,
        by,
        who: String::new(),
        proof: String::new(),
        ways: vec![],
        carried_from: None,
    };
    book.write(recommendation("Sheer seam", "Measure the seam again", Urgency::Watch, Some(date(2026, 10, 1)), vec![]));
    let draw = book.write(Recommendation {
        why: "One of nine was drawn and had failed".into(),
        proof: "old bolts kept to be seen".into(),
        ways: vec![
            Way { kind: WayKind::LeaveAndWatch, risks: "the keel works".into(), ..way() },
            Way {
                kind: WayKind::Renew,
                needs: "bolts of the same metal".into(),
                lasts: "as long as the first".into(),
                advised: true,
                ..way()
            },
        ],
        ..recommendation(
            "Keel bolts",
            "Draw the other eight. Renew those wasted.",
            Urgency::BeforeSheFloats,
            None,
            vec![bolts],
        )
    });
    book.write(recommendation(
        "Garboard",
        "Renew from frame 4 to frame 11",
        Urgency::BeforeSheFloats,
        None,
        vec![garboard],
    ));
    book.write(recommendation(
        "Plank nails",
        "Draw five a side",
        Urgency::AtTheNextHaulOut,
        Some(date(2027, 5, 1)),
        vec![],
    ));
    book.write(EstimateLine {
        item: "Keel bolts".into(),
        recommendation: Some(draw),
        trade: "shipwright".into(),
        quantity: Some(9.0),
        unit: String::new(),
        low: 2400.0,
        likely: 3100.0,
        high: 4900.0,
        currency: "EUR".into(),
        rates_from: "an invented yard, May 2026".into(),
        chance_percent: None,
    });
    book.write(EstimateLine {
        item: "Garboard".into(),
        recommendation: None,
        trade: "shipwright".into(),
        quantity: Some(3.2),
        unit: "m".into(),
        low: 3800.0,
        likely: 5000.0,
        high: 8000.0,
        currency: "EUR".into(),
        rates_from: String::new(),
        chance_percent: Some(90.0),
    });
    book.write(Comparable {
        title: "an invented cutter".into(),
        price: 14000.0,
        currency: "EUR".into(),
        sold: true,
        date: Some(date(2025, 9, 1)),
        length_mm: Some(8900.0),
        built_year: Some(1946),
        source: "an invented broker".into(),
        adjustments: vec![Adjustment { what: "condition".into(), amount: -3000.0 }],
    });
    book.write(OpinionOfValue {
        definition: "Price between a willing buyer and a willing seller, neither forced, both knowing the facts".into(),
        date: date(2026, 6, 3),
        low: 9000.0,
        middle: 12000.0,
        high: 16000.0,
        currency: "EUR".into(),
        reasoning: "One comparable sale; cost and income were left out as unreliable here.".into(),
    });
    book.write(ReportIssued {
        version: 1,
        date: date(2026, 6, 5),
        field_book: survey::Digest::of(b"x"),
        sha256: survey::Digest::of(b"y"),
        addressees: vec!["C. Example".into()],
        changes: String::new(),
        issue: None,
    });
    book.write(FollowUp {
        recommendation: draw,
        date: Some(date(2026, 8, 1)),
        standing: FollowUpStanding::Open,
        text: "The yard says two bolts are drawn; not seen".into(),
    });
    book.write(Amendment {
        amends: gap,
        settles: vec![],
        why: "written to the wrong strake".into(),
        payload: Some(
            serde_json::to_value(observation(
                "sheer-strake",
                Place { side: Some(Side::Starboard), ..Place::default() },
                Reading::Measure {
                    quantity: "seam gap".into(),
                    value: 3.175,
                    unit: "mm".into(),
                    as_written: Some("1/8\"".into()),
                },
                "",
            ))
            .expect("writes"),
        ),
    });
    for (of, shade, caption) in [
        (Some(vessel), 120, "Invented Tern ashore"),
        (Some(dull), 90, "Garboard at frame 7"),
        (Some(bolt), 140, "Keel bolt 4"),
        (None, 150, "Deck, looking forward"),
    ] {
        let bytes = planks(800, 600, shade);
        let attachment = Attachment {
            sha256: survey::Digest::of(&bytes),
            bytes: bytes.len() as u64,
            media_type: "image/jpeg".into(),
            file_name: "p.jpg".into(),
            caption: caption.into(),
            alternative: String::new(),
            of,
            taken: None,
            position_deg: None,
        };
        album.keep(bytes);
        book.write(attachment);
    }
    book.state()
}
