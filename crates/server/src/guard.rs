//! What every request and answer must pass: no other site may speak to us, and no page of ours may load from another.

use crate::problem::Problem;
use axum::extract::Request;
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};

const HEADERS: [(HeaderName, &str); 5] = [
    (
        header::CONTENT_SECURITY_POLICY,
        "default-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'",
    ),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

pub async fn guard(request: Request, next: Next) -> Response {
    let mut response = match refusal(request.method(), request.headers()) {
        Some(problem) => problem.into_response(),
        None => next.run(request).await,
    };
    for (name, value) in HEADERS {
        response.headers_mut().entry(name).or_insert(HeaderValue::from_static(value));
    }
    response
}

/// Refuses a name that is not this machine's (a page elsewhere whose name was made to point here), and anything that
/// changes the record when another site asks for it.
fn refusal(method: &Method, headers: &HeaderMap) -> Option<Problem> {
    let text = |name: HeaderName| headers.get(name).and_then(|value| value.to_str().ok());
    let host = text(header::HOST).unwrap_or_default();
    let name = host.rsplit_once(':').map_or(host, |(name, _)| name);
    if !["localhost", "127.0.0.1", "[::1]"].contains(&name) {
        return Some(Problem::refused("The workbench answers only under the name of this machine, localhost."));
    }
    if method == Method::GET || method == Method::HEAD {
        return None;
    }
    let from_elsewhere = match text(HeaderName::from_static("sec-fetch-site")) {
        Some(site) => site != "same-origin" && site != "none",
        None => text(header::ORIGIN).is_some_and(|origin| origin != format!("http://{host}")),
    };
    from_elsewhere.then(|| Problem::refused("Another site may not write here."))
}
