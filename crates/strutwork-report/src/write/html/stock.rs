//! The model's sections and materials in tables.

use strutwork_model::units::{MM2, MM3, MM4, to_mpa};

use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

/// Shapes, areas and second moments.
pub(super) fn sections<'a>(run: &Run<'a>) -> Table<'a> {
    let each = Digits::Each(4);
    let rows = run.model.sections().iter().map(|section| {
        vec![
            Cell::text(&section.name),
            Cell::text(&section.label),
            Cell::Number(section.area / MM2),
            Cell::Number(section.iy / MM4),
            Cell::Number(section.iz / MM4),
            Cell::Number(section.j / MM4),
            Cell::text(&section.source),
        ]
    });
    Table {
        name: "sections",
        caption: "Sections: area and second moments".into(),
        columns: vec![
            Column::text("section", "section"),
            Column::text("label", "shape, mm"),
            Column::number("area_mm2", "A", "mm²", each),
            Column::number("iy_mm4", "Iy", "mm⁴", each),
            Column::number("iz_mm4", "Iz", "mm⁴", each),
            Column::number("j_mm4", "J", "mm⁴", each),
            Column::text("source", "source"),
        ],
        rows: rows.collect(),
    }
}

/// What the stresses rest on.
pub(super) fn strengths<'a>(run: &Run<'a>) -> Table<'a> {
    let each = Digits::Each(4);
    let modulus = |value: Option<f64>| Cell::from(value.map(|v| v / MM3));
    let area = |value: Option<f64>| Cell::from(value.map(|v| v / MM2));
    let rows = run.model.sections().iter().map(|section| {
        vec![
            Cell::text(&section.name),
            modulus(section.wel_y),
            modulus(section.wel_z),
            modulus(section.wpl_y),
            modulus(section.wpl_z),
            modulus(section.torsion_modulus),
            area(section.shear_area_y),
            area(section.shear_area_z),
        ]
    });
    Table {
        name: "section_strengths",
        caption: "Sections: moduli and shear areas that the stresses rest on".into(),
        columns: vec![
            Column::text("section", "section"),
            Column::number("wel_y_mm3", "Wel,y", "mm³", each),
            Column::number("wel_z_mm3", "Wel,z", "mm³", each),
            Column::number("wpl_y_mm3", "Wpl,y", "mm³", each),
            Column::number("wpl_z_mm3", "Wpl,z", "mm³", each),
            Column::number("wt_mm3", "Wt", "mm³", each),
            Column::number("ay_mm2", "Ay", "mm²", each),
            Column::number("az_mm2", "Az", "mm²", each),
        ],
        rows: rows.collect(),
    }
}

/// Stiffness, density, strengths.
pub(super) fn materials<'a>(run: &Run<'a>) -> Table<'a> {
    let rows = run.model.materials().iter().map(|material| {
        let strength = |read: fn(&strutwork_model::model::Strength) -> f64, of| {
            Cell::from(Option::as_ref(of).map(read).map(to_mpa))
        };
        let grade = if material.grade.is_empty() { "given by value" } else { &material.grade };
        vec![
            Cell::text(&material.name),
            Cell::text(grade),
            Cell::Number(to_mpa(material.youngs)),
            Cell::Number(to_mpa(material.shear)),
            Cell::Number(material.density),
            strength(|s| s.yield_stress, &material.strength),
            strength(|s| s.ultimate, &material.strength),
            strength(|s| s.yield_stress, &material.heat_affected),
            strength(|s| s.ultimate, &material.heat_affected),
            Cell::text(&material.source),
            Cell::text(if material.verified { "source read" } else { "not verified" }),
        ]
    });
    Table {
        name: "materials",
        caption: "Materials. HAZ: in the heat-affected zone beside a weld".into(),
        columns: vec![
            Column::text("material", "material"),
            Column::text("grade", "grade"),
            Column::number("e_mpa", "E", "MPa", Digits::Given),
            Column::number("g_mpa", "G", "MPa", Digits::Given),
            Column::number("density_kg_m3", "density", "kg/m³", Digits::Given),
            Column::number("yield_mpa", "yield", "MPa", Digits::Given),
            Column::number("ultimate_mpa", "ultimate", "MPa", Digits::Given),
            Column::number("haz_yield_mpa", "HAZ yield", "MPa", Digits::Given),
            Column::number("haz_ultimate_mpa", "HAZ ultimate", "MPa", Digits::Given),
            Column::text("source", "source"),
            Column::text("verified", "mark"),
        ],
        rows: rows.collect(),
    }
}
