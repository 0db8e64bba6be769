//! The yard's list: recommendations and the estimate's lines, by place.

use super::numbers::Numbers;
use super::wording::{Wording, day, ended, sentence_case};
use super::{Extras, money, recommendations, ways};
use crate::{Drawn, Row, Standing, YardList, YardRow, YardTotal};
use drawing::Shape;
use std::collections::{BTreeMap, BTreeSet};
use survey::payload::{EstimateLine, Finding, Recommendation};
use survey::{EntryId, Place, State, View, coverage};

/// Measures a place of a member on the drawing; none where it is not on it, or she is not drawn to measure.
pub type Measured<'a> = dyn Fn(&str, &Place) -> Option<Drawn> + 'a;

/// Composes the list of work for a yard: every recommendation and every line of the estimate, in the order of the
/// boat's parts. Work whose place the record does not tell comes last.
pub fn yard_list(state: &State, extras: &Extras<'_>) -> YardList {
    let wording = Wording { first: extras.first, language: survey::language_of(state) };
    let numbers = Numbers::of(state);
    let drawn = drawn(extras);
    let parts = part_of_members(state);
    let mut rows: Vec<((usize, u32, u32), YardRow)> = Vec::new();
    let mut lines: BTreeMap<Option<EntryId>, Vec<&EstimateLine>> = BTreeMap::new();
    for line in state.estimate_lines() {
        let known = line.payload.recommendation.filter(|id| numbers.recommendations.contains_key(id));
        lines.entry(known).or_default().push(line.payload);
    }
    for recommendation in state.recommendations() {
        let (order, row) = row(state, &numbers, &wording, extras.measured, &drawn, &parts, &recommendation);
        match lines.remove(&Some(recommendation.id())) {
            Some(priced) => rows.extend(priced.into_iter().map(|line| (order, with_line(row.clone(), line)))),
            None => rows.push((order, row)),
        }
    }
    let last = (usize::MAX, u32::MAX, u32::MAX);
    rows.extend(lines.into_values().flatten().map(|line| (last, with_line(YardRow::default(), line))));
    rows.sort_by_key(|(order, _)| *order);

    let mut by_number: Vec<_> = state.recommendations().collect();
    by_number.sort_by_key(|r| numbers.recommendations.get(&r.id()).copied());
    let weighed = by_number.iter().filter(|r| !r.payload.ways.is_empty()).map(|r| {
        let number = numbers.recommendations.get(&r.id()).copied().unwrap_or(0);
        (number, sentence_case(r.payload.title.trim()), ways::ways(&r.payload.ways))
    });
    let total = money::totals(state);
    YardList {
        about: about(state, extras),
        rows: rows.into_iter().map(|(_, row)| row).collect(),
        totals: total
            .iter()
            .map(|t| YardTotal {
                currency: t.currency.clone(),
                p10: t.rounded(t.p10),
                p50: t.rounded(t.p50),
                p90: t.rounded(t.p90),
            })
            .collect(),
        ways: weighed.collect(),
        notes: money::estimate(state, &numbers, total.as_ref()).map(|estimate| estimate.notes).unwrap_or_default(),
    }
}

fn about(state: &State, extras: &Extras<'_>) -> Vec<Row> {
    let mut rows = Vec::new();
    if let Some(vessel) = state.vessel() {
        rows.push(Row::new("Boat", vessel.payload.name.clone()));
    }
    let mut days: Vec<_> = state.conditions().filter_map(|c| c.payload.date).collect();
    days.sort();
    rows.extend(days.last().map(|last| Row::new("Surveyed, last day", day(*last))));
    if let Some(brief) = state.brief() {
        rows.push(Row::new("Surveyor", brief.payload.surveyor.clone()));
        rows.extend(brief.payload.invented.clone().map(|invented| Row::new("Invented", invented)));
    }
    rows.push(match &extras.standing {
        Standing::Draft => Row::new("Standing", "Draft, not issued"),
        Standing::Issued { version, date } => Row::new("Standing", format!("Version {version}, issued {date}")),
    });
    rows.push(Row::new("Survey", state.survey().to_string()));
    rows.push(Row::new("Field book, SHA-256", state.digest().to_string()));
    rows.retain(|row| !row.value.trim().is_empty());
    rows
}

/// Returns the part of the boat of each member, with its order and the member's own.
fn part_of_members(state: &State) -> BTreeMap<String, (usize, u32, String)> {
    let mut groups: Vec<String> = Vec::new();
    let covers = coverage(state);
    covers
        .iter()
        .zip(0..)
        .map(|(cover, order)| {
            let group = &cover.member.group;
            let at = groups.iter().position(|known| known == group).unwrap_or_else(|| {
                groups.push(group.clone());
                groups.len() - 1
            });
            (cover.member.id.clone(), (at, order, sentence_case(group)))
        })
        .collect()
}

fn row(
    state: &State,
    numbers: &Numbers<'_>,
    wording: &Wording,
    measured: Option<&Measured<'_>>,
    drawn: &[(String, BTreeSet<String>)],
    parts: &BTreeMap<String, (usize, u32, String)>,
    view: &View<'_, Recommendation>,
) -> ((usize, u32, u32), YardRow) {
    let r = view.payload;
    let number = numbers.recommendations.get(&view.id()).copied();
    let mut answered: Vec<_> = r.findings.iter().filter_map(|id| state.find::<Finding>(*id)).collect();
    answered.sort_by_key(|f| numbers.findings.get(&f.id()).copied());
    let first = answered.first().and_then(|f| parts.get(&f.payload.member)).cloned();
    let (part_order, member_order, part) = first.unwrap_or((usize::MAX, u32::MAX, String::new()));
    let mut members: Vec<String> = Vec::new();
    let mut places: Vec<String> = Vec::new();
    for finding in &answered {
        let name = numbers.member(&finding.payload.member);
        let own = finding.payload.places.iter().map(|place| wording.place_on(&name, place));
        places.extend(own.filter(|place| !place.is_empty()));
        members.push(sentence_case(&name));
    }
    members.dedup();
    places.dedup();
    let entries: Vec<String> = answered.iter().map(|f| f.id().to_string()).collect();
    let drawings: Vec<&str> = drawn
        .iter()
        .filter(|(_, shown)| entries.iter().any(|entry| shown.contains(entry)))
        .map(|(name, _)| name.as_str())
        .collect();
    let mut findings: Vec<u32> = answered.iter().filter_map(|f| numbers.findings.get(&f.id()).copied()).collect();
    findings.dedup();
    let taken: Vec<Drawn> = answered
        .iter()
        .flat_map(|f| f.payload.places.iter().map(|place| (&f.payload.member, place)))
        .filter_map(|(member, place)| measured.and_then(|measured| measured(member, place)))
        .collect();
    let together = Drawn {
        length_m: taken.iter().map(|d| d.length_m).sum(),
        area_m2: taken.iter().map(|d| d.area_m2).sum(),
        crossings: taken.iter().map(|d| d.crossings).sum(),
    };
    let row = YardRow {
        drawn: (!taken.is_empty()).then_some(together),
        part,
        member: members.join("; "),
        place: places.join("; "),
        drawings: drawings.join("; "),
        recommendation: number,
        findings,
        work: sentence_case(r.title.trim()),
        action: ended(&r.action),
        urgency: recommendations::urgency(r.urgency).words(r.by.map(day).as_deref()),
        by: r.by.map(|d| d.to_string()).unwrap_or_default(),
        who: r.who.trim().to_owned(),
        proof: r.proof.trim().to_owned(),
        ..YardRow::default()
    };
    ((part_order, member_order, number.unwrap_or(u32::MAX)), row)
}

fn with_line(row: YardRow, line: &EstimateLine) -> YardRow {
    YardRow {
        item: line.item.trim().to_owned(),
        trade: line.trade.trim().to_owned(),
        quantity: line.quantity,
        unit: line.unit.trim().to_owned(),
        low: Some(line.low),
        likely: Some(line.likely),
        high: Some(line.high),
        currency: line.currency.trim().to_owned(),
        chance_percent: line.chance_percent,
        rates_from: line.rates_from.trim().to_owned(),
        ..row
    }
}

/// Returns each drawing's name (`Drawing 2: …`) with the entries that it shows.
fn drawn(extras: &Extras<'_>) -> Vec<(String, BTreeSet<String>)> {
    let one = |(number, (caption, sheet)): (usize, &(String, drawing::Sheet))| {
        let mut shown = BTreeSet::new();
        sheet.shapes.iter().for_each(|shape| entries_in(shape, &mut shown));
        let caption = caption.split(['.', ':', ';']).next().unwrap_or("").trim();
        (format!("Drawing {number}: {caption}"), shown)
    };
    (1..).zip(&extras.plans).map(one).collect()
}

fn entries_in(shape: &Shape, shown: &mut BTreeSet<String>) {
    if let Shape::Group { data, shapes, .. } = shape {
        let entries = data.iter().filter(|(name, _)| *name == "entry").map(|(_, entry)| entry);
        shown.extend(entries.flat_map(|entry| entry.split([' ', ','])).map(str::to_owned));
        shapes.iter().for_each(|inner| entries_in(inner, shown));
    }
}
