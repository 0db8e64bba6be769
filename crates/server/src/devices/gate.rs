//! What a request of a device must pass.

use super::Devices;
use super::asked::COOKIE;
use crate::assets::Assets;
use crate::guard::{asked_host, from_elsewhere, with_policy, without_port};
use crate::problem::Problem;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Response};
use futures_util::StreamExt as _;
use std::sync::Arc;
use tokio_util::sync::CancellationToken;

/// What the gate knows.
#[derive(Clone)]
pub struct Gatekeeper {
    pub devices: Arc<Devices>,
    pub assets: Assets,
}

/// Answers devices that are paired, and nobody else but with the app itself, which holds nothing of any survey.
pub async fn gate(State(keeper): State<Gatekeeper>, request: Request, next: Next) -> Response {
    let response = match let_in(&keeper, &request) {
        Err(problem) => problem.into_response(),
        Ok(None) => next.run(request).await,
        // What is under way ends when the device is turned out: a live stream would go on telling it of news.
        Ok(Some(out)) => {
            let (parts, body) = next.run(request).await.into_parts();
            let body = body.into_data_stream().take_until(async move { out.cancelled().await });
            Response::from_parts(parts, Body::from_stream(body))
        }
    };
    with_policy(response)
}

/// Tells whether a request is answered; for a paired device, with what tells that it was turned out.
fn let_in(keeper: &Gatekeeper, request: &Request) -> Result<Option<CancellationToken>, Problem> {
    if !keeper.devices.name.is_host(without_port(asked_host(request))) {
        return Err(Problem::refused("The workbench answers devices only under the name they were paired with."));
    }
    if let Some(problem) = from_elsewhere(request, "https") {
        return Err(problem);
    }
    let (method, path) = (request.method(), request.uri().path());
    let reads = [Method::GET, Method::HEAD].contains(method);
    let ours = |folder: &str| path.strip_prefix(folder).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'));
    if method == Method::POST && path == "/api/devices" {
        return Ok(None);
    }
    // Without an app the first page lists the surveys, and that is not for everybody.
    let has_app = keeper.assets.has_page();
    let is_survey = ours("/api") || ours("/plain") || ours("/issued");
    if reads && has_app && !is_survey {
        return Ok(None);
    }
    let known = secret_shown(request.headers()).and_then(|secret| keeper.devices.paired.known(secret));
    let Some((_, out)) = known else {
        return Err(Problem::not_paired());
    };
    let at_desk_only = ours("/api/devices") || path.ends_with("/report/issue");
    if at_desk_only {
        return Err(Problem::refused(
            "This is done at the desk: devices are let in there, and reports are signed there.",
        ));
    }
    Ok(Some(out))
}

/// Returns the secret in the device's cookie.
fn secret_shown(headers: &HeaderMap) -> Option<&str> {
    let cookies = headers.get_all(header::COOKIE).iter().filter_map(|value| value.to_str().ok());
    cookies.flat_map(|value| value.split(';')).find_map(|pair| {
        let (name, value) = pair.trim().split_once('=')?;
        (name == COOKIE).then_some(value)
    })
}
