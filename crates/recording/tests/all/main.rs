//! Recordings of many formats, broken ones among them; and blows among a synthesiser's voice.

mod broken;
mod formats;
mod voices;
