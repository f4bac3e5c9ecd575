//! Maxima picked from results; nothing is computed.

use strutwork_model::{JointId, TubeId};
use strutwork_solve::CaseResult;
use strutwork_solve::results::{Station, Stress};

/// A tube at the station where its von Mises stress is greatest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WorstStation<'a> {
    /// The tube.
    pub tube: TubeId,
    /// The station.
    pub station: &'a Station,
    /// The stresses there, Pa.
    pub stress: &'a Stress,
}

/// For each freedom, the joint with the movement of greatest magnitude and that movement (m, rad) with its sign.
pub fn movements(result: &CaseResult) -> [Option<(JointId, f64)>; 6] {
    let mut largest = [None::<(JointId, f64)>; 6];
    for (joint, movement) in result.displacements.iter_with_id() {
        for (slot, value) in largest.iter_mut().zip(movement) {
            if slot.is_none_or(|(_, best)| value.abs() > best.abs()) {
                *slot = Some((joint, *value));
            }
        }
    }
    largest
}

/// Each tube with a section shape at its worst station, in the order of the tubes.
pub fn worst_stations(result: &CaseResult) -> Vec<WorstStation<'_>> {
    result
        .tubes
        .iter_with_id()
        .filter_map(|(tube, row)| {
            let stressed = row
                .stations
                .iter()
                .filter_map(|station| station.stress.as_ref().map(|stress| WorstStation { tube, station, stress }));
            stressed.reduce(greater)
        })
        .collect()
}

/// The one with the greater von Mises stress; the first where they are equal.
fn greater<'a>(first: WorstStation<'a>, second: WorstStation<'a>) -> WorstStation<'a> {
    if second.stress.von_mises > first.stress.von_mises { second } else { first }
}

/// The `count` tubes with the greatest von Mises stress, greatest first; equals stay in the order of the tubes.
pub fn worst_tubes(result: &CaseResult, count: usize) -> Vec<WorstStation<'_>> {
    let mut worst = worst_stations(result);
    worst.sort_by(|a, b| b.stress.von_mises.total_cmp(&a.stress.von_mises));
    worst.truncate(count);
    worst
}

/// The tube with the greatest von Mises stress.
pub fn worst_stress(result: &CaseResult) -> Option<WorstStation<'_>> {
    worst_stations(result).into_iter().reduce(greater)
}
