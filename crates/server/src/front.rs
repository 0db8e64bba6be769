//! The plain front page: the surveys here, and their reports.

use crate::Shared;
use crate::problem::Problem;
use crate::surveys::summaries;
use axum::extract::State;
use axum::http::header;
use axum::response::{Html, IntoResponse};
use std::fmt::Write as _;

pub async fn front(State(store): State<Shared>) -> Result<Html<String>, Problem> {
    let summaries = summaries(store).await?;
    let mut rows = String::new();
    for survey in &summaries {
        let _ = write!(
            rows,
            "<li><h2>{}</h2><p>{} · {} entries · the latest {}</p>\
             <p><a href=\"/api/surveys/{id}/report.pdf\">Report (PDF)</a> · \
             <a href=\"/api/surveys/{id}/state\">What the survey says now (JSON)</a></p></li>",
            escaped(&survey.vessel),
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
    Ok(Html(format!(
        "<!doctype html><html lang=\"en-GB\"><head><meta charset=\"utf-8\"><title>Ribband</title>\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
         <link rel=\"stylesheet\" href=\"/style.css\"></head><body><main><h1>Ribband</h1>\
         <p>The surveys on this machine. A report is typeset when you open it; the first takes a few seconds.</p>\
         {surveys}<p class=\"small\">The workbench supports a surveyor’s judgement. It replaces neither that judgement \
         nor local codes, class, flag or licensed engineers.</p></main></body></html>"
    )))
}

pub async fn style() -> impl IntoResponse {
    ([(header::CONTENT_TYPE, "text/css; charset=utf-8")], include_str!("style.css"))
}

/// Escapes text for HTML.
fn escaped(text: &str) -> String {
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
