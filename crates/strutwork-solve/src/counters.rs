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
    /// Free equations of the largest system.
    pub equations: u64,
    /// Entries of the lower triangle of the largest stiffness matrix.
    pub stiffness_entries: u64,
    /// Entries of the largest factor.
    pub factor_entries: u64,
}

impl Counters {
    /// Adds the work of another part; of sizes the larger stays.
    pub(crate) fn add(&mut self, other: Self) {
        self.symbolic_analyses += other.symbolic_analyses;
        self.factorisations += other.factorisations;
        self.solves += other.solves;
        self.refinement_solves += other.refinement_solves;
        self.condition_solves += other.condition_solves;
        self.equations = self.equations.max(other.equations);
        self.stiffness_entries = self.stiffness_entries.max(other.stiffness_entries);
        self.factor_entries = self.factor_entries.max(other.factor_entries);
    }
}
