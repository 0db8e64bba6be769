//! Writing figures, days and lists for a reader.

use crate::prints::MM_PER_INCH;
use jiff::civil::Date;
use measure::{Length, Mass, System};
use survey::{Language, Place, Stamp};

/// How lengths and masses are shown.
pub(super) struct Wording {
    /// The system shown first.
    pub(super) first: System,
    /// What members are called.
    pub(super) language: Language,
}

/// A length in sixteenths of an inch that is further off than this share of itself is not shown.
const COARSE: f64 = 0.1;
/// How far a length in inches may be off, in millimetres: half of the last figure that is given.
const OFF_MM_OF_WHOLE: f64 = 0.5;
const OFF_MM_OF_TENTHS: f64 = 0.05;

/// Returns a length below an inch, which is else written in 64ths, to the coarsest of sixteenths, 32nds and 64ths that is as
/// exact as its millimetres are: a whole number of millimetres claims no 64th of an inch.
fn no_finer(mm: f64) -> f64 {
    if mm.abs() >= MM_PER_INCH {
        return mm;
    }
    let off = if (mm - mm.round()).abs() < 1e-9 { OFF_MM_OF_WHOLE } else { OFF_MM_OF_TENTHS };
    let rounded = |parts: f64| (mm / MM_PER_INCH * parts).round() / parts * MM_PER_INCH;
    [16.0, 32.0].into_iter().map(rounded).find(|inches| (inches - mm).abs() <= off).unwrap_or(mm)
}

impl Wording {
    /// Writes a length in both systems; in millimetres only where sixteenths of an inch would be too coarse.
    pub(super) fn length(&self, mm: f64) -> String {
        let metric = Length::from_mm(mm).write(System::Metric);
        let sixteenths = mm / MM_PER_INCH * 16.0;
        if sixteenths == 0.0 || ((sixteenths.round() - sixteenths) / sixteenths).abs() > COARSE {
            return metric;
        }
        self.both(metric, Length::from_mm(no_finer(mm)).write(System::Customary))
    }

    /// Writes a mass in both systems, the one it was not given in to four figures.
    pub(super) fn mass(&self, kg: f64) -> String {
        let pounds = Mass::from_kg(kg).pounds();
        let pounds = if pounds.abs() >= 1000.0 {
            let step = 10_f64.powf(pounds.abs().log10().floor() - 3.0);
            format!("{} lb", amount((pounds / step).round() * step))
        } else {
            Mass::from_kg(kg).write(System::Customary)
        };
        self.both(Mass::from_kg(kg).write(System::Metric), pounds)
    }

    /// Writes a place as the trade says it, distances in both systems.
    pub(super) fn place(&self, place: &Place) -> String {
        let bare = Place { from_stem_mm: None, height_mm: None, joint_with: None, words: None, ..place.clone() };
        let tail = Place { words: place.words.clone(), ..Place::default() };
        let mut parts = vec![bare.to_string()];
        parts.extend(place.from_stem_mm.map(|mm| format!("{} from the stem", self.length(mm))));
        parts.extend(place.height_mm.map(|mm| {
            let side = if mm < 0.0 { "below" } else { "above" };
            format!("{} {side} the waterline", self.length(mm.abs()))
        }));
        parts.extend(place.joint_with.as_deref().map(|other| {
            let known = survey::catalogue_member(other);
            format!("joint with the {}", known.map_or(other, |member| member.called(self.language)))
        }));
        parts.push(tail.to_string());
        parts.retain(|part| !part.is_empty());
        parts.join(", ")
    }

    /// Writes a place on a member, leaving out what the member's name says already: `garboard, port, garboard` would
    /// stammer.
    pub(super) fn place_on(&self, member: &str, place: &Place) -> String {
        let said_twice = place.strake == Some(1) && member.to_lowercase().starts_with("garboard");
        if said_twice { self.place(&Place { strake: None, ..place.clone() }) } else { self.place(place) }
    }

    /// Writes a member with its place.
    pub(super) fn member_at(&self, member: &str, place: &Place) -> String {
        let place = self.place_on(member, place);
        if place.is_empty() { sentence_case(member) } else { format!("{}, {place}", sentence_case(member)) }
    }

    fn both(&self, metric: String, customary: String) -> String {
        match self.first {
            System::Metric => format!("{metric} ({customary})"),
            System::Customary => format!("{customary} ({metric})"),
        }
    }
}

/// The months' names, January first.
pub(super) const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// Writes a day: `3 June 2026`.
pub(super) fn day(date: Date) -> String {
    let month = usize::try_from(date.month() - 1).ok().and_then(|i| MONTHS.get(i)).copied().unwrap_or("");
    format!("{} {month} {}", date.day(), date.year())
}

/// Writes the moment of an entry: `3 June 2026, 10:42 UTC`.
pub(super) fn moment(stamp: Stamp) -> String {
    match stamp.utc().map(|time| jiff::tz::Offset::UTC.to_datetime(time)) {
        Some(time) => format!("{}, {:02}:{:02} UTC", day(time.date()), time.hour(), time.minute()),
        None => stamp.to_string(),
    }
}

/// Joins words as a list is spoken: `a, b and c`.
pub(super) fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// Returns the text with its first letter large.
pub(super) fn sentence_case(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// Returns the text with an end, where it has none.
pub(super) fn ended(text: &str) -> String {
    let text = text.trim();
    if text.is_empty() || text.ends_with(['.', '!', '?', '…']) { text.to_owned() } else { format!("{text}.") }
}

/// Writes an amount of money without its currency, thousands set off: `12,400`.
pub(super) fn amount(value: f64) -> String {
    let rounded = value.round();
    let digits = format!("{:.0}", rounded.abs());
    let mut out = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i) % 3 == 0 {
            out.push(',');
        }
        out.push(digit);
    }
    if rounded < 0.0 { format!("−{out}") } else { out }
}

/// Writes a figure as short as it is exact, at most three decimals.
pub(super) fn figure(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_read_as_people_write_them() {
        assert_eq!(amount(1_234_567.4), "1,234,567");
        assert_eq!(amount(-950.0), "−950");
        assert_eq!(figure(12.50), "12.5");
        assert_eq!(day(jiff::civil::date(2026, 6, 3)), "3 June 2026");
        assert_eq!(listed(&["a".into(), "b".into(), "c".into()]), "a, b and c");
    }

    #[test]
    fn a_length_too_fine_for_sixteenths_is_metric_only() {
        let wording = Wording { first: System::Metric, language: Language::British };
        assert_eq!(wording.length(0.4), "0.4 mm");
        // 14 mm is between 13.5 and 14.5; nine sixteenths are 14.29 (exact: an inch is 25.4 mm).
        assert_eq!(wording.length(14.0), "14 mm (9/16\")");
        assert_eq!(wording.length(10.0), "10 mm (3/8\")");
        assert_eq!(wording.length(13.5), "13.5 mm (17/32\")");
        assert!(wording.length(300.0).starts_with("300 mm ("));
        assert!(
            Wording { first: System::Customary, language: Language::British }.length(304.8).ends_with("(304.8 mm)")
        );
    }
}
