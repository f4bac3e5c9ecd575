//! The built-in list of material grades.

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
    /// Coefficient of expansion, 1/K.
    pub thermal_per_k: f64,
    /// Yield or 0.2 % proof strength, MPa.
    pub yield_mpa: f64,
    /// Ultimate strength, MPa.
    pub ultimate_mpa: f64,
    /// Yield or proof strength and ultimate strength beside a weld, MPa, where they are less.
    pub haz_mpa: Option<[f64; 2]>,
    /// The thickest wall that these strengths hold for, mm.
    pub most_wall_mm: f64,
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

impl Grade {
    /// Where the elastic constants come from.
    pub fn stiffness_source(&self) -> &'static str {
        if self.e_mpa > 100_000.0 { STEEL_SOURCE } else { ALUMINIUM_SOURCE }
    }
}

/// The grade with this exact name.
pub fn find(name: &str) -> Option<&'static Grade> {
    GRADES.iter().find(|grade| grade.name == name)
}

const fn steel(
    name: &'static str,
    [yield_mpa, ultimate_mpa]: [f64; 2],
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
        thermal_per_k: 12e-6,
        yield_mpa,
        ultimate_mpa,
        haz_mpa,
        most_wall_mm,
        source,
        verified,
    }
}

const fn aluminium(
    name: &'static str,
    [yield_mpa, ultimate_mpa]: [f64; 2],
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
        thermal_per_k: 23e-6,
        yield_mpa,
        ultimate_mpa,
        haz_mpa: Some(haz_mpa),
        most_wall_mm,
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
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_grade_is_consistent_and_named_once() {
        for (place, grade) in GRADES.iter().enumerate() {
            assert_eq!(GRADES.iter().position(|other| other.name == grade.name), Some(place), "{}", grade.name);
            assert!(grade.yield_mpa < grade.ultimate_mpa, "{}", grade.name);
            assert!(grade.source.contains("from memory") || grade.verified, "{}", grade.name);
            if let Some([proof, ultimate]) = grade.haz_mpa {
                assert!(proof < grade.yield_mpa && ultimate < grade.ultimate_mpa && proof < ultimate, "{}", grade.name);
            }
            let poisson = grade.e_mpa / (2.0 * grade.g_mpa) - 1.0;
            assert!((0.29..0.31).contains(&poisson), "{}", grade.name);
        }
    }

    #[test]
    fn names_are_exact() {
        assert_eq!(find("S235JRH").map(|grade| grade.yield_mpa), Some(235.0));
        assert_eq!(find("s235jrh"), None);
    }
}
