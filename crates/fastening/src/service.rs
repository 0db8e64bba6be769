//! Adjustments of handbook values for duration, wetness and the wood's condition.

use crate::Fault;

/// How long the load acts: factor C_D of the National Design Specification (2018) Table 2.3.2.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Duration {
    /// More than ten years: 0.9. A sprung plank.
    Permanent,
    /// Ten years: 1.0.
    TenYears,
    /// Two months: 1.15.
    TwoMonths,
    /// Seven days: 1.25.
    SevenDays,
    /// Ten minutes: 1.6.
    TenMinutes,
}

impl Duration {
    /// Returns C_D.
    pub fn factor(self) -> f64 {
        match self {
            Duration::Permanent => 0.9,
            Duration::TenYears => 1.0,
            Duration::TwoMonths => 1.15,
            Duration::SevenDays => 1.25,
            Duration::TenMinutes => 1.6,
        }
    }
}

/// Wet-service factor C_M for screws, lag screws, heads and lateral dowels. From memory of the National Design
/// Specification Table 11.3.3; moisture tests on European hardwoods (2.4 % a percent) give 0.62 to 0.68.
pub const WET_SCREW: f64 = 0.7;

/// Wet-service factor C_M for the withdrawal of smooth nails where the wood is wetted and dried by turns. From
/// memory of the same table; the quarter is also read in an engineers' letter that quotes the 2001 edition.
pub const WET_NAIL: f64 = 0.25;

/// What a handbook value is multiplied by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Service {
    /// How long the load acts.
    pub duration: Duration,
    /// Whether the wood is wet in service. A planked hull is.
    pub wet: bool,
    /// The wood's condition in the thread or under the head, 0 to 1: 1 is sound. Not published: the surveyor
    /// sets it from probe and sounding. Wood softened by iron or alkali is the wood in the thread, not the
    /// frame's average.
    pub wood_factor: f64,
}

impl Default for Service {
    /// A sprung plank in a wet hull, wood sound.
    fn default() -> Self {
        Self { duration: Duration::Permanent, wet: true, wood_factor: 1.0 }
    }
}

impl Service {
    /// Returns the product for screws, lag screws, heads and lateral load.
    ///
    /// # Errors
    /// When the wood factor is not from 0 to 1.
    pub fn factor(&self) -> Result<f64, Fault> {
        self.with_wet(WET_SCREW)
    }

    /// Returns the product for the withdrawal of smooth nails.
    ///
    /// # Errors
    /// When the wood factor is not from 0 to 1.
    pub fn nail_factor(&self) -> Result<f64, Fault> {
        self.with_wet(WET_NAIL)
    }

    fn with_wet(&self, wet: f64) -> Result<f64, Fault> {
        let wood = Fault::between("wood_factor", self.wood_factor, 0.0, 1.0)?;
        Ok(self.duration.factor() * if self.wet { wet } else { 1.0 } * wood)
    }
}
