//! Both ways to a factor beside each other, and the one made front by front on several threads.

use nalgebra_sparse::CscMatrix;
use strutwork_model::Dof;
use strutwork_testkit::Lattice;

use super::factor::{Factored, Method, NotPositive, Symbolic};
use super::groups::Groups;
use super::layout::Layout;
use super::library::{Analysed, minimum_degree};
use super::ordering::dissect;
use super::plan::Plan;
use super::pool::Pool;
use super::reroot::rerooted;
use super::tree::Tree;
use crate::assembly::{Pattern, System};
use crate::elements::Elements;
use crate::numbering::Numbering;

/// A lattice fixed at one end, and in some directions at a few joints inside.
struct Frame {
    pattern: Pattern,
    numbering: Numbering,
    system: System,
    places: Vec<[f64; 3]>,
}

impl Frame {
    fn of(cubes: [usize; 3]) -> Self {
        let model = Lattice { cubes, cases: 1 }.folder().model();
        let mut supports = model.supports().to_vec();
        let mut partly = supports[0].clone();
        partly.holds[Dof::Uy] = strutwork_model::model::Hold::Free;
        partly.holds[Dof::Rz] = strutwork_model::model::Hold::Free;
        for joint in model.joints().ids().skip(3).step_by(17) {
            if supports.iter().all(|support| support.joint != joint) {
                partly.joint = joint;
                supports.push(partly.clone());
            }
        }
        let numbering = Numbering::of(&model, &supports);
        let elements = Elements::of(&model);
        let pattern = Pattern::of(&elements, &numbering);
        let system = System::assemble(&elements, &numbering, &pattern, &supports);
        Self { system, places: crate::rigid::places(&model), pattern, numbering }
    }

    /// Both ways, with one order of elimination: minimum degree rooted in the middle.
    fn both(&self) -> [Symbolic; 2] {
        self.both_in(minimum_degree(Layout::of(&self.pattern, &self.numbering).graph()))
    }

    /// Both ways, with one order of elimination that adds as much as this one.
    fn both_in(&self, order: Vec<usize>) -> [Symbolic; 2] {
        let layout = Layout::of(&self.pattern, &self.numbering);
        let grouped = |order: Vec<usize>| Groups::of(layout.graph(), layout.counts(), order.into_iter());
        let groups = grouped(rerooted(&grouped(order)));
        let tree = Tree::of(&groups, &layout);
        let whole = Analysed::of(self.pattern.csc(), &tree.order);
        [Symbolic(Method::Whole(whole)), Symbolic(Method::Fronts(tree, Pool::default()))]
    }

    /// Three right-hand sides without any order in them.
    fn rights(&self) -> Vec<f64> {
        (0..3 * self.numbering.len()).map(|i| ((i * 7919) % 1013) as f64 - 506.0).collect()
    }

    fn solutions(&self, factored: &Factored<'_>) -> Vec<f64> {
        let mut block = self.rights();
        factored.solve(&mut block, 3);
        block
    }
}

fn bits(values: &[f64]) -> Vec<u64> {
    values.iter().map(|value| value.to_bits()).collect()
}

/// Largest difference over the largest value.
fn difference(a: &[f64], b: &[f64]) -> f64 {
    let size = a.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    a.iter().zip(b).fold(0.0_f64, |most, (a, b)| most.max((a - b).abs())) / size
}

#[test]
fn factor_and_solutions_have_the_same_bits_on_any_number_of_threads() {
    let frame = Frame::of([16, 4, 4]);
    let layout = Layout::of(&frame.pattern, &frame.numbering);
    let dissected = dissect(&frame.places, layout.graph(), &minimum_degree(layout.graph()));
    let [_, fronts] = frame.both_in(dissected);
    let Method::Fronts(tree, _) = &fronts.0 else { panic!("not by fronts") };
    let Plan::Fork(fork) = &tree.plan else { panic!("nothing side by side") };
    assert!(matches!((&fork.left, &fork.right), (Plan::Fork(_), Plan::Fork(_))), "two parts side by side, not four");
    // Large enough for the solve to be shared as well.
    assert!(3 * tree.len_values > 1_000_000);
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| {
            let factored = fronts.factor(frame.system.stiffness()).unwrap();
            (bits(&factored.values), bits(&frame.solutions(&factored)), factored.smallest_pivot())
        })
    };
    let one = on(1);
    assert!(one == on(2), "two threads");
    assert!(one == on(4), "four threads");
}

#[test]
fn both_ways_agree() {
    for cubes in [[3, 2, 2], [8, 3, 3]] {
        let frame = Frame::of(cubes);
        let [whole, fronts] = frame.both();
        let [whole, fronts] = [&whole, &fronts].map(|way| way.factor(frame.system.stiffness()).unwrap());
        let solutions = [&whole, &fronts].map(|factored| frame.solutions(factored));
        assert!(difference(&solutions[0], &solutions[1]) < 1e-12);
        let (pivots, equations): (Vec<f64>, Vec<usize>) =
            [&whole, &fronts].iter().map(|factored| factored.smallest_pivot()).unzip();
        assert!(difference(&pivots[..1], &pivots[1..]) < 1e-10, "{pivots:?}");
        assert_eq!(equations[0], equations[1]);
        // The residual, which knows nothing of either.
        let product = frame.system.multiply(&solutions[1][..frame.numbering.len()]);
        assert!(difference(&frame.rights()[..frame.numbering.len()], &product) < 1e-9);
    }
}

#[test]
fn a_pivot_that_is_not_positive_is_named_in_the_callers_numbering() {
    let frame = Frame::of([8, 3, 3]);
    let ways = frame.both();
    for equation in (0..frame.numbering.len()).step_by(97) {
        let mut system = frame.system.clone();
        // Without this equation the rest is sound, so that it is the one to fail whatever the order.
        let diagonal = system.diagonal()[equation];
        system.add_diagonal(equation, -2.0 * diagonal);
        for way in &ways {
            assert_eq!(way.factor(system.stiffness()).unwrap_err(), NotPositive { equation });
        }
    }
}

#[test]
fn of_two_failing_branches_the_one_eliminated_first_is_named_on_any_number_of_threads() {
    let frame = Frame::of([16, 4, 4]);
    let ways = frame.both();
    let Method::Fronts(tree, _) = &ways[1].0 else { panic!("not by fronts") };
    let Plan::Fork(fork) = &tree.plan else { panic!("nothing side by side") };
    let mut system = frame.system.clone();
    let equation_of = |front: usize| tree.order[tree.fronts[front].columns.start];
    let (left, right) = (equation_of(fork.left.fronts().start), equation_of(fork.right.fronts().start));
    let diagonal = system.diagonal();
    system.add_diagonal(left, -2.0 * diagonal[left]);
    system.add_diagonal(right, -2.0 * diagonal[right]);
    for threads in [1, 2, 4] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let failed = pool.install(|| ways[1].factor(system.stiffness()).unwrap_err());
        assert_eq!(failed, NotPositive { equation: left });
    }
}

#[test]
fn a_factor_in_used_memory_is_the_same() {
    let frame = Frame::of([8, 3, 3]);
    let [_, fronts] = frame.both();
    let stiffness: &CscMatrix<f64> = frame.system.stiffness();
    let first = fronts.factor(stiffness).unwrap();
    let (expected, place) = (bits(&first.values), first.values.as_ptr());
    drop(first);
    let mut softer = frame.system.clone();
    softer.add_diagonal(5, 1e3);
    assert!(bits(&fronts.factor(softer.stiffness()).unwrap().values) != expected);
    softer.add_diagonal(5, -1e12);
    assert!(fronts.factor(softer.stiffness()).is_err());
    let again = fronts.factor(stiffness).unwrap();
    assert_eq!(again.values.as_ptr(), place);
    assert!(bits(&again.values) == expected);
}

#[test]
fn the_work_decides_which_way_is_taken() {
    let analysed = |cubes: [usize; 3]| {
        let frame = Frame::of(cubes);
        Symbolic::analyse(&frame.pattern, &frame.numbering, &frame.places)
    };
    assert!(matches!(analysed([8, 2, 2]).0, Method::Whole(_)));
    assert!(matches!(analysed([20, 5, 5]).0, Method::Whole(_)));
    assert!(matches!(analysed([24, 8, 8]).0, Method::Fronts(..)));
}
