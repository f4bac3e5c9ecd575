//! What can be wrong with loads: facts in fields, words in `Display`, a stable code and what to do for each.

use strutwork_model::{Code, Diagnostic, Place, Severity};

use crate::suspension::UprightFault;

/// Why a load case could not be built.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LoadError {
    /// Nothing has mass, and the case needs it. Code L002.
    #[error("nothing in the model has mass, so {wanted} has nothing to act on: {}", missing.join("; "))]
    NoMass {
        /// What was asked for: `gravity`, `inertia`, `balance`.
        wanted: &'static str,
        /// Everything that has no mass, in words.
        missing: Vec<String>,
    },
    /// The model has no vehicle table. Code L003.
    #[error("the model has no vehicle, so {wanted} is not known")]
    NoVehicle {
        /// What was asked for.
        wanted: &'static str,
    },
    /// Two cases of a run have one name. Code L004.
    #[error("there are two load cases named `{name}`")]
    DuplicateCase {
        /// The name.
        name: String,
    },
    /// A number of a load, factor or step is not finite. Code L005.
    #[error("{what} is not a finite number: {value}")]
    NotFinite {
        /// Which number.
        what: String,
        /// Its value.
        value: f64,
    },
    /// A name that is not in the model. Code L006.
    #[error("there is no {kind} named `{name}`")]
    UnknownName {
        /// joint, tube, wheel, freedom, axes, nature.
        kind: &'static str,
        /// The name as given.
        name: String,
        /// The nearest known name, where one is near.
        nearest: Option<String>,
    },
    /// Tubes or panels of materials without density, and the case needs their mass. Code L007.
    #[error("{wanted} needs the mass of everything, and some of it has none: {}", missing.join("; "))]
    NoDensity {
        /// What was asked for.
        wanted: &'static str,
        /// The materials, in order of first use.
        materials: Vec<String>,
        /// Everything that has no mass, in words.
        missing: Vec<String>,
    },
    /// The case turns about an axis about which nothing has inertia. Code L008.
    #[error(
        "a moment of {moment:.6} N·m about the direction ({:.3}, {:.3}, {:.3}) has no inertia to balance it",
        axis[0], axis[1], axis[2]
    )]
    NoInertia {
        /// Unit vector, global axes.
        axis: [f64; 3],
        /// N·m.
        moment: f64,
    },
    /// A value outside its range. Code L009.
    #[error("{what} is {value}, and must be {range}")]
    OutOfRange {
        /// Which value.
        what: &'static str,
        /// Its value.
        value: f64,
        /// The range in words.
        range: &'static str,
    },
    /// The wheels do not span a plane. Code L010.
    #[error("the wheels' contact points do not span a wheelbase and two tracks")]
    DegenerateWheels,
    /// A case or factor without a usable name. Code L012.
    #[error("a {kind} needs a name of at least one visible character and no control characters")]
    BadName {
        /// case, factor.
        kind: &'static str,
    },
    /// A settlement of a freedom that the case does not hold fixed. Code L013.
    #[error("joint `{joint}` is not held fixed in {dof}, so it cannot be moved there")]
    SettlementNotFixed {
        /// The joint.
        joint: String,
        /// The freedom's name.
        dof: &'static str,
    },
    /// A rig that holds the vehicle at joints, where a corner belongs to a body. Code L015.
    #[error("the {wheel} corner belongs to a body: there is no joint to hold it at")]
    NotAtJoint {
        /// The wheel.
        wheel: &'static str,
    },
    /// The links of a corner do not determine the forces on its upright. Code L016.
    #[error("the {wheel} upright {fault}")]
    Upright {
        /// The wheel.
        wheel: &'static str,
        /// Why.
        fault: UprightFault,
    },
    /// A force at the wheel's centre, or a shaft's torque, and the axle has no wheel radius. Code L017.
    #[error("the {axle} axle has no wheel radius, so {wanted} is not known")]
    NoWheelRadius {
        /// `front` or `rear`.
        axle: &'static str,
        /// What was asked for.
        wanted: &'static str,
    },
    /// A case that is held by nothing is out of balance at its end: something acts that came after the balance. Code L018.
    #[error(
        "something acts after balance(): {force:.6} N and {moment:.6} N·m about the centre of gravity are left, and nothing \
         holds the vehicle"
    )]
    NotBalanced {
        /// N.
        force: f64,
        /// N·m.
        moment: f64,
    },
    /// Cases that are held in different ways are to be added. Code L019.
    #[error("case `{name}` cannot be added: it is {theirs}, and this case is {ours}")]
    HeldDifferently {
        /// The case to be added.
        name: String,
        /// How it is held.
        theirs: &'static str,
        /// How the case is held to which it is to be added.
        ours: &'static str,
    },
    /// The frame's stiffness is to share the roll couple, and an axle's roll stiffness is not given. Code L021.
    #[error("the {axle} axle has no roll stiffness, so how the frame's twist shares the roll couple is not known")]
    NoRollStiffness {
        /// `front` or `rear`.
        axle: &'static str,
    },
    /// A case of another model is to be added. Code L020.
    #[error("case `{name}` belongs to another model: it acts on joints, tubes or bodies that are not in this one")]
    OtherModel {
        /// The case.
        name: String,
    },
}

impl LoadError {
    /// Its stable code.
    pub const fn code(&self) -> Code {
        Code(match self {
            Self::NoMass { .. } => "L002",
            Self::NoVehicle { .. } => "L003",
            Self::DuplicateCase { .. } => "L004",
            Self::NotFinite { .. } => "L005",
            Self::UnknownName { .. } => "L006",
            Self::NoDensity { .. } => "L007",
            Self::NoInertia { .. } => "L008",
            Self::OutOfRange { .. } => "L009",
            Self::DegenerateWheels => "L010",
            Self::BadName { .. } => "L012",
            Self::SettlementNotFixed { .. } => "L013",
            Self::NotAtJoint { .. } => "L015",
            Self::Upright { .. } => "L016",
            Self::NoWheelRadius { .. } => "L017",
            Self::NotBalanced { .. } => "L018",
            Self::HeldDifferently { .. } => "L019",
            Self::OtherModel { .. } => "L020",
            Self::NoRollStiffness { .. } => "L021",
        })
    }

    /// What to do about it.
    pub fn help(&self) -> String {
        match self {
            Self::NoMass { .. } => "give the materials a density, and list in masses.csv what the frame carries".into(),
            Self::NoVehicle { .. } => "add the [vehicle] table with its four corners to model.toml".into(),
            Self::DuplicateCase { .. } => "give each case a name of its own".into(),
            Self::NotFinite { .. } => "look for a division by zero or a missing value in the step before".into(),
            Self::UnknownName { kind, nearest, .. } => match (nearest, *kind) {
                (Some(nearest), _) => format!("did you mean `{nearest}`?"),
                (None, "wheel") => "wheels are front-left, front-right, rear-left, rear-right".into(),
                (None, "freedom") => "freedoms are ux, uy, uz, rx, ry, rz".into(),
                (None, "axes") => "axes are `local` or `global`".into(),
                (None, "nature") => "a case is `physical`, `ultimate` or `notional`".into(),
                (None, "place") => "places are tables [places.NAME] of model.toml".into(),
                (None, _) => "names are compared exactly, capitals and spaces included".into(),
            },
            Self::NoDensity { .. } => "add density_kg_m3 to each material in model.toml".into(),
            Self::NoInertia { .. } => "list in masses.csv what the frame carries, at its place".into(),
            Self::OutOfRange { .. } => "change the value".into(),
            Self::DegenerateWheels => {
                "check the contact points in model.toml: front ahead of rear along +x, left wheels on the +y side"
                    .into()
            }
            Self::BadName { kind, .. } => format!("give the {kind} a name"),
            Self::SettlementNotFixed { dof, .. } => format!("hold the joint in {dof} first"),
            Self::NotAtJoint { .. } => {
                "let the case balance itself instead of holding it, or name a joint as the corner's spring_joint".into()
            }
            Self::Upright { fault, .. } => fault.help().into(),
            Self::NoWheelRadius { axle, .. } => {
                format!("give wheel_radius_mm under [vehicle.axles.{axle}] in model.toml")
            }
            Self::NotBalanced { .. } => "call balance() once more when everything acts, or leave it out: a case that \
                                         nothing holds is balanced at its end"
                .into(),
            Self::HeldDifferently { .. } => "add cases that are held in the same way, or build the sum anew".into(),
            Self::NoRollStiffness { axle } => {
                format!("give roll_stiffness_nm_per_deg under [vehicle.axles.{axle}] in model.toml")
            }
            Self::OtherModel { .. } => "build the case on the same model".into(),
        }
    }

    /// The name it is about; empty for none.
    fn subject(&self) -> String {
        match self {
            Self::DuplicateCase { name } | Self::UnknownName { name, .. } => name.clone(),
            Self::NoDensity { materials, .. } => materials.join(", "),
            Self::HeldDifferently { name, .. } | Self::OtherModel { name } => name.clone(),
            Self::Upright { wheel, .. } => (*wheel).to_owned(),
            Self::SettlementNotFixed { joint, .. } => joint.clone(),
            _ => String::new(),
        }
    }
}

impl From<&LoadError> for Diagnostic {
    /// As a message without a line: the caller knows what was read. Of links the file is known.
    fn from(error: &LoadError) -> Self {
        let linked = matches!(error, LoadError::Upright { .. });
        Self {
            code: error.code(),
            severity: Severity::Error,
            place: linked.then(|| Place::file("suspension.csv")),
            subject: error.subject(),
            message: error.to_string(),
            help: error.help(),
        }
    }
}
