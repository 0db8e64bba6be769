//! The surveyor's own style, read from a file of the desk.

use crate::arguments::{LookArgs, Paper};
use crate::fault::Fault;
use measure::System;
use report::{PaperName, Style, Units};
use std::fs;
use std::path::{Path, PathBuf};

/// Name of the style's file in the folder of the surveys.
const FILE: &str = "style.toml";

/// How a report is to look: what was typed goes before the style, and the style before what is usual.
pub struct Look {
    /// The paper.
    pub paper: report::Paper,
    /// The units shown first.
    pub first: System,
    /// The style, limitation texts read in.
    pub style: Style,
    /// The picture of a signature that the style names.
    pub signature: Option<PathBuf>,
}

/// Reads the style named, or the one in the folder if there is one, and settles how the report looks.
///
/// # Errors
/// A style that cannot be read or has a field that is not known, or a text that it names and that is not there.
pub fn look(folder: &Path, args: &LookArgs) -> Result<Look, Fault> {
    let own = folder.join(FILE);
    let file = args.style.clone().or_else(|| own.exists().then_some(own));
    let (style, signature) = match &file {
        Some(file) => read(file)?,
        None => (Style::default(), None),
    };
    let paper = match (args.paper, style.paper) {
        (Some(Paper::A4), _) | (None, None | Some(PaperName::A4)) => report::Paper::A4,
        (Some(Paper::Letter), _) | (None, Some(PaperName::Letter)) => report::Paper::Letter,
    };
    let imperial = args.imperial_first || style.units == Some(Units::Imperial);
    Ok(Look { paper, first: if imperial { System::Customary } else { System::Metric }, style, signature })
}

fn read(file: &Path) -> Result<(Style, Option<PathBuf>), Fault> {
    let shown = file.display();
    let text = |path: &Path, what: &str| {
        fs::read_to_string(path)
            .map_err(|why| Fault::input(format!("{}: {what} cannot be read ({why})", path.display())))
    };
    let mut style: Style = toml::from_str(&text(file, "the style")?).map_err(|why| {
        Fault::input(format!("{shown}: {}", why.to_string().split_whitespace().collect::<Vec<_>>().join(" ")))
    })?;
    let beside = |name: &str| file.parent().unwrap_or_else(|| Path::new(".")).join(name);
    for limitation in &mut style.limitations {
        if let Some(name) = &limitation.file {
            limitation.text = text(&beside(name), "the limitation text")?.replace("\r\n", "\n");
        }
        if limitation.text.trim().is_empty() {
            return Err(Fault::input(format!(
                "{shown}: the limitation `{}` has no words; accepted is `text` or `file`",
                limitation.title
            )));
        }
    }
    let signature = style.signature.as_deref().map(beside);
    Ok((style, signature))
}
