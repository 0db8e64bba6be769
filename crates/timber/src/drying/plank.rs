//! A plank set out to dry or wet, and what becomes of it day by day.

use super::diffusivity::{Model, Tabulated};
use super::face::{Coating, Exposure, conductance_m_s};
use super::solver::{Boundary, Slab};
use super::surroundings::Surroundings;
use crate::fault::{self, Fault};
use crate::moisture;
use crate::species::Species;

/// Which faces are open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Faces {
    /// Both wide faces open alike.
    #[default]
    Both,
    /// One face open, the other sealed (or against a dry, closed space).
    One,
    /// One face open, the other kept wet at fibre saturation: bilge water, wet ballast, a wet packing piece.
    OneWetBehind,
}

/// A plank as it begins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plank {
    /// The wood.
    pub species: &'static str,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Moisture at the beginning, the same throughout, %.
    pub mc_start_percent: f64,
    /// Which faces are open.
    pub faces: Faces,
    /// What the open face is coated with.
    pub coating: Coating,
    /// How freely air moves over it.
    pub exposure: Exposure,
}

/// The plank at one time.
#[derive(Clone, Debug, PartialEq)]
pub struct Snapshot {
    /// Days since the beginning.
    pub day: f64,
    /// Mean moisture, %.
    pub mean_mc_percent: f64,
    /// Moisture at the open face, %.
    pub surface_mc_percent: f64,
    /// Moisture furthest from the open face: the middle when both are open, else the back, %.
    pub core_mc_percent: f64,
    /// Moisture that the air (or water) draws it towards, %.
    pub emc_percent: f64,
    /// Moisture of each layer, from the middle or back to the open face, %.
    pub layers_percent: Vec<f64>,
}

/// A plank's drying.
#[derive(Clone, Debug, PartialEq)]
pub struct Drying {
    /// The plank through time, evenly spaced, beginning and end included.
    pub snapshots: Vec<Snapshot>,
    /// Depth of each layer's middle below the open face, mm, in the order of `layers_percent`.
    pub layer_depths_mm: Vec<f64>,
    /// Share of the depth that each layer takes; sums to 1.
    pub layer_shares: Vec<f64>,
    /// Water that came in through the faces (negative: went out), in % of mean moisture.
    pub came_in_percent: f64,
    /// Cautions for this answer.
    pub cautions: Vec<String>,
}

/// By how much a run leans from the middle estimate: for the ends of an honest band.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Error {
    pub diffusivity_factor: f64,
    pub emc_shift_percent: f64,
    pub step_hours: f64,
}

impl Error {
    pub const NONE: Error = Error { diffusivity_factor: 1.0, emc_shift_percent: 0.0, step_hours: 1.0 };
}

const CELLS: usize = 28;
const RATIO: f64 = 1.10;

/// Reckons how a plank dries or wets over a number of days, in hourly steps or finer.
///
/// # Errors
/// An unknown wood or one whose gravity is not known; a thickness outside 3 to 400 mm, a moisture that cannot be
/// meant, or days outside 0 to 3660.
///
/// ```
/// use timber::drying::{Coating, Exposure, Faces, Plank, Surroundings, dry};
/// let plank = Plank {
///     species: "white oak", thickness_mm: 30.0, mc_start_percent: 28.0,
///     faces: Faces::Both, coating: Coating::Bare, exposure: Exposure::Breeze,
/// };
/// let air = Surroundings::constant(15.0, 65.0).unwrap();
/// let after = dry(&plank, &air, 30.0).unwrap().snapshots.pop().unwrap();
/// assert!((after.mean_mc_percent - 18.6).abs() < 0.1);
/// ```
pub fn dry(plank: &Plank, surroundings: &Surroundings, days: f64) -> Result<Drying, Fault> {
    let species = check(plank, days)?;
    let mut drying = run(plank, species, surroundings, days, Error::NONE)?;
    drying.cautions = cautions(plank, species, surroundings);
    Ok(drying)
}

impl Drying {
    /// Returns the last snapshot's values, or nothing when there is none.
    pub fn end(&self) -> Option<&Snapshot> {
        self.snapshots.last()
    }

    /// Returns the mean of the part of the moisture that moves the wood (at and below fibre saturation), %.
    pub fn moving_mean_percent(&self, snapshot: &Snapshot, fibre_saturation_percent: f64) -> f64 {
        let layers = snapshot.layers_percent.iter().zip(&self.layer_shares);
        layers.map(|(mc, share)| mc.min(fibre_saturation_percent) * share).sum()
    }
}

pub(crate) fn check(plank: &Plank, days: f64) -> Result<&'static Species, Fault> {
    fault::within("thickness_mm", plank.thickness_mm, 3.0, 400.0, "mm")?;
    fault::moisture("mc_start_percent", plank.mc_start_percent)?;
    fault::within("days", days, 0.0, 3660.0, "days")?;
    fault::within("air_layer_m", plank.coating.air_layer_m(), 0.0, 10_000.0, "m")?;
    fault::within("emission_m_s", plank.exposure.emission_m_s(), 1e-10, 1e-3, "m/s")?;
    Ok(crate::species::find(plank.species)?)
}

pub(crate) fn run(
    plank: &Plank,
    species: &'static Species,
    surroundings: &Surroundings,
    days: f64,
    leaning: Error,
) -> Result<Drying, Fault> {
    let model = Model::of(species)?;
    let saturation = species.fibre_saturation_percent();
    let oven_dry = species.gravity_oven_dry().map_or(600.0, |g| 1000.0 * g.value);
    let (depth_m, inner, both_open) = match plank.faces {
        Faces::Both => (plank.thickness_mm / 2000.0, Boundary::Closed, false),
        Faces::One => (plank.thickness_mm / 1000.0, Boundary::Closed, false),
        Faces::OneWetBehind => (plank.thickness_mm / 1000.0, Boundary::Held(saturation), true),
    };
    let mut slab = Slab::new(depth_m, CELLS, RATIO, both_open, plank.mc_start_percent);
    let is_under_water = matches!(surroundings, Surroundings::Water { .. });
    let target = |air: super::Air| {
        if is_under_water {
            return saturation;
        }
        (moisture::emc(air.temp_c, air.rh_percent / 100.0) + leaning.emc_shift_percent).max(0.1)
    };

    let mut air = surroundings.at(0.0);
    let mut table = Tabulated::new(model, air.temp_c, saturation, leaning.diffusivity_factor);
    let mut conductance = conductance_m_s(plank.exposure, plank.coating, air.temp_c, oven_dry);
    let mut tabulated_at = air.temp_c;
    let snapshots_wanted = 120.0;
    let between = (days / snapshots_wanted).max(leaning.step_hours / 24.0);
    let mut snapshots = vec![snapshot(&slab, 0.0, target(air))];
    let mut came_in = 0.0;
    let mut day = 0.0;
    while day < days {
        // The first hours run in fine steps, since the face starts with a jump.
        let longest = if day < 0.25 { 1.0 / 384.0 } else { leaning.step_hours / 24.0 };
        let length = longest.min(days - day);
        air = surroundings.at(day + 0.5 * length);
        if (air.temp_c - tabulated_at).abs() > 0.25 {
            table.refill(model, air.temp_c, leaning.diffusivity_factor);
            conductance = conductance_m_s(plank.exposure, plank.coating, air.temp_c, oven_dry);
            tabulated_at = air.temp_c;
        }
        let aim = target(air);
        let outer = if is_under_water {
            Boundary::Held(saturation)
        } else {
            Boundary::Open { conductance_m_s: conductance, target_percent: aim }
        };
        came_in += slab.step(length * 86_400.0, inner, outer, |mc| table.at(mc));
        day += length;
        if days - day < 1e-9 {
            day = days;
        }
        let due = snapshots.last().map_or(0.0, |s: &Snapshot| s.day) + between;
        if day >= due - 1e-9 || day >= days {
            snapshots.push(snapshot(&slab, day, aim));
        }
    }
    let depths = slab.middles_m().iter().map(|at| (depth_m - at) * 1000.0).collect();
    let shares = slab.shares();
    Ok(Drying {
        snapshots,
        layer_depths_mm: depths,
        layer_shares: shares,
        came_in_percent: came_in / depth_m,
        cautions: Vec::new(),
    })
}

fn snapshot(slab: &Slab, day: f64, emc_percent: f64) -> Snapshot {
    Snapshot {
        day,
        mean_mc_percent: slab.mean_percent(),
        surface_mc_percent: slab.surface_percent(),
        core_mc_percent: slab.mc_percent().first().copied().unwrap_or(f64::NAN),
        emc_percent,
        layers_percent: slab.mc_percent().to_vec(),
    }
}

/// Factor by which the diffusivity may be wrong either way: 2 below 18 % moisture and 3 above, being how far the two
/// equations differ for oak.
pub(crate) fn diffusivity_doubt(mc_start_percent: f64) -> f64 {
    if mc_start_percent > 18.0 { 3.0 } else { 2.0 }
}

pub(crate) fn cautions(plank: &Plank, species: &Species, surroundings: &Surroundings) -> Vec<String> {
    let doubt = diffusivity_doubt(plank.mc_start_percent);
    let mut found = vec![format!(
        "How fast wood dries is known only to a factor of about {doubt:.0} either way: a state given for 30 days may be \
         reached in {:.0} or in {:.0}.",
        30.0 / doubt,
        30.0 * doubt
    )];
    if species.ring_porous_oak {
        found.push("The oak equation was fitted to kiln drying; in cool air it is carried beyond its data.".to_owned());
    }
    if plank.mc_start_percent > species.fibre_saturation_percent() {
        found.push(
            "Above fibre saturation the diffusivity is held at its value there, a choice of the model: liquid water \
             may leave faster."
                .to_owned(),
        );
    }
    if plank.coating != Coating::Bare {
        found.push(
            "The resistance of the coating is from memory and good to a factor of three; a film that is cracked or \
             worn through at seams and edges hardly counts."
                .to_owned(),
        );
    }
    if !matches!(surroundings, Surroundings::Constant(_)) || plank.mc_start_percent < 10.0 {
        found.push(
            "Wetting runs slower than drying through the wood but faster at seams, end grain and checks.".to_owned(),
        );
    }
    found.push(
        "Two to three thicknesses from a butt the end grain dries far faster than this; the surface is near its end \
         state within days while the middle still stands near its beginning."
            .to_owned(),
    );
    found.extend(species.gravity_basic.and_then(|g| g.caution(&format!("specific gravity of {}", species.common))));
    found
}
