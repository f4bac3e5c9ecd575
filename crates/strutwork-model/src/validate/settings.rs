//! Title, options, factors, and what the options ask of the frame.

use super::{Log, Materials, names};
use crate::codes;
use crate::ids::Id;
use crate::model::{Factor, Options, SoftJoints, SoftWhen, Title, Tube};
use crate::spec::ModelSpec;

/// The title block.
pub(super) fn title(spec: &ModelSpec) -> Title {
    let entry = &spec.title;
    Title {
        title: entry.title.as_ref().map(|title| title.value.clone()).unwrap_or_default(),
        revision: entry.revision.clone(),
        author: entry.author.clone(),
        notes: entry.notes.clone(),
        outside: entry.outside.clone(),
    }
}

/// The options; a warning where the report would have no title.
pub(super) fn options(spec: &ModelSpec, log: &mut Log) -> Options {
    let title = spec.title.title.as_ref();
    if title.is_none_or(|title| title.trim().is_empty()) {
        let spot = title.and_then(|title| title.spot);
        let help = "add `title = \"…\"` at the top of model.toml: the report shows it on every page";
        log.warning(codes::NO_TITLE, spot, "", "the model has no title", help);
    }
    let margin = &spec.options.yield_margin;
    let yield_margin = log.finite(margin, "options", "`yield_margin`");
    if yield_margin < 1.0 {
        let message = format!("the margin on yield is {yield_margin}: stresses above yield would pass");
        let help = "write 1 or more; 1.5 is the common figure for load cases with dynamic factors in them";
        log.error(codes::YIELD_MARGIN, margin.spot, "yield_margin", message, help);
    }
    Options {
        self_weight: spec.options.self_weight,
        standard_cases: spec.options.standard_cases,
        yield_margin,
        inertia_relief: false,
        soft_joints: SoftJoints { when: SoftWhen::Off, narrower_than: 0.85 },
    }
}

/// The factors that the user set.
pub(super) fn factors(spec: &ModelSpec, log: &mut Log) -> Vec<Factor> {
    names::Names::of("factor", spec.factors.iter().map(|entry| &entry.name), log);
    spec.factors
        .iter()
        .map(|entry| {
            if entry.source.trim().is_empty() {
                let message = format!("the factor `{}` has no source", entry.name.value);
                let help =
                    "say in `source` where the value comes from, if only \"own choice\" and why: the report prints it";
                log.error(codes::NO_SOURCE, entry.source.spot, &entry.name, message, help);
            }
            Factor {
                name: entry.name.value.clone(),
                value: log.finite(&entry.value, &entry.name, "the value"),
                source: entry.source.value.clone(),
            }
        })
        .collect()
}

/// Weight needs densities: a fault for every material in use that has none.
pub(super) fn weight(spec: &ModelSpec, tubes: &[Option<Tube>], materials: &Materials, log: &mut Log) {
    let why = if spec.options.self_weight {
        "self weight is asked for"
    } else if spec.vehicle.is_some() {
        "the vehicle's wheel loads need the frame's weight"
    } else {
        return;
    };
    let mut used = vec![false; materials.len()];
    for tube in tubes.iter().flatten() {
        used[tube.material.index()] = true;
    }
    for (entry, (material, used)) in spec.materials.iter().zip(materials.iter().zip(used)) {
        if used && material.as_ref().is_some_and(|material| material.density == 0.0) {
            let message = format!("{why}, and the material `{}` has no density", entry.name.value);
            let spot = entry.density_kg_m3.as_ref().and_then(|density| density.spot).or(entry.name.spot);
            log.error(
                codes::NO_DENSITY,
                spot,
                &entry.name,
                message,
                "add `density_kg_m3 = …` (steel 7850, aluminium 2700)",
            );
        }
    }
}

/// Loads on a frame that nothing holds: a warning with what to do.
pub(super) fn held(spec: &ModelSpec, log: &mut Log) {
    let loaded = !spec.loads.is_empty()
        || !spec.tube_loads.is_empty()
        || !spec.tube_point_loads.is_empty()
        || !spec.temperatures.is_empty();
    if loaded && spec.supports.is_empty() && spec.vehicle.is_none() {
        let help = "add supports.csv with the joints that are held; or a [vehicle] table, if it is a frame on wheels";
        log.warning(codes::FLOATS, None, "", "the frame floats: there are loads, and nothing holds it", help);
    }
}
