//! Drawing named parts with what was found on them: shared by backbone, framing, deck and transom.

use super::{Condition, Mark, Page, annotate, fitted::Fitted, labels::Labels};
use crate::{Basis, Place};
use drawing::{Hatch, Ink, Pen, Shape, Sheet};

/// A part with its outline in metres; conditions by its name fill it.
pub(crate) struct Part {
    /// Name by which a place finds it, e.g. `stem`.
    pub name: String,
    /// Word written beside it, or empty.
    pub word: String,
    /// Outline.
    pub outline: Vec<(f64, f64)>,
    /// Whether it is drawn dashed, as lying behind.
    pub behind: bool,
    /// Whether it hides what lies below it.
    pub hides: bool,
    /// Where its word is to stand; its middle when not said.
    pub word_at: Option<(f64, f64)>,
    /// What a page is told of it when it is pointed at, by the place that finds it.
    pub place: Place,
}

impl Part {
    pub(crate) fn new(name: &str, word: &str, outline: Vec<(f64, f64)>) -> Part {
        let place = Place::member(name);
        Part {
            name: name.to_owned(),
            word: word.to_owned(),
            outline,
            behind: false,
            hides: false,
            word_at: None,
            place,
        }
    }

    /// Returns the part found by another place than a member of its name.
    pub(crate) fn at(mut self, place: Place) -> Part {
        self.place = place;
        self
    }

    pub(crate) fn behind(mut self) -> Part {
        self.behind = true;
        self
    }

    pub(crate) fn hiding(mut self) -> Part {
        self.hides = true;
        self
    }

    pub(crate) fn word_at(mut self, at: (f64, f64)) -> Part {
        self.word_at = Some(at);
        self
    }

    pub(crate) fn middle(&self) -> (f64, f64) {
        let n = self.outline.len().max(1) as f64;
        let sum = self.outline.iter().fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
        (sum.0 / n, sum.1 / n)
    }
}

/// Finds the outline of a place, in metres; none where the sheet does not show it.
pub(crate) type Find<'a> = dyn Fn(&Place) -> Option<Vec<(f64, f64)>> + 'a;

/// Draws parts, conditions (by the outline a function gives for each) and marks, and returns how many could not be
/// placed.
#[expect(clippy::too_many_arguments, reason = "one drawing step, the same for four sheets")]
pub(crate) fn draw(
    sheet: &mut Sheet,
    page: Page,
    fit: &Fitted,
    parts: &[Part],
    outline_of: &Find<'_>,
    conditions: &[Condition],
    marks: &[Mark],
    labels: &mut Labels,
) -> usize {
    let mut missed = 0;
    let drawn = parts.iter().filter(|p| !p.outline.is_empty()).map(|part| {
        let pen = if part.behind { Pen::THIN.ink(Ink::Faint).dashed() } else { Pen::THIN };
        let hatch = if part.hides { Hatch::Paper } else { Hatch::Bare };
        let shape = Shape::outline(fit.line(&part.outline)).pen(pen).hatch(hatch);
        annotate::told(Shape::group(part.name.clone(), part.word.clone(), vec![shape]), "", &part.place)
    });
    for shape in drawn {
        sheet.add(shape);
    }
    let mut words = Vec::new();
    let mut filled = Vec::new();
    for condition in conditions {
        let Some(outline) = outline_of(&condition.place) else {
            missed += 1;
            continue;
        };
        let outline = fit.line(&outline);
        if let Some(shape) = annotate::filled(condition, outline.clone()) {
            filled.push(shape);
            if !condition.word.is_empty() {
                words.push((outline, condition.word.clone()));
            }
        }
    }
    sheet.add(Shape::group("conditions", "", filled));
    let placed: Vec<_> = marks
        .iter()
        .filter_map(|m| {
            let at = outline_of(&m.place).map(|o| middle(&fit.line(&o)));
            missed += usize::from(at.is_none());
            at.map(|at| (m, at))
        })
        .collect();
    let drawn_marks = annotate::marks(&placed, labels, page.letter_mm);
    let mut lettering = Vec::new();
    for (outline, word) in words {
        lettering.extend(annotate::lettered(labels, &outline, page.small_mm(), &word));
    }
    for part in parts.iter().filter(|p| !p.word.is_empty() && !p.outline.is_empty()) {
        let at = fit.at(part.word_at.unwrap_or_else(|| part.middle()));
        let size = page.small_mm();
        let box_of = fit.line(&part.outline);
        let (w, h) = spread(&box_of);
        let fits = part.word_at.is_some() || w > super::labels::width_mm(&part.word, size) + 2.0 && h > size * 1.3;
        let inside = if fits { labels.centred(at, size, &part.word, Ink::Main) } else { Vec::new() };
        lettering.extend(if inside.is_empty() {
            labels.beside(at, 0.5 + 0.5 * h.min(5.0), size, &part.word, Ink::Main)
        } else {
            inside
        });
    }
    // Words last: where there is no room left, a number covers a mark and not the other way round.
    sheet.add(Shape::group("marks", "", drawn_marks));
    sheet.add(Shape::group("words", "", lettering));
    missed
}

fn middle(points: &[(f64, f64)]) -> (f64, f64) {
    let n = points.len().max(1) as f64;
    let sum = points.iter().fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
    (sum.0 / n, sum.1 / n)
}

fn spread(points: &[(f64, f64)]) -> (f64, f64) {
    let range = |k: &dyn Fn(&(f64, f64)) -> f64| {
        let (low, high) = points.iter().map(k).fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
        high - low
    };
    (range(&|p| p.0), range(&|p| p.1))
}

/// What a sheet of parts rests on, in words.
pub(crate) fn note(basis: Basis, what: &str) -> String {
    match basis {
        Basis::Schematic => format!("Schematic: no lines known. {what} drawn to no scale, sizes and places invented."),
        Basis::Measured => {
            format!("Outline fitted to a few measurements. {what} placed by count and usual proportion, not measured.")
        }
        Basis::Offsets => {
            format!("Outline from a table of offsets. {what} placed by count and usual proportion, not measured.")
        }
    }
}

/// Whether a whole place belongs on none of the sheet's parts: used to describe what was left out.
pub(crate) fn described(words: &str, conditions: &[Condition], marks: usize, missed: usize) -> String {
    let conditions = conditions.iter().filter(|c| !c.is_not_recorded()).count();
    let mut text = format!("{words} {conditions} conditions and {marks} marks.");
    if missed > 0 {
        text.push_str(&format!(" {missed} could not be placed and are not drawn."));
    }
    text
}
