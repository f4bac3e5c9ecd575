//! Which load cases a run solves: the load files', the standard ones of a vehicle, the model's own or those of `--cases`.

use std::path::Path;
use std::sync::Arc;

use strutwork_loads::factors::unused_factors;
use strutwork_loads::{LoadCases, LoadError, derive_plain};
use strutwork_model::files::CASES;
use strutwork_model::{Code, Diagnostic, Model, Severity};
use strutwork_report::InputDigest;
use strutwork_script::{CaseScript, Fault, Limits, ScriptError, run_cases_on};

use crate::args::CaseArgs;
use crate::exit::Failure;
use crate::files;
use crate::host::{Prints, ProgramHost};
use crate::pipeline::{Read, digest};
use crate::render::Sources;
use crate::terminal::Terminal;

/// The load cases of a run.
#[derive(Debug)]
pub(crate) struct Built {
    /// Those of the load files first.
    pub cases: LoadCases,
    /// Of the scripts that were run and are no files of the model's folder.
    pub digests: Vec<InputDigest>,
    /// What a reader must know.
    pub warnings: Vec<Diagnostic>,
}

/// Builds them; `none_needed` where a run without load cases has something else to find.
///
/// # Errors
/// [`Failure::Input`] when the load files make no case, a script fails or two cases share a name; [`Failure::Request`]
/// when there is no case at all; [`Failure::File`] when a script cannot be read.
pub(crate) fn build(
    args: &CaseArgs,
    none_needed: bool,
    model: &Model,
    read: &mut Read,
    terminal: &Terminal,
) -> Result<Built, Failure> {
    let mut cases = derive_plain(model).map_err(|fault| wrong(&fault, read))?;
    let mut digests = Vec::new();
    let scripts = scripts(args, model, read, &mut digests)?;
    if !scripts.is_empty() {
        let folder = match &args.cases {
            Some(file) => folder_of(file),
            None => args.folder.as_path(),
        };
        let host =
            Arc::new(ProgramHost::new(*terminal, folder, args.folder.join("results"), Vec::new(), Prints::Notes)?);
        let limits = Limits { operations: args.max_operations, ..Limits::default() };
        let built = run_cases_on(host.clone(), model, &scripts, limits)
            .map_err(|error| failure(&error, read.sources.clone()))?;
        digests.extend(host.imported());
        for case in built.0 {
            if cases.0.iter().any(|known| known.name == case.name) {
                return Err(wrong(&LoadError::DuplicateCase { name: case.name }, read));
            }
            cases.0.push(case);
        }
    }
    if cases.0.is_empty() && !none_needed {
        return Err(nothing_to_solve(model));
    }
    let mut warnings = unused_factors(model, &cases);
    warnings.extend(remarks(&cases));
    Ok(Built { cases, digests, warnings })
}

/// Loads that make no case, as a fault of the input.
fn wrong(fault: &LoadError, read: &Read) -> Failure {
    Failure::Input { faults: vec![Diagnostic::from(fault)], sources: read.sources.clone() }
}

/// Remarks that have a code, as warnings: a wheel that pulls, a physical case that is not balanced.
fn remarks(cases: &LoadCases) -> impl Iterator<Item = Diagnostic> {
    cases.0.iter().flat_map(|case| {
        case.derivation.remarks.iter().filter(|remark| !remark.code.is_empty()).map(|remark| Diagnostic {
            code: Code(remark.code),
            severity: Severity::Warning,
            place: None,
            subject: case.name.clone(),
            message: format!("case {}: {}", case.name, remark.text),
            help: format!("`strutwork explain {}` says what it means", remark.code),
        })
    })
}

/// The scripts to run, in order; their texts are added to what messages can show.
///
/// # Errors
/// [`Failure::File`] and [`Failure::Request`] where the script of `--cases` cannot be read.
pub(crate) fn scripts(
    args: &CaseArgs,
    model: &Model,
    read: &mut Read,
    digests: &mut Vec<InputDigest>,
) -> Result<Vec<CaseScript>, Failure> {
    if let Some(file) = &args.cases {
        let name = file.display().to_string();
        let text = text(file)?;
        read.sources.add_shown(&name, name.clone(), &text);
        digests.push(digest(&name, text.as_bytes()));
        return Ok(vec![CaseScript::new(name, text)]);
    }
    let mut scripts = Vec::new();
    if model.vehicle().is_some() && model.options().standard_cases {
        for script in CaseScript::standard() {
            let shown = format!("{} (built in)", script.name);
            digests.push(digest(&shown, script.text.as_bytes()));
            read.sources.add_shown(&script.name, shown, &script.text);
            scripts.push(script);
        }
    }
    // Validation has seen that it is UTF-8.
    if let Some(own) = read.files.get(CASES).and_then(|bytes| std::str::from_utf8(bytes).ok()) {
        scripts.push(CaseScript::new(CASES, own.trim_start_matches('\u{feff}')));
    }
    Ok(scripts)
}

/// The text of a script, without its byte order mark.
///
/// # Errors
/// [`Failure::File`] when it cannot be read, [`Failure::Request`] when it is not there or is no UTF-8 text.
pub(crate) fn text(file: &Path) -> Result<String, Failure> {
    if !file.exists() {
        return Err(Failure::Request {
            what: format!("there is no script {}", file.display()),
            help: "check the name; it is relative to where you stand".into(),
        });
    }
    let text = String::from_utf8(files::read(file)?).map_err(|_| Failure::Request {
        what: format!("{} is not UTF-8 text", file.display()),
        help: "save it as UTF-8".into(),
    })?;
    Ok(text.trim_start_matches('\u{feff}').to_owned())
}

/// The folder that a file stands in.
pub(crate) fn folder_of(file: &Path) -> &Path {
    match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// A script's error by whose problem it is: the structure's, the environment's, or the author's.
pub(crate) fn failure(error: &ScriptError, sources: Sources) -> Failure {
    let faults = error.diagnostics();
    match cause(error) {
        Some(Fault::Solve { .. }) => Failure::Structure { reasons: faults, sources },
        Some(Fault::Host(host)) if host.environment => Failure::Blocked { faults, sources },
        _ => Failure::Input { faults, sources },
    }
}

/// What is at the bottom of it, through scripts that run scripts.
fn cause(error: &ScriptError) -> Option<&Fault> {
    match error.fault() {
        Some(Fault::Script(inner)) => cause(inner),
        other => other,
    }
}

fn nothing_to_solve(model: &Model) -> Failure {
    let help = if model.vehicle().is_some() {
        "set standard_cases = true under [options] in model.toml, or write load cases into loads.csv or cases.rhai"
    } else {
        "write load cases into loads.csv or cases.rhai, or describe the [vehicle] in model.toml for the standard cases"
    };
    Failure::Request { what: "there is nothing to solve: the model has no load cases".into(), help: help.into() }
}
