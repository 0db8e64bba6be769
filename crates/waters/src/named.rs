//! Which of the built-in sea areas a surveyor's own words name: "Kattegat and the western Baltic in summer".

use crate::areas::{Area, table};

/// What words name.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Named {
    /// Areas named by their own name, in the order in which the words name them.
    pub areas: Vec<&'static Area>,
    /// Areas of a sea or coast that is named as a whole, when no area of it is.
    pub of_region: Vec<&'static Area>,
    /// Whether fresh water is spoken of.
    pub fresh: bool,
}

/// Places whose names other coasts have too; alone they name no waters.
const SHARED: [&str; 3] = ["portland", "boston", "newport"];

/// Words in an area's name that nobody says when speaking of the waters.
const SILENT: [&str; 12] =
    ["approach", "approaches", "offshore", "outer", "mouth", "side", "west", "sw", "n", "bight", "pacific", "la"];

/// Words that mean water without salt.
const FRESH: [&str; 8] =
    ["fresh water", "freshwater", "lake", "lakes", "canal", "canals", "inland waterways", "inland waters"];

/// Returns which built-in areas the words name. Whole words only, accents and case aside; what is not recognised is
/// left out, never guessed.
pub fn named(words: &str) -> Named {
    let said = spoken(words);
    let at = |name: &str| (name.trim().len() > 3).then(|| said.find(&format!(" {} ", name.trim()))).flatten();
    let mut found: Vec<(usize, &'static Area)> =
        table().iter().filter_map(|area| Some((keys(area).iter().filter_map(|key| at(key)).min()?, area))).collect();
    found.sort_by_key(|(place, _)| *place);
    let areas: Vec<&'static Area> = found.into_iter().map(|(_, area)| area).collect();
    let of_region = table()
        .iter()
        .filter(|area| !areas.iter().any(|named| named.region == area.region))
        .filter(|area| area.region.split('-').any(|part| at(&spoken(part)).is_some()))
        .collect();
    Named { areas, of_region, fresh: FRESH.iter().any(|word| said.contains(&format!(" {word} "))) }
}

/// Returns the names by which an area goes.
fn keys(area: &Area) -> Vec<String> {
    let (main, inner) =
        area.name.split_once('(').map_or((area.name, ""), |(main, rest)| (main, rest.trim_end_matches(')')));
    let parts = main.split('/').chain(inner.split(['/', '-'])).chain(main.split('/').flat_map(|part| part.split('-')));
    let region = spoken(area.region);
    let mut keys: Vec<String> = parts
        .flat_map(|part| {
            let whole = spoken(part).trim().to_owned();
            let kept: Vec<&str> = whole.split_whitespace().filter(|word| !SILENT.contains(word)).collect();
            [kept.join(" "), whole]
        })
        .filter(|key| !key.is_empty() && region.trim() != key && !SHARED.contains(&key.as_str()))
        .collect();
    keys.dedup();
    keys
}

/// Lower case, accents written out as the table does, everything else but letters and figures a space; with a space at
/// either end.
fn spoken(text: &str) -> String {
    let mut out = String::from(" ");
    for c in text.chars().take(2000).flat_map(char::to_lowercase) {
        match c {
            'ä' | 'æ' => out.push_str("ae"),
            'ö' | 'ø' => out.push_str("oe"),
            'ü' => out.push_str("ue"),
            'å' => out.push('a'),
            'é' | 'è' | 'ê' => out.push('e'),
            'á' | 'à' | 'ã' => out.push('a'),
            'ń' => out.push('n'),
            c if c.is_alphanumeric() => out.push(c),
            _ if !out.ends_with(' ') => out.push(' '),
            _ => {}
        }
    }
    if !out.ends_with(' ') {
        out.push(' ');
    }
    out
}
