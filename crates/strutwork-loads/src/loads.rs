//! Loads on their way to joints, bodies and tubes: one way for masses, wheels, places and shafts.

use nalgebra::{Matrix3, Vector3};
use strutwork_model::DofMap;
use strutwork_model::model::{Axes, BodyLoad, Carrier, JointLoad, Model, Suspension, TubeLoad, Wheel};

use crate::case::LinkForce;
use crate::field::Field;
use crate::masses::{Piece, PieceOf, pieces};
use crate::spread;
use crate::suspension::Uprights;

/// A force and a moment that act at a point, global axes.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PointLoad {
    /// N.
    pub force: [f64; 3],
    /// N·m.
    pub moment: [f64; 3],
    /// Where they act, m.
    pub at: [f64; 3],
}

impl PointLoad {
    /// A force alone.
    pub const fn force(force: [f64; 3], at: [f64; 3]) -> Self {
        Self { force, moment: [0.0; 3], at }
    }

    /// The same load reduced to another point: N, N·m.
    pub fn about(&self, point: [f64; 3]) -> [f64; 6] {
        let force = Vector3::from(self.force);
        let moment = Vector3::from(self.moment) + (Vector3::from(self.at) - Vector3::from(point)).cross(&force);
        [force.x, force.y, force.z, moment.x, moment.y, moment.z]
    }
}

/// What acts, resolved to joints, bodies and tubes.
///
/// # Signs and order
/// N, N·m, N/m; global axes; in the order in which it was put there. Nothing acts on an upright once its links took it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Loads {
    /// Forces and moments at joints.
    pub joint_loads: Vec<JointLoad>,
    /// Forces and moments on bodies.
    pub body_loads: Vec<BodyLoad>,
    /// Loads along tubes.
    pub tube_loads: Vec<TubeLoad>,
    /// On each upright of a linked corner, reduced to its contact point: N, N·m; in the order of [`Wheel::ALL`].
    pub uprights: [[f64; 6]; 4],
}

impl Loads {
    /// A force and a moment onto what carries them: shared among joints statically equivalent, reduced to a body's
    /// reference point, or to the contact point of an upright.
    pub fn put(&mut self, model: &Model, carrier: &Carrier, load: &PointLoad) {
        match carrier {
            Carrier::Joints(joints) => {
                let points: Vec<[f64; 3]> = joints.iter().map(|&joint| model.joints()[joint].at).collect();
                let shares = spread(load.force, load.moment, load.at, &points);
                let shared = joints.iter().zip(shares).map(|(&joint, share)| JointLoad { joint, load: DofMap(share) });
                self.joint_loads.extend(shared);
            }
            Carrier::Body(body) => {
                let load = DofMap(load.about(model.bodies()[*body].at));
                self.body_loads.push(BodyLoad { body: *body, load });
            }
            Carrier::Upright(wheel) => self.put_on_wheel(model, *wheel, load),
        }
    }

    /// A force and a moment onto a wheel's upright, or onto what carries a rigid corner.
    pub fn put_on_wheel(&mut self, model: &Model, wheel: Wheel, load: &PointLoad) {
        let Some(corner) = model.vehicle().map(|vehicle| vehicle.corner(wheel)) else { return };
        match &corner.suspension {
            Suspension::Rigid(carrier) => self.put(model, carrier, load),
            Suspension::Linked(_) => {
                for (sum, part) in self.uprights[wheel as usize].iter_mut().zip(load.about(corner.contact)) {
                    *sum += part;
                }
            }
        }
    }

    /// A body force on everything that has mass: exact along tubes; of panels and masses the force at their centre and the
    /// moment −I·α of their own inertia.
    pub fn put_field(&mut self, model: &Model, field: &Field) {
        if field.is_zero() {
            return;
        }
        for piece in pieces(model) {
            match piece.of {
                PieceOf::Tube(tube) => {
                    let row = &model.tubes()[tube];
                    let line_mass = model.sections()[row.section].area * model.materials()[row.material].density;
                    if line_mass > 0.0 {
                        let [from, to] = model.tube_ends(tube).map(|end| field.at(end).map(|b| line_mass * b));
                        self.tube_loads.push(TubeLoad { tube, axes: Axes::Global, from, to });
                    }
                }
                PieceOf::Panel(panel) => {
                    let carrier = Carrier::Joints(model.panels()[panel].joints.clone());
                    self.put_piece(model, &carrier, &piece, field);
                }
                PieceOf::Mass(place) => {
                    self.put_piece(model, &model.masses()[place].carrier, &piece, field);
                }
            }
        }
    }

    fn put_piece(&mut self, model: &Model, carrier: &Carrier, piece: &Piece, field: &Field) {
        if piece.mass <= 0.0 {
            return;
        }
        let inertia = Matrix3::from_fn(|row, column| piece.inertia[row][column]);
        let load = PointLoad {
            force: field.at(piece.centre).map(|b| piece.mass * b),
            moment: (-(inertia * Vector3::from(field.turn))).into(),
            at: piece.centre,
        };
        self.put(model, carrier, &load);
    }

    /// Lets the links take what acts on the uprights, onto the joints and bodies of their chassis ends. Returns the force
    /// of every link, in the order of wheels and links.
    pub fn through_links(&mut self, model: &Model, uprights: &Uprights) -> Vec<LinkForce> {
        let mut forces = Vec::new();
        let acting = std::mem::take(&mut self.uprights);
        let Some(vehicle) = model.vehicle() else { return forces };
        for wheel in Wheel::ALL {
            let (Suspension::Linked(links), Some(upright)) =
                (&vehicle.corner(wheel).suspension, uprights.of_wheel(wheel))
            else {
                continue;
            };
            let of_upright = upright.link_forces(&acting[wheel as usize]);
            for (link, force) in links.iter().zip(&of_upright) {
                if force.on_frame != [0.0; 3] {
                    self.put(model, &link.carrier, &PointLoad::force(force.on_frame, link.chassis));
                }
            }
            forces.extend(of_upright);
        }
        forces
    }
}
