//! D022: buckling of each tube in compression, alone and with bending.

use strutwork_loads::LoadCase;
use strutwork_model::model::{Route, Section};
use strutwork_model::{Code, IndexVec, Severity, TubeId};
use strutwork_solve::results::Station;

use super::diagram::diagrams;
use super::steel_tube::{SteelTube, case_of, caution, clause, margin_source, tube_of};
use super::sweep::{Row, over_tubes};
use crate::calculation::{Calculation, Pages, Put, Silent, Sink, Unit};
use crate::code::Verdict;
use crate::code::member::{self, Along, Axis, Curve, Member, SOURCE};
use crate::{Finding, Judged, Subject};

/// Compression below this share of the squash load is rounding.
const NOTHING: f64 = 1e-9;

/// Each tube in each case that compresses it somewhere, as a member between its ends.
///
/// N_Ed is the greatest compression along it, M_y,Ed and M_z,Ed the greatest moments along it, wherever they stand. The buckling
/// length is [`Judged::buckling_lengths`]. C_m is that of the tube's own moment diagram: the tubes of a braced space frame are
/// members whose ends hardly shift as they buckle. `[members] sway = true` takes 0.9 instead, for frames that are not braced.
///
/// Left out: buckling of several tubes together, growth of the frame's displacements (second order), eccentric joints that
/// the model does not have.
///
/// # Source
/// EN 1993-1-1:2005 6.3 ([`member::SOURCE`]).
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let tubes = SteelTube::all(judged);
    let mut points = (usize::MAX, IndexVec::new());
    let rows = over_tubes(judged, |case, tube| {
        let steel = tubes[tube].as_ref()?;
        let stations = &judged.results.cases[case].tubes[tube].stations;
        compressed(stations, steel)?;
        if points.0 != case {
            points = (case, concentrated(judged, &judged.cases.0[case]));
        }
        let along = along(stations, points.1[tube], judged.margin(case));
        let member = member_of(judged, case, tube, steel);
        let verdict = member::check(&member, &along, judged.partial(case).m1, &mut Silent);
        Some((Some(verdict.utilisation), (along, steel.scoped(verdict))))
    });
    rows.iter().map(|row| finding(judged, row)).collect()
}

/// The greatest compression along a tube, N, without margin; `None` where nothing presses it.
pub(super) fn compressed(stations: &[Station], steel: &SteelTube) -> Option<f64> {
    let profile = &steel.section.profile;
    let compression = stations.iter().fold(0.0_f64, |most, station| most.max(-station.forces.n));
    (compression > NOTHING * profile.area * profile.yield_stress).then_some(compression)
}

/// A tube as a member in a case.
pub(super) fn member_of(judged: Judged<'_>, case: usize, tube: TubeId, steel: &SteelTube) -> Member {
    let profile = &steel.section.profile;
    let section = &judged.model.sections()[judged.model.tubes()[tube].section];
    let lengths = judged.buckling_lengths(case, tube);
    let axes = [0, 1].map(|axis| {
        let buckling = lengths[axis];
        Axis::of_length(profile.youngs, profile.second[axis], buckling.length, buckling.why)
    });
    let curve = curve_of(section, profile.yield_stress);
    Member { section: steel.section, axes, curve, is_sway: judged.model.members().sway }
}

/// The buckling curve of a section of this yield strength, Pa.
pub(crate) fn curve_of(section: &Section, yield_stress: f64) -> Curve {
    Curve::of_tube(section.route == Some(Route::HotFinished), yield_stress)
}

/// Whether what acts between the ends of each tube is point loads alone.
fn concentrated(judged: Judged<'_>, case: &LoadCase) -> IndexVec<TubeId, bool> {
    let mut points: IndexVec<TubeId, bool> = judged.model.tubes().ids().map(|_| false).collect();
    for load in &case.tube_point_loads {
        points[load.tube] = true;
    }
    for load in &case.tube_loads {
        points[load.tube] = false;
    }
    points
}

/// What acts along a tube, margin included.
fn along(stations: &[Station], is_concentrated: bool, margin: f64) -> Along {
    let greatest = |part: fn(&Station) -> f64| stations.iter().fold(0.0_f64, |most, station| most.max(part(station)));
    Along {
        compression: margin * greatest(|station| -station.forces.n),
        moment: [
            margin * greatest(|station| station.forces.my.abs()),
            margin * greatest(|station| station.forces.mz.abs()),
        ],
        diagrams: diagrams(stations, is_concentrated),
    }
}

fn finding(judged: Judged<'_>, row: &Row<(Along, Verdict)>) -> Finding {
    let (along, verdict) = &row.found;
    let tube = &judged.model.tubes()[row.tube];
    let exceeds = row.exceeds();
    let message = if row.is_told() {
        format!(
            "tube {} uses {:.0} % of what it carries before it bows out, pressed with {:.0} N{}{}",
            tube.name,
            verdict.utilisation * 100.0,
            along.compression,
            if exceeds { ": too much" } else { "" },
            caution(verdict)
        )
    } else {
        String::new()
    };
    let [y, z] = judged.buckling_lengths(row.case, row.tube);
    Finding {
        code: Code("D022"),
        severity: if exceeds { Severity::Error } else { Severity::Note },
        case: judged.results.cases[row.case].name.clone(),
        subject: Subject::Tube(row.tube),
        value: verdict.utilisation,
        limit: Some(1.0),
        unit: "",
        utilisation: Some(verdict.utilisation),
        clause: clause(verdict),
        entered: vec![
            ("N_Ed", along.compression, Unit::N),
            ("M_y,Ed", along.moment[0], Unit::NM),
            ("M_z,Ed", along.moment[1], Unit::NM),
            ("L_cr,y", y.length, Unit::MM),
            ("L_cr,z", z.length, Unit::MM),
        ],
        message,
    }
}

/// The calculation behind a finding.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let (case, tube) = (case_of(judged, finding)?, tube_of(finding)?);
    let steel = SteelTube::of(judged, tube)?;
    let stations = &judged.results.cases[case].tubes[tube].stations;
    compressed(stations, &steel)?;
    let points = concentrated(judged, &judged.cases.0[case])[tube];
    let margin = judged.margin(case);
    let (raw, along) = (along(stations, points, 1.0), along(stations, points, margin));
    let mut pages = Pages::default();
    if let Some(why) = steel.outside {
        pages.outside(why);
    }
    pages.given("margin", margin, Unit::ONE, &margin_source(judged, case));
    let acting = [
        (["N", "N_Ed"], raw.compression, along.compression, Unit::N, "greatest compression along the tube"),
        (["M_y", "M_y,Ed"], raw.moment[0], along.moment[0], Unit::NM, "greatest moment along the tube"),
        (["M_z", "M_z,Ed"], raw.moment[1], along.moment[1], Unit::NM, "greatest moment along the tube"),
    ];
    for ([symbol, design], value, result, unit, note) in acting {
        pages.given(symbol, value, unit, note);
        let put: [Put<'_>; 2] = [("margin", margin, Unit::ONE), (symbol, value, unit)];
        pages.step(design, &format!("margin · {symbol}"), &put, result, unit, "");
    }
    let member = member_of(judged, case, tube, &steel);
    let verdict = member::check(&member, &along, judged.partial(case).m1, &mut pages);
    let row = &judged.model.tubes()[tube];
    let section = &judged.model.sections()[row.section];
    let title = format!("Tube {} ({}), case {}: buckling", row.name, section.label, finding.case);
    Some(pages.finish(title, clause(&steel.scoped(verdict)), SOURCE, verdict.utilisation))
}
