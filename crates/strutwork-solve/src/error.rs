//! Why the frame could not be solved.

use strutwork_model::{BodyId, Dof, JointId, TubeId};

/// Why the frame could not be solved. Ids become names where the model is at hand (`explain`).
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SolveError {
    /// The frame, or part of it, moves without resistance. Code S001 (a mechanism), S002 (it floats: nothing holds it).
    #[error("the frame can move freely in {} independent ways", .motions.len())]
    Mechanism {
        /// The case whose supports were in use.
        case: String,
        /// Every independent motion.
        motions: Vec<Motion>,
    },
    /// A number stopped being a number. Code S003.
    #[error("not a finite number after {stage}")]
    NotFinite {
        /// The case; empty where the stiffness itself is not finite.
        case: String,
        /// Where it was noticed.
        stage: Stage,
        /// First joint or body.
        node: Node,
        /// First freedom.
        dof: Dof,
    },
    /// The factorisation failed although no free motion was found. Code S004.
    #[error("the stiffness matrix is numerically singular")]
    IllConditioned {
        /// The case whose supports were in use.
        case: String,
        /// The softest joint or body.
        node: Node,
        /// Its softest freedom.
        dof: Dof,
        /// Smallest pivot over its diagonal entry.
        pivot: f64,
    },
    /// A released tube is loaded in a direction that its releases free. Code S005.
    #[error("a tube's own releases let it move under its load")]
    LoadedRelease {
        /// The case.
        case: String,
        /// The tube.
        tube: TubeId,
        /// The freed direction, local axes, named for its largest component.
        dof: Dof,
    },
    /// Joints that are bolted rigidly to one body are prescribed movements that the body cannot make. Code S006.
    #[error("settlements would strain a rigid body")]
    StrainedBody {
        /// The case.
        case: String,
        /// The body.
        body: BodyId,
        /// A joint whose settlement does not fit the others.
        joint: JointId,
        /// Its freedom.
        dof: Dof,
        /// By how much, m or rad.
        by: f64,
    },
    /// In second order the frame does not stand under a case: it buckles before. Code S007.
    #[error("the frame buckles under {:.1} % of the case's loads", .factor * 100.0)]
    Buckles {
        /// The case.
        case: String,
        /// Share of the case's axial forces up to which the frame stands, 0…1.
        factor: f64,
    },
    /// In second order axial forces and movements did not become steady. Code S008.
    #[error("axial forces and movements did not become steady")]
    Unsteady {
        /// The case.
        case: String,
        /// Passes made.
        passes: u32,
        /// What the last one changed: axial forces, or movements, whichever changed more; as a share.
        change: f64,
    },
    /// Vibrations were asked for under a case that buckles the frame. Code S009.
    #[error("the frame buckles under the case before it can vibrate under it")]
    Buckled {
        /// The case.
        case: String,
    },
}

/// What moves: a joint or a body.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Node {
    /// A joint.
    Joint(JointId),
    /// A body, at its reference point.
    Body(BodyId),
}

/// Where a number was found not to be finite.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// After the stiffness matrix and loads were assembled.
    Assembly,
    /// After the equations were solved.
    Solution,
}

impl std::fmt::Display for Stage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Assembly => "assembly",
            Self::Solution => "solution",
        })
    }
}

/// One independent way in which the frame can move without resistance.
#[derive(Debug, Clone, PartialEq)]
pub enum Motion {
    /// The frame moves as one rigid piece.
    Whole {
        /// Velocity of the frame's centre, scaled to 1 with `turn` × frame size: per axis.
        slide: [f64; 3],
        /// Rate of turn about the frame's centre.
        turn: [f64; 3],
        /// A point of the axis it turns about, m; the centre where it only slides.
        about: [f64; 3],
    },
    /// Some joints or bodies move against the others.
    Part {
        /// The moving joints with their motion (m and rad, scaled so that the largest displacement over frame size, or
        /// rotation, is 1), largest first.
        joints: Vec<(JointId, [f64; 6])>,
        /// The moving bodies with the motion of their reference points, scaled likewise, largest first.
        bodies: Vec<(BodyId, [f64; 6])>,
    },
}
