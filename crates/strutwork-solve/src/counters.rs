//! Work done, counted: tests assert these exactly, so that a lost reuse shows without a stopwatch.

/// How often each expensive step was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counters {
    /// Orderings and symbolic factorisations.
    pub symbolic_analyses: u64,
    /// Numeric factorisations.
    pub factorisations: u64,
    /// Right-hand sides solved, refinement not counted.
    pub solves: u64,
    /// Right-hand sides solved again for iterative refinement.
    pub refinement_solves: u64,
    /// Right-hand sides solved to estimate the condition number.
    pub condition_solves: u64,
    /// Factorisations that count negative eigenvalues.
    pub sign_counts: u64,
    /// Free equations of the largest system.
    pub equations: u64,
    /// Entries of the lower triangle of the largest stiffness matrix.
    pub stiffness_entries: u64,
    /// Entries of the largest factor.
    pub factor_entries: u64,
}

impl Counters {
    /// Adds the work of another part: steps add up, sizes are the largest.
    pub fn add(&mut self, other: &Self) {
        for (steps, more) in [
            (&mut self.symbolic_analyses, other.symbolic_analyses),
            (&mut self.factorisations, other.factorisations),
            (&mut self.solves, other.solves),
            (&mut self.refinement_solves, other.refinement_solves),
            (&mut self.condition_solves, other.condition_solves),
            (&mut self.sign_counts, other.sign_counts),
        ] {
            *steps += more;
        }
        for (size, other) in [
            (&mut self.equations, other.equations),
            (&mut self.stiffness_entries, other.stiffness_entries),
            (&mut self.factor_entries, other.factor_entries),
        ] {
            *size = (*size).max(other);
        }
    }
}
