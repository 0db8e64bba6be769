//! The app for the browser: files built into the program, each with its packed forms.

use crate::conditional;
use crate::policy;
use axum::body::Body;
use axum::http::{HeaderMap, HeaderValue, Method, StatusCode, header};
use axum::response::Response;
use std::collections::BTreeMap;
use survey::Digest;

/// Files below this path bear their content in their name and never change.
const NEVER_CHANGES: &str = "/app/";

/// The page that answers at every address of the app.
const PAGE: &str = "/index.html";

/// A file of the app.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asset {
    /// Where it is served, from the root.
    pub path: &'static str,
    /// Its bytes.
    pub plain: &'static [u8],
    /// The same packed by Brotli (RFC 7932).
    pub br: Option<&'static [u8]>,
    /// The same packed by gzip (RFC 1952).
    pub gz: Option<&'static [u8]>,
}

include!(concat!(env!("OUT_DIR"), "/built_in.rs"));

/// The files of the app, by path.
#[derive(Clone, Debug, Default)]
pub struct Assets {
    files: BTreeMap<&'static str, (Asset, String)>,
}

impl Assets {
    /// Returns the files that were there when this program was built; none when the app was not.
    pub fn built_in() -> Self {
        Self::new(BUILT_IN)
    }

    /// Returns these files.
    pub fn new(files: &[Asset]) -> Self {
        let tagged = |asset: &Asset| (asset.path, (*asset, Digest::of(asset.plain).to_string()));
        Self { files: files.iter().map(tagged).collect() }
    }

    /// Tells whether there is a page to be shown.
    pub fn has_page(&self) -> bool {
        self.files.contains_key(PAGE)
    }

    /// Tells whether there is a file at an address. The page is also at the root.
    pub fn has(&self, path: &str) -> bool {
        self.files.contains_key(at(path))
    }

    /// Answers with the file at an address, in the form that the asker takes.
    pub fn answer(&self, path: &str, method: &Method, headers: &HeaderMap) -> Option<Response> {
        let (asset, digest) = self.files.get(at(path))?;
        let (coding, bytes) = choose(asset, headers);
        let etag = format!("\"{}{}\"", &digest[..32], coding.map_or(String::new(), |coding| format!("-{coding}")));
        let mut response = Response::new(Body::empty());
        let mut set = |name, value: &str| {
            if let Ok(value) = HeaderValue::from_str(value) {
                response.headers_mut().insert(name, value);
            }
        };
        set(header::ETAG, &etag);
        let never_changes = asset.path.starts_with(NEVER_CHANGES);
        set(header::CACHE_CONTROL, if never_changes { "public, max-age=31536000, immutable" } else { "no-cache" });
        if asset.br.is_some() || asset.gz.is_some() {
            set(header::VARY, "accept-encoding");
        }
        set(header::CONTENT_SECURITY_POLICY, policy::APP);
        if conditional::is_known(headers, &etag) {
            *response.status_mut() = StatusCode::NOT_MODIFIED;
            return Some(response);
        }
        set(header::CONTENT_TYPE, media_type(asset.path));
        set(header::CONTENT_LENGTH, &bytes.len().to_string());
        if let Some(coding) = coding {
            set(header::CONTENT_ENCODING, coding);
        }
        if method != Method::HEAD {
            *response.body_mut() = Body::from(bytes);
        }
        Some(response)
    }
}

fn at(path: &str) -> &str {
    if path == "/" { PAGE } else { path }
}

/// Chooses the form to send (RFC 9110, section 12.5.3): the one the asker likes best, of equals the smaller.
fn choose(asset: &Asset, headers: &HeaderMap) -> (Option<&'static str>, &'static [u8]) {
    let accepted: Vec<&str> = headers
        .get_all(header::ACCEPT_ENCODING)
        .iter()
        .filter_map(|value| value.to_str().ok())
        .flat_map(|value| value.split(','))
        .collect();
    let packed = [("br", asset.br), ("gzip", asset.gz)];
    let mut best = (0.0, None, asset.plain);
    for (coding, bytes) in packed {
        let liking = liking(&accepted, coding);
        if let Some(bytes) = bytes.filter(|_| liking > best.0) {
            best = (liking, Some(coding), bytes);
        }
    }
    (best.1, best.2)
}

/// Returns how much (0 to 1) a list of codings likes one of them.
fn liking(accepted: &[&str], coding: &str) -> f64 {
    let weight_of = |wanted: &str| {
        accepted.iter().find_map(|item| {
            let mut parts = item.split(';').map(str::trim);
            let named = parts.next()?.eq_ignore_ascii_case(wanted);
            named.then(|| parts.find_map(|part| part.strip_prefix("q=")?.parse().ok()).unwrap_or(1.0))
        })
    };
    weight_of(coding).or_else(|| weight_of("*")).unwrap_or(0.0)
}

fn media_type(path: &str) -> &'static str {
    match path.rsplit_once('.').map(|(_, ending)| ending) {
        Some("html") => "text/html; charset=utf-8",
        Some("js" | "mjs") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("json") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("woff2") => "font/woff2",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("webp") => "image/webp",
        Some("jpg" | "jpeg") => "image/jpeg",
        Some("ico") => "image/x-icon",
        Some("txt" | "md") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}
