//! The shell laid flat, with its strakes.

use super::offsets::{self, cautions, refused};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use hull::{Basis, Expansion, Fairing, Frame, Lining, sheets};
use serde_json::Value;

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "expansion",
    title: "Shell expansion",
    question: "How long and how large is each strake, and what does the skin look like laid flat?",
    version: 1,
    flags: &[
        Flag::required("offsets", "table of offsets", FlagKind::TextFile),
        Flag::required("strakes", "strakes a side, garboard to sheer", FlagKind::Count { least: 1, greatest: 60 }),
        Flag::or("frames", "frames, evenly spaced", FlagKind::Count { least: 0, greatest: 400 }, "0"),
        Flag::or(
            "offsets-sd-mm",
            "uncertainty of the offsets; 0 runs the surface through them",
            FlagKind::Length { unit: "mm", least: 0.0, greatest: 100.0 },
            "0",
        ),
    ],
    figures: &[
        Figure { key: "girths_mm", label: "girth at each station, one side", unit: "mm", decimals: 0 },
        Figure { key: "stations", label: "stations", unit: "", decimals: 0 },
        Figure { key: "area_m2", label: "area of each strake, one side", unit: "m²", decimals: 3 },
        Figure { key: "strake_length_m", label: "length of each strake on its middle line", unit: "m", decimals: 2 },
        Figure { key: "greatest_width_mm", label: "greatest width of each strake", unit: "mm", decimals: 0 },
        Figure { key: "seam_length_m", label: "seams of one side, rabbet to below sheer", unit: "m", decimals: 1 },
        Figure { key: "side_area_m2", label: "area of the side", unit: "m²", decimals: 2 },
        Figure { key: "drawn_area_m2", label: "area that the side takes on the drawing", unit: "m²", decimals: 2 },
        Figure { key: "fit_rms_mm", label: "surface off the offsets, root mean square", unit: "mm", decimals: 1 },
        Figure { key: "fit_greatest_mm", label: "surface off the offsets, at most", unit: "mm", decimals: 1 },
    ],
    equation: "girth = ∫√(dy² + dz²) round the section; area = ∫∫ dx ds / √(1 - n_x²) over a bicubic B-spline surface",
    sources: &[
        "shell expansion as drawn in shipyards: true length fore and aft, girth up (common practice)",
        "C. de Boor, A Practical Guide to Splines (1978): the surface",
    ],
    not_covered: &[
        "Strake widths as built: equal shares of the girth are taken unless widths are measured.",
        "The shape of a plank's blank, scarph overlap, lands and waste.",
    ],
    example: &[("offsets", hull::offsets::EXAMPLE), ("strakes", "8"), ("frames", "18")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let read = offsets::read(inputs, Fairing { sd_mm: inputs.number("offsets-sd-mm").unwrap_or(0.0) })?;
    let strakes = inputs.need_count("strakes")?;
    let frames = inputs.count("frames").unwrap_or(0);
    let length = read.surface.length_m();
    let frames = Frame::evenly(frames as usize, 0.07 * length, 0.95 * length);
    let boat = Expansion::new(read.surface.clone(), &Lining::Equal { strakes: strakes as usize }, frames);
    let boat = boat.map_err(|fault| refused("strakes", strakes, &fault))?;
    let figures = boat.strake_figures();
    let list = |f: &dyn Fn(&hull::StrakeFigures) -> f64| Value::from(figures.iter().map(f).collect::<Vec<_>>());
    let sections = &read.offsets.lines.sections;
    let girths: Vec<Value> =
        sections.iter().map(|s| boat.girth_m(s.x_m).map_or(Value::Null, |g| Value::from(g * 1000.0))).collect();
    let seams: f64 = figures[..figures.len() - 1].iter().map(|f| f.upper_seam_m).sum();
    let mut layout = boat.layout(Basis::Offsets);
    if let Some(waterline) = read.offsets.waterline_m {
        layout.waterline = boat.level_line(waterline);
    }
    let answer = Answer::new()
        .with("girths_mm", girths)
        .with("stations", sections.iter().map(|s| s.name.clone()).collect::<Vec<_>>())
        .with("area_m2", list(&|f| f.area_m2))
        .with("strake_length_m", list(&|f| f.length_m))
        .with("greatest_width_mm", list(&|f| f.greatest_width_mm))
        .with("seam_length_m", seams)
        .with("side_area_m2", boat.area_m2())
        .with("drawn_area_m2", boat.drawn_area_m2())
        .with("fit_rms_mm", read.fit_rms_mm)
        .with("fit_greatest_mm", read.fit_greatest_mm)
        .sheet(sheets::shell_pair(sheets::Page::A4, &layout, &[], &[]));
    let answer = answer.caution(
        "Areas and lengths are of one side, and of the surface given: from the rabbet to the top of the table.",
    );
    Ok(cautions(answer, &read))
}
