//! A hull's lines as points: sections, and the edges in which the planking ends at stem and stern.

/// One section across the boat: points from the keel up, half-breadth and height in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The station's name.
    pub name: String,
    /// Distance aft of the datum, in metres.
    pub x_m: f64,
    /// Points (half-breadth, height), in metres, from the keel up.
    pub points: Vec<(f64, f64)>,
}

/// The edge in which the planking ends: the stem's rabbet, the sternpost's, the edge of a transom or the
/// archboard of a counter.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// Points from below up: distance aft of the datum, half-breadth, height, in metres.
    pub points: Vec<[f64; 3]>,
}

/// What stands at the after end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stern {
    /// The planking ends on a sternpost, as at the stem.
    DoubleEnded,
    /// The planking ends on a transom at the sternpost, upright or raked, flat or curved.
    Transom,
    /// The planking runs out over the water to an archboard or a small transom.
    Counter,
    /// Nothing was said: the last section is taken for the end.
    Unsaid,
}

/// The lines of one side. x is aft, in metres from the table's own datum.
#[derive(Clone, Debug, PartialEq)]
pub struct Lines {
    /// Sections from forward.
    pub sections: Vec<Section>,
    /// The stem's rabbet; without it the foremost section is taken for the end.
    pub bow: Option<Edge>,
    /// The after edge; without it the aftermost section is taken for the end.
    pub stern: Option<Edge>,
    /// What stands at the after end.
    pub stern_kind: Stern,
}

impl Lines {
    /// Returns the lines with everything multiplied by a factor, as for a model.
    pub fn scaled(&self, factor: f64) -> Lines {
        let mut scaled = self.clone();
        for section in &mut scaled.sections {
            section.x_m *= factor;
            for p in &mut section.points {
                *p = (p.0 * factor, p.1 * factor);
            }
        }
        for edge in [&mut scaled.bow, &mut scaled.stern].into_iter().flatten() {
            for p in &mut edge.points {
                *p = [p[0] * factor, p[1] * factor, p[2] * factor];
            }
        }
        scaled
    }

    /// Returns the lines turned end for end: the stern becomes the bow.
    pub fn reversed(&self) -> Lines {
        let mut sections = self.sections.clone();
        sections.reverse();
        for section in &mut sections {
            section.x_m = -section.x_m;
        }
        let turned = |edge: &Option<Edge>| {
            edge.as_ref().map(|e| Edge { points: e.points.iter().map(|p| [-p[0], p[1], p[2]]).collect() })
        };
        Lines { sections, bow: turned(&self.stern), stern: turned(&self.bow), stern_kind: Stern::Unsaid }
    }
}
