//! `ribband list`.

use super::{print, print_json};
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::{Value, json};

pub fn run(desk: &mut Desk, as_json: bool) -> Result<(), Fault> {
    let mut rows = Vec::new();
    for survey in desk.surveys()? {
        let state = desk.state(survey)?;
        let name = state.vessel().map_or_else(|| "no name yet".to_owned(), |v| v.payload.name.clone());
        let purpose = state.brief().map_or_else(String::new, |b| b.payload.purpose.clone());
        rows.push((survey, name, purpose, state.len(), state.latest()));
    }
    if as_json {
        let list: Vec<Value> = rows
            .iter()
            .map(|(survey, name, purpose, entries, latest)| {
                json!({"survey": survey.to_string(), "vessel": name, "purpose": purpose, "entries": entries,
                    "latest": latest.to_string()})
            })
            .collect();
        return print_json(&Value::Array(list));
    }
    if rows.is_empty() {
        return print("No surveys yet. `ribband create` opens one; `ribband demo` loads an invented boat.");
    }
    for (survey, name, purpose, entries, latest) in rows {
        print(&format!("{}  {name}  {purpose}  {entries} entries, the latest {latest}", survey.short()))?;
    }
    Ok(())
}
