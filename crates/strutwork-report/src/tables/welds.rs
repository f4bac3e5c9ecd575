//! `welds.csv`: every weld of the frame, for the workshop.

use strutwork_checks::design::weld_list::weld_list;
use strutwork_model::units::{to_deg, to_mm};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// A row for each weld: what is welded to what, how thick, how long, how much metal.
pub fn table<'a>(run: &Run<'a>) -> Table<'a> {
    let millimetres = |metres: Option<f64>| Cell::from(metres.map(to_mm));
    let rows = weld_list(run.model)
        .into_iter()
        .map(|weld| {
            let tube = &run.model.tubes()[weld.tube];
            vec![
                Cell::text(&tube.name),
                Cell::text(run.joint(weld.joint)),
                Cell::text(run.tube(weld.host)),
                Cell::text(weld.kind.word()),
                Cell::Number(to_deg(weld.angle)),
                millimetres(weld.throat),
                Cell::text(if weld.throat_given { "given" } else { "assumed" }),
                millimetres(weld.length),
                Cell::from(weld.metal.map(|kilograms| kilograms * 1e3)),
                millimetres(weld.full_strength_throat),
                Cell::text(&run.model.sections()[tube.section].name),
                Cell::text(&run.model.materials()[tube.material].name),
            ]
        })
        .collect();
    let each = Digits::Each(4);
    Table {
        name: "welds",
        caption: "Welds".into(),
        columns: vec![
            Column::text("tube", "tube"),
            Column::text("joint", "joint"),
            Column::text("welded_to", "welded to"),
            Column::text("kind", "kind"),
            Column::number("angle_deg", "angle", "deg", each),
            Column::number("throat_mm", "throat", "mm", each),
            Column::text("throat_source", "throat is"),
            Column::number("length_mm", "length", "mm", each),
            Column::number("metal_g", "weld metal", "g", each),
            Column::number("full_strength_throat_mm", "full-strength throat", "mm", each),
            Column::text("section", "section"),
            Column::text("material", "material"),
        ],
        rows,
    }
}
