//! What governs each item: of all checks and cases, the one nearest to its limit.

use std::collections::BTreeMap;

use strutwork_model::ids::Id;

use crate::{Finding, Subject};

/// What kind of item a design finding judges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A tube between its joints.
    Tube,
    /// The wall of a chord where a tube is welded to it.
    Joint,
    /// The weld of a tube's end and what is beside it.
    Weld,
    /// A bolt of a body, and what it clamps.
    Bolt,
    /// A panel, its fasteners, its bond.
    Panel,
    /// A limit on movement that the user set.
    Movement,
    /// The frame as a whole.
    Frame,
}

impl Kind {
    /// Every kind, in the order of reports.
    pub const ALL: [Self; 7] =
        [Self::Tube, Self::Joint, Self::Weld, Self::Bolt, Self::Panel, Self::Movement, Self::Frame];

    /// Its word in files, reports and scripts.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tube => "tube",
            Self::Joint => "joint",
            Self::Weld => "weld",
            Self::Bolt => "bolt",
            Self::Panel => "panel",
            Self::Movement => "movement",
            Self::Frame => "frame",
        }
    }

    /// The kind of item that a check judges: by its code where one place can be judged in several ways, else by its subject.
    pub fn of(code: &str, subject: Subject) -> Self {
        match code {
            "D030" => Self::Joint,
            "D031" | "D032" | "D050" => Self::Weld,
            "D040" | "D041" => Self::Bolt,
            "D060" => Self::Movement,
            _ => match subject {
                Subject::Tube(_) => Self::Tube,
                Subject::Joint(_) => Self::Joint,
                Subject::End { .. } => Self::Weld,
                Subject::Mount(_) => Self::Bolt,
                Subject::Panel(_) => Self::Panel,
                Subject::Frame => Self::Frame,
            },
        }
    }
}

impl Finding {
    /// What kind of item it judges.
    pub fn kind(&self) -> Kind {
        Kind::of(self.code.0, self.subject)
    }

    /// Whether it says that a clause does not cover something, which is never a pass.
    pub fn is_outside(&self) -> bool {
        self.clause.starts_with("outside scope")
    }
}

/// The governing finding of every item that a design check holds against a limit: the worst first, of equals the first made.
///
/// Findings of trust (codes `T…`) say nothing of strength and are left out; so are items that no limit was found for.
///
/// # Units and shapes
/// One finding an item: a subject, and the kind of thing that is judged of it.
pub fn governing(findings: &[Finding]) -> Vec<&Finding> {
    let mut places: BTreeMap<(Kind, [usize; 3], &str), usize> = BTreeMap::new();
    let mut worst: Vec<&Finding> = Vec::new();
    for finding in findings.iter().filter(|finding| finding.code.0.starts_with('D')) {
        if finding.utilisation.is_none() {
            continue;
        }
        let kind = finding.kind();
        // A joint may have several limits on its movement, each an item of its own: the clause names the limit.
        let limit = if kind == Kind::Movement { finding.clause.as_str() } else { "" };
        match places.entry((kind, key(finding.subject), limit)) {
            std::collections::btree_map::Entry::Vacant(entry) => {
                entry.insert(worst.len());
                worst.push(finding);
            }
            std::collections::btree_map::Entry::Occupied(entry) => {
                let known = &mut worst[*entry.get()];
                if finding.utilisation > known.utilisation {
                    *known = finding;
                }
            }
        }
    }
    worst.sort_by(|a, b| {
        let used = |finding: &Finding| finding.utilisation.unwrap_or(0.0);
        used(b).total_cmp(&used(a))
    });
    worst
}

/// A number for every subject.
fn key(subject: Subject) -> [usize; 3] {
    match subject {
        Subject::Frame => [0, 0, 0],
        Subject::Joint(id) => [1, id.index(), 0],
        Subject::Tube(id) => [2, id.index(), 0],
        Subject::End { tube, at_to } => [3, tube.index(), usize::from(at_to)],
        Subject::Panel(id) => [4, id.index(), 0],
        Subject::Mount(id) => [5, id.index(), 0],
    }
}

#[cfg(test)]
mod tests {
    use strutwork_model::{Code, Severity, TubeId};

    use super::*;

    fn finding(code: &'static str, subject: Subject, case: &str, utilisation: Option<f64>) -> Finding {
        Finding {
            entered: Vec::new(),
            code: Code(code),
            severity: Severity::Note,
            case: case.to_owned(),
            subject,
            value: 0.0,
            limit: None,
            unit: "",
            utilisation,
            clause: String::new(),
            message: String::new(),
        }
    }

    #[test]
    fn each_item_is_told_once_by_its_worst_check_and_the_worst_item_first() {
        let [a, b] = [0, 1].map(TubeId::new);
        let end = Subject::End { tube: a, at_to: true };
        let all = [
            finding("T001", Subject::Frame, "x", Some(9.0)),
            finding("D001", Subject::Tube(a), "x", Some(0.5)),
            finding("D022", Subject::Tube(a), "y", Some(0.7)),
            finding("D001", Subject::Tube(b), "x", Some(0.9)),
            finding("D001", Subject::Tube(b), "z", Some(0.9)),
            finding("D030", end, "x", Some(0.6)),
            finding("D031", end, "x", Some(0.8)),
            finding("D009", Subject::Frame, "x", None),
        ];
        let told: Vec<_> = governing(&all).into_iter().map(|f| (f.kind().word(), f.code.0, f.case.as_str())).collect();
        assert_eq!(told, [("tube", "D001", "x"), ("weld", "D031", "x"), ("tube", "D022", "y"), ("joint", "D030", "x")]);
    }
}
