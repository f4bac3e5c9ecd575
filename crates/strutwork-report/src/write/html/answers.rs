//! How the frame answers a case: movements, the most stressed tubes, torsional stiffness.

use strutwork_loads::LoadCase;
use strutwork_loads::case::Measure;
use strutwork_model::model::Point;
use strutwork_model::units::{to_deg, to_mm, to_mpa, to_nm_per_deg};
use strutwork_solve::CaseResult;
use strutwork_solve::results::{MeasureResult, main_stations};

use crate::extremes::{self, WorstStation};
use crate::figures::{Figure, twist};
use crate::number::{fixed, significant};
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};
use crate::tables;
use crate::utilisation::Utilisations;

use super::Edition;
use super::table::TableView;

/// A torsional stiffness, and what it rests on.
pub(super) struct TwistView {
    pub(super) stiffness: String,
    pub(super) couple: String,
    pub(super) twist: String,
    pub(super) front: String,
    pub(super) rear: String,
    pub(super) figure: Option<Figure>,
    pub(super) table: TableView,
}

/// The largest movement in each freedom.
pub(super) fn movements(run: &Run<'_>, result: &CaseResult) -> TableView {
    let largest = extremes::movements(result);
    let name = |place: usize| largest[place].map_or(Cell::Empty, |(joint, _)| Cell::text(run.joint(joint)));
    let mut values = vec![Cell::text("movement")];
    values.extend(
        largest.iter().enumerate().map(|(place, slot)| {
            Cell::from(slot.map(|(_, value)| if place < 3 { to_mm(value) } else { to_deg(value) }))
        }),
    );
    let mut joints = vec![Cell::text("joint")];
    joints.extend((0..6).map(name));
    let mut columns = vec![Column::text("what", "largest")];
    columns.extend(tables::displacements::COLUMNS);
    let table = Table {
        name: "movements",
        caption: "Largest movements of joints, global axes. All of them: displacements.csv".into(),
        columns,
        rows: vec![values, joints],
    };
    TableView::of(&table, "displacements.csv")
}

/// The most stressed tubes: forces where the stress is greatest.
pub(super) fn worst_forces(
    run: &Run<'_>,
    utilisations: &Utilisations<'_>,
    case: &LoadCase,
    worst: &[WorstStation<'_>],
) -> TableView {
    let digits = Digits::Column(4);
    let model = run.model;
    let rows = worst.iter().map(|worst| {
        let forces = worst.station.forces;
        let section = model.tubes()[worst.tube].section;
        let finding = utilisations.of_tube(worst.tube, &case.name);
        vec![
            Cell::text(run.tube(worst.tube)),
            Cell::text(&model.sections()[section].name),
            Cell::Number(to_mm(worst.station.at * model.length(worst.tube))),
            Cell::Number(forces.n),
            Cell::Number(forces.vy),
            Cell::Number(forces.vz),
            Cell::Number(forces.t),
            Cell::Number(forces.my),
            Cell::Number(forces.mz),
            Cell::from(finding.and_then(|finding| finding.utilisation)),
            finding.map_or(Cell::Empty, |finding| Cell::text(finding.code.0)),
        ]
    });
    let table = Table {
        name: "worst_forces",
        caption:
            "Most stressed tubes: forces where the von Mises stress is greatest, without any margin. Utilisation: the \
                  greatest of the tube's own checks in this case. All tubes: member_forces.csv"
                .into(),
        columns: vec![
            Column::text("tube", "tube"),
            Column::text("section", "section"),
            Column::number("x_mm", "at x", "mm", Digits::Decimals(0)),
            Column::number("n_n", "N", "N", digits),
            Column::number("vy_n", "Vy", "N", digits),
            Column::number("vz_n", "Vz", "N", digits),
            Column::number("t_nm", "T", "N·m", digits),
            Column::number("my_nm", "My", "N·m", digits),
            Column::number("mz_nm", "Mz", "N·m", digits),
            Column::number("utilisation", "utilisation", "", Digits::Utilisation),
            Column::text("check", "by check"),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "member_forces.csv")
}

/// The same tubes: what the stress is made of.
pub(super) fn worst_stresses(run: &Run<'_>, worst: &[WorstStation<'_>]) -> TableView {
    let digits = Digits::Decimals(1);
    let rows = worst.iter().map(|worst| {
        let s = worst.stress;
        let mut row = vec![Cell::text(run.tube(worst.tube))];
        let parts = [s.axial, s.bending_y, s.bending_z, s.sigma_max, s.torsion, s.shear, s.tau_max, s.von_mises];
        row.extend(parts.map(|pascals| Cell::Number(to_mpa(pascals))));
        row
    });
    let column = |key, title| Column::number(key, title, "MPa", digits);
    let table = Table {
        name: "worst_stresses",
        caption: "The same tubes: what the stress is made of. Round sections carry all bending under y".into(),
        columns: vec![
            Column::text("tube", "tube"),
            column("axial", "axial"),
            column("bending_y", "bending y"),
            column("bending_z", "bending z"),
            column("sigma", "σ greatest"),
            column("torsion", "torsion"),
            column("shear", "shear"),
            column("tau", "τ greatest"),
            column("von_mises", "von Mises"),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "member_forces.csv")
}

/// Every torsional stiffness that the case measures.
pub(super) fn twists(run: &Run<'_>, case: &LoadCase, result: &CaseResult, edition: Edition) -> Vec<TwistView> {
    let size = if edition == Edition::Paper { twist::BESIDE } else { twist::WHOLE };
    let measures = case.measures.iter().zip(&result.measures);
    measures
        .filter_map(|(asked, read)| match (asked, read) {
            (Measure::Twist { front, rear, .. }, MeasureResult::Twist { couple, twist, stiffness, profile }) => {
                let main = main_stations(run.model, [*front, *rear], profile);
                let table = tables::twist::of_profile(run, &main);
                Some(TwistView {
                    stiffness: significant(to_nm_per_deg(*stiffness), 4),
                    couple: significant(*couple, 4),
                    twist: significant(to_deg(*twist), 4),
                    front: pair(run, *front),
                    rear: pair(run, *rear),
                    figure: twist::draw(&case.name, profile, &main, size),
                    table: TableView::of(&table, "twist.csv"),
                })
            }
            _ => None,
        })
        .collect()
}

fn pair(run: &Run<'_>, points: [Point; 2]) -> String {
    let [left, right] = points.map(|point| point.name(run.model));
    let [x_left, x_right] = points.map(|point| fixed(to_mm(point.at(run.model)[0]), 0));
    format!("{left} and {right} (x = {x_left} and {x_right} mm)")
}
