//! Utilisations as the design findings state them: what governs each item, and each case; nothing is computed.

use std::collections::BTreeMap;

use strutwork_checks::governing::{Item, Kind, Standing, judged_and_not};
use strutwork_checks::{Finding, Subject};
use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, TubeId};

use crate::run::Run;

/// The greatest utilisations of a run's design findings (codes `D…`). Trust findings have limits too, but say nothing of
/// strength.
#[derive(Debug, Clone, PartialEq)]
pub struct Utilisations<'a> {
    /// Every item that is held against a limit, the worst first.
    pub items: Vec<Item<'a>>,
    /// Of each tube between its joints, over all cases; `None` where none was judged.
    pub by_tube: IndexVec<TubeId, Option<&'a Finding>>,
    /// Of what happens at the two ends of each tube, from `from` to `to`: the wall it is welded to, its weld, the steel beside
    /// it; over all cases.
    pub by_end: IndexVec<TubeId, [Option<&'a Finding>; 2]>,
    unjudged: [usize; Kind::ALL.len()],
    by_case: Vec<OfCase<'a>>,
    places: BTreeMap<&'a str, usize>,
}

/// The worst of one case.
#[derive(Debug, Clone, PartialEq, Default)]
struct OfCase<'a> {
    by_kind: [Option<&'a Finding>; Kind::ALL.len()],
    by_tube: Vec<Option<&'a Finding>>,
}

/// How many items of one kind stand how.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standings {
    /// What kind.
    pub kind: Kind,
    /// Over some limit.
    pub exceeded: usize,
    /// Within every limit, but some clause does not cover them: no passes.
    pub outside: usize,
    /// Within every limit of the checks that were made.
    pub passed: usize,
    /// Held against no limit.
    pub unjudged: usize,
}

impl<'a> Utilisations<'a> {
    /// Picks the maxima out of a run's findings; of equals, the first.
    pub fn of(run: &Run<'a>) -> Self {
        let (items, unjudged) = judged_and_not(run.findings);
        let tubes = run.model.tubes().len();
        let mut by_tube = vec![None; tubes];
        let mut by_end = vec![[None; 2]; tubes];
        // The worst come first, so that the first of a place is its worst.
        for finding in items.iter().map(|item| item.governing) {
            match finding.subject {
                Subject::Tube(tube) if by_tube[tube.index()].is_none() => by_tube[tube.index()] = Some(finding),
                Subject::End { tube, at_to } => {
                    let slot = &mut by_end[tube.index()][usize::from(at_to)];
                    *slot = slot.or(Some(finding));
                }
                _ => {}
            }
        }
        let mut judged = [0; Kind::ALL.len()];
        for item in &items {
            judged[item.governing.kind() as usize] += 1;
        }
        let mut unjudged_of = [0; Kind::ALL.len()];
        for finding in unjudged {
            unjudged_of[finding.kind() as usize] += 1;
        }
        // Of these the model knows how many there are, whether a check speaks of them or not.
        for (kind, all) in
            [(Kind::Tube, tubes), (Kind::Bolt, run.model.mounts().len()), (Kind::Panel, run.model.panels().len())]
        {
            unjudged_of[kind as usize] = all.saturating_sub(judged[kind as usize]);
        }
        let (by_case, places) = cases(run);
        Self {
            items,
            by_tube: by_tube.into_iter().collect(),
            by_end: by_end.into_iter().collect(),
            unjudged: unjudged_of,
            by_case,
            places,
        }
    }

    /// The finding nearest to its limit, of the whole run.
    pub fn worst(&self) -> Option<&'a Finding> {
        self.items.first().map(|item| item.governing)
    }

    /// The item nearest to its limit of each kind that was judged, in the order of reports.
    pub fn worst_by_kind(&self) -> impl Iterator<Item = (Kind, &Item<'a>)> {
        Kind::ALL.into_iter().filter_map(|kind| Some((kind, self.of_kind(kind).next()?)))
    }

    /// The items of one kind, the worst first.
    pub fn of_kind(&self, kind: Kind) -> impl Iterator<Item = &Item<'a>> {
        self.items.iter().filter(move |item| item.governing.kind() == kind)
    }

    /// How the items of each kind stand; kinds that do not occur are left out.
    pub fn standings(&self) -> Vec<Standings> {
        let mut all = Kind::ALL.map(|kind| Standings {
            kind,
            exceeded: 0,
            outside: 0,
            passed: 0,
            unjudged: self.unjudged[kind as usize],
        });
        for item in &self.items {
            let of_kind = &mut all[item.governing.kind() as usize];
            match item.standing() {
                Standing::Exceeded => of_kind.exceeded += 1,
                Standing::Outside => of_kind.outside += 1,
                Standing::Passed => of_kind.passed += 1,
            }
        }
        let occurs = |of: &Standings| of.exceeded + of.outside + of.passed + of.unjudged > 0;
        all.into_iter().filter(occurs).collect()
    }

    /// How many items stand outside the clauses that they are judged by, and exceed nothing.
    pub fn outside(&self) -> usize {
        self.items.iter().filter(|item| item.standing() == Standing::Outside).count()
    }

    /// Of one case, on any subject.
    pub fn in_case(&self, case: &str) -> Option<&'a Finding> {
        self.kinds_in_case(case).fold(None, greater)
    }

    /// Of one case, the worst of each kind, in the order of reports.
    pub fn kinds_in_case(&self, case: &str) -> impl Iterator<Item = &'a Finding> + use<'a> {
        self.of_case(case).map_or([None; Kind::ALL.len()], |of_case| of_case.by_kind).into_iter().flatten()
    }

    /// Of one tube between its joints in one case.
    pub fn of_tube(&self, tube: TubeId, case: &str) -> Option<&'a Finding> {
        self.of_case(case)?.by_tube.get(tube.index()).copied().flatten()
    }

    fn of_case(&self, case: &str) -> Option<&OfCase<'a>> {
        self.places.get(case).map(|place| &self.by_case[*place])
    }

    /// How many tubes were not judged at all.
    pub fn unjudged(&self) -> usize {
        self.by_tube.iter().filter(|finding| finding.is_none()).count()
    }
}

/// The worst of every case, and where each case stands.
fn cases<'a>(run: &Run<'a>) -> (Vec<OfCase<'a>>, BTreeMap<&'a str, usize>) {
    let tubes = run.model.tubes().len();
    let empty = OfCase { by_tube: vec![None; tubes], ..OfCase::default() };
    let mut by_case = vec![empty; run.cases.0.len()];
    let places: BTreeMap<&str, usize> =
        run.cases.0.iter().enumerate().map(|(place, case)| (case.name.as_str(), place)).collect();
    // Checks go through the cases one after the other: mostly it is the case of the finding before.
    let mut last: Option<(&str, usize)> = None;
    for finding in
        run.findings.iter().filter(|finding| finding.code.0.starts_with('D') && finding.utilisation.is_some())
    {
        let place = match last {
            Some((case, place)) if case == finding.case => place,
            _ => match places.get(finding.case.as_str()) {
                Some(place) => *place,
                // What holds for all cases belongs to none.
                None => continue,
            },
        };
        last = Some((&finding.case, place));
        let of_case = &mut by_case[place];
        let slot = &mut of_case.by_kind[finding.kind() as usize];
        *slot = greater(*slot, finding);
        if let Subject::Tube(tube) = finding.subject
            && let Some(slot) = of_case.by_tube.get_mut(tube.index())
        {
            *slot = greater(*slot, finding);
        }
    }
    (by_case, places)
}

fn greater<'a>(best: Option<&'a Finding>, next: &'a Finding) -> Option<&'a Finding> {
    match best {
        Some(best) if best.utilisation >= next.utilisation => Some(best),
        _ => Some(next),
    }
}
