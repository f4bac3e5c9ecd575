//! What governs each item: of all checks and cases, the one nearest to its limit.

use std::collections::BTreeMap;

use strutwork_model::Severity;
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

    /// Whether its clause covers it, as a word in files: `in` or `outside`.
    pub fn scope(&self) -> &'static str {
        if self.is_outside() { "outside" } else { "in" }
    }
}

/// One item, and what the design checks say of it over all cases.
#[derive(Debug, Clone, PartialEq)]
pub struct Item<'a> {
    /// The finding nearest to its limit; of equals, the first made.
    pub governing: &'a Finding,
    /// Codes of the checks whose clause does not cover it in some case: such a check is no pass, whatever its number says.
    pub outside: Vec<&'static str>,
    /// Whether any check of it exceeds its limit.
    pub exceeded: bool,
}

/// How an item stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Some check exceeds its limit.
    Exceeded,
    /// Nothing is exceeded, but some clause does not cover it: no pass.
    Outside,
    /// Every check that was made passed.
    Passed,
}

impl Standing {
    /// Its word in scripts: `exceeded`, `outside`, `passed`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Exceeded => "exceeded",
            Self::Outside => "outside",
            Self::Passed => "passed",
        }
    }
}

impl Item<'_> {
    /// How it stands over all checks and cases.
    pub fn standing(&self) -> Standing {
        match (self.exceeded, self.outside.is_empty()) {
            (true, _) => Standing::Exceeded,
            (false, false) => Standing::Outside,
            (false, true) => Standing::Passed,
        }
    }
}

/// Every item that a design check holds against a limit: the worst first, of equals the first made.
///
/// Findings of trust (codes `T…`) say nothing of strength and are left out; so are items that no limit was found for, which
/// [`judged_and_not`] lists.
///
/// # Units and shapes
/// One entry an item: a subject, and the kind of thing that is judged of it; of limits on movement one a limit.
pub fn items(findings: &[Finding]) -> Vec<Item<'_>> {
    judged_and_not(findings).0
}

/// The [`items`], and one finding of every item that some design check speaks of and none holds against a limit; what is said
/// of the frame as a whole is not among the latter.
pub fn judged_and_not(findings: &[Finding]) -> (Vec<Item<'_>>, Vec<&Finding>) {
    let (mut judged, not): (Vec<_>, Vec<_>) =
        every(findings).into_iter().partition(|item| item.governing.utilisation.is_some());
    judged.sort_by(|a, b| {
        let used = |item: &Item<'_>| item.governing.utilisation.unwrap_or(0.0);
        used(b).total_cmp(&used(a))
    });
    let not = not.into_iter().map(|item| item.governing).filter(|finding| finding.subject != Subject::Frame);
    (judged, not.collect())
}

/// Every item that some design check speaks of, in the order in which they are first spoken of.
fn every(findings: &[Finding]) -> Vec<Item<'_>> {
    let mut places = Places::default();
    let mut items: Vec<Item<'_>> = Vec::new();
    for finding in findings.iter().filter(|finding| finding.code.0.starts_with('D')) {
        let place = places.of(finding);
        if *place == NOWHERE {
            *place = items.len();
            items.push(Item { governing: finding, outside: Vec::new(), exceeded: false });
        }
        let item = &mut items[*place];
        // A finding without a utilisation is less than any with one.
        if finding.utilisation > item.governing.utilisation {
            item.governing = finding;
        }
        item.exceeded |= finding.severity == Severity::Error || finding.utilisation.is_some_and(|used| used > 1.0);
        if finding.is_outside() && !item.outside.contains(&finding.code.0) {
            item.outside.push(finding.code.0);
        }
    }
    items
}

/// The governing finding of every item, as [`items`] lists them.
pub fn governing(findings: &[Finding]) -> Vec<&Finding> {
    items(findings).into_iter().map(|item| item.governing).collect()
}

/// Where each item stands in a list: a large frame has 10^5 findings, so it is looked up by number.
#[derive(Default)]
struct Places<'a> {
    by_kind: [[Vec<usize>; SUBJECTS]; Kind::ALL.len()],
    /// Limits on movement by their clause, which names the limit: a joint may have several.
    limits: BTreeMap<((usize, usize), &'a str), usize>,
}

const SUBJECTS: usize = 6;
const NOWHERE: usize = usize::MAX;

impl<'a> Places<'a> {
    fn of(&mut self, finding: &'a Finding) -> &mut usize {
        let kind = finding.kind();
        if kind == Kind::Movement {
            return self.limits.entry((key(finding.subject), &finding.clause)).or_insert(NOWHERE);
        }
        let (sort, number) = key(finding.subject);
        let places = &mut self.by_kind[kind as usize][sort];
        if places.len() <= number {
            places.resize(number + 1, NOWHERE);
        }
        &mut places[number]
    }
}

/// The sort of a subject, below [`SUBJECTS`], and its number among its like.
fn key(subject: Subject) -> (usize, usize) {
    match subject {
        Subject::Frame => (0, 0),
        Subject::Joint(id) => (1, id.index()),
        Subject::Tube(id) => (2, id.index()),
        Subject::End { tube, at_to } => (3, 2 * tube.index() + usize::from(at_to)),
        Subject::Panel(id) => (4, id.index()),
        Subject::Mount(id) => (5, id.index()),
    }
}

#[cfg(test)]
mod tests {
    use strutwork_model::{Code, TubeId};

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

    #[test]
    fn two_limits_on_one_place_are_two_items() {
        let limit = |clause: &str, utilisation| Finding {
            clause: clause.to_owned(),
            ..finding("D060", Subject::Frame, "x", Some(utilisation))
        };
        let all = [limit("a", 0.5), limit("b", 0.7), limit("a", 0.6)];
        let told: Vec<_> = governing(&all).into_iter().map(|f| (f.clause.as_str(), f.utilisation)).collect();
        assert_eq!(told, [("b", Some(0.7)), ("a", Some(0.6))]);
    }

    #[test]
    fn an_item_that_is_only_spoken_of_is_not_judged() {
        let [a, b] = [0, 1].map(|tube| Subject::Tube(TubeId::new(tube)));
        let all = [
            finding("D002", Subject::Frame, "", None),
            finding("D002", a, "", None),
            finding("D002", b, "", None),
            finding("D022", b, "x", Some(0.1)),
        ];
        assert_eq!(judged_and_not(&all).1.into_iter().map(|f| f.subject).collect::<Vec<_>>(), [a]);
        assert_eq!(governing(&all).into_iter().map(|f| f.subject).collect::<Vec<_>>(), [b]);
    }

    #[test]
    fn an_item_outside_a_clause_is_no_pass_whatever_governs_it() {
        let end = Subject::End { tube: TubeId::new(0), at_to: false };
        let thin = |code, utilisation| Finding {
            clause: "outside scope: wall under 2.5 mm".to_owned(),
            ..finding(code, end, "x", Some(utilisation))
        };
        let all = [finding("D031", end, "x", Some(0.9)), thin("D032", 0.2), thin("D032", 0.3)];
        let told = items(&all);
        assert_eq!((told.len(), told[0].governing.code.0), (1, "D031"));
        assert_eq!((told[0].outside.as_slice(), told[0].standing()), (&["D032"][..], Standing::Outside));
        let over = items(&[thin("D032", 0.2), thin("D032", 1.2)])[0].standing();
        assert_eq!(over, Standing::Exceeded, "outside its clause or not, it is over");
        assert_eq!(items(&all[..1])[0].standing(), Standing::Passed);
    }
}
