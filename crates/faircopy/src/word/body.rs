//! The running text as it is written: paragraphs, and what other parts of the package must know of it.

use super::WordOptions;
use super::pieces::{Face, Piece, Target, field, plain, run, set};
use super::xml::{escaped, paragraphs};
use crate::{Document, Kind, Said};
use std::collections::BTreeSet;

/// A picture's file within the package.
pub(super) struct Medium {
    /// Its name, e.g. `picture-1.jpg`.
    pub(super) name: String,
    /// Its bytes.
    pub(super) bytes: Vec<u8>,
}

/// The running text.
pub(super) struct Body<'a> {
    /// The XML so far.
    pub(super) xml: String,
    /// Pictures' files; relationship `media-N` is the N-th, counted from 1.
    pub(super) media: Vec<Medium>,
    /// Headings for the table of contents: level, number, bookmark, words.
    pub(super) contents: Vec<(u8, String, String, String)>,
    /// What is settled beside the document.
    pub(super) options: &'a WordOptions<'a>,
    there: BTreeSet<Target>,
    marked: BTreeSet<Target>,
    next_id: u32,
    counts: [(&'static str, u32); 3],
    sections: (u32, bool),
}

impl<'a> Body<'a> {
    pub(super) fn new(document: &Document, options: &'a WordOptions<'a>) -> Self {
        let findings = document.parts.iter().flat_map(|part| &part.findings).map(|f| Target::Finding(f.number));
        let there = findings
            .chain(document.recommendations.iter().map(|r| Target::Recommendation(r.number)))
            .chain(document.observations.iter().map(|o| Target::Observation(o.number)))
            .chain(document.reckonings.iter().map(|r| Target::Reckoning(r.number)));
        Self {
            xml: String::new(),
            media: Vec::new(),
            contents: Vec::new(),
            options,
            there: there.collect(),
            marked: BTreeSet::new(),
            next_id: 1,
            counts: [("Picture", 0), ("Table", 0), ("Drawing", 0)],
            sections: (0, false),
        }
    }

    /// Returns a number that nothing else in the document has.
    pub(super) fn id(&mut self) -> u32 {
        self.next_id += 1;
        self.next_id - 1
    }

    /// Returns the next number of a kind of caption.
    pub(super) fn count(&mut self, what: &'static str) -> Piece {
        let mut number = 0;
        if let Some((_, n)) = self.counts.iter_mut().find(|(name, _)| *name == what) {
            *n += 1;
            number = *n;
        }
        Piece::Counted(what, number)
    }

    /// Writes pieces as runs.
    pub(super) fn runs(&mut self, pieces: &[Piece]) -> String {
        let mut out = String::new();
        for piece in pieces {
            match piece {
                Piece::Words(words, face) => out.push_str(&run(words, *face)),
                Piece::Here(target, face) => {
                    let number = run(&target.number().to_string(), *face);
                    // A number can be pointed at once; a second with the same name would be refused as damaged.
                    if self.marked.insert(*target) {
                        let (id, name) = (self.id(), target.bookmark());
                        out.push_str(&format!(
                            "<w:bookmarkStart w:id=\"{id}\" w:name=\"{name}\"/>{number}<w:bookmarkEnd w:id=\"{id}\"/>"
                        ));
                    } else {
                        out.push_str(&number);
                    }
                }
                Piece::See(target) if self.there.contains(target) => {
                    let instruction = format!("REF {} \\h", target.bookmark());
                    out.push_str(&field(&instruction, &target.number().to_string(), Face::Plain));
                }
                Piece::See(target) => out.push_str(&run(&target.number().to_string(), Face::Plain)),
                Piece::Counted(what, number) => {
                    out.push_str(&field(&format!("SEQ {what} \\* ARABIC"), &number.to_string(), Face::Strong));
                }
            }
        }
        out
    }

    /// Writes a paragraph in a style.
    pub(super) fn paragraph(&mut self, style: &str, pieces: &[Piece]) {
        let runs = self.runs(pieces);
        self.xml.push_str(&format!("<w:p><w:pPr><w:pStyle w:val=\"{style}\"/></w:pPr>{runs}</w:p>"));
    }

    /// Writes words in a style, each of their paragraphs by itself.
    pub(super) fn prose(&mut self, style: &str, words: &str) {
        for lines in paragraphs(words) {
            self.paragraph(style, &[plain(lines.join("\n"))]);
        }
    }

    /// Writes a labelled line. Nothing where there are no words.
    pub(super) fn labelled(&mut self, style: &str, label: &str, words: &str) {
        for (i, lines) in paragraphs(words).into_iter().enumerate() {
            let words = plain(lines.join("\n"));
            if i == 0 && !label.is_empty() {
                self.paragraph(style, &[set(format!("{}: ", label.trim_end_matches([':', '.'])), Face::Label), words]);
            } else {
                self.paragraph(style, &[words]);
            }
        }
    }

    /// Writes a heading of the first level, numbered.
    pub(super) fn section(&mut self, title: &str) {
        self.sections.0 += 1;
        let (number, appendix) = self.sections;
        let letter = char::from_u32('A' as u32 + (number - 1) % 26).unwrap_or('A');
        let shown = if appendix { letter.to_string() } else { number.to_string() };
        self.heading(if appendix { "AppendixHeading" } else { "Heading1" }, 1, &shown, &[plain(title)]);
    }

    /// From here on sections are appendices, with letters.
    pub(super) fn begin_appendices(&mut self) {
        self.sections = (0, true);
    }

    /// Writes a heading that the table of contents lists (levels 1 and 2) and navigation shows.
    pub(super) fn heading(&mut self, style: &str, level: u8, number: &str, pieces: &[Piece]) {
        let id = self.id();
        let name = format!("section_{id}");
        let runs = self.runs(pieces);
        let words: String = pieces
            .iter()
            .map(|piece| match piece {
                Piece::Words(words, _) => words.clone(),
                Piece::Here(target, _) | Piece::See(target) => target.number().to_string(),
                Piece::Counted(_, number) => number.to_string(),
            })
            .collect();
        if level <= 2 {
            self.contents.push((level, number.to_owned(), name.clone(), words));
        }
        self.xml.push_str(&format!(
            "<w:p><w:pPr><w:pStyle w:val=\"{style}\"/></w:pPr><w:bookmarkStart w:id=\"{id}\" w:name=\"{name}\"/>{runs}<w:bookmarkEnd w:id=\"{id}\"/></w:p>"
        ));
    }

    /// Writes something said, by its kind.
    pub(super) fn said(&mut self, said: &Said) {
        let pieces = said_pieces(said);
        match said.kind {
            Kind::Fact => self.paragraph("BodyText", &pieces),
            Kind::Hearsay => self.paragraph("BodyText", &[&[set("Hearsay: ", Face::Label)], &pieces[..]].concat()),
            Kind::Inference => {
                self.paragraph("Proposed", &[&[set("Proposed by machine: ", Face::Label)], &pieces[..]].concat());
            }
            Kind::Opinion => self.paragraph("Opinion", &[&[set("Opinion: ", Face::Label)], &pieces[..]].concat()),
        }
    }

    /// Begins a new page.
    pub(super) fn new_page(&mut self) {
        self.xml.push_str("<w:p><w:r><w:br w:type=\"page\"/></w:r></w:p>");
    }

    /// Writes the table of contents at the place that was kept for it.
    pub(super) fn put_contents(&mut self) {
        let mut out = String::new();
        let last = self.contents.len().saturating_sub(1);
        for (i, (level, number, bookmark, words)) in self.contents.iter().enumerate() {
            let begin = if i == 0 {
                "<w:r><w:fldChar w:fldCharType=\"begin\"/></w:r><w:r><w:instrText xml:space=\"preserve\"> TOC \\o \"1-2\" \\h \\z \\u </w:instrText></w:r><w:r><w:fldChar w:fldCharType=\"separate\"/></w:r>"
            } else {
                ""
            };
            let end = if i == last { "<w:r><w:fldChar w:fldCharType=\"end\"/></w:r>" } else { "" };
            let shown = if number.is_empty() { words.clone() } else { format!("{number}  {words}") };
            out.push_str(&format!(
                "<w:p><w:pPr><w:pStyle w:val=\"TOC{level}\"/></w:pPr>{begin}<w:hyperlink w:anchor=\"{bookmark}\" w:history=\"1\"><w:r><w:t xml:space=\"preserve\">{}</w:t></w:r><w:r><w:tab/></w:r>{}</w:hyperlink>{end}</w:p>",
                escaped(&shown),
                field(&format!("PAGEREF {bookmark} \\h"), " ", Face::Plain).replacen(BEGIN, BEGIN_ANEW, 1)
            ));
        }
        self.xml = self.xml.replacen(CONTENTS_HERE, &out, 1);
    }
}

/// How a field begins; and how one begins that is to be worked out when the file is opened, because its page is not
/// known here.
const BEGIN: &str = "w:fldCharType=\"begin\"";
const BEGIN_ANEW: &str = "w:fldCharType=\"begin\" w:dirty=\"true\"";

/// Stands where the table of contents will be written. No words can contain it, because `<` in words is written `&lt;`.
pub(super) const CONTENTS_HERE: &str = "<contents/>";

/// Returns something said as pieces, without the label of its kind.
pub(super) fn said_pieces(said: &Said) -> Vec<Piece> {
    match said.kind {
        Kind::Hearsay if said.by.trim().is_empty() => {
            vec![plain("As told or read: "), set(format!("‘{}’", said.words.trim()), Face::Emphasis)]
        }
        Kind::Hearsay => {
            vec![plain(format!("{} says: ", said.by.trim())), set(format!("‘{}’", said.words.trim()), Face::Emphasis)]
        }
        Kind::Fact | Kind::Inference | Kind::Opinion => vec![plain(said.words.clone())],
    }
}

/// Returns `Findings 1, 2 and 3` as pieces, each number a pointer.
pub(super) fn pointers(one: &str, many: &str, targets: &[Target]) -> Vec<Piece> {
    let mut out = vec![plain(format!("{} ", if targets.len() == 1 { one } else { many }))];
    for (i, target) in targets.iter().enumerate() {
        if i > 0 {
            out.push(plain(if i + 1 == targets.len() { " and " } else { ", " }));
        }
        out.push(Piece::See(*target));
    }
    out
}
