//! Everything a report prints, as plain Rust: the template reads nothing else.

mod evidence;
mod finding;
mod front;
mod issue;
mod money;
mod recommendation;
mod tables;
mod yard;

pub use evidence::{Evidence, Explanation, PlannedDraw, Question, ThenAndNow};
pub use finding::{Alternative, Finding, Kind, Mark, Part, Picture, Said, SeenLine};
pub use front::{Front, Person, Row, Standing, Statement, Summary, SummaryLine, UrgentLine};
pub use issue::{Certificate, Changes, Letterhead};
pub use money::{Estimate, EstimateLine, Value};
pub use recommendation::{Recommendation, Urgency};
pub use tables::{Align, Change, Column, Digest, NotSeen, Observation, Paragraphs, Plan, Reckoning, Table, Term};
pub use yard::{Drawn, YardList, YardRow, YardTotal};

use serde::Serialize;

/// A whole report. Every part may be left out; a section without content is not printed.
///
/// Text is plain text in the surveyor's words: nothing in it is taken for markup. Numbers in text carry their units.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Document {
    /// What kind of report it is, e.g. `Pre-purchase survey`.
    pub title: String,
    /// The boat's name.
    pub vessel_name: String,
    /// The day or days she was surveyed, as printed.
    pub surveyed: String,
    /// The survey's own number or name.
    pub reference: String,
    /// Draft or issued.
    pub standing: Standing,
    /// The same in words, as printed on the title page and at the head of every page.
    pub standing_words: String,
    /// When the report was made, as printed: the day of issue, or how far the field book went.
    pub dated: String,
    /// That nothing is recorded, when that is so.
    pub notice: String,
    /// Whether the letters are set a sixth larger.
    pub large_letters: bool,
    /// Whose report it is.
    pub letterhead: Letterhead,
    /// What the title page says beside the name.
    pub front: Front,
    /// The language it is written in.
    pub language: survey::Language,
    /// The one page that a client reads.
    pub summary: Summary,
    /// Scope, access, limits: paragraphs under short headings.
    pub scope: Vec<Paragraphs>,
    /// What changed since the version before.
    pub changes: Option<Changes>,
    /// Limitation texts of the surveyor's own.
    pub limitations: Vec<Paragraphs>,
    /// What was not seen, why, and what it would take.
    pub not_seen: Vec<NotSeen>,
    /// How much of her was seen, in a table or two.
    pub coverage: Vec<Table>,
    /// Words and numberings that the reader must share: sides, strakes, frames, likelihood, urgency.
    pub definitions: Vec<Row>,
    /// The boat's particulars.
    pub particulars: Vec<Row>,
    /// Her history, each line marked by whose word it is.
    pub history: Vec<Said>,
    /// Drawings.
    pub plans: Vec<Plan>,
    /// Findings, laid out by part of the boat.
    pub parts: Vec<Part>,
    /// The evidence for what bears on safety.
    pub evidence: Vec<Evidence>,
    /// Fastenings drawn by a plan.
    pub draws: Vec<PlannedDraw>,
    /// Questions of her history.
    pub questions: Vec<Question>,
    /// The survey before and this one.
    pub then_and_now: Option<ThenAndNow>,
    /// Reckonings that the findings lean on.
    pub reckonings: Vec<Reckoning>,
    /// What should be done, in any order; printed by urgency.
    pub recommendations: Vec<Recommendation>,
    /// What it may cost.
    pub estimate: Option<Estimate>,
    /// What she may be worth, where asked.
    pub value: Option<Value>,
    /// The surveyor's statement and signature.
    pub statement: Option<Statement>,
    /// The signature drawn by hand, printed above the name.
    pub hand: Option<Picture>,
    /// The page that says what was issued.
    pub certificate: Option<Certificate>,
    /// Appendix: every observation.
    pub observations: Vec<Observation>,
    /// Appendix: records by method (fastenings drawn, moisture, blows, instruments …).
    pub records: Vec<Table>,
    /// Appendix: pictures that belong to no finding.
    pub pictures: Vec<Picture>,
    /// Words of the trade used in the report.
    pub glossary: Vec<Term>,
    /// Published works and standards that the report leans on.
    pub sources: Vec<String>,
    /// Cautions.
    pub cautions: Vec<String>,
    /// Versions of the report, oldest first.
    pub versions: Vec<Change>,
    /// What proves the record from which the report was made.
    pub digest: Option<Digest>,
}

impl Document {
    /// Every drawing in the order of their numbers: those of the hull, then the chart of cost, then that of value.
    pub fn drawings(&self) -> impl Iterator<Item = &Plan> {
        let of_cost = self.estimate.iter().filter_map(|estimate| estimate.drawn.as_ref());
        let of_value = self.value.iter().filter_map(|value| value.drawn.as_ref());
        self.plans.iter().chain(of_cost).chain(of_value)
    }
}
