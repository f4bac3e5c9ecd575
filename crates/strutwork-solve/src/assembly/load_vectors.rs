//! Right-hand sides: what each case puts on joints and bodies, directly and through the tubes.

use strutwork_element::beam::SpanLoad;
use strutwork_element::{Mat12, Vec12};
use strutwork_loads::LoadCase;
use strutwork_model::ids::Id;
use strutwork_model::model::{Axes, Hold, Model, Support};
use strutwork_model::{Dof, JointId, TubeId};

use crate::elements::{Element, Elements};
use crate::error::SolveError;
use crate::numbering::Numbering;
use crate::rigid;

/// What acts between the ends of each tube in one case, local axes.
#[derive(Debug, Clone)]
pub struct SpanLoads {
    /// One list a tube; empty as a whole where no tube is loaded.
    by_tube: Vec<Vec<SpanLoad>>,
}

/// Forces of one case at all joints and bodies, held ones too, and the movements its supports prescribe.
#[derive(Debug, Clone)]
pub struct LoadVectors {
    /// Direct loads and what tubes pass on, one entry a node (joints, then bodies): N, N·m, global axes.
    pub nodes: Vec<[f64; 6]>,
    /// Loads on joints and bodies alone, for reactions and mounts.
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

    /// Everything times a factor.
    pub(crate) fn times(&self, factor: f64) -> Self {
        let by_tube = self.by_tube.iter().map(|loads| loads.iter().map(|load| load.times(factor)).collect());
        Self { by_tube: by_tube.collect() }
    }

    /// Loaded tubes, each with what acts on it.
    fn loaded<'s>(
        &'s self,
        model: &Model,
        elements: &'s Elements,
    ) -> impl Iterator<Item = (TubeId, &'s Element, Vec12)> {
        let tubes = model.tubes().ids().take(self.by_tube.len()).filter(|tube| !self.on(*tube).is_empty());
        tubes.map(|tube| {
            let element = elements.get(tube);
            (tube, element, end_loads(element, self.on(tube)))
        })
    }

    /// A tube loaded in a direction in which its own releases let it move, and the direction.
    fn loaded_release(&self, model: &Model, elements: &Elements) -> Option<(TubeId, Dof)> {
        self.loaded(model, elements).find_map(|(tube, element, acting)| {
            let freed = element.joined.as_ref()?.loaded(&acting)?;
            Some((tube, Dof::ALL[freed % 6]))
        })
    }
}

impl LoadVectors {
    /// The right-hand side of a case.
    ///
    /// # Errors
    /// [`SolveError::LoadedRelease`] when a tube is loaded in a direction in which its own releases let it move.
    pub fn of(model: &Model, elements: &Elements, case: &LoadCase) -> Result<Self, SolveError> {
        let direct = direct(model, case);
        let spans = SpanLoads::of(model, elements, case);
        if let Some((tube, dof)) = spans.loaded_release(model, elements) {
            return Err(SolveError::LoadedRelease { case: case.name.clone(), tube, dof });
        }
        let nodes = nodes(model, elements, &direct, &spans);
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
        Ok(Self { nodes, direct, settlements, spans })
    }

    /// What stands on the right: loads on equations, less what movements prescribed at nodes bring; `stiffness` is a tube's
    /// over its joints, by its place, global axes.
    pub(crate) fn right_side(
        &self,
        elements: &Elements,
        numbering: &Numbering,
        supports: &[Support],
        prescribed: &[(usize, [f64; 6])],
        stiffness: &dyn Fn(usize, &Element) -> Mat12,
    ) -> Vec<f64> {
        let mut right = vec![0.0; numbering.len()];
        for (node, forces) in self.nodes.iter().enumerate() {
            numbering.gather(node, forces, 1.0, &mut right);
        }
        if prescribed.is_empty() {
            return right;
        }
        let mut moved: Vec<Option<[f64; 6]>> = vec![None; numbering.nodes()];
        for (node, values) in prescribed {
            moved[*node] = Some(*values);
        }
        for (place, element) in elements.tubes().iter().enumerate() {
            let [a, b] = element.joints.map(|joint| moved[joint]);
            if a.is_some() || b.is_some() {
                let ends = a.unwrap_or_default().into_iter().chain(b.unwrap_or_default());
                let force = stiffness(place, element) * Vec12::from_iterator(ends);
                for (end, joint) in element.joints.into_iter().enumerate() {
                    let force = std::array::from_fn(|dof| force[6 * end + dof]);
                    numbering.gather(joint, &force, -1.0, &mut right);
                }
            }
        }
        for sheet in elements.sheets() {
            if sheet.corners.iter().any(|corner| moved[*corner].is_some()) {
                let corners: Vec<[f64; 6]> =
                    sheet.corners.iter().map(|corner| moved[*corner].unwrap_or_default()).collect();
                for (corner, force) in sheet.corners.iter().zip(sheet.joint_forces(&corners)) {
                    numbering.gather(*corner, &force, -1.0, &mut right);
                }
            }
        }
        for bush in elements.bushes() {
            let [joint, body] = bush.nodes;
            if moved[joint].is_some() || moved[body].is_some() {
                let on_joint = bush.on_joint(&moved[joint].unwrap_or_default(), &moved[body].unwrap_or_default());
                numbering.gather(joint, &on_joint, 1.0, &mut right);
                numbering.gather(body, &rigid::reduced(&on_joint, bush.arm), -1.0, &mut right);
            }
        }
        for support in supports {
            let joint = support.joint.index();
            if let Some(values) = moved[joint] {
                let taken = Dof::ALL.map(|dof| match support.holds[dof] {
                    Hold::Spring(stiffness) => stiffness * values[dof.index()],
                    Hold::Fixed | Hold::Free => 0.0,
                });
                numbering.gather(joint, &taken, -1.0, &mut right);
            }
        }
        right
    }
}

/// What a case puts on joints and bodies, directly and through the tubes: N, N·m, global axes, one entry a node. Loads that
/// a tube's own releases let go are lost.
pub(crate) fn node_loads(model: &Model, elements: &Elements, case: &LoadCase) -> Vec<[f64; 6]> {
    nodes(model, elements, &direct(model, case), &SpanLoads::of(model, elements, case))
}

/// Loads on joints and bodies alone.
fn direct(model: &Model, case: &LoadCase) -> Vec<[f64; 6]> {
    let joints = model.joints().len();
    let mut direct = vec![[0.0; 6]; joints + model.bodies().len()];
    let on_joints = case.joint_loads.iter().map(|load| (load.joint.index(), load.load.0));
    let on_bodies = case.body_loads.iter().map(|load| (joints + load.body.index(), load.load.0));
    for (node, load) in on_joints.chain(on_bodies) {
        for (sum, part) in direct[node].iter_mut().zip(load) {
            *sum += part;
        }
    }
    direct
}

/// With what tubes pass on.
fn nodes(model: &Model, elements: &Elements, direct: &[[f64; 6]], spans: &SpanLoads) -> Vec<[f64; 6]> {
    let mut nodes = direct.to_vec();
    for (_, element, acting) in spans.loaded(model, elements) {
        let global = element.joint_loads(&acting);
        for (end, joint) in element.joints.into_iter().enumerate() {
            nodes[joint].iter_mut().zip(&global.as_slice()[6 * end..]).for_each(|(sum, part)| *sum += part);
        }
    }
    nodes
}

/// End loads of everything on a tube were its ends clamped, local axes.
pub(crate) fn end_loads(element: &Element, loads: &[SpanLoad]) -> Vec12 {
    loads.iter().map(|load| element.beam.end_loads(load)).fold(Vec12::zeros(), |sum, part| sum + part)
}

fn turner(element: &Element, axes: Axes) -> impl Fn([f64; 3]) -> [f64; 3] + '_ {
    move |vector| match axes {
        Axes::Local => vector,
        Axes::Global => element.axes.to_local(vector),
    }
}
