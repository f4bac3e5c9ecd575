//! A plate strip with a rigid patch, solved by finite differences: the yardstick of the closed form.

/// How the patch moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Motion {
    /// Off the face.
    Lift,
    /// About the line across the strip.
    InPlane,
    /// About the strip's own line.
    Across,
}

/// Stiffness of a strip of span 1 with D = 1 against a motion of a rigid patch in its middle, `across` tenths of the span
/// wide and `along` tenths long (even numbers); each length of its edges held by the rotational spring `held`.
///
/// The least of ½ ∫(∇²w)² dA + ½ ∫ held (∂w/∂n)² ds, which is the plate's energy where the edges stay straight. Two grids,
/// and the first-order error of the patch's edge taken off.
pub(super) fn stiffness(motion: Motion, across: usize, along: usize, held: f64) -> f64 {
    let on = |cells: usize| Grid { motion, cells, across: across * cells / 10, along: along * cells / 10 }.solve(held);
    2.0 * on(30) - on(15)
}

/// A quarter of the strip: x from the middle of the patch to beyond its influence, y from the strip's line to its edge.
struct Grid {
    motion: Motion,
    /// Cells from the strip's line to its edge.
    cells: usize,
    /// Cells of half the patch.
    across: usize,
    along: usize,
}

/// A place on the grid that takes part in a difference, and its factor.
type Term = (usize, f64);

impl Grid {
    fn columns(&self) -> usize {
        self.along + 5 * self.cells / 2
    }

    /// Whether the motion changes sign across x = 0, across y = 0.
    fn odd(&self) -> [bool; 2] {
        [self.motion == Motion::InPlane, self.motion == Motion::Across]
    }

    /// The deflection where it is known: on the patch, and on a line across which it changes sign.
    fn known(&self, i: usize, j: usize) -> Option<f64> {
        let step = 0.5 / self.cells as f64;
        let [odd_x, odd_y] = self.odd();
        if i <= self.along && j <= self.across {
            return Some(match self.motion {
                Motion::Lift => 1.0,
                Motion::InPlane => i as f64 * step,
                Motion::Across => j as f64 * step,
            });
        }
        ((odd_x && i == 0) || (odd_y && j == 0)).then_some(0.0)
    }

    /// Squares whose weighted sum is the energy, twice.
    fn squares(&self, held: f64) -> Vec<(f64, Vec<Term>)> {
        let step = 0.5 / self.cells as f64;
        let [odd_x, odd_y] = self.odd();
        let half = |at: usize| if at == 0 { 0.5 } else { 1.0 };
        let mut squares = Vec::new();
        for i in 0..self.columns() {
            for j in 0..self.cells {
                if (odd_x && i == 0) || (odd_y && j == 0) {
                    continue;
                }
                let mut terms = vec![(i * self.cells + j, -4.0)];
                // A neighbour across a line of symmetry is the one on this side; beyond the edges there is nothing.
                let mut neighbour = |i: usize, j: usize, factor: f64| {
                    if i < self.columns() && j < self.cells {
                        terms.push((i * self.cells + j, factor));
                    }
                };
                neighbour(i + 1, j, 1.0);
                neighbour(i, j + 1, 1.0);
                neighbour(if i == 0 { 1 } else { i - 1 }, j, 1.0);
                neighbour(i, if j == 0 { 1 } else { j - 1 }, 1.0);
                squares.push((half(i) * half(j) / (step * step), terms));
            }
            // At the edge the plate's half cell and the spring stand in series over the first inner deflection.
            let (bent, turned) = (0.5 / step.powi(3), held / (4.0 * step * step));
            let series = 4.0 * step * bent * turned / (bent + turned);
            squares.push((half(i) * series, vec![(i * self.cells + self.cells - 1, 1.0)]));
        }
        squares
    }

    fn solve(&self, held: f64) -> f64 {
        let (n, band) = (self.columns() * self.cells, 2 * self.cells);
        let known: Vec<Option<f64>> = (0..n).map(|at| self.known(at / self.cells, at % self.cells)).collect();
        let squares = self.squares(held);
        let mut matrix = Band { rows: vec![vec![0.0; band + 1]; n], band };
        let mut load = vec![0.0; n];
        for (weight, terms) in &squares {
            let given: f64 = terms.iter().filter_map(|&(at, factor)| Some(known[at]? * factor)).sum();
            for &(a, factor) in terms.iter().filter(|term| known[term.0].is_none()) {
                load[a] -= weight * factor * given;
                for &(b, other) in terms.iter().filter(|term| known[term.0].is_none() && term.0 <= a) {
                    matrix.rows[a][a - b] += weight * factor * other;
                }
            }
        }
        for at in (0..n).filter(|&at| known[at].is_some()) {
            matrix.rows[at][0] = 1.0;
        }
        let free = matrix.solve(load);
        let deflection: Vec<f64> = known.iter().zip(free).map(|(known, free)| known.unwrap_or(free)).collect();
        let value = |terms: &[Term]| terms.iter().map(|&(at, factor)| factor * deflection[at]).sum::<f64>();
        // Four quarters.
        4.0 * squares.iter().map(|(weight, terms)| weight * value(terms).powi(2)).sum::<f64>()
    }
}

/// A symmetric band matrix, each row from the diagonal to the left.
struct Band {
    rows: Vec<Vec<f64>>,
    band: usize,
}

impl Band {
    /// Cholesky, then both substitutions.
    fn solve(mut self, mut values: Vec<f64>) -> Vec<f64> {
        for i in 0..values.len() {
            let first = i.saturating_sub(self.band);
            let (above, rest) = self.rows.split_at_mut(i);
            let row = &mut rest[0];
            for j in first..=i {
                let from = first.max(j.saturating_sub(self.band));
                let other = if j < i { above[j].as_slice() } else { &[] };
                let sum: f64 = if j < i {
                    (from..j).map(|k| row[i - k] * other[j - k]).sum()
                } else {
                    (from..j).map(|k| row[i - k] * row[i - k]).sum()
                };
                let left = row[i - j] - sum;
                row[i - j] = if j < i { left / other[0] } else { left.sqrt() };
            }
            let sum: f64 = (first..i).map(|k| self.rows[i][i - k] * values[k]).sum();
            values[i] = (values[i] - sum) / self.rows[i][0];
        }
        for i in (0..values.len()).rev() {
            values[i] /= self.rows[i][0];
            for k in i.saturating_sub(self.band)..i {
                values[k] -= self.rows[i][i - k] * values[i];
            }
        }
        values
    }
}
