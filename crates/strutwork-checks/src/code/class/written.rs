//! How a class is found, written out.

use super::{Class, Form, Pair, Pressed, Profile, Under, class, pairs, round_limits, round_pressed};
use crate::calculation::{Put, Sink, Unit};

/// Writes how the class is found: `force` is the symbol of the compressive force that stands above, `M_y,Ed` and `M_z,Ed` too.
pub(in crate::code) fn write(profile: &Profile, under: Under, force: &str, sink: &mut impl Sink) {
    let (epsilon, f_y) = (profile.epsilon(), ("f_y", profile.yield_stress, Unit::MPA));
    match profile.form {
        Form::SolidRound { .. } | Form::Flat { .. } => sink.remark("A solid bar is class 1."),
        Form::Round { diameter, wall } => {
            if !round_pressed(profile, under) {
                sink.remark("The tube is nowhere compressed: class 1.");
                return;
            }
            sink.step("ε", "√(235 / f_y)", &[f_y], epsilon, Unit::ONE, "");
            let ratio = diameter / wall;
            sink.step("d/t", "d / t", &[("d", diameter, Unit::MM), ("t", wall, Unit::MM)], ratio, Unit::ONE, "");
            let limits = round_limits(epsilon);
            let with = [("ε", epsilon, Unit::ONE)];
            let write = |class: usize, sink: &mut _| {
                let formula = ["50 · ε²", "70 · ε²", "90 · ε²"][class];
                limit_line(&format!("limit {}", class + 1), formula, &with, limits[class], class, sink);
            };
            around(Class::within(ratio, limits), write, sink);
        }
        Form::Rectangular { height, width, wall } => {
            sink.step("ε", "√(235 / f_y)", &[f_y], epsilon, Unit::ONE, "");
            let found = pairs(profile, [height, width], wall, under);
            for (pair, (side, size)) in found.iter().zip([("h", height), ("b", width)]) {
                write_pair(profile, pair, (side, size, wall), (force, under.compression), sink);
            }
        }
    }
    let class = class(profile, under);
    sink.remark(&format!("The cross-section is class {}.", class.number()));
}

/// The limits on both sides of a class.
fn around<S: Sink>(class: Class, mut write: impl FnMut(usize, &mut S), sink: &mut S) {
    let place = usize::from(class.number()) - 1;
    for at in [place.checked_sub(1), Some(place)].into_iter().flatten().filter(|at| *at < 3) {
        write(at, sink);
    }
}

fn limit_line(symbol: &str, formula: &str, with: &[Put<'_>], value: f64, class: usize, sink: &mut impl Sink) {
    let note = format!("class {} up to here", class + 1);
    sink.step(symbol, formula, with, value, Unit::ONE, &note);
}

fn write_pair(
    profile: &Profile,
    pair: &Pair,
    (side, size, wall): (&str, f64, f64),
    (force, compression): (&str, f64),
    sink: &mut impl Sink,
) {
    let Some(pressed) = pair.pressed else {
        sink.remark(&format!("The walls of size {side} are nowhere compressed: class 1."));
        return;
    };
    let epsilon = profile.epsilon();
    let (flat, alpha, psi) = (format!("c_{side}"), format!("α_{side}"), format!("ψ_{side}"));
    let put: [Put<'_>; 9] = [
        (side, size, Unit::MM),
        ("t", wall, Unit::MM),
        ("A", profile.area, Unit::MM2),
        ("f_y", profile.yield_stress, Unit::MPA),
        ("ε", epsilon, Unit::ONE),
        (&flat, pair.flat, Unit::MM),
        (&alpha, pressed.alpha, Unit::ONE),
        (&psi, pressed.psi, Unit::ONE),
        (force, compression, Unit::N),
    ];
    sink.step(&flat, &format!("{side} − 3 · t"), &put, pair.flat, Unit::MM, "flat part of the wall");
    let ratio = pair.flat / wall;
    sink.step(&format!("{flat}/t"), &format!("{flat} / t"), &put, ratio, Unit::ONE, "");
    let evenly = pressed == Pressed::EVENLY;
    let class = pair.class(wall, epsilon);
    if !evenly {
        let formula = format!("min(1, max(0.5, 0.5 · (1 + {force} / (2 · t · {flat} · f_y))))");
        sink.step(&alpha, &formula, &put, pressed.alpha, Unit::ONE, "share of the wall that is compressed");
    }
    if !evenly && !class.is_plastic() {
        let formula = format!("min(1, max(0 − 1, 2 · {force} / (A · f_y) − 1))");
        sink.step(&psi, &formula, &put, pressed.psi, Unit::ONE, "least over greatest compression at first yield");
    }
    let limits = pressed.limits(epsilon);
    let write = |class: usize, sink: &mut _| {
        let formula = match class {
            0 | 1 if evenly => format!("{} · ε", [33, 38][class]),
            0 | 1 if pressed.alpha > 0.5 => format!("{} · ε / (13 · {alpha} − 1)", [396, 456][class]),
            0 | 1 => format!("{} · ε / {alpha}", ["36", "41.5"][class]),
            _ if evenly => "42 · ε".to_owned(),
            _ if pressed.psi <= -1.0 => "124 · ε".to_owned(),
            _ => format!("42 · ε / (0.67 + 0.33 · {psi})"),
        };
        limit_line(&format!("limit {}, {side}", class + 1), &formula, &put, limits[class], class, sink);
    };
    around(class, write, sink);
}
