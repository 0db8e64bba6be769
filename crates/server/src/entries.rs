//! Exchanging entries: handing out the lines that came after a cursor, and taking lines written elsewhere.

use crate::Shared;
use crate::problem::Problem;
use crate::surveys::blocking;
use axum::Json;
use axum::extract::{Path, Query, State};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use store::{Position, StoreFault};
use survey::{Entry, EntryId, SurveyId};
use uuid::Uuid;

/// Most entries handed out at a time.
const BATCH: usize = 2000;

/// From where to hand out entries.
#[derive(Debug, Default, Deserialize)]
pub struct After {
    /// The cursor of the answer before; from the beginning when left out.
    #[serde(default)]
    after: Position,
}

/// Entries as their exact lines.
#[derive(Debug, Serialize)]
pub struct Handed {
    /// Where to go on.
    cursor: Position,
    /// Whether there are more at once.
    more: bool,
    /// The lines, each one entry; the bytes that its hash is of.
    entries: Vec<String>,
}

/// Entries on their way in.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Incoming {
    /// The lines.
    entries: Vec<String>,
}

/// What came of them.
#[derive(Debug, Serialize)]
pub struct TakenIn {
    /// How many are new and kept.
    new: u64,
    /// How many were here already.
    known: u64,
    /// Names under which an entry of other content was here already; both are kept.
    clashes: Vec<EntryId>,
}

/// Draws the identifier of a new survey. Nothing is kept until its first entry comes.
pub async fn new_survey() -> Json<Value> {
    Json(json!({"survey": SurveyId::new(Uuid::now_v7())}))
}

/// Hands out the entries of a survey after a cursor. A survey of which nothing is here has none.
pub async fn since(
    State(store): State<Shared>,
    Path(survey): Path<String>,
    Query(After { after }): Query<After>,
) -> Result<Json<Handed>, Problem> {
    let survey = named(&survey)?;
    blocking(move || {
        let kept = store.kept_since(Some(survey), after, BATCH).map_err(fault)?;
        let cursor = kept.last().map_or(after, |last| last.position);
        let more = kept.len() == BATCH;
        let line = |kept: store::KeptEntry| kept.read().map(|entry| entry.line().to_owned());
        let entries = kept.into_iter().map(line).collect::<Result<_, _>>().map_err(fault)?;
        Ok(Json(Handed { cursor, more, entries }))
    })
    .await
}

/// Takes entries written elsewhere: all or, at the first fault, none.
pub async fn take(
    State(store): State<Shared>,
    Path(survey): Path<String>,
    Json(incoming): Json<Incoming>,
) -> Result<Json<TakenIn>, Problem> {
    let survey = named(&survey)?;
    blocking(move || {
        let read = |(n, line): (usize, &String)| {
            let entry = Entry::read(line).map_err(|why| Problem::input(format!("Entry {}: {why}.", n + 1)))?;
            if entry.survey == survey {
                return Ok(entry);
            }
            let other = entry.survey;
            Err(Problem::input(format!("Entry {} belongs to survey {other}; accepted here is {survey}.", n + 1)))
        };
        let entries = incoming.entries.iter().enumerate().map(read).collect::<Result<Vec<_>, _>>()?;
        let taken = store.take_all(&entries).map_err(fault)?;
        Ok(Json(TakenIn { new: taken.new, known: taken.known, clashes: taken.clashes }))
    })
    .await
}

/// Reads a survey's identifier.
pub fn named(text: &str) -> Result<SurveyId, Problem> {
    text.parse().map_err(|_| Problem::not_found("This is not a survey's identifier (a UUID)."))
}

/// Tells whose fault a store's fault is.
pub fn fault(fault: StoreFault) -> Problem {
    match &fault {
        StoreFault::Refused { .. } | StoreFault::AttachmentWrong { .. } => Problem::input(fault.to_string()),
        StoreFault::NoAttachment { .. } => Problem::not_found(fault.to_string()),
        _ => Problem::undone(fault.to_string()),
    }
}
