//! Asking the server.

use super::ExchangeFault;
use super::plan::{Meaning, meaning};
use crate::keep::said;
use serde::Deserialize;
use serde::de::DeserializeOwned;
use survey::{Digest, SurveyId};
use wasm_bindgen::{JsCast as _, JsValue, prelude::Closure};
use wasm_bindgen_futures::JsFuture;
use web_sys::{AbortController, Blob, RequestInit, Response};

/// How long the server may take to answer.
const PATIENCE_MS: i32 = 30_000;
/// How slow a connection may be for an attachment, beyond that.
const SLOWEST_BYTES_PER_MS: f64 = 8.0;

/// Entries as the server hands them out.
#[derive(Debug, Deserialize)]
pub(super) struct Handed {
    /// Position of the last.
    pub cursor: u64,
    /// Whether there are more.
    pub more: bool,
    /// Their lines.
    pub entries: Vec<String>,
}

#[derive(serde::Serialize)]
struct Lines<'a> {
    entries: Vec<&'a str>,
}

/// Lists the surveys that the server has.
pub(super) async fn surveys() -> Result<Vec<serde_json::Value>, ExchangeFault> {
    Asking::new("GET", "/api/surveys").json().await
}

/// Fetches the entries of a survey after a position.
pub(super) async fn entries(survey: SurveyId, after: u64) -> Result<Handed, ExchangeFault> {
    Asking::new("GET", &format!("/api/surveys/{survey}/entries?after={after}")).json().await
}

/// Sends lines.
pub(super) async fn send(survey: SurveyId, lines: Vec<&str>) -> Result<(), ExchangeFault> {
    let json = serde_json::to_string(&Lines { entries: lines }).unwrap_or_default();
    let path = format!("/api/surveys/{survey}/entries");
    let _: serde_json::Value = Asking::new("POST", &path).carrying(&json.into(), "application/json").json().await?;
    Ok(())
}

/// Tells whether the server has an attachment.
pub(super) async fn has_attachment(sha256: Digest) -> Result<bool, ExchangeFault> {
    let asking = Asking::new("HEAD", &format!("/api/attachments/{sha256}"));
    let response = asking.response().await?;
    match response.status() {
        404 => Ok(false),
        401 => Err(ExchangeFault::NotPaired),
        200..=299 => Ok(true),
        status => Err(ExchangeFault::Away(format!("it answered {status}"))),
    }
}

/// Sends an attachment.
pub(super) async fn put_attachment(sha256: Digest, blob: &Blob) -> Result<(), ExchangeFault> {
    let asking = Asking::new("PUT", &format!("/api/attachments/{sha256}"))
        .carrying(blob, "application/octet-stream")
        .patient_for(blob.size());
    let response = asking.response().await?;
    asking.fine(&response).await
}

/// Fetches an attachment; none when the server has none.
pub(super) async fn attachment(sha256: Digest) -> Result<Option<Blob>, ExchangeFault> {
    // Its length is not known; it is given the time of the greatest that is taken.
    let asking = Asking::new("GET", &format!("/api/attachments/{sha256}")).patient_for(67_108_864.0);
    let response = asking.response().await?;
    if response.status() == 404 {
        return Ok(None);
    }
    asking.fine(&response).await?;
    let blob = JsFuture::from(response.blob().map_err(away)?).await.map_err(away)?;
    Ok(blob.dyn_into().ok())
}

/// A request, given up when it takes too long or is dropped.
pub(super) struct Asking {
    path: String,
    init: RequestInit,
    give_up: Option<AbortController>,
    patience_ms: i32,
}

impl Asking {
    pub fn new(method: &str, path: &str) -> Self {
        let init = RequestInit::new();
        init.set_method(method);
        let give_up = AbortController::new().ok();
        if let Some(give_up) = &give_up {
            init.set_signal(Some(&give_up.signal()));
        }
        Self { path: path.to_owned(), init, give_up, patience_ms: PATIENCE_MS }
    }

    pub fn carrying(self, body: &JsValue, kind: &str) -> Self {
        self.init.set_body(body);
        let headers = js_sys::Object::new();
        // Setting a field of a plain object does not fail.
        let _ = js_sys::Reflect::set(&headers, &"content-type".into(), &kind.into());
        self.init.set_headers(&headers);
        self
    }

    fn patient_for(mut self, bytes: f64) -> Self {
        self.patience_ms = self.patience_ms.saturating_add((bytes / SLOWEST_BYTES_PER_MS) as i32);
        self
    }

    pub async fn response(&self) -> Result<Response, ExchangeFault> {
        let window = web_sys::window().ok_or_else(|| ExchangeFault::Away("the page is closing".to_owned()))?;
        if let Some(give_up) = self.give_up.clone() {
            let abort = Closure::once_into_js(move || give_up.abort());
            // Aborting what is done does nothing.
            let _ =
                window.set_timeout_with_callback_and_timeout_and_arguments_0(abort.unchecked_ref(), self.patience_ms);
        }
        let response = JsFuture::from(window.fetch_with_str_and_init(&self.path, &self.init)).await.map_err(away)?;
        response.dyn_into().map_err(away)
    }

    /// Makes sure that the answer is one of success.
    pub async fn fine(&self, response: &Response) -> Result<(), ExchangeFault> {
        match meaning(response.status()) {
            Meaning::Done => Ok(()),
            Meaning::Later if response.status() == 401 => Err(ExchangeFault::NotPaired),
            Meaning::Later => Err(ExchangeFault::Away(format!("it answered {}", response.status()))),
            Meaning::Never => Err(ExchangeFault::Refused(self.why(response).await?)),
        }
    }

    /// Returns what the server says of a request that it does not take.
    pub async fn why(&self, response: &Response) -> Result<String, ExchangeFault> {
        let detail = serde_json::from_str::<Problem>(&text(response).await?).ok().map(|problem| problem.detail);
        Ok(detail.unwrap_or_else(|| format!("it answered {}", response.status())))
    }

    pub async fn json<T: DeserializeOwned>(self) -> Result<T, ExchangeFault> {
        let response = self.response().await?;
        self.read(&response).await
    }

    /// Reads an answer of success.
    pub async fn read<T: DeserializeOwned>(&self, response: &Response) -> Result<T, ExchangeFault> {
        self.fine(response).await?;
        // What is not the server's answer comes from something between, such as a network's sign-in page.
        serde_json::from_str(&text(response).await?).map_err(|fault| ExchangeFault::Away(fault.to_string()))
    }
}

/// What a server says of a request that it does not take (RFC 9457).
#[derive(Deserialize)]
struct Problem {
    detail: String,
}

async fn text(response: &Response) -> Result<String, ExchangeFault> {
    let text = JsFuture::from(response.text().map_err(away)?).await.map_err(away)?;
    Ok(text.as_string().unwrap_or_default())
}

fn away(thrown: JsValue) -> ExchangeFault {
    ExchangeFault::Away(said(&thrown))
}
