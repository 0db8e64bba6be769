//! From typed text to a payload's JSON and back.

use super::field::{Field, Kind};
use measure::{Length, Mass, System};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// What was typed, by the fields' keys. Rows have numbered keys (`places.0.side`); lists are lines of one text.
pub type Typed = BTreeMap<String, String>;

/// What is wrong with a field.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FieldFault {
    /// The field's key; a row's with its number.
    pub key: String,
    /// What was wrong and what is accepted, one sentence.
    pub why: String,
}

/// Returns what a form shows of a payload, lengths and masses in the system of units wanted.
pub fn fill(fields: &[Field], payload: &Value, system: System) -> Typed {
    let mut typed = Typed::new();
    for field in fields {
        if let Some(value) = at(payload, field.key) {
            show(&field.kind, field.key, value, system, &mut typed);
        }
    }
    // A measured value may have been entered without the words in which it was read.
    let reading = payload.get("reading");
    let of = |key: &str| reading.and_then(|reading| reading.get(key));
    if let (Some("measure"), None, Some(value), Some(unit)) =
        (of("method").and_then(Value::as_str), of("as_written"), of("value"), of("unit").and_then(Value::as_str))
    {
        typed.insert("reading.as_written".to_owned(), format!("{value} {unit}"));
    }
    typed
}

/// Reads what was typed. Starts from `original`, so that what the form does not show stays as it is; a field whose text
/// is still that of `filled` keeps its value to the last digit.
pub fn read(fields: &[Field], typed: &Typed, filled: &Typed, original: &Value) -> Result<Value, Vec<FieldFault>> {
    let mut payload = if original.is_object() { original.clone() } else { Value::Object(Map::new()) };
    let mut faults = Vec::new();
    // A field that is not asked leaves nothing behind, unless another of the same key is asked.
    for field in fields.iter().filter(|field| !field.is_asked(typed)) {
        put(&mut payload, field.key, None);
    }
    for field in fields.iter().filter(|field| field.is_asked(typed)) {
        if unchanged(field, typed, filled) && at(original, field.key).is_some() {
            let kept = at(original, field.key).cloned();
            put(&mut payload, field.key, kept);
            continue;
        }
        match read_one(&field.kind, field.key, typed) {
            Ok(None) if field.required => {
                faults.push(FieldFault { key: field.key.to_owned(), why: format!("{} is missing.", field.label) })
            }
            Ok(value) => put(&mut payload, field.key, value),
            Err(mut of_field) => faults.append(&mut of_field),
        }
    }
    measured(&mut payload, &mut faults);
    if faults.is_empty() { Ok(payload) } else { Err(faults) }
}

fn unchanged(field: &Field, typed: &Typed, filled: &Typed) -> bool {
    let of = |map: &Typed| -> Vec<(String, String)> {
        map.iter()
            .filter(|(key, _)| *key == field.key || key.starts_with(&format!("{}.", field.key)))
            .map(|(key, text)| (key.clone(), text.clone()))
            .collect()
    };
    matches!(field.kind, Kind::Fixed) || (!of(filled).is_empty() && of(typed) == of(filled))
}

/// A measured value is typed as it was read; the figure and its unit come from that.
fn measured(payload: &mut Value, faults: &mut Vec<FieldFault>) {
    let Some(reading) = payload.get_mut("reading").and_then(Value::as_object_mut) else { return };
    if reading.get("method").and_then(Value::as_str) != Some("measure") {
        return;
    }
    let Some(text) = reading.get("as_written").and_then(Value::as_str).map(str::to_owned) else { return };
    match figure_and_unit(&text) {
        Some((value, unit)) => {
            reading.insert("value".to_owned(), value.into());
            reading.insert("unit".to_owned(), unit.into());
        }
        None => faults.push(FieldFault {
            key: "reading.as_written".to_owned(),
            why: format!("“{text}” has no figure with a unit; write it like 5/8\", 16 mm, 12 kg or 3 deg."),
        }),
    }
}

fn figure_and_unit(text: &str) -> Option<(f64, String)> {
    if let Ok(length) = Length::read(text) {
        return Some((length.mm(), "mm".to_owned()));
    }
    if let Ok(mass) = Mass::read(text) {
        return Some((mass.kg(), "kg".to_owned()));
    }
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-'))).unwrap_or(text.len());
    let value: f64 = text[..end].replace(',', ".").parse().ok()?;
    let unit = text[end..].trim();
    (!unit.is_empty()).then(|| (value, unit.to_owned()))
}

fn read_one(kind: &Kind, key: &str, typed: &Typed) -> Result<Option<Value>, Vec<FieldFault>> {
    let text = typed.get(key).map_or("", String::as_str).trim();
    let fault = |why: String| Err(vec![FieldFault { key: key.to_owned(), why }]);
    if let Kind::Rows(fields) = kind {
        return read_rows(fields, key, typed);
    }
    if text.is_empty() {
        return Ok(matches!(kind, Kind::Tick).then_some(Value::Bool(false)));
    }
    let value = match kind {
        Kind::Line | Kind::Text | Kind::Choice(_) | Kind::Species | Kind::Member | Kind::Entry(_) | Kind::Fixed => {
            Value::from(text)
        }
        Kind::Number(unit) => match text.trim_end_matches(unit).trim().replace(',', ".").parse::<f64>() {
            Ok(number) if number.is_finite() => number.into(),
            _ => return fault(format!("“{text}” is not a number{}.", in_unit(unit))),
        },
        Kind::Count => match text.parse::<u32>() {
            Ok(count) => count.into(),
            Err(_) => return fault(format!("“{text}” is not a whole number from 0.")),
        },
        Kind::Length => match read_length(text) {
            Ok(length) => length,
            Err(why) => return fault(why),
        },
        Kind::Lengths(count) => match read_lengths(text, *count) {
            Ok(lengths) => lengths,
            Err(why) => return fault(why),
        },
        Kind::LengthRows(count) => {
            let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
            match lines.map(|line| read_lengths(line, *count)).collect::<Result<Vec<Value>, _>>() {
                Ok(rows) => rows.into(),
                Err(why) => return fault(why),
            }
        }
        Kind::Mass => match Mass::read(text) {
            Ok(mass) => mass.kg().into(),
            Err(why) => return fault(format!("“{text}” is not a mass ({why}); write it like 4.2 t or 12 lb.")),
        },
        Kind::Day => match text.parse::<jiff::civil::Date>() {
            Ok(day) => day.to_string().into(),
            Err(_) => return fault(format!("“{text}” is not a day; write it like 2026-06-03.")),
        },
        Kind::Tick => Value::Bool(text == "yes"),
        Kind::YesNo => Value::Bool(text == "yes"),
        Kind::Several(_) | Kind::Lines | Kind::Entries(_) => {
            text.lines().map(str::trim).filter(|line| !line.is_empty()).map(Value::from).collect()
        }
        Kind::Rows(_) => return Ok(None),
    };
    Ok(Some(value))
}

/// Reads a length. A bare number is taken in millimetres, the unit in which the record keeps lengths, and shown as
/// understood.
fn read_length(text: &str) -> Result<Value, String> {
    match text.replace(',', ".").parse::<f64>().map(Length::from_mm).or_else(|_| Length::read(text)) {
        Ok(length) if length.mm().is_finite() => Ok(length.mm().into()),
        Ok(_) => Err(format!("“{text}” is not a length.")),
        Err(why) => Err(format!("“{text}” is not a length ({why}); write it like 32 mm, 1.2 m, 5/8\" or 3'-4 1/2\".")),
    }
}

fn read_lengths(line: &str, count: usize) -> Result<Value, String> {
    let parts: Vec<&str> = line.split(';').map(str::trim).collect();
    if parts.len() != count {
        return Err(format!("“{line}” is not {count} lengths; part them by semicolons."));
    }
    parts.into_iter().map(read_length).collect::<Result<Vec<Value>, _>>().map(Value::from)
}

fn write_lengths(value: &Value, system: System) -> String {
    let lengths = value.as_array().into_iter().flatten().filter_map(Value::as_f64);
    lengths.map(|mm| Length::from_mm(mm).write(system)).collect::<Vec<_>>().join("; ")
}

/// Returns how a length typed so far is understood, for showing beside the field; `None` while it is none.
pub fn understood(text: &str, system: System) -> Option<String> {
    let text = text.trim();
    let length = text.replace(',', ".").parse::<f64>().map(Length::from_mm).or_else(|_| Length::read(text)).ok()?;
    length.mm().is_finite().then(|| length.write(system))
}

fn in_unit(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!(" in {unit}") }
}

/// Returns the numbers of the rows that were typed.
pub fn row_numbers(key: &str, typed: &Typed) -> Vec<usize> {
    let start = format!("{key}.");
    let mut numbers: Vec<usize> =
        typed.keys().filter_map(|k| k.strip_prefix(&start)?.split('.').next()?.parse().ok()).collect();
    numbers.sort_unstable();
    numbers.dedup();
    numbers
}

fn read_rows(fields: &[Field], key: &str, typed: &Typed) -> Result<Option<Value>, Vec<FieldFault>> {
    let mut rows = Vec::new();
    let mut faults = Vec::new();
    for number in row_numbers(key, typed) {
        let mut row = Value::Object(Map::new());
        let start = format!("{key}.{number}.");
        let empty = typed.iter().all(|(k, text)| !k.starts_with(&start) || text.trim().is_empty());
        if empty {
            continue;
        }
        for field in fields {
            let own = format!("{start}{}", field.key);
            match read_one(&field.kind, &own, typed) {
                Ok(None) if field.required => {
                    faults.push(FieldFault { key: own, why: format!("{} is missing.", field.label) });
                }
                Ok(value) => put(&mut row, field.key, value),
                Err(mut of_field) => faults.append(&mut of_field),
            }
        }
        rows.push(row);
    }
    match (faults.is_empty(), rows.is_empty()) {
        (false, _) => Err(faults),
        (true, true) => Ok(None),
        (true, false) => Ok(Some(Value::Array(rows))),
    }
}

fn show(kind: &Kind, key: &str, value: &Value, system: System, typed: &mut Typed) {
    let text = match (kind, value) {
        (_, Value::Null) => return,
        (Kind::Rows(fields), Value::Array(rows)) => {
            for (number, row) in rows.iter().enumerate() {
                for field in *fields {
                    if let Some(value) = at(row, field.key) {
                        show(&field.kind, &format!("{key}.{number}.{}", field.key), value, system, typed);
                    }
                }
            }
            return;
        }
        (Kind::Length, Value::Number(n)) => n.as_f64().map_or_else(String::new, |mm| Length::from_mm(mm).write(system)),
        (Kind::Lengths(_), lengths) => write_lengths(lengths, system),
        (Kind::LengthRows(_), Value::Array(rows)) => {
            rows.iter().map(|row| write_lengths(row, system)).collect::<Vec<_>>().join("\n")
        }
        (Kind::Mass, Value::Number(n)) => n.as_f64().map_or_else(String::new, |kg| Mass::from_kg(kg).write(system)),
        (Kind::Tick | Kind::YesNo, Value::Bool(yes)) => if *yes { "yes" } else { "no" }.to_owned(),
        (_, Value::Array(items)) => {
            let lines: Vec<String> = items.iter().map(plain).collect();
            lines.join("\n")
        }
        (_, other) => plain(other),
    };
    typed.insert(key.to_owned(), text);
}

fn plain(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

fn at<'a>(value: &'a Value, key: &str) -> Option<&'a Value> {
    key.split('.').try_fold(value, |value, part| value.get(part))
}

/// Puts a value at a dotted key, or removes what is there; objects left empty go too.
fn put(value: &mut Value, key: &str, new: Option<Value>) {
    let Some(object) = value.as_object_mut() else { return };
    match key.split_once('.') {
        None => match new {
            Some(new) => {
                object.insert(key.to_owned(), new);
            }
            None => {
                object.shift_remove(key);
            }
        },
        Some((first, rest)) => {
            if new.is_none() && !object.contains_key(first) {
                return;
            }
            let inner = object.entry(first.to_owned()).or_insert_with(|| Value::Object(Map::new()));
            put(inner, rest, new);
            if inner.as_object().is_some_and(Map::is_empty) {
                object.shift_remove(first);
            }
        }
    }
}
