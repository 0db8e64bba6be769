//! The species table: names of the trade, figures with their sources, and finding a wood by any of its names.

use crate::table_text::rows;
use crate::{Known, Mark, Rating};
use std::sync::LazyLock;

/// One wood of the trade with all that is known of it here. What was not found is `None`, never guessed.
#[derive(Clone, Debug)]
pub struct Species {
    /// Short stable name, e.g. `white-oak`.
    pub id: &'static str,
    /// Common name, e.g. `white oak`.
    pub common: &'static str,
    /// Botanical name.
    pub botanical: &'static str,
    /// Other names of the trade, regional ones included.
    pub synonyms: Vec<&'static str>,
    /// Softwood or hardwood.
    pub kind: Kind,
    /// Whether it is a ring-porous oak, for which drying has an equation of its own.
    pub ring_porous_oak: bool,
    /// Specific gravity on oven-dry mass and green volume.
    pub gravity_basic: Option<Known>,
    /// Specific gravity on oven-dry mass and volume at 12 % moisture.
    pub gravity_12: Option<Known>,
    /// Density at 12 % moisture where a source prints it, kg/m³.
    pub density_12_kg_m3: Option<Known>,
    /// Strength of small clear pieces above fibre saturation.
    pub green: Strength,
    /// Strength of small clear pieces at 12 % moisture.
    pub dry: Strength,
    /// Total shrinkage: the set to reckon with first, then what other sources give. May be empty.
    pub shrinkage: Vec<Shrinkage>,
    /// Dimensional change coefficients as printed (6 to 14 % moisture).
    pub coefficients: Option<Coefficients>,
    /// Decay resistance of heartwood, group of the US lists.
    pub decay_us: Option<Rating>,
    /// Decay resistance of heartwood, class of EN 350 (1 very durable … 5 not durable).
    pub decay_en350: Option<Rating>,
    /// A remark to show with the wood; may be empty.
    pub note: &'static str,
}

/// Softwood or hardwood, in the botanical sense.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A conifer.
    Softwood,
    /// A broadleaf.
    Hardwood,
}

/// Average strengths of small clear pieces in one moisture state.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Strength {
    /// Modulus of rupture in bending, MPa.
    pub mor_mpa: Option<Known>,
    /// Modulus of elasticity in bending as tested (centre load, span 14 depths), MPa.
    pub moe_mpa: Option<Known>,
    /// Greatest crushing strength along the grain, MPa.
    pub compression_parallel_mpa: Option<Known>,
    /// Fibre stress at proportional limit, compression across the grain, MPa.
    pub compression_perp_mpa: Option<Known>,
    /// Shear along the grain, MPa.
    pub shear_mpa: Option<Known>,
    /// Side hardness (ball), N.
    pub hardness_n: Option<Known>,
}

/// Total shrinkage from green to oven-dry, with the fibre saturation point it belongs to. The four belong
/// together: a total with another fibre saturation point gives wrong movement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shrinkage {
    /// Radial, % of green size.
    pub radial_percent: f64,
    /// Tangential, % of green size.
    pub tangential_percent: f64,
    /// Volumetric, % of green size, where printed.
    pub volumetric_percent: Option<f64>,
    /// Fibre saturation point, % moisture.
    pub fibre_saturation_percent: f64,
    /// How it came into the table.
    pub mark: Mark,
    /// Title, edition and table.
    pub source: &'static str,
}

/// Dimensional change coefficients per 1 % change of moisture, as printed, for 6 to 14 % moisture only.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coefficients {
    /// Radial, per 1 % moisture.
    pub radial_per_percent: f64,
    /// Tangential, per 1 % moisture.
    pub tangential_per_percent: f64,
    /// How it came into the table.
    pub mark: Mark,
    /// Title, edition and table.
    pub source: &'static str,
}

/// No wood of that name is in the table. The message names the nearest.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("'{name}' is not a wood in the table; the nearest names are {}.", .nearest.join(", "))]
pub struct UnknownSpecies {
    /// What was asked for, shortened.
    pub name: String,
    /// Up to five common names nearest to it.
    pub nearest: Vec<&'static str>,
}

/// Returns the whole table, in the order of its file.
pub fn table() -> &'static [Species] {
    static TABLE: LazyLock<Vec<Species>> = LazyLock::new(load);
    &TABLE
}

/// Finds a wood by its short name, common name, botanical name or any name of the trade; case, hyphens and
/// accents do not matter. A loose name of the trade (`larch`, `oak`) gives the wood most often meant by it;
/// [`also_called`] tells which others go by the same name.
pub fn find(name: &str) -> Result<&'static Species, UnknownSpecies> {
    all_called(name).first().copied().ok_or_else(|| UnknownSpecies {
        name: name.chars().filter(|c| !c.is_control()).take(40).collect(),
        nearest: nearest(name),
    })
}

/// Returns the other woods that the trade calls by the same loose name; empty when the name is plain.
pub fn also_called(name: &str) -> Vec<&'static Species> {
    all_called(name).into_iter().skip(1).collect()
}

/// Returns a sentence to show when a loose name was given, saying which wood it was taken for.
pub fn loose_name_caution(name: &str) -> Option<String> {
    let all = all_called(name);
    let (taken, others) = all.split_first()?;
    let is_loose = trade_names().any(|(loose, _)| plain(loose) == plain(name));
    let trade = name.trim();
    if others.is_empty() {
        return is_loose.then(|| format!("'{trade}' was taken for {} ({}).", taken.common, taken.botanical));
    }
    let others: Vec<_> = others.iter().map(|s| s.common).collect();
    Some(format!(
        "'{trade}' was taken for {} ({}); the trade also calls {} so: name the wood if it is one of them.",
        taken.common,
        taken.botanical,
        others.join(", ")
    ))
}

impl Species {
    /// Returns every name of the wood: common, botanical, synonyms, short name.
    pub fn names(&self) -> impl Iterator<Item = &'static str> + '_ {
        [self.common, self.botanical, self.id].into_iter().chain(self.synonyms.iter().copied())
    }

    /// Returns specific gravity on oven-dry mass and volume at a moisture content.
    ///
    /// Wood Handbook (2021) Eq. 4-13: G_M = G_b / (1 − 0.265 a G_b), a = (30 − M)/30, M held at 30 and below.
    /// Where the gravity at 12 % is printed too, the answer passes through it: between 12 and 30 % volume is taken
    /// to run straight from one to the other, and below 12 % Eq. 4-13 is scaled to meet it.
    pub fn gravity_at(&self, mc_percent: f64) -> Option<Known> {
        let mc = mc_percent.clamp(0.0, 30.0);
        let basic = self.gravity_basic?;
        let by_equation = |g: f64, mc: f64| g / (1.0 - 0.265 * (30.0 - mc) / 30.0 * g);
        let Some(printed) = self.gravity_12 else {
            let mark = if mc < 30.0 { basic.mark.max(Mark::Derived) } else { basic.mark };
            return Some(Known { mark, ..basic.map(|g| by_equation(g, mc)) });
        };
        if mc >= 30.0 {
            return Some(basic);
        }
        if mc == 12.0 {
            return Some(printed);
        }
        let between = |g_basic: f64, g_12: f64| {
            if mc > 12.0 {
                1.0 / (1.0 / g_basic - (1.0 / g_basic - 1.0 / g_12) * (30.0 - mc) / 18.0)
            } else {
                g_12 * by_equation(g_basic, mc) / by_equation(g_basic, 12.0)
            }
        };
        let nearer = if mc > 21.0 { basic } else { printed };
        Some(Known {
            value: between(basic.value, printed.value),
            low: between(basic.low, printed.low),
            high: between(basic.high, printed.high),
            mark: basic.mark.max(printed.mark).max(Mark::Derived),
            source: nearer.source,
        })
    }

    /// Returns specific gravity on oven-dry mass and oven-dry volume, as fastening rules want it.
    pub fn gravity_oven_dry(&self) -> Option<Known> {
        self.gravity_at(0.0)
    }

    /// Returns density at a moisture content, kg/m³: Wood Handbook (2021) Eq. 4-14, ρ = 1000 G_M (1 + M/100).
    pub fn density_kg_m3(&self, mc_percent: f64) -> Option<Known> {
        let gravity = self.gravity_at(mc_percent)?;
        let mark = gravity.mark.max(Mark::Derived);
        Some(Known { mark, ..gravity.map(|g| 1000.0 * g * (1.0 + mc_percent / 100.0)) })
    }

    /// Returns the fibre saturation point that goes with the shrinkage to reckon with first, %; 30 when no
    /// shrinkage is known (the average of Wood Handbook ch. 4, from which woods differ by several points).
    pub fn fibre_saturation_percent(&self) -> f64 {
        self.shrinkage.first().map_or(30.0, |s| s.fibre_saturation_percent)
    }
}

/// Woods by a name: those that own it, else those that a loose name of the trade may mean.
fn all_called(name: &str) -> Vec<&'static Species> {
    let wanted = plain(name);
    if wanted.is_empty() {
        return Vec::new();
    }
    let owns = |s: &&Species| s.names().any(|n| plain(n) == wanted) || plain_parts(s.botanical).contains(&wanted);
    let owned: Vec<_> = table().iter().filter(owns).collect();
    if !owned.is_empty() {
        return owned;
    }
    let loose = trade_names().find(|(loose, _)| plain(loose) == wanted);
    let ids = loose.map(|(_, ids)| ids).unwrap_or_default();
    ids.split(';').filter_map(|id| table().iter().find(|s| s.id == id)).collect()
}

/// Returns the parts of a botanical entry that names several species (`Quercus robur, Q. petraea`).
fn plain_parts(botanical: &str) -> Vec<String> {
    botanical.split(',').map(plain).collect()
}

/// Returns loose names of the trade with the woods they may mean, the likeliest first.
fn trade_names() -> impl Iterator<Item = (&'static str, &'static str)> {
    rows(include_str!("../data/trade-names.csv")).filter_map(|row| match row[..] {
        [name, ids] => Some((name, ids)),
        _ => None,
    })
}

/// Returns a name without case, accents, hyphens and spaces, for comparing.
fn plain(name: &str) -> String {
    let folded = name.chars().flat_map(char::to_lowercase).map(|c| match c {
        'ä' | 'à' | 'á' | 'â' | 'å' => 'a',
        'é' | 'è' | 'ê' | 'ë' => 'e',
        'ö' | 'ø' | 'ó' | 'ô' => 'o',
        'ü' | 'ú' => 'u',
        other => other,
    });
    folded.filter(|c| c.is_alphanumeric()).collect()
}

/// Returns common names nearest to a name, by shared words first and then by letters to change.
fn nearest(name: &str) -> Vec<&'static str> {
    let wanted = plain(&name.chars().take(60).collect::<String>());
    let words: Vec<String> = name.split_whitespace().map(plain).filter(|w| w.len() > 2).collect();
    let mut ranked: Vec<(usize, &'static str)> = table()
        .iter()
        .map(|s| {
            let letters = s.names().map(|n| letters_to_change(&wanted, &plain(n))).min().unwrap_or(usize::MAX);
            let shares = s.names().any(|n| n.split([' ', '-']).map(plain).any(|w| words.contains(&w)));
            (if shares { letters.min(3) } else { letters }, s.common)
        })
        .collect();
    ranked.sort_by_key(|(distance, _)| *distance);
    ranked.into_iter().take(5).map(|(_, common)| common).collect()
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

fn load() -> Vec<Species> {
    let mut table: Vec<Species> = rows(include_str!("../data/species.csv")).filter_map(|row| named(&row)).collect();
    for row in rows(include_str!("../data/values.csv")) {
        if let Some((id, property, known)) = known(&row)
            && let Some(species) = table.iter_mut().find(|s| s.id == id)
        {
            put(species, property, known);
        }
    }
    for row in rows(include_str!("../data/shrinkage.csv")) {
        if let [id, radial, tangential, volumetric, saturation, mark, source] = row[..]
            && let Some(species) = table.iter_mut().find(|s| s.id == id)
            && let (Ok(radial_percent), Ok(tangential_percent), Ok(fibre_saturation_percent), Some(mark)) =
                (radial.parse(), tangential.parse(), saturation.parse(), Mark::from_table(mark))
        {
            let volumetric_percent = volumetric.parse().ok();
            species.shrinkage.push(Shrinkage {
                radial_percent,
                tangential_percent,
                volumetric_percent,
                fibre_saturation_percent,
                mark,
                source,
            });
        }
    }
    for row in rows(include_str!("../data/coefficients.csv")) {
        if let [id, radial, tangential, mark, source] = row[..]
            && let Some(species) = table.iter_mut().find(|s| s.id == id)
            && let (Ok(radial_per_percent), Ok(tangential_per_percent), Some(mark)) =
                (radial.parse(), tangential.parse(), Mark::from_table(mark))
        {
            species.coefficients = Some(Coefficients { radial_per_percent, tangential_per_percent, mark, source });
        }
    }
    table
}

fn named(row: &[&'static str]) -> Option<Species> {
    let [id, common, botanical, kind, drying, synonyms, us, us_mark, us_source, en, en_mark, en_source, note] = *row
    else {
        return None;
    };
    let rating = |words, mark, source| Mark::from_table(mark).map(|mark| Rating { words, mark, source });
    Some(Species {
        id,
        common,
        botanical,
        synonyms: synonyms.split(';').collect(),
        kind: if kind == "softwood" { Kind::Softwood } else { Kind::Hardwood },
        ring_porous_oak: drying == "oak",
        gravity_basic: None,
        gravity_12: None,
        density_12_kg_m3: None,
        green: Strength::default(),
        dry: Strength::default(),
        shrinkage: Vec::new(),
        coefficients: None,
        decay_us: rating(us, us_mark, us_source),
        decay_en350: rating(en, en_mark, en_source),
        note,
    })
}

fn known(row: &[&'static str]) -> Option<(&'static str, &'static str, Known)> {
    let [id, property, value, low, high, mark, source] = *row else { return None };
    let known = Known {
        value: value.parse().ok()?,
        low: low.parse().ok()?,
        high: high.parse().ok()?,
        mark: Mark::from_table(mark)?,
        source,
    };
    Some((id, property, known))
}

fn put(species: &mut Species, property: &str, known: Known) {
    let slot = match property {
        "gravity_basic" => &mut species.gravity_basic,
        "gravity_12" => &mut species.gravity_12,
        "density_12_kg_m3" => &mut species.density_12_kg_m3,
        _ => {
            let (strength, name) = match property.split_once("_green_") {
                Some((name, _)) => (&mut species.green, name),
                None => (&mut species.dry, property.split_once("_12_").map_or(property, |(name, _)| name)),
            };
            match name {
                "mor" => &mut strength.mor_mpa,
                "moe" => &mut strength.moe_mpa,
                "compression_parallel" => &mut strength.compression_parallel_mpa,
                "compression_perp" => &mut strength.compression_perp_mpa,
                "shear" => &mut strength.shear_mpa,
                "hardness" => &mut strength.hardness_n,
                _ => return,
            }
        }
    };
    *slot = Some(known);
}
