//! Sea areas with monthly temperature and yearly salinity, built in.

use crate::{Fault, year::Year};
use std::sync::LazyLock;

/// Source of the climate, for an answer.
pub const SOURCES: [&str; 2] = [
    "sea surface temperature: COADS monthly climatology, 2 degree grid (US NOAA/PMEL Ferret standard data sets 7.6.0; \
     ship observations, averaging years from memory 1946 to 1989)",
    "salinity: NOAA World Ocean Atlas 2013 or Levitus (1982), 1 degree, yearly mean; a published local value where one \
     was found",
];

/// One sea area.
#[derive(Clone, Debug, PartialEq)]
pub struct Area {
    /// Name, e.g. `Kattegat (Gothenburg)`.
    pub name: &'static str,
    /// Sea or coast it belongs to, e.g. `Skagerrak-Kattegat`.
    pub region: &'static str,
    /// Latitude of the place looked up, degrees north; approximate, offshore.
    pub lat_deg: f64,
    /// Longitude of the place looked up, degrees east.
    pub lon_deg: f64,
    /// Monthly mean sea surface temperature, January first, °C.
    pub temp_c: [f64; 12],
    /// How far off the temperature's grid cell lies, km.
    pub temp_from_km: f64,
    /// Salinity to reckon with: the published local value where there is one, else the grid's, psu.
    pub salinity_psu: f64,
    /// Salinity of the grid, psu.
    pub grid_salinity_psu: f64,
    /// Published local salinity as its source words it, with the source; both empty when none was found.
    pub published_salinity: (&'static str, &'static str),
    /// What a source says of borers there, with the source; both empty when none was found.
    pub published_borers: (&'static str, &'static str),
}

impl Area {
    /// Returns the area's year; salinity is the yearly mean in every month.
    pub fn year(&self) -> Year {
        Year { temp_c: self.temp_c, salinity_psu: [self.salinity_psu; 12] }
    }

    /// Returns the cold-water shipworm that the monthly reckoning does not know and that is recorded in such waters.
    pub fn cold_water_shipworm(&self) -> Option<&'static str> {
        match self.region {
            "NE Pacific" => Some("Bankia setacea"),
            "North Atlantic" | "Norwegian Sea" | "North Sea" | "Skagerrak-Kattegat" => Some("Psiloteredo megotara"),
            _ => None,
        }
    }

    /// Returns cautions that belong to figures for this area.
    pub fn cautions(&self) -> Vec<String> {
        let mut found = vec![format!(
            "Open-sea figures, temperature from a cell {:.0} km off: harbours, estuaries, fjords and marinas differ, \
             often by more than the limits of the animals; a measured local value always wins.",
            self.temp_from_km
        )];
        if (self.salinity_psu - self.grid_salinity_psu).abs() > 2.0 {
            found.push(format!(
                "The grid gives a salinity of {} here but {} gives {}; the latter was taken ({} psu).",
                self.grid_salinity_psu, self.published_salinity.1, self.published_salinity.0, self.salinity_psu
            ));
        }
        if let Some(animal) = self.cold_water_shipworm() {
            found.push(format!(
                "A cold-water shipworm ({animal}) lives in such waters; its limits are not published here, so the \
                 months reckoned for shipworm are too few."
            ));
        }
        found
    }
}

/// Returns all built-in areas, in the order of their file.
pub fn table() -> &'static [Area] {
    static TABLE: LazyLock<Vec<Area>> = LazyLock::new(load);
    &TABLE
}

/// Finds an area by its name or a part of it that only one has; case does not matter.
///
/// # Errors
/// A name that no area has, or several: the message names the nearest.
pub fn find(name: &str) -> Result<&'static Area, Fault> {
    let wanted = plain(name);
    let all = table();
    if let Some(exact) = all.iter().find(|area| plain(area.name) == wanted) {
        return Ok(exact);
    }
    let holding: Vec<&Area> = match wanted.len() {
        0..=2 => Vec::new(),
        _ => all.iter().filter(|area| plain(area.name).contains(&wanted)).collect(),
    };
    if let [only] = holding[..] {
        return Ok(only);
    }
    let mut nearest: Vec<&'static str> = holding.iter().map(|area| area.name).collect();
    if nearest.is_empty() {
        let words: Vec<String> =
            name.split(|c: char| !c.is_alphanumeric()).map(plain).filter(|w| w.len() > 2).collect();
        let mut ranked: Vec<(usize, &'static str)> =
            all.iter().map(|area| (distance(&wanted, &words, area), area.name)).collect();
        ranked.sort_by_key(|(far, _)| *far);
        nearest = ranked.into_iter().map(|(_, name)| name).collect();
    }
    nearest.truncate(5);
    let name = name.chars().filter(|c| !c.is_control()).take(40).collect();
    Err(Fault::UnknownArea { name, nearest })
}

fn distance(wanted: &str, words: &[String], area: &Area) -> usize {
    let own: Vec<String> = area
        .name
        .split(|c: char| !c.is_alphanumeric())
        .chain(area.region.split(|c: char| !c.is_alphanumeric()))
        .map(plain)
        .filter(|w| w.len() > 2)
        .collect();
    let between = |a: &str| own.iter().map(|b| letters_to_change(a, b)).min().unwrap_or(usize::MAX);
    words.iter().map(|word| between(word)).chain([between(wanted)]).min().unwrap_or(usize::MAX)
}

fn plain(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).take(60).flat_map(char::to_lowercase).collect()
}

/// Levenshtein distance.
fn letters_to_change(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, cb) in b.iter().enumerate() {
            let changed = diagonal + usize::from(ca != *cb);
            diagonal = row[j + 1];
            row[j + 1] = changed.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}

fn load() -> Vec<Area> {
    include_str!("../data/sea-areas.csv").lines().skip(1).filter_map(area).collect()
}

fn area(line: &'static str) -> Option<Area> {
    let f = fields(line);
    let number = |i: usize| f.get(i).and_then(|text| text.parse::<f64>().ok());
    let mut temp_c = [0.0; 12];
    for (month, t) in temp_c.iter_mut().enumerate() {
        *t = number(4 + month)?;
    }
    Some(Area {
        name: f.first()?,
        region: f.get(1)?,
        lat_deg: number(2)?,
        lon_deg: number(3)?,
        temp_c,
        temp_from_km: number(16)?,
        grid_salinity_psu: number(17)?,
        published_salinity: (f.get(20)?, f.get(21)?),
        salinity_psu: number(22)?,
        published_borers: (f.get(23)?, f.get(24)?),
    })
}

/// Splits a line of our own table: commas, quotes round fields that hold commas.
fn fields(line: &'static str) -> Vec<&'static str> {
    let mut found = Vec::new();
    let mut rest = line;
    loop {
        let (field, after) = match rest.strip_prefix('"').and_then(|inner| inner.split_once('"')) {
            Some((field, after)) => (field, after.strip_prefix(',')),
            None => match rest.split_once(',') {
                Some((field, after)) => (field, Some(after)),
                None => (rest, None),
            },
        };
        found.push(field);
        match after {
            Some(after) => rest = after,
            None => return found,
        }
    }
}
