//! The room `fastening` through its public interface, held against sources outside it.

#![expect(clippy::unwrap_used, reason = "a check that cannot be made must stop its test")]

mod coverage;
mod draw;
mod draw_against_scipy;
mod finite_element;
mod holding;
mod keel;
mod kinds;
mod lateral;
mod metals;
mod plank;
mod table_file;
mod wastage;
