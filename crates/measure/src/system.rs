//! The two systems in which a quantity can be shown.

/// The system in which a quantity is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum System {
    /// Millimetres and metres, kilograms, degrees Celsius, cubic metres and litres.
    #[default]
    Metric,
    /// Feet, inches and sixteenths, pounds, degrees Fahrenheit, board feet (United States customary units; feet,
    /// inches and pounds are the same in imperial units).
    Customary,
}
