//! The app's files: at every address of the app, in the form a browser takes, and only once.

use crate::asking::{bytes, get, header, problem, send, store};
use axum::Router;
use axum::body::Body;
use axum::http::{Request, StatusCode};
use server::{Asset, Assets, Setup};

const FILES: &[Asset] = &[
    Asset {
        path: "/index.html",
        plain: b"<!doctype html><title>App</title>",
        br: Some(b"page br"),
        gz: Some(b"page gz"),
    },
    Asset { path: "/service-worker.js", plain: b"// worker", br: None, gz: None },
    Asset { path: "/manifest.webmanifest", plain: b"{}", br: None, gz: None },
    Asset { path: "/app/0a1b/app.wasm", plain: b"\0asm\x01\0\0\0", br: Some(b"wasm br"), gz: Some(b"wasm gz") },
    Asset { path: "/app/0a1b/start.js", plain: b"start()", br: None, gz: Some(b"start gz") },
    Asset { path: "/app/0a1b/serif.woff2", plain: b"wOF2", br: None, gz: None },
];

/// A router with a small app in it.
pub fn with_app() -> Router {
    server::router_with(store(), Setup { assets: Assets::new(FILES), ..Setup::default() })
}

#[tokio::test]
async fn every_file_has_its_type() {
    let router = with_app();
    // RFC 9239 (JavaScript), the WebAssembly Web API (application/wasm, without which it cannot be compiled as it
    // arrives), RFC 8081 (font/woff2), W3C Web Application Manifest.
    for (path, kind) in [
        ("/", "text/html; charset=utf-8"),
        ("/service-worker.js", "text/javascript; charset=utf-8"),
        ("/manifest.webmanifest", "application/manifest+json"),
        ("/app/0a1b/app.wasm", "application/wasm"),
        ("/app/0a1b/start.js", "text/javascript; charset=utf-8"),
        ("/app/0a1b/serif.woff2", "font/woff2"),
    ] {
        let response = get(&router, path).await;
        assert_eq!(response.status(), StatusCode::OK, "{path}");
        assert_eq!(header(response.headers(), "content-type"), kind, "{path}");
    }
    assert_eq!(bytes(get(&router, "/").await).await, FILES[0].plain);
}

#[tokio::test]
async fn the_form_is_chosen_by_what_the_browser_takes() {
    let router = with_app();
    // RFC 9110, section 12.5.3.
    let cases: [(&str, &str, &[u8]); 9] = [
        ("gzip, deflate, br, zstd", "br", b"wasm br"),
        ("gzip, deflate", "gzip", b"wasm gz"),
        ("br;q=0.5, gzip;q=0.8", "gzip", b"wasm gz"),
        ("br;q=0, gzip", "gzip", b"wasm gz"),
        ("br;q=0, *", "gzip", b"wasm gz"),
        ("*", "br", b"wasm br"),
        ("BR", "br", b"wasm br"),
        ("identity", "", b"\0asm\x01\0\0\0"),
        ("", "", b"\0asm\x01\0\0\0"),
    ];
    for (accepted, coding, expected) in cases {
        let request = Request::get("/app/0a1b/app.wasm").header("accept-encoding", accepted);
        let response = send(&router, request, Body::empty()).await;
        assert_eq!(header(response.headers(), "content-encoding"), coding, "{accepted}");
        assert_eq!(header(response.headers(), "vary"), "accept-encoding", "{accepted}");
        assert_eq!(header(response.headers(), "content-length"), expected.len().to_string(), "{accepted}");
        assert_eq!(header(response.headers(), "content-type"), "application/wasm", "{accepted}");
        assert_eq!(bytes(response).await, expected, "{accepted}");
    }
    let only_gzip = Request::get("/app/0a1b/start.js").header("accept-encoding", "br");
    assert_eq!(bytes(send(&router, only_gzip, Body::empty()).await).await, b"start()");
    let font = get(&router, "/app/0a1b/serif.woff2").await;
    assert_eq!(header(font.headers(), "vary"), "");
}

#[tokio::test]
async fn what_never_changes_is_kept_for_good_and_the_rest_is_asked_for_anew() {
    let router = with_app();
    let built = get(&router, "/app/0a1b/start.js").await;
    assert_eq!(header(built.headers(), "cache-control"), "public, max-age=31536000, immutable");
    for path in ["/", "/service-worker.js", "/manifest.webmanifest"] {
        let first = get(&router, path).await;
        assert_eq!(header(first.headers(), "cache-control"), "no-cache", "{path}");
        let etag = header(first.headers(), "etag").to_owned();
        assert!(etag.starts_with('"') && etag.ends_with('"') && etag.len() > 30, "{path}");
        for (tags, status) in
            [(etag.clone(), 304), (format!("\"x\", W/{etag}"), 304), ("*".to_owned(), 304), ("\"x\"".to_owned(), 200)]
        {
            let request = Request::get(path).header("if-none-match", &tags);
            let response = send(&router, request, Body::empty()).await;
            assert_eq!(response.status(), status, "{path} {tags}");
            // RFC 9110, section 15.4.5: what a 304 must bear.
            assert_eq!(header(response.headers(), "etag"), etag);
            assert_eq!(header(response.headers(), "cache-control"), "no-cache");
            assert_eq!(bytes(response).await.is_empty(), status == 304);
        }
        // Another form is another representation (section 8.8.3.3).
        let packed = send(&router, Request::get(path).header("accept-encoding", "gzip"), Body::empty()).await;
        if header(packed.headers(), "content-encoding") == "gzip" {
            assert_ne!(header(packed.headers(), "etag"), etag);
        }
    }
    let packed = send(&router, Request::get("/").header("accept-encoding", "br"), Body::empty()).await;
    assert_eq!(header(packed.headers(), "content-encoding"), "br");
    assert!(header(packed.headers(), "etag").ends_with("-br\""));
}

#[tokio::test]
async fn the_page_answers_wherever_a_person_goes_in_the_app_and_nowhere_else() {
    let router = with_app();
    let ask = async |path: &str, accept: &str| {
        send(&router, Request::get(path).header("accept", accept), Body::empty()).await
    };
    // What browsers send for a page and for a picture.
    let page = "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8";
    let picture = "image/avif,image/webp,image/*,*/*;q=0.8";
    for path in ["/", "/survey/0190/hull", "/look", "/apple", "/apiary"] {
        let response = ask(path, page).await;
        assert_eq!(response.status(), StatusCode::OK, "{path}");
        assert_eq!(bytes(response).await, FILES[0].plain, "{path}");
    }
    for path in ["/api", "/api/nowhere", "/api/surveys/x/y/z", "/app", "/app/0a1b/gone.js"] {
        problem(ask(path, page).await, 404).await;
    }
    for (path, accept) in
        [("/missing.png", picture), ("/survey/1", "*/*"), ("/survey/1", "text/html;q=0, application/json")]
    {
        problem(ask(path, accept).await, 404).await;
    }
    for path in ["/../index.html", "/%2e%2e/index.html", "/index.html%00", "//index.html"] {
        problem(ask(path, picture).await, 404).await;
    }
    let head = send(&router, Request::head("/"), Body::empty()).await;
    assert_eq!(header(head.headers(), "content-length"), FILES[0].plain.len().to_string());
    assert_eq!(bytes(head).await, b"");
    for path in ["/", "/service-worker.js"] {
        let posted = send(&router, Request::post(path), Body::empty()).await;
        assert_eq!(header(posted.headers(), "allow"), "GET,HEAD");
        problem(posted, 405).await;
    }
}

#[tokio::test]
async fn the_plain_page_stays_reachable_and_no_longer_excuses_itself() {
    let page = String::from_utf8(bytes(get(&with_app(), "/plain").await).await).unwrap();
    assert!(page.contains("The surveys on this machine"));
    assert!(!page.contains("cargo demo"));
}

#[tokio::test]
async fn what_was_built_in_is_served_as_it_lies_in_the_folder() {
    // Whether or not the app was made before this program was built, both agree.
    let page = concat!(env!("CARGO_MANIFEST_DIR"), "/../app/dist/index.html");
    assert_eq!(Assets::built_in().has_page(), std::fs::exists(page).unwrap());
}
