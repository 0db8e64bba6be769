//! Draws the sheets of an invented boat into a folder, for looking at: `cargo run -p hull --example draw_sheets -- DIR`.

use drawing::Hatch;
use hull::sheets::{self, Condition, Mark, MarkKind, Page};
use hull::{Along, Layout, Patch, Place, Side};

fn main() -> std::io::Result<()> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| ".".to_owned());
    let write = |name: &str, sheet: drawing::Sheet| std::fs::write(format!("{folder}/{name}.svg"), sheet.to_svg());
    let shell = |side, strake, from: f64, to: f64| {
        Place::Shell(Patch::strake(side, strake).between(Along::Frame(from), Along::Frame(to)))
    };
    let spot = |side, strake, at: f64| Place::Shell(Patch::spot(side, strake, Along::Frame(at)));
    let mut conditions = Vec::new();
    let mut marks = Vec::new();
    for side in [Side::Port, Side::Starboard] {
        conditions.extend([
            Condition::seen(shell(side, 1, 10.0, 16.0), Hatch::Close).word("soft"),
            Condition::seen(shell(side, 4, 20.0, 24.0), Hatch::Sparse).word("checks"),
            Condition::seen(shell(side, 9, 2.0, 5.0), Hatch::Solid),
            Condition::not_seen(Place::Shell(
                Patch::strake(side, 1).up_to(3).between(Along::Frame(26.0), Along::Frame(30.0)),
            ))
            .word("behind ballast"),
        ]);
        marks.extend([
            Mark::new(spot(side, 1, 12.5), MarkKind::Observation, "14"),
            Mark::new(spot(side, 2, 12.0), MarkKind::Draw, "D3"),
            Mark::new(spot(side, 6, 7.0), MarkKind::Photograph, "P22"),
            Mark::new(spot(side, 6, 7.6), MarkKind::Moisture, "24 %"),
            Mark::new(spot(side, 7, 18.0), MarkKind::Blow, "dull"),
            Mark::new(spot(side, 5, 15.5), MarkKind::Butt, ""),
            Mark::new(spot(side, 8, 22.5), MarkKind::Scarph, ""),
        ]);
    }
    let layout = Layout::schematic(9.2, 12, 34).expect("within range");
    write("schematic-port", sheets::shell(&layout, Side::Port, &conditions, &marks))?;
    write("schematic-starboard", sheets::shell(&layout, Side::Starboard, &conditions, &marks))?;
    write("schematic-pair", sheets::shell_pair(Page::A4, &layout, &conditions, &marks))?;
    write("schematic-phone", sheets::shell_on(Page::PHONE, &layout, Side::Port, &conditions, &marks))?;
    Ok(())
}
