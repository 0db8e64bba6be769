//! Surveys: the list, and what one says now.

use crate::problem::Problem;
use crate::taken_apart::PathPart;
use crate::workbench::{Shared, Workbench};
use axum::Json;
use axum::extract::State;
use serde::Serialize;
use serde_json::Value;
use std::sync::{Arc, PoisonError};
use survey::payload::Payload;
use survey::{Digest, EntryId, SurveyId};
use utoipa::ToSchema;

/// A survey in the list.
#[derive(Clone, Debug, Serialize, ToSchema)]
pub struct Summary {
    /// The survey.
    #[schema(value_type = Uuid)]
    pub survey: SurveyId,
    /// The boat's name; empty while none is recorded.
    pub vessel: String,
    /// What the survey is for; empty while there is no brief.
    pub purpose: String,
    /// Who engaged the surveyor; empty while it is not recorded.
    pub client: String,
    /// How many entries there are.
    pub entries: usize,
    /// When the latest was written: RFC 3339, in Universal Time.
    pub latest: String,
    /// How many findings stand.
    pub findings: usize,
}

/// What a survey says now.
#[derive(Debug, Serialize, ToSchema)]
pub struct Now {
    /// The survey.
    #[schema(value_type = Uuid)]
    survey: SurveyId,
    /// Digest of the field book: SHA-256 over the hashes of all entries, sorted.
    #[schema(value_type = String)]
    field_book: Digest,
    /// The records, in the order in which they were begun.
    records: Vec<RecordNow>,
}

/// A record as it stands.
#[derive(Debug, Serialize, ToSchema)]
pub struct RecordNow {
    /// The entry that began it.
    #[schema(value_type = Uuid)]
    id: EntryId,
    /// Its kind.
    kind: String,
    /// What it says, in the form of its kind.
    payload: Value,
    /// How many versions there are.
    versions: usize,
    /// Whether it was withdrawn.
    withdrawn: bool,
    /// Whether two people amended it at once and nobody has settled it yet.
    disputed: bool,
}

/// Returns the surveys here, with what is needed to choose one. Only those that changed are folded.
pub async fn summaries(shared: Shared) -> Result<Vec<Summary>, Problem> {
    blocking(move || {
        let kept = shared.store.surveys()?;
        kept.into_iter().map(|kept| summary(&shared, kept)).collect()
    })
    .await
}

fn summary(shared: &Workbench, kept: store::SurveyKept) -> Result<Summary, Problem> {
    let lock = || shared.summaries.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((position, summary)) = lock().get(&kept.survey)
        && *position == kept.last
    {
        return Ok(summary.clone());
    }
    let (position, state) = shared.folded.state(shared.store.as_ref(), kept.survey)?;
    let brief = state.brief();
    let summary = Summary {
        survey: kept.survey,
        vessel: state.vessel().map_or_else(String::new, |vessel| vessel.payload.name.clone()),
        purpose: brief.as_ref().map_or_else(String::new, |brief| brief.payload.purpose.clone()),
        client: brief.as_ref().map_or_else(String::new, |brief| brief.payload.client.clone()),
        entries: state.len(),
        latest: state.latest().to_string(),
        findings: state.findings().count(),
    };
    lock().insert(kept.survey, (position, summary.clone()));
    Ok(summary)
}

/// Lists the surveys here.
#[utoipa::path(get, path = "/api/surveys", tag = "surveys", operation_id = "list_surveys",
    responses((status = OK, body = Vec<Summary>, description = "The surveys, by identifier")))]
pub async fn list(State(shared): State<Shared>) -> Result<Json<Vec<Summary>>, Problem> {
    summaries(shared).await.map(Json)
}

/// Tells what a survey says now: every record with the version that counts.
#[utoipa::path(get, path = "/api/surveys/{survey}/state", tag = "surveys", operation_id = "survey_state",
    params(("survey" = String, Path, description = "The survey, a UUID")),
    responses((status = OK, body = Now, description = "The records as they stand")))]
pub async fn state(State(shared): State<Shared>, PathPart(survey): PathPart<String>) -> Result<Json<Now>, Problem> {
    let survey = named(&survey)?;
    blocking(move || {
        let state = known(&shared, survey)?;
        let records = state
            .records()
            .iter()
            .map(|record| {
                let payload = match record.payload() {
                    Payload::Unknown { .. } => record.first().payload_json(),
                    known => known.to_json(),
                };
                RecordNow {
                    id: record.first().id,
                    kind: record.first().kind().to_owned(),
                    payload: serde_json::from_str(&payload).unwrap_or(Value::Null),
                    versions: record.versions().len(),
                    withdrawn: record.is_withdrawn(),
                    disputed: record.is_disputed(),
                }
            })
            .collect();
        Ok(Json(Now { survey, field_book: state.digest(), records }))
    })
    .await
}

/// Reads a survey's identifier.
pub fn named(text: &str) -> Result<SurveyId, Problem> {
    text.parse().map_err(|_| Problem::not_found("This is not a survey's identifier (a UUID)."))
}

/// Returns what a survey says now, and makes sure that it is here. Blocks.
pub fn known(shared: &Workbench, survey: SurveyId) -> Result<Arc<survey::State>, Problem> {
    let (_, state) = shared.folded.state(shared.store.as_ref(), survey)?;
    if state.is_empty() {
        return Err(Problem::not_found("There is no such survey here."));
    }
    Ok(state)
}

/// Runs what may block where blocking is allowed.
pub async fn blocking<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, Problem> + Send + 'static,
) -> Result<T, Problem> {
    match tokio::task::spawn_blocking(work).await {
        Ok(result) => result,
        Err(_) => Err(Problem::failed()),
    }
}
