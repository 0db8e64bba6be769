//! The app's keep and exchange as functions for the page of the browser tests, which knows nothing of the app's forms.
//!
//! Exists for WebAssembly only; elsewhere there is nothing in it.

#[cfg(target_arch = "wasm32")]
#[path = "../../../src/exchange/mod.rs"]
#[expect(dead_code, reason = "the app uses more of it than the tests do")]
mod exchange;
#[cfg(target_arch = "wasm32")]
#[path = "../../../src/keep/mod.rs"]
#[expect(dead_code, reason = "the app uses more of it than the tests do")]
mod keep;
#[cfg(target_arch = "wasm32")]
mod probe;
