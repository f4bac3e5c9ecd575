//! Joints on a square or rectangular chord: Tables 7.10 to 7.12.

use super::super::check::{Borne, Computed};
use super::super::rectangular::{
    FACE_ALONE, HALF, HEAVY, effective_width, side_wall_slenderness, stress_factor, width_ratio,
};
use super::super::{Kind, Mode, buckling_phi, grade_factor};
use super::{Book, Tag};
use crate::calculation::{Sink, Unit};

/// Ratios of the brace alone, which every way and the moments use.
pub(super) fn common<S: Sink>(done: &Computed<'_>, book: &mut Book<'_, S>) {
    let (chord, brace) = (&done.chord, &done.brace);
    let (b0, b1) = (chord.outline.width(), brace.outline.width());
    let beta = width_ratio(b1, b0);
    book.step("β_1", "min(b_1 / b_0, 1)", beta, Unit::ONE, "");
    book.step("γ", "b_0 / (2 · t_0)", b0 / (2.0 * chord.wall), Unit::ONE, "");
    book.step("η", "h_1 / b_0", brace.outline.depth() / b0, Unit::ONE, "");
    let k = stress_factor(chord.stress_ratio, beta);
    book.step("k_1", "max(min(1.3 − 0.4 · n / β_1, 1), 0)", k, Unit::ONE, "chord stress factor k_n for β_1");
    let asked = |way: &Borne| !matches!(way.kind, Kind::Overlap { .. }) && way.axial.b_eff > 0.0;
    if beta > FACE_ALONE || done.ways.iter().any(asked) {
        let b_eff = effective_width([b0, chord.wall, chord.yield_stress], [b1, brace.wall, brace.yield_stress]);
        book.step("b_eff", "min(10 · t_0 / b_0 · f_y0 · t_0 / (f_y1 · t_1) · b_1, b_1)", b_eff, Unit::MM, "");
    }
    let grade = grade_factor(chord, brace);
    if brace.outline.is_round() {
        let note = "π/4 for a round brace on a flat face; 0.9 above 355 MPa, 0.8 above 460 MPa";
        book.step("φ", &format!("π / 4 · {grade}"), std::f64::consts::FRAC_PI_4 * grade, Unit::ONE, note);
    } else {
        book.given("φ", grade, Unit::ONE, "for yield strength: 0.9 above 355 MPa, 0.8 above 460 MPa");
    }
}

/// One way in which the force is balanced.
pub(super) fn way<S: Sink>(done: &Computed<'_>, way: &Borne, tag: &Tag, book: &mut Book<'_, S>) {
    match way.kind {
        Kind::Y | Kind::X => one_brace(done, way, tag, book),
        Kind::Gap { gap, .. } => in_gap(done, way, gap, tag, book),
        Kind::Overlap { share, on_top, .. } => overlap(way, share, on_top, tag, book),
    }
    super::sum::resistance(way, tag, book);
}

fn one_brace<S: Sink>(done: &Computed<'_>, way: &Borne, tag: &Tag, book: &mut Book<'_, S>) {
    let axial = &way.axial;
    if axial.beta > FACE_ALONE {
        side_walls(done, way, tag, book);
    }
    if axial.b_second > 0.0 {
        book.step("b_e,p", "min(10 · t_0 / b_0 · b_1, b_1)", axial.b_second, Unit::MM, "");
    }
    modes(way, tag, book, |mode| match mode {
        Mode::ChordFace => "φ · k_1 · f_y0 · t_0² / ((1 − β_1) · sinθ) · (2 · η / sinθ + 4 · √(1 − β_1))",
        Mode::SideWall => "φ · (N_0.85 + (β_1 − 0.85) / 0.15 · (N_1.00,# − N_0.85))",
        Mode::Brace => "φ · f_y1 · t_1 · (2 · h_1 − 4 · t_1 + 2 · b_eff)",
        _ => "φ · f_y0 · t_0 / (√(3) · sinθ) · (2 · h_1 / sinθ + 2 · b_e,p)",
    });
}

/// The two ends of the interpolation between face and side walls.
fn side_walls<S: Sink>(done: &Computed<'_>, way: &Borne, tag: &Tag, book: &mut Book<'_, S>) {
    let chord = &done.chord;
    let [chi, strength, face, side] = way.axial.side;
    let f_b = tag.fill("f_b,#");
    if done.brace.compressed {
        let slenderness = side_wall_slenderness(chord, chord.outline.depth(), &done.brace);
        book.given("E", chord.youngs, Unit::MPA, "of the chord");
        book.given("α", chord.imperfection, Unit::ONE, "imperfection factor of the side walls' buckling curve");
        let formula = "3.46 · max(h_0 / t_0 − 2, 0) · √(1 / sinθ) / (π · √(E / f_y0))";
        book.step("λ̄", formula, slenderness, Unit::ONE, "of the side walls");
        let phi = buckling_phi(slenderness, chord.imperfection);
        book.step("Φ", "0.5 · (1 + α · (λ̄ − 0.2) + λ̄²)", phi, Unit::ONE, "");
        book.step("χ", "min(1 / (Φ + √(Φ² − λ̄²)), 1)", chi, Unit::ONE, "");
        let formula = if matches!(way.kind, Kind::X) { "0.8 · χ · f_y0 · sinθ" } else { "χ · f_y0" };
        book.step(&f_b, formula, strength, Unit::MPA, "strength of the side walls");
    } else {
        book.step(&f_b, "f_y0", strength, Unit::MPA, "strength of the side walls, brace in tension");
    }
    let (at_face, at_side) = (stress_factor(chord.stress_ratio, FACE_ALONE), stress_factor(chord.stress_ratio, 1.0));
    book.step("k_0.85", "max(min(1.3 − 0.4 · n / 0.85, 1), 0)", at_face, Unit::ONE, "chord stress factor at β = 0.85");
    book.step("k_1.00", "max(min(1.3 − 0.4 · n, 1), 0)", at_side, Unit::ONE, "chord stress factor at β = 1");
    let formula = "k_0.85 · f_y0 · t_0² / (0.15 · sinθ) · (2 · η / sinθ + 4 · √(0.15))";
    book.step("N_0.85", formula, face, Unit::N, "chord face at β = 0.85");
    let walls = tag.fill("k_1.00 · f_b,# · t_0 / sinθ · (2 · h_1 / sinθ + 10 · t_0)");
    let symbol = tag.fill("N_1.00,#");
    if way.axial.shear_area > 0.0 {
        book.step("A_v", "2 · h_0 · t_0", way.axial.shear_area, Unit::MM2, "shear area of the chord's side walls");
        let formula = format!("min({walls}, f_y0 · A_v / (√(3) · sinθ))");
        book.step(&symbol, &formula, side, Unit::N, "side walls at β = 1, or chord shear");
    } else {
        book.step(&symbol, &walls, side, Unit::N, "side walls at β = 1");
    }
}

fn in_gap<S: Sink>(done: &Computed<'_>, way: &Borne, gap: f64, tag: &Tag, book: &mut Book<'_, S>) {
    let axial = &way.axial;
    mean_width(way, tag, book);
    book.given(&tag.fill("g_@"), gap, Unit::MM, "gap between the toes; below 0 where they overlap");
    if axial.shear_area > 0.0 {
        let formula = if done.brace.outline.is_round() {
            "2 · h_0 · t_0".to_owned()
        } else {
            tag.fill("(2 · h_0 + √(1 / (1 + 4 · max(g_@, 0)² / (3 · t_0²))) · b_0) · t_0")
        };
        book.step(&tag.fill("A_v,#"), &formula, axial.shear_area, Unit::MM2, "shear area of the chord");
    }
    if axial.b_second > 0.0 {
        book.step("b_e,p", "min(10 · t_0 / b_0 · b_1, b_1)", axial.b_second, Unit::MM, "");
    }
    modes(way, tag, book, |mode| match mode {
        Mode::ChordFace => "φ · 8.9 · k_# · f_y0 · t_0² · √(γ) / sinθ · β_#",
        Mode::ChordShear => "φ · f_y0 · A_v,# / (√(3) · sinθ)",
        Mode::Brace => "φ · f_y1 · t_1 · (2 · h_1 − 4 · t_1 + b_1 + b_eff)",
        _ => "φ · f_y0 · t_0 / (√(3) · sinθ) · (2 · h_1 / sinθ + b_1 + b_e,p)",
    });
}

fn overlap<S: Sink>(way: &Borne, share: f64, on_top: bool, tag: &Tag, book: &mut Book<'_, S>) {
    let which = if on_top { "this brace is on top" } else { "the other brace is on top" };
    book.given(&tag.fill("λ_@"), share, Unit::ONE, &format!("overlap over the footprint of the upper brace; {which}"));
    // The upper brace, and the lower one that runs through to the chord.
    let other = tag.number.to_string();
    let (upper, lower) = if on_top { ("1", &*other) } else { (&*other, "1") };
    let named = |formula: &str| tag.fill(&formula.replace('%', upper).replace('&', lower));
    let formula = named("min(10 · t_0 / b_0 · f_y0 · t_0 / (f_y% · t_%) · b_%, b_%)");
    book.step(&tag.fill("b_eff,#"), &formula, way.axial.b_eff, Unit::MM, "of the upper brace on the chord");
    let formula = named("min(10 · t_& / b_& · f_y& · t_& / (f_y% · t_%) · b_%, b_%)");
    book.step(&tag.fill("b_e,ov,#"), &formula, way.axial.b_second, Unit::MM, "of the upper brace on the lower");
    let across = if share < HEAVY { "b_eff,#" } else { "b_%" };
    let along = if share < HALF { "2 · h_% · λ_@ / 0.5" } else { "2 · h_%" };
    let top = format!("φ · f_y% · t_% · max({across} + b_e,ov,# + {along} − 4 · t_%, 0)");
    let formula = named(&if on_top { top } else { format!("{top} / (A_% · f_y%) · A_1 · f_y1") });
    modes(way, tag, book, |_| &formula);
}

/// β and k of a K or N joint.
fn mean_width<S: Sink>(way: &Borne, tag: &Tag, book: &mut Book<'_, S>) {
    let formula = tag.fill("(b_1 + b_@ + h_1 + h_@) / (4 · b_0)");
    book.step(&tag.fill("β_#"), &formula, way.axial.beta, Unit::ONE, "mean of both braces");
    let formula = tag.fill("max(min(1.3 − 0.4 · n / β_#, 1), 0)");
    book.step(&tag.fill("k_#"), &formula, way.axial.k, Unit::ONE, "chord stress factor k_n");
}

/// A line for each mode that arises.
fn modes<'f, S: Sink>(way: &Borne, tag: &Tag, book: &mut Book<'_, S>, formula: impl Fn(Mode) -> &'f str) {
    for (mode, value) in Mode::ALL.into_iter().zip(way.axial.modes) {
        if let Some(value) = value {
            book.step(&super::sum::symbol(mode, tag), &tag.fill(formula(mode)), value, Unit::N, mode.word());
        }
    }
}
