//! What can be typed: one definition for parsing, help and completions.

mod enter;
mod issue;

pub use enter::{
    BriefArgs, ConditionsArgs, EnterWhat, EstimateArgs, FindingArgs, FollowUpArgs, InstrumentArgs, MemberArgs,
    NotSeenArgs, ObservationArgs, PlaceArgs, RecommendationArgs, VesselArgs,
};

pub use issue::{IssueArgs, KeyArgs, LinkArgs, LookArgs, VerifyArgs};

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

const AFTER_HELP: &str = "\
A first survey, from nothing to the report:
  ribband create --author 'A. Surveyor' --name Example --construction clinker --purpose pre-purchase
  ribband enter observation --member garboard --side port --frame 11 --method sound --answer rings
  ribband attach photograph.jpg --caption 'Garboard, port, frame 11' --to LAST
  ribband enter finding --member garboard --title 'Garboard' --condition sound --text 'Rings like the \
reference places.' --basis LAST
  ribband report --out example.pdf

Exit status: 0 all is well; 1 something could not be done, or does not verify; 2 the input is not accepted.

The workbench supports a surveyor's judgement. It replaces neither that judgement nor local codes, class, flag or
licensed engineers. Working under a hauled boat, in tanks and bilges, with old paint, gas and shore power has rules
of its own: the yard's, and the law's.";

/// The workbench for surveyors of wooden boats: a field book that is never rubbed out, and the report built on it.
#[derive(Debug, Parser)]
#[command(name = "ribband", version, after_help = AFTER_HELP, max_term_width = 110)]
pub struct Arguments {
    /// Folder that holds the surveys [default: the user's data folder]
    #[arg(long, global = true, env = "RIBBAND_FOLDER", value_name = "FOLDER", hide_env = false)]
    pub folder: Option<PathBuf>,

    /// Which survey: its identifier, the end of it, or the beginning of the boat's name [default: the only one]
    #[arg(long, global = true, value_name = "SURVEY")]
    pub survey: Option<String>,

    /// Print JSON, for scripts
    #[arg(long, global = true)]
    pub json: bool,

    #[command(subcommand)]
    pub command: Command,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Open a new survey
    #[command(after_help = "Example:\n  ribband create --author 'A. Surveyor' --name Example \
        --construction carvel --purpose pre-purchase --client 'A. Buyer'\n  \
        ribband create --after Example --purpose re-inspection",
        mut_arg("name", |name| name.required(false).default_value("").hide_default_value(true)))]
    Create(Box<CreateArgs>),
    /// List the surveys in the folder
    #[command(after_help = "Example:\n  ribband list --json")]
    List,
    /// Show what a survey says now: members, entries, one entry with its history
    #[command(after_help = "Examples:\n  ribband show\n  ribband show --owed\n  ribband show --entry 4f21c09ab3d1")]
    Show(ShowArgs),
    /// Enter one entry from flags, or many from JSON lines on standard input
    #[command(after_help = "Examples:\n  ribband enter observation --member sheer-strake --side port --strake 9 \
        --frame 11 --method probe --knife firm --moves yes --note 'lifts 3 mm'\n  \
        ribband enter not-seen --member keel --why 'on the blocks' --needs 'lift and reblock'\n  \
        ribband enter lines < entries.jsonl")]
    Enter(EnterArgs),
    /// Attach a photograph, recording or paper to an entry
    #[command(after_help = "Example:\n  ribband attach seam.jpg --to LAST --caption 'Open seam, port, frame 9'")]
    Attach(AttachArgs),
    /// Correct or withdraw an entry; the earlier one stays in the field book
    #[command(after_help = "Examples:\n  ribband amend LAST --why 'counted again' --set place.strake=5\n  \
        ribband amend 4f21c09ab3d1 --why 'entered twice' --withdraw")]
    Amend(AmendArgs),
    /// Write the report as PDF
    #[command(after_help = "Example:\n  ribband report --out marram.pdf --paper letter --imperial-first")]
    Report(ReportArgs),
    /// Draw the boat with what was found, as SVG or DXF: shell, transom, backbone, framing, deck, what was measured
    #[command(after_help = "Examples:\n  ribband draw --list\n  ribband draw --side port --svg port.svg\n  \
        ribband draw --sheet backbone --dxf backbone.dxf")]
    Draw(DrawArgs),
    /// Write a survey with all its attachments into one file, to carry or send
    #[command(after_help = "Example:\n  ribband pack --out marram.ribband")]
    Pack(PackArgs),
    /// Take in a packed survey; what is there already stays as it is
    #[command(after_help = "Example:\n  ribband unpack marram.ribband")]
    Unpack(UnpackArgs),
    /// Tell what a report still owes its reader before it goes out
    #[command(after_help = "Example:\n  ribband check --json")]
    Check,
    /// Issue the report: freeze it, number the version, sign it, and keep it for ever
    #[command(after_help = "Examples:\n  ribband issue --out marram-1.pdf --signature-image hand.png\n  \
        ribband issue --changes 'Keel bolts seen drawn.' --against members-covered='limited inspection agreed'")]
    Issue(Box<IssueArgs>),
    /// Make a link that opens one report that went out, for its client; `amend --withdraw` revokes it
    #[command(
        after_help = "Example:\n  ribband link --to \"Rowan Aldane\" --until 2026-12-31 --clients https://reports.example.org"
    )]
    Link(LinkArgs),
    /// Write the public key by which your signature is checked, to be given away
    #[command(after_help = "Example:\n  ribband key --out surveyor.pub")]
    Key(KeyArgs),
    /// Prove that no entry, photograph or recording was altered or lost; or that a report is what was issued
    #[command(after_help = "Examples:\n  ribband verify\n  \
        ribband verify marram-1.pdf --public-key surveyor.pub --package marram.ribband")]
    Verify(VerifyArgs),
    /// Serve the workbench to the browsers of this machine
    #[command(after_help = "Examples:\n  ribband serve --port 7340\n  ribband serve --pair shed.local")]
    Serve(ServeArgs),
    /// Reckon one thing: moisture, movement, fastenings, hull, evidence, cost
    #[command(
        disable_help_flag = true,
        after_help = "Examples:\n  ribband reckon --list\n  ribband reckon emc --temp-c 20 --rh-percent 65"
    )]
    Reckon(ReckonArgs),
    /// Load the invented boat Marram into a folder of her own
    #[command(after_help = "Example:\n  ribband demo --into ./marram --serve")]
    Demo(DemoArgs),
    /// Print completions for a shell
    #[command(after_help = "Example:\n  ribband completions bash > ~/.local/share/bash-completion/completions/ribband")]
    Completions(CompletionsArgs),
}

#[derive(Debug, Args)]
pub struct CreateArgs {
    /// Who writes in the field book; kept for later entries
    #[arg(long, env = "RIBBAND_AUTHOR")]
    pub author: Option<String>,
    /// The survey of the same boat before this one, or a packed one: her particulars, members and open recommendations are
    /// carried over
    #[arg(long, value_name = "SURVEY")]
    pub after: Option<String>,
    #[command(flatten)]
    pub brief: BriefArgs,
    #[command(flatten)]
    pub vessel: VesselArgs,
}

#[derive(Debug, Args)]
pub struct ShowArgs {
    /// Only entries of this member
    #[arg(long)]
    pub member: Option<String>,
    /// Only entries of this kind
    #[arg(long)]
    pub kind: Option<String>,
    /// One entry, with its history and attachments
    #[arg(long, value_name = "ENTRY")]
    pub entry: Option<String>,
    /// The members of which nothing is recorded yet
    #[arg(long)]
    pub owed: bool,
    /// All members with what is recorded of each
    #[arg(long)]
    pub members: bool,
}

#[derive(Debug, Args)]
pub struct EnterArgs {
    /// Who writes [default: who created the survey here]
    #[arg(long, env = "RIBBAND_AUTHOR", global = true)]
    pub author: Option<String>,
    #[command(subcommand)]
    pub what: EnterWhat,
}

#[derive(Debug, Args)]
pub struct AttachArgs {
    /// The files, one or several
    #[arg(required = true)]
    pub files: Vec<PathBuf>,
    /// The entry they belong to: its identifier, the end of it, or LAST
    #[arg(long, value_name = "ENTRY")]
    pub to: Option<String>,
    /// What they show
    #[arg(long, default_value = "")]
    pub caption: String,
    /// What they show, for someone who cannot see them
    #[arg(long, default_value = "")]
    pub alternative: String,
    /// Keep the position that the camera wrote into the file in the record
    #[arg(long)]
    pub keep_position: bool,
    /// Who writes
    #[arg(long, env = "RIBBAND_AUTHOR")]
    pub author: Option<String>,
}

#[derive(Debug, Args)]
pub struct AmendArgs {
    /// The entry: its identifier, the end of it, or LAST
    pub entry: String,
    /// Why
    #[arg(long)]
    pub why: String,
    /// A field and its new value, e.g. `note=…` or `reading.answer=rings`; may repeat
    #[arg(long, value_name = "FIELD=VALUE")]
    pub set: Vec<String>,
    /// The whole new payload, as JSON
    #[arg(long, conflicts_with_all = ["set", "withdraw"])]
    pub payload: Option<String>,
    /// Withdraw the entry: it no longer counts, though it stays readable
    #[arg(long, conflicts_with = "set")]
    pub withdraw: bool,
    /// Settle a disagreement: this amendment follows all versions that stand against each other
    #[arg(long)]
    pub settle: bool,
    /// Who writes
    #[arg(long, env = "RIBBAND_AUTHOR")]
    pub author: Option<String>,
}

/// Paper.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum Paper {
    /// 210 mm × 297 mm
    A4,
    /// 8 1/2 in × 11 in
    Letter,
}

/// What kind of file is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// The report as printed, for keeping: PDF/A-2a and PDF/UA-1
    Pdf,
    /// The report to edit
    Docx,
    /// The work by place, for a yard to price
    Xlsx,
    /// The same work as a plain table
    Csv,
}

#[derive(Debug, Args)]
pub struct ReportArgs {
    /// Where to write it
    #[arg(long, value_name = "FILE")]
    pub out: PathBuf,
    /// What kind of file [default: as the name of the file ends, else pdf]
    #[arg(long, value_enum)]
    pub format: Option<Format>,
    #[command(flatten)]
    pub look: LookArgs,
    /// All is well even when pictures are missing or cannot be printed; a box stands in their place
    #[arg(long)]
    pub without_missing: bool,
}

#[derive(Debug, Args)]
pub struct DrawArgs {
    /// Which side of the shell; short for `--sheet shell-port` or `--sheet shell-starboard`
    #[arg(long, value_enum, conflicts_with = "sheet")]
    pub side: Option<SideArg>,
    /// Which sheet, by its name (`ribband draw --list`) [default: shell-port]
    #[arg(long, value_name = "NAME")]
    pub sheet: Option<String>,
    /// List the sheets that can be drawn of her
    #[arg(long, conflicts_with_all = ["side", "sheet", "svg", "dxf", "pdf"])]
    pub list: bool,
    /// Write SVG here
    #[arg(long, value_name = "FILE", required_unless_present_any = ["dxf", "pdf", "list"])]
    pub svg: Option<PathBuf>,
    /// Write DXF here
    #[arg(long, value_name = "FILE")]
    pub dxf: Option<PathBuf>,
    /// Write PDF here, at the sheet's own size
    #[arg(long, value_name = "FILE")]
    pub pdf: Option<PathBuf>,
}

/// Side, as typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum SideArg {
    /// Left, looking forward
    Port,
    /// Right, looking forward
    Starboard,
    /// On the centreline
    Centreline,
}

impl From<SideArg> for survey::Side {
    fn from(side: SideArg) -> Self {
        match side {
            SideArg::Port => survey::Side::Port,
            SideArg::Starboard => survey::Side::Starboard,
            SideArg::Centreline => survey::Side::Centreline,
        }
    }
}

#[derive(Debug, Args)]
pub struct PackArgs {
    /// Where to write it
    #[arg(long, value_name = "FILE")]
    pub out: PathBuf,
    /// Pack even when attachments that the survey names are not here; they are left out and named
    #[arg(long)]
    pub without_missing: bool,
}

#[derive(Debug, Args)]
pub struct UnpackArgs {
    /// The packed survey
    pub file: PathBuf,
}

#[derive(Debug, Args)]
pub struct ServeArgs {
    /// Port on this machine; 0 takes a free one
    #[arg(long, default_value_t = 7340)]
    pub port: u16,
    /// Where clients open the links of `ribband link`: a name of your own, with a proxy on this machine that has its
    /// certificate and passes requests on here
    #[arg(long, value_name = "ADDRESS", env = "RIBBAND_CLIENTS")]
    pub clients: Option<server::ClientsAddress>,
    /// Let paired phones and other devices in over the network of the yard, under this name of this machine: one ending in
    /// .local or .home.arpa, or its address on a private network
    #[arg(long, value_name = "NAME", env = "RIBBAND_PAIR")]
    pub pair: Option<server::devices::LocalName>,
    /// Port for paired devices (HTTPS)
    #[arg(long, default_value_t = ServeArgs::PAIR_PORT, value_name = "PORT")]
    pub pair_port: u16,
    /// Port of the page that hands the certificate over to a device (HTTP)
    #[arg(long, default_value_t = ServeArgs::HAND_OVER_PORT, value_name = "PORT")]
    pub hand_over_port: u16,
}

impl ServeArgs {
    const PAIR_PORT: u16 = 7341;
    const HAND_OVER_PORT: u16 = 7342;

    /// Serves to the browsers of this machine alone.
    pub fn on(port: u16) -> Self {
        Self { port, clients: None, pair: None, pair_port: Self::PAIR_PORT, hand_over_port: Self::HAND_OVER_PORT }
    }
}

#[derive(Debug, Args)]
pub struct ReckonArgs {
    /// The topic and its flags; `--list` names the topics, `TOPIC --help` a topic's flags
    #[arg(trailing_var_arg = true, allow_hyphen_values = true, value_name = "TOPIC --FLAG VALUE …")]
    pub words: Vec<String>,
}

#[derive(Debug, Args)]
pub struct DemoArgs {
    /// Folder to load her into
    #[arg(long, default_value = "marram-demo", value_name = "FOLDER")]
    pub into: PathBuf,
    /// Serve the workbench on her afterwards
    #[arg(long)]
    pub serve: bool,
    /// Port on this machine; 0 takes a free one
    #[arg(long, default_value_t = 7340)]
    pub port: u16,
}

#[derive(Debug, Args)]
pub struct CompletionsArgs {
    /// The shell
    pub shell: clap_complete::Shell,
}
