//! What was typed. Nothing here is looked up or decided; that is `settings` and the commands.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use strutwork_report::Sheet;

pub(crate) use crate::baseline_args::BaselineArgs;
pub(crate) use crate::compare_args::CompareArgs;
pub(crate) use crate::study_args::{MergeArgs, StudyArgs, StudyCommand};

/// Operations of scripts, where no other number is typed.
pub(crate) const OPERATIONS: u64 = 20_000_000;
/// Passes of second order, likewise.
const PASSES: u16 = 50;
/// The share that a pass changes of a steady case at most, likewise.
const STEADY: f64 = 1e-9;

const EXIT_CODES: &str = "\
Exit codes:
  0  done, and no check exceeds its limit
  1  done, but findings exceed their limits (or a published case disagrees)
  2  the input is wrong: arguments, model files or script
  3  the structure cannot be solved
  4  the environment: files, folders, permissions

Strutwork helps to judge a frame; it does not approve one. What it leaves out is printed in every
report.";

/// Finite elements for welded tube frames: from a folder of small tables to forces, checks and a report.
#[derive(Debug, Parser)]
#[command(name = "strutwork", bin_name = "strutwork", version, after_help = EXIT_CODES)]
#[command(propagate_version = true, subcommand_required = true, arg_required_else_help = true)]
pub(crate) struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
    /// What holds for every command.
    #[command(flatten)]
    pub look: LookArgs,
}

/// How output looks.
#[derive(Debug, Clone, Copy, Args)]
pub(crate) struct LookArgs {
    /// When to use colour; NO_COLOR is honoured by `auto`
    #[arg(long, global = true, value_enum, default_value_t = Colour::Auto, value_name = "WHEN")]
    pub color: Colour,
}

/// When to use colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Colour {
    /// On a terminal, unless NO_COLOR is set.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

/// The commands, in the order in which a newcomer meets them.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Write a small working model to start from
    New(NewArgs),
    /// Read and validate a model: every fault, with file, line and what to do
    Check(CheckArgs),
    /// Solve the load cases; write results and the report
    Run(RunArgs),
    /// The calculation that governs an item, written out with its numbers
    Working(WorkingArgs),
    /// Two revisions side by side: what was changed in the model, and what that did
    Compare(Box<CompareArgs>),
    /// Run a Rhai script: own load cases, sweeps, sizing
    Script(ScriptArgs),
    /// Many variants of a model: which gauge, which diagonal earns its weight
    Study(Box<StudyArgs>),
    /// Keep results as expected values; tell in CI where a later run departs
    Baseline(BaselineArgs),
    /// What a finding or an error means, and what to do about it
    Explain(ExplainArgs),
    /// The references: scripts, input files, stock sizes, grades, fixings
    Reference(ReferenceArgs),
    /// Re-solve the published cases on this machine: source, printed and computed value
    Validate(ValidateArgs),
    /// Completions for a shell, to standard output
    Completions(CompletionsArgs),
    /// The manual page, to standard output
    #[command(after_help = "\
Example:
  strutwork man > strutwork.1 && man ./strutwork.1")]
    Man,
}

/// `new`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork new my-frame            write the model into the new folder my-frame
  strutwork run my-frame            and solve it

No file is ever overwritten: a folder that already holds one of the files is refused (exit code 4).")]
pub(crate) struct NewArgs {
    /// The folder to make
    pub folder: PathBuf,
}

/// `check`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork check my-frame          list every fault, warning and note
  strutwork check my-frame --json   the same for a machine

Exit codes: 0 the model is right (warnings and notes allowed), 2 it is wrong, 4 a file cannot be read.")]
pub(crate) struct CheckArgs {
    /// The model's folder
    pub folder: PathBuf,
    /// Print JSON to standard output
    #[arg(long)]
    pub json: bool,
}

/// `run`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork run my-frame                        results into my-frame/results
  strutwork run my-frame --out /tmp/try         results elsewhere
  strutwork run my-frame --cases cornering.rhai only the load cases of this script
  strutwork run my-frame --second-order         forces and checks of the frame as it bends
  strutwork run my-frame --pdf                  report.pdf too: the report in short, to print and sign
  strutwork run my-frame --since my-frame/results   the report tells what changed since the last run

The model's files are kept in `inputs` beside the results, byte by byte, for `strutwork compare`.

Load cases: those of the model's load files, the standard cases where model.toml describes a
vehicle, then the model's own cases.rhai. With --cases: those of the load files and of that script.

Results are written whole or not at all. A file that this program did not write, or that was
changed since, is never overwritten (exit code 4). The date in the report honours
SOURCE_DATE_EPOCH; with it set no timings are recorded: the same input gives the same bytes.

Exit codes: 0 no check exceeds its limit, 1 findings exceed limits, 2 the input is wrong, 3 the
structure cannot be solved, 4 files and folders.")]
pub(crate) struct RunArgs {
    /// The model and its load cases.
    #[command(flatten)]
    pub solve: SolveArgs,
    /// Where results go [default: FOLDER/results]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Analyses beside the load cases.
    #[command(flatten)]
    pub asked: AskedArgs,
    /// What changed since this older run, in the report: a folder of results (the last run's own will do), or a model's
    #[arg(long, value_name = "FOLDER")]
    pub since: Option<PathBuf>,
    /// The report as report.pdf too, in short, to print and to sign
    #[arg(long)]
    pub pdf: bool,
    /// The paper of report.pdf
    #[arg(long, value_enum, default_value_t = Paper::A4, value_name = "SIZE", requires = "pdf")]
    pub paper: Paper,
    /// Print the summary as JSON to standard output
    #[arg(long)]
    pub json: bool,
}

/// Analyses beside the load cases.
#[derive(Debug, Clone, PartialEq, Eq, Default, Args)]
pub(crate) struct AskedArgs {
    /// Natural modes too: the lowest N besides the rigid ones, held as the model's supports hold it
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(..=500))]
    pub modes: Option<u16>,
    /// With --modes, those under the forces of this load case as well, held as the case is: pressed tubes soften a frame
    #[arg(long, value_name = "CASE", requires = "modes")]
    pub modes_under: Option<String>,
    /// Buckling too: the lowest N load factors of every case
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(..=100))]
    pub buckling: Option<u16>,
    /// Pieces that each tube is divided into for modes and buckling [default: 4 for modes; for buckling as many as each
    /// tube needs to keep the error of every load factor below 0.05 %]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=32))]
    pub pieces: Option<u8>,
    /// For modes, half of each tube's mass at each end of its pieces, in place of its consistent mass
    #[arg(long)]
    pub lumped: bool,
}

/// Sizes of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Paper {
    /// 210 mm by 297 mm.
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

impl Paper {
    /// As the report knows it.
    pub(crate) const fn sheet(self) -> Sheet {
        match self {
            Self::A4 => Sheet::A4,
            Self::Letter => Sheet::Letter,
        }
    }
}

/// A model with its load cases.
#[derive(Debug, Clone, Args)]
pub(crate) struct CaseArgs {
    /// The model's folder
    pub folder: PathBuf,
    /// A case script that replaces the standard cases and the model's own
    #[arg(long, value_name = "FILE")]
    pub cases: Option<PathBuf>,
    /// Stop case scripts after this many operations, all together
    #[arg(long, value_name = "N", default_value_t = OPERATIONS, value_parser = clap::value_parser!(u64).range(1..))]
    pub max_operations: u64,
}

/// What is solved: for `run` and `working`.
#[derive(Debug, Clone, Args)]
pub(crate) struct SolveArgs {
    /// The model with its load cases.
    #[command(flatten)]
    pub of: CaseArgs,
    /// Second order: every case in balance on the frame as it bends, and judged so
    #[arg(long)]
    pub second_order: bool,
    /// Second order: give a case up after N passes
    #[arg(long, value_name = "N", default_value_t = PASSES, requires = "second_order", value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub passes: u16,
    /// Second order: a case is steady when a pass changes forces and movements by less than this share
    #[arg(long, value_name = "SHARE", default_value_t = STEADY, requires = "second_order", value_parser = share)]
    pub tolerance: f64,
}

impl SolveArgs {
    /// How `run` solves where nothing is asked for, in first order.
    pub(crate) const fn first_order(of: CaseArgs) -> Self {
        Self { of, second_order: false, passes: PASSES, tolerance: STEADY }
    }
}

/// A share between what rounding leaves and a hundredth.
fn share(text: &str) -> Result<f64, String> {
    let value: f64 = text.parse().map_err(|_| "it must be a number, such as 1e-6".to_owned())?;
    if (1e-11..=1e-2).contains(&value) { Ok(value) } else { Err("it must lie between 1e-11 and 1e-2".to_owned()) }
}

/// `working`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork working my-frame                          what governs each item, the worst first
  strutwork working my-frame brace-3                  the calculation that governs this tube
  strutwork working my-frame \"brace-3 at rear-top\"    the one for its end: joint wall and weld
  strutwork working my-frame brace-3 --check D022     another check of the same item
  strutwork working my-frame brace-3 --load-case cornering-left

Items are tubes, tube ends, panels, mounts and the like, by the names that findings.csv has. The model
is solved anew, and nothing is written.

Exit codes: 0 what is shown is within its limits, 1 it exceeds one, 2 the input is wrong or there is no
such item, 3 the structure cannot be solved, 4 files and folders.")]
pub(crate) struct WorkingArgs {
    /// The model and its load cases.
    #[command(flatten)]
    pub solve: SolveArgs,
    /// The item; without it, the list of all that are held against a limit
    pub item: Option<String>,
    /// Only findings of this check, such as D022
    #[arg(long, value_name = "CODE")]
    pub check: Option<String>,
    /// Only findings in this load case
    #[arg(long, value_name = "NAME", alias = "case")]
    pub load_case: Option<String>,
    /// Judge by the buckling lengths that the lowest N load factors of every case give, as `run` does
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(..=100))]
    pub buckling: Option<u16>,
    /// Print JSON to standard output
    #[arg(long)]
    pub json: bool,
}

/// `script`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork script study.rhai                   run a script
  strutwork script study.rhai my-frame 2.0      what follows the file is the script's own, as text
  strutwork script --out sweep study.rhai       where the script may write; options stand first

A script reads only below its own folder and the model folders that it is given as arguments; it
writes only below --out, and never over a file that no script wrote. It runs under limits, which
you may raise.

Exit codes: 0 done, 2 the script or a model is wrong, 3 a structure cannot be solved, 4 files.")]
pub(crate) struct ScriptArgs {
    /// The script
    pub file: PathBuf,
    /// The only folder that the script may write below [default: results beside the script]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Start its studies over, whatever journals are there
    #[arg(long)]
    pub fresh: bool,
    /// Stop after this many operations
    #[arg(long, value_name = "N", default_value_t = OPERATIONS, value_parser = clap::value_parser!(u64).range(1..))]
    pub max_operations: u64,
    /// Stop after this many seconds
    #[arg(long, value_name = "N", default_value_t = 60, value_parser = clap::value_parser!(u64).range(1..))]
    pub max_seconds: u64,
    /// Let functions call each other this deeply
    #[arg(long, value_name = "N", default_value_t = 64, value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub max_depth: u16,
    /// Let texts, arrays and maps grow to N times their usual limit
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u16).range(1..=1000))]
    pub max_size: u16,
    /// The script's own arguments
    #[arg(value_name = "ARGS", trailing_var_arg = true)]
    pub args: Vec<String>,
}

/// `explain`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork explain          every code with its title, by subject
  strutwork explain M012     one code: what it means, the smallest example, what to do
  strutwork explain D        the checks of strength and design")]
pub(crate) struct ExplainArgs {
    /// The code, such as M012; without it, the list of all
    pub code: Option<String>,
    /// Print JSON to standard output
    #[arg(long)]
    pub json: bool,
}

/// `reference`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork reference > reference.md                       script functions
  strutwork reference --files                              input files, their columns and keys
  strutwork reference --definitions > strutwork.d.rhai     definitions for editors")]
pub(crate) struct ReferenceArgs {
    /// Print the definitions that editors read, instead of the page
    #[arg(long)]
    pub definitions: bool,
    /// Print what a model folder may hold: every file, column and key
    #[arg(long, conflicts_with = "definitions")]
    pub files: bool,
    /// Print the stock sizes with their section properties and sources (CSV)
    #[arg(long, conflicts_with_all = ["definitions", "files"])]
    pub stock: bool,
    /// Print the material grades with their sources (CSV)
    #[arg(long, conflicts_with_all = ["definitions", "files", "stock"])]
    pub grades: bool,
    /// Print examples of panel fixings with their sources (CSV)
    #[arg(long, conflicts_with_all = ["definitions", "files", "stock", "grades"])]
    pub fixings: bool,
}

/// `validate`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork validate               every published case: source, printed and computed value
  strutwork validate --json        the same for a machine
  strutwork validate --book book   the same as a book with sketches: book.html and book.pdf in it

Exit codes: 0 all agree within their printed digits, 1 at least one does not.")]
pub(crate) struct ValidateArgs {
    /// Print JSON to standard output
    #[arg(long)]
    pub json: bool,
    /// Write the book into this folder: a page a case, with sources, sketches and values
    #[arg(long, value_name = "FOLDER")]
    pub book: Option<PathBuf>,
}

/// `completions`.
#[derive(Debug, Args)]
#[command(after_help = "\
Example:
  strutwork completions bash > ~/.local/share/bash-completion/completions/strutwork")]
pub(crate) struct CompletionsArgs {
    /// The shell
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}
