//! Tests of the app's parts that need no browser.

#[path = "../../src/keep/book.rs"]
mod book;
mod convergence;
mod exchange_plan;
mod forms;
mod photographs;
#[path = "../../src/exchange/plan.rs"]
mod plan;
