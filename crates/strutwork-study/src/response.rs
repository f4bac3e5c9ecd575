//! What is asked of each variant.

use serde::Serialize;
use strutwork_model::Dof;

/// Which part of a mount's load is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum MountForce {
    /// Magnitude of the whole force, N.
    Force,
    /// Force along the bolt, N.
    Axial,
    /// Force across the bolt, N.
    Shear,
    /// Magnitude of the moment, N·m.
    Moment,
}

/// What is asked of each variant.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Asked {
    /// Mass of the tubes, kg.
    TubesMass,
    /// Mass of the frame with everything that it carries, kg.
    TotalMass,
    /// Torsional stiffness, N·m/deg: of the first case that measures a twist, or by itself between the spring places.
    TwistStiffness,
    /// Frequency of the n-th natural mode besides the rigid ones, n from 1, Hz; held as the model's supports hold the frame.
    Frequency(usize),
    /// The lowest positive load factor of a case; without one, that of all cases but notional ones. `None` where nothing is
    /// pressed.
    Buckling(Option<String>),
    /// The worst utilisation, of one check or of all; 0 where nothing has a limit.
    Utilisation(Option<String>),
    /// How many items are within their limits and yet outside the scope of a clause: no pass.
    OutsideScope,
    /// Movement of a joint in a case, mm or degrees, global axes.
    Movement {
        /// The case.
        case: String,
        /// The joint.
        joint: String,
        /// Which of the six.
        #[serde(serialize_with = "word_of")]
        dof: Dof,
    },
    /// Load of a bolted joint of a body in a case.
    Mount {
        /// The case.
        case: String,
        /// The body.
        body: String,
        /// The joint.
        joint: String,
        /// Which part of it.
        force: MountForce,
    },
    /// What the caller's own function makes of it.
    Own,
}

fn word_of<S: serde::Serializer>(dof: &Dof, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(dof.name())
}

/// A question and the name of its answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Response {
    /// The column's name, with its unit.
    pub name: String,
    /// What is asked.
    pub asked: Asked,
}

/// What the responses of a study need, and no more is done.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Needs {
    /// Load cases, solved.
    pub cases: bool,
    /// A case that measures the twist.
    pub twist: bool,
    /// Checks.
    pub checks: bool,
    /// How many natural modes.
    pub modes: usize,
}

impl Needs {
    pub(crate) fn of(responses: &[Response]) -> Self {
        let mut needs = Self::default();
        for response in responses {
            match &response.asked {
                Asked::TubesMass | Asked::TotalMass => {}
                Asked::TwistStiffness => needs.twist = true,
                Asked::Frequency(n) => needs.modes = needs.modes.max(*n),
                Asked::Buckling(_) | Asked::Movement { .. } | Asked::Mount { .. } => needs.cases = true,
                Asked::Utilisation(_) | Asked::OutsideScope => (needs.cases, needs.checks) = (true, true),
                // Nobody knows what a function looks at; checks are made when it asks for them.
                Asked::Own => needs.cases = true,
            }
        }
        needs
    }
}
