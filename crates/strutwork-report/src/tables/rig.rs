//! The twist rig: `rig_readings.csv`, `rig_stations.csv`, `rig_bays.csv`, `rig_stiffness.csv`; nothing without `rig.csv`.

use strutwork_model::model::RigSheet;
use strutwork_model::units::{to_deg, to_deg_per_knm, to_mm, to_nm_per_deg};
use strutwork_rig::{Judgement, Measured};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// The sheet and its judgement, where the run has one.
fn judged<'a>(run: &Run<'a>) -> Option<(&'a RigSheet, &'a Judgement)> {
    run.rig().map(|(sheet, evidence)| (sheet, &evidence.judgement))
}

fn table<'a>(name: &'static str, caption: &str, columns: &[Column], rows: Option<Vec<Vec<Cell<'a>>>>) -> Table<'a> {
    Table { name, caption: caption.to_owned(), columns: columns.to_vec(), rows: rows.unwrap_or_default() }
}

/// Every reading as twist, in the order of the sheet. `used`: whether it is in the lines.
pub fn readings<'a>(run: &Run<'a>) -> Table<'a> {
    const COLUMNS: [Column; 9] = [
        Column::number("cycle", "cycle", "", Digits::Decimals(0)),
        Column::text("direction", "direction"),
        Column::number("step", "step", "", Digits::Decimals(0)),
        Column::number("couple_nm", "couple", "N·m", Digits::Decimals(1)),
        Column::text("station", "station"),
        Column::number("left_mm", "left", "mm", Digits::Decimals(3)),
        Column::number("right_mm", "right", "mm", Digits::Decimals(3)),
        Column::number("twist_deg", "twist, sink subtracted", "deg", Digits::Decimals(4)),
        Column::text("used", "used"),
    ];
    let rows = judged(run).map(|(sheet, judgement)| {
        let row = |reading: &strutwork_model::model::RigReading| {
            let step = &sheet.steps[reading.step];
            let twist = judgement.twists[reading.station][reading.step];
            let used = match (twist, judgement.keeps(step.cycle)) {
                (None, _) => "left out",
                (_, false) => "settling",
                _ => "yes",
            };
            vec![
                Cell::Number(f64::from(step.cycle)),
                Cell::text(if step.unloading { "unloading" } else { "loading" }),
                Cell::Number(f64::from(step.number)),
                Cell::Number(step.couple),
                Cell::text(&sheet.stations[reading.station].name),
                Cell::from(reading.left.map(to_mm)),
                Cell::from(reading.right.map(to_mm)),
                Cell::from(twist.map(to_deg)),
                Cell::text(used),
            ]
        };
        sheet.readings.iter().map(row).collect()
    });
    table("rig_readings", "Readings of the rig, up positive", &COLUMNS, rows)
}

/// Twist over couple of every station beside the model's.
pub fn stations<'a>(run: &Run<'a>) -> Table<'a> {
    const COLUMNS: [Column; 9] = [
        Column::text("station", "station"),
        Column::text("role", "role"),
        Column::number("x_mm", "x", "mm", Digits::Decimals(0)),
        Column::number("spacing_mm", "spacing", "mm", Digits::Decimals(0)),
        Column::number("twist_deg_per_knm", "twist", "deg/kN·m", Digits::Decimals(4)),
        Column::number("half_deg_per_knm", "±", "deg/kN·m", Digits::Decimals(4)),
        Column::number("modelled_deg_per_knm", "model", "deg/kN·m", Digits::Decimals(4)),
        Column::number("soft_deg_per_knm", "soft joints", "deg/kN·m", Digits::Decimals(4)),
        Column::number("left_out", "readings left out", "", Digits::Decimals(0)),
    ];
    let rows = judged(run).map(|(sheet, judgement)| {
        let row = |(station, line): (&'a strutwork_model::model::RigStation, &strutwork_rig::StationLine)| {
            vec![
                Cell::text(&station.name),
                Cell::text(station.role.word()),
                Cell::Number(to_mm(station.x)),
                Cell::Number(to_mm(station.spacing)),
                Cell::from(line.twist.map(to_deg_per_knm)),
                Cell::from(line.twist.map(|_| to_deg_per_knm(line.half))),
                Cell::from(line.modelled.map(to_deg_per_knm)),
                Cell::from(line.soft.map(to_deg_per_knm)),
                Cell::Number(line.left_out as f64),
            ]
        };
        sheet.stations.iter().zip(&judgement.stations).map(row).collect()
    });
    table(
        "rig_stations",
        "Twist over couple of each station, relative to what is held, with half of its 95 % interval",
        &COLUMNS,
        rows,
    )
}

/// Twist over couple between neighbouring stations beside the model's.
pub fn bays<'a>(run: &Run<'a>) -> Table<'a> {
    const COLUMNS: [Column; 8] = [
        Column::text("from", "from"),
        Column::text("to", "to"),
        Column::number("length_mm", "length", "mm", Digits::Decimals(0)),
        Column::number("twist_deg_per_knm", "twist", "deg/kN·m", Digits::Decimals(4)),
        Column::number("half_deg_per_knm", "±", "deg/kN·m", Digits::Decimals(4)),
        Column::number("modelled_deg_per_knm", "model", "deg/kN·m", Digits::Decimals(4)),
        Column::number("ratio", "measured over modelled, beside the whole", "", Digits::Decimals(2)),
        Column::text("departs", "departs"),
    ];
    let rows = judged(run).and_then(|(sheet, judgement)| {
        let row = |bay: &strutwork_rig::Bay| {
            let [near, far] = bay.between.map(|station| &sheet.stations[station]);
            let departs = if bay.departs { if bay.ratio > 1.0 { "softer" } else { "stiffer" } } else { "" };
            vec![
                Cell::text(&near.name),
                Cell::text(&far.name),
                Cell::Number(to_mm(far.x - near.x)),
                Cell::Number(to_deg_per_knm(bay.twist)),
                Cell::Number(to_deg_per_knm(bay.half)),
                Cell::Number(to_deg_per_knm(bay.modelled)),
                Cell::Number(bay.ratio),
                Cell::text(departs),
            ]
        };
        Some(judgement.against.as_ref()?.bays.iter().map(row).collect())
    });
    table(
        "rig_bays",
        "Twist over couple of each bay between stations. Ratio: 1 where the bay is off as much as the whole",
        &COLUMNS,
        rows,
    )
}

/// Stiffness from both directions, each direction, the model; and what the sheet shows besides.
pub fn stiffness<'a>(run: &Run<'a>) -> Table<'a> {
    const COLUMNS: [Column; 5] = [
        Column::text("quantity", "quantity"),
        Column::number("value", "value", "", Digits::Each(5)),
        Column::number("low", "from", "", Digits::Each(5)),
        Column::number("high", "to", "", Digits::Each(5)),
        Column::text("unit", "unit"),
    ];
    let rows = judged(run).map(|(_, judgement)| {
        let k = |name: &'static str, value: f64, interval: Option<[f64; 2]>| {
            let ends = interval.map(|ends| ends.map(to_nm_per_deg));
            row(name, to_nm_per_deg(value), ends, "N·m/deg")
        };
        let of = |name: &'static str, measured: &Option<Measured>| {
            measured.as_ref().map(|measured| k(name, measured.stiffness, Some(measured.interval)))
        };
        let both = judgement.stiffness.as_ref();
        let against = judgement.against.as_ref();
        let percent = |name: &'static str, value: f64| row(name, value * 100.0, None, "%");
        [
            of("measured", &judgement.stiffness),
            both.map(|both| k("measured, interval of the fit alone", both.stiffness, Some(both.by_fit))),
            of("measured, loading", &judgement.loading),
            of("measured, unloading", &judgement.unloading),
            of("measured, slips left in", &judgement.with_jumps),
            against.map(|against| k("modelled", against.rigid, None)),
            against.and_then(|against| Some(k("modelled, soft joints", against.soft?, None))),
            against.map(|against| row("measured over modelled", against.ratio, Some(against.interval), "")),
            both.map(|both| percent("R² of the line", both.line.taken_up)),
            both.map(|both| row("scatter about the line", to_deg(both.line.scatter), None, "deg")),
            judgement.hysteresis.map(|of| percent("width of the loop, of the twist", of.width)),
            judgement.hysteresis.map(|of| percent("energy that a cycle takes, of what loading puts in", of.energy)),
            judgement.curvature.map(|of| percent("change of slope over the range", of.change)),
            judgement.sink.map(|sink| percent("sink of the rig at the loaded station, of its turn", sink)),
        ]
        .into_iter()
        .flatten()
        .collect()
    });
    table("rig_stiffness", "Torsional stiffness by the rig and by the model, with 95 % intervals", &COLUMNS, rows)
}

fn row<'a>(name: &'static str, value: f64, interval: Option<[f64; 2]>, unit: &'static str) -> Vec<Cell<'a>> {
    let [low, high] = interval.map_or([Cell::Empty, Cell::Empty], |ends| ends.map(Cell::Number));
    vec![Cell::text(name), Cell::Number(value), low, high, Cell::text(unit)]
}
