//! Which stations are held, which loaded, and between which two the stiffness is stated.

use strutwork_model::model::{RigRole, RigSheet};

use crate::readings::Readings;
use crate::remark::{Remark, codes};
use crate::twist::{Base, PIVOT};
use crate::{screen, suspect};

pub(super) fn check(readings: &Readings<'_>) -> Vec<Remark> {
    let has = |role: RigRole| readings.sheet.stations.iter().any(|station| station.role == role);
    let line = readings.steps().first().map_or(0, |step| step.line);
    let mut remarks = Vec::new();
    if !has(RigRole::Held) {
        let message = "no station has the role `held`: how far the rig itself yields is not known, and is not subtracted. The station \
                       farthest from the loaded one stands in for it"
            .to_owned();
        let remedy = "set a pair of dials at each point that holds the frame, and write `held` in its row: whatever the rig yields there counts as twist of the frame otherwise";
        remarks.push(Remark::rig(codes::ROLES, "held", line, message, remedy));
    }
    if !has(RigRole::Loaded) {
        let message = "no station has the role `loaded`: the one that turns most is taken for it".to_owned();
        let remedy = "set a pair of dials where the couple acts, and write `loaded` in its row";
        remarks.push(Remark::rig(codes::ROLES, "loaded", line, message, remedy));
    }
    remarks
}

/// The station where the couple acts, for the model: the one that is called so, else the one that turns most once the sheet
/// has been read by itself.
pub(crate) fn loaded(sheet: &RigSheet) -> Option<usize> {
    suspect::called_loaded(sheet).or_else(|| {
        let mut readings = Readings::of(sheet);
        screen::screen(&mut readings);
        let expected = super::expected(&readings, None);
        suspect::suspect(&mut readings, &expected);
        suspect::loaded(&readings)
    })
}

/// The loaded station and the nearest one of the base, but for the post of its own pivot.
pub(super) fn between(readings: &Readings<'_>, loaded: Option<usize>, base: &Base) -> Option<[usize; 2]> {
    let loaded = loaded?;
    let x = |station: usize| readings.sheet.stations[station].x;
    let near = |held: &&usize| (x(**held) - x(loaded)).abs();
    let others = || base.stations.iter().filter(|held| **held != loaded);
    let holds = others().filter(|held| near(held) > PIVOT).min_by(|a, b| near(a).total_cmp(&near(b)));
    let held = holds.or_else(|| others().next())?;
    Some([loaded, *held])
}
