//! Limits on movement: one thing to measure, joints that there are, a size that can be.

use super::fatigue::positive;
use super::{Log, Lookup, names, text, words_help};
use crate::codes;
use crate::ids::JointId;
use crate::model::{Along, Moved, MovementLimit};
use crate::spec::{LimitEntry, ModelSpec};
use crate::units::MM;

/// Limits that a frame may have, mm.
const USUAL_MM: std::ops::RangeInclusive<f64> = 0.05..=500.0;

/// The limits, `None` where faulty.
pub(super) fn check(spec: &ModelSpec, look: &Lookup<'_>, log: &mut Log) -> Vec<Option<MovementLimit>> {
    names::Names::of("limit", spec.limits.iter().map(|entry| &entry.name), log);
    spec.limits.iter().map(|entry| one(entry, look, log)).collect()
}

fn one(entry: &LimitEntry, look: &Lookup<'_>, log: &mut Log) -> Option<MovementLimit> {
    let name = &entry.name;
    let moved = moved(entry, look, log);
    let most = match &entry.most_mm {
        Some(most) => positive(most, "most_mm", codes::LIMIT_SIZE, name, log),
        None => {
            let message = format!("the limit `{}` has no `most_mm`", name.value);
            log.error(codes::MISSING_KEY, name.spot, name, message, "write how far it may move: `most_mm = …`");
            f64::NAN
        }
    };
    if most > 0.0 && most.is_finite() && !USUAL_MM.contains(&most) {
        let spot = entry.most_mm.as_ref().and_then(|most| most.spot);
        let message = format!("the limit `{}` lets {most} mm pass", name.value);
        log.warning(codes::ODD_LIMIT, spot, name, message, "limits are mostly 0.05 to 500 mm; write mm");
    }
    for case in &entry.cases {
        if case.trim().is_empty() {
            let message = format!("the limit `{}` names a case without a name", name.value);
            log.error(codes::EMPTY_NAME, case.spot, name, message, "write the name of a load case, or take it out");
        }
    }
    Some(MovementLimit {
        name: name.value.clone(),
        moved: moved?,
        most: (most > 0.0).then_some(most * MM)?,
        cases: entry.cases.iter().map(|case| case.trim().to_owned()).collect(),
        source: text(entry.source.as_ref()),
        note: text(entry.note.as_ref()),
    })
}

/// What is measured: a joint, a joint against another, or a distance; `None` and a fault otherwise.
fn moved(entry: &LimitEntry, look: &Lookup<'_>, log: &mut Log) -> Option<Moved> {
    let name = &entry.name;
    let who = format!("limit `{}`", name.value);
    if let Some(first) = entry.between.first() {
        let alone = [("joint", &entry.joint), ("relative_to", &entry.relative_to), ("direction", &entry.direction)];
        let mut good = true;
        for (key, given) in alone.into_iter().filter_map(|(key, given)| Some((key, given.as_ref()?))) {
            let message = format!("{who} has `between`, which has no `{key}`");
            let help = "a limit is on a joint or on the distance between two: take one of them out";
            log.error(codes::LIMIT_KIND, given.spot, name, message, help);
            good = false;
        }
        let [a, b] = entry.between.as_slice() else {
            let message = format!("{who}: `between` names {} joints", entry.between.len());
            log.error(codes::LIMIT_KIND, first.spot, name, message, "write two: `between = [\"A\", \"B\"]`");
            return None;
        };
        let (a, b) = (look.joint(a, &who, log), look.joint(b, &who, log));
        let pair = two(a?, b?, entry, &entry.between[1].value, log)?;
        return good.then_some(Moved::Distance(pair));
    }
    let Some(joint) = &entry.joint else {
        let message = format!("{who} says neither `joint` nor `between`");
        let help = "write `joint = \"NAME\"`, or `between = [\"NAME\", \"NAME\"]`";
        log.error(codes::LIMIT_KIND, name.spot, name, message, help);
        return None;
    };
    let along = entry.direction.as_ref().map_or(Some(Along::Total), |word| {
        let found = Along::ALL.into_iter().find(|along| along.word() == word.trim());
        if found.is_none() {
            let message = format!("{who}: `{}` is not a direction of movement", word.value);
            let help = words_help(word, &Along::ALL.map(Along::word));
            log.error(codes::UNKNOWN_WORD, word.spot, name, message, help);
        }
        found
    });
    let joint = look.joint(joint, &who, log);
    let from = match &entry.relative_to {
        None => None,
        Some(other) => {
            let other = (look.joint(other, &who, log)?, &other.value);
            two(joint?, other.0, entry, other.1, log)?;
            Some(other.0)
        }
    };
    Some(Moved::Joint { joint: joint?, from, along: along? })
}

/// Two joints that differ.
fn two(a: JointId, b: JointId, entry: &LimitEntry, named: &str, log: &mut Log) -> Option<[JointId; 2]> {
    if a == b {
        let spot = entry.between.get(1).or(entry.relative_to.as_ref()).and_then(|joint| joint.spot);
        let message = format!("limit `{}` names the joint `{named}` twice", entry.name.value);
        log.error(codes::JOINT_LISTED_TWICE, spot, &entry.name, message, "name two joints");
        return None;
    }
    Some([a, b])
}
