//! The units that sources print in.

use strutwork_model::units::NM_PER_DEG;

use crate::fault::CaseFault;

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dimension {
    /// m.
    Length,
    /// rad.
    Angle,
    /// N.
    Force,
    /// N·m.
    Moment,
    /// Pa.
    Stress,
    /// m².
    Area,
    /// m³.
    Modulus,
    /// m⁴.
    SecondMoment,
    /// kg.
    Mass,
    /// kg/m.
    MassPerLength,
    /// m²/m.
    SurfacePerLength,
    /// kg·m².
    Inertia,
    /// N·m/rad.
    TwistStiffness,
    /// m/s².
    Acceleration,
    /// rad/s².
    AngularAcceleration,
    /// N/m: shear flow, and stiffness along a line.
    ForcePerLength,
    /// 1/s.
    Frequency,
    /// A number.
    Ratio,
}

/// A unit of the list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// As it is written.
    pub name: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// Its size in SI units.
    pub size: f64,
}

/// The inch, m, and the pound-force, N: exact by definition.
///
/// # Source
/// International yard and pound agreement, 1959; standard gravity 9.80665 m/s² (from memory).
const INCH: f64 = 0.0254;
const POUND_FORCE: f64 = POUND * 9.806_65;
/// The pound, kg, likewise.
const POUND: f64 = 0.453_592_37;

const UNITS: &[Unit] = {
    use Dimension::*;
    &[
        unit("m", Length, 1.0),
        unit("cm", Length, 1e-2),
        unit("mm", Length, 1e-3),
        unit("in", Length, INCH),
        unit("rad", Angle, 1.0),
        unit("N", Force, 1.0),
        unit("kN", Force, 1e3),
        unit("lbf", Force, POUND_FORCE),
        unit("kip", Force, 1e3 * POUND_FORCE),
        unit("N·m", Moment, 1.0),
        unit("kN·m", Moment, 1e3),
        unit("lbf·in", Moment, POUND_FORCE * INCH),
        unit("kip·in", Moment, 1e3 * POUND_FORCE * INCH),
        unit("MPa", Stress, 1e6),
        unit("mm2", Area, 1e-6),
        unit("cm2", Area, 1e-4),
        unit("mm3", Modulus, 1e-9),
        unit("cm3", Modulus, 1e-6),
        unit("mm4", SecondMoment, 1e-12),
        unit("cm4", SecondMoment, 1e-8),
        unit("kg", Mass, 1.0),
        unit("g", Mass, 1e-3),
        unit("lb", Mass, POUND),
        unit("kg/m", MassPerLength, 1.0),
        unit("m2/m", SurfacePerLength, 1.0),
        unit("kg·m2", Inertia, 1.0),
        unit("N·m/rad", TwistStiffness, 1.0),
        unit("kN·m/deg", TwistStiffness, 1e3 * NM_PER_DEG),
        unit("m/s2", Acceleration, 1.0),
        unit("rad/s2", AngularAcceleration, 1.0),
        unit("N/m", ForcePerLength, 1.0),
        unit("N/mm", ForcePerLength, 1e3),
        unit("Hz", Frequency, 1.0),
        unit("1", Ratio, 1.0),
        unit("%", Ratio, 1e-2),
    ]
};

const fn unit(name: &'static str, dimension: Dimension, size: f64) -> Unit {
    Unit { name, dimension, size }
}

impl Unit {
    /// The unit with this name.
    ///
    /// # Errors
    /// [`CaseFault::Word`].
    pub fn named(name: &str) -> Result<Self, CaseFault> {
        let found = UNITS.iter().find(|unit| unit.name == name);
        found.copied().ok_or_else(|| CaseFault::Word { kind: "unit", written: name.to_owned() })
    }
}
