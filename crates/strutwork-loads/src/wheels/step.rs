//! The force of a step that a wheel rolls over.

use crate::error::LoadError;

/// Horizontal force on a wheel that is to roll over a step, N: H = V/tan θ, sin θ = (r − s)/r, with θ the angle of the
/// line from the edge of the step to the wheel's centre above the level.
///
/// # Units and shapes
/// `vertical` load of the wheel in N; `radius` of the wheel and height of the `step` in m.
///
/// # Assumes
/// The wheel is rigid, stands against the edge and just leaves the ground; no friction on the edge.
///
/// # Errors
/// [`LoadError::NotFinite`]; [`LoadError::OutOfRange`] where the step is not between zero and the radius.
///
/// # Source
/// Equilibrium of the wheel (derived); so in J. C. Brown, A. J. Robertson and S. T. Serpento, Motor Vehicle Structures,
/// 2002, section 2.4.3 (from memory).
pub fn step_force(vertical: f64, radius: f64, step: f64) -> Result<f64, LoadError> {
    for (what, value) in [("the wheel load", vertical), ("the wheel radius", radius), ("the height of the step", step)]
    {
        if !value.is_finite() {
            return Err(LoadError::NotFinite { what: what.to_owned(), value });
        }
    }
    if radius <= 0.0 {
        return Err(LoadError::OutOfRange { what: "the wheel radius, m,", value: radius, range: "above zero" });
    }
    if !(0.0..radius).contains(&step) {
        let range = "from zero to less than the wheel radius";
        return Err(LoadError::OutOfRange { what: "the height of the step, m,", value: step, range });
    }
    // tan θ of sin θ = (r − s)/r, without the arc: (r − s)/√(r² − (r − s)²).
    Ok(vertical * (step * (2.0 * radius - step)).sqrt() / (radius - step))
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;

    /// r = 300 mm, step 60 mm: sin θ = 0.8, tan θ = 4/3, H = 0.75 V; a step of nothing wants no force.
    #[test]
    fn a_step_by_hand() {
        assert_relative_eq!(step_force(2000.0, 0.3, 0.06).unwrap(), 1500.0, max_relative = 1e-12);
        assert_eq!(step_force(2000.0, 0.3, 0.0), Ok(0.0));
        for (radius, step) in [(0.3, 0.3), (0.3, -0.1), (0.0, 0.0)] {
            assert_eq!(step_force(1.0, radius, step).map_err(|error| error.code().0), Err("L009"));
        }
        assert_eq!(step_force(f64::NAN, 0.3, 0.1).map_err(|error| error.code().0), Err("L005"));
    }
}
