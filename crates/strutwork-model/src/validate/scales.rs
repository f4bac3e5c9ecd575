//! What the scales say: masses greater than 0, parts that the model has, a raised axle with all that it takes.

use super::{Log, Lookup, words_help};
use crate::codes;
use crate::ids::{Id, PanelId, TubeId};
use crate::model::{Raised, Weighable, Weighed, WeighedPart, Wheel};
use crate::nearest::did_you_mean;
use crate::spec::{ModelSpec, WeighedRow, Written};
use crate::units::MM;

/// How far scales may be out where nothing is said, kg: own choice, said in the reference.
const TOLERANCE_KG: f64 = 0.5;

/// What the scales say; `None` where it is faulty.
pub(super) fn weighed(spec: &ModelSpec, look: &Lookup<'_>, log: &mut Log) -> Option<Weighed> {
    let entry = &spec.weighed;
    let corners = Wheel::ALL.map(|wheel| given(wheel.name(), entry.corners_kg[wheel as usize].as_ref(), log));
    let tolerance = tolerance(entry.tolerance_kg.as_ref(), "weighed", "[weighed]", log).unwrap_or(TOLERANCE_KG);
    let parts: Vec<Option<WeighedPart>> =
        spec.weighed_parts.iter().map(|row| part(row, spec, look, tolerance, log)).collect();
    Some(Weighed {
        frame: given("frame_kg", entry.frame_kg.as_ref(), log),
        vehicle: given("vehicle_kg", entry.vehicle_kg.as_ref(), log),
        corners,
        tolerance,
        raised: raised(spec, &corners, log),
        parts: parts.into_iter().collect::<Option<_>>()?,
    })
}

/// A mass greater than 0; a fault otherwise.
fn given(key: &str, value: Option<&Written<f64>>, log: &mut Log) -> Option<f64> {
    let value = value?;
    let number = log.finite(value, "weighed", &format!("`{key}`"));
    if number <= 0.0 {
        let message = format!("the scales say {number} kg for `{key}`");
        let help = "write what was weighed, greater than 0, or leave the key out";
        log.error(codes::WEIGHED_NOT_POSITIVE, value.spot, key, message, help);
    }
    Some(number)
}

/// How far scales may be out, greater than 0; a fault of `subject`, which `who` calls for readers, otherwise.
fn tolerance(value: Option<&Written<f64>>, subject: &str, who: &str, log: &mut Log) -> Option<f64> {
    let value = value?;
    let number = log.finite(value, subject, "`tolerance_kg`");
    if number <= 0.0 {
        let message = format!("{who}: `tolerance_kg` is {number}");
        let help = "write by how many kg the scales may be out, greater than 0: half of their last digit at least; or leave it out";
        log.error(codes::WEIGHED_NOT_POSITIVE, value.spot, subject, message, help);
    }
    Some(number)
}

/// The weighing with one axle raised; `None` where there was none, or not all of it is said.
fn raised(spec: &ModelSpec, corners: &[Option<f64>; 4], log: &mut Log) -> Option<Raised> {
    let entry = &spec.weighed;
    let (axle, by, lower) = (entry.raised_axle.as_ref(), entry.raised_mm.as_ref(), entry.lower_axle_kg.as_ref());
    let first = axle.and_then(|axle| axle.spot).or(by.and_then(|by| by.spot)).or(lower.and_then(|lower| lower.spot));
    if axle.is_none() && by.is_none() && lower.is_none() {
        return None;
    }
    let mut missing: Vec<&str> =
        [("raised_axle", axle.is_some()), ("raised_mm", by.is_some()), ("lower_axle_kg", lower.is_some())]
            .into_iter()
            .filter(|(_, there)| !there)
            .map(|(key, _)| key)
            .collect();
    if corners.iter().any(Option::is_none) {
        missing.push("all four of [weighed.corners_kg]");
    }
    if spec.vehicle.is_none() {
        missing.push("[vehicle]");
    }
    if !missing.is_empty() {
        let message = format!("the weighing with a raised axle lacks {}", missing.join(", "));
        let help = "the height of the centre of gravity needs them all: write them, or take the weighing out";
        log.error(codes::RAISED, first, "weighed", message, help);
        return None;
    }
    let (axle, by, lower) = (axle?, by?, lower?);
    let which = ["front", "rear"].iter().position(|name| *name == axle.trim());
    if which.is_none() {
        let message = format!("[weighed]: `raised_axle` is `{}`", axle.value);
        log.error(codes::UNKNOWN_WORD, axle.spot, "raised_axle", message, words_help(axle, &["front", "rear"]));
    }
    if by.value <= 0.0 {
        let message = format!("[weighed]: `raised_mm` is {}", by.value);
        log.error(codes::RAISED, by.spot, "raised_mm", message, "write how far the wheels were raised, greater than 0");
    }
    let lower = given("lower_axle_kg", Some(lower), log)?;
    Some(Raised { axle: which?, by: by.value * MM, lower })
}

/// A part on the scales; `None` and a fault where the model does not have it.
fn part(row: &WeighedRow, spec: &ModelSpec, look: &Lookup<'_>, usual: f64, log: &mut Log) -> Option<WeighedPart> {
    let name = row.part.trim();
    let what = find(name, spec, look);
    if what.is_none() {
        let kinds = spec.masses.iter().map(|mass| mass.mass.value.clone());
        let called = |word: &'static str, names: Vec<&str>| -> Vec<String> {
            names.into_iter().filter(|name| !name.is_empty()).map(|name| format!("{word}: {name}")).collect()
        };
        let mut groups: Vec<&str> = spec.tubes.iter().map(|tube| tube.group.value.as_str()).collect();
        groups.sort_unstable();
        groups.dedup();
        let groups = called("group", groups);
        let tubes = called("tube", look.tubes.all().collect());
        let panels = called("panel", spec.panels.iter().map(|panel| panel.panel.value.as_str()).collect());
        let known: Vec<String> = kinds.chain(groups).chain(tubes).chain(panels).collect();
        let help = did_you_mean(name, known.iter().map(String::as_str)).unwrap_or_else(|| {
            "write a name of masses.csv, or `group: NAME`, `tube: NAME`, `panel: NAME`; a part that the model lacks goes into masses.csv first".to_owned()
        });
        let message = format!("`{name}` is no part of the model");
        log.error(codes::WEIGHED_UNKNOWN, row.part.spot, name, message, help);
    }
    let kg = log.finite(&row.kg, name, "`kg`");
    if kg <= 0.0 {
        let message = format!("the scales say {kg} kg for `{name}`");
        log.error(codes::WEIGHED_NOT_POSITIVE, row.kg.spot, name, message, "write what was weighed, greater than 0");
    }
    let tolerance =
        row.tolerance_kg.as_ref().map_or(Some(usual), |own| tolerance(Some(own), name, &format!("`{name}`"), log))?;
    let line = row.part.spot.map_or(0, |spot| spot.line as usize);
    Some(WeighedPart { what: what?, name: name.to_owned(), kg, tolerance, line })
}

/// What a name means: a mass, or a group, tube or panel after its word.
fn find(name: &str, spec: &ModelSpec, look: &Lookup<'_>) -> Option<Weighable> {
    if let Some(row) = spec.masses.iter().position(|mass| mass.mass.value == name) {
        return Some(Weighable::Mass(row));
    }
    let (word, name) = name.split_once(':')?;
    let name = name.trim();
    match word.trim() {
        "group" if !name.is_empty() => {
            spec.tubes.iter().position(|tube| tube.group.value == name).map(|row| Weighable::Group(TubeId::new(row)))
        }
        "tube" => look.tubes.row(name).map(|row| Weighable::Tube(TubeId::new(row))),
        "panel" => spec
            .panels
            .iter()
            .position(|panel| panel.panel.value == name)
            .map(|row| Weighable::Panel(PanelId::new(row))),
        _ => None,
    }
}
