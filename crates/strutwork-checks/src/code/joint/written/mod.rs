//! The check of one brace of a joint, written out.

mod bending;
mod book;
mod flat;
mod round;
mod sum;

use super::check::Computed;
use super::{Acting, Brace, Chord, Kind, Outline, Partner, outside};
use crate::calculation::{Sink, Unit};
use book::Book;

/// Every number of a check that has been computed, line by line.
pub(super) fn write_out(done: &Computed<'_>, sink: &mut impl Sink) {
    let mut book = Book::new(sink);
    chord(&done.chord, &mut book);
    brace(&done.brace, &mut book);
    acting(done.acting, &done.chord, done.outcome.design, &mut book);
    book.given("γ_M5", done.gamma, Unit::ONE, "partial factor of joints");
    let flat = !done.chord.outline.is_round();
    if flat {
        flat::common(done, &mut book);
    } else {
        round::common(done, &mut book);
    }
    for (place, way) in done.ways.iter().enumerate() {
        let tag = Tag::of(way.kind, done.brace.angle, place);
        let percent = way.share * 100.0;
        let word = way.kind.word(done.brace.angle);
        book.remark(&format!("{percent:.1} % of the force as in a {word} joint:"));
        book.given(&format!("s_{}", tag.name), way.share, Unit::ONE, "share of the force");
        if let Some(other) = way.kind.partner() {
            partner(&other, tag.number, &mut book);
        }
        if flat {
            flat::way(done, way, &tag, &mut book);
        } else {
            round::way(done, way, &tag, &mut book);
        }
        for why in outside(&done.chord, &done.brace, way.kind) {
            book.outside(&why);
        }
    }
    bending::write(done, &mut book);
    sum::write(done, &mut book);
}

/// The end of the symbols of one way: `Y`, `X`, or `K2` for the K joint with the second brace of the page.
struct Tag {
    name: String,
    /// Number of the partner in the symbols; 1 is the brace that is judged.
    number: usize,
}

impl Tag {
    fn of(kind: Kind, angle: f64, place: usize) -> Self {
        let number = place + 2;
        let letter = kind.letter(angle);
        let name = if kind.partner().is_some() { format!("{letter}{number}") } else { letter.to_owned() };
        Self { name, number }
    }

    /// A formula with `#` for this way and `@` for the partner's number.
    fn fill(&self, formula: &str) -> String {
        formula.replace('#', &self.name).replace('@', &self.number.to_string())
    }
}

fn chord<S: Sink>(chord: &Chord, book: &mut Book<'_, S>) {
    match chord.outline {
        Outline::Rectangular { depth, width } => {
            book.given("h_0", depth, Unit::MM, "chord, in the plane");
            book.given("b_0", width, Unit::MM, "chord, across the plane");
        }
        Outline::Round { diameter } => book.given("d_0", diameter, Unit::MM, "chord"),
    }
    book.given("t_0", chord.wall, Unit::MM, "wall of the chord");
    book.given("A_0", chord.area, Unit::MM2, "area of the chord");
    book.given("f_y0", chord.yield_stress, Unit::MPA, "yield strength of the chord");
}

fn brace<S: Sink>(brace: &Brace, book: &mut Book<'_, S>) {
    match brace.outline {
        Outline::Rectangular { depth, width } => {
            book.given("h_1", depth, Unit::MM, "brace, in the plane");
            book.given("b_1", width, Unit::MM, "brace, across the plane");
        }
        Outline::Round { diameter } => {
            book.given("d_1", diameter, Unit::MM, "brace");
            book.step("h_1", "d_1", diameter, Unit::MM, "the diameter stands for depth and width");
            book.step("b_1", "d_1", diameter, Unit::MM, "");
        }
    }
    book.given("t_1", brace.wall, Unit::MM, "wall of the brace");
    book.given("A_1", brace.area, Unit::MM2, "area of the brace");
    book.given("f_y1", brace.yield_stress, Unit::MPA, "yield strength of the brace");
    book.given("θ_1", brace.angle, Unit::DEG, "between brace and chord");
    book.step("sinθ", "sin(θ_1)", brace.angle.sin(), Unit::ONE, "");
}

fn partner<S: Sink>(partner: &Partner, number: usize, book: &mut Book<'_, S>) {
    let name = |symbol: &str| format!("{symbol}_{number}");
    book.given(&name("h"), partner.outline.depth(), Unit::MM, "the other brace, in the plane");
    book.given(&name("b"), partner.outline.width(), Unit::MM, "the other brace, across the plane");
    book.given(&name("t"), partner.wall, Unit::MM, "its wall");
    book.given(&name("A"), partner.area, Unit::MM2, "its area");
    book.given(&format!("f_y{number}"), partner.yield_stress, Unit::MPA, "its yield strength");
    book.given(&name("θ"), partner.angle, Unit::DEG, "its angle to the chord");
}

/// What acts, and what of it compresses the chord.
fn acting<S: Sink>(acting: &Acting, chord: &Chord, design: [f64; 3], book: &mut Book<'_, S>) {
    let sense = if acting.axial < 0.0 { "compression" } else { "tension" };
    book.given("m", acting.margin, Unit::ONE, "margin on what acts");
    book.given("N_1", acting.axial, Unit::N, &format!("axial force of the brace at the joint, {sense}"));
    book.given("M_ip", acting.moments[0], Unit::NM, "moment of the brace at the joint in the plane");
    book.given("M_op", acting.moments[1], Unit::NM, "and out of it");
    book.step("N_1,Ed", "m · |N_1|", design[0], Unit::N, "margin included");
    book.step("M_ip,Ed", "m · |M_ip|", design[1], Unit::NM, "");
    book.step("M_op,Ed", "m · |M_op|", design[2], Unit::NM, "");
    let forces = &acting.chord;
    book.given("N_0", forces.axial, Unit::N, "axial force of the chord where it is compressed most, tension positive");
    book.given("M_y0", forces.moments[0], Unit::NM, "moments of the chord there, about its own axes");
    book.given("M_z0", forces.moments[1], Unit::NM, "");
    let formula = if forces.round {
        book.given("W_0", forces.elastic[0], Unit::MM3, "elastic modulus of the chord");
        "√(M_y0² + M_z0²) · 1000 / W_0 − N_0 / A_0"
    } else {
        book.given("W_y0", forces.elastic[0], Unit::MM3, "elastic moduli of the chord");
        book.given("W_z0", forces.elastic[1], Unit::MM3, "");
        "|M_y0| · 1000 / W_y0 + |M_z0| · 1000 / W_z0 − N_0 / A_0"
    };
    book.step("σ_0", formula, forces.compression(chord.area), Unit::MPA, "greatest compressive stress in the chord");
    book.step("n", "max(m · σ_0 / f_y0, 0)", chord.stress_ratio, Unit::ONE, "margin included");
}
