//! The command line: `ribband create`, `enter`, `report`, … See `ribband help`.

mod arguments;
mod commands;
mod desk;
mod fault;
mod key;
mod style;
mod time;

use arguments::Arguments;
use clap::Parser as _;
use fault::Fault;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(said) => {
            // Help and version are asked for; everything else is input that is not accepted.
            let _ = said.print();
            return ExitCode::from(if said.use_stderr() { 2 } else { 0 });
        }
    };
    match commands::run(arguments) {
        Ok(()) => ExitCode::SUCCESS,
        Err(Fault::ReaderGone) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("ribband: {fault}");
            ExitCode::from(fault.exit_status())
        }
    }
}
