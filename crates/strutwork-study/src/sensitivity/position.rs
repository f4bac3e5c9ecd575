//! What a joint's place is worth for the torsional stiffness.
//!
//! A twist is read by the weights c at its stations and loaded by T c, so that with u = T K⁻¹ c
//!
//! ```text
//! θ = c·u,    dθ/dp = 2 (dc/dp)·u − (1/T) d(uᵀ K(p) u)/dp,  u kept
//! ```
//!
//! uᵀ K u is twice the strain energy: only the tubes and panels that meet at the joint change it.

use strutwork_element::beam::{Ends, Vec6};
use strutwork_element::panel::Skin;
use strutwork_element::{Beam, LocalAxes, Panel, Vec12};
use strutwork_loads::LoadCases;
use strutwork_loads::case::Measure;
use strutwork_model::model::{Bond, Point, Tube};
use strutwork_model::{Dof, IndexVec, JointId, Model, PanelId, TubeId};
use strutwork_solve::{CaseResult, Elements, Results, solve_cases};

use super::adjoint::{Adjoints, Place};
use super::{Functional, Response, SensitivityFault};

/// Steps of the five-point differences, as a share of the shortest tube at the joint: small enough that a vertical tube stays one.
const STEP: f64 = 2e-4;

/// The torsional stiffness and how it changes with the places of joints.
#[derive(Debug, Clone, PartialEq)]
pub struct PositionRates {
    /// N·m/rad.
    pub stiffness: f64,
    /// Change with each joint's x, y and z, N·m/rad a metre. `None`: not given here, for a joint that is bolted to a body through
    /// springs, and for the x of a station's joint of a free frame, as its forces would no longer balance by themselves.
    pub joints: IndexVec<JointId, [Option<f64>; 3]>,
    /// Results of the case; no further solution was needed.
    pub results: Results,
}

/// Derivatives of the torsional stiffness of a case by the places of all joints.
///
/// Offsets of tubes' ends go with their joints, end springs and sections stay; a station's forces follow its breadth, so that the
/// couple stays.
///
/// # Errors
/// [`SensitivityFault`]: also [`SensitivityFault::Outside`] for a case that is loaded by anything but the couple that it reads.
///
/// # Source
/// Derived here; the derivative of each tube's strain energy by a five-point difference, whose error is some 1e-12 of it.
pub fn position_rates(model: &Model, cases: &LoadCases, case: usize) -> Result<PositionRates, SensitivityFault> {
    let elements = Elements::of(model);
    let functional = Functional::of(model, &elements, cases, &Response::Twist { case })?;
    let adjoints = Adjoints::of(model, cases, std::slice::from_ref(&functional))?;
    let Some(Place::Own(scale)) = adjoints.places.first() else {
        let what = "the worth of joints' places in a case that is loaded by more than the couple that it reads";
        return Err(SensitivityFault::Outside { what: what.to_owned() });
    };
    let load_case = &cases.0[case];
    let results = solve_cases(model, &LoadCases(vec![load_case.clone()])).map_err(SensitivityFault::Solve)?;
    let result = &results.cases[0];
    let twist = functional.value(result);
    let stiffness = functional.response_value(twist);
    let stations = Stations::of(load_case.measures.iter(), model, result);
    let near = Near::of(model, &elements);
    let joints = model
        .joints()
        .ids()
        .map(|joint| {
            std::array::from_fn(|axis| {
                let known = near.knows(model, joint) && !(load_case.free && axis == 0 && stations.has(joint));
                known.then(|| {
                    let energy = near.double_energy_rate(model, result, joint, axis);
                    let explicit = if axis == 1 { stations.rate(joint) } else { 0.0 };
                    let turned = 2.0 * explicit - scale * energy;
                    -stiffness / twist * turned
                })
            })
        })
        .collect();
    Ok(PositionRates { stiffness, joints, results })
}

/// The stations' joints, and by how much the twist that they read changes when a joint moves along y: m⁻¹.
struct Stations(Vec<(JointId, f64)>);

impl Stations {
    fn of<'m>(mut measures: impl Iterator<Item = &'m Measure>, model: &Model, result: &CaseResult) -> Self {
        let found = measures.find_map(|measure| match *measure {
            Measure::Twist { front, rear, .. } => Some((front, rear)),
            Measure::Movement { .. } => None,
        });
        let Some((front, rear)) = found else { return Self(Vec::new()) };
        let mut rates = Vec::new();
        for (pair, sign) in [(front, 1.0), (rear, -1.0)] {
            let breadth = pair[0].at(model)[1] - pair[1].at(model)[1];
            let [left, right] = pair.map(|point| rise(model, result, point));
            let slope = sign * (left - right) / breadth;
            for (point, side) in pair.into_iter().zip([-1.0, 1.0]) {
                if let Point::Joint(joint) = point {
                    rates.push((joint, side * slope / breadth));
                }
            }
        }
        Self(rates)
    }

    fn has(&self, joint: JointId) -> bool {
        self.0.iter().any(|(known, _)| *known == joint)
    }

    fn rate(&self, joint: JointId) -> f64 {
        self.0.iter().filter(|(known, _)| *known == joint).map(|(_, rate)| rate).sum()
    }
}

/// Rise of a place.
fn rise(model: &Model, result: &CaseResult, point: Point) -> f64 {
    match point {
        Point::Joint(joint) => result.displacements[joint][2],
        Point::OnBody { body, at } => {
            let (about, moved) = (model.bodies()[body].at, &result.bodies[body]);
            moved[2] + moved[3] * (at[1] - about[1]) - moved[4] * (at[0] - about[0])
        }
    }
}

/// What meets at each joint.
struct Near<'m> {
    elements: &'m Elements,
    tubes: IndexVec<JointId, Vec<TubeId>>,
    panels: IndexVec<JointId, Vec<PanelId>>,
}

impl<'m> Near<'m> {
    fn of(model: &Model, elements: &'m Elements) -> Self {
        let mut tubes: IndexVec<JointId, Vec<TubeId>> = model.joints().ids().map(|_| Vec::new()).collect();
        for (id, tube) in model.tubes().iter_with_id() {
            tubes[tube.from].push(id);
            tubes[tube.to].push(id);
        }
        let mut panels: IndexVec<JointId, Vec<PanelId>> = model.joints().ids().map(|_| Vec::new()).collect();
        for (id, panel) in model.panels().iter_with_id() {
            panel.joints.iter().for_each(|joint| panels[*joint].push(id));
        }
        Self { elements, tubes, panels }
    }

    /// Whether a joint is free of springs to bodies.
    fn knows(&self, model: &Model, joint: JointId) -> bool {
        model
            .mounts()
            .iter()
            .filter(|mount| mount.joint == joint)
            .all(|mount| mount.bonds.0.iter().all(|bond| !matches!(bond, Bond::Spring(_))))
    }

    /// d(uᵀ K u)/dp for one coordinate of a joint.
    fn double_energy_rate(&self, model: &Model, result: &CaseResult, joint: JointId, axis: usize) -> f64 {
        let shortest = self.tubes[joint].iter().map(|tube| model.length(*tube)).fold(f64::INFINITY, f64::min);
        let step = STEP * if shortest.is_finite() { shortest } else { 1.0 };
        let at = |by: f64| {
            let moved = Moved { model, result, joint, axis, by };
            let tubes: f64 = self.tubes[joint].iter().map(|tube| moved.of_tube(self.elements, *tube)).sum();
            let panels: f64 = self.panels[joint].iter().map(|panel| moved.of_panel(*panel)).sum();
            tubes + panels
        };
        (at(-2.0 * step) - 8.0 * at(-step) + 8.0 * at(step) - at(2.0 * step)) / (12.0 * step)
    }
}

/// A frame with one joint moved, its movements kept.
struct Moved<'a> {
    model: &'a Model,
    result: &'a CaseResult,
    joint: JointId,
    axis: usize,
    by: f64,
}

impl Moved<'_> {
    fn place(&self, joint: JointId) -> [f64; 3] {
        let mut at = self.model.joints()[joint].at;
        if joint == self.joint {
            at[self.axis] += self.by;
        }
        at
    }

    /// Movement of a joint: where it follows a body, that of the body at the joint's new place.
    fn movement(&self, joint: JointId) -> [f64; 6] {
        let mut moved = self.result.displacements[joint];
        if joint != self.joint {
            return moved;
        }
        for mount in self.model.mounts().iter().filter(|mount| mount.joint == joint) {
            let turn = nalgebra::Vector3::from_column_slice(&self.result.bodies[mount.body][3..]);
            let mut arm = nalgebra::Vector3::zeros();
            arm[self.axis] = self.by;
            let more = turn.cross(&arm);
            for dof in [Dof::Ux, Dof::Uy, Dof::Uz] {
                if mount.bonds[dof] == Bond::Rigid {
                    moved[dof.index()] += more[dof.index()];
                }
            }
        }
        moved
    }

    /// qᵀ k q of a tube.
    fn of_tube(&self, elements: &Elements, id: TubeId) -> f64 {
        let tube = &self.model.tubes()[id];
        let end = |joint: JointId, offset: [f64; 3]| {
            let at = self.place(joint);
            std::array::from_fn(|axis| at[axis] + offset[axis])
        };
        let (from, to) = (end(tube.from, tube.end_from.offset), end(tube.to, tube.end_to.offset));
        let Ok(axes) = LocalAxes::between(from, to, tube.roll) else { return f64::NAN };
        let beam = Beam { length: axes.length, ..elements.get(id).beam };
        let ends = self.movement(tube.from).into_iter().chain(self.movement(tube.to));
        let local = axes.vec_to_local(&Vec12::from_iterator(ends));
        let (q, k): (Vec6, _) = if elements.get(id).joined.is_some() {
            beam.join(&joined_ends(tube, &axes)).deformation(&local)
        } else {
            (beam.deformations(&local), beam.deformation_stiffness())
        };
        q.dot(&(k * q))
    }

    /// Twice the energy of a panel.
    fn of_panel(&self, id: PanelId) -> f64 {
        let row = &self.model.panels()[id];
        let material = &self.model.materials()[row.material];
        let places: Vec<[f64; 3]> = row.joints.iter().map(|joint| self.place(*joint)).collect();
        let skin = Skin {
            thickness: row.thickness,
            youngs: material.youngs,
            shear: material.shear,
            fixing: row.fixing.map_or(0.0, |fixing| self.model.fixings()[fixing].kind.compliance()),
        };
        let moved: Vec<[f64; 3]> = row
            .joints
            .iter()
            .map(|joint| {
                let [x, y, z, ..] = self.movement(*joint);
                [x, y, z]
            })
            .collect();
        Panel::new(&places, skin).map_or(f64::NAN, |panel| 2.0 * panel.energy(&moved))
    }
}

/// How a tube's ends are joined: a release is a spring of zero stiffness.
fn joined_ends(tube: &Tube, axes: &LocalAxes) -> Ends {
    let mut ends = Ends::RIGID;
    let both = [(&tube.end_from, &tube.release_from), (&tube.end_to, &tube.release_to)];
    for (place, (end, released)) in both.into_iter().enumerate() {
        ends.arms[place] = axes.to_local(end.offset);
        for dof in Dof::ALL {
            ends.springs[6 * place + dof.index()] = if released[dof] { Some(0.0) } else { end.springs[dof] };
        }
    }
    ends
}
