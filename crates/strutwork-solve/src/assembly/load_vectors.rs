//! Right-hand sides: what each case puts on the joints, directly and through its tubes.

use strutwork_element::Vec12;
use strutwork_element::beam::SpanLoad;
use strutwork_loads::LoadCase;
use strutwork_model::ids::Id;
use strutwork_model::model::{Axes, Model};
use strutwork_model::{Dof, JointId, TubeId};

use crate::elements::{Element, Elements};
use crate::error::SolveError;

/// What acts between the ends of each tube in one case, local axes.
#[derive(Debug, Clone)]
pub struct SpanLoads {
    /// One list a tube; empty as a whole where no tube is loaded.
    by_tube: Vec<Vec<SpanLoad>>,
}

/// Forces of one case at all joints, held ones too, and the movements its supports prescribe.
#[derive(Debug, Clone)]
pub struct LoadVectors {
    /// Joint loads and what tubes pass on: N, N·m, global axes.
    pub joints: Vec<[f64; 6]>,
    /// Joint loads alone, for reactions and equilibrium.
    pub direct: Vec<[f64; 6]>,
    /// Prescribed movements, m and rad: joint and its six values.
    pub settlements: Vec<(JointId, [f64; 6])>,
    /// What acts between the ends of the tubes.
    pub spans: SpanLoads,
}

impl SpanLoads {
    /// The span loads of a case.
    pub fn of(model: &Model, elements: &Elements, case: &LoadCase) -> Self {
        if case.tube_loads.is_empty() && case.tube_point_loads.is_empty() && case.temperatures.is_empty() {
            return Self { by_tube: Vec::new() };
        }
        let mut by_tube = vec![Vec::new(); model.tubes().len()];
        for load in &case.tube_loads {
            let turn = turner(elements.get(load.tube), load.axes);
            by_tube[load.tube.index()].push(SpanLoad::Line { from: turn(load.from), to: turn(load.to) });
        }
        for load in &case.tube_point_loads {
            let element = elements.get(load.tube);
            let turn = turner(element, load.axes);
            by_tube[load.tube.index()].push(SpanLoad::Point {
                at: load.at * element.axes.length,
                force: turn(load.force),
                moment: turn(load.moment),
            });
        }
        for load in &case.temperatures {
            let material = &model.materials()[model.tubes()[load.tube].material];
            let expansion = material.expansion.unwrap_or(0.0);
            by_tube[load.tube.index()].push(SpanLoad::Free {
                strain: expansion * load.rise,
                strain_y: expansion * load.gradient_y,
                strain_z: expansion * load.gradient_z,
            });
        }
        Self { by_tube }
    }

    /// What acts on one tube.
    pub fn on(&self, tube: TubeId) -> &[SpanLoad] {
        self.by_tube.get(tube.index()).map_or(&[], Vec::as_slice)
    }

    /// Whether anything acts on any tube.
    fn any(&self) -> bool {
        !self.by_tube.is_empty()
    }
}

impl LoadVectors {
    /// The right-hand side of a case.
    ///
    /// # Errors
    /// [`SolveError::LoadedRelease`] when a tube is loaded in a direction in which its own releases let it move.
    pub fn of(model: &Model, elements: &Elements, case: &LoadCase) -> Result<Self, SolveError> {
        let mut direct = vec![[0.0; 6]; model.joints().len()];
        for load in &case.joint_loads {
            for (sum, part) in direct[load.joint.index()].iter_mut().zip(load.load.0) {
                *sum += part;
            }
        }
        let spans = SpanLoads::of(model, elements, case);
        let mut joints = direct.clone();
        if spans.any() {
            for tube in model.tubes().ids() {
                let element = elements.get(tube);
                let Some(local) = end_loads(element, spans.on(tube)) else { continue };
                if let Some(released) = &element.released
                    && let Some(freed) = released.loaded(&raw_end_loads(element, spans.on(tube)))
                {
                    return Err(SolveError::LoadedRelease { case: case.name.clone(), tube, dof: Dof::ALL[freed % 6] });
                }
                let global = element.axes.vec_to_global(&local);
                for end in 0..2 {
                    for dof in 0..6 {
                        joints[element.joints[end]][dof] += global[6 * end + dof];
                    }
                }
            }
        }
        let mut settlements: Vec<(JointId, [f64; 6])> = Vec::new();
        for settlement in &case.settlements {
            let row = match settlements.iter_mut().find(|(joint, _)| *joint == settlement.joint) {
                Some((_, row)) => row,
                None => {
                    settlements.push((settlement.joint, [0.0; 6]));
                    &mut settlements.last_mut().expect("just pushed").1
                }
            };
            row[settlement.dof.index()] += settlement.value;
        }
        Ok(Self { joints, direct, settlements, spans })
    }
}

/// End loads of everything on a tube as its joints see it, local axes; `None` where nothing acts.
fn end_loads(element: &Element, loads: &[SpanLoad]) -> Option<Vec12> {
    if loads.is_empty() {
        return None;
    }
    let raw = raw_end_loads(element, loads);
    Some(element.released.as_ref().map_or(raw, |released| released.end_loads(&raw)))
}

/// End loads of everything on a tube were its ends clamped, local axes.
pub(crate) fn raw_end_loads(element: &Element, loads: &[SpanLoad]) -> Vec12 {
    loads.iter().map(|load| element.beam.end_loads(load)).fold(Vec12::zeros(), |sum, part| sum + part)
}

fn turner(element: &Element, axes: Axes) -> impl Fn([f64; 3]) -> [f64; 3] + '_ {
    move |vector| match axes {
        Axes::Local => vector,
        Axes::Global => element.axes.to_local(vector),
    }
}
