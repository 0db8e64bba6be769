//! The list of common words, which mending what was heard rests on: fetched after the first page is shown, and kept with the
//! page for working with no network.

use leptos::prelude::*;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::Response;

/// Makes sure that the list is here.
///
/// # Errors
/// One sentence: it could not be had.
pub async fn are_here() -> Result<(), String> {
    if walk::words_are_here() {
        return Ok(());
    }
    let missing = || {
        "The list of common words could not be fetched; what was heard is not read without it. Try again with the server in reach.".to_owned()
    };
    let text = fetch().await.map_err(|_| missing())?;
    if walk::bring_words(text) { Ok(()) } else { Err(missing()) }
}

async fn fetch() -> Result<String, JsValue> {
    // It lies beside the script that started the page, whose address names the build.
    let script = document().query_selector("script[src$='/start.js']")?;
    let address = script.and_then(|script| script.get_attribute("src")).ok_or(JsValue::NULL)?;
    let asked = window().fetch_with_str(&address.replace("/start.js", "/common-words.txt"));
    let response: Response = JsFuture::from(asked).await?.dyn_into()?;
    if !response.ok() {
        return Err(JsValue::NULL);
    }
    JsFuture::from(response.text()?).await?.as_string().ok_or(JsValue::NULL)
}
