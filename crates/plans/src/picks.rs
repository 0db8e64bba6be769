//! The fastenings picked by a draw plan, drawn on the shell.

use crate::boat::Boat;
use crate::{Plan, SheetName, hull_place};
use hull::sheets::{self, Mark, MarkKind, Page};
use survey::{DrawPlan, DrawnCondition, State};

/// Returns both sides of the shell with a plan's picks: numbered in the order of drawing those still to draw, and those
/// drawn by how they were found. Empty while her shell is not known, or the plan does not know where its picks are.
pub fn picks(state: &State, plan: &DrawPlan, page: Page) -> Vec<Plan> {
    let Some(boat) = Boat::of(state) else { return Vec::new() };
    let Some(layout) = &boat.layout else { return Vec::new() };
    let mut marks = Vec::new();
    for zone in &plan.zones {
        for (pick, order) in zone.shown().zip(1_u32..) {
            let Some(place) = pick.place.as_ref().and_then(|place| hull_place(layout, "", place)) else { continue };
            let (kind, word, entry) = match &pick.drawn {
                None => (MarkKind::ToDraw, order.to_string(), String::new()),
                Some((id, DrawnCondition::WouldNotDraw)) => (MarkKind::WouldNotDraw, String::new(), id.to_string()),
                Some((id, DrawnCondition::Good)) => (MarkKind::Draw, String::new(), id.to_string()),
                Some((id, _)) => (MarkKind::DrawAgainst, String::new(), id.to_string()),
            };
            marks.push(Mark::new(place, kind, word).of(entry));
        }
    }
    if marks.is_empty() {
        return Vec::new();
    }
    let drawn = |name: SheetName| {
        let sides = name.shell_sides();
        let marks: Vec<Mark> =
            marks.iter().filter(|m| m.place.side().is_some_and(|side| sides.contains(&side))).cloned().collect();
        if marks.is_empty() {
            return None;
        }
        let drawn = sheets::shell_drawn(page.noting(Vec::new()), layout, sides, &[], &marks);
        let side = sides.first().map(ToString::to_string).unwrap_or_default();
        let caption = format!(
            "Fastenings picked to be drawn, {side} side. {}",
            if plan.zones.len() > 1 {
                "Numbers are the order of drawing in each zone."
            } else {
                "Numbers are the order of drawing."
            }
        );
        Some(Plan { name, caption, sheet: drawn.sheet, on_shell: Some((drawn.lay, layout.clone())) })
    };
    [SheetName::ShellPort, SheetName::ShellStarboard].into_iter().filter_map(drawn).collect()
}
