//! The frame as it is: checked, in SI units, names resolved to ids. Made by validation alone.

mod acting;
mod joint;
mod mass;
mod material;
pub mod section;
mod support;
mod tube;
mod vehicle;

pub use acting::{Axes, JointLoad, PlainCase, Settlement, Temperature, TubeLoad, TubePointLoad};
pub use joint::Joint;
pub use mass::Mass;
pub use material::{Material, Strength};
pub use section::{Section, Shape};
pub use support::{Hold, Support};
pub use tube::Tube;
pub use vehicle::{Corner, Vehicle, Wheel};

use crate::ids::{IndexVec, JointId, MaterialId, SectionId, TubeId};

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
    pub(crate) vehicle: Option<Vehicle>,
    pub(crate) factors: Vec<Factor>,
}

/// What the title block of the report says.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Title {
    /// The model's title.
    pub title: String,
    /// Revision, as the user writes it; empty for none.
    pub revision: String,
    /// Who made the model; empty for none.
    pub author: String,
    /// Notes and assumptions, one an entry.
    pub notes: Vec<String>,
    /// What is outside the model, one an entry.
    pub outside: Vec<String>,
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

    /// Wheels and corners, where the frame belongs to a vehicle.
    pub fn vehicle(&self) -> Option<&Vehicle> {
        self.vehicle.as_ref()
    }

    /// Factors that the user set, in input order.
    pub fn factors(&self) -> &[Factor] {
        &self.factors
    }

    /// The joint with this exact name.
    pub fn joint_named(&self, name: &str) -> Option<JointId> {
        self.joints.iter_with_id().find(|(_, joint)| joint.name == name).map(|(id, _)| id)
    }

    /// The tube with this exact name.
    pub fn tube_named(&self, name: &str) -> Option<TubeId> {
        self.tubes.iter_with_id().find(|(_, tube)| tube.name == name).map(|(id, _)| id)
    }

    /// Length of a tube between its joints, m.
    pub fn length(&self, tube: TubeId) -> f64 {
        let tube = &self.tubes[tube];
        let (a, b) = (self.joints[tube.from].at, self.joints[tube.to].at);
        ((b[0] - a[0]).powi(2) + (b[1] - a[1]).powi(2) + (b[2] - a[2]).powi(2)).sqrt()
    }

    /// Mass of a tube between its joints, kg. Centre-line length: the overlap at joints is counted twice.
    pub fn tube_mass(&self, tube: TubeId) -> f64 {
        let row = &self.tubes[tube];
        self.length(tube) * self.sections[row.section].area * self.materials[row.material].density
    }
}
