//! A model that variants have in common, prepared for them.

use std::sync::Arc;

use strutwork_loads::{LoadCases, MassModel};
use strutwork_model::ids::Id;
use strutwork_model::{Dof, JointId, Model, TubeId};
use strutwork_solve::Counters;
use strutwork_solve::reanalysis::{Family, TubeSet, Workers};

use super::act::Act;
use super::loads::{Loads, Trial};
use super::roles::Roles;
use super::together::Together;
use crate::evaluate::Trouble;
use crate::exact::{Exact, measures_twist, unit_twist, valid};
use crate::outcome::Why;
use crate::response::{Asked, Needs};
use crate::study::Study;
use crate::value::Value;

/// Numbers that are kept for corrections at most: sixteen million, 128 MB.
const MOST_KEPT: usize = 16_000_000;
/// Tubes that change together are kept for corrections where they are no more than this.
const FEW: usize = 4;

/// A model that variants have in common.
#[derive(Debug)]
pub(super) struct Ground {
    pub model: Arc<Model>,
    /// The load cases of the study, on the model.
    pub cases: Arc<LoadCases>,
    /// These and, where nothing else measures a twist that is asked for, the one that does.
    pub solved: LoadCases,
    /// The place of the case that measures the twist.
    pub twist: Option<usize>,
    pub acts: Vec<Act>,
    pub loads: Loads,
    pub needs: Needs,
    /// How each response is read off.
    pub reads: Vec<Read>,
    pub together: Together,
    /// Density times length of each tube, kg/m².
    pub heft: Vec<f64>,
    /// Mass of each tube, kg.
    pub masses: Vec<f64>,
    /// Mass of everything but the tubes, kg.
    pub other_mass: f64,
    pub family: Arc<Family>,
    /// For each act the sets of its parts.
    pub sets: Vec<Vec<TubeSet>>,
    /// For each tube that may be left out its own set.
    pub singles: Vec<Option<TubeSet>>,
    pub workers: Workers<Arc<Family>>,
}

/// How a response is read off movements and masses.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Read {
    TubesMass,
    TotalMass,
    Twist,
    Movement {
        case: usize,
        joint: JointId,
        dof: Dof,
    },
    /// From a solved variant.
    Other,
}

impl Ground {
    /// Prepares what variants with these values of the key parameters have in common.
    ///
    /// # Errors
    /// Why they go the whole way.
    pub(super) fn of(study: &Study, exact: &Exact<'_>, roles: &Roles, values: &[Value]) -> Result<Self, Why> {
        let needs = Needs::of(&study.responses);
        let solves = needs.cases || needs.twist;
        let weighs = |asked: &Asked| matches!(asked, Asked::TubesMass | Asked::TotalMass);
        if !solves && !study.responses.iter().all(|response| weighs(&response.asked)) {
            return Err(Why::Asked);
        }
        let mut common: Vec<Value> = values.to_vec();
        roles.acting.iter().for_each(|place| common[*place] = study.parameters[*place].as_it_is.clone());
        let spec = exact.spec(study, &common).map_err(no_ground)?;
        let model = Arc::new(valid(&spec).map_err(no_ground)?);
        let cases = exact.cases(study, &needs, &model).map_err(no_ground)?;
        let mut solved = cases.clone();
        if needs.twist && !cases.0.iter().any(measures_twist) {
            solved.0.extend(unit_twist(&model).map_err(no_ground)?.0);
        }
        let acts: Vec<Act> =
            roles.acting.iter().filter_map(|place| Act::of(*place, &study.parameters[*place], &spec, &model)).collect();
        if acts.len() < roles.acting.len() {
            return Err(Why::NoGround);
        }
        let known = roles.key.is_empty();
        let trial =
            Trial { exact, study, needs: &needs, spec: &spec, model: &model, cases: &cases, acts: &acts, known };
        let loads = if solves { trial.loads().map_err(|_| Why::NoGround)? } else { Loads::Same };
        let mut family = Family::of(&model, &solved).map_err(|_| Why::NoGround)?;
        let sets: Vec<Vec<TubeSet>> =
            acts.iter().map(|act| act.parts().iter().map(|part| family.tubes(part)).collect()).collect();
        let mut singles = vec![None; model.tubes().len()];
        for tube in acts.iter().flat_map(Act::removable) {
            singles[tube.index()].get_or_insert_with(|| family.tubes(&[tube]));
        }
        keep(&mut family, &model, &acts, &sets, &singles);
        let family = Arc::new(family);
        let mut ground = Self {
            cases: Arc::new(cases),
            twist: solved.0.iter().position(measures_twist),
            solved,
            loads,
            reads: Vec::new(),
            together: Together::of(&model),
            heft: model
                .tubes()
                .iter_with_id()
                .map(|(id, tube)| model.length(id) * model.materials()[tube.material].density)
                .collect(),
            masses: model.tubes().ids().map(|tube| model.tube_mass(tube)).collect(),
            other_mass: 0.0,
            workers: Workers::of(Arc::clone(&family)),
            family,
            sets,
            singles,
            model,
            acts,
            needs,
        };
        ground.other_mass = MassModel::of(&ground.model).total - ground.masses.iter().sum::<f64>();
        ground.reads = study.responses.iter().map(|response| ground.read(&response.asked)).collect();
        Ok(ground)
    }

    fn read(&self, asked: &Asked) -> Read {
        match asked {
            Asked::TubesMass => Read::TubesMass,
            Asked::TotalMass => Read::TotalMass,
            Asked::TwistStiffness if self.twist.is_some() => Read::Twist,
            Asked::Movement { case, joint, dof } => {
                let case = self.cases.0.iter().position(|known| known.name == *case);
                match (case, self.model.joint_named(joint)) {
                    (Some(case), Some(joint)) => Read::Movement { case, joint, dof: *dof },
                    _ => Read::Other,
                }
            }
            _ => Read::Other,
        }
    }

    /// Whether some response needs more than movements and masses.
    pub(super) fn asks_more(&self) -> bool {
        self.reads.contains(&Read::Other)
    }

    /// Work that preparing took.
    pub(super) fn counters(&self) -> Counters {
        self.family.counters()
    }

    /// Whether tubes can be left out and the frame stays one.
    pub(super) fn stays_one(&self, out: &[TubeId]) -> bool {
        self.together.without(out)
    }
}

/// Keeps what corrections need, for tubes that are left out and for those that change by a few.
fn keep(family: &mut Family, model: &Model, acts: &[Act], sets: &[Vec<TubeSet>], singles: &[Option<TubeSet>]) {
    let mut kept: Vec<TubeSet> = singles.iter().flatten().copied().collect();
    let mut tubes = kept.len();
    for (act, sets) in acts.iter().zip(sets) {
        for (part, set) in act.parts().iter().zip(sets).filter(|(part, _)| part.len() <= FEW) {
            kept.push(*set);
            tubes += part.len();
        }
    }
    let equations = 6 * (model.joints().len() + model.bodies().len());
    let numbers = 6 * tubes * (equations + 6 * tubes);
    if tubes > 0 && numbers <= MOST_KEPT {
        family.keep(&kept);
    }
}

fn no_ground(_: Trouble) -> Why {
    Why::NoGround
}
