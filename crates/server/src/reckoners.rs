//! The table of reckoners over HTTP.

use crate::problem::Problem;
use crate::surveys::blocking;
use axum::Json;
use axum::extract::Path;
use serde_json::{Map, Value, json};

pub async fn list() -> Json<Value> {
    Json(reckon::list())
}

pub async fn reckon(Path(topic): Path<String>, Json(inputs): Json<Map<String, Value>>) -> Result<Json<Value>, Problem> {
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
