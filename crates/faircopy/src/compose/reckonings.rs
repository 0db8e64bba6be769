//! Reckonings: inputs, results, equation and source, named as the table of reckoners names them.

use super::numbers::Numbers;
use super::wording::{ended, figure, sentence_case};
use crate::{Reckoning, Row, Said};
use serde_json::Value;
use survey::{EntryId, State};

/// Tells what a topic declares of itself (`title`, `flags` with `key`, `label` and `unit`, `results` with `key`, `label`,
/// `unit` and `decimals`, `not_covered`), as JSON; nothing for a topic that is not known.
pub type Describe<'a> = dyn Fn(&str) -> Option<Value> + 'a;

/// The topic whose answers are a machine's proposal about a member's state.
const WEIGHING: &str = "evidence";

/// Returns the reckonings.
pub(super) fn reckonings(state: &State, numbers: &Numbers<'_>, describe: Option<&Describe<'_>>) -> Vec<Reckoning> {
    let one = |view: survey::View<'_, survey::payload::Reckoning>| {
        let r = view.payload;
        let about = describe.and_then(|describe| describe(&r.topic));
        let about = about.as_ref();
        let title = about
            .and_then(|a| a["title"].as_str())
            .map_or_else(|| sentence_case(&r.topic.replace('-', " ")), str::to_owned);
        let title = match &r.member {
            Some(member) => format!("{title}: {}", numbers.member(member).to_lowercase()),
            None => title,
        };
        let mut cautions: Vec<String> = r.cautions.iter().map(|c| ended(c)).collect();
        let not_covered = about.and_then(|a| a["not_covered"].as_array()).into_iter().flatten();
        cautions.extend(not_covered.filter_map(Value::as_str).map(|words| format!("Not covered: {}", ended(words))));
        Reckoning {
            number: numbers.reckonings.get(&view.id()).copied().unwrap_or(0),
            title,
            inputs: rows(&r.inputs, about.map(|a| &a["flags"])),
            results: results(&r.results, about.map(|a| &a["results"])),
            equation: r.equation.clone(),
            sources: r.sources.iter().map(|s| ended(s)).collect(),
            cautions,
            note: r.note.clone(),
            findings: numbers.findings_on(view.id()),
        }
    };
    state.reckonings().map(one).collect()
}

/// Returns what a weighing of observations proposes, in a sentence; none for other reckonings.
pub(super) fn proposed(state: &State, id: EntryId) -> Option<Said> {
    let view = state.find::<survey::payload::Reckoning>(id)?;
    if view.payload.topic != WEIGHING {
        return None;
    }
    let states = view.payload.results.get("states")?.as_object()?;
    let mut states: Vec<(String, f64)> =
        states.iter().filter_map(|(name, p)| Some((name.replace('_', " "), p.as_f64()?))).collect();
    states.sort_by(|a, b| b.1.total_cmp(&a.1));
    let words: Vec<String> = states.iter().take(3).map(|(name, p)| format!("{name} {:.0} %", p * 100.0)).collect();
    (!words.is_empty())
        .then(|| Said::inference(format!("Weighed by itself, this evidence makes it: {}.", words.join(", "))))
}

/// Longest text shown as a value; tables given as text are longer and only named.
const LONGEST_VALUE: usize = 600;
/// Most items of a list that are shown.
const MOST_ITEMS: usize = 12;

/// Returns the results that fit a report: figures, words, short lists and plain tables of a few figures. Tables within
/// tables stay in the field book, and are named at the end.
fn results(values: &Value, declared: Option<&Value>) -> Vec<Row> {
    let Some(all) = values.as_object() else { return Vec::new() };
    let (kept, left): (Vec<_>, Vec<_>) = all.iter().partition(|(_, value)| is_plain(value));
    let kept: serde_json::Map<String, Value> = kept.into_iter().map(|(k, v)| (k.clone(), v.clone())).collect();
    let left: serde_json::Map<String, Value> = left.into_iter().map(|(k, _)| (k.clone(), Value::Bool(true))).collect();
    let mut printed = rows(&Value::Object(kept), declared);
    let named: Vec<String> = rows(&Value::Object(left), declared).into_iter().map(|row| row.label).collect();
    if !named.is_empty() {
        printed.push(Row::new("Kept in the field book", named.join("; ")));
    }
    printed
}

/// Tells whether a value can be read in a line or two.
fn is_plain(value: &Value) -> bool {
    let single = |v: &Value| !v.is_object() && !v.is_array();
    match value {
        Value::Array(items) => items.iter().all(single),
        Value::Object(map) => map.len() <= MOST_ITEMS && map.values().all(single),
        _ => true,
    }
}

fn rows(values: &Value, declared: Option<&Value>) -> Vec<Row> {
    let Some(values) = values.as_object() else { return Vec::new() };
    let one = |(key, value): (&String, &Value)| {
        let about = declared.and_then(Value::as_array).into_iter().flatten().find(|d| d["key"] == key.as_str());
        let text = |name: &str| about.and_then(|a| a[name].as_str()).map(str::to_owned);
        let (bare, unit_of_key) = split_unit(key);
        let unit = text("unit").unwrap_or_else(|| unit_of_key.to_owned());
        let label = text("label").unwrap_or_else(|| bare.replace('_', " "));
        let decimals = about.and_then(|a| a["decimals"].as_u64());
        let shown = shown(value, &unit, decimals);
        (!shown.is_empty()).then(|| Row::new(sentence_case(&label), shown))
    };
    values.iter().filter_map(one).collect()
}

/// Splits the unit off the end of a name: `width_mm` is `width` in mm.
fn split_unit(key: &str) -> (&str, &'static str) {
    const UNITS: [(&str, &str); 22] = [
        ("_n_per_mm", "N/mm"),
        ("_mm_per_year", "mm a year"),
        ("_percent", "%"),
        ("_mm", "mm"),
        ("_m3", "m³"),
        ("_m2", "m²"),
        ("_m", "m"),
        ("_mpa", "MPa"),
        ("_kpa", "kPa"),
        ("_n", "N"),
        ("_c", "°C"),
        ("_deg", "°"),
        ("_kg", "kg"),
        ("_days", "days"),
        ("_years", "years"),
        ("_hz", "Hz"),
        ("_db", "dB"),
        ("_ms", "ms"),
        ("_s", "s"),
        ("_us", "µs"),
        ("_psu", "psu"),
        ("_dban", "decibans"),
    ];
    UNITS.iter().find_map(|(end, unit)| key.strip_suffix(end).map(|bare| (bare, *unit))).unwrap_or((key, ""))
}

fn shown(value: &Value, unit: &str, decimals: Option<u64>) -> String {
    let with_unit = |text: String| match unit {
        "" => text,
        "°" => format!("{text}°"),
        unit => format!("{text} {unit}"),
    };
    match value {
        Value::Null => String::new(),
        Value::Bool(yes) => if *yes { "yes" } else { "no" }.to_owned(),
        Value::Number(n) => {
            let value = n.as_f64().unwrap_or(f64::NAN);
            let whole = n.is_i64() || n.is_u64();
            let text = match decimals.and_then(|d| usize::try_from(d).ok()) {
                Some(decimals) if !whole => format!("{value:.decimals$}"),
                _ if whole => n.to_string(),
                _ => figure(value),
            };
            with_unit(text)
        }
        Value::String(text) if text.chars().count() > LONGEST_VALUE || text.trim_end().contains('\n') => {
            format!("given as a text of {} lines, kept in the field book", text.lines().count())
        }
        Value::String(text) => text.replace('_', " "),
        Value::Array(items) => {
            let mut parts: Vec<String> = items.iter().take(MOST_ITEMS).map(|item| shown(item, "", decimals)).collect();
            if items.len() > MOST_ITEMS {
                parts.push(format!("and {} more in the field book", items.len() - MOST_ITEMS));
            }
            let simple = items.iter().all(|i| !i.is_object());
            let sentences = parts.iter().any(|part| part.chars().count() > 40);
            if simple && !sentences { with_unit(parts.join(", ")) } else { parts.join("\n") }
        }
        Value::Object(map) => {
            let parts: Vec<String> = map
                .iter()
                .take(MOST_ITEMS)
                .map(|(key, item)| {
                    let (bare, unit) = split_unit(key);
                    format!("{} {}", bare.replace('_', " "), shown(item, unit, decimals))
                })
                .collect();
            parts.join("; ")
        }
    }
}
