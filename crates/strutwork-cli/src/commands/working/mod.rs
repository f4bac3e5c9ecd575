//! `strutwork working`: the calculation that governs an item, written out; without an item, what governs each.

mod told;

use strutwork_checks::{Finding, Judged, check_all, governing, items, written};
use strutwork_model::nearest::nearest;
use strutwork_model::{Model, Severity, Warned};
use strutwork_solve::bays::find_bays;

use super::summary;
use crate::args::WorkingArgs;
use crate::asked;
use crate::cases::{self, Built};
use crate::exit::{Failure, Outcome};
use crate::pages;
use crate::pipeline;
use crate::render;
use crate::solved::{self, Solved};
use crate::terminal::Terminal;

/// Names that are offered in place of one that no finding is about.
const OFFERED: usize = 8;

/// Solves a model and shows what was asked for. Writes nothing.
///
/// # Errors
/// [`Failure::Input`] with every fault of the model or its case scripts, [`Failure::Request`] for an item, check or case
/// that nothing was found for, [`Failure::Structure`] when the frame cannot be solved, [`Failure::File`] when a file
/// cannot be read.
pub(crate) fn run(args: &WorkingArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    match solve_and_show(args, terminal) {
        Err(failure) if args.json => Err(summary::failed(failure, terminal)?),
        other => other,
    }
}

fn solve_and_show(args: &WorkingArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut read = pipeline::read(&args.solve.of.folder)?;
    let Warned { value: model, mut warnings } = read.model()?;
    let Built { cases, warnings: of_cases, .. } = cases::build(&args.solve.of, false, &model, &mut read, terminal)?;
    warnings.extend(of_cases);
    let Solved { cases, results, .. } = solved::solve(&args.solve, &model, cases, &mut warnings, &read)?;
    let bays = find_bays(&model);
    let factors = args.buckling.unwrap_or(0);
    let lengths = asked::lengths(factors, &model, &cases, &results, &warnings, &read)?;
    let judged = Judged { model: &model, cases: &cases, results: &results, bays: &bays, lengths: lengths.as_ref() };
    let all = check_all(judged);
    let found = Found { judged, all: &all };
    let (text, exceeded) = match &args.item {
        Some(item) => one(&found, item, args)?,
        None => list(&found, args)?,
    };
    if !args.json && !warnings.is_empty() {
        let said = render::tally(&warnings);
        terminal.note(&format!("{said} about the model, which `strutwork run` tells in full\n\n"));
    }
    terminal.result(&text)?;
    Ok(if exceeded { Outcome::Exceeded } else { Outcome::Passed })
}

/// What was found, and what it was found from.
struct Found<'a> {
    judged: Judged<'a>,
    all: &'a [Finding],
}

impl<'a> Found<'a> {
    fn model(&self) -> &'a Model {
        self.judged.model
    }

    /// The findings on an item by its name, or why there is none.
    fn on(&self, item: &str) -> Result<Vec<&'a Finding>, Failure> {
        let on: Vec<&Finding> = self.all.iter().filter(|one| one.subject.name(self.model()) == item).collect();
        if on.is_empty() { Err(self.no_such_item(item)) } else { Ok(on) }
    }

    /// The names that findings are about, each once, in order.
    fn items(&self) -> Vec<String> {
        let mut names: Vec<String> = self.all.iter().map(|one| one.subject.name(self.model()).into_owned()).collect();
        names.sort();
        names.dedup();
        names
    }

    fn no_such_item(&self, item: &str) -> Failure {
        let items = self.items();
        let part = item.to_lowercase();
        let near = nearest(item, items.iter().map(String::as_str));
        let within = items.iter().map(String::as_str).filter(|name| name.to_lowercase().contains(&part));
        let mut offered: Vec<&str> = near.into_iter().chain(within.filter(|&name| Some(name) != near)).collect();
        let more = offered.len().saturating_sub(OFFERED);
        offered.truncate(OFFERED);
        let help = if offered.is_empty() {
            "`strutwork working FOLDER` lists what is held against a limit".to_owned()
        } else {
            let list: Vec<String> = offered.iter().map(|name| format!("`{name}`")).collect();
            let more = if more == 0 { String::new() } else { format!(" and {more} more") };
            format!("near it: {}{more}", list.join(", "))
        };
        Failure::Request { what: format!("nothing was found about `{item}`"), help }
    }

    /// Those of some findings that the filters let through, or why there is none.
    fn asked<'f>(&self, among: Vec<&'f Finding>, args: &WorkingArgs) -> Result<Vec<&'f Finding>, Failure> {
        if let Some(check) = &args.check
            && pages::find(check).is_none()
        {
            let help = format!("near it: {}; `strutwork explain` lists all", pages::near(check).join(", "));
            return Err(Failure::Request { what: format!("there is no check `{check}`"), help });
        }
        if let Some(case) = &args.load_case
            && self.judged.cases.0.iter().all(|known| known.name != *case)
        {
            let names: Vec<&str> = self.judged.cases.0.iter().map(|case| case.name.as_str()).collect();
            let help = nearest(case, names.iter().copied())
                .map_or_else(|| format!("there are: {}", names.join(", ")), |name| format!("did you mean `{name}`?"));
            return Err(Failure::Request { what: format!("there is no load case `{case}`"), help });
        }
        let through = |one: &Finding| {
            args.check.as_ref().is_none_or(|check| one.code.0.eq_ignore_ascii_case(check))
                && args.load_case.as_ref().is_none_or(|case| one.case == *case)
        };
        let (kept, rest): (Vec<_>, Vec<_>) = among.into_iter().partition(|one| through(one));
        let switched_off = self.judged.model.switched_off();
        let asked = |code: &str| args.check.as_ref().is_some_and(|check| code.eq_ignore_ascii_case(check));
        if let Some(off) = switched_off.iter().find(|off| kept.is_empty() && asked(&off.check)) {
            let what = format!("the check {} is switched off in this model: {}", off.check, off.reason);
            let help = format!("take `[checks.{}]` out of model.toml to have it made", off.check);
            return Err(Failure::Request { what, help });
        }
        if kept.is_empty() {
            let mut pairs: Vec<&str> = rest.iter().map(|one| one.code.0).collect();
            pairs.sort_unstable();
            pairs.dedup();
            let what = "no finding is of that item, check and load case together".to_owned();
            let help = format!("it was judged by {}; see `strutwork explain`", pairs.join(", "));
            return Err(Failure::Request { what, help });
        }
        Ok(kept)
    }
}

/// One item: what governs it, with its calculation.
fn one(found: &Found<'_>, item: &str, args: &WorkingArgs) -> Result<(String, bool), Failure> {
    let on = found.on(item)?;
    let asked = found.asked(on.clone(), args)?;
    let chosen = worst(&asked);
    let calculation = written(found.judged, chosen);
    let told = told::Shown { model: found.model(), finding: chosen, calculation, others: others(found, &on, chosen) };
    let text = if args.json { told.json() } else { told.text() };
    Ok((text, chosen.severity == Severity::Error))
}

/// All items: what governs each.
fn list(found: &Found<'_>, args: &WorkingArgs) -> Result<(String, bool), Failure> {
    let asked = found.asked(found.all.iter().collect(), args)?;
    let asked: Vec<Finding> = asked.into_iter().cloned().collect();
    let items = items(&asked);
    let exceeded = items.iter().any(|item| item.exceeded);
    let text = if args.json { told::list_json(found.model(), &items) } else { told::list(found.model(), &items) };
    Ok((text, exceeded))
}

/// The one nearest to its limit; the first made of equals, and of those that have no limit.
fn worst<'f>(some: &[&'f Finding]) -> &'f Finding {
    let mut worst = some[0];
    for one in &some[1..] {
        if one.utilisation.is_some_and(|used| worst.utilisation.is_none_or(|known| used > known)) {
            worst = one;
        }
    }
    worst
}

/// The other checks of an item, each by its worst case, and what governs the ends of a tube.
fn others<'f>(found: &Found<'f>, on: &[&'f Finding], chosen: &Finding) -> Vec<&'f Finding> {
    let mut codes: Vec<(&str, &str)> = on.iter().map(|one| (one.kind().word(), one.code.0)).collect();
    codes.sort_unstable();
    codes.dedup();
    codes.retain(|&code| code != (chosen.kind().word(), chosen.code.0));
    let of = |code| on.iter().copied().filter(|one| (one.kind().word(), one.code.0) == code).collect::<Vec<_>>();
    let mut others: Vec<&Finding> = codes.into_iter().map(|code| worst(&of(code))).collect();
    let ends = format!("{} at ", chosen.subject.name(found.model()));
    others.extend(
        governing(found.all).into_iter().filter(|one| one.subject.name(found.model()).starts_with(ends.as_str())),
    );
    others
}
