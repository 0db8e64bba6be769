//! Draw plans kept in the survey, and how far each has been drawn.
//!
//! A plan is a kept reckoning of the topic `draw-plan`; a draw is an observation that names its pick. Nothing is worked
//! out anew here: which fastenings, and when to stop, stand in the plan as it was kept before the boat was looked at.

use crate::payload::{Observation, Reckoning};
use crate::{DrawnCondition, EntryId, Picked, Place, Reading, Side, State, View};
use serde_json::Value;

/// The topic of a draw plan.
const TOPIC: &str = "draw-plan";

/// A draw plan, and what has been drawn by it.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawPlan {
    /// The reckoning that it is.
    pub id: EntryId,
    /// The member it bears on, when it names one.
    pub member: Option<String>,
    /// Fastenings in all.
    pub population: u64,
    /// Assurance wanted, in per cent.
    pub confidence_percent: f64,
    /// Seed of the picks.
    pub seed: Option<u64>,
    /// Zones; one without a name when the plan has none.
    pub zones: Vec<PlannedZone>,
    /// For x bad, the number drawn at which to stop as acceptable; empty without a stopping plan.
    pub accept_at: Vec<(u64, u64)>,
    /// For x bad, the number drawn up to which to stop as not acceptable.
    pub reject_up_to: Vec<(u64, u64)>,
}

/// A zone of a draw plan.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedZone {
    /// Its name, as the plan has it.
    pub zone: Option<String>,
    /// Fastenings in it.
    pub population: u64,
    /// How many are to be drawn.
    pub to_draw: u64,
    /// Picks in the order of drawing, substitutes last.
    pub picks: Vec<Pick>,
}

/// One fastening picked.
#[derive(Clone, Debug, PartialEq)]
pub struct Pick {
    /// Its number in the zone.
    pub number: u64,
    /// Where it is, when the plan knows; the row from the plank's lower edge in words.
    pub place: Option<Place>,
    /// Whether it is to be taken only for one that would not draw.
    pub substitute: bool,
    /// The observation of its drawing, and how it was found.
    pub drawn: Option<(EntryId, DrawnCondition)>,
}

/// What a stopping plan says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Draw another.
    DrawAnother,
    /// Stop: acceptable by the test that was settled beforehand.
    Acceptable,
    /// Stop: not acceptable by that test.
    NotAcceptable,
    /// All that was agreed is drawn.
    AllDrawn,
}

impl PlannedZone {
    /// Returns how many were drawn, and how many of these were bad. One that would not draw is neither.
    pub fn counted(&self) -> (u64, u64) {
        let came =
            |pick: &&Pick| matches!(pick.drawn, Some((_, condition)) if condition != DrawnCondition::WouldNotDraw);
        let bad = |pick: &&Pick| matches!(pick.drawn, Some((_, condition)) if condition != DrawnCondition::Good);
        let drawn: Vec<&Pick> = self.picks.iter().filter(came).collect();
        (drawn.len() as u64, drawn.into_iter().filter(bad).count() as u64)
    }

    /// Returns the fastening to draw next; none when enough are drawn or the substitutes are used up.
    pub fn next(&self) -> Option<&Pick> {
        let (drawn, _) = self.counted();
        (drawn < self.to_draw).then(|| self.picks.iter().find(|pick| pick.drawn.is_none())).flatten()
    }

    /// Returns the picks that are shown: those to draw, substitutes that were needed, and whatever was drawn.
    pub fn shown(&self) -> impl Iterator<Item = &Pick> {
        let next = self.next().map(|pick| pick.number);
        self.picks.iter().filter(move |p| !p.substitute || p.drawn.is_some() || Some(p.number) == next)
    }
}

impl DrawPlan {
    /// Returns how many were drawn in all, and how many of these were bad.
    pub fn counted(&self) -> (u64, u64) {
        self.zones.iter().map(PlannedZone::counted).fold((0, 0), |a, b| (a.0 + b.0, a.1 + b.1))
    }

    /// Returns how many are to be drawn in all.
    pub fn to_draw(&self) -> u64 {
        self.zones.iter().map(|zone| zone.to_draw).sum()
    }

    /// Tells whether there is a plan for stopping early.
    pub fn may_stop_early(&self) -> bool {
        !(self.accept_at.is_empty() && self.reject_up_to.is_empty())
    }

    /// Returns what to do after what has been drawn.
    pub fn verdict(&self) -> Verdict {
        let (drawn, bad) = self.counted();
        let at = |rows: &[(u64, u64)]| rows.iter().find(|row| row.0 == bad).map(|row| row.1);
        // With more bad than the last row of the table the stop is surer still.
        let most = self.reject_up_to.last().is_some_and(|row| bad > row.0);
        if drawn > 0 && at(&self.accept_at).is_some_and(|n| drawn >= n) {
            Verdict::Acceptable
        } else if drawn > 0 && (most || at(&self.reject_up_to).is_some_and(|n| drawn <= n)) {
            Verdict::NotAcceptable
        } else if self.zones.iter().all(|zone| zone.next().is_none()) {
            Verdict::AllDrawn
        } else {
            Verdict::DrawAnother
        }
    }
}

/// Returns the draw plans kept in a survey, oldest first.
pub fn draw_plans(state: &State) -> Vec<DrawPlan> {
    let kept = state.reckonings().filter(|view| view.payload.topic == TOPIC);
    let mut plans: Vec<DrawPlan> = kept.filter_map(|view| read(&view)).collect();
    for observation in state.observations() {
        put(&mut plans, &observation);
    }
    plans
}

fn put(plans: &mut [DrawPlan], observation: &View<'_, Observation>) {
    let Reading::Draw { condition, picked: Some(Picked { plan, zone, number }), .. } = &observation.payload.reading
    else {
        return;
    };
    let zones = plans.iter_mut().filter(|p| p.id == *plan).flat_map(|p| &mut p.zones);
    let picks = zones.filter(|z| z.zone == *zone).flat_map(|z| &mut z.picks);
    if let Some(pick) = picks.filter(|pick| pick.number == *number).last() {
        pick.drawn = Some((observation.id(), *condition));
    }
}

/// Reads a kept plan; none when no picks were made, for then there is nothing to draw by.
fn read(view: &View<'_, Reckoning>) -> Option<DrawPlan> {
    let kept = view.payload;
    let results = &kept.results;
    let picks = results.get("picks")?.as_array()?;
    let zoned = picks.first()?.is_object();
    let population = results.get("population")?.as_u64()?;
    let zones = if zoned {
        picks.iter().map(|zone| one_zone(zone, zone["zone"].as_str(), population_of(results, &zone["zone"]))).collect()
    } else {
        let mut one = results.clone();
        one["draw"] = results["picks"].clone();
        vec![one_zone(&one, None, population)]
    };
    let pairs = |key: &str| -> Vec<(u64, u64)> {
        let rows = results.get(key).and_then(Value::as_array).into_iter().flatten();
        rows.filter_map(|row| Some((row["bad"].as_u64()?, row["drawn"].as_u64()?))).collect()
    };
    Some(DrawPlan {
        id: view.id(),
        member: kept.member.clone(),
        population,
        confidence_percent: kept.inputs.get("confidence_percent").and_then(Value::as_f64).unwrap_or(95.0),
        seed: kept.inputs.get("seed").and_then(Value::as_u64),
        zones,
        accept_at: pairs("accept_at"),
        reject_up_to: pairs("reject_up_to"),
    })
}

fn population_of(results: &Value, zone: &Value) -> u64 {
    let rows = results.get("allocation").and_then(Value::as_array).into_iter().flatten();
    rows.filter(|row| row["zone"] == *zone).find_map(|row| row["population"].as_u64()).unwrap_or(0)
}

fn one_zone(from: &Value, zone: Option<&str>, population: u64) -> PlannedZone {
    let list = |numbers: &str, places: &str, substitute: bool| -> Vec<Pick> {
        let numbers = from[numbers].as_array().into_iter().flatten().filter_map(Value::as_u64);
        numbers
            .enumerate()
            .map(|(i, number)| Pick { number, place: place(&from[places][i]), substitute, drawn: None })
            .collect()
    };
    let mut picks = list("draw", "places", false);
    let to_draw = picks.len() as u64;
    picks.extend(list("substitutes", "substitute_places", true));
    PlannedZone { zone: zone.map(str::to_owned), population, to_draw, picks }
}

fn place(from: &Value) -> Option<Place> {
    let count = |key: &str| from[key].as_u64().and_then(|n| u32::try_from(n).ok());
    Some(Place {
        side: Some(if from["side"].as_str()? == "port" { Side::Port } else { Side::Starboard }),
        strake: Some(count("strake")?),
        frame_from: Some(count("frame")?),
        words: count("row").map(|row| format!("row {row} from the lower edge")),
        ..Place::default()
    })
}
