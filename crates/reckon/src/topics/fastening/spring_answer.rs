//! The answer of `spring`: figures, reasoning and the force at each row as a drawing.

use super::spring::Sprung;
use super::wood_flags::refusal;
use crate::{Answer, Inputs, Refusal};
use drawing::chart::{Axis, Trace, curves};
use drawing::{Ink, Pen, Sheet};
use fastening::plank::bend::{Limit, bend};
use fastening::plank::explain::{Explanation, NO_REASON, Where, explain};
use fastening::plank::sprung::{Asked, Holding, judge};
use fastening::planking_table::read_bung;
use serde_json::{Value, json};

/// Writes the answer.
pub(super) fn answer(inputs: &Inputs, sprung: Sprung) -> Result<Answer, Refusal> {
    let asked = &sprung.asked;
    let judged = judge(asked, &sprung.holding, inputs.need_number("years")?).map_err(refusal)?;
    let force = asked.force_per_fastening_n;
    let mut answer = with_curve(Answer::new(), &sprung)?
        .with("moe_mpa", sprung.plank.moe_mpa)
        .with("mor_mpa", sprung.plank.mor_mpa)
        .with("bending_stress_mpa", asked.bending_stress_mpa)
        .with("stress_ratio", asked.stress_ratio)
        .with("force_per_fastening_n", force)
        .with_some("force_sd_n", sprung.force_sd_n)
        .with("force_relaxed_low_n", force * judged.relaxed.low)
        .with("force_relaxed_high_n", force * judged.relaxed.high)
        .with("worst_row", asked.worst_row + 1)
        .with("gauge", sprung.screw.gauge)
        .with("withdrawal_allowed_n", sprung.holding.withdrawal_n)
        .with("withdrawal_ultimate_n", sprung.withdrawal_ultimate_n)
        .with("pull_through_allowed_n", sprung.holding.pull_through_n)
        .with("withdrawal_ratio", judged.withdrawal_ratio)
        .with("pull_through_ratio", judged.pull_through_ratio)
        .with("withdrawal_ultimate_ratio", force / sprung.withdrawal_ultimate_n)
        .with_some("tension_ratio", judged.tension_ratio)
        .with("governs", judged.governs.in_words())
        .with("governs_ratio", judged.governs_ratio)
        .with(
            "governs_sentence",
            format!(
                "{} governs: {:.2} of what is allowed when new, {:.2} to {:.2} after the years given; the next is at {:.2}.",
                judged.governs.in_words(),
                judged.governs_ratio,
                judged.governs_ratio * judged.relaxed.low,
                judged.governs_ratio * judged.relaxed.high,
                judged.next_ratio
            ),
        );
    let explained = explanation(inputs, &sprung)?;
    answer = with_rows(answer, asked, &sprung.holding, sprung.customary_holding.as_ref());
    if let Some(explained) = &explained {
        answer = answer
            .with("curve_explains_bungs", explained.verdict.in_words())
            .with("reasoning", explained.reasons.clone())
            .with("next", explained.next.clone());
    }
    if asked.stress_ratio > 1.0 {
        answer = answer.caution(
            "The stress is over the wood's bending strength: it was not bent cold from straight. Give the radius it takes when freed; \
             these forces are too high.",
        );
    }
    answer = answer.caution(judged.relaxed.sentence);
    for caution in sprung.cautions {
        answer = answer.caution(caution);
    }
    let lines = answer
        .caution("The thresholds 0.3 and 1 for what a curve explains are conventions of this workbench.")
        .sheet(figure(&sprung.asked, &sprung.holding));
    Ok(lines)
}

fn with_curve(answer: Answer, sprung: &Sprung) -> Result<Answer, Refusal> {
    let Some(curvature) = sprung.curvature else { return Ok(answer) };
    if curvature.per_mm.abs() < 1e-9 {
        return Ok(answer.caution("The plank measures straight: nothing is asked of its fastenings."));
    }
    let (low, high) = curvature.radius_range_m();
    let plank = &sprung.plank;
    let bent = bend(plank.thickness_mm, curvature.radius_m(), Some(plank.mor_mpa / plank.moe_mpa)).map_err(refusal)?;
    let limits: Vec<Value> = bent.limits.iter().map(limit_row).collect();
    let mut answer = answer.with("radius_m", curvature.radius_m());
    if curvature.sd_per_mm > 0.0 {
        answer = answer.with("radius_low_m", low).with_some("radius_high_m", high.is_finite().then_some(high));
    }
    Ok(answer
        .with("r_over_t", bent.r_over_t)
        .with("strain_percent", bent.strain_percent)
        .with("bend_reading", bent.reading)
        .with("bend_limits", limits))
}

fn limit_row(limit: &Limit) -> Value {
    json!({
        "what": limit.what,
        "least": limit.least_r_over_t.0,
        "to": limit.least_r_over_t.1,
        "bend_is": match limit.reading {
            fastening::plank::bend::Reading::Gentler => "gentler",
            fastening::plank::bend::Reading::AtLimit => "at it",
            fastening::plank::bend::Reading::Sharper => "sharper",
        },
        "source": limit.source,
        "standing": limit.mark.words(),
    })
}

fn with_rows(answer: Answer, asked: &Asked, holding: &Holding, customary: Option<&Holding>) -> Answer {
    let allowed = least(customary.unwrap_or(holding)).0;
    let can = |n: f64| n / allowed >= NO_REASON;
    let rows: Vec<Value> = asked
        .rows
        .iter()
        .enumerate()
        .map(|(i, row)| {
            json!({
                "row": i + 1,
                "position_mm": row.position_mm,
                "pull_n": row.pull_n,
                "per_fastening_n": row.per_fastening_n,
                "curve_can_explain": can(row.per_fastening_n),
            })
        })
        .collect();
    let (mut yes, mut no) = (Vec::new(), Vec::new());
    for (i, row) in asked.rows.iter().enumerate() {
        if can(row.per_fastening_n) { &mut yes } else { &mut no }.push(i + 1);
    }
    answer.with("rows", rows).with("rows_a_curve_can_explain", yes).with("rows_a_curve_cannot_explain", no)
}

fn least(holding: &Holding) -> (f64, &'static str) {
    let mut weakest = if holding.pull_through_n <= holding.withdrawal_n {
        (holding.pull_through_n, "head")
    } else {
        (holding.withdrawal_n, "thread")
    };
    if let Some(tension) = holding.tension_n.filter(|n| *n < weakest.0) {
        weakest = (tension, "root");
    }
    weakest
}

fn explanation(inputs: &Inputs, sprung: &Sprung) -> Result<Option<Explanation>, Refusal> {
    let Some(bung) = inputs.number("bung-mm") else { return Ok(None) };
    let (Some(_), Some(holding)) = (&sprung.customary, &sprung.customary_holding) else { return Ok(None) };
    let reading = read_bung(bung, sprung.plank.thickness_mm).map_err(refusal)?;
    let place = match inputs.words("bung-where") {
        Some("middle") => Where::Middle,
        Some("throughout") => Where::Throughout,
        _ => Where::Ends,
    };
    let (allowed, weakest) = least(holding);
    explain(&reading, &sprung.asked, allowed, weakest, place, inputs.need_number("years")?).map(Some).map_err(refusal)
}

/// The pull on each fastening along the plank, with what is allowed.
fn figure(asked: &Asked, holding: &Holding) -> Sheet {
    let length = asked.rows.last().map_or(1.0, |row| row.position_mm);
    let per = |pull: f64| {
        let share = asked.rows[asked.worst_row].per_fastening_n / asked.rows[asked.worst_row].pull_n.max(1e-9);
        pull * share
    };
    let forces: Vec<f64> = asked.rows.iter().map(|row| per(row.pull_n)).collect();
    let high = forces.iter().copied().fold(holding.withdrawal_n.max(holding.pull_through_n), f64::max);
    let low = forces.iter().copied().fold(0.0, f64::min);
    let x = Axis::new("along the plank", "mm", 0.0, length);
    let y = Axis::new("pull on each fastening", "N", low * 1.05, high * 1.05);
    let level = |name: &str, n: f64| Trace::Curve {
        name: name.to_owned(),
        points: vec![(0.0, n), (length, n)],
        pen: Pen::THIN.dashed(),
    };
    let mut traces = vec![
        Trace::Curve { name: String::new(), points: vec![(0.0, 0.0), (length, 0.0)], pen: Pen::THIN },
        level("thread", holding.withdrawal_n),
        level("head", holding.pull_through_n),
    ];
    traces.extend(asked.rows.iter().zip(&forces).map(|(row, force)| Trace::Curve {
        name: String::new(),
        points: vec![(row.position_mm, 0.0), (row.position_mm, *force)],
        pen: if *force > 0.0 { Pen::THICK.ink(Ink::Accent) } else { Pen::THICK },
    }));
    let title = "Pull on the fastenings, row by row";
    let description = format!(
        "{} rows; the greatest pull is {:.0} N on each fastening of row {}; {:.0} N is allowed in the thread and {:.0} N at the head. \
         Below nothing the plank bears on the frame.",
        asked.rows.len(),
        asked.force_per_fastening_n,
        asked.worst_row + 1,
        holding.withdrawal_n,
        holding.pull_through_n
    );
    curves(title, &description, &x, &y, &traces)
}
