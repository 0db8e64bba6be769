//! Trenails.

/// A wooden pin, usually of locust or oak and wedged at both ends (common practice, no source).
///
/// No published holding power was found, so none is reckoned: it is sounded, looked at and bored out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trenail {
    /// Diameter in mm.
    pub diameter_mm: f64,
    /// Length in mm.
    pub length_mm: f64,
    /// Whether wedges are seen at both ends.
    pub wedged: bool,
}
