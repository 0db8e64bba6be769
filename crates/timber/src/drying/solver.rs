//! Finite volumes through the thickness, implicit in time.
//!
//! Implicit Euler with a tridiagonal solve: each step is a weighted mean of what was there and what the faces bring,
//! so it cannot overshoot, whatever the step; and what leaves one cell enters the next, so water is conserved to
//! rounding. Diffusivity is taken from the beginning of the step, between cells by the harmonic mean.

/// What holds at one face of the slab.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Boundary {
    /// Nothing passes: sealed, or the middle of a plank that dries on both sides.
    Closed,
    /// Open to air: `flux = conductance (M_face − target)`.
    Open {
        /// Conductance of what lies between face and air, m/s on a moisture basis.
        conductance_m_s: f64,
        /// Moisture that the air draws the face towards, %.
        target_percent: f64,
    },
    /// The face itself is held at a moisture, %.
    Held(f64),
}

/// A slab cut into cells, finest at the open faces, with the moisture of each.
#[derive(Clone, Debug)]
pub struct Slab {
    widths_m: Vec<f64>,
    mc_percent: Vec<f64>,
    diffusivity: Vec<f64>,
    upper: Vec<f64>,
    right: Vec<f64>,
    surface_percent: f64,
}

impl Slab {
    /// Returns a slab of one moisture. Cells shrink towards the outer face by `ratio` from one to the next (1 for
    /// cells all alike); with `both_open` they shrink towards both faces.
    pub fn new(depth_m: f64, cells: usize, ratio: f64, both_open: bool, mc_percent: f64) -> Self {
        let cells = cells.max(2);
        let weight = |i: usize| {
            let from_outer = if both_open { (cells - 1 - i).min(i) } else { cells - 1 - i };
            ratio.powi(i32::try_from(from_outer).unwrap_or(i32::MAX))
        };
        let sum: f64 = (0..cells).map(weight).sum();
        Self {
            widths_m: (0..cells).map(|i| depth_m * weight(i) / sum).collect(),
            mc_percent: vec![mc_percent; cells],
            diffusivity: vec![0.0; cells],
            upper: vec![0.0; cells],
            right: vec![0.0; cells],
            surface_percent: mc_percent,
        }
    }

    /// Returns the moisture of each cell, inner face first, %.
    pub fn mc_percent(&self) -> &[f64] {
        &self.mc_percent
    }

    /// Returns the depth of each cell's middle below the inner face, m.
    pub fn middles_m(&self) -> Vec<f64> {
        let mut at = 0.0;
        self.widths_m
            .iter()
            .map(|w| {
                at += w;
                at - w / 2.0
            })
            .collect()
    }

    /// Returns the share of the depth that each cell takes.
    pub fn shares(&self) -> Vec<f64> {
        let depth: f64 = self.widths_m.iter().sum();
        self.widths_m.iter().map(|w| w / depth).collect()
    }

    /// Returns the mean moisture, %.
    pub fn mean_percent(&self) -> f64 {
        self.mean_of(|mc| mc)
    }

    /// Returns the mean of a function of moisture over the depth.
    pub fn mean_of(&self, f: impl Fn(f64) -> f64) -> f64 {
        let depth: f64 = self.widths_m.iter().sum();
        self.widths_m.iter().zip(&self.mc_percent).map(|(w, mc)| w * f(*mc)).sum::<f64>() / depth
    }

    /// Returns the moisture at the outer face after the last step, %.
    pub fn surface_percent(&self) -> f64 {
        self.surface_percent
    }

    /// Steps on by a time and returns what came in through both faces, in % · m (per cent moisture times depth).
    pub fn step(
        &mut self,
        seconds: f64,
        inner: Boundary,
        outer: Boundary,
        diffusivity_m2_s: impl Fn(f64) -> f64,
    ) -> f64 {
        let n = self.mc_percent.len();
        for (d, mc) in self.diffusivity.iter_mut().zip(&self.mc_percent) {
            *d = diffusivity_m2_s(*mc);
        }
        let end = |boundary: Boundary, i: usize, slab: &Self| {
            let within = 0.5 * slab.widths_m[i] / slab.diffusivity[i];
            match boundary {
                Boundary::Closed => (0.0, 0.0),
                Boundary::Held(target) => (1.0 / within, target),
                Boundary::Open { conductance_m_s, target_percent } => {
                    (1.0 / (within + 1.0 / conductance_m_s), target_percent)
                }
            }
        };
        let (g_inner, inner_target) = end(inner, 0, self);
        let (g_outer, outer_target) = end(outer, n - 1, self);
        // Thomas algorithm, forward sweep with the matrix made on the way.
        let mut g_before = g_inner;
        let mut before = (0.0, inner_target); // the target stands for a cell of its own beyond the face
        for i in 0..n {
            let g_after = if i + 1 < n {
                2.0 / (self.widths_m[i] / self.diffusivity[i] + self.widths_m[i + 1] / self.diffusivity[i + 1])
            } else {
                g_outer
            };
            let mass = self.widths_m[i] / seconds;
            let diagonal = mass + g_before * (1.0 - before.0) + g_after;
            let mut right = mass * self.mc_percent[i] + g_before * before.1;
            if i + 1 == n {
                right += g_after * outer_target;
            }
            let inverse = 1.0 / diagonal;
            self.upper[i] = g_after * inverse;
            self.right[i] = right * inverse;
            before = (self.upper[i], self.right[i]);
            g_before = g_after;
        }
        self.mc_percent[n - 1] = self.right[n - 1];
        for i in (0..n - 1).rev() {
            self.mc_percent[i] = self.right[i] + self.upper[i] * self.mc_percent[i + 1];
        }
        let flux_in = g_outer * (outer_target - self.mc_percent[n - 1]);
        self.surface_percent = self.mc_percent[n - 1] + flux_in * 0.5 * self.widths_m[n - 1] / self.diffusivity[n - 1];
        seconds * (flux_in + g_inner * (inner_target - self.mc_percent[0]))
    }
}
