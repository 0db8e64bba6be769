//! Signs that a weighing knows, as they are spoken of.

/// The sign's name, and the words that must all be there for it.
const SIGNS: &[(&str, &[&[&str]])] = &[
    (
        "rust_weep_and_dark_halo_at_fastenings",
        &[&["rust", "rusty"], &["weep", "weeping", "weeps", "halo", "bleeding", "runs", "streaks"]],
    ),
    ("shell_lined_tunnel", &[&["tunnel", "tunnels", "burrows"], &["shell", "shelly", "lined", "chalky"]]),
    ("let_in_edges_or_odd_bungs", &[&["graving", "dutchman", "odd"], &["piece", "bungs", "edge", "dutchman"]]),
];

/// Returns the signs that a clause tells of.
pub(super) fn signs(words: &[&str]) -> Vec<String> {
    let has = |any: &[&str]| words.iter().any(|word| any.contains(word));
    SIGNS.iter().filter(|(_, all)| all.iter().all(|any| has(any))).map(|(name, _)| (*name).to_owned()).collect()
}
