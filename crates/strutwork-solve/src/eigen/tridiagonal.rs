//! Eigenvalues of a symmetric tridiagonal matrix by implicit QL steps, with as many rows of the eigenvectors as are asked for.

/// QL steps for one eigenvalue beyond which something is wrong: two or three are usual.
const MOST_STEPS: usize = 60;

/// Eigenvalues in no order, and rows of the eigenvectors' matrix: `rows[r][k]` is a component of vector `k`.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Spectrum {
    /// The eigenvalues.
    pub values: Vec<f64>,
    /// The rows that were started with, carried along.
    pub rows: Vec<Vec<f64>>,
}

/// The eigenvalues of the matrix with `alpha` on its diagonal and `beta` beside it, and the last row of its vectors alone:
/// n² operations.
pub(crate) fn with_last_row(alpha: &[f64], beta: &[f64]) -> Spectrum {
    let mut last = vec![0.0; alpha.len()];
    if let Some(end) = last.last_mut() {
        *end = 1.0;
    }
    spectrum(alpha, beta, vec![last])
}

/// The same with all rows: n³ operations.
pub(crate) fn with_vectors(alpha: &[f64], beta: &[f64]) -> Spectrum {
    let n = alpha.len();
    let unit = |at: usize| (0..n).map(|place| if place == at { 1.0 } else { 0.0 }).collect();
    spectrum(alpha, beta, (0..n).map(unit).collect())
}

/// # Source
/// Bowdler, Martin, Reinsch & Wilkinson (1968), The QR and QL algorithms for symmetric matrices, Numerische Mathematik 11,
/// p. 293 (from memory).
fn spectrum(alpha: &[f64], beta: &[f64], mut rows: Vec<Vec<f64>>) -> Spectrum {
    let n = alpha.len();
    let mut d = alpha.to_vec();
    let mut e = beta[..n.saturating_sub(1)].to_vec();
    e.push(0.0);
    for low in 0..n {
        for _ in 0..MOST_STEPS {
            // The first place from here on where the matrix falls apart.
            let split = (low..n - 1).find(|&at| e[at].abs() <= f64::EPSILON * (d[at].abs() + d[at + 1].abs()));
            let high = split.unwrap_or(n - 1);
            if high == low {
                break;
            }
            step(&mut d, &mut e, &mut rows, low, high);
        }
    }
    Spectrum { values: d, rows }
}

/// One implicit step on the block from `low` to `high`, with the shift of its first two rows.
fn step(d: &mut [f64], e: &mut [f64], rows: &mut [Vec<f64>], low: usize, high: usize) {
    let half = (d[low + 1] - d[low]) / (2.0 * e[low]);
    let mut g = d[high] - d[low] + e[low] / (half + half.hypot(1.0).copysign(half));
    let (mut sine, mut cosine, mut moved) = (1.0, 1.0, 0.0);
    for at in (low..high).rev() {
        let (f, b) = (sine * e[at], cosine * e[at]);
        let length = f.hypot(g);
        e[at + 1] = length;
        if length == 0.0 {
            // What was to be turned is nothing: the block falls apart here.
            d[at + 1] -= moved;
            e[high] = 0.0;
            return;
        }
        (sine, cosine) = (f / length, g / length);
        g = d[at + 1] - moved;
        let r = (d[at] - g) * sine + 2.0 * cosine * b;
        moved = sine * r;
        d[at + 1] = g + moved;
        g = cosine * r - b;
        for row in &mut *rows {
            let (left, right) = (row[at], row[at + 1]);
            row[at + 1] = sine * left + cosine * right;
            row[at] = cosine * left - sine * right;
        }
    }
    d[low] -= moved;
    e[low] = g;
    e[high] = 0.0;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_second_difference_has_its_known_values_and_vectors() {
        let n = 40;
        let found = with_vectors(&vec![2.0; n], &vec![-1.0; n - 1]);
        let mut order: Vec<usize> = (0..n).collect();
        order.sort_by(|a, b| found.values[*a].total_cmp(&found.values[*b]));
        for (k, &place) in order.iter().enumerate() {
            let angle = std::f64::consts::PI * (k + 1) as f64 / (n + 1) as f64;
            assert!((found.values[place] - (2.0 - 2.0 * angle.cos())).abs() < 1e-13);
            let scale = (2.0 / (n + 1) as f64).sqrt();
            for row in 0..n {
                let expected = scale * ((row + 1) as f64 * angle).sin();
                let sign = found.rows[0][place].signum();
                assert!((sign * found.rows[row][place] - expected).abs() < 1e-12, "{row} {k}");
            }
        }
        let last = with_last_row(&vec![2.0; n], &vec![-1.0; n - 1]);
        assert_eq!((&last.values, &last.rows[0]), (&found.values, &found.rows[n - 1]), "the same bits");
    }

    #[test]
    fn what_falls_apart_and_what_is_equal_is_no_trouble() {
        let found = with_vectors(&[3.0, 3.0, 5.0, 0.0], &[0.0, 2.0, 0.0]);
        let mut values = found.values.clone();
        values.sort_by(f64::total_cmp);
        let expected = [0.0, 4.0 - 5.0_f64.sqrt(), 3.0, 4.0 + 5.0_f64.sqrt()];
        assert!(values.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-14), "{values:?}");
        assert_eq!(with_vectors(&[7.0], &[]), Spectrum { values: vec![7.0], rows: vec![vec![1.0]] });
        assert_eq!(with_last_row(&[], &[]).values, Vec::<f64>::new());
    }

    #[test]
    fn each_pair_satisfies_its_equation() {
        let alpha: Vec<f64> = (0..60).map(|i| (f64::from(i) * 1.7).sin() * 10.0_f64.powi(i % 7 - 3)).collect();
        let beta: Vec<f64> = (0..59).map(|i| (f64::from(i) * 0.9).cos() * 10.0_f64.powi(i % 5 - 3)).collect();
        let found = with_vectors(&alpha, &beta);
        let size = alpha.iter().chain(&beta).fold(0.0, |most: f64, x| most.max(x.abs()));
        for k in 0..60 {
            for i in 0..60 {
                let v = |at: usize| found.rows[at][k];
                let before = if i > 0 { beta[i - 1] * v(i - 1) } else { 0.0 };
                let after = if i < 59 { beta[i] * v(i + 1) } else { 0.0 };
                let left = before + alpha[i] * v(i) + after - found.values[k] * v(i);
                assert!(left.abs() < 1e-13 * size, "{i} {k}: {left}");
            }
        }
    }
}
