//! `ribband pack` and `ribband unpack`.

use super::{print, print_json};
use crate::arguments::{PackArgs, UnpackArgs};
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::json;
use std::fs::{self, File};
use std::io::Write as _;
use store::package::{ExportOptions, Limits, export, import};

pub fn pack(desk: &mut Desk, chosen: Option<&str>, args: &PackArgs, as_json: bool) -> Result<(), Fault> {
    let survey = desk.choose(chosen)?;
    let out = &args.out;
    let fault = |why: String| Fault::undone(format!("{}: {why}", out.display()));
    // Written beside its place and moved there when whole, so that a half package never bears the name.
    let folder = out.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or_else(|| ".".as_ref());
    let mut file = tempfile::NamedTempFile::new_in(folder).map_err(|e| fault(e.to_string()))?;
    let exported = {
        let mut buffered = std::io::BufWriter::new(&mut file);
        let exported = export(desk.store(), &[survey], &ExportOptions::default(), &mut buffered)
            .map_err(|e| fault(e.to_string()))?;
        buffered.flush().map_err(|e| fault(e.to_string()))?;
        exported
    };
    if let (Some(first), false) = (exported.left_out.first(), args.without_missing) {
        let missing = match exported.left_out.len() {
            1 => format!("attachment {first} is"),
            many => format!("{many} attachments, the first {first}, are"),
        };
        return Err(Fault::undone(format!(
            "nothing was packed: {missing} not here; fetch what is missing first, or pack without it by --without-missing"
        )));
    }
    file.as_file().sync_all().map_err(|e| fault(e.to_string()))?;
    file.persist(out).map_err(|e| fault(e.error.to_string()))?;
    let bytes = fs::metadata(out).map(|meta| meta.len()).unwrap_or(0);
    if as_json {
        return print_json(&json!({"file": out.display().to_string(), "bytes": bytes, "entries": exported.entries,
            "attachments": exported.attachments, "left_out": exported.left_out}));
    }
    print(&format!(
        "{}: {} entries and {} attachments, {bytes} bytes.",
        out.display(),
        exported.entries,
        exported.attachments
    ))?;
    if !exported.left_out.is_empty() {
        print(&format!("{} attachments are not here and are not in it.", exported.left_out.len()))?;
    }
    Ok(())
}

pub fn unpack(desk: &mut Desk, args: &UnpackArgs, as_json: bool) -> Result<(), Fault> {
    let file = &args.file;
    let opened =
        File::open(file).map_err(|e| Fault::input(format!("{}: {e}; accepted is a packed survey", file.display())))?;
    let imported = import(desk.store(), opened, &Limits::default())
        .map_err(|fault| Fault::undone(format!("{}: {fault}", file.display())))?;
    if as_json {
        return print_json(&json!({
            "surveys": imported.surveys, "entries_new": imported.entries.new, "entries_known": imported.entries.known,
            "clashes": imported.entries.clashes, "attachments_new": imported.attachments_new,
            "attachments_known": imported.attachments_known, "lacking": imported.lacking,
        }));
    }
    print(&format!(
        "{} entries and {} attachments are new; {} and {} were here already.",
        imported.entries.new, imported.attachments_new, imported.entries.known, imported.attachments_known
    ))?;
    if !imported.lacking.is_empty() {
        print(&format!("{} attachments that it names are neither in it nor here.", imported.lacking.len()))?;
    }
    for clash in imported.entries.clashes {
        print(&format!(
            "Two entries of different content bear the name {clash}; both are kept, and `verify` names them."
        ))?;
    }
    Ok(())
}
