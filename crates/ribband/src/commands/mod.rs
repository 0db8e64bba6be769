//! The commands, one file each.

mod amend;
mod attach;
mod check;
mod create;
mod demo;
mod draw;
mod enter;
mod issue;
mod key;
mod link;
mod list;
mod pack;
mod reckon;
mod report;
mod serve;
mod show;
mod verify;
mod verify_report;

use crate::arguments::{Arguments, Command};
use crate::desk::Desk;
use crate::fault::Fault;
use clap::CommandFactory as _;
use serde_json::Value;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::Path;

/// Runs a command.
pub fn run(arguments: Arguments) -> Result<(), Fault> {
    let Arguments { folder, survey, json, command } = arguments;
    let chosen = survey.as_deref();
    let open = || Desk::open(folder.as_deref());
    let open_to_read = || Desk::open_to_read(folder.as_deref());
    let open_or_make = || Desk::open_or_make(folder.as_deref());
    match command {
        Command::Create(args) => create::run(&mut open_or_make()?, *args, json),
        Command::List => list::run(&mut open_to_read()?, json),
        Command::Show(args) => show::run(&mut open_to_read()?, chosen, &args, json),
        Command::Enter(args) => enter::run(&mut open()?, chosen, args, json),
        Command::Attach(args) => attach::run(&mut open()?, chosen, &args, json),
        Command::Amend(args) => amend::run(&mut open()?, chosen, args, json),
        Command::Report(args) => report::run(&mut open()?, chosen, &args, json),
        Command::Draw(args) => draw::run(&mut open_to_read()?, chosen, &args, json),
        Command::Pack(args) => pack::pack(&mut open_to_read()?, chosen, &args, json),
        Command::Unpack(args) => pack::unpack(&mut open_or_make()?, &args, json),
        Command::Check => check::run(&mut open_to_read()?, chosen, json),
        Command::Link(args) => link::run(&mut open()?, chosen, &args, json),
        Command::Issue(args) => issue::run(&mut open()?, chosen, &args, json),
        Command::Key(args) => key::run(&mut open_or_make()?, &args, json),
        Command::Verify(args) => match &args.file {
            Some(file) => verify_report::run(&args, file, json),
            None => verify::run(&mut open_to_read()?, chosen, json),
        },
        Command::Serve(args) => serve::run(open_or_make()?, args),
        Command::Reckon(args) => reckon::run(&args.words, json),
        Command::Demo(args) => demo::run(&args, json),
        Command::Completions(args) => {
            let mut text = Vec::new();
            clap_complete::generate(args.shell, &mut Arguments::command(), "ribband", &mut text);
            std::io::stdout().write_all(&text)?;
            Ok(())
        }
    }
}

/// Writes a file beside its place and moves it there when whole, so that half a file never bears the name.
fn write_whole(out: &Path, bytes: &[u8]) -> Result<(), Fault> {
    let fault = |why: String| Fault::undone(format!("{} cannot be written ({why})", out.display()));
    let folder = out.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or_else(|| ".".as_ref());
    let mut file = tempfile::NamedTempFile::new_in(folder).map_err(|e| fault(e.to_string()))?;
    file.write_all(bytes).map_err(|e| fault(e.to_string()))?;
    file.as_file().sync_all().map_err(|e| fault(e.to_string()))?;
    file.persist(out).map_err(|e| fault(e.error.to_string()))?;
    Ok(())
}

/// Prints JSON on standard output. What a terminal might obey is written as an escape, which reads back the same.
fn print_json(value: &Value) -> Result<(), Fault> {
    let text = serde_json::to_string_pretty(value).map_err(Fault::undone)?;
    let mut out = String::with_capacity(text.len() + 1);
    for c in text.chars() {
        match c {
            '\n' => out.push(c),
            c if is_obeyed(c) => {
                let _ = write!(out, "\\u{:04x}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push('\n');
    std::io::stdout().write_all(out.as_bytes())?;
    Ok(())
}

/// Prints a line on standard output. Control characters in what people wrote are shown, never obeyed by a terminal.
fn print(text: &str) -> Result<(), Fault> {
    let mut out = String::with_capacity(text.len() + 1);
    for c in text.chars() {
        match c {
            '\n' | '\t' => out.push(c),
            c if is_obeyed(c) => out.extend(c.escape_unicode()),
            c => out.push(c),
        }
    }
    out.push('\n');
    std::io::stdout().write_all(out.as_bytes())?;
    Ok(())
}

/// Tells whether a terminal might act on a character: control characters, and marks that turn the direction of writing
/// and could make a line read otherwise than it is.
fn is_obeyed(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}
