//! The command line as typed, without its meaning.
//!
//! **Input:** the words of the command line. **Output:** [`Arguments`]. Every help text, man page and completion comes
//! from here. Never opens a file and never looks a name up: an unknown style or exporter is found later, by the
//! command.

mod nest;

use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::time::Duration;

use clap::{
    ArgGroup, ArgMatches, Args, CommandFactory, FromArgMatches, Parser, Subcommand, ValueEnum,
};
use traywright_job::refit::Reading;
use traywright_job::vary::Variation;

pub(crate) use nest::{NestArguments, StockGrain};

/// Design a one-piece, glue-free folded card tray (dieline) that fits your box and holds your item.
#[derive(Debug, Parser)]
#[command(name = "traywright", version, after_help = EXIT_CODES)]
pub(crate) struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Command,
    /// What goes with every command, before or behind its name.
    #[command(flatten)]
    pub(crate) everywhere: GlobalOptions,
}

impl Arguments {
    /// All commands and flags, from which help, manual pages and completions are made.
    pub(crate) fn definition() -> clap::Command {
        let everywhere = GlobalOptions::augment_args(clap::Command::new("every command"));
        let flags: Vec<clap::Arg> = everywhere.get_arguments().cloned().collect();
        Self::command().mut_subcommands(|command| command.args(&flags))
    }

    /// Reads the words of a command line; folders named before the command and behind it count alike.
    pub(crate) fn read(typed: Vec<OsString>) -> Result<Self, clap::Error> {
        let matches = Self::definition().try_get_matches_from(typed)?;
        let mut arguments = Self::from_arg_matches(&matches)?;
        if let Some((_, behind)) = matches.subcommand() {
            arguments.everywhere.add(behind)?;
        }
        Ok(arguments)
    }
}

const EXIT_CODES: &str = "\
Exit codes:
  0  done; every tray fits, by calculation
  1  a tray does not fit or does not hold its item; `lint` found a style that accepts such a tray
  2  bad input, a failed exporter, or a file that cannot be written";

/// Flags that every command takes.
#[derive(Args, Debug, Default)]
pub(crate) struct GlobalOptions {
    /// Look for styles in this folder too (repeatable)
    #[arg(long, value_name = "DIR")]
    pub(crate) styles: Vec<PathBuf>,
    /// Look for exporters in this folder too (repeatable)
    #[arg(long, value_name = "DIR")]
    pub(crate) plugins: Vec<PathBuf>,
    /// Print only the requested output and errors
    #[arg(long)]
    pub(crate) quiet: bool,
}

impl GlobalOptions {
    fn add(&mut self, behind: &ArgMatches) -> Result<(), clap::Error> {
        let behind = Self::from_arg_matches(behind)?;
        self.styles.extend(behind.styles);
        self.plugins.extend(behind.plugins);
        self.quiet |= behind.quiet;
        Ok(())
    }
}

/// The commands.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Make the files of one or more trays; if one tray fails, nothing is written
    Make(MakeArguments),
    /// Make a test strip for the card of a job: fold and measure it, then write the reading into the job
    Strip(StripArguments),
    /// Lay the blanks of trays on sheets of stock and make a file of each sheet
    Nest(NestArguments),
    /// Check whether trays fit and fold; writes no files
    Check(CheckArguments),
    /// List tested changes that fix a job, or write the job with one of them
    Fix(FixArguments),
    /// Write a commented job file to fill in
    Start(StartArguments),
    /// List styles with a preview, or describe one
    Styles(StylesArguments),
    /// Test styles over their whole range of boxes, items and card
    Lint(LintArguments),
    /// List all boards, or only those that match a word
    Boards(BoardsArguments),
    /// List the exporters and say which of them work
    Exporters(ExportersArguments),
}

/// The files that a command writes with exporters.
#[derive(Args, Debug, Default)]
pub(crate) struct FilesArguments {
    /// Exporters to use [default: those of svg,pdf,dxf,booklet that exist; for sheets of blanks no booklet]
    #[arg(long = "as", value_name = "LIST", value_delimiter = ',', value_parser = trimmed)]
    pub(crate) formats: Vec<String>,
    /// Folder to write into, created if missing [default: the current one]
    #[arg(long, value_name = "DIR")]
    pub(crate) into: Option<PathBuf>,
    /// How long exporters may take.
    #[command(flatten)]
    pub(crate) patience: TimeLimit,
}

impl FilesArguments {
    /// The folder to write into.
    pub(crate) fn folder(&self) -> &Path {
        self.into.as_deref().unwrap_or(Path::new(""))
    }
}

/// `make`
#[derive(Args, Debug)]
pub(crate) struct MakeArguments {
    /// The job files, one tray each
    #[arg(value_name = "JOB.kdl", required = true)]
    pub(crate) jobs: Vec<PathBuf>,
    /// The files to write.
    #[command(flatten)]
    pub(crate) files: FilesArguments,
    /// Skip trays that do not fit and jobs on which an exporter fails, write the others, end with a table, exit 1 or 2
    #[arg(long)]
    pub(crate) keep_going: bool,
    /// Make the files again whenever a job, a style or a font is saved, until Ctrl-C
    #[arg(long)]
    pub(crate) watch: bool,
}

/// `strip`
#[derive(Args, Debug)]
pub(crate) struct StripArguments {
    /// The job file with the strip's board, tool and page
    #[arg(value_name = "JOB.kdl")]
    pub(crate) job: PathBuf,
    /// The files to write.
    #[command(flatten)]
    pub(crate) files: FilesArguments,
}

/// `check`
#[derive(Args, Debug)]
pub(crate) struct CheckArguments {
    /// The job files, one tray each
    #[arg(value_name = "JOB.kdl", required_unless_present = "explain")]
    pub(crate) jobs: Vec<PathBuf>,
    /// Explain a finding, such as slot-tight: meaning, check and fix
    #[arg(long, value_name = "FINDING-CODE")]
    pub(crate) explain: Option<String>,
    /// Print all dimensions, checks, folds and notes
    #[arg(long)]
    pub(crate) all: bool,
    /// Output format
    #[arg(long, value_enum, default_value_t = ReportFormat::Text)]
    pub(crate) format: ReportFormat,
    /// Compare variations of one job, such as fit.item=(mm)1,(mm)2 or "fit.item=(mm)1..3 by (mm)0.5" (repeatable: all
    /// combinations)
    #[arg(long, value_name = "PLACE=VALUES", conflicts_with_all = ["explain", "all", "formats"])]
    pub(crate) vary: Vec<Variation>,
    /// The exporters that `make` will use: pages that they cannot print are errors [default: those of `make`]
    #[arg(long = "as", value_name = "LIST", value_delimiter = ',', value_parser = trimmed)]
    pub(crate) formats: Vec<String>,
    /// How long exporters may take.
    #[command(flatten)]
    pub(crate) patience: TimeLimit,
}

/// The form in which `check` reports.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum ReportFormat {
    /// Sentences in 80 columns
    Text,
    /// One object for one job, an array for several
    Json,
    /// Comma-separated values: the table of `--vary`
    Csv,
}

/// `fix`
#[derive(Args, Debug)]
#[command(group(ArgGroup::new("change").args(["take", "tight", "loose"]).multiple(true)))]
pub(crate) struct FixArguments {
    /// The job file
    #[arg(value_name = "JOB.kdl")]
    pub(crate) job: PathBuf,
    /// Write the job with the fix that has this number in the list
    #[arg(long, value_name = "N")]
    pub(crate) take: Option<usize>,
    /// The tray you made is too tight: add this to a clearance (both sides together), as box=0.5mm or item=1/16in
    #[arg(long, value_name = "WHAT=LENGTH", conflicts_with = "take")]
    pub(crate) tight: Vec<Reading>,
    /// The tray you made is too loose: take this off a clearance (both sides together), as box=0.5mm or item=1/16in
    #[arg(long, value_name = "WHAT=LENGTH", conflicts_with = "take")]
    pub(crate) loose: Vec<Reading>,
    /// The new job file; it must not exist yet [default: standard output]
    #[arg(long, value_name = "NEW.kdl", requires = "change")]
    pub(crate) into: Option<PathBuf>,
}

/// `start`
#[derive(Args, Debug)]
pub(crate) struct StartArguments {
    /// The job file to write; it must not exist yet
    #[arg(value_name = "FILE.kdl")]
    pub(crate) file: PathBuf,
    /// The style of the tray
    #[arg(long, value_name = "NAME")]
    pub(crate) style: Option<String>,
    /// The unit to measure in
    #[arg(long, value_enum)]
    pub(crate) unit: Option<TypedUnit>,
    /// Copy style, board, tool, fit, page, draw and machine lines from an existing job
    #[arg(long, value_name = "OLD.kdl")]
    pub(crate) like: Option<PathBuf>,
}

/// A unit as it is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum TypedUnit {
    /// Millimetres
    Mm,
    /// Inches
    In,
}

/// `styles`
#[derive(Args, Debug)]
pub(crate) struct StylesArguments {
    /// The style to describe
    pub(crate) name: Option<String>,
    /// Show the panel tree
    #[arg(long, requires = "name")]
    pub(crate) tree: bool,
}

/// `lint`
#[derive(Args, Debug)]
pub(crate) struct LintArguments {
    /// The files of the styles
    #[arg(value_name = "STYLE.ron", required = true)]
    pub(crate) files: Vec<PathBuf>,
    /// Write each failing example job to this folder, created if missing [default: none is written]
    #[arg(long, value_name = "DIR")]
    pub(crate) into: Option<PathBuf>,
    /// Try thousands of jobs, without a time limit
    #[arg(long)]
    pub(crate) thorough: bool,
}

/// `boards`
#[derive(Args, Debug)]
pub(crate) struct BoardsArguments {
    /// List only boards with this word in their name, description, grammage or kind
    pub(crate) word: Option<String>,
}

/// `exporters`
#[derive(Args, Debug)]
pub(crate) struct ExportersArguments {
    /// How long exporters may take.
    #[command(flatten)]
    pub(crate) patience: TimeLimit,
}

/// The time limit of exporters.
#[derive(Args, Clone, Copy, Debug)]
pub(crate) struct TimeLimit {
    /// Stop an exporter that takes longer than this
    #[arg(long, value_name = "N", default_value = "3", value_parser = seconds, allow_negative_numbers = true)]
    pub(crate) exporter_seconds: Duration,
}

impl Default for TimeLimit {
    // Source: core/CONTRACT.md, "Commands".
    fn default() -> Self {
        TimeLimit {
            exporter_seconds: Duration::from_secs(3),
        }
    }
}

fn trimmed(typed: &str) -> Result<String, String> {
    match typed.trim() {
        "" => Err("give the names of exporters, with commas between them".to_owned()),
        name => Ok(name.to_owned()),
    }
}

fn seconds(typed: &str) -> Result<Duration, String> {
    match typed.parse::<f64>() {
        Ok(number) if (0.1..=3600.0).contains(&number) => Ok(Duration::from_secs_f64(number)),
        _ => Err("give a number of seconds from 0.1 to 3600".to_owned()),
    }
}
