//! The record of a survey: a field book that is never rubbed out, and what it says now.
//!
//! A survey is a set of [`Entry`]s, each one line of JSON that names the line before it by its hash. Nothing is
//! overwritten: a correction is an entry that amends another and says why. [`State`] folds the entries into what
//! the survey says at present, the same whatever order they arrive in. The catalogue of a boat's members is here
//! too, because a survey is laid out by member.
//!
//! Not for: keeping entries (room `store`), reckoning (the ground rooms), wording a report (room `report`).
//! No input or output, no clock, no randomness: identifiers and the time of day are handed in.
//!
//! Read first: [`Entry`], [`payload::Payload`], [`State`].
//!
//! ```
//! use survey::{Draft, EntryId, Pen, State, SurveyId, payload::{Brief, Payload}};
//! let survey = SurveyId::from_bits(1);
//! let mut pen = Pen::new(survey, "A. Surveyor", "office");
//! let brief = Payload::from(Brief { purpose: "pre-purchase".into(), ..Brief::default() });
//! let entry = pen.write(EntryId::from_bits(2), 1_780_000_000_000, &brief);
//! let state = State::fold(survey, [entry]);
//! assert_eq!(state.brief().unwrap().payload.purpose, "pre-purchase");
//! ```

mod admit;
mod carried;
mod catalogue;
mod chain;
pub mod checks;
mod clock;
mod counts;
mod coverage;
mod draft;
mod draws;
mod entry;
mod fold;
mod hanging;
mod ids;
mod issued;
mod language;
pub mod lexicon;
mod nearest;
mod numbering;
pub mod payload;
mod place;
mod reading;
mod record;
mod then_and_now;

pub use admit::AdmitFault;
pub use carried::carried_over;
pub use catalogue::{BoatMember, CatalogueMember, Consequence, catalogue, catalogue_member, members_of};
pub use chain::{ChainFault, check_chains};
pub use clock::{Clock, Stamp};
pub use coverage::{Cover, MemberCover, coverage};
pub use draft::{Draft, DraftFault};
pub use draws::{DrawPlan, Pick, PlannedZone, Verdict, draw_plans};
pub use entry::{Entry, EntryFault, FORMAT, LONGEST_LINE, Pen};
pub use fold::{State, Taken};
pub use hanging::{Hanging, hanging_on};
pub use ids::{Digest, EntryId, IdFault, SurveyId};
pub use issued::{Change, Changed, changes_since};
pub use language::{Language, language_of};
pub use numbering::{finding_numbers, findings_by_part};
pub use place::{Place, Side};
pub use reading::{BoreFinds, DrawnCondition, Knife, Method, Picked, Reading, SoundAnswer};
pub use record::{Record, View};
pub use then_and_now::{MemberThenNow, Sample, Trend, members_then_and_now, trends};
