//! The interface's description of itself (OpenAPI 3.1), written from the handlers.

use crate::problem::ProblemDetails;
use crate::workbench::Shared;
use axum::extract::State;
use axum::http::header;
use axum::response::IntoResponse;
use utoipa::OpenApi;
use utoipa::openapi::{ContentBuilder, Ref, RefOr, ResponseBuilder, path::Operation};

#[derive(OpenApi)]
#[openapi(
    info(
        title = "Ribband",
        description = "The workbench for surveyors of wooden boats, over HTTP. Entries are exchanged as the exact \
                       lines that their hashes are of; attachments are named by the SHA-256 of their bytes.",
        license(name = "Apache-2.0 OR MIT", identifier = "Apache-2.0 OR MIT")
    ),
    components(schemas(ProblemDetails)),
    tags(
        (name = "surveys", description = "The record of surveys, and exchanging it"),
        (name = "attachments", description = "Photographs, recordings and papers"),
        (name = "report", description = "The written report"),
        (name = "devices", description = "Phones and other devices that are let in"),
        (name = "reckoning", description = "Computations, each with its source"),
        (name = "description", description = "This description")
    )
)]
struct Described;

/// Returns the description without any routes.
pub fn begun() -> utoipa::openapi::OpenApi {
    Described::openapi()
}

/// Adds to every operation that anything may be answered by a problem, and writes the description as JSON.
pub fn finished(mut described: utoipa::openapi::OpenApi) -> String {
    for item in described.paths.paths.values_mut() {
        let operations = [&mut item.get, &mut item.put, &mut item.post, &mut item.delete];
        for operation in operations.into_iter().flatten() {
            may_fail(operation);
        }
    }
    described.to_json().unwrap_or_default()
}

fn may_fail(operation: &mut Operation) {
    // The sentences are wrapped as our comments are.
    for text in [&mut operation.summary, &mut operation.description].into_iter().flatten() {
        *text = text.replace('\n', " ");
    }
    let content = ContentBuilder::new().schema(Some(Ref::from_schema_name("Problem"))).build();
    let response = ResponseBuilder::new()
        .description("It could not be done; problem details (RFC 9457) say why")
        .content("application/problem+json", content)
        .build();
    operation.responses.responses.insert("default".to_owned(), RefOr::T(response));
}

/// Hands out the description of this interface (OpenAPI 3.1).
#[utoipa::path(get, path = "/api/openapi.json", tag = "description", operation_id = "description",
    responses((status = OK, content_type = "application/json", body = Object, description = "The description")))]
pub async fn description(State(shared): State<Shared>) -> impl IntoResponse {
    let headers = [(header::CONTENT_TYPE, "application/json"), (header::CACHE_CONTROL, "no-cache")];
    (headers, shared.description.clone())
}
