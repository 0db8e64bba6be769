//! Who is answered, and what browsers are told.

use crate::asking::{bare, get, header, problem, send, store};
use axum::body::Body;
use axum::http::{Request, StatusCode};
use std::collections::BTreeMap;

/// Reads a policy into its directives (Content Security Policy Level 3, section 2.2.1).
fn directives(policy: &str) -> BTreeMap<&str, Vec<&str>> {
    policy
        .split(';')
        .filter_map(|directive| {
            let mut words = directive.split_ascii_whitespace();
            Some((words.next()?, words.collect()))
        })
        .collect()
}

#[tokio::test]
async fn every_answer_forbids_what_comes_from_elsewhere() {
    let router = bare(store());
    for path in ["/", "/plain", "/plain.css", "/api/surveys", "/api/openapi.json", "/api/nowhere", "/nowhere"] {
        let response = get(&router, path).await;
        let headers = response.headers();
        let policy = directives(header(headers, "content-security-policy"));
        assert_eq!(policy["default-src"], ["'none'"], "{path}");
        for needed in ["frame-ancestors", "base-uri", "form-action"] {
            // These do not fall back to default-src (section 6).
            assert_eq!(policy[needed], ["'none'"], "{path}: {needed}");
        }
        assert!(!policy.contains_key("script-src"), "{path}");
        assert_eq!(header(headers, "x-content-type-options"), "nosniff", "{path}");
        assert_eq!(header(headers, "referrer-policy"), "no-referrer", "{path}");
        assert_eq!(header(headers, "cross-origin-opener-policy"), "same-origin", "{path}");
        assert_eq!(header(headers, "cross-origin-resource-policy"), "same-origin", "{path}");
        let permissions = header(headers, "permissions-policy");
        assert!(permissions.contains("camera=(self)") && permissions.contains("microphone=(self)"), "{path}");
        assert!(permissions.contains("geolocation=()"), "{path}");
    }
}

#[tokio::test]
async fn the_app_may_run_its_own_scripts_and_nothing_else() {
    let router = crate::app::with_app();
    for path in ["/", "/app/0a1b/start.js", "/survey/x/hull"] {
        let request = Request::get(path).header("accept", "text/html");
        let response = send(&router, request, Body::empty()).await;
        assert_eq!(response.status(), StatusCode::OK, "{path}");
        let policy = directives(header(response.headers(), "content-security-policy"));
        assert_eq!(policy["default-src"], ["'none'"]);
        assert_eq!(policy["script-src"], ["'self'", "'wasm-unsafe-eval'"]);
        assert_eq!(policy["style-src"], ["'self'"]);
        assert_eq!(policy["connect-src"], ["'self'"]);
        assert_eq!(policy["frame-ancestors"], ["'none'"]);
        assert_eq!(policy["base-uri"], ["'none'"]);
        for (directive, sources) in &policy {
            for source in sources {
                let own = ["'none'", "'self'", "blob:", "data:"].contains(source);
                let wasm = *directive == "script-src" && *source == "'wasm-unsafe-eval'";
                assert!(own || wasm, "{directive} {source}");
            }
        }
        for strict in ["script-src", "style-src", "worker-src", "connect-src", "default-src"] {
            assert!(!policy[strict].contains(&"data:") && !policy[strict].contains(&"blob:"), "{strict}");
        }
    }
}

#[tokio::test]
async fn another_name_for_this_machine_is_refused() {
    let router = bare(store());
    for host in ["rebound.example", "localhost.rebound.example", "192.168.0.7:7340", "localhost:7340.evil", ""] {
        let response = send(&router, Request::get("/api/surveys").header("host", host), Body::empty()).await;
        assert!(problem(response, 403).await.contains("localhost"), "{host}");
    }
    for host in ["localhost", "LOCALHOST:7340", "127.0.0.1:80", "[::1]:7340", "[::1]"] {
        let response = send(&router, Request::get("/api/surveys").header("host", host), Body::empty()).await;
        assert_eq!(response.status(), StatusCode::OK, "{host}");
    }
}

#[tokio::test]
async fn another_site_may_neither_write_nor_read() {
    let router = bare(store());
    // Fetch Metadata Request Headers (W3C), section 2.3: cross-site, same-site, same-origin, none. A page on another
    // port of this machine is same-site.
    let cases = [
        (vec![("sec-fetch-site", "cross-site")], false),
        (vec![("sec-fetch-site", "same-site")], false),
        (vec![("sec-fetch-site", "same-origin")], true),
        (vec![("sec-fetch-site", "none")], true),
        (vec![("origin", "http://evil.example")], false),
        (vec![("origin", "null")], false),
        (vec![("origin", "http://localhost:9999")], false),
        (vec![("origin", "http://localhost:7340")], true),
        (vec![("sec-fetch-site", "same-origin"), ("origin", "http://evil.example")], false),
        (vec![], true),
    ];
    for (headers, allowed) in cases {
        let mut request = Request::post("/api/reckon/emc").header("content-type", "application/json");
        for (name, value) in &headers {
            request = request.header(*name, *value);
        }
        let response = send(&router, request, r#"{"temp_c": 20, "rh_percent": 65}"#).await;
        assert_eq!(response.status(), if allowed { 200 } else { 403 }, "{headers:?}");
    }
    let read = async |mode: &str| {
        let request =
            Request::get("/api/surveys").header("sec-fetch-site", "cross-site").header("sec-fetch-mode", mode);
        send(&router, request, Body::empty()).await.status()
    };
    assert_eq!(read("no-cors").await, StatusCode::FORBIDDEN);
    assert_eq!(read("navigate").await, StatusCode::OK);
}

#[tokio::test]
async fn a_form_of_another_site_could_not_post_json_even_without_the_guard() {
    // HTML forms send three types only (HTML Living Standard, section 4.10.18.6); none of them is taken as JSON.
    let router = bare(store());
    for kind in ["application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "text/plain"] {
        let request = Request::post("/api/reckon/emc").header("content-type", kind);
        problem(send(&router, request, r#"{"temp_c": 20, "rh_percent": 65}"#).await, 415).await;
    }
    problem(send(&router, Request::post("/api/reckon/emc"), "{}").await, 415).await;
}
