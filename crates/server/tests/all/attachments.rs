//! Attachments: kept under their digest, handed out whole and in parts.

use crate::asking::{bytes, fresh, get, header, problem, send};
use axum::Router;
use axum::body::Body;
use axum::http::{Request, Response, StatusCode};
use std::sync::Arc;
use store::MemoryStore;
use survey::Digest;

fn png(bytes: usize) -> Vec<u8> {
    let mut png = b"\x89PNG\r\n\x1a\n".to_vec();
    png.extend((png.len()..bytes).map(|n| (n % 251) as u8));
    png
}

async fn put(router: &Router, content: &[u8]) -> (String, Response<Body>) {
    let path = format!("/api/attachments/{}", Digest::of(content));
    let response = send(router, Request::put(&path), content.to_vec()).await;
    (path, response)
}

#[tokio::test]
async fn an_attachment_is_kept_under_its_own_digest_only() {
    let router = fresh();
    let png = png(1000);
    let path = format!("/api/attachments/{}", Digest::of(&png));
    problem(get(&router, &path).await, 404).await;
    problem(send(&router, Request::put(&path), "others").await, 422).await;
    problem(get(&router, &path).await, 404).await;
    assert_eq!(put(&router, &png).await.1.status(), StatusCode::CREATED);
    assert_eq!(put(&router, &png).await.1.status(), StatusCode::NO_CONTENT);
    let whole = get(&router, &path).await;
    let headers = whole.headers().clone();
    assert_eq!(header(&headers, "content-type"), "image/png");
    assert_eq!(header(&headers, "content-length"), "1000");
    assert_eq!(header(&headers, "x-content-type-options"), "nosniff");
    assert!(header(&headers, "content-disposition").starts_with("inline; filename=\""));
    assert!(header(&headers, "content-security-policy").contains("sandbox"));
    assert!(header(&headers, "content-security-policy").contains("default-src 'none'"));
    assert!(header(&headers, "cache-control").contains("immutable"));
    assert_eq!(bytes(whole).await, png);
}

#[tokio::test]
async fn one_of_several_pieces_comes_back_whole() {
    let router = fresh();
    let png = png(700_000);
    let (path, _) = put(&router, &png).await;
    assert_eq!(Digest::of(&bytes(get(&router, &path).await).await), Digest::of(&png));
    let across = send(&router, Request::get(&path).header("range", "bytes=262140-524300"), Body::empty()).await;
    assert_eq!(bytes(across).await, &png[262_140..=524_300]);
}

#[tokio::test]
async fn ranges_are_answered_as_rfc_9110_section_14_has_them() {
    let router = fresh();
    let png = png(10_000);
    let (path, _) = put(&router, &png).await;
    let ask = async |range: &str| send(&router, Request::get(&path).header("range", range), Body::empty()).await;
    // Section 14.1.2, the examples for 10000 bytes; section 14.4, Content-Range; section 15.3.7, 206.
    for (range, from, to) in [
        ("bytes=0-499", 0, 499),
        ("bytes=500-999", 500, 999),
        ("bytes=-500", 9500, 9999),
        ("bytes=9500-", 9500, 9999),
        ("bytes=9900-20000", 9900, 9999),
        ("bytes=-20000", 0, 9999),
    ] {
        let part = ask(range).await;
        assert_eq!(part.status(), StatusCode::PARTIAL_CONTENT, "{range}");
        assert_eq!(header(part.headers(), "content-range"), format!("bytes {from}-{to}/10000"), "{range}");
        assert_eq!(header(part.headers(), "content-length"), (to - from + 1).to_string(), "{range}");
        assert_eq!(bytes(part).await, &png[from..=to], "{range}");
    }
    // Section 15.5.17: 416 tells the length.
    for range in ["bytes=10000-", "bytes=-0"] {
        let refused = ask(range).await;
        assert_eq!(header(refused.headers(), "content-range"), "bytes */10000", "{range}");
        problem(refused, 416).await;
    }
    // Section 14.2: invalid ranges, unknown units and (as is allowed) several ranges are passed over.
    for range in ["bytes=9-2", "bytes=a-b", "furlongs=1-2", "bytes=0-0,-1"] {
        let whole = ask(range).await;
        assert_eq!(whole.status(), StatusCode::OK, "{range}");
        assert_eq!(bytes(whole).await.len(), 10_000, "{range}");
    }
    // Section 14.3: the server tells that it takes ranges. Section 14.2: with HEAD a range means nothing.
    let head = send(&router, Request::head(&path).header("range", "bytes=0-1"), Body::empty()).await;
    assert_eq!(head.status(), StatusCode::OK);
    assert_eq!(header(head.headers(), "accept-ranges"), "bytes");
    assert_eq!(header(head.headers(), "content-length"), "10000");
    assert_eq!(bytes(head).await, b"");
    // Section 13.1.5: a range for another version of the file is passed over.
    let own = format!("\"{}\"", Digest::of(&png));
    for (tag, status) in [(own.as_str(), 206), ("\"other\"", 200), ("Wed, 21 Oct 2015 07:28:00 GMT", 200)] {
        let request = Request::get(&path).header("range", "bytes=0-1").header("if-range", tag);
        assert_eq!(send(&router, request, Body::empty()).await.status(), status, "{tag}");
    }
    // Section 13.1.2: who has it, is told so, and not sent it.
    let known = send(&router, Request::get(&path).header("if-none-match", &own), Body::empty()).await;
    assert_eq!(known.status(), StatusCode::NOT_MODIFIED);
    assert_eq!(bytes(known).await, b"");
}

#[tokio::test]
async fn what_a_page_could_run_is_not_taken_and_text_is_offered_to_be_saved() {
    let router = fresh();
    let hostile: [&[u8]; 5] = [
        b"<!doctype html><script>alert(1)</script>",
        b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>",
        b"<?xml version='1.0'?><html xmlns='http://www.w3.org/1999/xhtml'/>",
        b"MZ\x90\0\x03\0\0\0\x04\0\0\0\xff\xff\0\0",
        b"PK\x03\x04\x14\0\0\0\x08\0",
    ];
    for content in hostile {
        let (path, response) = put(&router, content).await;
        assert!(problem(response, 415).await.contains("plain text"));
        problem(get(&router, &path).await, 404).await;
    }
    let (path, _) = put(&router, b"WEBVTT\n\n00:00.000 --> 00:01.000\n<b>garboard</b>").await;
    let text = get(&router, &path).await;
    assert_eq!(header(text.headers(), "content-type"), "text/plain; charset=utf-8");
    assert!(header(text.headers(), "content-disposition").starts_with("attachment; filename=\""));
    assert!(header(text.headers(), "content-security-policy").ends_with("sandbox"));
}

#[tokio::test]
async fn what_came_by_another_way_is_offered_to_be_saved_and_not_shown() {
    // A package or the command line may have brought a page; it must be had again, but not run.
    let store = Arc::new(MemoryStore::default());
    let html = b"<!doctype html><script>alert(1)</script>";
    store::Store::put_attachment(store.as_ref(), &mut &html[..], None).unwrap();
    let got = get(&crate::asking::bare(store), &format!("/api/attachments/{}", Digest::of(html))).await;
    assert_eq!(header(got.headers(), "content-type"), "application/octet-stream");
    assert!(header(got.headers(), "content-disposition").starts_with("attachment;"));
    assert!(header(got.headers(), "content-security-policy").ends_with("sandbox"));
    assert_eq!(bytes(got).await, html);
}

#[tokio::test]
async fn an_attachment_beyond_the_bound_is_refused_whether_its_length_was_announced_or_not() {
    let limits = server::Limits { attachment_bytes: 5000, ..server::Limits::default() };
    let setup = server::Setup { limits, assets: server::Assets::default(), issuer: None, clients: None, devices: None };
    let router = server::router_with(Arc::new(MemoryStore::default()), setup);
    assert_eq!(put(&router, &png(5000)).await.1.status(), StatusCode::CREATED);
    let large = png(5001);
    let path = format!("/api/attachments/{}", Digest::of(&large));
    let announced = send(&router, Request::put(&path).header("content-length", "5001"), large.clone()).await;
    assert!(problem(announced, 413).await.contains("5000"));
    let pieces = large.chunks(1000).map(|piece| Ok::<_, std::io::Error>(piece.to_vec())).collect::<Vec<_>>();
    let unannounced = Body::from_stream(futures_util::stream::iter(pieces));
    problem(send(&router, Request::put(&path), unannounced).await, 413).await;
    problem(get(&router, &path).await, 404).await;
}

#[tokio::test]
async fn an_attachment_that_breaks_off_is_not_kept() {
    let router = fresh();
    let png = png(9000);
    let path = format!("/api/attachments/{}", Digest::of(&png));
    let broken = [Ok(png[..6000].to_vec()), Err(std::io::Error::other("the line went dead"))];
    let said = send(&router, Request::put(&path), Body::from_stream(futures_util::stream::iter(broken))).await;
    problem(said, 408).await;
    problem(get(&router, &path).await, 404).await;
    problem(send(&router, Request::put(&path), Body::empty()).await, 422).await;
}
