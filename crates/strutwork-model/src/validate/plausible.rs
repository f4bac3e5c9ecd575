//! Places that are numbers but not, probably, the ones that were meant.

use super::Log;
use crate::codes;
use crate::spec::{ModelSpec, Written};

/// A frame smaller than this is written in another unit, mm.
const SMALL_MM: f64 = 50.0;
/// A frame larger than this is written in another unit, or is none of ours, mm.
const LARGE_MM: f64 = 50_000.0;

/// Warns of a frame far too small or too large, and of single coordinates in metres among millimetres.
pub(super) fn check(spec: &ModelSpec, log: &mut Log) {
    let span = |of: fn(&crate::spec::JointRow) -> f64| {
        let values = spec.joints.iter().map(of).filter(|value| value.is_finite());
        let (least, most) =
            values.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), value| (a.min(value), b.max(value)));
        if most > least { most - least } else { 0.0 }
    };
    let spans = [span(|row| row.x_mm.value), span(|row| row.y_mm.value), span(|row| row.z_mm.value)];
    let size = spans.into_iter().fold(0.0, f64::max);
    let file = spec.joints.first().and_then(|row| row.joint.spot).map(|spot| crate::spec::Spot::file(spot.file));
    if size > 0.0 && size < SMALL_MM {
        let message = format!("the whole frame is {size} mm long");
        let help = "places are in mm: multiply metres by 1000, inches by 25.4";
        log.warning(codes::ODD_FRAME, file, "", message, help);
    } else if size > LARGE_MM {
        let message = format!("the frame is {:.1} m long", size / 1000.0);
        let help = "places are in mm; look for a coordinate with too many digits";
        log.warning(codes::ODD_FRAME, file, "", message, help);
    } else {
        for row in &spec.joints {
            for (axis, value, span) in
                [("x", &row.x_mm, spans[0]), ("y", &row.y_mm, spans[1]), ("z", &row.z_mm, spans[2])]
            {
                if in_metres(value, span) {
                    let message = format!(
                        "joint `{}`: {axis} = {} mm, in a frame of {span} mm along {axis}",
                        row.joint.value, value.value
                    );
                    let help = format!("if metres were meant, write {}", (value.value * 1e6).round() / 1e3);
                    log.warning(codes::ODD_COORDINATE, value.spot, &row.joint, message, help);
                }
            }
        }
    }
}

/// A few units with a fraction, whose thousandfold would lie within the frame's own size.
fn in_metres(value: &Written<f64>, span: f64) -> bool {
    let size = value.abs();
    let thousandfold = size * 1000.0;
    span >= 500.0
        && (0.1..10.0).contains(&size)
        && value.fract() != 0.0
        && thousandfold <= 2.0 * span
        && on_the_millimetre(thousandfold)
}

/// Someone who types metres types whole millimetres.
fn on_the_millimetre(thousandfold: f64) -> bool {
    (thousandfold - thousandfold.round()).abs() < 1e-6
}
