//! The built-in lists as CSV: stock sizes with their section properties, material grades, panel fixings.

use strutwork_model::model::FixingKind;
use strutwork_model::units::{MM, MM2, MM3, MM4, MPA};
use strutwork_model::{fixings, grades, stock};

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
/// Stiffness and strength in MPa, density in kg/m³, expansion in 1/K, walls in mm; empty where there is no value; one row a
/// grade.
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
        "shear_strength_mpa",
        "source",
        "strengths_verified",
    ];
    let rows = grades::GRADES.iter().map(|grade| {
        let text = |value: Option<f64>| value.map_or_else(String::new, |value| value.to_string());
        let parent = |place: usize| text(grade.strength_mpa.map(|strength| strength[place]));
        let beside_weld = |place: usize| text(grade.haz_mpa.map(|haz| haz[place]));
        vec![
            grade.name.to_owned(),
            grade.e_mpa.to_string(),
            grade.g_mpa.to_string(),
            grade.density_kg_m3.to_string(),
            text(grade.thermal_per_k),
            parent(0),
            parent(1),
            beside_weld(0),
            beside_weld(1),
            text(grade.most_wall_mm),
            text(grade.shear_strength_mpa),
            format!("{}; {}", grade.source, grade.stiffness_source),
            if grade.verified { "source read" } else { "from memory" }.to_owned(),
        ]
    });
    csv(&head, rows)
}

/// Every example of a panel fixing, in the order of the list, with the keys of `[fixings.NAME]`.
///
/// # Units and shapes
/// mm, MPa, mm/kN, N; empty where a kind has no such key; one row an example.
pub fn fixings_csv() -> String {
    let head = [
        "fixing",
        "kind",
        "thickness_mm",
        "width_mm",
        "shear_mpa",
        "strength_mpa",
        "pitch_mm",
        "slip_mm_per_kn",
        "strength_n",
        "source",
        "values_verified",
    ];
    let text = |value: f64, unit: f64| rounded(value / unit);
    let rows = fixings::FIXINGS.iter().map(|fixing| {
        let mut row = vec![fixing.name.to_owned()];
        row.extend(match fixing.kind {
            FixingKind::Bond { thickness, width, shear, strength } => [
                "bond".to_owned(),
                text(thickness, MM),
                text(width, MM),
                text(shear, MPA),
                strength.map_or_else(String::new, |strength| text(strength, MPA)),
                String::new(),
                String::new(),
                String::new(),
            ],
            FixingKind::Fasteners { pitch, slip, strength } => [
                "fasteners".to_owned(),
                String::new(),
                String::new(),
                String::new(),
                String::new(),
                text(pitch, MM),
                text(slip, MM / 1000.0),
                strength.map_or_else(String::new, |strength| text(strength, 1.0)),
            ],
        });
        row.push(fixing.source.to_owned());
        row.push(if fixing.verified { "source read" } else { "from memory" }.to_owned());
        row
    });
    csv(&head, rows)
}

/// What was written before it became SI: the rounding of the conversion taken off.
fn rounded(value: f64) -> String {
    ((value * 1e6).round() / 1e6).to_string()
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

    #[test]
    fn fixings_are_listed_in_the_words_of_their_table() {
        let text = fixings_csv();
        assert_eq!(text.lines().count(), fixings::FIXINGS.len() + 1);
        assert!(text.contains("polyurethane 2 x 25,bond,2,25,2,,,,,"), "{text}");
        assert!(text.contains("blind rivets 4.8 Al/steel at 50,fasteners,,,,,50,0.3,1800,"), "{text}");
    }
}
