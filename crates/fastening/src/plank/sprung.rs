//! What a sprung plank asks of itself and of each fastening, against what they can hold.

use super::beam::{constant_curve, forced};
use super::curve::Curvature;
use super::relax::{Relaxed, relaxed};
use crate::Fault;

/// A plank bent on to its frames.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plank {
    /// Thickness in mm.
    pub thickness_mm: f64,
    /// Width in mm.
    pub width_mm: f64,
    /// Modulus of elasticity along the grain, MPa.
    pub moe_mpa: f64,
    /// Modulus of rupture, MPa.
    pub mor_mpa: f64,
    /// Radius in m that it takes when freed, if not straight (bent the same way).
    pub freed_radius_m: Option<f64>,
}

impl Plank {
    /// Returns the second moment of its section about the face, mm⁴: b t³/12.
    pub fn second_moment_mm4(&self) -> f64 {
        self.width_mm * self.thickness_mm.powi(3) / 12.0
    }

    /// Returns its bending stiffness E I, N·mm².
    pub fn stiffness_n_mm2(&self) -> f64 {
        self.moe_mpa * self.second_moment_mm4()
    }

    fn checked(&self) -> Result<(), Fault> {
        Fault::between("thickness_mm", self.thickness_mm, 2.0, 300.0)?;
        Fault::between("width_mm", self.width_mm, 5.0, 2000.0)?;
        Fault::between("moe_mpa", self.moe_mpa, 500.0, 40_000.0)?;
        Fault::between("mor_mpa", self.mor_mpa, 1.0, 400.0)?;
        if let Some(r) = self.freed_radius_m {
            Fault::between("freed_radius_m", r, 0.02, 1e6)?;
        }
        Ok(())
    }

    fn freed_curvature(&self, like: f64) -> f64 {
        self.freed_radius_m.map_or(0.0, |r| like.signum() / (r * 1000.0))
    }
}

/// One row of fastenings: a frame that the plank crosses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// Distance along the plank in mm from the first row.
    pub position_mm: f64,
    /// Bending moment in the plank there, N·mm.
    pub moment_n_mm: f64,
    /// Pull of the row when new, N; negative where the plank bears on the frame.
    pub pull_n: f64,
    /// Pull of each fastening when new, N; 0 where the plank bears.
    pub per_fastening_n: f64,
}

/// What a bend asks.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// The rows in order.
    pub rows: Vec<Row>,
    /// Greatest bending stress by the curve (or the greatest moment at a row), MPa.
    pub bending_stress_mpa: f64,
    /// That over the modulus of rupture.
    pub stress_ratio: f64,
    /// Greatest pull on one fastening when new, N.
    pub force_per_fastening_n: f64,
    /// Index of the row where it acts.
    pub worst_row: usize,
}

/// Returns what a plank of constant curvature asks, over `rows` frames at equal spacing with `per_row` fastenings in
/// each. Stress E t/2 (κ − κ₀).
///
/// Between end rows that are hinges a curve of constant curvature asks nearly everything of the end rows, and next to
/// nothing of the middle ones.
///
/// # Errors
/// With fewer than three rows, or figures out of range.
pub fn on_a_curve(
    plank: &Plank,
    curvature: Curvature,
    spacing_mm: f64,
    rows: usize,
    per_row: u32,
) -> Result<Asked, Fault> {
    plank.checked()?;
    let spacing = Fault::between("spacing_mm", spacing_mm, 20.0, 3000.0)?;
    if !(3..=super::beam::GREATEST_ROWS).contains(&rows) {
        let why = "a plank on fewer than three frames is not bent by them; rows are the frames it crosses";
        return Err(Fault::value("rows", rows as f64, why, "a whole number from 3 to 200"));
    }
    let positions: Vec<f64> = (0..rows).map(|i| i as f64 * spacing).collect();
    let bent = curvature.per_mm - plank.freed_curvature(curvature.per_mm);
    let offsets = constant_curve(&positions, bent);
    let mut asked = through(plank, &positions, &offsets, per_row)?;
    asked.bending_stress_mpa = plank.moe_mpa * plank.thickness_mm / 2.0 * bent.abs();
    asked.stress_ratio = asked.bending_stress_mpa / plank.mor_mpa;
    Ok(asked)
}

/// Returns what a plank asks when forced through offsets measured outwards from a straight line at each row. Spacing
/// may be unequal. The plank is taken as straight when freed.
///
/// # Errors
/// With fewer than three rows, or figures out of range.
pub fn through(plank: &Plank, positions_mm: &[f64], offsets_mm: &[f64], per_row: u32) -> Result<Asked, Fault> {
    plank.checked()?;
    if per_row == 0 || per_row > 12 {
        return Err(Fault::value(
            "fastenings_per_row",
            f64::from(per_row),
            "this is out of range",
            "a whole number from 1 to 12",
        ));
    }
    if positions_mm.len() < 3 {
        let why = "a plank on fewer than three frames is not bent by them";
        return Err(Fault::value("rows", positions_mm.len() as f64, why, "three rows or more"));
    }
    let beam = forced(plank.stiffness_n_mm2(), positions_mm, offsets_mm)?;
    let first = positions_mm[0];
    let rows: Vec<Row> = (0..positions_mm.len())
        .map(|i| Row {
            position_mm: positions_mm[i] - first,
            moment_n_mm: beam.moments_n_mm[i],
            pull_n: beam.pulls_n[i],
            per_fastening_n: beam.pulls_n[i].max(0.0) / f64::from(per_row),
        })
        .collect();
    let greatest = rows.iter().map(|row| row.moment_n_mm.abs()).fold(0.0, f64::max);
    let bending_stress_mpa = greatest * plank.thickness_mm / 2.0 / plank.second_moment_mm4();
    // The first of equals: symmetric runs give both ends the same pull but for rounding.
    let mut worst_row = 0;
    for (i, row) in rows.iter().enumerate() {
        if row.per_fastening_n > rows[worst_row].per_fastening_n * (1.0 + 1e-9) {
            worst_row = i;
        }
    }
    Ok(Asked {
        force_per_fastening_n: rows[worst_row].per_fastening_n,
        worst_row,
        bending_stress_mpa,
        stress_ratio: bending_stress_mpa / plank.mor_mpa,
        rows,
    })
}

/// What one fastening can hold, N, with every adjustment already made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holding {
    /// Allowable withdrawal of the thread from the frame.
    pub withdrawal_n: f64,
    /// Allowable pull-through of the head.
    pub pull_through_n: f64,
    /// Tension at which the root parts, where the metal is known.
    pub tension_n: Option<f64>,
}

/// What gives first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Governs {
    /// The thread draws from the frame.
    Withdrawal,
    /// The head pulls through the plank.
    PullThrough,
    /// The screw parts.
    Tension,
    /// The plank breaks.
    PlankBending,
}

impl Governs {
    /// Returns it in words.
    pub fn in_words(self) -> &'static str {
        match self {
            Governs::Withdrawal => "withdrawal",
            Governs::PullThrough => "pull-through",
            Governs::Tension => "screw tension",
            Governs::PlankBending => "plank bending",
        }
    }
}

/// What is asked over what can be held: 1 is the limit of what is allowed.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// Withdrawal, new.
    pub withdrawal_ratio: f64,
    /// Pull-through, new.
    pub pull_through_ratio: f64,
    /// Tension in the screw, new, where the metal is known.
    pub tension_ratio: Option<f64>,
    /// What gives first, and by how much.
    pub governs: Governs,
    /// The ratio that governs, new.
    pub governs_ratio: f64,
    /// The ratio next below it.
    pub next_ratio: f64,
    /// Share of the force left after the years given.
    pub relaxed: Relaxed,
}

/// Sets what is asked against what can be held.
///
/// Allowable values hold a margin of about five on short tests: a ratio ranks, it does not foretell failure.
///
/// # Errors
/// When a holding is not greater than nothing.
pub fn judge(asked: &Asked, holding: &Holding, years: f64) -> Result<Judged, Fault> {
    let force = asked.force_per_fastening_n;
    let withdrawal_ratio = force / Fault::positive("withdrawal_n", holding.withdrawal_n)?;
    let pull_through_ratio = force / Fault::positive("pull_through_n", holding.pull_through_n)?;
    let tension_ratio = match holding.tension_n {
        Some(n) => Some(force / Fault::positive("tension_n", n)?),
        None => None,
    };
    let mut ratios = vec![
        (Governs::PullThrough, pull_through_ratio),
        (Governs::Withdrawal, withdrawal_ratio),
        (Governs::PlankBending, asked.stress_ratio),
    ];
    ratios.extend(tension_ratio.map(|r| (Governs::Tension, r)));
    ratios.sort_by(|a, b| b.1.total_cmp(&a.1));
    Ok(Judged {
        withdrawal_ratio,
        pull_through_ratio,
        tension_ratio,
        governs: ratios[0].0,
        governs_ratio: ratios[0].1,
        next_ratio: ratios[1].1,
        relaxed: relaxed(years)?,
    })
}
