//! Butts and scarphs against the published rules: each offender named.

use hull::{Frame, Joint, JointKind, RuleChoice, Side, check_joints, rules};

fn frames() -> Vec<Frame> {
    Frame::evenly(30, 0.6, 0.6 + 29.0 * 0.25)
}

fn butt(name: &str, side: Side, strake: usize, frame: f64) -> Joint {
    Joint { name: name.to_owned(), side, strake, from_stem_m: 0.6 + (frame - 1.0) * 0.25, kind: JointKind::Butt }
}

fn found(joints: &[Joint], choice: &RuleChoice) -> Vec<(String, &'static str)> {
    check_joints(joints, &frames(), choice).unwrap().into_iter().map(|o| (o.joints.join(" ") + "", o.rule)).collect()
}

/// TB 55-1900-201-45/1, 2-13a: neighbouring strakes 3 frame spaces apart, 3 solid strakes between butts in one bay.
#[test]
fn every_offender_is_named_and_nobody_else() {
    let joints = [
        butt("A", Side::Port, 3, 10.5),
        butt("B", Side::Port, 4, 12.5),      // two spaces from A, next strake: too near
        butt("C", Side::Port, 2, 13.6),      // more than three spaces from A: well
        butt("D", Side::Port, 6, 10.4),      // same bay as A, two strakes between: too near
        butt("E", Side::Port, 7, 10.6),      // same bay as A, three between: well; next strake to D: too near
        butt("F", Side::Port, 9, 20.0),      // on a frame
        butt("G", Side::Starboard, 4, 10.5), // the other side: nothing to do with A
    ];
    let mut got = found(&joints, &RuleChoice::default());
    got.sort();
    let wanted = [
        ("A B", "butt-adjacent-frames"),
        ("A D", "butt-same-bay-strakes"),
        ("D E", "butt-adjacent-frames"),
        ("F", "butt-not-on-frame"),
    ];
    assert_eq!(got, wanted.map(|(n, r)| (n.to_owned(), r)).to_vec());
    let offences = check_joints(&joints, &frames(), &RuleChoice::default()).unwrap();
    assert!(offences.iter().all(|o| o.source.contains("TB55")), "{offences:?}");
    assert!(offences.iter().any(|o| o.words.contains("2.0 frame spaces (0.50 m)")), "{offences:?}");
}

#[test]
fn exactly_three_frame_spaces_is_enough() {
    let joints = [butt("A", Side::Port, 3, 10.5), butt("B", Side::Port, 4, 13.5)];
    assert_eq!(found(&joints, &RuleChoice::default()), []);
}

/// 2-13b where spacing is unusual: 5 ft; Lake Underwriters 1866: 4 ft with one strake between; Lloyd's 1891: garboard
/// butts of both sides 4 ft 6 in; Lloyd's yacht rules, second-hand: scarph slope 4 and 1.2 m.
#[test]
fn other_rules_by_choice() {
    let choice = RuleChoice {
        usual_spacing: false,
        ships_1866: true,
        composite_1891: true,
        scarphs_second_hand: true,
        clinker_three: false,
        frame_siding_mm: 30.0,
    };
    let scarph = |name: &str, strake, frame, slope| Joint {
        kind: JointKind::Scarph { slope: Some(slope) },
        ..butt(name, Side::Port, strake, frame)
    };
    let joints = [
        butt("A", Side::Port, 1, 10.5),
        butt("B", Side::Starboard, 1, 13.5),
        butt("C", Side::Port, 3, 14.5),
        butt("D", Side::Port, 4, 19.5),
        scarph("S", 8, 20.5, 3.0),
        scarph("T", 9, 22.5, 8.0),
    ];
    let mut got = found(&joints, &choice);
    got.sort();
    let wanted = [
        ("A B", "garboard-butt-opposite"),
        ("A C", "butt-one-strake-between-length"),
        ("C D", "butt-adjacent-length"),
        ("S", "scarph-plank-lr"),
        ("S T", "scarph-plank-adjacent-lr"),
    ];
    assert_eq!(got, wanted.map(|(n, r)| (n.to_owned(), r)).to_vec());
}

#[test]
fn every_rule_has_a_source_and_a_status() {
    let rules = rules();
    assert_eq!(rules.len(), 44);
    assert!(rules.iter().all(|r| !r.source.is_empty() && !r.status.is_empty() && !r.words.is_empty()));
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(48))]

    /// The two sides are alike, and the order of the joints does not matter.
    #[test]
    fn mirrored_joints_offend_alike(list in proptest::collection::vec((1usize..12, 1.1..29.9f64), 0..14)) {
        let on = |side| list.iter().enumerate().map(|(i, (s, f))| butt(&format!("{i:02}"), side, *s, *f)).collect::<Vec<_>>();
        let sorted = |mut v: Vec<(String, &'static str)>| {
            for o in &mut v {
                let mut names: Vec<&str> = o.0.split(' ').collect();
                names.sort_unstable();
                o.0 = names.join(" ");
            }
            v.sort();
            v
        };
        let port = sorted(found(&on(Side::Port), &RuleChoice::default()));
        proptest::prop_assert_eq!(&port, &sorted(found(&on(Side::Starboard), &RuleChoice::default())));
        let mut turned = on(Side::Port);
        turned.reverse();
        proptest::prop_assert_eq!(&port, &sorted(found(&turned, &RuleChoice::default())));
    }
}
