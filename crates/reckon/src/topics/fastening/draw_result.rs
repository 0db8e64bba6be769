//! `draw-result`: what a draw of fastenings says.

use super::lists::{table, whole};
use super::wood_flags::{refusal, refusal_as};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::chart::{Axis, Trace, curves};
use drawing::{Ink, Pen, Sheet};
use fastening::draw::posterior::{BetaBinomial, Prior};
use fastening::draw::result::{Choice, Draw, Said, result, together};
use fastening::draw::zone::Zone;
use serde_json::{Value, json};

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "draw-result",
    title: "What a draw of fastenings says",
    question: "What does this draw support saying of all the fastenings, and no more?",
    version: 1,
    flags: &[
        Flag::optional("population", "fastenings in all", FlagKind::Count { least: 1, greatest: 1_000_000 }),
        Flag::optional("drawn", "drawn", FlagKind::Count { least: 0, greatest: 1_000_000 }),
        Flag::optional("bad", "bad among those drawn", FlagKind::Count { least: 0, greatest: 1_000_000 }),
        Flag::or(
            "confidence-percent",
            "confidence",
            FlagKind::Number { unit: "%", least: 50.0, greatest: 99.99 },
            "95",
        ),
        Flag::or("chosen", "how they were chosen", FlagKind::Choice(&["random", "judgement"]), "random"),
        Flag::or(
            "prior-bad",
            "prior: bad ones as if already seen",
            FlagKind::Number { unit: "", least: 0.001, greatest: 10_000.0 },
            "1",
        ),
        Flag::or(
            "prior-good",
            "prior: good ones as if already seen",
            FlagKind::Number { unit: "", least: 0.001, greatest: 10_000.0 },
            "1",
        ),
        Flag::optional("zones", "or a table by zone (CSV: zone, population, drawn, bad)", FlagKind::TextFile),
    ],
    figures: &[
        Figure { key: "estimate_percent", label: "bad among those drawn", unit: "%", decimals: 1 },
        Figure { key: "lower_percent", label: "exact two-sided interval, from", unit: "%", decimals: 1 },
        Figure { key: "upper_percent", label: "to", unit: "%", decimals: 1 },
        Figure { key: "one_sided_upper_percent", label: "exact one-sided upper end", unit: "%", decimals: 1 },
        Figure { key: "lower_count", label: "bad in this population, at least", unit: "", decimals: 0 },
        Figure { key: "upper_count", label: "at most", unit: "", decimals: 0 },
        Figure { key: "one_sided_upper_count", label: "at most, one-sided", unit: "", decimals: 0 },
        Figure { key: "posterior_mean_percent", label: "expected bad by the posterior", unit: "%", decimals: 1 },
        Figure { key: "posterior_upper_percent", label: "upper end by the posterior", unit: "%", decimals: 1 },
        Figure { key: "prior", label: "prior", unit: "", decimals: 0 },
        Figure { key: "statement", label: "for the report", unit: "", decimals: 0 },
        Figure { key: "more", label: "what more would add", unit: "", decimals: 3 },
        Figure { key: "zones", label: "by zone", unit: "", decimals: 1 },
        Figure { key: "statements", label: "for the report, zone by zone", unit: "", decimals: 0 },
    ],
    equation: "Clopper–Pearson; hypergeometric inversion for the population at hand; beta-binomial posterior",
    sources: &[
        "NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.2: exact interval",
        "Hypergeometric and beta-binomial distributions, exact",
    ],
    not_covered: &[
        "Fastenings outside the population counted. Likeness of neighbours. How bad `bad` is: say what was counted as bad.",
    ],
    example: &[("population", "400"), ("drawn", "16"), ("bad", "2")],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let confidence = inputs.need_number("confidence-percent")? / 100.0;
    let prior = Prior::new(inputs.need_number("prior-bad")?, inputs.need_number("prior-good")?).map_err(refusal)?;
    let answer = match inputs.words("zones") {
        Some(text) => by_zone(text, confidence, prior)?,
        None => {
            let need = |flag: &str| {
                let accepted = "a whole number, or --zones".to_owned();
                inputs.count(flag).ok_or(Refusal::Missing { flag: flag.to_owned(), accepted })
            };
            let choice = if inputs.words("chosen") == Some("judgement") { Choice::Judgement } else { Choice::Random };
            let draw = Draw { population: need("population")?, drawn: need("drawn")?, bad: need("bad")?, choice };
            one(&draw, confidence, prior)?
        }
    };
    Ok(answer.with("prior", prior.in_words()))
}

fn one(draw: &Draw, confidence: f64, prior: Prior) -> Result<Answer, Refusal> {
    let said = result(draw, confidence, prior).map_err(refusal)?;
    let all = draw.population as f64;
    let percent = |share: f64| 100.0 * share;
    let mut answer = Answer::new()
        .with("estimate_percent", percent(said.estimate))
        .with_some("lower_percent", said.shares.map(|s| percent(s.lower)))
        .with_some("upper_percent", said.shares.map(|s| percent(s.upper)))
        .with_some("one_sided_upper_percent", said.upper_share.map(percent))
        .with_some("lower_count", said.counts.map(|c| c.0))
        .with_some("upper_count", said.counts.map(|c| c.1))
        .with_some("one_sided_upper_count", said.upper_count)
        .with_some("posterior_mean_percent", said.posterior_mean.map(|n| percent(n / all)))
        .with_some("posterior_upper_percent", said.posterior_upper.map(|n| percent(n as f64 / all)))
        .with("statement", said.statement.clone());
    if !said.more.is_empty() {
        answer = answer.with("more", said.more.iter().map(|more| more.sentence.clone()).collect::<Vec<_>>());
    }
    answer = match draw.choice {
        Choice::Judgement => answer.caution("The draw was by judgement: no bound is given, and none should be printed."),
        Choice::Random => answer
            .caution("The bounds hold only if every fastening counted could have been picked, and the pick was left to chance.")
            .sheet(figure(draw, &said, confidence, prior)?),
    };
    Ok(answer.caution("State in the report what was counted as bad, and where the draws were."))
}

fn by_zone(text: &str, confidence: f64, prior: Prior) -> Result<Answer, Refusal> {
    let mut zones = Vec::new();
    for row in table("zones", text, &["zone", "population", "drawn", "bad"])? {
        let zone = Zone::named(&row[0]).map_err(refusal_as("zones"))?;
        let count = |i: usize, column: &str| whole("zones", &row[i], column);
        let (population, drawn, bad) = (count(1, "population")?, count(2, "drawn")?, count(3, "bad")?);
        if drawn == 0 && bad > 0 {
            return Err(Refusal::value("zones", bad, "more are bad than were drawn", "no more bad than drawn"));
        }
        zones.push((zone, Draw { population, drawn, bad, choice: Choice::Random }));
    }
    let whole = together(&zones, confidence, prior).map_err(refusal)?;
    let all: u64 = zones.iter().map(|(_, d)| d.population).sum();
    let percent = |n: f64| 100.0 * n / all as f64;
    let mut rows: Vec<Value> = Vec::new();
    for (zone, draw) in &zones {
        let said = if draw.drawn > 0 { Some(result(draw, confidence, prior).map_err(refusal)?) } else { None };
        let said = said.as_ref();
        rows.push(json!({
            "zone": zone.id(), "population": draw.population, "drawn": draw.drawn, "bad": draw.bad,
            "estimate_percent": said.map(|s| 100.0 * s.estimate),
            "one_sided_upper_count": said.and_then(|s| s.upper_count),
        }));
    }
    let answer = Answer::new()
        .with_some("estimate_percent", whole.estimate.map(percent))
        .with("one_sided_upper_count", whole.upper)
        .with("one_sided_upper_percent", percent(whole.upper as f64))
        .with("posterior_mean_percent", percent(whole.posterior_mean))
        .with("posterior_upper_percent", percent(whole.posterior_upper as f64))
        .with("zones", rows)
        .with("statement", whole.statements.last().cloned().unwrap_or_default())
        .with("statements", whole.statements);
    Ok(answer.caution("Zones differ: read each zone's sentence before the one for the whole.").caution(
        "The upper end for the whole adds up zone bounds so that they hold together (Bonferroni): it is safe and wide.",
    ))
}

/// What is believed of the number of bad, with the exact interval marked.
fn figure(draw: &Draw, said: &Said, confidence: f64, prior: Prior) -> Result<Sheet, Refusal> {
    let after = BetaBinomial::after(prior, draw.population, draw.drawn, draw.bad).map_err(refusal)?;
    let all = draw.population as f64;
    let (low, high) = said.counts.unwrap_or((0, draw.population));
    let step = (after.left / 200).max(1);
    let points: Vec<(f64, f64)> = (0..=after.left)
        .step_by(usize::try_from(step).unwrap_or(1))
        .map(|k| (100.0 * (draw.bad + k) as f64 / all, after.pmf(k)))
        .collect();
    let peak = points.iter().map(|p| p.1).fold(0.0, f64::max);
    let scaled: Vec<_> = points.iter().map(|(x, y)| (*x, y / peak.max(1e-300))).collect();
    let to = (100.0 * high as f64 / all * 1.4).clamp(5.0, 100.0);
    let band = [low, high].map(|n| (100.0 * n as f64 / all, 0.0, 1.0)).to_vec();
    let drawn: Vec<_> = scaled.into_iter().filter(|(x, _)| *x <= to).collect();
    let traces = [
        Trace::Band { points: band },
        Trace::Curve { name: String::new(), points: drawn, pen: Pen::MIDDLE },
        Trace::Curve {
            name: String::new(),
            points: vec![(100.0 * said.estimate, 0.0), (100.0 * said.estimate, 1.0)],
            pen: Pen::THIN.ink(Ink::Accent),
        },
    ];
    let description = format!(
        "{} of {} drawn, {} bad. The band is the exact {:.0} % interval, {low} to {high} bad in all; the curve is what is to be believed \
         from the prior shown; the upright line is the share among those drawn.",
        draw.drawn,
        draw.population,
        draw.bad,
        100.0 * confidence
    );
    let x = Axis::new("bad in all", "%", 0.0, to);
    let y = Axis::new("belief, greatest as 1", "", 0.0, 1.05);
    Ok(curves("What the draw says", &description, &x, &y, &traces))
}
