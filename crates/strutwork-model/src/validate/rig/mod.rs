//! The twist rig: every station with one place and one spacing, every step with one couple, every reading once.

mod gather;

use super::names::Names;
use super::{Log, Lookup, text, words_help};
use crate::codes;
use crate::ids::{Id, JointId};
use crate::model::{RigSheet, RigStation, RigWords};
use crate::spec::{ModelSpec, RigEntry, Written};
use crate::units::MM;
use gather::{Gather, whole};

/// Defaults of `[rig]`: mm, mm, share, mm. The user's own choice where it matters; each is said in the reference.
const RESOLUTION_MM: f64 = 0.01;
const REPEATABILITY_MM: f64 = 0.01;
const COUPLE_PERCENT: f64 = 1.0;
const SPACING_MM: f64 = 1.0;

/// The sheet; `None` where there is none, `Err` where it is faulty.
pub(super) fn check(spec: &ModelSpec, look: &Lookup<'_>, log: &mut Log) -> Result<Option<RigSheet>, ()> {
    let before = log.errors();
    let entry = &spec.rig;
    if spec.rig_rows.is_empty() {
        if let Some(spot) = entry.rig.spot {
            let help = "type the readings into rig.csv, or take the table [rig] out";
            log.warning(codes::RIG_WITHOUT_READINGS, Some(spot), "rig", "there is a table [rig] and no readings", help);
        }
        return Ok(None);
    }
    let up = sign(entry.dials.as_ref(), "dials", ["up", "down"], log);
    let hang = sign(entry.weights_hang.as_ref(), "weights_hang", ["right", "left"], log);
    let names = Names::grouped("station", spec.rig_rows.iter().map(|row| &row.station), log);
    let mut gather = Gather::default();
    for row in &spec.rig_rows {
        gather.row(row, &names, up, log);
    }
    let mut stations = gather.stations(log);
    let steps = gather.steps(hang, log);
    joints(entry, look, &names, &mut stations, log);
    let between = between(entry, &names, log);
    let mut size = |given: &Option<Written<f64>>, key: &str, default: f64| size(given.as_ref(), key, default, log);
    let sheet = RigSheet {
        dials_down: up < 0.0,
        resolution: size(&entry.resolution_mm, "resolution_mm", RESOLUTION_MM) * MM,
        repeatability: size(&entry.repeatability_mm, "repeatability_mm", REPEATABILITY_MM) * MM,
        couple_tolerance: size(&entry.couple_tolerance_percent, "couple_tolerance_percent", COUPLE_PERCENT) / 100.0,
        spacing_tolerance: size(&entry.spacing_tolerance_mm, "spacing_tolerance_mm", SPACING_MM) * MM,
        settling_cycles: entry
            .settling_cycles
            .as_ref()
            .and_then(|given| whole(given, "settling_cycles", "[rig]", log))
            .map(|number| number as usize),
        stations,
        steps,
        readings: gather.readings,
        between,
        panels_fitted: entry.panels_fitted,
        words: RigWords {
            held: text(entry.held.as_ref()),
            loaded: text(entry.loaded.as_ref()),
            fitted: text(entry.fitted.as_ref()),
        },
    };
    if log.errors() > before { Err(()) } else { Ok(Some(sheet)) }
}

/// 1 for the first word and where none is given, −1 for the second; a fault for any other.
fn sign(given: Option<&Written<String>>, key: &str, words: [&'static str; 2], log: &mut Log) -> f64 {
    match given.map(|given| (given, given.trim())) {
        None => 1.0,
        Some((_, word)) if word == words[0] => 1.0,
        Some((_, word)) if word == words[1] => -1.0,
        Some((given, word)) => {
            let message = format!("[rig]: `{key}` is `{word}`");
            log.error(codes::UNKNOWN_WORD, given.spot, key, message, words_help(word, &words));
            1.0
        }
    }
}

/// A size of 0 or more; a fault otherwise.
fn size(given: Option<&Written<f64>>, key: &str, default: f64, log: &mut Log) -> f64 {
    let Some(given) = given else { return default };
    let value = log.finite(given, "rig", &format!("`{key}`"));
    if value < 0.0 {
        let message = format!("[rig]: `{key}` is {value}");
        log.error(codes::RIG_SIZE, given.spot, key, message, "write 0 or more");
    }
    value
}

/// The joints of the stations that `[rig.stations.NAME]` names.
fn joints(entry: &RigEntry, look: &Lookup<'_>, names: &Names<'_>, stations: &mut [RigStation], log: &mut Log) {
    for named in &entry.stations {
        let who = format!("[rig.stations.{}]", named.station.value);
        let Some(place) = station(names, &named.station, &who, log) else { continue };
        let [left, right] = named.joints.as_slice() else {
            let message = format!("{who}: `joints` names {} where it needs two", named.joints.len());
            let help = "write two, the left one first: `joints = [\"LEFT\", \"RIGHT\"]`";
            log.error(codes::RIG_JOINTS, named.station.spot, &named.station, message, help);
            continue;
        };
        let pair: [Option<JointId>; 2] = [left, right].map(|joint| look.joint(joint, &who, log));
        if let [Some(left), Some(right)] = pair {
            if left.index() == right.index() {
                let message = format!("{who} names one joint twice");
                log.error(
                    codes::RIG_JOINTS,
                    named.station.spot,
                    &named.station,
                    message,
                    "name its left and its right joint",
                );
            }
            stations[place].joints = Some([left, right]);
        }
    }
}

fn between(entry: &RigEntry, names: &Names<'_>, log: &mut Log) -> Option<[usize; 2]> {
    let [first, second] = entry.between.as_slice() else {
        if let Some(first) = entry.between.first() {
            let message = format!("[rig]: `between` names {} stations", entry.between.len());
            log.error(
                codes::RIG_JOINTS,
                first.spot,
                "between",
                message,
                "write two: `between = [\"front\", \"rear\"]`",
            );
        }
        return None;
    };
    let [one, other] = [first, second].map(|given| station(names, given, "[rig] between", log));
    let pair = [one?, other?];
    if pair[0] == pair[1] {
        let message = format!("[rig]: `between` names station `{}` twice", first.value);
        log.error(codes::RIG_JOINTS, second.spot, &second.value, message, "name two stations");
        return None;
    }
    Some(pair)
}

fn station(names: &Names<'_>, given: &Written<String>, who: &str, log: &mut Log) -> Option<usize> {
    names.find(given, codes::RIG_UNKNOWN_STATION, "rig.csv", who, log)
}
