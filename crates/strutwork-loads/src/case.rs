//! A load case: everything that acts, how the frame is held, and the story of how it was derived.

use strutwork_model::JointId;
use strutwork_model::model::{
    BodyLoad, JointLoad, Model, Point, Settlement, Support, Temperature, TubeLoad, TubePointLoad, Wheel,
};

/// What a case claims to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nature {
    /// Loads as the user wrote them.
    Plain,
    /// Something the vehicle can meet: a wheel cannot pull on the road.
    Physical,
    /// Something that the vehicle must survive once, permanently bent if need be: belts, hoops, towing.
    Ultimate,
    /// A case that cannot occur but shows one property by itself, such as pure torsion.
    Notional,
}

impl Nature {
    /// Its word in files and reports.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::Physical => "physical",
            Self::Ultimate => "ultimate",
            Self::Notional => "notional",
        }
    }
}

/// Everything that acts in one case, resolved to joints and tubes, SI units, global axes where not said otherwise.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadCase {
    /// Its name, unique among the cases of a run.
    pub name: String,
    /// One line for headings; equals the name for plain cases.
    pub title: String,
    /// What it claims to be.
    pub nature: Nature,
    /// How the frame is held in this case; empty in a free case.
    pub supports: Vec<Support>,
    /// Whether the frame is held by nothing: what acts is balanced by inertia, which is among the loads, and displacements
    /// are given free of rigid motion.
    pub free: bool,
    /// Forces and moments at joints.
    pub joint_loads: Vec<JointLoad>,
    /// Forces and moments on bodies.
    pub body_loads: Vec<BodyLoad>,
    /// Loads along tubes, self weight and inertia among them.
    pub tube_loads: Vec<TubeLoad>,
    /// Forces and moments at places along tubes.
    pub tube_point_loads: Vec<TubePointLoad>,
    /// Changes of temperature.
    pub temperatures: Vec<Temperature>,
    /// Prescribed movements of fixed freedoms.
    pub settlements: Vec<Settlement>,
    /// How the loads came about.
    pub derivation: Derivation,
    /// What is to be read off the solution.
    pub measures: Vec<Measure>,
}

/// How a case's loads came about, in the order in which a reader follows it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Derivation {
    /// Named values that the case rests on, each with its source.
    pub factors: Vec<UsedFactor>,
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// What was put on joints, bodies and places one by one, as the case or the load files say.
    pub placed: Vec<Placed>,
    /// Force of the road on each wheel, N, global axes, in the order of [`Wheel::ALL`]; `None` where the case has none.
    pub wheel_forces: Option<[[f64; 3]; 4]>,
    /// Forces of the suspension's links on the frame, in the order of wheels and links; empty where no corner is linked.
    pub link_forces: Vec<LinkForce>,
    /// Acceleration of the vehicle at its centre of gravity, m/s² and rad/s², where inertia acts.
    pub acceleration: Option<[f64; 6]>,
    /// Body force on everything that has mass, m/s², besides the inertia of `acceleration`: gravity.
    pub body_force: [f64; 3],
    /// What a reader must know: notional, held by determinate supports, a negative wheel load.
    pub remarks: Vec<Remark>,
}

/// A load put on something by itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// What bears it, in words: `joint A`, `place eye`.
    pub on: String,
    /// Where its force acts, m.
    pub at: [f64; 3],
    /// Force, N, and moment, N·m, global axes.
    pub load: [f64; 6],
}

/// The force of one link of a linked corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LinkForce {
    /// The corner.
    pub wheel: Wheel,
    /// Its place among the corner's links.
    pub link: usize,
    /// Force along the link's two ends, N, tension positive; `None` for a pivot or a guide, which have no such force.
    pub axial: Option<f64>,
    /// What the link exerts on the frame at its chassis end, N, global axes.
    pub on_frame: [f64; 3],
}

/// How well the source of a value is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// The source was read.
    Verified,
    /// Recalled: to be checked before it is relied on.
    FromMemory,
    /// Common practice without a source.
    CommonPractice,
    /// The user's own, with the user's reason.
    Own,
}

impl Mark {
    /// The mark that the words of a source carry.
    pub fn of(source: &str) -> Self {
        if source.contains("from memory") {
            Self::FromMemory
        } else if source.contains("no source") {
            Self::CommonPractice
        } else {
            Self::Verified
        }
    }

    /// Its words in reports.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Verified => "verified",
            Self::FromMemory => "from memory: check before relying on it",
            Self::CommonPractice => "common practice, no source",
            Self::Own => "the user's own",
        }
    }
}

/// A named value that a case rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct UsedFactor {
    /// Its name.
    pub name: String,
    /// Its value.
    pub value: f64,
    /// Its unit; `×` for a plain multiplier.
    pub unit: String,
    /// Its source, or "common practice, no source".
    pub source: String,
    /// How well the source is known.
    pub mark: Mark,
    /// Whether `model.toml` replaced the case script's value.
    pub overridden: bool,
}

/// One step of a derivation: what, and the number it gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What was done, with the formula in plain symbols.
    pub text: String,
    /// What it gave, in `unit`; `None` for a step in words.
    pub value: Option<f64>,
    /// The door unit of `value`.
    pub unit: String,
    /// Whether the case's account says the same: total mass, sums, accelerations.
    pub accounted: bool,
}

/// A remark on a case.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    /// `L…` for a finding (a negative wheel load); empty for a plain remark.
    pub code: &'static str,
    /// In full sentences.
    pub text: String,
}

/// What is to be read off a case's solution.
#[derive(Debug, Clone, PartialEq)]
pub enum Measure {
    /// Torsional stiffness: couple over the twist between two stations, and the twist along the length.
    Twist {
        /// Left and right place of the front station.
        front: [Point; 2],
        /// Left and right place of the rear station.
        rear: [Point; 2],
        /// The couple, N·m.
        couple: f64,
    },
    /// Movement of one joint.
    Movement {
        /// The joint.
        joint: JointId,
    },
}

/// The cases of a run, in the order in which they were built.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LoadCases(pub Vec<LoadCase>);

impl LoadCase {
    /// A case in which nothing acts yet.
    pub fn new(name: impl Into<String>, nature: Nature, supports: Vec<Support>) -> Self {
        let name = name.into();
        Self {
            title: name.clone(),
            name,
            nature,
            supports,
            free: false,
            joint_loads: Vec::new(),
            body_loads: Vec::new(),
            tube_loads: Vec::new(),
            tube_point_loads: Vec::new(),
            temperatures: Vec::new(),
            settlements: Vec::new(),
            derivation: Derivation::default(),
            measures: Vec::new(),
        }
    }

    /// Sum of everything applied (not reactions), reduced to the origin: forces in N, moments in N·m, global axes.
    pub fn resultant(&self, model: &Model) -> [f64; 6] {
        crate::masses::resultant(self, model)
    }

    /// Force of the road on this wheel, N, global axes.
    pub fn wheel_force(&self, wheel: Wheel) -> Option<[f64; 3]> {
        self.derivation.wheel_forces.map(|forces| forces[wheel as usize])
    }
}
