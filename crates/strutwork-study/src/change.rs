//! A parameter's value, put into a spec.

use strutwork_model::spec::{ModelSpec, SectionEntry, Written};
use strutwork_model::stock::{self, StockShape};

use crate::parameter::{AS_IT_IS, Change, OFF, Parameter, Tubes};
use crate::value::Value;

/// Puts a value into a spec; the value that the model has changes nothing. [`Change::Own`] is the caller's to make.
pub fn apply(spec: &mut ModelSpec, parameter: &Parameter, value: &Value) {
    if *value == parameter.as_it_is || value.word() == Some(AS_IT_IS) {
        return;
    }
    match (&parameter.change, value) {
        (Change::Wall(tubes), Value::Number(wall)) => set_wall(spec, tubes, *wall),
        (Change::Size(tubes), Value::Word(size)) => set_size(spec, tubes, size),
        (Change::Presence(tubes), Value::Word(word)) if word == OFF => remove_tubes(spec, tubes),
        (Change::Pattern(patterns), Value::Word(word)) => set_pattern(spec, patterns, word),
        (Change::Shift { joint, axis, partner }, Value::Number(by)) => {
            shift(spec, joint, *axis, *by);
            if let Some(partner) = partner {
                // Across the plane of symmetry y turns round.
                shift(spec, partner, *axis, if *axis == 1 { -by } else { *by });
            }
        }
        (Change::Thickness(panel), Value::Number(thickness)) => {
            for row in spec.panels.iter_mut().filter(|row| row.panel.value == *panel) {
                row.thickness_mm = (*thickness).into();
            }
        }
        (Change::Fixing(panel), Value::Word(fixing)) => {
            for row in spec.panels.iter_mut().filter(|row| row.panel.value == *panel) {
                row.fixing = fixing.as_str().into();
            }
        }
        // The caller's own, and values that `Parameter::takes` refuses.
        _ => {}
    }
}

/// Gives tubes another wall. Their sections get copies of their own, so that other tubes with the same section keep theirs.
fn set_wall(spec: &mut ModelSpec, tubes: &Tubes, wall: f64) {
    let mut copied: Vec<(String, String)> = Vec::new();
    for place in 0..spec.tubes.len() {
        if !tubes.holds(&spec.tubes[place]) {
            continue;
        }
        let section = spec.tubes[place].section.value.clone();
        let copy = match copied.iter().find(|(original, _)| *original == section) {
            Some((_, copy)) => copy.clone(),
            None => {
                let copy = own_section(spec, &section, tubes, wall);
                copied.push((section, copy.clone()));
                copy
            }
        };
        spec.tubes[place].section = copy.into();
    }
}

/// A copy of a section with another wall, under a name of its own.
fn own_section(spec: &mut ModelSpec, section: &str, tubes: &Tubes, wall: f64) -> String {
    let name = free_name(spec, &format!("{section} of {}", tubes.name()));
    if let Some(mut row) = spec.sections.iter().find(|row| row.name.value == section).cloned() {
        write_out(&mut row);
        row.name = name.as_str().into();
        row.wall = None;
        row.wall_mm = Some(wall.into());
        spec.sections.push(row);
    }
    name
}

/// Gives tubes another section: one of the model, or a stock size made the way that the tube was.
fn set_size(spec: &mut ModelSpec, tubes: &Tubes, size: &str) {
    let of_model = spec.sections.iter().any(|row| row.name.value == size);
    let first = spec.tubes.iter().find(|row| tubes.holds(row)).map(|row| row.section.value.clone());
    let name = if of_model {
        size.to_owned()
    } else {
        let route =
            spec.sections.iter().find(|row| Some(&row.name.value) == first.as_ref()).and_then(|row| row.route.clone());
        let name = free_name(spec, &format!("{size} of {}", tubes.name()));
        spec.sections.push(SectionEntry {
            name: name.as_str().into(),
            stock: Some(size.into()),
            route,
            ..SectionEntry::default()
        });
        name
    };
    for row in spec.tubes.iter_mut().filter(|row| match tubes {
        Tubes::Group(group) => row.group.value == *group,
        Tubes::Section(section) => row.group.is_empty() && row.section.value == *section,
    }) {
        row.section = name.as_str().into();
    }
}

/// The name, or the first of its kind that no section has.
fn free_name(spec: &ModelSpec, name: &str) -> String {
    let taken = |name: &str| spec.sections.iter().any(|row| row.name.value == name);
    let mut free = name.to_owned();
    let mut number = 2_u32;
    while taken(&free) {
        free = format!("{name} ({number})");
        number += 1;
    }
    free
}

/// A section from the stock list, written out in its sizes, so that one of them can be changed.
pub fn write_out(row: &mut SectionEntry) {
    let Some(size) = row.stock.as_ref().and_then(|stock| stock::find(stock)) else { return };
    let (shape, height, width, diameter) = match size.shape {
        StockShape::Square => ("square", None, Some(size.width_mm), None),
        StockShape::Rectangular => ("rectangular", Some(size.height_mm), Some(size.width_mm), None),
        StockShape::Round => ("round", None, None, Some(size.height_mm)),
    };
    row.stock = None;
    row.shape = Some(shape.into());
    row.height_mm = height.map(Written::from);
    row.width_mm = width.map(Written::from);
    row.diameter_mm = diameter.map(Written::from);
    row.wall_mm = Some(size.wall_mm.into());
}

/// Takes out the tubes that belong to other patterns than the one chosen, and to no chosen one.
fn set_pattern(spec: &mut ModelSpec, patterns: &[(String, Vec<String>)], chosen: &str) {
    let kept: &[String] = patterns.iter().find(|(name, _)| name == chosen).map_or(&[], |(_, tubes)| tubes);
    let mut out: Vec<String> = Vec::new();
    for tube in patterns.iter().flat_map(|(_, tubes)| tubes) {
        if !kept.contains(tube) && !out.contains(tube) {
            out.push(tube.clone());
        }
    }
    remove_tubes(spec, &out);
}

/// Takes tubes out, the loads that the load files put on them, and joints that only they held and nothing else names.
pub fn remove_tubes(spec: &mut ModelSpec, tubes: &[String]) {
    let out = |name: &str| tubes.iter().any(|tube| tube == name);
    let mut ends: Vec<String> = Vec::new();
    for row in spec.tubes.iter().filter(|row| out(&row.tube.value)) {
        ends.extend([row.from.value.clone(), row.to.value.clone()]);
    }
    spec.tubes.retain(|row| !out(&row.tube.value));
    spec.tube_loads.retain(|row| !out(&row.tube.value));
    spec.tube_point_loads.retain(|row| !out(&row.tube.value));
    spec.temperatures.retain(|row| !out(&row.tube.value));
    ends.sort_unstable();
    ends.dedup();
    let held =
        |spec: &ModelSpec, joint: &str| spec.tubes.iter().any(|row| row.from.value == joint || row.to.value == joint);
    ends.retain(|joint| !held(spec, joint));
    if ends.is_empty() {
        return;
    }
    let joints = std::mem::take(&mut spec.joints);
    // Rare, and better one joint too many, which validation then names, than one that something else needs.
    let rest = serde_json::to_string(&*spec).unwrap_or_default();
    spec.joints = joints;
    ends.retain(|joint| !serde_json::to_string(joint).is_ok_and(|quoted| rest.contains(&quoted)));
    spec.joints.retain(|row| !ends.contains(&row.joint.value));
}

fn shift(spec: &mut ModelSpec, joint: &str, axis: usize, by: f64) {
    for row in spec.joints.iter_mut().filter(|row| row.joint.value == joint) {
        let cell = match axis {
            0 => &mut row.x_mm,
            1 => &mut row.y_mm,
            _ => &mut row.z_mm,
        };
        *cell = (cell.value + by).into();
    }
}
