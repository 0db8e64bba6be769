//! The server through its router, with a store in memory.

use axum::body::Body;
use axum::http::{Request, Response, StatusCode};
use serde_json::{Value, json};
use std::sync::Arc;
use store::{MemoryStore, write_down};
use survey::payload::{Brief, Payload, Vessel};
use survey::{EntryId, SurveyId};
use tower::ServiceExt as _;

const SURVEY: SurveyId = SurveyId::from_bits(7);

fn store() -> Arc<MemoryStore> {
    let store = MemoryStore::default();
    let brief = Brief { purpose: "pre-purchase <script>".into(), ..Brief::default() };
    let vessel = Vessel { name: "\"><script>alert(1)</script>".into(), ..Vessel::default() };
    let payloads = [(EntryId::from_bits(1), Payload::from(brief)), (EntryId::from_bits(2), Payload::from(vessel))];
    write_down(&store, SURVEY, "A. Surveyor", "office", 1_780_000_000_000, &payloads).expect("entries are kept");
    Arc::new(store)
}

async fn ask(request: axum::http::request::Builder, body: &str) -> Response<Body> {
    let request = request.body(Body::from(body.to_owned())).expect("a request");
    server::router(store()).oneshot(request).await.expect("an answer")
}

async fn get(path: &str) -> Response<Body> {
    ask(Request::get(path).header("host", "localhost:7340"), "").await
}

async fn bytes(response: Response<Body>) -> Vec<u8> {
    axum::body::to_bytes(response.into_body(), 64 << 20).await.expect("a body").to_vec()
}

async fn json_of(response: Response<Body>) -> Value {
    serde_json::from_slice(&bytes(response).await).expect("JSON")
}

#[tokio::test]
async fn the_front_page_lists_surveys_and_nothing_in_a_name_is_markup() {
    let response = get("/").await;
    assert_eq!(response.status(), StatusCode::OK);
    let page = String::from_utf8(bytes(response).await).unwrap();
    assert!(page.contains("&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;"), "{page}");
    assert!(!page.contains("<script"));
    assert!(page.contains(&format!("/api/surveys/{SURVEY}/report.pdf")));
}

#[tokio::test]
async fn every_answer_forbids_what_comes_from_elsewhere() {
    for path in ["/", "/style.css", "/api/surveys", "/nowhere"] {
        let response = get(path).await;
        let header =
            |name: &str| response.headers().get(name).map(|v| v.to_str().unwrap().to_owned()).unwrap_or_default();
        assert!(header("content-security-policy").starts_with("default-src 'self'"), "{path}");
        assert!(!header("content-security-policy").contains("unsafe-inline"), "{path}");
        assert_eq!(header("x-content-type-options"), "nosniff", "{path}");
    }
}

#[tokio::test]
async fn another_name_for_this_machine_and_another_site_are_refused() {
    let response = ask(Request::get("/").header("host", "rebound.example"), "").await;
    assert_eq!(response.status(), StatusCode::FORBIDDEN);
    let from_elsewhere = |name: &str, value: &str| {
        Request::post("/api/reckon/emc")
            .header("host", "127.0.0.1:7340")
            .header("content-type", "application/json")
            .header(name, value)
    };
    for (name, value) in
        [("sec-fetch-site", "cross-site"), ("sec-fetch-site", "same-site"), ("origin", "http://evil.example")]
    {
        let response = ask(from_elsewhere(name, value), "{}").await;
        assert_eq!(response.status(), StatusCode::FORBIDDEN, "{name}: {value}");
    }
    let own = ask(from_elsewhere("origin", "http://127.0.0.1:7340"), r#"{"temp_c": 20, "rh_percent": 65}"#).await;
    assert_eq!(own.status(), StatusCode::OK);
}

#[tokio::test]
async fn a_survey_is_listed_read_and_its_report_typeset() {
    let list = json_of(get("/api/surveys").await).await;
    assert_eq!((&list[0]["survey"], &list[0]["entries"]), (&json!(SURVEY), &json!(2)));
    let state = json_of(get(&format!("/api/surveys/{SURVEY}/state")).await).await;
    assert_eq!(state["records"].as_array().unwrap().len(), 2);
    let response = get(&format!("/api/surveys/{SURVEY}/report.pdf")).await;
    assert_eq!(response.headers()["content-type"], "application/pdf");
    assert!(bytes(response).await.starts_with(b"%PDF-"));
}

#[tokio::test]
async fn faults_are_problem_details() {
    // RFC 9457: the media type, and the members type, title, status and detail.
    for path in [
        "/nowhere".to_owned(),
        "/api/surveys/x/state".to_owned(),
        format!("/api/surveys/{}/state", SurveyId::from_bits(8)),
    ] {
        let response = get(&path).await;
        assert_eq!(response.status(), StatusCode::NOT_FOUND, "{path}");
        assert_eq!(response.headers()["content-type"], "application/problem+json", "{path}");
        let problem = json_of(response).await;
        for member in ["type", "title", "status", "detail"] {
            assert!(problem.get(member).is_some(), "{path}: {member}");
        }
    }
}

#[tokio::test]
async fn a_reckoning_answers_with_figures_and_drawings_and_a_refusal_says_why() {
    let post =
        || Request::post("/api/reckon/emc").header("host", "localhost").header("content-type", "application/json");
    let answer = json_of(ask(post(), r#"{"temp_c": 20, "rh_percent": 65}"#).await).await;
    assert!(answer["results"]["emc_percent"].as_f64().unwrap() > 11.0);
    assert!(answer["sheets"][0].as_str().unwrap().starts_with("<svg"));
    let refused = ask(post(), r#"{"temp_c": 20, "rh_percent": 165}"#).await;
    assert_eq!(refused.status(), StatusCode::UNPROCESSABLE_ENTITY);
    assert!(json_of(refused).await["detail"].as_str().unwrap().contains("--rh-percent"));
}
