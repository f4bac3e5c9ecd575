//! How many eigenvalues of a symmetric matrix are negative, counted and not searched for.

use nalgebra_sparse::CscMatrix;

use super::factor::{Method, NotPositive, Symbolic};
use super::library::{Analysed, Indefinite};

/// LDLᵀ of a symmetric matrix that need not be positive.
#[derive(Debug)]
pub struct Signs<'s> {
    pattern: Kept<'s>,
    factor: Indefinite,
}

/// A pattern of one's own, or the analysis'.
#[derive(Debug)]
enum Kept<'s> {
    Analysis(&'s Analysed),
    Own(Box<Analysed>),
}

impl Kept<'_> {
    fn get(&self) -> &Analysed {
        match self {
            Self::Analysis(pattern) => pattern,
            Self::Own(pattern) => pattern,
        }
    }
}

impl Symbolic {
    /// Factors a matrix (lower triangle) of the analysed pattern that need not be positive, on one thread.
    ///
    /// # Errors
    /// [`NotPositive`] with the equation whose pivot is zero: the matrix is singular to the last digit.
    pub fn signs<'s>(&'s self, matrix: &CscMatrix<f64>) -> Result<Signs<'s>, NotPositive> {
        let pattern = match &self.0 {
            Method::Whole(analysed) => Kept::Analysis(analysed),
            Method::Fronts(tree, _) => Kept::Own(Box::new(Analysed::of(matrix.pattern(), &tree.order))),
        };
        let factor = pattern.get().factor_indefinite(matrix).map_err(|equation| NotPositive { equation })?;
        Ok(Signs { pattern, factor })
    }
}

impl Signs<'_> {
    /// How many eigenvalues are negative.
    ///
    /// # Source
    /// Sylvester's law of inertia: as many as pivots (from memory; Parlett (1998), The Symmetric Eigenvalue Problem, SIAM,
    /// § 3.3).
    pub fn negative(&self) -> usize {
        self.pattern.get().negative(&self.factor)
    }

    /// How many equations there are.
    pub fn len(&self) -> usize {
        self.pattern.get().len()
    }

    /// Solves in place for `columns` right-hand sides that stand one after another in `b`.
    pub fn solve(&self, b: &mut [f64], columns: usize) {
        self.pattern.get().solve_indefinite(&self.factor, b, columns);
    }
}
