//! The table of reckoners over HTTP.

use crate::problem::Problem;
use crate::surveys::blocking;
use crate::taken_apart::{JsonBody, PathPart};
use axum::Json;
use serde_json::{Map, Value, json};

/// Lists the topics that can be reckoned, with what each takes, gives and rests on.
#[utoipa::path(get, path = "/api/reckon", tag = "reckoning", operation_id = "list_topics",
    responses((status = OK, body = Value, description = "The topics")))]
pub async fn list() -> Json<Value> {
    Json(reckon::list())
}

/// Reckons one topic. Inputs are named as in the list.
#[utoipa::path(post, path = "/api/reckon/{topic}", tag = "reckoning", operation_id = "reckon",
    params(("topic" = String, Path, description = "The topic's name", example = "emc")),
    request_body(content = Object, description = "The inputs, by name",
        example = json!({"temp_c": 20, "rh_percent": 65})),
    responses((status = OK, body = Value,
        description = "Results with their sources, and drawings as SVG in `sheets`")))]
pub async fn reckon(
    PathPart(topic): PathPart<String>,
    JsonBody(inputs): JsonBody<Map<String, Value>>,
) -> Result<Json<Value>, Problem> {
    let topic =
        reckon::find(&topic).ok_or_else(|| Problem::not_found("There is no such topic; /api/reckon lists them."))?;
    blocking(move || {
        let inputs =
            reckon::Inputs::from_json(topic, &inputs).map_err(|refusal| Problem::input(refusal.to_string()))?;
        let reckoned = topic.reckon(inputs).map_err(|refusal| Problem::input(refusal.to_string()))?;
        let mut answer = reckoned.to_json();
        answer["sheets"] = json!(reckoned.answer.sheets.iter().map(drawing::Sheet::to_svg).collect::<Vec<_>>());
        Ok(Json(answer))
    })
    .await
}
