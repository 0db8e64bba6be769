//! Lining off: where the seams run, as shares of the girth.

use crate::{HullError, layout::check_strakes};

/// Widths of all strakes measured at one station.
#[derive(Clone, Debug, PartialEq)]
pub struct Widths {
    /// Distance abaft the foremost point of the planking, in metres.
    pub from_stem_m: f64,
    /// Widths from the garboard up, in millimetres, all strakes. A stealer that has ended here has width 0.
    pub widths_mm: Vec<f64>,
}

/// How the strakes are lined off.
#[derive(Clone, Debug, PartialEq)]
pub enum Lining {
    /// So many strakes of equal width at every station, tapering with the girth.
    Equal {
        /// Number of strakes a side.
        strakes: usize,
    },
    /// Widths measured at one station or more; between them shares of the girth run fair, beyond them they stay.
    Measured {
        /// The stations.
        stations: Vec<Widths>,
    },
}

impl Lining {
    /// Returns the number of strakes.
    pub fn strakes(&self) -> usize {
        match self {
            Lining::Equal { strakes } => *strakes,
            Lining::Measured { stations } => stations.first().map_or(0, |s| s.widths_mm.len()),
        }
    }

    pub(crate) fn check(&self) -> Result<(), HullError> {
        check_strakes(self.strakes())?;
        let Lining::Measured { stations } = self else { return Ok(()) };
        for s in stations {
            let place = format!("The strake widths {} m abaft the stem", s.from_stem_m);
            if s.widths_mm.len() != self.strakes() {
                return Err(HullError::value(
                    place,
                    format!("{} in number", s.widths_mm.len()),
                    format!("{} widths, as at the first station", self.strakes()),
                ));
            }
            let sound = s.widths_mm.iter().all(|w| w.is_finite() && *w >= 0.0) && s.from_stem_m.is_finite();
            if !sound || s.widths_mm.iter().sum::<f64>() <= 0.0 {
                return Err(HullError::value(place, format!("{:?}", s.widths_mm), "widths of 0 or more, not all 0"));
            }
        }
        Ok(())
    }
}
