//! What a check judges, by the names that a case gives.

use std::fmt;

use strutwork_checks::Subject;
use strutwork_model::Model;

use crate::part::End;

/// What a check judges.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Place {
    /// The frame as a whole.
    Frame,
    /// A joint.
    Joint(String),
    /// A tube.
    Tube(String),
    /// An end of a tube.
    End(String, End),
    /// A panel.
    Panel(String),
    /// A bolted joint of a body: body and joint.
    Mount(String, String),
}

impl Place {
    /// Where it is in a model; `None` where it is not.
    pub(crate) fn of(&self, model: &Model) -> Option<Subject> {
        Some(match self {
            Self::Frame => Subject::Frame,
            Self::Joint(joint) => Subject::Joint(model.joint_named(joint)?),
            Self::Tube(tube) => Subject::Tube(model.tube_named(tube)?),
            Self::End(tube, end) => Subject::End { tube: model.tube_named(tube)?, at_to: *end == End::To },
            Self::Panel(panel) => Subject::Panel(model.panel_named(panel)?),
            Self::Mount(body, joint) => {
                let (body, joint) = (model.body_named(body)?, model.joint_named(joint)?);
                let mut mounts = model.mounts().iter_with_id();
                Subject::Mount(mounts.find(|(_, row)| row.body == body && row.joint == joint)?.0)
            }
        })
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Frame => f.write_str("the frame"),
            Self::Joint(joint) => write!(f, "joint {joint}"),
            Self::Tube(tube) => write!(f, "tube {tube}"),
            Self::End(tube, end) => write!(f, "the `{}` end of tube {tube}", End::NAMED[*end as usize].1),
            Self::Panel(panel) => write!(f, "panel {panel}"),
            Self::Mount(body, joint) => write!(f, "body {body} at joint {joint}"),
        }
    }
}
