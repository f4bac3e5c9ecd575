//! What the model is held against: the sheet of a twist rig, what the scales say.

use std::collections::BTreeMap;

use strutwork_model::model::{RigSheet, Wheel};
use strutwork_model::units::to_mm;

use super::change::{Change, How, Part};
use super::facts::{Fact, Item, differ, number, same_number, text, yes};
use super::names::Side;

/// What the scales say.
pub(super) fn weighed(side: &Side<'_>) -> Item {
    let weighed = side.model.weighed();
    let mut facts = vec![number("tolerance of the scales", weighed.tolerance, "kg")];
    facts.extend(weighed.frame.map(|kg| number("frame", kg, "kg")));
    facts.extend(weighed.vehicle.map(|kg| number("vehicle", kg, "kg")));
    for (wheel, kg) in Wheel::ALL.into_iter().zip(weighed.corners) {
        facts.extend(kg.map(|kg| number(wheel.name(), kg, "kg")));
    }
    if let Some(raised) = weighed.raised {
        let axle = ["front axle", "rear axle"][raised.axle.min(1)];
        facts.push(text("raised", axle));
        facts.push(number("raised by", to_mm(raised.by), "mm"));
        facts.push(number("lower axle then", raised.lower, "kg"));
    }
    for part in &weighed.parts {
        facts.push(number(format!("part {}", part.name), part.kg, "kg"));
    }
    Item { name: String::new(), facts }
}

/// What happened to the sheet of the twist rig.
pub(super) fn rig(a: &Side<'_>, b: &Side<'_>, out: &mut Vec<Change>) {
    match (a.model.rig(), b.model.rig()) {
        (None, None) => {}
        (None, Some(sheet)) => out.push(Change::added(Part::Rig, "", readings_in_words(sheet.readings.len()))),
        (Some(sheet), None) => out.push(Change::gone(Part::Rig, "", readings_in_words(sheet.readings.len()))),
        (Some(was), Some(is)) => {
            let mut details = differ(&facts(a, was), &facts(b, is));
            let differ = differing(was, is);
            // How many there are is told with how many differ.
            details.retain(|detail| detail.what != READINGS);
            let mut change = Change::of(Part::Rig, "", "", details);
            if differ > 0 {
                let change = change.get_or_insert_with(|| Change::new(Part::Rig, How::Changed, "", ""));
                change.about = format!("{} differ", readings_in_words(differ));
            }
            out.extend(change);
        }
    }
}

const READINGS: &str = "readings";

fn readings_in_words(number: usize) -> String {
    format!("{number} reading{}", if number == 1 { "" } else { "s" })
}

/// Readings by station, cycle, step, and whether the couple goes on or comes off: left and right, mm, and the couple, N·m.
fn readings(sheet: &RigSheet) -> BTreeMap<(&str, u32, u32, bool), [Option<f64>; 3]> {
    let of = |reading: &strutwork_model::model::RigReading| {
        let (station, step) = (sheet.stations.get(reading.station)?, sheet.steps.get(reading.step)?);
        let key = (station.name.as_str(), step.cycle, step.number, step.unloading);
        Some((key, [reading.left.map(to_mm), reading.right.map(to_mm), Some(step.couple)]))
    };
    sheet.readings.iter().filter_map(of).collect()
}

/// How many readings one of the sheets does not have, or has with another value.
fn differing(a: &RigSheet, b: &RigSheet) -> usize {
    let (before, after) = (readings(a), readings(b));
    let same = |was: &[Option<f64>; 3], is: &[Option<f64>; 3]| {
        was.iter().zip(is).all(|(was, is)| match (was, is) {
            (Some(was), Some(is)) => same_number(*was, *is),
            (was, is) => was.is_none() && is.is_none(),
        })
    };
    let changed = after.iter().filter(|(key, is)| before.get(*key).is_none_or(|was| !same(was, is))).count();
    changed + before.keys().filter(|key| !after.contains_key(*key)).count()
}

fn facts(side: &Side<'_>, sheet: &RigSheet) -> Vec<Fact> {
    let mut facts = vec![
        number(READINGS, sheet.readings.len() as f64, ""),
        yes("dials grow as it sinks", sheet.dials_down),
        number("resolution", to_mm(sheet.resolution), "mm"),
        number("repeatability", to_mm(sheet.repeatability), "mm"),
        number("tolerance of the couple", 100.0 * sheet.couple_tolerance, "%"),
        number("tolerance of the spacing", to_mm(sheet.spacing_tolerance), "mm"),
        yes("panels fitted", sheet.panels_fitted),
        text("held", sheet.words.held.clone()),
        text("loaded", sheet.words.loaded.clone()),
        text("fitted", sheet.words.fitted.clone()),
    ];
    facts.extend(sheet.settling_cycles.map(|cycles| number("settling cycles", cycles as f64, "")));
    if let Some(between) = sheet.between {
        let names = between.map(|place| sheet.stations.get(place).map_or("", |station| station.name.as_str()));
        facts.push(text("stiffness between", names.join(" and ")));
    }
    for station in &sheet.stations {
        let of = |what: &str| format!("station {}: {what}", station.name);
        facts.push(number(of("x"), to_mm(station.x), "mm"));
        facts.push(number(of("spacing"), to_mm(station.spacing), "mm"));
        facts.push(text(of("role"), station.role.word()));
        if let Some(joints) = station.joints {
            facts.push(text(of("joints"), joints.map(|joint| side.joint(joint)).join(", ")));
        }
    }
    facts
}
