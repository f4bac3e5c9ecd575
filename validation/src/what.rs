//! Which result of ours a printed value is compared with.

use std::fmt;

use strutwork_model::Dof;

use crate::property::{MassProperty, SectionProperty};
use crate::unit::Dimension;

/// Which result of ours a printed value is compared with.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// Displacement of a joint, global axes; less that of another joint where one is named.
    Displacement {
        /// The load case.
        case: String,
        /// The joint.
        joint: String,
        /// The joint whose displacement is taken off.
        minus_joint: Option<String>,
        /// The freedom.
        dof: Dof,
    },
    /// What a support exerts on the frame, global axes.
    Reaction {
        /// The load case.
        case: String,
        /// The joint.
        joint: String,
        /// The freedom along or about which it acts.
        dof: Dof,
    },
    /// What the part of a tube on the `to` side of a place exerts on the other, local axes.
    MemberForce {
        /// The load case.
        case: String,
        /// The tube.
        tube: String,
        /// 0 at `from`, 1 at `to`.
        at: f64,
        /// Which of the six.
        component: Component,
    },
    /// What a joint exerts on a tube's end, local axes.
    EndForce {
        /// The load case.
        case: String,
        /// The tube.
        tube: String,
        /// Which end.
        end: End,
        /// Which of the six.
        component: Component,
    },
    /// A stress at a station of a tube.
    Stress {
        /// The load case.
        case: String,
        /// The tube.
        tube: String,
        /// 0 at `from`, 1 at `to`; a place that the results list.
        at: f64,
        /// Which stress.
        component: StressComponent,
    },
    /// A property of a section.
    Section {
        /// The section.
        section: String,
        /// Which property.
        property: SectionProperty,
    },
    /// A mass property of the whole frame.
    Mass {
        /// Which property.
        property: MassProperty,
    },
    /// The acceleration that balances a case, of the centre of gravity.
    Acceleration {
        /// The load case.
        case: String,
        /// Along or about which axis.
        dof: Dof,
    },
    /// Couple over twist between two stations.
    TorsionalStiffness {
        /// The load case.
        case: String,
        /// Left and right joint of the front station.
        front: [String; 2],
        /// Left and right joint of the rear station.
        rear: [String; 2],
        /// N·m.
        couple: f64,
    },
}

/// A section force.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Component {
    /// Axial.
    N,
    /// Shear along y.
    Vy,
    /// Shear along z.
    Vz,
    /// Torque.
    T,
    /// Moment about y.
    My,
    /// Moment about z.
    Mz,
}

impl Component {
    /// All six, in order, with their names in files.
    pub const NAMED: [(Self, &'static str); 6] =
        [(Self::N, "n"), (Self::Vy, "vy"), (Self::Vz, "vz"), (Self::T, "t"), (Self::My, "my"), (Self::Mz, "mz")];

    const fn is_force(self) -> bool {
        matches!(self, Self::N | Self::Vy | Self::Vz)
    }

    const fn symbol(self) -> &'static str {
        ["N", "Vy", "Vz", "T", "My", "Mz"][self as usize]
    }
}

/// An end of a tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// Where local x starts.
    From,
    /// Where local x ends.
    To,
}

impl End {
    /// Both, with their names in files.
    pub const NAMED: [(Self, &'static str); 2] = [(Self::From, "from"), (Self::To, "to")];
}

/// A stress of a station.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StressComponent {
    /// N/A.
    Axial,
    /// |My|/Wel,y.
    BendingY,
    /// |Mz|/Wel,z.
    BendingZ,
    /// Normal stress of the greatest magnitude.
    SigmaMax,
    /// Shear from torsion.
    Torsion,
}

impl StressComponent {
    /// All, with their names in files.
    pub const NAMED: [(Self, &'static str); 5] = [
        (Self::Axial, "axial"),
        (Self::BendingY, "bending_y"),
        (Self::BendingZ, "bending_z"),
        (Self::SigmaMax, "sigma_max"),
        (Self::Torsion, "torsion"),
    ];

    fn words(self) -> &'static str {
        match self {
            Self::Axial => "axial stress",
            Self::BendingY => "bending stress about y",
            Self::BendingZ => "bending stress about z",
            Self::SigmaMax => "greatest normal stress",
            Self::Torsion => "shear stress from torsion",
        }
    }
}

impl What {
    /// What its unit must measure.
    pub fn dimension(&self) -> Dimension {
        match self {
            Self::Displacement { dof, .. } if dof.is_rotation() => Dimension::Angle,
            Self::Displacement { .. } => Dimension::Length,
            Self::Reaction { dof, .. } if dof.is_rotation() => Dimension::Moment,
            Self::Reaction { .. } => Dimension::Force,
            Self::MemberForce { component, .. } | Self::EndForce { component, .. } if component.is_force() => {
                Dimension::Force
            }
            Self::MemberForce { .. } | Self::EndForce { .. } => Dimension::Moment,
            Self::Stress { .. } => Dimension::Stress,
            Self::Section { property, .. } => property.dimension(),
            Self::Mass { property } => property.dimension(),
            Self::Acceleration { dof, .. } if dof.is_rotation() => Dimension::AngularAcceleration,
            Self::Acceleration { .. } => Dimension::Acceleration,
            Self::TorsionalStiffness { .. } => Dimension::TwistStiffness,
        }
    }

    /// Whether the frame must be solved for it.
    pub const fn needs_solution(&self) -> bool {
        !matches!(self, Self::Section { .. } | Self::Mass { .. })
    }
}

/// The reaction's symbol: a force or a moment, and its axis.
fn reaction(dof: Dof) -> &'static str {
    ["Fx", "Fy", "Fz", "Mx", "My", "Mz"][dof.index()]
}

impl fmt::Display for What {
    /// What a reader looks for: `uy of joint 2`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Displacement { joint, minus_joint: None, dof, .. } => write!(f, "{} of joint {joint}", dof.name()),
            Self::Displacement { joint, minus_joint: Some(other), dof, .. } => {
                write!(f, "{} of joint {joint} less that of {other}", dof.name())
            }
            Self::Reaction { joint, dof, .. } => write!(f, "reaction {} at joint {joint}", reaction(*dof)),
            Self::MemberForce { tube, at, component, .. } => {
                write!(f, "{} of tube {tube} at {}", component.symbol(), (at * 1e4).round() / 1e4)
            }
            Self::EndForce { tube, end, component, .. } => {
                let end = End::NAMED[*end as usize].1;
                write!(f, "{} of the joint on the `{end}` end of tube {tube}", component.symbol())
            }
            Self::Stress { tube, at, component, .. } => write!(f, "{} of tube {tube} at {at}", component.words()),
            Self::Section { section, property } => write!(f, "{} of {section}", property.symbol()),
            Self::Mass { property } => f.write_str(property.words()),
            Self::Acceleration { dof, .. } => {
                let symbol = ["ax", "ay", "az", "αx", "αy", "αz"][dof.index()];
                write!(f, "{symbol} of the centre of gravity")
            }
            Self::TorsionalStiffness { front, rear, .. } => {
                write!(f, "torsional stiffness between joints {}, {} and {}, {}", front[0], front[1], rear[0], rear[1])
            }
        }
    }
}
