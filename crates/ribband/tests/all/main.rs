//! The built program, run as a person or a script runs it.

mod book;
mod completions_and_help;
mod first_survey;
mod formats;
mod hostile;
mod issue;
mod reckoners;
mod record;
mod served;
