//! `ribband draw`.

use super::{print, print_json};
use crate::arguments::{DrawArgs, SideArg};
use crate::desk::Desk;
use crate::fault::Fault;
use hull::sheets::Page;
use serde_json::json;

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: &DrawArgs, as_json: bool) -> Result<(), Fault> {
    let state = desk.state(desk.choose(chosen)?)?;
    let sheets = plans::sheets_on(&state, Page::A4);
    if args.list {
        return list(&sheets, as_json);
    }
    let wanted = match (&args.sheet, args.side) {
        (Some(name), _) => name.trim().to_lowercase(),
        (None, None | Some(SideArg::Port)) => "shell-port".to_owned(),
        (None, Some(SideArg::Starboard)) => "shell-starboard".to_owned(),
        (None, Some(SideArg::Centreline)) => {
            return Err(Fault::input("--side centreline: accepted are port and starboard"));
        }
    };
    let Some((_, plan)) = sheets.iter().find(|(name, _)| name.to_string() == wanted) else {
        return Err(missing(&wanted, &sheets));
    };
    let mut written = Vec::new();
    type Make<'a> = &'a dyn Fn() -> Result<Vec<u8>, Fault>;
    let svg: Make<'_> = &|| Ok(plan.sheet.to_svg().into_bytes());
    let dxf: Make<'_> = &|| Ok(plan.sheet.to_dxf().into_bytes());
    let pdf: Make<'_> = &|| {
        let made = jiff::tz::Offset::UTC.to_datetime(state.latest().utc().unwrap_or_default());
        let ident = format!("{} {} {wanted}", state.survey(), state.digest());
        let options = report::Options { paper: report::Paper::A4, ident, made };
        report::drawn(&plan.sheet, &options).map_err(Fault::undone)
    };
    for (file, make) in [(&args.svg, svg), (&args.dxf, dxf), (&args.pdf, pdf)] {
        let Some(file) = file else { continue };
        std::fs::write(file, make()?)
            .map_err(|e| Fault::undone(format!("{} cannot be written ({e})", file.display())))?;
        written.push(file.display().to_string());
    }
    if as_json {
        return print_json(&json!({"sheet": wanted, "written": written, "caption": plan.caption}));
    }
    print(&format!("Drawn: {}.", written.join(", ")))
}

fn list(sheets: &[(plans::SheetName, plans::Plan)], as_json: bool) -> Result<(), Fault> {
    if as_json {
        let all: Vec<_> =
            sheets.iter().map(|(name, plan)| json!({"sheet": name.to_string(), "caption": plan.caption})).collect();
        return print_json(&json!(all));
    }
    sheets.iter().try_for_each(|(name, plan)| print(&format!("{name}: {}", plan.sheet.title)))
}

/// Says why a sheet cannot be drawn, and what can.
fn missing(wanted: &str, sheets: &[(plans::SheetName, plans::Plan)]) -> Fault {
    let names: Vec<_> = sheets.iter().map(|(name, _)| name.to_string()).collect();
    let more = "her shell takes her length and the count of strakes (`ribband amend` the vessel, or enter one with \
                --length, --count strakes=… and --count frame-steamed=…)";
    match (wanted.starts_with("shell-"), names.is_empty()) {
        (true, _) => Fault::undone(format!("her shell cannot be drawn yet; {more}")),
        (false, true) => Fault::undone(format!("nothing can be drawn yet; {more}")),
        _ => Fault::input(format!("--sheet {wanted}: accepted are {}", names.join(", "))),
    }
}
