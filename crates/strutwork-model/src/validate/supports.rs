//! Supports: a known joint, once, held by something that holds.

use std::collections::BTreeMap;

use super::{Log, Lookup};
use crate::codes;
use crate::dof::{Dof, DofMap};
use crate::ids::JointId;
use crate::model::{Hold, Support};
use crate::spec::{HoldWritten, ModelSpec, SupportRow, Written};
use crate::units::{N_PER_MM, NM_PER_DEG};

/// The supports, `None` where faulty.
pub(super) fn check(spec: &ModelSpec, look: &Lookup<'_>, log: &mut Log) -> Vec<Option<Support>> {
    let mut seen: BTreeMap<JointId, &SupportRow> = BTreeMap::new();
    let mut supports = Vec::with_capacity(spec.supports.len());
    for row in &spec.supports {
        let joint = look.joint(&row.joint, "support", log);
        let name = &row.joint;
        let mut holds = DofMap::default();
        let mut good = true;
        for (dof, written) in Dof::ALL.into_iter().zip(&row.holds) {
            match hold(dof, written, name, log) {
                Some(hold) => holds[dof] = hold,
                None => good = false,
            }
        }
        if good && holds.0.iter().all(|hold| *hold == Hold::Free) {
            let message = format!("the support of `{}` holds nothing: every freedom is free", name.value);
            log.warning(
                codes::HOLDS_NOTHING,
                name.spot,
                name,
                message,
                "write `fixed` where it is held, or take the row out",
            );
        }
        if let Some(joint) = joint
            && let Some(first) = seen.insert(joint, row)
        {
            let place = first.joint.spot.map(|spot| format!(", first on line {}", spot.line)).unwrap_or_default();
            let message = format!("the joint `{}` has two rows of supports{place}", name.value);
            log.error(codes::SUPPORT_TWICE, name.spot, name, message, "write what holds it in one row");
            good = false;
        }
        supports.push(joint.filter(|_| good).map(|joint| Support { joint, holds }));
    }
    supports
}

fn hold(dof: Dof, written: &Written<HoldWritten>, joint: &str, log: &mut Log) -> Option<Hold> {
    let stiffness = match written.value {
        HoldWritten::Free => return Some(Hold::Free),
        HoldWritten::Fixed => return Some(Hold::Fixed),
        HoldWritten::Stiffness(stiffness) => stiffness,
    };
    let number = Written { value: stiffness, spot: written.spot };
    let stiffness = log.finite(&number, joint, &format!("the stiffness of `{}`", dof.name()));
    if stiffness <= 0.0 {
        let message = format!("the support of `{joint}`: the stiffness of `{}` is {stiffness}", dof.name());
        let help = "write `free` where nothing holds it, `fixed` where nothing gives";
        log.error(codes::SPRING_NOT_POSITIVE, written.spot, joint, message, help);
    }
    let unit = if dof.is_rotation() { NM_PER_DEG } else { N_PER_MM };
    (stiffness > 0.0).then_some(Hold::Spring(stiffness * unit))
}
