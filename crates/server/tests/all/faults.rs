//! Every fault is answered as problem details (RFC 9457).

use crate::asking::{bare, header, post, problem, send, store};
use axum::body::Body;
use axum::http::{Method, Request};
use serde_json::json;
use server::{Assets, Limits, Setup};
use std::io::Read;
use std::path::Path;
use std::sync::Arc;
use std::time::Duration;
use store::{
    AttachmentRead, Head, Incoming, KeptAttachment, KeptEntry, Position, Store, StoreFault, SurveyKept, Taken, Writer,
};
use survey::{Digest, Entry, SurveyId};

/// A store in which listing surveys ends badly: by panic, or never in time.
struct Failing(Duration);

impl Store for Failing {
    fn surveys(&self) -> Result<Vec<SurveyKept>, StoreFault> {
        assert!(!self.0.is_zero(), "this store panics");
        std::thread::sleep(self.0);
        Ok(Vec::new())
    }
    fn append_with(&self, _: SurveyId, _: &str, _: &mut Writer<'_>) -> Result<Vec<Entry>, StoreFault> {
        unreachable!()
    }
    fn take(&self, _: &mut Incoming<'_>) -> Result<Taken, StoreFault> {
        unreachable!()
    }
    fn kept_since(&self, _: Option<SurveyId>, _: Position, _: usize) -> Result<Vec<KeptEntry>, StoreFault> {
        unreachable!()
    }
    fn kept(&self, _: &Digest) -> Result<Option<KeptEntry>, StoreFault> {
        unreachable!()
    }
    fn lacks(&self, _: &[Digest]) -> Result<Vec<Digest>, StoreFault> {
        unreachable!()
    }
    fn head(&self, _: SurveyId, _: &str) -> Result<Head, StoreFault> {
        unreachable!()
    }
    fn put_attachment(&self, _: &mut dyn Read, _: Option<&Digest>) -> Result<KeptAttachment, StoreFault> {
        unreachable!()
    }
    fn open_attachment(&self, _: &Digest) -> Result<(u64, Box<dyn AttachmentRead>), StoreFault> {
        unreachable!()
    }
    fn lacks_attachments(&self, _: &[Digest]) -> Result<Vec<Digest>, StoreFault> {
        unreachable!()
    }
    fn attachments_after(&self, _: Option<&Digest>, _: usize) -> Result<Vec<Digest>, StoreFault> {
        unreachable!()
    }
    fn check_itself(&self) -> Result<Vec<String>, StoreFault> {
        unreachable!()
    }
    fn cache_dir(&self) -> Option<&Path> {
        None
    }
}

#[tokio::test]
async fn what_is_not_there_and_what_is_asked_the_wrong_way() {
    let router = bare(store());
    for path in ["/nowhere", "/api", "/api/", "/api/nowhere", "/api/surveys/x/state", "/app/x.js"] {
        let response = send(&router, Request::get(path).header("accept", "text/html"), Body::empty()).await;
        problem(response, 404).await;
    }
    for (method, path, allowed) in [
        (Method::DELETE, "/api/surveys", "GET,HEAD,POST"),
        (Method::PUT, "/api/reckon", "GET,HEAD"),
        (Method::GET, "/api/reckon/emc", "POST"),
        (Method::POST, "/plain", "GET,HEAD"),
    ] {
        let response = send(&router, Request::builder().method(&method).uri(path), Body::empty()).await;
        // RFC 9110, section 15.5.6: the answer must list what is allowed.
        let mut told: Vec<&str> = header(response.headers(), "allow").split(',').collect();
        told.sort_unstable();
        assert_eq!(told.join(","), allowed, "{method} {path}");
        assert!(problem(response, 405).await.contains(method.as_str()));
    }
}

#[tokio::test]
async fn what_cannot_be_read() {
    let router = bare(store());
    let path = "/api/reckon/emc";
    let json = |body: &'static str| send(&router, Request::post(path).header("content-type", "application/json"), body);
    problem(json("{").await, 400).await;
    problem(json("").await, 400).await;
    problem(json("[1]").await, 422).await;
    problem(send(&router, Request::post(path).header("content-type", "text/plain"), "{}").await, 415).await;
    let latin = send(&router, Request::post(path).header("content-type", "application/json"), &b"{\"a\":\"\xe9\"}"[..]);
    problem(latin.await, 400).await;
}

#[tokio::test]
async fn what_is_too_large() {
    let limits = Limits { json_bytes: 1000, ..Limits::default() };
    let router = server::router_with(
        store(),
        Setup { limits, assets: Assets::default(), issuer: None, clients: None, devices: None },
    );
    let fits = post(&router, "/api/reckon/emc", &json!({"temp_c": 20, "rh_percent": 65})).await;
    assert_eq!(fits.status(), 200);
    let large = json!({"entries": ["x".repeat(1000)]});
    problem(post(&router, &format!("/api/surveys/{}/entries", crate::asking::SURVEY), &large).await, 413).await;
}

#[tokio::test]
async fn what_fails_in_our_own_code_or_takes_too_long() {
    let panics = server::router(Arc::new(Failing(Duration::ZERO)));
    for path in
        ["/api/surveys".to_owned(), "/plain".to_owned(), format!("/api/surveys/{}/live", SurveyId::from_bits(1))]
    {
        let detail = problem(send(&panics, Request::get(path), Body::empty()).await, 500).await;
        assert!(!detail.contains("this store panics"), "a fault's inner words are not for others");
    }
    let limits = Limits { answer_within: Duration::from_millis(50), ..Limits::default() };
    let setup = Setup { limits, assets: Assets::default(), issuer: None, clients: None, devices: None };
    let slow = server::router_with(Arc::new(Failing(Duration::from_secs(2))), setup);
    let detail = problem(send(&slow, Request::get("/api/surveys"), Body::empty()).await, 503).await;
    assert!(detail.contains("0.05 s"), "{detail}");
}
