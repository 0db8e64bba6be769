//! What a paragraph is made of: words in a few settings, numbers that can be pointed at, and pointers.

use super::xml::{escaped, paragraphs};

/// How words are set, by a character style.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Face {
    /// As the paragraph.
    #[default]
    Plain,
    /// Bold.
    Strong,
    /// Italic.
    Emphasis,
    /// Small sans, for labels.
    Label,
    /// Faint.
    Faint,
    /// In the one accent.
    Accent,
}

impl Face {
    fn style(self) -> &'static str {
        match self {
            Face::Plain => "",
            Face::Strong => "<w:rPr><w:rStyle w:val=\"Strong\"/></w:rPr>",
            Face::Emphasis => "<w:rPr><w:rStyle w:val=\"Emphasis\"/></w:rPr>",
            Face::Label => "<w:rPr><w:rStyle w:val=\"Label\"/></w:rPr>",
            Face::Faint => "<w:rPr><w:rStyle w:val=\"Faint\"/></w:rPr>",
            Face::Accent => "<w:rPr><w:rStyle w:val=\"Accent\"/></w:rPr>",
        }
    }
}

/// What can be pointed at, by its number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Target {
    /// A finding.
    Finding(u32),
    /// A recommendation.
    Recommendation(u32),
    /// An observation.
    Observation(u32),
    /// A reckoning.
    Reckoning(u32),
}

impl Target {
    /// Its name among the document's bookmarks.
    pub(super) fn bookmark(self) -> String {
        match self {
            Target::Finding(n) => format!("finding_{n}"),
            Target::Recommendation(n) => format!("recommendation_{n}"),
            Target::Observation(n) => format!("observation_{n}"),
            Target::Reckoning(n) => format!("reckoning_{n}"),
        }
    }

    pub(super) fn number(self) -> u32 {
        match self {
            Target::Finding(n) | Target::Recommendation(n) | Target::Observation(n) | Target::Reckoning(n) => n,
        }
    }
}

/// A piece of a paragraph.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Piece {
    /// Words.
    Words(String, Face),
    /// A number that can be pointed at.
    Here(Target, Face),
    /// A pointer to such a number, kept right by the word processor.
    See(Target),
    /// A number that the word processor counts: `Picture`, `Table`, `Drawing`.
    Counted(&'static str, u32),
}

/// Returns words as they stand in the paragraph.
pub(super) fn plain(words: impl Into<String>) -> Piece {
    Piece::Words(words.into(), Face::Plain)
}

/// Returns words in a setting.
pub(super) fn set(words: impl Into<String>, face: Face) -> Piece {
    Piece::Words(words.into(), face)
}

/// Writes a run of words; line ends in them are kept.
pub(super) fn run(words: &str, face: Face) -> String {
    let mut out = format!("<w:r>{}", face.style());
    let all = paragraphs(words).concat();
    // Blanks at either end join the words to their neighbours.
    let lead = if words.starts_with(' ') && all.is_empty() { " " } else { "" };
    out.push_str(&format!("<w:t xml:space=\"preserve\">{lead}"));
    for (i, line) in all.iter().enumerate() {
        if i > 0 {
            out.push_str("</w:t><w:br/><w:t xml:space=\"preserve\">");
        }
        out.push_str(&escaped(line));
    }
    if words.ends_with(' ') && !all.is_empty() {
        out.push(' ');
    }
    out.push_str("</w:t></w:r>");
    out
}

/// Writes a field with what it shows until it is worked out again.
pub(super) fn field(instruction: &str, shown: &str, face: Face) -> String {
    let style = face.style();
    format!(
        "<w:r>{style}<w:fldChar w:fldCharType=\"begin\"/></w:r><w:r>{style}<w:instrText xml:space=\"preserve\"> {} </w:instrText></w:r>\
         <w:r>{style}<w:fldChar w:fldCharType=\"separate\"/></w:r><w:r>{style}<w:t>{}</w:t></w:r><w:r>{style}<w:fldChar w:fldCharType=\"end\"/></w:r>",
        escaped(instruction),
        escaped(shown)
    )
}
