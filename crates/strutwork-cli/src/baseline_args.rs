//! What was typed after `strutwork baseline`.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use strutwork_revision::baseline::Service;

use crate::args::{AskedArgs, OPERATIONS, SolveArgs};

/// `baseline`.
#[derive(Debug, Args)]
pub(crate) struct BaselineArgs {
    /// What is done with it.
    #[command(subcommand)]
    pub command: BaselineCommand,
}

/// What is done with a baseline.
#[derive(Debug, Subcommand)]
pub(crate) enum BaselineCommand {
    /// Keep what a model comes to now, in baseline.csv beside it
    Record(Box<RecordArgs>),
    /// Run models anew and tell what departs from their baselines
    Check(CheckArgs),
}

/// `baseline record`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork baseline record my-frame                  stiffness, mass, what governs, loads of mounts, …
  strutwork baseline record my-frame --modes 6        with natural modes; a check asks for them again
  strutwork baseline record my-frame --list           every quantity that can be kept, by its name
  strutwork baseline record my-frame --keep usual --keep 'joint:kerb*:front-*:uz_mm'
                                                      the usual ones, and some movements
  strutwork baseline record my-frame --update         anew: shows what differs, then writes

The file is baseline.csv in the model's folder: a row a quantity with its unit, its tolerance and the reason
of the tolerance. Commit it with the model. A baseline that is there is never overwritten without --update;
--update asks for the analyses and keeps the choice of the file, unless you give others, and leaves alone
the tolerances that you gave a reason of your own.

Exit codes: 0 recorded, 2 the input is wrong, 3 the structure cannot be solved, 4 files and folders, or a
baseline that is there already.")]
pub(crate) struct RecordArgs {
    /// The model and its load cases.
    #[command(flatten)]
    pub solve: SolveArgs,
    /// Analyses beside the load cases.
    #[command(flatten)]
    pub asked: AskedArgs,
    /// Which quantities: KIND:CASE:SUBJECT:QUANTITY with * for any text, or `usual`; may be given more than once
    #[arg(long, value_name = "PATTERN")]
    pub keep: Vec<String>,
    /// Write over a baseline that is there, after showing what differs
    #[arg(long)]
    pub update: bool,
    /// Print every quantity that can be kept; write nothing
    #[arg(long, conflicts_with_all = ["keep", "update"])]
    pub list: bool,
}

/// `baseline check`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork baseline check my-frame                             what departs, what matters most first
  strutwork baseline check frames/*                             several models
  strutwork baseline check my-frame --junit baseline.xml        for the tests page of a CI service
  strutwork baseline check my-frame --annotations github        remarks beside the change
  strutwork baseline check my-frame --annotations gitlab > gl-code-quality-report.json

The model is run as the baseline says, in memory; nothing is written but what you ask for. Where files of
the model are not those that were recorded, that is said: a departure may then be the model's.

Exit codes: 0 everything holds, 1 something departs or is missing, 2 the input is wrong or there is no
baseline, 3 a structure cannot be solved, 4 files and folders; of several models the highest.")]
pub(crate) struct CheckArgs {
    /// Folders of models with a baseline.csv
    #[arg(required = true, value_name = "FOLDER")]
    pub folders: Vec<PathBuf>,
    /// Tell everything that departs, not only what matters most
    #[arg(long)]
    pub all: bool,
    /// Write JUnit XML, a test for each quantity
    #[arg(long, value_name = "FILE")]
    pub junit: Option<PathBuf>,
    /// Print remarks as a CI service reads them; for gitlab a report, with everything else on standard error
    #[arg(long, value_enum, value_name = "SERVICE", conflicts_with = "json")]
    pub annotations: Option<ServiceArg>,
    /// Print JSON to standard output
    #[arg(long)]
    pub json: bool,
    /// Stop case scripts after this many operations, all together, for each model
    #[arg(long, value_name = "N", default_value_t = OPERATIONS, value_parser = clap::value_parser!(u64).range(1..))]
    pub max_operations: u64,
}

/// CI services.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ServiceArg {
    /// GitHub Actions, Gitea, Forgejo: lines in the log.
    Github,
    /// GitLab: a code-quality report.
    Gitlab,
    /// Azure Pipelines: lines in the log.
    Azure,
}

impl ServiceArg {
    /// As the writer of annotations knows it.
    pub(crate) const fn service(self) -> Service {
        match self {
            Self::Github => Service::Github,
            Self::Gitlab => Service::Gitlab,
            Self::Azure => Service::Azure,
        }
    }
}

/// What a baseline says of how its run was asked for, read as if it had been typed.
#[derive(Debug, Parser)]
#[command(name = "option", no_binary_name = true, disable_help_flag = true)]
pub(crate) struct Repeated {
    /// The model and its load cases.
    #[command(flatten)]
    pub solve: SolveArgs,
    /// Analyses beside the load cases.
    #[command(flatten)]
    pub asked: AskedArgs,
}
