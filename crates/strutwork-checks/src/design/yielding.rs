//! D001: elastic stress against yield, with the stated margin.

use strutwork_model::model::BasisKind;
use strutwork_model::{Code, IndexVec, Severity, TubeId};

use super::beside_weld::{Kept, beside_weld};
use super::section;
use super::steel_tube::{SteelTube, case_of, forces, margin_source, profile_of, tube_of};
use super::sweep::{Row, over_tubes};
use crate::calculation::{Calculation, Pages, Silent, Unit};
use crate::code::elastic::{self, Allowed, Elastic, SOURCE};
use crate::code::profile::Profile;
use crate::{Finding, Judged, Subject};

/// The greatest von Mises stress of each tube in each case, against yield over γ_M0 and the margin of the case.
///
/// Where the material has a strength beside the weld, the lower of the two holds: tubes are welded at their joints, where they
/// are mostly loaded most. In an ultimate case a tube that D021 judges by its plastic strength is only warned of here: first
/// yield is no limit there. What it leaves out: welds, buckling, local denting of chord walls, fatigue, holes.
///
/// # Source
/// See [`SOURCE`].
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let tubes: IndexVec<TubeId, Option<Yielding>> =
        judged.model.tubes().ids().map(|tube| Yielding::of(judged, tube)).collect();
    let rows = over_tubes(judged, |case, tube| {
        let yielding = tubes[tube].as_ref()?;
        let (place, found) = yielding.worst(judged, case, tube)?;
        let is_limit = !(judged.is_ultimate(case) && yielding.is_plastic);
        Some((is_limit.then_some(found.utilisation), (place, found)))
    });
    let clauses: Vec<[String; 2]> =
        (0..judged.results.cases.len()).map(|case| [false, true].map(|weld| clause(judged, case, weld))).collect();
    rows.iter().filter_map(|row| Some(finding(judged, row, tubes[row.tube].as_ref()?, &clauses[row.case]))).collect()
}

/// A tube as this rule takes it.
struct Yielding {
    profile: Profile,
    /// The lower of the parent's and that beside the weld, Pa.
    yield_stress: f64,
    beside_weld: bool,
    /// Whether D021 judges it.
    is_plastic: bool,
}

impl Yielding {
    fn of(judged: Judged<'_>, tube: TubeId) -> Option<Self> {
        let row = &judged.model.tubes()[tube];
        let material = &judged.model.materials()[row.material];
        let parent = material.strength?.yield_stress;
        let kept = beside_weld(judged.model, tube)?;
        let beside = matches!(kept.kept, Kept::Less(_)).then_some(kept.strength.yield_stress);
        Some(Self {
            profile: profile_of(&judged.model.sections()[row.section], parent, material.youngs)?,
            yield_stress: beside.map_or(parent, |beside| parent.min(beside)),
            beside_weld: beside.is_some(),
            is_plastic: SteelTube::of(judged, tube).is_some_and(|steel| section::judges(judged, &steel)),
        })
    }

    fn allowed<'a>(&self, judged: Judged<'_>, case: usize, why: &'a str) -> Allowed<'a> {
        Allowed {
            yield_stress: self.yield_stress,
            what: if self.beside_weld {
                "yield strength, the lower of the material's and that beside a weld"
            } else {
                "yield strength"
            },
            gamma: judged.partial(case).m0,
            margin: judged.margin(case),
            why,
        }
    }

    /// The station of the greatest stress, the first of equals, by its place.
    fn worst(&self, judged: Judged<'_>, case: usize, tube: TubeId) -> Option<(usize, Elastic)> {
        let allowed = self.allowed(judged, case, "");
        let mut worst: Option<(usize, Elastic)> = None;
        for (place, station) in judged.results.cases[case].tubes[tube].stations.iter().enumerate() {
            let found = elastic::check(&self.profile, &forces(station), &allowed, &mut Silent);
            if worst.is_none_or(|(_, known)| found.von_mises > known.von_mises) {
                worst = Some((place, found));
            }
        }
        worst
    }
}

fn clause(judged: Judged<'_>, case: usize, beside_weld: bool) -> String {
    let kind = if beside_weld { "yield beside the weld" } else { "yield" };
    let margin = judged.margin(case);
    let basis = match judged.model.basis().kind {
        BasisKind::Vehicle => format!("{margin} (vehicle practice)"),
        BasisKind::Eurocode => format!("(γ_M0 {} · {margin} on loads)", judged.partial(case).m0),
    };
    format!("EN 1993-1-1 6.2.1(5): von Mises against {kind} / {basis}")
}

fn finding(judged: Judged<'_>, row: &Row<(usize, Elastic)>, yielding: &Yielding, clauses: &[String; 2]) -> Finding {
    let (place, found) = row.found;
    let tube = &judged.model.tubes()[row.tube];
    let limit = yielding.allowed(judged, row.case, "").stress();
    let over = found.utilisation > 1.0;
    let is_limit = row.utilisation.is_some();
    let message = if row.governs || over {
        let at = judged.results.cases[row.case].tubes[row.tube].stations[place].at;
        let verdict = match (over, is_limit) {
            (false, _) => "within",
            (true, true) => "over",
            (true, false) => "so it stays bent, as an ultimate case may leave it (D021 judges it): over",
        };
        format!(
            "tube {} reaches {:.0} MPa at {:.0} % of its length, {verdict} the {:.0} MPa {}",
            tube.name,
            found.von_mises / 1e6,
            at * 100.0,
            limit / 1e6,
            if is_limit { "allowed" } else { "of yield" }
        )
    } else {
        String::new()
    };
    Finding {
        code: Code("D001"),
        severity: match (over, is_limit) {
            (false, _) => Severity::Note,
            (true, true) => Severity::Error,
            (true, false) => Severity::Warning,
        },
        case: judged.results.cases[row.case].name.clone(),
        subject: Subject::Tube(row.tube),
        value: found.von_mises / 1e6,
        limit: Some(limit / 1e6),
        unit: "MPa",
        utilisation: row.utilisation,
        clause: clauses[usize::from(yielding.beside_weld)].clone(),
        entered: vec![("σ_v", found.von_mises, Unit::MPA), ("f_y", yielding.yield_stress, Unit::MPA)],
        message,
    }
}

/// The calculation behind a finding.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let (case, tube) = (case_of(judged, finding)?, tube_of(finding)?);
    let yielding = Yielding::of(judged, tube)?;
    let (place, _) = yielding.worst(judged, case, tube)?;
    let station = &judged.results.cases[case].tubes[tube].stations[place];
    let mut pages = Pages::default();
    let source = margin_source(judged, case);
    let found =
        elastic::check(&yielding.profile, &forces(station), &yielding.allowed(judged, case, &source), &mut pages);
    let row = &judged.model.tubes()[tube];
    let section = &judged.model.sections()[row.section];
    let at = station.at * 100.0;
    let title =
        format!("Tube {} ({}), case {}: stress at {at:.1} % of its length", row.name, section.label, finding.case);
    Some(pages.finish(title, finding.clause.clone(), SOURCE, found.utilisation))
}
