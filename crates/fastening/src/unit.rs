//! Units of the sources, whose coefficients are kept as printed.

/// Newtons in a pound-force, exact by definition of the pound and of standard gravity.
pub(crate) const LBF_N: f64 = 4.448_221_615_260_5;
/// Millimetres in an inch, exact.
pub(crate) const IN_MM: f64 = 25.4;
/// N/mm² in a pound-force per square inch.
pub(crate) const PSI_MPA: f64 = LBF_N / (IN_MM * IN_MM);
/// N/mm in a pound-force per inch.
pub(crate) const LBF_IN_N_MM: f64 = LBF_N / IN_MM;
/// Standard gravity, m/s², exact.
pub(crate) const GRAVITY_M_S2: f64 = 9.806_65;
