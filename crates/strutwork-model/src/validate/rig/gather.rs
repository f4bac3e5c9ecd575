//! The rows of rig.csv gathered by station and by step: what each row says of the whole, said once or alike.

use std::collections::BTreeMap;

use super::super::names::Names;
use super::super::{Log, words_help};
use crate::codes;
use crate::model::{RigReading, RigRole, RigStation, RigStep};
use crate::spec::{RigRow, Written};
use crate::units::{MM, STANDARD_GRAVITY};

/// Values of one station or one step agree within this share.
const SAME: f64 = 1e-6;

/// A whole number of 0 or more; `None` and a fault otherwise.
pub(super) fn whole(given: &Written<f64>, what: &str, subject: &str, log: &mut Log) -> Option<u32> {
    let value = given.value;
    if value.is_nan() {
        return None;
    }
    if value < 0.0 || value.fract() != 0.0 || value > 1e6 {
        let message = format!("`{what}` is {value}");
        log.error(codes::RIG_NUMBER, given.spot, subject, message, "write a whole number: 0, 1, 2, …");
        return None;
    }
    Some(value as u32)
}

/// A value that every row of something may say, and all that do say the same.
#[derive(Default)]
struct Said {
    value: Option<Written<f64>>,
}

impl Said {
    fn take(&mut self, given: Option<&Written<f64>>, what: &str, of: &str, log: &mut Log) {
        let Some(given) = given.filter(|given| !given.value.is_nan()) else { return };
        match &self.value {
            None => self.value = Some(*given),
            Some(first) if (first.value - given.value).abs() <= SAME * first.value.abs().max(1e-3) => {}
            Some(first) => {
                let place = first.spot.map(|spot| format!(" on line {}", spot.line)).unwrap_or_default();
                let message = format!("{of}: `{what}` is {} here and {}{place}", given.value, first.value);
                log.error(
                    codes::RIG_DISAGREES,
                    given.spot,
                    of,
                    message,
                    "correct one of the two: it holds for all its rows",
                );
            }
        }
    }
}

struct StationRows {
    name: Written<String>,
    x: Said,
    spacing: Said,
    role: Option<RigRole>,
}

struct StepRows {
    cycle: u32,
    number: u32,
    written: Written<String>,
    couple: Said,
    weight: Said,
    arm: Said,
    line: Written<f64>,
}

/// What the rows say, gathered by station and by step.
#[derive(Default)]
pub(super) struct Gather {
    /// In the order of their names.
    stations: Vec<StationRows>,
    steps: Vec<StepRows>,
    of_step: BTreeMap<(u32, u32, String), usize>,
    taken: BTreeMap<(usize, usize), usize>,
    pub(super) readings: Vec<RigReading>,
}

impl Gather {
    /// Takes a row; one whose station has no name is passed over, which `names` has told.
    pub(super) fn row(&mut self, row: &RigRow, names: &Names<'_>, up: f64, log: &mut Log) {
        let name = row.station.as_str();
        let Some(station) = names.row(name) else { return };
        let line = row.station.spot.map_or(0, |spot| spot.line as usize);
        let cycle = row.cycle.as_ref().map_or(Some(1), |cycle| whole(cycle, "cycle", name, log));
        let number = whole(&row.step, "step", name, log);
        let direction = row.direction.trim().to_owned();
        if !matches!(direction.as_str(), "" | "loading" | "unloading") {
            let message = format!("station `{name}`: `direction` is `{direction}`");
            let help = words_help(&direction, &["loading", "unloading"]);
            log.error(codes::UNKNOWN_WORD, row.direction.spot, name, message, help);
        }
        if station == self.stations.len() {
            self.stations.push(StationRows {
                name: row.station.clone(),
                x: Said::default(),
                spacing: Said::default(),
                role: None,
            });
        }
        let of = format!("station `{name}`");
        let known = &mut self.stations[station];
        known.x.take(row.x_mm.as_ref(), "x_mm", &of, log);
        known.spacing.take(row.spacing_mm.as_ref(), "spacing_mm", &of, log);
        take_role(&mut known.role, &row.role, &of, log);
        let (Some(cycle), Some(number)) = (cycle, number) else { return };
        let step = *self.of_step.entry((cycle, number, direction.clone())).or_insert_with(|| {
            self.steps.push(StepRows {
                cycle,
                number,
                written: row.direction.clone(),
                couple: Said::default(),
                weight: Said::default(),
                arm: Said::default(),
                line: row.step,
            });
            self.steps.len() - 1
        });
        let of = called(cycle, number, &direction);
        let known = &mut self.steps[step];
        known.couple.take(row.couple_nm.as_ref(), "couple_nm", &of, log);
        known.weight.take(row.weight_kg.as_ref(), "weight_kg", &of, log);
        known.arm.take(row.arm_mm.as_ref(), "arm_mm", &of, log);
        if let Some(before) = self.taken.insert((station, step), line) {
            let message = format!("station `{name}` is read twice in {of}, first on line {before}");
            let help = "correct the step, or write `loading` and `unloading` under `direction` where both count from the same number";
            log.error(codes::RIG_READ_TWICE, row.step.spot, name, message, help);
        }
        let dial =
            |given: &Option<Written<f64>>| given.filter(|given| given.is_finite()).map(|given| up * given.value * MM);
        self.readings.push(RigReading { station, step, left: dial(&row.left_mm), right: dial(&row.right_mm), line });
    }

    pub(super) fn stations(&self, log: &mut Log) -> Vec<RigStation> {
        let one = |rows: &StationRows| {
            let name = &rows.name;
            let mut need = |said: &Said, key: &str, what: &str| match said.value {
                Some(value) => value.value,
                None => {
                    let message = format!("station `{}` has no `{key}` in any of its rows", name.value);
                    log.error(
                        codes::RIG_STATION_PLACE,
                        name.spot,
                        name,
                        message,
                        format!("write {what}, once is enough"),
                    );
                    f64::NAN
                }
            };
            let x = need(&rows.x, "x_mm", "where it stands along the frame");
            let spacing = need(&rows.spacing, "spacing_mm", "how far its two dials stand apart");
            if spacing <= 0.0 {
                let spot = rows.spacing.value.and_then(|value| value.spot);
                let message = format!("the dials of station `{}` stand {spacing} mm apart", name.value);
                log.error(
                    codes::RIG_SPACING,
                    spot,
                    name,
                    message,
                    "write the distance between the two dials, greater than 0",
                );
            }
            RigStation {
                name: name.value.clone(),
                x: x * MM,
                spacing: spacing * MM,
                role: rows.role.unwrap_or(RigRole::Read),
                joints: None,
                line: name.spot.map_or(0, |spot| spot.line as usize),
            }
        };
        self.stations.iter().map(one).collect()
    }

    /// The steps; `hang` is 1 where weights hang on the right side, −1 on the left.
    pub(super) fn steps(&self, hang: f64, log: &mut Log) -> Vec<RigStep> {
        let mut steps: Vec<RigStep> = Vec::new();
        for rows in &self.steps {
            let couple = rows.couple(hang, log);
            // Where nothing is written the couple itself says which way it goes.
            let falls = steps.iter().rev().find(|step| step.cycle == rows.cycle).map(|before| {
                if couple.abs() == before.couple.abs() { before.unloading } else { couple.abs() < before.couple.abs() }
            });
            let unloading = match rows.written.trim() {
                "loading" => false,
                "unloading" => true,
                _ => falls.unwrap_or(false),
            };
            steps.push(RigStep {
                cycle: rows.cycle,
                number: rows.number,
                unloading,
                couple,
                line: rows.line.spot.map_or(0, |spot| spot.line as usize),
            });
        }
        steps
    }
}

impl StepRows {
    /// The couple, N·m; NaN and a fault where nothing or two things say it.
    fn couple(&self, hang: f64, log: &mut Log) -> f64 {
        let of = called(self.cycle, self.number, self.written.trim());
        let mut fault = |message: String, help: &str| {
            log.error(codes::RIG_COUPLE, self.line.spot, &of, message, help);
            f64::NAN
        };
        match (self.couple.value, self.weight.value, self.arm.value) {
            (Some(couple), None, None) => couple.value,
            (None, Some(weight), Some(arm)) => hang * weight.value * STANDARD_GRAVITY * arm.value * MM,
            (None, None, None) => fault(
                format!("{of} has no couple"),
                "write `couple_nm`, or `weight_kg` and `arm_mm`, in one of its rows",
            ),
            (None, ..) => fault(format!("{of} has a weight or an arm alone"), "write both `weight_kg` and `arm_mm`"),
            (Some(_), ..) => {
                fault(format!("{of} has a couple and a weight"), "keep `couple_nm`, or `weight_kg` and `arm_mm`")
            }
        }
    }
}

fn called(cycle: u32, number: u32, direction: &str) -> String {
    let direction = if direction.is_empty() { String::new() } else { format!(" {direction}") };
    format!("step {number}{direction} of cycle {cycle}")
}

fn take_role(known: &mut Option<RigRole>, given: &Written<String>, of: &str, log: &mut Log) {
    let word = given.trim();
    let role = match word {
        "" => return,
        "held" => RigRole::Held,
        "loaded" => RigRole::Loaded,
        _ => {
            let message = format!("{of}: `role` is `{word}`");
            let help = format!("{}; empty for a station that is only read", words_help(word, &["held", "loaded"]));
            log.error(codes::UNKNOWN_WORD, given.spot, of, message, help);
            return;
        }
    };
    match known {
        None => *known = Some(role),
        Some(first) if *first == role => {}
        Some(first) => {
            let message = format!("{of}: `role` is `{word}` here and `{}` before", first.word());
            log.error(
                codes::RIG_DISAGREES,
                given.spot,
                of,
                message,
                "correct one of the two: it holds for all its rows",
            );
        }
    }
}
