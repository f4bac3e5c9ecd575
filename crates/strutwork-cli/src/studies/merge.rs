//! Shards put together: one journal and the files of the whole study, the same bytes as of an undivided run.

use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use strutwork_study::Row;
use strutwork_study::journal::{Incomplete, Merge, MergeFault};

use super::results::{Names, Results};
use super::runner::Ended;
use super::{journal, told};
use crate::args::MergeArgs;
use crate::exit::{Failure, Outcome};
use crate::files::{self, whole::make_folder};
use crate::terminal::Terminal;

/// Ranges that a message names before it only counts.
const NAMED: usize = 20;

/// Puts journals together.
///
/// # Errors
/// [`Failure::Request`] where variants are missing or stand twice, or a journal is damaged or of another study;
/// [`Failure::Occupied`], [`Failure::File`]. Then nothing is written.
pub(crate) fn run(args: &MergeArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let paths = journals(&args.journals)?;
    let out = args.out.clone().unwrap_or_else(|| folder_of(&paths[0]));
    let readers = paths.iter().map(|path| journal::read(path)).collect::<Result<Vec<_>, _>>()?;
    let wrong = |fault| failed(&paths, fault);
    let mut merge = Merge::new(readers).map_err(wrong)?;
    let header = merge.header().ok_or_else(nothing)?;
    make_folder(&out)?;
    let names = Names::new(&out, &header.name);
    names.may_begin()?;
    let whole = names.path("journal");
    if whole.exists() && !paths.contains(&whole) {
        return Err(Failure::Occupied {
            path: whole,
            why: "a journal of the whole study is there already",
            help: "move it away, or give another folder with --out",
        });
    }
    let fail = |cause| Failure::write(&whole, cause);
    let mut lines = std::io::BufWriter::new(files::beside(&whole).map_err(fail)?);
    lines.write_all(header.line().as_bytes()).map_err(fail)?;
    let mut results = Results::begin(&names, header.clone())?;
    let mut refused = None;
    let incomplete = merge.each(|row: Row| {
        let kept = lines.write_all(header.row_line(&row).as_bytes()).map_err(fail).and_then(|()| results.add(&row));
        kept.map_err(|failure| refused = Some(failure)).is_ok()
    });
    let incomplete = match (incomplete, refused) {
        (_, Some(failure)) => return Err(failure),
        (incomplete, None) => incomplete.map_err(wrong)?,
    };
    if !incomplete.is_nothing() {
        return Err(Failure::Request {
            what: said(&incomplete, header.variants),
            help: "run the shards that are missing, or go on with those that were stopped; give each journal once"
                .into(),
        });
    }
    let lines = lines.into_inner().map_err(|error| Failure::write(&whole, error.into_error()))?;
    files::put(lines, &whole).map_err(fail)?;
    let tally = results.finish()?;
    told::tell(terminal, &names, &header, &tally, &[], args.json)?;
    if !args.json {
        terminal.note(
            "For study.html and its pictures give the command of the study once more, without --shard and with the same --out: nothing \
             is solved again.\n",
        );
    }
    Ended::of(&header, &tally).outcome()
}

fn nothing() -> Failure {
    Failure::Request {
        what: "there is no journal to put together".into(),
        help: "give the journals of all shards".into(),
    }
}

/// The journals that are meant: files as given, and the shards in folders, in the order of their names.
fn journals(given: &[PathBuf]) -> Result<Vec<PathBuf>, Failure> {
    let mut paths = Vec::new();
    for path in given {
        if path.is_dir() {
            let entries = fs::read_dir(path).map_err(|cause| Failure::read(path, cause))?;
            let mut inside: Vec<PathBuf> = entries.filter_map(|entry| entry.ok().map(|entry| entry.path())).collect();
            inside.retain(|path| {
                let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
                name.ends_with(".journal") && name.contains(".shard-")
            });
            inside.sort();
            paths.extend(inside);
        } else {
            paths.push(path.clone());
        }
    }
    if paths.is_empty() { Err(nothing()) } else { Ok(paths) }
}

fn folder_of(path: &Path) -> PathBuf {
    crate::cases::folder_of(path).to_owned()
}

fn failed(paths: &[PathBuf], fault: MergeFault) -> Failure {
    match fault {
        MergeFault::Journal { place, fault } => journal::fault(&paths[place], fault),
        MergeFault::Other { place, why } => Failure::Request {
            what: format!("{} does not belong to {}: {why}", paths[place].display(), paths[0].display()),
            help: "give journals of one study".into(),
        },
        MergeFault::Keep => nothing(),
    }
}

/// What is missing and what stands twice, by number.
fn said(incomplete: &Incomplete, variants: u64) -> String {
    let ranges = |ranges: &[(u64, u64)]| {
        let named = ranges
            .iter()
            .take(NAMED)
            .map(|&(first, last)| if first == last { first.to_string() } else { format!("{first} to {last}") });
        let mut text = named.collect::<Vec<_>>().join(", ");
        if ranges.len() > NAMED {
            text.push_str(&format!(" and {} more ranges", ranges.len() - NAMED));
        }
        text
    };
    let mut parts = Vec::new();
    if !incomplete.missing.is_empty() {
        parts.push(format!("missing: {}", ranges(&incomplete.missing)));
    }
    if !incomplete.doubled.is_empty() {
        parts.push(format!("in more than one journal: {}", ranges(&incomplete.doubled)));
    }
    format!("the journals do not make up the {variants} variants of the study; variants {}", parts.join("; variants "))
}
