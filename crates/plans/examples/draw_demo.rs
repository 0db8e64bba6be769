//! Draws every sheet of the invented boat Marram into a folder, to be looked at:
//! `cargo run -p plans --example draw_demo -- FOLDER`.

use std::path::PathBuf;
use std::process::ExitCode;

fn main() -> ExitCode {
    let Some(folder) = std::env::args().nth(1).map(PathBuf::from) else {
        eprintln!("name the folder to draw into");
        return ExitCode::from(2);
    };
    match draw(&folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("{fault}");
            ExitCode::FAILURE
        }
    }
}

fn draw(folder: &std::path::Path) -> Result<(), Box<dyn std::error::Error>> {
    let marram = demo::marram()?;
    let state = survey::State::fold(marram.survey, marram.entries);
    std::fs::create_dir_all(folder)?;
    for (name, plan) in plans::sheets(&state) {
        std::fs::write(folder.join(format!("{name}.svg")), plan.sheet.to_svg())?;
        println!("{name}: {}\n  {}", plan.sheet.description, plan.caption);
    }
    Ok(())
}
