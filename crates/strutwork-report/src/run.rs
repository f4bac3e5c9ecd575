//! A finished run: everything that a report is made of.

use std::borrow::Cow;

use strutwork_checks::{Figures, Finding, Judged, Subject};
use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::model::RigSheet;
use strutwork_model::{BodyId, Diagnostic, JointId, Model, PanelId, Severity, TubeId};
use strutwork_revision::Comparison;
use strutwork_rig::{Evidence, MassSheet, RigEvidence};
use strutwork_solve::bays::Bays;
use strutwork_solve::{Buckling, CaseResult, FrameLengths, FrequencyShift, Modes, Results};
use strutwork_study::sensitivity::Worth;

/// A finished run. Nothing in it is changed; the report only arranges it.
///
/// # Assumes
/// `results.cases` stand in the order of `cases`, as the solver leaves them.
#[derive(Debug, Clone, Copy)]
pub struct Run<'a> {
    /// The frame.
    pub model: &'a Model,
    /// What acted on it.
    pub cases: &'a LoadCases,
    /// How it answered.
    pub results: &'a Results,
    /// What was judged.
    pub findings: &'a [Finding],
    /// The bays of the frame, softest first.
    pub bays: &'a Bays,
    /// Figures that sum the frame up; `None` where no case measured a torsional stiffness.
    pub figures: Option<&'a Figures>,
    /// What each tube is worth for the torsional stiffness; `None` where no case measured one.
    pub worth: Option<&'a Worth>,
    /// Analyses beside the load cases.
    pub asked: &'a Asked,
    /// When, with what and from which files it was made.
    pub info: &'a RunInfo,
}

/// Analyses beside the load cases that were asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Asked {
    /// Natural modes; `None` where they were not asked for.
    pub modes: Option<Modes>,
    /// How they differ without what is there only while driven; `None` where nothing is called so.
    pub shift: Option<FrequencyShift>,
    /// Natural modes under the forces of a case, with its name.
    pub under: Option<(String, Modes)>,
    /// Buckling of each case, in the order of results; `None` where it was not asked for.
    pub buckling: Option<Vec<Buckling>>,
    /// Buckling lengths from those load factors, by which the tubes were judged; `None` where there are none.
    pub lengths: Option<FrameLengths>,
    /// Pieces that each tube was divided into for the modes; 0 without any.
    pub pieces: usize,
    /// What was measured on the real frame, judged; `None` where nothing was looked at.
    pub evidence: Option<Evidence>,
}

impl Asked {
    /// Nothing was asked for.
    pub const NOTHING: Self =
        Self { modes: None, shift: None, under: None, buckling: None, lengths: None, pieces: 0, evidence: None };
}

/// When, with what and from which files a run was made. All of it is handed in: the report reads no clock and no file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RunInfo {
    /// Version of the program.
    pub tool_version: String,
    /// Date, as the report shall print it.
    pub date: String,
    /// The command as it was typed.
    pub command: String,
    /// Every file that was read.
    pub inputs: Vec<InputDigest>,
    /// What tells these inputs from all others: one hash over all of them, in hexadecimal; empty where there is none.
    pub input_hash: String,
    /// Tables that are written beside the report, where they were made before it.
    pub outputs: Vec<InputDigest>,
    /// How well this version meets published problems, by family.
    pub validated: Vec<Validated>,
    /// Options in force, in words; empty for none.
    pub options: String,
    /// Warnings and notes that came with the model.
    pub warnings: Vec<Diagnostic>,
    /// What changed since an older run; `None` where none was named.
    pub since: Option<Since>,
    /// Time that each stage took, ms, in order.
    pub timings_ms: Vec<(String, f64)>,
}

/// An older run, and what changed since.
#[derive(Debug, Clone, PartialEq)]
pub struct Since {
    /// The comparison of the older run with this one.
    pub comparison: Comparison,
    /// What the older run is called: its folder, as it was typed.
    pub label: String,
    /// What a reader must know of the comparison itself, one sentence an entry.
    pub remarks: Vec<String>,
}

/// A family of published problems, re-solved with this version.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Validated {
    /// Its name.
    pub family: String,
    /// How many problems it has.
    pub problems: usize,
    /// How many values their sources print.
    pub values: usize,
    /// How many of these agree.
    pub agree: usize,
}

/// One file, so that a reader can tell whether theirs is the same.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct InputDigest {
    /// File name within its folder.
    pub file: String,
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
    /// Its size, bytes.
    pub bytes: u64,
}

impl<'a> Run<'a> {
    /// Each case beside its result, in the order in which the cases were built.
    pub fn pairs(&self) -> impl Iterator<Item = (&'a LoadCase, &'a CaseResult)> + use<'a> {
        self.cases.0.iter().zip(&self.results.cases)
    }

    /// A joint's name.
    pub fn joint(&self, id: JointId) -> &'a str {
        &self.model.joints()[id].name
    }

    /// A tube's name.
    pub fn tube(&self, id: TubeId) -> &'a str {
        &self.model.tubes()[id].name
    }

    /// A body's name.
    pub fn body(&self, id: BodyId) -> &'a str {
        &self.model.bodies()[id].name
    }

    /// A panel's name.
    pub fn panel(&self, id: PanelId) -> &'a str {
        &self.model.panels()[id].name
    }

    /// The name of what a finding is about; `frame` for the frame as a whole.
    pub fn subject(&self, subject: Subject) -> Cow<'a, str> {
        subject.name(self.model)
    }

    /// What a finding is about, in words: `tube T1`, `tube T1 at joint J`, `joint J`, `panel P`, `bolt of BODY at joint J`.
    pub fn about(&self, subject: Subject) -> String {
        match subject {
            Subject::Frame => "the frame".to_owned(),
            Subject::Joint(id) => format!("joint {}", self.joint(id)),
            Subject::Tube(id) => format!("tube {}", self.tube(id)),
            Subject::End { tube, at_to } => {
                let of = &self.model.tubes()[tube];
                format!("tube {} at joint {}", of.name, self.joint(if at_to { of.to } else { of.from }))
            }
            Subject::Panel(id) => format!("panel {}", self.panel(id)),
            Subject::Mount(id) => {
                let mount = &self.model.mounts()[id];
                format!("bolt of {} at joint {}", self.body(mount.body), self.joint(mount.joint))
            }
        }
    }

    /// The rig's sheet and what it says; `None` without one, and where nothing measured was looked at.
    pub fn rig(&self) -> Option<(&'a RigSheet, &'a RigEvidence)> {
        Some((self.model.rig()?, self.asked.evidence.as_ref()?.rig.as_ref()?))
    }

    /// What the scales say; `None` where nothing measured was looked at.
    pub fn scales(&self) -> Option<&'a MassSheet> {
        Some(&self.asked.evidence.as_ref()?.scales)
    }

    /// What the checks look at.
    pub fn judged(&self) -> Judged<'a> {
        Judged {
            model: self.model,
            cases: self.cases,
            results: self.results,
            bays: self.bays,
            lengths: self.asked.lengths.as_ref(),
        }
    }

    /// How many findings are errors, warnings and notes.
    pub fn severities(&self) -> [usize; 3] {
        [Severity::Error, Severity::Warning, Severity::Note]
            .map(|severity| self.findings.iter().filter(|f| f.severity == severity).count())
    }
}
