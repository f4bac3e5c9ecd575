//! Pass after pass, until axial forces and movements are steady.

use std::f64::consts::PI;

use strutwork_model::{IndexVec, JointId};

use super::bent::first_starts;
use super::{Frame, Pass};
use crate::assembly::SpanLoads;
use crate::error::SolveError;
use crate::mechanism;
use crate::results::CaseResult;

/// A tube is divided again when its axial force has grown by this: the error of a piece goes with its square.
const DIVIDED_AGAIN: f64 = 1.2;

/// Where the passes of a case stand.
pub(super) struct Steady<'a> {
    frame: Frame<'a>,
    /// Euler load of every tube as pinned, N: axial forces far below it change nothing.
    euler: Vec<f64>,
    /// Frame size, m: a turn counts as the angle times it.
    size: f64,
    /// The axial force at every tube's `from` end, N, and the one that it is divided for.
    starts: Vec<[f64; 2]>,
    joints: IndexVec<JointId, [f64; 6]>,
    passes: Vec<Pass>,
}

impl<'a> Steady<'a> {
    /// Before the first pass: as first order has it.
    pub(super) fn of(frame: Frame<'a>, spans: &SpanLoads, first: &CaseResult) -> Self {
        let euler = frame.elements.tubes().iter().map(|element| {
            let beam = &element.beam;
            PI * PI * beam.youngs * beam.iy.min(beam.iz) / (beam.length * beam.length)
        });
        Self {
            frame,
            euler: euler.collect(),
            size: mechanism::size(frame.model),
            starts: first_starts(frame.elements, spans, &first.displacements).into_iter().map(|n| [n, n]).collect(),
            joints: first.displacements.clone(),
            passes: Vec::new(),
        }
    }

    /// The axial force at every tube's `from` end, N, and the one that it is divided for.
    pub(super) fn starts(&self) -> &[[f64; 2]] {
        &self.starts
    }

    /// Takes what a pass found; whether it is steady.
    pub(super) fn take(&mut self, starts: Vec<f64>, joints: IndexVec<JointId, [f64; 6]>) -> bool {
        let changes = starts.iter().zip(&self.starts).zip(&self.euler);
        let forces =
            changes.map(|((new, [old, _]), euler)| (new - old).abs() / euler.max(new.abs())).fold(0.0, f64::max);
        let far = |values: &[f64; 6], less: &[f64; 6]| {
            (0..6).map(|i| (values[i] - less[i]).abs() * if i < 3 { 1.0 } else { self.size }).fold(0.0, f64::max)
        };
        let most = joints.iter().map(|moved| far(moved, &[0.0; 6])).fold(0.0, f64::max);
        let change = joints.iter().zip(&self.joints).map(|(new, old)| far(new, old)).fold(0.0, f64::max);
        let movements = if change == 0.0 { 0.0 } else { change / most };
        for (kept, new) in self.starts.iter_mut().zip(starts) {
            // A division that flips between two numbers of pieces would never let the forces be steady.
            let divided_for = if new.abs() > DIVIDED_AGAIN * kept[1].abs() { new } else { kept[1] };
            *kept = [new, divided_for];
        }
        self.joints = joints;
        self.passes.push(Pass { forces, movements });
        forces <= self.frame.wanted.tolerance && movements <= self.frame.wanted.tolerance
    }

    /// That no more passes are allowed, if so.
    pub(super) fn spent(&self, case: &str) -> Option<SolveError> {
        let (passes, last) = (self.passes.len() as u32, self.passes.last()?);
        (passes >= self.frame.wanted.most_passes).then(|| SolveError::Unsteady {
            case: case.to_owned(),
            passes,
            change: last.forces.max(last.movements),
        })
    }

    /// What each pass changed.
    pub(super) fn passes(self) -> Vec<Pass> {
        self.passes
    }
}
