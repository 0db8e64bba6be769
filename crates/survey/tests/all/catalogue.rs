//! The catalogue, and the members of one boat.

use crate::story::{Desk, SURVEY, finding, pen, sounding};
use std::collections::BTreeSet;
use survey::payload::{Construction, MemberHad, NotSeen, Observation, Vessel};
use survey::{Cover, Place, Reading, State, catalogue, coverage, members_of};

#[test]
fn every_member_of_the_catalogue_is_whole() {
    assert!(catalogue().len() > 120, "{} members", catalogue().len());
    let ids: BTreeSet<_> = catalogue().iter().map(|m| &m.id).collect();
    assert_eq!(ids.len(), catalogue().len(), "names are told apart");
    for m in catalogue() {
        assert!(!m.name.is_empty() && !m.group.is_empty() && m.consequence.is_some(), "{}", m.id);
        assert!(!m.source.is_empty(), "{} names its source or says common practice", m.id);
        assert!(!m.commonly_inaccessible || !m.why_inaccessible.is_empty(), "{} says why", m.id);
    }
    for construction in Construction::ALL {
        assert!(catalogue().iter().any(|m| m.constructions.contains(construction)), "{construction}");
    }
}

#[test]
fn a_boat_has_the_members_of_her_kind_her_own_counts_and_what_the_surveyor_added() {
    let (mut desk, mut phone) = (Desk::new(), pen("phone"));
    let mut vessel = Vessel { name: "Invented".into(), construction: Some(Construction::Clinker), ..Vessel::default() };
    vessel.counts.insert("keel-bolt".into(), 9);
    let had = |member: &str, has, name: Option<&str>| MemberHad {
        member: member.into(),
        has,
        name: name.map(str::to_owned),
        group: None,
        each_side: false,
        count: None,
        note: String::new(),
    };
    let entries = [
        desk.write(&mut phone, vessel),
        desk.write(&mut phone, had("centreboard-case", false, None)),
        desk.write(&mut phone, had("fish-well", true, Some("fish well"))),
    ];
    let members = members_of(&State::fold(SURVEY, entries));
    let ids: Vec<_> = members.iter().map(|m| m.id.as_str()).collect();
    assert!(ids.contains(&"land-rivet") && ids.contains(&"fish-well"));
    assert!(!ids.contains(&"centreboard-case"), "struck off");
    assert!(!ids.contains(&"seam"), "carvel only");
    assert_eq!(members.iter().find(|m| m.id == "keel-bolt").unwrap().count, Some(9));
}

#[test]
fn coverage_tells_seen_from_owed_from_hearsay() {
    let (mut desk, mut phone) = (Desk::new(), pen("phone"));
    let seen = desk.write(&mut phone, sounding("rings"));
    let unseen =
        NotSeen { member: "keel".into(), place: Place::default(), why: "on blocks".into(), needs: String::new() };
    let hearsay = Observation {
        member: "mast".into(),
        place: Place::default(),
        reading: Reading::Ask { who: "the owner".into(), said: "new in 1990".into() },
        note: String::new(),
        seen_on: None,
    };
    let basis = vec![seen.id];
    let entries =
        [seen, desk.write(&mut phone, unseen), desk.write(&mut phone, hearsay), desk.write(&mut phone, finding(basis))];
    let covers = coverage(&State::fold(SURVEY, entries));
    let cover = |id: &str| covers.iter().find(|c| c.member.id == id).unwrap().cover;
    assert_eq!(cover("garboard"), Cover::Seen);
    assert_eq!(cover("keel"), Cover::NotSeen);
    assert_eq!(cover("mast"), Cover::HearsayOnly);
    assert_eq!(cover("stem"), Cover::Owed);
}
