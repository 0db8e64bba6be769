//! What a survey's record already says of the questions that a reckoner asks, so that nobody types it twice.
//!
//! Each answer tells where it is from, because it may be a thing told and not measured; what the record does not say is
//! left open.

use reckon::{FlagKind, Topic};
use survey::State;
use survey::payload::{Conditions, Vessel};
use survey::{Reading, View};

/// An answer to one of a reckoner's questions, from the record.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The reckoner's flag.
    pub flag: &'static str,
    /// What the record says, as it may be typed.
    pub value: String,
    /// Where in the record it stands, in words.
    pub from: String,
}

/// Returns what the record answers of a topic's questions, for one member or for the boat.
pub fn given(state: &State, topic: &'static Topic, member: Option<&str>) -> Vec<Given> {
    let record = Record {
        vessel: state.vessel(),
        conditions: state.conditions().last(),
        group: member.and_then(|id| survey::members_of(state).into_iter().find(|m| m.id == id).map(|m| m.group)),
        state,
        member,
    };
    let asked = topic.flags.iter().filter_map(|flag| {
        let (value, from) = record.answer(topic, flag.name)?;
        // A choice takes only its own words.
        let fits = match &flag.kind {
            FlagKind::Choice(words) => words.contains(&value.as_str()),
            _ => true,
        };
        fits.then_some(Given { flag: flag.name, value, from })
    });
    asked.collect()
}

struct Record<'a> {
    state: &'a State,
    vessel: Option<View<'a, Vessel>>,
    conditions: Option<View<'a, Conditions>>,
    member: Option<&'a str>,
    group: Option<String>,
}

impl Record<'_> {
    fn answer(&self, topic: &Topic, flag: &str) -> Option<(String, String)> {
        match flag {
            "species" => self.species(),
            "frame-species" => self.of_vessel("frame timber", |v| v.frame_species.clone()),
            "thickness-mm" if self.is_of_the_shell() => self
                .measured("thickness")
                .or_else(|| self.of_vessel("plank thickness", |v| in_mm(v.planking_thickness_mm))),
            "measured-gap-mm" => self.measured("seam gap"),
            "bung-mm" => self.measured("bung diameter"),
            "reading-percent" => self.meter(|reading, _| Some(reading)),
            "temp-c" if topic.name == "meter" => self.meter(|_, temp_c| temp_c),
            "temp-c" if matches!(topic.name, "emc" | "drying" | "seam") => self.of_day("air temperature", |c| c.temp_c),
            "rh-percent" => self.of_day("relative humidity", |c| c.rh_percent),
            "days" if matches!(topic.name, "drying" | "seam") => self.days_ashore(),
            "from-month" => {
                let since = self.conditions.as_ref()?.payload.ashore_since?;
                Some((since.month().to_string(), "the month in which she came ashore".to_owned()))
            }
            "area" => self.area(),
            "strakes" if topic.name != "draw-plan" => self.of_shape("strakes a side", |h| h.strakes.map(f64::from)),
            "frames" if topic.name != "draw-plan" => self.of_shape("frames", |h| h.frames.map(f64::from)),
            "frame-spacing-mm" | "spacing-mm" => self.of_shape("spacing of the frames", |h| h.frame_spacing_mm),
            "chord-mm" if topic.name == "spring" => self.bend(|bend| bend.chord_m * 1000.0),
            "rise-mm" if topic.name == "spring" => self.bend(|bend| bend.rise_m.abs() * 1000.0),
            "form" if topic.name == "spring" => {
                let (bend, from) = self.bent()?;
                Some((if bend.rise_m < 0.0 { "hollow" } else { "convex" }.to_owned(), from))
            }
            "patches" if topic.name == "draw-plan" => {
                let counted = plans::fastenings(self.state)?;
                let all = counted.population()?;
                Some((
                    counted.table(),
                    format!("her strakes, frames and shape, {all} in all. {}", counted.said.join(" ")),
                ))
            }
            "offsets" => {
                let offsets = self.state.hull_form()?.payload.offsets.clone()?;
                Some((offsets, "her table of offsets".to_owned()))
            }
            "waterline-length-m" => {
                self.of_vessel("length on the waterline", |v| v.waterline_length_mm.map(|mm| plain(mm / 1000.0)))
            }
            "mass-kg" => self.of_vessel("displacement", |v| v.displacement_kg.map(plain)),
            _ => None,
        }
    }

    fn is_of_the_shell(&self) -> bool {
        self.group.as_deref().is_none_or(|group| group.contains("plank") || group.contains("shell"))
    }

    fn species(&self) -> Option<(String, String)> {
        match self.group.as_deref() {
            Some(group) if group.contains("fram") => self.of_vessel("frame timber", |v| v.frame_species.clone()),
            Some(group) if group.contains("backbone") || group.contains("keel") => {
                self.of_vessel("backbone timber", |v| v.backbone_species.clone())
            }
            Some(_) if !self.is_of_the_shell() => None,
            _ => self.of_vessel("planking timber", |v| v.planking_species.clone()),
        }
    }

    fn of_vessel(&self, what: &str, find: impl Fn(&Vessel) -> Option<String>) -> Option<(String, String)> {
        let said = find(self.vessel.as_ref()?.payload).filter(|said| !said.trim().is_empty())?;
        Some((said, format!("{what} in her particulars")))
    }

    fn of_shape(
        &self,
        what: &str,
        find: impl Fn(&survey::payload::HullForm) -> Option<f64>,
    ) -> Option<(String, String)> {
        Some((plain(find(self.state.hull_form()?.payload)?), format!("{what} in her hull form")))
    }

    fn of_day(&self, what: &str, find: impl Fn(&Conditions) -> Option<f64>) -> Option<(String, String)> {
        let day = self.conditions.as_ref()?.payload;
        let date = day.date.map_or_else(|| "the last day recorded".to_owned(), |date| date.to_string());
        Some((plain(find(day)?), format!("{what} on {date}")))
    }

    fn days_ashore(&self) -> Option<(String, String)> {
        let day = self.conditions.as_ref()?.payload;
        let (date, since) = (day.date?, day.ashore_since?);
        let days = (date - since).get_days();
        (days >= 0).then(|| (days.to_string(), format!("from {since} to {date}")))
    }

    /// The last measurement of a quantity on the member.
    fn measured(&self, wanted: &str) -> Option<(String, String)> {
        let member = self.member?;
        let found =
            self.state.observations().filter(|o| o.payload.member == member).filter_map(|o| match &o.payload.reading {
                Reading::Measure { quantity, value, unit, .. } if quantity.trim().eq_ignore_ascii_case(wanted) => {
                    (unit == "mm").then(|| (plain(*value), format!("{wanted} measured at {}", o.payload.place)))
                }
                _ => None,
            });
        found.last()
    }

    /// The last reading of the moisture meter on the member.
    fn meter(&self, find: impl Fn(f64, Option<f64>) -> Option<f64>) -> Option<(String, String)> {
        let member = self.member?;
        let found =
            self.state.observations().filter(|o| o.payload.member == member).filter_map(|o| match &o.payload.reading {
                Reading::Moisture { reading_percent, temp_c, .. } => {
                    Some((plain(find(*reading_percent, *temp_c)?), format!("the meter at {}", o.payload.place)))
                }
                _ => None,
            });
        found.last()
    }

    /// How the plank is bent where the member was last looked at by strake and frame, from her shape.
    fn bent(&self) -> Option<(hull::Bend, String)> {
        let member = self.member?;
        let of_member = self.state.observations().filter(|o| o.payload.member == member);
        let place = of_member
            .map(|o| o.payload.place.clone())
            .filter(|p| p.strake.is_some() && p.frame_from.is_some())
            .last()?;
        let bend = plans::bend(self.state, &place)?;
        // Flatter than this is straight for a plank, and no rise that could be measured.
        (bend.rise_m.abs() > 1e-4).then(|| (bend, format!("her shape at {place}, over three frames")))
    }

    fn bend(&self, figure: impl Fn(&hull::Bend) -> f64) -> Option<(String, String)> {
        let (bend, from) = self.bent()?;
        Some((format!("{:.1}", figure(&bend)), from))
    }

    fn area(&self) -> Option<(String, String)> {
        let brief = self.state.brief()?;
        let named = waters::named::named(&brief.payload.intended_waters);
        let first = named.areas.first()?;
        let others: Vec<&str> = named.areas.iter().skip(1).map(|area| area.name).collect();
        let from = match others.as_slice() {
            [] => "the waters she is going to, in the brief".to_owned(),
            others => format!("the first of the waters in the brief; named besides: {}", others.join(", ")),
        };
        Some((first.name.to_owned(), from))
    }
}

fn in_mm(mm: Option<f64>) -> Option<String> {
    mm.map(plain)
}

/// Writes a figure without the noise of its last binary digits.
fn plain(value: f64) -> String {
    ((value * 1e6).round() / 1e6).to_string()
}
