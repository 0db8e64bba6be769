//! The workbench in the browser: a survey done by eye and hand, at the desk and under the boat.
//!
//! For: showing the record and writing in it, with or without a server in reach. It is a replica: it holds a survey's
//! entries itself, folds them with the room `survey`, reckons with `reckon` and draws with `plans`, as the server does.
//! Not for: any rule of its own about what an entry may say.
//!
//! What needs no browser ([`form`], [`given`], [`hearing`], [`weighed`], [`words`]) builds and is tested natively; the rest exists only
//! for WebAssembly.
//!
//! Read first: [`form::Field`], then `workbench.rs` and `book.rs`.

pub mod at_once;
pub mod form;
pub mod given;
pub mod hearing;
pub mod photograph;
pub mod weighed;
pub mod words;

#[cfg(target_arch = "wasm32")]
mod book;
#[cfg(target_arch = "wasm32")]
mod carry;
#[cfg(target_arch = "wasm32")]
mod common_words;
#[cfg(target_arch = "wasm32")]
mod exchange;
#[cfg(target_arch = "wasm32")]
mod keep;
#[cfg(target_arch = "wasm32")]
mod look;
#[cfg(target_arch = "wasm32")]
mod places;
#[cfg(target_arch = "wasm32")]
mod workbench;

/// Starts the workbench in the page.
#[cfg(target_arch = "wasm32")]
#[wasm_bindgen::prelude::wasm_bindgen(start)]
pub fn start() {
    console_error_panic_hook::set_once();
    workbench::start();
}
