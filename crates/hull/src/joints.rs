//! Butts and scarphs of the planking, checked over the whole shell.

use crate::{Frame, HullError, Side, layout::m_to_frame};

/// How two planks of a strake meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum JointKind {
    /// End to end on a block.
    Butt,
    /// On a slope; the slope as length over thickness when measured.
    Scarph {
        /// Length over thickness.
        slope: Option<f64>,
    },
}

/// A joint in the planking.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// What the survey calls it; offenders are named by it.
    pub name: String,
    /// Side.
    pub side: Side,
    /// Strake from the garboard.
    pub strake: usize,
    /// Distance abaft the stem, in metres.
    pub from_stem_m: f64,
    /// Kind.
    pub kind: JointKind,
}

/// Which published rules are held against the shell. All are for new or repaired planking; old construction may have a
/// pattern of its own, and a finding is the surveyor's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RuleChoice {
    /// Frame spacing is usual for the boat's size, so that distances are counted in frame spaces (TB 55 2-13a);
    /// otherwise in metres (2-13b).
    pub usual_spacing: bool,
    /// Ships: the Lake Underwriters' rules of 1866 for butts with one strake between.
    pub ships_1866: bool,
    /// Composite ships: Lloyd's Register 1891 for garboard butts of the two sides.
    pub composite_1891: bool,
    /// Scarphs by figures of Lloyd's yacht rules known only second-hand.
    pub scarphs_second_hand: bool,
    /// Small clinker boats: a builder's rule of three.
    pub clinker_three: bool,
    /// Siding of the frames, in millimetres: a butt nearer to a frame's centre than half of it lies on the frame.
    pub frame_siding_mm: f64,
}

impl Default for RuleChoice {
    fn default() -> Self {
        RuleChoice {
            usual_spacing: true,
            ships_1866: false,
            composite_1891: false,
            scarphs_second_hand: false,
            clinker_three: false,
            frame_siding_mm: 30.0,
        }
    }
}

/// A joint or a pair of joints that does not meet a rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Offence {
    /// Names of the joints.
    pub joints: Vec<String>,
    /// Identity of the rule in the room's table of rules.
    pub rule: &'static str,
    /// What was found and what is asked, in one sentence.
    pub words: String,
    /// Source of the rule.
    pub source: String,
}

/// One rule of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// Identity.
    pub id: String,
    /// What it is about.
    pub subject: String,
    /// The rule in words.
    pub words: String,
    /// Its figure as written, or `-`.
    pub value: String,
    /// Unit of the figure.
    pub unit: String,
    /// When it applies.
    pub applies: String,
    /// Source.
    pub source: String,
    /// `C` when the source's text was seen, else how it is known.
    pub status: String,
}

/// Returns the published rules for butts, scarphs, repairs and measuring, each with its source.
pub fn rules() -> Vec<Rule> {
    let mut reader =
        csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(include_str!("../data/rules.csv").as_bytes());
    reader
        .records()
        .filter_map(|record| {
            let record = record.ok()?;
            let cell = |i: usize| record.get(i).unwrap_or_default().to_owned();
            Some(Rule {
                id: cell(0),
                subject: cell(1),
                words: cell(2),
                value: cell(3),
                unit: cell(4),
                applies: cell(5),
                source: cell(6),
                status: cell(7),
            })
        })
        .collect()
}

/// Checks all joints against the chosen rules. Hood ends at stem and stern are not butts and must not be given.
///
/// # Errors
/// Refuses strakes below 1 and distances that are not finite.
pub fn check_joints(joints: &[Joint], frames: &[Frame], choice: &RuleChoice) -> Result<Vec<Offence>, HullError> {
    if let Some(bad) = joints.iter().find(|j| j.strake < 1 || !j.from_stem_m.is_finite()) {
        let value = format!("strake {}, {} m", bad.strake, bad.from_stem_m);
        return Err(HullError::value(
            format!("The joint {}", bad.name),
            value,
            "a strake from 1 and a distance in metres",
        ));
    }
    let table = Table(rules());
    let mut offences = Vec::new();
    let butts: Vec<&Joint> = joints.iter().filter(|j| j.kind == JointKind::Butt).collect();
    let scarphs: Vec<&Joint> = joints.iter().filter(|j| j.kind != JointKind::Butt).collect();

    for butt in &butts {
        let half = choice.frame_siding_mm / 2000.0;
        if let Some(frame) = frames.iter().find(|f| (f.from_stem_m - butt.from_stem_m).abs() < half) {
            let words = format!(
                "Butt {} ({} strake {}) lies on frame {}; butts go between frames, on butt blocks.",
                butt.name, butt.side, butt.strake, frame.name
            );
            offences.push(table.offence("butt-not-on-frame", &[butt], words));
        }
    }
    for (i, a) in butts.iter().enumerate() {
        for b in &butts[i + 1..] {
            if a.side == b.side {
                pair(a, b, frames, choice, &table, &mut offences);
            } else if choice.composite_1891 && a.strake == 1 && b.strake == 1 {
                let apart = (a.from_stem_m - b.from_stem_m).abs();
                let least = table.figure("garboard-butt-opposite");
                if apart < least {
                    let words = format!(
                        "Garboard butts {} and {} of the two sides are {apart:.2} m apart; asked for is {least} m.",
                        a.name, b.name
                    );
                    offences.push(table.offence("garboard-butt-opposite", &[a, b], words));
                }
            }
        }
    }
    if choice.scarphs_second_hand {
        for scarph in &scarphs {
            let least = table.figure("scarph-plank-lr");
            if let JointKind::Scarph { slope: Some(slope) } = scarph.kind
                && slope < least
            {
                let words = format!(
                    "Scarph {} ({} strake {}) is {slope:.1} times the thickness long; asked for is {least}.",
                    scarph.name, scarph.side, scarph.strake
                );
                offences.push(table.offence("scarph-plank-lr", &[scarph], words));
            }
        }
        for (i, a) in scarphs.iter().enumerate() {
            for b in scarphs[i + 1..].iter().filter(|b| b.side == a.side) {
                let apart = (a.from_stem_m - b.from_stem_m).abs();
                let between = a.strake.abs_diff(b.strake);
                let least = table.figure("scarph-plank-adjacent-lr");
                if between == 1 && apart < least {
                    let words = format!(
                        "Scarphs {} and {} in neighbouring strakes {} and {} {} are {apart:.2} m apart; asked for is {least} m.",
                        a.name, b.name, a.strake, b.strake, a.side
                    );
                    offences.push(table.offence("scarph-plank-adjacent-lr", &[a, b], words));
                }
                let planks = table.figure("scarph-plank-plane-lr") as usize;
                if between > 1 && between <= planks && same_bay(a, b, frames) {
                    let words = format!(
                        "Scarphs {} and {} ({} strakes {} and {}) lie in one bay with {} strakes between; asked for are {planks}.",
                        a.name,
                        b.name,
                        a.side,
                        a.strake,
                        b.strake,
                        between - 1
                    );
                    offences.push(table.offence("scarph-plank-plane-lr", &[a, b], words));
                }
            }
        }
    }
    Ok(offences)
}

fn pair(a: &Joint, b: &Joint, frames: &[Frame], choice: &RuleChoice, table: &Table, offences: &mut Vec<Offence>) {
    let between = a.strake.abs_diff(b.strake);
    let apart = (a.from_stem_m - b.from_stem_m).abs();
    let spaces = frame_spaces(a, b, frames);
    let who = format!("{} and {} ({} strakes {} and {})", a.name, b.name, a.side, a.strake, b.strake);
    if between == 1 {
        match (choice.usual_spacing, spaces) {
            (true, Some(spaces)) => {
                let least = table.figure("butt-adjacent-frames");
                if spaces < least - 1e-9 {
                    let words = format!(
                        "Butts {who} are {spaces:.1} frame spaces ({apart:.2} m) apart in neighbouring strakes; asked for are {least}."
                    );
                    offences.push(table.offence("butt-adjacent-frames", &[a, b], words));
                }
            }
            _ => {
                let least = table.figure("butt-adjacent-length");
                if apart < least {
                    let words =
                        format!("Butts {who} are {apart:.2} m apart in neighbouring strakes; asked for is {least} m.");
                    offences.push(table.offence("butt-adjacent-length", &[a, b], words));
                }
            }
        }
    }
    if between == 2 && choice.ships_1866 {
        let least = table.figure("butt-one-strake-between-length");
        if apart < least {
            let words = format!("Butts {who} are {apart:.2} m apart with one strake between; asked for is {least} m.");
            offences.push(table.offence("butt-one-strake-between-length", &[a, b], words));
        }
    }
    let solid = table.figure("butt-same-bay-strakes") as usize;
    if between > 1 && between <= solid && same_bay(a, b, frames) {
        let words = format!(
            "Butts {who} lie in one frame bay with {} strake{} between; asked for are {solid}.",
            between - 1,
            if between == 2 { "" } else { "s" }
        );
        offences.push(table.offence("butt-same-bay-strakes", &[a, b], words));
    }
    if choice.clinker_three {
        let three = table.figure("butt-rule-of-three");
        if between > 0 && (between as f64) < three && spaces.is_some_and(|s| s < three - 1e-9) {
            let words = format!("Joints {who} are nearer than three planks and three frame spaces.");
            offences.push(table.offence("butt-rule-of-three", &[a, b], words));
        }
    }
}

fn frame_spaces(a: &Joint, b: &Joint, frames: &[Frame]) -> Option<f64> {
    Some((m_to_frame(frames, a.from_stem_m)? - m_to_frame(frames, b.from_stem_m)?).abs())
}

fn same_bay(a: &Joint, b: &Joint, frames: &[Frame]) -> bool {
    let bay = |j: &Joint| m_to_frame(frames, j.from_stem_m).map(f64::floor);
    bay(a).is_some() && bay(a) == bay(b)
}

struct Table(Vec<Rule>);

impl Table {
    fn figure(&self, id: &str) -> f64 {
        self.0.iter().find(|r| r.id == id).and_then(|r| r.value.parse().ok()).unwrap_or(f64::NAN)
    }

    fn offence(&self, id: &'static str, joints: &[&Joint], words: String) -> Offence {
        let rule = self.0.iter().find(|r| r.id == id);
        let source =
            rule.map_or_else(String::new, |r| format!("{} ({}; applies to: {})", r.source, r.status, r.applies));
        Offence { joints: joints.iter().map(|j| j.name.clone()).collect(), rule: id, words, source }
    }
}
