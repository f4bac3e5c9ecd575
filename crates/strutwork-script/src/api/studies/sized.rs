//! What a sizing search found, as maps.

use rhai::{Array, Dynamic, Map};
use strutwork_study::sizing::{Chosen, LimitUse, Proof, SizedDesign, SizingOutcome};

use crate::number::{count, map_of, optional};

/// How many limits are told of a design: what a script can hold is limited, and a frame has thousands.
const LIMITS: usize = 5;

/// The outcome.
pub(super) fn outcome(found: &SizingOutcome) -> Map {
    let (proof, words) = proof(&found.proof);
    let runners: Array = found.runners_up.iter().map(|runner| design(runner).into()).collect();
    let how: Array = found.how.iter().map(|step| Dynamic::from(step.clone())).collect();
    map_of([
        ("best", optional(found.best.as_ref().map(design))),
        ("runners_up", runners.into()),
        ("proof", proof.into()),
        ("proof_in_words", words.into()),
        ("how", how.into()),
        ("solutions", count(found.effort.solutions)),
    ])
}

fn design(of: &SizedDesign) -> Map {
    let limits =
        |some: &mut dyn Iterator<Item = &LimitUse>| some.take(LIMITS).map(|one| limit(one).into()).collect::<Array>();
    let chosen: Array = of.chosen.iter().map(|one| choice(one).into()).collect();
    map_of([
        ("mass_kg", of.mass_kg.into()),
        ("price", optional(of.price)),
        ("chosen", chosen.into()),
        ("limits", limits(&mut of.limits.iter()).into()),
        ("active", limits(&mut of.active()).into()),
        ("outside_scope", count(of.outside_scope)),
    ])
}

fn choice(of: &Chosen) -> Map {
    map_of([
        ("group", of.variable.clone().into()),
        ("size", of.size.clone().into()),
        ("area_mm2", of.area_mm2.into()),
        ("wall_mm", optional(of.wall_mm)),
    ])
}

fn limit(of: &LimitUse) -> Map {
    map_of([
        ("what", of.what.clone().into()),
        ("load_case", of.case.clone().into()),
        ("value", of.value.into()),
        ("limit", of.limit.into()),
        ("unit", of.unit.into()),
        ("utilisation", of.utilisation.into()),
    ])
}

/// How sure it is: a word, and a sentence.
fn proof(of: &Proof) -> (&'static str, String) {
    match of {
        Proof::Proven { cheaper } => {
            ("proven", format!("proven: each of the {cheaper} cheaper choices was tried and breaks a limit"))
        }
        Proof::Local { last_change } => (
            "local",
            format!(
                "a minimum among its neighbours (the last step changed sizes by {last_change:.1e}); another may be lower"
            ),
        ),
        Proof::BestFound { relaxed: Some(least) } => (
            "best found",
            format!(
                "the best that was found; cheaper choices were left untried. Between the sizes of the lists {least:.4} was \
                 reached: a measure of the gap, not a bound"
            ),
        ),
        Proof::BestFound { relaxed: None } => {
            ("best found", "the best that was found; cheaper choices were left untried".to_owned())
        }
        Proof::NothingKept { nearest } => {
            ("nothing kept", format!("no choice that was tried keeps to the limits: {nearest}"))
        }
    }
}
