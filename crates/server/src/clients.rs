//! What a client's link opens: one report that went out, to be read and checked, until a day or until it is revoked.

use crate::front::escaped;
use crate::policy;
use crate::problem::Problem;
use crate::surveys::blocking;
use crate::taken_apart::PathPart;
use crate::workbench::{Shared, Workbench};
use axum::Json;
use axum::extract::State;
use axum::http::{HeaderName, StatusCode, header};
use axum::response::{Html, IntoResponse as _, Response};
use serde::Serialize;
use std::fmt;
use std::io::Read as _;
use std::str::FromStr;
use survey::Digest;
use survey::payload::ClientLink;
use utoipa::ToSchema;

/// Digits of a link's secret.
const TOKEN_DIGITS: usize = 64;

/// The address under which clients reach this server, through a proxy with a certificate: `https://reports.example.org`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClientsAddress {
    host: String,
    port: Option<u16>,
}

/// The text is not the address of a site.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0:?} is not accepted; accepted is https:// and a name, as in https://reports.example.org")]
pub struct NotAnAddress(String);

impl FromStr for ClientsAddress {
    type Err = NotAnAddress;

    fn from_str(text: &str) -> Result<Self, NotAnAddress> {
        let read = || {
            let (name, port) = match text.trim().strip_prefix("https://")?.trim_end_matches('/').split_once(':') {
                Some((name, port)) => (name, Some(port.parse().ok()?)),
                None => (text.trim().strip_prefix("https://")?.trim_end_matches('/'), None),
            };
            // The letters of host names (RFC 952, RFC 1123): no path, no user, nothing to be escaped.
            let is_name = name.split('.').all(|label| {
                !label.is_empty() && label.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-')
            });
            let own = ["localhost", "127.0.0.1"].contains(&name);
            (is_name && !own).then(|| Self { host: name.to_ascii_lowercase(), port })
        };
        read().ok_or_else(|| NotAnAddress(text.to_owned()))
    }
}

impl fmt::Display for ClientsAddress {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.port {
            Some(port) => write!(f, "https://{}:{port}", self.host),
            None => write!(f, "https://{}", self.host),
        }
    }
}

impl ClientsAddress {
    /// Tells whether a request named this host.
    pub(crate) fn is_host(&self, host: &str) -> bool {
        self.host.eq_ignore_ascii_case(host)
    }
}

/// Where clients open their links.
#[derive(Debug, Serialize, ToSchema)]
pub struct Clients {
    /// The address that a link begins with; null when only browsers of this machine can open it.
    address: Option<String>,
}

/// Tells where clients open the links they are given.
#[utoipa::path(get, path = "/api/clients", tag = "report", operation_id = "clients_address",
    responses((status = OK, body = Clients, description = "The address, if there is one")))]
pub async fn address(State(shared): State<Shared>) -> Json<Clients> {
    Json(Clients { address: shared.clients.as_ref().map(ToString::to_string) })
}

/// A report that a link opens.
struct Opened {
    vessel: String,
    version: u32,
    date: String,
    until: String,
    signed_by: String,
    pdf: Digest,
    signature: Option<Digest>,
}

/// The page behind a link: what the report is, and the report.
pub async fn page(State(shared): State<Shared>, PathPart(token): PathPart<String>) -> Response {
    let path = ClientLink::path(&token);
    let opened = match blocking(move || opened(&shared, &token)).await {
        Ok(Some(opened)) => opened,
        Ok(None) => return nothing(),
        Err(problem) => return problem.into_response(),
    };
    let vessel = if opened.vessel.is_empty() { "The report" } else { &opened.vessel };
    let signed =
        if opened.signed_by.is_empty() { String::new() } else { format!(", signed by {}", escaped(&opened.signed_by)) };
    let signature = match opened.signature {
        Some(_) => format!(
            "<li><h2><a href=\"{path}/report.pdf.sig\">The signature under it</a></h2><p>With the surveyor’s public \
             key, had by another way, <code>ribband verify report.pdf --public-key FILE</code> tells whether the \
             report is what was issued.</p></li>"
        ),
        None => String::new(),
    };
    let body = format!(
        "<h1>{}</h1><p>Survey report, version {} of {}{signed}.</p><ul><li><h2><a href=\"{path}/report.pdf\">The report \
         (PDF)</a></h2><p>SHA-256 {}</p></li>{signature}</ul><p class=\"small\">This link opens this one report, until \
         the end of {} (Universal Time) or until the surveyor withdraws it. Keep the file: the link will not last.</p>",
        escaped(vessel),
        opened.version,
        opened.date,
        opened.pdf,
        opened.until,
    );
    answer(StatusCode::OK, &body)
}

/// The report, or the signature under it.
pub async fn file(State(shared): State<Shared>, PathPart((token, file)): PathPart<(String, String)>) -> Response {
    let read = blocking(move || {
        let Some(opened) = opened(&shared, &token)? else { return Ok(None) };
        let (sha256, kind, placed) = match file.as_str() {
            "report.pdf" => (opened.pdf, "application/pdf", "inline; filename=\"report.pdf\""),
            "report.pdf.sig" => match opened.signature {
                Some(signature) => (signature, "application/json", "attachment; filename=\"report.pdf.sig\""),
                None => return Ok(None),
            },
            _ => return Ok(None),
        };
        let (_, mut content) = shared.store.open_attachment(&sha256)?;
        let mut bytes = Vec::new();
        let read = content.read_to_end(&mut bytes);
        read.map_err(|why| Problem::undone(format!("The report cannot be read: {why}.")))?;
        Ok(Some((kind, placed, bytes)))
    });
    match read.await {
        Ok(Some((kind, placed, bytes))) => {
            let locked = if kind == "application/pdf" { policy::PDF } else { policy::LOCKED_UP };
            let headers = [
                (header::CONTENT_TYPE, kind),
                (header::CONTENT_DISPOSITION, placed),
                (header::CONTENT_SECURITY_POLICY, locked),
                (header::CACHE_CONTROL, "no-store"),
                (HeaderName::from_static("x-robots-tag"), "noindex"),
            ];
            (headers, bytes).into_response()
        }
        Ok(None) => nothing(),
        Err(problem) => problem.into_response(),
    }
}

/// Looks a link up by the digest of its secret. Blocks.
fn opened(shared: &Workbench, token: &str) -> Result<Option<Opened>, Problem> {
    if token.len() != TOKEN_DIGITS || !token.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        return Ok(None);
    }
    let token_sha256 = Digest::of(token.as_bytes());
    let today = jiff::tz::Offset::UTC.to_datetime(jiff::Timestamp::now()).date();
    for kept in shared.store.surveys()? {
        let (_, state) = shared.folded.state(shared.store.as_ref(), kept.survey)?;
        let Some(link) = state.client_links().find(|link| link.payload.opens(token_sha256, today)) else { continue };
        let Some(report) = state.reports_issued().find(|report| report.id() == link.payload.report) else { continue };
        let signature = state.attachments_of(report.id()).find(|a| a.payload.media_type == "application/json");
        return Ok(Some(Opened {
            vessel: state.vessel().map(|vessel| vessel.payload.name.clone()).unwrap_or_default(),
            version: report.payload.version,
            date: report.payload.date.to_string(),
            until: link.payload.until.to_string(),
            signed_by: report.payload.issue.as_ref().map(|issue| issue.signed_by.clone()).unwrap_or_default(),
            pdf: report.payload.sha256,
            signature: signature.map(|a| a.payload.sha256),
        }));
    }
    Ok(None)
}

/// A link that opens nothing gives away nothing: mistyped, run out and withdrawn are answered alike.
fn nothing() -> Response {
    answer(
        StatusCode::NOT_FOUND,
        "<h1>No report here</h1><p>This link opens no report: it may be mistyped, have run out, or have been withdrawn. \
         Ask the surveyor who gave it to you for another.</p>",
    )
}

fn answer(status: StatusCode, body: &str) -> Response {
    let page = format!(
        "<!doctype html><html lang=\"en-GB\"><head><meta charset=\"utf-8\"><title>Survey report</title>\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
         <link rel=\"stylesheet\" href=\"/plain.css\"></head><body><main>{body}</main></body></html>"
    );
    let headers = [
        (header::CONTENT_SECURITY_POLICY, policy::PLAIN_PAGE),
        (header::CACHE_CONTROL, "no-store"),
        (HeaderName::from_static("x-robots-tag"), "noindex"),
    ];
    (status, headers, Html(page)).into_response()
}
