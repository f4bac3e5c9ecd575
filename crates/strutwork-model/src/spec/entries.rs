//! The tables of `model.toml` as the user wrote them.

use serde::Serialize;

use super::Written;

/// The title block.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct TitleEntry {
    /// The model's title; `None` where not given.
    pub title: Option<Written<String>>,
    /// Revision; `None` where not given.
    pub revision: Option<Written<String>>,
    /// `[revisions.NAME]`.
    pub revisions: Vec<RevisionEntry>,
    /// Who made the model; empty for none.
    pub author: String,
    /// Notes and assumptions.
    pub notes: Vec<String>,
    /// What is outside the model.
    pub outside: Vec<String>,
}

/// A table `[revisions.NAME]`: what was done in a revision.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct RevisionEntry {
    /// The revision.
    pub name: Written<String>,
    /// When: `2026-01-31`; `None` where not given.
    pub date: Option<Written<String>>,
    /// Who; empty for nobody named.
    pub by: String,
    /// What was done and why, one an entry.
    pub note: Vec<String>,
}

/// The table `[options]`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OptionsEntry {
    /// Gravity on tubes and masses in every plain case.
    pub self_weight: bool,
    /// Whether the standard load cases are run for a vehicle.
    pub standard_cases: bool,
    /// Factor on yield, ≥ 1.
    pub yield_margin: Written<f64>,
    /// Whether the frame's own inertia balances the cases of the load files; `None`: where there is a vehicle and no
    /// support.
    pub inertia_relief: Option<bool>,
}

impl Default for OptionsEntry {
    fn default() -> Self {
        Self { self_weight: false, standard_cases: true, yield_margin: 1.5.into(), inertia_relief: None }
    }
}

/// A table `[sections.NAME]`: only the keys that the user gave.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SectionEntry {
    /// Its name.
    pub name: Written<String>,
    /// `square`, `rectangular`, `round`, `solid-round`, `flat` or `properties`.
    pub shape: Option<Written<String>>,
    /// `cold-formed` or `hot-finished`.
    pub route: Option<Written<String>>,
    /// A size of the built-in list, `square 30x2`, in place of shape and sizes.
    pub stock: Option<Written<String>>,
    /// Along local z, mm.
    pub height_mm: Option<Written<f64>>,
    /// Along local y, mm.
    pub width_mm: Option<Written<f64>>,
    /// Outside diameter, mm.
    pub diameter_mm: Option<Written<f64>>,
    /// Wall, mm.
    pub wall_mm: Option<Written<f64>>,
    /// Wall as text: `16 swg` or `1.5 mm`.
    pub wall: Option<Written<String>>,
    /// Outer corner radius, mm; 0 for a sharp-cornered idealisation.
    pub outer_radius_mm: Option<Written<f64>>,
    /// A, mm².
    pub area_mm2: Option<Written<f64>>,
    /// Iy, mm⁴.
    pub iy_mm4: Option<Written<f64>>,
    /// Iz, mm⁴.
    pub iz_mm4: Option<Written<f64>>,
    /// J, mm⁴.
    pub j_mm4: Option<Written<f64>>,
}

/// A table `[materials.NAME]`: only the keys that the user gave.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct MaterialEntry {
    /// Its name.
    pub name: Written<String>,
    /// A grade of the built-in list; other keys replace its values.
    pub grade: Option<Written<String>>,
    /// E, MPa.
    pub e_mpa: Option<Written<f64>>,
    /// G, MPa.
    pub g_mpa: Option<Written<f64>>,
    /// kg/m³.
    pub density_kg_m3: Option<Written<f64>>,
    /// Yield or 0.2 % proof strength, MPa.
    pub yield_mpa: Option<Written<f64>>,
    /// Ultimate strength, MPa.
    pub ultimate_mpa: Option<Written<f64>>,
    /// Coefficient of expansion, 1/K.
    pub thermal_per_k: Option<Written<f64>>,
    /// Yield or proof strength beside a weld, MPa.
    pub haz_yield_mpa: Option<Written<f64>>,
    /// Ultimate strength beside a weld, MPa.
    pub haz_ultimate_mpa: Option<Written<f64>>,
    /// Shear strength in the plane of a sheet, MPa.
    pub shear_strength_mpa: Option<Written<f64>>,
    /// Where the values come from.
    pub source: Option<Written<String>>,
}

/// A table `[factors.NAME]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct FactorEntry {
    /// Its name.
    pub name: Written<String>,
    /// Its value.
    pub value: Written<f64>,
    /// Where the value comes from.
    pub source: Written<String>,
}
