//! What members are called.

use crate::lexicon::plain as small;
use crate::phones::{Band, band};
use crate::said::{SaidWord, plain};
use std::collections::BTreeMap;
use std::ops::Range;
use survey::{State, catalogue, members_of};

const SAID: &str = include_str!("../../data/said-members.csv");

/// The names by which members are known, with the member each stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct MemberNames {
    /// By phrase; no member where a phrase is known and names none.
    names: BTreeMap<String, (Option<String>, Option<String>)>,
    longest: usize,
}

/// A member named in the talk.
#[derive(Clone, Debug, PartialEq)]
pub struct Mention {
    /// The member, by its name in the record.
    pub member: String,
    /// The words that name it.
    pub words: Range<usize>,
    /// What is doubtful about it.
    pub doubt: Option<String>,
}

impl MemberNames {
    /// Returns the names of the whole catalogue.
    pub fn catalogue() -> Self {
        Self::from(catalogue().iter().map(|m| (m.id.as_str(), m.name.as_str())))
    }

    /// Returns the names of the members that one boat has, her own included.
    pub fn of(state: &State) -> Self {
        let members = members_of(state);
        Self::from(members.iter().map(|m| (m.id.as_str(), m.name.as_str())))
    }

    fn from<'a>(members: impl Iterator<Item = (&'a str, &'a str)>) -> Self {
        let had: BTreeMap<&str, &str> = members.collect();
        let mut names = BTreeMap::new();
        for row in
            csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(SAID.as_bytes()).records().filter_map(Result::ok)
        {
            let (said, member, doubt) = (row.get(0).unwrap_or(""), row.get(1).unwrap_or(""), row.get(2).unwrap_or(""));
            if member.is_empty() || had.contains_key(member) {
                let some = |text: &str| (!text.is_empty()).then(|| text.to_owned());
                names.insert(said.to_owned(), (some(member), some(doubt)));
            }
        }
        for (id, name) in &had {
            let mut called = vec![small(&name.replace(',', "")), small(&id.replace('-', " "))];
            if let Some(known) = catalogue().iter().find(|m| m.id == *id) {
                let names =
                    survey::Language::ALL.iter().map(|language| small(&known.called(*language).replace(',', "")));
                called.extend(names);
                called.extend(other_names(&known.other_names));
            }
            for name in called {
                for form in [name.clone(), format!("{name}s"), name.strip_suffix('s').unwrap_or(&name).to_owned()] {
                    names.entry(form).or_insert_with(|| (Some((*id).to_owned()), None));
                }
            }
        }
        let longest = names.keys().map(|name| name.split(' ').count()).max().unwrap_or(1);
        Self { names, longest }
    }

    /// Returns the members named within a run of words, the longest names first; none overlap.
    pub fn mentions(&self, words: &[SaidWord], range: Range<usize>) -> Vec<Mention> {
        let mut found = Vec::new();
        let mut at = range.start;
        while at < range.end {
            let most = self.longest.min(range.end - at);
            let hit = (1..=most).rev().find_map(|count| {
                let phrase: Vec<&str> = (at..at + count).map(|n| plain(words, n)).collect();
                self.names.get(&phrase.join(" ")).map(|named| (count, named))
            });
            match hit {
                Some((count, (member, doubt))) => {
                    if let Some(member) = member {
                        found.push(Mention { member: member.clone(), words: at..at + count, doubt: doubt.clone() });
                    }
                    at += count;
                }
                None => at += 1,
            }
        }
        found
    }
}

/// Takes the other names of the catalogue apart. A single word that is common English (`guard`, `bend`, `bonding`) is left out:
/// it would be found in any talk.
fn other_names(text: &str) -> Vec<String> {
    let mut names = Vec::new();
    for piece in text.split([';', ',']) {
        let piece = piece.split('(').next().unwrap_or("").trim();
        let piece = piece.trim_start_matches("UK/US ").trim_start_matches("UK ").trim_start_matches("US ").trim();
        let name = small(piece);
        let common = !name.contains(' ') && band(&name) < Band::Unlisted;
        if !name.is_empty() && !common {
            names.push(name);
        }
    }
    names
}
