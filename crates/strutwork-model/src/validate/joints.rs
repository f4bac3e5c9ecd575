//! Joints: finite places, and no two at one place.

use super::Log;
use crate::codes;
use crate::ids::{IndexVec, JointId};
use crate::model::Joint;
use crate::spec::{JointRow, ModelSpec};
use crate::units::MM;

/// Two joints nearer than this are one, mm.
pub(super) const SAME_PLACE_MM: f64 = 0.01;

/// The joints; one with a faulty place stays in, so that ids and rows agree.
pub(super) fn check(spec: &ModelSpec, log: &mut Log) -> IndexVec<JointId, Joint> {
    let joints = spec
        .joints
        .iter()
        .map(|row| {
            let mut at = [0.0; 3];
            for (value, (axis, written)) in at.iter_mut().zip([("x", &row.x_mm), ("y", &row.y_mm), ("z", &row.z_mm)]) {
                *value = log.finite(written, &row.joint, axis) * MM;
            }
            Joint { name: row.joint.value.clone(), at, note: row.note.clone() }
        })
        .collect();
    same_place(&spec.joints, log);
    joints
}

fn place(row: &JointRow) -> [f64; 3] {
    [row.x_mm.value, row.y_mm.value, row.z_mm.value]
}

/// Names every joint that stands where an earlier one stands.
///
/// Joints are parted into runs along x, then y, then z, wherever neighbours are far enough apart, until only those that may
/// be one are left together: no pair of far joints is ever compared.
fn same_place(rows: &[JointRow], log: &mut Log) {
    let finite = (0..rows.len()).filter(|&row| place(&rows[row]).iter().all(|number| number.is_finite())).collect();
    let mut runs: Vec<Vec<usize>> = vec![finite];
    for axis in 0..3 {
        runs = runs.into_iter().flat_map(|run| part(rows, run, axis)).collect();
    }
    let mut found: Vec<(usize, usize)> = Vec::new();
    for mut run in runs {
        run.sort_unstable();
        for (at, &later) in run.iter().enumerate().skip(1) {
            if let Some(&earlier) =
                run[..at].iter().find(|&&earlier| distance(&rows[earlier], &rows[later]) < SAME_PLACE_MM)
            {
                found.push((later, earlier));
            }
        }
    }
    found.sort_unstable();
    for (later, earlier) in found {
        let (name, other) = (&rows[later].joint, &rows[earlier].joint);
        if name.value == other.value {
            continue;
        }
        let message = format!("the joints `{}` and `{}` stand at one place", other.value, name.value);
        let help = format!("keep one of them and use its name for the tubes of both, or move `{}`", name.value);
        log.error(codes::SAME_PLACE, name.spot, name, message, help);
    }
}

/// Parts a run where neighbours along an axis are apart. Runs of one are dropped.
fn part(rows: &[JointRow], mut run: Vec<usize>, axis: usize) -> Vec<Vec<usize>> {
    run.sort_by(|&a, &b| place(&rows[a])[axis].total_cmp(&place(&rows[b])[axis]).then(a.cmp(&b)));
    run.chunk_by(|&a, &b| place(&rows[b])[axis] - place(&rows[a])[axis] < SAME_PLACE_MM)
        .filter(|part| part.len() > 1)
        .map(<[usize]>::to_vec)
        .collect()
}

fn distance(a: &JointRow, b: &JointRow) -> f64 {
    let (a, b) = (place(a), place(b));
    ((b[0] - a[0]).powi(2) + (b[1] - a[1]).powi(2) + (b[2] - a[2]).powi(2)).sqrt()
}
