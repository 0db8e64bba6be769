//! What answers at addresses that are not of the interface: the app, or the plain page.

use crate::policy;
use crate::problem::{Problem, nothing_here};
use crate::surveys::summaries;
use crate::workbench::Shared;
use axum::extract::State;
use axum::http::{HeaderMap, Method, Uri, header};
use axum::response::{Html, IntoResponse, Response};
use std::fmt::Write as _;

/// What the plain page says when there is no app.
const NO_WORKBENCH: &str = "<p>This build has no workbench for the browser; <code>cargo demo</code> makes it and \
                            serves it with the invented boat.</p>";

/// Answers everything that has no route of its own: files of the app, and its page wherever a person goes.
pub async fn front(State(shared): State<Shared>, method: Method, uri: Uri, headers: HeaderMap) -> Response {
    let path = uri.path();
    let is_page = path == "/" || shared.assets.has(path);
    if method != Method::GET && method != Method::HEAD {
        return if is_page {
            ([(header::ALLOW, "GET,HEAD")], Problem::method(&method)).into_response()
        } else {
            nothing_here(&uri).into_response()
        };
    }
    if let Some(file) = shared.assets.answer(path, &method, &headers) {
        return file;
    }
    if path == "/" {
        return plain(State(shared)).await.into_response();
    }
    let ours = |folder: &str| path.strip_prefix(folder).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'));
    if !ours("/api") && !ours("/app") && takes_a_page(&headers) {
        // The app's own addresses: it reads from them what to show.
        if let Some(page) = shared.assets.answer("/", &method, &headers) {
            return page;
        }
    }
    nothing_here(&uri).into_response()
}

/// Tells whether a person asks, by a browser: one that takes HTML by name. Everything is taken by pictures and
/// scripts too, and those must not get a page in their place.
fn takes_a_page(headers: &HeaderMap) -> bool {
    let accepted = headers.get_all(header::ACCEPT).iter().filter_map(|value| value.to_str().ok());
    accepted.flat_map(|value| value.split(',')).any(|item| {
        let mut parts = item.split(';').map(str::trim);
        let is_html = parts.next().is_some_and(|kind| kind.eq_ignore_ascii_case("text/html"));
        is_html && !parts.any(|part| part.strip_prefix("q=").is_some_and(|q| q.parse() == Ok(0.0)))
    })
}

/// The plain page: the surveys here, and their reports, without the app.
pub async fn plain(State(shared): State<Shared>) -> Result<Response, Problem> {
    let has_page = shared.assets.has_page();
    let summaries = summaries(shared).await?;
    let mut rows = String::new();
    for survey in &summaries {
        let vessel = if survey.vessel.is_empty() { "No name yet" } else { &survey.vessel };
        let _ = write!(
            rows,
            "<li><h2>{}</h2><p>{} · {} entries · the latest {}</p>\
             <p><a href=\"/api/surveys/{id}/report.pdf\">Report (PDF)</a> · \
             <a href=\"/api/surveys/{id}/state\">What the survey says now (JSON)</a></p></li>",
            escaped(vessel),
            escaped(&survey.purpose),
            survey.entries,
            escaped(&survey.latest),
            id = survey.survey,
        );
    }
    let surveys = if rows.is_empty() {
        "<p>No surveys yet. <code>ribband create</code> opens one, and <code>ribband demo</code> loads an invented \
         boat.</p>"
            .to_owned()
    } else {
        format!("<ul>{rows}</ul>")
    };
    let workbench = if has_page { "" } else { NO_WORKBENCH };
    let page = format!(
        "<!doctype html><html lang=\"en-GB\"><head><meta charset=\"utf-8\"><title>Ribband</title>\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
         <link rel=\"stylesheet\" href=\"/plain.css\"></head><body><main><h1>Ribband</h1>\
         <p>The surveys on this machine. A report is typeset when you open it; the first takes a few seconds.</p>\
         {workbench}{surveys}<p class=\"small\">The workbench supports a surveyor’s judgement. It replaces neither \
         that judgement nor local codes, class, flag or licensed engineers.</p></main></body></html>"
    );
    let headers = [(header::CONTENT_SECURITY_POLICY, policy::PLAIN_PAGE), (header::CACHE_CONTROL, "no-store")];
    Ok((headers, Html(page)).into_response())
}

/// The plain page's style.
pub async fn style() -> impl IntoResponse {
    let headers = [(header::CONTENT_TYPE, "text/css; charset=utf-8"), (header::CACHE_CONTROL, "no-cache")];
    (headers, include_str!("plain.css"))
}

/// Escapes text for HTML.
pub(crate) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out
}
