//! `strutwork study`: many variants of a model, side by side.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use strutwork_loads::derive_plain;
use strutwork_model::spec;
use strutwork_script::{CaseScript, Limits, ScriptHost, StudyJob, VariantCases, run_script};
use strutwork_study::identity::identity;
use strutwork_study::{Asked, CaseSource as _, Constraint, Fast, Limit, Response, Study, StudyFault, usual};

use crate::args::{CaseArgs, StudyArgs, StudyCommand};
use crate::cases::{failure, folder_of, scripts, text};
use crate::exit::{Failure, Outcome};
use crate::host::{Prints, ProgramHost};
use crate::pipeline;
use crate::render::Sources;
use crate::studies::merge;
use crate::studies::runner::{Ended, Options, Runner};
use crate::studies::stop;
use crate::terminal::Terminal;

/// Runs a study, or puts shards together.
///
/// # Errors
/// [`Failure::Input`] and [`Failure::Request`] where model, script or question are wrong; [`Failure::Told`] with 3 where no
/// variant could be solved, with 130 where the study was stopped; [`Failure::Occupied`], [`Failure::File`].
pub(crate) fn run(args: &StudyArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    if let Some(StudyCommand::Merge(args)) = &args.command {
        return merge::run(args, terminal);
    }
    let Some(what) = &args.what else {
        return Err(Failure::Request {
            what: "a study needs a model's folder or a script".into(),
            help: "strutwork study my-frame --gauges".into(),
        });
    };
    if what.extension().is_some_and(|extension| extension == "rhai") {
        of_script(args, what, terminal)
    } else {
        of_folder(args, what, terminal)
    }
}

fn options(args: &StudyArgs, out: PathBuf) -> Options {
    let threads = args.threads.map_or(0, usize::from);
    let paper = args.pdf.then(|| args.paper.sheet());
    Options { out, shard: args.shard, fresh: args.fresh, threads, json: args.json, paper }
}

/// A script that describes a study.
fn of_script(args: &StudyArgs, file: &Path, terminal: &Terminal) -> Result<Outcome, Failure> {
    if args.gauges || args.diagonals.is_some() || !args.at_least.is_empty() || !args.at_most.is_empty() {
        return Err(Failure::Request {
            what: format!("{} is a script, and says itself what is varied and required", file.display()),
            help: "leave out --gauges, --diagonals, --at-least and --at-most, or give a model's folder".into(),
        });
    }
    let text = text(file)?;
    let name = file.display().to_string();
    let mut sources = Sources::default();
    sources.add_shown(&name, name.clone(), &text);
    let out = args.out.clone().unwrap_or_else(|| folder_of(file).join("studies"));
    let runner = Arc::new(Runner::new(*terminal, options(args, out.clone())));
    let host = ProgramHost::new(*terminal, folder_of(file), out, args.args.clone(), Prints::Results)?;
    let host = Arc::new(host.with_studies(Arc::clone(&runner)));
    let limits = Limits { operations: args.max_operations, ..Limits::default() };
    stop::watch();
    let ran = run_script(host.clone(), &name, &text, &args.args, limits);
    host.finish()?;
    if let Some(stopped) = host.take_failure() {
        return Err(stopped);
    }
    ran.map_err(|error| failure(&error, sources))?;
    if stop::asked() {
        return Ended::Stopped.outcome();
    }
    match runner.ended() {
        Some(ended) => ended.outcome(),
        None => Err(Failure::Request {
            what: format!("{} runs no study", file.display()),
            help: "a study is described with new_study(…) and run with run(); other scripts go with `strutwork script`"
                .into(),
        }),
    }
}

/// The usual question on a model's folder.
fn of_folder(args: &StudyArgs, folder: &Path, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut read = pipeline::read(folder)?;
    let model = read.model()?.value;
    let (spec, _) = spec::parse(&read.files);
    let of = CaseArgs { folder: folder.to_owned(), cases: args.cases.clone(), max_operations: args.max_operations };
    let scripts = scripts(&of, &model, &mut read, &mut Vec::new())?;
    let (name, study) = match (&args.diagonals, args.gauges) {
        (Some(group), _) => ("diagonals", usual::diagonals(&spec, "diagonals", group, usize::from(args.most))),
        (None, true) => ("gauges", usual::gauges(&spec, "gauges")),
        (None, false) => {
            return Err(Failure::Request {
                what: "what is to be varied?".into(),
                help: "--gauges for the walls of every group, --diagonals GROUP for tubes on or off; or write a script"
                    .into(),
            });
        }
    };
    let mut study = study.map_err(|fault| refused(&fault))?;
    let has_cases = !scripts.is_empty() || derive_plain(&model).is_ok_and(|plain| !plain.0.is_empty());
    let twists = model.vehicle().is_some();
    usual::ask(&mut study, twists, has_cases);
    ask_more(args, &mut study)?;
    let out = args.out.clone().unwrap_or_else(|| folder.join("studies"));
    let script_folder = args.cases.as_deref().map_or(folder, folder_of);
    let host: ScriptHost =
        Arc::new(ProgramHost::new(*terminal, script_folder, out.clone(), Vec::new(), Prints::Notes)?);
    let job_cases = cases(host, args, scripts);
    let evaluator = Fast::new(&job_cases, None);
    let identity = identity(&study, &job_cases.texts());
    let job = StudyJob { study: &study, evaluator: &evaluator, cases: &job_cases, identity };
    terminal.progress(&format!("{name}: {} variants\n", study.count().map_err(|fault| refused(&fault))?));
    let runner = Runner::new(*terminal, options(args, out));
    runner.run(&job, &mut |_| {})?;
    runner.ended().map_or(Ok(Outcome::Passed), Ended::outcome)
}

fn cases(host: ScriptHost, args: &StudyArgs, scripts: Vec<CaseScript>) -> VariantCases {
    VariantCases::new(host, Limits { operations: args.max_operations, ..Limits::default() }, scripts)
}

fn refused(fault: &StudyFault) -> Failure {
    Failure::Request { what: fault.to_string(), help: String::new() }
}

/// Frequencies and bounds that were asked for on the command line.
fn ask_more(args: &StudyArgs, study: &mut Study) -> Result<(), Failure> {
    if let Some(n) = args.frequency {
        let name = format!("frequency_{n}_hz");
        study.responses.push(Response { name, asked: Asked::Frequency(usize::from(n)) });
    }
    let bounds = args.at_least.iter().map(|text| (text, true)).chain(args.at_most.iter().map(|text| (text, false)));
    for (text, at_least) in bounds {
        let bound =
            text.split_once('=').and_then(|(name, bound)| Some((name.trim(), bound.trim().parse::<f64>().ok()?)));
        let Some((name, bound)) = bound.filter(|(_, bound)| bound.is_finite()) else {
            return Err(Failure::Request {
                what: format!("`{text}` is no bound"),
                help: "write it as NAME=NUMBER: stiffness_nm_per_deg=6000".into(),
            });
        };
        let response = study.response(name).map_err(|fault| refused(&fault))?;
        let limit = if at_least { Limit::AtLeast(bound) } else { Limit::AtMost(bound) };
        study.constraints.push(Constraint { response, limit });
    }
    Ok(())
}
