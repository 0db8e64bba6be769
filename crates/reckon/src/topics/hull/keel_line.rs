//! Hog or sag of the keel line.

use super::offsets::refused;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::{
    Pen,
    chart::{self, Axis, Trace},
};
use hull::keel_line::{KeelLine, KeelPoint, Shape, keel_line, read_points, string_sag_mm};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "keel-line",
    title: "Keel line: hog or sag",
    question: "Is her keel hogged or sagged, by how much, and how sure is that?",
    version: 1,
    flags: &[
        Flag::required("points", "heights along the keel: x_m, z_mm and, when known, sd_mm", FlagKind::TextFile),
        Flag::optional(
            "string-g-per-m",
            "weight of the measuring string, when heights were taken up from a string",
            FlagKind::Number { unit: "g/m", least: 0.0, greatest: 1000.0 },
        ),
        Flag::optional(
            "string-tension-n",
            "pull on the string",
            FlagKind::Number { unit: "N", least: 1.0, greatest: 10000.0 },
        ),
    ],
    figures: &[
        Figure { key: "hog_mm", label: "hog at mid-length (sag is negative)", unit: "mm", decimals: 1 },
        Figure { key: "sd_mm", label: "its standard deviation", unit: "mm", decimals: 1 },
        Figure { key: "low_mm", label: "hog less two standard deviations", unit: "mm", decimals: 1 },
        Figure { key: "high_mm", label: "hog and two standard deviations", unit: "mm", decimals: 1 },
        Figure { key: "shape", label: "shape", unit: "", decimals: 0 },
        Figure { key: "reading", label: "reading", unit: "", decimals: 0 },
        Figure { key: "residual_mm", label: "left by the shape, root mean square", unit: "mm", decimals: 2 },
        Figure { key: "break_at_m", label: "break at", unit: "m", decimals: 2 },
        Figure { key: "length_m", label: "length measured", unit: "m", decimals: 2 },
        Figure { key: "string_sag_mm", label: "string's own sag taken off", unit: "mm", decimals: 2 },
    ],
    equation: "z = a + b ξ + δ φ(ξ) by weighted least squares; φ = 4ξ(1-ξ) or (16/5)(ξ - 2ξ³ + ξ⁴); shapes compared by AICc",
    sources: &[
        "least squares with covariance (JᵀWJ)⁻¹: any text of statistics",
        "shape of an evenly loaded beam on end supports: any text of strength of materials",
        "string sag w S²/(8 H): parabola of a light cable",
    ],
    not_covered: &[
        "Designed rocker, which is not hog: compare with drawings, with sister boats, or with sheer and rail.",
        "What the blocks and shores do to her while she is measured.",
        "Whether a hog is acceptable: no published limit was found, and a second measurement is worth more than any.",
    ],
    example: &[("points", "x_m,z_mm,sd_mm\n0,0,2\n1,9,2\n2,15,2\n3,21,2\n4,22,2\n5,21,2\n6,17,2\n7,8,2\n8,1,2\n")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let text = inputs.need_words("points")?;
    let refuse = |fault| match refused("points", text.lines().next().unwrap_or_default(), &fault) {
        Refusal::Value { flag, value, why, .. } => Refusal::Value {
            flag,
            value,
            why,
            accepted: "rows of x_m, z_mm and, when known, sd_mm, three or more".to_owned(),
        },
        other => other,
    };
    let mut points = read_points(text).map_err(refuse)?;
    let mut sag = None;
    match (inputs.number("string-g-per-m"), inputs.number("string-tension-n")) {
        (Some(weight), Some(pull)) => sag = Some(take_off(&mut points, weight, pull)),
        (None, None) => {}
        _ => {
            return Err(Refusal::Meaningless(
                "--string-g-per-m and --string-tension-n belong together; give both or neither.".to_owned(),
            ));
        }
    }
    let line = keel_line(&points).map_err(refuse)?;
    let (low, high) = (line.hog_mm - 2.0 * line.sd_mm, line.hog_mm + 2.0 * line.sd_mm);
    let broken = match line.shape {
        Shape::Break { x_m, from_m, to_m } => Some((x_m, from_m, to_m)),
        _ => None,
    };
    let mut answer = Answer::new()
        .with("hog_mm", line.hog_mm)
        .with("sd_mm", line.sd_mm)
        .with("low_mm", low)
        .with("high_mm", high)
        .with("shape", line.shape.word())
        .with("reading", reading(&line))
        .with("residual_mm", line.residual_mm)
        .with_some("break_at_m", broken.map(|b| b.0))
        .with("length_m", line.length_m)
        .with_some("string_sag_mm", sag)
        .sheet(sheet(&points, &line));
    if let Some((_, from, to)) = broken {
        answer = answer.caution(format!(
            "The line is broken, not hogged: two straight lengths that meet between {from:.2} and {to:.2} m. Look there \
             for a scarph, a mast step, lost floors; the hog given is only what a fair curve would make of it."
        ));
    }
    if !line.sd_given {
        answer = answer.caution(if line.freedom > 0 {
            "No standard deviations were given; the uncertainty comes from the scatter of the points about the shape."
        } else {
            "Three points and no standard deviations: the curve runs through them and nothing checks it."
        });
    } else if line.freedom == 0 {
        answer = answer.caution("With three points nothing checks the shape.");
    }
    if line.scatter_too_large {
        answer = answer.caution(
            "The points scatter more than their standard deviations allow; the shape or the deviations are wrong.",
        );
    }
    if matches!(line.shape, Shape::Parabola) && !line.curve_told {
        answer = answer.caution("These points cannot tell an even curve from that of an evenly loaded beam.");
    }
    Ok(answer.caution("Measure twice, before and after shoring and if possible afloat along the sheer: a boat takes the shape of her blocks."))
}

/// Takes the string's own sag off heights measured up from it.
fn take_off(points: &mut [KeelPoint], grams_per_m: f64, tension_n: f64) -> f64 {
    let (first, last) = points.iter().fold((f64::MAX, f64::MIN), |(l, h), p| (l.min(p.x_m), h.max(p.x_m)));
    let span = last - first;
    let sag = string_sag_mm(grams_per_m, span, tension_n);
    for point in points {
        let xi = (point.x_m - first) / span;
        point.z_mm -= sag * 4.0 * xi * (1.0 - xi);
    }
    sag
}

fn reading(line: &KeelLine) -> &'static str {
    match (line.shape, line.hog_mm > 0.0) {
        (Shape::Straight, _) => "straight within the measuring",
        (Shape::Break { .. }, _) => "broken at one place",
        (_, true) => "hogged",
        (_, false) => "sagged",
    }
}

fn sheet(points: &[KeelPoint], line: &KeelLine) -> drawing::Sheet {
    let (x0, x1) = points.iter().fold((f64::MAX, f64::MIN), |(l, h), p| (l.min(p.x_m), h.max(p.x_m)));
    let sd = |p: &KeelPoint| p.sd_mm.unwrap_or(line.sd_mm);
    let (z0, z1) = points
        .iter()
        .fold((f64::MAX, f64::MIN), |(l, h), p| (l.min(p.z_mm - 2.0 * sd(p)), h.max(p.z_mm + 2.0 * sd(p))));
    let fitted = points.iter().zip(&line.residuals_mm).map(|(p, r)| (p.x_m, p.z_mm - r));
    let mut fitted: Vec<(f64, f64)> = fitted.collect();
    fitted.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut traces = vec![Trace::Curve { name: line.shape.word().to_owned(), points: fitted, pen: Pen::MIDDLE }];
    for p in points {
        let bar = vec![(p.x_m, p.z_mm - 2.0 * sd(p)), (p.x_m, p.z_mm + 2.0 * sd(p))];
        traces.push(Trace::Curve { name: String::new(), points: bar, pen: Pen::THIN });
        traces.push(Trace::Mark { under: false, at: (p.x_m, p.z_mm), word: String::new() });
    }
    let (x, z) = (Axis::new("along", "m", x0, x1), Axis::new("height", "mm", z0, z1));
    let words = format!(
        "Heights along the keel with two standard deviations either way, and the fitted {}.",
        line.shape.word()
    );
    chart::curves("Keel line", &words, &x, &z, &traces)
}
