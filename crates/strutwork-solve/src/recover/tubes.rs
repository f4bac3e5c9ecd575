//! Forces, stresses and deflection along each tube.

use rayon::prelude::*;
use strutwork_element::Vec12;
use strutwork_element::beam::{Along, Forces, Piece, SpanLoad};
use strutwork_loads::LoadCase;
use strutwork_model::model::Section;
use strutwork_model::{IndexVec, JointId, Model, TubeId};

use super::stress::stress;
use crate::assembly::{SpanLoads, end_loads};
use crate::elements::{Element, Elements};
use crate::results::{CaseResult, SectionForces, Station, TubeResult};

/// Places closer than this share of the length are one station.
const SAME_PLACE: f64 = 1e-9;

/// Every tube's stations in one case.
pub fn recover_tubes(
    model: &Model,
    elements: &Elements,
    spans: &SpanLoads,
    displacements: &IndexVec<JointId, [f64; 6]>,
) -> IndexVec<TubeId, TubeResult> {
    let ids: Vec<TubeId> = model.tubes().ids().collect();
    let list: Vec<TubeResult> = ids
        .par_iter()
        .with_min_len(64)
        .map(|&id| {
            let tube = &model.tubes()[id];
            let joints = joint_values(&displacements[tube.from], &displacements[tube.to]);
            let section = &model.sections()[tube.section];
            let (along, ends) = along(elements.get(id), spans.on(id), &joints);
            let stations = stations(&along, elements.get(id), section);
            TubeResult { stations, end_displacements: ends.into(), pieces: Vec::new() }
        })
        .collect();
    list.into_iter().collect()
}

/// Section forces at any place of a tube, 0 at `from` to 1 at `to`: N, N·m; at a point load, those just before it.
pub fn forces_at(model: &Model, case: &LoadCase, result: &CaseResult, tube: TubeId, at: f64) -> SectionForces {
    let pieces = &result.tubes[tube].pieces;
    if let Some(last) = pieces.last() {
        let x = at * last.to;
        return section_forces(pieces.iter().find(|piece| x <= piece.to).unwrap_or(last).at(x));
    }
    let elements = Elements::of(model);
    let spans = SpanLoads::of(model, &elements, case);
    let row = &model.tubes()[tube];
    let joints = joint_values(&result.displacements[row.from], &result.displacements[row.to]);
    section_forces(along(elements.get(tube), spans.on(tube), &joints).0.forces_at(at))
}

fn along(element: &Element, loads: &[SpanLoad], joints: &Vec12) -> (Along, Vec12) {
    let (own, forces) = element.own_ends(joints, &end_loads(element, loads));
    (Along::new(element.beam, own, &forces, loads), own)
}

/// Displacements of a tube's two joints, global axes.
pub(crate) fn joint_values(from: &[f64; 6], to: &[f64; 6]) -> Vec12 {
    Vec12::from_iterator(from.iter().chain(to).copied())
}

/// Both ends, the middle, both sides of every point load, and every extreme between: of each section force, and of the
/// normal stress at the fibres.
pub(crate) fn stations(along: &Along, element: &Element, section: &Section) -> Vec<Station> {
    let length = element.beam.length;
    let mut places: Vec<(f64, Forces)> = Vec::new();
    for piece in along.pieces() {
        let mut inside: Vec<f64> = vec![length / 2.0];
        for force in 0..6 {
            let mut weights = [0.0; 6];
            weights[force] = 1.0;
            inside.extend(piece.stationary(&weights));
        }
        inside.extend(stress_extremes(piece, section));
        // The middle is a place that readers look for: an extreme beside it by rounding is there.
        for x in inside.iter_mut().filter(|x| (**x - length / 2.0).abs() < SAME_PLACE * length) {
            *x = length / 2.0;
        }
        inside.retain(|x| *x > piece.from && *x < piece.to);
        inside.sort_by(f64::total_cmp);
        inside.insert(0, piece.from);
        inside.push(piece.to);
        inside.dedup_by(|b, a| *b - *a < SAME_PLACE * length && *b != piece.to);
        places.extend(inside.into_iter().map(|x| (x, piece.at(x))));
    }
    // Where two pieces meet without a jump, one station is enough.
    places.dedup_by(|b, a| a.0 == b.0 && a.1 == b.1);
    let deflections = along.displacements(&places.iter().map(|(x, _)| *x).collect::<Vec<_>>());
    places
        .into_iter()
        .zip(deflections)
        .map(|((x, forces), displacement)| {
            let forces = section_forces(forces);
            let at = if x == length { 1.0 } else { x / length };
            Station { at, forces, stress: stress(section, &forces), displacement }
        })
        .collect()
}

/// The stationary places of the normal stress that can govern: the greatest and the least of those found.
fn stress_extremes(piece: &Piece, section: &Section) -> Vec<f64> {
    if section.round_radius.is_some() {
        return piece.stationary_resultant();
    }
    let (mut least, mut greatest) = ((f64::INFINITY, None), (f64::NEG_INFINITY, None));
    for [y, z] in &section.fibres {
        let weights = [1.0 / section.area, 0.0, 0.0, 0.0, z / section.iy, -y / section.iz];
        for x in piece.stationary(&weights) {
            let sigma: f64 = piece.at(x).iter().zip(&weights).map(|(force, weight)| force * weight).sum();
            if sigma < least.0 {
                least = (sigma, Some(x));
            }
            if sigma > greatest.0 {
                greatest = (sigma, Some(x));
            }
        }
    }
    [least.1, greatest.1].into_iter().flatten().collect()
}

fn section_forces([n, vy, vz, t, my, mz]: Forces) -> SectionForces {
    SectionForces { n, vy, vz, t, my, mz }
}
