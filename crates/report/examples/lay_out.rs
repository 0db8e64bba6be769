//! Writes the invented boat's reports (fullest, emptiest, hostile) into a folder, to be looked at:
//! `cargo run -p report --example lay_out -- FOLDER`.

#[path = "../tests/all/boat.rs"]
mod boat;
#[path = "../tests/all/record.rs"]
mod record;

use report::{Pictures, typeset};
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = PathBuf::from(std::env::args().nth(1).ok_or("name a folder")?);
    std::fs::create_dir_all(&folder)?;
    let mut album = boat::Album::default();
    let state = record::fullest(&mut album);
    let all = [
        ("recorded", report::compose(&state, &report::Extras::default())),
        ("fullest", boat::fullest(&mut album)),
        ("emptiest", boat::emptiest()),
        ("hostile", boat::hostile()),
    ];
    for (name, document) in all {
        let read = |sha256: &str| album.read(sha256);
        let begun = std::time::Instant::now();
        let pdf = typeset(&document, Pictures { read: &read, kept_in: None }, &boat::options())?;
        println!(
            "{name}: {} pages, {} bytes, {} characters replaced, plainly {}, pictures not printed {:?}, {:.2} s",
            pdf.pages,
            pdf.bytes.len(),
            pdf.letters_replaced,
            pdf.set_plainly,
            pdf.picture_faults,
            begun.elapsed().as_secs_f64()
        );
        std::fs::write(folder.join(format!("{name}.pdf")), pdf.bytes)?;
    }
    Ok(())
}
