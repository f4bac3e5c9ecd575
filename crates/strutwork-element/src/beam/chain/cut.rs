//! Where a tube is divided, and what acts on each piece.

use nalgebra::Vector2;

use super::TURN;
use crate::Vec12;
use crate::beam::{Beam, SpanLoad};

/// The most pieces between two point loads, so that a very slender tie does not take all memory.
const MOST: f64 = 500.0;

/// Into how many pieces a tube is divided.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Division {
    /// As many as keep (kℓ)⁴/720 of each within this; k² = |N|/EI in the softer plane.
    Within(f64),
    /// This many, and a break at every point load.
    Into(usize),
}

/// A piece of a tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cut {
    /// m from end 1.
    pub from: f64,
    /// m from end 1.
    pub to: f64,
    /// Axial force just inside its ends, N, tension positive.
    pub axial: [f64; 2],
    /// What the mean axial force exceeds the mean of its ends by, N: where a load along the tube is not even.
    pub bulge: f64,
}

impl Cut {
    /// The axial force as it does work in the piece: linear, with the true mean.
    pub(super) fn working(&self) -> [f64; 2] {
        self.axial.map(|force| force + self.bulge)
    }

    /// The piece as a tube.
    pub(super) fn beam(&self, whole: &Beam) -> Beam {
        Beam { length: self.to - self.from, ..*whole }
    }

    /// (kℓ)⁴/720.
    pub(super) fn error(&self, beam: &Beam) -> f64 {
        let most = self.axial[0].abs().max(self.axial[1].abs());
        let kl2 = most / softer(beam) * (self.to - self.from).powi(2);
        kl2 * kl2 / 720.0
    }

    /// What of a load on the whole tube acts on the piece; point loads act at nodes.
    pub(super) fn part_of(&self, load: &SpanLoad, length: f64) -> Option<SpanLoad> {
        match *load {
            SpanLoad::Line { from, to } => {
                let at = |x: f64| std::array::from_fn(|axis| from[axis] + (to[axis] - from[axis]) * x / length);
                Some(SpanLoad::Line { from: at(self.from), to: at(self.to) })
            }
            SpanLoad::Point { .. } => None,
            SpanLoad::Free { .. } => Some(*load),
        }
    }
}

/// EI in the softer plane.
fn softer(beam: &Beam) -> f64 {
    beam.youngs * beam.iy.min(beam.iz)
}

/// The pieces of a tube whose axial force at end 1 is `start`, divided as if it were the second.
pub(super) fn cuts(beam: &Beam, [start, divided_for]: [f64; 2], loads: &[SpanLoad], division: Division) -> Vec<Cut> {
    let length = beam.length;
    let mut breaks = vec![0.0, length];
    breaks.extend(loads.iter().filter_map(|load| match load {
        SpanLoad::Point { at, .. } => Some(*at),
        SpanLoad::Line { .. } | SpanLoad::Free { .. } => None,
    }));
    breaks.retain(|x| (0.0..=length).contains(x));
    breaks.sort_by(f64::total_cmp);
    breaks.dedup();
    let mut cuts = Vec::new();
    for ends in breaks.windows(2) {
        let [from, to] = [ends[0], ends[1]];
        // Linear or quadratic between: the greatest is at an end or in the middle.
        let axial = |x: f64| axial(start, loads, length, x, from);
        let middle = f64::midpoint(from, to);
        let most = [from, middle, to].into_iter().map(|x| (axial(x) - start + divided_for).abs()).fold(0.0, f64::max);
        let wanted = match division {
            Division::Within(error) => (most / softer(beam)).sqrt() * (to - from) / (720.0 * error).powf(0.25),
            Division::Into(count) => count as f64 * (to - from) / length,
        };
        let count = (wanted - 1e-9).ceil().clamp(1.0, MOST);
        let place = |k: usize| if k as f64 == count { to } else { from + (to - from) * k as f64 / count };
        for k in 0..count as usize {
            let (a, b) = (place(k), place(k + 1));
            let ends = [axial(a), axial(b)];
            // Simpson's rule, exact for the quadratic that a linear load along the tube makes.
            let bulge = 2.0 / 3.0 * (axial(f64::midpoint(a, b)) - f64::midpoint(ends[0], ends[1]));
            cuts.push(Cut { from: a, to: b, axial: ends, bulge });
        }
    }
    cuts
}

/// N at x, between `from`, after which no point load acts, and x.
fn axial(start: f64, loads: &[SpanLoad], length: f64, x: f64, from: f64) -> f64 {
    loads.iter().fold(start, |n, load| match *load {
        SpanLoad::Line { from: a, to: b } => n - a[0] * x - (b[0] - a[0]) * x * x / (2.0 * length),
        SpanLoad::Point { at, force, .. } if at <= from => n - force[0],
        SpanLoad::Point { .. } | SpanLoad::Free { .. } => n,
    })
}

/// Force across and moment in the slope's direction of the point loads at a node between two pieces.
pub(super) fn point_loads(loads: &[SpanLoad], node: f64, plane: usize) -> Vector2<f64> {
    loads.iter().fold(Vector2::zeros(), |sum, load| match load {
        SpanLoad::Point { at, force, moment } if *at == node => {
            sum + Vector2::new(force[1 + plane], TURN[plane] * moment[2 - plane])
        }
        _ => sum,
    })
}

/// Forces across the tube, and moments that bend it, of point loads that stand at its very ends.
pub(super) fn at_ends(loads: &[SpanLoad], length: f64) -> Vec12 {
    let mut on_ends = Vec12::zeros();
    for load in loads {
        if let SpanLoad::Point { at, force, moment } = load
            && (*at <= 0.0 || *at >= length)
        {
            let end = if *at <= 0.0 { 0 } else { 6 };
            for axis in [1, 2] {
                on_ends[end + axis] += force[axis];
                on_ends[end + 3 + axis] += moment[axis];
            }
        }
    }
    on_ends
}

/// The cubic with these values and slopes at two places, as a polynomial of x.
pub(super) fn hermite([a, b]: [f64; 2], [fa, fb]: [f64; 2], [ga, gb]: [f64; 2]) -> [f64; 4] {
    let l = b - a;
    let rise = (fb - fa) / l;
    let (c2, c3) = ((3.0 * rise - 2.0 * ga - gb) / l, (ga + gb - 2.0 * rise) / (l * l));
    // In d = x − a: fa + ga d + c2 d² + c3 d³.
    [fa - a * (ga - a * (c2 - a * c3)), ga - a * (2.0 * c2 - 3.0 * a * c3), c2 - 3.0 * a * c3, c3]
}
