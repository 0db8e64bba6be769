//! Forms with exact figures, as lines.

use hull::{Edge, Lines, Section, Stern};

/// The Wigley hull: y = (B/2)(1 - (2x/L)²)(1 - (z/T)²), keel at z = -T, waterline at z = 0, x from 0 to L.
pub fn wigley(length: f64, beam: f64, draft: f64, stations: usize, waterlines: usize) -> Lines {
    let sections = (0..=stations).map(|i| {
        let x = length * i as f64 / stations as f64;
        let xi = 2.0 * x / length - 1.0;
        let points = (0..=waterlines).map(|j| {
            let z = -draft + draft * j as f64 / waterlines as f64;
            (beam / 2.0 * (1.0 - xi * xi) * (1.0 - (z / draft).powi(2)), z)
        });
        Section { name: i.to_string(), x_m: x, points: points.collect() }
    });
    Lines { sections: sections.collect(), bow: None, stern: None, stern_kind: Stern::Unsaid }
}

/// Half of a round body whose radius grows along x from `r0` to `r1`; the keel is below, the top edge level.
pub fn round(length: f64, r0: f64, r1: f64) -> Lines {
    let sections = (0..=8).map(|i| {
        let share = f64::from(i) / 8.0;
        let r = r0 + (r1 - r0) * share;
        let points = (0..=48).map(|j| {
            let angle = std::f64::consts::FRAC_PI_2 * f64::from(j) / 48.0;
            (r * angle.sin(), -r * angle.cos())
        });
        Section { name: i.to_string(), x_m: length * share, points: points.collect() }
    });
    Lines { sections: sections.collect(), bow: None, stern: None, stern_kind: Stern::Unsaid }
}

/// The Series 60 parent of block coefficient 0.60 from the committed table (F. H. Todd, Series 60, DTMB Report 1712,
/// 1963), scaled to a length, L/B 7.5 and B/T 2.5 (from memory; the coefficients do not depend on them).
pub fn series60(length: f64) -> Lines {
    let (beam, draft) = (length / 7.5, length / 7.5 / 2.5);
    let text = include_str!("../data/series60-cb060-offsets.csv");
    let rows: Vec<Vec<&str>> = text.lines().skip(1).map(|l| l.split(',').collect()).collect();
    let heights: Vec<f64> = rows[0][1..9].iter().map(|h| h.trim_start_matches("wl_").parse().unwrap()).collect();
    let greatest = rows.iter().find(|r| r[0] == "max_half_beam_ratio").unwrap();
    let sections = rows[1..].iter().filter(|r| r[0] != "max_half_beam_ratio").map(|row| {
        let station: f64 = row[0].parse().unwrap();
        let points = (0..8).map(|j| {
            let share: f64 = row[j + 1].parse::<f64>().unwrap() * greatest[j + 1].parse::<f64>().unwrap();
            (share * beam / 2.0, heights[j] * draft)
        });
        Section { name: row[0].to_owned(), x_m: length * station / 20.0, points: points.collect() }
    });
    Lines { sections: sections.collect(), bow: None, stern: None, stern_kind: Stern::Unsaid }
}

/// An invented small cutter: raked stem, raked transom of some breadth, hollow garboards.
pub fn cutter() -> Lines {
    let stations = [
        ("1", 1.0, 0.42, 0.0, 0.62, 1.62),
        ("2", 2.0, 0.24, 0.05, 1.02, 1.50),
        ("3", 3.2, 0.16, 0.05, 1.28, 1.42),
        ("4", 4.4, 0.15, 0.05, 1.35, 1.37),
        ("5", 5.6, 0.19, 0.05, 1.27, 1.36),
        ("6", 6.6, 0.30, 0.05, 1.08, 1.39),
    ];
    let sections = stations.map(|(name, x, keel, siding, half, sheer)| {
        let points = (0..=8).map(|j| {
            let t = f64::from(j) / 8.0;
            let y = siding + (half - siding) * (1.0 - (1.0 - t).powf(2.2)).powf(1.0 / 1.25);
            (y, keel + (sheer - keel) * t)
        });
        Section { name: name.to_owned(), x_m: x, points: points.collect() }
    });
    let bow = [[1.15, 0.03, 0.40], [0.75, 0.03, 0.62], [0.35, 0.03, 0.98], [0.10, 0.03, 1.40], [0.0, 0.03, 1.78]];
    let stern = [[7.25, 0.05, 0.55], [7.35, 0.42, 0.72], [7.45, 0.68, 0.95], [7.55, 0.80, 1.20], [7.62, 0.83, 1.45]];
    Lines {
        sections: sections.to_vec(),
        bow: Some(Edge { points: bow.to_vec() }),
        stern: Some(Edge { points: stern.to_vec() }),
        stern_kind: Stern::Transom,
    }
}
