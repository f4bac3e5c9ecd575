//! Columns and keys written in another unit: which is wanted, and how to convert.

/// Unit endings of names, longest first.
const WANTED: &[(&str, &str)] = &[
    ("_k_per_m", "kelvin a metre"),
    ("_n_per_mm", "newtons a millimetre"),
    ("_n_per_m", "newtons a metre of tube"),
    ("_nm_per_deg", "newton metres a degree"),
    ("_per_k", "a kelvin"),
    ("_kg_m3", "kilograms a cubic metre"),
    ("_kg_m2", "kilograms times square metres"),
    ("_mm2", "square millimetres"),
    ("_mm4", "millimetres to the fourth"),
    ("_mpa", "megapascals (N/mm²)"),
    ("_deg", "degrees"),
    ("_mm", "millimetres"),
    ("_nm", "newton metres"),
    ("_n", "newtons"),
    ("_k", "kelvin"),
    ("kg", "kilograms"),
];

/// Wanted ending, ending given, how to convert.
///
/// The inch and the pound are exact by the international agreement of 1959 (from memory).
const CONVERSIONS: &[(&str, &str, &str)] = &[
    ("_mm", "_m", "multiply metres by 1000"),
    ("_mm", "_cm", "multiply centimetres by 10"),
    ("_mm", "_in", "multiply inches by 25.4"),
    ("_mm", "_inch", "multiply inches by 25.4"),
    ("_mm2", "_m2", "multiply square metres by 1 000 000"),
    ("_mm2", "_cm2", "multiply square centimetres by 100"),
    ("_mm4", "_m4", "multiply by 10¹²"),
    ("_mm4", "_cm4", "multiply by 10 000"),
    ("_deg", "_rad", "multiply radians by 57.295 779 5"),
    ("_n", "_kn", "multiply kilonewtons by 1000"),
    ("_n", "_kgf", "multiply by 9.806 65"),
    ("_n", "_kg", "multiply by 9.806 65"),
    ("_nm", "_knm", "multiply kilonewton metres by 1000"),
    ("_nm", "_nmm", "divide newton millimetres by 1000"),
    ("_n_per_m", "_n_per_mm", "multiply by 1000"),
    ("_n_per_m", "_kn_per_m", "multiply by 1000"),
    ("_n_per_mm", "_n_per_m", "divide by 1000"),
    ("_n_per_mm", "_kn_per_mm", "multiply by 1000"),
    ("_nm_per_deg", "_nm_per_rad", "divide by 57.295 779 5"),
    ("_nm_per_deg", "_knm_per_deg", "multiply by 1000"),
    ("_kg_m2", "_kg_mm2", "divide by 1 000 000"),
    ("_mpa", "_gpa", "multiply gigapascals by 1000"),
    ("_mpa", "_pa", "divide pascals by 1 000 000"),
    ("_mpa", "_ksi", "multiply by 6.894 757"),
    ("_kg_m3", "_g_cm3", "multiply by 1000"),
    ("_kg_m3", "_kg_dm3", "multiply by 1000"),
    ("_k", "_c", "a difference of 1 °C is 1 K: rename the column"),
    ("_k", "_deg_c", "a difference of 1 °C is 1 K: rename the column"),
    ("_per_k", "_per_c", "1/°C is 1/K: rename the key"),
    ("kg", "g", "divide grams by 1000"),
    ("kg", "t", "multiply tonnes by 1000"),
    ("kg", "lb", "multiply pounds by 0.453 592 37"),
    ("kg", "mass_kg", "rename the column"),
];

/// A known name that says the same quantity in the unit wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct UnitHint {
    /// The known name.
    pub(super) wanted: &'static str,
    /// `millimetres`, …
    pub(super) unit: &'static str,
    /// How to convert.
    pub(super) how: &'static str,
}

/// The known name that `name` is with another unit or with none, if there is one.
pub(super) fn other_unit(name: &str, known: &[&'static str]) -> Option<UnitHint> {
    let name = name.to_lowercase();
    known.iter().find_map(|&wanted| {
        let &(ending, unit) = WANTED.iter().find(|(ending, _)| wanted.ends_with(ending))?;
        let base = wanted.strip_suffix(ending)?;
        let given = name.strip_prefix(base)?;
        if name == wanted {
            return None;
        }
        let listed = CONVERSIONS.iter().find(|(to, from, _)| *to == ending && *from == given);
        let how = match listed {
            Some((_, _, how)) => how,
            None if given.is_empty() && !base.is_empty() => "the name must say its unit",
            None => return None,
        };
        Some(UnitHint { wanted, unit, how })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn knows_the_same_quantity_in_another_unit() {
        let hint = other_unit("x_m", &["joint", "x_mm"]).expect("metres");
        assert_eq!((hint.wanted, hint.how), ("x_mm", "multiply metres by 1000"));
        assert_eq!(other_unit("wx_n_per_mm", &["wx_n_per_m"]).map(|h| h.wanted), Some("wx_n_per_m"));
        assert_eq!(other_unit("width_cm", &["height_mm", "width_mm"]).map(|h| h.wanted), Some("width_mm"));
        assert_eq!(other_unit("x", &["x_mm"]).map(|h| h.how), Some("the name must say its unit"));
        assert_eq!(other_unit("fx_kN", &["fx_n"]).map(|h| h.wanted), Some("fx_n"));
        assert_eq!(other_unit("x_mm", &["x_mm"]), None);
        assert_eq!(other_unit("note", &["x_mm", "kg"]), None);
    }

    #[test]
    fn every_conversion_ends_in_a_unit_that_is_wanted_somewhere() {
        for (to, _, _) in CONVERSIONS {
            assert!(WANTED.iter().any(|(ending, _)| ending == to), "{to}");
        }
    }
}
