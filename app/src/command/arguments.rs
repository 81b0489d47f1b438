//! The command line.

use clap::{CommandFactory as _, Parser, Subcommand, ValueEnum};
use std::num::NonZeroU32;
use std::path::PathBuf;
use traywright_core::sheet::Paper;

/// Prepares guided dental implant surgery: from the plan to every depth stop, the loaded tray and
/// the signed checklist.
///
/// A planning aid. It does not replace imaging, the maker's instructions, local rules or a licensed
/// clinician's judgement.
#[derive(Debug, Parser)]
#[command(
    name = "traywright",
    version,
    args_conflicts_with_subcommands = true,
    after_help = "Exit status of every command: 0 done, 1 something is short or unknown (check) or is on paper and not in the record (history), or a drill is near its limit or its wear not known (wear), 2 something could not be read, written or understood, 3 it was done, but the answer could not be written."
)]
pub(super) struct Arguments {
    /// The command.
    #[command(subcommand)]
    pub(super) command: Option<Command>,

    /// A case file to open in the window; where there is no display its settings and findings are printed.
    pub(super) case: Option<PathBuf>,
}

/// The headless commands.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Prints everything that was worked out for a case, as JSON.
    Figures {
        /// The case file.
        case: PathBuf,
        /// Each figure with the terms that it came from.
        #[arg(long)]
        explain: bool,
    },
    /// Lists the cases of a folder, the last changed first.
    List {
        /// The folder.
        #[arg(default_value = ".")]
        folder: PathBuf,
    },
    /// Prints the findings of a case; ends with 1 where anything is short or unknown.
    Check {
        /// The case file.
        case: PathBuf,
    },
    /// Prints all that was recorded of a case, in the order of the record, and what of it counts now.
    History {
        /// The case file.
        case: PathBuf,
        /// The end of a desk's record as a sheet bears it, in quotes: says whether the record still holds it,
        /// so that nothing up to there was removed or changed; ends with 1 where it does not. May be given
        /// several times.
        #[arg(long, value_name = "DESK NUMBER CODE")]
        paper: Vec<String>,
    },
    /// Writes the checklist as PDF.
    Sheet {
        /// The case file.
        case: PathBuf,
        /// The PDF file to write.
        #[arg(long, value_name = "FILE.pdf")]
        to: PathBuf,
        /// The size of paper.
        #[arg(long, value_enum, default_value_t = PaperSize::A4)]
        paper: PaperSize,
        /// The parts to print, separated by commas; without it, all of them.
        #[arg(long, value_enum, value_delimiter = ',')]
        parts: Vec<PartName>,
        /// The boxes for readings: empty, or with what was recorded.
        #[arg(long, value_enum, default_value_t = ReadingBoxes::Blank)]
        readings: ReadingBoxes,
    },
    /// Prints the record of a case as JSON: what was placed at each site, what is not recorded, who signed.
    Record {
        /// The case file.
        case: PathBuf,
        /// A PDF file to write the record into as well.
        #[arg(long, value_name = "FILE.pdf")]
        pdf: Option<PathBuf>,
        /// The size of its paper.
        #[arg(long, value_enum, default_value_t = PaperSize::A4)]
        paper: PaperSize,
    },
    /// Records that somebody approves a case as it is, beside the case file.
    Approve {
        /// The case file.
        case: PathBuf,
        /// Name of the person who approves.
        #[arg(long)]
        by: String,
        /// Name of this desk; each desk writes a file of its own. Without it, the name of this user's desk.
        #[arg(long)]
        desk: Option<String>,
    },
    /// Puts the damaged part of a case's record aside and records that; all approvals and readings of
    /// the case are then to be given anew.
    PutAside {
        /// The case file.
        case: PathBuf,
        /// Name of the person who does it.
        #[arg(long)]
        by: String,
        /// Name of this desk; each desk writes a file of its own. Without it, the name of this user's desk.
        #[arg(long)]
        desk: Option<String>,
    },
    /// Takes the entries that a case uses over from a kit file into the case.
    TakeKit {
        /// The case file; it is written anew.
        case: PathBuf,
        /// The kit file.
        #[arg(long)]
        kit: PathBuf,
    },
    /// Prints the wear of a kit's drills, counted from its closed cases: uses, sterilisations, limits; ends with 1
    /// where a piece is near its limit or has reached it, or that is not known.
    Wear {
        /// The kit file; the count lies beside it.
        kit: PathBuf,
        /// Counts everything anew from these cases, or all cases of these folders, first.
        #[arg(long, value_name = "FOLDER", num_args = 1..)]
        rebuild: Vec<PathBuf>,
        /// With --rebuild: lets cases go that were counted and are not among these.
        #[arg(long, requires = "rebuild")]
        forget: bool,
        /// Brings the count of one case up to date first.
        #[arg(long, value_name = "CASE", conflicts_with = "rebuild")]
        count: Option<PathBuf>,
    },
    /// Records which piece of the stock a drill of a case is, so that its uses are counted as that piece's.
    NamePiece {
        /// The case file.
        case: PathBuf,
        /// The id of the drill in the kit.
        #[arg(long)]
        drill: String,
        /// Its number among equal ones on the tray.
        #[arg(long, default_value = "1")]
        copy: NonZeroU32,
        /// What stands on the piece.
        #[arg(long)]
        mark: Option<String>,
        /// Nobody knows which piece it is.
        #[arg(long)]
        unknown: bool,
        /// In the sitting to come, and not in the one that was begun last.
        #[arg(long)]
        next: bool,
        /// The kit file that lists the pieces. Without it, the kit of this user's settings, where the case is of it.
        #[arg(long)]
        kit: Option<PathBuf>,
        /// Name of the person who says so.
        #[arg(long)]
        by: String,
        /// Name of this desk; each desk writes a file of its own. Without it, the name of this user's desk.
        #[arg(long)]
        desk: Option<String>,
    },
    /// Packs a case with everything that was recorded of it into one new file.
    Pack {
        /// The case file.
        case: PathBuf,
        /// The file to write; nothing that is there is replaced.
        #[arg(long, value_name = "FILE")]
        to: PathBuf,
        /// A kit file to go with it; the entries that the case uses are in the case itself.
        #[arg(long)]
        kit: Option<PathBuf>,
        #[expect(clippy::doc_markdown, reason = "shown as it stands by --help")]
        /// Encrypts it with a passphrase, which is asked, or read from the first line of the input or from
        /// TRAYWRIGHT_PASSPHRASE. If the passphrase is lost nobody can open the pack.
        #[arg(long)]
        encrypt: bool,
    },
    /// Takes a case with its record out of a pack, as it was packed.
    Unpack {
        /// The pack.
        pack: PathBuf,
        /// The folder to make; nothing that is there is replaced.
        #[arg(long, value_name = "FOLDER")]
        to: PathBuf,
    },
    /// Says which figures of a case newer rules change, and takes them: the case file is written anew.
    TakeRules {
        /// The case file.
        case: PathBuf,
    },
    /// Solves a bare problem of the run order; prints schedule, cost, bound, whether it is proved and
    /// the work done, as JSON. Says how far it is meanwhile; Ctrl+C ends the search with the best so far.
    Order {
        /// The problem file.
        problem: PathBuf,
        /// So many thousand numbers of states and bounds may be looked at.
        #[arg(long)]
        work: Option<u64>,
        /// So many mebibytes may be used; the answer depends on these two alone.
        #[arg(long)]
        memory: Option<usize>,
    },
}

/// Sizes of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum PaperSize {
    /// 210 × 297 mm.
    A4,
    /// 8.5 × 11 in.
    Letter,
}

impl From<PaperSize> for Paper {
    fn from(size: PaperSize) -> Self {
        match size {
            PaperSize::A4 => Self::A4,
            PaperSize::Letter => Self::Letter,
        }
    }
}

/// Boxes for readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum ReadingBoxes {
    /// Empty, to be written in.
    Blank,
    /// With what was recorded of each drill: the readings with who and when, or what became of it; the page for the second
    /// reading lists what is left to read.
    Filled,
}

/// Parts of the checklist.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum PartName {
    /// The theatre form: team check, second reading, counts, loading, order of use.
    Form,
    /// The true-scale strip.
    Strip,
    /// The surgeon's pages: the plan at a glance, limits, changes between the steps, one site after the other.
    Annex,
}

/// The help text.
pub(super) fn help() -> String {
    Arguments::command().render_long_help().to_string()
}
