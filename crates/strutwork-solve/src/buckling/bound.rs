//! How far above the exact load factors the computed ones lie: bounds, each proved by a count.

use strutwork_element::beam::Excess;
use strutwork_element::{Mat12, Vec12};
use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, TubeId};

use super::forces::Axial;
use super::ready::Ready;
use crate::assembly::System;
use crate::eigen::Pair;
use crate::elements::Element;

/// What is first guessed is raised by these factors until the count agrees.
const RAISED: [f64; 5] = [1.02, 1.2, 2.0, 4.0, 8.0];
/// Bounds below are not told apart from rounding.
const LEAST: f64 = 1e-7;
/// A bound beyond says nothing.
const MOST: f64 = 0.9;
/// A bound serves another pair whose own would not be smaller by more.
const SHARED: f64 = 0.05;

/// What the cubic shapes of all pieces leave out under a case's forces: for each piece and plane, in global axes.
pub(super) struct Excesses {
    pieces: Vec<[Excess; 2]>,
    /// The greatest s.
    softest: f64,
}

/// What a pair's bound is made of.
pub(super) struct Bounded {
    /// The exact load factor is at least the computed one times 1 less this; `None` where the pieces are too long to say.
    pub(super) bound: Option<f64>,
    /// Share of the bound that each tube brings, to first order; infinite where a piece buckles by itself below the factor.
    pub(super) tubes: IndexVec<TubeId, f64>,
}

impl Excesses {
    /// Of these forces; `None` where an end is held so little that no bound is known.
    pub(super) fn of(ready: &Ready<'_>, axial: &Axial) -> Option<Self> {
        let tubes = ready.fine.model.tubes();
        let of_piece = |(place, element): (usize, &Element)| {
            let [from, to] = axial.ends(place);
            let planes = element.beam.excess(&element.springs(&tubes[TubeId::new(place)]), from, to)?;
            let seen = |own: &Mat12| {
                element.axes.mat_to_global(&element.joined.as_ref().map_or(*own, |joined| joined.condense(own)))
            };
            Some(planes.map(|plane| Excess { bent: seen(&plane.bent), taut: seen(&plane.taut), ..plane }))
        };
        let pieces: Option<Vec<_>> = ready.held.elements.tubes().iter().enumerate().map(of_piece).collect();
        let pieces = pieces?;
        let softest = pieces.iter().flatten().map(|plane| plane.softness).fold(0.0, f64::max);
        Some(Self { pieces, softest })
    }

    /// For each of the lowest pairs (lowest load factor first, none missing) how far the exact load factor may be below.
    ///
    /// ```text
    /// exact stiffness at μ ≥ C = K + μK_g − Σ (w W + v V):  if C has fewer than k negative eigenvalues, the k-th is at least μ
    /// ```
    ///
    /// μ is guessed from Rayleigh's quotient of the pair, φᵀCφ = 0, and lowered until the count agrees. `counts` is raised by the
    /// counts made.
    ///
    /// # Source
    /// Wittrick & Williams (1971), Q. J. Mech. Appl. Math. 24, p. 263 (from memory): with no piece beyond its own buckling load
    /// the negative eigenvalues of the exact stiffness at μ are the load factors below μ. The rest is derived here.
    pub(super) fn bounds(
        &self,
        ready: &Ready<'_>,
        geometric: &System,
        found: &[Pair],
        counts: &mut u64,
    ) -> Vec<Bounded> {
        let mut last: Option<(f64, usize)> = None;
        let of_pair = |(place, pair): (usize, &Pair)| {
            let factor = 1.0 / pair.theta;
            let parts = self.parts(ready, pair);
            let guess = 1.0 - self.root(factor, &parts) / factor;
            let mut bound = None;
            if let Some((below, counted)) = last
                && counted <= place
                && 1.0 - below / factor <= guess.max(LEAST) * (1.0 + SHARED)
            {
                bound = Some(1.0 - below / factor);
            }
            for raised in RAISED {
                let tried = (guess * raised).max(LEAST);
                let below = factor * (1.0 - tried);
                if bound.is_some() || tried > MOST {
                    break;
                }
                if below * self.softest >= 1.0 {
                    continue;
                }
                *counts += 1;
                let counted = ready.negative(&self.lessened(ready, geometric, below));
                if let Some(counted) = counted.filter(|counted| *counted <= place) {
                    last = Some((below, counted));
                    bound = Some(tried);
                }
            }
            Bounded { bound, tubes: self.of_tubes(ready, factor, &parts) }
        };
        found.iter().enumerate().map(of_pair).collect()
    }

    /// φᵀWφ and φᵀVφ of each piece, plane by plane.
    fn parts(&self, ready: &Ready<'_>, pair: &Pair) -> Vec<[[f64; 2]; 2]> {
        let numbering = &ready.held.numbering;
        let of_piece = |(element, planes): (&Element, &[Excess; 2])| {
            let [a, b] = element.joints.map(|joint| numbering.values(joint, &pair.vector));
            let moved = Vec12::from_iterator(a.into_iter().chain(b));
            planes
                .each_ref()
                .map(|plane| [&plane.bent, &plane.taut].map(|matrix| moved.dot(&(matrix * moved)).max(0.0)))
        };
        ready.held.elements.tubes().iter().zip(&self.pieces).map(of_piece).collect()
    }

    /// Σ w φᵀWφ + v φᵀVφ of a piece.
    fn left_out(&self, piece: usize, below: f64, parts: [[f64; 2]; 2]) -> f64 {
        let terms =
            self.pieces[piece].iter().zip(parts).flat_map(|(plane, parts)| plane.weights(below).into_iter().zip(parts));
        // A plane that does not move counts nothing, buckled or not.
        terms.filter(|(_, part)| *part > 0.0).map(|(weight, part)| weight * part).sum()
    }

    /// μ with φᵀCφ = 0, where φᵀKφ = 1 and φᵀK_gφ = −1/λ.
    fn root(&self, factor: f64, parts: &[[[f64; 2]; 2]]) -> f64 {
        let left = |below: f64| {
            let out: f64 = parts.iter().enumerate().map(|(piece, parts)| self.left_out(piece, below, *parts)).sum();
            1.0 - below / factor - out
        };
        let (mut low, mut high) = (0.0, factor);
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if left(middle) > 0.0 { low = middle } else { high = middle }
        }
        low
    }

    /// μK_g − Σ (w W + v V).
    fn lessened(&self, ready: &Ready<'_>, geometric: &System, below: f64) -> System {
        let held = ready.held;
        let mut added = System::of_tubes(&held.elements, &held.numbering, &held.pattern, |piece, _| {
            let mut sum = Mat12::zeros();
            for plane in &self.pieces[piece] {
                let [bent, taut] = plane.weights(below);
                sum -= plane.bent * bent + plane.taut * taut;
            }
            sum
        });
        added.add_multiple(below, geometric);
        added
    }

    fn of_tubes(&self, ready: &Ready<'_>, factor: f64, parts: &[[[f64; 2]; 2]]) -> IndexVec<TubeId, f64> {
        let count = ready.fine.pieces.iter().map(|(tube, _)| tube.index() + 1).max().unwrap_or(0);
        let mut tubes = vec![0.0; count];
        for (piece, (tube, _)) in ready.fine.pieces.iter().enumerate() {
            tubes[tube.index()] += self.left_out(piece, factor, parts[piece]);
            if self.pieces[piece].iter().any(|plane| factor * plane.softness >= 1.0) {
                tubes[tube.index()] = f64::INFINITY;
            }
        }
        tubes.into_iter().collect()
    }
}
