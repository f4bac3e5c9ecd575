//! A movement against a limit that the user set.

use crate::calculation::{Sink, Unit};

/// The axes, as symbols.
const AXES: [&str; 3] = ["x", "y", "z"];

/// What moves, from the solution of one case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Movement {
    /// How far the joint moves along x, y, z, m.
    pub of: [f64; 3],
    /// How far the joint moves that it is measured from; `None`: measured from where it stood.
    pub from: Option<[f64; 3]>,
    /// Which part of it counts.
    pub what: What,
}

/// Which part of a movement counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum What {
    /// Along x (0), y (1) or z (2).
    Axis(usize),
    /// Whichever way it goes.
    Total,
    /// Along the line from the one joint to the other, which lie this far apart along x, y, z, m.
    Apart([f64; 3]),
}

/// How far it moves, m ≥ 0, and that over the most that it may.
///
/// ```text
/// axis: |Δu_i|      total: √(Δu_x² + Δu_y² + Δu_z²)      distance: |d·Δu|/L, d from the one joint to the other, L = |d|
/// ```
///
/// # Assumes
/// Small movements: a distance changes by what its ends move along the line between them.
///
/// # Source
/// Geometry.
pub fn movement<S: Sink>(movement: &Movement, most: f64, sink: &mut S) -> (f64, f64) {
    let Movement { of, from, what } = *movement;
    let start = from.unwrap_or_default();
    let by = [0, 1, 2].map(|axis| of[axis] - start[axis]);
    let moved = match what {
        What::Axis(axis) => by[axis].abs(),
        What::Total => by[0].hypot(by[1]).hypot(by[2]),
        What::Apart(apart) => {
            let length = apart[0].hypot(apart[1]).hypot(apart[2]);
            ((0..3).map(|axis| apart[axis] * by[axis]).sum::<f64>() / length).abs()
        }
    };
    if sink.writes() {
        write(movement, by, moved, most, sink);
    }
    (moved, moved / most)
}

fn write<S: Sink>(movement: &Movement, by: [f64; 3], moved: f64, most: f64, sink: &mut S) {
    let Movement { of, from, what } = *movement;
    let symbols = AXES.map(|axis| format!("Δu_{axis}"));
    let counts = |axis: usize| !matches!(what, What::Axis(one) if one != axis);
    for axis in (0..3).filter(|axis| counts(*axis)) {
        let Some(from) = from else {
            sink.given(&symbols[axis], of[axis], Unit::MM, "how far the joint moves");
            continue;
        };
        let [own, other] = [2, 1].map(|joint| format!("u_{},{joint}", AXES[axis]));
        sink.given(&own, of[axis], Unit::MM, "how far the joint moves");
        sink.given(&other, from[axis], Unit::MM, "how far the other joint moves");
        let with = [(own.as_str(), of[axis], Unit::MM), (other.as_str(), from[axis], Unit::MM)];
        sink.step(&symbols[axis], &format!("{own} − {other}"), &with, by[axis], Unit::MM, "");
    }
    let [x, y, z] = symbols.each_ref().map(String::as_str);
    let parts = [(x, by[0], Unit::MM), (y, by[1], Unit::MM), (z, by[2], Unit::MM)];
    match what {
        What::Axis(axis) => {
            sink.step("u", &format!("|{}|", symbols[axis]), &[parts[axis]], moved, Unit::MM, "either way");
        }
        What::Total => {
            sink.step("u", &format!("√({x}² + {y}² + {z}²)"), &parts, moved, Unit::MM, "whichever way it goes");
        }
        What::Apart(apart) => {
            let names = ["d_x", "d_y", "d_z"];
            for axis in 0..3 {
                sink.given(names[axis], apart[axis], Unit::MM, "from the one joint to the other");
            }
            let ways: Vec<_> = names.into_iter().zip(apart).map(|(name, way)| (name, way, Unit::MM)).collect();
            let length = apart[0].hypot(apart[1]).hypot(apart[2]);
            sink.step("L", "√(d_x² + d_y² + d_z²)", &ways, length, Unit::MM, "their distance");
            let with: Vec<_> = ways.into_iter().chain(parts).chain([("L", length, Unit::MM)]).collect();
            let formula = format!("|d_x · {x} + d_y · {y} + d_z · {z}| / L");
            sink.step("u", &formula, &with, moved, Unit::MM, "change of their distance");
        }
    }
    sink.given("u_max", most, Unit::MM, "the most that it may be");
    let with = [("u", moved, Unit::MM), ("u_max", most, Unit::MM)];
    sink.step("utilisation", "u / u_max", &with, moved / most, Unit::ONE, "");
    sink.remark("Loads as they are in the case, without the margin of the basis.");
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use strutwork_testkit::{assert_close, assert_close_by};

    use super::*;
    use crate::calculation::{Pages, Silent};
    use crate::code::worked::recomputes;

    fn judged(of: [f64; 3], from: Option<[f64; 3]>, what: What) -> f64 {
        movement(&Movement { of, from, what }, 2e-3, &mut Silent).0
    }

    #[test]
    fn movements_follow_geometry() {
        let u = [1e-3, -2e-3, 2e-3];
        assert_close("y", judged(u, None, What::Axis(1)), 2e-3, 1e-15);
        assert_close("total", judged(u, None, What::Total), 3e-3, 1e-15);
        assert_close("relative", judged(u, Some([1e-3, -2e-3, 0.0]), What::Total), 2e-3, 1e-15);
        // Along a 3-4-5 line only what points along it counts.
        let line = What::Apart([0.3, 0.4, 0.0]);
        assert_close("along", judged([0.6e-3, 0.8e-3, 5e-3], Some([0.0; 3]), line), 1e-3, 1e-12);
        assert_close_by("across", judged([0.8e-3, -0.6e-3, 5e-3], Some([0.0; 3]), line), 0.0, 1e-18);
    }

    #[test]
    fn two_joints_that_move_alike_keep_their_distance() {
        let u = [3e-3, 4e-3, 5e-3];
        assert_eq!(judged(u, Some(u), What::Apart([1.0, 2.0, 3.0])), 0.0);
    }

    fn triple(most: f64) -> impl Strategy<Value = [f64; 3]> {
        [-most..most, -most..most, -most..most]
    }

    proptest! {
        #[test]
        fn pages_can_be_worked_out(
            of in triple(0.02),
            from in prop::option::of(triple(0.02)),
            apart in triple(2.0),
            kind in 0..5_usize,
            most in 1e-4..0.1,
        ) {
            let what = match kind {
                3 => What::Total,
                4 => What::Apart(apart),
                axis => What::Axis(axis),
            };
            let moved = Movement { of, from, what };
            let mut pages = Pages::default();
            let (value, utilisation) = movement(&moved, most, &mut pages);
            prop_assert_eq!((value, utilisation), movement(&moved, most, &mut Silent));
            recomputes(&pages.finish("t", "c", "s", utilisation));
        }

        #[test]
        fn more_movement_never_lowers_it(of in triple(0.02), apart in triple(2.0), more in 1.0..3.0_f64) {
            for what in [What::Axis(0), What::Axis(1), What::Axis(2), What::Total, What::Apart(apart)] {
                // A hair for the rounding of sums.
                prop_assert!(judged(of.map(|u| u * more), None, what) >= judged(of, None, what) - 1e-16);
            }
        }
    }
}
