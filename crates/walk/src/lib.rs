//! A recording and its timed words, cut by member and drafted as observations for a yes or no.

pub mod lexicon;
pub mod phones;
pub mod text;
