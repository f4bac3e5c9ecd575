//! A model's folder solved and judged, in memory: what `run` writes and `baseline` compares.

use strutwork_checks::{Figures, Finding, Judged, check_all, figures, of_evidence};
use strutwork_loads::LoadCases;
use strutwork_model::{Diagnostic, Model, Warned};
use strutwork_report::{Asked, InputDigest, Run, RunInfo};
use strutwork_rig::evidence;
use strutwork_solve::SolveError;
use strutwork_solve::bays::{Bays, find_bays};
use strutwork_solve::explain::explain;
use strutwork_study::sensitivity::{SensitivityFault, Worth};

use crate::args::{AskedArgs, SolveArgs};
use crate::asked;
use crate::cases::{self, Built};
use crate::clock::Clock;
use crate::exit::Failure;
use crate::pipeline::{self, Read};
use crate::render;
use crate::solved::{self, Solved};
use crate::terminal::Terminal;

/// A frame with more joints than this is worth a word before it is solved.
const WORTH_A_WORD: usize = 3000;

/// A model with all that was found of it.
pub(crate) struct Ran {
    /// The folder as it was read.
    pub read: Read,
    /// The model.
    pub model: Model,
    /// The cases that have results, and the results.
    pub solved: Solved,
    /// Figures that sum the frame up.
    pub figures: Option<Figures>,
    /// What each tube is worth for the torsional stiffness, where a case measures one.
    pub worth: Option<Worth>,
    /// The bays of the frame.
    pub bays: Bays,
    /// Analyses beside the load cases.
    pub asked: Asked,
    /// What was judged.
    pub findings: Vec<Finding>,
    /// Every file that was read, the scripts of `--cases` and the built-in ones too.
    pub inputs: Vec<InputDigest>,
    /// What a reader must know of model and cases.
    pub warnings: Vec<Diagnostic>,
}

/// Reads, validates, solves and judges. Nothing is written.
///
/// # Errors
/// [`Failure::Input`] with every fault of the model or its case scripts, [`Failure::Request`] where there is nothing to solve,
/// [`Failure::Structure`] when the frame cannot be solved, [`Failure::File`].
pub(crate) fn solve(
    solve: &SolveArgs,
    asked: &AskedArgs,
    clock: &mut Clock,
    terminal: &Terminal,
) -> Result<Ran, Failure> {
    let mut read = pipeline::read(&solve.of.folder)?;
    clock.lap("read");
    let Warned { value: model, mut warnings } = read.model()?;
    clock.lap("validate");
    let vibrates = asked.modes.is_some_and(|modes| modes > 0);
    let Built { cases, digests, warnings: of_cases } = cases::build(&solve.of, vibrates, &model, &mut read, terminal)?;
    warnings.extend(of_cases);
    clock.lap("load cases");
    if model.joints().len() > WORTH_A_WORD {
        terminal.progress(&format!(
            "Solving {} for {} …\n",
            render::counted(model.joints().len(), "joint"),
            solve.of.folder.display()
        ));
    }
    let solved = solved::solve(solve, &model, cases, &mut warnings, &read)?;
    let cases = &solved.cases;
    clock.lap("solve");
    // Stiffness and load factors are those of the frame as drawn.
    let figures = figures(&model, cases, solved.first()).map_err(|error| unsolved(&model, &error, &warnings, &read))?;
    let worth = worth(&model, cases).map_err(|error| unsolved(&model, &error, &warnings, &read))?;
    let bays = find_bays(&model);
    clock.lap("figures and bays");
    let mut asked = asked::analyse(asked, &model, cases, solved.first(), &warnings, &read)?;
    if asked != Asked::NOTHING {
        clock.lap("modes and buckling");
    }
    let evidence = evidence(&model);
    let lengths = asked.lengths.as_ref();
    let mut findings = check_all(Judged { model: &model, cases, results: &solved.results, bays: &bays, lengths });
    clock.lap("check");
    findings.extend(of_evidence(&evidence));
    asked.evidence = Some(evidence);
    clock.lap("rig and scales");
    let inputs = pipeline::digests(&read.files).into_iter().chain(digests).collect();
    Ok(Ran { read, model, solved, figures, worth, bays, asked, findings, inputs, warnings })
}

impl Ran {
    /// As the report takes it.
    pub(crate) fn told<'a>(&'a self, info: &'a RunInfo) -> Run<'a> {
        Run {
            model: &self.model,
            cases: &self.solved.cases,
            results: &self.solved.results,
            findings: &self.findings,
            bays: &self.bays,
            figures: self.figures.as_ref(),
            worth: self.worth.as_ref(),
            asked: &self.asked,
            info,
        }
    }
}

/// What each tube is worth for the torsional stiffness, where a case measures one.
fn worth(model: &Model, cases: &LoadCases) -> Result<Option<Worth>, SolveError> {
    match Worth::of(model, cases) {
        Ok(worth) => Ok(worth),
        Err(SensitivityFault::Solve(error)) => Err(error),
        // Outside of what derivatives are given for: then the report has none.
        Err(_) => Ok(None),
    }
}

/// Why it cannot be solved, and what the model's own warnings say: they often name the reason.
pub(crate) fn unsolved(model: &Model, error: &SolveError, warnings: &[Diagnostic], read: &Read) -> Failure {
    let mut reasons = explain(model, error);
    reasons.extend_from_slice(warnings);
    Failure::Structure { reasons, sources: read.sources.clone() }
}

/// Options in force, in words; empty for none.
pub(crate) fn options(solve: &SolveArgs) -> String {
    let cases = solve.of.cases.as_ref().map(|file| format!("load cases from {}", file.display()));
    let second = solve
        .second_order
        .then(|| format!("second order, steady to {:e} within {} passes", solve.tolerance, solve.passes));
    cases.into_iter().chain(second).collect::<Vec<_>>().join("; ")
}
