//! Calculations written out in full, for the items nearest to their limits.

use askama::Template;
use strutwork_checks::calculation::Line;
use strutwork_checks::governing::Kind;
use strutwork_checks::{Calculation, Finding, written};
use strutwork_model::Model;

use crate::run::Run;
use crate::tally::{self, Check};
use crate::utilisation::Utilisations;

use super::maths::{formula, number, prose};
use super::{Edition, plain};

/// The items nearest to their limits of all, whatever their kind.
const WORST: usize = 6;
/// Of these at most this many of one check, so that the others are seen too.
const OF_ONE_CHECK: usize = 4;
/// The same on paper, where the worst of each kind follows and no more.
const WORST_ON_PAPER: usize = 3;
const OF_ONE_CHECK_ON_PAPER: usize = 1;
/// How far down a list the search goes where a check cannot be written out.
const FURTHEST: usize = 200;
/// A calculation of no more lines than this is kept on one page of a printed screen; on paper each is.
const KEPT_TOGETHER: usize = 36;

/// Calculations written out, the worst first.
pub(super) struct Calculations<'a> {
    pub(super) all: Vec<CalculationView>,
    findings: Vec<&'a Finding>,
}

/// A calculation as an engineer writes it. All strings named `…_html` are escaped.
#[derive(Template)]
#[template(path = "calculation.html")]
pub(super) struct CalculationView {
    pub(super) number: usize,
    pub(super) title: String,
    pub(super) about: String,
    /// What it comes to, in a welder's words.
    pub(super) sentence: String,
    pub(super) helps: &'static str,
    pub(super) check: String,
    pub(super) clause_html: String,
    pub(super) source_html: String,
    pub(super) blocks: Vec<Block>,
    pub(super) measure: &'static str,
    pub(super) utilisation: String,
    pub(super) verdict: String,
    pub(super) over: bool,
    pub(super) outside_html: Vec<String>,
    pub(super) class: &'static str,
}

/// Inputs, or the steps that follow from them.
pub(super) enum Block {
    Given(Vec<Given>),
    Steps(Vec<Step>),
}

/// An input.
pub(super) struct Given {
    pub(super) symbol_html: String,
    pub(super) value: String,
    pub(super) unit: &'static str,
    pub(super) note_html: String,
}

/// A step; without a symbol a remark alone.
pub(super) struct Step {
    pub(super) symbol_html: String,
    /// The formula, and the formula with its numbers put in.
    pub(super) sides_html: Vec<String>,
    pub(super) value: String,
    pub(super) unit: &'static str,
    pub(super) note_html: String,
}

impl<'a> Calculations<'a> {
    pub(super) fn of(run: &Run<'a>, utilisations: &Utilisations<'a>, checks: &[Check<'a>], edition: Edition) -> Self {
        let chosen = chosen(run, utilisations, checks, edition);
        let view = |(place, (finding, calculation)): (usize, &(&'a Finding, Calculation))| {
            CalculationView::of(run, place + 1, finding, calculation, edition)
        };
        Self {
            all: chosen.iter().enumerate().map(view).collect(),
            findings: chosen.iter().map(|(finding, _)| *finding).collect(),
        }
    }

    /// The number of the calculation behind a finding, where it is written out.
    pub(super) fn number(&self, finding: &Finding) -> Option<usize> {
        self.findings.iter().position(|known| std::ptr::eq(*known, finding)).map(|place| place + 1)
    }
}

/// The findings that are written out: the worst of all, of each kind of item and, but for paper, of each check; each once, the
/// worst first on a screen, the shortest on paper.
fn chosen<'a>(
    run: &Run<'a>,
    utilisations: &Utilisations<'a>,
    checks: &[Check<'a>],
    edition: Edition,
) -> Vec<(&'a Finding, Calculation)> {
    let (most, of_one, checks) = match edition {
        Edition::Screen => (WORST, OF_ONE_CHECK, checks),
        Edition::Paper => (WORST_ON_PAPER, OF_ONE_CHECK_ON_PAPER, &checks[..0]),
    };
    let mut chosen: Vec<(&'a Finding, Calculation)> = Vec::new();
    let take = |chosen: &mut Vec<(&'a Finding, Calculation)>, finding: &'a Finding| {
        let known = chosen.iter().any(|(known, _)| std::ptr::eq(*known, finding));
        if !known && let Some(calculation) = written(run.judged(), finding) {
            chosen.push((finding, calculation));
        }
    };
    for finding in utilisations.items.iter().map(|item| item.governing).take(FURTHEST) {
        let of_its_check = chosen.iter().filter(|(known, _)| known.code == finding.code).count();
        if chosen.len() < most && of_its_check < of_one {
            take(&mut chosen, finding);
        }
    }
    for kind in Kind::ALL {
        utilisations.of_kind(kind).take(1).for_each(|item| take(&mut chosen, item.governing));
    }
    for check in checks.iter().filter(|check| check.worst.utilisation.is_some()) {
        take(&mut chosen, check.worst);
    }
    let used = |finding: &Finding| finding.utilisation.unwrap_or(0.0);
    chosen.sort_by(|a, b| used(b.0).total_cmp(&used(a.0)));
    if edition == Edition::Paper {
        // Each stands on one page: the short ones first, so that they share pages.
        chosen.sort_by_key(|(_, calculation)| calculation.lines.len());
    }
    chosen
}

impl CalculationView {
    fn of(run: &Run<'_>, number_of_it: usize, finding: &Finding, calculation: &Calculation, edition: Edition) -> Self {
        let outside = !calculation.outside.is_empty() || finding.is_outside();
        let noted = calculation.noted.is_some();
        let over = calculation.utilisation > 1.0 && !noted;
        let about = run.about(finding.subject);
        let case = if finding.case.is_empty() { String::new() } else { format!(", case {}", finding.case) };
        Self {
            number: number_of_it,
            title: calculation.title.clone(),
            about: format!("{about}{case}"),
            sentence: plain::sentence(finding),
            helps: plain::helps(finding),
            check: format!("{} {}", finding.code.0, tally::title(finding.code.0)),
            clause_html: prose(&calculation.clause, run.model),
            source_html: prose(&calculation.source, run.model),
            blocks: blocks(&calculation.lines, run.model),
            measure: if noted { "Ratio" } else { "Utilisation" },
            utilisation: number(calculation.utilisation),
            verdict: match (calculation.noted, over, outside) {
                (Some(what), ..) => format!("not held against a limit: {what}."),
                (None, true, true) => "above 1: over its limit, and outside the scope of the clause.".to_owned(),
                (None, true, false) => "above 1: over its limit.".to_owned(),
                (None, false, true) => "outside the scope of the clause: this is no pass.".to_owned(),
                (None, false, false) => "not above 1: within its limit.".to_owned(),
            },
            over: over || outside,
            outside_html: calculation.outside.iter().map(|why| prose(why, run.model)).collect(),
            class: match edition {
                Edition::Paper => "page",
                Edition::Screen if calculation.lines.len() <= KEPT_TOGETHER => "short",
                Edition::Screen => "",
            },
        }
    }
}

/// Inputs and steps in the order in which they were written, each run of one sort together.
fn blocks(lines: &[Line], model: &Model) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for line in lines {
        let is_input = line.formula.is_empty() && !line.symbol.is_empty();
        match (blocks.last_mut(), is_input) {
            (Some(Block::Given(inputs)), true) => inputs.push(given(line, model)),
            (Some(Block::Steps(steps)), false) => steps.push(step(line, model)),
            (_, true) => blocks.push(Block::Given(vec![given(line, model)])),
            (_, false) => blocks.push(Block::Steps(vec![step(line, model)])),
        }
    }
    blocks
}

fn given(line: &Line, model: &Model) -> Given {
    Given {
        symbol_html: formula(&line.symbol),
        value: number(line.value),
        unit: line.unit,
        note_html: prose(&line.note, model),
    }
}

fn step(line: &Line, model: &Model) -> Step {
    let mut sides: Vec<String> = Vec::new();
    for side in [&line.formula, &line.substituted] {
        let side = formula(side);
        // A formula of numbers alone reads the same once they are put in.
        if !side.is_empty() && sides.last() != Some(&side) {
            sides.push(side);
        }
    }
    Step {
        symbol_html: formula(&line.symbol),
        sides_html: sides,
        value: if line.symbol.is_empty() { String::new() } else { number(line.value) },
        unit: line.unit,
        note_html: prose(&line.note, model),
    }
}
