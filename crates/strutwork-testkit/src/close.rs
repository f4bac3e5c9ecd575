//! One way to compare numbers: symmetric, explicit about the scale, refusing NaN.

/// Asserts that two numbers agree to a share of the larger, and prints both with the difference if not.
#[track_caller]
pub fn assert_close(what: &str, got: f64, expected: f64, share: f64) {
    assert_close_by(what, got, expected, share * got.abs().max(expected.abs()));
}

/// Asserts that two numbers differ by at most `allowed`, and prints both with the difference if not.
#[track_caller]
pub fn assert_close_by(what: &str, got: f64, expected: f64, allowed: f64) {
    let difference = (got - expected).abs();
    // A NaN on either side makes the difference NaN, which is not within anything.
    assert!(
        difference <= allowed,
        "\n---- {what}\n got       {got:?}\n expected  {expected:?}\n differ by {difference:e}, allowed {allowed:e}\n----"
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn close_is_symmetric_and_signed() {
        assert_close("same side", 1.0, 1.0 + 1e-9, 1e-8);
        assert!(std::panic::catch_unwind(|| assert_close("low side", 14.0, 15.0, 1e-4)).is_err());
        assert!(std::panic::catch_unwind(|| assert_close("high side", 16.0, 15.0, 1e-4)).is_err());
        assert!(std::panic::catch_unwind(|| assert_close("nan", f64::NAN, 15.0, 1.0)).is_err());
    }
}
