//! The shell laid flat: seams and frames as lines on a plane, from lines known or from counts alone.

use crate::{Along, HullError, Patch};

/// What a layout rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Counts of strakes and frames only: shapes and widths are invented so that there is something to mark on.
    Schematic,
    /// A hull fitted to a few measured lengths, girths and half-breadths.
    Measured,
    /// A table of offsets.
    Offsets,
}

/// One frame: what it is called on this boat and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// Name as the survey uses it, usually its number from forward.
    pub name: String,
    /// Distance abaft the foremost point of the stem, in metres.
    pub from_stem_m: f64,
}

impl Frame {
    /// Returns frames numbered from 1, evenly spaced between two distances abaft the stem.
    pub fn evenly(count: usize, first_m: f64, last_m: f64) -> Vec<Frame> {
        let step = if count > 1 { (last_m - first_m) / (count - 1) as f64 } else { 0.0 };
        (0..count).map(|i| Frame { name: (i + 1).to_string(), from_stem_m: first_m + step * i as f64 }).collect()
    }
}

/// The shell of one side laid flat. Along: metres abaft the stem. Up: girth in metres from the rabbet. Both
/// sides are alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// What it rests on.
    pub basis: Basis,
    /// Length over the planking, in metres.
    pub length_m: f64,
    /// Frames, from forward.
    pub frames: Vec<Frame>,
    /// The load waterline, as (along, up); empty when not known.
    pub waterline: Vec<(f64, f64)>,
    /// Seams from the rabbet (0) to the sheer (last), each sampled at the same number of points, stem to stern.
    seams: Vec<Vec<(f64, f64)>>,
}

impl Layout {
    /// Returns a layout from seams already laid flat: rabbet first, sheer last, all sampled alike from stem to
    /// stern with the distance along growing.
    pub(crate) fn from_seams(basis: Basis, seams: Vec<Vec<(f64, f64)>>, frames: Vec<Frame>) -> Layout {
        let length_m = seams.iter().flatten().map(|p| p.0).fold(0.0, f64::max);
        Layout { basis, length_m, frames, waterline: Vec::new(), seams }
    }

    /// Returns a layout drawn from counts alone: a shape like a boat's, with equal strakes and even frames.
    ///
    /// # Errors
    /// Refuses a length outside 1 to 200 m, fewer than 1 or more than 60 strakes, more than 400 frames.
    pub fn schematic(length_m: f64, strakes: usize, frames: usize) -> Result<Layout, HullError> {
        if !(1.0..=200.0).contains(&length_m) {
            return Err(HullError::value("The length over all in metres", length_m, "1 to 200"));
        }
        check_strakes(strakes)?;
        if frames > 400 {
            return Err(HullError::value("The number of frames", frames, "0 to 400"));
        }
        let samples = 61;
        let seams = (0..=strakes).map(|k| {
            let share = k as f64 / strakes as f64;
            let fore = 0.11 * length_m * libm::pow(1.0 - share, 1.6);
            let aft = length_m * (1.0 - 0.05 * (1.0 - share));
            let along = (0..samples).map(|i| f64::from(i) / f64::from(samples - 1));
            along
                .map(|t| {
                    // Girth of an invented boat: fullest a little abaft the middle, less at stem and stern.
                    let girth =
                        if t < 0.55 { 1.0 - 0.42 * (1.0 - t / 0.55).powi(2) } else { 1.0 - 1.25 * (t - 0.55).powi(2) };
                    (fore + (aft - fore) * t, 0.3 * length_m * girth * share)
                })
                .collect()
        });
        let seams = seams.collect();
        let frames = Frame::evenly(frames, 0.07 * length_m, 0.95 * length_m);
        Ok(Layout { length_m, ..Layout::from_seams(Basis::Schematic, seams, frames) })
    }

    /// Returns the number of strakes.
    pub fn strakes(&self) -> usize {
        self.seams.len() - 1
    }

    /// Returns a seam's points (along, up) from stem to stern; seam 0 is the rabbet, the last is the sheer.
    pub fn seam(&self, seam: usize) -> Option<&[(f64, f64)]> {
        self.seams.get(seam).map(Vec::as_slice)
    }

    /// Returns the distance abaft the stem of a place along the boat; the ends as limits.
    ///
    /// # Errors
    /// Refuses a frame that the boat does not have.
    pub fn from_stem_m(&self, along: Along) -> Result<f64, HullError> {
        match along {
            Along::Stem => Ok(0.0),
            Along::Stern => Ok(self.length_m),
            Along::FromStemM(m) if m.is_finite() => Ok(m),
            Along::FromStemM(m) => Err(HullError::value("The distance from the stem in metres", m, "a number")),
            Along::Frame(number) => frame_to_m(&self.frames, number),
        }
    }

    /// Returns the frame number at a distance abaft the stem, with a fraction between frames; none beyond them.
    pub fn frame_at(&self, from_stem_m: f64) -> Option<f64> {
        m_to_frame(&self.frames, from_stem_m)
    }

    /// Returns the point (along, up) on a strake, `across` being 0 at its lower edge and 1 at its upper, at a
    /// distance abaft the stem; none where the strake does not reach.
    pub fn point(&self, strake: usize, across: f64, from_stem_m: f64) -> Option<(f64, f64)> {
        let line = self.line_in(strake, across)?;
        at_along(&line, from_stem_m)
    }

    /// Returns the strake and share across it at a point of the layout; none off the shell.
    pub fn locate(&self, from_stem_m: f64, up_m: f64) -> Option<(usize, f64)> {
        for strake in 1..=self.strakes() {
            let (low, high) =
                (at_along(&self.seams[strake - 1], from_stem_m), at_along(&self.seams[strake], from_stem_m));
            let Some(high) = high else { continue };
            // Near a raked stem the lower seam ends before this point: the hood end closes the strake.
            let low = low.map(|p| p.1).or_else(|| self.end_up(strake, from_stem_m)).unwrap_or(0.0);
            if up_m >= low - 1e-9 && up_m <= high.1 + 1e-9 {
                // Shares are counted between points of one sample, which lean with stem and stern: found by halving.
                let (mut a, mut b) = (0.0, 1.0);
                for _ in 0..50 {
                    let middle = 0.5 * (a + b);
                    let below = self.point(strake, middle, from_stem_m).is_none_or(|p| p.1 < up_m);
                    if below { a = middle } else { b = middle }
                }
                return Some((strake, 0.5 * (a + b)));
            }
        }
        None
    }

    /// Returns the line of a frame or station from the rabbet (or stem) up to the sheer.
    pub fn section(&self, from_stem_m: f64) -> Vec<(f64, f64)> {
        let mut line = Vec::new();
        for strake in 1..=self.strakes() {
            if strake == 1
                && let Some(point) = at_along(&self.seams[0], from_stem_m)
            {
                line.push(point);
            }
            let Some(high) = at_along(&self.seams[strake], from_stem_m) else { continue };
            if line.is_empty()
                && let Some(up) = self.end_up(strake, from_stem_m)
            {
                line.push((from_stem_m, up));
            }
            line.push(high);
        }
        line
    }

    /// Returns the outline of a patch of planking; empty when it lies off the shell.
    ///
    /// # Errors
    /// Refuses strakes and frames that the boat does not have.
    pub fn outline(&self, patch: &Patch) -> Result<Vec<(f64, f64)>, HullError> {
        let (first, last) = (patch.strake.min(patch.to_strake), patch.strake.max(patch.to_strake));
        if first < 1 || last > self.strakes() {
            let accepted = format!("1 (the garboard) to {}", self.strakes());
            return Err(HullError::value("The strake", if first < 1 { first } else { last }, accepted));
        }
        let (mut from, mut to) = (self.from_stem_m(patch.from)?, self.from_stem_m(patch.to)?);
        if from > to {
            (from, to) = (to, from);
        }
        let (Some(low), Some(high)) = (self.line_in(first, patch.low), self.line_in(last, patch.high)) else {
            return Ok(Vec::new());
        };
        let mut outline = cut(&low, from, to);
        let mut upper = cut(&high, from, to);
        if outline.is_empty() && upper.is_empty() {
            return Ok(Vec::new());
        }
        upper.reverse();
        outline.extend(upper);
        Ok(outline)
    }

    /// Returns the middle of a patch of planking.
    ///
    /// # Errors
    /// Refuses strakes and frames that the boat does not have, and places beyond the strake's ends.
    pub fn middle(&self, patch: &Patch) -> Result<(f64, f64), HullError> {
        let (from, to) = (self.from_stem_m(patch.from)?, self.from_stem_m(patch.to)?);
        let middle = 0.5 * (patch.strake + patch.to_strake) as f64 - 1.0 + 0.5 * (patch.low + patch.high);
        let strake = (middle.floor() as usize + 1).clamp(1, self.strakes());
        let across = (middle - (strake - 1) as f64).clamp(0.0, 1.0);
        let line = self.line_in(strake, across).ok_or_else(|| self.no_strake(strake))?;
        let x = match (line.first(), line.last()) {
            (Some(a), Some(b)) => (0.5 * (from.clamp(a.0, b.0) + to.clamp(a.0, b.0))).clamp(a.0, b.0),
            _ => from,
        };
        at_along(&line, x).ok_or_else(|| self.no_strake(strake))
    }

    fn no_strake(&self, strake: usize) -> HullError {
        HullError::value("The strake", strake, format!("1 (the garboard) to {}", self.strakes()))
    }

    /// Returns the line along a strake at a share of its width.
    fn line_in(&self, strake: usize, across: f64) -> Option<Vec<(f64, f64)>> {
        let (low, high) = (self.seams.get(strake.checked_sub(1)?)?, self.seams.get(strake)?);
        let mix = |a: f64, b: f64| a + across * (b - a);
        Some(low.iter().zip(high).map(|(a, b)| (mix(a.0, b.0), mix(a.1, b.1))).collect())
    }

    /// Returns how far up the hood end of a strake lies at a distance abaft the stem, when it passes there.
    fn end_up(&self, strake: usize, from_stem_m: f64) -> Option<f64> {
        let (low, high) = (self.seams.get(strake - 1)?, self.seams.get(strake)?);
        let ends = [(low.first()?, high.first()?), (low.last()?, high.last()?)];
        ends.into_iter().find_map(|(a, b)| {
            let span = b.0 - a.0;
            let share = (from_stem_m - a.0) / span;
            (span.abs() > 1e-12 && (0.0..=1.0).contains(&share)).then_some(a.1 + share * (b.1 - a.1))
        })
    }
}

pub(crate) fn check_strakes(strakes: usize) -> Result<(), HullError> {
    if (1..=60).contains(&strakes) {
        Ok(())
    } else {
        Err(HullError::value("The number of strakes a side", strakes, "1 to 60"))
    }
}

/// Returns the distance abaft the stem of a frame number with a fraction.
pub(crate) fn frame_to_m(frames: &[Frame], number: f64) -> Result<f64, HullError> {
    let whole = number.floor();
    let refuse = || HullError::value("The frame", number, format!("1 to {}", frames.len()));
    if !(number >= 1.0 && number <= frames.len() as f64) {
        return Err(refuse());
    }
    let here = frames.get(whole as usize - 1).ok_or_else(refuse)?.from_stem_m;
    let next = frames.get(whole as usize).map_or(here, |f| f.from_stem_m);
    Ok(here + (number - whole) * (next - here))
}

/// Returns the frame number, with a fraction, at a distance abaft the stem.
pub(crate) fn m_to_frame(frames: &[Frame], from_stem_m: f64) -> Option<f64> {
    for (i, pair) in frames.windows(2).enumerate() {
        let (a, b) = (pair[0].from_stem_m, pair[1].from_stem_m);
        if from_stem_m >= a && from_stem_m <= b && b > a {
            return Some((i + 1) as f64 + (from_stem_m - a) / (b - a));
        }
    }
    None
}

/// Returns the point of a line at a distance along; none beyond its ends.
fn at_along(line: &[(f64, f64)], x: f64) -> Option<(f64, f64)> {
    let (first, last) = (line.first()?, line.last()?);
    if x < first.0 - 1e-9 || x > last.0 + 1e-9 {
        return None;
    }
    let i = line.partition_point(|p| p.0 < x).clamp(1, line.len() - 1);
    let (a, b) = (line[i - 1], line[i]);
    let share = if b.0 - a.0 > 1e-12 { ((x - a.0) / (b.0 - a.0)).clamp(0.0, 1.0) } else { 0.0 };
    Some((x, a.1 + share * (b.1 - a.1)))
}

/// Returns the part of a line between two distances along.
fn cut(line: &[(f64, f64)], from: f64, to: f64) -> Vec<(f64, f64)> {
    let (Some(first), Some(last)) = (line.first(), line.last()) else { return Vec::new() };
    if to < first.0 || from > last.0 {
        return Vec::new();
    }
    let (from, to) = (from.max(first.0), to.min(last.0));
    let mut out: Vec<(f64, f64)> = at_along(line, from).into_iter().collect();
    out.extend(line.iter().filter(|p| p.0 > from && p.0 < to));
    out.extend(at_along(line, to));
    out
}
