//! Surveys: the list, what one says now, and its report.

use crate::Shared;
use crate::problem::Problem;
use crate::written::write_report;
use axum::Json;
use axum::extract::{Path, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use serde_json::{Value, json};
use survey::SurveyId;

/// A survey in the list.
#[derive(Clone, Debug, Serialize)]
pub struct Summary {
    /// The survey.
    pub survey: SurveyId,
    /// The boat's name.
    pub vessel: String,
    /// What the survey is for.
    pub purpose: String,
    /// How many entries there are.
    pub entries: usize,
    /// When the latest was written.
    pub latest: String,
}

/// Returns the surveys here, with what is needed to choose one.
pub async fn summaries(store: Shared) -> Result<Vec<Summary>, Problem> {
    blocking(move || {
        let kept = store.surveys().map_err(|fault| Problem::undone(fault.to_string()))?;
        kept.into_iter()
            .map(|kept| {
                let state = store.state(kept.survey).map_err(|fault| Problem::undone(fault.to_string()))?;
                Ok(Summary {
                    survey: kept.survey,
                    vessel: state.vessel().map_or_else(|| "No name yet".to_owned(), |v| v.payload.name.clone()),
                    purpose: state.brief().map_or_else(String::new, |b| b.payload.purpose.clone()),
                    entries: state.len(),
                    latest: state.latest().to_string(),
                })
            })
            .collect()
    })
    .await
}

pub async fn list(State(store): State<Shared>) -> Result<Json<Vec<Summary>>, Problem> {
    summaries(store).await.map(Json)
}

pub async fn state(State(store): State<Shared>, Path(survey): Path<String>) -> Result<Json<Value>, Problem> {
    let survey = known(&store, &survey)?;
    blocking(move || {
        let state = store.state(survey).map_err(|fault| Problem::undone(fault.to_string()))?;
        let records: Vec<Value> = state
            .records()
            .iter()
            .map(|record| {
                let payload = match record.payload() {
                    survey::payload::Payload::Unknown { .. } => record.first().payload_json(),
                    known => known.to_json(),
                };
                json!({
                    "id": record.first().id,
                    "kind": record.first().kind(),
                    "payload": serde_json::from_str::<Value>(&payload).unwrap_or(Value::Null),
                    "versions": record.versions().len(),
                    "withdrawn": record.is_withdrawn(),
                    "disputed": record.is_disputed(),
                })
            })
            .collect();
        Ok(Json(json!({"survey": survey, "field_book": state.digest(), "records": records})))
    })
    .await
}

pub async fn report(State(store): State<Shared>, Path(survey): Path<String>) -> Result<Response, Problem> {
    let survey = known(&store, &survey)?;
    let written = blocking(move || {
        write_report(store.as_ref(), survey, report::Paper::A4, false)
            .map_err(|fault| Problem::undone(fault.to_string()))
    })
    .await?;
    let headers = [
        (header::CONTENT_TYPE, "application/pdf"),
        (header::CONTENT_DISPOSITION, "inline; filename=\"report.pdf\""),
        (header::CACHE_CONTROL, "no-cache"),
    ];
    Ok((headers, written.pdf.bytes).into_response())
}

/// Reads a survey's identifier and makes sure that it is here.
fn known(store: &Shared, text: &str) -> Result<SurveyId, Problem> {
    let survey: SurveyId =
        text.parse().map_err(|_| Problem::not_found("This is not a survey's identifier (a UUID)."))?;
    let kept = store.surveys().map_err(|fault| Problem::undone(fault.to_string()))?;
    if kept.iter().any(|kept| kept.survey == survey) {
        return Ok(survey);
    }
    Err(Problem::not_found("There is no such survey here."))
}

/// Runs what may block where blocking is allowed.
pub async fn blocking<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, Problem> + Send + 'static,
) -> Result<T, Problem> {
    match tokio::task::spawn_blocking(work).await {
        Ok(result) => result,
        Err(_) => Err(Problem::undone("Something failed here; nothing recorded is lost.")),
    }
}
