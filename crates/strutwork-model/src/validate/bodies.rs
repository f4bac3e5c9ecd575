//! Bodies: which joints each bolts to and how.

use std::collections::BTreeMap;

use super::{Log, Lookup};
use crate::codes;
use crate::dof::{Dof, DofMap};
use crate::ids::{BodyId, BoltId, Id, IndexVec, JointId, MountId};
use crate::model::{Body, Bolt, Bond, Joint, Mount};
use crate::spec::{BodyRow, BondWritten, ModelSpec, Written};
use crate::units::{N_PER_MM, NM_PER_DEG};

/// The bodies with their mounts. Every body that has a name is there, so that ids and names agree; mounts of faulty rows
/// are not.
pub(super) struct Bodies {
    pub(super) bodies: IndexVec<BodyId, Body>,
    pub(super) mounts: IndexVec<MountId, Mount>,
    /// Whether every row became a mount.
    pub(super) complete: bool,
}

pub(super) fn check(
    spec: &ModelSpec,
    look: &Lookup<'_>,
    joints: &IndexVec<JointId, Joint>,
    bolts: &IndexVec<BoltId, Bolt>,
    log: &mut Log,
) -> Bodies {
    let mut bodies: IndexVec<BodyId, Body> =
        look.bodies.all().map(|name| Body { name: name.to_owned(), at: [0.0; 3], mounts: Vec::new() }).collect();
    let mut mounts = IndexVec::new();
    let mut pairs: BTreeMap<(BodyId, JointId), &BodyRow> = BTreeMap::new();
    let mut rigid: BTreeMap<JointId, &BodyRow> = BTreeMap::new();
    for row in &spec.bodies {
        let Some(mount) = mount(row, look, bolts, log) else { continue };
        if let Some(first) = pairs.insert((mount.body, mount.joint), row) {
            doubled(row, first, log);
            continue;
        }
        let held = mount.bonds.0.contains(&Bond::Rigid);
        if let Some(first) = rigid.get(&mount.joint)
            && held
        {
            rigid_to_two(row, first, log);
        } else if held {
            rigid.insert(mount.joint, row);
        }
        bodies[mount.body].mounts.push(mounts.push(mount));
    }
    for place in bodies.ids() {
        let body = &bodies[place];
        let number = body.mounts.len().max(1) as f64;
        let sum = |axis: usize| body.mounts.iter().map(|&mount| joints[mounts[mount].joint].at[axis]).sum::<f64>();
        let at = [0, 1, 2].map(|axis| sum(axis) / number);
        bodies[place].at = at;
    }
    used(spec, &mounts, log);
    Bodies { complete: mounts.len() == spec.bodies.len(), bodies, mounts }
}

fn doubled(row: &BodyRow, first: &BodyRow, log: &mut Log) {
    let place = first.joint.spot.map(|spot| format!(", first on line {}", spot.line)).unwrap_or_default();
    let message = format!("the body `{}` bolts to the joint `{}` twice{place}", row.body.value, row.joint.value);
    let help = "keep one row: two bolts at one joint are one mount with the stiffness of both";
    log.error(codes::DOUBLED_BOLT, row.joint.spot, &row.joint, message, help);
}

fn rigid_to_two(row: &BodyRow, first: &BodyRow, log: &mut Log) {
    let message = format!(
        "the joint `{}` is bolted rigidly to two bodies, `{}` and `{}`",
        row.joint.value, first.body.value, row.body.value
    );
    let help = "give one of the two a stiffness in every direction in which it holds, or make the two one body";
    log.error(codes::RIGID_TO_TWO, row.joint.spot, &row.joint, message, help);
}

fn mount(row: &BodyRow, look: &Lookup<'_>, bolts: &IndexVec<BoltId, Bolt>, log: &mut Log) -> Option<Mount> {
    let who = format!("body `{}`", row.body.value);
    let body = look.bodies.row(&row.body).map(BodyId::new);
    let joint = look.joint(&row.joint, &who, log);
    let bolt = match &row.bolt {
        None => Some(None),
        Some(name) => {
            look.bolts.find(name, codes::UNKNOWN_BOLT, "model.toml", &who, log).map(|row| Some(BoltId::new(row)))
        }
    };
    let bonds = bonds(row, log);
    let axis = match &row.axis {
        Some(axis) => {
            Some(unit(axis, &row.joint, &format!("{who}: the axis of the bolt at `{}`", row.joint.value), log)?)
        }
        None => bolt.flatten().and_then(|bolt| bolts[bolt].axis),
    };
    Some(Mount { body: body?, joint: joint?, bonds: bonds?, bolt: bolt?, axis, note: row.note.clone() })
}

/// How each freedom follows. Rotations that are not written follow where all three translations are rigid.
fn bonds(row: &BodyRow, log: &mut Log) -> Option<DofMap<Bond>> {
    let mut bonds = DofMap::default();
    let mut good = true;
    for (dof, written) in Dof::ALL.into_iter().zip(&row.bonds) {
        match written.value {
            BondWritten::Blank if dof.is_rotation() => {
                let rigid = [Dof::Ux, Dof::Uy, Dof::Uz].iter().all(|&dof| bonds[dof] == Bond::Rigid);
                bonds[dof] = if rigid { Bond::Rigid } else { Bond::Free };
            }
            BondWritten::Blank | BondWritten::Rigid => bonds[dof] = Bond::Rigid,
            BondWritten::Free => bonds[dof] = Bond::Free,
            BondWritten::Stiffness(stiffness) => match spring(row, dof, stiffness, written.spot, log) {
                Some(stiffness) => bonds[dof] = Bond::Spring(stiffness),
                None => good = false,
            },
        }
    }
    if good && bonds.0.iter().all(|bond| *bond == Bond::Free) {
        let message = format!(
            "the body `{}` is given nothing at the joint `{}`: every direction is free",
            row.body.value, row.joint.value
        );
        let help = "write `rigid` or a stiffness where the bolt holds, or take the row out";
        log.error(codes::MOUNT_HOLDS_NOTHING, row.joint.spot, &row.joint, message, help);
        good = false;
    }
    good.then_some(bonds)
}

fn spring(row: &BodyRow, dof: Dof, stiffness: f64, spot: Option<crate::spec::Spot>, log: &mut Log) -> Option<f64> {
    let column = ["kx_n_per_mm", "ky_n_per_mm", "kz_n_per_mm", "krx_nm_per_deg", "kry_nm_per_deg", "krz_nm_per_deg"]
        [dof.index()];
    let stiffness = log.finite(&Written { value: stiffness, spot }, &row.joint, &format!("`{column}`"));
    if stiffness <= 0.0 {
        let message = format!("body `{}`, joint `{}`: `{column}` is {stiffness}", row.body.value, row.joint.value);
        let help = "write `free` where the bolt does not hold, `rigid` where it does not give";
        log.error(codes::MOUNT_STIFFNESS, spot, &row.joint, message, help);
    }
    let unit = if dof.is_rotation() { NM_PER_DEG } else { N_PER_MM };
    (stiffness > 0.0).then_some(stiffness * unit)
}

/// Notes bolts that no row uses.
fn used(spec: &ModelSpec, mounts: &IndexVec<MountId, Mount>, log: &mut Log) {
    if mounts.len() < spec.bodies.len() {
        return;
    }
    for (place, entry) in spec.bolts.iter().enumerate() {
        if mounts.iter().all(|mount| mount.bolt.is_none_or(|bolt| bolt.index() != place)) {
            let name = &entry.name;
            let message = format!("no row of bodies.csv uses the bolt `{}`", name.value);
            log.note(codes::UNUSED, name.spot, name, message, "leave it or take it out: it changes nothing");
        }
    }
}

/// The unit vector of a direction.
pub(super) fn unit(written: &Written<[f64; 3]>, subject: &str, what: &str, log: &mut Log) -> Option<[f64; 3]> {
    let largest = written.value.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    if !written.value.iter().all(|value| value.is_finite()) {
        let message = format!("{what} is not made of numbers that can be worked with");
        log.error(codes::NOT_FINITE, written.spot, subject, message, "write three finite numbers, or x, y or z");
        return None;
    }
    if largest == 0.0 {
        let help = "write `x`, `y`, `z`, or three numbers that are not all 0";
        log.error(codes::NO_DIRECTION, written.spot, subject, format!("{what} points nowhere"), help);
        return None;
    }
    // Scaled first: squares of very small or very large numbers would be lost.
    let scaled = written.value.map(|value| value / largest);
    let length = scaled.iter().map(|value| value * value).sum::<f64>().sqrt();
    Some(scaled.map(|value| value / length))
}
