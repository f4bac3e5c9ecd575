//! Which result of ours a printed value is compared with.

use std::fmt;

use strutwork_model::Dof;
use strutwork_model::model::Wheel;
use strutwork_model::units::to_nm_per_deg;

use crate::part::{BayPart, Component, End, LinkPart, MountPart, PanelPart, RollPart, StressComponent};
use crate::place::Place;
use crate::property::{MassProperty, SectionProperty};
use crate::rig::RigPart;
use crate::sizing::SizedPart;
use crate::unit::Dimension;

/// Which result of ours a printed value is compared with.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// A result of one load case.
    OfCase {
        /// The load case.
        case: String,
        /// Which result.
        result: CaseWhat,
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
    /// A natural frequency of the frame with its supports.
    Frequency {
        /// 1 for the lowest besides rigid ones.
        mode: usize,
        /// Pieces of each tube.
        pieces: usize,
        /// Under the forces of this case, and held as it is.
        under: Option<String>,
    },
    /// A line of a formula's calculation.
    Formula {
        /// The formula, by its name in the case.
        formula: String,
        /// The line's symbol, or `utilisation`.
        symbol: String,
    },
    /// Area of a bar along a diagonal of a panel that would hold the bay as stiffly.
    PanelDiagonal {
        /// The panel.
        panel: String,
        /// 0 from corner 1 to 3, 1 from corner 2 to 4.
        diagonal: usize,
        /// The material of the bar.
        material: String,
    },
    /// Shear stiffness of a bay.
    Bay {
        /// Its corners, in any order.
        joints: [String; 4],
        /// Which.
        part: BayPart,
    },
    /// What the two-mass roll model says of the vehicle.
    Roll {
        /// Torsional stiffness of the frame, N·m/rad.
        frame: f64,
        /// Which.
        part: RollPart,
    },
    /// What the sheet of a twist rig says.
    Rig {
        /// Which figure.
        part: RigPart,
    },
    /// Measured over modelled twist of a bay of a twist rig, over the same of the whole.
    RigBay {
        /// The station that it ends at, in order of x.
        station: String,
    },
    /// Mass of the tubes with the sizes that the case asks to be chosen.
    SizedMass(SizedPart),
    /// One result over another of the same kind.
    Ratio {
        /// Above the line.
        of: Box<What>,
        /// Below it.
        to: Box<What>,
    },
}

/// A result of a load case.
#[derive(Debug, Clone, PartialEq)]
pub enum CaseWhat {
    /// Displacement of a joint, global axes; less that of another joint where one is named.
    Displacement {
        /// The joint.
        joint: String,
        /// The joint whose displacement is taken off.
        minus_joint: Option<String>,
        /// The freedom.
        dof: Dof,
    },
    /// Movement of a body's reference point, global axes.
    BodyMovement {
        /// The body.
        body: String,
        /// The freedom.
        dof: Dof,
    },
    /// What a support exerts on the frame, global axes.
    Reaction {
        /// The joint.
        joint: String,
        /// The freedom along or about which it acts.
        dof: Dof,
    },
    /// What the part of a tube on the `to` side of a place exerts on the other, local axes.
    MemberForce {
        /// The tube.
        tube: String,
        /// 0 at `from`, 1 at `to`.
        at: f64,
        /// Which of the six.
        component: Component,
    },
    /// What a joint exerts on a tube's end, local axes.
    EndForce {
        /// The tube.
        tube: String,
        /// Which end.
        end: End,
        /// Which of the six.
        component: Component,
    },
    /// A stress at a station of a tube.
    Stress {
        /// The tube.
        tube: String,
        /// 0 at `from`, 1 at `to`; a place that the results list.
        at: f64,
        /// Which stress.
        component: StressComponent,
    },
    /// Load of a bolted joint of a body.
    Mount {
        /// The body.
        body: String,
        /// The joint.
        joint: String,
        /// Which.
        part: MountPart,
    },
    /// Force of a link of a linked corner.
    Link {
        /// The corner.
        wheel: Wheel,
        /// The link.
        link: String,
        /// Which.
        part: LinkPart,
    },
    /// A result of a panel.
    Panel {
        /// The panel.
        panel: String,
        /// Which.
        part: PanelPart,
    },
    /// The acceleration that balances a case, of the centre of gravity.
    Acceleration {
        /// Along or about which axis.
        dof: Dof,
    },
    /// Greatest reaction at the freedoms by which a free case was held while it was solved, over the loads' size.
    LeftOver,
    /// A positive load factor at which the case buckles the frame.
    LoadFactor {
        /// 1 for the smallest.
        mode: usize,
        /// Pieces of each tube.
        pieces: Option<usize>,
    },
    /// A result in second order: on the frame as it bends.
    SecondOrder {
        /// Which result.
        of: Box<CaseWhat>,
    },
    /// In second order, the share of the case under which the frame buckles.
    StandsShare,
    /// A line of the calculation behind a finding, as a report prints it; the worst finding where there are several.
    Check {
        /// The check, by its code.
        check: String,
        /// What it judges.
        place: Place,
        /// The line's symbol, or `utilisation`.
        symbol: String,
    },
    /// Couple over twist between two stations.
    TorsionalStiffness {
        /// Left and right joint of the front station.
        front: [String; 2],
        /// Left and right joint of the rear station.
        rear: [String; 2],
        /// N·m.
        couple: f64,
    },
}

impl What {
    /// What its unit must measure; `None` for a line of a calculation, whose own unit says it.
    pub fn dimension(&self) -> Option<Dimension> {
        Some(match self {
            Self::OfCase { result, .. } => return result.dimension(),
            Self::Section { property, .. } => property.dimension(),
            Self::Mass { property } => property.dimension(),
            Self::Frequency { .. } => Dimension::Frequency,
            Self::Formula { .. } => return None,
            Self::SizedMass(_) => Dimension::Mass,
            Self::PanelDiagonal { .. } => Dimension::Area,
            Self::Bay { .. } => Dimension::ForcePerLength,
            Self::Roll { part: RollPart::Reaching, .. } | Self::RigBay { .. } | Self::Ratio { .. } => Dimension::Ratio,
            Self::Rig { part } => part.dimension(),
            Self::Roll { part: RollPart::Carried { .. }, .. } => Dimension::Moment,
        })
    }

    /// Whether load cases must be solved for it.
    pub fn needs_results(&self) -> bool {
        matches!(self, Self::Frequency { under: Some(_), .. }) || !self.of_cases().is_empty()
    }

    /// Everything that it reads off load cases: the case and the result.
    pub fn of_cases(&self) -> Vec<(&str, &CaseWhat)> {
        match self {
            Self::OfCase { case, result } => vec![(case, result)],
            Self::Ratio { of, to } => [of.of_cases(), to.of_cases()].concat(),
            _ => Vec::new(),
        }
    }
}

impl CaseWhat {
    /// Whether it needs second order.
    pub(crate) const fn is_second_order(&self) -> bool {
        matches!(self, Self::SecondOrder { .. } | Self::StandsShare)
    }

    /// Whether it is read off a check's calculation.
    pub(crate) const fn is_check(&self) -> bool {
        matches!(self, Self::Check { .. })
    }

    fn dimension(&self) -> Option<Dimension> {
        Some(match self {
            Self::Check { .. } => return None,
            Self::Displacement { dof, .. } | Self::BodyMovement { dof, .. } if dof.is_rotation() => Dimension::Angle,
            Self::Displacement { .. } | Self::BodyMovement { .. } => Dimension::Length,
            Self::Reaction { dof, .. } if dof.is_rotation() => Dimension::Moment,
            Self::Reaction { .. } | Self::Link { .. } => Dimension::Force,
            Self::MemberForce { component, .. } | Self::EndForce { component, .. } => component.dimension(),
            Self::Stress { .. } => Dimension::Stress,
            Self::Mount { part, .. } => part.dimension(),
            Self::Panel { part, .. } => part.dimension(),
            Self::Acceleration { dof } if dof.is_rotation() => Dimension::AngularAcceleration,
            Self::Acceleration { .. } => Dimension::Acceleration,
            Self::SecondOrder { of } => return of.dimension(),
            Self::LeftOver | Self::LoadFactor { .. } | Self::StandsShare => Dimension::Ratio,
            Self::TorsionalStiffness { .. } => Dimension::TwistStiffness,
        })
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
            Self::OfCase { result, .. } => result.fmt(f),
            Self::Section { section, property } => write!(f, "{} of {section}", property.symbol()),
            Self::Mass { property } => f.write_str(property.words()),
            Self::Frequency { mode, under: None, .. } => write!(f, "natural frequency {mode}"),
            Self::Frequency { mode, under: Some(case), .. } => write!(f, "natural frequency {mode} under {case}"),
            Self::Formula { formula, symbol } => write!(f, "{symbol} of {formula}"),
            Self::PanelDiagonal { panel, diagonal, .. } => {
                let ends = ["1–3", "2–4"][*diagonal];
                write!(f, "area of the diagonal {ends} that equals panel {panel}")
            }
            Self::Bay { joints, part } => write!(f, "{} of bay {}", part.words(), joints.join(" ")),
            Self::Roll { frame, part: RollPart::Reaching } => {
                write!(f, "share that reaches the tyres, frame of {:.0} N·m/deg", to_nm_per_deg(*frame))
            }
            Self::Roll { frame, part: RollPart::Carried { axle, couples: [front, rear] } } => {
                let (axle, frame) = (["front", "rear"][*axle], to_nm_per_deg(*frame));
                write!(f, "couple of the {axle} axle under {front} and {rear} N·m, frame of {frame:.0} N·m/deg")
            }
            Self::Rig { part } => f.write_str(part.words()),
            Self::RigBay { station } => {
                write!(f, "measured over modelled twist, beside the whole, of the bay that ends at {station}")
            }
            Self::SizedMass(SizedPart::Best) => f.write_str("mass of the lightest sizes found"),
            Self::SizedMass(SizedPart::RunnerUp) => f.write_str("mass of the next lightest sizes found"),
            Self::Ratio { of, to } => write!(f, "{of} over {to}"),
        }
    }
}

impl fmt::Display for CaseWhat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Displacement { joint, minus_joint: None, dof } => write!(f, "{} of joint {joint}", dof.name()),
            Self::Displacement { joint, minus_joint: Some(other), dof } => {
                write!(f, "{} of joint {joint} less that of {other}", dof.name())
            }
            Self::BodyMovement { body, dof } => write!(f, "{} of body {body}", dof.name()),
            Self::Reaction { joint, dof } => write!(f, "reaction {} at joint {joint}", reaction(*dof)),
            Self::MemberForce { tube, at, component } => {
                write!(f, "{} of tube {tube} at {}", component.symbol(), (at * 1e4).round() / 1e4)
            }
            Self::EndForce { tube, end, component } => {
                let end = End::NAMED[*end as usize].1;
                write!(f, "{} of the joint on the `{end}` end of tube {tube}", component.symbol())
            }
            Self::Stress { tube, at, component } => write!(f, "{} of tube {tube} at {at}", component.words()),
            Self::Mount { body, joint, part } => {
                write!(f, "{} of body {body} on the frame at joint {joint}", part.words())
            }
            Self::Link { wheel, link, part: LinkPart::Along } => {
                write!(f, "force of the {} link {link}", wheel.name())
            }
            Self::Link { wheel, link, part } => {
                write!(f, "{} of the {} link {link} on the frame", part.words(), wheel.name())
            }
            Self::Panel { panel, part } => write!(f, "{} of panel {panel}", part.words()),
            Self::Acceleration { dof } => {
                let symbol = ["ax", "ay", "az", "αx", "αy", "αz"][dof.index()];
                write!(f, "{symbol} of the centre of gravity")
            }
            Self::Check { check, place, symbol } => write!(f, "{symbol} of {place}, {check}"),
            Self::LoadFactor { mode, .. } => write!(f, "load factor {mode}"),
            Self::SecondOrder { of } => write!(f, "{of}, second order"),
            Self::StandsShare => f.write_str("share of the case under which the frame buckles"),
            Self::LeftOver => f.write_str("reaction left where the free case was held, over the loads"),
            Self::TorsionalStiffness { front, rear, .. } => {
                write!(f, "torsional stiffness between joints {}, {} and {}, {}", front[0], front[1], rear[0], rear[1])
            }
        }
    }
}
