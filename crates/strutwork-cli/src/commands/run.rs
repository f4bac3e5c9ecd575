//! `strutwork run`: check, cases, solve, judge, write.

use std::path::{Path, PathBuf};

use strutwork_checks::{Judged, check_all, figures, of_evidence};
use strutwork_model::{Diagnostic, Model, Warned};
use strutwork_report::{Asked, InputDigest, Run, RunInfo, Validated, csv_files, report_html, report_pdf, run_json};
use strutwork_rig::evidence;
use strutwork_solve::SolveError;
use strutwork_solve::bays::find_bays;
use strutwork_solve::explain::explain;

use super::summary;
use crate::args::RunArgs;
use crate::asked;
use crate::cases::{self, Built};
use crate::clock::Clock;
use crate::exit::{Failure, Outcome};
use crate::files::{digest, manifest, whole};
use crate::pipeline::{self, Read};
use crate::render;
use crate::solved;
use crate::terminal::Terminal;

/// A frame with more joints than this is worth a word before it is solved.
const WORTH_A_WORD: usize = 3000;

/// Solves a model and writes its results.
///
/// # Errors
/// [`Failure::Input`] with every fault of the model or its case scripts, [`Failure::Structure`] when the frame cannot be
/// solved, [`Failure::File`] and [`Failure::Occupied`] when results cannot be written. Then nothing is written.
pub(crate) fn run(args: &RunArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    match solve_and_write(args, terminal) {
        Err(failure) if args.json => Err(summary::failed(failure, terminal)?),
        other => other,
    }
}

fn solve_and_write(args: &RunArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut clock = Clock::start()?;
    let out = out_folder(args)?;
    let mut read = pipeline::read(&args.solve.of.folder)?;
    clock.lap("read");
    let Warned { value: model, mut warnings } = read.model()?;
    clock.lap("validate");
    let vibrates = args.modes.is_some_and(|modes| modes > 0);
    let Built { cases, digests, warnings: of_cases } =
        cases::build(&args.solve.of, vibrates, &model, &mut read, terminal)?;
    warnings.extend(of_cases);
    clock.lap("load cases");
    if model.joints().len() > WORTH_A_WORD {
        terminal.progress(&format!(
            "Solving {} for {} …\n",
            render::counted(model.joints().len(), "joint"),
            args.solve.of.folder.display()
        ));
    }
    let solved = solved::solve(&args.solve, &model, cases, &mut warnings, &read)?;
    let (cases, results) = (&solved.cases, &solved.results);
    clock.lap("solve");
    // Stiffness and load factors are those of the frame as drawn.
    let figures = figures(&model, cases, solved.first()).map_err(|error| unsolved(&model, &error, &warnings, &read))?;
    let bays = find_bays(&model);
    clock.lap("figures and bays");
    let mut asked = asked::analyse(args, &model, cases, solved.first(), &warnings, &read)?;
    if asked != Asked::NOTHING {
        clock.lap("modes and buckling");
    }
    let evidence = evidence(&model);
    let lengths = asked.lengths.as_ref();
    let mut findings = check_all(Judged { model: &model, cases, results, bays: &bays, lengths });
    clock.lap("check");
    findings.extend(of_evidence(&evidence));
    asked.evidence = Some(evidence);
    clock.lap("rig and scales");
    let untold = RunInfo::default();
    let run = Run {
        model: &model,
        cases,
        results,
        findings: &findings,
        bays: &bays,
        figures: figures.as_ref(),
        asked: &asked,
        info: &untold,
    };
    let inputs: Vec<InputDigest> = pipeline::digests(&read.files).into_iter().chain(digests).collect();
    let mut info = RunInfo {
        tool_version: env!("CARGO_PKG_VERSION").to_owned(),
        date: clock.date().to_owned(),
        command: typed(),
        input_hash: hash_of(&inputs),
        inputs,
        outputs: Vec::new(),
        validated: validated(),
        options: options(args),
        warnings,
        timings_ms: Vec::new(),
    };
    let mut files: Vec<(String, Vec<u8>)> =
        csv_files(&run).into_iter().map(|(name, text)| (name, text.into_bytes())).collect();
    info.outputs = files.iter().map(|(name, bytes)| pipeline::digest(name, bytes)).collect();
    clock.lap("tables");
    let reported = Run { info: &info, ..run };
    files.push(("report.html".to_owned(), report_html(&reported).into_bytes()));
    if args.pdf {
        let sheet = args.paper.sheet();
        let bytes = report_pdf(&reported, sheet)
            .map_err(|error| Failure::write(out.join("report.pdf"), std::io::Error::other(error)))?;
        files.push(("report.pdf".to_owned(), bytes));
    }
    clock.lap("report");
    info.timings_ms = clock.laps().to_vec();
    let run = Run { info: &info, ..run };
    write(&out, files, &run)?;
    terminal.note(&render::diagnostics(&info.warnings, &read.sources, terminal));
    summary::solved(&run, &out, args.json, terminal)
}

/// Writes all files, `run.json` with the manifest the last.
fn write(out: &Path, mut files: Vec<(String, Vec<u8>)>, run: &Run<'_>) -> Result<(), Failure> {
    // The tables were hashed for the report; what is left is the report itself.
    let mut written: manifest::Written =
        run.info.outputs.iter().map(|known| (known.file.clone(), known.sha256.clone())).collect();
    let left = manifest::of(files.iter().filter(|(name, _)| !written.contains_key(name)));
    written.extend(left);
    let told = manifest::sealed(&run_json(run), &written);
    files.push((manifest::RUN.to_owned(), told.into_bytes()));
    whole::write(out, &files)
}

/// One hash over all files that were read: of a list of their names and hashes.
fn hash_of(inputs: &[InputDigest]) -> String {
    let list: String = inputs.iter().map(|input| format!("{}  {}\n", input.sha256, input.file)).collect();
    digest::sha256(list.as_bytes())
}

/// How this version meets the published problems.
fn validated() -> Vec<Validated> {
    let families = strutwork_validation::standing().into_iter();
    families.map(|of| Validated { family: of.name, problems: of.cases, values: of.values, agree: of.agree }).collect()
}

/// Where results go. Not among the inputs: the next run would take its tables for the model's.
fn out_folder(args: &RunArgs) -> Result<PathBuf, Failure> {
    let out = args.out.clone().unwrap_or_else(|| args.solve.of.folder.join("results"));
    let same = match (out.canonicalize(), args.solve.of.folder.canonicalize()) {
        (Ok(out), Ok(folder)) => out == folder,
        _ => false,
    };
    if same {
        return Err(Failure::Request {
            what: format!("--out {} is the model's own folder", out.display()),
            help: "results need a folder of their own; without --out they go into `results` in the model's folder"
                .into(),
        });
    }
    Ok(out)
}

/// Why it cannot be solved, and what the model's own warnings say: they often name the reason.
pub(crate) fn unsolved(model: &Model, error: &SolveError, warnings: &[Diagnostic], read: &Read) -> Failure {
    let mut reasons = explain(model, error);
    reasons.extend_from_slice(warnings);
    Failure::Structure { reasons, sources: read.sources.clone() }
}

/// The command as it was typed.
fn typed() -> String {
    let arguments = std::env::args_os().skip(1).map(|argument| {
        let text = argument.to_string_lossy().into_owned();
        if text.is_empty() || text.contains([' ', '"', '\'', '\\', '$', '&', ';']) { format!("{text:?}") } else { text }
    });
    std::iter::once("strutwork".to_owned()).chain(arguments).collect::<Vec<_>>().join(" ")
}

fn options(args: &RunArgs) -> String {
    let cases = args.solve.of.cases.as_ref().map(|file| format!("load cases from {}", file.display()));
    let second = args
        .solve
        .second_order
        .then(|| format!("second order, steady to {:e} within {} passes", args.solve.tolerance, args.solve.passes));
    cases.into_iter().chain(second).collect::<Vec<_>>().join("; ")
}
