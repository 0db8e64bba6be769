//! `estimate`: cost lines added up into a range.

use super::refused;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::{CostSpread, Sheet, cost_spread};
use estimate::{Estimate, Rate, Shape, Total, read_lines, read_rates};
use serde_json::{Value, json};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "estimate",
    title: "What the work may cost",
    question: "Between which figures is the whole likely to lie, and which line drives it?",
    version: 1,
    flags: &[
        Flag::required(
            "items",
            "lines: item, low, likely, high, optional trade, probability, shape",
            FlagKind::TextFile,
        ),
        Flag::optional("rates", "rates: trade, low, likely, high, optional source", FlagKind::TextFile),
        Flag::or("shape", "shape of a line", FlagKind::Choice(&["triangular", "pert"]), "triangular"),
        Flag::optional(
            "dependence",
            "how far all lines go together, 0 to 1",
            FlagKind::Number { unit: "", least: 0.0, greatest: 1.0 },
        ),
        Flag::optional(
            "trade-dependence",
            "how far lines of one trade go together, 0 to 1",
            FlagKind::Number { unit: "", least: 0.0, greatest: 1.0 },
        ),
        Flag::or("trials", "trials", FlagKind::Count { least: 1000, greatest: 1_000_000 }, "20000"),
        Flag::or("seed", "seed", FlagKind::Count { least: 0, greatest: u64::MAX }, "1"),
    ],
    figures: &[
        Figure { key: "p10", label: "exceeded nine times in ten", unit: "", decimals: 0 },
        Figure { key: "p50", label: "as likely more as less", unit: "", decimals: 0 },
        Figure { key: "p90", label: "exceeded once in ten", unit: "", decimals: 0 },
        Figure { key: "mean", label: "mean", unit: "", decimals: 0 },
        Figure { key: "sd", label: "standard deviation", unit: "", decimals: 0 },
        Figure { key: "simulation_error", label: "left open by the simulation, ±", unit: "", decimals: 0 },
        Figure { key: "sd_is_exact", label: "standard deviation in closed form", unit: "", decimals: 0 },
        Figure { key: "simulated_mean", label: "simulated mean", unit: "", decimals: 0 },
        Figure { key: "simulated_sd", label: "simulated standard deviation", unit: "", decimals: 0 },
        Figure { key: "drivers", label: "what drives it", unit: "", decimals: 1 },
    ],
    equation: "Sum of lines, triangular or PERT; rates drawn once a trade a trial; Gaussian copula for dependence, one cause for all and one a trade; seeded \
               simulation, with mean (and, of independent lines, standard deviation) in closed form",
    sources: &[
        "Triangular mean (a+b+c)/3, variance (a²+b²+c²-ab-ac-bc)/18; PERT mean (a+4m+b)/6, exact variance (μ-a)(b-μ)/7: closed \
         forms of the distributions",
        "Percentiles: linear between order statistics, type 7 of R. J. Hyndman and Y. Fan, Sample quantiles in statistical \
         packages (1996)",
    ],
    not_covered: &[
        "No rate is built in: all figures are the user's, in one currency, with who, where and when.",
        "Work that no line names, and what opening up will show.",
    ],
    example: &[(
        "items",
        "item,low,likely,high,probability\nhaul out (invented),400,450,600,1\nsister four frames (invented),900,1400,2800,1\nscarph in a plank (invented),600,800,1900,0.6\n",
    )],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let shape = Shape::named(inputs.need_words("shape")?).unwrap_or_default();
    let items = inputs.need_words("items")?;
    let lines = read_lines(items, shape).map_err(|fault| refused("items", items, &fault))?;
    let rates = match inputs.words("rates") {
        Some(text) => read_rates(text, shape).map_err(|fault| refused("rates", text, &fault))?,
        None => Vec::new(),
    };
    let estimate = Estimate {
        lines,
        rates,
        dependence: inputs.number("dependence").unwrap_or(0.0),
        trade_dependence: inputs.number("trade-dependence").unwrap_or(0.0),
        trials: u32::try_from(inputs.need_count("trials")?).unwrap_or(u32::MAX),
        seed: inputs.need_count("seed")?,
    };
    let total = estimate.total().map_err(|fault| refused("items", items, &fault))?;
    let answer = Answer::new()
        .with("p10", total.p10)
        .with("p50", total.p50)
        .with("p90", total.p90)
        .with("mean", total.mean)
        .with("sd", total.sd)
        .with("sd_is_exact", total.sd_is_exact)
        .with("simulated_mean", total.simulated_mean)
        .with("simulated_sd", total.simulated_sd)
        .with("simulation_error", total.simulation_error)
        .with("drivers", drivers(&total))
        .sheet(spread(&total));
    Ok(cautions(answer, &estimate, inputs.number("dependence").or(inputs.number("trade-dependence")).is_none()))
}

fn cautions(mut answer: Answer, estimate: &Estimate, not_said: bool) -> Answer {
    if not_said && estimate.lines.len() > 1 {
        answer = answer.caution(
            "Lines are taken as independent; where one cause (access, rain, the same yard) moves several, the range is too narrow: give a dependence.",
        );
    }
    let has_rate = |trade: &str| estimate.rates.iter().any(|rate: &Rate| rate.trade == trade);
    let mut trades: Vec<&str> = estimate.lines.iter().map(|line| line.trade.as_str()).collect();
    trades.sort_unstable();
    trades.dedup();
    for trade in trades.into_iter().filter(|trade| !trade.is_empty() && !has_rate(trade)) {
        answer = answer
            .caution(format!("The trade {trade} has no rate; its lines are read as money and share no rate draw."));
    }
    for rate in &estimate.rates {
        if !estimate.lines.iter().any(|line| line.trade == rate.trade) {
            answer = answer.caution(format!("No line is of the trade {}; its rate is not used.", rate.trade));
        }
        if rate.source.is_empty() {
            answer = answer.caution(format!("The rate of {} has no source: who gave it, where and when?", rate.trade));
        }
    }
    answer
}

fn drivers(total: &Total) -> Value {
    let one = |driver: &estimate::Driver| {
        json!({
            "name": driver.name,
            "kind": if driver.is_rate { "rate" } else { "line" },
            "mean": driver.mean,
            "share_percent": driver.share_percent,
        })
    };
    total.drivers.iter().map(one).collect()
}

/// Draws the chance that the whole costs no more than a figure, and what drives it.
fn spread(total: &Total) -> Sheet {
    let mark = |percent: f64, at: f64| (percent, at, format!("{at:.0}"));
    cost_spread(&CostSpread {
        currency: String::new(),
        percentiles: total.percentiles(),
        marks: vec![mark(10.0, total.p10), mark(50.0, total.p50), mark(90.0, total.p90)],
        drivers: total.drivers.iter().map(|driver| (driver.name.clone(), driver.share_percent)).collect(),
    })
}
