//! What a wasted screw still holds, by each part of it, from what was measured after drawing.
//!
//! Derived here from plain mechanics; only the need to check the root in tension is a rule (NDS Commentary
//! 11.2.3).

use crate::Fault;
use crate::gravity::Gravity;
use crate::kinds::WoodScrew;
use crate::metal::Metal;
use crate::withdrawal::{Kind, withdrawal};
use core::f64::consts::PI;

/// A screw drawn and measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drawn {
    /// The screw as it was when new.
    pub new: WoodScrew,
    /// Least diameter over the crests of the thread that is left, mm.
    pub crest_mm: f64,
    /// Least diameter of the root or shank, mm.
    pub root_mm: f64,
    /// Length of thread still sound, mm.
    pub sound_thread_mm: f64,
    /// Diameter of the head, mm.
    pub head_mm: f64,
}

/// What is left of each part, as a share of new.
#[derive(Clone, Debug, PartialEq)]
pub struct Remaining {
    /// Tension at the root: (d/d₀)².
    pub tension: f64,
    /// Thread in the wood: crest diameter times sound length. 0 when the thread is gone.
    pub thread: f64,
    /// Bending of the shank: (d/d₀)³.
    pub bending: f64,
    /// Head: diameter, which is how pull-through goes in thin planks.
    pub head: f64,
    /// Whether the thread is gone, so that the screw is a smooth pin.
    pub is_pin: bool,
    /// The part of which least is left.
    pub weakest: &'static str,
}

/// A force and what gives there.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldingN {
    /// Average ultimate withdrawal of what thread is left, N.
    pub withdrawal_n: f64,
    /// Tension at which the root parts, N, low and high of the metal's strength.
    pub tension_n: (f64, f64),
    /// Force at which the metal thread shears off at the root, N, low and high; rarely governs in wood. Its
    /// factors (0.58 of yield, 0.5 to 0.75 of the pitch) are from memory.
    pub thread_shear_n: (f64, f64),
    /// What gives first at the low ends.
    pub governs: &'static str,
}

/// Returns what is left of a drawn screw.
///
/// # Errors
/// When something measured is larger than new, or the crest is less than the root.
pub fn remaining(drawn: &Drawn) -> Result<Remaining, Fault> {
    check(drawn)?;
    let new = &drawn.new;
    let d = drawn.root_mm.min(new.root_mm()) / new.root_mm();
    let is_pin = drawn.crest_mm - drawn.root_mm < 0.05 * (new.shank_mm() - new.root_mm());
    let thread =
        if is_pin { 0.0 } else { drawn.crest_mm / new.shank_mm() * (drawn.sound_thread_mm / new.thread_mm()).min(1.0) };
    let (tension, bending, head) = (d.powi(2), d.powi(3), (drawn.head_mm / new.head_mm()).min(1.0));
    let parts = [("tension at the root", tension), ("thread in the wood", thread), ("head", head)];
    let least = parts.iter().min_by(|a, b| a.1.total_cmp(&b.1));
    let weakest = least.map_or("tension at the root", |(name, _)| name);
    Ok(Remaining { tension, thread, bending, head, is_pin, weakest })
}

/// Returns the forces that a drawn screw would still hold in sound seasoned wood of a gravity.
///
/// Withdrawal goes with crest diameter and sound length; with the thread gone the screw is a smooth pin and
/// falls to the nail equation on its root.
///
/// # Errors
/// As [`remaining`].
pub fn holding(drawn: &Drawn, gravity: Gravity, metal: &Metal) -> Result<HoldingN, Fault> {
    let left = remaining(drawn)?;
    let length = drawn.sound_thread_mm.max(0.5);
    let (kind, diameter) = if left.is_pin { (Kind::Nail, drawn.root_mm) } else { (Kind::WoodScrew, drawn.crest_mm) };
    let withdrawal_n = withdrawal(kind, diameter.max(0.8), length, gravity)?.ultimate_n;
    let area = PI / 4.0 * drawn.root_mm.powi(2);
    let tension_n = (metal.ultimate_mpa.0 * area, metal.ultimate_mpa.1 * area);
    let shear = |fy: f64, share: f64| 0.58 * fy * PI * drawn.root_mm * length * share;
    let thread_shear_n = (shear(metal.yield_mpa.0, 0.5), shear(metal.yield_mpa.1, 0.75));
    let thread_low = if left.is_pin { f64::INFINITY } else { thread_shear_n.0 };
    let governs = if withdrawal_n <= tension_n.0.min(thread_low) {
        "withdrawal from the wood"
    } else if tension_n.0 <= thread_low {
        "tension at the root"
    } else {
        "shear of the metal thread"
    };
    Ok(HoldingN { withdrawal_n, tension_n, thread_shear_n, governs })
}

fn check(drawn: &Drawn) -> Result<(), Fault> {
    let new = &drawn.new;
    // A millimetre in twenty is allowed for makers' tolerance and the calliper.
    let slack = 1.05;
    let limits = [
        ("crest_mm", drawn.crest_mm, new.shank_mm() * slack),
        ("root_mm", drawn.root_mm, new.shank_mm() * slack),
        ("sound_thread_mm", drawn.sound_thread_mm, new.length_mm),
        ("head_mm", drawn.head_mm, new.head_limits_mm().1 * slack),
    ];
    for (name, value, greatest) in limits {
        if !(value.is_finite() && value >= 0.0) {
            return Err(Fault::value(
                name,
                value,
                "this is not a length",
                format!("a length from 0 to {greatest:.1} mm"),
            ));
        }
        if value > greatest {
            let why = format!("this is more than a new #{} has ({greatest:.1} mm)", new.gauge);
            return Err(Fault::value(name, value, why, "the measured size, or another gauge"));
        }
    }
    if drawn.root_mm <= 0.0 {
        return Err(Fault::value("root_mm", drawn.root_mm, "this must be more than nothing", "a measured diameter"));
    }
    if drawn.crest_mm < drawn.root_mm {
        let why = format!("the crest is less than the root ({} mm)", drawn.root_mm);
        return Err(Fault::value("crest_mm", drawn.crest_mm, why, "the diameter over the thread"));
    }
    Ok(())
}
