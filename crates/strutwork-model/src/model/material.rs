//! A material: stiffness, density, strength.

/// Linear elastic, isotropic, with its strength.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// The user's name for it, unique.
    pub name: String,
    /// The grade of the built-in list, where one was named; empty otherwise.
    pub grade: String,
    /// Young's modulus E, Pa.
    pub youngs: f64,
    /// Shear modulus G, Pa.
    pub shear: f64,
    /// kg/m³; 0 where not given (self weight and masses then refuse it).
    pub density: f64,
    /// Coefficient of thermal expansion, 1/K; `None` where not given.
    pub expansion: Option<f64>,
    /// Away from welds; `None` where not given.
    pub strength: Option<Strength>,
    /// In the heat-affected zone beside a weld; `None` where the parent's strength holds or nothing was given.
    pub heat_affected: Option<Strength>,
    /// Shear strength in the plane of a sheet, Pa, where it does not follow from the yield strength; `None` where not given.
    pub shear_strength: Option<f64>,
    /// Where the values come from, as the report prints it.
    pub source: String,
    /// Whether the source was read, not recalled.
    pub verified: bool,
}

/// Yield (or 0.2 % proof) and ultimate strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// Pa.
    pub yield_stress: f64,
    /// Pa.
    pub ultimate: f64,
}
