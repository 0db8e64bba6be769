//! A survey's report, from the store to the finished PDF.

use report::{Document, Extras, Options, Pages, Paper, Pdf, Pictures, compose, typeset};
use std::io;
use store::{Store, StoreFault};
use survey::{Digest, State, SurveyId};

/// Largest photograph read for a report, in bytes.
const LARGEST_PICTURE: u64 = 256 << 20;

/// A report and what it was made from.
#[derive(Clone, Debug)]
pub struct Written {
    /// The report.
    pub pdf: Pdf,
    /// Digest of the field book that it was made from.
    pub field_book: Digest,
}

/// Why there is no report.
#[derive(Debug, thiserror::Error)]
pub enum WrittenFault {
    /// The record cannot be read.
    #[error(transparent)]
    Store(#[from] StoreFault),
    /// The typesetter refused.
    #[error(transparent)]
    Report(#[from] report::Error),
}

/// Writes the report of a survey as it stands, as a draft. The same record gives the same bytes: the report is dated
/// by its latest entry, not by the clock. Blocks while it works.
///
/// # Errors
/// A record that cannot be read, or a typesetter that refuses. Photographs that cannot be printed are not errors: the
/// report says so in their place.
pub fn write_report(
    store: &dyn Store,
    survey: SurveyId,
    paper: Paper,
    imperial_first: bool,
) -> Result<Written, WrittenFault> {
    typeset_report(store, &store.state(survey)?, paper, imperial_first)
}

/// As [`write_report`], from a state that is at hand.
pub(crate) fn typeset_report(
    store: &dyn Store,
    state: &State,
    paper: Paper,
    imperial_first: bool,
) -> Result<Written, WrittenFault> {
    let pdf = composed(store, state, paper, imperial_first, typeset)?;
    Ok(Written { pdf, field_book: state.digest() })
}

/// Lays the same report out on its pages, to be looked at.
pub(crate) fn lay_out(
    store: &dyn Store,
    state: &State,
    paper: Paper,
    imperial_first: bool,
) -> Result<Pages, WrittenFault> {
    composed(store, state, paper, imperial_first, report::pages)
}

/// Composes the document, and makes of it whatever is wanted.
fn composed<T>(
    store: &dyn Store,
    state: &State,
    paper: Paper,
    imperial_first: bool,
    make: impl FnOnce(&Document, Pictures<'_>, &Options) -> Result<T, report::Error>,
) -> Result<T, WrittenFault> {
    let describe = |topic: &str| reckon::find(topic).map(reckon::Topic::describe);
    let extras = Extras {
        first: if imperial_first { measure::System::Customary } else { measure::System::Metric },
        plans: plans::all(state).into_iter().map(|plan| (plan.caption, plan.sheet)).collect(),
        describe: Some(&describe),
        ..Extras::default()
    };
    let document = compose(state, &extras);
    let read = |sha256: &str| {
        let digest: Digest = sha256.parse().map_err(|_| io::Error::other("this is not a digest"))?;
        store.attachment(&digest, LARGEST_PICTURE).map_err(io::Error::other)
    };
    // The cache may be missing, or lie on a full or read-only disk; then prints are made anew every time.
    let kept_in = store.cache_dir().map(|folder| folder.join("prints"));
    let kept_in = kept_in.filter(|folder| std::fs::create_dir_all(folder).is_ok());
    let made = jiff::tz::Offset::UTC.to_datetime(state.latest().utc().unwrap_or_default());
    let ident = format!("{} {} draft", state.survey(), state.digest());
    let pictures = Pictures { read: &read, kept_in: kept_in.as_deref() };
    Ok(make(&document, pictures, &Options { paper, ident, made })?)
}
