//! Asking the router, for the other tests.

use axum::Router;
use axum::body::Body;
use axum::http::request::Builder;
use axum::http::{HeaderMap, Request, Response};
use serde_json::{Value, json};
use std::sync::Arc;
use store::{MemoryStore, write_down};
use survey::payload::{Brief, Finding, Payload, Vessel};
use survey::{Entry, EntryId, Pen, SurveyId};
use tower::ServiceExt as _;

pub const SURVEY: SurveyId = SurveyId::from_bits(7);

/// A store with one invented survey in it, named so that a careless page would be misled.
pub fn store() -> Arc<MemoryStore> {
    let store = MemoryStore::default();
    let brief =
        Brief { purpose: "pre-purchase <script>".into(), client: "An invented client".into(), ..Brief::default() };
    let vessel = Vessel { name: "\"><script>alert(1)</script>".into(), ..Vessel::default() };
    let payloads = [
        (EntryId::from_bits(1), Payload::from(brief)),
        (EntryId::from_bits(2), Payload::from(vessel)),
        (EntryId::from_bits(3), Payload::from(finding())),
    ];
    write_down(&store, SURVEY, "A. Surveyor", "office", 1_780_000_000_000, &payloads).expect("entries are kept");
    Arc::new(store)
}

fn finding() -> Finding {
    let finding = json!({
        "title": "A soft hood end", "member": "garboard", "condition": "work_needed",
        "text": "The hood end takes the knife an inch deep.",
    });
    serde_json::from_value(finding).expect("a finding")
}

/// A router over an empty store, without an app.
pub fn fresh() -> Router {
    bare(Arc::new(MemoryStore::default()))
}

/// A router without an app, whatever was there at build time.
pub fn bare(store: Arc<MemoryStore>) -> Router {
    server::router_with(store, server::Setup { assets: server::Assets::default(), ..server::Setup::default() })
}

/// Entries of another device, written elsewhere.
pub fn written(survey: SurveyId, device: &str, count: u128) -> Vec<Entry> {
    let mut pen = Pen::new(survey, "A. Surveyor", device);
    let brief = |n: u128| Payload::from(Brief { purpose: format!("purpose {n}"), ..Brief::default() });
    (1..=count).map(|n| pen.write(EntryId::from_bits(100 + n), 1_780_000_000_000, &brief(n))).collect()
}

/// Sends a request under this machine's name.
pub async fn send(router: &Router, request: Builder, body: impl Into<Body>) -> Response<Body> {
    let named = request.headers_ref().is_some_and(|headers| headers.contains_key("host"));
    let request = if named { request } else { request.header("host", "localhost:7340") };
    let request = request.body(body.into()).expect("a request");
    router.clone().oneshot(request).await.expect("an answer")
}

pub async fn get(router: &Router, path: &str) -> Response<Body> {
    send(router, Request::get(path), Body::empty()).await
}

/// Posts JSON as the app's own pages do.
pub async fn post(router: &Router, path: &str, said: &Value) -> Response<Body> {
    let request =
        Request::post(path).header("content-type", "application/json").header("sec-fetch-site", "same-origin");
    send(router, request, said.to_string()).await
}

pub async fn post_lines(router: &Router, survey: SurveyId, lines: &[&str]) -> Response<Body> {
    post(router, &format!("/api/surveys/{survey}/entries"), &json!({ "entries": lines })).await
}

pub async fn bytes(response: Response<Body>) -> Vec<u8> {
    axum::body::to_bytes(response.into_body(), 64 << 20).await.expect("a body").to_vec()
}

pub async fn json_of(response: Response<Body>) -> Value {
    serde_json::from_slice(&bytes(response).await).expect("JSON")
}

/// Returns a header's text; empty where there is none.
pub fn header<'a>(headers: &'a HeaderMap, name: &str) -> &'a str {
    headers.get(name).map_or("", |value| value.to_str().expect("a header of text"))
}

/// Makes sure that an answer is problem details as RFC 9457 has them (sections 3 and 3.1), and returns the sentence.
pub async fn problem(response: Response<Body>, status: u16) -> String {
    assert_eq!(response.status().as_u16(), status);
    assert_eq!(header(response.headers(), "content-type"), "application/problem+json");
    let problem = json_of(response).await;
    assert_eq!(problem["status"], status);
    assert_eq!(problem["type"], "about:blank");
    assert!(!problem["title"].as_str().expect("a title").is_empty());
    problem["detail"].as_str().expect("a sentence").to_owned()
}
