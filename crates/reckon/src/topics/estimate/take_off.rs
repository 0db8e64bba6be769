//! `take-off`: timber, fastenings and seam for planks to be renewed.

use super::{refused, split};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use estimate::quantities::{Fastenings, PlankBlank, frame_crossings};
use estimate::take_off::{Unit, lines, read_unit_rates};
use serde_json::{Value, json};

const fn mm(greatest: f64) -> FlagKind {
    FlagKind::Length { unit: "mm", least: 0.0, greatest }
}

const fn count(least: u64) -> FlagKind {
    FlagKind::Count { least, greatest: 100_000 }
}

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "take-off",
    title: "Timber and fastenings for planks to be renewed",
    question: "How much timber and how many fastenings do these planks take?",
    version: 1,
    flags: &[
        Flag::required("length-mm", "finished length", mm(60_000.0)),
        Flag::required("width-mm", "finished width at the widest", mm(1_000.0)),
        Flag::required("thickness-mm", "finished thickness", mm(300.0)),
        Flag::required("spacing-mm", "frame spacing", mm(3_000.0)),
        Flag::required("yield-percent", "share of timber bought that becomes blanks", {
            FlagKind::Number { unit: "%", least: 1.0, greatest: 100.0 }
        }),
        Flag::or("planks", "planks", count(1), "1"),
        Flag::or("per-crossing", "fastenings at each frame", count(0), "2"),
        Flag::or("butts", "butts", count(0), "0"),
        Flag::or("per-butt-end", "fastenings in each plank end at a butt", count(0), "4"),
        Flag::or("sweep-mm", "sweep of the spiling", mm(2_000.0), "0"),
        Flag::or("edge-mm", "allowance at each edge", mm(100.0), "0"),
        Flag::or("planing-mm", "hollow, backing and planing", mm(100.0), "0"),
        Flag::or("ends-mm", "scarph or cut ends", mm(5_000.0), "0"),
        Flag::optional(
            "rates",
            "your own rates, in money or hours: item, unit (timber_m3, timber_board_feet, plank_m, face_m2, fastening, seam_m, \
             piece), low, likely, high, optional trade, source",
            FlagKind::TextFile,
        ),
    ],
    figures: &[
        Figure { key: "finished_area_m2", label: "finished area", unit: "m²", decimals: 3 },
        Figure { key: "blanks_m3", label: "blanks", unit: "m³", decimals: 4 },
        Figure { key: "to_buy_m3", label: "to buy", unit: "m³", decimals: 4 },
        Figure { key: "to_buy_board_feet", label: "to buy", unit: "board feet", decimals: 1 },
        Figure { key: "crossings", label: "frames crossed by a plank", unit: "", decimals: 0 },
        Figure { key: "fastenings", label: "fastenings", unit: "", decimals: 0 },
        Figure { key: "seam_m", label: "seams, both edges of each plank", unit: "m", decimals: 1 },
        Figure { key: "lines", label: "estimate lines", unit: "", decimals: 0 },
    ],
    equation: "Blank = (length + ends) × (width + sweep + two edges) × (thickness + planing), over the yield; crossings = whole \
               spacings + 1",
    sources: &[
        "Board foot: 144 cubic inches, 1 in = 25.4 mm exactly",
        "Allowances and yield: the user's; common practice",
    ],
    not_covered: &["Grain, lengths in stock and defects in the board; a bad frame behind must be put right first."],
    example: &[
        ("length-mm", "9000"),
        ("width-mm", "140"),
        ("thickness-mm", "28"),
        ("spacing-mm", "250"),
        ("yield-percent", "60"),
    ],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let length_mm = inputs.need_number("length-mm")?;
    let spacing_mm = inputs.need_number("spacing-mm")?;
    let planks = inputs.need_count("planks")?;
    let blank = PlankBlank {
        length_mm,
        width_mm: inputs.need_number("width-mm")?,
        thickness_mm: inputs.need_number("thickness-mm")?,
        sweep_mm: inputs.need_number("sweep-mm")?,
        edge_mm: inputs.need_number("edge-mm")?,
        planing_mm: inputs.need_number("planing-mm")?,
        ends_mm: inputs.need_number("ends-mm")?,
        yield_percent: inputs.need_number("yield-percent")?,
    };
    let timber = blank.timber(planks).map_err(|fault| refuse("length-mm", length_mm, &fault))?;
    let crossings = frame_crossings(length_mm, spacing_mm).map_err(|fault| refuse("spacing-mm", spacing_mm, &fault))?;
    let fastenings = Fastenings {
        planks,
        crossings,
        per_crossing: inputs.need_count("per-crossing")?,
        butts: inputs.need_count("butts")?,
        per_butt_end: inputs.need_count("per-butt-end")?,
        left: 0,
    };
    // Both edges of every plank: where two new planks lie together, their seam is counted twice.
    let seam_m = 2.0 * length_mm / 1000.0 * planks as f64;
    let mut answer = Answer::new()
        .with("finished_area_m2", timber.finished_m2)
        .with("blanks_m3", timber.blanks_m3)
        .with("to_buy_m3", timber.to_buy_m3)
        .with("to_buy_board_feet", timber.to_buy_board_feet)
        .with("crossings", crossings)
        .with("fastenings", fastenings.count())
        .with("seam_m", seam_m);
    if let Some(text) = inputs.words("rates") {
        let taken = [
            (Unit::TimberM3, timber.to_buy_m3),
            (Unit::TimberBoardFeet, timber.to_buy_board_feet),
            (Unit::PlankM, length_mm / 1000.0 * planks as f64),
            (Unit::FaceM2, timber.finished_m2),
            (Unit::Fastening, fastenings.count() as f64),
            (Unit::SeamM, seam_m),
            (Unit::Piece, planks as f64),
        ];
        let rates = read_unit_rates(text).map_err(|fault| refused("rates", text, &fault))?;
        let priced = lines(&taken, &rates).map_err(|fault| refused("rates", text, &fault))?;
        let shown = priced.iter().zip(&rates).map(|((unit, quantity, line), rate)| {
            json!({
                "item": line.item, "trade": line.trade, "quantity": quantity, "unit": unit.name(),
                "low": rate.each.0 * quantity, "likely": rate.each.1 * quantity, "high": rate.each.2 * quantity,
                "source": rate.source,
            })
        });
        answer = answer.with("lines", shown.collect::<Vec<Value>>());
        if rates.iter().any(|rate| rate.source.is_empty()) {
            answer = answer.caution("Some rates have no source: who gave them, where and when?");
        }
    }
    Ok(answer.caution("Refastening a loose plank is useless until the frame behind it is sound (US Army TB 55-1900-201-45/1 s.2-8b): put the frame in the estimate too."))
}

fn refuse(flag: &str, given: f64, fault: &estimate::Fault) -> Refusal {
    let (why, accepted) = split(fault);
    Refusal::value(flag, given, why, accepted)
}
