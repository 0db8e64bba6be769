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
        let plain = |words: &str| in_words(words, about, describe);
        let mut cautions: Vec<String> = r.cautions.iter().map(|c| ended(&plain(c))).collect();
        let not_covered = about.and_then(|a| a["not_covered"].as_array()).into_iter().flatten();
        cautions.extend(
            not_covered.filter_map(Value::as_str).map(|words| format!("Not covered: {}", ended(&plain(words)))),
        );
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

/// Returns what a weighing of observations makes likely, in the words of the scale and never as odds alone; none for other
/// reckonings.
pub(super) fn weighed_in_words(state: &State, id: EntryId) -> Option<String> {
    let view = state.find::<survey::payload::Reckoning>(id)?;
    if view.payload.topic != WEIGHING {
        return None;
    }
    let number = |value: &Value| value.as_f64();
    let mut states: Vec<(String, f64)> = view
        .payload
        .results
        .get("states")?
        .as_object()?
        .iter()
        .filter_map(|(name, p)| Some((name.replace('_', " "), number(p)?)))
        .collect();
    states.sort_by(|a, b| b.1.total_cmp(&a.1));
    let said: Vec<String> = states.iter().take(3).map(|(name, p)| format!("{name} {}", scale(*p))).collect();
    let tests = view.payload.results["rivals"].as_array().into_iter().flatten().take(1);
    let told: Vec<&str> = tests
        .flat_map(|rival| rival["told_apart_by"].as_array().into_iter().flatten())
        .filter_map(|test| test["do"].as_str())
        .take(2)
        .collect();
    let next = if told.is_empty() {
        String::new()
    } else {
        format!(" The first two would be told apart best by this: {}.", told.join("; or: "))
    };
    let note = view.payload.note.trim();
    let note = if note.is_empty() { String::new() } else { format!(" The surveyor on it: {}", ended(note)) };
    Some(format!(
        "From the readings entered for it, and by likelihoods that are elicited and not measured: {}.{next} This is a proposal, not a conclusion.{note}",
        said.join(", ")
    ))
}

/// The words of the scale of likelihood that this report uses (IPCC Fourth Assessment Report, Working Group II).
fn scale(p: f64) -> &'static str {
    match p {
        p if p > 0.99 => "virtually certain",
        p if p > 0.90 => "very likely",
        p if p > 0.66 => "likely",
        p if p >= 0.33 => "about as likely as not",
        p if p >= 0.10 => "unlikely",
        p if p >= 0.01 => "very unlikely",
        _ => "exceptionally unlikely",
    }
}

/// Writes the names of flags and topics in a caution in words: a reader of the report types no command.
fn in_words(words: &str, about: Option<&Value>, describe: Option<&Describe<'_>>) -> String {
    let label = |name: &str| -> Option<String> {
        let key = name.replace('-', "_");
        let declared = about?["flags"].as_array()?.iter().find(|flag| flag["key"] == key.as_str())?;
        Some(declared["label"].as_str()?.to_owned())
    };
    let topic = |name: &str| -> Option<String> { Some(describe?(name)?["title"].as_str()?.to_owned()) };
    let plain = |name: &str| -> String {
        let bare = name.trim_start_matches("--");
        match (label(bare), topic(bare)) {
            (Some(label), _) if name.starts_with("--") => format!("‘{label}’"),
            (_, Some(title)) => format!("the reckoning ‘{title}’"),
            (Some(label), None) => format!("‘{label}’"),
            (None, None) => bare.replace(['-', '_'], " "),
        }
    };
    // Names in backticks first, then flags that stand bare.
    let mut out = String::with_capacity(words.len());
    for (i, piece) in words.split('`').enumerate() {
        out.push_str(&if i % 2 == 1 { plain(piece) } else { piece.to_owned() });
    }
    let bare = |word: &str| -> String {
        let end = word.trim_end_matches(|c: char| !(c.is_alphanumeric() || c == '-'));
        let start = end.trim_start_matches(|c: char| !(c.is_alphanumeric() || c == '-'));
        if start.len() > 3 && start.starts_with("--") {
            word.replacen(start, &plain(start), 1)
        } else {
            word.to_owned()
        }
    };
    out.split(' ').map(bare).collect::<Vec<_>>().join(" ")
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

/// Writes a JSON value as a person would say it in a line: readings as `hammer: dull or hollow`, lists with semicolons.
fn in_a_line(value: &Value) -> String {
    match value {
        Value::Null => "not given".to_owned(),
        Value::Bool(yes) => if *yes { "yes" } else { "no" }.to_owned(),
        Value::Number(n) => number(n.as_f64().unwrap_or(f64::NAN)),
        Value::String(text) => match text.strip_prefix("not_") {
            Some(rest) => format!("not {}", rest.replace('_', " ")),
            None => text.replace('_', " "),
        },
        Value::Array(items) => {
            let mut parts: Vec<String> = items.iter().take(MOST_ITEMS).map(in_a_line).collect();
            if items.len() > MOST_ITEMS {
                parts.push(format!("and {} more in the field book", items.len() - MOST_ITEMS));
            }
            parts.join("; ")
        }
        Value::Object(map) => match (map.get("group").and_then(Value::as_str), map.get("reading")) {
            (Some(group), Some(reading)) => {
                let hearsay = if map.get("hearsay") == Some(&Value::Bool(true)) { " (told)" } else { "" };
                let doubtful = if map.get("doubtful") == Some(&Value::Bool(true)) { " (doubtful)" } else { "" };
                format!("{}: {}{hearsay}{doubtful}", group.replace('_', " "), in_a_line(reading))
            }
            _ if map.len() == 1 => map.values().map(in_a_line).collect(),
            _ => {
                let parts = map.iter().map(|(key, item)| {
                    let (bare, unit) = split_unit(key);
                    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
                    format!("{} {}{unit}", bare.replace('_', " "), in_a_line(item))
                });
                parts.collect::<Vec<_>>().join(", ")
            }
        },
    }
}

/// Writes a figure with its thousands set off.
fn number(value: f64) -> String {
    thousands(&figure(value))
}

/// Sets off the thousands of a written figure of five digits or more before its point: `64315.63` becomes `64,315.63`.
fn thousands(text: &str) -> String {
    let (sign, bare) = match text.strip_prefix('-') {
        Some(bare) => ("−", bare),
        None => ("", text),
    };
    let (whole, rest) = bare.split_once('.').map_or((bare, None), |(whole, rest)| (whole, Some(rest)));
    if whole.len() < 5 || !whole.bytes().all(|b| b.is_ascii_digit()) {
        return format!("{sign}{bare}");
    }
    let mut out = sign.to_owned();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i) % 3 == 0 {
            out.push(',');
        }
        out.push(digit);
    }
    match rest {
        Some(rest) => format!("{out}.{rest}"),
        None => out,
    }
}

fn shown(value: &Value, unit: &str, decimals: Option<u64>) -> String {
    let unit_of_whole = unit;
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
            with_unit(thousands(&text))
        }
        // An input given as JSON is read, and said in words.
        Value::String(text) if text.trim_start().starts_with(['{', '[']) => match serde_json::from_str::<Value>(text) {
            Ok(inner) => in_a_line(&inner),
            Err(_) => "given as a text, kept in the field book".to_owned(),
        },
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
                    // The unit of the whole goes for its parts, where they have none of their own.
                    let unit = if unit.is_empty() && item.is_number() { unit_of_whole } else { unit };
                    format!("{} {}", bare.replace('_', " "), shown(item, unit, decimals))
                })
                .collect();
            parts.join("; ")
        }
    }
}
