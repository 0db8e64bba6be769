//! `ribband report`.

use super::{print, print_json, write_whole};
use crate::arguments::{Format, ReportArgs};
use crate::desk::Desk;
use crate::fault::Fault;
use crate::style::look;
use serde_json::{Value, json};
use server::Wanted;
use std::path::Path;

/// A file as it is to be written, and what is to be said of it.
struct Written {
    bytes: Vec<u8>,
    about: Value,
    said: String,
    picture_faults: Vec<(String, String)>,
    letters_replaced: usize,
}

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: &ReportArgs, as_json: bool) -> Result<(), Fault> {
    let survey = desk.choose(chosen)?;
    let look = look(desk.folder(), &args.look)?;
    let state = desk.state(survey)?;
    let before = desk.before(&state)?;
    let wanted = Wanted {
        paper: look.paper,
        first: look.first,
        style: Some(&look.style),
        before: before.as_ref(),
        ..Wanted::default()
    };
    let store = desk.store();
    let digest = |digest: survey::Digest| digest.to_string();
    let faults = |all: Vec<(String, report::PictureFault)>| -> Vec<(String, String)> {
        all.into_iter().map(|(sha256, why)| (sha256, why.to_string())).collect()
    };
    let written = match format(args) {
        Format::Pdf => {
            let made = server::write_wanted(store, &state, &wanted).map_err(Fault::undone)?;
            Written {
                about: json!({"pages": made.pdf.pages, "field_book": digest(made.field_book)}),
                said: format!("{} pages, a draft of the field book {}", made.pdf.pages, made.field_book),
                picture_faults: faults(made.pdf.picture_faults),
                letters_replaced: made.pdf.letters_replaced,
                bytes: made.pdf.bytes,
            }
        }
        Format::Docx => {
            let made = server::write_docx(store, &state, &wanted).map_err(Fault::undone)?;
            let book = state.digest();
            Written {
                about: json!({"field_book": digest(book)}),
                said: format!("to edit; a draft of the field book {book}"),
                picture_faults: faults(made.picture_faults),
                letters_replaced: 0,
                bytes: made.bytes,
            }
        }
        kind @ (Format::Xlsx | Format::Csv) => {
            let list = server::yard_list(&state, &wanted);
            let bytes = match kind {
                Format::Xlsx => report::sheet::xlsx(&list.list, list.made),
                _ => report::sheet::csv(&list.list),
            };
            let rows = list.list.rows.len();
            Written {
                bytes: bytes.map_err(Fault::undone)?,
                about: json!({"rows": rows, "field_book": digest(list.field_book)}),
                said: format!("{rows} rows of work by place, a draft of the field book {}", list.field_book),
                picture_faults: Vec::new(),
                letters_replaced: 0,
            }
        }
    };
    write_whole(&args.out, &written.bytes)?;
    let lacking = written.picture_faults.len();
    tell(&args.out, written, as_json)?;
    if lacking > 0 && !args.without_missing {
        return Err(Fault::undone(format!(
            "{} is written, but {lacking} {} not in it; with --without-missing that is taken as it is",
            args.out.display(),
            if lacking == 1 { "picture is" } else { "pictures are" }
        )));
    }
    Ok(())
}

/// Returns the format asked for, else the one that the file's name ends in, else PDF.
fn format(args: &ReportArgs) -> Format {
    let ending = args.out.extension().and_then(|ending| ending.to_str()).map(str::to_lowercase);
    args.format.unwrap_or(match ending.as_deref() {
        Some("docx") => Format::Docx,
        Some("xlsx") => Format::Xlsx,
        Some("csv") => Format::Csv,
        _ => Format::Pdf,
    })
}

fn tell(out: &Path, written: Written, as_json: bool) -> Result<(), Fault> {
    if as_json {
        let mut about = json!({"file": out.display().to_string(), "bytes": written.bytes.len()});
        if let (Some(all), Value::Object(more)) = (about.as_object_mut(), written.about) {
            all.extend(more);
            let faults = written.picture_faults.iter().map(|(sha256, why)| json!({"sha256": sha256, "why": why}));
            all.insert("pictures_not_printed".to_owned(), faults.collect::<Vec<_>>().into());
            all.insert("letters_replaced".to_owned(), written.letters_replaced.into());
        }
        return print_json(&about);
    }
    print(&format!("{}: {}.", out.display(), written.said))?;
    for (sha256, why) in written.picture_faults {
        print(&format!("Picture {} could not be printed: {why}.", &sha256[..12.min(sha256.len())]))?;
    }
    if written.letters_replaced > 0 {
        print(&format!(
            "{} characters are printed by their number, because no font has them or because they could mislead.",
            written.letters_replaced
        ))?;
    }
    Ok(())
}
