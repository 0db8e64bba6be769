//! A plausible hull from what can be measured in an hour, where no lines exist.
//!
//! The height datum is the load waterline (0, heights up), the distance datum the foremost point of the stem. What was
//! not measured is assumed and said; the fit to what was measured is shown. Lengths and areas taken from such a hull
//! carry at least the error of the fit.

use crate::{
    Deviation, Edge, Fairing, HullError, Lines, Section, Stern, Surface,
    girth::Girth,
    spline::{Cubic, Ends, Monotone, solve},
};

/// What was measured at one place along the boat. Everything but the place may be left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MeasuredSection {
    /// Distance abaft the foremost point of the stem, in metres.
    pub from_stem_m: f64,
    /// Girth from rabbet to sheer, one side, in metres.
    pub girth_m: Option<f64>,
    /// Half-breadth at the waterline, in metres.
    pub waterline_half_breadth_m: Option<f64>,
    /// Half-breadth at the sheer, in metres.
    pub sheer_half_breadth_m: Option<f64>,
    /// Height of the sheer above the waterline, in metres.
    pub freeboard_m: Option<f64>,
    /// Depth of the rabbet below the waterline, in metres.
    pub rabbet_depth_m: Option<f64>,
}

/// What a surveyor can measure in an hour.
#[derive(Clone, Debug, PartialEq)]
pub struct Particulars {
    /// Length over the planking, in metres.
    pub length_m: f64,
    /// Length on the waterline, in metres.
    pub waterline_length_m: f64,
    /// Greatest beam, in metres.
    pub beam_m: f64,
    /// Depth of the rabbet below the waterline at its lowest, in metres (not the draft of keel or ballast).
    pub rabbet_draft_m: f64,
    /// Freeboard at stem, at its least, and at the stern, in metres.
    pub freeboards_m: [f64; 3],
    /// What stands at the after end.
    pub stern: Stern,
    /// Half-breadth of the transom or archboard at the sheer, in metres; 0 for a double-ender.
    pub transom_half_breadth_m: f64,
    /// Profile of the stem's rabbet, (abaft the stem, height), from below up, when taken.
    pub stem: Vec<(f64, f64)>,
    /// Profile of the sternpost or of the transom's middle line, from below up, when taken.
    pub stern_profile: Vec<(f64, f64)>,
    /// What was measured along the boat.
    pub sections: Vec<MeasuredSection>,
}

/// A hull fitted to measurements.
#[derive(Clone, Debug)]
pub struct FittedHull {
    /// Its lines.
    pub lines: Lines,
    /// Its surface. Heights are above the load waterline.
    pub surface: Surface,
    /// How far the fitted hull is from each measurement: station `7.35 m`, and the difference in millimetres, fitted
    /// less measured. Heights in this list are not used.
    pub residuals: Vec<(String, f64)>,
    /// How far the surface runs from the fitted sections themselves.
    pub deviations: Vec<Deviation>,
    /// What was assumed, in sentences.
    pub assumed: Vec<String>,
    /// What looks odd, in sentences.
    pub warnings: Vec<String>,
}

/// Fits a hull.
///
/// Sections: y = s + (b - s)[1 - (1 - t)^p]^(1/q) with t the share of the height from rabbet to sheer; p and q from
/// girth and half-breadth at the waterline by damped least squares; between stations with a girth, p runs fair.
///
/// # Errors
/// Refuses particulars that no boat has: beam not less than length, waterline longer than the hull, measures not above
/// 0, sections beyond the ends.
pub fn fit(particulars: &Particulars) -> Result<FittedHull, HullError> {
    check(particulars)?;
    let p = particulars;
    let mut assumed = Vec::new();
    let mut warnings = Vec::new();
    let curves = Curves::new(p, &mut assumed)?;
    let mut stations: Vec<f64> = (1..12).map(|i| p.length_m * f64::from(i) / 12.0).collect();
    for s in &p.sections {
        stations.retain(|x| (x - s.from_stem_m).abs() > 0.03 * p.length_m);
        stations.push(s.from_stem_m);
    }
    stations.sort_by(f64::total_cmp);
    stations.retain(|x| curves.depth_at(*x) > 0.12 * p.freeboards_m[1]);

    let fullness = fullness(p, &curves, &mut assumed);
    let mut sections = Vec::new();
    for x in &stations {
        let shape = curves.section(*x);
        let power = fullness.as_ref().map_or(USUAL_P, |f| f.at(*x));
        let q = shape.q_for_waterline(power);
        sections.push(Section { name: format!("{x:.2} m"), x_m: *x, points: shape.points(power, q) });
    }
    let lines =
        Lines { sections, bow: Some(curves.bow.clone()), stern: Some(curves.stern.clone()), stern_kind: p.stern };
    let surface = Surface::through(&lines, Fairing::default())?;
    let residuals = residuals(p, &surface);
    let deviations = crate::deviations(&surface, &lines);
    if let Ok(h) = surface.hydrostatics(0.0) {
        // Usual ranges of sailing hulls without their keels (from memory): to warn by, not to judge by.
        if !(0.48..=0.62).contains(&h.cp) {
            warnings.push(format!("The prismatic coefficient of the fitted hull is {:.2}; 0.50 to 0.58 is usual for sailing hulls (from memory).", h.cp));
        }
        let miss = (h.waterline_length_m - p.waterline_length_m) * 1000.0;
        if miss.abs() > 20.0 {
            warnings.push(format!("The fitted hull's waterline is {miss:+.0} mm off the length given; stem, stern and freeboards do not agree with it."));
        }
    }
    if let Some(worst) = residuals.iter().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
        && worst.1.abs() > 30.0
    {
        warnings.push(format!(
            "The fit misses {} by {:+.0} mm; look at that measurement, or measure her neighbours.",
            worst.0, worst.1
        ));
    }
    Ok(FittedHull { lines, surface, residuals, deviations, assumed, warnings })
}

fn check(p: &Particulars) -> Result<(), HullError> {
    let above = |what: &str, v: f64| {
        if v > 0.0 && v.is_finite() { Ok(()) } else { Err(HullError::value(what, v, "more than 0 m")) }
    };
    above("The length in metres", p.length_m)?;
    above("The waterline's length in metres", p.waterline_length_m)?;
    above("The beam in metres", p.beam_m)?;
    above("The rabbet's draft in metres", p.rabbet_draft_m)?;
    for (name, f) in
        ["The freeboard at the stem", "The least freeboard", "The freeboard at the stern"].iter().zip(p.freeboards_m)
    {
        above(&format!("{name} in metres"), f)?;
    }
    if p.beam_m >= p.length_m {
        return Err(HullError::value(
            "The beam in metres",
            p.beam_m,
            format!("less than the length of {} m", p.length_m),
        ));
    }
    if p.waterline_length_m > p.length_m {
        let accepted = format!("at most the length over all, {} m", p.length_m);
        return Err(HullError::value("The waterline's length in metres", p.waterline_length_m, accepted));
    }
    if p.rabbet_draft_m > 1.5 * p.beam_m {
        let accepted = format!("at most one and a half times the beam of {} m, measured to the rabbet", p.beam_m);
        return Err(HullError::value("The rabbet's draft in metres", p.rabbet_draft_m, accepted));
    }
    if !(0.0..=0.5 * p.beam_m + 1e-9).contains(&p.transom_half_breadth_m) {
        return Err(HullError::value(
            "The transom's half-breadth in metres",
            p.transom_half_breadth_m,
            "0 to half the beam",
        ));
    }
    for (i, s) in p.sections.iter().enumerate() {
        let place = format!("Measured section {}, {} m abaft the stem", i + 1, s.from_stem_m);
        if !(s.from_stem_m > 0.02 * p.length_m && s.from_stem_m < 0.98 * p.length_m) {
            return Err(HullError::Place {
                place,
                why: "it lies at or beyond the ends; accepted are places between them".into(),
            });
        }
        for v in [s.girth_m, s.waterline_half_breadth_m, s.sheer_half_breadth_m, s.freeboard_m].into_iter().flatten() {
            above(&place, v)?;
        }
        for y in [s.waterline_half_breadth_m, s.sheer_half_breadth_m].into_iter().flatten() {
            if y > 0.55 * p.beam_m {
                return Err(HullError::Place {
                    place,
                    why: format!("half-breadth {y} m is more than half the beam of {} m", p.beam_m),
                });
            }
        }
    }
    Ok(())
}

/// The long curves: rabbet, sheer in plan and profile, waterline in plan, and both end edges.
struct Curves {
    rabbet: Cubic,
    sheer_z: Monotonish,
    sheer_y: Monotonish,
    water_y: Monotonish,
    water_ends: (f64, f64),
    siding: f64,
    bow: Edge,
    stern: Edge,
}

/// A curve of the kind assumed, bent by factors so that it meets what was measured.
struct Monotonish {
    base: Box<dyn Fn(f64) -> f64>,
    factor: Option<Monotone>,
}

impl Monotonish {
    fn at(&self, x: f64) -> f64 {
        (self.base)(x) * self.factor.as_ref().map_or(1.0, |f| f.at(x))
    }
}

impl Curves {
    fn new(p: &Particulars, assumed: &mut Vec<String>) -> Result<Curves, HullError> {
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
    fn depth_at(&self, x: f64) -> f64 {
        self.sheer_z.at(x) - self.foot(x)
    }

    fn foot(&self, x: f64) -> f64 {
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

    fn section(&self, x: f64) -> Shape {
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
    fn stem_at_waterline(&self) -> Option<f64> {
        self.stem.windows(2).find(|w| (w[0].1 < 0.0) != (w[1].1 < 0.0)).map(|w| {
            let share = -w[0].1 / (w[1].1 - w[0].1);
            w[0].0 + share * (w[1].0 - w[0].0)
        })
    }
}

/// The after edge: the profile with half-breadths that grow from the siding to the transom's at the sheer.
fn stern_edge(profile: &[(f64, f64)], breadth: f64, siding: f64) -> Vec<[f64; 3]> {
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
fn bent(base: Box<dyn Fn(f64) -> f64>, mut measured: Vec<(f64, f64)>, length: f64) -> Monotonish {
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

/// One section of the family.
struct Shape {
    siding: f64,
    b: f64,
    foot: f64,
    depth: f64,
    waterline: Option<f64>,
}

const USUAL_P: f64 = 2.1;
const USUAL_Q: f64 = 1.3;

impl Shape {
    fn y(&self, t: f64, p: f64, q: f64) -> f64 {
        self.siding + (self.b - self.siding) * libm::pow(1.0 - libm::pow((1.0 - t).max(0.0), p), 1.0 / q)
    }

    fn points(&self, p: f64, q: f64) -> Vec<(f64, f64)> {
        // Closer at the foot, where the section turns fastest.
        (0..=16)
            .map(|i| {
                let t = libm::pow(f64::from(i) / 16.0, 1.6);
                (self.y(t, p, q), self.foot + self.depth * t)
            })
            .collect()
    }

    fn girth(&self, p: f64, q: f64) -> f64 {
        let points: Vec<[f64; 2]> = self.points(p, q).iter().map(|p| [p.0, p.1]).collect();
        Girth::through(&points).map_or(0.0, |g| g.length())
    }

    /// The q at which the section passes through the waterline's half-breadth.
    fn q_for_waterline(&self, p: f64) -> f64 {
        let Some(y) = self.waterline else { return USUAL_Q };
        let t = -self.foot / self.depth;
        let share = ((y - self.siding) / (self.b - self.siding)).clamp(0.02, 0.999);
        let full = 1.0 - libm::pow(1.0 - t.clamp(0.01, 0.99), p);
        // share = full^(1/q)
        (libm::log(full) / libm::log(share)).clamp(0.5, 6.0)
    }
}

/// The power p along the boat: from the girths measured, fair between.
fn fullness(p: &Particulars, curves: &Curves, assumed: &mut Vec<String>) -> Option<Monotone> {
    let mut known: Vec<(f64, f64)> = Vec::new();
    for s in &p.sections {
        let Some(girth) = s.girth_m else { continue };
        let shape = curves.section(s.from_stem_m);
        known.push((s.from_stem_m, solve_p(&shape, girth)));
    }
    known.sort_by(|a, b| a.0.total_cmp(&b.0));
    known.dedup_by(|a, b| (a.0 - b.0).abs() < 1e-6);
    match known.len() {
        0 => assumed.push(
            "No girth was measured: usual fullness was assumed for the whole boat, and areas may be a tenth out."
                .to_owned(),
        ),
        1 => assumed.push(format!(
            "One girth only, {:.2} m abaft the stem: its fullness was taken for the whole boat.",
            known[0].0
        )),
        _ => {}
    }
    if p.sections.iter().all(|s| s.waterline_half_breadth_m.is_none()) {
        assumed.push("No half-breadth was measured at the waterline: 0.94 of half the beam amidships and a usual plan were assumed.".to_owned());
    }
    if known.is_empty() {
        known.push((0.5 * p.length_m, USUAL_P));
    }
    let (x, values): (Vec<f64>, Vec<f64>) = known.into_iter().unzip();
    Monotone::through(&x, &values)
}

/// The p at which the girth is met, q following the waterline: damped Newton on ln p, held by a weak pull to the usual.
fn solve_p(shape: &Shape, girth: f64) -> f64 {
    let scale = 0.004 * girth;
    let mut e = libm::log(USUAL_P);
    let misfit = |e: f64| {
        let p = libm::exp(e);
        ((shape.girth(p, shape.q_for_waterline(p)) - girth) / scale, (e - libm::log(USUAL_P)) / 1.5)
    };
    let cost = |e: f64| {
        let (a, b) = misfit(e);
        a * a + b * b
    };
    let mut damping = 1e-3;
    for _ in 0..60 {
        let (a, b) = misfit(e);
        let h = 1e-5;
        let (a2, b2) = misfit(e + h);
        let (ja, jb) = ((a2 - a) / h, (b2 - b) / h);
        let normal = vec![vec![(ja * ja + jb * jb) * (1.0 + damping)]];
        let Some(step) = solve(normal, vec![-(ja * a + jb * b)]) else { break };
        let next = (e + step[0]).clamp(libm::log(0.6), libm::log(9.0));
        if cost(next) < cost(e) {
            damping *= 0.3;
            let done = (next - e).abs() < 1e-10;
            e = next;
            if done {
                break;
            }
        } else {
            damping *= 8.0;
            if damping > 1e9 {
                break;
            }
        }
    }
    libm::exp(e)
}

fn residuals(p: &Particulars, surface: &Surface) -> Vec<(String, f64)> {
    let mut all = Vec::new();
    for s in &p.sections {
        let x = s.from_stem_m;
        let Some((low, high)) = surface.section_range(x) else { continue };
        let steps = 200;
        let points: Vec<[f64; 2]> = (0..=steps)
            .map(|i| {
                let (q, _) = surface.on_section(x, low + (high - low) * f64::from(i) / f64::from(steps));
                [q.y_m, q.z_m]
            })
            .collect();
        if let (Some(girth), Ok(curve)) = (s.girth_m, Girth::through(&points)) {
            all.push((format!("girth {x:.2} m abaft the stem"), (curve.length() - girth) * 1000.0));
        }
        if let Some(y) = s.waterline_half_breadth_m
            && let Some(w) = points.windows(2).find(|w| w[0][1] < 0.0 && w[1][1] >= 0.0)
        {
            let share = -w[0][1] / (w[1][1] - w[0][1]);
            let fitted = w[0][0] + share * (w[1][0] - w[0][0]);
            all.push((format!("waterline half-breadth {x:.2} m abaft the stem"), (fitted - y) * 1000.0));
        }
        let top = points[points.len() - 1];
        if let Some(y) = s.sheer_half_breadth_m {
            all.push((format!("sheer half-breadth {x:.2} m abaft the stem"), (top[0] - y) * 1000.0));
        }
        if let Some(z) = s.freeboard_m {
            all.push((format!("freeboard {x:.2} m abaft the stem"), (top[1] - z) * 1000.0));
        }
        if let Some(d) = s.rabbet_depth_m {
            all.push((format!("rabbet depth {x:.2} m abaft the stem"), (-points[0][1] - d) * 1000.0));
        }
    }
    all
}
