//! The workbench in the browser: a survey done by eye and hand.
