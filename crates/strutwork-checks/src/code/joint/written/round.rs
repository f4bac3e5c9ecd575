//! Joints on a round chord: Tables 7.2 and 7.3.

use super::super::check::{Borne, Computed};
use super::super::round::{overlap_length, stress_factor};
use super::super::{Kind, Mode, grade_factor};
use super::{Book, Tag};
use crate::calculation::{Sink, Unit};

/// Ratios of the brace alone, which every way and the moments use.
pub(super) fn common<S: Sink>(done: &Computed<'_>, book: &mut Book<'_, S>) {
    let (chord, brace) = (&done.chord, &done.brace);
    let d0 = chord.outline.width();
    book.step("β_1", "min(b_1 / d_0, 1)", (brace.outline.width() / d0).min(1.0), Unit::ONE, "");
    book.step("γ", "d_0 / (2 · t_0)", d0 / (2.0 * chord.wall), Unit::ONE, "");
    book.step("η", "h_1 / d_0", brace.outline.depth() / d0, Unit::ONE, "");
    let k = stress_factor(chord.stress_ratio);
    book.step("k_p", "min(max(1 − 0.3 · n · (1 + n), 0), 1)", k, Unit::ONE, "chord stress factor");
    book.given("φ", grade_factor(chord, brace), Unit::ONE, "for yield strength: 0.9 above 355 MPa, 0.8 above 460 MPa");
}

/// One way in which the force is balanced.
pub(super) fn way<S: Sink>(done: &Computed<'_>, way: &Borne, tag: &Tag, book: &mut Book<'_, S>) {
    let brace = &done.brace;
    if let (Some(partner), true) = (way.kind.partner(), brace.outline.is_round()) {
        let exponent = if let Kind::Overlap { share, on_top, .. } = way.kind {
            let which = if on_top { "this brace is on top" } else { "the other brace is on top" };
            let length = overlap_length(brace, &partner, share, on_top);
            book.given(&tag.fill("q_@"), length, Unit::MM, &format!("overlap along the chord; {which}"));
            "−0.5 · q_@ / t_0 − 1.33"
        } else if let Kind::Gap { gap, .. } = way.kind {
            book.given(&tag.fill("g_@"), gap, Unit::MM, "gap between the toes; below 0 where they overlap");
            "0.5 · g_@ / t_0 − 1.33"
        } else {
            return;
        };
        book.given("e", std::f64::consts::E, Unit::ONE, "base of the natural logarithms");
        let formula = tag.fill(&format!("γ^0.2 · (1 + 0.024 · γ^1.2 / (1 + e^({exponent})))"));
        book.step(&tag.fill("k_g,#"), &formula, way.axial.k_g, Unit::ONE, "gap factor");
    }
    for (mode, value) in Mode::ALL.into_iter().zip(way.axial.modes) {
        let Some(value) = value else { continue };
        let formula = tag.fill(formula(mode, way.kind, !brace.outline.is_round(), brace.compressed));
        book.step(&super::sum::symbol(mode, tag), &formula, value, Unit::N, mode.word());
    }
    super::sum::resistance(way, tag, book);
}

fn formula(mode: Mode, kind: Kind, flat: bool, compressed: bool) -> &'static str {
    match (mode, kind) {
        (Mode::Punching, _) if flat => "φ · f_y0 · t_0 / √(3) · A_1 / t_1",
        (Mode::Punching, _) => "φ · f_y0 · t_0 / √(3) · π · d_1 · (1 + sinθ) / (2 · sinθ²)",
        (_, Kind::X) if flat => "φ · 5 · k_p · f_y0 · t_0² / (1 − 0.81 · β_1) · (1 + 0.25 · η)",
        _ if flat => "φ · k_p · f_y0 · t_0² · (4 + 20 · β_1²) · (1 + 0.25 · η)",
        (_, Kind::Y) => "φ · γ^0.2 · k_p · f_y0 · t_0² / sinθ · (2.8 + 14.2 · β_1²)",
        (_, Kind::X) => "φ · k_p · f_y0 · t_0² / sinθ · 5.2 / (1 − 0.81 · β_1)",
        // d of the brace in compression.
        _ if compressed => "φ · k_g,# · k_p · f_y0 · t_0² / sinθ · (1.8 + 10.2 · min(d_1 / d_0, 1))",
        _ => "φ · k_g,# · k_p · f_y0 · t_0² / sinθ · (1.8 + 10.2 · min(b_@ / d_0, 1))",
    }
}
