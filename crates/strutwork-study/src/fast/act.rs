//! What the values of a parameter change on a ground.

use std::sync::Arc;

use strutwork_loads::MassModel;
use strutwork_model::ids::Id;
use strutwork_model::model::Section;
use strutwork_model::spec::{ModelSpec, TubeRow};
use strutwork_model::validate::{section, validate};
use strutwork_model::{Model, PanelId, TubeId};
use strutwork_solve::Elements;

use crate::change::apply;
use crate::parameter::{AS_IT_IS, Change, Levels, OFF, Parameter};
use crate::value::Value;

/// A parameter that acts on a ground.
#[derive(Debug)]
pub(super) struct Act {
    /// Its place among the study's.
    pub place: usize,
    parameter: Parameter,
    kind: Kind,
}

#[derive(Debug)]
enum Kind {
    /// Tubes get other sections.
    Sections {
        /// The ground's sections, and one tube of each part.
        small: Box<ModelSpec>,
        /// Tubes of one material that get the same section: those that have the same now.
        parts: Parts,
        /// What the listed values give.
        listed: Vec<(Value, Option<Dress>)>,
    },
    /// Tubes are left out: the values and what each leaves out.
    Removal(Vec<(String, Vec<TubeId>)>),
    /// A panel is of another thickness or fixing: for each value how many times as stiff it is, and how much heavier, kg.
    Panel { panel: PanelId, listed: Vec<(Value, Option<[f64; 2]>)> },
}

/// Tubes that get the same section, part by part.
pub(crate) type Parts = Arc<[Vec<TubeId>]>;

/// A section for each part.
pub(crate) type Dress = Arc<[Section]>;

/// What one value changes.
pub(super) enum Acts<'a> {
    /// Nothing.
    Nothing,
    /// A section for each part.
    Sections(&'a Parts, Dress),
    /// These tubes are left out.
    Removal(&'a [TubeId]),
    /// A panel is so many times as stiff, and so much heavier, kg.
    Panel(PanelId, [f64; 2]),
    /// No valid model comes of it.
    Fault,
}

impl Act {
    /// Of a parameter on a ground; `None` where it is not of a kind that acts.
    pub(super) fn of(place: usize, parameter: &Parameter, spec: &ModelSpec, model: &Model) -> Option<Self> {
        let kind = match &parameter.change {
            Change::Wall(tubes) | Change::Size(tubes) => {
                let mut parts: Vec<Vec<TubeId>> = Vec::new();
                let mut small = Box::new(ModelSpec { sections: spec.sections.clone(), ..ModelSpec::default() });
                // A size is one section for all.
                let by_section = matches!(parameter.change, Change::Wall(_));
                for (row, id) in spec.tubes.iter().zip(model.tubes().ids()).filter(|(row, _)| tubes.holds(row)) {
                    let alike = |known: &TubeRow| {
                        known.material == row.material && (known.section == row.section || !by_section)
                    };
                    match small.tubes.iter().position(alike) {
                        Some(part) => parts[part].push(id),
                        None => {
                            small.tubes.push(row.clone());
                            parts.push(vec![id]);
                        }
                    }
                }
                let mut listed = Vec::new();
                if let Levels::List(values) = &parameter.levels {
                    listed.extend(values.iter().map(|value| (value.clone(), sections(&small, parameter, value))));
                }
                Kind::Sections { small, parts: parts.into(), listed }
            }
            Change::Presence(tubes) => Kind::Removal(vec![(OFF.to_owned(), ids(model, tubes))]),
            Change::Pattern(patterns) => {
                let all: Vec<String> = patterns.iter().flat_map(|(_, tubes)| tubes.clone()).collect();
                let without = |kept: &[String]| -> Vec<String> {
                    all.iter().filter(|tube| !kept.contains(tube)).cloned().collect()
                };
                Kind::Removal(patterns.iter().map(|(name, kept)| (name.clone(), ids(model, &without(kept)))).collect())
            }
            Change::Thickness(name) | Change::Fixing(name) => {
                let panel = model.panel_named(name)?;
                let Levels::List(values) = &parameter.levels else { return None };
                let of = |value: &Value| {
                    let mut spec = spec.clone();
                    apply(&mut spec, parameter, value);
                    let other = validate(&spec).ok()?.value;
                    let [shear, kg] = panel_values(&other, panel);
                    let [old_shear, old_kg] = panel_values(model, panel);
                    Some([shear / old_shear, kg - old_kg])
                };
                Kind::Panel { panel, listed: values.iter().map(|value| (value.clone(), of(value))).collect() }
            }
            Change::Shift { .. } | Change::Own => return None,
        };
        Some(Self { place, parameter: parameter.clone(), kind })
    }

    /// Tubes that get other sections, part by part.
    pub(super) fn parts(&self) -> &[Vec<TubeId>] {
        if let Kind::Sections { parts, .. } = &self.kind { parts } else { &[] }
    }

    /// Tubes that some value leaves out.
    pub(super) fn removable(&self) -> Vec<TubeId> {
        match &self.kind {
            Kind::Removal(values) => values.iter().flat_map(|(_, tubes)| tubes.clone()).collect(),
            Kind::Sections { .. } | Kind::Panel { .. } => Vec::new(),
        }
    }

    /// What a value changes.
    pub(super) fn at(&self, value: &Value) -> Acts<'_> {
        if *value == self.parameter.as_it_is || value.word() == Some(AS_IT_IS) {
            return Acts::Nothing;
        }
        match &self.kind {
            Kind::Sections { small, parts, listed } => match listed.iter().find(|(known, _)| known == value) {
                Some((_, Some(sections))) => Acts::Sections(parts, Arc::clone(sections)),
                Some((_, None)) => Acts::Fault,
                None => match sections(small, &self.parameter, value) {
                    Some(sections) => Acts::Sections(parts, sections),
                    None => Acts::Fault,
                },
            },
            Kind::Removal(values) => match values.iter().find(|(known, _)| value.word() == Some(known)) {
                Some((_, tubes)) => Acts::Removal(tubes),
                None => Acts::Nothing,
            },
            Kind::Panel { panel, listed } => match listed.iter().find(|(known, _)| known == value) {
                Some((_, Some(values))) => Acts::Panel(*panel, *values),
                _ => Acts::Fault,
            },
        }
    }
}

/// The section that each part gets; `None` where one of them is no section.
fn sections(small: &ModelSpec, parameter: &Parameter, value: &Value) -> Option<Dress> {
    let mut changed = small.clone();
    apply(&mut changed, parameter, value);
    let of_row = |row: &TubeRow| section(changed.sections.iter().rev().find(|entry| entry.name == row.section)?);
    changed.tubes.iter().map(of_row).collect()
}

fn ids(model: &Model, names: &[String]) -> Vec<TubeId> {
    let mut ids: Vec<TubeId> = names.iter().filter_map(|name| model.tube_named(name)).collect();
    ids.sort_unstable();
    ids.dedup();
    ids
}

/// Shear stiffness of a panel, and the mass of everything, kg.
fn panel_values(model: &Model, panel: PanelId) -> [f64; 2] {
    [Elements::of(model).panel(panel).effective_shear(), MassModel::of(model).total]
}

/// The places of ids, for tables by number.
pub(super) fn places(ids: &[TubeId]) -> impl Iterator<Item = usize> + '_ {
    ids.iter().map(|id| id.index())
}
