//! How much and how long: bounds on requests.

use crate::problem::Problem;
use axum::extract::{Request, State};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};
use std::time::Duration;

/// Bounds on what one request may bring and how long it may take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Largest body of JSON, in bytes.
    pub json_bytes: usize,
    /// Largest attachment, in bytes.
    pub attachment_bytes: u64,
    /// How long an ordinary request may take.
    pub answer_within: Duration,
    /// How long the typesetting of a report may take. The first in a process reads the fonts.
    pub typeset_within: Duration,
    /// How long an attachment may take to arrive.
    pub upload_within: Duration,
    /// How often the store is asked for what other programs wrote to it.
    pub look_every: Duration,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            // A line may have 4 MiB; the app sends a longer batch in parts of 1 MiB.
            json_bytes: 16 << 20,
            attachment_bytes: 2 << 30,
            answer_within: Duration::from_secs(30),
            typeset_within: Duration::from_secs(180),
            upload_within: Duration::from_secs(1800),
            look_every: Duration::from_secs(2),
        }
    }
}

/// Ends a request that takes too long. What was begun in the store is finished there; only the answer is not waited
/// for.
pub async fn in_time(State(within): State<Duration>, request: Request, next: Next) -> Response {
    match tokio::time::timeout(within, next.run(request)).await {
        Ok(response) => response,
        Err(_) => Problem::too_slow(within).into_response(),
    }
}
