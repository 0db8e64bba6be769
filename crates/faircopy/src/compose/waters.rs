//! What the waters she is going to hold for her wood, from the words of the brief.

use super::wording::{MONTHS, listed};
use waters::areas::Area;
use waters::borers::{Activity, activity};
use waters::named::named;
use waters::year::Year;

/// Returns what is to be said of borers in the waters that the words name; nothing when they name none that is known.
/// Screening figures by published limits; the reckoner `borers` gives the sources and what is not covered.
pub(super) fn borers_there(words: &str) -> Option<String> {
    let named = named(words);
    let mut said: Vec<String> = named.areas.iter().map(|area| in_area(area)).collect();
    if !named.of_region.is_empty() {
        said.push(in_region(&named.of_region));
    }
    if !said.is_empty() {
        said.push("Reckoned by published limits from open-sea temperature and salinity: harbours and estuaries differ, and a value measured where she lies goes before it".to_owned());
    }
    if named.fresh {
        let [shipworm, gribble, ..] = activity(&Year { temp_c: [20.0; 12], salinity_psu: [0.0; 12] });
        if shipworm.months_most() == 0 && gribble.months_most() == 0 {
            said.push("In fresh water neither shipworm nor gribble lives; what harms the wood there is rot".to_owned());
        }
    }
    (!said.is_empty()).then(|| format!("{}.", said.join(". ")))
}

fn in_area(area: &Area) -> String {
    let [shipworm, gribble, ..] = activity(&area.year());
    let mut said = format!(
        "{}: {}; {}",
        area.name,
        of_kind(&shipworm, "shipworm may settle"),
        of_kind(&gribble, "gribble may bore")
    );
    if let Some(animal) = area.cold_water_shipworm() {
        said.push_str(&format!("; a cold-water shipworm ({animal}) may be at work besides"));
    }
    said
}

fn of_kind(kind: &Activity, may: &str) -> String {
    match (kind.months_most(), kind.months_least()) {
        (0, _) => format!("{may} in no month"),
        (12, 12) => format!("{may} in every month"),
        (most, least) => {
            let by = if least == most { String::new() } else { format!(", {least} by the strictest limits") };
            format!("{may} in {most} {} ({}{by})", if most == 1 { "month" } else { "months" }, runs(&kind.months()))
        }
    }
}

fn in_region(areas: &[&'static Area]) -> String {
    let mut regions: Vec<&str> = areas.iter().map(|area| area.region).collect();
    regions.dedup();
    let range = |n: usize| {
        let all: Vec<usize> = areas.iter().map(|area| activity(&area.year())[n].months_most()).collect();
        match (all.iter().min(), all.iter().max()) {
            (Some(least), Some(most)) if least != most => format!("{least} to {most}"),
            (Some(least), _) => least.to_string(),
            _ => "no".to_owned(),
        }
    };
    let regions = listed(&regions.into_iter().map(str::to_owned).collect::<Vec<_>>());
    format!(
        "Which part of these waters matters: over the places known there ({regions}) shipworm may settle in {} months of the year and gribble may bore in {}",
        range(0),
        range(1)
    )
}

/// Writes months as runs, December and January being neighbours: `June to October`, `November to March`.
fn runs(months: &[usize]) -> String {
    if months.len() == 12 {
        return "all year".to_owned();
    }
    let has = |month: usize| months.contains(&((month + 11) % 12 + 1));
    let starts = months.iter().copied().filter(|month| !has(month + 11));
    let written = starts.map(|start| {
        let length = (1..12).take_while(|step| has(start + step)).count();
        let name = |month: usize| MONTHS[(month + 11) % 12];
        match length {
            0 => name(start).to_owned(),
            _ => format!("{} to {}", name(start), name(start + length)),
        }
    });
    listed(&written.collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::{borers_there, runs};

    #[test]
    fn months_are_written_as_runs_over_the_turn_of_the_year() {
        assert_eq!(runs(&[6, 7, 8]), "June to August");
        assert_eq!(runs(&[1, 2, 11, 12]), "November to February");
        assert_eq!(runs(&[3, 7, 8]), "March and July to August");
    }

    #[test]
    fn the_kattegat_has_shipworm_in_summer_and_a_lake_has_none() {
        // Shipworm settles in the Kattegat (WreckProtect 2010, as the table of areas cites it); fresh water has none.
        let kattegat = borers_there("Kattegat, May to September").unwrap_or_default();
        assert!(kattegat.contains("shipworm may settle in 5 months (June to October"), "{kattegat}");
        assert!(kattegat.contains("measured where she lies goes before"));
        let lake = borers_there("A lake: fresh water").unwrap_or_default();
        assert!(lake.contains("neither shipworm nor gribble"), "{lake}");
        let baltic = borers_there("the Baltic").unwrap_or_default();
        assert!(baltic.contains("Which part of these waters matters"), "{baltic}");
        assert_eq!(borers_there("wherever"), None);
    }
}
