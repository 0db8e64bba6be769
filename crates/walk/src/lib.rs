//! A recording and its timed words, cut by member and drafted as observations for a yes or no.
//!
//! For: a surveyor who talks while tapping. Timed text ([`text`]) is mended against the words of the trade ([`mend`]), read for
//! numbers and places ([`said`]), cut into passages by member ([`passage`]) and turned into drafts ([`draft`]), each with the
//! second of the recording, the words it comes from and what is doubtful about it. Not for: hearing (speech-to-text is an
//! input), finding blows (the room `sounding`), or concluding: what sounds like a finding becomes a question, and nothing is
//! entered without a person's yes. No input or output, no clock, no randomness; no text makes it panic.
//!
//! Read first: [`TimedText`], [`walk()`], [`Draft`].
//!
//! ```
//! use survey::SoundAnswer;
//! use walk::{Blow, MemberNames, TimedText};
//!
//! let heard = "WEBVTT\n\n00:01.000 --> 00:05.000\nPort side gar board is dull between frames eleven and thirteen.\n\n\
//!              00:06.000 --> 00:09.000\nKnife goes in five eighths.\n";
//! let text = TimedText::read(heard.as_bytes(), Some(20.0))?;
//! let blows = [Blow { time_s: 4.0, judgement: SoundAnswer::DullOrHollow }];
//! let walk = walk::walk(&text, &MemberNames::catalogue(), &blows, &[]);
//!
//! // What was heard stands beside what is proposed.
//! assert_eq!((walk.corrections[0].heard.as_str(), walk.corrections[0].meant.as_str()), ("gar board", "garboard"));
//! let said: Vec<String> = walk.drafts.iter().filter_map(|draft| draft.payload()).map(|p| p.to_json()).collect();
//! assert_eq!(
//!     said[0],
//!     r#"{"member":"garboard","place":{"side":"port","strake":1,"frame_from":11,"frame_to":13},"reading":{"method":"sound","answer":"dull_or_hollow","blows":1},"note":"Port side garboard is dull between frames eleven and thirteen."}"#
//! );
//! assert!(said[1].contains(r#""depth_mm":15.875"#));
//! # Ok::<(), walk::text::TextFault>(())
//! ```

pub mod draft;
pub mod lexicon;
pub mod mend;
pub mod passage;
pub mod phones;
pub mod said;
pub mod text;
mod walk;

pub use draft::{Blow, Draft, Drafted, Unplaced};
pub use mend::{Correction, mend};
pub use passage::{MemberNames, Passage};
pub use phones::{bring_words, words_are_here};
pub use text::TimedText;
pub use walk::{Walk, walk};
