//! The names of the sheets.

use std::fmt;

/// A sheet of a survey. Its name, as written, stays the same from one survey to the next.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SheetName {
    /// `shell-port`: the port shell laid flat.
    ShellPort,
    /// `shell-starboard`: the starboard shell laid flat.
    ShellStarboard,
    /// `shell-both`: both sides about the keel line.
    ShellBoth,
    /// `transom`: the transom from abaft.
    Transom,
    /// `backbone`: the backbone in profile.
    Backbone,
    /// `framing`: frames and floors from above.
    Framing,
    /// `deck`: the deck from above.
    Deck,
    /// `moisture-port`, `soundness-starboard`, …: a measured quantity over one side of the shell.
    Field {
        /// The quantity, in lower-case letters, digits and hyphens.
        quantity: String,
        /// The side.
        side: hull::Side,
    },
}

impl fmt::Display for SheetName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SheetName::ShellPort => f.write_str("shell-port"),
            SheetName::ShellStarboard => f.write_str("shell-starboard"),
            SheetName::ShellBoth => f.write_str("shell-both"),
            SheetName::Transom => f.write_str("transom"),
            SheetName::Backbone => f.write_str("backbone"),
            SheetName::Framing => f.write_str("framing"),
            SheetName::Deck => f.write_str("deck"),
            SheetName::Field { quantity, side } => write!(f, "{quantity}-{side}"),
        }
    }
}

impl SheetName {
    /// Returns the sides of the shell that the sheet shows laid flat; none for other sheets and for quantities.
    pub fn shell_sides(&self) -> &'static [hull::Side] {
        match self {
            SheetName::ShellPort => &[hull::Side::Port],
            SheetName::ShellStarboard => &[hull::Side::Starboard],
            SheetName::ShellBoth => &[hull::Side::Port, hull::Side::Starboard],
            _ => &[],
        }
    }
}
