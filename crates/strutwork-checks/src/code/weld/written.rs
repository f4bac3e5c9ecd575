//! The check of a fillet, written out.

use super::{AtEnd, Fillet, Method, Outline, Stressed, full_strength_throat, shear_strength, sines};
use crate::calculation::{Put, Sink, Unit};
use crate::code::Partial;

pub(super) fn fillet(
    weld: &Fillet,
    acting: &AtEnd,
    method: Method,
    partial: &Partial,
    found: &Stressed,
    sink: &mut impl Sink,
) {
    let mut put = given(weld, acting, partial, sink);
    on_line(weld, found, &mut put, sink);
    on_face(weld, found, &mut put, sink);
    flows(weld, found, &mut put, sink);
    judged(weld, method, partial, found, &mut put, sink);
}

/// A step whose result later formulas may use.
fn step<'p>(
    sink: &mut impl Sink,
    put: &mut Vec<Put<'p>>,
    [symbol, formula, note]: [&'p str; 3],
    value: f64,
    unit: Unit,
) {
    sink.step(symbol, formula, put, value, unit, note);
    put.push((symbol, value, unit));
}

fn given(weld: &Fillet, acting: &AtEnd, partial: &Partial, sink: &mut impl Sink) -> Vec<Put<'static>> {
    let (sin, cos) = sines(weld.angle);
    let mut rows: Vec<(&'static str, f64, Unit, &str)> = match weld.outline {
        Outline::Round { diameter } => vec![("d", diameter, Unit::MM, "outside diameter of the tube")],
        Outline::Rectangular { depth, width, corner } => vec![
            ("h", depth, Unit::MM, "of the tube, in the plane of tube and face normal"),
            ("b", width, Unit::MM, "of the tube, across that plane"),
            ("r", corner, Unit::MM, "outer corner radius"),
        ],
    };
    rows.extend([
        ("θ", weld.angle, Unit::DEG, "between tube and face"),
        ("sinθ", sin, Unit::ONE, ""),
        ("cosθ", cos, Unit::ONE, ""),
        ("a", weld.throat, Unit::MM, "throat"),
        ("f_u", weld.ultimate, Unit::MPA, "of the weaker part, beside the weld"),
        ("β_w", weld.correlation, Unit::ONE, "Table 4.1, by the yield strength of the weaker part"),
        ("γ_M2", partial.m2, Unit::ONE, "partial factor of welds"),
        ("N", acting.axial.abs(), Unit::N, "at the tube's end, margin included, like the next five"),
        ("V_ip", acting.shear[0].abs(), Unit::N, "in the plane of tube and face normal"),
        ("V_op", acting.shear[1].abs(), Unit::N, "across that plane"),
        ("T", acting.torque.abs(), Unit::NM, "torque of the tube"),
        ("M_ip", acting.moments[0].abs(), Unit::NM, "bends in that plane"),
        ("M_op", acting.moments[1].abs(), Unit::NM, "bends out of it"),
    ]);
    if weld.wall > 0.0 {
        rows.extend([
            ("t", weld.wall, Unit::MM, "wall of the tube"),
            ("f_y", weld.yield_stress, Unit::MPA, "of the tube, beside the weld"),
            ("γ_M0", partial.m0, Unit::ONE, "partial factor of sections"),
        ]);
    }
    rows.into_iter()
        .map(|(symbol, value, unit, note)| {
            sink.given(symbol, value, unit, note);
            (symbol, value, unit)
        })
        .collect()
}

/// The weld's line.
fn on_line(weld: &Fillet, found: &Stressed, put: &mut Vec<Put<'static>>, sink: &mut impl Sink) {
    let line = &found.line;
    let rows = if weld.outline.is_round() {
        [
            ["u", "d / sinθ", "long axis of the weld line, an ellipse"],
            ["v", "d", "its short axis"],
            ["L", "π · (u + v) / 2", "its length, not less"],
            ["W_ip", "π · u · (u + 3 · v) / 16", "modulus of the line, unit throat, not less"],
            ["W_op", "π · v · (3 · u + v) / 16", "likewise across"],
            ["A_m", "π · u · v / 4", "enclosed area"],
        ]
    } else {
        [
            ["u", "(h − (2 − π / 2) · r) / sinθ", "side of the weld line in the plane of tube and face normal"],
            ["v", "b − (2 − π / 2) · r", "side across it"],
            ["L", "2 · (u + v)", "length of the weld"],
            ["W_ip", "u² / 3 + u · v", "modulus of the line, unit throat"],
            ["W_op", "v² / 3 + u · v", "likewise across"],
            ["A_m", "u · v", "enclosed area"],
        ]
    };
    let values = [line.sides[0], line.sides[1], line.length, line.moduli[0], line.moduli[1], line.enclosed];
    let units = [Unit::MM, Unit::MM, Unit::MM, Unit::MM2, Unit::MM2, Unit::MM2];
    for ((row, value), unit) in rows.into_iter().zip(values).zip(units) {
        step(sink, put, row, value, unit);
    }
}

/// Forces in axes of the face.
fn on_face(weld: &Fillet, found: &Stressed, put: &mut Vec<Put<'static>>, sink: &mut impl Sink) {
    let face = &found.face;
    step(sink, put, ["N_f", "N · sinθ + V_ip · cosθ", "square to the face"], face.normal, Unit::N);
    step(sink, put, ["V_u", "N · cosθ + V_ip · sinθ", "in the face, along u"], face.shear[0], Unit::N);
    step(sink, put, ["M_f", "M_op · sinθ + T · cosθ", "bends out of the plane"], face.moments[1], Unit::NM);
    step(sink, put, ["T_f", "T · sinθ + M_op · cosθ", "about the face's normal"], face.torque, Unit::NM);
    if weld.angle < std::f64::consts::PI / 2.0 {
        sink.remark("The parts of each sum are taken to act the same way, which is on the safe side.");
    }
}

fn flows(weld: &Fillet, found: &Stressed, put: &mut Vec<Put<'static>>, sink: &mut impl Sink) {
    let [square, along] = found.flows;
    let formula = if weld.outline.is_round() {
        "N_f / L + 1000 · √((M_ip / W_ip)² + (M_f / W_op)²)"
    } else {
        "N_f / L + 1000 · M_ip / W_ip + 1000 · M_f / W_op"
    };
    step(sink, put, ["p", formula, "greatest flow square to the face"], square, Unit::N_PER_MM);
    let formula = if weld.outline.is_round() {
        "2 · √(V_u² + V_op²) / (π · d) + 1000 · T_f / (2 · A_m)"
    } else {
        "max(V_u / (2 · u), V_op / (2 · v)) + 1000 · T_f / (2 · A_m)"
    };
    step(sink, put, ["q", formula, "greatest flow along the weld"], along, Unit::N_PER_MM);
    sink.remark("Both are taken in one point of the weld, which is on the safe side.");
}

fn judged(
    weld: &Fillet,
    method: Method,
    partial: &Partial,
    found: &Stressed,
    put: &mut Vec<Put<'static>>,
    sink: &mut impl Sink,
) {
    step(sink, put, ["σ_⊥", "p / (√(2) · a)", "τ_⊥ is the same"], found.across, Unit::MPA);
    step(sink, put, ["τ_∥", "q / a", ""], found.along, Unit::MPA);
    let formula = "√(σ_⊥² + 3 · (σ_⊥² + τ_∥²))";
    step(sink, put, ["σ_w", formula, "4.5.3.2, directional method"], found.combined, Unit::MPA);
    step(sink, put, ["f_w", "f_u / (β_w · γ_M2)", "4.5.3.2(6)"], found.limits[0], Unit::MPA);
    step(sink, put, ["f_⊥", "0.9 · f_u / γ_M2", "4.5.3.2(6)"], found.limits[1], Unit::MPA);
    let strength = shear_strength(weld.ultimate, weld.correlation, partial.m2);
    step(sink, put, ["f_vw,d", "f_u / (√(3) · β_w · γ_M2)", "4.5.3.3, simplified method"], strength, Unit::MPA);
    let directional = ["U_d", "max(σ_w / f_w, σ_⊥ / f_⊥)", "directional method"];
    let simplified = ["U_s", "√(p² + q²) / (a · f_vw,d)", "simplified method"];
    step(sink, put, directional, found.used[0], Unit::ONE);
    step(sink, put, simplified, found.used[1], Unit::ONE);
    if weld.wall > 0.0 {
        let full = full_strength_throat(weld.wall, weld.yield_stress, weld.ultimate, weld.correlation, partial);
        let formula = "√(2) · β_w · max(γ_M2, 1.25) · f_y · t / (γ_M0 · f_u)";
        step(sink, put, ["a_full", formula, "throat as strong as the wall, 7.3.1(4)"], full, Unit::MM);
    }
    let (formula, value) = match method {
        Method::Directional => ("U_d", found.used[0]),
        Method::Simplified => ("U_s", found.used[1]),
    };
    step(sink, put, ["U", formula, "by the method of [welds]"], value, Unit::ONE);
}
