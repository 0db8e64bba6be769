//! A survey's report, from the store to the finished PDF.

use crate::take_off;
use measure::System;
use report::{
    Document, Docx, Extras, Issuing, Options, Pages, Paper, Pdf, Pictures, Style, YardList, compose, typeset,
};
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

/// How a report is wanted, beyond what the record says.
#[derive(Clone, Copy, Debug, Default)]
pub struct Wanted<'a> {
    /// The paper.
    pub paper: Paper,
    /// The units shown first.
    pub first: System,
    /// The surveyor's own style, limitation texts read in.
    pub style: Option<&'a Style>,
    /// What is settled when it is issued; a draft when left out.
    pub issuing: Option<&'a Issuing>,
    /// The survey of the same boat before this one.
    pub before: Option<&'a State>,
}

impl Wanted<'_> {
    fn plain(paper: Paper, imperial_first: bool) -> Self {
        let first = if imperial_first { System::Customary } else { System::Metric };
        Self { paper, first, ..Self::default() }
    }
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

/// Writes the report of a state that is at hand as it is wanted: a draft, or a version that is being issued. The same state
/// and wishes give the same bytes.
///
/// # Errors
/// As [`write_report`].
pub fn write_wanted(store: &dyn Store, state: &State, wanted: &Wanted<'_>) -> Result<Written, WrittenFault> {
    Ok(Written { pdf: composed(store, state, wanted, typeset)?, field_book: state.digest() })
}

/// Writes the same report as a DOCX to edit. Blocks while it works.
///
/// # Errors
/// A writer that refuses.
pub fn write_docx(store: &dyn Store, state: &State, wanted: &Wanted<'_>) -> Result<Docx, WrittenFault> {
    composed(store, state, wanted, report::docx)
}

/// The work by place, and what it was made from.
#[derive(Clone, Debug)]
pub struct Yard {
    /// The list.
    pub list: YardList,
    /// The time of the latest entry, in Universal Time.
    pub made: jiff::civil::DateTime,
    /// Digest of the field book that it was made from.
    pub field_book: Digest,
}

/// Composes the list of work for a yard, as of the latest entry.
pub fn yard_list(state: &State, wanted: &Wanted<'_>) -> Yard {
    let layout = plans::layout(state);
    let measured = |member: &str, place: &survey::Place| take_off::measured(layout.as_ref()?, member, place);
    let list = report::yard_list(state, &Extras { measured: Some(&measured), ..extras(state, wanted) });
    let made = jiff::tz::Offset::UTC.to_datetime(state.latest().utc().unwrap_or_default());
    Yard { list, made, field_book: state.digest() }
}

/// As [`write_report`], from a state that is at hand.
pub(crate) fn typeset_report(
    store: &dyn Store,
    state: &State,
    paper: Paper,
    imperial_first: bool,
) -> Result<Written, WrittenFault> {
    write_wanted(store, state, &Wanted::plain(paper, imperial_first))
}

/// Lays the same report out on its pages, to be looked at.
pub(crate) fn lay_out(
    store: &dyn Store,
    state: &State,
    paper: Paper,
    imperial_first: bool,
) -> Result<Pages, WrittenFault> {
    composed(store, state, &Wanted::plain(paper, imperial_first), report::pages)
}

/// Returns what the record does not hold but a report needs, the names of figures left out.
fn extras<'a>(state: &State, wanted: &Wanted<'a>) -> Extras<'a> {
    Extras {
        first: wanted.first,
        style: wanted.style,
        issuing: wanted.issuing,
        before: wanted.before,
        plans: plans::all(state).into_iter().map(|plan| (plan.caption, plan.sheet)).collect(),
        ..Extras::default()
    }
}

/// Composes the document, and makes of it whatever is wanted.
fn composed<T>(
    store: &dyn Store,
    state: &State,
    wanted: &Wanted<'_>,
    make: impl FnOnce(&Document, Pictures<'_>, &Options) -> Result<T, report::Error>,
) -> Result<T, WrittenFault> {
    let describe = |topic: &str| reckon::find(topic).map(reckon::Topic::describe);
    let extras = Extras { describe: Some(&describe), ..extras(state, wanted) };
    let document = compose(state, &extras);
    let read = |sha256: &str| {
        let digest: Digest = sha256.parse().map_err(|_| io::Error::other("this is not a digest"))?;
        store.attachment(&digest, LARGEST_PICTURE).map_err(io::Error::other)
    };
    // The cache may be missing, or lie on a full or read-only disk; then prints are made anew every time.
    let kept_in = store.cache_dir().map(|folder| folder.join("prints"));
    let kept_in = kept_in.filter(|folder| std::fs::create_dir_all(folder).is_ok());
    let made = jiff::tz::Offset::UTC.to_datetime(state.latest().utc().unwrap_or_default());
    let version = wanted.issuing.map_or("draft".to_owned(), |issuing| format!("version {}", issuing.version));
    let ident = format!("{} {} {version}", state.survey(), state.digest());
    let pictures = Pictures { read: &read, kept_in: kept_in.as_deref() };
    Ok(make(&document, pictures, &Options { paper: wanted.paper, ident, made })?)
}
