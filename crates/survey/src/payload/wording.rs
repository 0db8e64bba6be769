//! What the reader of JSON says, in our own words.

use serde_json::Value;

/// Returns why a payload does not have the shape of its kind: what is wrong, where, and what is accepted.
pub(super) fn of(path: &str, said: &str, value: &Value) -> String {
    let at = if path.is_empty() { String::new() } else { format!("`{path}`") };
    // The value that was not accepted, where the path leads to it.
    let given = found(value, path).map(shown);
    sentence(&at, given.as_deref(), said)
}

/// Returns why a text is not JSON at all.
pub(crate) fn not_json(fault: &serde_json::Error) -> String {
    let at = format!("line {}, character {}", fault.line(), fault.column());
    if fault.is_eof() {
        return format!("the text ends before it is whole ({at}); accepted is one JSON object");
    }
    if fault.is_syntax() {
        return format!("this is not JSON ({at}); accepted is one JSON object");
    }
    sentence("", None, &fault.to_string())
}

/// Makes a sentence of one of the handful of things that a reader of typed JSON says.
fn sentence(at: &str, given: Option<&str>, said: &str) -> String {
    // What the reader adds about lines is of no use for text that was made from flags.
    let said = said.split(" at line ").next().unwrap_or(said);
    let is = |what: &str| match (at, given) {
        ("", _) => what.to_owned(),
        (at, Some(given)) => format!("{at} is {given}"),
        (at, None) => format!("{at}: {what}"),
    };
    if let Some(field) = quoted_after(said, "missing field ") {
        let within = if at.is_empty() { String::new() } else { format!(" in {at}") };
        return format!("`{field}` is missing{within}");
    }
    if let Some(field) = quoted_after(said, "unknown field ") {
        return format!("there is no field `{field}`{}", listed(said));
    }
    if let Some(word) = quoted_after(said, "unknown variant ") {
        let words = listed(said);
        return match given {
            Some(given) if given.contains(word) && !given.starts_with('{') => format!("{at} is {given}{words}"),
            _ if at.is_empty() => format!("`{word}` is not known{words}"),
            _ => format!("{at} holds `{word}`{words}"),
        };
    }
    let wanted = said.split_once(", expected ").map(|(_, wanted)| wanted);
    if let Some(wanted) = wanted.filter(|wanted| said.starts_with("invalid ") && !wanted.contains("date")) {
        return format!("{}; accepted is {}", is("a value is not of the kind wanted"), plain(wanted));
    }
    // The reader of days speaks at length of figures and hyphens.
    if ["day", "month", "year", "date"].iter().any(|word| said.contains(word)) {
        return format!("{}; accepted is a day, as 2026-06-03", is("a day cannot be read"));
    }
    // What our own types say is a sentence already.
    if at.is_empty() { said.to_owned() } else { format!("{at}: {said}") }
}

/// Returns what a reader wants, in words a person uses.
fn plain(wanted: &str) -> String {
    match wanted {
        "f64" | "f32" => "a number".to_owned(),
        "u8" | "u16" | "u32" | "u64" | "usize" => "a whole number from 0".to_owned(),
        "i8" | "i16" | "i32" | "i64" | "isize" => "a whole number".to_owned(),
        "a string" | "string" => "text".to_owned(),
        "a boolean" => "true or false".to_owned(),
        "a sequence" => "a list".to_owned(),
        "a map" => "a JSON object".to_owned(),
        w if w.starts_with("struct ") || w.starts_with("internally tagged enum") => "a JSON object".to_owned(),
        w if w.starts_with("a tuple of size ") => format!("a list of {}", &w["a tuple of size ".len()..]),
        other => other.to_owned(),
    }
}

/// Returns the accepted words that a reader lists, as the end of a sentence.
fn listed(said: &str) -> String {
    let Some((_, list)) = said.split_once("expected ") else { return String::new() };
    let list = list.trim_start_matches("one of ").replace(" or ", ", ");
    let words: Vec<&str> = list.split(", ").map(|word| word.trim_matches('`')).collect();
    format!("; accepted are {}", words.join(", "))
}

fn quoted_after<'a>(said: &'a str, before: &str) -> Option<&'a str> {
    said.strip_prefix(before)?.strip_prefix('`')?.split('`').next()
}

/// Returns the value at a path as the reader writes it: `place.frame_from`, `places[2].strake`.
fn found<'a>(value: &'a Value, path: &str) -> Option<&'a Value> {
    let mut at = value;
    for step in path.split('.').filter(|step| !step.is_empty()) {
        let (name, index) = match step.split_once('[') {
            Some((name, index)) => (name, Some(index.trim_end_matches(']').parse::<usize>().ok()?)),
            None => (step, None),
        };
        if !name.is_empty() {
            at = at.get(name)?;
        }
        if let Some(index) = index {
            at = at.get(index)?;
        }
    }
    Some(at)
}

/// Shows a value briefly and without control characters.
fn shown(value: &Value) -> String {
    let text: String = value.to_string().chars().filter(|c| !c.is_control()).collect();
    match text.chars().count() {
        0..=60 => text,
        _ => text.chars().take(57).chain("…".chars()).collect(),
    }
}
