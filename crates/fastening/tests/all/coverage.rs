//! Simulated hulls: stated intervals hold the truth at least as often as they say.

use fastening::draw::posterior::Prior;
use fastening::draw::result::{Choice, Draw, result, together};
use fastening::draw::zone::Zone;
use fastening::random::Random;
use fastening::wastage::{Measured, wastage};

const HULLS: usize = 10_000;

/// Draws without putting back from a population of which the first `bad` are bad.
fn drawn_bad(random: &mut Random, population: u64, bad: u64, drawn: u64) -> u64 {
    let (mut left, mut bad_left, mut found) = (population, bad, 0);
    for _ in 0..drawn {
        if random.below(left) < bad_left {
            bad_left -= 1;
            found += 1;
        }
        left -= 1;
    }
    found
}

fn hull(random: &mut Random) -> (Draw, u64) {
    let population = 30 + random.below(570);
    let bad = random.below(population + 1);
    let drawn = 1 + random.below(population.min(40));
    let found = drawn_bad(random, population, bad, drawn);
    (Draw { population, drawn, bad: found, choice: Choice::Random }, bad)
}

/// Bad counts even over 0 to N are the uniform prior, under which the posterior's end is also held to its level.
#[test]
fn draw_intervals_cover_at_least_their_level() {
    for level in [0.80, 0.95] {
        let mut random = Random::seeded(95);
        let mut held = [0usize; 5];
        for _ in 0..HULLS {
            let (draw, truth) = hull(&mut random);
            let said = result(&draw, level, Prior::UNIFORM).unwrap();
            let share = truth as f64 / draw.population as f64;
            let shares = said.shares.unwrap();
            let (low, high) = said.counts.unwrap();
            let holds = [
                shares.lower <= share && share <= shares.upper,
                low <= truth && truth <= high,
                truth <= said.upper_count.unwrap(),
                share <= said.upper_share.unwrap(),
                truth <= said.posterior_upper.unwrap(),
            ];
            held.iter_mut().zip(holds).for_each(|(sum, held)| *sum += usize::from(held));
        }
        let names = ["Clopper-Pearson", "exact counts", "one-sided count", "one-sided share", "posterior"];
        for (name, sum) in names.iter().zip(held) {
            assert!(sum as f64 >= level * HULLS as f64, "{name} at {level}: {sum} of {HULLS}");
        }
    }
}

/// The worst case for a bound: every share of bad held apart, not averaged over.
#[test]
fn the_one_sided_count_covers_at_every_share() {
    let mut random = Random::seeded(7);
    for bad in [1u64, 5, 20, 40, 100, 199] {
        let covered = (0..2000).filter(|_| {
            let draw =
                Draw { population: 200, drawn: 16, bad: drawn_bad(&mut random, 200, bad, 16), choice: Choice::Random };
            bad <= result(&draw, 0.95, Prior::UNIFORM).unwrap().upper_count.unwrap()
        });
        let covered = covered.count() as f64 / 2000.0;
        // Exact level at least 0.95; three standard errors of 2,000 simulations are 0.015.
        assert!(covered >= 0.95 - 0.015, "{bad} bad: {covered}");
    }
}

#[test]
fn zones_together_cover_at_least_their_level() {
    let mut random = Random::seeded(3);
    let mut held = 0;
    let hulls = 2000;
    for _ in 0..hulls {
        let (mut zones, mut truth) = (Vec::new(), 0);
        for zone in [Zone::Garboards, Zone::HoodEnds, Zone::Topsides] {
            let population = 20 + random.below(60);
            let bad = random.below(population / 2);
            let drawn = 4 + random.below(8);
            let found = drawn_bad(&mut random, population, bad, drawn);
            zones.push((zone, Draw { population, drawn, bad: found, choice: Choice::Random }));
            truth += bad;
        }
        held += usize::from(truth <= together(&zones, 0.95, Prior::UNIFORM).unwrap().upper);
    }
    assert!(held as f64 >= 0.95 * f64::from(hulls), "{held} of {hulls}");
}

/// Wastage: rate and years to a limit, with the errors of measuring as stated. Both are exact for normal errors, so the share held is the
/// level itself; three standard errors of 10,000 simulations are 0.0065.
#[test]
fn wastage_intervals_cover_their_level() {
    let mut random = Random::seeded(11);
    let (mut rate_held, mut years_held) = (0usize, 0usize);
    for _ in 0..HULLS {
        let true_rate = 0.005 + 0.04 * random.share();
        let years = 10.0 + 50.0 * random.share();
        let (original, now) = (8.0, 8.0 - true_rate * years);
        let limit = 3.0;
        let measured = Measured {
            original_mm: original + 0.1 * random.normal(),
            original_sd_mm: 0.1,
            measured_mm: now + 0.08 * random.normal(),
            measured_sd_mm: 0.08,
            years,
        };
        let found = wastage(&measured, Some(limit), 0.95).unwrap();
        let rate = found.rate_mm_per_year;
        rate_held += usize::from(rate.lower <= true_rate && true_rate <= rate.upper);
        let truth = (now - limit) / true_rate;
        let to_limit = found.years_to_limit.unwrap();
        years_held += usize::from(to_limit.lower <= truth && truth <= to_limit.upper);
    }
    for (name, held) in [("rate", rate_held), ("years", years_held)] {
        assert!(held as f64 >= (0.95 - 0.0065) * HULLS as f64, "{name}: {held}");
    }
}
