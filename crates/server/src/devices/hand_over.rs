//! The page that hands the authority's certificate over to a device, over plain HTTP: it holds no secret and leads
//! nowhere but to the workbench.

use super::Devices;
use crate::guard::with_policy;
use crate::policy;
use crate::problem::Problem;
use axum::Router;
use axum::extract::{Request, State};
use axum::http::header;
use axum::middleware::{Next, from_fn};
use axum::response::{Html, IntoResponse as _, Response};
use axum::routing::get;
use std::sync::Arc;

/// Returns the page and the certificate.
pub fn pages(devices: Arc<Devices>) -> Router {
    Router::new()
        .route("/", get(page))
        .route("/authority.crt", get(certificate))
        .route("/plain.css", get(crate::front::style))
        .fallback(|| async { Problem::not_found("There is nothing at this address.") })
        .layer(from_fn(|request: Request, next: Next| async { with_policy(next.run(request).await) }))
        .with_state(devices)
}

async fn certificate(State(devices): State<Arc<Devices>>) -> Response {
    let headers = [
        // This type, and no file name, is what makes a phone offer to install it.
        (header::CONTENT_TYPE, "application/x-x509-ca-cert"),
        (header::CACHE_CONTROL, "no-store"),
    ];
    (headers, devices.authority.certificate().to_vec()).into_response()
}

async fn page(State(devices): State<Arc<Devices>>) -> Response {
    // The name and the fingerprint are letters, digits, dots and hyphens: nothing is to be escaped.
    let (name, address, fingerprint) = (&devices.name, devices.address(), devices.fingerprint());
    let body = format!(
        "<h1>Let this device keep surveys</h1>\
         <p>A browser keeps an app that works with no network only when it trusts where it came from. This machine, \
         {name}, is its own authority, for this one name: trusting it lets nobody deceive you about any other \
         address.</p>\
         <ol><li><p>Compare this with the fingerprint shown at the desk. If they differ, stop: someone stands between.</p>\
         <p><code>{fingerprint}</code></p></li>\
         <li><p><a href=\"/authority.crt\">Take the certificate</a>, then:</p>\
         <p><strong>iPhone, iPad.</strong> Allow the download; in Settings open <em>Profile Downloaded</em> and install \
         it; then under General, About, Certificate Trust Settings switch “Ribband on {name}” on. Both steps are \
         needed.</p>\
         <p><strong>Android.</strong> In Settings, under Security, Encryption and credentials, Install a certificate, \
         choose CA certificate and then the file. The phone says from then on that the network may be watched: it says \
         so of every authority that was added by hand.</p>\
         <p><strong>A computer.</strong> Add the file to the authorities that its browser trusts for web sites.</p></li>\
         <li><p>Scan the invitation shown at the desk, or open <a href=\"{address}\">{address}</a> once the device is \
         paired.</p></li></ol>\
         <p class=\"small\">To take it back, remove “Ribband on {name}” in the same settings. The settings of phones are \
         called by slightly different names from one make and year to the next.</p>"
    );
    let page = format!(
        "<!doctype html><html lang=\"en-GB\"><head><meta charset=\"utf-8\"><title>Ribband: a device</title>\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
         <link rel=\"stylesheet\" href=\"/plain.css\"></head><body><main>{body}</main></body></html>"
    );
    let headers = [(header::CONTENT_SECURITY_POLICY, policy::PLAIN_PAGE), (header::CACHE_CONTROL, "no-store")];
    (headers, Html(page)).into_response()
}
