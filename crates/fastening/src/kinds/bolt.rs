//! Bolts and their threads.

use crate::Fault;
use crate::table_text::{number, rows, words};
use core::f64::consts::PI;
use std::sync::LazyLock;

/// A bolt.
#[derive(Clone, Debug, PartialEq)]
pub struct Bolt {
    /// Shank's diameter in mm when new.
    pub diameter_mm: f64,
    /// Length in mm.
    pub length_mm: f64,
    /// Thread; `None` for a bolt clenched over rings.
    pub thread: Option<Thread>,
}

/// A screw thread of a bolt.
#[derive(Clone, Debug, PartialEq)]
pub struct Thread {
    /// Name, e.g. `3/4-10 UNC`, `M20`.
    pub name: String,
    /// Nominal diameter in mm.
    pub nominal_mm: f64,
    /// Pitch in mm.
    pub pitch_mm: f64,
}

impl Thread {
    /// Returns the thread of that name (`3/4-10 UNC`, `3/4`, `M20`).
    ///
    /// # Errors
    /// When it is not in the table.
    pub fn named(name: &str) -> Result<Self, Fault> {
        let plain = |s: &str| s.to_lowercase().chars().filter(|c| !c.is_whitespace() && *c != '"').collect::<String>();
        let wanted = plain(name);
        let is_it = |thread: &&Thread| {
            let full = plain(&thread.name);
            let size = full.trim_end_matches("unc");
            let inches = size.rsplit_once('-').map_or(size, |(inches, _)| inches);
            [full.as_str(), size, inches].contains(&wanted.as_str())
        };
        threads().iter().find(is_it).cloned().ok_or_else(|| {
            let names: Vec<_> = threads().iter().map(|thread| thread.name.clone()).collect();
            Fault::text("thread", name, "this thread is not in the table", names.join(", "))
        })
    }

    /// Returns the tensile stress area in mm²: π/4 (d − 0.9382 P)² (ISO 898-1), which for inch threads is
    /// 0.7854 (D − 0.9743/n)² (ASME B1.1).
    pub fn stress_area_mm2(&self) -> f64 {
        let lost = if self.name.starts_with('M') { 0.9382 } else { 0.9743 };
        PI / 4.0 * (self.nominal_mm - lost * self.pitch_mm).powi(2)
    }

    /// Returns the diameter in mm of the plain shank that is as strong in tension as the thread.
    pub fn equivalent_shank_mm(&self) -> f64 {
        (self.stress_area_mm2() * 4.0 / PI).sqrt()
    }
}

/// Returns all threads of the table.
pub fn threads() -> &'static [Thread] {
    static TABLE: LazyLock<Vec<Thread>> = LazyLock::new(|| {
        let read = |row: csv::StringRecord| {
            Some(Thread { name: words(&row, 0)?, nominal_mm: number(&row, 1)?, pitch_mm: number(&row, 2)? })
        };
        rows(include_str!("../../data/bolt-threads.csv")).into_iter().filter_map(read).collect()
    });
    &TABLE
}
