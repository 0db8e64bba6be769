//! Volume, wetted surface, waterplane, centres and form coefficients at a level waterline.

use crate::{
    HullError, Surface,
    spline::{gauss4, points4},
};

/// What the hull displaces at a level waterline. Both sides together; lengths in metres. The surface ends at the
/// rabbet: keel, deadwood, ballast and rudder below it are not in these figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Hydrostatics {
    /// Height of the waterline in the table's own heights.
    pub waterline_m: f64,
    /// Displaced volume, in cubic metres.
    pub volume_m3: f64,
    /// Wetted surface, in square metres, with a flat bottom between the lowest points where there is one.
    pub wetted_surface_m2: f64,
    /// Of that the flat between the lowest points (keel's siding or flat of bottom), in square metres.
    pub bottom_flat_m2: f64,
    /// Area of the waterplane, in square metres.
    pub waterplane_m2: f64,
    /// Centre of buoyancy: distance aft of the table's datum.
    pub lcb_x_m: f64,
    /// Centre of buoyancy above the lowest point of the surface.
    pub kb_m: f64,
    /// Centre of flotation: distance aft of the table's datum.
    pub lcf_x_m: f64,
    /// Transverse metacentre above the centre of buoyancy.
    pub bmt_m: f64,
    /// Longitudinal metacentre above the centre of buoyancy.
    pub bml_m: f64,
    /// Length on the waterline.
    pub waterline_length_m: f64,
    /// Foremost point of the waterline: distance aft of the datum.
    pub waterline_fore_x_m: f64,
    /// Greatest breadth on the waterline.
    pub waterline_beam_m: f64,
    /// Depth of the lowest point below the waterline.
    pub draft_m: f64,
    /// Area of the fullest section below the waterline, both sides, in square metres.
    pub greatest_section_m2: f64,
    /// Where the fullest section stands: distance aft of the datum.
    pub greatest_section_x_m: f64,
    /// Block coefficient, volume / (length × beam × draft).
    pub cb: f64,
    /// Prismatic coefficient, volume / (greatest section × length).
    pub cp: f64,
    /// Coefficient of the fullest section, area / (beam × draft).
    pub cm: f64,
    /// Waterplane coefficient, area / (length × beam).
    pub cw: f64,
    /// Whether the water reaches above the sheer or the top of the table somewhere.
    pub over_sheer: bool,
}

impl Surface {
    /// Reckons the hydrostatics at a waterline by Gauss's rule over the surface, four points a span each way.
    ///
    /// # Errors
    /// Refuses a waterline below the hull.
    pub fn hydrostatics(&self, waterline_m: f64) -> Result<Hydrostatics, HullError> {
        let heights: Vec<(f64, f64)> =
            self.u_breaks().iter().map(|u| (self.at(*u, 0.0).z_m, self.at(*u, 1.0).z_m)).collect();
        let keel_z = heights.iter().map(|h| h.0).fold(f64::MAX, f64::min);
        let top = heights.iter().map(|h| h.1).fold(f64::MIN, f64::max);
        if !waterline_m.is_finite() || waterline_m <= keel_z {
            let accepted = format!("a height above the lowest point, {keel_z:.3} m");
            return Err(HullError::value("The waterline's height in metres", waterline_m, accepted));
        }
        let tolerance = 1e-7 * (top - keel_z).max(1e-6);
        let mut s = Sums::default();
        let v_breaks = self.v_breaks();
        for pair in self.u_panels(waterline_m).windows(2) {
            for (u, w) in points4(pair[0], pair[1]) {
                self.sum_row(u, w, waterline_m, tolerance, &v_breaks, &mut s);
            }
        }
        if s.volume <= 0.0 {
            return Err(HullError::Missing("gives no volume below that waterline".to_owned()));
        }
        for u in [0.0, 1.0] {
            self.sum_row(u, 0.0, waterline_m, tolerance, &v_breaks, &mut s);
        }
        let lcf = if s.plane > 0.0 { s.plane_x / s.plane } else { s.volume_x / s.volume };
        let (length, beam, draft) = (s.aft - s.fore, 2.0 * s.half_beam, waterline_m - keel_z);
        let (section_x, section) = self.fullest_section(waterline_m, s.fore, s.aft);
        let volume = 2.0 * s.volume;
        Ok(Hydrostatics {
            waterline_m,
            volume_m3: volume,
            wetted_surface_m2: 2.0 * (s.skin + s.flat),
            bottom_flat_m2: 2.0 * s.flat,
            waterplane_m2: 2.0 * s.plane,
            lcb_x_m: s.volume_x / s.volume,
            kb_m: s.volume_z / s.volume - keel_z,
            lcf_x_m: lcf,
            bmt_m: s.inertia_t / 3.0 / s.volume,
            bml_m: (s.plane_xx - s.plane * lcf * lcf) / s.volume,
            waterline_length_m: length,
            waterline_fore_x_m: s.fore,
            waterline_beam_m: beam,
            draft_m: draft,
            greatest_section_m2: section,
            greatest_section_x_m: section_x,
            cb: volume / (length * beam * draft),
            cp: volume / (section * length),
            cm: section / (beam * draft),
            cw: 2.0 * s.plane / (length * beam),
            over_sheer: s.over_sheer,
        })
    }

    /// Returns the area of a section below a waterline, both sides, in square metres; 0 off the hull.
    pub fn section_area_m2(&self, x_m: f64, waterline_m: f64) -> f64 {
        let Some((low, high)) = self.section_range(x_m) else { return 0.0 };
        let breaks = within(&self.v_breaks(), low, high);
        let z = |v: f64| self.on_section(x_m, v).0.z_m;
        let mut area = 0.0;
        for (a, b) in below(&breaks, waterline_m, 0.0, z) {
            area += gauss4(a, b, |v| {
                let (p, d) = self.on_section(x_m, v);
                p.y_m * d[1]
            });
        }
        2.0 * area
    }

    /// The distinct knots in u, with those u at which the waterline meets rabbet or sheer.
    fn u_panels(&self, waterline_m: f64) -> Vec<f64> {
        let mut panels = self.u_breaks();
        for v in [0.0, 1.0] {
            let z = |u: f64| self.at(u, v).z_m - waterline_m;
            let fine: Vec<f64> = panels.windows(2).flat_map(|p| [p[0], 0.5 * (p[0] + p[1])]).chain([1.0]).collect();
            for pair in fine.windows(2) {
                if (z(pair[0]) < 0.0) != (z(pair[1]) < 0.0) {
                    panels.push(root(pair[0], pair[1], z));
                }
            }
        }
        panels.sort_by(f64::total_cmp);
        panels.dedup_by(|a, b| (*a - *b).abs() < 1e-12);
        panels
    }

    fn sum_row(&self, u: f64, weight: f64, waterline: f64, tolerance: f64, v_breaks: &[f64], s: &mut Sums) {
        let row = self.row(u);
        let spans = below(v_breaks, waterline, tolerance, |v| row.at(v)[2]);
        for (a, b) in &spans {
            for (v, w) in points4(*a, *b) {
                let (p, du, dv) = row.all(v);
                let w = w * weight;
                let plane = du[0] * dv[2] - dv[0] * du[2];
                s.volume += w * p[1] * plane;
                s.volume_x += w * p[1] * plane * p[0];
                s.volume_z += w * p[1] * plane * p[2];
                let (nx, ny) = (du[1] * dv[2] - du[2] * dv[1], du[0] * dv[1] - du[1] * dv[0]);
                s.skin += w * (nx * nx + plane * plane + ny * ny).sqrt();
            }
        }
        let Some((_, top)) = spans.last().copied() else { return };
        let (p, du, dv) = row.all(top);
        let at_top = top >= 1.0 - 1e-12;
        s.over_sheer |= at_top && p[2] < waterline - tolerance.max(1e-4);
        // Along the waterline dv/du = -z_u / z_v; where the water stands at the table's own top edge, v stays.
        let turn = if at_top || dv[2].abs() < 1e-12 { 0.0 } else { -du[2] / dv[2] };
        let dx = (du[0] + turn * dv[0]) * weight;
        s.plane += p[1] * dx;
        s.plane_x += p[1] * p[0] * dx;
        s.plane_xx += p[1] * p[0] * p[0] * dx;
        s.inertia_t += p[1].powi(3) * dx;
        s.half_beam = s.half_beam.max(p[1]);
        s.fore = s.fore.min(p[0]);
        s.aft = s.aft.max(p[0]);
        if spans.first().is_some_and(|f| f.0 <= 1e-12) {
            let (p, du, _) = row.all(0.0);
            s.flat += p[1].max(0.0) * du[0] * weight;
        }
    }

    fn fullest_section(&self, waterline: f64, fore: f64, aft: f64) -> (f64, f64) {
        let area = |x: f64| self.section_area_m2(x, waterline);
        let steps = 48;
        let at = |i: usize| fore + (aft - fore) * i as f64 / steps as f64;
        let best = (1..steps).max_by(|a, b| area(at(*a)).total_cmp(&area(at(*b)))).unwrap_or(steps / 2);
        let (mut low, mut high) = (at(best - 1), at(best + 1));
        for _ in 0..30 {
            let (a, b) = (low + 0.382 * (high - low), low + 0.618 * (high - low));
            if area(a) > area(b) { high = b } else { low = a }
        }
        let x = 0.5 * (low + high);
        let (here, there) = (area(x), area(at(best)));
        if here >= there { (x, here) } else { (at(best), there) }
    }
}

struct Sums {
    volume: f64,
    volume_x: f64,
    volume_z: f64,
    skin: f64,
    flat: f64,
    plane: f64,
    plane_x: f64,
    plane_xx: f64,
    inertia_t: f64,
    half_beam: f64,
    fore: f64,
    aft: f64,
    over_sheer: bool,
}

impl Default for Sums {
    fn default() -> Self {
        Sums {
            volume: 0.0,
            volume_x: 0.0,
            volume_z: 0.0,
            skin: 0.0,
            flat: 0.0,
            plane: 0.0,
            plane_x: 0.0,
            plane_xx: 0.0,
            inertia_t: 0.0,
            half_beam: 0.0,
            fore: f64::MAX,
            aft: f64::MIN,
            over_sheer: false,
        }
    }
}

/// The pieces of the breaks' range in which f lies below a level, cut at the breaks.
fn below(breaks: &[f64], level: f64, tolerance: f64, f: impl Fn(f64) -> f64) -> Vec<(f64, f64)> {
    let wet = |z: f64| z <= level + tolerance;
    let mut pieces = Vec::new();
    let mut z_a = breaks.first().map_or(0.0, |v| f(*v));
    for pair in breaks.windows(2) {
        let z_b = f(pair[1]);
        match (wet(z_a), wet(z_b)) {
            (true, true) => pieces.push((pair[0], pair[1])),
            (true, false) => pieces.push((pair[0], root(pair[0], pair[1], |v| f(v) - level))),
            (false, true) => pieces.push((root(pair[0], pair[1], |v| f(v) - level), pair[1])),
            (false, false) => {}
        }
        z_a = z_b;
    }
    pieces
}

/// The breaks between two limits, the limits included.
fn within(breaks: &[f64], low: f64, high: f64) -> Vec<f64> {
    let mut out = vec![low];
    out.extend(breaks.iter().copied().filter(|b| *b > low + 1e-12 && *b < high - 1e-12));
    out.push(high);
    out
}

/// A root between two points of opposite sign, by the secant kept within a shrinking bracket; falls back on halving.
pub(crate) fn root(mut a: f64, mut b: f64, f: impl Fn(f64) -> f64) -> f64 {
    let (mut fa, mut fb) = (f(a), f(b));
    if fa == 0.0 {
        return a;
    }
    if fb == 0.0 {
        return b;
    }
    for i in 0..80 {
        let middle = if i % 3 == 2 { 0.5 * (a + b) } else { (a * fb - b * fa) / (fb - fa) };
        let middle = if middle > a.min(b) && middle < a.max(b) { middle } else { 0.5 * (a + b) };
        let fm = f(middle);
        if fm == 0.0 || (b - a).abs() < 1e-14 * (1.0 + a.abs()) {
            return middle;
        }
        if (fm < 0.0) == (fa < 0.0) {
            (a, fa) = (middle, fm);
        } else {
            (b, fb) = (middle, fm);
        }
    }
    0.5 * (a + b)
}
