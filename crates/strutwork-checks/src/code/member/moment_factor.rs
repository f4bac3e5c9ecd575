//! Equivalent uniform moment factors C_m of a member's own moment diagram (EN 1993-1-1 Table B.3).

use crate::calculation::{Put, Sink, Unit};

/// C_m of a member whose ends shift sideways as it buckles.
pub const SWAY: f64 = 0.9;

/// A moment diagram about one axis, with its signs, N·m: only its shape matters.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Diagram {
    /// At both ends.
    pub ends: [f64; 2],
    /// Between them: in the middle, or the extreme where there is one; `None` for a straight line between the ends.
    pub span: Option<f64>,
    /// Whether what acts between the ends is point loads alone.
    pub is_concentrated: bool,
}

/// The numbers of Table B.3 for a diagram.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Shape {
    /// No moment at all.
    None,
    /// ψ.
    Straight(f64),
    /// α_s = M_s/M_h, ψ.
    Hogging(f64, f64),
    /// α_h = M_h/M_s, ψ.
    Sagging(f64, f64),
}

impl Diagram {
    /// M_h, the greater of both ends, and ψ, the other over it.
    fn ends(&self) -> (f64, f64) {
        let [a, b] = self.ends;
        let (greater, other) = if b.abs() > a.abs() { (b, a) } else { (a, b) };
        (greater, if greater == 0.0 { 0.0 } else { other / greater })
    }

    fn shape(&self) -> Shape {
        let (hogging, psi) = self.ends();
        match self.span {
            None if hogging == 0.0 => Shape::None,
            None => Shape::Straight(psi),
            Some(span) if span.abs() < hogging.abs() => Shape::Hogging(span / hogging, psi),
            Some(0.0) => Shape::None,
            Some(span) => Shape::Sagging(hogging / span, psi),
        }
    }

    /// C_m.
    ///
    /// ```text
    /// straight                0.6 + 0.4ψ ≥ 0.4
    /// α_s = M_s/M_h  0 … 1    0.2 + 0.8α_s ≥ 0.4
    ///               −1 … 0    ψ ≥ 0: 0.1 − 0.8α_s ≥ 0.4        ψ < 0: 0.1(1 − ψ) − 0.8α_s ≥ 0.4
    ///               (points)  −0.8α_s ≥ 0.4                    −0.2ψ − 0.8α_s ≥ 0.4
    /// α_h = M_h/M_s  0 … 1    0.95 + 0.05α_h                   (points) 0.90 + 0.10α_h
    ///               −1 … 0    ψ ≥ 0: the same                  ψ < 0: the same with α_h(1 + 2ψ)
    /// ```
    ///
    /// # Signs and order
    /// Continuous where one row meets the next.
    ///
    /// # Source
    /// EN 1993-1-1:2005 Table B.3 (from memory).
    pub fn factor(&self) -> f64 {
        let points = self.is_concentrated;
        match self.shape() {
            Shape::None => 1.0,
            Shape::Straight(psi) => (0.6 + 0.4 * psi).max(0.4),
            Shape::Hogging(alpha, _) if alpha >= 0.0 => (0.2 + 0.8 * alpha).max(0.4),
            Shape::Hogging(alpha, psi) => {
                let negative = (-psi).max(0.0);
                let ends = if points { 0.2 * negative } else { 0.1 * (1.0 + negative) };
                (ends - 0.8 * alpha).max(0.4)
            }
            Shape::Sagging(alpha, psi) => {
                let bent = if alpha < 0.0 && psi < 0.0 { alpha * (1.0 + 2.0 * psi) } else { alpha };
                if points { 0.90 + 0.10 * bent } else { 0.95 + 0.05 * bent }
            }
        }
    }

    /// Writes C_m of axis `y` or `z`.
    pub(super) fn write(&self, axis: &str, sink: &mut impl Sink) {
        let factor = self.factor();
        let (hogging, psi) = self.ends();
        let [m1, m2, ms] = ["1", "2", "s"].map(|at| format!("M_{axis},{at}"));
        let (mh, p) = (format!("M_{axis},h"), format!("ψ_{axis}"));
        let (alpha_s, alpha_h, c) = (format!("α_s,{axis}"), format!("α_h,{axis}"), format!("C_m{axis}"));
        let shape = self.shape();
        if shape == Shape::None {
            sink.given(&c, factor, Unit::ONE, "no moment about this axis");
            return;
        }
        sink.given(&m1, self.ends[0], Unit::NM, "at the `from` end, from the analysis");
        sink.given(&m2, self.ends[1], Unit::NM, "at the `to` end");
        if let Some(span) = self.span {
            sink.given(&ms, span, Unit::NM, "between them");
        }
        sink.given(&mh, hogging, Unit::NM, "the greater of both ends");
        if hogging != 0.0 {
            let other = if self.ends[1].abs() > self.ends[0].abs() { &m1 } else { &m2 };
            let value = if other == &m1 { self.ends[0] } else { self.ends[1] };
            let put = [(other.as_str(), value, Unit::NM), (mh.as_str(), hogging, Unit::NM)];
            sink.step(&p, &format!("{other} / {mh}"), &put, psi, Unit::ONE, "");
        }
        let (alpha, value) = match shape {
            Shape::Hogging(value, _) => (&alpha_s, value),
            Shape::Sagging(value, _) => (&alpha_h, value),
            Shape::None | Shape::Straight(_) => (&p, psi),
        };
        let put: [Put<'_>; 4] = [
            (&ms, self.span.unwrap_or(0.0), Unit::NM),
            (&mh, hogging, Unit::NM),
            (&p, psi, Unit::ONE),
            (alpha, value, Unit::ONE),
        ];
        match shape {
            Shape::Hogging(value, _) => {
                sink.step(&alpha_s, &format!("{ms} / {mh}"), &put, value, Unit::ONE, "");
            }
            Shape::Sagging(value, _) => {
                sink.step(&alpha_h, &format!("{mh} / {ms}"), &put, value, Unit::ONE, "");
            }
            Shape::None | Shape::Straight(_) => {}
        }
        let points = self.is_concentrated;
        let formula = match shape {
            Shape::None | Shape::Straight(_) => format!("max(0.4, 0.6 + 0.4 · {p})"),
            Shape::Hogging(value, _) if value >= 0.0 => format!("max(0.4, 0.2 + 0.8 · {alpha_s})"),
            Shape::Hogging(_, psi) if psi >= 0.0 && points => format!("max(0.4, 0 − 0.8 · {alpha_s})"),
            Shape::Hogging(_, psi) if psi >= 0.0 => format!("max(0.4, 0.1 − 0.8 · {alpha_s})"),
            Shape::Hogging(..) if points => format!("max(0.4, 0 − 0.2 · {p} − 0.8 · {alpha_s})"),
            Shape::Hogging(..) => format!("max(0.4, 0.1 · (1 − {p}) − 0.8 · {alpha_s})"),
            Shape::Sagging(value, psi) => {
                let [a, b] = if points { ["0.90", "0.10"] } else { ["0.95", "0.05"] };
                let bent = if value < 0.0 && psi < 0.0 { format!(" · (1 + 2 · {p})") } else { String::new() };
                format!("{a} + {b} · {alpha_h}{bent}")
            }
        };
        let row = if self.span.is_none() {
            "Table B.3, no load between the ends"
        } else if points {
            "Table B.3, point loads"
        } else {
            "Table B.3, spread load"
        };
        sink.step(&c, &formula, &put, factor, Unit::ONE, row);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(ends: [f64; 2], span: Option<f64>) -> [f64; 2] {
        [false, true].map(|is_concentrated| Diagram { ends, span, is_concentrated }.factor())
    }

    #[test]
    fn straight_diagrams() {
        for (ends, factor) in
            [([1.0, 1.0], 1.0), ([1.0, 0.0], 0.6), ([0.0, -2.0], 0.6), ([1.0, -0.5], 0.4), ([-1.0, 1.0], 0.4)]
        {
            assert!((of(ends, None)[0] - factor).abs() < 1e-12, "{ends:?}");
        }
        assert_eq!(of([0.0, 0.0], None), [1.0; 2]);
    }

    /// Simply supported: 0.95, 0.90. Both ends fixed under a spread load, M_s = −M_h/2: 0.1 + 0.4; under a point load in the
    /// middle M_s = −M_h: 0.8. Propped (ψ = 0, α_s = −9/16): 0.55; point load α_s = −5/6: 0.6667.
    #[test]
    fn loads_between_the_ends() {
        let close = |found: f64, factor: f64| assert!((found - factor).abs() < 1e-12, "{found} {factor}");
        close(of([0.0, 0.0], Some(5.0))[0], 0.95);
        close(of([0.0, 0.0], Some(-5.0))[1], 0.90);
        close(of([2.0, 2.0], Some(-1.0))[0], 0.5);
        close(of([2.0, 2.0], Some(-2.0))[1], 0.8);
        close(of([16.0, 0.0], Some(-9.0))[0], 0.55);
        close(of([6.0, 0.0], Some(-5.0))[1], 2.0 / 3.0);
        // α_h = −0.5, ψ = −0.4: 0.95 − 0.025 · 0.2, 0.90 − 0.05 · 0.2.
        close(of([1.0, -0.4], Some(-2.0))[0], 0.945);
        close(of([1.0, -0.4], Some(-2.0))[1], 0.89);
    }

    #[test]
    fn rows_meet_without_a_jump_and_points_are_never_the_harder() {
        for psi in [-1.0, -0.7, -0.3, 0.0, 0.4, 1.0] {
            for alpha in [-1.0_f64, 1.0] {
                let near = of([1.0, psi], Some(alpha * (1.0 - 1e-12)));
                let beyond = of([1.0, psi], Some(alpha));
                for (a, b) in near.into_iter().zip(beyond) {
                    assert!((a - b).abs() < 1e-9, "ψ = {psi}, α = {alpha}: {a} {b}");
                }
            }
            for step in -30..=30 {
                let [spread, points] = of([1.0, psi], Some(f64::from(step) / 10.0));
                assert!(points <= spread + 1e-12 && (0.4..=1.0 + 1e-12).contains(&spread), "ψ = {psi}, {step}");
            }
            // A straight line read as a span has its middle at (1 + ψ)/2.
            let span = of([1.0, psi], Some(f64::midpoint(1.0, psi)))[0];
            assert!((span - of([1.0, psi], None)[0]).abs() < 1e-12, "ψ = {psi}");
        }
    }
}
