//! A joint that has been read, in one load case: what acts, how it is balanced, what the check says.

use strutwork_solve::results::SectionForces;

use super::ends::End;
use super::reading::{Branch, Reading};
use crate::Judged;
use crate::calculation::Sink;
use crate::code::joint::{
    Acting, Balance, Brace, Chord, ChordForces, Kind, Outcome, Pushed, check, moments_outside, outside, shares,
};

/// Shares below this are rounding.
const NOTHING: f64 = 1e-9;

/// Section forces at an end of a tube, local axes; none where the tube has no stations.
fn forces_at(judged: Judged<'_>, case: usize, end: &End) -> SectionForces {
    let stations = &judged.results.cases[case].tubes[end.tube].stations;
    let station = if end.at_to { stations.last() } else { stations.first() };
    station.map(|station| station.forces).unwrap_or_default()
}

/// What every brace of the joint pushes square into the chord, N, compression positive; without margin.
pub(super) fn pushes(judged: Judged<'_>, case: usize, reading: &Reading) -> Vec<f64> {
    let push = |branch: &Branch| -forces_at(judged, case, &branch.end).n * branch.brace.angle.sin();
    reading.braces.iter().map(push).collect()
}

/// How the force of one brace is balanced: ways with shares that add up to 1, and for each K or N joint the neighbour's place
/// among the joint's braces.
pub(super) struct Ways {
    pub(super) ways: Vec<(f64, Kind)>,
    pub(super) neighbours: Vec<Option<usize>>,
}

/// The ways of the brace at `place`.
///
/// A neighbour takes its part of what is balanced on the same side in proportion to its own push; one that stands so far off
/// that the code takes both for joints of their own leaves it to the chord's shear.
pub(super) fn ways(reading: &Reading, pushes: &[f64], place: usize) -> Ways {
    let one = &reading.braces[place];
    let mut plane: Vec<Pushed> = Vec::new();
    let mut own = 0;
    for (other, branch) in reading.braces.iter().enumerate().filter(|(_, branch)| branch.plane == one.plane) {
        if other == place {
            own = plane.len();
        }
        plane.push(Pushed { push: pushes[other], first_side: branch.first_side });
    }
    let found = shares(&plane)[own];
    let facing = |other: usize| if (pushes[other] > 0.0) == (pushes[place] > 0.0) { 0.0 } else { pushes[other].abs() };
    let total: f64 = one.beside.iter().map(|beside| facing(beside.place)).sum();
    let mut plain = found.y;
    let mut all = Ways { ways: Vec::new(), neighbours: Vec::new() };
    for beside in &one.beside {
        let share = if total > 0.0 { found.k * facing(beside.place) / total } else { 0.0 };
        if beside.apart {
            plain += share;
        } else if share > NOTHING {
            all.ways.push((share, beside.kind));
            all.neighbours.push(Some(beside.place));
        }
    }
    for (share, kind) in [(found.x, Kind::X), (plain, Kind::Y)] {
        if share > NOTHING || (matches!(kind, Kind::Y) && all.ways.is_empty()) {
            all.ways.push((share, kind));
            all.neighbours.push(None);
        }
    }
    all
}

/// What acts on one brace and on the chord beside it.
pub(super) fn acting(judged: Judged<'_>, case: usize, reading: &Reading, branch: &Branch) -> Acting {
    let own = forces_at(judged, case, &branch.end);
    let moments = branch.moment_axes.map(|[y, z]| y * own.my + z * own.mz);
    let mut chord = ChordForces::NONE;
    let mut chord_axial = 0.0_f64;
    let area = branch.chord.area;
    for (place, end) in reading.chord.iter().enumerate() {
        let forces = forces_at(judged, case, end);
        let section = end.section(judged.model);
        let elastic = [section.wel_y, section.wel_z].map(|modulus| modulus.unwrap_or(f64::INFINITY));
        let moments = [forces.my, forces.mz];
        let found = ChordForces { axial: forces.n, moments, elastic, round: branch.chord.outline.is_round() };
        if place == 0 || found.compression(area) > chord.compression(area) {
            chord = found;
        }
        chord_axial = chord_axial.max(forces.n.abs());
    }
    Acting { axial: own.n, moments, chord, chord_axial, margin: judged.margin(case) }
}

/// The check of one brace in one case.
pub(super) fn judge(branch: &Branch, ways: &Ways, acting: &Acting, gamma: f64, sink: &mut impl Sink) -> Outcome {
    let balance = Balance { ways: &ways.ways, across: branch.across };
    check(&branch.chord, &branch.brace, balance, acting, gamma, sink)
}

/// Why the code does not cover the brace in this case, beside the reasons that hold whatever acts.
pub(super) fn reasons(branch: &Branch, ways: &Ways, acting: &Acting, outcome: &Outcome) -> Vec<String> {
    let chord = Chord { stress_ratio: outcome.stress_ratio, ..branch.chord };
    let brace = Brace { compressed: acting.axial < 0.0, ..branch.brace };
    let mut all = Vec::new();
    for &(_, kind) in &ways.ways {
        for why in outside(&chord, &brace, kind) {
            if !all.contains(&why) {
                all.push(why);
            }
        }
    }
    for beside in &branch.beside {
        if ways.neighbours.contains(&Some(beside.place)) {
            continue;
        }
        match beside.kind {
            Kind::Overlap { share, .. } => {
                all.push(format!("overlaps a brace beside it by {:.0} % that does not balance it", share * 100.0));
            }
            Kind::Gap { partner, gap, .. } if gap < brace.wall + partner.wall - 1e-9 => {
                all.push(format!("{:.1} mm from a brace beside it that does not balance it", gap * 1e3));
            }
            _ => {}
        }
    }
    let [_, in_plane, out_of_plane] = outcome.parts;
    all.extend(moments_outside(&chord, &brace, [in_plane, out_of_plane]));
    all
}
