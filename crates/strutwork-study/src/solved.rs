//! A solved variant: what was found at once, and what is found when somebody asks for it.

use std::sync::{Arc, OnceLock};

use strutwork_checks::{Finding, Judged, check_all, check_one};
use strutwork_loads::LoadCases;
use strutwork_model::{JointId, Model};
use strutwork_solve::results::{MeasureResult, Refused};
use strutwork_solve::{Bays, CaseResult, Counters, FrameLengths, Results, find_bays, solve_cases};

use crate::fast::Swift;

/// Checks of this crate's first letter look at how the equations were solved, which a variant that was not solved the whole
/// way does not know of itself.
const TRUST: char = 'T';
/// The checks that look at the frame's bays.
const OF_BAYS: [&str; 2] = ["D007", "D008"];

/// A solved model. Its forces are found, and it is judged, when somebody asks.
#[derive(Debug)]
pub struct Solved {
    from: From,
    /// Buckling lengths from the frame's load factors, where somebody asked for them.
    lengths: Option<FrameLengths>,
    bays: OnceLock<Bays>,
    /// What all checks say, of the gathered results and of the complete ones.
    judged: [OnceLock<Vec<Finding>>; 2],
}

#[derive(Debug)]
enum From {
    /// Everything was found at once.
    Whole { model: Arc<Model>, cases: Arc<LoadCases>, results: Box<Results> },
    /// Movements alone are known.
    Movements(Box<Later>),
}

/// What is found when somebody asks.
#[derive(Debug)]
struct Later {
    swift: Swift,
    model: OnceLock<Arc<Model>>,
    /// Of each case that was asked for by itself.
    found: Vec<OnceLock<CaseResult>>,
    /// Without what is known of the equations.
    gathered: OnceLock<Results>,
    results: OnceLock<Results>,
}

impl Solved {
    /// A solved model that nobody has judged yet.
    pub fn new(model: Arc<Model>, cases: LoadCases, results: Results) -> Self {
        Self::of(From::Whole { model, cases: Arc::new(cases), results: Box::new(results) })
    }

    /// A variant of which the movements alone are known.
    pub(crate) fn of_movements(swift: Swift) -> Self {
        let found = swift.cases().0.iter().map(|_| OnceLock::new()).collect();
        let [gathered, results] = [OnceLock::new(), OnceLock::new()];
        Self::of(From::Movements(Box::new(Later { swift, model: OnceLock::new(), found, gathered, results })))
    }

    fn of(from: From) -> Self {
        Self { from, lengths: None, bays: OnceLock::new(), judged: [OnceLock::new(), OnceLock::new()] }
    }

    /// The same, to be judged with buckling lengths from the frame's load factors.
    pub fn with_lengths(self, lengths: FrameLengths) -> Self {
        Self { lengths: Some(lengths), judged: [OnceLock::new(), OnceLock::new()], ..self }
    }

    /// The model.
    pub fn model(&self) -> &Arc<Model> {
        match &self.from {
            From::Whole { model, .. } => model,
            From::Movements(later) => later.model(),
        }
    }

    /// A model with the same joints, under the same names: all that is needed to find one.
    pub fn frame(&self) -> &Model {
        match &self.from {
            From::Whole { model, .. } => model,
            From::Movements(later) => later.swift.frame(),
        }
    }

    /// What acts.
    pub fn cases(&self) -> &LoadCases {
        match &self.from {
            From::Whole { cases, .. } => cases,
            From::Movements(later) => later.swift.cases(),
        }
    }

    /// How many cases have results.
    pub fn count(&self) -> usize {
        match &self.from {
            From::Whole { results, .. } => results.cases.len(),
            From::Movements(later) => later.found.len(),
        }
    }

    /// The name of the case at this place, of those that have results.
    pub fn case_name(&self, place: usize) -> &str {
        match &self.from {
            From::Whole { results, .. } => &results.cases[place].name,
            From::Movements(later) => &later.swift.cases().0[place].name,
        }
    }

    /// What came out of the case at this place.
    pub fn case(&self, place: usize) -> &CaseResult {
        match &self.from {
            From::Whole { results, .. } => &results.cases[place],
            From::Movements(later) => later.case(place),
        }
    }

    /// Movement of a joint in the case at this place, m and rad, global axes.
    pub fn movement(&self, place: usize, joint: JointId) -> [f64; 6] {
        match &self.from {
            From::Whole { results, .. } => results.cases[place].displacements[joint],
            From::Movements(later) => later.swift.movement(place, joint),
        }
    }

    /// What was read off the case at this place.
    pub fn measures(&self, place: usize) -> Vec<MeasureResult> {
        match &self.from {
            From::Whole { results, .. } => results.cases[place].measures.clone(),
            From::Movements(later) => later.swift.measures(place),
        }
    }

    /// Load cases that have no result.
    pub fn refused(&self) -> &[Refused] {
        match &self.from {
            From::Whole { results, .. } => &results.refused,
            From::Movements(_) => &[],
        }
    }

    /// Everything that came out, with what is known of the equations. Of a variant of which the movements alone are known it
    /// takes a solution of its own.
    pub fn results(&self) -> &Results {
        match &self.from {
            From::Whole { results, .. } => results,
            From::Movements(later) => later.results(),
        }
    }

    /// Everything that came out of the cases; what is known of the equations is not always there.
    pub(crate) fn gathered(&self) -> &Results {
        match &self.from {
            From::Whole { results, .. } => results,
            From::Movements(later) => later.gathered(),
        }
    }

    fn bays(&self) -> &Bays {
        self.bays.get_or_init(|| find_bays(self.model()))
    }

    fn look<'a>(&'a self, results: &'a Results, bays: &'a Bays) -> Judged<'a> {
        let lengths = self.lengths.as_ref();
        Judged { model: self.model(), cases: self.cases(), results, bays, lengths }
    }

    /// What checks look at.
    pub fn judged(&self) -> Judged<'_> {
        self.look(self.results(), self.bays())
    }

    /// What the checks say.
    pub fn findings(&self) -> &[Finding] {
        self.judged[1].get_or_init(|| check_all(self.judged()))
    }

    /// What the checks say that do not look at the equations.
    pub(crate) fn design_findings(&self) -> &[Finding] {
        match &self.from {
            From::Whole { .. } => self.findings(),
            From::Movements(_) => self.judged[0].get_or_init(|| check_all(self.look(self.gathered(), self.bays()))),
        }
    }

    /// The worst utilisation of all checks; 0 where nothing has a limit.
    pub fn worst_utilisation(&self) -> f64 {
        worst(self.design_findings())
    }

    /// The worst utilisation of one check, which alone is made; 0 where nothing has a limit.
    pub(crate) fn utilisation_of(&self, code: &str) -> f64 {
        let none = Bays::default();
        let bays = if OF_BAYS.contains(&code) { self.bays() } else { &none };
        let results = if code.starts_with(TRUST) { self.results() } else { self.gathered() };
        worst(&check_one(self.look(results, bays), code))
    }
}

impl Later {
    fn model(&self) -> &Arc<Model> {
        self.model.get_or_init(|| self.swift.model())
    }

    fn case(&self, place: usize) -> &CaseResult {
        match self.gathered.get() {
            Some(gathered) => &gathered.cases[place],
            None => self.found[place].get_or_init(|| self.swift.result(self.model(), place)),
        }
    }

    fn gathered(&self) -> &Results {
        self.gathered.get_or_init(|| Results {
            cases: self.swift.results(self.model()),
            systems: Vec::new(),
            counters: Counters::default(),
            refused: Vec::new(),
        })
    }

    fn results(&self) -> &Results {
        self.results.get_or_init(|| {
            // It was solved before: where it cannot be again, what the movements say stands.
            solve_cases(self.model(), self.swift.cases()).unwrap_or_else(|_| self.gathered().clone())
        })
    }
}

/// The worst utilisation of findings; 0 where nothing has a limit.
fn worst(findings: &[Finding]) -> f64 {
    findings.iter().filter_map(|finding| finding.utilisation).fold(0.0, f64::max)
}
