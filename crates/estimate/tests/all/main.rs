//! Tests of the room `estimate`, in one binary.

mod quantities;
mod robust;
mod tables;
mod take_off;
mod totals;
mod value;

/// Returns the rows of a committed reference table, head and remark left out.
fn rows(text: &str) -> impl Iterator<Item = Vec<&str>> {
    text.lines().filter(|line| !line.starts_with('#')).skip(1).map(|line| line.split(',').collect())
}

fn number(cell: &str) -> f64 {
    cell.parse().expect("a figure")
}
