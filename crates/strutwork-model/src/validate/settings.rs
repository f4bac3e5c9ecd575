//! Title, options, factors, and what the options ask of the frame.

use super::{Log, Materials, names, words_help};
use crate::codes;
use crate::ids::Id;
use crate::model::{Factor, Options, Panel, RevisionNote, SoftJoints, SoftWhen, Title, Tube};
use crate::nearest::did_you_mean;
use crate::spec::{ModelSpec, TitleEntry};

/// Where failure of the chord's face ends: EN 1993-1-8 Table 7.10 (an extract was read).
const NARROW: f64 = 0.85;

/// The title block.
pub(super) fn title(spec: &ModelSpec, log: &mut Log) -> Title {
    let entry = &spec.title;
    Title {
        title: entry.title.as_ref().map(|title| title.value.clone()).unwrap_or_default(),
        revision: entry.revision.as_ref().map(|revision| revision.value.clone()).unwrap_or_default(),
        revisions: revisions(entry, log),
        author: entry.author.clone(),
        notes: entry.notes.clone(),
        outside: entry.outside.clone(),
    }
}

/// What was done in which revision: each with a date that is one, and the model's own among them.
fn revisions(entry: &TitleEntry, log: &mut Log) -> Vec<RevisionNote> {
    names::Names::of("revision", entry.revisions.iter().map(|one| &one.name), log);
    for one in &entry.revisions {
        if let Some(date) = one.date.as_ref().filter(|date| !is_date(date)) {
            let message = format!("revision `{}`: `{}` is not a date", one.name.value, date.value);
            let help = "write year, month and day: `date = \"2026-01-31\"`";
            log.error(codes::NOT_A_DATE, date.spot, &one.name, message, help);
        }
    }
    if let Some(own) = &entry.revision
        && !entry.revisions.is_empty()
        && entry.revisions.iter().all(|one| one.name.value != own.value)
    {
        let message = format!("the model is revision `{}`, and [revisions] says nothing of it", own.value);
        let known = entry.revisions.iter().map(|one| one.name.value.as_str());
        let help = did_you_mean(own, known)
            .unwrap_or_else(|| format!("add `[revisions.\"{}\"]` with date, by and note", own.value));
        log.warning(codes::REVISION_WITHOUT_NOTE, own.spot, own, message, help);
    }
    entry
        .revisions
        .iter()
        .map(|one| RevisionNote {
            name: one.name.value.clone(),
            date: one.date.as_ref().map(|date| date.value.clone()).unwrap_or_default(),
            by: one.by.clone(),
            note: one.note.clone(),
        })
        .collect()
}

/// Whether a text is a day of the calendar: `2026-01-31`.
fn is_date(text: &str) -> bool {
    let read = text.parse::<toml::value::Datetime>();
    read.is_ok_and(|read| read.date.is_some() && read.time.is_none() && read.offset.is_none())
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
        inertia_relief: spec.options.inertia_relief.unwrap_or(spec.vehicle.is_some() && spec.supports.is_empty()),
        soft_joints: soft_joints(spec, log),
    }
}

fn soft_joints(spec: &ModelSpec, log: &mut Log) -> SoftJoints {
    let entry = &spec.soft_joints;
    let default = if spec.vehicle.is_some() { SoftWhen::Band } else { SoftWhen::Off };
    let when = entry.when.as_ref().map_or(default, |word| match word.as_str() {
        "off" => SoftWhen::Off,
        "band" => SoftWhen::Band,
        "always" => SoftWhen::Always,
        other => {
            let message = format!("`{other}` does not say when the rule for soft joints is used");
            let help = words_help(other, &["off", "band", "always"]);
            log.error(codes::UNKNOWN_WORD, word.spot, "soft_joints", message, help);
            default
        }
    });
    let narrower_than = entry.narrower_than.as_ref().map_or(NARROW, |limit| {
        let share = log.finite(limit, "soft_joints", "`narrower_than`");
        if !(0.0..=1.0).contains(&share) && share.is_finite() {
            let message = format!("`narrower_than` is {share}: a share of the wider tube's face lies from 0 to 1");
            log.error(codes::SOFT_LIMIT, limit.spot, "soft_joints", message, "write 0.85, or another share");
        }
        share
    });
    SoftJoints { when, narrower_than }
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
pub(super) fn weight(
    spec: &ModelSpec,
    options: &Options,
    tubes: &[Option<Tube>],
    panels: &[Option<Panel>],
    materials: &Materials,
    log: &mut Log,
) {
    let why = if spec.options.self_weight {
        "self weight is asked for"
    } else if spec.vehicle.is_some() {
        "the vehicle's wheel loads need the frame's weight"
    } else if options.inertia_relief {
        "the frame's own inertia is to balance the loads"
    } else {
        return;
    };
    let mut used = vec![false; materials.len()];
    for tube in tubes.iter().flatten() {
        used[tube.material.index()] = true;
    }
    for panel in panels.iter().flatten() {
        used[panel.material.index()] = true;
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
pub(super) fn held(spec: &ModelSpec, options: &Options, log: &mut Log) {
    let loaded = !spec.loads.is_empty()
        || !spec.tube_loads.is_empty()
        || !spec.tube_point_loads.is_empty()
        || !spec.temperatures.is_empty();
    if loaded && spec.supports.is_empty() && !options.inertia_relief {
        let help = "add supports.csv with the joints that are held; or `inertia_relief = true` under [options], if its own \
                    inertia is to balance the loads; or a [vehicle] table, if it is a frame on wheels";
        log.warning(codes::FLOATS, None, "", "the frame floats: there are loads, and nothing holds it", help);
    }
}
