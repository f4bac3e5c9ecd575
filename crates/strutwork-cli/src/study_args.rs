//! What was typed after `strutwork study`.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use strutwork_study::journal::Shard;

use crate::args::{OPERATIONS, Paper};

/// `study`.
#[derive(Debug, Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
#[command(after_help = "\
Examples:
  strutwork study my-frame --gauges                   every group's wall, one stock size down and up
  strutwork study my-frame --diagonals side-brace     the braces of a group, left out by ones and twos
  strutwork study my-frame --gauges --at-least stiffness_nm_per_deg=6000 --at-most utilisation=1
  strutwork study sweep.rhai my-frame                 a study that a script describes
  strutwork study sweep.rhai my-frame --shard 2/8     its second eighth, for an array job
  strutwork study merge my-frame/studies              shards put together, if none is missing

Results go into NAME.csv and NAME.parquet: a row for each variant, also for those that are a mechanism
or make no valid model. study.html tells the answers, with pictures that stand as SVG and PNG in the
folder pictures too, and a table to sort. Finished variants are kept in NAME.journal: a study that was killed, or
stopped with Ctrl-C, goes on where it was when the same command is given again, and its files are the
same to the last byte. A journal of another study is never gone on with; --fresh starts over.

Exit codes: 0 done, 1 done and no variant keeps what is required, 2 the input is wrong or shards are
missing, 3 no variant could be solved, 4 files and folders, 130 stopped by Ctrl-C: to be gone on with.")]
pub(crate) struct StudyArgs {
    /// Put the journals of shards together
    #[command(subcommand)]
    pub command: Option<StudyCommand>,
    /// A model's folder, or a script (.rhai) that describes a study
    #[arg(required = true, value_name = "FOLDER|SCRIPT")]
    pub what: Option<PathBuf>,
    /// The script's own arguments
    #[arg(value_name = "ARGS")]
    pub args: Vec<String>,
    /// Vary the wall of every group of tubes, one stock size down and up
    #[arg(long, conflicts_with = "diagonals")]
    pub gauges: bool,
    /// Leave out tubes of this group, by ones and twos
    #[arg(long, value_name = "GROUP")]
    pub diagonals: Option<String>,
    /// With --diagonals, leave out up to N at once
    #[arg(long, value_name = "N", default_value_t = 2, requires = "diagonals")]
    pub most: u8,
    /// Ask for the frequency of the N-th natural mode too
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=500))]
    pub frequency: Option<u16>,
    /// Require a response to be at least so much, such as stiffness_nm_per_deg=6000
    #[arg(long, value_name = "NAME=NUMBER")]
    pub at_least: Vec<String>,
    /// Require a response to be at most so much, such as utilisation=1
    #[arg(long, value_name = "NAME=NUMBER")]
    pub at_most: Vec<String>,
    /// A case script that replaces the standard cases and the model's own
    #[arg(long, value_name = "FILE")]
    pub cases: Option<PathBuf>,
    /// Where results go [default: studies in the model's or script's folder]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Take part K of N of the variants only
    #[arg(long, value_name = "K/N", default_value = "1/1", value_parser = shard)]
    pub shard: Shard,
    /// Start over, whatever journal is there
    #[arg(long)]
    pub fresh: bool,
    /// Threads [default: one for each core]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// Stop a script after this many operations for each variant
    #[arg(long, value_name = "N", default_value_t = OPERATIONS, value_parser = clap::value_parser!(u64).range(1..))]
    pub max_operations: u64,
    /// The page of the study as study.pdf too, in short
    #[arg(long)]
    pub pdf: bool,
    /// The paper of study.pdf
    #[arg(long, value_enum, default_value_t = Paper::A4, value_name = "SIZE", requires = "pdf")]
    pub paper: Paper,
    /// Print what came out as JSON to standard output
    #[arg(long)]
    pub json: bool,
}

/// What else `study` does.
#[derive(Debug, Subcommand)]
pub(crate) enum StudyCommand {
    /// Put the journals of shards together, if nothing is missing and nothing twice
    Merge(MergeArgs),
}

/// `study merge`.
#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  strutwork study merge my-frame/studies                       every shard in this folder
  strutwork study merge one/*.journal two/*.journal --out all  shards from several machines

Variants that are missing, and variants that stand in two journals, are named, and nothing is written
(exit code 2). Otherwise the tables are those of an undivided run, byte for byte. The page and its
pictures need the model: give the command of the study once more, without --shard; nothing is solved
again, and study.html is written.")]
pub(crate) struct MergeArgs {
    /// Journals, or folders that hold them
    #[arg(required = true, value_name = "JOURNAL|FOLDER")]
    pub journals: Vec<PathBuf>,
    /// Where results go [default: the folder of the first journal]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Print what came out as JSON to standard output
    #[arg(long)]
    pub json: bool,
}

fn shard(text: &str) -> Result<Shard, String> {
    Shard::read(text).ok_or_else(|| "write it as K/N, with K from 1 to N: 2/8".to_owned())
}
