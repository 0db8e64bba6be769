//! How the growth rings lie in a plank, and what that does to its width, its thickness and its corners.

use crate::fault::Fault;

/// Angle between the growth rings and the wide face: 0 flat-sawn, 45 rift, 90 quarter-sawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rings {
    /// Share of tangential movement in the width: cos² of the angle, averaged over the width.
    flat_share: f64,
    degrees: f64,
}

impl Rings {
    /// Rings flat with the wide face (plain-sawn, slash-sawn).
    pub const FLAT: Rings = Rings { flat_share: 1.0, degrees: 0.0 };
    /// Rings square to the wide face (edge-grained, vertical grain).
    pub const QUARTER: Rings = Rings { flat_share: 0.0, degrees: 90.0 };
    /// Rings at 45° to the wide face (bastard-sawn).
    pub const RIFT: Rings = Rings { flat_share: 0.5, degrees: 45.0 };

    /// Returns straight rings at an angle to the wide face.
    ///
    /// # Errors
    /// An angle outside 0 to 90°.
    pub fn at_degrees(ring_angle_deg: f64) -> Result<Self, Fault> {
        if !(0.0..=90.0).contains(&ring_angle_deg) {
            return Err(Fault::Value {
                field: "ring_angle_deg",
                value: ring_angle_deg,
                why: "rings meet the wide face at 0 to 90°".to_owned(),
                accepted: "0 (flat-sawn) to 90 (quarter-sawn), degrees".to_owned(),
            });
        }
        let cos = ring_angle_deg.to_radians().cos();
        Ok(Rings { flat_share: cos * cos, degrees: ring_angle_deg })
    }

    /// Returns curved rings of a plank whose wide face lies `height_mm` above the heart and whose middle is
    /// straight above it: cos² of θ(x) = atan(x/h), averaged over the width. A flat-sawn plank near the heart is
    /// partly quarter-sawn at its edges.
    ///
    /// # Errors
    /// A width or height that is not above 0.
    pub fn about_heart(width_mm: f64, height_mm: f64) -> Result<Self, Fault> {
        crate::fault::within("width_mm", width_mm, 1.0, 2000.0, "mm")?;
        crate::fault::within("height_mm", height_mm, 1.0, 1e6, "mm")?;
        let half = width_mm / 2.0;
        let flat_share = height_mm / half * (half / height_mm).atan();
        let degrees = flat_share.sqrt().acos().to_degrees();
        Ok(Rings { flat_share, degrees })
    }

    /// Returns the angle in degrees (for curved rings the straight angle that moves the same).
    pub fn degrees(&self) -> f64 {
        self.degrees
    }

    /// Returns shrinkage across the width from radial and tangential shrinkage, in their unit:
    /// S_T cos²θ + S_R sin²θ (rotation of a small strain; straight parallel rings).
    pub fn across_width(&self, radial: f64, tangential: f64) -> f64 {
        tangential * self.flat_share + radial * (1.0 - self.flat_share)
    }

    /// Returns shrinkage through the thickness: S_T sin²θ + S_R cos²θ.
    pub fn through_thickness(&self, radial: f64, tangential: f64) -> f64 {
        self.across_width(tangential, radial)
    }

    /// Returns by how many degrees a square corner goes out of square ("diamonding") for shrinkages in per cent:
    /// 2 (S_T − S_R)/100 · sinθ cosθ radians. For straight rings.
    pub fn corner_degrees(&self, radial_percent: f64, tangential_percent: f64) -> f64 {
        let t = self.degrees.to_radians();
        (2.0 * (tangential_percent - radial_percent) / 100.0 * t.sin() * t.cos()).to_degrees()
    }

    /// Returns the trade's word: flat-sawn below 30°, rift to 60°, quarter-sawn above (usage varies; from memory).
    pub fn word(&self) -> &'static str {
        match self.degrees {
            d if d < 30.0 => "flat-sawn",
            d if d <= 60.0 => "rift",
            _ => "quarter-sawn",
        }
    }
}
