//! Keeping an answer of a reckoner in the survey, whole: inputs, version, equation, sources, cautions.

use reckon::Reckoned;
use serde_json::Value;
use survey::payload::Reckoning;

/// Returns the entry that keeps an answer; `member` may be empty.
pub fn reckoning_of(reckoned: &Reckoned, member: &str, note: &str) -> Reckoning {
    let whole = reckoned.to_json();
    let lines = |key: &str| -> Vec<String> {
        let all = whole.get(key).and_then(Value::as_array).into_iter().flatten();
        all.filter_map(|line| line.as_str().map(str::to_owned)).collect()
    };
    Reckoning {
        topic: reckoned.topic.name.to_owned(),
        version: reckoned.topic.version,
        inputs: whole.get("inputs").cloned().unwrap_or_default(),
        results: whole.get("results").cloned().unwrap_or_default(),
        equation: whole.get("equation").and_then(Value::as_str).unwrap_or_default().to_owned(),
        sources: lines("sources"),
        cautions: lines("cautions"),
        member: Some(member.to_owned()).filter(|member| !member.is_empty()),
        note: note.trim().to_owned(),
    }
}
