//! `bung`: the customary screw and bung for a plank, and the screw that a bung implies.

use super::wood_flags::refusal;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use fastening::kinds::WoodScrew;
use fastening::planking_table::{for_plank, read_bung};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "bung",
    title: "The customary screw and bung for a plank",
    question: "What screw and bung are customary for this plank, and what screw does this bung imply?",
    version: 1,
    flags: &[
        Flag::required(
            "thickness-mm",
            "thickness of the plank",
            FlagKind::Length { unit: "mm", least: 8.0, greatest: 57.0 },
        ),
        Flag::optional("bung-mm", "diameter of the bung", FlagKind::Length { unit: "mm", least: 5.0, greatest: 40.0 }),
    ],
    figures: &[
        Figure { key: "gauge", label: "customary gauge", unit: "", decimals: 0 },
        Figure { key: "length_mm", label: "customary length", unit: "mm", decimals: 1 },
        Figure { key: "length_in", label: "customary length", unit: "in", decimals: 0 },
        Figure { key: "bungs_mm", label: "customary bung", unit: "mm", decimals: 1 },
        Figure { key: "table_plank_mm", label: "row of the table: plank", unit: "mm", decimals: 1 },
        Figure { key: "head_mm", label: "head of that screw", unit: "mm", decimals: 1 },
        Figure { key: "implied_gauges", label: "gauges that the bung goes with", unit: "", decimals: 0 },
        Figure {
            key: "excess_sixteenths",
            label: "bung over the customary, sixteenths of an inch",
            unit: "",
            decimals: 0,
        },
        Figure { key: "reading", label: "reading", unit: "", decimals: 0 },
    ],
    equation: "table of screws by plank thickness, nearest row",
    sources: &["Herreshoff/Nevins rules for yacht construction, screws for planking and deck (read in a reprint)"],
    not_covered: &["Other builders' custom: many production boats put 3/8 in bungs on light planking."],
    example: &[("thickness-mm", "22"), ("bung-mm", "16")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let thickness = inputs.need_number("thickness-mm")?;
    let row = for_plank(thickness).map_err(refusal)?;
    let screw = WoodScrew::of_gauge(row.gauge, row.length_mm).map_err(refusal)?;
    let mut answer = Answer::new()
        .with("gauge", row.gauge)
        .with("length_mm", row.length_mm)
        .with("length_in", row.length_in.clone())
        .with("bungs_mm", row.bungs_mm.clone())
        .with("table_plank_mm", row.plank_mm)
        .with("head_mm", screw.head_mm());
    if let Some(bung) = inputs.number("bung-mm") {
        let read = read_bung(bung, thickness).map_err(refusal)?;
        answer = answer
            .with("implied_gauges", read.gauges)
            .with("excess_sixteenths", read.excess_sixteenths)
            .with("reading", read.reading);
    }
    if (row.plank_mm - thickness).abs() > 2.0 {
        answer = answer.caution(format!("The nearest row of the table is for a plank of {:.1} mm.", row.plank_mm));
    }
    Ok(answer.caution("One bung serves one to three gauges: only a screw drawn proves the gauge."))
}
