//! Checks before a report goes out: what the record still owes its reader.
//!
//! For: naming, before issue, each thing that a reader, a yard or a court would miss, with the place where it is mended.
//! Not for: judging the boat, or changing anything. A check that blocks can be overruled by the surveyor, who gives a
//! reason that the report prints. Pure functions of the record, so that the phone under the boat runs the same ones.
//!
//! The rules are our own, made from `design` of a report that stands in a dispute; none is another body's list.

mod covered;
mod figures;
mod front;
mod grounded;
mod hearsay;
mod pictures;
mod promises;
mod settled;
mod trade_words;
mod written;

use crate::{Digest, EntryId, MemberCover, State, coverage};
use std::collections::{BTreeMap, BTreeSet};

/// Whether a rule stops a report from being issued.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// The report is not issued until it is mended, or the surveyor overrules it with a reason.
    Blocks,
    /// It is said, and stops nothing.
    Advises,
}

/// One rule: what is asked of the record, and why.
#[derive(Debug)]
pub struct Rule {
    /// Its name, by which it is overruled: `finding-has-basis`.
    pub name: &'static str,
    /// What is asked, in a sentence.
    pub asks: &'static str,
    /// Why, in a sentence.
    pub reason: &'static str,
    /// Whether it stops the issue.
    pub weight: Weight,
    check: fn(&Asked<'_>) -> Vec<Found>,
}

/// Where a thing is mended.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Spot {
    /// The entry to amend, or that something is to be added to.
    pub entry: Option<EntryId>,
    /// The member it is about.
    pub member: Option<String>,
    /// The field of the entry.
    pub field: Option<&'static str>,
    /// The kind of entry that is wanting, when one is to be made.
    pub wants: Option<&'static str>,
}

/// One thing found wanting.
#[derive(Clone, Debug)]
pub struct Shortfall {
    /// The rule that asks for it.
    pub rule: &'static Rule,
    /// What is wanting, in a sentence.
    pub words: String,
    /// Where it is mended.
    pub spot: Spot,
}

/// What the record itself does not hold but the checks need.
#[derive(Clone, Debug, Default)]
pub struct Given {
    /// Attachments that the record names and whose bytes are not at hand.
    pub missing: BTreeSet<Digest>,
}

/// What a check reads.
struct Asked<'a> {
    state: &'a State,
    covers: Vec<MemberCover>,
    given: &'a Given,
}

impl Asked<'_> {
    /// Returns a member's name as printed.
    fn member(&self, id: &str) -> String {
        let named = self.covers.iter().find(|c| c.member.id == id).map(|c| c.member.name.to_lowercase());
        named.unwrap_or_else(|| id.replace('-', " "))
    }
}

/// What a check found, before its rule is put to it.
struct Found {
    words: String,
    spot: Spot,
}

impl Found {
    fn new(words: impl Into<String>) -> Self {
        Self { words: words.into(), spot: Spot::default() }
    }

    fn at(mut self, entry: EntryId) -> Self {
        self.spot.entry = Some(entry);
        self
    }

    fn of(mut self, member: &str) -> Self {
        self.spot.member = Some(member.to_owned());
        self
    }

    fn field(mut self, field: &'static str) -> Self {
        self.spot.field = Some(field);
        self
    }

    fn wants(mut self, kind: &'static str) -> Self {
        self.spot.wants = Some(kind);
        self
    }
}

/// All rules, in the order in which they are told.
pub fn rules() -> impl Iterator<Item = &'static Rule> {
    [
        front::RULES,
        covered::RULES,
        grounded::RULES,
        figures::RULES,
        hearsay::RULES,
        promises::RULES,
        pictures::RULES,
        trade_words::RULES,
        settled::RULES,
    ]
    .into_iter()
    .flatten()
}

/// Returns a rule by its name.
pub fn rule(name: &str) -> Option<&'static Rule> {
    rules().find(|rule| rule.name == name)
}

/// Checks a survey as it would be issued now, and returns what is wanting, in the order of the rules.
pub fn before_issue(state: &State, given: &Given) -> Vec<Shortfall> {
    let asked = Asked { state, covers: coverage(state), given };
    let mut out = Vec::new();
    for rule in rules() {
        out.extend((rule.check)(&asked).into_iter().map(|found| Shortfall {
            rule,
            words: found.words,
            spot: found.spot,
        }));
    }
    out
}

/// Returns what stops the issue: what a blocking rule found and no reason overrules. `against` holds reasons by the name
/// of a rule; an empty reason overrules nothing.
pub fn stops<'a>(shortfalls: &'a [Shortfall], against: &BTreeMap<String, String>) -> Vec<&'a Shortfall> {
    let overruled = |name: &str| against.get(name).is_some_and(|reason| !reason.trim().is_empty());
    shortfalls.iter().filter(|s| s.rule.weight == Weight::Blocks && !overruled(s.rule.name)).collect()
}
