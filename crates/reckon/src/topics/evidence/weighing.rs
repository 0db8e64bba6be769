//! `evidence`: the odds of each state of one place from its readings.

use super::balance;
use crate::{Answer, Figure, Flag, FlagKind, Inputs, Refusal, Topic};
use evidence::{
    Book, FASTENING_STATES, FRAME_STATES, FasteningState, FrameState, Leave, NextTest, PLANK_STATES, PlankState,
    Question, Weighing,
};
use serde_json::{Map, Value, json};

const ACCEPTED: &str = "a JSON object with observations (a list of group and reading), and if wanted prior, context, \
                        plank_only, overrides, may_open and neighbours";

/// The topic.
pub const TOPIC: Topic = Topic {
    name: "evidence",
    title: "What the readings of one place say, and what to try next",
    question: "What is likeliest to ail this place, what spoke for it and against it, and which test would tell most?",
    version: 1,
    flags: &[Flag::required("observations", "readings of the place, as JSON", FlagKind::TextFile)],
    figures: &[
        Figure { key: "statement", label: "in a sentence", unit: "", decimals: 0 },
        Figure { key: "states", label: "probability of each state", unit: "", decimals: 4 },
        Figure { key: "leading", label: "leading state", unit: "", decimals: 0 },
        Figure { key: "lead_db", label: "lead over the next", unit: "dB", decimals: 1 },
        Figure { key: "weights", label: "what each reading weighed, dB", unit: "", decimals: 2 },
        Figure { key: "rivals", label: "rivals and what tells them apart", unit: "", decimals: 2 },
        Figure { key: "next", label: "tests, most told a minute first", unit: "", decimals: 3 },
        Figure { key: "close", label: "close", unit: "", decimals: 0 },
        Figure { key: "fastening", label: "fastening", unit: "", decimals: 4 },
        Figure { key: "frame", label: "frame behind", unit: "", decimals: 4 },
        Figure { key: "prior", label: "before the readings", unit: "", decimals: 4 },
        Figure { key: "prior_db", label: "log-odds before", unit: "dB", decimals: 2 },
        Figure { key: "posterior_db", label: "log-odds after", unit: "dB", decimals: 2 },
        Figure { key: "needs_leave", label: "tests that need more leave", unit: "", decimals: 3 },
        Figure { key: "prior_steps", label: "how the start came about", unit: "", decimals: 3 },
        Figure { key: "plank_alone", label: "by the plank alone", unit: "", decimals: 4 },
        Figure { key: "neighbour_multipliers", label: "what neighbours multiply by", unit: "", decimals: 3 },
        Figure { key: "set_aside", label: "set aside", unit: "", decimals: 0 },
        Figure { key: "contradictions", label: "contradictions", unit: "", decimals: 3 },
        Figure { key: "conflicts", label: "at odds", unit: "", decimals: 1 },
        Figure { key: "overrides", label: "the caller's own likelihoods", unit: "", decimals: 4 },
    ],
    equation: "Bayes' rule by enumeration of plank, fastening and frame; weight of evidence in decibans, averaged over all \
               orders of the readings; expected information of a yes-or-no answer",
    sources: &[
        "Likelihoods: elicited defaults, not measured; directions from US Army TB 55-1900-201-45/1 s.2-7 and 2-8, US FHWA \
         InfoTechnology page Probing, USDA Forest Products Laboratory report 2147 (1959), US Navy MO-312 s.4.4.1, and common \
         practice, row by row in the file likelihoods.csv",
        "Verbal probabilities: IPCC Fourth Assessment Report, Working Group II, front matter F",
        "Weight of evidence in decibans: I. J. Good, after A. M. Turing",
        "Averaging over orders: L. S. Shapley, A value for n-person games (1953)",
    ],
    not_covered: &[
        "It concludes nothing: a surveyor concludes, and the record says which is which.",
        "One place at a time; how far the trouble reaches is for more readings to say.",
    ],
    example: &[(
        "observations",
        r#"{"observations": [{"group": "hammer", "reading": "dull_or_hollow"}, {"group": "knife", "reading": "firm"}, {"group": "movement", "reading": "moves_under_pry"}]}"#,
    )],
    run,
};

fn run(inputs: &Inputs) -> Result<Answer, Refusal> {
    let text = inputs.need_words("observations")?;
    let refuse = |why: String| Refusal::value("observations", text.trim(), why, ACCEPTED);
    let question: Question = serde_json::from_str(text).map_err(|fault| refuse(fault.to_string()))?;
    let book = Book::elicited().map_err(|fault| Refusal::Meaningless(fault.to_string()))?;
    let weighing = book.weigh(&question).map_err(|fault| refuse(fault.to_string().trim_end_matches('.').to_owned()))?;
    let mut answer = Answer::new()
        .with("statement", weighing.statement.clone())
        .with("states", by_state(&weighing.plank))
        .with("leading", weighing.leading.name())
        .with_some("lead_db", weighing.lead_db)
        .with("close", weighing.close)
        .with_some("fastening", weighing.fastening.map(|p| named(FASTENING_STATES.map(FasteningState::name), p)))
        .with_some("frame", weighing.frame.map(|p| named(FRAME_STATES.map(FrameState::name), p)))
        .with("prior", by_state(&weighing.prior))
        .with("prior_db", odds(&weighing.prior_db))
        .with("posterior_db", odds(&weighing.posterior_db))
        .with("weights", weights(&weighing))
        .with("rivals", rivals(&weighing))
        .with("next", tests(&weighing.next));
    if !weighing.needs_leave.is_empty() {
        answer = answer.with("needs_leave", tests(&weighing.needs_leave));
    }
    answer = answer.with("prior_steps", steps(&weighing)).with("plank_alone", by_state(&weighing.plank_alone));
    if !question.neighbours.is_empty() {
        answer = answer.with("neighbour_multipliers", by_state(&weighing.neighbour_multipliers));
    }
    answer = with_oddities(answer, &weighing);
    if !weighing.weights.is_empty() {
        answer = answer.sheet(balance::sheet(&weighing));
    }
    Ok(cautions(answer, &question, &weighing))
}

fn cautions(mut answer: Answer, question: &Question, weighing: &Weighing) -> Answer {
    answer = answer.caution(
        "The likelihoods are one writer's choice of verbal probabilities, not measured on any boat; change them where you know better.",
    );
    if question.prior.is_none() {
        answer =
            answer.caution("No prior was given: the start is elicited and illustrative, not a base rate of any fleet.");
    }
    if weighing.weights.is_empty() {
        answer = answer.caution("Nothing was observed: the answer is the prior.");
    }
    if weighing.leading == PlankState::Sound && !weighing.weights.is_empty() {
        answer = answer.caution(
            "A clear sounding clears little: with decay under 30 % of the section hammer and stress wave are both poor (J. Tree Health (Japan) 11(1) 2007, on trees).",
        );
    }
    if question.may_open.is_none() && weighing.next.iter().any(|next| next.test.leave > Leave::Nothing) {
        answer = answer.caution("What may be opened was not said: ask the owner's leave before any test that leaves a mark, and plug every hole.");
    }
    if question.observations.iter().any(|o| o.hearsay) {
        answer = answer.caution("Hearsay is among the readings, counted at half its decibans.");
    }
    for why in &weighing.differs_because {
        answer = answer.caution(format!("Differs from the plank's table alone. {why}"));
    }
    for conflict in &weighing.conflicts {
        answer = answer.caution(format!("At odds: {}", conflict.sentence));
    }
    for c in &weighing.contradictions {
        answer = answer.caution(format!(
            "Contradiction in {}: {} and {}; {}. If only the first is true, {} leads; if only the second, {}.",
            c.group, c.first, c.second, c.why, c.leading_if_first.0, c.leading_if_second.0
        ));
    }
    answer
}

fn with_oddities(mut answer: Answer, weighing: &Weighing) -> Answer {
    let aside: Vec<Value> = weighing
        .set_aside
        .iter()
        .map(|aside| json!({"group": aside.group, "reading": aside.reading, "why": aside.why}))
        .collect();
    let contradictions: Vec<Value> = weighing
        .contradictions
        .iter()
        .map(|c| {
            json!({
                "group": c.group, "first": c.first, "second": c.second, "why": c.why,
                "leading_if_first": c.leading_if_first.0.name(), "p_if_first": c.leading_if_first.1,
                "leading_if_second": c.leading_if_second.0.name(), "p_if_second": c.leading_if_second.1,
            })
        })
        .collect();
    let conflicts: Vec<Value> =
        weighing.conflicts.iter().map(|c| json!({"readings": c.readings, "db": c.db, "meaning": c.sentence})).collect();
    let overrides: Vec<Value> = weighing.overrides.iter().map(|own| json!(own)).collect();
    for (key, list) in
        [("set_aside", aside), ("contradictions", contradictions), ("conflicts", conflicts), ("overrides", overrides)]
    {
        if !list.is_empty() {
            answer = answer.with(key, list);
        }
    }
    answer
}

fn by_state(shares: &[f64; 7]) -> Value {
    named(PLANK_STATES.map(PlankState::name), *shares)
}

fn odds(db: &[Option<f64>; 7]) -> Value {
    named(PLANK_STATES.map(PlankState::name), *db)
}

fn named<const N: usize>(names: [&str; N], values: [impl Into<Value>; N]) -> Value {
    Value::Object(names.into_iter().map(str::to_owned).zip(values.into_iter().map(Into::into)).collect::<Map<_, _>>())
}

fn weights(weighing: &Weighing) -> Value {
    let one = |w: &evidence::Weight| {
        json!({
            "group": w.observation.group,
            "reading": w.observation.reading,
            "hearsay": w.observation.hearsay,
            "doubtful": w.observation.doubtful,
            "share": w.share,
            "for_leading_db": w.decibans[weighing.leading as usize],
            "decibans": odds(&w.decibans),
            "likelihoods": by_state(&w.likelihoods),
        })
    };
    weighing.weights.iter().map(one).collect()
}

fn rivals(weighing: &Weighing) -> Value {
    let one = |rival: &evidence::Rival| {
        let apart: Vec<Value> = rival
            .told_apart_by
            .iter()
            .map(|s| json!({"test": s.test, "do": s.words, "expected_db": s.expected_db, "leave": s.leave}))
            .collect();
        json!({
            "state": rival.state.name(), "probability": rival.probability, "behind_db": rival.behind_db,
            "told_apart_by": apart,
        })
    };
    weighing.rivals.iter().map(one).collect()
}

fn tests(tests: &[NextTest]) -> Value {
    let one = |next: &NextTest| {
        json!({
            "test": next.test.test,
            "do": next.test.words,
            "group": next.test.group,
            "reading": next.test.observation,
            "information_bits": next.information_bits,
            "plank_information_bits": next.plank_information_bits,
            "minutes": next.test.minutes,
            "bits_per_minute": next.bits_per_minute,
            "damage": next.test.damage,
            "bits_per_damage": next.bits_per_damage,
            "rank_by_damage": next.rank_by_damage,
            "leave": next.test.leave,
            "chance_yes": next.chance_yes,
            "leading_if_yes": next.leading_if_yes.0.name(),
            "p_if_yes": next.leading_if_yes.1,
            "leading_if_no": next.leading_if_no.0.name(),
            "p_if_no": next.leading_if_no.1,
        })
    };
    tests.iter().map(one).collect()
}

fn steps(weighing: &Weighing) -> Value {
    let one = |step: &evidence::PriorFactor| {
        json!({
            "factor": step.factor, "level": step.level, "multipliers": by_state(&step.multipliers),
            "status": step.status, "source": step.source,
        })
    };
    weighing.prior_steps.iter().map(one).collect()
}
