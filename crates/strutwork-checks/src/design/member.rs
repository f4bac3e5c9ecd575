//! D022: buckling of each tube in compression, alone and with bending.

use strutwork_loads::LoadCase;
use strutwork_model::model::{Axes, Route, Section};
use strutwork_model::{Code, IndexVec, Severity, TubeId};
use strutwork_solve::results::Station;

use super::diagram::diagrams;
use super::steel_tube::{SteelTube, case_of, caution, clause, counted, margin_source, tube_of};
use super::sweep::{Row, over_tubes};
use crate::calculation::{Calculation, Pages, Put, Silent, Sink, Unit};
use crate::code::Verdict;
use crate::code::member::{self, Along, Axis, Curve, Member, SOURCE};
use crate::code::profile::{Profile, ROUNDING};
use crate::{Finding, Judged, Subject};

/// Each tube in each case that compresses it somewhere, as a member between its ends; and each flat bar that is bent about its
/// strong axis, as it may tip over without any compression: outside of what is computed here.
///
/// N_Ed is the greatest compression along it, M_y,Ed and M_z,Ed the greatest moments along it, wherever they stand. The buckling
/// length is [`Judged::buckling_lengths`]. C_m is that of the tube's own moment diagram: the tubes of a braced space frame are
/// members whose ends hardly shift as they buckle. `[members] sway = true` takes 0.9 instead, for frames that are not braced.
///
/// In second order forces and moments are those of the bent frame, and the lengths stay those between joints (EN 1993-1-1
/// 5.2.2(7)b, from memory): no sway length of the frame is called for. k_yy and k_zz then take growth within the tube again,
/// which errs on the safe side.
///
/// Left out: buckling of several tubes together, in first order growth of the frame's displacements, eccentric joints that
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
        is_judged(stations, steel).then_some(())?;
        if points.0 != case {
            points = (case, concentrated(judged, &judged.cases.0[case]));
        }
        let along = along(stations, &steel.section.profile, points.1[tube], judged.margin(case));
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
    (compression > ROUNDING * profile.area * profile.yield_stress).then_some(compression)
}

/// Whether D022 has something to say: a tube is pressed, or a flat bar is bent so that it may tip over.
fn is_judged(stations: &[Station], steel: &SteelTube) -> bool {
    let profile = &steel.section.profile;
    let tips = |station: &Station| profile.form.tips_over(counted(station, profile).moment);
    compressed(stations, steel).is_some() || stations.iter().any(tips)
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

/// Whether what acts between the ends of each tube and bends it about its y, and about its z, is point loads alone.
fn concentrated(judged: Judged<'_>, case: &LoadCase) -> IndexVec<TubeId, [bool; 2]> {
    let mut points: IndexVec<TubeId, [bool; 2]> = judged.model.tubes().ids().map(|_| [false; 2]).collect();
    for load in &case.tube_point_loads {
        // A moment about an axis bends as a force across it does.
        let force = bends(judged, load.tube, load.axes, [load.force, [0.0; 3]]);
        let [_, y, z] = local(judged, load.tube, load.axes, load.moment);
        let turns = [y, z].map(|part| part.abs() > SKEW * length(load.moment));
        points[load.tube] = [0, 1].map(|axis| points[load.tube][axis] || force[axis] || turns[axis]);
    }
    for load in &case.tube_loads {
        let spread = bends(judged, load.tube, load.axes, [load.from, load.to]);
        points[load.tube] = [0, 1].map(|axis| points[load.tube][axis] && !spread[axis]);
    }
    points
}

/// Share of a load below which its part along a local axis is rounding.
const SKEW: f64 = 1e-9;

/// Whether one of these forces bends a tube about its y (a part along z), and about its z.
fn bends(judged: Judged<'_>, tube: TubeId, axes: Axes, forces: [[f64; 3]; 2]) -> [bool; 2] {
    let each = forces.map(|force| {
        let [_, y, z] = local(judged, tube, axes, force);
        [z, y].map(|part| part.abs() > SKEW * length(force))
    });
    [0, 1].map(|axis| each[0][axis] || each[1][axis])
}

fn length(vector: [f64; 3]) -> f64 {
    vector[0].hypot(vector[1]).hypot(vector[2])
}

/// A vector's parts along the local axes of a tube.
fn local(judged: Judged<'_>, tube: TubeId, axes: Axes, vector: [f64; 3]) -> [f64; 3] {
    match axes {
        Axes::Local => vector,
        Axes::Global => {
            let along = |axis: [f64; 3]| axis[0] * vector[0] + axis[1] * vector[1] + axis[2] * vector[2];
            judged.model.local_axes(tube).map(along)
        }
    }
}

/// What acts along a tube, margin included, without rounding.
fn along(stations: &[Station], profile: &Profile, is_concentrated: [bool; 2], margin: f64) -> Along {
    let forces = || stations.iter().map(|station| counted(station, profile));
    let greatest = |axis: usize| forces().fold(0.0_f64, |most, forces| most.max(forces.moment[axis].abs()));
    let mut diagrams = diagrams(stations, is_concentrated);
    for (axis, diagram) in diagrams.iter_mut().enumerate() {
        diagram.ends = diagram.ends.map(|end| profile.moment_without_rounding(axis, end));
        diagram.span = diagram.span.map(|span| profile.moment_without_rounding(axis, span));
        if greatest(axis) == 0.0 {
            diagram.span = None;
        }
    }
    Along {
        compression: margin * forces().fold(0.0_f64, |most, forces| most.max(-forces.n)),
        moment: [margin * greatest(0), margin * greatest(1)],
        diagrams,
    }
}

fn finding(judged: Judged<'_>, row: &Row<(Along, Verdict)>) -> Finding {
    let (along, verdict) = &row.found;
    let tube = &judged.model.tubes()[row.tube];
    let exceeds = row.exceeds();
    let message = if row.is_told() {
        let (name, used, caution) = (&tube.name, verdict.utilisation * 100.0, caution(verdict));
        let too_much = if exceeds { ": too much" } else { "" };
        let pressed = along.compression;
        if pressed > 0.0 {
            format!(
                "tube {name} uses {used:.0} % of what it carries before it bows out, pressed with {pressed:.0} N{too_much}{caution}"
            )
        } else {
            format!("tube {name} is bent on edge and uses {used:.0} % of its strength in bending{too_much}{caution}")
        }
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

/// Where the buckling lengths come from the load factors of the whole frame: how.
pub(super) fn write_frame_lengths(judged: Judged<'_>, case: usize, tube: TubeId, member: &Member, pages: &mut Pages) {
    let profile = &member.section.profile;
    for (axis, of) in judged.frame_lengths(case, tube).into_iter().enumerate() {
        let Some(of) = of else { continue };
        let name = ["y", "z"][axis];
        let [factor, bound, force, second, length] =
            ["α_cr", "δ", "N_case", "I", "L_cr"].map(|symbol| format!("{symbol},{name}"));
        let from = format!("load factor of mode {} of the whole frame in this case, in which the tube bows", of.mode);
        pages.given(&factor, of.factor, Unit::ONE, &from);
        pages.given(&bound, of.error_bound, Unit::ONE, "bound on what the pieces put it too high by");
        pages.given(
            &force,
            of.compression,
            Unit::N,
            "greatest compression along the tube in this case, without margin",
        );
        let own = judged.model.length(tube);
        let put = [
            ("E", profile.youngs, Unit::MPA),
            (second.as_str(), profile.second[axis], Unit::MM4),
            (factor.as_str(), of.factor, Unit::ONE),
            (bound.as_str(), of.error_bound, Unit::ONE),
            (force.as_str(), of.compression, Unit::N),
            ("L", own, Unit::MM),
        ];
        let formula = format!("max(π · √(E · {second} / ({factor} · (1 − {bound}) · {force})), 0.5 · L)");
        pages.step(
            &length,
            &formula,
            &put,
            of.length,
            Unit::MM,
            "no joint holds better than a clamp: at least half of L",
        );
    }
}

/// The calculation behind a finding.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let (case, tube) = (case_of(judged, finding)?, tube_of(finding)?);
    let steel = SteelTube::of(judged, tube)?;
    let stations = &judged.results.cases[case].tubes[tube].stations;
    is_judged(stations, &steel).then_some(())?;
    let profile = &steel.section.profile;
    let points = concentrated(judged, &judged.cases.0[case])[tube];
    let margin = judged.margin(case);
    let (raw, along) = (along(stations, profile, points, 1.0), along(stations, profile, points, margin));
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
    if judged.results.cases[case].second_order.is_some() {
        pages.remark(
            "second order: these are the forces of the bent frame. Buckling lengths are those between joints, EN 1993-1-1 \
             5.2.2(7)b (from memory); growth within the tube counts twice, on the safe side; no imperfection of 5.3 is in it",
        );
    }
    let member = member_of(judged, case, tube, &steel);
    write_frame_lengths(judged, case, tube, &member, &mut pages);
    let verdict = member::check(&member, &along, judged.partial(case).m1, &mut pages);
    let row = &judged.model.tubes()[tube];
    let section = &judged.model.sections()[row.section];
    let title = format!("Tube {} ({}), case {}: buckling", row.name, section.label, finding.case);
    Some(pages.finish(title, clause(&steel.scoped(verdict)), SOURCE, verdict.utilisation))
}
