//! A judgement on a result: what was found, against which limit, by which clause.

use std::borrow::Cow;

use crate::calculation::Unit;
use strutwork_model::{Code, JointId, Model, MountId, PanelId, Severity, TubeId};

/// What a finding is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    /// The frame as a whole.
    Frame,
    /// A joint.
    Joint(JointId),
    /// A tube.
    Tube(TubeId),
    /// One end of a tube, where it is welded.
    End {
        /// The tube.
        tube: TubeId,
        /// Whether it is the tube's `to` end.
        at_to: bool,
    },
    /// A panel.
    Panel(PanelId),
    /// A bolted joint of a body.
    Mount(MountId),
}

impl Subject {
    /// Its name for readers: the joint's, tube's or panel's own, `TUBE at JOINT` for an end, `BODY at JOINT` for a mount,
    /// `frame` for the whole.
    pub fn name(self, model: &Model) -> Cow<'_, str> {
        match self {
            Self::Frame => Cow::Borrowed("frame"),
            Self::Joint(id) => Cow::Borrowed(&model.joints()[id].name),
            Self::Tube(id) => Cow::Borrowed(&model.tubes()[id].name),
            Self::End { tube, at_to } => {
                let tube = &model.tubes()[tube];
                let joint = &model.joints()[if at_to { tube.to } else { tube.from }].name;
                Cow::Owned(format!("{} at {joint}", tube.name))
            }
            Self::Panel(id) => Cow::Borrowed(&model.panels()[id].name),
            Self::Mount(id) => {
                let mount = &model.mounts()[id];
                let (body, joint) = (&model.bodies()[mount.body].name, &model.joints()[mount.joint].name);
                Cow::Owned(format!("{body} at {joint}"))
            }
        }
    }
}

/// One judgement. `Severity::Error` means that a limit is exceeded.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Stable code: `T…` trust, `D…` design, `L…` loads.
    pub code: Code,
    /// Note: passed, or good to know; warning: look at it; error: exceeds its limit.
    pub severity: Severity,
    /// The case; empty where it holds for all.
    pub case: String,
    /// What it is about.
    pub subject: Subject,
    /// The value, in `unit`.
    pub value: f64,
    /// The limit, in `unit`; `None` where there is none.
    pub limit: Option<f64>,
    /// The door unit of value and limit; empty for a ratio.
    pub unit: &'static str,
    /// Value over limit; `None` where there is no limit.
    pub utilisation: Option<f64>,
    /// Clause or rule that the limit comes from.
    pub clause: String,
    /// The numbers that entered: symbol, SI value, door unit; margin included where it acts on loads.
    pub entered: Vec<(&'static str, f64, Unit)>,
    /// In the fabricator's words; empty where another case governs the same item and nothing is exceeded.
    pub message: String,
}
