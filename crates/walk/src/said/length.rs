//! Lengths in words, written as people write them and read by the room `measure`.

use super::{SaidWord, number_at, plain};
use measure::Length;

/// A length as said.
#[derive(Clone, Debug, PartialEq)]
pub struct SaidLength {
    /// In millimetres.
    pub mm: f64,
    /// As it would be written: `2' 6 1/2"`.
    pub written: String,
    /// How many words it takes.
    pub words: usize,
    /// What is doubtful about it.
    pub doubt: Option<&'static str>,
}

/// Names of parts of an inch, and what is below the line.
fn part(word: &str) -> Option<u32> {
    Some(match word {
        "half" | "halves" => 2,
        "quarter" | "quarters" => 4,
        "third" | "thirds" => 3,
        "eighth" | "eighths" => 8,
        "sixteenth" | "sixteenths" => 16,
        "thirtysecond" | "thirtyseconds" => 32,
        _ => return None,
    })
}

fn unit(word: &str) -> Option<&'static str> {
    Some(match word {
        "foot" | "feet" | "ft" => "ft",
        "inch" | "inches" => "in",
        "mil" | "mils" | "mill" | "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => "mm",
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => "cm",
        "metre" | "metres" | "meter" | "meters" | "m" => "m",
        "yard" | "yards" => "yd",
        _ => return None,
    })
}

/// Reads a fraction: `five eighths`, `a half`, `half`, `three quarters`. Returns it as written and its words.
fn fraction_at(words: &[SaidWord], at: usize) -> Option<(String, usize)> {
    let word = plain(words, at);
    if let Some(below) = part(word).filter(|below| matches!(below, 2 | 4)) {
        let skip = usize::from(plain(words, at + 1) == "a" || plain(words, at + 1) == "an");
        return Some((format!("1/{below}"), 1 + if unit(plain(words, at + 1 + skip)).is_some() { skip } else { 0 }));
    }
    if word.contains('/') {
        let (top, below) = word.split_once('/')?;
        let good = [top, below].iter().all(|t| !t.is_empty() && t.len() < 5 && t.bytes().all(|b| b.is_ascii_digit()));
        return good.then(|| (word.to_owned(), 1));
    }
    let (top, taken) = match word {
        "a" | "an" => (1.0, 1),
        _ => number_at(words, at).filter(|n| !n.ordinal && n.value.fract() == 0.0).map(|n| (n.value, n.words))?,
    };
    let below = part(plain(words, at + taken)).filter(|_| !words[at + taken - 1].ends)?;
    Some((format!("{top}/{below}"), taken + 1))
}

/// Skips `of an` between a fraction and its unit.
fn of_an(words: &[SaidWord], at: usize) -> usize {
    match (plain(words, at), plain(words, at + 1)) {
        ("of", "an" | "a") => at + 2,
        ("of", _) => at + 1,
        _ => at,
    }
}

/// Reads one amount and its unit: `two and a half inches`, `five eighths of an inch`, `an inch and a quarter`, `2.5 mm`.
fn term_at(words: &[SaidWord], from: usize) -> Option<(String, &'static str, usize)> {
    let article = matches!(plain(words, from), "a" | "an");
    if let Some((fraction, taken)) = fraction_at(words, from) {
        let at = of_an(words, from + taken);
        return match unit(plain(words, at)).filter(|_| !words[at - 1].ends) {
            Some("in") => Some((fraction, "in", at + 1)),
            Some(unit) => Some((decimal(&fraction)?, unit, at + 1)),
            None => None,
        };
    }
    let (whole, mut at) = match number_at(words, from).filter(|n| !n.ordinal) {
        Some(n) => (n.value.to_string(), from + n.words),
        None if article && unit(plain(words, from + 1)).is_some_and(|u| matches!(u, "in" | "ft" | "m" | "yd")) => {
            ("1".to_owned(), from + 1)
        }
        None if matches!(plain(words, from), "inch" | "foot") => ("1".to_owned(), from),
        None => return None,
    };
    let mut amount = whole;
    if plain(words, at) == "and" && !words[at - 1].ends {
        let skip = at + 1;
        if let Some((fraction, taken)) = fraction_at(words, skip)
            && unit(plain(words, skip + taken)).is_some()
        {
            amount = format!("{amount} {fraction}");
            at = skip + taken;
        }
    }
    let unit = unit(plain(words, at)).filter(|_| at == from || !words[at - 1].ends)?;
    at += 1;
    // `an inch and a quarter`
    if plain(words, at) == "and"
        && !amount.contains(['/', '.'])
        && let Some((fraction, taken)) = fraction_at(words, at + 1)
        && self::unit(plain(words, of_an(words, at + 1 + taken))).is_none()
    {
        return Some((format!("{amount} {fraction}"), unit, at + 1 + taken));
    }
    Some((amount, unit, at))
}

/// Writes a fraction of a unit that is not an inch as a decimal.
fn decimal(fraction: &str) -> Option<String> {
    let (top, below) = fraction.split_once('/')?;
    let (top, below): (f64, f64) = (top.parse().ok()?, below.parse().ok()?);
    (below > 0.0).then(|| (top / below).to_string())
}

/// Reads the length that starts at a word: `two foot six and a half`, `five eighths`, `three inches and a quarter`, `thirty two
/// mil`, `one point two metres`. A fraction alone is taken for one of an inch, with a doubt.
pub fn length_at(words: &[SaidWord], from: usize) -> Option<SaidLength> {
    let (mut written, mut end) = match term_at(words, from) {
        Some((amount, unit, at)) => (format!("{amount} {unit}"), at),
        None => {
            let (fraction, taken) = fraction_at(words, from)?;
            let eighths = fraction.ends_with("/8") || fraction.ends_with("/16") || fraction.ends_with("/32");
            if !eighths {
                return None;
            }
            let mm = Length::read(&format!("{fraction} in")).ok()?.mm();
            let doubt = Some("the unit is not said; inches were understood");
            return Some(SaidLength { mm, written: format!("{fraction}\""), words: taken, doubt });
        }
    };
    let mut doubt = None;
    if written.ends_with("ft") && !written.contains('/') && !words[end - 1].ends {
        if let Some((amount, "in", at)) = term_at(words, end) {
            written = format!("{written} {amount} in");
            end = at;
        } else if let Some(inches) =
            number_at(words, end).filter(|n| !n.ordinal && n.value < 12.0 && n.value.fract() == 0.0)
        {
            // `two foot six and a half`: the inches go without saying.
            end += inches.words;
            let half = (plain(words, end) == "and").then(|| fraction_at(words, end + 1)).flatten();
            written = match half {
                Some((fraction, taken)) => {
                    end += 1 + taken;
                    format!("{written} {} {fraction} in", inches.value)
                }
                None => format!("{written} {} in", inches.value),
            };
            doubt = Some("inches were understood after the feet");
        }
    }
    let length = Length::read(&written).ok()?;
    Some(SaidLength { mm: length.mm(), written, words: end - from, doubt })
}
