//! Readings that are not there, and steps that are too few.

use crate::readings::{Readings, Side};
use crate::remark::{Remark, codes};

/// Different couples without which no slope has an interval, and that good practice asks for (common practice, no source).
const FEWEST: usize = 3;
const GOOD: usize = 5;
/// Places that are told of each station.
const TOLD: usize = 4;

pub(super) fn find(readings: &Readings<'_>) -> Vec<Remark> {
    let mut remarks = Vec::new();
    for station in 0..readings.cells.len() {
        let mut told = Vec::new();
        let mut line = 0;
        for (step, cell) in readings.cells[station].iter().enumerate() {
            let lacking: Vec<&str> = Side::BOTH
                .iter()
                .filter(|side| cell.dials[**side as usize].is_none())
                .map(|side| side.word())
                .collect();
            if lacking.is_empty() {
                continue;
            }
            if line == 0 {
                line = if cell.line > 0 { cell.line } else { readings.sheet.stations[station].line };
            }
            let what =
                if cell.line == 0 { "no row".to_owned() } else { format!("{} dial empty", lacking.join(" and ")) };
            told.push(format!("{} ({what})", readings.step_name(step)));
        }
        if told.is_empty() {
            continue;
        }
        let more = told.len().saturating_sub(TOLD);
        let number = told.len();
        told.truncate(TOLD);
        let rest = if more > 0 { format!(", and {more} more") } else { String::new() };
        let name = readings.name(station);
        let message =
            format!("station {name} was not read in {}{rest}. The step is left out of its line.", told.join(", "));
        let remedy = "read it, if the rig still stands; else leave it as it is: the line goes through the others";
        remarks.push(Remark::rig(codes::MISSING, name, line, message, remedy).with(number as f64, "readings"));
    }
    remarks.extend(too_few(readings));
    remarks
}

fn too_few(readings: &Readings<'_>) -> Option<Remark> {
    let mut couples: Vec<f64> = readings.steps().iter().map(|step| step.couple).collect();
    couples.sort_by(f64::total_cmp);
    couples.dedup_by(|a, b| (*a - *b).abs() <= 1e-3 * readings.reach());
    let number = couples.len();
    if number >= GOOD {
        return None;
    }
    let message = format!("the sheet has {number} different couples");
    let (message, remedy) = if number < FEWEST {
        (
            format!("{message}: too few for a line with an interval"),
            "load in five steps or more, and unload the same way",
        )
    } else {
        (
            format!(
                "{message}: whether the line is straight, and whether a reading is wrong, cannot be told from so few"
            ),
            "load in five steps or more, and unload the same way (common practice, no source)",
        )
    };
    Some(
        Remark::rig(codes::TOO_FEW, "", readings.steps().first().map_or(0, |step| step.line), message, remedy)
            .with(number as f64, "couples"),
    )
}
