//! `bays.csv`: every bay of the frame, softest first.

use strutwork_model::TubeId;
use strutwork_model::units::{MM2, N_PER_MM};
use strutwork_solve::bays::Bay;

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// All bays, softest first. `stiffness_n_per_mm`: shear stiffness as the G·t that a skin alone would need;
/// `bare_n_per_mm`: the same of its sides alone; `along_n_per_mm`: force along the longer side over the movement of that side
/// against the other, of rectangular bays only; `rings`: in how many closed rings of bays it stands.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = run.bays.bays.iter().enumerate().map(|(place, bay)| row(run, place, bay)).collect();
    Table {
        name: "bays",
        caption:
            "Bays, softest first. G·t: the shear stiffness as the G·t that a skin alone would need; bare: of its sides \
                  alone"
                .into(),
        columns: COLUMNS.into(),
        rows,
    }
}

/// A bay.
const COLUMNS: [Column; 11] = [
    Column::number("bay", "bay", "", Digits::Decimals(0)),
    Column::text("joints", "corner joints, in order round"),
    Column::text("plane", "plane"),
    Column::text("kind", "stiffened by"),
    Column::number("stiffness_n_per_mm", "G·t", "N/mm", Digits::Each(3)),
    Column::number("bare_n_per_mm", "bare", "N/mm", Digits::Each(3)),
    Column::number("along_n_per_mm", "along its length", "N/mm", Digits::Each(3)),
    Column::number("area_mm2", "area", "mm²", Digits::Decimals(0)),
    Column::text("tubes_inside", "tubes inside"),
    Column::text("panels", "panels"),
    Column::number("rings", "rings", "", Digits::Decimals(0)),
];

fn row<'a>(run: &Run<'a>, place: usize, bay: &Bay) -> Vec<Cell<'a>> {
    let tubes = bay.inner.iter().map(|tube: &TubeId| run.tube(*tube)).collect::<Vec<_>>().join(" ");
    let panels = bay.panels.iter().map(|panel| run.panel(*panel)).collect::<Vec<_>>().join(" ");
    let rings = run.bays.rings.iter().filter(|ring| ring.bays.contains(&place)).count();
    vec![
        Cell::Number(place as f64 + 1.0),
        Cell::from(bay.name(run.model)),
        Cell::text(bay.plane()),
        Cell::text(bay.kind.words()),
        Cell::Number(bay.stiffness / N_PER_MM),
        Cell::Number(bay.bare / N_PER_MM),
        Cell::from(bay.along.map(|stiffness| stiffness / N_PER_MM)),
        Cell::Number(bay.area / MM2),
        Cell::from(tubes),
        Cell::from(panels),
        Cell::Number(rings as f64),
    ]
}
