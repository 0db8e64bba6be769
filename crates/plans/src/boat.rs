//! The lines that the plans are drawn on: from what the record says of her shape.

use hull::measured::{MeasuredSection, Particulars, fit};
use hull::sheets::{BackboneParts, Outline};
use hull::{Basis, Expansion, Fairing, Frame, Layout, Lining, Offsets, Stern, Surface};
use survey::payload::{HullForm, Vessel};
use survey::{State, members_of};

/// Her shape as far as the record tells it, for all sheets of one survey.
#[derive(Clone, Debug)]
pub(crate) struct Boat {
    /// Her shell laid flat, when her strakes are counted.
    pub layout: Option<Layout>,
    /// Profile, deck line and transom.
    pub outline: Outline,
    /// Her frames; none when they are not counted.
    pub frames: Vec<Frame>,
    /// Deck beams, when they are counted.
    pub beams: Option<usize>,
    /// What of the backbone she has.
    pub backbone: BackboneParts,
    /// Whether she has a transom.
    pub has_transom: bool,
    /// Her planking on its surface, when her shape is known.
    pub expansion: Option<Expansion>,
    /// First and last strake at the turn of the bilge amidships, when her shape is known.
    pub bilge: Option<(usize, usize)>,
    /// What was assumed, and why better lines were not used, in sentences.
    pub said: Vec<String>,
}

/// Share of the draft at which the rabbet is taken to lie below the waterline when only the draft is known: with a
/// ballast keel below the wood keel, and without. Common practice, no source.
const RABBET_WITH_BALLAST: f64 = 0.55;
const RABBET_WITHOUT: f64 = 0.85;

impl Boat {
    /// Returns her shape; none while not even her length is known.
    pub(crate) fn of(state: &State) -> Option<Boat> {
        let vessel = state.vessel()?.payload.clone();
        let form = state.hull_form().map(|form| form.payload.clone()).unwrap_or_default();
        let mut said = Vec::new();
        let (surface, waterline_m) = match surface(&vessel, &form, state, &mut said) {
            Some((surface, basis, waterline_m)) => (Some((surface, basis)), waterline_m),
            None => (None, None),
        };
        let length_m = surface.as_ref().map(|(s, _)| s.length_m()).or(vessel.length_mm.map(|mm| mm / 1000.0))?;
        let frames = frames(state, &form, length_m);
        let (mut bilge, mut expansion) = (None, None);
        let layout = state.strakes().and_then(|strakes| {
            let lined = surface.as_ref().and_then(|(surface, basis)| {
                let lining = Lining::Equal { strakes: strakes as usize };
                let boat = Expansion::new(surface.clone(), &lining, frames.clone()).ok()?;
                let mut layout = boat.layout(*basis);
                bilge = turn_of_bilge(&boat);
                layout.waterline = waterline_m.map(|z| boat.level_line(z)).unwrap_or_default();
                expansion = Some(boat);
                Some(layout)
            });
            lined.or_else(|| Layout::schematic(length_m, strakes as usize, frames.len()).ok())
        });
        let mut outline = match &surface {
            Some((surface, basis)) => Outline::of(surface, *basis, waterline_m),
            None => Outline::schematic(length_m).ok()?,
        };
        let members = members_of(state);
        let has = |id: &str| members.iter().any(|m| m.id == id);
        let stern = vessel.stern.as_deref().map(str::to_lowercase).unwrap_or_default();
        let has_transom = has("transom") && !stern.contains("double");
        if !has_transom {
            outline.transom.clear();
        }
        let frames = match &layout {
            // A schematic shell has its own even frames.
            Some(layout) if layout.basis == Basis::Schematic => layout.frames.clone(),
            _ => frames,
        };
        let count = |id: &str| members.iter().find(|m| m.id == id).and_then(|m| m.count).map(|n| n as usize);
        let backbone = BackboneParts {
            keel_bolts: has("ballast-keel").then(|| count("keel-bolt").unwrap_or(0)),
            rudder: has("rudder-blade"),
            keel_depth_m: None,
        };
        Some(Boat { layout, outline, frames, beams: count("beam"), backbone, has_transom, expansion, bilge, said })
    }
}

/// Slopes of a section, up from the level, between which it is called the turn of the bilge. Common practice, no source.
const TURN_DEG: std::ops::RangeInclusive<f64> = 25.0..=65.0;

/// Returns the strakes at the turn of the bilge amidships, the garboard never among them.
fn turn_of_bilge(boat: &Expansion) -> Option<(usize, usize)> {
    let amidships = boat.surface().length_m() / 2.0;
    let slope_deg = |strake: usize| -> Option<f64> {
        let edge = |across: f64| boat.spot(strake, across, amidships).ok().map(|spot| spot.point);
        let (low, high) = (edge(0.05)?, edge(0.95)?);
        Some((high.z_m - low.z_m).atan2((high.y_m - low.y_m).abs()).to_degrees())
    };
    let turned: Vec<usize> =
        (2..=boat.strakes()).filter(|strake| slope_deg(*strake).is_some_and(|deg| TURN_DEG.contains(&deg))).collect();
    Some((*turned.first()?, *turned.last()?))
}

/// Returns her frames, numbered from 1 at the stem: at the spacing measured when there is one, else evenly.
fn frames(state: &State, form: &HullForm, length_m: f64) -> Vec<Frame> {
    let count = state.frames().map_or(0, |n| n.min(400) as usize);
    let run = |spacing: f64| spacing / 1000.0 * (count.max(1) - 1) as f64;
    match form.frame_spacing_mm.filter(|s| *s > 0.0 && run(*s) < length_m) {
        Some(spacing) => {
            let first = form.first_frame_mm.map_or((length_m - run(spacing)) / 2.0, |mm| mm / 1000.0);
            let first = first.clamp(0.0, length_m - run(spacing));
            Frame::evenly(count, first, first + run(spacing))
        }
        None => Frame::evenly(count, 0.07 * length_m, 0.95 * length_m),
    }
}

/// Returns her surface from a table of offsets, or fitted to what was measured, and the height of the waterline in it.
fn surface(
    vessel: &Vessel,
    form: &HullForm,
    state: &State,
    said: &mut Vec<String>,
) -> Option<(Surface, Basis, Option<f64>)> {
    if let Some(text) = &form.offsets {
        match Offsets::read(text).and_then(|o| o.surface(Fairing::default()).map(|s| (s, o.waterline_m))) {
            Ok((surface, waterline_m)) => return Some((surface, Basis::Offsets, waterline_m)),
            Err(fault) => said.push(format!("Her table of offsets could not be used: {fault}.")),
        }
    }
    let particulars = particulars(vessel, form, state, said)?;
    match fit(&particulars) {
        Ok(fitted) => Some((fitted.surface, Basis::Measured, Some(0.0))),
        Err(fault) => {
            said.push(format!("No hull could be fitted to what was measured: {fault}."));
            None
        }
    }
}

fn particulars(vessel: &Vessel, form: &HullForm, state: &State, said: &mut Vec<String>) -> Option<Particulars> {
    let m = |mm: Option<f64>| mm.map(|mm| mm / 1000.0);
    let (bow, middle, stern_height) = form.freeboards_mm?;
    let (length_m, beam_m, draft_m) = (m(vessel.length_mm)?, m(vessel.beam_mm)?, m(vessel.draft_mm)?);
    if form.girths_mm.is_empty() {
        return None;
    }
    let words = vessel.stern.as_deref().map(str::to_lowercase).unwrap_or_default();
    let (stern, half) = if words.contains("counter") {
        (Stern::Counter, 0.16)
    } else if words.contains("transom") {
        (Stern::Transom, 0.34)
    } else {
        (Stern::DoubleEnded, 0.0)
    };
    let ballast = members_of(state).iter().any(|member| member.id == "ballast-keel");
    let share = if ballast { RABBET_WITH_BALLAST } else { RABBET_WITHOUT };
    let waterline_length_m = m(vessel.waterline_length_mm).unwrap_or(0.88 * length_m);
    said.push(format!(
        "Assumed for want of measurements: the rabbet's lowest point {:.2} m below the waterline, {:.0} % of her draft{}{}.",
        share * draft_m,
        share * 100.0,
        if half > 0.0 { ", the width of her stern" } else { "" },
        if vessel.waterline_length_mm.is_none() { ", the length of her waterline" } else { "" },
    ));
    let near_end = |x: f64| x <= 0.03 * length_m || x >= 0.97 * length_m;
    let sections = form.girths_mm.iter().map(|(x, girth)| MeasuredSection {
        from_stem_m: x / 1000.0,
        girth_m: Some(girth / 1000.0),
        ..MeasuredSection::default()
    });
    Some(Particulars {
        length_m,
        waterline_length_m,
        beam_m,
        rabbet_draft_m: share * draft_m,
        freeboards_m: [bow / 1000.0, middle / 1000.0, stern_height / 1000.0],
        stern,
        transom_half_breadth_m: half * beam_m,
        stem: Vec::new(),
        stern_profile: Vec::new(),
        sections: sections.filter(|s| !near_end(s.from_stem_m)).collect(),
    })
}
