//! `ribband report`.

use super::{print, print_json};
use crate::arguments::{Paper, ReportArgs};
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::json;
use std::io::Write as _;

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: &ReportArgs, as_json: bool) -> Result<(), Fault> {
    let survey = desk.choose(chosen)?;
    let paper = match args.paper {
        Paper::A4 => report::Paper::A4,
        Paper::Letter => report::Paper::Letter,
    };
    let written = server::write_report(desk.store(), survey, paper, args.imperial_first).map_err(Fault::undone)?;
    let out = &args.out;
    let fault = |why: String| Fault::undone(format!("{} cannot be written ({why})", out.display()));
    // Written beside its place and moved there when whole, so that half a report never bears the name.
    let folder = out.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or_else(|| ".".as_ref());
    let mut file = tempfile::NamedTempFile::new_in(folder).map_err(|e| fault(e.to_string()))?;
    file.write_all(&written.pdf.bytes).map_err(|e| fault(e.to_string()))?;
    file.persist(out).map_err(|e| fault(e.error.to_string()))?;
    let faults: Vec<_> = written.pdf.picture_faults.iter().map(|(sha256, why)| (sha256, why.to_string())).collect();
    if as_json {
        return print_json(&json!({
            "file": out.display().to_string(),
            "pages": written.pdf.pages,
            "bytes": written.pdf.bytes.len(),
            "field_book": written.field_book,
            "pictures_not_printed": faults.iter().map(|(sha256, why)| json!({"sha256": sha256, "why": why})).collect::<Vec<_>>(),
            "letters_replaced": written.pdf.letters_replaced,
        }));
    }
    print(&format!(
        "{}: {} pages, a draft of the field book {}.",
        out.display(),
        written.pdf.pages,
        written.field_book
    ))?;
    for (sha256, why) in faults {
        print(&format!("Picture {} could not be printed: {why}.", &sha256[..12.min(sha256.len())]))?;
    }
    if written.pdf.letters_replaced > 0 {
        print(&format!(
            "{} characters are printed by their number, because no font has them or because they could mislead.",
            written.pdf.letters_replaced
        ))?;
    }
    Ok(())
}
