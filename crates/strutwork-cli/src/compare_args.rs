//! What was typed after `compare`.

use std::path::PathBuf;

use clap::Args;

use crate::args::{AskedArgs, OPERATIONS};

/// `compare`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork compare old/results my-frame/results   what two runs differ in
  strutwork compare my-frame-B my-frame            two models: both are solved in memory first
  strutwork compare my-frame/results my-frame      the last run against the model as it stands now
  strutwork compare A B --out review               files into review instead of ./comparison

Told are: what was changed in the model, each change once (found by name; what was renamed by its
place or the tubes at it); what that did to stiffness, mass and utilisations; every number that
differs. The order of rows, comments and the way a number is written are no change. Numbers that
differ by less than 1e-9 of the greatest of their kind and unit are the same.

Files: compare.html with both frames over each other, changes.csv, differences.csv,
findings_changed.csv, compare.json. A file that this program did not write, or that was changed
since, is never overwritten.

Exit codes: 0 no check exceeds its limit that did not before, 1 some do, 2 the input is wrong, 3 a
structure cannot be solved, 4 files and folders.")]
pub(crate) struct CompareArgs {
    /// The first revision: a folder of results, or a model's folder
    #[arg(value_name = "A")]
    pub before: PathBuf,
    /// The second revision, likewise
    #[arg(value_name = "B")]
    pub after: PathBuf,
    /// Where page and tables go
    #[arg(long, value_name = "DIR", default_value = "comparison")]
    pub out: PathBuf,
    /// Only tell: write no files
    #[arg(long, conflicts_with = "out")]
    pub no_files: bool,
    /// Models are solved with the load cases of this script, in place of the standard ones and their own
    #[arg(long, value_name = "FILE")]
    pub cases: Option<PathBuf>,
    /// Models are solved in second order
    #[arg(long)]
    pub second_order: bool,
    /// Analyses beside the load cases, of models.
    #[command(flatten)]
    pub asked: AskedArgs,
    /// Stop case scripts after this many operations, all together
    #[arg(long, value_name = "N", default_value_t = OPERATIONS, value_parser = clap::value_parser!(u64).range(1..))]
    pub max_operations: u64,
    /// Print JSON to standard output
    #[arg(long)]
    pub json: bool,
}
