//! How far the seams of a planked hull open while she stands ashore.

use crate::drying::{self, Leaning, Plank, Surroundings};
use crate::fault::{self, Fault};
use crate::moisture;
use crate::movement::{self, share_by_totals};
use crate::ring::Rings;
use crate::species::Shrinkage;

/// One day of a forecast.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Opening {
    /// Days since she came out.
    pub day: f64,
    /// Opening per seam between two such planks, mm; negative when the planks swell.
    pub gap_mm: f64,
    /// Lower end of the honest band, mm.
    pub low_mm: f64,
    /// Upper end of the honest band, mm.
    pub high_mm: f64,
    /// Mean moisture of the plank, %.
    pub mean_mc_percent: f64,
}

/// A forecast of seam opening.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// Day by day, evenly spaced, beginning and end included.
    pub openings: Vec<Opening>,
    /// Equilibrium moisture at the end, %.
    pub emc_percent: f64,
    /// Contributions to the band at the end, mm either way: what for, how much.
    pub doubts_mm: Vec<(&'static str, f64)>,
    /// Cautions for this answer.
    pub cautions: Vec<String>,
    /// Sources of the figures used.
    pub sources: Vec<String>,
}

/// A measured seam held against a forecast.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Narrower than the band.
    Tighter,
    /// Within the band.
    AsExpected,
    /// Wider than the band.
    Wider,
}

impl Reading {
    /// Returns the reading in words: `tighter`, `as expected`, `wider`.
    pub fn words(self) -> &'static str {
        match self {
            Reading::Tighter => "tighter",
            Reading::AsExpected => "as expected",
            Reading::Wider => "wider",
        }
    }
}

/// Forecasts the opening of a seam between two planks alike: each gives half of its shrinkage to the seam on either
/// side, so one seam opens by one plank's change of width.
///
/// The band joins, as errors that do not depend on each other (root of the sum of squares): the speed of drying, the
/// equilibrium moisture ±1.5 %, ±40 % on any computed movement, and what other sources say of the wood's shrinkage.
/// The middle line runs in hourly steps, the ends of the band in steps of three hours.
///
/// # Errors
/// Whatever [`drying::dry`] refuses, a width outside 10 to 1000 mm, a plank thicker than wide, or a wood whose
/// shrinkage is not known.
pub fn forecast(
    plank: &Plank,
    width_mm: f64,
    rings: Rings,
    surroundings: &Surroundings,
    days: f64,
) -> Result<Forecast, Fault> {
    fault::within("width_mm", width_mm, 10.0, 1000.0, "mm")?;
    fault::plank_section(plank.thickness_mm, width_mm)?;
    let mut middle = drying::dry(plank, surroundings, days)?;
    let species = crate::species::find(plank.species)?;
    let Some(first) = species.shrinkage.first() else {
        return Err(Fault::NotKnown { species: species.common, what: "shrinkage" });
    };
    let doubt = drying::diffusivity_doubt(plank.mc_start_percent);
    let leaning = |factor: f64, shift: f64| {
        let leaning = Leaning { diffusivity_factor: factor, emc_shift_percent: shift, step_hours: 3.0 };
        drying::run(plank, species, surroundings, days, leaning)
    };
    let slow = leaning(1.0 / doubt, 0.0)?;
    let fast = leaning(doubt, 0.0)?;
    let damp = leaning(1.0, moisture::BAND_PERCENT)?;
    let arid = leaning(1.0, -moisture::BAND_PERCENT)?;
    let gap = |run: &drying::Drying, i: usize, set: &Shrinkage| {
        let snapshot = run.snapshots.get(i).or(run.snapshots.last());
        let f = set.fibre_saturation_percent;
        let mean = snapshot.map_or(plank.mc_start_percent, |s| run.moving_mean_percent(s, f));
        -width_mm * share_by_totals(set, rings, plank.mc_start_percent, mean)
    };
    let near = |run: &drying::Drying, day: f64| {
        run.snapshots
            .iter()
            .enumerate()
            .min_by(|a, b| (a.1.day - day).abs().total_cmp(&(b.1.day - day).abs()))
            .map_or(0, |(i, _)| i)
    };
    let mut openings = Vec::with_capacity(middle.snapshots.len());
    let mut doubts_mm = Vec::new();
    for (i, snapshot) in middle.snapshots.iter().enumerate() {
        let gap_mm = gap(&middle, i, first);
        let of = |run: &drying::Drying| gap(run, near(run, snapshot.day), first) - gap_mm;
        let sets: Vec<f64> = species.shrinkage.iter().map(|set| gap(&middle, i, set) - gap_mm).collect();
        let parts = [
            ("speed of drying", [of(&slow), of(&fast)]),
            ("equilibrium moisture ±1.5 %", [of(&damp), of(&arid)]),
            ("±40 % on computed movement", [movement::BAND * gap_mm, -movement::BAND * gap_mm]),
            (
                "other sources for the wood's shrinkage",
                [sets.iter().copied().fold(0.0, f64::min), sets.iter().copied().fold(0.0, f64::max)],
            ),
        ];
        let down = parts.iter().map(|(_, ends)| ends[0].min(ends[1]).min(0.0).powi(2)).sum::<f64>().sqrt();
        let up = parts.iter().map(|(_, ends)| ends[0].max(ends[1]).max(0.0).powi(2)).sum::<f64>().sqrt();
        doubts_mm = parts.iter().map(|(what, ends)| (*what, ends[0].abs().max(ends[1].abs()))).collect();
        openings.push(Opening {
            day: snapshot.day,
            gap_mm,
            low_mm: gap_mm - down,
            high_mm: gap_mm + up,
            mean_mc_percent: snapshot.mean_mc_percent,
        });
    }
    let mut cautions = std::mem::take(&mut middle.cautions);
    cautions
        .extend(movement::of_width(species, rings, width_mm, plank.mc_start_percent, plank.mc_start_percent)?.cautions);
    cautions.push(
        "Counted from the caulked state at the first moisture. Planks that swelled hard afloat crushed their own \
         edges (compression set), so seams may end wider than this; compare the sum over a girth, not one seam."
            .to_owned(),
    );
    cautions.push("Not for strip-planked, cold-moulded or edge-glued work.".to_owned());
    Ok(Forecast {
        openings,
        emc_percent: middle.end().map_or(f64::NAN, |s| s.emc_percent),
        doubts_mm,
        cautions,
        sources: vec![format!("{}: {}", species.common, first.source)],
    })
}

impl Forecast {
    /// Returns the forecast for the last day.
    pub fn end(&self) -> Option<&Opening> {
        self.openings.last()
    }
}

impl Opening {
    /// Returns how a measured gap compares, with the excess over what was expected, mm.
    pub fn compare(&self, measured_gap_mm: f64) -> (f64, Reading) {
        let expected = self.gap_mm.max(0.0);
        let reading = match measured_gap_mm {
            gap if gap < self.low_mm.max(0.0) => Reading::Tighter,
            gap if gap > self.high_mm.max(0.0) => Reading::Wider,
            _ => Reading::AsExpected,
        };
        (measured_gap_mm - expected, reading)
    }
}
