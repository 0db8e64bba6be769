//! The sheets of one survey, each drawn when it is wanted.

use crate::boat::Boat;
use crate::notes::Notes;
use crate::place::Part;
use crate::quantities::{self, Gathered};
use crate::{Plan, SheetName, looks, marks};
use drawing::Sheet;
use hull::sheets::{self, Condition, Mark, Page, Paper};
use hull::{Basis, Layout, Side};
use survey::State;

/// What is drawn on the sheets of one survey at one moment. Gathering it is quick; each sheet takes its time when drawn.
pub struct Sheets {
    page: Page,
    boat: Boat,
    conditions: Vec<Condition>,
    marks: Vec<Mark>,
    notes: Notes,
    gathered: Vec<Gathered>,
}

impl Sheets {
    /// Gathers what is drawn; none while not even her length is known.
    pub fn of(state: &State, page: Page) -> Option<Sheets> {
        let boat = Boat::of(state)?;
        Some(Sheets {
            page,
            conditions: looks::conditions(state, &boat),
            marks: marks::marks(state, &boat),
            notes: Notes::of(state, &boat),
            gathered: quantities::gathered(state, &boat),
            boat,
        })
    }

    /// Returns the names of the sheets for which enough is known, in the order of the report.
    pub fn names(&self) -> Vec<SheetName> {
        let mut names = Vec::new();
        if self.boat.layout.is_some() {
            names.extend([SheetName::ShellPort, SheetName::ShellStarboard, SheetName::ShellBoth]);
        }
        names.extend(self.boat.has_transom.then_some(SheetName::Transom));
        names.push(SheetName::Backbone);
        names.extend((!self.boat.frames.is_empty()).then_some(SheetName::Framing));
        names.push(SheetName::Deck);
        for one in &self.gathered {
            names.extend(one.sides().map(|side| SheetName::Field { quantity: one.key.clone(), side }));
        }
        names
    }

    /// Draws a sheet; none where it is not among [`names`](Self::names).
    pub fn draw(&self, name: &SheetName) -> Option<Plan> {
        match name {
            SheetName::ShellPort | SheetName::ShellStarboard | SheetName::ShellBoth => {
                self.boat.layout.as_ref().map(|layout| self.shell(layout, name))
            }
            SheetName::Field { quantity, side } => {
                let one = self.gathered.iter().find(|one| one.key == *quantity)?;
                quantities::plan(one, *side, self.boat.layout.as_ref()?, self.page)
            }
            SheetName::Transom => {
                let draw = |paper: Paper| sheets::transom(paper, &self.boat.outline, &self.conditions, &self.marks);
                self.boat.has_transom.then(|| self.part(name, Part::Transom, "Transom, from abaft.", draw))
            }
            SheetName::Backbone => {
                let (outline, backbone) = (&self.boat.outline, &self.boat.backbone);
                let draw = |paper: Paper| sheets::backbone(paper, outline, backbone, &self.conditions, &self.marks);
                Some(self.part(name, Part::Backbone, "Backbone, in profile.", draw))
            }
            SheetName::Framing => {
                let (outline, frames) = (&self.boat.outline, &self.boat.frames);
                let draw = |paper: Paper| sheets::framing(paper, outline, frames, &self.conditions, &self.marks);
                (!frames.is_empty()).then(|| self.part(name, Part::Framing, "Framing, from above.", draw))
            }
            SheetName::Deck => {
                let (boat, beams) = (&self.boat, self.boat.beams.unwrap_or(0));
                let draw = |paper: Paper| {
                    sheets::deck(paper, &boat.outline, beams, &boat.frames, &[], &self.conditions, &self.marks)
                };
                Some(self.part(name, Part::Deck, "Deck, from above.", draw))
            }
        }
    }

    /// Findings that no sheet shows, said on the first one, once.
    fn lost(&self, name: &SheetName) -> Option<String> {
        let first = if self.boat.layout.is_some() {
            SheetName::ShellPort
        } else if self.boat.has_transom {
            SheetName::Transom
        } else {
            SheetName::Backbone
        };
        if *name != first {
            return None;
        }
        let mut offered = vec![Part::Backbone, Part::Deck];
        offered.extend(self.boat.layout.as_ref().map(|_| Part::Shell));
        offered.extend((!self.boat.frames.is_empty()).then_some(Part::Framing));
        offered.extend(self.boat.has_transom.then_some(Part::Transom));
        self.notes.on_no_sheet(&offered)
    }

    fn shell(&self, layout: &Layout, name: &SheetName) -> Plan {
        // Frames lie behind the planking; they have a plan of their own, and would only hide what is said of the planks.
        let behind = |place: &hull::Place| matches!(place, hull::Place::Frame { .. });
        let conditions: Vec<Condition> = self.conditions.iter().filter(|c| !behind(&c.place)).cloned().collect();
        let marks: Vec<Mark> = self.marks.iter().filter(|m| !behind(&m.place)).cloned().collect();
        let sides = name.shell_sides();
        let mut said = self.notes.for_sheet(Part::Shell, sides);
        said.extend(self.lost(name));
        let drawn = sheets::shell_drawn(self.page.noting(said), layout, sides, &conditions, &marks);
        Plan {
            name: name.clone(),
            caption: shell_caption(layout, sides, &self.boat),
            sheet: drawn.sheet,
            on_shell: Some((drawn.lay, layout.clone())),
        }
    }

    fn part(&self, name: &SheetName, part: Part, caption: &str, draw: impl FnOnce(Paper) -> Sheet) -> Plan {
        let mut said = self.notes.for_sheet(part, &[]);
        said.extend(self.lost(name));
        Plan {
            name: name.clone(),
            caption: captioned(caption, self.boat.outline.basis),
            sheet: draw(self.page.noting(said)),
            on_shell: None,
        }
    }
}

fn shell_caption(layout: &Layout, sides: &[Side], boat: &Boat) -> String {
    let side = match sides {
        [side] => format!("{side} side"),
        _ => "both sides".to_owned(),
    };
    let mut caption = captioned(&format!("Shell, {side}, laid flat."), layout.basis);
    for said in &boat.said {
        caption.push(' ');
        caption.push_str(said);
    }
    caption
}

fn captioned(what: &str, basis: Basis) -> String {
    let shape = match basis {
        Basis::Schematic => {
            " Drawn from her length and the count of her members alone: a diagram for finding places, not her shape."
        }
        Basis::Measured => " Her shape is fitted to a few measurements.",
        Basis::Offsets => "",
    };
    format!(
        "{what} Hatching follows the findings, which are numbered; where it is bare nothing was found against her; dots show \
         where nothing is recorded yet.{shape}"
    )
}
