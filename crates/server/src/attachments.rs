//! Photographs, recordings and papers: named by their digest, put and got, in parts where asked.

use crate::Shared;
use crate::entries::fault;
use crate::problem::Problem;
use crate::surveys::blocking;
use axum::body::Bytes;
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use std::io::{Read as _, Seek as _, SeekFrom};
use survey::Digest;

/// Enough of a file to tell what it is.
const HEAD: usize = 512;

/// Keeps an attachment under its digest; bytes of another digest are refused.
pub async fn put(State(store): State<Shared>, Path(sha256): Path<String>, body: Bytes) -> Result<StatusCode, Problem> {
    let wanted = digest(&sha256)?;
    let kept = blocking(move || store.put_attachment(&mut &body[..], Some(&wanted)).map_err(fault)).await?;
    Ok(if kept.new { StatusCode::CREATED } else { StatusCode::NO_CONTENT })
}

/// Hands out an attachment, whole or the one range of bytes asked for (RFC 9110, section 14).
pub async fn get(
    State(store): State<Shared>,
    Path(sha256): Path<String>,
    headers: HeaderMap,
) -> Result<Response, Problem> {
    let wanted = digest(&sha256)?;
    let asked = headers.get(header::RANGE).and_then(|value| value.to_str().ok()).map(str::to_owned);
    blocking(move || {
        let (length, mut content) = store.open_attachment(&wanted).map_err(fault)?;
        let unread = |why: std::io::Error| Problem::undone(format!("The attachment cannot be read: {why}."));
        let mut head = Vec::new();
        content.by_ref().take(HEAD as u64).read_to_end(&mut head).map_err(unread)?;
        let kind = media_type(&head);
        let (status, from, to) = match asked.as_deref().and_then(|asked| range(asked, length)) {
            None => (StatusCode::OK, 0, length),
            Some(Some((from, to))) => (StatusCode::PARTIAL_CONTENT, from, to),
            Some(None) => {
                let whole = [(header::CONTENT_RANGE, format!("bytes */{length}"))];
                return Ok((StatusCode::RANGE_NOT_SATISFIABLE, whole).into_response());
            }
        };
        content.seek(SeekFrom::Start(from)).map_err(unread)?;
        let mut part = Vec::new();
        content.take(to - from).read_to_end(&mut part).map_err(unread)?;
        let shown = if kind.starts_with("image/") { "inline" } else { "attachment" };
        let mut response = (
            status,
            [
                (header::CONTENT_TYPE, kind.to_owned()),
                (header::CONTENT_DISPOSITION, shown.to_owned()),
                (header::ACCEPT_RANGES, "bytes".to_owned()),
                (header::CACHE_CONTROL, "private, max-age=31536000, immutable".to_owned()),
            ],
            part,
        )
            .into_response();
        if status == StatusCode::PARTIAL_CONTENT
            && let Ok(value) = format!("bytes {from}-{}/{length}", to - 1).parse()
        {
            response.headers_mut().insert(header::CONTENT_RANGE, value);
        }
        Ok(response)
    })
    .await
}

fn digest(text: &str) -> Result<Digest, Problem> {
    text.parse().map_err(|_| Problem::not_found("This is not an attachment's digest (64 hexadecimal digits)."))
}

/// Tells by its content what a file is. What a page could run, such as HTML or SVG, is never named as such.
fn media_type(head: &[u8]) -> &'static str {
    match infer::get(head) {
        Some(kind) if ["image/", "audio/", "video/"].iter().any(|class| kind.mime_type().starts_with(class)) => {
            kind.mime_type()
        }
        Some(kind) if kind.mime_type() == "application/pdf" => "application/pdf",
        _ => "application/octet-stream",
    }
}

/// Reads a range header: `None` when it is to be passed over (not of bytes, or of several parts), `Some(None)` when
/// no such bytes are there, else from where to where (exclusive).
fn range(asked: &str, length: u64) -> Option<Option<(u64, u64)>> {
    let (from, to) = asked.strip_prefix("bytes=")?.split_once('-')?;
    let (from, to) = match (from.trim(), to.trim()) {
        ("", last) => (length.saturating_sub(last.parse().ok()?), length),
        (from, "") => (from.parse().ok()?, length),
        (from, to) => (from.parse().ok()?, to.parse::<u64>().ok()?.saturating_add(1).min(length)),
    };
    Some((from < to).then_some((from, to)))
}

#[cfg(test)]
mod tests {
    use super::range;

    #[test]
    fn ranges_are_read_as_rfc_9110_writes_them() {
        // RFC 9110, section 14.1.2: a representation of 10000 bytes.
        assert_eq!(range("bytes=0-499", 10_000), Some(Some((0, 500))));
        assert_eq!(range("bytes=500-999", 10_000), Some(Some((500, 1000))));
        assert_eq!(range("bytes=-500", 10_000), Some(Some((9500, 10_000))));
        assert_eq!(range("bytes=9500-", 10_000), Some(Some((9500, 10_000))));
        assert_eq!(range("bytes=10000-", 10_000), Some(None));
        assert_eq!(range("bytes=0-0,-1", 10_000), None);
        assert_eq!(range("lines=1-2", 10_000), None);
    }
}
