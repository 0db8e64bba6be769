//! Tests of the room `timber` through its public face.

mod drying;
mod meter;
mod moisture;
mod movement;
mod seam;
mod species;
mod strength;

/// Rows of a table in `tests/data`, its comment and header lines left out.
fn rows(text: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    text.lines().filter(|line| !line.starts_with('#')).skip(1).map(|line| line.split(',').collect())
}

fn number(text: &str) -> f64 {
    text.parse().expect("a number in the table")
}
