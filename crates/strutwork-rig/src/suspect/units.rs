//! Units: dials in inches, hundredths or thousandths, a spacing in centimetres, a couple in kilopond metres.

use strutwork_model::Code;
use strutwork_model::units::to_mm;

use super::slopes::Slopes;
use super::{Expected, Suspicions};
use crate::line::median;
use crate::readings::{Readings, Side};
use crate::remark::{Remark, codes};
use crate::words::{rounded, shown};

/// A slip of unit: by how much it makes readings too great, and in words.
type Slip = (f64, &'static str);

/// Slips of a dial.
const DIAL: [Slip; 5] = [
    (1.0 / 25.4, "inches written as mm"),
    (0.1, "centimetres written as mm"),
    (1000.0 / 25.4, "thousandths of an inch written as mm"),
    (100.0, "hundredths of a millimetre written as mm"),
    (1000.0, "thousandths of a millimetre written as mm"),
];

/// Slips of a spacing.
const SPACING: [Slip; 3] =
    [(10.0, "centimetres written as mm"), (25.4, "inches written as mm"), (1000.0, "metres written as mm")];

/// Slips that make the whole sheet too soft (above 1) or too stiff, with their codes.
const WHOLE: [(Slip, Code); 7] = [
    ((9.806_65, "a couple in kgf·m written as N·m, weights without g, or an arm in centimetres"), codes::COUPLE_UNIT),
    ((1.0 / 9.806_65, "a couple with g twice, or a weight in N written as kg"), codes::COUPLE_UNIT),
    ((1.0 / 25.4, "dials in inches written as mm"), codes::DIAL_UNIT),
    ((1000.0 / 25.4, "dials in thousandths of an inch written as mm"), codes::DIAL_UNIT),
    ((100.0, "dials in hundredths of a millimetre written as mm"), codes::DIAL_UNIT),
    (
        (1000.0, "dials in thousandths of a millimetre written as mm, or a couple in kN·m written as N·m"),
        codes::DIAL_UNIT,
    ),
    ((1e-3, "a couple in N·mm written as N·m"), codes::COUPLE_UNIT),
];

// All of these: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs, modelled.rs).
/// How far a ratio may be from a slip, as a factor; of the whole sheet, how much softer and stiffer than the model a frame is
/// taken to be.
const NEAR: f64 = 1.7;
const SOFTER: f64 = 2.3;
const STIFFER: f64 = 1.5;
/// Beyond these by this factor a sheet is looked at for a slip.
const LOOKED_AT: f64 = 1.5;
/// Ratios within these are no slip.
const SOUND: [f64; 2] = [0.3, 3.3];
/// Dials stand so far apart, mm, on anything with wheels.
const USUAL_SPACING_MM: std::ops::RangeInclusive<f64> = 100.0..=3000.0;
/// A spacing below this, mm, may be one in another unit.
const SMALL_SPACING_MM: f64 = 250.0;
/// A dial is held against its partner where the partner moves as it should, within these, and other stations lift by less than this
/// share of what their dials move.
const PARTNER: [f64; 2] = [0.4, 2.5];
const LIFTS: f64 = 0.5;
/// A spacing that is halved or doubled explains a ratio within this factor, where at least so many others lie within these.
const HALVED: f64 = 1.15;
const OTHERS: usize = 2;
const OTHERS_SOUND: [f64; 2] = [0.75, 1.3];

/// The slip nearest to a ratio, where one is near.
fn nearest(ratio: f64, slips: &[Slip]) -> Option<Slip> {
    let far = |slip: &Slip| (ratio / slip.0).ln().abs();
    slips.iter().copied().min_by(|a, b| far(a).total_cmp(&far(b))).filter(|slip| far(slip) < NEAR.ln())
}

/// One dial of a station counts in another unit than its partner: it is converted.
pub(super) fn single_dials(readings: &mut Readings<'_>, expected: &Expected, found: &mut Suspicions) {
    let slopes = Slopes::of(readings);
    let Some(scale) = slopes.scale(readings, expected) else { return };
    for (station, _) in slopes.known(readings, expected) {
        let (Some([left, right]), Some(twist)) = (slopes.both(station), expected.twist[station]) else { continue };
        let others: Vec<f64> = slopes
            .known(readings, expected)
            .into_iter()
            .filter(|(other, _)| *other != station)
            .filter_map(|(other, _)| slopes.lift(other).map(f64::abs))
            .collect();
        if median(others).is_none_or(|others| others > LIFTS) {
            continue;
        }
        let should = scale.abs() * twist * readings.sheet.stations[station].spacing / 2.0;
        let ratios = [left, right].map(|slope| slope.abs() / should);
        for side in Side::BOTH {
            let (own, partner) = (ratios[side as usize], ratios[1 - side as usize]);
            if !(PARTNER[0]..PARTNER[1]).contains(&partner) || (SOUND[0]..SOUND[1]).contains(&own) {
                continue;
            }
            let Some((factor, words)) = nearest(own / partner, &DIAL) else { continue };
            let name = readings.name(station);
            let message = format!(
                "the {} dial of station {name} moves {} times what the other does: {words}? It is converted from here on",
                side.word(),
                shown(own / partner)
            );
            let remedy = "convert its readings in rig.csv and say so under `note`";
            let line = readings.sheet.stations[station].line;
            found.remarks.push(Remark::rig(codes::DIAL_UNIT, name, line, message, remedy).with(own / partner, ""));
            found.assumed.push(station);
            scale_dials(readings, station, &[side], 1.0 / factor);
        }
    }
}

/// Both dials of a station, or its spacing, are in another unit: they are converted. A spacing that does not fit is told.
pub(super) fn stations(readings: &mut Readings<'_>, expected: &Expected, found: &mut Suspicions) {
    let slopes = Slopes::of(readings);
    let ratios = slopes.ratios(readings, expected);
    for &(station, ratio) in ratios.iter().filter(|_| ratios.len() > 1) {
        let spacing = to_mm(readings.sheet.stations[station].spacing);
        let (name, line) = (readings.name(station), readings.sheet.stations[station].line);
        if !(SOUND[0]..SOUND[1]).contains(&ratio) {
            let of_spacing = nearest(ratio, &SPACING)
                .filter(|slip| spacing < SMALL_SPACING_MM && USUAL_SPACING_MM.contains(&(spacing * slip.0)));
            let (code, what, factor, words) = match (of_spacing, nearest(ratio, &DIAL)) {
                (Some((factor, words)), _) => {
                    (codes::SPACING, format!("its spacing is {} mm", rounded(spacing, 1)), factor, words)
                }
                (None, Some((factor, words))) => (codes::DIAL_UNIT, "both its dials".to_owned(), factor, words),
                (None, None) => {
                    let message = format!(
                        "station {name} turns {} times what its neighbours let expect, and no usual slip explains it",
                        shown(ratio)
                    );
                    let remedy = "look at its dials, their spacing and their feet; take the station out of rig.csv if nobody knows";
                    found.remarks.push(Remark::rig(codes::STATION, name, line, message, remedy).with(ratio, ""));
                    continue;
                }
            };
            let message = format!(
                "station {name} turns {} times what its neighbours let expect; {what}: {words}? It is converted from here on",
                shown(ratio)
            );
            let remedy = "correct it in rig.csv and say so under `note`";
            found.remarks.push(Remark::rig(code, name, line, message, remedy).with(ratio, ""));
            found.assumed.push(station);
            scale_dials(readings, station, &Side::BOTH, 1.0 / factor);
        } else if let Some(factor) = halved(readings, expected, &ratios, station, ratio) {
            let message = format!(
                "station {name} turns {} times what its neighbours let expect; a spacing of {} mm in the place of {} mm would fit",
                shown(ratio),
                rounded(spacing * factor, 0),
                rounded(spacing, 0)
            );
            let remedy = "measure the distance between its two dials: from dial to dial, not from the centre line";
            found.remarks.push(Remark::rig(codes::SPACING, name, line, message, remedy).with(ratio, ""));
        }
    }
    for station in &readings.sheet.stations {
        let spacing = to_mm(station.spacing);
        let said = found.remarks.iter().any(|remark| remark.code == codes::SPACING && remark.subject == station.name);
        if !said && !USUAL_SPACING_MM.contains(&spacing) {
            let message = format!("the dials of station {} stand {} mm apart", station.name, rounded(spacing, 1));
            let remedy = "dials on a frame stand some 100 to 3000 mm apart: write the distance from dial to dial in mm";
            found
                .remarks
                .push(Remark::rig(codes::SPACING, &station.name, station.line, message, remedy).with(spacing, "mm"));
        }
    }
}

/// A spacing taken from the centre line, or twice: 2 or ½ where that explains a ratio that no neighbour shares.
fn halved(
    readings: &Readings<'_>,
    expected: &Expected,
    ratios: &[(usize, f64)],
    station: usize,
    ratio: f64,
) -> Option<f64> {
    let factor = [2.0, 0.5].into_iter().find(|factor| (ratio / factor).ln().abs() < HALVED.ln())?;
    let others: Vec<f64> = ratios.iter().filter(|(other, _)| *other != station).map(|(_, ratio)| *ratio).collect();
    if others.len() < OTHERS || others.iter().any(|other| !(OTHERS_SOUND[0]..OTHERS_SOUND[1]).contains(other)) {
        return None;
    }
    // At the end of the frame a soft mount does the same: there the joints' own distance has to agree.
    let x = |station: usize| readings.sheet.stations[station].x;
    let between = ratios.iter().any(|(other, _)| x(*other) < x(station))
        && ratios.iter().any(|(other, _)| x(*other) > x(station));
    let agrees = expected.breadth[station]
        .is_some_and(|breadth| (breadth / readings.sheet.stations[station].spacing / factor).ln().abs() < HALVED.ln());
    (expected.of_model && (between || agrees)).then_some(factor)
}

/// The sheet as a whole is too soft or too stiff by a slip of unit. It is told, and nothing is converted.
pub(super) fn whole(readings: &Readings<'_>, expected: &Expected, found: &mut Suspicions) {
    if !expected.of_model {
        return;
    }
    let Some(scale) = Slopes::of(readings).scale(readings, expected).map(f64::abs) else { return };
    // A unit too small makes the sheet softer than the model by its factor, and the frame itself is mostly softer too.
    let fits = |(slip, _): &&(Slip, Code)| (1.0 / STIFFER..SOFTER).contains(&(scale / slip.0));
    if (1.0 / STIFFER / LOOKED_AT..SOFTER * LOOKED_AT).contains(&scale) {
        return;
    }
    let far = |(slip, _): &&(Slip, Code)| (scale / slip.0).ln().abs();
    let Some(&((factor, words), code)) = WHOLE.iter().filter(fits).min_by(|a, b| far(a).total_cmp(&far(b))) else {
        return;
    };
    let message = format!(
        "the whole sheet is {} times as {} as the model: {words}? Nothing is converted; with that slip mended the stiffness would be {} times what is stated",
        shown(if scale > 1.0 { scale } else { 1.0 / scale }),
        if scale > 1.0 { "soft" } else { "stiff" },
        shown(factor)
    );
    let remedy = "look up what the sheet was written in: couple_nm is N·m (1 kgf·m is 9.81 N·m), readings are mm; correct rig.csv";
    let line = readings.steps().first().map_or(0, |step| step.line);
    found.remarks.push(Remark::rig(code, "", line, message, remedy).with(scale, ""));
    found.size_in_doubt = true;
}

fn scale_dials(readings: &mut Readings<'_>, station: usize, sides: &[Side], by: f64) {
    for cell in &mut readings.cells[station] {
        for side in sides {
            let dial = &mut cell.dials[*side as usize];
            *dial = dial.map(|value| value * by);
        }
    }
}
