//! Faults as problem details (RFC 9457).

use axum::extract::rejection::{JsonRejection, PathRejection, QueryRejection};
use axum::http::{Method, StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use std::time::Duration;
use store::StoreFault;
use utoipa::ToSchema;

/// What went wrong with a request: a status and one sentence for a person.
#[derive(Clone, Debug)]
pub struct Problem {
    status: StatusCode,
    detail: String,
}

/// Problem details as they are written (RFC 9457, section 3.1).
#[derive(Serialize, ToSchema)]
#[schema(as = Problem)]
pub struct ProblemDetails {
    /// Always `about:blank`: the status says what kind it is.
    #[serde(rename = "type")]
    kind: &'static str,
    /// The status in words.
    title: &'static str,
    /// The status.
    status: u16,
    /// One sentence: what was wrong, where, what is accepted.
    detail: String,
}

impl Problem {
    /// Returns the problem of something that is not there.
    pub fn not_found(detail: impl Into<String>) -> Self {
        Self::of(StatusCode::NOT_FOUND, detail)
    }

    /// Returns the problem of input that is not accepted.
    pub fn input(detail: impl Into<String>) -> Self {
        Self::of(StatusCode::UNPROCESSABLE_ENTITY, detail)
    }

    /// Returns the problem of a request that is refused for where it comes from.
    pub fn refused(detail: impl Into<String>) -> Self {
        Self::of(StatusCode::FORBIDDEN, detail)
    }

    /// Returns the problem of a device that is not let in: never paired and turned out are answered alike.
    pub fn not_paired() -> Self {
        Self::of(
            StatusCode::UNAUTHORIZED,
            "This device is not paired with the workbench here. Ask for an invitation at the desk.",
        )
    }

    /// Returns the problem of a kind of file that is not taken.
    pub fn wrong_kind(detail: impl Into<String>) -> Self {
        Self::of(StatusCode::UNSUPPORTED_MEDIA_TYPE, detail)
    }

    /// Returns the problem of a body that is too large.
    pub fn too_large(most: u64) -> Self {
        Self::of(StatusCode::PAYLOAD_TOO_LARGE, format!("This is too large; accepted are up to {most} bytes."))
    }

    /// Returns the problem of a body that did not arrive whole; whoever still listens may try again.
    pub fn broken_off() -> Self {
        Self::of(StatusCode::REQUEST_TIMEOUT, "The attachment did not arrive whole. Try again.")
    }

    /// Returns the problem of a range of bytes that is not there.
    pub fn no_such_bytes(length: u64) -> Self {
        Self::of(StatusCode::RANGE_NOT_SATISFIABLE, format!("There are no such bytes; the attachment has {length}."))
    }

    /// Returns the problem of a method that an address does not know.
    pub fn method(method: &Method) -> Self {
        Self::of(StatusCode::METHOD_NOT_ALLOWED, format!("This address does not know the method {method}."))
    }

    /// Returns the problem of an answer that took too long.
    pub fn too_slow(within: Duration) -> Self {
        let seconds = within.as_secs_f64();
        let detail =
            format!("This took longer than {seconds} s and was given up; nothing recorded is lost. Try again.");
        Self::of(StatusCode::SERVICE_UNAVAILABLE, detail)
    }

    /// Returns the problem of something that could not be done here.
    pub fn undone(detail: impl Into<String>) -> Self {
        Self::of(StatusCode::INTERNAL_SERVER_ERROR, detail)
    }

    /// Returns the problem of a fault in our own code.
    pub fn failed() -> Self {
        Self::undone("Something failed here; nothing recorded is lost.")
    }

    fn of(status: StatusCode, detail: impl Into<String>) -> Self {
        Self { status, detail: detail.into() }
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let details = ProblemDetails {
            kind: "about:blank",
            title: self.status.canonical_reason().unwrap_or("Problem"),
            status: self.status.as_u16(),
            detail: self.detail,
        };
        let headers = [(header::CONTENT_TYPE, "application/problem+json"), (header::CACHE_CONTROL, "no-store")];
        (self.status, headers, serde_json::to_string(&details).unwrap_or_default()).into_response()
    }
}

/// Tells whose fault a store's fault is.
impl From<StoreFault> for Problem {
    fn from(fault: StoreFault) -> Self {
        let status = match &fault {
            StoreFault::Refused { .. } | StoreFault::AttachmentWrong { .. } => StatusCode::UNPROCESSABLE_ENTITY,
            StoreFault::NoAttachment { .. } => StatusCode::NOT_FOUND,
            StoreFault::Source(_) => return Self::broken_off(),
            StoreFault::Busy { .. } => StatusCode::SERVICE_UNAVAILABLE,
            StoreFault::Full { .. } => StatusCode::INSUFFICIENT_STORAGE,
            _ => StatusCode::INTERNAL_SERVER_ERROR,
        };
        Self::of(status, fault.to_string())
    }
}

macro_rules! from_rejection {
    ($($rejection:ty),*) => {$(
        impl From<$rejection> for Problem {
            fn from(rejection: $rejection) -> Self {
                Self::of(rejection.status(), format!("{}.", rejection.body_text().trim_end_matches('.')))
            }
        }
    )*};
}
from_rejection!(JsonRejection, PathRejection, QueryRejection);

/// Answers a method that an address does not know.
pub async fn not_that_way(method: Method) -> Problem {
    Problem::method(&method)
}

/// Returns the answer to what is not served.
pub fn nothing_here(uri: &Uri) -> Problem {
    if uri.path().starts_with("/api/") {
        Problem::not_found("There is nothing at this address; /api/openapi.json describes what there is.")
    } else {
        Problem::not_found("There is nothing at this address; the surveys are listed at /plain.")
    }
}
