//! Faults as problem details (RFC 9457).

use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde_json::json;

/// What went wrong with a request: a status and one sentence for a person.
#[derive(Clone, Debug)]
pub struct Problem {
    status: StatusCode,
    detail: String,
}

impl Problem {
    /// Returns the problem of something that is not there.
    pub fn not_found(detail: impl Into<String>) -> Self {
        Self { status: StatusCode::NOT_FOUND, detail: detail.into() }
    }

    /// Returns the problem of input that is not accepted.
    pub fn input(detail: impl Into<String>) -> Self {
        Self { status: StatusCode::UNPROCESSABLE_ENTITY, detail: detail.into() }
    }

    /// Returns the problem of a request that is refused for where it comes from.
    pub fn refused(detail: impl Into<String>) -> Self {
        Self { status: StatusCode::FORBIDDEN, detail: detail.into() }
    }

    /// Returns the problem of something that could not be done here.
    pub fn undone(detail: impl Into<String>) -> Self {
        Self { status: StatusCode::INTERNAL_SERVER_ERROR, detail: detail.into() }
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let body = json!({
            "type": "about:blank",
            "title": self.status.canonical_reason().unwrap_or("Problem"),
            "status": self.status.as_u16(),
            "detail": self.detail,
        });
        let kind = [(header::CONTENT_TYPE, "application/problem+json")];
        (self.status, kind, body.to_string()).into_response()
    }
}

/// Answers what is not served.
pub async fn nothing_here() -> Problem {
    Problem::not_found("There is nothing at this address; the surveys are listed at /.")
}
