//! Exact re-analysis: the family's own solutions corrected for a few changed tubes.
//!
//! A tube resists six deformations, so that k changed tubes change the stiffness by a matrix of rank 6k at most:
//!
//! ```text
//! K' = K + C Σ Cᵀ     Σ = diag(±1)
//! u' = u − K⁻¹C x     (Σ + Cᵀ K⁻¹ C) x = Cᵀ u
//! ```
//!
//! K⁻¹ over the deformations of the tubes that may change is kept, and C is a choice and scaling of its columns. Rows that
//! stiffen are eliminated first: then their pivots are positive and all others negative exactly where the changed frame is
//! stable (law of inertia), and a pivot near zero tells a mechanism.
//!
//! # Source
//! Sherman–Morrison–Woodbury: Hager (1989), Updating the inverse of a matrix, SIAM Review 31(2), pp. 221–239 (from memory).

mod kept;
mod small;

use pulp::Arch;

use super::variant::TubeStiffness;

pub(super) use kept::{Columns, Kept};
use small::{Combine, Eliminate};

/// A pivot of the small system, whose diagonal is ±1, below this is too near a mechanism to be divided by.
const NEAR_NOTHING: f64 = 1e-6;
/// Forces in changed tubes may miss what their movement says by this share of the loads, in the measure of energy.
const DRIFT: f64 = 1e-10;

/// Below this share of the rest an entry is rounding.
const ROUNDING: f64 = 1e-12;

/// A deformation of a changed tube, as a combination of one or two kept columns.
#[derive(Debug, Clone, Copy)]
struct Mode {
    columns: [u32; 2],
    roots: [f64; 2],
    stiffens: bool,
}

/// One thread's memory for updates.
#[derive(Debug, Default)]
pub(super) struct Scratch {
    /// Changed deformations, those that stiffen first.
    modes: Vec<Mode>,
    softer: Vec<Mode>,
    /// Columns of the small system: its rows, then the right-hand sides.
    system: Vec<f64>,
    /// x in terms of kept columns: cases by columns.
    shares: Vec<f64>,
    /// The kept columns that take part.
    taken: Vec<u32>,
}

/// Why an update was not used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Refused {
    /// The change is not of a kind that can be told by kept columns.
    Unfit,
    /// The changed frame is a mechanism, or nearly one.
    NearNothing,
    /// The result does not fit itself.
    Drift,
}

impl Scratch {
    /// Notes what changes: tubes with their new stiffness.
    pub(super) fn note(&mut self, kept: &Kept, changes: &[(usize, TubeStiffness)]) -> Result<(), Refused> {
        self.modes.clear();
        self.softer.clear();
        for (tube, stiffness) in changes {
            let tube = kept.tube(*tube).ok_or(Refused::Unfit)?;
            let (old_along, old_planes) = tube.law.turned(&tube.stiffness);
            let (along, planes) = tube.law.turned(stiffness);
            for offset in 0..2 {
                self.single(tube.first + offset, along[offset] - old_along[offset]);
                let first = tube.first + 2 + 2 * offset;
                self.plane(first, std::array::from_fn(|entry| planes[offset][entry] - old_planes[offset][entry]))?;
            }
        }
        Ok(())
    }

    /// A deformation whose stiffness changes by itself.
    fn single(&mut self, column: usize, change: f64) {
        self.add([column; 2], [change.abs().sqrt(), 0.0], change > 0.0);
    }

    /// Two deformations whose stiffness changes by three entries: ±R·Rᵀ.
    fn plane(&mut self, first: usize, [a, b, c]: [f64; 3]) -> Result<(), Refused> {
        if b == 0.0 {
            self.single(first, a);
            self.single(first + 1, c);
            return Ok(());
        }
        let (stiffens, size) = (a + c > 0.0, a.abs().max(c.abs()));
        let [a, b, c] = if stiffens { [a, b, c] } else { [-a, -b, -c] };
        let rest = c - b * b / a;
        if a <= 0.0 || rest < -ROUNDING * size {
            return Err(Refused::Unfit);
        }
        self.add([first, first + 1], [a.sqrt(), b / a.sqrt()], stiffens);
        if rest > ROUNDING * size {
            self.add([first + 1; 2], [rest.sqrt(), 0.0], stiffens);
        }
        Ok(())
    }

    fn add(&mut self, columns: [usize; 2], roots: [f64; 2], stiffens: bool) {
        if roots[0] > 0.0 {
            let mode = Mode { columns: columns.map(|column| column as u32), roots, stiffens };
            if stiffens { self.modes.push(mode) } else { self.softer.push(mode) }
        }
    }

    /// Operations that the change noted takes.
    pub(super) fn flops(&self, kept: &Kept) -> f64 {
        kept.flops(self.modes.len() + self.softer.len())
    }

    /// The kept solutions corrected for the change noted, into `solutions`.
    pub(super) fn solve(&mut self, kept: &Kept, solutions: &mut Columns) -> Result<(), Refused> {
        self.modes.append(&mut self.softer);
        let order = self.modes.len();
        let right = order.next_multiple_of(8);
        let height = right + kept.cases.next_multiple_of(8);
        self.gather(kept, right, height);
        let sound = Arch::new().dispatch(Eliminate {
            columns: &mut self.system,
            height,
            right,
            order,
            stiffening: self.modes.iter().take_while(|mode| mode.stiffens).count(),
            least: NEAR_NOTHING,
        });
        if !sound {
            return Err(Refused::NearNothing);
        }
        self.taken.clear();
        self.shares.clear();
        for (mode, column) in self.modes.iter().zip(self.system.chunks_exact(height)) {
            for (column_of, root) in mode.columns.into_iter().zip(mode.roots).filter(|(_, root)| *root != 0.0) {
                self.taken.push(column_of);
                self.shares.extend(column[right..right + kept.cases].iter().map(|x| root * x));
            }
        }
        Arch::new().dispatch(Combine {
            base: &kept.base.values,
            columns: &kept.inverse.values,
            stride: kept.base.stride,
            taken: &self.taken,
            shares: &self.shares,
            cases: kept.cases,
            solutions: &mut solutions.values,
        });
        if self.fits(kept, solutions, right, height) { Ok(()) } else { Err(Refused::Drift) }
    }

    /// Fills in the small system: Σ + Cᵀ K⁻¹ C above, Cᵀ u below.
    fn gather(&mut self, kept: &Kept, right: usize, height: usize) {
        let modes = &self.modes;
        let alone = modes.iter().all(|mode| mode.roots[1] == 0.0);
        self.system.clear();
        self.system.resize(height * modes.len(), 0.0);
        for ((j, mode), column) in modes.iter().enumerate().zip(self.system.chunks_exact_mut(height)) {
            let ([first, second], [root, other]) = (mode.columns.map(|column| column as usize), mode.roots);
            for (case, place) in column[right..right + kept.cases].iter_mut().enumerate() {
                let deformed = kept.deformed(case);
                *place = root * deformed[first] + other * deformed[second];
            }
            let one = kept.flexibility(first);
            if alone {
                for (place, row) in column[j..].iter_mut().zip(&modes[j..]) {
                    *place = root * row.roots[0] * one[row.columns[0] as usize];
                }
            } else {
                let two = kept.flexibility(second);
                for (place, row) in column[j..].iter_mut().zip(&modes[j..]) {
                    let [a, b] = row.columns.map(|column| column as usize);
                    *place = root * (row.roots[0] * one[a] + row.roots[1] * one[b])
                        + other * (row.roots[0] * two[a] + row.roots[1] * two[b]);
                }
            }
            column[j] += if mode.stiffens { 1.0 } else { -1.0 };
        }
    }

    /// Whether x is what the movement says: x = Σ Cᵀ u'.
    fn fits(&self, kept: &Kept, solutions: &Columns, right: usize, height: usize) -> bool {
        let columns = || self.modes.iter().zip(self.system.chunks_exact(height));
        (0..kept.cases).all(|case| {
            let moved = solutions.column(case);
            let mut tube = usize::MAX;
            let mut deformed = [0.0; 8];
            let mut worst = 0.0_f64;
            for (mode, column) in columns() {
                let [first, second] = mode.columns.map(|column| column as usize);
                if first / 6 != tube {
                    tube = first / 6;
                    deformed = kept.deformation(tube, moved);
                }
                let says = mode.roots[0] * deformed[first % 6] + mode.roots[1] * deformed[second % 6];
                let expected = if mode.stiffens { says } else { -says };
                worst = worst.max((column[right + case] - expected).abs());
            }
            worst <= DRIFT * kept.sizes[case]
        })
    }
}

/// Floating-point operations of an update of this rank.
fn flops(equations: usize, cases: usize, rank: usize) -> f64 {
    let (n, c, m) = (equations as f64, cases as f64, rank as f64);
    m * m * m / 3.0 + m * m * (1.0 + 2.0 * c) + 2.0 * n * c * m + 24.0 * m * c
}
