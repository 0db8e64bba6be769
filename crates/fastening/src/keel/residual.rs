//! What is left of a wasted bolt.

use crate::Fault;
use crate::kinds::Thread;
use crate::metal::Metal;
use core::f64::consts::PI;

/// A bolt's section and strength, left of new.
#[derive(Clone, Debug, PartialEq)]
pub struct Residual {
    /// Area of the waist over that of the new shank, %.
    pub area_percent: f64,
    /// Tension that the bolt can bear over that when new, %. With a thread the weaker of waist and thread counts, so
    /// that the first tenth or so of the shank's diameter costs nothing; without, it is the area.
    pub strength_percent: f64,
    /// Bending strength of the waist over that of the new shank, %: d³.
    pub bending_percent: f64,
    /// Area that governs now, mm².
    pub governing_area_mm2: f64,
    /// Whether the thread governs rather than the waist.
    pub thread_governs: bool,
    /// Tension at ultimate, N, low and high of the metal.
    pub ultimate_n: (f64, f64),
    /// Tension at yield, N, low and high of the metal.
    pub yield_n: (f64, f64),
}

/// Returns what is left of a bolt measured at its least diameter.
///
/// # Errors
/// When the bolt measures larger than new by more than 3 %, or a figure is out of range.
pub fn residual(diameter_mm: f64, measured_mm: f64, thread: Option<&Thread>, metal: &Metal) -> Result<Residual, Fault> {
    let new = Fault::between("diameter_mm", diameter_mm, 2.0, 150.0)?;
    let now = Fault::positive("measured_diameter_mm", measured_mm)?;
    if now > new * 1.03 {
        let why = format!("this is larger than the bolt was new ({new} mm)");
        let accepted = format!("a diameter up to {new} mm, free of scale, or another new diameter");
        return Err(Fault::value("measured_diameter_mm", now, why, accepted));
    }
    if let Some(thread) = thread
        && (thread.nominal_mm - new).abs() > 1.0
    {
        let why = format!("the bolt is {new} mm in diameter");
        return Err(Fault::text("thread", &thread.name, why, "a thread of the bolt's size"));
    }
    let now = now.min(new);
    let area = |d: f64| PI / 4.0 * d * d;
    let thread_area = thread.map_or(f64::INFINITY, Thread::stress_area_mm2);
    let when_new = area(new).min(thread_area);
    let governing = area(now).min(thread_area);
    let at = |(low, high): (f64, f64)| (low * governing, high * governing);
    Ok(Residual {
        area_percent: 100.0 * (now / new).powi(2),
        strength_percent: 100.0 * governing / when_new,
        bending_percent: 100.0 * (now / new).powi(3),
        governing_area_mm2: governing,
        thread_governs: thread_area <= area(now),
        ultimate_n: at(metal.ultimate_mpa),
        yield_n: at(metal.yield_mpa),
    })
}
