//! What carries a mass or takes a force: joints, a body, or the upright of a linked corner.

use std::collections::BTreeSet;

use super::{Log, Lookup, words_help};
use crate::codes;
use crate::ids::{BodyId, Id, JointId};
use crate::model::{Carrier, Wheel};
use crate::spec::{CarrierWritten, Written};

/// The carrier of a mass, which may be an upright; `None` where one of its names is faulty or there is none.
pub(super) fn any(written: &CarrierWritten, who: &str, look: &Lookup<'_>, log: &mut Log) -> Option<Carrier> {
    match written {
        CarrierWritten::Upright(name) => upright(name, who, look, log).map(Carrier::Upright),
        other => on_frame(other, who, look, log),
    }
}

/// What takes a force on the frame's side: joints or a body; `None` where one is faulty or there is none.
pub(super) fn on_frame(written: &CarrierWritten, who: &str, look: &Lookup<'_>, log: &mut Log) -> Option<Carrier> {
    match written {
        CarrierWritten::Joints(names) if names.is_empty() => None,
        CarrierWritten::Joints(names) => joints(names, who, look, log).map(Carrier::Joints),
        CarrierWritten::Body(name) => look.body(name, who, log).map(Carrier::Body),
        CarrierWritten::Upright(name) => {
            let message = format!("{who}: its force must reach the frame, and an upright is on the wheel's side");
            let help = "name the joints that take it, or `body: NAME`";
            log.error(codes::NO_CARRIER, name.spot, name, message, help);
            None
        }
    }
}

/// The joints of a list, each once.
fn joints(names: &[Written<String>], who: &str, look: &Lookup<'_>, log: &mut Log) -> Option<Vec<JointId>> {
    let mut joints = Vec::with_capacity(names.len());
    let mut seen = BTreeSet::new();
    for name in names {
        let before = log.0.len();
        let found = look.joint(name, who, log);
        // In model.toml every name has its own quotes.
        let cell = name.spot.is_some_and(|spot| spot.file != crate::files::MODEL);
        if let Some(fault) = log.0.get_mut(before)
            && names.len() > 1
            && cell
        {
            fault
                .help
                .push_str("; names in this list are parted by spaces, so a name with a space in it cannot stand here");
        }
        if found.is_some_and(|joint| !seen.insert(joint)) {
            let message = format!("{who} lists the joint `{}` twice", name.value);
            log.error(codes::JOINT_LISTED_TWICE, name.spot, name, message, "list it once");
        }
        joints.extend(found);
    }
    (joints.len() == names.len()).then_some(joints)
}

/// The wheel of an upright, where its corner is linked.
fn upright(name: &Written<String>, who: &str, look: &Lookup<'_>, log: &mut Log) -> Option<Wheel> {
    let wheel = wheel(name, who, log)?;
    if look.linked[wheel as usize] {
        return Some(wheel);
    }
    if !look.corners_known {
        return None;
    }
    let message = format!("{who} sits on the upright of `{}`, and that corner has no links", wheel.name());
    let help = "add its links to suspension.csv, or name the joints or the body that carry the mass";
    log.error(codes::UPRIGHT_NOT_LINKED, name.spot, name, message, help);
    None
}

/// The wheel with this name, or a fault.
pub(super) fn wheel(name: &Written<String>, who: &str, log: &mut Log) -> Option<Wheel> {
    let found = Wheel::from_name(name);
    if found.is_none() {
        let message = format!("{who}: `{}` is not a corner", name.value);
        let help = words_help(name, &Wheel::ALL.map(Wheel::name));
        log.error(codes::UNKNOWN_WORD, name.spot, name, message, help);
    }
    found
}

impl Lookup<'_> {
    /// The body with this name, or a fault.
    pub(super) fn body(&self, name: &Written<String>, who: &str, log: &mut Log) -> Option<BodyId> {
        self.bodies.find(name, codes::UNKNOWN_BODY, "bodies.csv", who, log).map(BodyId::new)
    }
}
