//! `strutwork compare`: two revisions, what was changed and what that did.

mod told;

use strutwork_report::compare::tables;
use strutwork_report::{Compared, compare_html, compare_json};
use strutwork_revision::{Kind, compare};

use super::summary;
use crate::args::{CaseArgs, SolveArgs};
use crate::compare_args::CompareArgs;
use crate::exit::{Failure, Outcome};
use crate::files::{inputs, manifest, whole};
use crate::render;
use crate::revisions::{self, Loaded, Solving};
use crate::terminal::Terminal;

/// Compares two folders, tells what differs and writes page and tables.
///
/// # Errors
/// [`Failure::Input`] for results or a model that cannot be read, [`Failure::Request`] where there is no such folder,
/// [`Failure::Structure`] when a model cannot be solved, [`Failure::File`] and [`Failure::Occupied`] when files cannot be
/// written.
pub(crate) fn run(args: &CompareArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    match compare_folders(args, terminal) {
        Err(failure) if args.json => Err(summary::failed(failure, terminal)?),
        other => other,
    }
}

fn compare_folders(args: &CompareArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut solving = solving(args);
    // Results are read first: a model on the other side is then asked for as many modes as they have.
    let (before, after) = if inputs::is_results(&args.after) {
        let after = revisions::load(&args.after, &solving, terminal)?;
        as_asked(&mut solving, &after);
        (revisions::load(&args.before, &solving, terminal)?, after)
    } else {
        let before = revisions::load(&args.before, &solving, terminal)?;
        if inputs::is_results(&args.before) {
            as_asked(&mut solving, &before);
        }
        let after = revisions::load(&args.after, &solving, terminal)?;
        (before, after)
    };
    let comparison = compare(before.revision(), after.revision());
    let labels = [args.before.display().to_string(), args.after.display().to_string()];
    let remarks = remarks(&[&before, &after], &labels);
    let compared = Compared {
        comparison: &comparison,
        labels: [&labels[0], &labels[1]],
        models: [before.model.as_ref(), after.model.as_ref()],
        remarks: &remarks,
    };
    let outcome = if comparison.newly_over().next().is_some() { Outcome::Exceeded } else { Outcome::Passed };
    let json = compare_json(&compared, if outcome == Outcome::Passed { 0 } else { 1 });
    if !args.no_files {
        let mut files: Vec<(String, Vec<u8>)> =
            tables::csv_files(&comparison).into_iter().map(|(name, text)| (name, text.into_bytes())).collect();
        files.push(("compare.html".to_owned(), compare_html(&compared, env!("CARGO_PKG_VERSION")).into_bytes()));
        let sealed = manifest::sealed(&json, &manifest::of(&files));
        files.push((manifest::COMPARE.to_owned(), sealed.into_bytes()));
        whole::write(&args.out, &files)?;
    }
    for side in [&before, &after] {
        terminal.note(&render::diagnostics(&side.warnings, &side.sources, terminal));
    }
    let out = (!args.no_files).then_some(args.out.as_path());
    terminal.result(&if args.json { json } else { told::people(&compared, out) })?;
    Ok(outcome)
}

/// How models are solved.
fn solving(args: &CompareArgs) -> Solving {
    let of = CaseArgs { folder: args.before.clone(), cases: args.cases.clone(), max_operations: args.max_operations };
    Solving {
        solve: SolveArgs { second_order: args.second_order, ..SolveArgs::first_order(of) },
        asked: args.asked.clone(),
    }
}

/// Asks a model for the analyses that results on the other side have, where nothing else was asked for.
fn as_asked(solving: &mut Solving, other: &Loaded) {
    let quantities = || other.results.quantities.iter();
    let count = |number: usize| u16::try_from(number).ok().filter(|number| *number > 0);
    if solving.asked.modes.is_none() {
        solving.asked.modes = count(quantities().filter(|one| one.kind == Kind::Mode).count());
    }
    if solving.asked.buckling.is_none() {
        let factors = quantities().filter(|one| one.kind == Kind::Buckling).filter_map(|one| one.subject.parse().ok());
        solving.asked.buckling = count(factors.max().unwrap_or(0));
    }
}

/// What warnings say, for the page.
fn remarks(sides: &[&Loaded; 2], labels: &[String; 2]) -> Vec<String> {
    let of = |(side, label): (&&Loaded, &String)| {
        side.warnings.iter().map(|one| format!("{label}: {} ({})", one.message, one.code)).collect::<Vec<_>>()
    };
    sides.iter().zip(labels).flat_map(of).collect()
}
