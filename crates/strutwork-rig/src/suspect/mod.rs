//! What is wrong with a whole station, or with the whole sheet: a dial that counts the other way, sides or stations that are
//! exchanged, another unit. Each is named from the data and the expected profile; where the remedy is plain it is taken for
//! granted from there on, and everything that rests on it says so.

mod dials;
mod order;
mod slopes;
mod units;

use strutwork_model::model::{RigRole, RigSheet};

use crate::readings::Readings;
use crate::remark::{Remark, codes};
use slopes::Slopes;

/// What twist the stations should show: its share along the frame is used, not its size.
#[derive(Debug)]
pub(crate) struct Expected {
    /// Twist at each station over the couple, rad/(N·m), relative to what is held; `None` where nothing can be said.
    pub(crate) twist: Vec<Option<f64>>,
    /// Whether it comes from the model: then its size counts too.
    pub(crate) of_model: bool,
    /// Distance along y of the model's joints at each station, m.
    pub(crate) breadth: Vec<Option<f64>>,
    /// The station where the couple acts.
    pub(crate) loaded: Option<usize>,
}

/// What was found, and which stations are read otherwise than they are written.
#[derive(Debug, Default)]
pub(crate) struct Suspicions {
    pub(crate) remarks: Vec<Remark>,
    /// Stations by place, whose readings were taken otherwise than written.
    pub(crate) assumed: Vec<usize>,
    /// Whether the size of the couple, or of all readings, is in doubt.
    pub(crate) size_in_doubt: bool,
}

/// Looks for what is wrong with stations; the readings are changed as the remarks say.
pub(crate) fn suspect(readings: &mut Readings<'_>, expected: &Expected) -> Suspicions {
    let mut found = Suspicions::default();
    dials::signs(readings, expected.loaded, &mut found);
    against_couple(readings, expected, &mut found);
    units::single_dials(readings, expected, &mut found);
    dials::sides(readings, expected, &mut found);
    units::stations(readings, expected, &mut found);
    order::stations(readings, expected, &mut found);
    dials::held(readings, expected.loaded, &mut found);
    units::whole(readings, expected, &mut found);
    found
}

/// The station that is called loaded; failing that the one that turns most.
pub(crate) fn loaded(readings: &Readings<'_>) -> Option<usize> {
    called_loaded(readings.sheet).or_else(|| {
        let slopes = Slopes::of(readings);
        (0..readings.cells.len())
            .filter(|station| !readings.is_held(*station))
            .max_by(|a, b| slopes.turn(*a).total_cmp(&slopes.turn(*b)))
    })
}

/// The station that is called loaded.
pub(crate) fn called_loaded(sheet: &RigSheet) -> Option<usize> {
    sheet.stations.iter().position(|station| station.role == RigRole::Loaded)
}

/// All stations turn against the couple: readings are turned round.
fn against_couple(readings: &mut Readings<'_>, expected: &Expected, found: &mut Suspicions) {
    let slopes = Slopes::of(readings);
    let told: Vec<(usize, f64)> = slopes.known(readings, expected);
    let against = told.iter().filter(|(_, twist)| *twist < 0.0).count();
    if told.is_empty() || 2 * against <= told.len() {
        return;
    }
    let message = "the sheet twists against its couple: where the couple should raise the left side the dials say that it sinks. \
                   It is read the other way round from here on"
        .to_owned();
    let remedy = "[rig] dials says which way a reading grows, weights_hang on which side weights hang; or the couple's sign, or left and right, are exchanged throughout: correct one of them";
    let line = readings.steps().first().map_or(0, |step| step.line);
    found.remarks.push(Remark::rig(codes::AGAINST_COUPLE, "", line, message, remedy));
    for dial in readings.cells.iter_mut().flatten().flat_map(|cell| &mut cell.dials) {
        *dial = dial.map(|value| -value);
    }
}
