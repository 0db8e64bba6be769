//! What browsers are told they may do with our answers (Content Security Policy Level 3, Permissions Policy).

use axum::http::{HeaderName, header};

/// For the app: its own scripts, styles and fonts, WebAssembly, pictures it makes itself, and speaking to this server.
pub const APP: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
     img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; media-src 'self' blob:; worker-src 'self'; \
     manifest-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

/// For the plain page: its style, and nothing else.
pub const PLAIN_PAGE: &str =
    "default-src 'none'; style-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

/// For everything else: nothing at all may be loaded by it or do anything in it.
pub const DATA: &str = "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

/// For files that came from elsewhere and for drawings: as [`DATA`], and cut off from our origin. Pictures within a
/// drawing are part of it.
pub const LOCKED_UP: &str =
    "default-src 'none'; img-src data:; frame-ancestors 'none'; base-uri 'none'; form-action 'none'; sandbox";

/// For a PDF: a browser's own viewer puts it into a frame of its own making, which `sandbox` would forbid.
pub const PDF: &str =
    "default-src 'none'; object-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

/// What goes with every answer, unless the handler said otherwise.
pub const EVERY_ANSWER: [(HeaderName, &str); 6] = [
    (header::CONTENT_SECURITY_POLICY, DATA),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    // The talk-through and photographs need both; nobody else gets them, and nothing else is had.
    (
        HeaderName::from_static("permissions-policy"),
        "camera=(self), microphone=(self), geolocation=(), display-capture=(), payment=(), usb=(), serial=(), \
         bluetooth=(), midi=(), publickey-credentials-get=(), browsing-topics=()",
    ),
];
