//! The language of a survey, and what members are called in it.

use crate::story::{Desk, SURVEY, pen};
use std::collections::BTreeSet;
use survey::payload::{Brief, Construction, Payload};
use survey::{Language, State, catalogue, coverage, language_of, members_of};

fn in_language(language: Option<Language>) -> State {
    let (mut desk, mut phone) = (Desk::new(), pen("phone"));
    let brief = Brief { purpose: "pre-purchase".into(), language, ..Brief::default() };
    State::fold(SURVEY, [desk.write(&mut phone, brief)])
}

#[test]
fn american_terms_are_those_of_the_catalogues_column_or_its_words_in_american_spelling() {
    // reference: members.csv, column uk_us_variants (common practice). Spelling: centre/center and mould/mold as Merriam-Webster
    // has them, scarph/scarf as the catalogue itself does (from memory).
    // Lapstrake for clinker work: from memory.
    let spelt = |name: &str| name.replace("centre", "center").replace("mould", "mold").replace("scarph", "scarf");
    let mut differing = 0;
    for member in catalogue() {
        let american = member.called(Language::American);
        assert_eq!(member.called(Language::British), member.name);
        if american == member.name {
            continue;
        }
        differing += 1;
        let by_column = member.other_names.split(';').any(|part| {
            let part = part.trim();
            // `US rub rail, guard`, in the singular or the plural.
            part.strip_prefix("US ").is_some_and(|said| {
                said.split(',')
                    .any(|one| american.contains(one.trim()) || american.contains(one.trim().trim_end_matches('s')))
            })
        });
        let of_clinker = american.contains("lapstrake");
        assert!(by_column || american == spelt(&member.name) || of_clinker, "{}: {american}", member.id);
    }
    assert!(differing >= 18, "{differing} differ");
    // No two members are called the same.
    let names: BTreeSet<_> = catalogue().iter().map(|m| m.called(Language::American)).collect();
    assert_eq!(names.len(), catalogue().len());
}

#[test]
fn every_list_of_members_speaks_the_surveys_language() {
    let name = |state: &State, id: &str| {
        let by_list = members_of(state).into_iter().find(|m| m.id == id).map(|m| m.name);
        let by_cover = coverage(state).into_iter().find(|c| c.member.id == id).map(|c| c.member.name);
        assert_eq!(by_list, by_cover);
        by_list.unwrap_or_default()
    };
    for (language, wanted) in
        [(None, "capping rail"), (Some(Language::British), "capping rail"), (Some(Language::American), "cap rail")]
    {
        let state = in_language(language);
        assert_eq!(name(&state, "capping-rail"), wanted);
        assert_eq!(language_of(&state), language.unwrap_or_default());
    }
    assert_eq!(Construction::Clinker.called(Language::American), "lapstrake");
    assert_eq!(Construction::Carvel.called(Language::American), "carvel");
}

#[test]
fn languages_go_by_their_tags() {
    // RFC 5646, section 2.1: language subtag in small letters, region subtag of two letters after it.
    for language in Language::ALL {
        let (subtag, region) = language.tag().split_once('-').unwrap();
        assert!(subtag.chars().all(|c| c.is_ascii_lowercase()) && region.len() == 2);
        let read = Payload::read_strict("brief", &serde_json::json!({"purpose": "p", "language": language.tag()}));
        assert!(matches!(read, Ok(Payload::Brief(brief)) if brief.language == Some(*language)));
    }
    let refused = Payload::read_strict("brief", &serde_json::json!({"purpose": "p", "language": "fr"}));
    let why = refused.unwrap_err().to_string();
    assert!(why.contains("en-GB") && why.contains("en-US"), "{why}");
    for (tag, wanted) in [
        ("en-US", Language::American),
        ("en-Latn-US", Language::American),
        ("es_PR", Language::American),
        ("en-GB", Language::British),
        ("nl", Language::British),
        ("", Language::British),
        ("de-DE-1996", Language::British),
    ] {
        assert_eq!(Language::suiting(tag), wanted, "{tag}");
    }
}
