//! Whether the load cases of a ground's variants are the ground's own.

use std::borrow::Cow;

use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::ids::Id;
use strutwork_model::spec::ModelSpec;
use strutwork_model::{Model, TubeId};

use super::act::{Act, Acts};
use super::roles::samples;
use crate::change::apply;
use crate::exact::{Exact, valid};
use crate::response::Needs;
use crate::study::Study;
use crate::value::Value;

/// What acts on variants of a ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Loads {
    /// The ground's own load cases.
    Same,
    /// The ground's own load cases; displacements of a free frame are freed of rigid motion by each variant's own masses.
    Free,
    /// Each variant's own load cases.
    Own,
}

impl Loads {
    /// `same`: all variants have the same load cases; `free`: displacements are asked of some case in which the frame is free.
    pub(crate) const fn of(same: bool, free: bool) -> Self {
        match (same, free) {
            (false, _) => Self::Own,
            (true, true) => Self::Free,
            (true, false) => Self::Same,
        }
    }
}

/// A ground in the making.
pub(super) struct Trial<'a> {
    pub exact: &'a Exact<'a>,
    pub study: &'a Study,
    pub needs: &'a Needs,
    pub spec: &'a ModelSpec,
    pub model: &'a Model,
    pub cases: &'a LoadCases,
    pub acts: &'a [Act],
    /// Whether it is known that sections alone follow from the values of walls and sizes.
    pub known: bool,
}

/// Values of a parameter that are tried, besides the lightest and the heaviest.
const TRIED: usize = 8;

/// A value of a parameter turned out to change more than sections.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct MoreThanSections;

impl Trial<'_> {
    /// Tries the values of each parameter by itself, and the lightest and the heaviest sections together: load cases that are
    /// the same on all of these frames are taken for the same on all variants. What follows from sections by way of the frame's mass, be it
    /// in proportion or by a threshold, shows itself so; and the first variant of each block is solved both ways.
    pub(super) fn loads(&self) -> Result<Loads, MoreThanSections> {
        let parameter = |act: &Act| &self.study.parameters[act.place];
        let mut same = true;
        let mut ends = [self.spec.clone(), self.spec.clone()];
        for act in self.acts {
            let mut light_and_heavy: [Option<(f64, Value)>; 2] = [None, None];
            let values: Vec<Value> = samples(&parameter(act).levels).collect();
            let step = values.len().div_ceil(TRIED).max(1);
            for (place, value) in values.into_iter().enumerate() {
                let acts = act.at(&value);
                if matches!(acts, Acts::Nothing | Acts::Fault) {
                    continue;
                }
                if let Acts::Sections(_, sections) = &acts {
                    let area: f64 = sections.iter().map(|section| section.area).sum();
                    let [light, heavy] = &mut light_and_heavy;
                    if light.as_ref().is_none_or(|(known, _)| area < *known) {
                        *light = Some((area, value.clone()));
                    }
                    if heavy.as_ref().is_none_or(|(known, _)| area > *known) {
                        *heavy = Some((area, value.clone()));
                    }
                }
                if place % step != 0 || self.known && !same {
                    continue;
                }
                let out: &[TubeId] = if let Acts::Removal(out) = acts { out } else { &[] };
                let mut spec = self.spec.clone();
                apply(&mut spec, parameter(act), &value);
                same = self.alike(&spec, out, matches!(acts, Acts::Sections(..)), same)?;
            }
            for (spec, end) in ends.iter_mut().zip(light_and_heavy) {
                if let Some((_, value)) = end {
                    apply(spec, parameter(act), &value);
                }
            }
        }
        for spec in &ends {
            same = same && self.alike(spec, &[], false, same)?;
        }
        // A twist and a mass do not depend on how a free frame is put into its place.
        let free = self.needs.cases && self.cases.0.iter().any(|case| case.free);
        Ok(Loads::of(same, free))
    }

    /// Whether a frame has the ground's load cases, as all before it had where `same`. A frame that is faulty says nothing.
    fn alike(&self, spec: &ModelSpec, out: &[TubeId], sections: bool, same: bool) -> Result<bool, MoreThanSections> {
        let Ok(model) = valid(spec) else { return Ok(same) };
        if sections && !self.model.differs_in_sections_alone(&model) {
            return Err(MoreThanSections);
        }
        if !same {
            return Ok(false);
        }
        let model = std::sync::Arc::new(model);
        let Ok(cases) = self.exact.cases(self.study, self.needs, &model) else { return Ok(false) };
        let kept: Vec<TubeId> = self.model.tubes().ids().filter(|tube| !out.contains(tube)).collect();
        let same = cases.0.len() == self.cases.0.len()
            && cases.0.iter().zip(&self.cases.0).all(|(case, own)| acts_alike(case, own, &kept));
        Ok(same)
    }
}

/// Whether load cases of frames with the same tubes are the same but for the story of how they came about.
pub(crate) fn loads_alike(cases: &LoadCases, others: &LoadCases) -> bool {
    cases.0.len() == others.0.len() && cases.0.iter().zip(&others.0).all(|(case, other)| acts_alike(case, other, &[]))
}

/// Whether what acts in two cases, how they are held and what is read off are the same to the last bit; `kept` are the tubes
/// of the first case's frame, by their ids in the other's.
fn acts_alike(case: &LoadCase, own: &LoadCase, kept: &[TubeId]) -> bool {
    let at = |tube: TubeId| kept.get(tube.index()).copied().unwrap_or(tube);
    let mut case = Cow::Borrowed(case);
    if !(case.tube_loads.is_empty() && case.tube_point_loads.is_empty() && case.temperatures.is_empty()) {
        let case = case.to_mut();
        case.tube_loads.iter_mut().for_each(|load| load.tube = at(load.tube));
        case.tube_point_loads.iter_mut().for_each(|load| load.tube = at(load.tube));
        case.temperatures.iter_mut().for_each(|load| load.tube = at(load.tube));
    }
    let LoadCase {
        name,
        title: _,
        nature,
        supports,
        free,
        joint_loads,
        body_loads,
        tube_loads,
        tube_point_loads,
        temperatures,
        settlements,
        derivation,
        measures,
    } = own;
    case.name == *name
        && case.nature == *nature
        && case.supports == *supports
        && case.free == *free
        && case.joint_loads == *joint_loads
        && case.body_loads == *body_loads
        && case.tube_loads == *tube_loads
        && case.tube_point_loads == *tube_point_loads
        && case.temperatures == *temperatures
        && case.settlements == *settlements
        && case.measures == *measures
        // The story may differ in its words; what checks and scripts read of it may not.
        && case.derivation.wheel_forces == derivation.wheel_forces
        && case.derivation.link_forces == derivation.link_forces
        && case.derivation.acceleration == derivation.acceleration
}
