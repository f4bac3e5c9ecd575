//! `strutwork run`: check, cases, solve, judge, write.

use std::path::{Path, PathBuf};

use strutwork_report::{InputDigest, Run, RunInfo, Since, Validated, csv_files, report_html, report_pdf, run_json};
use strutwork_revision::{Revision, compare};

use super::summary;
use crate::args::RunArgs;
use crate::clock::Clock;
use crate::exit::{Failure, Outcome};
use crate::files::{digest, inputs, manifest, whole};
use crate::pipeline;
use crate::ran::{self, Ran};
use crate::render;
use crate::revisions::{self, Loaded, Solving};
use crate::terminal::Terminal;

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
    // Read before anything is written: it may be what this run replaces.
    let older = args.since.as_ref().map(|folder| older(folder, args, terminal)).transpose()?;
    clock.lap("older run");
    let ran = ran::solve(&args.solve, &args.asked, &mut clock, terminal)?;
    let mut info = RunInfo {
        tool_version: env!("CARGO_PKG_VERSION").to_owned(),
        date: clock.date().to_owned(),
        command: typed(),
        input_hash: hash_of(&ran.inputs),
        inputs: ran.inputs.clone(),
        outputs: Vec::new(),
        validated: validated(),
        options: ran::options(&args.solve),
        warnings: ran.warnings.clone(),
        since: None,
        timings_ms: Vec::new(),
    };
    let tables = csv_files(&ran.told(&info));
    if let Some(older) = older {
        info.since = Some(since(&older, args, &ran, &info, &tables)?);
        clock.lap("comparison");
    }
    let mut files: Vec<(String, Vec<u8>)> = tables.into_iter().map(|(name, text)| (name, text.into_bytes())).collect();
    info.outputs = files.iter().map(|(name, bytes)| pipeline::digest(name, bytes)).collect();
    clock.lap("tables");
    files.push(("report.html".to_owned(), report_html(&ran.told(&info)).into_bytes()));
    if args.pdf {
        let sheet = args.paper.sheet();
        let bytes = report_pdf(&ran.told(&info), sheet)
            .map_err(|error| Failure::write(out.join("report.pdf"), std::io::Error::other(error)))?;
        files.push(("report.pdf".to_owned(), bytes));
    }
    files.extend(inputs::kept(&ran.read.files));
    clock.lap("report");
    info.timings_ms = clock.laps().to_vec();
    let run = ran.told(&info);
    write(&out, files, &run)?;
    terminal.note(&render::diagnostics(&info.warnings, &ran.read.sources, terminal));
    summary::solved(&run, &summary::Told { out: &out, paper: args.pdf, as_json: args.json }, terminal)
}

/// The older run that this one is held against.
fn older(folder: &Path, args: &RunArgs, terminal: &Terminal) -> Result<Loaded, Failure> {
    let solving = Solving { solve: args.solve.clone(), asked: args.asked.clone() };
    let older = revisions::load(folder, &solving, terminal)?;
    terminal.note(&render::diagnostics(&older.warnings, &older.sources, terminal));
    Ok(older)
}

/// What changed since the older run.
fn since(
    older: &Loaded,
    args: &RunArgs,
    ran: &Ran,
    info: &RunInfo,
    tables: &[(String, String)],
) -> Result<Since, Failure> {
    let results = revisions::results_of(ran, info, tables)?;
    let script = ran.read.files.own_cases();
    let now = Revision { results: &results, model: Some(&ran.model), script: script.as_deref() };
    Ok(Since {
        comparison: compare(older.revision(), now),
        label: args.since.as_ref().map(|folder| folder.display().to_string()).unwrap_or_default(),
        remarks: older.warnings.iter().map(|one| format!("{} ({})", one.message, one.code)).collect(),
    })
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

/// The command as it was typed.
fn typed() -> String {
    let arguments = std::env::args_os().skip(1).map(|argument| {
        let text = argument.to_string_lossy().into_owned();
        if text.is_empty() || text.contains([' ', '"', '\'', '\\', '$', '&', ';']) { format!("{text:?}") } else { text }
    });
    std::iter::once("strutwork".to_owned()).chain(arguments).collect::<Vec<_>>().join(" ")
}
