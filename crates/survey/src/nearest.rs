//! Names near to one that is not known, for a message that helps.

use crate::{State, catalogue};

/// Returns up to three names of members that are near to a name: the catalogue's, under its own and its other names,
/// and the surveyor's own.
pub(crate) fn nearest_members(state: &State, name: &str) -> Vec<String> {
    let wanted = name.to_lowercase();
    let own: Vec<String> = state.members_had().map(|view| view.payload.member.clone()).collect();
    let mut ranked: Vec<(usize, String)> = own.into_iter().map(|id| (distance(&wanted, &id), id)).collect();
    for member in catalogue() {
        let others =
            member.other_names.split([';', ',', '/']).map(|other| other.trim().to_lowercase().replace(' ', "-"));
        let near = std::iter::once(member.id.clone())
            .chain(std::iter::once(member.name.to_lowercase().replace(' ', "-")))
            .chain(others)
            .map(|other| closeness(&wanted, &other))
            .min();
        ranked.extend(near.map(|near| (near, member.id.clone())));
    }
    ranked.sort();
    ranked.dedup_by(|a, b| a.1 == b.1);
    // Further off than half the name's letters a name has nothing to do with it.
    let most = (wanted.chars().count() / 2).max(2);
    ranked.into_iter().filter(|(far, _)| *far <= most).map(|(_, id)| id).take(3).collect()
}

/// Returns the distance between two names; little when one is part of the other (`frame`, `frame-sawn`).
fn closeness(wanted: &str, name: &str) -> usize {
    let part = wanted.len() >= 3 && name.len() >= 3 && (name.contains(wanted) || wanted.contains(name));
    let far = distance(wanted, name);
    if part { far.min(2) } else { far }
}

/// Returns how many letters must be put in, taken out, changed or swapped with their neighbour to turn one word into
/// another (the distance of Damerau 1964 and Levenshtein 1966, neighbours swapped once).
pub(crate) fn distance(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().take(80).collect(), b.chars().take(80).collect());
    let mut rows = vec![vec![0usize; b.len() + 1]; a.len() + 1];
    for i in 0..=a.len() {
        for j in 0..=b.len() {
            rows[i][j] = if i == 0 || j == 0 {
                i + j
            } else {
                let change = usize::from(a[i - 1] != b[j - 1]);
                let mut least = (rows[i - 1][j] + 1).min(rows[i][j - 1] + 1).min(rows[i - 1][j - 1] + change);
                if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                    least = least.min(rows[i - 2][j - 2] + 1);
                }
                least
            };
        }
    }
    rows[a.len()][b.len()]
}

#[cfg(test)]
mod tests {
    use super::distance;

    /// The first two are the textbook examples (kitten and sitting: 3; Saturday and Sunday: 3).
    #[test]
    fn distances_are_those_of_the_textbooks() {
        assert_eq!(distance("kitten", "sitting"), 3);
        assert_eq!(distance("saturday", "sunday"), 3);
        assert_eq!(distance("keel", "kele"), 1);
        assert_eq!(distance("", "stem"), 4);
    }
}
