//! Reading committed reference tables, and comparing.

/// Rows of a CSV without remarks and header.
pub fn rows(text: &str) -> Vec<Vec<&str>> {
    text.lines().filter(|l| !l.starts_with('#')).skip(1).map(|l| l.split(',').collect()).collect()
}

pub fn number(cell: &str) -> f64 {
    cell.parse().unwrap_or_else(|_| panic!("`{cell}` is a number"))
}

/// Asserts that two figures agree within a share of the wanted one.
pub fn near(what: &str, got: f64, wanted: f64, share: f64) {
    assert!((got - wanted).abs() <= share * wanted.abs().max(1e-12), "{what}: {got} against {wanted}");
}

/// Asserts that two figures agree within an amount.
pub fn within(what: &str, got: f64, wanted: f64, amount: f64) {
    assert!((got - wanted).abs() <= amount, "{what}: {got} against {wanted}");
}
