//! D021: resistance of the cross-sections of each tube.

use strutwork_model::{Code, Severity, TubeId};

use super::steel_tube::{SteelTube, case_of, caution, clause, forces, margin_source, tube_of};
use super::sweep::{Row, over_tubes};
use crate::calculation::{Calculation, Pages, Silent, Sink, Unit};
use crate::code::profile::Forces;
use crate::code::section::{self, SOURCE};
use crate::code::{Partial, Verdict};
use crate::{Finding, Judged, Subject};

/// The most used station of each tube in each case, by the resistance of its cross-section to all forces there.
///
/// The strength is the parent material's; where it is less beside a weld D032 judges the tube's ends. Left out: holes, dents,
/// and what a joint does to the wall there (D030).
///
/// # Source
/// EN 1993-1-1:2005 6.2 ([`section::SOURCE`]).
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let tubes = SteelTube::all(judged);
    let rows = over_tubes(judged, |case, tube| {
        let steel = tubes[tube].as_ref()?;
        let (station, verdict) = worst(judged, case, tube, steel)?;
        Some((Some(verdict.utilisation), (station, verdict)))
    });
    rows.iter().map(|row| finding(judged, row)).collect()
}

/// Whether D021 judges a tube within the scope of its clauses: then its plastic strength counts, not first yield.
pub fn judges(judged: Judged<'_>, steel: &SteelTube) -> bool {
    steel.outside.is_none() && judged.model.switched_off().iter().all(|off| off.check != "D021")
}

/// The most used station, the first of equals, by its place, and what the standard says of it.
fn worst(judged: Judged<'_>, case: usize, tube: TubeId, steel: &SteelTube) -> Option<(usize, Verdict)> {
    let (margin, Partial { m0, .. }) = (judged.margin(case), judged.partial(case));
    let mut worst: Option<(usize, Verdict)> = None;
    for (place, station) in judged.results.cases[case].tubes[tube].stations.iter().enumerate() {
        let acting = forces(station).with_margin(margin, "", &mut Silent);
        let verdict = section::check(&steel.section, &acting, m0, &mut Silent);
        if worst.is_none_or(|(_, known)| verdict.utilisation > known.utilisation) {
            worst = Some((place, verdict));
        }
    }
    worst.map(|(place, verdict)| (place, steel.scoped(verdict)))
}

fn acting(judged: Judged<'_>, case: usize, tube: TubeId, place: usize) -> (Forces, f64) {
    let station = &judged.results.cases[case].tubes[tube].stations[place];
    (forces(station), station.at)
}

fn finding(judged: Judged<'_>, row: &Row<(usize, Verdict)>) -> Finding {
    let (place, verdict) = &row.found;
    let (raw, at) = acting(judged, row.case, row.tube, *place);
    let design = raw.with_margin(judged.margin(row.case), "", &mut Silent);
    let tube = &judged.model.tubes()[row.tube];
    let strength = judged.model.materials()[tube.material].strength.map_or(0.0, |strength| strength.yield_stress);
    let exceeds = row.exceeds();
    let message = if row.is_told() {
        format!(
            "tube {} uses {:.0} % of the strength of its section at {:.0} % of its length{}{}",
            tube.name,
            verdict.utilisation * 100.0,
            at * 100.0,
            if exceeds { ": too much" } else { "" },
            caution(verdict)
        )
    } else {
        String::new()
    };
    Finding {
        code: Code("D021"),
        severity: if exceeds { Severity::Error } else { Severity::Note },
        case: judged.results.cases[row.case].name.clone(),
        subject: Subject::Tube(row.tube),
        value: verdict.utilisation,
        limit: Some(1.0),
        unit: "",
        utilisation: Some(verdict.utilisation),
        clause: clause(verdict),
        entered: vec![
            ("N_Ed", design.n, Unit::N),
            ("M_y,Ed", design.moment[0], Unit::NM),
            ("M_z,Ed", design.moment[1], Unit::NM),
            ("V_y,Ed", design.shear[0], Unit::N),
            ("V_z,Ed", design.shear[1], Unit::N),
            ("T_Ed", design.torque, Unit::NM),
            ("f_y", strength, Unit::MPA),
        ],
        message,
    }
}

/// The calculation behind a finding.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let (case, tube) = (case_of(judged, finding)?, tube_of(finding)?);
    let steel = SteelTube::of(judged, tube)?;
    let (place, _) = worst(judged, case, tube, &steel)?;
    let (raw, at) = acting(judged, case, tube, place);
    let mut pages = Pages::default();
    if let Some(why) = steel.outside {
        pages.outside(why);
    }
    let acting = raw.with_margin(judged.margin(case), &margin_source(judged, case), &mut pages);
    let verdict = section::check(&steel.section, &acting, judged.partial(case).m0, &mut pages);
    let row = &judged.model.tubes()[tube];
    let section = &judged.model.sections()[row.section];
    let title = format!(
        "Tube {} ({}), case {}: section at {:.1} % of its length",
        row.name,
        section.label,
        finding.case,
        at * 100.0
    );
    Some(pages.finish(title, clause(&steel.scoped(verdict)), SOURCE, verdict.utilisation))
}
