//! The fair surface of one side: a bicubic B-spline from stem to stern and from rabbet to sheer.

use crate::{
    HullError,
    girth::Girth,
    lines::{Lines, Section},
    spline::{Cubic, Ends, basis, interpolation_knots, smooth, solve_many, span},
};

/// A point on the hull, in metres: distance aft of the table's datum, half-breadth, height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Distance aft of the datum.
    pub x_m: f64,
    /// Half-breadth.
    pub y_m: f64,
    /// Height.
    pub z_m: f64,
}

/// How the surface is laid through the lines.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Fairing {
    /// Standard deviation of the offsets in millimetres; the surface runs through them when it is 0, and is as fair
    /// as they allow when it is more.
    pub sd_mm: f64,
}

/// The fair surface. `u` runs from the stem's rabbet (0) to the after edge (1), `v` from the rabbet (0) to the
/// sheer (1). Along a line of constant v the distance aft grows evenly with u, so lines of constant u stand upright
/// amidships and lean with stem and stern at the ends, as cant frames do. At every section v is the share of its
/// girth.
#[derive(Clone, Debug)]
pub struct Surface {
    u_knots: Vec<f64>,
    v_knots: Vec<f64>,
    /// Half-breadths, then heights: coefficients by row of u, then v.
    y: Vec<Vec<f64>>,
    z: Vec<Vec<f64>>,
    /// Distance aft of both edges: coefficients in v.
    bow_x: Vec<f64>,
    stern_x: Vec<f64>,
    fore_x_m: f64,
    aft_x_m: f64,
}

/// Lines of v at which the sections are read off.
const ACROSS: usize = 33;

impl Surface {
    /// Lays a surface through lines.
    ///
    /// # Errors
    /// Refuses fewer than two sections and edges that do not bound them.
    pub fn through(lines: &Lines, fairing: Fairing) -> Result<Surface, HullError> {
        let mut sections = lines.sections.clone();
        sections.sort_by(|a, b| a.x_m.total_cmp(&b.x_m));
        if sections.len() < 2 {
            return Err(HullError::Missing(
                "has fewer than two stations; at least two are needed, five are usual".into(),
            ));
        }
        if let Some(pair) = sections.windows(2).find(|p| p[1].x_m - p[0].x_m < 1e-9) {
            return Err(HullError::Table {
                line: 0,
                place: format!("stations {} and {}", pair[0].name, pair[1].name),
                why: format!("both stand at x = {} m; each station needs its own", pair[0].x_m),
            });
        }
        let end = |edge: &Option<crate::Edge>, section: &Section| -> Result<Girth<3>, HullError> {
            match edge {
                Some(edge) => Girth::through(&edge.points),
                None => Girth::through(&section.points.iter().map(|p| [section.x_m, p.0, p.1]).collect::<Vec<_>>()),
            }
        };
        let bow = end(&lines.bow, &sections[0])?;
        let stern = end(&lines.stern, &sections[sections.len() - 1])?;
        let v: Vec<f64> = (0..ACROSS).map(|j| j as f64 / (ACROSS - 1) as f64).collect();
        let bow_at: Vec<[f64; 3]> = v.iter().map(|v| bow.point(v * bow.length())).collect();
        let stern_at: Vec<[f64; 3]> = v.iter().map(|v| stern.point(v * stern.length())).collect();
        for (b, s) in bow_at.iter().zip(&stern_at) {
            if s[0] - b[0] <= 1e-6 {
                let why = "has a stern edge that is not abaft the stem at every height";
                return Err(HullError::Missing(why.to_owned()));
            }
        }

        let laid = sections.iter().map(|s| Laid::on(s, &bow_at, &stern_at, &v)).collect::<Result<Vec<_>, _>>()?;
        let u = sites(&laid, &bow_at, &stern_at);
        // Every line of v: through stem, sections and stern, read off again at the common sites.
        let mut y = vec![vec![0.0; ACROSS]; u.len()];
        let mut z = vec![vec![0.0; ACROSS]; u.len()];
        for j in 0..ACROSS {
            let (b, s) = (bow_at[j], stern_at[j]);
            let span = s[0] - b[0];
            let mut at = vec![0.0];
            let mut ys = vec![b[1]];
            let mut zs = vec![b[2]];
            for section in &laid {
                let here = (section.x_m - b[0]) / span;
                // A section that meets the edge just here says nothing that the edge does not.
                let clear = 0.012;
                if here <= clear || here >= 1.0 - clear {
                    continue;
                }
                if let Some(p) = section.point(v[j]) {
                    at.push(here);
                    ys.push(p[0]);
                    zs.push(p[1]);
                }
            }
            at.push(1.0);
            ys.push(s[1]);
            zs.push(s[2]);
            if fairing.sd_mm > 0.0 && at.len() > 4 {
                let mut sd = vec![fairing.sd_mm / 1000.0; at.len()];
                // The edges are held: they are drawn lines, not readings.
                (sd[0], sd[at.len() - 1]) = (fairing.sd_mm / 1e5, fairing.sd_mm / 1e5);
                ys = smooth(&at, &ys, &sd);
                zs = smooth(&at, &zs, &sd);
            }
            let (cy, cz) = (Cubic::through(&at, &ys, Ends::NotAKnot)?, Cubic::through(&at, &zs, Ends::NotAKnot)?);
            for (i, u) in u.iter().enumerate() {
                y[i][j] = cy.at(*u);
                z[i][j] = cz.at(*u);
            }
        }
        Surface::on_grid(&u, &v, y, z, &bow_at, &stern_at)
    }

    fn on_grid(
        u: &[f64],
        v: &[f64],
        y: Vec<Vec<f64>>,
        z: Vec<Vec<f64>>,
        bow: &[[f64; 3]],
        stern: &[[f64; 3]],
    ) -> Result<Surface, HullError> {
        let (u_knots, v_knots) = (interpolation_knots(u), interpolation_knots(v));
        let singular = || HullError::Missing("gives no surface: its points do not bear one".to_owned());
        let (in_u, in_v) = (matrix(&u_knots, u), matrix(&v_knots, v));
        // Half-breadths and heights side by side, so that each matrix is solved once.
        let both: Vec<Vec<f64>> = y.iter().zip(&z).map(|(y, z)| [y.as_slice(), z].concat()).collect();
        let along = solve_many(in_u, both).ok_or_else(singular)?;
        let n = v.len();
        let mut columns = vec![Vec::with_capacity(2 * along.len() + 2); n];
        for row in &along {
            for (j, column) in columns.iter_mut().enumerate() {
                column.extend([row[j], row[n + j]]);
            }
        }
        for (j, column) in columns.iter_mut().enumerate() {
            column.extend([bow[j][0], stern[j][0]]);
        }
        let across = solve_many(in_v, columns).ok_or_else(singular)?;
        let m = along.len();
        let pick =
            |k: usize| -> Vec<Vec<f64>> { (0..m).map(|i| across.iter().map(|c| c[2 * i + k]).collect()).collect() };
        let fore_x_m = bow.iter().map(|p| p[0]).fold(f64::MAX, f64::min);
        let aft_x_m = stern.iter().map(|p| p[0]).fold(f64::MIN, f64::max);
        Ok(Surface {
            y: pick(0),
            z: pick(1),
            bow_x: across.iter().map(|c| c[2 * m]).collect(),
            stern_x: across.iter().map(|c| c[2 * m + 1]).collect(),
            u_knots,
            v_knots,
            fore_x_m,
            aft_x_m,
        })
    }

    /// Returns the distance aft of the datum of the planking's foremost point, in metres.
    pub fn fore_x_m(&self) -> f64 {
        self.fore_x_m
    }

    /// Returns the distance aft of the datum of the planking's aftermost point, in metres.
    pub fn aft_x_m(&self) -> f64 {
        self.aft_x_m
    }

    /// Returns the length over the planking, in metres.
    pub fn length_m(&self) -> f64 {
        self.aft_x_m - self.fore_x_m
    }

    /// Returns the point at (u, v).
    pub fn at(&self, u: f64, v: f64) -> Point {
        let p = self.row(u).at(v);
        Point { x_m: p[0], y_m: p[1], z_m: p[2] }
    }

    /// Returns the line of constant u.
    pub(crate) fn row(&self, u: f64) -> Row<'_> {
        let s = span(&self.u_knots, u);
        let (b, d) = basis(&self.u_knots, s, u);
        let n = self.bow_x.len();
        let mut c = vec![[0.0; 6]; n];
        for (j, c) in c.iter_mut().enumerate() {
            let reach = self.stern_x[j] - self.bow_x[j];
            c[0] = self.bow_x[j] + u * reach;
            c[3] = reach;
            for i in 0..4 {
                let (y, z) = (self.y[s - 3 + i][j], self.z[s - 3 + i][j]);
                c[1] += b[i] * y;
                c[2] += b[i] * z;
                c[4] += d[i] * y;
                c[5] += d[i] * z;
            }
        }
        Row { knots: &self.v_knots, c }
    }

    /// Returns the u of a distance aft at a v: exact, since distance grows evenly with u. May lie outside 0 to 1.
    pub fn u_at(&self, x_m: f64, v: f64) -> f64 {
        let (bow, stern) = self.edges(v);
        (x_m - bow) / (stern - bow)
    }

    /// Distance aft of both edges at a v.
    fn edges(&self, v: f64) -> (f64, f64) {
        let s = span(&self.v_knots, v);
        let (b, _) = basis(&self.v_knots, s, v);
        (0..4).fold((0.0, 0.0), |sum, i| (sum.0 + b[i] * self.bow_x[s - 3 + i], sum.1 + b[i] * self.stern_x[s - 3 + i]))
    }

    /// Returns the range of v in which a section at a distance aft meets the planking; none off the hull.
    pub fn section_range(&self, x_m: f64) -> Option<(f64, f64)> {
        let inside = |v: f64| {
            let u = self.u_at(x_m, v);
            (-1e-12..=1.0 + 1e-12).contains(&u)
        };
        let steps = 64;
        let first = (0..=steps).map(|i| f64::from(i) / f64::from(steps)).find(|v| inside(*v))?;
        let last = (0..=steps).rev().map(|i| f64::from(i) / f64::from(steps)).find(|v| inside(*v))?;
        let border = |mut good: f64, mut bad: f64| {
            for _ in 0..50 {
                let middle = 0.5 * (good + bad);
                if inside(middle) { good = middle } else { bad = middle }
            }
            good
        };
        let step = 1.0 / f64::from(steps);
        let low = if first > 0.0 { border(first, first - step) } else { 0.0 };
        let high = if last < 1.0 { border(last, last + step) } else { 1.0 };
        Some((low, high))
    }

    /// Returns the point at a distance aft and a v, and its derivative by v at that distance; u is kept within the
    /// surface.
    pub(crate) fn on_section(&self, x_m: f64, v: f64) -> (Point, [f64; 2]) {
        let u = self.u_at(x_m, v).clamp(0.0, 1.0);
        let (p, du, dv) = self.row(u).all(v);
        let turn = -dv[0] / du[0];
        (Point { x_m: p[0], y_m: p[1], z_m: p[2] }, [dv[1] + turn * du[1], dv[2] + turn * du[2]])
    }

    /// Returns the distinct knots in u.
    pub(crate) fn u_breaks(&self) -> Vec<f64> {
        let mut breaks = self.u_knots.clone();
        breaks.dedup();
        breaks
    }

    /// Returns the distinct knots in v.
    pub(crate) fn v_breaks(&self) -> Vec<f64> {
        let mut breaks = self.v_knots.clone();
        breaks.dedup();
        breaks
    }
}

/// A line of constant u: a B-spline in v of the point and of its derivative by u.
pub(crate) struct Row<'a> {
    knots: &'a [f64],
    c: Vec<[f64; 6]>,
}

impl Row<'_> {
    pub(crate) fn at(&self, v: f64) -> [f64; 3] {
        let s = span(self.knots, v);
        let (b, _) = basis(self.knots, s, v);
        std::array::from_fn(|k| (0..4).map(|i| b[i] * self.c[s - 3 + i][k]).sum())
    }

    /// The point, its derivative by u and by v.
    pub(crate) fn all(&self, v: f64) -> ([f64; 3], [f64; 3], [f64; 3]) {
        let s = span(self.knots, v);
        let (b, d) = basis(self.knots, s, v);
        let sum = |w: &[f64; 4], k: usize| -> f64 { (0..4).map(|i| w[i] * self.c[s - 3 + i][k]).sum() };
        (
            std::array::from_fn(|k| sum(&b, k)),
            std::array::from_fn(|k| sum(&b, k + 3)),
            std::array::from_fn(|k| sum(&d, k)),
        )
    }
}

/// A section with the range of v over which it is known.
struct Laid {
    x_m: f64,
    low: f64,
    high: f64,
    curve: Girth<2>,
}

impl Laid {
    fn on(section: &Section, bow: &[[f64; 3]], stern: &[[f64; 3]], v: &[f64]) -> Result<Laid, HullError> {
        let x = section.x_m;
        let inside = |j: usize| bow[j][0] <= x + 1e-9 && stern[j][0] >= x - 1e-9;
        let off = || HullError::Table {
            line: 0,
            place: format!("station {}", section.name),
            why: format!("x = {x} m lies beyond stem and stern; stations lie between them"),
        };
        let first = (0..v.len()).find(|j| inside(*j)).ok_or_else(off)?;
        let last = (0..v.len()).rev().find(|j| inside(*j)).ok_or_else(off)?;
        let edge_at = |good: usize, bad: usize| {
            let edge = if bow[bad][0] > x { bow } else { stern };
            let share = (x - edge[good][0]) / (edge[bad][0] - edge[good][0]);
            let mix = |k: usize| edge[good][k] + share * (edge[bad][k] - edge[good][k]);
            (v[good] + share * (v[bad] - v[good]), mix(1), mix(2))
        };
        let mut points: Vec<[f64; 2]> = section.points.iter().map(|p| [p.0, p.1]).collect();
        let (mut low, mut high) = (0.0, 1.0);
        // In an overhang the section begins (or ends) on the stem or stern itself.
        if first > 0 {
            let (at, y, z) = edge_at(first, first - 1);
            low = at;
            points.retain(|p| p[1] > z + 1e-6);
            points.insert(0, [y, z]);
        }
        if last + 1 < v.len() {
            let (at, y, z) = edge_at(last, last + 1);
            high = at;
            points.retain(|p| p[1] < z - 1e-6);
            points.push([y, z]);
        }
        Ok(Laid { x_m: x, low, high, curve: Girth::through(&points)? })
    }

    fn point(&self, v: f64) -> Option<[f64; 2]> {
        if v < self.low - 1e-12 || v > self.high + 1e-12 {
            return None;
        }
        let share = if self.high > self.low { (v - self.low) / (self.high - self.low) } else { 0.0 };
        Some(self.curve.point(share * self.curve.length()))
    }
}

/// Sites in u for the surface: those of the sections at half height, with enough between.
fn sites(laid: &[Laid], bow: &[[f64; 3]], stern: &[[f64; 3]]) -> Vec<f64> {
    let middle = bow.len() / 2;
    let (b, s) = (bow[middle][0], stern[middle][0]);
    let mut marks = vec![0.0];
    marks.extend(laid.iter().map(|l| (l.x_m - b) / (s - b)).filter(|u| *u > 0.004 && *u < 0.996));
    marks.push(1.0);
    let mut sites = vec![0.0];
    for pair in marks.windows(2) {
        let gap = pair[1] - pair[0];
        if gap < 0.004 {
            continue;
        }
        let steps = (gap / 0.026).ceil().max(1.0);
        sites.extend((1..=steps as usize).map(|i| pair[0] + gap * i as f64 / steps));
    }
    if let Some(last) = sites.last_mut() {
        *last = 1.0;
    }
    sites
}

fn matrix(knots: &[f64], sites: &[f64]) -> Vec<Vec<f64>> {
    let n = sites.len();
    let mut a = vec![vec![0.0; n]; n];
    for (row, t) in a.iter_mut().zip(sites) {
        let s = span(knots, *t);
        let (b, _) = basis(knots, s, *t);
        row[s - 3..=s].copy_from_slice(&b);
    }
    a
}
