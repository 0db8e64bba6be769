//! Recommendations by urgency.

use serde::Serialize;

/// When a thing must be done, in the order in which the report prints them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Urgency {
    /// Before she floats.
    BeforeSheFloats,
    /// Before she is used.
    BeforeSheIsUsed,
    /// Before the intended waters.
    BeforeTheIntendedWaters,
    /// At the next haul-out, no later than a date.
    AtTheNextHaulOut,
    /// Watch: measure again on a date.
    Watch,
    /// For long life; no danger now.
    ForLongLife,
    /// Find out: open, draw or test.
    #[default]
    FindOut,
}

impl Urgency {
    /// Returns the words, with the date where the urgency has one.
    pub fn words(self, date: Option<&str>) -> String {
        match (self, date) {
            (Urgency::BeforeSheFloats, _) => "before she floats".to_owned(),
            (Urgency::BeforeSheIsUsed, _) => "before she is used".to_owned(),
            (Urgency::BeforeTheIntendedWaters, _) => "before the intended waters".to_owned(),
            (Urgency::AtTheNextHaulOut, Some(date)) => format!("at the next haul-out, no later than {date}"),
            (Urgency::AtTheNextHaulOut, None) => "at the next haul-out".to_owned(),
            (Urgency::Watch, Some(date)) => format!("watch: measure again on {date}"),
            (Urgency::Watch, None) => "watch: measure again".to_owned(),
            (Urgency::ForLongLife, _) => "for long life".to_owned(),
            (Urgency::FindOut, _) => "find out: open, draw or test".to_owned(),
        }
    }
}

/// What should be done.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Recommendation {
    /// Number, from 1, unique in the report.
    pub number: u32,
    /// When.
    pub urgency: Urgency,
    /// The date that goes with the urgency, as printed.
    pub date: Option<String>,
    /// The same date in an order that sorts (`2027-05-01`), so that earlier dates come first.
    pub date_order: String,
    /// Short heading.
    pub title: String,
    /// What is to be done, where and how far.
    pub action: String,
    /// Why, by whom, how shown to be done, cost: labelled lines, printed in this order.
    pub more: Vec<super::Row>,
    /// Rival ways of doing it, a row each; without rows where none were weighed.
    pub ways: super::Table,
    /// Findings it answers, by number.
    pub findings: Vec<u32>,
    /// What has become of it since, in words; may be empty.
    pub standing: String,
}

impl Recommendation {
    /// Returns recommendations in the order of print: most urgent first, earlier dates first.
    pub fn by_urgency(all: &[Self]) -> Vec<&Self> {
        let mut sorted: Vec<&Self> = all.iter().collect();
        sorted.sort_by(|a, b| {
            let key = |r: &Self| (r.urgency, r.date.is_none(), r.date_order.clone(), r.number);
            key(a).cmp(&key(b))
        });
        sorted
    }
}
