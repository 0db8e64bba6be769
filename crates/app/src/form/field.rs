//! One field of a form.

use super::Choice;

/// One field: the place it fills in the payload's JSON, its words and what it takes.
#[derive(Clone, Debug)]
pub struct Field {
    /// Dotted name of what it fills, e.g. `reading.depth_mm`.
    pub key: &'static str,
    /// What it is, in the trade's words.
    pub label: &'static str,
    /// What helps to fill it; may be empty.
    pub hint: &'static str,
    /// What it takes.
    pub kind: Kind,
    /// Whether the form cannot do without it.
    pub required: bool,
    /// The field and values under which it is asked; always when `None`.
    pub asked_when: Option<(&'static str, &'static [&'static str])>,
}

/// What a field takes.
#[derive(Clone, Debug)]
pub enum Kind {
    /// A line of text.
    Line,
    /// Text of several lines.
    Text,
    /// A number in the unit named.
    Number(&'static str),
    /// A whole number.
    Count,
    /// A length as people write it, kept in millimetres.
    Length,
    /// So many lengths on one line, parted by semicolons; kept as a list in millimetres.
    Lengths(usize),
    /// Lines of so many lengths each, parted by semicolons; kept as a list of lists in millimetres.
    LengthRows(usize),
    /// A mass as people write it, kept in kilograms.
    Mass,
    /// A day.
    Day,
    /// Yes or no, no when not ticked.
    Tick,
    /// Yes, no, or not tried.
    YesNo,
    /// One of a few.
    Choice(fn() -> Vec<Choice>),
    /// Any of a few, kept as a list.
    Several(fn() -> Vec<Choice>),
    /// A list of lines, one to a row.
    Lines,
    /// A species of timber, by any of its names.
    Species,
    /// A member of the boat.
    Member,
    /// Entries of some kinds, kept as a list.
    Entries(&'static [&'static str]),
    /// One entry of a kind.
    Entry(&'static str),
    /// Rows of fields, kept as a list of objects.
    Rows(&'static [Field]),
    /// Fixed text that the form sets and nobody types.
    Fixed,
}

impl Field {
    /// Returns a field that may be left empty.
    pub const fn new(key: &'static str, label: &'static str, kind: Kind) -> Self {
        Self { key, label, hint: "", kind, required: false, asked_when: None }
    }

    /// Returns a field that cannot be left empty.
    pub const fn needed(key: &'static str, label: &'static str, kind: Kind) -> Self {
        Self { key, label, hint: "", kind, required: true, asked_when: None }
    }

    /// Adds what helps to fill it.
    pub const fn hint(mut self, hint: &'static str) -> Self {
        self.hint = hint;
        self
    }

    /// Asks it only while another field has one of the values.
    pub const fn when(mut self, key: &'static str, values: &'static [&'static str]) -> Self {
        self.asked_when = Some((key, values));
        self
    }

    /// Tells whether it is asked, given what was typed so far.
    pub fn is_asked(&self, typed: &super::Typed) -> bool {
        match self.asked_when {
            Some((key, values)) => values.contains(&typed.get(key).map_or("", String::as_str)),
            None => true,
        }
    }
}
