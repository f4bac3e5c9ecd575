//! A case's model with its results and findings, and what is read off them.

use strutwork_checks::Calculation;
use strutwork_loads::case::{LinkForce, LoadCases};
use strutwork_loads::wheels::roll_model;
use strutwork_loads::{MassModel, RollModel};
use strutwork_model::model::{Model, Section, Suspension, Wheel};
use strutwork_model::{JointId, MaterialId, MountId, PanelId, SectionId, TubeId, read_model};
use strutwork_rig::{RigEvidence, rig_evidence};
use strutwork_solve::results::{
    CaseResult, MeasureResult, MountResult, PanelResult, SectionForces, Station, Stress, TubeResult,
};
use strutwork_solve::{
    Elements, Results, SecondOrderWanted, SolveError, find_bays, recover, solve_cases, solve_second_order,
};

use crate::case::Case;
use crate::cases::{derive, twist};
use crate::checked::Checked;
use crate::lines::line;
use crate::part::{BayPart, Component, End, LinkPart, MountPart, PanelPart, RollPart, StressComponent};
use crate::place::Place;
use crate::rig;
use crate::run::{Problem, RunFault};
use crate::shapes::Shapes;
use crate::unit::Dimension;
use crate::what::{CaseWhat, What};

/// A case's model with its results.
pub(crate) struct Frame {
    model: Model,
    mass: MassModel,
    cases: LoadCases,
    /// `None` where no quantity needs a solution.
    results: Option<Results>,
    /// In second order; `None` where no quantity needs it.
    second: Option<Results>,
    /// What the checks find; `None` where no quantity needs it.
    checked: Option<Checked>,
    /// The sheet of a twist rig beside the model; `None` without one.
    rig: Option<RigEvidence>,
    /// Natural modes and buckling, as far as quantities ask for them.
    shapes: Shapes,
}

impl Frame {
    /// Reads, derives and, where a quantity needs it, solves.
    pub(crate) fn of(case: &Case) -> Result<Self, RunFault> {
        let model = read_model(&case.files)?.value;
        let mass = MassModel::of(&model);
        let cases = derive(case, &model)?;
        let solve = case.quantities.iter().any(|quantity| quantity.what.needs_results());
        let results = if solve { Some(solve_cases(&model, &cases)?) } else { None };
        let bends = case
            .quantities
            .iter()
            .flat_map(|quantity| quantity.what.of_cases())
            .any(|(_, what)| what.is_second_order());
        let second = match results.as_ref().filter(|_| bends) {
            Some(first) => Some(solve_second_order(&model, &cases, first, SecondOrderWanted::default())?),
            None => None,
        };
        let wanted =
            case.quantities.iter().any(|quantity| quantity.what.of_cases().iter().any(|(_, what)| what.is_check()));
        let checked = results.as_ref().filter(|_| wanted).map(|results| Checked::of(&model, &cases, results));
        let shapes = Shapes::of(case, &model, &cases, results.as_ref());
        let rig = rig_evidence(&model);
        Ok(Self { model, mass, cases, results, second, checked, rig, shapes })
    }

    /// Our value, SI, of something that measures `wanted`.
    pub(crate) fn value(&self, what: &What, wanted: Dimension) -> Result<f64, Problem> {
        match what {
            What::OfCase { case, result: CaseWhat::Check { check, place, symbol } } => {
                let page = self.page(case, check, place)?;
                line(&page, symbol, wanted)
            }
            What::OfCase { case, result: CaseWhat::SecondOrder { of } } => self.of_case(self.second.as_ref(), case, of),
            What::OfCase { case, result: CaseWhat::StandsShare } => self.stands_share(case),
            What::OfCase { case, result } => self.of_case(self.results.as_ref(), case, result),
            What::Section { section, property } => {
                let (id, row) = self.section(section)?;
                let tube = self.model.tubes().iter().find(|tube| tube.section == id);
                let density = tube.map_or(0.0, |tube| self.model.materials()[tube.material].density);
                property.of(row, density).ok_or_else(|| "the section does not have it".to_owned())
            }
            What::Mass { property } => Ok(property.of(&self.mass)),
            What::Frequency { mode, pieces, under } => self.shapes.frequency(*mode, *pieces, under.as_deref()),
            What::PanelDiagonal { panel, diagonal, material } => {
                let youngs = self.model.materials()[self.material(material)?].youngs;
                let areas = Elements::of(&self.model).panel(self.panel(panel)?).equivalent_diagonals(youngs);
                areas.map(|areas| areas[*diagonal]).ok_or_else(|| "a triangle has no diagonals".to_owned())
            }
            What::Bay { joints, part } => self.bay(joints, *part),
            What::Roll { frame, part } => self.roll(*frame, *part),
            What::Rig { part } => part.of(self.rig()?),
            What::RigBay { station } => rig::bay(&self.model, self.rig()?, station),
            What::Formula { .. } => Err("a formula needs no frame".to_owned()),
            What::SizedMass(_) => Err("sizes are not chosen on one frame".to_owned()),
            What::Ratio { of, to } => Ok(self.value(of, wanted)? / self.value(to, wanted)?),
        }
    }

    fn rig(&self) -> Result<&RigEvidence, Problem> {
        self.rig.as_ref().ok_or_else(|| "there is no sheet of a rig".to_owned())
    }

    /// The share of a case under which the frame buckles.
    fn stands_share(&self, name: &str) -> Result<f64, Problem> {
        let mut refused = self.second.iter().flat_map(|results| &results.refused);
        match refused.find(|one| one.case == name).map(|one| &one.error) {
            Some(SolveError::Buckles { factor, .. }) => Ok(*factor),
            Some(other) => Err(other.to_string()),
            None => Err("the frame stands under the whole of it".to_owned()),
        }
    }

    fn of_case(&self, results: Option<&Results>, name: &str, what: &CaseWhat) -> Result<f64, Problem> {
        let mut cases = results.into_iter().flat_map(|results| &results.cases);
        let none = || format!("there is no load case `{name}`, or it has no result");
        let result = cases.find(|result| result.name == name).ok_or_else(none)?;
        let load_case = self.cases.0.iter().find(|case| case.name == name).ok_or_else(none)?;
        match what {
            CaseWhat::Displacement { joint, minus_joint, dof } => {
                let of = |joint: &str| Ok::<_, Problem>(result.displacements[self.joint(joint)?][dof.index()]);
                Ok(of(joint)? - minus_joint.as_deref().map_or(Ok(0.0), of)?)
            }
            CaseWhat::BodyMovement { body, dof } => {
                let body = self.model.body_named(body).ok_or_else(|| format!("there is no body `{body}`"))?;
                Ok(result.bodies[body][dof.index()])
            }
            CaseWhat::Reaction { joint, dof } => {
                let at = self.joint(joint)?;
                let found = result.reactions.iter().find(|(held, _)| *held == at);
                found.map(|(_, force)| force[dof.index()]).ok_or_else(|| format!("joint `{joint}` is not held"))
            }
            CaseWhat::MemberForce { tube, at, component } => {
                let forces = recover::forces_at(&self.model, load_case, result, self.tube(tube)?, *at);
                Ok(part(&forces, *component))
            }
            CaseWhat::EndForce { tube, end, component } => {
                // At the `from` end the joint stands on the side that is acted on, at the `to` end on the side that acts.
                let stations = &result.tubes[self.tube(tube)?].stations;
                let (station, sign) = match end {
                    End::From => (stations.first(), -1.0),
                    End::To => (stations.last(), 1.0),
                };
                let station = station.ok_or_else(|| "the tube has no stations".to_owned())?;
                Ok(sign * part(&station.forces, *component))
            }
            CaseWhat::Stress { tube, at, component } => {
                let stress = station_at(&result.tubes[self.tube(tube)?], *at).and_then(|station| station.stress);
                stress.map(|stress| stress_part(&stress, *component)).ok_or_else(|| "no stress there".to_owned())
            }
            CaseWhat::Check { .. } => Err("it is a line of a calculation".to_owned()),
            CaseWhat::SecondOrder { .. } | CaseWhat::StandsShare => Err("it is second order already".to_owned()),
            CaseWhat::Mount { body, joint, part } => mount_part(&result.mounts[self.mount(body, joint)?], *part),
            CaseWhat::Link { wheel, link, part } => {
                let place = self.link(*wheel, link)?;
                let mut forces = load_case.derivation.link_forces.iter();
                let found = forces.find(|force| force.wheel == *wheel && force.link == place);
                link_part(found.ok_or_else(|| "the case loads no link".to_owned())?, *part)
            }
            CaseWhat::Panel { panel, part } => self.panel_part(result, self.panel(panel)?, *part),
            CaseWhat::Acceleration { dof } => {
                let acceleration = load_case.derivation.acceleration;
                acceleration.map(|six| six[dof.index()]).ok_or_else(|| "the case is not balanced".to_owned())
            }
            CaseWhat::LoadFactor { mode, pieces } => self.shapes.load_factor(name, *mode, *pieces),
            CaseWhat::LeftOver => {
                let relief = result.relief.as_ref().ok_or_else(|| "the case is not free".to_owned())?;
                Ok(relief.left_over)
            }
            CaseWhat::TorsionalStiffness { front, rear, couple } => {
                let asked = twist(&self.model, front, rear, *couple).map_err(|fault| fault.to_string())?;
                let measures = load_case.measures.iter().zip(&result.measures);
                let found = measures.into_iter().find_map(|(measure, read)| match read {
                    MeasureResult::Twist { stiffness, .. } if *measure == asked => Some(*stiffness),
                    _ => None,
                });
                found.ok_or_else(|| "the twist was not read".to_owned())
            }
        }
    }

    /// The calculation behind the worst finding of a check on a place.
    fn page(&self, case: &str, check: &str, place: &Place) -> Result<Calculation, Problem> {
        let subject = place.of(&self.model).ok_or_else(|| format!("there is no {place}"))?;
        let (Some(results), Some(checked)) = (&self.results, &self.checked) else {
            return Err("nothing was checked".to_owned());
        };
        checked.page(&self.model, &self.cases, results, (case, check, subject))
    }

    fn panel_part(&self, result: &CaseResult, id: PanelId, part: PanelPart) -> Result<f64, Problem> {
        let PanelResult { edge_flows, flow, stress, buckling_stress, buckling_ratio, fastener, bond_stress } =
            &result.panels[id];
        let edge_flow = |edge: usize| edge_flows.get(edge).copied().ok_or_else(|| "no such edge".to_owned());
        match part {
            PanelPart::Flow => Ok(*flow),
            PanelPart::EdgeFlow(edge) => edge_flow(edge),
            PanelPart::EdgeForce(edge) => {
                let corners = &self.model.panels()[id].joints;
                let [a, b] = [edge, edge + 1].map(|corner| self.model.joints()[corners[corner % corners.len()]].at);
                let length = (0..3).map(|axis| (b[axis] - a[axis]).powi(2)).sum::<f64>().sqrt();
                Ok(edge_flow(edge)? * length)
            }
            PanelPart::Stress => Ok(*stress),
            PanelPart::Buckling => Ok(*buckling_stress),
            PanelPart::BucklingRatio => Ok(*buckling_ratio),
            PanelPart::Fastener => fastener.ok_or_else(|| "the panel has no fasteners".to_owned()),
            PanelPart::Bond => bond_stress.ok_or_else(|| "the panel is not bonded".to_owned()),
        }
    }

    fn bay(&self, joints: &[String; 4], part: BayPart) -> Result<f64, Problem> {
        let mut wanted = joints.iter().map(|name| self.joint(name)).collect::<Result<Vec<_>, _>>()?;
        wanted.sort_unstable();
        let bays = find_bays(&self.model).bays;
        let found = bays.iter().find(|bay| {
            let mut corners = bay.corners;
            corners.sort_unstable();
            corners[..] == wanted[..]
        });
        let bay = found.ok_or_else(|| "no bay was found there".to_owned())?;
        match part {
            BayPart::Shear => Ok(bay.stiffness),
            BayPart::Bare => Ok(bay.bare),
            BayPart::Along => bay.along.ok_or_else(|| "the bay has no right angles".to_owned()),
        }
    }

    fn roll(&self, frame: f64, part: RollPart) -> Result<f64, Problem> {
        let vehicle = self.model.vehicle().ok_or_else(|| "the model has no vehicle".to_owned())?;
        let model: RollModel = roll_model(vehicle, Some(frame)).map_err(|fault| fault.to_string())?;
        Ok(match part {
            RollPart::Reaching => model.reaching(),
            RollPart::Carried { axle, couples } => model.under(couples).carried[axle],
        })
    }

    fn joint(&self, name: &str) -> Result<JointId, Problem> {
        self.model.joint_named(name).ok_or_else(|| format!("there is no joint `{name}`"))
    }

    fn tube(&self, name: &str) -> Result<TubeId, Problem> {
        self.model.tube_named(name).ok_or_else(|| format!("there is no tube `{name}`"))
    }

    fn panel(&self, name: &str) -> Result<PanelId, Problem> {
        self.model.panel_named(name).ok_or_else(|| format!("there is no panel `{name}`"))
    }

    fn section(&self, name: &str) -> Result<(SectionId, &Section), Problem> {
        let found = self.model.sections().iter_with_id().find(|(_, section)| section.name == name);
        found.ok_or_else(|| format!("there is no section `{name}`"))
    }

    fn material(&self, name: &str) -> Result<MaterialId, Problem> {
        let found = self.model.materials().iter_with_id().find(|(_, material)| material.name == name);
        found.map(|(id, _)| id).ok_or_else(|| format!("there is no material `{name}`"))
    }

    fn mount(&self, body: &str, joint: &str) -> Result<MountId, Problem> {
        let (of, at) = (self.model.body_named(body), self.joint(joint)?);
        let found = self.model.mounts().iter_with_id().find(|(_, row)| Some(row.body) == of && row.joint == at);
        found.map(|(id, _)| id).ok_or_else(|| format!("there is no mount of `{body}` at `{joint}`"))
    }

    fn link(&self, wheel: Wheel, name: &str) -> Result<usize, Problem> {
        let corner = self.model.vehicle().map(|vehicle| &vehicle.corner(wheel).suspension);
        let place = match corner {
            Some(Suspension::Linked(links)) => links.iter().position(|link| link.name == name),
            _ => None,
        };
        place.ok_or_else(|| format!("there is no {} link `{name}`", wheel.name()))
    }
}

fn station_at(tube: &TubeResult, at: f64) -> Option<&Station> {
    tube.stations.iter().find(|station| station.at == at)
}

fn part(forces: &SectionForces, component: Component) -> f64 {
    match component {
        Component::N => forces.n,
        Component::Vy => forces.vy,
        Component::Vz => forces.vz,
        Component::T => forces.t,
        Component::My => forces.my,
        Component::Mz => forces.mz,
    }
}

fn stress_part(stress: &Stress, component: StressComponent) -> f64 {
    match component {
        StressComponent::Axial => stress.axial,
        StressComponent::BendingY => stress.bending_y,
        StressComponent::BendingZ => stress.bending_z,
        StressComponent::SigmaMax => stress.sigma_max,
        StressComponent::Torsion => stress.torsion,
    }
}

fn mount_part(mount: &MountResult, part: MountPart) -> Result<f64, Problem> {
    let with_axis = |load: Option<f64>| load.ok_or_else(|| "the bolt has no axis".to_owned());
    match part {
        MountPart::OnFrame(axis) => Ok(mount.on_frame[axis]),
        MountPart::Axial => with_axis(mount.axial),
        MountPart::Shear => with_axis(mount.shear),
        MountPart::Moment => Ok(mount.moment),
    }
}

fn link_part(link: &LinkForce, part: LinkPart) -> Result<f64, Problem> {
    match part {
        LinkPart::Along => link.axial.ok_or_else(|| "such a link has no force along it".to_owned()),
        LinkPart::OnFrame(axis) => Ok(link.on_frame[axis]),
    }
}
