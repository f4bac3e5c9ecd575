//! Bases of motions: start vectors, orthogonality, independence, and taking motions apart.

use nalgebra::{DMatrix, SymmetricEigen};

/// A fixed vector without symmetry, so that no motion is missed by chance.
pub(super) fn start_vector(n: usize, seed: u64) -> Vec<f64> {
    let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15);
    (0..n)
        .map(|_| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 11) as f64 / (1u64 << 52) as f64 - 1.0
        })
        .collect()
}

/// Modified Gram–Schmidt, twice, in the inner product of a diagonal.
pub(super) fn orthonormalise(block: &mut [Vec<f64>], diagonal: &[f64]) {
    for column in 0..block.len() {
        let (done, rest) = block.split_at_mut(column);
        let vector = &mut rest[0];
        for _ in 0..2 {
            for other in done.iter() {
                let along: f64 = vector.iter().zip(other).zip(diagonal).map(|((a, b), d)| a * b * d).sum();
                for (value, b) in vector.iter_mut().zip(other) {
                    *value -= along * b;
                }
            }
        }
        let norm = vector.iter().zip(diagonal).map(|(a, d)| a * a * d).sum::<f64>().sqrt();
        for value in vector.iter_mut() {
            *value /= norm;
        }
    }
}

/// The `count` largest independent directions of a set.
pub(super) fn independent(vectors: &[Vec<f64>], count: usize) -> Vec<Vec<f64>> {
    let k = vectors.len();
    let gram = DMatrix::from_fn(k, k, |i, j| vectors[i].iter().zip(&vectors[j]).map(|(a, b)| a * b).sum::<f64>());
    let eigen = SymmetricEigen::new(gram);
    let mut order: Vec<usize> = (0..k).collect();
    order.sort_by(|a, b| eigen.eigenvalues[*b].total_cmp(&eigen.eigenvalues[*a]));
    order
        .into_iter()
        .take(count)
        .map(|i| {
            let mut sum = vec![0.0; vectors[0].len()];
            for (share, vector) in eigen.eigenvectors.column(i).iter().zip(vectors) {
                for (s, v) in sum.iter_mut().zip(vector) {
                    *s += share * v;
                }
            }
            sum
        })
        .collect()
}

/// Recombines a basis so that each vector has a component of 1 where all others have 0: independent motions come apart.
pub(super) fn localise(basis: &mut [Vec<f64>]) {
    for row in 0..basis.len() {
        // The largest component among the vectors not done yet.
        let (mut pivot, mut most) = ((row, 0), 0.0);
        for (i, vector) in basis.iter().enumerate().skip(row) {
            for (j, value) in vector.iter().enumerate() {
                if value.abs() > most * (1.0 + 1e-9) {
                    (pivot, most) = ((i, j), value.abs());
                }
            }
        }
        if most == 0.0 {
            return;
        }
        basis.swap(row, pivot.0);
        let divisor = basis[row][pivot.1];
        for value in &mut basis[row] {
            *value /= divisor;
        }
        let done = basis[row].clone();
        for (i, vector) in basis.iter_mut().enumerate() {
            if i != row {
                let factor = vector[pivot.1];
                for (value, d) in vector.iter_mut().zip(&done) {
                    *value -= factor * d;
                }
            }
        }
    }
    for vector in basis {
        for value in vector.iter_mut() {
            if value.abs() < 1e-9 {
                *value = 0.0;
            }
        }
    }
}

pub(super) fn largest(values: &[f64]) -> usize {
    values.iter().enumerate().fold(0, |best, (i, v)| if v.abs() > values[best].abs() * (1.0 + 1e-9) { i } else { best })
}
