//! Draw plans and draw results.

use crate::table_file::{assert_close, number, rows};
use fastening::draw::allocate::{Stratum, allocate, effective_size};
use fastening::draw::hypergeometric::Hypergeometric;
use fastening::draw::interval::{clopper_pearson, counts, upper_bound, upper_count};
use fastening::draw::patch::{Patch, Sides, zones};
use fastening::draw::pick::{near_pairs, pick, places};
use fastening::draw::posterior::{BetaBinomial, Prior};
use fastening::draw::result::{Choice, Draw, result, together};
use fastening::draw::sample::{chance_of_finding_one, size, size_without_end};
use fastening::draw::sequential::{Sequential, Verdict};
use fastening::draw::zone::{Layout, Zone};
use proptest::prelude::*;

fn draw(population: u64, drawn: u64, bad: u64) -> Draw {
    Draw { population, drawn, bad, choice: Choice::Random }
}

/// The whole table of derived sizes. Its first rows are those of common reliability tables (22, 29, 45, 59, 299 …).
#[test]
fn sample_sizes_come_out_of_the_table() {
    let table = rows(include_str!("../data/sample-sizes.csv"));
    for row in &table {
        let (confidence, share, bad) = (number(row, 1), number(row, 2), row[4].parse().unwrap());
        let ours = if &row[3] == "inf" {
            size_without_end(confidence, share, bad).unwrap()
        } else {
            size(row[3].parse().unwrap(), confidence, share, bad).unwrap()
        };
        assert_eq!(ours, row[5].parse::<u64>().unwrap(), "{row:?}");
    }
    assert!(table.len() > 90);
}

/// Published: success-run sizes 59/95 % and 299/95 % at 5 and 1 % (any reliability text); freedom survey 500 at 1 % by the exact rule
/// with 5 bad is 225 (a public package's approximate formula prints 226).
#[test]
fn published_sizes_agree() {
    assert_eq!(size_without_end(0.95, 0.05, 0).unwrap(), 59);
    assert_eq!(size_without_end(0.95, 0.01, 0).unwrap(), 299);
    // Exactly 5 bad among 500: asking for "fewer than 5", at most 0.8 %, makes the least number 5.
    let exact = size(500, 0.95, 0.008, 0).unwrap();
    assert!(exact.abs_diff(226) <= 1, "{exact}");
}

/// By counting every draw: 8 fastenings, 3 drawn.
#[test]
fn small_draws_agree_with_counting() {
    for bad in 0..=8u64 {
        let mut ways = [0u32; 4];
        for a in 0..8u64 {
            for b in a + 1..8 {
                for c in b + 1..8 {
                    ways[[a, b, c].iter().filter(|n| **n < bad).count()] += 1;
                }
            }
        }
        let of = Hypergeometric { population: 8, bad, drawn: 3 };
        for (k, n) in ways.iter().enumerate() {
            assert!((of.pmf(k as u64) - f64::from(*n) / 56.0).abs() < 1e-12, "{bad} bad, {k} found");
        }
    }
}

/// Worked with an independent library: intervals, one-sided ends and posteriors.
#[test]
fn intervals_come_out_as_published() {
    for (n, x, lower, upper, one_sided) in [
        (8, 0, 0.0, 0.3694, 0.3123),
        (16, 0, 0.0, 0.2059, 0.1707),
        (16, 1, 0.0016, 0.3023, 0.2640),
        (16, 2, 0.0155, 0.3835, 0.3438),
        (10, 2, 0.0252, 0.5561, 0.5069),
        (24, 5, 0.0713, 0.4215, 0.3891),
        (29, 0, 0.0, 0.1194, 0.0981),
    ] {
        let found = clopper_pearson(n, x, 0.95).unwrap();
        assert!((found.lower - lower).abs() < 6e-5 && (found.upper - upper).abs() < 6e-5, "{x}/{n}: {found:?}");
        assert!((upper_bound(n, x, 0.95).unwrap() - one_sided).abs() < 6e-5, "{x}/{n}");
    }
    // None bad of 30 drawn: 1 − 0.05^(1/30) = 9.50 %; of 600, 10 drawn and none bad: up to 154 may be.
    assert!((upper_bound(30, 0, 0.95).unwrap() - 0.0950).abs() < 5e-5);
    assert_eq!(upper_count(600, 10, 0, 0.95).unwrap(), 154);
    // Ten draws find a lot of 600 that is 10 % bad with chance 0.654.
    assert!((chance_of_finding_one(600, 60, 10).unwrap() - 0.654).abs() < 5e-4);
}

/// N 400, 2 of 16, uniform prior: 64 bad expected among the rest, 90 % of belief from 18 to 127.
#[test]
fn the_posterior_comes_out_as_worked() {
    let after = BetaBinomial::after(Prior::UNIFORM, 400, 16, 2).unwrap();
    assert_close(after.mean(), 64.0, 1e-9, "mean");
    assert_eq!((after.quantile(0.05), after.quantile(0.95)), (18, 127));
    let total: f64 = (0..=384).map(|k| after.pmf(k)).sum();
    assert_close(total, 1.0, 1e-9, "all chances");
    assert!((after.more_than(100) + after.cdf(100) - 1.0).abs() < 1e-12);
    assert!(Prior::JEFFREYS.in_words().contains("0.5") && Prior::UNIFORM.in_words().contains("equally likely"));
}

#[test]
fn the_sentence_says_what_the_draw_supports_and_no_more() {
    let none = result(&draw(400, 16, 0), 0.95, Prior::UNIFORM).unwrap();
    let bound = none.upper_count.unwrap();
    assert_eq!(
        none.statement,
        format!(
            "Of 400 fastenings 16 were drawn, picked at random, and none was bad. With 95 % assurance that supports saying that no more than \
             {bound} of the 400 ({:.1} %) are bad; it does not show that none is.",
            bound as f64 / 4.0
        )
    );
    let some = result(&draw(400, 16, 2), 0.95, Prior::UNIFORM).unwrap();
    assert!(
        some.statement.contains("2 were bad (12.5 %)") && some.statement.contains("between 7 and 151 of the 400"),
        "{}",
        some.statement
    );
    let judged = result(&Draw { choice: Choice::Judgement, ..draw(400, 16, 2) }, 0.95, Prior::UNIFORM).unwrap();
    assert!(judged.statement.contains("worst found") && judged.shares.is_none() && judged.more.is_empty());
    let all = result(&draw(12, 12, 1), 0.95, Prior::UNIFORM).unwrap();
    assert!(all.statement.contains("All were drawn") && all.counts == Some((1, 1)), "{all:?}");
    for word in ["safe", "seaworthy", "passed", "sound"] {
        assert!(!none.statement.contains(word) && !some.statement.contains(word));
    }
}

#[test]
fn more_drawn_tightens_the_bound() {
    let said = result(&draw(400, 16, 0), 0.95, Prior::UNIFORM).unwrap();
    let bounds: Vec<u64> = said.more.iter().map(|more| more.bad_at_most_if_all_good).collect();
    assert!(bounds.windows(2).all(|pair| pair[1] < pair[0]) && bounds[0] < said.upper_count.unwrap());
    // Laplace's rule of succession: after 16 good of 16 with a uniform prior, four more are all good with chance 17/21.
    assert_close(said.more[0].chance_all_good, 17.0 / 21.0, 1e-9, "rule of succession");
}

#[test]
fn good_topsides_do_not_hide_a_bad_garboard() {
    let zones = [(Zone::Garboards, draw(80, 8, 5)), (Zone::Topsides, draw(600, 40, 0))];
    let whole = together(&zones, 0.95, Prior::UNIFORM).unwrap();
    assert_eq!(whole.worst, Zone::Garboards);
    assert!(
        whole.statements[0].starts_with("Garboards: Of 80 fastenings 8 were drawn")
            && whole.statements[2].contains("garboards")
    );
    assert!(whole.statements[0].contains("5 were bad (62.5 %)"));
    assert!(whole.upper >= 50 && whole.posterior_upper < whole.upper);
    assert_close(whole.estimate.unwrap(), 50.0, 1e-12, "weighted by size");
    let unseen = [(Zone::Garboards, draw(80, 0, 0)), (Zone::Topsides, draw(600, 40, 0))];
    let whole = together(&unseen, 0.95, Prior::UNIFORM).unwrap();
    assert!(
        whole.estimate.is_none() && whole.statements[0].contains("nothing is known") && whole.worst == Zone::Garboards
    );
    let judged = [(Zone::Garboards, Draw { choice: Choice::Judgement, ..draw(80, 8, 1) })];
    assert!(together(&judged, 0.95, Prior::UNIFORM).is_err());
}

/// Wald's lines worked by hand for p₀, p₁, α, β.
#[test]
fn stopping_lines_come_out_as_worked() {
    for ((p0, p1), s, h1, h2, accept0, accept1, reject3) in [
        ((0.05, 0.20), 0.1103, 1.4449, 1.8550, 14, 23, 10),
        ((0.02, 0.10), 0.0503, 1.3285, 1.7056, 27, 47, 25),
        ((0.10, 0.30), 0.1862, 1.6677, 2.1411, 9, 15, 4),
    ] {
        let plan = Sequential::new(p0, p1, 0.05, 0.10, 60).unwrap();
        let lines = plan.lines();
        assert!((lines.0 - s).abs() < 6e-5 && (lines.1 - h1).abs() < 6e-5 && (lines.2 - h2).abs() < 6e-5, "{lines:?}");
        assert_eq!(plan.accept_at()[..2], [(0, accept0), (1, accept1)]);
        assert!(plan.reject_up_to().contains(&(3, reject3)), "{:?}", plan.reject_up_to());
        assert_eq!(plan.verdict(accept0, 0), Verdict::Acceptable);
        assert_eq!(plan.verdict(accept0 - 1, 0), Verdict::DrawAnother);
        assert_eq!(plan.verdict(reject3, 3), Verdict::Unacceptable);
    }
    let plan = Sequential::new(0.05, 0.20, 0.05, 0.10, 20).unwrap();
    assert_eq!(plan.verdict(20, 1), Verdict::Undecided);
    assert!(Sequential::new(0.2, 0.1, 0.05, 0.1, 20).is_err());
}

/// Wald's bounds: untruncated, the chances of either error are at most about α/(1 − β) and β/(1 − α).
#[test]
fn the_stopping_plan_keeps_its_chances() {
    let plan = Sequential::new(0.05, 0.20, 0.05, 0.10, 400).unwrap();
    let good = plan.operating(20_000, 1_000).unwrap();
    let bad = plan.operating(20_000, 4_000).unwrap();
    for ends in [good, bad] {
        assert_close(ends.acceptable + ends.unacceptable + ends.undecided, 1.0, 1e-9, "some end");
    }
    assert!(good.unacceptable <= 0.05 / 0.90 && bad.acceptable <= 0.10 / 0.95, "{good:?} {bad:?}");
    assert!(good.mean_drawn < 60.0);
}

fn stratum(zone: Zone, population: u64, may_be_drawn: u64) -> Stratum {
    Stratum { zone, population, may_be_drawn, expected_bad: 0.2, consequence: zone.consequence() }
}

#[test]
fn a_draw_is_shared_by_size_and_risk_within_what_was_agreed() {
    let strata =
        [stratum(Zone::Garboards, 100, 100), stratum(Zone::Topsides, 100, 100), stratum(Zone::HoodEnds, 40, 3)];
    let allotted = allocate(&strata, 30, 2, 0.95).unwrap();
    let draws: Vec<u64> = allotted.iter().map(|a| a.draw).collect();
    assert_eq!(draws.iter().sum::<u64>(), 30);
    assert!(draws[0] > 2 * draws[1], "the garboards weigh three times the topsides: {draws:?}");
    assert_eq!(draws[2], 3, "no more than was agreed");
    assert!(allotted[0].bad_at_most_if_none < allotted[1].bad_at_most_if_none);
    assert!(allocate(&strata, 300, 2, 0.95).unwrap_err().to_string().contains("203"));
    assert!(allocate(&strata, 3, 2, 0.95).unwrap_err().to_string().contains("already makes 6"));
    // Neyman: equal risk, equal weight: shares go as sizes.
    let even = [
        Stratum { consequence: 1.0, ..strata[0] },
        Stratum { consequence: 1.0, population: 300, may_be_drawn: 300, ..strata[1] },
    ];
    let shares = allocate(&even, 40, 0, 0.95).unwrap();
    assert_eq!((shares[0].draw, shares[1].draw), (10, 30));
}

#[test]
fn picks_are_the_same_from_the_same_seed_and_favour_none() {
    let first = pick(400, 27, 5, 1871).unwrap();
    assert_eq!(first, pick(400, 27, 5, 1871).unwrap());
    assert_ne!(first, pick(400, 27, 5, 1872).unwrap());
    let mut all: Vec<u64> = first.draw.iter().chain(&first.substitutes).copied().collect();
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), 32, "no number twice");
    assert!(all.iter().all(|n| (1..=400).contains(n)));
    // Chi-square over 20 fastenings, 4,000 seeds, 5 drawn each: 19 degrees of freedom, 99.9 % point 43.8.
    let mut times = [0f64; 20];
    for seed in 0..4000 {
        pick(20, 5, 0, seed).unwrap().draw.iter().for_each(|n| times[*n as usize - 1] += 1.0);
    }
    let chi: f64 = times.iter().map(|t| (t - 1000.0).powi(2) / 1000.0).sum();
    assert!(chi < 43.8, "{chi}");
    assert!(pick(10, 11, 0, 1).unwrap_err().to_string().contains("more than the population of 10"));
}

#[test]
fn a_number_is_a_place_and_neighbours_are_counted() {
    let layout = Layout { first_strake: 1, strakes: 2, first_frame: 10, frames: 5, per_frame: 2, sides: 2 };
    assert_eq!(layout.population().unwrap(), 40);
    assert_eq!(layout.place(1).unwrap().to_string(), "port, strake 1, frame 10, row 1");
    assert_eq!(layout.place(40).unwrap().to_string(), "starboard, strake 2, frame 14, row 2");
    assert!(layout.place(41).is_none() && layout.place(0).is_none());
    let near = places(&[1, 2, 4, 9, 21], &layout).unwrap();
    assert_eq!(near_pairs(&near), 3);
    assert_close(effective_size(16, 2.0, 0.5).unwrap(), 16.0 / 1.5, 1e-12, "alike");
    assert_eq!(Zone::named("Turn of the bilge").unwrap(), Zone::TurnOfBilge);
    assert!(Zone::named("mast").unwrap_err().to_string().contains("garboards"));
}

#[test]
fn bad_counts_are_refused_in_a_sentence() {
    let say = |d: Draw| result(&d, 0.95, Prior::UNIFORM).unwrap_err().to_string();
    assert!(say(draw(10, 11, 0)).contains("more than the population of 10"));
    assert!(say(draw(10, 5, 6)).contains("more than the 5 drawn"));
    assert!(say(draw(10, 0, 0)).contains("says nothing"));
    assert!(
        size(0, 0.95, 0.1, 0).is_err() && size(100, 0.95, 0.05, 6).unwrap_err().to_string().contains("already bad")
    );
    assert!(size(100, f64::NAN, 0.05, 0).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_size_is_enough_and_one_less_is_not(population in 2u64..3000, confidence in 0.6..0.99f64, share in 0.0..0.6f64) {
        let n = size(population, confidence, share, 0).unwrap();
        let bad = (share * population as f64 + 1e-9).floor() as u64 + 1;
        let missed = |drawn| Hypergeometric { population, bad, drawn }.cdf(0);
        prop_assert!(missed(n) <= 1.0 - confidence + 1e-9);
        prop_assert!(n == 1 || missed(n - 1) > 1.0 - confidence - 1e-9);
    }

    #[test]
    fn counts_hold_what_was_seen(population in 1u64..2000, a in 0.0..1.0f64, b in 0.0..1.0f64) {
        let drawn = 1 + (a * (population - 1) as f64) as u64;
        let bad = (b * drawn as f64) as u64;
        let (low, high) = counts(population, drawn, bad, 0.95).unwrap();
        prop_assert!(bad <= low && low <= high && high <= population - (drawn - bad));
        prop_assert!(upper_count(population, drawn, bad, 0.95).unwrap() <= high);
    }
}

#[test]
fn every_fastening_of_a_shell_is_in_one_zone_the_first_that_holds_it() {
    let patch = |zone, strakes, frames| Patch { zone, sides: Sides::Both, strakes, frames, per_frame: 2 };
    let shell = [
        patch(Zone::HoodEnds, (1, 12), (1, 1)),
        patch(Zone::Garboards, (1, 1), (1, 30)),
        patch(Zone::Bottom, (2, 12), (1, 30)),
        patch(Zone::HoodEnds, (1, 12), (30, 30)),
    ];
    let counted = zones(&shell).unwrap();
    let of = |zone| counted.iter().find(|(z, _)| *z == zone).map(|(_, places)| places.len());
    assert_eq!(of(Zone::HoodEnds), Some(12 * 2 * 2));
    assert_eq!(of(Zone::Garboards), Some(29 * 2 * 2));
    let all: usize = counted.iter().map(|(_, places)| places.len()).sum();
    assert_eq!(all, 12 * 30 * 2 * 2);
    let mut seen = std::collections::BTreeSet::new();
    for place in counted.iter().flat_map(|(_, places)| places) {
        assert!(seen.insert((place.port, place.strake, place.frame, place.row)), "{place} twice");
    }
    let port = Patch { sides: Sides::Port, ..shell[1] };
    assert!(port.places().unwrap().iter().all(|place| place.port));
    let backwards = Patch { frames: (9, 3), ..shell[1] };
    assert!(backwards.places().unwrap_err().to_string().contains("before the first"));
}
