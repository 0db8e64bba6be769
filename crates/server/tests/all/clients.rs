//! What a client's link opens, to whom, and what it does not.

use crate::asking::{SURVEY, bytes, get, header, json_of, send, store};
use axum::Router;
use axum::body::Body;
use axum::http::{Request, StatusCode};
use std::sync::Arc;
use store::{MemoryStore, Store as _, write_down};
use survey::payload::{Amendment, ClientLink, Payload};
use survey::{Digest, EntryId};

const REPORT: EntryId = EntryId::from_bits(50);
const LINK: EntryId = EntryId::from_bits(51);
const PDF: &[u8] = b"%PDF-1.7 an invented report";

fn token() -> String {
    ClientLink::token([7; 32])
}

fn write(store: &MemoryStore, id: EntryId, payload: Payload) {
    write_down(store, SURVEY, "A. Surveyor", "office", 1_780_000_000_000, &[(id, payload)]).expect("an entry is kept");
}

/// A survey whose report went out, and a link to it until a day.
fn linked(until: &str) -> (Arc<MemoryStore>, Router) {
    let store = store();
    let sha256 = store.put_attachment(&mut &PDF[..], None).expect("it is kept").sha256;
    let issued = serde_json::json!({"version": 3, "date": "2026-06-04", "field_book": sha256, "sha256": sha256});
    write(&store, REPORT, Payload::read_strict("report_issued", &issued).expect("a report issued"));
    let token_sha256 = Digest::of(token().as_bytes());
    let until = until.parse().expect("a day");
    write(&store, LINK, ClientLink { report: REPORT, token_sha256, to: "A client".into(), until }.into());
    let setup = server::Setup {
        assets: server::Assets::default(),
        clients: Some("https://reports.example.org".parse().expect("an address")),
        ..server::Setup::default()
    };
    let router = server::router_with(store.clone(), setup);
    (store, router)
}

async fn as_client(router: &Router, path: &str) -> axum::http::Response<Body> {
    send(router, Request::get(path).header("host", "reports.example.org"), Body::empty()).await
}

#[tokio::test]
async fn a_link_opens_its_report_and_hostile_names_stay_words() {
    let (_, router) = linked("2199-12-31");
    let path = ClientLink::path(&token());
    let page = as_client(&router, &path).await;
    assert_eq!(page.status(), StatusCode::OK);
    assert_eq!(header(page.headers(), "cache-control"), "no-store");
    let page = String::from_utf8(bytes(page).await).expect("text");
    assert!(page.contains("version 3 of 2026-06-04") && page.contains(&Digest::of(PDF).to_string()), "{page}");
    assert!(!page.contains("<script>"), "{page}");
    let pdf = as_client(&router, &format!("{path}/report.pdf")).await;
    assert_eq!(header(pdf.headers(), "content-type"), "application/pdf");
    assert_eq!(bytes(pdf).await, PDF, "byte for byte");
    assert_eq!(json_of(get(&router, "/api/clients").await).await["address"], "https://reports.example.org");
}

#[tokio::test]
async fn wrong_expired_and_revoked_links_are_answered_alike() {
    let (_, good) = linked("2199-12-31");
    let wrong = as_client(&good, &ClientLink::path(&ClientLink::token([8; 32]))).await;
    assert_eq!(wrong.status(), StatusCode::NOT_FOUND);
    let wrong = bytes(wrong).await;
    let (_, expired) = linked("2026-06-05");
    let (store, revoked) = linked("2199-12-31");
    let path = ClientLink::path(&token());
    // Opened once before it is revoked: nothing of it may be remembered.
    assert_eq!(as_client(&revoked, &path).await.status(), StatusCode::OK);
    let why = "the matter is closed".to_owned();
    let amendment = Amendment { amends: LINK, settles: Vec::new(), why, payload: None };
    write(&store, EntryId::from_bits(52), amendment.into());
    for router in [&expired, &revoked] {
        for path in [path.clone(), format!("{path}/report.pdf")] {
            let answer = as_client(router, &path).await;
            assert_eq!(answer.status(), StatusCode::NOT_FOUND, "{path}");
            assert_eq!(bytes(answer).await, wrong, "{path}");
        }
    }
    for path in ["/issued/", "/issued/short", &format!("/issued/{}", "é".repeat(32))] {
        assert_ne!(as_client(&good, path).await.status(), StatusCode::OK, "{path}");
    }
}

#[tokio::test]
async fn under_the_clients_name_there_is_nothing_else() {
    let (_, router) = linked("2199-12-31");
    let others = ["/", "/plain", "/api/surveys", "/api/openapi.json", &format!("/api/attachments/{}", Digest::of(PDF))];
    for path in others {
        assert_eq!(as_client(&router, path).await.status(), StatusCode::NOT_FOUND, "{path}");
    }
    let posted = Request::post(ClientLink::path(&token())).header("host", "reports.example.org");
    assert_eq!(send(&router, posted, Body::empty()).await.status(), StatusCode::NOT_FOUND);
    let stranger = Request::get(ClientLink::path(&token())).header("host", "elsewhere.example.org");
    assert_eq!(send(&router, stranger, Body::empty()).await.status(), StatusCode::FORBIDDEN);
}

#[test]
fn an_address_is_https_and_a_name() {
    for good in ["https://reports.example.org", "https://reports.example.org:8443/"] {
        assert!(good.parse::<server::ClientsAddress>().is_ok(), "{good}");
    }
    let bad = ["http://reports.example.org", "reports.example.org", "https://a/b", "https://", "https://localhost", ""];
    for bad in bad {
        let fault = bad.parse::<server::ClientsAddress>().expect_err(bad);
        assert!(fault.to_string().contains("https://"), "{fault}");
    }
}
