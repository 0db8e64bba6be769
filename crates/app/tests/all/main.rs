//! Tests of the app's parts that need no browser.

#![allow(clippy::unwrap_used, reason = "a test stops at what it does not expect")]

mod at_once;
#[path = "../../src/keep/book.rs"]
mod book;
mod convergence;
mod exchange_plan;
mod forms;
mod given;
mod hearing;
mod photographs;
#[path = "../../src/exchange/plan.rs"]
mod plan;
mod weighed;
