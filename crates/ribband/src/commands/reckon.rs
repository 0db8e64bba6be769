//! `ribband reckon`: any topic of the table of reckoners.
//!
//! Flags are read here and not by clap, because what a topic takes is declared in the table, and a refusal must be
//! one line that names flag, value and what is accepted.

use super::{print, print_json};
use crate::fault::Fault;
use reckon::{FlagKind, Inputs, Topic};
use std::fmt::Write as _;
use std::path::PathBuf;

/// Largest file read as an input, in bytes.
const LARGEST_FILE: u64 = 512 << 20;

#[derive(Default)]
struct Asked {
    pairs: Vec<(String, String)>,
    json: bool,
    help: bool,
    svg: Option<PathBuf>,
    dxf: Option<PathBuf>,
}

pub fn run(words: &[String], as_json: bool) -> Result<(), Fault> {
    let mut words = words.iter().map(String::as_str).peekable();
    let first = words.next().unwrap_or("--help");
    if first == "--list" || first == "--help" || first == "-h" {
        let json = as_json || words.any(|word| word == "--json");
        return if json && first == "--list" { print_json(&reckon::list()) } else { print(&listed()) };
    }
    if first == "--json" && words.peek() == Some(&"--list") {
        return print_json(&reckon::list());
    }
    let topic = reckon::find(first).ok_or_else(|| {
        let names: Vec<_> = reckon::table().iter().map(|topic| topic.name).collect();
        Fault::input(format!("there is no topic `{first}`; accepted are {}", names.join(", ")))
    })?;
    let asked = read_words(words)?;
    if asked.help {
        return print(&help(topic));
    }
    let inputs = inputs(topic, &asked.pairs)?;
    let reckoned = topic.reckon(inputs).map_err(Fault::input)?;
    let sheet = |flag: &str| {
        let first = reckoned.answer.sheets.first();
        first.ok_or_else(|| Fault::input(format!("--{flag}: `{}` has no drawing for these inputs", topic.name)))
    };
    let write = |file: &PathBuf, text: String| {
        std::fs::write(file, text).map_err(|e| Fault::undone(format!("{} cannot be written ({e})", file.display())))
    };
    if let Some(file) = &asked.svg {
        write(file, sheet("svg")?.to_svg())?;
    }
    if let Some(file) = &asked.dxf {
        write(file, sheet("dxf")?.to_dxf())?;
    }
    if asked.json || as_json { print_json(&reckoned.to_json()) } else { print(reckoned.to_string().trim_end()) }
}

fn read_words<'a>(mut words: impl Iterator<Item = &'a str>) -> Result<Asked, Fault> {
    let mut asked = Asked::default();
    while let Some(word) = words.next() {
        let Some(flag) = word.strip_prefix("--") else {
            if word == "-h" {
                asked.help = true;
                continue;
            }
            return Err(Fault::input(format!("`{word}` is not a flag; accepted are flags like --temp-c 20")));
        };
        let (flag, given) = match flag.split_once('=') {
            Some((flag, value)) => (flag, Some(value)),
            None => (flag, None),
        };
        match flag {
            "json" => asked.json = true,
            "help" => asked.help = true,
            _ => {
                let value = given
                    .or_else(|| words.next())
                    .ok_or_else(|| Fault::input(format!("--{flag} has no value; accepted is a value after it")))?;
                match flag {
                    "svg" => asked.svg = Some(value.into()),
                    "dxf" => asked.dxf = Some(value.into()),
                    _ => asked.pairs.push((flag.to_owned(), value.to_owned())),
                }
            }
        }
    }
    Ok(asked)
}

/// Reads the inputs; the value of a flag that takes a file is the file's path.
fn inputs(topic: &Topic, pairs: &[(String, String)]) -> Result<Inputs, Fault> {
    let mut texts: Vec<(&str, String)> = Vec::new();
    let mut files: Vec<(&str, Vec<u8>)> = Vec::new();
    for (name, value) in pairs {
        let kind = topic.flags.iter().find(|flag| flag.name == name).map(|flag| &flag.kind);
        match kind {
            Some(FlagKind::TextFile) => {
                let text = String::from_utf8(read(name, value)?)
                    .map_err(|_| Fault::input(format!("--{name} {value}: the file is not text in UTF-8")))?;
                texts.push((name, text));
            }
            Some(FlagKind::BinaryFile) => files.push((name, read(name, value)?)),
            _ => texts.push((name, value.clone())),
        }
    }
    let mut inputs =
        Inputs::read(topic, texts.iter().map(|(name, text)| (*name, text.as_str()))).map_err(Fault::input)?;
    for (name, bytes) in files {
        inputs = inputs.with_bytes(topic, name, bytes).map_err(Fault::input)?;
    }
    Ok(inputs)
}

fn read(flag: &str, path: &str) -> Result<Vec<u8>, Fault> {
    let size = std::fs::metadata(path).map(|meta| meta.len());
    match size {
        Ok(size) if size > LARGEST_FILE => {
            Err(Fault::input(format!("--{flag} {path}: the file has {size} bytes; accepted are {LARGEST_FILE}")))
        }
        _ => std::fs::read(path)
            .map_err(|e| Fault::input(format!("--{flag} {path}: the file cannot be read ({e}); accepted is a file"))),
    }
}

fn listed() -> String {
    let table = reckon::table();
    let width = table.iter().map(|topic| topic.name.len()).max().unwrap_or(0);
    let mut out = String::from("Topics (`ribband reckon TOPIC --help` tells what each takes):\n");
    for topic in table {
        let _ = writeln!(out, "  {:width$}  {}", topic.name, topic.title);
    }
    out.push_str("Every topic also takes --json, and --svg FILE or --dxf FILE where it has a drawing.");
    out
}

fn help(topic: &Topic) -> String {
    let mut out = format!("{}\n{}\n\nFlags:\n", topic.title, topic.question);
    for flag in topic.flags {
        let must = match (flag.required, flag.default) {
            (true, _) => " (must be given)".to_owned(),
            (false, Some(default)) => format!(" [default: {default}]"),
            (false, None) => String::new(),
        };
        let _ = writeln!(out, "  --{}  {}: {}{must}", flag.name, flag.label, flag.accepts());
    }
    let _ = writeln!(
        out,
        "  --json  print one JSON object\n  --svg FILE, --dxf FILE  write the drawing, where there is one"
    );
    let _ = writeln!(out, "\nReckoned by: {}.", topic.equation);
    for source in topic.sources {
        let _ = writeln!(out, "Source: {source}.");
    }
    let example: Vec<_> = topic.example.iter().map(|(flag, value)| format!("--{flag} {}", quoted(value))).collect();
    let _ = write!(out, "\nExample:\n  ribband reckon {} {}", topic.name, example.join(" "));
    out
}

/// Puts a value in quotes where a shell would need them.
fn quoted(value: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || "-_.,/+".contains(c);
    if value.chars().all(plain) { value.to_owned() } else { format!("'{}'", value.replace('\'', "'\\''")) }
}
