//! `value`: an opinion of value from comparables, by cost and against repair.

use super::{refused, split};
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use drawing::{Sheet, WorthRow, worth};
use estimate::value::{
    Adjusted, Adjustments, CostApproach, FAIR_MARKET_VALUE, Floor, Opinion, Status, as_found, opinion, read_comparables,
};
use serde_json::{Value, json};

const MONEY: FlagKind = FlagKind::Number { unit: "", least: 0.0, greatest: 1e12 };
const PERCENT: FlagKind = FlagKind::Number { unit: "%", least: 0.0, greatest: 100.0 };

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "value",
    title: "What she may be worth",
    question: "What do like boats point to, how far can that be trusted, and what does the repair leave of it?",
    version: 1,
    flags: &[
        Flag::required(
            "comparables",
            "like boats: name, price, optional status, length_m, currency, adjust_…_percent",
            FlagKind::TextFile,
        ),
        Flag::optional(
            "length-m",
            "length of the boat valued",
            FlagKind::Length { unit: "m", least: 1.0, greatest: 100.0 },
        ),
        Flag::optional(
            "length-exponent",
            "power of length with which prices go",
            FlagKind::Number { unit: "", least: 0.0, greatest: 6.0 },
        ),
        Flag::optional(
            "asking-discount-percent",
            "how much lower than asked such boats sell",
            FlagKind::Number { unit: "%", least: 0.0, greatest: 99.0 },
        ),
        Flag::optional("repair-cost", "repair cost", MONEY),
        Flag::optional("allowance", "allowance for trouble and risk", MONEY),
        Flag::optional("replacement-cost", "what a new boat of the same use would cost", MONEY),
        Flag::or("physical-percent", "physical wear", PERCENT, "0"),
        Flag::or("functional-percent", "functional loss", PERCENT, "0"),
        Flag::or("economic-percent", "economic loss", PERCENT, "0"),
        Flag::optional("breaking-value", "what her parts bring", MONEY),
        Flag::optional("disposal-cost", "what disposal costs", MONEY),
        Flag::optional("date", "date of the value", FlagKind::Words),
        Flag::optional("currency", "currency", FlagKind::Words),
    ],
    figures: &[
        Figure { key: "low", label: "low", unit: "", decimals: 0 },
        Figure { key: "middle", label: "middle", unit: "", decimals: 0 },
        Figure { key: "high", label: "high", unit: "", decimals: 0 },
        Figure { key: "method", label: "method", unit: "", decimals: 0 },
        Figure { key: "coverage_percent", label: "chance that the range holds", unit: "%", decimals: 0 },
        Figure { key: "adjustments", label: "adjustments", unit: "", decimals: 1 },
        Figure { key: "cost_approach", label: "by cost (a ceiling)", unit: "", decimals: 0 },
        Figure { key: "value_as_found", label: "as found", unit: "", decimals: 0 },
        Figure { key: "repair_ratio", label: "repair over value repaired", unit: "", decimals: 3 },
        Figure { key: "floor", label: "floor: breaking less disposal", unit: "", decimals: 0 },
        Figure { key: "value_as_found_low", label: "as found, low", unit: "", decimals: 0 },
        Figure { key: "value_as_found_high", label: "as found, high", unit: "", decimals: 0 },
        Figure {
            key: "repair_exceeds_value",
            label: "repair costs more than the value repaired",
            unit: "",
            decimals: 0,
        },
        Figure { key: "hodges_lehmann", label: "median of pair means", unit: "", decimals: 0 },
        Figure { key: "median_absolute_deviation", label: "median distance from the median", unit: "", decimals: 0 },
        Figure { key: "definition", label: "definition of value", unit: "", decimals: 0 },
        Figure { key: "date", label: "on", unit: "", decimals: 0 },
        Figure { key: "currency", label: "currency", unit: "", decimals: 0 },
    ],
    equation: "Median of adjusted comparables with the exact interval of the median, the whole range when they are few; \
               replacement less losses; value repaired less repair and allowance",
    sources: &[
        "26 CFR 20.2031-1(b); United States v. Cartwright, 411 U.S. 546 (1973): fair market value",
        "Interval of the median from order statistics: H. A. David and H. N. Nagaraja, Order Statistics, 3rd edition, section \
         7.1 (from memory); checked against the binomial distribution of scipy",
        "J. L. Hodges and E. L. Lehmann, Estimates of location based on rank tests (1963)",
        "Marine Insurance Act 1906 (UK) s.60(2)(ii), for repair against value",
        "Value as found, floor and cost approach as a ceiling: common practice",
    ],
    not_covered: &[
        "No discount, rate of wear or power of length is built in: all are the user's stated judgement.",
        "The income approach, which usually does not apply to a private yacht; title, tax and broker's fees.",
    ],
    example: &[(
        "comparables",
        "name,price,status,length_m,adjust_condition_percent\nInvented One,20000,asking,9.0,10\nInvented Two,24000,sold,10.0,-5\nInvented Three,30000,sold,11.0,0\n",
    )],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let text = inputs.need_words("comparables")?;
    let comparables = read_comparables(text).map_err(|fault| refused("comparables", text, &fault))?;
    let table = Adjustments {
        asking_discount_percent: inputs.number("asking-discount-percent"),
        length_m: inputs.number("length-m"),
        length_exponent: inputs.number("length-exponent"),
    };
    let opinion = opinion(&comparables, &table).map_err(|fault| refused("comparables", text, &fault))?;
    let adjustments: Vec<Value> = opinion.adjusted.iter().map(shown).collect();
    let mut answer = Answer::new()
        .with("low", opinion.low)
        .with("middle", opinion.middle)
        .with("high", opinion.high)
        .with("method", opinion.method.clone())
        .with("coverage_percent", opinion.range.coverage_percent)
        .with("adjustments", adjustments)
        .with("hodges_lehmann", opinion.hodges_lehmann)
        .with("median_absolute_deviation", opinion.median_absolute_deviation)
        .with("definition", FAIR_MARKET_VALUE)
        .with_some("date", inputs.words("date"))
        .with_some("currency", inputs.words("currency"));
    answer = beside(answer, inputs, &opinion)?;
    answer = cautions(answer, inputs, &opinion, &table);
    Ok(answer.sheet(sheet(&opinion, inputs.words("currency").unwrap_or_default())))
}

/// Adds the cost approach, the value as found and the floor where they were asked for.
fn beside(mut answer: Answer, inputs: &Inputs, opinion: &Opinion) -> Result<Answer, Refusal> {
    if let Some(replacement) = inputs.number("replacement-cost") {
        let cost = CostApproach {
            replacement,
            physical_percent: inputs.need_number("physical-percent")?,
            functional_percent: inputs.need_number("functional-percent")?,
            economic_percent: inputs.need_number("economic-percent")?,
        };
        let value = cost.value().map_err(|fault| {
            let (why, accepted) = split(&fault);
            Refusal::value("replacement-cost", replacement, why, accepted)
        })?;
        answer = answer.with("cost_approach", value);
    }
    if let Some(repair) = inputs.number("repair-cost") {
        let allowance = inputs.number("allowance").unwrap_or(0.0);
        let found = as_found(opinion.middle, repair, allowance);
        answer = answer
            .with("value_as_found", found.value)
            .with("value_as_found_low", as_found(opinion.low, repair, allowance).value)
            .with("value_as_found_high", as_found(opinion.high, repair, allowance).value)
            .with("repair_ratio", found.ratio)
            .with("repair_exceeds_value", found.repair_exceeds_value);
        if found.repair_exceeds_value {
            answer = answer.caution(
                "The repair costs more than the middle value repaired. Under section 60(2)(ii) of the Marine Insurance Act 1906 (UK) that is the test of a constructive total loss for damage by an insured peril, unless the policy says otherwise; that is for the insurer and a lawyer.",
            );
        }
        if inputs.number("allowance").is_none() {
            answer = answer.caution("No allowance for trouble and risk was given; a buyer of work to be done usually wants one (common practice).");
        }
    }
    if inputs.number("breaking-value").is_some() || inputs.number("disposal-cost").is_some() {
        let floor = Floor {
            breaking_value: inputs.number("breaking-value").unwrap_or(0.0),
            disposal: inputs.number("disposal-cost").unwrap_or(0.0),
        };
        answer = answer.with("floor", floor.value());
    }
    Ok(answer)
}

fn cautions(mut answer: Answer, inputs: &Inputs, opinion: &Opinion, table: &Adjustments) -> Answer {
    if opinion.range.is_whole_range {
        answer = answer.caution(format!(
            "Few comparables ({}): the range is simply from the lowest to the highest, and no finer figure is honest.",
            opinion.adjusted.len()
        ));
    }
    let statuses = || opinion.adjusted.iter().map(|a| a.comparable.status);
    if table.asking_discount_percent.is_none() && statuses().any(|status| status == Status::Asking) {
        answer = answer.caution("Asking prices stand unadjusted among the comparables.");
    }
    if statuses().any(|status| status == Status::Unknown) {
        answer = answer.caution("Some prices are not marked as asked or paid.");
    }
    if table.length_m.is_some() != table.length_exponent.is_some() {
        answer =
            answer.caution("Length was not adjusted for: that takes both the boat's length and the power of length.");
    }
    if table.length_m.is_some()
        && table.length_exponent.is_some()
        && opinion.adjusted.iter().any(|a| a.comparable.length_m.is_none())
    {
        answer = answer.caution("Comparables without a length were not adjusted for it.");
    }
    if inputs.words("date").is_none() {
        answer = answer.caution("A value holds on a date: none was given.");
    }
    answer
}

fn shown(adjusted: &Adjusted) -> Value {
    let status = match adjusted.comparable.status {
        Status::Asking => "asking",
        Status::Sold => "sold",
        Status::Unknown => "not said",
    };
    let steps: Vec<Value> = adjusted
        .steps
        .iter()
        .map(|step| json!({"what": step.what, "percent": step.percent, "after": step.after}))
        .collect();
    json!({
        "name": adjusted.comparable.name,
        "price": adjusted.comparable.price,
        "status": status,
        "steps": steps,
        "adjusted": adjusted.price,
    })
}

/// Draws each comparable from its listed price (open circle) to its adjusted one (filled), with the range beneath.
fn sheet(opinion: &Opinion, currency: &str) -> Sheet {
    let mut rows: Vec<WorthRow> = opinion.adjusted.iter().map(compared).collect();
    rows.push(WorthRow::Range {
        name: "what they point to".to_owned(),
        low: opinion.low,
        middle: opinion.middle,
        high: opinion.high,
        wanted: true,
    });
    let description = format!(
        "{} comparables, listed and adjusted; low {:.0}, middle {:.0}, high {:.0}.",
        opinion.adjusted.len(),
        opinion.low,
        opinion.middle,
        opinion.high
    );
    worth("Comparables, listed and adjusted", &description, currency, &rows)
}

fn compared(adjusted: &Adjusted) -> WorthRow {
    let listed = &adjusted.comparable;
    WorthRow::Compared { name: listed.name.clone(), price: listed.price, adjusted: adjusted.price }
}
