//! Cutting by member. What the cues say is invented; the members are the catalogue's.

use survey::catalogue;
use walk::text::TimedText;
use walk::{MemberNames, Walk, walk};

/// Writes cues of three seconds each at given times.
pub fn text(cues: &[(f64, &str)]) -> TimedText {
    let words: Vec<serde_json::Value> = cues
        .iter()
        .flat_map(|(start, line)| {
            let words: Vec<&str> = line.split_whitespace().collect();
            let step = 3.0 / words.len() as f64;
            words
                .into_iter()
                .enumerate()
                .map(move |(n, word)| {
                    let start_s = start + step * n as f64;
                    serde_json::json!({"start_s": start_s, "end_s": start_s + step * 0.9, "word": word})
                })
                .collect::<Vec<_>>()
        })
        .collect();
    TimedText::read_text(&serde_json::Value::Array(words).to_string(), None).unwrap_or_else(|fault| panic!("{fault}"))
}

pub fn run(cues: &[(f64, &str)]) -> Walk {
    walk(&text(cues), &MemberNames::catalogue(), &[], &[])
}

fn members(walk: &Walk) -> Vec<Option<&str>> {
    walk.passages.iter().map(|passage| passage.member.as_deref()).collect()
}

#[test]
fn a_member_that_is_named_starts_a_passage() {
    let walk = run(&[
        (0.0, "Port garboard."),
        (3.2, "Rings all along."),
        (6.4, "Now the transom."),
        (9.6, "Soft at the corner."),
        (12.8, "The breasthook is split."),
    ]);
    assert_eq!(members(&walk), [Some("garboard"), Some("transom"), Some("breasthook")]);
    let spans: Vec<(f64, f64)> = walk.passages.iter().map(|p| (p.start_s, p.end_s)).collect();
    assert!(spans.windows(2).all(|pair| pair[0].1 <= pair[1].0 + 1e-9), "{spans:?}");
    assert!(walk.passages.iter().all(|p| !p.inherited && p.doubts.is_empty()), "{:?}", walk.passages);
}

#[test]
fn every_member_of_the_catalogue_is_known_by_its_name() {
    let names = MemberNames::catalogue();
    let mut missed = Vec::new();
    for member in catalogue() {
        let walk = walk(&text(&[(0.0, &format!("{}.", member.name.replace(',', "")))]), &names, &[], &[]);
        if walk.passages.first().and_then(|p| p.member.clone()).as_deref() != Some(member.id.as_str()) {
            missed.push(member.id.as_str());
        }
    }
    assert!(missed.is_empty(), "{missed:?}");
}

#[test]
fn a_member_that_only_places_another_starts_nothing() {
    let walk = run(&[(0.0, "The garboard is soft at the stem."), (3.2, "And weeping by the sternpost.")]);
    assert_eq!(members(&walk), [Some("garboard")]);
    let placed = run(&[(0.0, "Port sheer strake between frames four and six is split.")]);
    assert_eq!(members(&placed), [Some("sheer-strake")]);
}

#[test]
fn one_word_for_several_members_carries_a_doubt() {
    let walk = run(&[(0.0, "Fourth plank up on the port side is dull.")]);
    assert_eq!(members(&walk), [Some("bottom-plank")]);
    assert!(walk.passages[0].doubts[0].contains("without telling"), "{:?}", walk.passages);
}

#[test]
fn talk_that_names_nothing_inherits_with_a_doubt_or_is_about_nothing_known() {
    let walk = run(&[(0.0, "Port garboard rings."), (10.0, "Dull here."), (60.0, "Soft here.")]);
    assert_eq!(members(&walk), [Some("garboard"), Some("garboard"), None]);
    assert!(walk.passages[1].inherited && walk.passages[1].doubts[0].contains("taken from what went before"));
    assert!(walk.passages[2].doubts[0].contains("no member"));
    assert!(walk.drafts.iter().filter(|d| d.start_s > 59.0).all(|d| d.payload().is_none() && d.member.is_none()));
}

#[test]
fn the_same_member_named_at_another_place_starts_a_passage_of_its_own() {
    let walk = run(&[
        (0.0, "Garboard, starboard side, at frame twelve."),
        (3.2, "Rings well."),
        (6.4, "Garboard, port side, at frame fourteen."),
        (9.6, "Dull here."),
        (12.8, "The garboard is soft at frame fourteen."),
    ]);
    assert_eq!(members(&walk), [Some("garboard"), Some("garboard")]);
    let placed: Vec<_> = walk.drafts.iter().map(|d| (d.place.side, d.place.frame_from)).collect();
    use survey::Side::{Port, Starboard};
    assert_eq!(placed, [(Some(Starboard), Some(12)), (Some(Port), Some(14)), (Some(Port), Some(14))]);
    let of_place = |doubt: &String| doubt.contains("both said");
    assert!(!walk.drafts.iter().any(|d| d.doubts.iter().any(of_place)), "{:?}", walk.drafts);
}
