//! Scope, conditions, what was not seen, how to read the report, cautions, sources.

use super::findings::range;
use super::numbers::Numbers;
use super::wording::{Wording, day, ended, figure, listed, sentence_case};
use crate::{Column, NotSeen, Paragraphs, Row, Table};
use survey::payload::Sureness;
use survey::{Cover, State, coverage as covers};

/// Returns what was asked, agreed and met with.
pub(super) fn scope(state: &State) -> Vec<Paragraphs> {
    let mut out = Vec::new();
    let mut put = |title: &str, words: Vec<String>| {
        let words: Vec<String> = words.iter().map(|w| ended(w)).filter(|w| !w.is_empty()).collect();
        if !words.is_empty() {
            out.push(Paragraphs { title: title.to_owned(), words });
        }
    };
    if let Some(view) = state.brief() {
        let b = view.payload;
        put("Purpose", vec![sentence_case(&b.purpose)]);
        put("Scope", vec![b.scope.clone()]);
        put("Not in scope", b.excluded.clone());
        put("Access agreed", vec![b.access_agreed.clone()]);
        put("Opening agreed", vec![b.opening_agreed.clone()]);
    }
    for c in state.conditions() {
        let c = c.payload;
        let mut first: Vec<String> = Vec::new();
        first.extend([c.date.map(day).unwrap_or_default(), c.hours.clone(), c.place.clone()]);
        first.retain(|part| !part.trim().is_empty());
        let lay = match (c.afloat, c.ashore_since) {
            (true, _) => "She lay afloat".to_owned(),
            (false, Some(since)) => format!("She had stood ashore since {}", day(since)),
            (false, None) => String::new(),
        };
        let mut air: Vec<String> = vec![c.weather.trim().trim_end_matches('.').to_owned()];
        air.extend(c.temp_c.map(|t| format!("air {} °C", figure(t))));
        air.extend(c.rh_percent.map(|rh| format!("relative humidity {} %", figure(rh))));
        air.retain(|part| !part.is_empty());
        let present = if c.present.is_empty() { String::new() } else { format!("Present: {}", listed(&c.present)) };
        let sentences: Vec<String> = [first.join(", "), lay, sentence_case(&air.join("; ")), present]
            .iter()
            .map(|s| ended(s))
            .filter(|s| !s.is_empty())
            .collect();
        put("Conditions", vec![sentences.join(" "), c.access.clone()]);
    }
    out
}

/// Returns what was not seen.
pub(super) fn not_seen(state: &State, wording: &Wording) -> Vec<NotSeen> {
    let numbers = Numbers::of(state);
    let one = |n: survey::View<'_, survey::payload::NotSeen>| NotSeen {
        what: wording.member_at(&numbers.member(&n.payload.member), &n.payload.place),
        why: sentence_case(n.payload.why.trim()),
        needs: sentence_case(n.payload.needs.trim()),
    };
    state.not_seen().map(one).collect()
}

/// Returns how much of her is recorded, by group of members. Nothing for a survey that has not begun.
pub(super) fn coverage(state: &State) -> Vec<Table> {
    if state.observations().next().is_none() && state.not_seen().next().is_none() {
        return Vec::new();
    }
    let all = covers(state);
    let mut groups: Vec<&str> = Vec::new();
    for cover in &all {
        if !groups.contains(&cover.member.group.as_str()) {
            groups.push(&cover.member.group);
        }
    }
    let count = |group: &str, cover: Cover| {
        all.iter().filter(|c| c.member.group == group && c.cover == cover).count().to_string()
    };
    let rows = groups.iter().map(|group| {
        let whole = all.iter().filter(|c| c.member.group == *group).count().to_string();
        let counts = [Cover::Seen, Cover::PartlySeen, Cover::NotSeen, Cover::HearsayOnly, Cover::Owed];
        [sentence_case(group), whole].into_iter().chain(counts.into_iter().map(|c| count(group, c))).collect()
    });
    let owed: Vec<String> =
        all.iter().filter(|c| c.cover == Cover::Owed).map(|c| c.member.name.to_lowercase()).collect();
    vec![Table {
        title: "How much of her is recorded".to_owned(),
        columns: vec![
            Column::words("Kinds of member", 2.2),
            Column::figures("Listed", 1.0),
            Column::figures("Seen", 1.0),
            Column::figures("Partly seen", 1.0),
            Column::figures("Not seen", 1.0),
            Column::figures("Hearsay only", 1.0),
            Column::figures("Nothing recorded", 1.2),
        ],
        rows: rows.collect(),
        note: if owed.is_empty() {
            String::new()
        } else {
            format!("Nothing is recorded of: {}. No conclusion is drawn about them.", listed(&owed))
        },
    }]
}

/// Returns the numberings and words that a reader must share.
pub(super) fn definitions(state: &State) -> Vec<Row> {
    let mut rows = Vec::new();
    if state.observations().next().is_some() {
        rows.push(Row::new(
            "Places",
            "Port and starboard are left and right, looking forward. Strakes are counted from the garboard (1), frames \
             from the stem (1). Distances run aft from the fore side of the stem, heights from the waterline.",
        ));
    }
    rows.extend(known_beforehand(state));
    let used: Vec<Sureness> = state.findings().filter_map(|f| f.payload.sure).collect();
    let words: Vec<String> =
        Sureness::ALL.iter().filter(|s| used.contains(s)).map(|s| format!("{s}, {}", range(*s))).collect();
    if !words.is_empty() {
        rows.push(Row::new("How sure", format!("{}.", sentence_case(&words.join("; ")))));
    }
    rows
}

/// What every weighing of readings started from, in the surveyor's choice; none when nothing was said.
fn known_beforehand(state: &State) -> Option<Row> {
    let view = state.beforehand()?;
    let known = view.payload;
    let levels = [
        ("heartwood of her planking", &known.timber),
        ("water", &known.water),
        ("airing", &known.ventilation),
        ("leaks of the deck", &known.deck_leaks_above),
        ("upkeep", &known.upkeep),
        ("repairs known of", &known.known_repairs),
        ("plank fastenings", &known.fastening_metal),
    ];
    let mut said: Vec<String> = levels
        .into_iter()
        .filter_map(|(what, level)| Some(format!("{what} {}", level.as_ref()?.replace('_', " "))))
        .collect();
    said.extend(known.likelihoods.iter().map(|own| {
        let reading = own.reading.rsplit('/').next().unwrap_or_default().replace('_', " ");
        format!(
            "‘{reading}’ is taken to be met in {} % of places that are {} ({})",
            own.percent,
            own.state.replace('_', " "),
            own.source.trim().trim_end_matches('.')
        )
    }));
    (!said.is_empty()).then(|| Row::new("Known beforehand", format!("{}.", sentence_case(&said.join("; ")))))
}

const CAUTIONS: [&str; 4] = [
    "This report supports the judgement of those it is addressed to. It does not take the place of local codes, class \
     or flag rules, or licensed engineers, and gives way to them where they apply.",
    "Wood hides its faults. What was not opened was not seen behind; a sample finds only what is widespread; a clear \
     answer from hammer, knife or meter lowers doubt and does not end it.",
    "She is described as she was on the days named. Wood dries, swells and decays, and fastenings waste, from that day on.",
    "Work under and in her has its own rules. Stands and blocking are moved by the yard alone. Tanks, bilges and other \
     closed spaces are tested for oxygen, flammable gas and poisons, in that order, before anyone goes in (29 CFR \
     1915.12). Old paint may hold lead, tin or copper and is not sanded dry. Gas, petrol and shore power are left to \
     those licensed for them. Holes made for this survey are plugged before she floats.",
];

/// Returns the cautions that go with any survey that has begun.
pub(super) fn cautions(state: &State) -> Vec<String> {
    let begun = state.observations().next().is_some() || state.findings().next().is_some();
    let mut out: Vec<String> = if begun { CAUTIONS.iter().map(|c| (*c).to_owned()).collect() } else { Vec::new() };
    let disputed = state.disputed().count();
    if disputed > 0 {
        let (what, verb) = if disputed == 1 { ("record", "was") } else { ("records", "were") };
        out.push(format!("{disputed} {what} {verb} amended by two people at once; the later version is printed until someone settles it."));
    }
    let unread = state.unread().len();
    if unread > 0 {
        out.push(format!("Entries of the field book that this edition of the program cannot read, and that are not in this report: {unread}."));
    }
    out
}

/// Returns the published works that the report leans on.
pub(super) fn sources(state: &State) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for r in state.reckonings() {
        for source in &r.payload.sources {
            if !source.trim().is_empty() && !all.contains(source) {
                all.push(source.clone());
            }
        }
    }
    if state.findings().any(|f| f.payload.sure.is_some()) {
        all.push(
            "Words for likelihood: Intergovernmental Panel on Climate Change, Fourth Assessment Report (2007), Working Group II, front matter"
                .to_owned(),
        );
    }
    all.sort();
    all.iter().map(|source| ended(source)).collect()
}
