//! Photographs, recordings and papers: named by their digest, put and got, in parts where asked.

use crate::conditional;
use crate::media::{self, Kind};
use crate::news::News;
use crate::policy;
use crate::problem::Problem;
use crate::ranges::{Wanted, wanted};
use crate::surveys::blocking;
use crate::taken_apart::PathPart;
use crate::workbench::Shared;
use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use futures_util::{TryStreamExt as _, stream};
use std::io::{self, Cursor, Read, Seek as _, SeekFrom};
use store::AttachmentRead;
use survey::Digest;
use tokio_util::io::{StreamReader, SyncIoBridge};
use utoipa::ToSchema;

/// How much is read at a time when an attachment is handed out, in bytes.
const PIECE: u64 = 256 << 10;

/// The bytes of a file.
#[derive(ToSchema)]
#[schema(value_type = String, content_media_type = "application/octet-stream")]
pub struct FileBytes(#[expect(dead_code, reason = "only its form is described")] Vec<u8>);

/// Keeps an attachment under its digest. Bytes of another digest are refused, and kinds of files that a surveyor has
/// no use for.
#[utoipa::path(put, path = "/api/attachments/{sha256}", tag = "attachments", operation_id = "put_attachment",
    params(("sha256" = String, Path, description = "SHA-256 of its bytes, 64 hexadecimal digits in lower case")),
    request_body(content = FileBytes, content_type = "application/octet-stream",
        description = "The bytes: a photograph, a recording, PDF or plain text; the kind is told by the content"),
    responses((status = CREATED, description = "It is kept"),
        (status = NO_CONTENT, description = "It was here already")))]
pub async fn put(
    State(shared): State<Shared>,
    PathPart(sha256): PathPart<String>,
    headers: HeaderMap,
    body: Body,
) -> Result<StatusCode, Problem> {
    let sha256 = digest(&sha256)?;
    let most = shared.limits.attachment_bytes;
    let announced = headers.get(header::CONTENT_LENGTH).and_then(|value| value.to_str().ok()?.parse::<u64>().ok());
    if announced.is_some_and(|bytes| bytes > most) {
        return Err(Problem::too_large(most));
    }
    let bytes = StreamReader::new(body.into_data_stream().map_err(io::Error::other));
    let mut bytes = Bounded { inner: SyncIoBridge::new(bytes), left: most, exceeded: false };
    blocking(move || {
        let mut head = Vec::new();
        let read = bytes.by_ref().take(media::HEAD as u64).read_to_end(&mut head);
        read.map_err(|_| if bytes.exceeded { Problem::too_large(most) } else { Problem::broken_off() })?;
        if head.is_empty() {
            return Err(Problem::input("The attachment has no bytes."));
        }
        if media::kind_of(&head).is_none() {
            // A browser hears a refusal for certain only when it could send all it wanted.
            let _ = io::copy(&mut bytes, &mut io::sink());
            return Err(Problem::wrong_kind(format!("This kind of file is not taken; {}.", media::ACCEPTED)));
        }
        let kept = shared.store.put_attachment(&mut Cursor::new(head).chain(&mut bytes), Some(&sha256));
        let kept = kept.map_err(|fault| if bytes.exceeded { Problem::too_large(most) } else { fault.into() })?;
        if kept.new {
            shared.wire.tell(News::Attachment(sha256));
        }
        Ok(if kept.new { StatusCode::CREATED } else { StatusCode::NO_CONTENT })
    })
    .await
}

/// Reads up to a bound, and fails beyond it.
struct Bounded<R> {
    inner: R,
    left: u64,
    exceeded: bool,
}

impl<R: Read> Read for Bounded<R> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let read = self.inner.read(into)?;
        match self.left.checked_sub(read as u64) {
            Some(left) => self.left = left,
            None => {
                self.exceeded = true;
                return Err(io::Error::other("more bytes than are accepted"));
            }
        }
        Ok(read)
    }
}

/// Hands out an attachment, whole or the one range of bytes asked for (RFC 9110, section 14). It may be kept for
/// good: under its digest there is never anything else.
#[utoipa::path(get, path = "/api/attachments/{sha256}", tag = "attachments", operation_id = "get_attachment",
    params(("sha256" = String, Path, description = "SHA-256 of its bytes, 64 hexadecimal digits in lower case")),
    responses(
        (status = OK, content_type = "*/*", body = FileBytes, description = "All of it, under its own media type"),
        (status = PARTIAL_CONTENT, content_type = "*/*", body = FileBytes, description = "The range asked for"),
        (status = NOT_MODIFIED, description = "The asker has it"),
        (status = RANGE_NOT_SATISFIABLE, description = "There are no such bytes")))]
pub async fn get(
    State(shared): State<Shared>,
    PathPart(sha256): PathPart<String>,
    method: Method,
    headers: HeaderMap,
) -> Result<Response, Problem> {
    let sha256 = digest(&sha256)?;
    let etag = format!("\"{sha256}\"");
    let (length, kind, content) = blocking(move || {
        let (length, mut content) = shared.store.open_attachment(&sha256)?;
        let unread = |why: io::Error| Problem::undone(format!("The attachment cannot be read: {why}."));
        let mut head = Vec::new();
        content.by_ref().take(media::HEAD as u64).read_to_end(&mut head).map_err(unread)?;
        Ok((length, media::kind_of(&head).unwrap_or(Kind::OTHER), content))
    })
    .await?;
    let short: String = sha256.to_string().chars().take(12).collect();
    let placed = if kind.is_shown() { "inline" } else { "attachment" };
    let mut response = Response::new(Body::empty());
    let mut set = |name, value: String| {
        if let Ok(value) = HeaderValue::from_str(&value) {
            response.headers_mut().insert(name, value);
        }
    };
    set(header::ETAG, etag.clone());
    set(header::CACHE_CONTROL, "private, max-age=31536000, immutable".to_owned());
    set(header::CONTENT_SECURITY_POLICY, policy::LOCKED_UP.to_owned());
    if conditional::is_known(&headers, &etag) {
        *response.status_mut() = StatusCode::NOT_MODIFIED;
        return Ok(response);
    }
    // Section 14.2: a range means nothing with any other method than GET.
    let asked = (method == Method::GET && conditional::range_holds(&headers, &etag))
        .then(|| headers.get(header::RANGE)?.to_str().ok())
        .flatten();
    let (from, to) = match wanted(asked, length) {
        Wanted::Whole => (0, length),
        Wanted::Part(from, to) => {
            set(header::CONTENT_RANGE, format!("bytes {from}-{}/{length}", to - 1));
            (from, to)
        }
        Wanted::Nothing => {
            let whole = [(header::CONTENT_RANGE, format!("bytes */{length}"))];
            return Ok((whole, Problem::no_such_bytes(length)).into_response());
        }
    };
    set(header::CONTENT_TYPE, kind.media_type.to_owned());
    set(header::CONTENT_DISPOSITION, format!("{placed}; filename=\"{short}.{}\"", kind.ending));
    set(header::ACCEPT_RANGES, "bytes".to_owned());
    set(header::CONTENT_LENGTH, (to - from).to_string());
    if response.headers().contains_key(header::CONTENT_RANGE) {
        *response.status_mut() = StatusCode::PARTIAL_CONTENT;
    }
    if method == Method::GET {
        *response.body_mut() = in_pieces(content, from, to - from);
    }
    Ok(response)
}

/// Reads on only as fast as the asker takes, and never holds more than a piece.
fn in_pieces(content: Box<dyn AttachmentRead>, from: u64, bytes: u64) -> Body {
    let begin = (content, Some(from), bytes);
    Body::from_stream(stream::try_unfold(begin, |(mut content, start, left)| async move {
        if left == 0 {
            return Ok::<_, io::Error>(None);
        }
        let read = tokio::task::spawn_blocking(move || {
            if let Some(start) = start {
                content.seek(SeekFrom::Start(start))?;
            }
            let mut piece = Vec::new();
            content.by_ref().take(left.min(PIECE)).read_to_end(&mut piece)?;
            Ok::<_, io::Error>((piece, content))
        });
        let (piece, content) = read.await.map_err(io::Error::other)??;
        if piece.is_empty() {
            return Err(io::ErrorKind::UnexpectedEof.into());
        }
        let left = left.saturating_sub(piece.len() as u64);
        Ok(Some((piece, (content, None, left))))
    }))
}

fn digest(text: &str) -> Result<Digest, Problem> {
    text.parse().map_err(|_| Problem::not_found("This is not an attachment's digest (64 hexadecimal digits)."))
}
