//! Findings by part of the boat, and the list of observations they rest on.

use super::numbers::{Numbers, is_picture, observations_of, pictures_of};
use super::reading::said;
use super::reckonings::proposed;
use super::wording::{Wording, ended, listed, moment, sentence_case};
use crate::{Alternative, Document, Finding, Mark, Observation, Part, Picture, Row, SeenLine};
use std::collections::BTreeSet;
use survey::payload::{Attachment, Condition, Sureness};
use survey::{Cover, EntryId, MemberCover, Method, State, View, coverage};

/// Returns the findings by part of the boat. A part with no finding shows the members that were looked at.
pub(super) fn parts(state: &State, numbers: &Numbers<'_>, wording: &Wording) -> Vec<Part> {
    let covers = coverage(state);
    let mut printed: BTreeSet<EntryId> = BTreeSet::new();
    let parts = numbers.parts.iter().map(|(group, own)| Part {
        title: sentence_case(group),
        findings: own.iter().map(|f| finding(state, numbers, wording, f, &mut printed)).collect(),
        seen_only: covers
            .iter()
            .filter(|c| c.member.group == *group && c.findings.is_empty())
            .filter_map(|c| seen_only(state, numbers, c))
            .collect(),
    });
    let parts: Vec<Part> = parts.collect();
    parts.into_iter().filter(|part| part.findings.len() + part.seen_only.len() > 0).collect()
}

fn finding(
    state: &State,
    numbers: &Numbers<'_>,
    wording: &Wording,
    view: &View<'_, survey::payload::Finding>,
    printed: &mut BTreeSet<EntryId>,
) -> Finding {
    let f = view.payload;
    let observations = observations_of(state, f);
    let places: Vec<String> =
        f.places.iter().map(|p| wording.place_on(&numbers.member(&f.member), p)).filter(|p| !p.is_empty()).collect();
    let member = sentence_case(&numbers.member(&f.member));
    let seen = observations.iter().filter_map(|id| state.find::<survey::payload::Observation>(*id)).map(|o| SeenLine {
        observation: numbers.observations.get(&o.id()).copied().unwrap_or(0),
        place: if o.payload.member == f.member {
            wording.place_on(&numbers.member(&f.member), &o.payload.place)
        } else {
            wording.member_at(&numbers.member(&o.payload.member), &o.payload.place)
        },
        said: said(o.payload, wording),
    });
    let mut more: Vec<Row> = [("Extent", &f.extent), ("Likely cause", &f.cause), ("What it means", &f.meaning)]
        .into_iter()
        .filter(|(_, text)| !text.trim().is_empty())
        .map(|(label, text)| Row::new(label, sentence_case(&ended(text))))
        .collect();
    if let Some(likely) = f.likely_state {
        more.insert(0, Row::new("Probably", sentence_case(&ended(&likely.to_string()))));
    }
    let unseen: Vec<String> = f
        .basis
        .iter()
        .filter_map(|id| state.find::<survey::payload::NotSeen>(*id))
        .map(|n| wording.member_at(&numbers.member(&n.payload.member), &n.payload.place))
        .collect();
    if !unseen.is_empty() {
        more.push(Row::new("Not seen", ended(&unseen.join("; "))));
    }
    let gone = f.basis.iter().filter(|id| state.record(**id).is_some_and(survey::Record::is_withdrawn)).count();
    if gone > 0 {
        let what = match gone {
            1 => "One entry that this finding rested on has been withdrawn.".to_owned(),
            many => format!("{many} entries that this finding rested on have been withdrawn."),
        };
        more.push(Row::new("Since then", what));
    }
    if f.basis.is_empty() {
        more.push(Row::new("Rests on", "Nothing in the record is named.".to_owned()));
    }
    let basis_reckonings: Vec<EntryId> =
        f.basis.iter().copied().filter(|id| numbers.reckonings.contains_key(id)).collect();
    let mut pictures: Vec<Picture> = Vec::new();
    for owner in std::iter::once(view.id()).chain(observations.iter().copied()) {
        for a in pictures_of(state, owner) {
            if printed.insert(a.id()) {
                pictures.push(picture(&a, &member, numbers.observations.get(&owner).copied()));
            }
        }
    }
    Finding {
        number: numbers.findings.get(&view.id()).copied().unwrap_or(0),
        title: sentence_case(f.title.trim()),
        place: if places.is_empty() { member } else { format!("{member}: {}", places.join("; ")) },
        mark: mark(f.condition),
        condition: f.condition.to_string(),
        serious: f.serious,
        seen: seen.collect(),
        reckonings: basis_reckonings.iter().filter_map(|id| numbers.reckonings.get(id).copied()).collect(),
        proposed: basis_reckonings.iter().filter_map(|id| proposed(state, *id)).collect(),
        opinion: f.text.clone(),
        sure: f.sure.map(|s| sentence_case(&format!("{s} ({}).", range(s)))).unwrap_or_default(),
        more,
        alternatives: f
            .alternatives
            .iter()
            .map(|a| Alternative { what: sentence_case(a.what.trim()), against: a.against.trim().to_owned() })
            .collect(),
        recommendations: state
            .recommendations()
            .filter(|r| r.payload.findings.contains(&view.id()))
            .filter_map(|r| numbers.recommendations.get(&r.id()).copied())
            .collect::<BTreeSet<u32>>()
            .into_iter()
            .collect(),
        pictures,
    }
}

pub(super) fn mark(condition: Condition) -> Mark {
    match condition {
        Condition::Sound => Mark::Bare,
        Condition::Watch => Mark::Sparse,
        Condition::WorkNeeded => Mark::Close,
        Condition::Failed => Mark::Solid,
    }
}

/// The ranges that go with the words, as in the IPCC's Fourth Assessment Report (2007), Working Group II.
pub(super) fn range(sure: Sureness) -> &'static str {
    match sure {
        Sureness::VirtuallyCertain => "above 99 %",
        Sureness::VeryLikely => "90 to 99 %",
        Sureness::Likely => "66 to 90 %",
        Sureness::AboutAsLikelyAsNot => "33 to 66 %",
        Sureness::Unlikely => "10 to 33 %",
    }
}

fn picture(a: &View<'_, Attachment>, member: &str, observation: Option<u32>) -> Picture {
    let p = a.payload;
    let alternative = [&p.alternative, &p.caption].into_iter().find(|text| !text.trim().is_empty()).cloned();
    Picture {
        sha256: p.sha256.to_string(),
        caption: ended(&p.caption),
        alternative: alternative.unwrap_or_else(|| format!("Photograph: {member}.")),
        observation,
        place: String::new(),
        taken: p.taken.as_deref().map(|taken| taken.replacen('T', " ", 1)).unwrap_or_default(),
    }
}

/// Says how a member without a finding of its own was looked at, which findings its observations bear on, and which of
/// its readings speak against it though no finding was made of them.
fn seen_only(state: &State, numbers: &Numbers<'_>, cover: &MemberCover) -> Option<Row> {
    let part = match cover.cover {
        Cover::Seen => "",
        Cover::PartlySeen => "; part was not seen",
        _ => return None,
    };
    let mut methods: Vec<Method> = Vec::new();
    for id in &cover.observations {
        let method = state.find::<survey::payload::Observation>(*id).map(|o| o.payload.reading.method());
        methods.extend(method.filter(|m| *m != Method::Ask));
    }
    methods.sort();
    methods.dedup();
    let words: Vec<String> = methods.into_iter().map(|m| means(m).to_owned()).collect();
    let mut said = format!("By {}{part}.", listed(&words));
    let bears_on: BTreeSet<u32> = cover.observations.iter().flat_map(|id| numbers.findings_on(*id)).collect();
    if !bears_on.is_empty() {
        said.push_str(&format!(" See {}.", counted("finding", bears_on)));
    }
    let open: BTreeSet<u32> = cover
        .observations
        .iter()
        .filter(|id| numbers.findings_on(**id).is_empty())
        .filter_map(|id| state.find::<survey::payload::Observation>(*id))
        .filter(|o| o.payload.reading.is_adverse())
        .filter_map(|o| numbers.observations.get(&o.id()).copied())
        .collect();
    if !open.is_empty() {
        said.push_str(&format!(" Speaks against it, with no finding made of it: {}.", counted("observation", open)));
    }
    Some(Row::new(sentence_case(&cover.member.name), said))
}

/// Writes `finding 3` or `findings 3, 4 and 7`.
fn counted(what: &str, numbers: BTreeSet<u32>) -> String {
    let many = if numbers.len() == 1 { "" } else { "s" };
    let words: Vec<String> = numbers.iter().map(u32::to_string).collect();
    format!("{what}{many} {}", listed(&words))
}

fn means(method: Method) -> &'static str {
    match method {
        Method::Sight => "sight",
        Method::Sound => "hammer",
        Method::Probe => "knife or lever",
        Method::Moisture => "moisture meter",
        Method::Measure => "measuring",
        Method::Bore => "boring",
        Method::Draw => "drawing a fastening",
        Method::OpenUp => "opening up",
        Method::StressWave => "stress-wave time",
        Method::Ask => "asking",
    }
}

/// Returns every observation, numbered.
pub(super) fn observations(state: &State, numbers: &Numbers<'_>, wording: &Wording) -> Vec<Observation> {
    let one = |o: View<'_, survey::payload::Observation>| Observation {
        number: numbers.observations.get(&o.id()).copied().unwrap_or(0),
        place: wording.member_at(&numbers.member(&o.payload.member), &o.payload.place),
        method: sentence_case(means(o.payload.reading.method())),
        said: said(o.payload, wording),
        entry: o.id().short(),
        when: moment(o.record.first().time),
        findings: numbers.findings_on(o.id()),
        pictures: u32::try_from(pictures_of(state, o.id()).count()).unwrap_or(u32::MAX),
    };
    state.observations().map(one).collect()
}

/// Puts the pictures that no finding shows at the end, the boat's own first picture on the title page.
pub(super) fn put_further_pictures(state: &State, numbers: &Numbers<'_>, document: &mut Document) {
    let shown: BTreeSet<String> =
        document.parts.iter().flat_map(|p| &p.findings).flat_map(|f| &f.pictures).map(|p| p.sha256.clone()).collect();
    let vessel = state.vessel().map(|v| v.id());
    let withdrawn = |of: EntryId| state.record(of).is_some_and(survey::Record::is_withdrawn);
    for a in state.attachments().filter(|a| is_picture(a.payload) && !shown.contains(&a.payload.sha256.to_string())) {
        // The signature under a report that went out is no picture of the boat.
        let of_report =
            a.payload.of.and_then(|of| state.record(of)).is_some_and(|r| r.first().kind() == "report_issued");
        if of_report || a.payload.of.is_some_and(withdrawn) {
            continue;
        }
        let observation = a.payload.of.and_then(|of| numbers.observations.get(&of).copied());
        let own = picture(&a, "the boat", observation);
        if document.front.picture.is_none() && vessel.is_some() && a.payload.of == vessel {
            document.front.picture = Some(own);
        } else {
            document.pictures.push(own);
        }
    }
}
