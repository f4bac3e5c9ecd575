//! A revision from a folder: results as a run left them, or a model that is solved in memory.

use std::path::Path;

use strutwork_model::files::{InputFile, InputFiles};
use strutwork_model::{Code, Diagnostic, Model, Place, Severity, Warned, read_model};
use strutwork_report::{RunInfo, csv_files, run_json};
use strutwork_revision::{ResultSet, Revision, codes, read_results, results};

use crate::args::{AskedArgs, SolveArgs};
use crate::clock::Clock;
use crate::exit::Failure;
use crate::files::inputs::{self, Changed};
use crate::ran::{self, Ran};
use crate::render::{Sources, counted};
use crate::terminal::Terminal;

/// A revision as it was read.
pub(crate) struct Loaded {
    /// What came out.
    pub results: ResultSet,
    /// The model; `None` where results keep none that can be read.
    pub model: Option<Model>,
    /// The text of the model's own case script.
    pub script: Option<String>,
    /// What a reader must know of it.
    pub warnings: Vec<Diagnostic>,
    /// What warnings point into.
    pub sources: Sources,
}

impl Loaded {
    /// As it is compared.
    pub(crate) fn revision(&self) -> Revision<'_> {
        Revision { results: &self.results, model: self.model.as_ref(), script: self.script.as_deref() }
    }
}

/// How models are solved that stand in the place of results.
#[derive(Debug, Clone)]
pub(crate) struct Solving {
    /// Their load cases and the order; of whichever folder, for each is solved so.
    pub solve: SolveArgs,
    /// Analyses beside the load cases.
    pub asked: AskedArgs,
}

/// Reads a folder of results, or solves a model's folder.
///
/// # Errors
/// [`Failure::Input`] for results or a model that cannot be read, [`Failure::Request`] where there is no such folder,
/// [`Failure::Structure`], [`Failure::File`].
pub(crate) fn load(folder: &Path, solving: &Solving, terminal: &Terminal) -> Result<Loaded, Failure> {
    if !folder.exists() {
        return Err(Failure::Request {
            what: format!("there is no folder {}", folder.display()),
            help: "give a folder of results, or the folder of a model".into(),
        });
    }
    if !folder.is_dir() {
        return Err(Failure::Request {
            what: format!("{} is a file", folder.display()),
            help: "give a folder of results, or the folder of a model".into(),
        });
    }
    if inputs::is_model(folder) && !inputs::is_results(folder) {
        solved(folder, solving, terminal)
    } else {
        read(folder)
    }
}

/// A model's folder, solved in memory and read back as its results would be.
fn solved(folder: &Path, solving: &Solving, terminal: &Terminal) -> Result<Loaded, Failure> {
    let mut solve = solving.solve.clone();
    solve.of.folder = folder.to_owned();
    let mut clock = Clock::start()?;
    let ran = ran::solve(&solve, &solving.asked, &mut clock, terminal)?;
    let info = RunInfo {
        tool_version: env!("CARGO_PKG_VERSION").to_owned(),
        date: clock.date().to_owned(),
        inputs: ran.inputs.clone(),
        options: ran::options(&solve),
        ..RunInfo::default()
    };
    let tables = csv_files(&ran.told(&info));
    let results = results_of(&ran, &info, &tables)?;
    let script = ran.read.files.own_cases();
    Ok(Loaded { results, model: Some(ran.model), script, warnings: Vec::new(), sources: ran.read.sources })
}

/// The results of a finished run from the texts that it would write.
pub(crate) fn results_of(ran: &Ran, info: &RunInfo, tables: &[(String, String)]) -> Result<ResultSet, Failure> {
    let run = run_json(&ran.told(info));
    let mut files: Vec<InputFile> =
        tables.iter().map(|(name, text)| InputFile::new(name.as_str(), text.as_bytes())).collect();
    files.push(InputFile::new(results::RUN, run));
    let wrong =
        |faults: strutwork_model::Faults| Failure::Input { faults: faults.0, sources: ran.read.sources.clone() };
    Ok(read_results(&InputFiles(files)).map_err(wrong)?.value)
}

/// A folder of results.
fn read(folder: &Path) -> Result<Loaded, Failure> {
    let found = inputs::read(folder)?;
    let mut sources = Sources::below(folder.display().to_string().trim_end_matches('/'));
    for file in &found.files.0 {
        if let Ok(text) = std::str::from_utf8(&file.bytes) {
            sources.add(&file.name, text);
        }
    }
    let Warned { value: results, mut warnings } =
        read_results(&found.files).map_err(|faults| Failure::Input { faults: faults.0, sources: sources.clone() })?;
    match &found.changed {
        None => warnings.push(about(
            codes::CHANGED_SINCE,
            results::RUN,
            "`run.json` was changed after the run that wrote it, so nobody can tell whether the tables were".to_owned(),
            "run the model again to be sure of its results",
        )),
        Some(Changed { other, gone }) => {
            let told = |name: &String, what: &str| {
                about(codes::CHANGED_SINCE, name, format!("`{name}` {what}"), "run the model again")
            };
            let other = other
                .iter()
                .map(|name| told(name, "was changed after the run that wrote it: what is compared was not computed"));
            warnings.extend(other);
            // That tables of every run are missing is told already.
            let missing = gone.iter().filter(|name| !results::ALWAYS.contains(&name.as_str()));
            warnings.extend(missing.map(|name| {
                told(name, "is no longer there, though the run wrote it: what stood in it is not compared")
            }));
        }
    }
    let (model, script) = match &found.inputs {
        None => {
            let message = "these results keep no copy of their inputs: what was changed in the model cannot be told, and \
                           renamed joints and tubes count as gone and new";
            let help = "give the model's folder in place of its results, or run it again";
            warnings.push(about(codes::NO_INPUTS, inputs::INPUTS, message.to_owned(), help));
            (None, None)
        }
        Some(files) => match read_model(files) {
            Ok(model) => (Some(model.value), files.own_cases()),
            Err(faults) => {
                let number = faults.0.iter().filter(|fault| fault.severity == Severity::Error).count();
                let message = format!(
                    "the inputs that were kept with these results cannot be read as a model: {}",
                    counted(number, "fault")
                );
                let shown = folder.join(inputs::INPUTS);
                let help = format!("`strutwork check {}` lists them", shown.display());
                warnings.push(about(codes::INPUTS_UNREADABLE, inputs::INPUTS, message, &help));
                (None, None)
            }
        },
    };
    Ok(Loaded { results, model, script, warnings, sources })
}

fn about(code: Code, file: &str, message: String, help: &str) -> Diagnostic {
    Diagnostic {
        code,
        severity: Severity::Warning,
        place: Some(Place::file(file)),
        subject: String::new(),
        message,
        help: help.to_owned(),
    }
}
