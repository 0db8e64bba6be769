//! From a talk-through to proposals, from blows to answers, and the file a recording is kept in.

use app::hearing::proposals::{moment, read};
use app::hearing::verdict::{References, of_place};
use app::hearing::{traces, wave::wave};
use sounding::Listener;
use survey::payload::Payload;
use survey::{Reading, SoundAnswer};
use walk::{Blow, MemberNames};

const SAID: &str = "WEBVTT\n\n00:01.000 --> 00:05.000\nPort side gar board is dull between frames eleven and thirteen.\n\n\
    00:06.000 --> 00:09.000\nKnife goes in five eighths.\n\n00:40.000 --> 00:43.000\nMind the bucket behind you.\n";

#[test]
fn each_proposal_stands_beside_its_words_and_nothing_said_is_lost() {
    let names = MemberNames::catalogue();
    let blows = [Blow { time_s: 4.0, judgement: SoundAnswer::DullOrHollow }];
    let talk = read(SAID, Some(50.0), &names, &blows, &[]).expect("timed text");
    assert!(talk.timed);
    assert_eq!(talk.proposals.len(), 2);
    let first = &talk.proposals[0];
    assert_eq!(first.heard, "Port side gar board is dull between frames eleven and thirteen.");
    assert_eq!((first.mended[0].heard.as_str(), first.mended[0].meant.as_str()), ("gar board", "garboard"));
    assert_eq!(first.draft.blows_s, [4.0]);
    let Some(Payload::Observation(said)) = &first.payload else { panic!("an observation") };
    assert_eq!(said.member, "garboard");
    assert!(matches!(said.reading, Reading::Sound { answer: SoundAnswer::DullOrHollow, .. }));
    assert_eq!(talk.left.len(), 1);
    assert_eq!(talk.left[0].words, "Mind the bucket behind you.");
    // Every word is in a proposal or left over.
    let shown: usize = talk.proposals.iter().map(|p| p.heard.split(' ').count()).sum();
    assert_eq!(shown + 5, 11 + 5 + 5);
}

#[test]
fn a_refused_mending_leaves_the_words_as_heard() {
    let names = MemberNames::catalogue();
    let mended = read(SAID, None, &names, &[], &[]).expect("timed text").proposals[0].mended[0].first;
    let talk = read(SAID, None, &names, &[], &[mended]).expect("timed text");
    assert!(talk.proposals.iter().all(|p| p.mended.is_empty()));
}

#[test]
fn typed_words_are_read_without_times() {
    let typed = "Port garboard is dull at frame nine. Starboard sheer strake rings well.\nNothing to do with the boat";
    let talk = read(typed, None, &MemberNames::catalogue(), &[], &[]).expect("typed words");
    assert!(!talk.timed && talk.cautions.is_empty());
    let members: Vec<_> = talk.proposals.iter().filter_map(|p| p.draft.member.as_deref()).collect();
    assert_eq!(members, ["garboard", "sheer-strake"]);
    assert!(read("  \n", None, &MemberNames::catalogue(), &[], &[]).is_err());
}

#[test]
fn a_proposal_keeps_its_name_when_the_text_is_read_again() {
    let names = MemberNames::catalogue();
    let keys = || -> Vec<String> {
        read(SAID, None, &names, &[], &[]).expect("timed").proposals.iter().map(|p| p.key()).collect()
    };
    assert_eq!(keys(), keys());
    assert_ne!(keys()[0], keys()[1]);
}

#[test]
fn moments_are_said_in_minutes_and_seconds() {
    // Common practice, no source.
    assert_eq!(
        [moment(0.0), moment(9.99), moment(75.2), moment(-1.0), moment(3600.0)],
        ["0:00", "0:09", "1:15", "0:00", "60:00"]
    );
}

#[test]
fn a_recording_kept_here_is_read_by_a_decoder_we_did_not_write() {
    // Outside check: the decoder is Symphonia's, a general-purpose library.
    let sent: Vec<f32> = (0..48_000).map(|n| (n as f32 * 0.05).sin() * 0.5).collect();
    let mut got: Vec<f32> = Vec::new();
    let told = recording::read_bytes(wave(&sent, 48_000), recording::Channel::Mix, &mut |part| got.extend(part))
        .expect("a WAV file");
    assert!(told.cautions.is_empty(), "{:?}", told.cautions);
    assert_eq!(got.len(), sent.len());
    assert!(got.iter().zip(&sent).all(|(a, b)| (a - b).abs() <= 1.0 / 32768.0));
    let odd = wave(&[f32::NAN, 9.0, -9.0], 48_000);
    assert_eq!(odd[44..], [0, 0, 0xff, 0x7f, 0x00, 0x80]);
}

/// An invented walk: the truth of each blow is known. Of a model, not of boats.
fn heard(seed: u64) -> (rehearsal::Walk, Vec<sounding::Blow>) {
    let walk =
        rehearsal::Walk::new(&rehearsal::Setting { seed, seconds: 120.0, rate_hz: 48_000.0, ..Default::default() });
    let mut listener = Listener::new();
    let mut blows = listener.push(&walk.samples);
    blows.extend(listener.finish());
    (walk, blows)
}

#[test]
fn places_judged_against_the_boats_own_blows_come_out_better_than_chance() {
    let (mut right, mut wrong) = (0, 0);
    for seed in [941, 942, 943] {
        let (walk, blows) = heard(seed);
        let truth = |b: &sounding::Blow| walk.blows.iter().find(|t| (t.time_s - b.time_s).abs() < 0.05);
        let kind = |t: &rehearsal::TrueBlow| format!("member-{}", t.member);
        let references = References(
            blows.iter().filter_map(|b| truth(b).filter(|t| t.reference).map(|t| (kind(t), b.clone()))).collect(),
        );
        let judge = references.judge();
        for blow in &blows {
            let Some(t) = truth(blow).filter(|t| !t.reference) else { continue };
            let rings = t.mechanism == rehearsal::Mechanism::Solid;
            match of_place(&judge, &kind(t), std::slice::from_ref(blow)) {
                SoundAnswer::Rings if rings => right += 1,
                SoundAnswer::DullOrHollow if !rings => right += 1,
                SoundAnswer::CannotBeTold => {}
                _ => wrong += 1,
            }
        }
    }
    assert!(right + wrong > 40, "{right} right, {wrong} wrong");
    assert!(right > 3 * wrong, "{right} right, {wrong} wrong");
}

#[test]
fn without_references_nothing_is_judged_and_it_is_said_why() {
    let (_, blows) = heard(944);
    let none = References::default();
    assert_eq!(of_place(&none.judge(), "garboard", &blows), SoundAnswer::CannotBeTold);
    assert!(none.enough_for("garboard").contains("too few to judge by"));
}

#[test]
fn what_is_drawn_of_a_decaying_tone_is_what_it_is() {
    // Closed form: A e^(-t/τ) falls by 8.686 dB every τ.
    let tau_s = 0.02;
    let mut samples = vec![0.0_f32; 48_000];
    for n in 0..9600 {
        let t = f64::from(n) / 48_000.0;
        samples[24_000 + n as usize] = (0.5 * (-t / tau_s).exp() * (std::f64::consts::TAU * 1000.0 * t).sin()) as f32;
    }
    let drawn = traces::traces(&traces::cut(&samples, 0.5));
    let (first, later) = (drawn.decay[0], drawn.decay[10]);
    let fall = 8.686 * (later.0 - first.0) / 1000.0 / tau_s;
    assert!((first.1 - later.1 - fall).abs() < 0.3, "{first:?} {later:?}");
    let strongest = drawn.tones.iter().max_by(|a, b| a.1.total_cmp(&b.1)).expect("tones");
    assert!((900.0..1120.0).contains(&strongest.0), "{strongest:?}");
    let beside = traces::beside(drawn.clone(), &[drawn.clone(), drawn.clone()]);
    assert_eq!(beside.reference_tones, drawn.tones);
}

#[test]
fn the_demo_has_a_talk_through_and_reference_blows_to_try_it_with() {
    use app::hearing::{proposals, verdict};
    let marram = demo::marram().expect("the demo is in order");
    let state = survey::State::fold(marram.survey, marram.entries.clone());
    let file = |caption: &str| {
        let named = state.attachments().find(|a| a.payload.caption.starts_with(caption)).expect("it is kept");
        marram.attachments.iter().find(|kept| kept.digest == named.payload.sha256).expect("its file")
    };
    let hear = |bytes: &[u8]| {
        let (mut listener, mut blows) = (Listener::new(), Vec::new());
        recording::read_bytes(bytes.to_vec(), recording::Channel::Mix, &mut |part| blows.extend(listener.push(part)))
            .expect("a recording");
        blows.extend(listener.finish());
        blows
    };
    let struck = hear(file(verdict::REFERENCE).bytes);
    let references = References(struck.into_iter().map(|blow| ("clinker-strake".to_owned(), blow)).collect());
    let judge = references.judge();
    assert!(judge.references() >= sounding::judge::NEEDED_OF_BOAT, "{}", judge.references());
    let blows: Vec<Blow> = hear(file(proposals::SOUND).bytes)
        .iter()
        .map(|blow| Blow { time_s: blow.time_s, judgement: verdict::answer(&judge.judge("", blow)) })
        .collect();
    let text = walk::text::decoded(file(proposals::WORDS).bytes);
    let talk = read(&text, None, &MemberNames::of(&state), &blows, &[]).expect("timed text");
    let struck: Vec<_> = talk
        .proposals
        .iter()
        .filter(|one| !one.draft.blows_s.is_empty())
        .filter_map(|one| match one.payload.as_ref()? {
            Payload::Observation(seen) => Some((seen.member.as_str(), seen.place.strake, seen.reading.clone())),
            _ => None,
        })
        .collect();
    let sounded = |answer| Reading::Sound { answer, blows: Some(3) };
    assert_eq!(
        struck,
        [
            ("clinker-strake", Some(5), sounded(SoundAnswer::Rings)),
            ("clinker-strake", Some(9), sounded(SoundAnswer::DullOrHollow))
        ]
    );
    // What was heard in the blows agrees with what was said of them.
    assert!(talk.proposals.iter().flat_map(|one| &one.draft.doubts).all(|doubt| !doubt.contains("judged")));
    assert!(talk.proposals.iter().filter(|p| p.payload.is_some()).count() >= 4);
    assert!(talk.left.iter().any(|left| left.words.contains("bucket")));
    assert!(blows.len() >= 5, "{blows:?}");
}
