//! The features by which blows are compared: each so scaled that a difference means the same for a low note and a high one.

use crate::describe::Description;

/// Number of features.
pub const COUNT: usize = 28;

/// Names of the features, with the words for more and for less of each.
pub const NAMES: [(&str, &str, &str); COUNT] = [
    ("ln_centroid", "brighter", "duller in tone"),
    ("ln_bandwidth", "wider in tone", "narrower in tone"),
    ("ln_rolloff", "more top", "less top"),
    ("ln_flatness", "less of a note", "more of a note"),
    ("band_150_db", "more between 150 and 500 Hz", "less between 150 and 500 Hz"),
    ("band_500_db", "more between 500 and 1000 Hz", "less between 500 and 1000 Hz"),
    ("band_1000_db", "more between 1 and 2 kHz", "less between 1 and 2 kHz"),
    ("band_2000_db", "more between 2 and 4 kHz", "less between 2 and 4 kHz"),
    ("band_4000_db", "more between 4 and 8 kHz", "less between 4 and 8 kHz"),
    ("ln_time_centroid", "longer drawn out", "over sooner"),
    ("ln_attack", "slower to rise", "quicker to rise"),
    ("crest_db", "more peaked", "less peaked"),
    ("ln_kurtosis", "more of its energy in a moment", "less of its energy in a moment"),
    ("ln_crossings", "rougher", "smoother"),
    ("ln_decay", "longer ring", "shorter ring"),
    ("ln_decay_500", "longer ring about 500 Hz", "shorter ring about 500 Hz"),
    ("ln_decay_1000", "longer ring about 1 kHz", "shorter ring about 1 kHz"),
    ("ln_decay_2000", "longer ring about 2 kHz", "shorter ring about 2 kHz"),
    ("ln_decay_4000", "longer ring about 4 kHz", "shorter ring about 4 kHz"),
    ("ln_dominant", "higher note", "lower note"),
    ("ln_q", "clearer note", "damper note"),
    ("chatter_db", "a rattle after it", "less of a rattle"),
    ("mfcc_1", "more weight below", "more weight above"),
    ("mfcc_2", "more at both ends", "more in the middle"),
    ("mfcc_3", "another colour (3)", "another colour (3)"),
    ("mfcc_4", "another colour (4)", "another colour (4)"),
    ("mfcc_5", "another colour (5)", "another colour (5)"),
    ("mfcc_6", "another colour (6)", "another colour (6)"),
];

/// The features of one blow; what could not be measured is `None` and takes no part.
pub type Features = [Option<f64>; COUNT];

/// Returns the features of a blow. The level takes no part: recorders drift and arms tire.
pub fn features(d: &Description) -> Features {
    let ln = |v: f64, least: f64| Some(libm::log(v.max(least)));
    let ring = |v: Option<f64>| v.map(|v| libm::log(v.clamp(3.0, 600.0)));
    let q = d.modes.first().and_then(|m| m.q).map(|q| libm::log(q.clamp(1.0, 150.0)));
    [
        ln(d.centroid_hz, 50.0),
        ln(d.bandwidth_hz, 50.0),
        ln(d.rolloff_hz, 100.0),
        ln(d.flatness, 1e-4),
        Some(d.bands_db[0].max(-40.0)),
        Some(d.bands_db[1].max(-40.0)),
        Some(d.bands_db[2].max(-40.0)),
        Some(d.bands_db[3].max(-40.0)),
        Some(d.bands_db[4].max(-40.0)),
        ln(d.time_centroid_ms, 0.3),
        ln(d.attack_ms, 0.1),
        Some(d.crest_db),
        ln(d.kurtosis + 3.0, 1.0),
        ln(d.crossings_per_s, 50.0),
        ring(d.decay_ms),
        ring(d.octave_decay_ms[1]),
        ring(d.octave_decay_ms[2]),
        ring(d.octave_decay_ms[3]),
        ring(d.octave_decay_ms[4]),
        ln(d.dominant_hz(), 100.0),
        q,
        Some(d.chatter_db.unwrap_or(-24.0).max(-24.0)),
        Some(d.mfcc[0]),
        Some(d.mfcc[1]),
        Some(d.mfcc[2]),
        Some(d.mfcc[3]),
        Some(d.mfcc[4]),
        Some(d.mfcc[5]),
    ]
}
