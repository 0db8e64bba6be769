//! `ribband draw`.

use super::{print, print_json};
use crate::arguments::{DrawArgs, SideArg};
use crate::desk::Desk;
use crate::fault::Fault;
use serde_json::json;

pub fn run(desk: &mut Desk, chosen: Option<&str>, args: &DrawArgs, as_json: bool) -> Result<(), Fault> {
    let state = desk.state(desk.choose(chosen)?)?;
    let side = match args.side {
        SideArg::Port => hull::Side::Port,
        SideArg::Starboard => hull::Side::Starboard,
        SideArg::Centreline => return Err(Fault::input("--side centreline: accepted are port and starboard")),
    };
    let plan = plans::shell(&state, side, hull::sheets::Page::A4).ok_or_else(|| {
        Fault::undone(
            "her shell cannot be drawn yet; it takes her length and the counts of strakes and frames \
             (`ribband amend` the vessel, or enter one with --length, --count strakes=… and --count frame-steamed=…)",
        )
    })?;
    let mut written = Vec::new();
    for (file, text) in [(&args.svg, plan.sheet.to_svg()), (&args.dxf, plan.sheet.to_dxf())] {
        let Some(file) = file else { continue };
        std::fs::write(file, text).map_err(|e| Fault::undone(format!("{} cannot be written ({e})", file.display())))?;
        written.push(file.display().to_string());
    }
    if as_json {
        return print_json(&json!({"written": written, "caption": plan.caption}));
    }
    print(&format!("Drawn: {}.", written.join(", ")))
}
