//! The built-in list of material grades: tube and sheet.

/// A grade: stiffness, density and the least strengths that its standard guarantees, in door units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grade {
    /// Its name, as `grade = "…"` in `model.toml` takes it.
    pub name: &'static str,
    /// E, MPa.
    pub e_mpa: f64,
    /// G, MPa.
    pub g_mpa: f64,
    /// kg/m³.
    pub density_kg_m3: f64,
    /// Coefficient of expansion, 1/K, where a source is at hand.
    pub thermal_per_k: Option<f64>,
    /// Yield or 0.2 % proof strength and ultimate strength, MPa; `None` where the standard guarantees none, or the
    /// material does not yield.
    pub strength_mpa: Option<[f64; 2]>,
    /// Yield or proof strength and ultimate strength beside a weld, MPa, where they are less.
    pub haz_mpa: Option<[f64; 2]>,
    /// Shear strength in the plane of a sheet, MPa, where it does not follow from the yield strength.
    pub shear_strength_mpa: Option<f64>,
    /// The thickest wall that these strengths hold for, mm, where there is a limit.
    pub most_wall_mm: Option<f64>,
    /// Where the elastic constants and the density come from.
    pub stiffness_source: &'static str,
    /// Where the strengths come from, and what else to know.
    pub source: &'static str,
    /// Whether a text of the source was read for the strengths; `false`: from memory.
    pub verified: bool,
}

/// Where the elastic constants of steel come from.
pub const STEEL_SOURCE: &str =
    "E, G, thermal expansion EN 1993-1-1 3.2.6 (from memory); density 7850 kg/m³ steel section tables (read)";
/// Where the elastic constants of aluminium come from.
pub const ALUMINIUM_SOURCE: &str = "E, G, density, thermal expansion EN 1999-1-1 3.2.5 (from memory)";

/// The grade with this exact name.
pub fn find(name: &str) -> Option<&'static Grade> {
    GRADES.iter().find(|grade| grade.name == name)
}

const fn steel(
    name: &'static str,
    strength_mpa: [f64; 2],
    haz_mpa: Option<[f64; 2]>,
    most_wall_mm: f64,
    verified: bool,
    source: &'static str,
) -> Grade {
    Grade {
        name,
        e_mpa: 210_000.0,
        g_mpa: 81_000.0,
        density_kg_m3: 7850.0,
        thermal_per_k: Some(12e-6),
        strength_mpa: Some(strength_mpa),
        haz_mpa,
        shear_strength_mpa: None,
        most_wall_mm: Some(most_wall_mm),
        stiffness_source: STEEL_SOURCE,
        source,
        verified,
    }
}

const fn aluminium(
    name: &'static str,
    strength_mpa: [f64; 2],
    haz_mpa: [f64; 2],
    most_wall_mm: f64,
    verified: bool,
    source: &'static str,
) -> Grade {
    Grade {
        name,
        e_mpa: 70_000.0,
        g_mpa: 27_000.0,
        density_kg_m3: 2700.0,
        thermal_per_k: Some(23e-6),
        strength_mpa: Some(strength_mpa),
        haz_mpa: Some(haz_mpa),
        shear_strength_mpa: None,
        most_wall_mm: Some(most_wall_mm),
        stiffness_source: ALUMINIUM_SOURCE,
        source,
        verified,
    }
}

const S235: &str = "EN 10210-1 Table 2 (a copy was read; EN 10219-1 has the same strengths, from memory)";
const S275: &str =
    "EN 10210-1 Table 2 (a copy was read): ultimate strength of walls over 3 mm, thinner walls have 430 MPa";
const S355: &str =
    "EN 10210-1 Table 2 (a copy was read): ultimate strength of walls over 3 mm, thinner walls have 510 MPa";
const CDS: &str = "EN 10305-1 (from memory); beside welds the values of +N, because cold work is lost there";
const CDS_N: &str = "EN 10305-1 (from memory)";
const T4130: &str = "AMS 6360 / MIL-HDBK-5 minima (from memory); beside welds 0.8 of the parent's (from memory)";
const DC01: &str =
    "cold-rolled sheet, EN 10130 (from memory): the yield strength is not guaranteed from below, so none is given";
const A6082: &str = "EN 755-2 after an extruder's data sheet (read), walls up to 5 mm, thicker ones have more; beside welds \
                     EN 1999-1-1 Table 3.2b (from memory), MIG welds 3 days old or more; TIG up to 6 mm: times 0.8 (from memory)";
const A6XXX: &str =
    "EN 1999-1-1 Table 3.2b (a copy was read), beside MIG welds; TIG up to 6 mm: times 0.8 (from memory)";

/// Every built-in grade.
///
/// Cold-worked tube (+C, +CR) is left out: its strength beside a weld is not in a text at hand. Give such a material its
/// values and its source in `model.toml`.
pub const GRADES: &[Grade] = &[
    steel("S235JRH", [235.0, 360.0], None, 16.0, true, S235),
    steel("S275J0H", [275.0, 410.0], None, 16.0, true, S275),
    steel("S275J2H", [275.0, 410.0], None, 16.0, true, S275),
    steel("S355J0H", [355.0, 470.0], None, 16.0, true, S355),
    steel("S355J2H", [355.0, 470.0], None, 16.0, true, S355),
    steel("S355K2H", [355.0, 470.0], None, 16.0, true, S355),
    steel("E235+N", [235.0, 340.0], None, 16.0, false, CDS_N),
    steel("E235+SR", [350.0, 420.0], Some([235.0, 340.0]), 16.0, false, CDS),
    steel("E355+N", [355.0, 490.0], None, 16.0, false, CDS_N),
    steel("E355+SR", [450.0, 580.0], Some([355.0, 490.0]), 16.0, false, CDS),
    steel("4130N", [517.0, 655.0], Some([413.6, 524.0]), 4.8, false, T4130),
    aluminium("6082-T6", [250.0, 290.0], [125.0, 185.0], 15.0, false, A6082),
    aluminium("6061-T6", [240.0, 260.0], [115.0, 175.0], 20.0, true, A6XXX),
    aluminium("6063-T6", [160.0, 195.0], [65.0, 110.0], 25.0, true, A6XXX),
    aluminium("6060-T6", [140.0, 170.0], [60.0, 100.0], 15.0, true, A6XXX),
    aluminium("6005A-T6", [215.0, 255.0], [115.0, 165.0], 5.0, true, A6XXX),
    aluminium("6106-T6", [200.0, 250.0], [95.0, 160.0], 10.0, true, A6XXX),
    steel("S235JR sheet", [235.0, 360.0], None, 16.0, false, "EN 10025-2 (from memory)"),
    Grade { strength_mpa: None, source: DC01, ..steel("DC01 sheet", [0.0; 2], None, 3.0, false, "") },
    Grade {
        g_mpa: 26_300.0,
        stiffness_source: "E, density, thermal expansion EN 1999-1-1 3.2.5 (from memory); G = E/2.66, ν = 0.33 (from memory)",
        ..aluminium(
            "5251-H22 sheet",
            [120.0, 190.0],
            [60.0, 160.0],
            12.5,
            false,
            "EN 1999-1-1 Table 3.2a (from memory)",
        )
    },
    Grade {
        name: "GRP mat 30 %",
        e_mpa: 15_000.0 * GLASS + 2000.0,
        g_mpa: 1700.0 * GLASS + 2240.0,
        density_kg_m3: 1400.0,
        thermal_per_k: None,
        strength_mpa: None,
        haz_mpa: None,
        shear_strength_mpa: Some(80.0 * GLASS + 38.0),
        most_wall_mm: None,
        stiffness_source: "E = 15000 ψ + 2000 and G = 1700 ψ + 2240 with the glass mass fraction ψ = 0.3, ISO 12215-5 Annex C \
                           (from memory; scatter ±20 %); density AZoM \"Polyester – laminate, chopped glass\" (read)",
        source: "chopped-strand mat in polyester, hand lay-up; shear strength 80 ψ + 38 = 62 MPa, tensile 200 ψ + 25 = 85 MPa, \
                 ISO 12215-5 Annex C (from memory; scatter ±20 %). Under lasting or repeated load a quarter to a sixth",
        verified: false,
    },
    Grade {
        name: "birch plywood",
        e_mpa: 7700.0,
        g_mpa: 620.0,
        density_kg_m3: 680.0,
        thermal_per_k: None,
        strength_mpa: None,
        haz_mpa: None,
        shear_strength_mpa: Some(9.5),
        most_wall_mm: None,
        stiffness_source: "panel shear modulus, density, E of the weaker direction in tension: handbook of Finnish plywood (from \
                           memory)",
        source: "panel shear strength, handbook of Finnish plywood (from memory); dry, short loading",
        verified: false,
    },
];

/// Mass fraction of glass in a hand-laid laminate of chopped-strand mat.
const GLASS: f64 = 0.3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_grade_is_consistent_and_named_once() {
        for (place, grade) in GRADES.iter().enumerate() {
            assert_eq!(GRADES.iter().position(|other| other.name == grade.name), Some(place), "{}", grade.name);
            assert!(grade.source.contains("from memory") || grade.verified, "{}", grade.name);
            if let Some([yielding, ultimate]) = grade.strength_mpa {
                assert!(yielding < ultimate, "{}", grade.name);
                if let Some([proof, beside]) = grade.haz_mpa {
                    assert!(proof < yielding && beside < ultimate && proof < beside, "{}", grade.name);
                }
            }
            let poisson = grade.e_mpa / (2.0 * grade.g_mpa) - 1.0;
            let isotropic = if grade.name.contains("sheet") { 0.29..0.34 } else { 0.29..0.31 };
            assert!(isotropic.contains(&poisson) || grade.shear_strength_mpa.is_some(), "{}", grade.name);
        }
    }

    /// 30 % glass: E 6500, G 2750, shear strength 62 MPa (ISO 12215-5 as quoted, from memory).
    #[test]
    fn the_laminate_has_the_rule_values() {
        let mat = find("GRP mat 30 %").expect("in the list");
        assert_eq!((mat.e_mpa, mat.g_mpa, mat.shear_strength_mpa), (6500.0, 2750.0, Some(62.0)));
    }

    #[test]
    fn names_are_exact() {
        assert_eq!(find("S235JRH").and_then(|grade| grade.strength_mpa), Some([235.0, 360.0]));
        assert_eq!(find("s235jrh"), None);
    }
}
