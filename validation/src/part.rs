//! Which component of a result a printed value is: the names in case files, and what each measures.

use crate::unit::Dimension;

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

    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        if matches!(self, Self::N | Self::Vy | Self::Vz) { Dimension::Force } else { Dimension::Moment }
    }

    /// Its symbol in reports.
    pub const fn symbol(self) -> &'static str {
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

    /// Its words in reports.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Axial => "axial stress",
            Self::BendingY => "bending stress about y",
            Self::BendingZ => "bending stress about z",
            Self::SigmaMax => "greatest normal stress",
            Self::Torsion => "shear stress from torsion",
        }
    }
}

/// A load of a body's mount.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MountPart {
    /// One of Fx … Mz on the frame, global axes: 0 to 5.
    OnFrame(usize),
    /// Force along the bolt, positive along its axis.
    Axial,
    /// Force across the bolt.
    Shear,
    /// Magnitude of the moment.
    Moment,
}

impl MountPart {
    /// All, with their names in files.
    pub const NAMED: [(Self, &'static str); 9] = [
        (Self::OnFrame(0), "fx"),
        (Self::OnFrame(1), "fy"),
        (Self::OnFrame(2), "fz"),
        (Self::OnFrame(3), "mx"),
        (Self::OnFrame(4), "my"),
        (Self::OnFrame(5), "mz"),
        (Self::Axial, "axial"),
        (Self::Shear, "shear"),
        (Self::Moment, "moment"),
    ];

    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::OnFrame(0..=2) | Self::Axial | Self::Shear => Dimension::Force,
            Self::OnFrame(_) | Self::Moment => Dimension::Moment,
        }
    }

    /// Its words in reports.
    pub const fn words(self) -> &'static str {
        match self {
            Self::OnFrame(axis) => ["Fx", "Fy", "Fz", "Mx", "My", "Mz"][axis],
            Self::Axial => "axial load",
            Self::Shear => "shear load",
            Self::Moment => "moment",
        }
    }
}

/// A force of a suspension link.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LinkPart {
    /// Along its two ends, tension positive.
    Along,
    /// On the frame along a global axis: 0 to 2.
    OnFrame(usize),
}

impl LinkPart {
    /// All, with their names in files.
    pub const NAMED: [(Self, &'static str); 4] =
        [(Self::Along, "force"), (Self::OnFrame(0), "fx"), (Self::OnFrame(1), "fy"), (Self::OnFrame(2), "fz")];

    /// Its words in reports.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Along => "force",
            Self::OnFrame(axis) => ["Fx", "Fy", "Fz"][axis],
        }
    }
}

/// A result of a panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PanelPart {
    /// The greatest shear flow of its edges, without sign.
    Flow,
    /// Shear flow along an edge, counted from 0.
    EdgeFlow(usize),
    /// The same times the edge's length.
    EdgeForce(usize),
    /// Shear stress.
    Stress,
    /// Shear stress at which it buckles.
    Buckling,
    /// The former over the latter.
    BucklingRatio,
    /// Load of one fastener.
    Fastener,
    /// Shear stress of the bond line.
    Bond,
}

impl PanelPart {
    /// All, with their names in files.
    pub const NAMED: [(Self, &'static str); 14] = [
        (Self::Flow, "flow"),
        (Self::EdgeFlow(0), "flow_1"),
        (Self::EdgeFlow(1), "flow_2"),
        (Self::EdgeFlow(2), "flow_3"),
        (Self::EdgeFlow(3), "flow_4"),
        (Self::EdgeForce(0), "force_1"),
        (Self::EdgeForce(1), "force_2"),
        (Self::EdgeForce(2), "force_3"),
        (Self::EdgeForce(3), "force_4"),
        (Self::Stress, "stress"),
        (Self::Buckling, "buckling"),
        (Self::BucklingRatio, "buckling_ratio"),
        (Self::Fastener, "fastener"),
        (Self::Bond, "bond"),
    ];

    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Flow | Self::EdgeFlow(_) => Dimension::ForcePerLength,
            Self::EdgeForce(_) | Self::Fastener => Dimension::Force,
            Self::Stress | Self::Buckling | Self::Bond => Dimension::Stress,
            Self::BucklingRatio => Dimension::Ratio,
        }
    }

    /// Its words in reports.
    pub fn words(self) -> String {
        match self {
            Self::Flow => "shear flow".to_owned(),
            Self::EdgeFlow(edge) => format!("shear flow on edge {}", edge + 1),
            Self::EdgeForce(edge) => format!("force on edge {}", edge + 1),
            Self::Stress => "shear stress".to_owned(),
            Self::Buckling => "buckling shear stress".to_owned(),
            Self::BucklingRatio => "shear stress over buckling stress".to_owned(),
            Self::Fastener => "load of one fastener".to_owned(),
            Self::Bond => "shear stress of the bond".to_owned(),
        }
    }
}

/// A shear stiffness of a bay.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BayPart {
    /// As the G·t of a skin.
    Shear,
    /// The same of its sides alone.
    Bare,
    /// Force along the longer side over the movement of that side.
    Along,
}

impl BayPart {
    /// All, with their names in files.
    pub const NAMED: [(Self, &'static str); 3] = [(Self::Shear, "shear"), (Self::Bare, "bare"), (Self::Along, "along")];

    /// Its words in reports.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Shear => "(Gt)eff",
            Self::Bare => "(Gt)eff of the sides alone",
            Self::Along => "k along the longer side",
        }
    }
}

/// What the two-mass roll model says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RollPart {
    /// Share of a shift of roll couple that reaches the tyres.
    Reaching,
    /// Couple that an axle (0 front, 1 rear) carries under these couples, N·m, on the front and the rear half.
    Carried {
        /// 0 front, 1 rear.
        axle: usize,
        /// On the front and the rear half, N·m.
        couples: [f64; 2],
    },
}
