//! A frame held as a case holds it, ready to be solved again and again.

use strutwork_model::ids::Id;
use strutwork_model::model::Support;
use strutwork_model::{Dof, JointId, Model, Subdivided, TubeId};

use crate::analysis::ground::{ground, typical_stiffness};
use crate::assembly::{Pattern, System};
use crate::elements::Elements;
use crate::error::{Node, SolveError};
use crate::linear::{Factored, Symbolic};
use crate::mechanism;
use crate::numbering::Numbering;
use crate::relief;
use crate::rigid;

/// A pivot this small beside its diagonal entry: a motion that nothing resists.
const SUSPICIOUS_PIVOT: f64 = 1e-11;

/// Stiffness and pattern of a frame with these supports.
///
/// A free frame is held by six springs at freedoms that determine its place: loads that are in balance put nothing into them,
/// so that the answer is that of the free frame, up to a rigid motion.
pub(crate) struct Held {
    pub(crate) elements: Elements,
    pub(crate) numbering: Numbering,
    pub(crate) pattern: Pattern,
    pub(crate) symbolic: Symbolic,
    /// As the supports hold it; singular where the frame is free.
    pub(crate) stiffness: System,
    /// With the springs that hold a free frame; the same as `stiffness` else.
    pub(crate) sound: System,
    /// Those springs: where each is, and its stiffness.
    pub(crate) springs: Vec<(JointId, Dof, f64)>,
    /// The six rigid motions over the equations, where the frame is free.
    pub(crate) rigid: Vec<Vec<f64>>,
}

impl Held {
    /// The frame with these supports; with none it is free.
    pub(crate) fn of(model: &Model, supports: &[Support]) -> Self {
        let elements = Elements::of(model);
        let numbering = Numbering::of(model, supports);
        let pattern = Pattern::of(&elements, &numbering);
        let symbolic = Symbolic::analyse(&pattern, &numbering, &rigid::places(model));
        let mut stiffness = System::assemble(&elements, &numbering, &pattern, supports);
        let left_out = mechanism::unstiffened(&elements, &numbering, &stiffness);
        let typical = typical_stiffness(&stiffness, &numbering);
        for left in &left_out {
            ground(&mut stiffness, &numbering, left, typical);
        }
        let mut sound = stiffness.clone();
        let (mut springs, mut motions) = (Vec::new(), Vec::new());
        if supports.is_empty() {
            for (joint, dof) in relief::determinate(model, &elements) {
                let spring = typical[usize::from(dof.is_rotation())];
                sound.add_support_spring(&numbering, joint.index(), dof, spring);
                springs.push((joint, dof, spring));
            }
            motions = rigid_motions(model, &numbering).to_vec();
        }
        Self { elements, numbering, pattern, symbolic, stiffness, sound, springs, rigid: motions }
    }

    /// The factor of the sound stiffness; refuses a frame that can move without resistance. `self` is that of `fine`, and the
    /// error speaks of `model`.
    ///
    /// # Errors
    /// [`SolveError::Mechanism`] as a static case has it; [`SolveError::IllConditioned`] where no such motion is found.
    pub(crate) fn factor(
        &self,
        model: &Model,
        fine: &Subdivided,
        supports: &[Support],
        case: &str,
    ) -> Result<Factored<'_>, SolveError> {
        let outcome = self.symbolic.factor(self.sound.stiffness());
        // 0 where no pivot was left.
        let (pivot, equation) = match &outcome {
            Ok(factored) => factored.smallest_pivot(),
            Err(failed) => (0.0, failed.equation),
        };
        let suspicious = pivot <= SUSPICIOUS_PIVOT;
        if suspicious {
            let whole = Self::of(model, supports);
            let idle = whole.idle(supports);
            if !idle.is_empty() {
                let motions = mechanism::describe(model, &whole.numbering, supports, &idle);
                return Err(SolveError::Mechanism { case: case.to_owned(), motions });
            }
        }
        match outcome {
            // Small, but nothing moves: soft, no mechanism.
            Ok(factored) if !suspicious || self.idle(supports).is_empty() => Ok(factored),
            _ => {
                let (node, dof) = self.numbering.freedom(equation);
                let node = match self.numbering.node(node) {
                    Node::Joint(joint) if joint.index() >= model.joints().len() => {
                        let piece = fine.model.tubes().iter_with_id().find(|(_, tube)| tube.to == joint);
                        let tube = piece.map_or(TubeId::new(0), |(piece, _)| fine.pieces[piece].0);
                        Node::Joint(model.tubes()[tube].from)
                    }
                    other => other,
                };
                Err(SolveError::IllConditioned { case: case.to_owned(), node, dof, pivot })
            }
        }
    }

    /// Motions that nothing resists.
    fn idle(&self, supports: &[Support]) -> Vec<Vec<f64>> {
        let typical = typical_stiffness(&self.sound, &self.numbering);
        mechanism::free_motions(&self.elements, &self.numbering, &self.sound, &self.symbolic, supports, &[], typical)
    }
}

/// The six rigid motions over the equations: along x, y, z, about x, y, z through the joints' middle; what is held stays.
pub(crate) fn rigid_motions(model: &Model, numbering: &Numbering) -> [Vec<f64>; 6] {
    let (centre, places) = (rigid::centre(model), rigid::places(model));
    std::array::from_fn(|motion| {
        let mut unit = [0.0; 6];
        unit[motion] = 1.0;
        (0..numbering.len())
            .map(|equation| {
                let (node, dof) = numbering.freedom(equation);
                rigid::carried(&unit, rigid::arm(centre, places[node]))[dof.index()]
            })
            .collect()
    })
}
