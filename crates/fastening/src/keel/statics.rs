//! The load on ballast bolts by simple statics, with every assumption said.
//!
//! Not a check of adequacy: a ballast keel's attachment is a naval architect's. Dynamic factors of standards are not
//! built in, since those known are from memory; give one to see its effect.

use crate::Fault;
use crate::unit::GRAVITY_M_S2;

/// A ballast keel on its bolts.
#[derive(Clone, Debug, PartialEq)]
pub struct BallastKeel {
    /// Mass of the ballast, kg.
    pub ballast_kg: f64,
    /// Depth of its centre of gravity below the joint, mm.
    pub depth_mm: f64,
    /// Breadth of the joint between ballast and wood keel, mm.
    pub joint_mm: f64,
    /// Bolts along the keel: position in mm from the first. Pairs appear twice.
    pub positions_mm: Vec<f64>,
    /// Half the distance across between the two rows, mm; 0 for one row on the centre line.
    pub half_row_mm: f64,
    /// Share of half the joint's breadth lost to crushing at the leeward edge, 0 to 0.5: the joint turns about a line
    /// that far in. 0.1 is a convention of this workbench.
    pub crushed_share: f64,
}

/// The tension in the bolts in one case.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// What the case is.
    pub name: &'static str,
    /// Tension in the most loaded bolt, N.
    pub greatest_n: f64,
    /// Tension in each bolt, N, in the order given (windward row first where there are two).
    pub tensions_n: Vec<f64>,
    /// Shear across all bolts, N.
    pub shear_n: f64,
    /// Every assumption made, in sentences.
    pub assumptions: Vec<String>,
}

impl BallastKeel {
    fn checked(&self) -> Result<(), Fault> {
        Fault::between("ballast_kg", self.ballast_kg, 1.0, 500_000.0)?;
        Fault::between("depth_mm", self.depth_mm, 1.0, 6000.0)?;
        Fault::between("joint_mm", self.joint_mm, 20.0, 3000.0)?;
        Fault::between("crushed_share", self.crushed_share, 0.0, 0.5)?;
        let half = self.joint_mm / 2.0;
        Fault::between("half_row_mm", self.half_row_mm, 0.0, half * (1.0 - self.crushed_share))?;
        if self.positions_mm.is_empty() || self.positions_mm.len() > 200 {
            let accepted = "from 1 to 200 bolts";
            return Err(Fault::value("bolts", self.positions_mm.len() as f64, "this is no row of bolts", accepted));
        }
        match self.positions_mm.iter().find(|x| !x.is_finite()) {
            Some(bad) => Err(Fault::value("positions_mm", *bad, "this is not a number", "positions in mm")),
            None => Ok(()),
        }
    }

    fn weight_n(&self) -> f64 {
        self.ballast_kg * GRAVITY_M_S2
    }

    /// Returns the bolts' tension with the boat upright and still: weight over number.
    ///
    /// # Errors
    /// When a figure is out of range.
    pub fn upright(&self) -> Result<Case, Fault> {
        self.checked()?;
        let n = self.positions_mm.len();
        let each = self.weight_n() / n as f64;
        Ok(Case {
            name: "upright",
            greatest_n: each,
            tensions_n: vec![each; n],
            shear_n: 0.0,
            assumptions: vec![
                "The whole weight hangs on the bolts, none on the wood, the paint or the caulking of the joint."
                    .to_owned(),
                "Every bolt takes the same share, whatever its place and tightness.".to_owned(),
                "No preload is counted on: wood under a nut lets most of it go within years.".to_owned(),
            ],
        })
    }

    /// Returns the bolts' tension when held still at an angle of heel, times a dynamic factor (1 is still).
    ///
    /// The keel turns about a line near the leeward edge of the joint: T_i = M z_i/Σz² + W cos θ/n, M = W a sin θ.
    ///
    /// # Errors
    /// When a figure is out of range.
    pub fn heeled(&self, heel_deg: f64, factor: f64) -> Result<Case, Fault> {
        self.checked()?;
        let heel = Fault::between("heel_deg", heel_deg, 0.0, 180.0)?.to_radians();
        let factor = Fault::between("dynamic_factor", factor, 1.0, 10.0)?;
        let weight = self.weight_n() * factor;
        let moment = weight * self.depth_mm * heel.sin();
        let arms = self.arms_mm();
        let squares: f64 = arms.iter().map(|z| z * z).sum();
        let share = (weight * heel.cos()).max(0.0) / arms.len() as f64;
        let tensions_n: Vec<f64> = arms.iter().map(|z| moment * z / squares + share).collect();
        let pivot = self.joint_mm / 2.0 * (1.0 - self.crushed_share);
        Ok(Case {
            name: "heeled",
            greatest_n: tensions_n.iter().copied().fold(0.0, f64::max),
            shear_n: weight * heel.sin(),
            tensions_n,
            assumptions: vec![
                format!("The boat is held still at {heel_deg} degrees and the ballast hangs on the bolts alone."),
                format!(
                    "The joint turns about a line {pivot:.0} mm to leeward of the centre line: the outer {:.0} % of its half \
                     breadth is taken as crushed (a convention of this workbench; set it otherwise if you know better).",
                    self.crushed_share * 100.0
                ),
                "Bolts stretch alike along the keel, in proportion to their distance from that line.".to_owned(),
                format!("A dynamic factor of {factor} is applied{}.", if factor == 1.0 { ": none" } else { "" }),
                "Tongues, deadwood, floors, glue and friction carry nothing.".to_owned(),
            ],
        })
    }

    /// Returns the bolts' tension when the keel's toe strikes and a force H acts aft at a height h below the joint:
    /// the end bolt takes M x/Σx² about the other end. H is a share of the boat's weight that the caller gives.
    ///
    /// # Errors
    /// When a figure is out of range or all bolts stand in one place.
    pub fn grounding(&self, boat_kg: f64, share_of_weight: f64, height_mm: f64) -> Result<Case, Fault> {
        self.checked()?;
        let boat = Fault::between("boat_kg", boat_kg, self.ballast_kg, 2_000_000.0)?;
        let share = Fault::between("grounding_share", share_of_weight, 0.01, 10.0)?;
        let height = Fault::between("grounding_height_mm", height_mm, 1.0, 8000.0)?;
        let force = boat * GRAVITY_M_S2 * share;
        let last = self.positions_mm.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let first = self.positions_mm.iter().copied().fold(f64::INFINITY, f64::min);
        if last - first < 1.0 {
            return Err(Fault::Meaningless(
                "All bolts stand in one place: a blow along the keel cannot be reckoned.".to_owned(),
            ));
        }
        let moment = force * height;
        // Positions count from forward: a blow aft at the toe lifts the forward bolts about the after end of the joint.
        let arms: Vec<f64> = self.positions_mm.iter().map(|x| last - x).collect();
        let squares: f64 = arms.iter().map(|x| x * x).sum();
        let tensions_n: Vec<f64> = arms.iter().map(|x| moment * x / squares).collect();
        Ok(Case {
            name: "grounding",
            greatest_n: tensions_n.iter().copied().fold(0.0, f64::max),
            tensions_n,
            shear_n: force,
            assumptions: vec![
                format!(
                    "A force of {share} times the boat's weight acts straight aft on the toe, {height:.0} mm below the joint. \
                     The share is the caller's, not a standard's."
                ),
                "The ballast is stiff and turns about the after end of the bolts; the forward bolts are lifted in proportion \
                 to their distance from it (positions count from forward)."
                    .to_owned(),
                "The joint behind the after bolts, floors and deadwood carry nothing more; the ballast's weight is left out."
                    .to_owned(),
            ],
        })
    }

    /// Distance of each bolt from the line the joint turns about, mm; with two rows the windward first, bolt by bolt.
    fn arms_mm(&self) -> Vec<f64> {
        let pivot = self.joint_mm / 2.0 * (1.0 - self.crushed_share);
        if self.half_row_mm == 0.0 {
            return vec![pivot; self.positions_mm.len()];
        }
        (0..self.positions_mm.len())
            .map(|i| if i % 2 == 0 { pivot + self.half_row_mm } else { pivot - self.half_row_mm })
            .collect()
    }
}
