//! Writes the report of the invented boat Marram into a folder, to be looked at:
//! `cargo run -p report --example demo_boat -- FOLDER`.

use report::{Extras, Options, Paper, Pictures, compose, typeset};
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = PathBuf::from(std::env::args().nth(1).ok_or("name a folder")?);
    std::fs::create_dir_all(&folder)?;
    let demo = demo::marram()?;
    let state = survey::State::fold(demo.survey, demo.entries);
    let begun = std::time::Instant::now();
    let document = compose(&state, &Extras::default());
    println!("composed in {:.2} s", begun.elapsed().as_secs_f64());
    let read = |sha256: &str| {
        let found = demo.pictures.iter().find(|p| survey::Digest::of(&p.bytes).to_string() == sha256);
        found.map(|p| p.bytes.to_vec()).ok_or_else(|| std::io::Error::other("not with the demo"))
    };
    let options = Options { paper: Paper::A4, ident: "marram, draft".into(), made: jiff::civil::date(2026, 6, 5).at(9, 0, 0, 0) };
    let pdf = typeset(&document, Pictures { read: &read, kept_in: None }, &options)?;
    println!("{} pages, {} bytes, {:?}, {:.2} s", pdf.pages, pdf.bytes.len(), pdf.picture_faults, begun.elapsed().as_secs_f64());
    std::fs::write(folder.join("marram.pdf"), pdf.bytes)?;
    Ok(())
}
