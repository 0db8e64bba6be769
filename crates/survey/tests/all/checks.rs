//! Checks before issue: a whole survey trips none, and each rule is tripped by a survey that lacks one thing.

use crate::story::{Desk, SURVEY, pen, withdraw};
use std::collections::{BTreeMap, BTreeSet};
use survey::checks::{Given, Shortfall, Weight, before_issue, rule, rules, stops};
use survey::payload::*;
use survey::{BoreFinds, Digest, DrawnCondition, EntryId, Knife, Pen, Place, Reading, SoundAnswer, State, members_of};

/// A survey that owes nothing, and the names of what is in it.
struct Whole {
    desk: Desk,
    pen: Pen,
    state: State,
    named: BTreeMap<&'static str, EntryId>,
}

impl Whole {
    fn put(&mut self, payload: impl Into<Payload>) -> EntryId {
        let entry = self.desk.write(&mut self.pen, payload);
        let id = entry.id;
        self.state.take(entry);
        id
    }

    fn name(&mut self, name: &'static str, payload: impl Into<Payload>) -> EntryId {
        let id = self.put(payload);
        self.named.insert(name, id);
        id
    }

    fn id(&self, name: &str) -> EntryId {
        self.named[name]
    }

    /// Amends an entry: `set` changes its payload.
    fn change(&mut self, name: &str, set: impl FnOnce(&mut serde_json::Value)) {
        let record = self.state.record(self.id(name)).expect("it is there");
        let mut payload = serde_json::from_str(&record.payload().to_json()).expect("a payload is JSON");
        set(&mut payload);
        let amends = record.shown().id;
        self.put(Amendment { amends, settles: vec![], why: "for the test".into(), payload: Some(payload) });
    }

    fn take_away(&mut self, name: &str) {
        let id = self.id(name);
        self.put(withdraw(id));
    }

    fn shortfalls(&self) -> Vec<Shortfall> {
        before_issue(&self.state, &Given::default())
    }

    fn tripped(&self) -> BTreeSet<&'static str> {
        self.shortfalls().iter().map(|s| s.rule.name).collect()
    }
}

fn seen(member: &str, reading: Reading, note: &str) -> Observation {
    Observation { note: note.into(), ..Observation::new(member, Place::default(), reading) }
}

fn rings() -> Reading {
    Reading::Sound { answer: SoundAnswer::Rings, blows: Some(3) }
}

fn found(member: &str, title: &str, condition: Condition, basis: Vec<EntryId>) -> Finding {
    Finding {
        title: title.into(),
        member: member.into(),
        places: vec![],
        condition,
        likely_state: None,
        text: "As the readings show.".into(),
        extent: String::new(),
        cause: String::new(),
        alternatives: vec![],
        basis,
        sure: Some(Sureness::Likely),
        meaning: String::new(),
        serious: false,
    }
}

fn advice(title: &str, action: &str, urgency: Urgency, findings: Vec<EntryId>) -> Recommendation {
    Recommendation {
        title: title.into(),
        findings,
        action: action.into(),
        why: String::new(),
        urgency,
        by: None,
        who: String::new(),
        proof: String::new(),
        ways: vec![],
        carried_from: None,
    }
}

fn photograph(of: EntryId) -> Attachment {
    Attachment {
        sha256: Digest::of(b"a picture"),
        bytes: 9,
        media_type: "image/jpeg".into(),
        file_name: "bolt.jpg".into(),
        caption: "Keel bolt 3 beside a rule.".into(),
        alternative: String::new(),
        of: Some(of),
        taken: None,
        position_deg: None,
    }
}

/// All invented. Her members but five are struck off, so that the story stays short.
fn whole() -> Whole {
    let mut w = Whole { desk: Desk::new(), pen: pen("office"), state: State::new(SURVEY), named: BTreeMap::new() };
    w.name(
        "brief",
        Brief {
            purpose: "pre-purchase".into(),
            client: "A. Buyer".into(),
            surveyor: "A. Surveyor".into(),
            value_asked: true,
            ..Brief::default()
        },
    );
    w.name(
        "vessel",
        Vessel {
            name: "Nobody's Boat".into(),
            construction: Some(Construction::Carvel),
            built_year: Some(1950),
            history: vec!["The owner: refastened in 1990.".into()],
            ..Vessel::default()
        },
    );
    w.name(
        "day",
        Conditions { date: Some(jiff::civil::date(2026, 6, 3)), place: "Nowhere Yard".into(), ..Conditions::default() },
    );
    let kept = ["garboard", "keel-bolt", "keel", "stem", "shelf"];
    for member in members_of(&w.state) {
        if !kept.contains(&member.id.as_str()) {
            w.put(MemberHad {
                member: member.id,
                has: false,
                name: None,
                group: None,
                each_side: false,
                count: None,
                note: String::new(),
            });
        }
    }
    let meter = w.name("meter", Instrument { name: "pin meter".into(), ..Instrument::default() });
    let garboard = w.name("garboard rings", seen("garboard", rings(), "Seam gap 3 mm at frame 9."));
    let stem = w.name("stem rings", seen("stem", rings(), ""));
    let shelf = w.name(
        "shelf moisture",
        seen(
            "shelf",
            Reading::Moisture {
                reading_percent: 16.0,
                depth_mm: Some(10.0),
                temp_c: None,
                species_setting: Some("oak".into()),
                instrument: Some(meter),
            },
            "",
        ),
    );
    let bolt = w.name(
        "bolt",
        seen(
            "keel-bolt",
            Reading::Draw {
                fastening: "keel bolt 3".into(),
                condition: DrawnCondition::Wasted,
                original_mm: Some(19.0),
                measured_mm: Some(13.0),
                picked: None,
            },
            "",
        ),
    );
    w.name("picture", photograph(bolt));
    let keel = w.name(
        "keel blocks",
        NotSeen {
            member: "keel".into(),
            place: Place { words: Some("on the blocks".into()), ..Place::default() },
            why: "The blocks hide it.".into(),
            needs: "The yard moves the blocks.".into(),
        },
    );
    let f_garboard =
        w.name("garboard sound", found("garboard", "Garboards ring", Condition::Sound, vec![garboard, stem, shelf]));
    let mut bad = found("keel-bolt", "Keel bolt 3 wasted", Condition::WorkNeeded, vec![bolt]);
    bad.text = "One of nine bolts was drawn; it has lost 6 mm of 19.".into();
    bad.serious = true;
    bad.alternatives = vec![Alternative { what: "Made thin".into(), against: "The head has its full size.".into() }];
    let f_bolt = w.name("bolt wasted", bad);
    let f_keel = w.name("keel unseen", found("keel", "Keel not seen on the blocks", Condition::Watch, vec![keel]));
    let r_bolt = w.name(
        "draw bolts",
        advice("Draw the other bolts", "Draw the other eight.", Urgency::BeforeSheFloats, vec![f_bolt]),
    );
    w.name("see keel", advice("See the keel", "Move the blocks and look.", Urgency::FindOut, vec![f_keel]));
    w.name(
        "watch garboard",
        advice("Keep paint on the garboards", "Do not renew them.", Urgency::ForLongLife, vec![f_garboard]),
    );
    w.name(
        "line",
        EstimateLine {
            item: "Eight bolts drawn".into(),
            recommendation: Some(r_bolt),
            trade: String::new(),
            quantity: Some(8.0),
            unit: "bolts".into(),
            low: 100.0,
            likely: 200.0,
            high: 400.0,
            currency: "EUR".into(),
            rates_from: String::new(),
            chance_percent: None,
        },
    );
    w.name(
        "value",
        OpinionOfValue {
            definition: "Between a willing buyer and a willing seller.".into(),
            date: jiff::civil::date(2026, 6, 3),
            low: 1.0,
            middle: 2.0,
            high: 3.0,
            currency: "EUR".into(),
            reasoning: "By one comparable.".into(),
        },
    );
    w.name(
        "comparable",
        Comparable {
            title: "Another boat".into(),
            price: 2.0,
            currency: "EUR".into(),
            sold: true,
            date: None,
            length_mm: None,
            built_year: None,
            source: String::new(),
            adjustments: vec![],
        },
    );
    w
}

/// What each rule must be tripped by.
type Trip = fn(&mut Whole);

fn trips() -> Vec<(&'static str, Trip)> {
    vec![
        ("brief-present", |w| w.take_away("brief")),
        ("brief-present", |w| w.change("brief", |p| p["client"] = "".into())),
        ("surveyor-named", |w| w.change("brief", |p| p["surveyor"] = "".into())),
        ("vessel-present", |w| w.take_away("vessel")),
        ("vessel-present", |w| w.change("vessel", |p| p["built_year"] = serde_json::Value::Null)),
        ("conditions-present", |w| w.take_away("day")),
        ("conditions-present", |w| w.change("day", |p| p["date"] = serde_json::Value::Null)),
        ("value-given-when-asked", |w| w.take_away("value")),
        ("value-has-comparables", |w| w.take_away("comparable")),
        ("members-covered", |w| w.take_away("stem rings")),
        ("members-covered", |w| {
            w.take_away("stem rings");
            let said = Reading::Ask { who: "the owner".into(), said: "new in 1990".into() };
            w.put(seen("stem", said, ""));
        }),
        ("not-seen-has-reason", |w| w.change("keel blocks", |p| p["why"] = "N/A".into())),
        ("not-seen-says-what-it-takes", |w| w.change("keel blocks", |p| p["needs"] = "".into())),
        ("unseen-serious-place-to-be-opened", |w| w.take_away("see keel")),
        ("finding-has-basis", |w| w.change("garboard sound", |p| p["basis"] = serde_json::json!([]))),
        ("finding-has-basis", |w| w.take_away("bolt")),
        ("grounds-stand", |w| w.take_away("shelf moisture")),
        ("grounds-stand", |w| w.take_away("draw bolts")),
        ("serious-finding-has-recommendation", |w| w.take_away("draw bolts")),
        ("finding-of-work-has-recommendation", |w| {
            let basis = vec![w.id("shelf moisture")];
            w.put(found("shelf", "Shelf broken", Condition::Failed, basis));
        }),
        ("serious-finding-weighed", |w| w.change("bolt wasted", |p| p["alternatives"] = serde_json::json!([]))),
        ("serious-finding-weighed", |w| w.change("bolt wasted", |p| p["sure"] = serde_json::Value::Null)),
        ("recommendation-has-finding", |w| {
            w.put(advice("Paint her", "Paint.", Urgency::ForLongLife, vec![]));
        }),
        ("sound-member-not-renewed", |w| {
            let answers = vec![w.id("garboard sound")];
            w.put(advice("Garboards", "Renew both garboards.", Urgency::AtTheNextHaulOut, answers));
        }),
        ("adverse-reading-answered", |w| {
            let soft = Reading::Probe { knife: Some(Knife::Soft), depth_mm: Some(8.0), moves_under_pry: None };
            w.put(seen("shelf", soft, ""));
        }),
        ("adverse-reading-answered", |w| {
            w.put(seen("stem", Reading::Bore { depth_mm: 40.0, finds: BoreFinds::SoftOrVoid }, ""));
        }),
        ("carried-recommendation-followed-up", |w| {
            let mut carried = advice("Draw ten rivets", "Draw ten.", Urgency::AtTheNextHaulOut, vec![]);
            carried.carried_from = Some(CarriedFrom {
                survey: survey::SurveyId::from_bits(6),
                recommendation: EntryId::from_bits(5),
                findings: vec![],
            });
            w.put(carried);
        }),
        ("sample-size-stated", |w| {
            w.change("bolt wasted", |p| p["text"] = "A bolt was drawn; it has lost 6 mm.".into());
        }),
        ("figures-have-units", |w| w.change("garboard rings", |p| p["note"] = "Seam gap 3.".into())),
        ("figures-have-units", |w| w.change("line", |p| p["unit"] = "".into())),
        ("moisture-says-how", |w| {
            w.change("shelf moisture", |p| p["reading"]["species_setting"] = serde_json::Value::Null);
        }),
        ("hearsay-not-used-as-fact", |w| {
            let said = Reading::Ask { who: "the owner".into(), said: "all nine bolts are new".into() };
            let told = w.put(seen("keel-bolt", said, ""));
            w.put(found("keel-bolt", "Bolts new", Condition::Sound, vec![told]));
        }),
        ("hearsay-marked", |w| {
            w.change("garboard rings", |p| p["note"] = "Owner says these were renewed.".into());
        }),
        ("hearsay-marked", |w| w.change("vessel", |p| p["history"] = serde_json::json!(["Refastened in 1990"]))),
        ("no-absolute-promise", |w| {
            w.change("garboard sound", |p| p["text"] = "The garboards are free of rot.".into());
        }),
        ("serious-finding-has-picture", |w| w.take_away("picture")),
        ("picture-says-what-it-shows", |w| w.change("picture", |p| p["caption"] = "".into())),
        ("trade-words-explained", |w| {
            w.change("garboard sound", |p| p["text"] = "As the readings show, and the QZX too.".into());
        }),
        ("disputed-records-settled", |w| {
            let amends = w.id("garboard rings");
            let two = |note: &str| Amendment {
                amends,
                settles: vec![],
                why: "heard again".into(),
                payload: serde_json::to_value(seen("garboard", rings(), note)).ok(),
            };
            let mut other = pen("phone");
            let (one, rival) = (two("once"), two("twice"));
            w.put(one);
            let entry = w.desk.write(&mut other, rival);
            w.state.take(entry);
        }),
        ("record-readable", |w| {
            let orphan = EntryId::from_bits(999_999);
            w.put(withdraw(orphan));
        }),
        ("issued-version-current", |w| {
            let (field_book, heads) = (w.state.digest(), w.state.heads());
            w.put(ReportIssued {
                version: 1,
                date: jiff::civil::date(2026, 6, 4),
                field_book,
                sha256: Digest::of(b"the file"),
                addressees: vec!["A. Buyer".into()],
                changes: String::new(),
                issue: Some(Issue { heads, ..Issue::default() }),
            });
            w.change("garboard sound", |p| p["text"] = "They ring, but for one place.".into());
        }),
    ]
}

#[test]
fn a_whole_survey_trips_nothing() {
    let shortfalls = whole().shortfalls();
    assert!(shortfalls.is_empty(), "{:#?}", shortfalls.iter().map(|s| &s.words).collect::<Vec<_>>());
}

#[test]
fn each_rule_is_tripped_by_what_it_forbids() {
    for (name, trip) in trips() {
        let mut survey = whole();
        trip(&mut survey);
        assert!(survey.tripped().contains(name), "{name} is not tripped, but {:?} are", survey.tripped());
    }
}

/// Missing files are told to the checks from outside, so this rule has its own test.
#[test]
fn a_missing_photograph_stops_the_issue_and_one_at_hand_does_not() {
    let survey = whole();
    let given = Given { missing: BTreeSet::from([Digest::of(b"a picture")]) };
    let shortfalls = before_issue(&survey.state, &given);
    assert_eq!(shortfalls.iter().map(|s| s.rule.name).collect::<Vec<_>>(), ["attachments-at-hand"]);
    assert_eq!(shortfalls[0].spot.entry, Some(survey.id("picture")));
    let other = Given { missing: BTreeSet::from([Digest::of(b"another")]) };
    assert!(before_issue(&survey.state, &other).is_empty());
}

#[test]
fn no_rule_is_without_a_test_and_every_name_is_its_own() {
    let tested: BTreeSet<&str> = trips().iter().map(|(name, _)| *name).chain(["attachments-at-hand"]).collect();
    let all: Vec<&str> = rules().map(|rule| rule.name).collect();
    assert_eq!(tested, all.iter().copied().collect());
    assert_eq!(all.len(), tested.len(), "two rules bear one name");
    for rule in rules() {
        assert!(rule.asks.ends_with('.') && rule.reason.ends_with('.'), "{}", rule.name);
    }
}

#[test]
fn every_shortfall_says_where_it_is_mended() {
    for (name, trip) in trips() {
        let mut survey = whole();
        trip(&mut survey);
        for s in survey.shortfalls() {
            let spot = &s.spot;
            assert!(spot.entry.is_some() || spot.wants.is_some(), "{name}: {} leads nowhere", s.words);
        }
    }
}

#[test]
fn a_blocking_rule_is_overruled_by_a_reason_and_by_nothing_less() {
    let mut survey = whole();
    survey.take_away("see keel");
    let shortfalls = survey.shortfalls();
    let name = "unseen-serious-place-to-be-opened";
    assert_eq!(rule(name).expect("there is such a rule").weight, Weight::Blocks);
    assert_eq!(stops(&shortfalls, &BTreeMap::new()).len(), 1);
    assert_eq!(stops(&shortfalls, &BTreeMap::from([(name.to_owned(), "  ".to_owned())])).len(), 1);
    assert_eq!(stops(&shortfalls, &BTreeMap::from([(name.to_owned(), "agreed with the client".to_owned())])).len(), 0);
    let advising = [("picture-says-what-it-shows", "picture")];
    for (name, taken) in advising {
        let mut survey = whole();
        survey.change(taken, |p| p["caption"] = "".into());
        assert!(survey.tripped().contains(name));
        assert!(stops(&survey.shortfalls(), &BTreeMap::new()).is_empty(), "advice stops nothing");
    }
}

/// Sentences of our own: what a surveyor may write, and what not.
#[test]
fn promises_are_told_from_denials_and_readings() {
    let sentence = |text: &str| {
        let mut survey = whole();
        survey.change("garboard sound", |p| p["text"] = text.into());
        survey.tripped().contains("no-absolute-promise")
    };
    for promise in [
        "She is in perfect condition.",
        "I guarantee the garboards.",
        "The planking is 100% sound.",
        "The planking is 100 % sound.",
        "She will not leak.",
        "Sound throughout.",
        "The stem is rot-free.",
        "She is absolutely safe.",
        "There is no decay in her.",
    ] {
        assert!(sentence(promise), "{promise}");
    }
    for fair in [
        "No guarantee can be given.",
        "That cannot be called free of rot.",
        "At 100 places the hammer rang.",
        "Relative humidity stood at 100 %.",
        "No decay was found where the knife reached.",
        "She leaked when launched.",
    ] {
        assert!(!sentence(fair), "{fair}");
    }
}

#[test]
fn bare_measures_are_told_from_counts_places_and_dates() {
    let sentence = |text: &str| {
        let mut survey = whole();
        survey.change("garboard rings", |p| p["note"] = text.into());
        survey.tripped().contains("figures-have-units")
    };
    for bare in [
        "Seam gap 3.",
        "The meter reads 22 in the shelf.",
        "Depth of the check is 4.5 at frame 9.",
        "Planks measured 19, 20 and 21.",
        "A width of 3/4 was cut.",
    ] {
        assert!(sentence(bare), "{bare}");
    }
    for fair in [
        "Seam gap 3 mm.",
        "The meter reads 22 % in the shelf.",
        "Planks measured 19, 20 and 21 mm.",
        "Six of 40 rivets turned; 2 were gone.",
        "Strakes 9 and 10, frames 14 to 19, port.",
        "Renewed in 1998; seen on 2026-06-03.",
        "Bolts 1, 2 and 4 came out at 17 mm or more.",
        "The pintle is worn 2 mm of 20.",
        "Gap 1/8 in, tape reads 6'-4\".",
        "Measured on 3 June at timber 12.",
    ] {
        assert!(!sentence(fair), "{fair}");
    }
}
