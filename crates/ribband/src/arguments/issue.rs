//! Flags of `check`, `issue`, `key` and `verify`.

use super::Paper;
use clap::Args;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub struct IssueArgs {
    /// Which survey, as with --survey [default: the only one]
    #[arg(value_name = "SURVEY", conflicts_with = "survey")]
    pub of: Option<String>,
    /// Where to write the report; its signature goes beside it, ending in `.sig` [default: the boat's name and version]
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Issue though a check is not met: the check's name and the reason, which the report prints; may repeat
    #[arg(long, value_name = "NAME=REASON")]
    pub against: Vec<String>,
    /// What changed since the version before, in your words
    #[arg(long, default_value = "")]
    pub changes: String,
    /// To whom it goes; may repeat [default: the addressees of the brief]
    #[arg(long, value_name = "ADDRESSEE")]
    pub to: Vec<String>,
    /// The day of issue [default: today]
    #[arg(long, value_name = "DATE")]
    pub date: Option<jiff::civil::Date>,
    /// A picture of your signature, drawn by hand
    #[arg(long, value_name = "FILE")]
    pub signature_image: Option<PathBuf>,
    #[command(flatten)]
    pub look: LookArgs,
    /// Who writes
    #[arg(long, env = "RIBBAND_AUTHOR")]
    pub author: Option<String>,
}

/// How a report looks.
#[derive(Debug, Args)]
pub struct LookArgs {
    /// Paper [default: the style's, or A4]
    #[arg(long, value_enum)]
    pub paper: Option<Paper>,
    /// Feet and inches first, metres in brackets
    #[arg(long)]
    pub imperial_first: bool,
    /// Your own style: letterhead, licences, limitation texts, paper, size of letters (TOML) [default: `style.toml` in the
    /// folder of the surveys, if there is one]
    #[arg(long, value_name = "FILE")]
    pub style: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub struct LinkArgs {
    /// Which survey, as with --survey [default: the only one]
    #[arg(value_name = "SURVEY", conflicts_with = "survey")]
    pub of: Option<String>,
    /// To whom it is given
    #[arg(long, value_name = "CLIENT")]
    pub to: String,
    /// The last day on which it opens [default: 30 days from today]
    #[arg(long, value_name = "DATE")]
    pub until: Option<jiff::civil::Date>,
    /// Which version of the report [default: the latest]
    #[arg(long, value_name = "N")]
    pub version: Option<u32>,
    /// The address that `ribband serve --clients` was given [default: this machine only]
    #[arg(long, value_name = "ADDRESS", env = "RIBBAND_CLIENTS")]
    pub clients: Option<server::ClientsAddress>,
    /// Who writes
    #[arg(long, env = "RIBBAND_AUTHOR")]
    pub author: Option<String>,
}

#[derive(Debug, Args)]
pub struct KeyArgs {
    /// Write the public key here, to be given away [default: print it]
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Whose key it is, for the line above it
    #[arg(long, env = "RIBBAND_AUTHOR")]
    pub author: Option<String>,
}

#[derive(Debug, Args)]
pub struct VerifyArgs {
    /// A report that was issued; with it, no survey is needed here [default: the surveys of the folder]
    #[arg(value_name = "REPORT", requires = "public_key")]
    pub file: Option<PathBuf>,
    /// The surveyor's public key, had by another way than the report
    #[arg(long, value_name = "FILE", requires = "file")]
    pub public_key: Option<PathBuf>,
    /// The signature [default: beside the report, ending in `.sig`]
    #[arg(long, value_name = "FILE", requires = "file")]
    pub signature: Option<PathBuf>,
    /// A packed survey: prove too that the report was made from its field book, and that nothing in it was altered
    #[arg(long, value_name = "FILE", requires = "file")]
    pub package: Option<PathBuf>,
}
