//! What was judged: findings, what governs each item, and the calculation behind a finding.

use std::collections::BTreeMap;
use std::sync::Arc;

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_checks::calculation::{Calculation, Line};
use strutwork_checks::governing::{Item, Kind};
use strutwork_checks::{Finding, Subject, items, written};

use super::Raised;
use super::models::tube_named;
use crate::fault::Fault;
use crate::handle::{Judgement, Solved, SolvedRun};
use crate::number::{PerhapsFinding, PerhapsMap, map, names, optional};

/// What a reader needs before the functions: the properties of a finding stand here, for they are no functions.
pub(super) const INTRO: &str = "\
What was judged, against which limit, by which clause. A `Finding` has these properties:

- `code`: the check, such as `D001`; `strutwork explain` lists them.
- `severity`: `error` where a limit is exceeded, `warning` or `note` otherwise.
- `kind`: of the item: `tube`, `joint`, `weld`, `bolt`, `panel`, `movement` or `frame`.
- `subject`: the item by its name; `TUBE at JOINT` for a tube's end, `BODY at JOINT` for a bolt.
- `load_case`: its name; empty where the finding holds for all.
- `value`, `limit`, `unit`: what was found, and what is allowed, `()` where nothing is; both in `unit`, a text.
- `utilisation`: value over limit, `()` where there is no limit. Above 1 the limit is exceeded.
- `clause`: where the limit comes from.
- `outside`: true where no clause covers the item. However small its utilisation is, it is not a pass.
- `standing`: with `governing` and `worst` alone: how the whole item stands, `exceeded`, `outside` (within its limits, but some \
  check of it has no clause that covers it: no pass) or `passed`. `()` elsewhere.
- `entered`: the numbers that went in, an array of maps with `symbol`, `value` and `unit`.
- `message`: in words; empty where another case governs the same item and nothing is exceeded.

Findings are sorted and filtered as any array: `r.governing().filter(|g| g.kind == \"weld\")`.";

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

/// Findings of a run by their places, for a script.
fn found(run: &Arc<SolvedRun>, places: impl IntoIterator<Item = usize>) -> Array {
    let one = |place| Judgement { run: Arc::clone(run), place, standing: None };
    places.into_iter().map(|place| Dynamic::from(one(place))).collect()
}

/// The findings that govern, the worst first.
fn that_govern(run: &Arc<SolvedRun>) -> Vec<Judgement> {
    let places: BTreeMap<*const Finding, usize> =
        run.findings().iter().enumerate().map(|(place, finding)| (std::ptr::from_ref(finding), place)).collect();
    let one = |item: Item<'_>| Judgement {
        run: Arc::clone(run),
        place: places[&std::ptr::from_ref(item.governing)],
        standing: Some(item.standing()),
    };
    items(run.findings()).into_iter().map(one).collect()
}

fn kind_named(word: &str) -> Result<Kind, Fault> {
    let known = Kind::ALL.into_iter().find(|kind| kind.word() == word);
    known.ok_or_else(|| Fault::unknown("kind of item", word, Kind::ALL.into_iter().map(Kind::word)))
}

fn line_map(line: &Line) -> Map {
    let mut data = map([("value", line.value)]);
    for (key, text) in [
        ("symbol", line.symbol.as_str()),
        ("formula", &line.formula),
        ("substituted", &line.substituted),
        ("unit", line.unit),
        ("note", &line.note),
    ] {
        data.insert(key.into(), text.into());
    }
    data
}

pub(in crate::api) fn calculation_map(calculation: &Calculation) -> Map {
    let mut data = map([("utilisation", calculation.utilisation)]);
    let text = calculation.text();
    for (key, text) in [
        ("title", calculation.title.as_str()),
        ("clause", &calculation.clause),
        ("source", &calculation.source),
        ("text", &text),
    ] {
        data.insert(key.into(), text.into());
    }
    data.insert("outside".into(), names(calculation.outside.iter().map(String::as_str)).into());
    data.insert("lines".into(), calculation.lines.iter().map(|line| Dynamic::from(line_map(line))).collect());
    data
}

#[export_module]
mod functions {
    use super::*;

    /// Everything that was judged: an array of findings, check by check.
    ///
    /// ```rhai
    /// let frame = model();
    /// for f in frame.solve(frame.standard_cases()).findings() {
    ///     if f.severity == "error" { print(`${f.code} ${f.subject}: ${f.message}`); }
    /// }
    /// ```
    pub fn findings(results: Solved) -> Array {
        let run = &results.0;
        found(run, 0..run.findings().len())
    }

    /// Everything that was judged of one item, by its name: an array of findings.
    ///
    /// * A tube's ends are items of their own, named `TUBE at JOINT`.
    /// * A name that no finding is about stops the script.
    ///
    /// ```rhai
    /// let frame = model();
    /// for f in frame.solve(frame.standard_cases()).findings_on("rail-left") { print(f); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn findings_on(results: Solved, subject: &str) -> Result<Array, Raised> {
        let run = &results.0;
        let all: Vec<_> = run.findings().iter().map(|finding| finding.subject.name(run.model())).collect();
        if all.iter().all(|name| name != subject) {
            let known = all.iter().map(|name| &**name);
            return Err(Fault::unknown("item with a finding", subject, known).into());
        }
        Ok(found(run, (0..all.len()).filter(|&place| all[place] == subject)))
    }

    /// What governs: of every item the finding nearest to its limit, over all checks and cases. The worst item first.
    ///
    /// * A tube, the wall at its end, the weld of its end, a bolt, a panel, a movement are items, each by itself.
    /// * What no limit was found for is left out; so are the checks that only say whether the numbers can be trusted.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.standard_cases());
    /// for g in r.governing().filter(|g| g.kind == "tube" && g.utilisation > 0.5) {
    ///     print(`${g.subject}: ${fixed(g.utilisation, 2)} by ${g.code} in ${g.load_case}`);
    /// }
    /// ```
    pub fn governing(results: Solved) -> Array {
        that_govern(&results.0).into_iter().map(Dynamic::from).collect()
    }

    /// The worst item of a kind, as the finding that governs it: `()` where nothing of the kind is held against a limit.
    ///
    /// * `kind` is `tube`, `joint`, `weld`, `bolt`, `panel`, `movement` or `frame`.
    ///
    /// ```rhai
    /// let frame = model();
    /// let w = frame.solve(frame.standard_cases()).worst("tube");
    /// if w != () { print(`${w.subject}: ${w.utilisation}`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn worst(results: Solved, kind: &str) -> Result<PerhapsFinding, Raised> {
        let kind = kind_named(kind)?;
        let worst = that_govern(&results.0).into_iter().find(|judgement| judgement.finding().kind() == kind);
        Ok(worst.map_or(Dynamic::UNIT, Dynamic::from))
    }

    /// The calculation behind a finding, written out: `title`, `clause`, `source`, `lines`, `utilisation`, `outside` and all
    /// of it as `text`. `()` for a finding that is not the result of a formula.
    ///
    /// * A line has `symbol`, `formula`, `substituted` (the formula with its numbers), `value`, `unit` and `note`.
    /// * `outside` holds the reasons why the clause does not cover the item; with any the finding is no pass.
    ///
    /// # Units
    /// Each line's `value` in its `unit`, a text.
    ///
    /// ```rhai
    /// let frame = model();
    /// let c = frame.solve(frame.standard_cases()).worst("tube").calculation();
    /// if c != () { print(c.text); }
    /// ```
    pub fn calculation(finding: Judgement) -> PerhapsMap {
        let calculation = written(finding.run.judged(), finding.finding());
        optional(calculation.map(|calculation| calculation_map(&calculation)))
    }

    /// The greatest utilisation over all findings: above 1 a limit is exceeded; 0 where nothing has a limit.
    ///
    /// # Units
    /// Value over limit.
    ///
    /// ```rhai
    /// let frame = model();
    /// print(frame.solve(frame.standard_cases()).utilisation());
    /// ```
    pub fn utilisation(results: Solved) -> f64 {
        results.0.worst_utilisation()
    }

    /// The greatest utilisation over the findings on a tube between its joints; 0 where nothing on it has a limit.
    ///
    /// * What happens at its ends, in welds and chord walls, is told by `findings_on("TUBE at JOINT")` and `governing`.
    ///
    /// # Units
    /// Value over limit.
    ///
    /// ```rhai
    /// let frame = model();
    /// print(frame.solve(frame.standard_cases()).tube_utilisation("rail-left"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn tube_utilisation(results: Solved, tube: &str) -> Result<f64, Raised> {
        let run = &results.0;
        let id = tube_named(run.model(), tube)?;
        Ok(run
            .findings()
            .iter()
            .filter(|finding| finding.subject == Subject::Tube(id))
            .filter_map(|finding| finding.utilisation)
            .fold(0.0, f64::max))
    }
}
