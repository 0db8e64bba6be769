//! Which fastenings to draw: picked at random, so that neither the easy nor the ugly ones are favoured.
//!
//! Every fastening of the zone has a number, reachable or not, and every one is equally likely. The order of the
//! list is the order of drawing, so that stopping early leaves a fair draw. One that cannot be drawn is written
//! down with its reason and the next substitute taken; it is never swapped for its neighbour.

use super::zone::{Layout, Place};
use crate::Fault;
use crate::random::Random;
use std::collections::BTreeMap;

/// Numbers to draw, in order, and numbers to take in their stead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picks {
    /// Numbers to draw, 1 first, in the order of drawing.
    pub draw: Vec<u64>,
    /// Numbers to take, in order, for those that cannot be drawn.
    pub substitutes: Vec<u64>,
}

/// Picks `count` of `population` without favour, with as many substitutes as there are left up to `substitutes`.
/// The same seed gives the same picks. Write the seed down before looking at the boat.
///
/// # Errors
/// When more is asked for than there is.
pub fn pick(population: u64, count: u64, substitutes: u64, seed: u64) -> Result<Picks, Fault> {
    super::sample::population_checked(population)?;
    super::sample::counted("sample_size", count, population)?;
    let mut random = Random::seeded(seed);
    let wanted = count + substitutes.min(population - count);
    // Fisher–Yates on numbers that are only written down once moved.
    let mut moved: BTreeMap<u64, u64> = BTreeMap::new();
    let mut order = Vec::with_capacity(usize::try_from(wanted).unwrap_or(0));
    for i in 0..wanted {
        let j = i + random.below(population - i);
        let at = |moved: &BTreeMap<u64, u64>, k: u64| moved.get(&k).copied().unwrap_or(k);
        let (here, there) = (at(&moved, i), at(&moved, j));
        moved.insert(j, here);
        order.push(there + 1);
    }
    let rest = order.split_off(usize::try_from(count).unwrap_or(0));
    Ok(Picks { draw: order, substitutes: rest })
}

/// Returns the picks as places in a layout.
///
/// # Errors
/// When the layout is out of range or smaller than a number picked.
pub fn places(picks: &[u64], layout: &Layout) -> Result<Vec<Place>, Fault> {
    let population = layout.population()?;
    let place = |number: &u64| {
        layout.place(*number).ok_or_else(|| {
            let accepted = format!("a number from 1 to {population}");
            Fault::value("number", *number as f64, "there is no such fastening in the layout", accepted)
        })
    };
    picks.iter().map(place).collect()
}

/// Returns how many of the places have another near them, so that they are worth less than their number.
pub fn near_pairs(places: &[Place]) -> usize {
    let mut pairs = 0;
    for (i, a) in places.iter().enumerate() {
        pairs += places[i + 1..].iter().filter(|b| a.is_near(b)).count();
    }
    pairs
}
