//! From the record of a survey to a [`Document`]: what is printed where, with numbers that point at one another.
//!
//! The text is the surveyor's own. What is added here is short, exact, and the same for every survey.

mod draws;
mod evidence;
mod findings;
mod front;
mod issue;
mod money;
mod photographs;
mod questions;
mod reading;
mod reckonings;
mod recommendations;
mod records;
mod scope;
mod style;
mod summary;
mod then_and_now;
mod trade_words;
mod waters;
mod ways;
mod wording;
mod yard;

pub use issue::Issuing;
pub use reckonings::Describe;
pub use yard::{Measured, yard_list};

use crate::{Document, Plan, Standing, Style};
use drawing::Sheet;
use measure::System;
use numbers::Numbers;
use survey::State;
use wording::Wording;

mod numbers;

/// What the record does not hold but a report needs.
#[derive(Clone, Default)]
pub struct Extras<'a> {
    /// Draft or issued. Whoever issues a report settles version and day.
    pub standing: Standing,
    /// The system shown first; the other follows in brackets.
    pub first: System,
    /// Drawings with their captions, in order.
    pub plans: Vec<(String, Sheet)>,
    /// Measures a member's place on the drawing, for the yard's list.
    pub measured: Option<&'a Measured<'a>>,
    /// Tells what a topic of the table of reckoners declares of itself, for the names and units of its figures.
    pub describe: Option<&'a Describe<'a>>,
    /// The surveyor's own style; limitation texts read in.
    pub style: Option<&'a Style>,
    /// What is settled when the report is issued; then it is no draft, whatever `standing` says.
    pub issuing: Option<&'a Issuing>,
    /// The survey of the same boat before this one, to be set beside it.
    pub before: Option<&'a State>,
}

/// Composes the report of a survey as it stands.
pub fn compose(state: &State, extras: &Extras<'_>) -> Document {
    let wording = Wording { first: extras.first, language: survey::language_of(state) };
    let numbers = Numbers::of(state);
    let standing = issue::standing(extras);
    let totals = money::totals(state);
    let mut document = Document {
        language: survey::language_of(state),
        standing_words: issue::standing_words(state, &standing),
        dated: issue::dated(state, &standing),
        notice: front::notice(state),
        changes: issue::changes(state, &numbers, extras),
        evidence: evidence::evidence(state, &numbers, &wording),
        draws: draws::draws(state, &numbers, &wording),
        questions: questions::questions(state, &numbers),
        then_and_now: extras.before.map(|before| then_and_now::then_and_now(before, state, &numbers)),
        certificate: issue::certificate(state, extras),
        coverage: scope::coverage(state),
        not_seen: scope::not_seen(state, &wording),
        scope: scope::scope(state),
        definitions: scope::definitions(state),
        particulars: front::particulars(state, &wording),
        history: front::history(state),
        plans: extras
            .plans
            .iter()
            .map(|(caption, sheet)| Plan { caption: caption.clone(), sheet: sheet.clone(), key: Vec::new() })
            .collect(),
        parts: findings::parts(state, &numbers, &wording),
        reckonings: reckonings::reckonings(state, &numbers, extras.describe),
        recommendations: recommendations::recommendations(state, &numbers),
        estimate: money::estimate(state, &numbers, totals.as_ref()),
        value: money::value(state, &wording, totals.as_ref()),
        statement: front::statement(state, &standing),
        observations: findings::observations(state, &numbers, &wording),
        records: records::records(state, &numbers, &wording),
        versions: records::versions(state),
        digest: records::digest(state),
        cautions: scope::cautions(state),
        standing,
        ..Document::default()
    };
    front::put(state, &mut document);
    style::put(extras, &mut document);
    issue::put_version(extras, &mut document.versions);
    findings::put_further_pictures(state, &numbers, &mut document);
    photographs::put(state, &numbers, &wording, &mut document);
    document.summary = summary::summary(state, &numbers, &document, totals.as_ref());
    document.sources = scope::sources(state);
    document.glossary = trade_words::used_in(&document);
    document
}
