//! Fatigue: pairs of cases, detail categories. The names of the cases are looked up when the cases have been derived.

use super::{Log, names, text, words_help};
use crate::codes;
use crate::model::{CATEGORIES, Detail, Fatigue, FatigueCurve, FatiguePair};
use crate::nearest::nearest;
use crate::spec::{DetailEntry, ModelSpec, PairEntry, Written};
use crate::units::MPA;

/// Rectangular hollow sections, fillet-welded end to end through an intermediate plate: EN 1993-1-9 Table 8.6 (from memory).
/// It is the lowest of all categories.
const LOWEST_MPA: f64 = 36.0;
/// The word for the unloaded frame.
const UNLOADED: &str = "none";
/// Cycles past which the curve of EN 1993-1-9 says nothing more, and a number that no frame meets.
const MOST_CYCLES: f64 = 1e10;

/// The pairs and the details.
pub(super) fn check(spec: &ModelSpec, log: &mut Log) -> Fatigue {
    let entry = &spec.fatigue;
    let all = Detail { category: LOWEST_MPA * MPA, curve: FatigueCurve::Member, named: false };
    let detail = one(&entry.detail, all, "fatigue", log);
    names::Names::of("fatigue pair", entry.pairs.iter().map(|pair| &pair.name), log);
    let groups: Vec<(String, Detail)> = entry
        .groups
        .iter()
        .map(|group| {
            group_exists(spec, &group.group, log);
            (group.group.value.clone(), one(group, detail, &group.group, log))
        })
        .collect();
    let pairs: Vec<FatiguePair> = entry.pairs.iter().map(|pair| self::pair(pair, log)).collect();
    if pairs.is_empty() && *entry != Default::default() {
        let message = "[fatigue] has no pair of cases: nothing is screened for fatigue";
        let help = "add `[fatigue.pairs.NAME]` with `from`, `to` and `cycles`, or take [fatigue] out";
        log.note(codes::UNUSED, entry.name.spot, "fatigue", message, help);
    }
    Fatigue { pairs, detail, groups, moment_factor: moment_factor(entry.moment_factor.as_ref(), log) }
}

fn one(entry: &DetailEntry, default: Detail, subject: &str, log: &mut Log) -> Detail {
    let category = entry.category_mpa.as_ref().map_or(default.category, |given| {
        let value = log.finite(given, subject, "`category_mpa`");
        if value.is_finite() && !CATEGORIES.contains(&value) {
            let message = format!("{value} is not a detail category of EN 1993-1-9");
            let list: Vec<String> = CATEGORIES.iter().rev().map(f64::to_string).collect();
            log.error(codes::FATIGUE_CATEGORY, given.spot, subject, message, format!("one of: {}", list.join(", ")));
        }
        value * MPA
    });
    let curve = entry.curve.as_ref().map_or(default.curve, |word| match word.as_str() {
        "member" => FatigueCurve::Member,
        "node-joint" => FatigueCurve::NodeJoint,
        other => {
            let message = format!("`{other}` is not a curve of fatigue strength");
            let help = words_help(other, &["member", "node-joint"]);
            log.error(codes::UNKNOWN_WORD, word.spot, subject, message, help);
            default.curve
        }
    });
    Detail { category, curve, named: default.named || entry.category_mpa.is_some() }
}

fn group_exists(spec: &ModelSpec, group: &Written<String>, log: &mut Log) {
    if spec.tubes.iter().any(|row| row.group.value == group.value) {
        return;
    }
    let message = format!("[fatigue.groups]: no tube has the group `{}`", group.value);
    let groups = spec.tubes.iter().map(|row| row.group.as_str()).filter(|name| !name.is_empty());
    let help = nearest(group, groups).map_or_else(
        || "write the text that stands under `group` in tubes.csv".to_owned(),
        |found| format!("did you mean `{found}`?"),
    );
    log.error(codes::FATIGUE_GROUP, group.spot, group, message, help);
}

fn moment_factor(given: Option<&Written<f64>>, log: &mut Log) -> f64 {
    given.map_or(1.0, |given| {
        let value = log.finite(given, "fatigue", "`moment_factor`");
        if value < 1.0 {
            let message =
                format!("`moment_factor` is {value}: below 1 it would make stress ranges smaller than they are");
            log.error(codes::MOMENT_FACTOR, given.spot, "moment_factor", message, "write 1 or more");
        }
        value
    })
}

fn pair(entry: &PairEntry, log: &mut Log) -> FatiguePair {
    let name = &entry.name;
    let from = case(entry.from.as_ref(), "from", name, log);
    let to = case(entry.to.as_ref(), "to", name, log);
    if !from.is_empty() && from == to {
        let spot = entry.to.as_ref().and_then(|to| to.spot);
        let message = format!("the fatigue pair `{}` goes from `{from}` to `{from}`: nothing changes", name.value);
        let help = "name two cases, or write `to = \"none\"` for the unloaded frame";
        log.error(codes::FATIGUE_PAIR, spot, name, message, help);
    } else if from == UNLOADED {
        let spot = entry.from.as_ref().and_then(|from| from.spot);
        let message = format!("the fatigue pair `{}`: `none`, the unloaded frame, stands under `to`", name.value);
        log.error(codes::FATIGUE_PAIR, spot, name, message, "swap `from` and `to`: the range is the same");
    }
    let cycles = match &entry.cycles {
        Some(cycles) => positive(cycles, "cycles", codes::FATIGUE_CYCLES, name, log),
        None => {
            missing(name, "cycles", log);
            f64::NAN
        }
    };
    if cycles > MOST_CYCLES {
        let spot = entry.cycles.as_ref().and_then(|cycles| cycles.spot);
        let message = format!("the fatigue pair `{}` has {cycles:e} cycles", name.value);
        log.warning(codes::ODD_CYCLES, spot, name, message, "write how often in the life of the frame");
    }
    let share = entry.share.as_ref().map_or(1.0, |share| positive(share, "share", codes::FATIGUE_CYCLES, name, log));
    FatiguePair {
        name: name.value.clone(),
        from,
        to: (to != UNLOADED).then_some(to),
        cycles,
        share,
        source: text(entry.source.as_ref()),
        note: text(entry.note.as_ref()),
    }
}

/// The name of a case; empty and a fault where there is none.
fn case(given: Option<&Written<String>>, key: &str, pair: &Written<String>, log: &mut Log) -> String {
    match given {
        None => missing(pair, key, log),
        Some(case) if case.trim().is_empty() => {
            let message = format!("the fatigue pair `{}`: `{key}` names no case", pair.value);
            log.error(codes::FATIGUE_PAIR, case.spot, pair, message, "write the name of a load case");
        }
        Some(_) => {}
    }
    text(given)
}

fn missing(pair: &Written<String>, key: &str, log: &mut Log) {
    let message = format!("the fatigue pair `{}` has no `{key}`", pair.value);
    let help = "a pair needs `from = \"CASE\"`, `to = \"CASE\"` (or \"none\": unloaded) and `cycles = …`";
    log.error(codes::MISSING_KEY, pair.spot, pair, message, help);
}

/// A number greater than 0; a fault otherwise.
pub(super) fn positive(
    given: &Written<f64>,
    key: &str,
    code: crate::Code,
    name: &Written<String>,
    log: &mut Log,
) -> f64 {
    let value = log.finite(given, name, &format!("`{key}`"));
    if value <= 0.0 {
        let message = format!("`{}`: `{key}` is {value}", name.value);
        log.error(code, given.spot, name, message, "write a number greater than 0");
    }
    value
}
