//! Exchanging entries and attachments through the router.

use axum::Router;
use axum::body::Body;
use axum::http::{Request, Response, StatusCode};
use serde_json::{Value, json};
use std::sync::Arc;
use store::MemoryStore;
use survey::payload::{Brief, Payload};
use survey::{Digest, Entry, EntryId, Pen, SurveyId};
use tower::ServiceExt as _;

const SURVEY: SurveyId = SurveyId::from_bits(9);

fn fresh() -> Router {
    server::router(Arc::new(MemoryStore::default()))
}

fn written(count: u128) -> Vec<Entry> {
    let mut pen = Pen::new(SURVEY, "A. Surveyor", "browser-1");
    let brief = |n: u128| Payload::from(Brief { purpose: format!("purpose {n}"), ..Brief::default() });
    (1..=count).map(|n| pen.write(EntryId::from_bits(n), 1_780_000_000_000, &brief(n))).collect()
}

async fn send(router: &Router, request: axum::http::request::Builder, body: Vec<u8>) -> Response<Body> {
    let request = request.header("host", "localhost").body(Body::from(body)).expect("a request");
    router.clone().oneshot(request).await.expect("an answer")
}

async fn bytes(response: Response<Body>) -> Vec<u8> {
    axum::body::to_bytes(response.into_body(), 64 << 20).await.expect("a body").to_vec()
}

async fn json_of(response: Response<Body>) -> Value {
    serde_json::from_slice(&bytes(response).await).expect("JSON")
}

async fn post(router: &Router, survey: SurveyId, lines: &[&str]) -> Response<Body> {
    let request = Request::post(format!("/api/surveys/{survey}/entries")).header("content-type", "application/json");
    send(router, request, json!({"entries": lines}).to_string().into_bytes()).await
}

#[tokio::test]
async fn lines_come_back_as_they_went_and_only_those_after_the_cursor() {
    let router = fresh();
    let entries = written(3);
    let lines: Vec<&str> = entries.iter().map(Entry::line).collect();
    assert_eq!(json_of(post(&router, SURVEY, &lines[..2]).await).await["new"], 2);
    let again = json_of(post(&router, SURVEY, &lines).await).await;
    assert_eq!((&again["new"], &again["known"]), (&json!(1), &json!(2)));

    let path = format!("/api/surveys/{SURVEY}/entries");
    let all = json_of(send(&router, Request::get(&path), Vec::new()).await).await;
    assert_eq!(all["entries"], json!(lines));
    let rest = format!("{path}?after={}", all["cursor"]);
    let rest = json_of(send(&router, Request::get(rest), Vec::new()).await).await;
    assert_eq!((&rest["entries"], &rest["cursor"]), (&json!([]), &all["cursor"]));
}

#[tokio::test]
async fn a_line_that_is_no_entry_or_of_another_survey_is_refused_and_nothing_is_kept() {
    let router = fresh();
    let entries = written(1);
    let refused = post(&router, SURVEY, &[entries[0].line(), "{}"]).await;
    assert_eq!(refused.status(), StatusCode::UNPROCESSABLE_ENTITY);
    assert!(json_of(refused).await["detail"].as_str().unwrap().starts_with("Entry 2:"));
    let elsewhere = post(&router, SurveyId::from_bits(10), &[entries[0].line()]).await;
    assert_eq!(elsewhere.status(), StatusCode::UNPROCESSABLE_ENTITY);
    let all = send(&router, Request::get(format!("/api/surveys/{SURVEY}/entries")), Vec::new()).await;
    assert_eq!(json_of(all).await["entries"], json!([]));
}

#[tokio::test]
async fn an_attachment_is_kept_under_its_own_digest_only_and_handed_out_in_parts() {
    let router = fresh();
    let png = b"\x89PNG\r\n\x1a\n and what follows".to_vec();
    let path = format!("/api/attachments/{}", Digest::of(&png));
    assert_eq!(send(&router, Request::get(&path), Vec::new()).await.status(), StatusCode::NOT_FOUND);
    assert_eq!(send(&router, Request::put(&path), b"others".to_vec()).await.status(), StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(send(&router, Request::put(&path), png.clone()).await.status(), StatusCode::CREATED);
    assert_eq!(send(&router, Request::put(&path), png.clone()).await.status(), StatusCode::NO_CONTENT);
    let whole = send(&router, Request::get(&path), Vec::new()).await;
    assert_eq!(whole.headers()["content-type"], "image/png");
    assert_eq!(bytes(whole).await, png);
    let part = send(&router, Request::get(&path).header("range", "bytes=1-3"), Vec::new()).await;
    assert_eq!(part.status(), StatusCode::PARTIAL_CONTENT);
    assert_eq!(part.headers()["content-range"], format!("bytes 1-3/{}", png.len()));
    assert_eq!(bytes(part).await, b"PNG");
    let head = send(&router, Request::head(&path), Vec::new()).await;
    assert_eq!(head.headers()["content-length"], png.len().to_string());
}

#[tokio::test]
async fn what_a_page_could_run_is_not_served_as_such() {
    let router = fresh();
    let html = b"<!doctype html><script>alert(1)</script>".to_vec();
    let path = format!("/api/attachments/{}", Digest::of(&html));
    send(&router, Request::put(&path), html).await;
    let got = send(&router, Request::get(&path), Vec::new()).await;
    assert_eq!(got.headers()["content-type"], "application/octet-stream");
    assert_eq!(got.headers()["content-disposition"], "attachment");
}

#[tokio::test]
async fn a_new_survey_has_a_name_of_its_own() {
    let router = fresh();
    let mut names = Vec::new();
    for _ in 0..2 {
        let said = json_of(send(&router, Request::post("/api/surveys"), Vec::new()).await).await;
        names.push(said["survey"].as_str().unwrap().parse::<SurveyId>().unwrap());
    }
    assert_ne!(names[0], names[1]);
}

#[tokio::test]
async fn whoever_listens_is_told_the_cursor_and_then_of_new_entries() {
    use futures_util::StreamExt as _;
    let router = fresh();
    let entries = written(1);
    let response = send(&router, Request::get(format!("/api/surveys/{SURVEY}/live")), Vec::new()).await;
    assert_eq!(response.headers()["content-type"], "text/event-stream");
    let mut events = response.into_body().into_data_stream();
    let first = events.next().await.unwrap().unwrap();
    assert_eq!(&first[..], b"event: cursor\ndata: 0\n\n");
    post(&router, SURVEY, &[entries[0].line()]).await;
    let second = events.next().await.unwrap().unwrap();
    assert!(second.starts_with(b"event: cursor\ndata: "));
    assert_ne!(first, second);
}
