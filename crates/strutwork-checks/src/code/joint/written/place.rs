//! Where two braces stand to each other: eccentricity, gap, overlap.

use super::super::check::{Borne, Computed};
use super::super::{Kind, Partner};
use super::{Book, Tag};
use crate::calculation::{Sink, Unit};

/// A gap that follows from the eccentricity to this is printed as following from it, m.
const HAIR: f64 = 1e-9;

/// e and e/h₀, then g, and for an overlap q and λ_ov; nothing where there is no second brace.
pub(super) fn between<S: Sink>(done: &Computed<'_>, way: &Borne, tag: &Tag, book: &mut Book<'_, S>) {
    match way.kind {
        Kind::Y | Kind::X => {}
        Kind::Gap { partner, gap, eccentricity } => {
            crossing(done, &partner, [eccentricity, gap], tag, book);
        }
        Kind::Overlap { partner, share, on_top, eccentricity } => {
            let (depth, sin) = if on_top {
                (done.brace.outline.depth(), done.brace.angle.sin())
            } else {
                (partner.outline.depth(), partner.angle.sin())
            };
            let length = share * depth / sin;
            crossing(done, &partner, [eccentricity, -length], tag, book);
            book.step(&tag.fill("q_@"), &tag.fill("0 − g_@"), length, Unit::MM, "overlap along the chord");
            let number = tag.number.to_string();
            let (upper, which) =
                if on_top { ("1", "this brace is on top") } else { (&*number, "the other brace is on top") };
            let formula = tag.fill("q_@ · sin(θ_%) / h_%").replace('%', upper);
            let note = format!("overlap over the footprint of the upper brace; {which}");
            book.step(&tag.fill("λ_@"), &formula, share, Unit::ONE, &note);
        }
    }
}

fn crossing<S: Sink>(
    done: &Computed<'_>,
    partner: &Partner,
    [eccentricity, gap]: [f64; 2],
    tag: &Tag,
    book: &mut Book<'_, S>,
) {
    let (symbol, depth) = (tag.fill("g_@"), done.chord.outline.depth());
    let across = if done.chord.outline.is_round() { "d_0" } else { "h_0" };
    if eccentricity.is_finite() {
        let e = tag.fill("e_@");
        book.given(&e, eccentricity, Unit::MM, "how far beyond the chord's axis the axes of both braces cross");
        let note = "from −0.55 to 0.25, 5.1.5(5)";
        book.step(&format!("{e}/{across}"), &format!("{e} / {across}"), eccentricity / depth, Unit::ONE, note);
    }
    let note = "gap between the toes; below 0 where they overlap";
    let own = &done.brace;
    let half = |depth: f64, angle: f64| depth / (2.0 * angle.sin());
    let apart = (eccentricity + depth / 2.0) * (1.0 / own.angle.tan() + 1.0 / partner.angle.tan());
    let follows = apart - half(own.outline.depth(), own.angle) - half(partner.outline.depth(), partner.angle);
    if (follows - gap).abs() < HAIR {
        let formula = tag.fill(
            "(e_@ + ½ / 2) · (cos(θ_1) / sin(θ_1) + cos(θ_@) / sin(θ_@)) − h_1 / (2 · sin(θ_1)) − h_@ / (2 · sin(θ_@))",
        );
        book.step(&symbol, &formula.replace('½', across), gap, Unit::MM, note);
    } else {
        book.given(&symbol, gap, Unit::MM, note);
    }
}
