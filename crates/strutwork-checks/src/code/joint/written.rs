//! The check of one brace of a joint: computed, and written out.

use super::{Axial, Bending, Brace, Chord, Kind, Mode, Outline, axial, bending, outside, utilisation};
use crate::calculation::{Put, Sink, Unit};
use crate::code::Verdict;

/// Where the formulas come from, as a page prints it.
pub const SOURCE: &str = "EN 1993-1-8:2005 section 7: Table 7.10 and the notes of Table 7.11 (a copy was read); Tables 7.1 to 7.3, 7.5, \
                          7.8, 7.11, 7.12, 7.14 and 7.1.1 (from memory)";

/// What the brace brings to the joint, margin included.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Acting {
    /// Magnitude of the axial force, N, ≥ 0; its sense stands in [`Brace::compressed`].
    pub force: f64,
    /// Moments in the plane of chord and brace and out of it, N·m.
    pub moments: [f64; 2],
}

/// The brace's force and moments against the resistance of the joint.
///
/// `ways` are the ways in which the force is balanced, each with its share ([`super::shares`]); shares add up to 1. Moments are held
/// against the resistance of a T joint, or of an X joint where that has the greatest share.
///
/// # Units and shapes
/// SI; `gamma` is γ_M5.
///
/// # Source
/// As [`axial`], [`bending`] and [`utilisation`].
pub fn check(
    chord: &Chord,
    brace: &Brace,
    ways: &[(f64, Kind)],
    acting: Acting,
    gamma: f64,
    sink: &mut impl Sink,
) -> Verdict {
    let found = ways.iter().map(|&(share, kind)| (share, kind, axial(chord, brace, kind)));
    let resisted = found.clone().map(|(share, _, axial)| (share, axial.governing().1 / gamma));
    let mut pairs = [(0.0, 1.0); 4];
    let used = pairs.iter_mut().zip(resisted).map(|(place, pair)| *place = pair).count();
    let (greatest, main) = found.clone().map(|(share, kind, _)| (share, kind)).fold(
        (0.0, Kind::Y),
        |best, way| if way.0 > best.0 { way } else { best },
    );
    let cross = greatest > 0.0 && matches!(main, Kind::X);
    let as_t = axial(chord, brace, if cross { Kind::X } else { Kind::Y });
    let bent = bending(chord, brace, &as_t, cross);
    let reduced = bent.over(gamma);
    let value = utilisation(acting.force, &pairs[..used], acting.moments, &reduced, chord.outline.is_round());
    if sink.writes() {
        given(chord, brace, acting, gamma, sink);
        for (share, kind, axial) in found {
            let word = kind.word(brace.angle);
            sink.given("share", share, Unit::ONE, &format!("of the force balanced as in a {word} joint"));
            write_axial(chord, brace, kind, &axial, gamma, sink);
            for why in outside(chord, brace, kind, None) {
                sink.outside(&why);
            }
        }
        write_bending(chord, brace, &bent, gamma, cross, sink);
        write_sum(chord, acting, &pairs[..used], &reduced, value, sink);
    }
    let clause = match main {
        Kind::Y => "EN 1993-1-8 7.4, 7.5: T and Y joints",
        Kind::X => "EN 1993-1-8 7.4, 7.5: X joints",
        Kind::Gap { .. } => "EN 1993-1-8 7.4, 7.5: K and N joints with a gap",
        Kind::Overlap { .. } => "EN 1993-1-8 7.4, 7.5: K and N joints with overlap",
    };
    Verdict::of(value, clause)
}

fn given(chord: &Chord, brace: &Brace, acting: Acting, gamma: f64, sink: &mut impl Sink) {
    let names = if chord.outline.is_round() { ["d_0", ""] } else { ["h_0", "b_0"] };
    sink.given(names[0], chord.outline.depth(), Unit::MM, "chord, in the plane");
    if !chord.outline.is_round() {
        sink.given(names[1], chord.outline.width(), Unit::MM, "chord, across the plane");
    }
    sink.given("t_0", chord.wall, Unit::MM, "wall of the chord");
    sink.given("f_y0", chord.yield_stress, Unit::MPA, "yield strength of the chord");
    sink.given("n", chord.stress_ratio, Unit::ONE, "greatest compression in the chord over f_y0, margin included");
    if brace.outline.is_round() {
        sink.given("d_1", brace.outline.width(), Unit::MM, "brace");
    } else {
        sink.given("h_1", brace.outline.depth(), Unit::MM, "brace, in the plane");
        sink.given("b_1", brace.outline.width(), Unit::MM, "brace, across the plane");
    }
    sink.given("t_1", brace.wall, Unit::MM, "wall of the brace");
    sink.given("f_y1", brace.yield_stress, Unit::MPA, "yield strength of the brace");
    sink.given("A_1", brace.area, Unit::MM2, "area of the brace");
    sink.given("θ_1", brace.angle, Unit::DEG, "between brace and chord");
    sink.given("sinθ", brace.angle.sin(), Unit::ONE, "its sine");
    let sense = if brace.compressed { "compression" } else { "tension" };
    sink.given("N_1,Ed", acting.force, Unit::N, &format!("axial force of the brace, {sense}, margin included"));
    sink.given("M_ip,Ed", acting.moments[0].abs(), Unit::NM, "moment in the plane, margin included");
    sink.given("M_op,Ed", acting.moments[1].abs(), Unit::NM, "moment out of the plane, margin included");
    sink.given("γ_M5", gamma, Unit::ONE, "partial factor");
}

/// Every symbol that a formula of this page may hold.
fn book<'a>(chord: &Chord, brace: &Brace, axial: &Axial, gamma: f64) -> Vec<Put<'a>> {
    let mut book = vec![
        ("h_0", chord.outline.depth(), Unit::MM),
        ("b_0", chord.outline.width(), Unit::MM),
        ("d_0", chord.outline.width(), Unit::MM),
        ("t_0", chord.wall, Unit::MM),
        ("f_y0", chord.yield_stress, Unit::MPA),
        ("n", chord.stress_ratio, Unit::ONE),
        ("h_1", brace.outline.depth(), Unit::MM),
        ("b_1", brace.outline.width(), Unit::MM),
        ("d_1", brace.outline.width(), Unit::MM),
        ("t_1", brace.wall, Unit::MM),
        ("f_y1", brace.yield_stress, Unit::MPA),
        ("A_1", brace.area, Unit::MM2),
        ("sinθ", brace.angle.sin(), Unit::ONE),
        ("β", axial.beta, Unit::ONE),
        ("γ", axial.gamma, Unit::ONE),
        ("η", axial.eta, Unit::ONE),
        ("k", axial.k, Unit::ONE),
        ("k_g", axial.k_g, Unit::ONE),
        ("b_eff", axial.b_eff, Unit::MM),
        ("b_e,p", axial.b_second, Unit::MM),
        ("b_e,ov", axial.b_second, Unit::MM),
        ("χ", axial.side[0], Unit::ONE),
        ("f_b", axial.side[1], Unit::MPA),
        ("N_0.85", axial.side[2], Unit::N),
        ("N_1.00", axial.side[3], Unit::N),
        ("A_v", axial.shear_area, Unit::MM2),
        ("φ", axial.factor, Unit::ONE),
        ("γ_M5", gamma, Unit::ONE),
        ("π", std::f64::consts::PI, Unit::ONE),
        ("e", std::f64::consts::E, Unit::ONE),
        ("W_ip", brace.plastic[0], Unit::MM3),
        ("W_op", brace.plastic[1], Unit::MM3),
    ];
    // So that the shortest name does not depend on which table a formula comes from.
    book.sort_by(|a, b| a.0.cmp(b.0));
    book
}

fn write_axial(chord: &Chord, brace: &Brace, kind: Kind, axial: &Axial, gamma: f64, sink: &mut impl Sink) {
    let mut put = book(chord, brace, axial, gamma);
    if let Kind::Gap { partner, .. } | Kind::Overlap { partner, .. } = kind {
        sink.given("h_2", partner.outline.depth(), Unit::MM, "the other brace, in the plane");
        sink.given("b_2", partner.outline.width(), Unit::MM, "the other brace, across the plane");
        sink.given("t_2", partner.wall, Unit::MM, "its wall");
        sink.given("f_y2", partner.yield_stress, Unit::MPA, "its yield strength");
        sink.given("A_2", partner.area, Unit::MM2, "its area");
        put.extend([
            ("h_2", partner.outline.depth(), Unit::MM),
            ("b_2", partner.outline.width(), Unit::MM),
            ("t_2", partner.wall, Unit::MM),
            ("f_y2", partner.yield_stress, Unit::MPA),
            ("A_2", partner.area, Unit::MM2),
        ]);
    }
    match kind {
        Kind::Gap { gap, .. } => {
            sink.given("g", gap, Unit::MM, "gap between the toes");
            put.push(("g", gap, Unit::MM));
        }
        Kind::Overlap { share, on_top, .. } => {
            let which = if on_top { "this brace is on top" } else { "the other brace is on top" };
            sink.given("λ", share, Unit::ONE, &format!("overlap over the footprint of the upper brace; {which}"));
            put.push(("λ", share, Unit::ONE));
        }
        Kind::Y | Kind::X => {}
    }
    let round = chord.outline.is_round();
    parameters(chord, brace, kind, axial, &put, sink);
    if axial.factor < 1.0 {
        sink.given("φ", axial.factor, Unit::ONE, "π/4 for a round brace on a flat face; 0.9 above 355 MPa, 0.8 above 460 MPa");
    }
    let factor = if axial.factor < 1.0 { "φ · " } else { "" };
    for (mode, value) in Mode::ALL.into_iter().zip(axial.modes) {
        let Some(value) = value else { continue };
        let formula = if round { on_round(mode, brace, kind) } else { on_flat(mode, kind) };
        sink.step("N_Rk", &format!("{factor}{formula}"), &put, value, Unit::N, mode.word());
    }
    let (mode, least) = axial.governing();
    put.push(("N_Rk", least, Unit::N));
    sink.step("N_1,Rd", "N_Rk / γ_M5", &put, least / gamma, Unit::N, mode.word());
    put.push(("N_1,Rd", least / gamma, Unit::N));
    sink.step(
        "efficiency",
        "N_1,Rd / (A_1 · f_y1)",
        &put,
        least / gamma / brace.squash(),
        Unit::ONE,
        "of the brace's own strength",
    );
}

fn parameters(chord: &Chord, brace: &Brace, kind: Kind, axial: &Axial, put: &[Put<'_>], sink: &mut impl Sink) {
    let round = chord.outline.is_round();
    let partnered = matches!(kind, Kind::Gap { .. } | Kind::Overlap { .. });
    let beta = match (round, partnered) {
        (true, _) => "min(b_1 / d_0, 1)",
        (false, true) => "(b_1 + b_2 + h_1 + h_2) / (4 · b_0)",
        (false, false) => "min(b_1 / b_0, 1)",
    };
    sink.step("β", beta, put, axial.beta, Unit::ONE, "a round brace counts with d for b and h");
    sink.step("γ", if round { "d_0 / (2 · t_0)" } else { "b_0 / (2 · t_0)" }, put, axial.gamma, Unit::ONE, "");
    sink.step("η", if round { "h_1 / d_0" } else { "h_1 / b_0" }, put, axial.eta, Unit::ONE, "");
    if chord.stress_ratio <= 0.0 {
        sink.given("k", axial.k, Unit::ONE, "chord stress factor: no compression");
    } else if round {
        sink.step("k", "max(1 − 0.3 · n · (1 + n), 0)", put, axial.k, Unit::ONE, "chord stress factor k_p");
    } else {
        sink.step("k", "max(min(1.3 − 0.4 · n / β, 1), 0)", put, axial.k, Unit::ONE, "chord stress factor k_n");
    }
    if round && partnered && brace.outline.is_round() {
        let formula = if matches!(kind, Kind::Gap { .. }) {
            "γ^0.2 · (1 + 0.024 · γ^1.2 / (1 + e^(0.5 · g / t_0 − 1.33)))"
        } else {
            "γ^0.2 · (1 + 0.024 · γ^1.2 / (1 + e^(−0.5 · q / t_0 − 1.33)))"
        };
        let mut put = put.to_vec();
        if let Kind::Overlap { partner, share, on_top, .. } = kind {
            let q = super::round::overlap_length(brace, &partner, share, on_top);
            sink.given("q", q, Unit::MM, "length of the overlap along the chord");
            put.push(("q", q, Unit::MM));
        }
        sink.step("k_g", formula, &put, axial.k_g, Unit::ONE, "gap factor");
    }
    if round {
        return;
    }
    let overlapped = matches!(kind, Kind::Overlap { .. });
    let (i, j) = top_and_under(kind);
    if axial.b_eff > 0.0 {
        let formula = format!("min(10 · t_0 / b_0 · f_y0 · t_0 / (f_y{i} · t_{i}) · b_{i}, b_{i})");
        sink.step("b_eff", &formula, put, axial.b_eff, Unit::MM, "");
    }
    if axial.b_second > 0.0 && overlapped {
        let formula = format!("min(10 · t_{j} / b_{j} · f_y{j} · t_{j} / (f_y{i} · t_{i}) · b_{i}, b_{i})");
        sink.step("b_e,ov", &formula, put, axial.b_second, Unit::MM, "");
    } else if axial.b_second > 0.0 {
        sink.step("b_e,p", "min(10 · t_0 / b_0 · b_1, b_1)", put, axial.b_second, Unit::MM, "");
    }
    if axial.shear_area > 0.0 && partnered {
        let formula = if brace.outline.is_round() {
            "2 · h_0 · t_0"
        } else {
            "(2 · h_0 + √(1 / (1 + 4 · max(g, 0)² / (3 · t_0²))) · b_0) · t_0"
        };
        sink.step("A_v", formula, put, axial.shear_area, Unit::MM2, "shear area of the chord");
    }
    if axial.side[3] > 0.0 || axial.beta > super::rectangular::FACE_ALONE && !partnered {
        side_walls(chord, brace, kind, axial, put, sink);
    }
}

/// The two ends of the interpolation between face and side walls.
fn side_walls(chord: &Chord, brace: &Brace, kind: Kind, axial: &Axial, put: &[Put<'_>], sink: &mut impl Sink) {
    let cross = matches!(kind, Kind::X);
    let [chi, strength, face, side] = axial.side;
    let mut put = put.to_vec();
    if brace.compressed {
        let slenderness = super::rectangular::side_wall_slenderness(chord, chord.outline.depth(), brace);
        put.extend([("E", chord.youngs, Unit::MPA), ("λ̄", slenderness, Unit::ONE), ("α", chord.imperfection, Unit::ONE)]);
        sink.given("E", chord.youngs, Unit::MPA, "of the chord");
        sink.given("α", chord.imperfection, Unit::ONE, "imperfection factor of the side walls' buckling curve");
        let formula = "3.46 · max(h_0 / t_0 − 2, 0) · √(1 / sinθ) / (π · √(E / f_y0))";
        sink.step("λ̄", formula, &put, slenderness, Unit::ONE, "of the side walls");
        let phi = 0.5 * (1.0 + chord.imperfection * (slenderness - 0.2) + slenderness * slenderness);
        put.push(("Φ", phi, Unit::ONE));
        sink.step("Φ", "0.5 · (1 + α · (λ̄ − 0.2) + λ̄²)", &put, phi, Unit::ONE, "");
        sink.step("χ", "min(1 / (Φ + √(Φ² − λ̄²)), 1)", &put, chi, Unit::ONE, "");
        let formula = if cross { "0.8 · χ · f_y0 · sinθ" } else { "χ · f_y0" };
        sink.step("f_b", formula, &put, strength, Unit::MPA, "strength of the side walls");
    } else {
        sink.step("f_b", "f_y0", &put, strength, Unit::MPA, "strength of the side walls, brace in tension");
    }
    let limit = super::rectangular::FACE_ALONE;
    let k_face = super::rectangular::stress_factor(chord.stress_ratio, limit);
    let k_side = super::rectangular::stress_factor(chord.stress_ratio, 1.0);
    sink.given("k_0.85", k_face, Unit::ONE, "chord stress factor at β = 0.85");
    sink.given("k_1.00", k_side, Unit::ONE, "chord stress factor at β = 1");
    put.extend([("k_0.85", k_face, Unit::ONE), ("k_1.00", k_side, Unit::ONE)]);
    let formula = "k_0.85 · f_y0 · t_0² / (0.15 · sinθ) · (2 · η / sinθ + 4 · √(0.15))";
    sink.step("N_0.85", formula, &put, face, Unit::N, "chord face at β = 0.85");
    let walls = "k_1.00 · f_b · t_0 / sinθ · (2 · h_1 / sinθ + 10 · t_0)";
    if axial.shear_area > 0.0 {
        sink.step("A_v", "2 · h_0 · t_0", &put, axial.shear_area, Unit::MM2, "shear area of the chord");
        let formula = format!("min({walls}, f_y0 · A_v / (√(3) · sinθ))");
        sink.step("N_1.00", &formula, &put, side, Unit::N, "side walls at β = 1, or chord shear");
    } else {
        sink.step("N_1.00", walls, &put, side, Unit::N, "side walls at β = 1");
    }
}

/// Numbers of the overlapping and the overlapped brace in the symbols: 1 is the brace that is judged.
fn top_and_under(kind: Kind) -> (u8, u8) {
    if matches!(kind, Kind::Overlap { on_top: false, .. }) { (2, 1) } else { (1, 2) }
}

fn on_flat(mode: Mode, kind: Kind) -> String {
    let partnered = matches!(kind, Kind::Gap { .. });
    match mode {
        Mode::ChordFace if partnered => "8.9 · k · f_y0 · t_0² · √(γ) / sinθ · β".to_owned(),
        Mode::ChordFace => "k · f_y0 · t_0² / ((1 − β) · sinθ) · (2 · η / sinθ + 4 · √(1 − β))".to_owned(),
        Mode::SideWall => "(N_0.85 + (β − 0.85) / 0.15 · (N_1.00 − N_0.85))".to_owned(),
        Mode::Brace => match kind {
            Kind::Gap { .. } => "f_y1 · t_1 · (2 · h_1 − 4 · t_1 + b_1 + b_eff)".to_owned(),
            Kind::Overlap { share, on_top, .. } => {
                let (i, _) = top_and_under(kind);
                let width = if share >= 0.8 { format!("b_{i}") } else { "b_eff".to_owned() };
                let scale = if share < 0.5 { "λ / 0.5 · " } else { "" };
                let top = format!("f_y{i} · t_{i} · ({width} + b_e,ov + {scale}(2 · h_{i} − 4 · t_{i}))");
                if on_top { top } else { format!("{top} / (A_2 · f_y2) · A_1 · f_y1") }
            }
            Kind::Y | Kind::X => "f_y1 · t_1 · (2 · h_1 − 4 · t_1 + 2 · b_eff)".to_owned(),
        },
        Mode::Punching if partnered => "f_y0 · t_0 / (√(3) · sinθ) · (2 · h_1 / sinθ + b_1 + b_e,p)".to_owned(),
        Mode::Punching => "f_y0 · t_0 / (√(3) · sinθ) · (2 · h_1 / sinθ + 2 · b_e,p)".to_owned(),
        Mode::ChordShear => "f_y0 · A_v / (√(3) · sinθ)".to_owned(),
    }
}

fn on_round(mode: Mode, brace: &Brace, kind: Kind) -> String {
    let flat = !brace.outline.is_round();
    match (mode, kind) {
        (Mode::Punching, _) if flat => "f_y0 · t_0 / √(3) · A_1 / t_1".to_owned(),
        (Mode::Punching, _) => "f_y0 · t_0 / √(3) · π · d_1 · (1 + sinθ) / (2 · sinθ²)".to_owned(),
        (_, Kind::X) if flat => "5 · k · f_y0 · t_0² / (1 − 0.81 · β) · (1 + 0.25 · η)".to_owned(),
        _ if flat => "k · f_y0 · t_0² · (4 + 20 · β²) · (1 + 0.25 · η)".to_owned(),
        (_, Kind::Y) => "γ^0.2 · k · f_y0 · t_0² / sinθ · (2.8 + 14.2 · β²)".to_owned(),
        (_, Kind::X) => "k · f_y0 · t_0² / sinθ · 5.2 / (1 − 0.81 · β)".to_owned(),
        (_, Kind::Gap { partner, .. } | Kind::Overlap { partner, .. }) => {
            let first = if partner.compressed && !brace.compressed { "b_2" } else { "b_1" };
            format!("k_g · k · f_y0 · t_0² / sinθ · (1.8 + 10.2 · min({first} / d_0, 1))")
        }
    }
}

fn write_bending(chord: &Chord, brace: &Brace, bent: &Bending, gamma: f64, cross: bool, sink: &mut impl Sink) {
    let as_t = axial(chord, brace, if cross { Kind::X } else { Kind::Y });
    let mut put = book(chord, brace, &as_t, gamma);
    sink.given("W_ip", brace.plastic[0], Unit::MM3, "plastic modulus of the brace in the plane");
    sink.given("W_op", brace.plastic[1], Unit::MM3, "and out of it");
    let flat_chord = !chord.outline.is_round();
    let beta = if flat_chord { (brace.outline.width() / chord.outline.width()).min(1.0) } else { as_t.beta };
    put.retain(|(symbol, ..)| *symbol != "β" && *symbol != "b_eff" && *symbol != "k");
    let k = if flat_chord {
        super::rectangular::stress_factor(chord.stress_ratio, beta)
    } else {
        as_t.k
    };
    let b_eff = super::rectangular::effective_width(
        [chord.outline.width(), chord.wall, chord.yield_stress],
        [brace.outline.width(), brace.wall, brace.yield_stress],
    );
    let f_yk = if cross { 0.8 * chord.yield_stress } else { chord.yield_stress };
    let force = as_t.governing().1;
    put.extend([
        ("β", beta, Unit::ONE),
        ("k", k, Unit::ONE),
        ("b_eff", b_eff, Unit::MM),
        ("f_yk", f_yk, Unit::MPA),
        ("N_T", force, Unit::N),
    ]);
    let letter = if cross { "X" } else { "T" };
    sink.remark(&format!("Moments against the resistance of a {letter} joint:"));
    sink.given("β", beta, Unit::ONE, "of this brace alone");
    if flat_chord && beta > super::rectangular::FACE_ALONE {
        sink.given("b_eff", b_eff, Unit::MM, "of this brace on the chord");
        sink.given("f_yk", f_yk, Unit::MPA, "f_y0, of X joints 0.8 f_y0");
    } else if !flat_chord && !brace.outline.is_round() {
        sink.given("N_T", force, Unit::N, &format!("least resistance of a {letter} joint to axial force"));
    } else {
        sink.given("k", k, Unit::ONE, "chord stress factor at this β");
    }
    let factor = if as_t.factor < 1.0 && (flat_chord || brace.outline.is_round()) { "φ · " } else { "" };
    for (symbol, modes, table) in
        [("M_ip,Rk", bent.in_plane, IN_PLANE), ("M_op,Rk", bent.out_of_plane, OUT_OF_PLANE)]
    {
        for (mode, value) in Mode::ALL.into_iter().zip(modes) {
            let Some(value) = value else { continue };
            let formula = table(mode, chord.outline, brace.outline);
            let note = if mode == Mode::ChordShear { "distortion of the chord's section" } else { mode.word() };
            sink.step(symbol, &format!("{factor}{formula} / 1000"), &put, value, Unit::NM, note);
        }
    }
    for ((symbol, short), (mode, value)) in
        [("M_ip,Rd", "M_ip,Rk"), ("M_op,Rd", "M_op,Rk")].into_iter().zip(bent.governing())
    {
        let put = [(short, value, Unit::NM), ("γ_M5", gamma, Unit::ONE)];
        sink.step(symbol, &format!("{short} / γ_M5"), &put, value / gamma, Unit::NM, mode.word());
    }
}

type Formula = fn(Mode, Outline, Outline) -> &'static str;

const IN_PLANE: Formula = |mode, chord, brace| match (chord, brace, mode) {
    (Outline::Round { .. }, Outline::Rectangular { .. }, _) => "N_T · h_1",
    (Outline::Round { .. }, _, Mode::Punching) => "f_y0 · t_0 · d_1² / √(3) · (1 + 3 · sinθ) / (4 · sinθ²)",
    (Outline::Round { .. }, ..) => "4.85 · f_y0 · t_0² · d_1 / sinθ · √(γ) · β · k",
    (.., Mode::ChordFace) => "k · f_y0 · t_0² · h_1 · (1 / (2 · η) + 2 / √(1 − β) + η / (1 − β))",
    (.., Mode::SideWall) => "0.5 · f_yk · t_0 · (h_1 + 5 · t_0)²",
    _ => "f_y1 · max(W_ip − (1 − b_eff / b_1) · b_1 · (h_1 − t_1) · t_1, 0)",
};

const OUT_OF_PLANE: Formula = |mode, chord, brace| match (chord, brace, mode) {
    (Outline::Round { .. }, Outline::Rectangular { .. }, _) => "N_T · 0.5 · b_1",
    (Outline::Round { .. }, _, Mode::Punching) => "f_y0 · t_0 · d_1² / √(3) · (3 + sinθ) / (4 · sinθ²)",
    (Outline::Round { .. }, ..) => "f_y0 · t_0² · d_1 / sinθ · 2.7 / (1 − 0.81 · β) · k",
    (.., Mode::ChordFace) => {
        "k · f_y0 · t_0² · (h_1 · (1 + β) / (2 · (1 − β)) + √(2 · b_0 · b_1 · (1 + β) / (1 − β)))"
    }
    (.., Mode::SideWall) => "f_yk · t_0 · (b_0 − t_0) · (h_1 + 5 · t_0)",
    (.., Mode::ChordShear) => "2 · f_y0 · t_0 · (h_1 · t_0 + √(b_0 · h_0 · t_0 · (b_0 + h_0)))",
    _ => "f_y1 · max(W_op − 0.5 · (1 − b_eff / b_1)² · b_1² · t_1, 0)",
};

fn write_sum(
    chord: &Chord,
    acting: Acting,
    ways: &[(f64, f64)],
    bent: &Bending,
    value: f64,
    sink: &mut impl Sink,
) {
    let symbols = ["s_1", "s_2", "s_3", "s_4"].into_iter().zip(["N_1", "N_2", "N_3", "N_4"]);
    let mut put = vec![("N_1,Ed", acting.force, Unit::N)];
    let mut terms = Vec::new();
    for ((share, resistance), &way) in symbols.zip(ways) {
        put.extend([(share, way.0, Unit::ONE), (resistance, way.1, Unit::N)]);
        terms.push(format!("{share} · N_1,Ed / {resistance}"));
    }
    let [in_plane, out_of_plane] = bent.governing().map(|(_, value)| value);
    put.extend([
        ("M_ip,Ed", acting.moments[0].abs(), Unit::NM),
        ("M_ip,Rd", in_plane, Unit::NM),
        ("M_op,Ed", acting.moments[1].abs(), Unit::NM),
        ("M_op,Rd", out_of_plane, Unit::NM),
    ]);
    let bend = if chord.outline.is_round() { "(M_ip,Ed / M_ip,Rd)²" } else { "M_ip,Ed / M_ip,Rd" };
    let formula = format!("{} + {bend} + M_op,Ed / M_op,Rd", terms.join(" + "));
    sink.step("U", &formula, &put, value, Unit::ONE, "s and N: share and resistance of each way, in the order above");
}
