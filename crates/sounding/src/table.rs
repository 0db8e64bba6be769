//! Reading the tables of weights that come with the room: rows of a word and numbers.

/// Returns the rows of a table as word and numbers; lines that begin with `#` are notes.
pub(crate) fn rows(text: &str) -> impl Iterator<Item = (&str, Vec<f64>)> {
    text.lines().filter(|l| !l.starts_with('#')).filter_map(|line| {
        let (word, rest) = line.split_once(',')?;
        Some((word, rest.split(',').filter_map(|v| v.trim().parse().ok()).collect()))
    })
}
