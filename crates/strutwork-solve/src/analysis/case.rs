//! From the solution of one case to its results.

use strutwork_loads::LoadCase;
use strutwork_model::model::Support;
use strutwork_model::{Dof, JointId, Model};

use crate::assembly::{LoadVectors, end_loads};
use crate::elements::Elements;
use crate::equilibrium::{Size, balance};
use crate::numbering::Numbering;
use crate::recover::{self, Bearing, Movement};
use crate::relief::{self, Projection};
use crate::results::{CaseResult, CaseTrust, Relief};
use crate::second_order::Bent;
use crate::trust;

/// What holds the frame while a group of cases is solved.
pub(crate) enum Held {
    /// The case's own supports.
    Supports(Vec<Support>),
    /// Nothing: six freedoms that determine its place, and what frees the displacements of the choice.
    Free { held: Vec<(JointId, Dof)>, supports: Vec<Support>, projection: Box<Projection> },
}

impl Held {
    /// As this case says.
    pub(crate) fn of(model: &Model, elements: &Elements, case: &LoadCase) -> Self {
        if !case.free || !case.supports.is_empty() {
            return Self::Supports(case.supports.clone());
        }
        let held = relief::determinate(model, elements, &relief::loose(model, &[]));
        let supports = relief::supports(&held);
        let projection = Box::new(relief::projection(model, elements));
        Self::Free { held, supports, projection }
    }

    /// The freedoms held, as supports.
    pub(crate) fn supports(&self) -> &[Support] {
        match self {
            Self::Supports(supports) | Self::Free { supports, .. } => supports,
        }
    }
}

/// One case's solution and what the solving says of it.
#[derive(Clone, Copy)]
pub(crate) struct SolvedCase<'a> {
    pub case: &'a LoadCase,
    pub loads: &'a LoadVectors,
    pub prescribed: &'a [(usize, [f64; 6])],
    pub solution: &'a [f64],
    pub refined: trust::Refined,
    pub energy: f64,
    /// Second order: the tubes as they are bent.
    pub bent: Option<SecondOrderPart<'a>>,
}

/// What a case of second order is recovered with besides.
#[derive(Clone, Copy)]
pub(crate) struct SecondOrderPart<'a> {
    /// The tubes as they are bent.
    pub tubes: &'a Bent<'a>,
    /// What inertia brings against the couples on a free frame, reduced to the origin: N, N·m.
    pub more: [f64; 6],
}

/// What all cases of a group are recovered with.
pub(crate) struct Recovery<'a> {
    pub model: &'a Model,
    pub elements: &'a Elements,
    pub numbering: &'a Numbering,
    pub held: &'a Held,
    pub system: usize,
}

impl Recovery<'_> {
    /// The results of one case.
    pub(crate) fn recover(&self, solved: SolvedCase<'_>) -> CaseResult {
        let (model, elements) = (self.model, self.elements);
        let SolvedCase { case, loads, .. } = solved;
        let mut movement = Movement::of(model, self.numbering, solved.solution, solved.prescribed);
        let bent = solved.bent.map(|part| part.tubes);
        if let Held::Free { projection, .. } = self.held
            && bent.is_none()
        {
            projection.apply(&mut movement);
        }
        let supports = self.held.supports();
        let Bearing { reactions, mounts } =
            recover::bearing(model, elements, self.numbering, loads, supports, &movement, &|id, joints| {
                let element = elements.get(id);
                bent.map_or_else(
                    || element.joint_forces(joints, &end_loads(element, loads.spans.on(id))),
                    |bent| bent.joint_forces(id, joints),
                )
            });
        let size = Size::of(model, elements, loads, case, &movement);
        let (relief, reactions) = match self.held {
            Held::Supports(_) => (None, reactions),
            Held::Free { held, .. } => {
                let left_over = reactions.iter().map(|(_, force)| size.share(force)).fold(0.0, f64::max);
                (Some(Relief { held: held.clone(), left_over }), Vec::new())
            }
        };
        let couples = bent.map_or([0.0; 3], |bent| bent.couples(&movement.joints));
        let more = solved.bent.map_or([0.0; 6], |part| part.more);
        let balance = balance(model, case, &more, &couples, &reactions, size);
        let trust = CaseTrust {
            residual: solved.refined.residual,
            refinements: solved.refined.steps,
            applied: balance.applied,
            reacted: balance.reacted,
            imbalance: balance.imbalance,
            couples,
            energy: solved.energy,
        };
        let panels = recover::panels(model, elements, &movement);
        CaseResult {
            name: case.name.clone(),
            tubes: bent.map_or_else(
                || recover::recover_tubes(model, elements, &loads.spans, &movement.joints),
                |bent| bent.recover(model, &movement.joints),
            ),
            measures: case.measures.iter().map(|wanted| recover::measure(model, wanted, &movement)).collect(),
            displacements: movement.joints,
            bodies: movement.bodies,
            mounts,
            panels,
            relief,
            reactions,
            trust,
            system: self.system,
            second_order: None,
        }
    }
}
