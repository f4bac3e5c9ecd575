//! Sizes between bounds, from several starts.

use strutwork_model::units::to_mm;

use super::descent::{Descent, Ended, STILL};
use super::frame::{Evaluated, Frame};
use super::outcome::{Chosen, Effort, Proof, SizedDesign, SizingOutcome};
use super::relaxed::{Relaxed, Scale};
use super::{SizingFault, Task};

/// A size within this factor of its least stands there; it is raised by the second to see whether it was right to go there.
const AT_LEAST: f64 = 1.01;
const KICK: f64 = 8.0;
/// No more than this many sizes are raised.
const KICKS: usize = 8;

/// Works on a task whose sizes lie between bounds.
pub(super) fn size(task: &Task<'_>) -> Result<SizingOutcome, SizingFault> {
    let frame = Frame::of(task)?;
    let relaxed = task.variables.iter().map(|variable| Relaxed::of(&variable.choice)).collect();
    let mut descent = Descent { frame: &frame, relaxed, effort: Effort::default() };
    let mut how = Vec::new();
    let mut ended: Option<Result<Ended, String>> = None;
    for (from, start) in descent.starts(task) {
        let found = descent.run(start)?;
        how.push(match &found {
            Ok(found) if found.evaluated.kept() => {
                format!("by moving asymptotes with exact derivatives from {from}: {:.6} kg", found.evaluated.mass)
            }
            Ok(_) => format!("by moving asymptotes with exact derivatives from {from}: the limits are not kept"),
            Err(why) => format!("from {from}: {why}"),
        });
        ended = Some(lighter(ended, found));
    }
    ended = kicked(&mut descent, ended, &mut how)?;
    let effort = descent.effort.counted(&frame);
    let Some(ended) = ended else { return Err(SizingFault::NoVariables) };
    Ok(match ended {
        Ok(ended) if ended.evaluated.kept() => {
            how.push("all sizes raised in proportion until every limit is kept on a whole solution".to_owned());
            let chosen = (task.variables.iter().zip(&descent.relaxed).zip(&ended.x))
                .map(|((variable, relaxed), x)| chosen(&variable.name, relaxed, *x))
                .collect();
            let best = design(&frame, &ended.evaluated, chosen, None);
            let proof = Proof::Local { last_change: ended.last_change };
            SizingOutcome { best: Some(best), runners_up: Vec::new(), proof, how, effort }
        }
        Ok(ended) => {
            let nearest = nearest(&frame, &ended.evaluated);
            SizingOutcome { best: None, runners_up: Vec::new(), proof: Proof::NothingKept { nearest }, how, effort }
        }
        Err(why) => {
            let proof = Proof::NothingKept { nearest: why };
            SizingOutcome { best: None, runners_up: Vec::new(), proof, how, effort }
        }
    })
}

/// Tries each size that ended at its least raised again: a limit that has two sides may have driven it there too early.
fn kicked(
    descent: &mut Descent<'_>,
    mut ended: Option<Result<Ended, String>>,
    how: &mut Vec<String>,
) -> Result<Option<Result<Ended, String>>, SizingFault> {
    let mut kicks = 0;
    for place in 0..descent.relaxed.len() {
        let Some(Ok(known)) = &ended else { break };
        let (x, bounds) = (known.x[place], &descent.relaxed[place]);
        if kicks == KICKS || x > AT_LEAST * bounds.least {
            continue;
        }
        kicks += 1;
        let mut start = known.x.clone();
        start[place] = (KICK * x).min(bounds.most);
        let before = known.evaluated.mass;
        let found = descent.run(start)?;
        if let Ok(found) = &found
            && found.evaluated.kept()
            && found.evaluated.mass < before * (1.0 - STILL)
        {
            let name = &descent.frame.variables[place].name;
            how.push(format!("with `{name}` raised from its least size once more: {:.6} kg", found.evaluated.mass));
        }
        ended = Some(lighter(ended, found));
    }
    Ok(ended)
}

/// The lighter of two that keep the limits; else the one that comes nearer.
fn lighter(known: Option<Result<Ended, String>>, found: Result<Ended, String>) -> Result<Ended, String> {
    match (known, found) {
        (Some(Ok(known)), Ok(found)) => {
            let rank = |ended: &Ended| {
                if ended.evaluated.kept() { (false, ended.evaluated.mass) } else { (true, ended.evaluated.worst()) }
            };
            Ok(if rank(&found) < rank(&known) { found } else { known })
        }
        (Some(Ok(known)), Err(_)) => Ok(known),
        (_, found) => found,
    }
}

fn chosen(variable: &str, relaxed: &Relaxed, x: f64) -> Chosen {
    let section = relaxed.section(x);
    let area_mm2 = section.area * 1e6;
    let (size, wall_mm) = match relaxed.scale {
        Scale::Wall(_) => (format!("wall {} mm", rounded(to_mm(x))), Some(to_mm(x))),
        Scale::Area(_) | Scale::Chain(_) => (format!("area {} mm²", rounded(area_mm2)), None),
    };
    Chosen { variable: variable.to_owned(), size, area_mm2, wall_mm }
}

/// To five digits, for reading.
fn rounded(value: f64) -> f64 {
    let scale = 10.0_f64.powf(4.0 - value.abs().max(f64::MIN_POSITIVE).log10().floor());
    (value * scale).round() / scale
}

/// A design with its limits, nearest first.
pub(super) fn design(frame: &Frame<'_>, evaluated: &Evaluated, chosen: Vec<Chosen>, price: Option<f64>) -> SizedDesign {
    let mut uses: Vec<_> = evaluated.uses.iter().collect();
    uses.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
    SizedDesign {
        chosen,
        mass_kg: evaluated.mass,
        price,
        limits: uses.into_iter().map(|one| frame.told(evaluated, one)).collect(),
        outside_scope: evaluated.outside,
    }
}

/// What stands most in the way, in words.
pub(super) fn nearest(frame: &Frame<'_>, evaluated: &Evaluated) -> String {
    let worst = evaluated.uses.iter().max_by(|a, b| a.ratio.total_cmp(&b.ratio));
    worst.map_or_else(String::new, |one| {
        let told = frame.told(evaluated, one);
        let case = if told.case.is_empty() { String::new() } else { format!(", case {}", told.case) };
        format!(
            "{}{case}: {:.6} {} against a limit of {:.6} {}",
            told.what, told.value, told.unit, told.limit, told.unit
        )
    })
}
