//! Arithmetic for engineers: any two numbers, degrees, arrays.

use rhai::Array;
use rhai::plugin::*;
use strutwork_model::units::{DEG, STANDARD_GRAVITY};

use super::Raised;
use crate::fault::Fault;
use crate::number::{number, whole};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

/// The numbers of an array.
///
/// # Errors
/// [`Fault::WrongType`].
pub(super) fn numbers(values: &Array) -> Result<Vec<f64>, Fault> {
    values.iter().map(|value| number("an item of the array", value)).collect()
}

/// A result that a script may go on with.
fn finite(what: &str, value: f64) -> Result<f64, Fault> {
    if value.is_finite() { Ok(value) } else { Err(Fault::NotFinite { what: what.to_owned(), value }) }
}

fn empty() -> Fault {
    Fault::OutOfRange { what: "the number of items".to_owned(), value: 0.0, range: "at least 1" }
}

#[export_module]
mod functions {
    use super::*;

    /// The square root.
    ///
    /// * A negative number stops the script.
    ///
    /// # Units
    /// Those of the number, to the power of ½.
    ///
    /// ```rhai
    /// print(square_root(2));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn square_root(x: Dynamic) -> Result<f64, Raised> {
        let x = number("the number", &x)?;
        Ok(finite("the square root of a negative number", x.sqrt())?)
    }

    /// The length of a vector: √(x² + y² + z²).
    ///
    /// # Units
    /// Those of the numbers, which are all the same.
    ///
    /// ```rhai
    /// let m = model().joint("FL");
    /// print(magnitude(m.x_mm, m.y_mm, m.z_mm));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn magnitude(x: Dynamic, y: Dynamic, z: Dynamic) -> Result<f64, Raised> {
        let [x, y, z] = [number("x", &x)?, number("y", &y)?, number("z", &z)?];
        Ok(finite("the magnitude", x.hypot(y).hypot(z))?)
    }

    /// The sine of an angle.
    ///
    /// # Units
    /// Degrees.
    ///
    /// ```rhai
    /// print(sin_deg(30));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn sin_deg(angle: Dynamic) -> Result<f64, Raised> {
        Ok((number("the angle", &angle)? * DEG).sin())
    }

    /// The cosine of an angle.
    ///
    /// # Units
    /// Degrees.
    ///
    /// ```rhai
    /// print(cos_deg(60));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn cos_deg(angle: Dynamic) -> Result<f64, Raised> {
        Ok((number("the angle", &angle)? * DEG).cos())
    }

    /// The tangent of an angle.
    ///
    /// # Units
    /// Degrees.
    ///
    /// ```rhai
    /// print(tan_deg(45));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn tan_deg(angle: Dynamic) -> Result<f64, Raised> {
        Ok((number("the angle", &angle)? * DEG).tan())
    }

    /// The angle of the direction (x, y), from the x axis towards the y axis.
    ///
    /// # Units
    /// Degrees, above −180 up to 180.
    ///
    /// ```rhai
    /// print(angle_deg(1, 1));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn angle_deg(x: Dynamic, y: Dynamic) -> Result<f64, Raised> {
        Ok(number("y", &y)?.atan2(number("x", &x)?) / DEG)
    }

    /// The sum of an array of numbers.
    ///
    /// # Units
    /// Those of the items.
    ///
    /// ```rhai
    /// print(sum([1, 2.5, 3]));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn sum(values: Array) -> Result<f64, Raised> {
        Ok(finite("the sum", numbers(&values)?.iter().sum())?)
    }

    /// The smallest of an array of numbers.
    ///
    /// * An empty array stops the script.
    ///
    /// # Units
    /// Those of the items.
    ///
    /// ```rhai
    /// print(smallest([3, 1.5, 2]));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn smallest(values: Array) -> Result<f64, Raised> {
        Ok(numbers(&values)?.into_iter().reduce(f64::min).ok_or_else(empty)?)
    }

    /// The greatest of an array of numbers.
    ///
    /// * An empty array stops the script.
    ///
    /// # Units
    /// Those of the items.
    ///
    /// ```rhai
    /// print(greatest([3, 1.5, 2]));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn greatest(values: Array) -> Result<f64, Raised> {
        Ok(numbers(&values)?.into_iter().reduce(f64::max).ok_or_else(empty)?)
    }

    /// Evenly spaced numbers from `from` to `to`, both included: the values of a sweep.
    ///
    /// * `count` is from 2 to 10 000.
    ///
    /// # Units
    /// Those of `from` and `to`.
    ///
    /// ```rhai
    /// for wall in spaced(1, 3, 5) { print(wall); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn spaced(from: Dynamic, to: Dynamic, count: Dynamic) -> Result<Array, Raised> {
        let (from, to) = (number("the first value", &from)?, number("the last value", &to)?);
        let count = whole("the number of values", &count, 2, 10_000, "a whole number from 2 to 10 000")?;
        let last = f64::from(count - 1);
        Ok((0..count).map(f64::from).map(|i| Dynamic::from((from * (last - i) + to * i) / last)).collect())
    }

    /// Whether two numbers differ by no more than a tolerance.
    ///
    /// # Units
    /// Those of the numbers, which are all the same.
    ///
    /// ```rhai
    /// if near(0.1 + 0.2, 0.3, 1e-9) { print("near enough"); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn near(a: Dynamic, b: Dynamic, tolerance: Dynamic) -> Result<bool, Raised> {
        let tolerance = number("the tolerance", &tolerance)?;
        Ok((number("the first number", &a)? - number("the second number", &b)?).abs() <= tolerance)
    }

    /// Standard gravity, 9.80665 m/s² (ISO 80000-3).
    ///
    /// # Units
    /// m/s².
    ///
    /// ```rhai
    /// print(80 * standard_gravity());
    /// ```
    pub fn standard_gravity() -> f64 {
        STANDARD_GRAVITY
    }
}
