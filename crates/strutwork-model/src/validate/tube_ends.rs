//! Ends of tubes: offsets shorter than the tube, springs where nothing is released.

use super::Log;
use crate::codes;
use crate::dof::{Dof, DofMap};
use crate::ids::{IndexVec, JointId};
use crate::model::{Joint, Tube, TubeEnd};
use crate::spec::{TubeEndWritten, TubeRow};
use crate::units::{MM, N_PER_MM, NM_PER_DEG, to_mm};

/// Freedoms that can have a spring, in the order of the columns.
const SPRUNG: [Dof; 4] = [Dof::Ux, Dof::Rx, Dof::Ry, Dof::Rz];

/// One end of a tube; `None` where faulty. `end` is `from` or `to`.
pub(super) fn end(
    row: &TubeRow,
    written: &TubeEndWritten,
    released: Option<DofMap<bool>>,
    end: &str,
    log: &mut Log,
) -> Option<TubeEnd> {
    let name = &row.tube;
    let offset = [("x", 0), ("y", 1), ("z", 2)]
        .map(|(axis, place)| log.finite(&written.offset_mm[place], name, &format!("`offset_{end}_{axis}_mm`")) * MM);
    let mut springs = DofMap::default();
    let mut good = offset.iter().all(|part| part.is_finite());
    for (dof, spring) in SPRUNG.into_iter().zip(&written.springs) {
        let Some(spring) = spring else { continue };
        let unit = if dof.is_rotation() { "nm_per_deg" } else { "n_per_mm" };
        let column = format!("spring_{end}_{}_{unit}", dof.name());
        let stiffness = log.finite(spring, name, &format!("`{column}`"));
        if stiffness <= 0.0 {
            let message = format!("tube `{}`: `{column}` is {stiffness}", name.value);
            let help = format!(
                "leave the cell empty where the end is rigid; name `{}` under release_{end} where it is free",
                dof.name()
            );
            log.error(codes::END_SPRING, spring.spot, name, message, help);
        } else if released.is_some_and(|released| released[dof]) {
            let message =
                format!("tube `{}`: `{}` is released at `{end}` and has a spring there", name.value, dof.name());
            let help = "take the freedom out of the release, or empty the spring's cell";
            log.error(codes::SPRING_AND_RELEASE, spring.spot, name, message, help);
            good = false;
        }
        good &= stiffness > 0.0;
        springs[dof] = Some(stiffness * if dof.is_rotation() { NM_PER_DEG } else { N_PER_MM });
    }
    good.then_some(TubeEnd { offset, springs })
}

/// Ends of a tube between its offsets, m; `None` and a fault where the offsets leave no tube of its direction.
pub(super) fn between(
    row: &TubeRow,
    tube: &Tube,
    joints: &IndexVec<JointId, Joint>,
    log: &mut Log,
) -> Option<[[f64; 3]; 2]> {
    let end = |joint: JointId, end: &TubeEnd| [0, 1, 2].map(|axis| joints[joint].at[axis] + end.offset[axis]);
    let ends = [end(tube.from, &tube.end_from), end(tube.to, &tube.end_to)];
    let minus = |a: [f64; 3], b: [f64; 3]| [0, 1, 2].map(|axis| a[axis] - b[axis]);
    let dot = |a: [f64; 3], b: [f64; 3]| a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    let (along, line) = (minus(ends[1], ends[0]), minus(joints[tube.to].at, joints[tube.from].at));
    let length = dot(along, along).sqrt();
    for (name, end, written) in [("from", &tube.end_from, &row.end_from), ("to", &tube.end_to, &row.end_to)] {
        let offset = dot(end.offset, end.offset).sqrt();
        if offset > 0.0 && (offset > length || dot(along, line) <= 0.0) {
            let given = written.offset_mm.iter().find(|part| part.value != 0.0);
            let message = format!(
                "tube `{}`: its offset at `{name}` is {:.1} mm long, the tube between its ends {:.1} mm",
                row.tube.value,
                to_mm(offset),
                to_mm(length)
            );
            let help = "an offset is the short arm from the joint to where the tube ends, along the axes of the frame";
            log.error(codes::OFFSET_TOO_LONG, given.and_then(|part| part.spot), &row.tube, message, help);
            return None;
        }
    }
    Some(ends)
}
