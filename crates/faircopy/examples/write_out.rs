//! Writes the invented boat's report to edit and her yard's list into a folder, to be looked at:
//! `cargo run -p faircopy --example write_out -- FOLDER`.

#[expect(dead_code, reason = "the tests use more of it")]
#[path = "../tests/all/book.rs"]
mod book;

use faircopy::prints::Prints;
use faircopy::word::{Sides, WordOptions, docx};
use faircopy::{Extras, compose, sheet, yard_list};
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = PathBuf::from(std::env::args().nth(1).ok_or("name a folder")?);
    std::fs::create_dir_all(&folder)?;
    let state = book::small();
    let made = jiff::civil::date(2026, 6, 5).at(9, 30, 0, 0);
    let document = compose(&state, &Extras::default());
    let prints = Prints::new();
    let options = WordOptions { paper: Sides::A4, made, prints: &prints, drawings_png: &[] };
    std::fs::write(folder.join("report.docx"), docx(&document, &options)?)?;
    let list = yard_list(&state, &Extras::default());
    std::fs::write(folder.join("yard.xlsx"), sheet::xlsx(&list, made)?)?;
    std::fs::write(folder.join("yard.csv"), sheet::csv(&list)?)?;
    Ok(())
}
