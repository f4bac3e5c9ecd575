//! A frame of one topology, prepared for many variants.

use std::sync::Arc;

use strutwork_loads::case::Measure;
use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::ids::Id;
use strutwork_model::{Model, TubeId};

use super::group::{Group, Way};
use super::update::Kept;
use super::variant::TubeSet;
use super::worker::{Worker, Workspace};
use crate::analysis::case::Held;
use crate::analysis::{self, Prepared, grouped};
use crate::counters::Counters;
use crate::elements::Elements;
use crate::error::SolveError;
use crate::relief;

/// A frame whose variants are to be solved: everything that they share.
///
/// # Example
/// ```
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// use strutwork_solve::reanalysis::{Family, Outcome, TubeStiffness, Variant};
/// # use strutwork_model::files::{InputFile, InputFiles};
/// # let file = |name: &str, text: &str| InputFile { name: name.into(), bytes: text.into() };
/// # let files = InputFiles(vec![
/// #     file("model.toml", "title = 'one tube'\n[materials.mild]\ngrade = 'S235JRH'\n[sections.rail]\nshape = 'square'\nwidth_mm = 30\nwall_mm = 2\n[options]\nself_weight = false\n"),
/// #     file("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,500,0,0\n"),
/// #     file("tubes.csv", "tube,from,to,section,material\nT1,wall,tip,rail,mild\n"),
/// #     file("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\n"),
/// #     file("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npull down,tip,0,0,-100,0,0,0\n"),
/// # ]);
/// let model = std::sync::Arc::new(strutwork_model::read_model(&files)?.value);
/// let cases = strutwork_loads::derive_plain(&model)?;
/// let mut family = Family::of(&model, &cases)?;
/// let tube = family.tubes(&[model.tube_named("T1").unwrap()]);
/// let stiffness = TubeStiffness::new(&model.sections().iter().next().unwrap(), &model.materials().iter().next().unwrap());
/// let twice = TubeStiffness { eiy: 2.0 * stiffness.eiy, ..stiffness };
/// let variants = [Variant::new().with(tube, stiffness), Variant::new().with(tube, twice), Variant::new().without(tube)];
/// let tip = model.joint_named("tip").unwrap();
/// let mut sags = Vec::new();
/// family.worker().solve(&variants, |_, outcome| match outcome {
///     Outcome::Solved(moved) => sags.push(moved.joint(0, tip)[2]),
///     Outcome::Failed(_) => sags.push(f64::NEG_INFINITY), // a mechanism: nothing is left that holds the tip
/// });
/// assert!((sags[0] / sags[1] - 2.0).abs() < 1e-12);
/// assert_eq!(sags[2], f64::NEG_INFINITY);
/// # Ok(())
/// # }
/// ```
pub struct Family {
    pub(super) model: Arc<Model>,
    pub(super) cases: Vec<LoadCase>,
    pub(super) elements: Elements,
    pub(super) groups: Vec<Group>,
    /// Group of each case, and its place in it.
    pub(super) places: Vec<(usize, usize)>,
    pub(super) sets: Vec<Vec<usize>>,
    /// Work done in preparing.
    counters: Counters,
}

/// Right-hand sides of a variant whose loads differ from the family's.
#[derive(Clone)]
pub struct Rights(pub(super) Arc<Vec<Load>>);

/// What acts in the cases of one group.
pub(super) struct Load {
    pub(super) loads: Prepared,
    /// In the order of the registers.
    pub(super) ordered: Vec<f64>,
    /// What frees the displacements of a free frame of rigid motion.
    pub(super) projection: Option<relief::Projection>,
    /// What each case wants read off: the couple of a twist may follow from the variant's own masses.
    pub(super) measures: Vec<Vec<Measure>>,
}

/// Why cases give no right-hand sides for a family.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RightsError {
    /// They are other cases, or the frame is held otherwise in them.
    #[error("the variant's cases are not those of the family: their number and their supports must be the same")]
    OtherCases,
    /// Their loads are refused.
    #[error(transparent)]
    Loads(#[from] SolveError),
}

impl std::fmt::Debug for Rights {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Rights").field("groups", &self.0.len()).finish()
    }
}

impl std::fmt::Debug for Family {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Family").field("cases", &self.cases.len()).field("sets", &self.sets).finish_non_exhaustive()
    }
}

impl Family {
    /// Prepares a model and its cases, and solves them as they are.
    ///
    /// Tubes that some variants lack must be in the model.
    ///
    /// # Errors
    /// As [`solve_cases`](crate::solve_cases).
    pub fn of(model: &Arc<Model>, cases: &LoadCases) -> Result<Self, SolveError> {
        let elements = Elements::of(model);
        let mut counters = Counters::default();
        let mut groups = Vec::new();
        let mut places = vec![(0, 0); cases.0.len()];
        for members in grouped(&cases.0) {
            for (index, member) in members.iter().enumerate() {
                places[*member] = (groups.len(), index);
            }
            let held: Vec<&LoadCase> = members.iter().map(|member| &cases.0[*member]).collect();
            groups.push(Group::of(model, &elements, &held, members, &mut counters)?);
        }
        Ok(Self {
            model: Arc::clone(model),
            cases: cases.0.clone(),
            elements,
            groups,
            places,
            sets: Vec::new(),
            counters,
        })
    }

    /// Names tubes that change together.
    pub fn tubes(&mut self, tubes: &[TubeId]) -> TubeSet {
        self.sets.push(tubes.iter().map(|tube| tube.index()).collect());
        TubeSet(self.sets.len() - 1)
    }

    /// Keeps what is needed to correct the family's own solutions for changes of these tubes, such as diagonals that may be
    /// left out. It takes six solutions for each tube, and the memory for them; those kept before are dropped.
    pub fn keep(&mut self, sets: &[TubeSet]) {
        let mut tubes: Vec<usize> = sets.iter().flat_map(|set| self.sets[set.0].iter().copied()).collect();
        tubes.sort_unstable();
        tubes.dedup();
        for group in &mut self.groups {
            group.kept = match group.way {
                Way::Singly => None,
                Way::Lanes(_) | Way::Whole(_) => {
                    Kept::of(&self.model, &self.elements, group, &tubes, &mut self.counters)
                }
            };
        }
    }

    /// Right-hand sides for variants under other loads: the same cases in the same order, derived from a variant's model.
    ///
    /// # Errors
    /// As [`solve_cases`](crate::solve_cases) where it refuses loads; where the cases are not held as the family's are.
    pub fn rights(&self, model: &Model, cases: &LoadCases) -> Result<Rights, RightsError> {
        if !alike(&cases.0, &self.cases) {
            return Err(RightsError::OtherCases);
        }
        let elements = Elements::of(model);
        let of = |group: &Group| {
            let held: Vec<&LoadCase> = group.members.iter().map(|member| &cases.0[*member]).collect();
            let loads = analysis::prepare(model, &elements, &group.numbering, group.held.supports(), &held)?;
            let ordered = group.lanes().map_or_else(Vec::new, |lanes| lanes.ordered(&loads.rights));
            let free = matches!(group.held, Held::Free { .. });
            let projection = free.then(|| relief::projection(model, &elements));
            let measures = held.iter().map(|case| case.measures.clone()).collect();
            Ok::<_, SolveError>(Load { loads, ordered, projection, measures })
        };
        Ok(Rights(Arc::new(self.groups.iter().map(of).collect::<Result<_, _>>()?)))
    }

    /// A worker for one thread.
    pub fn worker(&self) -> Worker<'_> {
        Worker { family: self, space: Workspace::of(self) }
    }

    /// How many variants are solved side by side: best given to a worker in multiples of it.
    pub fn lanes(&self) -> usize {
        crate::registers::lanes()
    }

    /// Work that preparing took.
    pub fn counters(&self) -> Counters {
        self.counters
    }

    /// Operations (additions, multiplications, divisions, roots) of factoring and solving all cases of one variant anew.
    pub fn flops(&self) -> f64 {
        self.groups.iter().map(|group| group.flops).sum()
    }
}

/// Whether these are as many cases, held alike.
pub(super) fn alike(cases: &[LoadCase], others: &[LoadCase]) -> bool {
    let held = |(one, other): (&LoadCase, &LoadCase)| one.supports == other.supports && one.free == other.free;
    cases.len() == others.len() && cases.iter().zip(others).all(held)
}
