//! How many strakes and frames she has, as far as the record says.

use crate::State;

impl State {
    /// Returns her strakes a side: from her shape, else from her own counts.
    pub fn strakes(&self) -> Option<u32> {
        let of_form = self.hull_form().and_then(|form| form.payload.strakes);
        of_form.or_else(|| self.vessel()?.payload.counts.get("strakes").copied())
    }

    /// Returns her frames, counted from the stem: from her shape, else the sum of her own counts of frames by kind.
    /// Sisters and web frames stand beside the others and are not counted again.
    pub fn frames(&self) -> Option<u32> {
        let of_form = self.hull_form().and_then(|form| form.payload.frames);
        of_form.or_else(|| {
            let vessel = self.vessel()?;
            let kinds = ["frame-steamed", "frame-sawn", "frame-laminated", "frame-steel", "frame-ply"];
            let counts: Vec<u32> = kinds.iter().filter_map(|kind| vessel.payload.counts.get(*kind).copied()).collect();
            (!counts.is_empty()).then(|| counts.iter().fold(0u32, |sum, n| sum.saturating_add(*n)))
        })
    }
}
