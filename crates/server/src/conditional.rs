//! Entity tags (RFC 9110, sections 8.8.3 and 13).

use axum::http::{HeaderMap, header};

/// Tells whether the asker has this representation already (`If-None-Match`, weak comparison).
pub fn is_known(headers: &HeaderMap, etag: &str) -> bool {
    headers
        .get_all(header::IF_NONE_MATCH)
        .iter()
        .filter_map(|value| value.to_str().ok())
        .flat_map(|value| value.split(','))
        .map(str::trim)
        .any(|tag| tag == "*" || tag.strip_prefix("W/").unwrap_or(tag) == etag)
}

/// Tells whether a range may be answered as one: `If-Range` is absent or names this very representation (strong
/// comparison, section 13.1.5). A date is never taken for that, as none is kept.
pub fn range_holds(headers: &HeaderMap, etag: &str) -> bool {
    headers.get(header::IF_RANGE).is_none_or(|value| value.as_bytes() == etag.as_bytes())
}
