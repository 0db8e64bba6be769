//! The long curves of a fitted hull, assumed and bent to what was measured.

use super::{MeasuredSection, Particulars, section::Shape};
use crate::{
    Edge, HullError, Stern,
    spline::{Cubic, Ends, Monotone},
};

/// The long curves: rabbet, sheer in plan and profile, waterline in plan, and both end edges.
pub(super) struct Curves {
    rabbet: Cubic,
    sheer_z: Monotonish,
    sheer_y: Monotonish,
    water_y: Monotonish,
    water_ends: (f64, f64),
    siding: f64,
    pub(super) bow: Edge,
    pub(super) stern: Edge,
}

/// A curve of the kind assumed, bent by factors so that it meets what was measured.
pub(super) struct Monotonish {
    base: Box<dyn Fn(f64) -> f64>,
    factor: Option<Monotone>,
}

impl Monotonish {
    pub(super) fn at(&self, x: f64) -> f64 {
        (self.base)(x) * self.factor.as_ref().map_or(1.0, |f| f.at(x))
    }
}

impl Curves {
    pub(super) fn new(p: &Particulars, assumed: &mut Vec<String>) -> Result<Curves, HullError> {
        let (l, half) = (p.length_m, 0.5 * p.beam_m);
        let overhang = l - p.waterline_length_m;
        let fore_share = match p.stern {
            Stern::Counter => 0.4,
            Stern::Transom => 0.65,
            Stern::DoubleEnded | Stern::Unsaid => 0.5,
        };
        let wl_fore = p.stem_at_waterline().unwrap_or(overhang * fore_share);
        let wl_aft = wl_fore + p.waterline_length_m;
        let siding = 0.007 * l.min(14.0);
        let [bow_f, least_f, stern_f] = p.freeboards_m;
        let d = p.rabbet_draft_m;

        let stem = if p.stem.len() >= 2 {
            p.stem.clone()
        } else {
            assumed.push("The stem's profile was not taken: a fair curve from forefoot through the waterline to the stem head was assumed.".to_owned());
            let forefoot = wl_fore + 0.12 * p.waterline_length_m;
            vec![
                (forefoot, -0.62 * d),
                (wl_fore + 0.045 * p.waterline_length_m, -0.30 * d),
                (wl_fore, 0.0),
                (0.35 * wl_fore, 0.5 * bow_f),
                (0.0, bow_f),
            ]
        };
        let stern_line = if p.stern_profile.len() >= 2 {
            p.stern_profile.clone()
        } else {
            match p.stern {
                Stern::Counter => {
                    assumed.push("The counter's profile was not taken: the rabbet rises from the waterline's after end to an archboard at seven tenths of the after freeboard.".to_owned());
                    vec![(l - 0.02 * l, 0.7 * stern_f), (l, stern_f)]
                }
                Stern::Transom => {
                    assumed.push("The transom's rake was not taken: from the waterline's after end to the after end of the sheer.".to_owned());
                    vec![(wl_aft.min(l - 0.01 * l), -0.02 * d), (l, stern_f)]
                }
                Stern::DoubleEnded | Stern::Unsaid => {
                    assumed
                        .push("The sternpost's profile was not taken: a raked straight post was assumed.".to_owned());
                    vec![(wl_aft - 0.05 * p.waterline_length_m, -0.75 * d), (wl_aft, 0.0), (l, stern_f)]
                }
            }
        };
        let breadth = p.transom_half_breadth_m;
        let bow = Edge { points: stem.iter().map(|(x, z)| [*x, siding, *z]).collect() };
        let stern = Edge { points: stern_edge(&stern_line, breadth, siding) };

        let (fx, fz) = stem[0];
        let (ax, az) = stern_line[0];
        let low_x = wl_fore + 0.55 * p.waterline_length_m;
        let mut rabbet_points = vec![(fx, fz), (low_x, -d)];
        match p.stern {
            Stern::Counter => {
                rabbet_points.extend([(wl_aft - 0.12 * p.waterline_length_m, -0.42 * d), (wl_aft, -0.02 * d)])
            }
            Stern::Transom => rabbet_points.push((wl_aft - 0.22 * p.waterline_length_m, -0.72 * d + 0.1 * az)),
            _ => rabbet_points.push((0.5 * (low_x + ax), -0.93 * d)),
        }
        rabbet_points.push((ax, az));
        for s in &p.sections {
            if let Some(depth) = s.rabbet_depth_m {
                rabbet_points.retain(|r| (r.0 - s.from_stem_m).abs() > 0.06 * l);
                rabbet_points.push((s.from_stem_m, -depth));
            }
        }
        if p.sections.iter().all(|s| s.rabbet_depth_m.is_none()) {
            assumed.push("The rabbet's height along the keel was not taken: lowest a little abaft the middle, rising fair to the ends.".to_owned());
        }
        rabbet_points.sort_by(|a, b| a.0.total_cmp(&b.0));
        rabbet_points.dedup_by(|a, b| (a.0 - b.0).abs() < 0.01 * l);
        let (rx, rz): (Vec<f64>, Vec<f64>) = rabbet_points.into_iter().unzip();
        let rabbet = Cubic::through(&rx, &rz, Ends::Natural)?;

        let least_x = 0.62 * l;
        let sheer = move |x: f64| {
            let (span, rise) = if x < least_x { (least_x, bow_f - least_f) } else { (l - least_x, stern_f - least_f) };
            least_f + rise * ((x - least_x) / span).powi(2)
        };
        let end = if breadth > 0.0 { breadth } else { siding };
        let wide_x = 0.54 * l;
        let plan = move |x: f64| {
            if x < wide_x {
                siding + (half - siding) * (1.0 - libm::pow((wide_x - x) / (wide_x), 2.1))
            } else {
                half - (half - end) * libm::pow((x - wide_x) / (l - wide_x), 2.2)
            }
        };
        let middle = wl_fore + 0.53 * p.waterline_length_m;
        let tail = if p.stern == Stern::Transom { (0.55 * breadth).max(siding) } else { siding };
        let water = move |x: f64| {
            let top = 0.94 * half;
            if x < middle {
                let t = ((middle - x) / (middle - wl_fore)).clamp(0.0, 1.0);
                siding + (top - siding) * (1.0 - libm::pow(t, 1.85))
            } else {
                let t = ((x - middle) / (wl_aft - middle)).clamp(0.0, 1.0);
                top - (top - tail) * libm::pow(t, 2.1)
            }
        };
        let list = |f: &dyn Fn(&MeasuredSection) -> Option<f64>| -> Vec<(f64, f64)> {
            p.sections.iter().filter_map(|s| f(s).map(|v| (s.from_stem_m, v))).collect()
        };
        Ok(Curves {
            rabbet,
            sheer_z: bent(Box::new(sheer), list(&|s| s.freeboard_m), l),
            sheer_y: bent(Box::new(plan), list(&|s| s.sheer_half_breadth_m), l),
            water_y: bent(Box::new(water), list(&|s| s.waterline_half_breadth_m), l),
            water_ends: (wl_fore, wl_aft),
            siding,
            bow,
            stern,
        })
    }

    /// Height from rabbet (or stem, or stern) to sheer.
    pub(super) fn depth_at(&self, x: f64) -> f64 {
        self.sheer_z.at(x) - self.foot(x)
    }

    pub(super) fn foot(&self, x: f64) -> f64 {
        let (fore, aft) = (self.bow.points[0][0], self.stern.points[0][0]);
        let on = |edge: &Edge| {
            let mut points: Vec<[f64; 3]> = edge.points.clone();
            points.sort_by(|a, b| a[0].total_cmp(&b[0]));
            let i = points.partition_point(|p| p[0] < x).clamp(1, points.len() - 1);
            let (a, b) = (points[i - 1], points[i]);
            a[2] + (b[2] - a[2]) * if b[0] > a[0] { (x - a[0]) / (b[0] - a[0]) } else { 0.0 }
        };
        if x < fore {
            on(&self.bow)
        } else if x > aft {
            on(&self.stern)
        } else {
            self.rabbet.at(x)
        }
    }

    pub(super) fn section(&self, x: f64) -> Shape {
        let foot = self.foot(x);
        let (fore, aft) = self.water_ends;
        let wet = x > fore && x < aft && foot < -0.02;
        let b = self.sheer_y.at(x).max(1.05 * self.siding);
        Shape {
            siding: self.siding,
            b,
            foot,
            depth: (self.sheer_z.at(x) - foot).max(0.01),
            // Tumblehome is beyond this family: the waterline is kept inside the sheer.
            waterline: wet.then(|| self.water_y.at(x).min(0.985 * b)),
        }
    }
}

impl Particulars {
    /// Where the stem profile meets the waterline, when it was taken.
    pub(super) fn stem_at_waterline(&self) -> Option<f64> {
        self.stem.windows(2).find(|w| (w[0].1 < 0.0) != (w[1].1 < 0.0)).map(|w| {
            let share = -w[0].1 / (w[1].1 - w[0].1);
            w[0].0 + share * (w[1].0 - w[0].0)
        })
    }
}

/// The after edge: the profile with half-breadths that grow from the siding to the transom's at the sheer.
pub(super) fn stern_edge(profile: &[(f64, f64)], breadth: f64, siding: f64) -> Vec<[f64; 3]> {
    let (Some(first), Some(last)) = (profile.first(), profile.last()) else { return Vec::new() };
    if breadth <= siding {
        return profile.iter().map(|(x, z)| [*x, siding, *z]).collect();
    }
    let height = (last.1 - first.1).max(1e-6);
    (0..=8)
        .map(|i| {
            let t = f64::from(i) / 8.0;
            let z = first.1 + height * t;
            let k = profile.partition_point(|p| p.1 < z).clamp(1, profile.len() - 1);
            let (a, b) = (profile[k - 1], profile[k]);
            let x = a.0 + (b.0 - a.0) * if b.1 > a.1 { ((z - a.1) / (b.1 - a.1)).clamp(0.0, 1.0) } else { 0.0 };
            [x, siding + (breadth - siding) * libm::pow(1.0 - libm::pow(1.0 - t, 2.0), 1.0 / 1.3), z]
        })
        .collect()
}

/// Bends an assumed curve so that it meets what was measured; the ends stay.
pub(super) fn bent(base: Box<dyn Fn(f64) -> f64>, mut measured: Vec<(f64, f64)>, length: f64) -> Monotonish {
    measured.sort_by(|a, b| a.0.total_cmp(&b.0));
    measured.dedup_by(|a, b| (a.0 - b.0).abs() < 1e-6);
    if measured.is_empty() {
        return Monotonish { base, factor: None };
    }
    let mut x = vec![0.0];
    let mut f = vec![1.0];
    for (at, value) in &measured {
        x.push(*at);
        f.push(value / base(*at).max(1e-6));
    }
    x.push(length);
    f.push(1.0);
    let factor = Monotone::through(&x, &f);
    Monotonish { base, factor }
}
