//! `soft_ends.csv`: the tube ends that the rule for soft joints makes less than rigid.

use strutwork_model::SoftEnd;
use strutwork_model::model::SoftWhen;
use strutwork_model::units::{N_PER_MM, NM_PER_DEG};
use strutwork_model::{Dof, Model};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Every soft end, the narrowest tube beside its chord first; none where the rule is off. `width_share`: width of the tube on
/// the chord's face over the face's; springs in local axes of the tube, empty where the rule leaves it rigid.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let mut ends = in_force(run.model);
    ends.sort_by(|a, b| a.share.total_cmp(&b.share));
    Table {
        name: "soft_ends",
        caption: "Ends that the rule for soft joints makes less than rigid, the narrowest beside its chord first"
            .into(),
        columns: vec![
            Column::text("tube", "tube"),
            Column::text("joint", "at joint"),
            Column::text("chord", "on the face of"),
            Column::number("width_share", "width / face", "", Digits::Decimals(2)),
            Column::number("ux_n_per_mm", "along it", "N/mm", Digits::Each(3)),
            Column::number("ry_nm_per_deg", "about y", "N·m/deg", Digits::Each(3)),
            Column::number("rz_nm_per_deg", "about z", "N·m/deg", Digits::Each(3)),
        ],
        rows: ends.iter().map(|end| row(run, end)).collect(),
    }
}

fn in_force(model: &Model) -> Vec<SoftEnd> {
    match model.options().soft_joints.when {
        SoftWhen::Off => Vec::new(),
        SoftWhen::Band | SoftWhen::Always => model.soft_ends(),
    }
}

fn row<'a>(run: &Run<'a>, end: &SoftEnd) -> Vec<Cell<'a>> {
    let spring = |dof: Dof, unit: f64| Cell::from(end.springs[dof].map(|stiffness| stiffness / unit));
    vec![
        Cell::text(run.tube(end.tube)),
        Cell::text(run.joint(end.joint)),
        Cell::text(run.tube(end.chord)),
        Cell::Number(end.share),
        spring(Dof::Ux, N_PER_MM),
        spring(Dof::Ry, NM_PER_DEG),
        spring(Dof::Rz, NM_PER_DEG),
    ]
}
