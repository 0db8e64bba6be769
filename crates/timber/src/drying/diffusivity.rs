//! How fast moisture moves across the grain.

use crate::fault::Fault;
use crate::species::Species;

/// Which equation for the diffusivity across the grain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Model {
    /// Ring-porous oak: D = 19.2·10⁻⁴ exp(−5280/T) exp(1.15 M/100) m²/s, T in kelvin. Fitted to kiln drying of red
    /// oak; at 5 to 25 °C it is carried beyond its data.
    Oak,
    /// Any wood, by its oven-dry specific gravity: Siau (1984) Eq. 6.22.
    ByGravity(f64),
    /// The same everywhere, m²/s. For checks against closed forms.
    Constant(f64),
}

impl Model {
    /// Returns the equation for a wood.
    ///
    /// # Errors
    /// A wood whose gravity is not known.
    pub fn of(species: &'static Species) -> Result<Self, Fault> {
        if species.ring_porous_oak {
            return Ok(Model::Oak);
        }
        let gravity = species.gravity_oven_dry();
        let gravity = gravity.ok_or(Fault::NotKnown { species: species.common, what: "specific gravity" })?;
        Ok(Model::ByGravity(gravity.value))
    }

    /// Returns the diffusivity across the grain, m²/s.
    pub fn at(&self, mc_percent: f64, temp_c: f64) -> f64 {
        match *self {
            Model::Oak => 19.2e-4 * (-5280.0 / (temp_c + 273.15)).exp() * (1.15 * mc_percent / 100.0).exp(),
            Model::ByGravity(gravity) => transverse(gravity, mc_percent, temp_c),
            Model::Constant(d) => d,
        }
    }
}

/// Siau (1984) Eq. 6.22, m²/s: bound water through cell walls and vapour through cavities, from the oven-dry gravity.
/// Cell-wall gravity 1.54, gas constant in calories, lengths in centimetres as printed.
fn transverse(gravity: f64, mc: f64, temp_c: f64) -> f64 {
    const R: f64 = 1.9872;
    let t = temp_c + 273.15;
    let bound = 0.07 * (-(9200.0 - 70.0 * mc) / (R * t)).exp(); // 6.14
    let air = 0.220 * (t / 273.0).powf(1.75); // 6.15
    let saturated_cm_hg = 8.75e7 * (-10400.0 / (R * t)).exp(); // 1.2
    let wall_gravity = 1.54 / (1.0 + 0.015 * mc); // 6.19
    let vapour = 18.0 * air * saturated_cm_hg * dh_du(mc, temp_c) / (wall_gravity * 6236.37 * t); // 6.18
    let lumen = 1.0 - gravity / 1.54;
    let a = lumen.max(0.01).sqrt();
    1e-4 * bound * vapour / ((1.0 - lumen) * (bound + vapour * (1.0 - a))) // 6.22
}

/// Slope of relative humidity against moisture (as fractions), Bradley's fit after Simpson (1973) Eqs 22 to 24.
fn dh_du(mc: f64, temp_c: f64) -> f64 {
    let f = 1.8 * temp_c + 32.0;
    let l1: f64 = 0.839 + 0.0000202 * f - 0.00000156 * f * f;
    let l2 = 3.56 + 0.00392 * f - 0.0000445 * f * f;
    let l3 = 0.0219 + 0.0000164 * f;
    let power = l2 * l1.powf(mc);
    -100.0 * power * l1.ln() * (-(power + l3)).exp()
}

/// A diffusivity tabulated over moisture at one temperature, for speed; held at its end value above fibre saturation.
#[derive(Clone, Debug)]
pub struct Tabulated {
    step_percent: f64,
    values: Vec<f64>,
}

impl Tabulated {
    /// Tabulates a model from 0 to fibre saturation, times a factor.
    pub fn new(model: Model, temp_c: f64, fibre_saturation_percent: f64, factor: f64) -> Self {
        let mut table = Self { step_percent: fibre_saturation_percent / 60.0, values: Vec::with_capacity(62) };
        table.refill(model, temp_c, factor);
        table
    }

    /// Fills the table anew for another temperature.
    pub fn refill(&mut self, model: Model, temp_c: f64, factor: f64) {
        self.values.clear();
        let step = self.step_percent;
        self.values.extend((0..=60).map(|i| factor * model.at(f64::from(i) * step, temp_c)));
    }

    /// Returns the diffusivity at a moisture, m²/s.
    #[inline]
    pub fn at(&self, mc_percent: f64) -> f64 {
        let place = (mc_percent / self.step_percent).clamp(0.0, 59.999_999);
        let i = place as usize;
        let share = place - i as f64;
        self.values[i] + (self.values[i + 1] - self.values[i]) * share.min(1.0)
    }
}
