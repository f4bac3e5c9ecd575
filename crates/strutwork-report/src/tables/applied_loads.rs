//! `applied_loads.csv`: everything that acts in every case, a value a row.

use strutwork_loads::LoadCase;
use strutwork_model::Dof;
use strutwork_model::model::Axes;
use strutwork_model::units::{to_deg, to_mm};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Names of three forces and three moments, and their units.
const FORCES: [(&str, &str); 6] = [("fx", "N"), ("fy", "N"), ("fz", "N"), ("mx", "N·m"), ("my", "N·m"), ("mz", "N·m")];

/// Everything that acts; what is zero is left out.
///
/// `kind` is `joint`, `body` (at its reference point), `tube` (along its length, N/m at place 0 and 1), `tube-point`, `temperature` or `settlement`;
/// `at` is the place along a tube, 0 to 1.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut rows = Vec::new();
    for case in &run.cases.0 {
        of_case(run, case, &mut rows);
    }
    Table {
        name: "applied_loads",
        caption: "Applied loads".into(),
        columns: vec![
            super::CASE,
            Column::text("kind", "kind"),
            Column::text("subject", "on"),
            Column::text("axes", "axes"),
            Column::number("at", "at", "", Digits::Each(3)),
            Column::text("component", "component"),
            Column::number("value", "value", "", Digits::Each(4)),
            Column::text("unit", "unit"),
        ],
        rows,
    }
}

/// What a load acts on and how its numbers are meant.
#[derive(Clone, Copy)]
struct On<'a> {
    case: &'a str,
    kind: &'static str,
    subject: &'a str,
    axes: &'static str,
    at: Option<f64>,
}

impl<'a> On<'a> {
    fn add(self, rows: &mut Vec<Vec<Cell<'a>>>, component: &'static str, value: f64, unit: &'static str) {
        if value != 0.0 {
            rows.push(vec![
                Cell::text(self.case),
                Cell::text(self.kind),
                Cell::text(self.subject),
                Cell::text(self.axes),
                Cell::from(self.at),
                Cell::text(component),
                Cell::Number(value),
                Cell::text(unit),
            ]);
        }
    }
}

fn of_case<'a>(run: &Run<'a>, case: &'a LoadCase, rows: &mut Vec<Vec<Cell<'a>>>) {
    let global = Axes::Global.word();
    let on = |kind, subject, axes, at| On { case: &case.name, kind, subject, axes, at };
    for load in &case.joint_loads {
        for (dof, (name, unit)) in Dof::ALL.into_iter().zip(FORCES) {
            on("joint", run.joint(load.joint), global, None).add(rows, name, load.load[dof], unit);
        }
    }
    for load in &case.body_loads {
        for (dof, (name, unit)) in Dof::ALL.into_iter().zip(FORCES) {
            on("body", run.body(load.body), global, None).add(rows, name, load.load[dof], unit);
        }
    }
    for load in &case.tube_loads {
        for (at, intensity) in [(0.0, load.from), (1.0, load.to)] {
            let place = on("tube", run.tube(load.tube), load.axes.word(), Some(at));
            for (name, value) in ["wx", "wy", "wz"].into_iter().zip(intensity) {
                place.add(rows, name, value, "N/m");
            }
        }
    }
    for load in &case.tube_point_loads {
        let place = on("tube-point", run.tube(load.tube), load.axes.word(), Some(load.at));
        let values = load.force.into_iter().chain(load.moment);
        for ((name, unit), value) in FORCES.into_iter().zip(values) {
            place.add(rows, name, value, unit);
        }
    }
    for load in &case.temperatures {
        let place = on("temperature", run.tube(load.tube), Axes::Local.word(), None);
        place.add(rows, "rise", load.rise, "K");
        place.add(rows, "gradient_y", load.gradient_y, "K/m");
        place.add(rows, "gradient_z", load.gradient_z, "K/m");
    }
    for settlement in &case.settlements {
        let place = on("settlement", run.joint(settlement.joint), global, None);
        if settlement.dof.is_rotation() {
            place.add(rows, settlement.dof.name(), to_deg(settlement.value), "deg");
        } else {
            place.add(rows, settlement.dof.name(), to_mm(settlement.value), "mm");
        }
    }
}
