//! The frame as it is: checked, in SI units, names resolved to ids. Made by validation alone.

mod acting;
mod body;
mod bolt;
mod carrier;
mod changed;
mod fatigue;
mod joint;
mod judging;
mod limits;
mod mass;
mod material;
mod panel;
mod place;
mod rig;
pub mod section;
mod support;
mod suspension;
mod tube;
mod vehicle;
mod weld;

pub use acting::{Axes, BodyLoad, JointLoad, PlainCase, Settlement, Temperature, TubeLoad, TubePointLoad};
pub use body::{Body, Bond, Mount};
pub use bolt::{Bolt, Clamps, ShearPlane, normal_clearance};
pub use carrier::{Carrier, Point};
pub use fatigue::{CATEGORIES, Detail, Fatigue, FatigueCurve, FatiguePair};
pub use joint::Joint;
pub use judging::{Basis, BasisKind, Buckling, BucklingLength, Gamma, Members, Route, SWITCHABLE, SwitchedOff};
pub use limits::{Along, Moved, MovementLimit};
pub use mass::Mass;
pub use material::{Material, Strength};
pub use panel::{Fixing, FixingKind, Panel};
pub use place::{Place, Raised, Role, Weighable, Weighed, WeighedPart};
pub use rig::{RigReading, RigRole, RigSheet, RigStation, RigStep, RigWords};
pub use section::{Section, Shape};
pub use support::{Hold, Support};
pub use suspension::{Axle, Link, LinkKind, Suspension};
pub use tube::{Tube, TubeEnd};
pub use vehicle::{Corner, Vehicle, Wheel};
pub use weld::{TubeWeld, WeldGroup, WeldKind, WeldMethod, WeldProcess, Welds};

use crate::ids::{BodyId, BoltId, FixingId, IndexVec, JointId, MaterialId, MountId, PanelId, SectionId, TubeId};

/// A frame that passed every check of the input. Read-only: to change it, change the [`ModelSpec`](crate::spec::ModelSpec)
/// and validate again.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    pub(crate) title: Title,
    pub(crate) options: Options,
    pub(crate) joints: IndexVec<JointId, Joint>,
    pub(crate) tubes: IndexVec<TubeId, Tube>,
    pub(crate) sections: IndexVec<SectionId, Section>,
    pub(crate) materials: IndexVec<MaterialId, Material>,
    pub(crate) supports: Vec<Support>,
    pub(crate) masses: Vec<Mass>,
    pub(crate) plain_cases: Vec<PlainCase>,
    pub(crate) bodies: IndexVec<BodyId, Body>,
    pub(crate) mounts: IndexVec<MountId, Mount>,
    pub(crate) bolts: IndexVec<BoltId, Bolt>,
    pub(crate) panels: IndexVec<PanelId, Panel>,
    pub(crate) fixings: IndexVec<FixingId, Fixing>,
    pub(crate) vehicle: Option<Vehicle>,
    pub(crate) places: Vec<Place>,
    pub(crate) weighed: Weighed,
    pub(crate) rig: Option<RigSheet>,
    pub(crate) factors: Vec<Factor>,
    pub(crate) basis: Basis,
    pub(crate) members: Members,
    pub(crate) switched_off: Vec<SwitchedOff>,
    pub(crate) welds: Welds,
    pub(crate) fatigue: Fatigue,
    pub(crate) limits: Vec<MovementLimit>,
}

/// What the title block of the report says.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Title {
    /// The model's title.
    pub title: String,
    /// Revision, as the user writes it; empty for none.
    pub revision: String,
    /// What was done in which revision, in input order.
    pub revisions: Vec<RevisionNote>,
    /// Who made the model; empty for none.
    pub author: String,
    /// Notes and assumptions, one an entry.
    pub notes: Vec<String>,
    /// What is outside the model, one an entry.
    pub outside: Vec<String>,
}

/// What was done in a revision.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RevisionNote {
    /// The revision.
    pub name: String,
    /// When: `2026-01-31`; empty where not said.
    pub date: String,
    /// Who; empty where not said.
    pub by: String,
    /// What was done and why, one an entry.
    pub note: Vec<String>,
}

/// How the model is to be worked on.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// Gravity on tubes and masses in every plain case.
    pub self_weight: bool,
    /// Whether the standard load cases are run for a vehicle.
    pub standard_cases: bool,
    /// Factor on yield that stresses are judged with, ≥ 1.
    pub yield_margin: f64,
    /// Whether cases of the load files that no support holds are balanced by the frame's own inertia.
    pub inertia_relief: bool,
    /// Whether and where joints are softer than rigid.
    pub soft_joints: SoftJoints,
}

/// Where the rule for soft joints acts: an end of a hollow tube that meets the face of a wider one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoftJoints {
    /// When the rule is used.
    pub when: SoftWhen,
    /// The rule acts where the tube is narrower than this share of the one that it meets, 0 to 1.
    pub narrower_than: f64,
}

/// When the rule for soft joints is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SoftWhen {
    /// Never.
    Off,
    /// In a second run beside the rigid one, to give the band in which the torsional stiffness lies.
    Band,
    /// In every run.
    Always,
}

/// A named value of the user's own that replaces a factor of a case script.
#[derive(Debug, Clone, PartialEq)]
pub struct Factor {
    /// The factor's name, as the case script asks for it.
    pub name: String,
    /// Its value.
    pub value: f64,
    /// Where the value comes from.
    pub source: String,
}

impl Model {
    /// Title block, notes, what is outside the model.
    pub fn title(&self) -> &Title {
        &self.title
    }

    /// How it is to be worked on.
    pub fn options(&self) -> &Options {
        &self.options
    }

    /// The joints, in input order.
    pub fn joints(&self) -> &IndexVec<JointId, Joint> {
        &self.joints
    }

    /// The tubes, in input order.
    pub fn tubes(&self) -> &IndexVec<TubeId, Tube> {
        &self.tubes
    }

    /// The sections, in input order.
    pub fn sections(&self) -> &IndexVec<SectionId, Section> {
        &self.sections
    }

    /// The materials, in input order.
    pub fn materials(&self) -> &IndexVec<MaterialId, Material> {
        &self.materials
    }

    /// The supports of `supports.csv`, in input order, at most one a joint.
    pub fn supports(&self) -> &[Support] {
        &self.supports
    }

    /// The masses that the frame carries, in input order.
    pub fn masses(&self) -> &[Mass] {
        &self.masses
    }

    /// The cases written in the load files, in the order in which their names first appear.
    pub fn plain_cases(&self) -> &[PlainCase] {
        &self.plain_cases
    }

    /// The bodies, in the order in which their names first appear.
    pub fn bodies(&self) -> &IndexVec<BodyId, Body> {
        &self.bodies
    }

    /// The mounts of all bodies, in input order.
    pub fn mounts(&self) -> &IndexVec<MountId, Mount> {
        &self.mounts
    }

    /// The kinds of bolts, in input order.
    pub fn bolts(&self) -> &IndexVec<BoltId, Bolt> {
        &self.bolts
    }

    /// The panels, in input order.
    pub fn panels(&self) -> &IndexVec<PanelId, Panel> {
        &self.panels
    }

    /// The ways of fixing panels, in input order.
    pub fn fixings(&self) -> &IndexVec<FixingId, Fixing> {
        &self.fixings
    }

    /// Places at which standard cases act, in input order.
    pub fn places(&self) -> &[Place] {
        &self.places
    }

    /// What the scales say.
    pub fn weighed(&self) -> &Weighed {
        &self.weighed
    }

    /// The readings of a twist rig; `None` without `rig.csv`.
    pub fn rig(&self) -> Option<&RigSheet> {
        self.rig.as_ref()
    }

    /// The same frame without its panels.
    #[must_use]
    pub fn without_panels(&self) -> Self {
        Self { panels: IndexVec::default(), ..self.clone() }
    }

    /// Wheels and corners, where the frame belongs to a vehicle.
    pub fn vehicle(&self) -> Option<&Vehicle> {
        self.vehicle.as_ref()
    }

    /// Factors that the user set, in input order.
    pub fn factors(&self) -> &[Factor] {
        &self.factors
    }

    /// What the checks rest on.
    pub fn basis(&self) -> &Basis {
        &self.basis
    }

    /// How tubes are judged as members.
    pub fn members(&self) -> &Members {
        &self.members
    }

    /// Checks that the user switched off, in input order.
    pub fn switched_off(&self) -> &[SwitchedOff] {
        &self.switched_off
    }

    /// What the screening for fatigue rests on.
    pub fn fatigue(&self) -> &Fatigue {
        &self.fatigue
    }

    /// Limits on movement, in input order.
    pub fn limits(&self) -> &[MovementLimit] {
        &self.limits
    }

    /// The joint with this exact name.
    pub fn joint_named(&self, name: &str) -> Option<JointId> {
        self.joints.iter_with_id().find(|(_, joint)| joint.name == name).map(|(id, _)| id)
    }

    /// The tube with this exact name.
    pub fn tube_named(&self, name: &str) -> Option<TubeId> {
        self.tubes.iter_with_id().find(|(_, tube)| tube.name == name).map(|(id, _)| id)
    }

    /// The body with this exact name.
    pub fn body_named(&self, name: &str) -> Option<BodyId> {
        self.bodies.iter_with_id().find(|(_, body)| body.name == name).map(|(id, _)| id)
    }

    /// The panel with this exact name.
    pub fn panel_named(&self, name: &str) -> Option<PanelId> {
        self.panels.iter_with_id().find(|(_, panel)| panel.name == name).map(|(id, _)| id)
    }

    /// Where a tube starts and ends, m, global axes: its joints, each moved by the tube's offset there.
    pub fn tube_ends(&self, tube: TubeId) -> [[f64; 3]; 2] {
        let tube = &self.tubes[tube];
        let end = |joint: JointId, end: &TubeEnd| [0, 1, 2].map(|axis| self.joints[joint].at[axis] + end.offset[axis]);
        [end(tube.from, &tube.end_from), end(tube.to, &tube.end_to)]
    }

    /// Length of a tube between its ends, m.
    pub fn length(&self, tube: TubeId) -> f64 {
        let [a, b] = self.tube_ends(tube);
        ((b[0] - a[0]).powi(2) + (b[1] - a[1]).powi(2) + (b[2] - a[2]).powi(2)).sqrt()
    }

    /// Mass of a tube between its ends, kg. Without offsets that is its centre-line length, which counts the overlap at
    /// joints twice.
    pub fn tube_mass(&self, tube: TubeId) -> f64 {
        let row = &self.tubes[tube];
        self.length(tube) * self.sections[row.section].area * self.materials[row.material].density
    }
}
