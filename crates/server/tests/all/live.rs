//! Live updates, through the router and through a port.

use crate::asking::{SURVEY, bare, get, header, post_lines, send, store, written};
use axum::body::{Body, BodyDataStream, Bytes};
use axum::http::Request;
use futures_util::StreamExt as _;
use server::{Assets, Limits, Setup};
use std::time::{Duration, Instant};
use store::Store as _;
use survey::{Digest, SurveyId};
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tokio::net::{TcpListener, TcpStream};

/// Waits for the next event for as long as a person might.
async fn next(events: &mut BodyDataStream) -> Bytes {
    let event = tokio::time::timeout(Duration::from_secs(10), events.next()).await.expect("an event in time");
    event.expect("the stream goes on").expect("the stream is whole")
}

/// Makes sure that nothing comes for a moment.
async fn nothing(events: &mut BodyDataStream) {
    let waited = tokio::time::timeout(Duration::from_millis(200), events.next()).await;
    assert!(waited.is_err(), "there was nothing to tell: {waited:?}");
}

/// Bounds with which the store is not looked at during a test, so that all news was told.
fn told_only() -> Setup {
    let limits = Limits { look_every: Duration::from_secs(3600), ..Limits::default() };
    Setup { limits, assets: Assets::default(), ..Setup::default() }
}

#[tokio::test]
async fn whoever_listens_is_told_the_cursor_and_then_of_new_entries_of_this_survey_only() {
    let router = server::router_with(store(), told_only());
    let response = get(&router, &format!("/api/surveys/{SURVEY}/live")).await;
    assert_eq!(header(response.headers(), "content-type"), "text/event-stream");
    assert_eq!(header(response.headers(), "cache-control"), "no-cache");
    let mut events = response.into_body().into_data_stream();
    assert_eq!(&next(&mut events).await[..], b"event: cursor\ndata: 3\n\n");
    let other = SurveyId::from_bits(1234);
    post_lines(&router, other, &[written(other, "browser-1", 1)[0].line()]).await;
    nothing(&mut events).await;
    let entries = written(SURVEY, "browser-1", 2);
    let lines = [entries[0].line(), entries[1].line()];
    post_lines(&router, SURVEY, &lines).await;
    // One event for both; the entry of the other survey has position 4.
    assert_eq!(&next(&mut events).await[..], b"event: cursor\ndata: 6\n\n");
    post_lines(&router, SURVEY, &lines).await;
    nothing(&mut events).await;
}

#[tokio::test]
async fn whoever_listens_is_told_of_attachments() {
    let router = server::router_with(store(), told_only());
    let mut events = get(&router, &format!("/api/surveys/{SURVEY}/live")).await.into_body().into_data_stream();
    next(&mut events).await;
    let text = b"words under the picture";
    let path = format!("/api/attachments/{}", Digest::of(text));
    send(&router, Request::put(&path), text.to_vec()).await;
    let expected = format!("event: attachment\ndata: {}\n\n", Digest::of(text));
    assert_eq!(&next(&mut events).await[..], expected.as_bytes());
    send(&router, Request::put(&path), text.to_vec()).await;
    nothing(&mut events).await;
}

#[tokio::test]
async fn what_another_program_wrote_to_the_store_is_told_too() {
    let store = store();
    let limits = Limits { look_every: Duration::from_millis(20), ..Limits::default() };
    let router = server::router_with(store.clone(), Setup { limits, assets: Assets::default(), ..Setup::default() });
    let mut events = get(&router, &format!("/api/surveys/{SURVEY}/live")).await.into_body().into_data_stream();
    next(&mut events).await;
    store.take_all(&written(SURVEY, "command line", 1)).unwrap();
    assert_eq!(&next(&mut events).await[..], b"event: cursor\ndata: 4\n\n");
}

#[tokio::test(start_paused = true)]
async fn a_comment_keeps_the_stream_alive_when_there_is_nothing_to_tell() {
    let router = bare(store());
    let mut events = get(&router, &format!("/api/surveys/{SURVEY}/live")).await.into_body().into_data_stream();
    events.next().await.unwrap().unwrap();
    let comment = events.next().await.unwrap().unwrap();
    // HTML Living Standard, section 9.2.5: a line that begins with a colon is a comment.
    assert!(comment.starts_with(b":"), "{comment:?}");
}

#[tokio::test]
async fn a_server_told_to_stop_ends_live_streams_and_stops_in_time() {
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let (stop, stopped) = tokio::sync::oneshot::channel::<()>();
    let told = async move {
        let _ = stopped.await;
    };
    let serving = tokio::spawn(server::serve_on(listener, store(), told_only(), told));

    let mut client = TcpStream::connect(address).await.unwrap();
    let ask = format!("GET /api/surveys/{SURVEY}/live HTTP/1.1\r\nHost: {address}\r\n\r\n");
    client.write_all(ask.as_bytes()).await.unwrap();
    let mut said = String::new();
    while !said.contains("data: 3") {
        let mut part = [0; 1024];
        let read = client.read(&mut part).await.unwrap();
        assert!(read > 0, "{said}");
        said.push_str(std::str::from_utf8(&part[..read]).unwrap());
    }
    assert!(said.starts_with("HTTP/1.1 200 OK"));

    let begun = Instant::now();
    stop.send(()).unwrap();
    tokio::time::timeout(Duration::from_secs(5), serving).await.expect("it stops in time").unwrap().unwrap();
    // Well before the grace of ten seconds that other requests have: the stream was ended, not cut.
    assert!(begun.elapsed() < Duration::from_secs(5));
    let mut rest = Vec::new();
    client.read_to_end(&mut rest).await.unwrap();
    // RFC 9112, section 7.1: a chunk of length 0 ends the body as it should end.
    assert!(rest.ends_with(b"0\r\n\r\n"), "{rest:?}");
    assert!(TcpStream::connect(address).await.is_err(), "nobody listens any more");
}

#[tokio::test]
async fn a_live_stream_outlasts_the_time_that_other_requests_have() {
    let limits = Limits { answer_within: Duration::from_millis(50), ..told_only().limits };
    let router = server::router_with(store(), Setup { limits, assets: Assets::default(), ..Setup::default() });
    let mut events = send(&router, Request::get(format!("/api/surveys/{SURVEY}/live")), Body::empty())
        .await
        .into_body()
        .into_data_stream();
    next(&mut events).await;
    tokio::time::sleep(Duration::from_millis(150)).await;
    post_lines(&router, SURVEY, &[written(SURVEY, "browser-1", 1)[0].line()]).await;
    assert!(next(&mut events).await.starts_with(b"event: cursor"));
}
