//! Tests of the demo's field book, through its public interface.

mod faults;
mod pictures;
mod reckonings;
mod record;
mod story;

use std::sync::OnceLock;

/// Marram, written once for all tests.
fn demo() -> &'static demo::Demo {
    static DEMO: OnceLock<demo::Demo> = OnceLock::new();
    DEMO.get_or_init(|| demo::marram().expect("the demo's field book is in order"))
}

/// What the survey says in the end.
fn state() -> survey::State {
    survey::State::fold(demo().survey, demo().entries.iter().cloned())
}
