//! The shell with its strakes and frames: lengths, areas, widths, and where everything lies.

use crate::{
    Basis, Frame, HullError, Layout, Lining, Point, Surface,
    arc::{SectionGirth, ULine, dot, long, patch},
    hydrostatics::root,
    layout::{frame_to_m, m_to_frame},
    spline::{Monotone, gauss4, points4},
};

/// The planking of one side lined off on a surface. Both sides are taken to be alike.
#[derive(Clone, Debug)]
pub struct Expansion {
    surface: Surface,
    /// Seam k as a share of the girth along each line of u: curves over u.
    seams: Vec<Monotone>,
    frames: Vec<Frame>,
    /// How far the widths given add up to something else than the girth, at each station measured: share.
    pub misfit: Vec<f64>,
}

/// A spot on the planking: in the strake, and in space.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Strake, counted from the garboard.
    pub strake: usize,
    /// Share across it, 0 at the lower edge.
    pub across: f64,
    /// Distance abaft the foremost point of the planking, in metres.
    pub from_stem_m: f64,
    /// The point, in the table's metres.
    pub point: Point,
}

/// How much a plank is bent on the hull over a chord, about its flat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bend {
    /// The chord, in metres.
    pub chord_m: f64,
    /// Rise of its middle off the chord, in metres: outwards above nought, hollow below.
    pub rise_m: f64,
}

impl Bend {
    /// Returns the radius of the circle through the three points, c²/(8 h) + h/2, in metres; none where it is straight.
    pub fn radius_m(&self) -> Option<f64> {
        let rise = self.rise_m.abs();
        (rise > 1e-9).then(|| self.chord_m * self.chord_m / (8.0 * rise) + rise / 2.0)
    }
}

/// One strake's figures, one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrakeFigures {
    /// True area, in square metres.
    pub area_m2: f64,
    /// Length along its middle line, in metres.
    pub length_m: f64,
    /// Length of its upper edge (the seam above it), in metres.
    pub upper_seam_m: f64,
    /// Greatest width, in millimetres.
    pub greatest_width_mm: f64,
}

/// One length of planking within a strake, between butts or scarphs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plank {
    /// Strake.
    pub strake: usize,
    /// Fore end, in metres abaft the foremost point of the planking.
    pub from_m: f64,
    /// After end.
    pub to_m: f64,
    /// Length along its middle line, in metres, without scarph overlap or waste.
    pub length_m: f64,
    /// True area, in square metres.
    pub area_m2: f64,
}

impl Expansion {
    /// Lines strakes off on a surface.
    ///
    /// # Errors
    /// Refuses a number of strakes outside 1 to 60, widths that do not match in number, and stations off the hull.
    pub fn new(surface: Surface, lining: &Lining, frames: Vec<Frame>) -> Result<Expansion, HullError> {
        lining.check()?;
        let n = lining.strakes();
        let mut misfit = Vec::new();
        let seams = match lining {
            Lining::Equal { strakes } => (0..=*strakes)
                .filter_map(|k| Monotone::through(&[0.5], &[k as f64 / *strakes as f64]))
                .collect::<Vec<_>>(),
            Lining::Measured { stations } => {
                let mut stations = stations.clone();
                stations.sort_by(|a, b| a.from_stem_m.total_cmp(&b.from_stem_m));
                let mut at: Vec<Vec<(f64, f64)>> = vec![Vec::new(); n + 1];
                for s in &stations {
                    let x = surface.fore_x_m() + s.from_stem_m;
                    let off = || HullError::Place {
                        place: format!("{} m abaft the stem", s.from_stem_m),
                        why: "no planking there".to_owned(),
                    };
                    let (low, high) = surface.section_range(x).ok_or_else(off)?;
                    let section = SectionGirth::new(&surface, x, low, high);
                    let total: f64 = s.widths_mm.iter().sum();
                    misfit.push(total / 1000.0 / section.length() - 1.0);
                    let mut sum = 0.0;
                    for (k, line) in at.iter_mut().enumerate() {
                        let v = section.v_at(section.length() * (sum / total).min(1.0));
                        let u = surface.u_at(x, v).clamp(0.0, 1.0);
                        let row = ULine::new(surface.row(u), &surface.v_breaks());
                        line.push((u, (row.length_to(v) / row.length()).clamp(0.0, 1.0)));
                        sum += s.widths_mm.get(k).copied().unwrap_or(0.0);
                    }
                }
                at.iter_mut().for_each(|line| line.sort_by(|a, b| a.0.total_cmp(&b.0)));
                let mut seams = Vec::new();
                for (k, line) in at.iter().enumerate() {
                    let (us, mut fs): (Vec<f64>, Vec<f64>) = line.iter().copied().unzip();
                    if k == 0 {
                        fs.fill(0.0);
                    } else if k == n {
                        fs.fill(1.0);
                    }
                    let curve = Monotone::through(&us, &fs);
                    seams.push(curve.ok_or_else(|| {
                        HullError::value(
                            "The stations of strake widths",
                            "two at one place",
                            "one set of widths a station",
                        )
                    })?);
                }
                seams
            }
        };
        Ok(Expansion { surface, seams, frames, misfit })
    }

    /// Returns the surface.
    pub fn surface(&self) -> &Surface {
        &self.surface
    }

    /// Returns the frames, from forward.
    pub fn frames(&self) -> &[Frame] {
        &self.frames
    }

    /// Returns the number of strakes.
    pub fn strakes(&self) -> usize {
        self.seams.len() - 1
    }

    /// Returns the girth at a distance aft of the datum, along the section there, in metres; none off the hull.
    pub fn girth_m(&self, x_m: f64) -> Option<f64> {
        let (low, high) = self.surface.section_range(x_m)?;
        Some(SectionGirth::new(&self.surface, x_m, low, high).length())
    }

    /// Returns every strake's figures, from the garboard up.
    pub fn strake_figures(&self) -> Vec<StrakeFigures> {
        let n = self.strakes();
        let areas = self.areas(0.0, 1.0);
        let nodes = self.nodes();
        let rows = self.rows(&nodes);
        let polyline = |share: &dyn Fn(f64) -> f64| -> f64 {
            let points: Vec<[f64; 3]> = nodes.iter().zip(&rows).map(|(u, row)| row.point(share(*u))).collect();
            points.windows(2).map(|p| long(&p[0], &p[1])).sum()
        };
        (1..=n)
            .map(|k| {
                let widths = nodes.iter().zip(&rows).map(|(u, row)| (self.f(k, *u) - self.f(k - 1, *u)) * row.length());
                StrakeFigures {
                    area_m2: areas[k - 1],
                    length_m: polyline(&|u| 0.5 * (self.f(k, u) + self.f(k - 1, u))),
                    upper_seam_m: polyline(&|u| self.f(k, u)),
                    greatest_width_mm: widths.fold(0.0, f64::max) * 1000.0,
                }
            })
            .collect()
    }

    /// Returns the area of the whole side, in square metres, taken directly over the surface and not strake by
    /// strake.
    pub fn area_m2(&self) -> f64 {
        let (us, vs) = (self.surface.u_breaks(), self.surface.v_breaks());
        let mut area = 0.0;
        for pair in us.windows(2) {
            for (u, w) in points4(pair[0], pair[1]) {
                let row = self.surface.row(u);
                area += w * vs.windows(2).map(|p| gauss4(p[0], p[1], |v| patch(&row, v))).sum::<f64>();
            }
        }
        area
    }

    /// Returns the area that the side takes on the drawing, where girth is laid off square to the keel line: less
    /// than the true area wherever the skin runs slantwise to the centre line.
    pub fn drawn_area_m2(&self) -> f64 {
        let steps = 120;
        let (fore, aft) = (self.surface.fore_x_m(), self.surface.aft_x_m());
        let h = (aft - fore) / f64::from(steps);
        (0..steps)
            .map(|i| {
                let a = fore + h * f64::from(i);
                gauss4(a, a + h, |x| self.girth_m(x).unwrap_or(0.0))
            })
            .sum()
    }

    /// Returns the planks of a strake between joints at given distances abaft the stem, in metres. Joints beyond the
    /// strake's own ends are left out. A plank is cut square to the keel line amidships, with the leaning of stem and
    /// stern at the ends.
    ///
    /// # Errors
    /// Refuses a strake that the boat does not have.
    pub fn planks(&self, strake: usize, joints_m: &[f64]) -> Result<Vec<Plank>, HullError> {
        self.check_strake(strake)?;
        let mut cuts = vec![0.0];
        let mut joints: Vec<f64> = joints_m.iter().filter_map(|m| self.u_of(strake, 0.5, *m)).collect();
        joints.sort_by(f64::total_cmp);
        cuts.extend(joints);
        cuts.push(1.0);
        Ok(cuts
            .windows(2)
            .map(|p| {
                let steps = ((p[1] - p[0]) * 80.0).ceil().max(1.0) as usize;
                let at = |i: usize| p[0] + (p[1] - p[0]) * i as f64 / steps as f64;
                let line: Vec<[f64; 3]> = (0..=steps).map(|i| self.in_strake(strake, 0.5, at(i))).collect();
                let ends = [line[0], line[steps]].map(|e| e[0] - self.surface.fore_x_m());
                Plank {
                    strake,
                    from_m: ends[0],
                    to_m: ends[1],
                    length_m: line.windows(2).map(|p| long(&p[0], &p[1])).sum(),
                    area_m2: self.areas(p[0], p[1])[strake - 1],
                }
            })
            .collect())
    }

    /// Returns the spot on a strake at a share of its width and a distance abaft the stem.
    ///
    /// # Errors
    /// Refuses strakes that the boat does not have, shares outside 0 to 1, and distances beyond the strake's ends.
    pub fn spot(&self, strake: usize, across: f64, from_stem_m: f64) -> Result<Spot, HullError> {
        self.check_strake(strake)?;
        if !(0.0..=1.0).contains(&across) {
            return Err(HullError::value("The share across the strake", across, "0 (lower edge) to 1 (upper edge)"));
        }
        let off = || {
            let ends = [0.0, 1.0].map(|u| self.in_strake(strake, across, u)[0] - self.surface.fore_x_m());
            HullError::Place {
                place: format!("Strake {strake}, {from_stem_m:.3} m abaft the stem"),
                why: format!("the strake runs from {:.3} to {:.3} m there", ends[0], ends[1]),
            }
        };
        let u = self.u_of(strake, across, from_stem_m).ok_or_else(off)?;
        let p = self.in_strake(strake, across, u);
        Ok(Spot { strake, across, from_stem_m, point: Point { x_m: p[0], y_m: p[1], z_m: p[2] } })
    }

    /// Returns the point on a strake at a share of its width and a share of its length, 0 at the stem and 1 at the stern.
    ///
    /// # Errors
    /// Refuses strakes that the boat does not have and shares outside 0 to 1.
    pub fn point(&self, strake: usize, across: f64, along: f64) -> Result<Point, HullError> {
        self.check_strake(strake)?;
        for share in [across, along] {
            if !(0.0..=1.0).contains(&share) {
                return Err(HullError::value("The share of the strake", share, "0 to 1"));
            }
        }
        let p = self.in_strake(strake, across, along);
        Ok(Point { x_m: p[0], y_m: p[1], z_m: p[2] })
    }

    /// Returns the spot on a strake at a frame number, which may lie between frames.
    ///
    /// # Errors
    /// As [`Expansion::spot`], and frames that the boat does not have.
    pub fn spot_at_frame(&self, strake: usize, across: f64, frame: f64) -> Result<Spot, HullError> {
        self.spot(strake, across, frame_to_m(&self.frames, frame)?)
    }

    /// Returns how much the middle of a strake is bent about its flat over a stretch of the hull. What it is bent in its
    /// own plane, edgewise, is left out: that is sprung or spiled into it and not held by the heads.
    ///
    /// # Errors
    /// As [`Expansion::spot`]: the stretch must lie within the strake.
    pub fn bend(&self, strake: usize, from_m: f64, to_m: f64) -> Result<Bend, HullError> {
        let at = |across: f64, x: f64| -> Result<[f64; 3], HullError> {
            let p = self.spot(strake, across, x)?.point;
            Ok([p.x_m, p.y_m, p.z_m])
        };
        let minus = |a: [f64; 3], b: [f64; 3]| [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
        let middle = (from_m + to_m) / 2.0;
        let (fore, amid, aft) = (at(0.5, from_m)?, at(0.5, middle)?, at(0.5, to_m)?);
        let chord = minus(aft, fore);
        let across = minus(at(0.95, middle)?, at(0.05, middle)?);
        // Out of the planking: chord × across, turned so that it points away from the centreline.
        let n = [
            chord[1] * across[2] - chord[2] * across[1],
            chord[2] * across[0] - chord[0] * across[2],
            chord[0] * across[1] - chord[1] * across[0],
        ];
        let size = dot(&n, &n).sqrt().max(1e-12) * if n[1] < 0.0 { -1.0 } else { 1.0 };
        let off = minus(amid, [(fore[0] + aft[0]) / 2.0, (fore[1] + aft[1]) / 2.0, (fore[2] + aft[2]) / 2.0]);
        Ok(Bend { chord_m: dot(&chord, &chord).sqrt(), rise_m: dot(&off, &n) / size })
    }

    /// Returns the frame number at a distance abaft the stem, with a fraction; none beyond the frames.
    pub fn frame_at(&self, from_stem_m: f64) -> Option<f64> {
        m_to_frame(&self.frames, from_stem_m)
    }

    /// Returns the spot nearest to a point in space (half-breadth taken without its sign), and how far the point lies
    /// off the surface, in metres.
    pub fn nearest(&self, point: Point) -> (Spot, f64) {
        let wanted = [point.x_m, point.y_m.abs(), point.z_m];
        let (mut best, mut u, mut v) = (f64::MAX, 0.5, 0.5);
        for i in 0..=60 {
            let row = self.surface.row(f64::from(i) / 60.0);
            for j in 0..=40 {
                let d = long(&row.at(f64::from(j) / 40.0), &wanted);
                if d < best {
                    (best, u, v) = (d, f64::from(i) / 60.0, f64::from(j) / 40.0);
                }
            }
        }
        // Gauss and Newton: the step that makes the gap square to both tangents.
        for _ in 0..40 {
            let (p, du, dv) = self.surface.row(u).all(v);
            let gap: [f64; 3] = std::array::from_fn(|k| wanted[k] - p[k]);
            let (a, b, c) = (dot(&du, &du), dot(&du, &dv), dot(&dv, &dv));
            let (r, s) = (dot(&du, &gap), dot(&dv, &gap));
            let det = a * c - b * b;
            let (su, sv) = if det > 1e-14 * a * c {
                ((r * c - s * b) / det, (a * s - b * r) / det)
            } else {
                (r / a.max(1e-12), 0.0)
            };
            let (nu, nv) = ((u + su).clamp(0.0, 1.0), (v + sv).clamp(0.0, 1.0));
            let moved = (nu - u).abs() + (nv - v).abs();
            (u, v) = (nu, nv);
            if moved < 1e-14 {
                break;
            }
        }
        let p = self.surface.at(u, v);
        let off = long(&[p.x_m, p.y_m, p.z_m], &wanted);
        (self.spot_uv(u, v), off)
    }

    /// Returns the spots at a height on the section at a distance abaft the stem; more than one where the section is
    /// flat or tumbles home, and then the place must be said by strake or girth.
    pub fn at_height(&self, from_stem_m: f64, height_m: f64) -> Vec<Spot> {
        let x = self.surface.fore_x_m() + from_stem_m;
        let Some((low, high)) = self.surface.section_range(x) else { return Vec::new() };
        let z = |v: f64| self.surface.on_section(x, v).0.z_m - height_m;
        let steps = 160;
        let at = |i: u32| low + (high - low) * f64::from(i) / f64::from(steps);
        let mut spots = Vec::new();
        for i in 0..steps {
            let (a, b) = (at(i), at(i + 1));
            let (za, zb) = (z(a), z(b));
            if za == 0.0 || (za < 0.0) != (zb < 0.0) && zb != 0.0 || (i + 1 == steps && zb == 0.0) {
                let v = if za == 0.0 { a } else { root(a, b, z) };
                spots.push(self.spot_uv(self.surface.u_at(x, v).clamp(0.0, 1.0), v));
            }
        }
        spots
    }

    /// Returns the spot at a girth from the rabbet along the section at a distance abaft the stem.
    ///
    /// # Errors
    /// Refuses distances off the hull and girths beyond the sheer.
    pub fn at_girth(&self, from_stem_m: f64, girth_m: f64) -> Result<Spot, HullError> {
        let x = self.surface.fore_x_m() + from_stem_m;
        let place = || format!("{from_stem_m:.3} m abaft the stem, girth {girth_m:.3} m");
        let (low, high) = self
            .surface
            .section_range(x)
            .ok_or_else(|| HullError::Place { place: place(), why: "no planking there".to_owned() })?;
        let section = SectionGirth::new(&self.surface, x, low, high);
        if !(0.0..=section.length() + 1e-9).contains(&girth_m) {
            let why = format!("the girth there is {:.3} m", section.length());
            return Err(HullError::Place { place: place(), why });
        }
        let v = section.v_at(girth_m);
        Ok(self.spot_uv(self.surface.u_at(x, v).clamp(0.0, 1.0), v))
    }

    /// Returns the shell laid flat, for drawing: along the true length fore and aft, up the girth from the rabbet.
    pub fn layout(&self, basis: Basis) -> Layout {
        let nodes = self.nodes();
        let rows = self.rows(&nodes);
        let fore = self.surface.fore_x_m();
        let seams = (0..=self.strakes())
            .map(|k| {
                nodes
                    .iter()
                    .zip(&rows)
                    .map(|(u, row)| {
                        let f = self.f(k, *u);
                        (row.point(f)[0] - fore, f * row.length())
                    })
                    .collect()
            })
            .collect();
        let mut layout = Layout::from_seams(basis, seams, self.frames.clone());
        layout.length_m = self.surface.length_m();
        layout
    }

    /// Returns a level line on the layout, such as the waterline, as (abaft the stem, girth).
    pub fn level_line(&self, height_m: f64) -> Vec<(f64, f64)> {
        let breaks = self.surface.v_breaks();
        let fore = self.surface.fore_x_m();
        let mut line = Vec::new();
        for u in self.nodes() {
            let row = ULine::new(self.surface.row(u), &breaks);
            let z = |v: f64| row.row.at(v)[2] - height_m;
            if let Some(p) = breaks.windows(2).rev().find(|p| z(p[0]) < 0.0 && z(p[1]) >= 0.0) {
                let v = root(p[0], p[1], z);
                line.push((row.row.at(v)[0] - fore, row.length_to(v)));
            }
        }
        line
    }

    fn check_strake(&self, strake: usize) -> Result<(), HullError> {
        if strake >= 1 && strake <= self.strakes() {
            return Ok(());
        }
        Err(HullError::value("The strake", strake, format!("1 (the garboard) to {}", self.strakes())))
    }

    /// Seam k's share of the girth at u.
    fn f(&self, k: usize, u: f64) -> f64 {
        self.seams[k].at(u)
    }

    fn nodes(&self) -> Vec<f64> {
        (0..=80).map(|i| f64::from(i) / 80.0).collect()
    }

    fn rows(&self, nodes: &[f64]) -> Vec<ULine<'_>> {
        let breaks = self.surface.v_breaks();
        nodes.iter().map(|u| ULine::new(self.surface.row(*u), &breaks)).collect()
    }

    /// The point in a strake at a share of its width, on the line of u.
    fn in_strake(&self, strake: usize, across: f64, u: f64) -> [f64; 3] {
        let row = ULine::new(self.surface.row(u), &self.surface.v_breaks());
        let (a, b) = (self.f(strake - 1, u), self.f(strake, u));
        row.point(a + across * (b - a))
    }

    /// The u at which a line in a strake stands at a distance abaft the stem.
    fn u_of(&self, strake: usize, across: f64, from_stem_m: f64) -> Option<f64> {
        let wanted = self.surface.fore_x_m() + from_stem_m;
        let gap = |u: f64| self.in_strake(strake, across, u)[0] - wanted;
        let (a, b) = (gap(0.0), gap(1.0));
        if a.abs() < 1e-9 {
            return Some(0.0);
        }
        if b.abs() < 1e-9 {
            return Some(1.0);
        }
        (a < 0.0 && b > 0.0).then(|| root(0.0, 1.0, gap))
    }

    fn spot_uv(&self, u: f64, v: f64) -> Spot {
        let row = ULine::new(self.surface.row(u), &self.surface.v_breaks());
        let girth = row.length();
        let share = if girth > 0.0 { row.length_to(v) / girth } else { v };
        let n = self.strakes();
        let strake = (1..=n).find(|k| share <= self.f(*k, u)).unwrap_or(n);
        let (a, b) = (self.f(strake - 1, u), self.f(strake, u));
        let across = if b > a { ((share - a) / (b - a)).clamp(0.0, 1.0) } else { 0.5 };
        let point = self.surface.at(u, v);
        Spot { strake, across, from_stem_m: point.x_m - self.surface.fore_x_m(), point }
    }

    /// Areas of all strakes between two values of u.
    fn areas(&self, from: f64, to: f64) -> Vec<f64> {
        let breaks = self.surface.v_breaks();
        let mut areas = vec![0.0; self.strakes()];
        let mut cuts = vec![from];
        cuts.extend(self.surface.u_breaks().into_iter().filter(|u| *u > from && *u < to));
        cuts.push(to);
        for pair in cuts.windows(2) {
            for (u, w) in points4(pair[0], pair[1]) {
                let row = ULine::new(self.surface.row(u), &breaks);
                let edges: Vec<f64> = (0..=self.strakes()).map(|k| row.v_at(self.f(k, u) * row.length())).collect();
                for (area, p) in areas.iter_mut().zip(edges.windows(2)) {
                    // Cut at the surface's own breaks: within a span the sum is as good as exact.
                    let mut from = p[0];
                    for to in breaks.iter().copied().filter(|b| *b > p[0] && *b < p[1]).chain([p[1]]) {
                        *area += w * gauss4(from, to, |v| patch(&row.row, v));
                        from = to;
                    }
                }
            }
        }
        areas
    }
}
