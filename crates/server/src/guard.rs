//! What every request must pass, and what every answer bears: no other site may speak to us, and no page of ours may
//! load from another.

use crate::clients::ClientsAddress;
use crate::policy;
use crate::problem::Problem;
use axum::extract::{Request, State};
use axum::http::{HeaderName, HeaderValue, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};

/// Names under which this machine calls itself.
const OWN_NAMES: [&str; 3] = ["localhost", "127.0.0.1", "[::1]"];

/// Refuses what must not be answered, and sets the headers of every answer.
pub async fn guard(State(clients): State<Option<ClientsAddress>>, request: Request, next: Next) -> Response {
    with_policy(match refusal(clients.as_ref(), &request) {
        Some(problem) => problem.into_response(),
        None => next.run(request).await,
    })
}

/// Sets the headers of every answer that it does not have yet.
pub fn with_policy(mut response: Response) -> Response {
    for (name, value) in policy::EVERY_ANSWER {
        response.headers_mut().entry(name).or_insert(HeaderValue::from_static(value));
    }
    response
}

/// Answers a panic in a handler.
pub fn panicked(_what: Box<dyn std::any::Any + Send>) -> Response {
    Problem::failed().into_response()
}

/// Refuses a name that is not this machine's (a page elsewhere whose name was made to point here), and what
/// [`from_elsewhere`] refuses.
fn refusal(clients: Option<&ClientsAddress>, request: &Request) -> Option<Problem> {
    let host = without_port(asked_host(request));
    if clients.is_some_and(|clients| clients.is_host(host)) {
        // Clients get what their links open, and learn nothing of anything else.
        let path = request.uri().path();
        let reads = [Method::GET, Method::HEAD].contains(request.method());
        let theirs = reads && (path.starts_with("/issued/") || path == "/plain.css");
        return (!theirs).then(|| Problem::not_found("There is nothing at this address."));
    }
    if !OWN_NAMES.iter().any(|own| own.eq_ignore_ascii_case(host)) {
        return Some(Problem::refused("The workbench answers only under the name of this machine, localhost."));
    }
    from_elsewhere(request, "http")
}

/// Returns the host that a request is for, with its port: HTTP/1.1 names it in a header, HTTP/2 and proxies in the
/// address.
pub fn asked_host(request: &Request) -> &str {
    let named = request.headers().get(header::HOST).and_then(|value| value.to_str().ok());
    named.or(request.uri().authority().map(|authority| authority.as_str())).unwrap_or_default()
}

/// Refuses anything that changes the record when another site asks for it, and reading the record from another site's
/// page.
pub fn from_elsewhere(request: &Request, scheme: &str) -> Option<Problem> {
    let text = |name: HeaderName| request.headers().get(name).and_then(|value| value.to_str().ok());
    let host = asked_host(request);
    let site = text(HeaderName::from_static("sec-fetch-site"));
    let method = request.method();
    if method == Method::GET || method == Method::HEAD {
        // A link from elsewhere may be followed; a picture or script of another page may not have us typeset reports.
        let followed = text(HeaderName::from_static("sec-fetch-mode")) == Some("navigate");
        let from_elsewhere = site.is_some_and(|site| site != "same-origin" && site != "none") && !followed;
        return (from_elsewhere && request.uri().path().starts_with("/api/"))
            .then(|| Problem::refused("Another site may not read here."));
    }
    let foreign_origin = text(header::ORIGIN).is_some_and(|origin| origin != format!("{scheme}://{host}"));
    let from_elsewhere = match site {
        Some(site) => (site != "same-origin" && site != "none") || foreign_origin,
        None => foreign_origin,
    };
    from_elsewhere.then(|| Problem::refused("Another site may not write here."))
}

/// Returns a host without its port; what stands in brackets (an IPv6 address) has colons of its own.
pub fn without_port(host: &str) -> &str {
    match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|byte| byte.is_ascii_digit()) => name,
        _ => host,
    }
}
