//! Wood screws by gauge.

use crate::Fault;
use crate::table_text::{mark, number, rows};
use crate::unit::IN_MM;
use std::sync::LazyLock;
use timber::Mark;

/// A flat-headed wood screw of a gauge and length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WoodScrew {
    /// Gauge number.
    pub gauge: u32,
    /// Length over all in mm; of a flat head the whole length.
    pub length_mm: f64,
    size: Size,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Size {
    gauge: u32,
    shank_mm: f64,
    root_mm: f64,
    root_mark: Mark,
    head_mm: f64,
    head_least_mm: f64,
    head_greatest_mm: f64,
    threads_per_in: Option<f64>,
    tabled: bool,
}

impl WoodScrew {
    /// Returns a screw of a gauge. Gauges 6 to 10, the even ones from 12 to 20, and 24 have published roots and
    /// heads; others are made up by rule and [`WoodScrew::is_tabled`] is false.
    ///
    /// # Errors
    /// When the gauge is over 32 or the length is not that of a screw.
    pub fn of_gauge(gauge: u32, length_mm: f64) -> Result<Self, Fault> {
        let length_mm = Fault::between("length_mm", length_mm, 3.0, 300.0)?;
        if gauge > 32 {
            return Err(Fault::value(
                "gauge",
                f64::from(gauge),
                "no wood screw has this gauge",
                "a gauge from 0 to 32",
            ));
        }
        let size = table().iter().find(|size| size.gauge == gauge).copied().unwrap_or_else(|| by_rule(gauge));
        Ok(Self { gauge, length_mm, size })
    }

    /// Returns the screw of the table whose shank is nearest to a measured one, when within a quarter of a
    /// millimetre.
    ///
    /// # Errors
    /// When no gauge is near.
    pub fn of_shank(shank_mm: f64, length_mm: f64) -> Result<Self, Fault> {
        let nearest = table().iter().min_by(|a, b| {
            let (da, db) = ((a.shank_mm - shank_mm).abs(), (b.shank_mm - shank_mm).abs());
            da.total_cmp(&db)
        });
        match nearest {
            Some(size) if (size.shank_mm - shank_mm).abs() <= 0.25 => Self::of_gauge(size.gauge, length_mm),
            _ => Err(Fault::value(
                "diameter_mm",
                shank_mm,
                "this is not the shank of a wood screw of the table",
                "a shank from 3.5 to 9.4 mm within 0.25 mm of a gauge, or a gauge",
            )),
        }
    }

    /// Returns whether root and head are those of a published table.
    pub fn is_tabled(&self) -> bool {
        self.size.tabled
    }

    /// Returns the gauges of the table.
    pub fn gauges() -> Vec<u32> {
        table().iter().map(|size| size.gauge).collect()
    }

    /// Returns the shank's diameter in mm: ASME B18.6.1 basic body, 0.060 + 0.013 N inch (from memory as a
    /// text; agrees with #10 = 0.190 in).
    pub fn shank_mm(&self) -> f64 {
        self.size.shank_mm
    }

    /// Returns the root's diameter under a cut thread in mm, NDS (2018) Appendix L Table L3. A calliper reading
    /// goes before it.
    pub fn root_mm(&self) -> f64 {
        self.size.root_mm
    }

    /// Returns what the root's diameter rests on.
    pub fn root_mark(&self) -> Mark {
        self.size.root_mark
    }

    /// Returns the low end for the root, two thirds of the shank: the average of most sizes by the Wood
    /// Handbook (2010) ch. 8. The two sources differ; a measured root settles it.
    pub fn root_low_mm(&self) -> f64 {
        self.shank_mm() * 2.0 / 3.0
    }

    /// Returns the head's diameter in mm, NDS D_H, the mean of the limits of ASME B18.6.1.
    pub fn head_mm(&self) -> f64 {
        self.size.head_mm
    }

    /// Returns the least and greatest diameter of a flat head in mm, ASME B18.6.1.
    pub fn head_limits_mm(&self) -> (f64, f64) {
        (self.size.head_least_mm, self.size.head_greatest_mm)
    }

    /// Returns the pitch of the thread in mm, ASME B18.6.1, for gauges of the table.
    pub fn pitch_mm(&self) -> Option<f64> {
        self.size.threads_per_in.map(|n| IN_MM / n)
    }

    /// Returns the threaded length in mm: about two thirds of the length (Wood Handbook ch. 8). British
    /// trade rule: 0.6.
    pub fn thread_mm(&self) -> f64 {
        self.length_mm * 2.0 / 3.0
    }

    /// Returns the thread that lies in the frame, in mm, when the head sits so deep in a plank that
    /// `under_head_mm` of wood is left below it.
    pub fn thread_in_frame_mm(&self, under_head_mm: f64) -> f64 {
        (self.length_mm - under_head_mm).clamp(0.0, self.thread_mm())
    }

    /// Returns the diameters of lead holes in mm, (shank, thread): softwood 7/8 and 70 %, hardwood full and
    /// 90 % of the root (NDS Commentary part XI; Wood Handbook ch. 8).
    pub fn lead_holes_mm(&self, hardwood: bool) -> (f64, f64) {
        if hardwood { (self.shank_mm(), 0.9 * self.root_mm()) } else { (0.875 * self.shank_mm(), 0.7 * self.root_mm()) }
    }
}

/// A gauge with no published root and head: shank by the ASME rule, root two thirds of it (Wood Handbook), head
/// (N + 3)/32 inch (British trade rule).
fn by_rule(gauge: u32) -> Size {
    let shank_mm = (0.060 + 0.013 * f64::from(gauge)) * IN_MM;
    let head_mm = f64::from(gauge + 3) / 32.0 * IN_MM;
    Size {
        gauge,
        shank_mm,
        root_mm: shank_mm * 2.0 / 3.0,
        root_mark: Mark::Derived,
        head_mm,
        head_least_mm: head_mm,
        head_greatest_mm: head_mm,
        threads_per_in: None,
        tabled: false,
    }
}

fn table() -> &'static [Size] {
    static TABLE: LazyLock<Vec<Size>> = LazyLock::new(|| {
        let read = |row: csv::StringRecord| {
            Some(Size {
                gauge: row.get(0)?.parse().ok()?,
                shank_mm: number(&row, 1)? * IN_MM,
                root_mm: number(&row, 2)? * IN_MM,
                root_mark: mark(&row, 3)?,
                head_mm: number(&row, 4)? * IN_MM,
                head_least_mm: number(&row, 6)? * IN_MM,
                head_greatest_mm: number(&row, 7)? * IN_MM,
                threads_per_in: number(&row, 8),
                tabled: true,
            })
        };
        rows(include_str!("../../data/screws.csv")).into_iter().filter_map(read).collect()
    });
    &TABLE
}
