//! Drafts, and that each could be entered as it stands. The talk is invented.

use crate::passages::{run, text};
use proptest::prelude::*;
use survey::payload::Payload;
use survey::{BoreFinds, DrawnCondition, Knife, Reading, Side, SoundAnswer, State, SurveyId};
use walk::text::TimedText;
use walk::{Blow, Draft, Drafted, MemberNames, Walk, walk};

fn readings(line: &str) -> Vec<Reading> {
    let walk = run(&[(0.0, line)]);
    enterable(&walk);
    let reading = |draft: &Draft| match &draft.drafted {
        Drafted::Reading(reading) => Some(reading.clone()),
        _ => None,
    };
    walk.drafts.iter().filter_map(reading).collect()
}

/// Every payload must pass the check that entering makes, and an empty survey must take it.
#[expect(clippy::unwrap_used, reason = "a test support function")]
fn enterable(walk: &Walk) {
    for draft in &walk.drafts {
        let Some(payload) = draft.payload() else { continue };
        let json = serde_json::from_str(&payload.to_json()).unwrap();
        let strict = Payload::read_strict(payload.kind(), &json);
        assert_eq!(strict.as_ref(), Ok(&payload), "{draft:?}");
        assert_eq!(State::new(SurveyId::from_bits(1)).admits(&payload), Ok(()), "{draft:?}");
    }
}

fn sound(answer: SoundAnswer) -> Reading {
    Reading::Sound { answer, blows: None }
}

fn probe(knife: Option<Knife>, depth_mm: Option<f64>, moves_under_pry: Option<bool>) -> Reading {
    Reading::Probe { knife, depth_mm, moves_under_pry }
}

/// Meanings after US Army TB 55-1900-201-45/1, 2-7a (dead or dull, drum-like) and 2-8b (chatter); the wording is ours.
#[test]
fn answers_to_the_hammer() {
    for (line, answer) in [
        ("The garboard is dull.", SoundAnswer::DullOrHollow),
        ("The garboard sounds hollow by frame six.", SoundAnswer::DullOrHollow),
        ("Garboard drummy here.", SoundAnswer::DullOrHollow),
        ("Garboard rings clear.", SoundAnswer::Rings),
        ("The garboard sounds good.", SoundAnswer::Rings),
        ("The garboard does not ring.", SoundAnswer::DullOrHollow),
        ("The garboard chatters under the hammer.", SoundAnswer::Chatters),
    ] {
        assert_eq!(readings(line), [sound(answer)], "{line}");
    }
    assert!(readings("The garboard paint is dull.").iter().all(|r| !matches!(r, Reading::Sound { .. })));
}

#[test]
fn knife_lever_and_depth() {
    for (line, wanted) in [
        ("The transom is firm under the knife.", probe(Some(Knife::Firm), None, None)),
        ("Knife goes in the transom twelve mil, soft.", probe(None, Some(12.0), None)),
        ("Transom soft under the spike.", probe(Some(Knife::Soft), None, None)),
        ("Transom not soft under the spike.", probe(Some(Knife::Firm), None, None)),
        ("On the transom a sliver breaks short.", probe(Some(Knife::SliverBreaksShort), None, None)),
        ("The transom moves under the lever.", probe(None, None, Some(true))),
        ("The transom does not move when pushed.", probe(None, None, Some(false))),
    ] {
        assert_eq!(readings(line).first(), Some(&wanted), "{line}");
    }
}

#[test]
fn meter_gauge_bore_and_draw() {
    let moisture = |reading_percent| Reading::Moisture {
        reading_percent,
        depth_mm: None,
        temp_c: None,
        species_setting: None,
        instrument: None,
    };
    assert_eq!(readings("On the apron the meter shows twenty two percent."), [moisture(22.0)]);
    assert_eq!(readings("Apron moisture 18.5 per cent."), [moisture(18.5)]);
    assert!(readings("The apron bolt is fifty percent wasted.").iter().all(|r| !matches!(r, Reading::Moisture { .. })));
    let measured = readings("The garboard is an inch and a quarter thick.");
    assert!(
        matches!(&measured[..], [Reading::Measure { quantity, value, unit, .. }] if quantity == "thickness" && (*value - 31.75).abs() < 1e-9 && unit == "mm"),
        "{measured:?}"
    );
    assert_eq!(
        readings("I bored the keel two inches and it is solid."),
        [Reading::Bore { depth_mm: 50.8, finds: BoreFinds::Solid }]
    );
    let drawn = readings("On the garboard I drew a screw and it is badly wasted.");
    assert!(
        matches!(&drawn[..], [Reading::Draw { fastening, condition: DrawnCondition::Wasted, .. }] if fastening == "screw"),
        "{drawn:?}"
    );
}

#[test]
fn what_is_seen_and_the_signs_a_weighing_knows() {
    let seen = run(&[(0.0, "Rusty weeps at the garboard fastenings.")]);
    enterable(&seen);
    let signs: Vec<&Drafted> = seen.drafts.iter().map(|draft| &draft.drafted).collect();
    assert!(
        matches!(&signs[..], [Drafted::Reading(Reading::Sight { signs })] if signs == &["rust_weep_and_dark_halo_at_fastenings"]),
        "{signs:?}"
    );
    assert!(matches!(readings("The garboard is split.")[..], [Reading::Sight { .. }]));
}

#[test]
fn hearsay_is_asked_and_nothing_else_is_read_out_of_it() {
    let walk = run(&[(0.0, "The owner says the garboard was soft and was renewed in 1998.")]);
    enterable(&walk);
    assert_eq!(walk.drafts.len(), 1, "{:?}", walk.drafts);
    let Drafted::Reading(Reading::Ask { who, said }) = &walk.drafts[0].drafted else { panic!("{:?}", walk.drafts) };
    assert_eq!((who.as_str(), said.as_str()), ("The owner", "the garboard was soft and was renewed in 1998"));
}

#[test]
fn what_cannot_be_reached_is_drafted_as_not_seen_with_its_barrier() {
    let walk = run(&[
        (0.0, "The keelson cannot be seen under the engine."),
        (3.2, "I can't get at the stemson for the chain."),
    ]);
    enterable(&walk);
    let not_seen: Vec<(Option<&str>, &str)> = walk
        .drafts
        .iter()
        .filter_map(|draft| match &draft.drafted {
            Drafted::NotSeen { why } => Some((draft.member.as_deref(), why.as_str())),
            _ => None,
        })
        .collect();
    assert_eq!(not_seen, [(Some("keelson"), "under the engine"), (Some("stemson"), "for the chain")]);
    let unnamed = run(&[(0.0, "The keelson cannot be seen.")]);
    assert!(unnamed.drafts[0].doubts.iter().any(|doubt| doubt.contains("barrier")), "{:?}", unnamed.drafts);
}

#[test]
fn a_guess_is_a_question_and_never_a_finding() {
    let walk = run(&[(0.0, "I think the garboard is rotten behind there.")]);
    let [Draft { drafted: Drafted::Question(question), .. }] = &walk.drafts[..] else { panic!("{:?}", walk.drafts) };
    assert!(question.ends_with('?') && question.contains("rotten"), "{question}");
    assert!(walk.drafts[0].payload().is_none());
}

#[test]
fn places_sides_and_doubts_travel_with_the_draft() {
    let walk = run(&[
        (0.0, "Port side garboard between frames eleven and thirteen is dull."),
        (3.2, "The sheer strake rings."),
    ]);
    enterable(&walk);
    let first = &walk.drafts[0];
    assert_eq!(
        (first.place.side, first.place.frame_from, first.place.frame_to),
        (Some(Side::Port), Some(11), Some(13))
    );
    let second = &walk.drafts[1];
    assert_eq!(
        (second.member.as_deref(), second.place.side, second.place.frame_from),
        (Some("sheer-strake"), Some(Side::Port), None)
    );
    assert!(second.doubts.iter().any(|doubt| doubt.contains("the side is not said")), "{second:?}");
}

#[test]
fn blows_go_to_the_passage_they_fall_into_and_the_surveyors_word_stands() {
    let blow = |time_s, judgement| Blow { time_s, judgement };
    let cues =
        [(0.0, "Port garboard."), (8.0, "Rings."), (20.0, "Now the transom."), (60.0, "And the apron is split.")];
    let blows = [
        blow(4.0, SoundAnswer::DullOrHollow),
        blow(5.0, SoundAnswer::DullOrHollow),
        blow(25.0, SoundAnswer::Rings),
        blow(45.0, SoundAnswer::Rings),
        blow(58.0, SoundAnswer::DullOrHollow),
        blow(f64::NAN, SoundAnswer::Rings),
    ];
    let walk = walk(&text(&cues), &MemberNames::catalogue(), &blows, &[]);
    enterable(&walk);
    let of = |member: &str| {
        walk.drafts.iter().filter(move |draft| draft.member.as_deref() == Some(member)).collect::<Vec<_>>()
    };
    let transom = of("transom");
    assert_eq!(transom[0].drafted, Drafted::Reading(Reading::Sound { answer: SoundAnswer::Rings, blows: Some(1) }));
    assert!(transom[0].doubts.iter().any(|doubt| doubt.contains("recording alone")), "{transom:?}");
    let garboard = of("garboard");
    let told: Vec<&&Draft> =
        garboard.iter().filter(|d| d.doubts.iter().any(|doubt| doubt.contains("the surveyor says"))).collect();
    let alone: Vec<&&Draft> =
        garboard.iter().filter(|d| d.doubts.iter().any(|doubt| doubt.contains("recording alone"))).collect();
    assert_eq!(told.len() + alone.len(), 1, "{garboard:?}");
    assert!(of("apron").iter().any(|draft| draft.blows_s == [58.0]), "tap, then name: {:?}", of("apron"));
    assert_eq!(walk.unplaced.blows_s, [45.0]);
}

#[test]
fn a_refused_mending_leaves_the_words_as_heard() {
    let text = text(&[(0.0, "Port side gar board is soft by frame nine.")]);
    let names = MemberNames::catalogue();
    let mended = walk(&text, &names, &[], &[]);
    assert_eq!(mended.drafts[0].member.as_deref(), Some("garboard"));
    assert!(mended.drafts[0].doubts.iter().any(|doubt| doubt.contains("mended")));
    let refused = walk(&text, &names, &[], &[mended.corrections[0].first]);
    assert!(refused.corrections.is_empty());
    assert_eq!(refused.drafts[0].member, None);
}

fn cues() -> impl Strategy<Value = Vec<(u32, u32, String)>> {
    let words = prop::sample::select(vec![
        "port",
        "starboard",
        "garboard",
        "guard",
        "bored",
        "transom",
        "plank",
        "frame",
        "eleven",
        "thirteen",
        "and",
        "to",
        "is",
        "dull.",
        "rings,",
        "not",
        "soft",
        "knife",
        "goes",
        "in",
        "five",
        "eighths",
        "the",
        "owner",
        "says",
        "can't",
        "see",
        "it",
        "moves",
        "meter",
        "18%",
        "percent",
        "split",
        "drew",
        "a",
        "screw",
        "wasted",
        "bored",
        "two",
        "inches",
        "solid",
        "zero",
        "from",
        "aft",
        "stem",
        "lifted",
        "I",
        "think",
        "rotten",
        "number",
        "0",
        "bolt",
        "thick",
        "inch",
        "half",
        "of",
        "an",
    ]);
    let line = prop::collection::vec(words, 1..10).prop_map(|words| words.join(" "));
    prop::collection::vec((0u32..90_000, 100u32..9000, line), 1..7)
}

fn written(cues: &[(u32, u32, String)]) -> String {
    let stamp = |ms: u32| format!("{:02}:{:02}.{:03}", ms / 60_000, ms / 1000 % 60, ms % 1000);
    let cue = |(start, length, line): &(u32, u32, String)| {
        format!("{} --> {}\n{line}\n\n", stamp(*start), stamp(start + length))
    };
    format!("WEBVTT\n\n{}", cues.iter().map(cue).collect::<String>())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn every_draft_can_be_entered_lies_within_the_recording_and_the_order_of_cues_is_nothing(
        cues in cues(), recording_s in 1.0..60.0f64, times in prop::collection::vec(0.0..60.0f64, 0..6),
    ) {
        let names = MemberNames::catalogue();
        let blows: Vec<Blow> = times
            .iter()
            .enumerate()
            .map(|(n, time_s)| Blow { time_s: time_s.min(recording_s), judgement: SoundAnswer::ALL[n % 4] })
            .collect();
        let one = TimedText::read_text(&written(&cues), Some(recording_s)).unwrap();
        let first = walk(&one, &names, &blows, &[]);
        enterable(&first);
        for draft in &first.drafts {
            prop_assert!(0.0 <= draft.start_s && draft.start_s <= draft.end_s && draft.end_s <= recording_s, "{draft:?}");
            prop_assert!(draft.heard.end <= one.words().count());
        }
        let placed: usize = first.drafts.iter().map(|draft| draft.blows_s.len()).sum();
        prop_assert_eq!(placed + first.unplaced.blows_s.len(), blows.len(), "every blow is somewhere, once");
        let mut turned = cues.clone();
        turned.reverse();
        let other = TimedText::read_text(&written(&turned), Some(recording_s)).unwrap();
        prop_assert_eq!(&first.drafts, &walk(&other, &names, &blows, &[]).drafts);
    }
}
