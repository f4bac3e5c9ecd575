//! The built-in lists as CSV: stock sizes with their section properties, and material grades.

use strutwork_model::units::{MM2, MM3, MM4};
use strutwork_model::{grades, stock};

/// Every stock size with its properties, in the order of the list.
///
/// # Units and shapes
/// Lengths in mm, properties in mm², mm³ and mm⁴, mass in kg per metre for steel of 7850 kg/m³; one row a size.
pub fn stock_csv() -> String {
    let head = [
        "stock",
        "area_mm2",
        "iy_mm4",
        "iz_mm4",
        "j_mm4",
        "wel_y_mm3",
        "wel_z_mm3",
        "wpl_y_mm3",
        "wpl_z_mm3",
        "torsion_modulus_mm3",
        "shear_area_y_mm2",
        "shear_area_z_mm2",
        "steel_kg_per_m",
        "source",
        "verified",
    ];
    let rows = stock::all().filter_map(|size| {
        let section = size.section(size.name()).ok()?;
        let or_none = |value: Option<f64>, unit: f64| value.map_or_else(String::new, |value| digits(value / unit));
        Some(vec![
            size.name(),
            digits(section.area / MM2),
            digits(section.iy / MM4),
            digits(section.iz / MM4),
            digits(section.j / MM4),
            or_none(section.wel_y, MM3),
            or_none(section.wel_z, MM3),
            or_none(section.wpl_y, MM3),
            or_none(section.wpl_z, MM3),
            or_none(section.torsion_modulus, MM3),
            or_none(section.shear_area_y, MM2),
            or_none(section.shear_area_z, MM2),
            digits(section.area * 7850.0),
            size.source.to_owned(),
            if size.verified { "source read" } else { "from memory" }.to_owned(),
        ])
    });
    csv(&head, rows)
}

/// Every material grade, in the order of the list.
///
/// # Units and shapes
/// Stiffness and strength in MPa, density in kg/m³, expansion in 1/K, walls in mm; one row a grade.
pub fn grades_csv() -> String {
    let head = [
        "grade",
        "e_mpa",
        "g_mpa",
        "density_kg_m3",
        "thermal_per_k",
        "yield_mpa",
        "ultimate_mpa",
        "haz_yield_mpa",
        "haz_ultimate_mpa",
        "up_to_wall_mm",
        "source",
        "strengths_verified",
    ];
    let rows = grades::GRADES.iter().map(|grade| {
        let beside_weld = |place: usize| grade.haz_mpa.map_or_else(String::new, |haz| haz[place].to_string());
        vec![
            grade.name.to_owned(),
            grade.e_mpa.to_string(),
            grade.g_mpa.to_string(),
            grade.density_kg_m3.to_string(),
            grade.thermal_per_k.to_string(),
            grade.yield_mpa.to_string(),
            grade.ultimate_mpa.to_string(),
            beside_weld(0),
            beside_weld(1),
            grade.most_wall_mm.to_string(),
            format!("{}; {}", grade.source, grade.stiffness_source()),
            if grade.verified { "source read" } else { "from memory" }.to_owned(),
        ]
    });
    csv(&head, rows)
}

/// Five significant digits: more than any table prints.
fn digits(value: f64) -> String {
    let places = (4 - value.abs().log10().floor() as i32).max(0) as usize;
    format!("{value:.places$}")
}

fn csv(head: &[&str], rows: impl Iterator<Item = Vec<String>>) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(head).expect("bug: memory takes every row");
    for row in rows {
        writer.write_record(&row).expect("bug: every row has the columns of the head");
    }
    String::from_utf8(writer.into_inner().expect("bug: memory takes every row")).expect("bug: only text was written")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 30 × 2: A = 2.14 cm², I = 2.72 cm⁴, It = 4.54 cm⁴, 1.68 kg/m (EN 10219:1997 table as printed by RoyMech, read).
    #[test]
    fn a_row_of_the_stock_list_agrees_with_its_table() {
        let text = stock_csv();
        let row = text.lines().find(|line| line.starts_with("square 30x2,")).unwrap();
        let cells: Vec<f64> = row.split(',').skip(1).take(12).map(|cell| cell.parse().unwrap()).collect();
        for (place, printed, half) in [(0, 214.0, 0.5), (1, 27200.0, 50.0), (3, 45400.0, 50.0), (11, 1.68, 0.005)] {
            assert!((cells[place] - printed).abs() <= half, "{place}: {} {printed}", cells[place]);
        }
    }

    #[test]
    fn every_grade_has_its_source() {
        let text = grades_csv();
        assert_eq!(text.lines().count(), grades::GRADES.len() + 1);
        assert!(text.contains("S235JRH"));
    }
}
