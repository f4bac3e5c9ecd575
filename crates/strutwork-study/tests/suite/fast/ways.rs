//! Which way variants go: counted, the same in any pieces, and given up where the two ways differ.

use std::sync::Arc;

use strutwork_loads::{LoadCases, derive_plain};
use strutwork_model::model::Shape;
use strutwork_model::{Dof, Model};
use strutwork_study::evaluate::Wanted;
use strutwork_study::fast::BLOCK;
use strutwork_study::{Asked, CaseSource, Change, Design, Exact, Fast, Row, Trouble, Way, Why};

use super::frames::{Cases, bracket, listed, moves, rows, study, switch, vary, walls};

fn asked() -> [Asked; 3] {
    [Asked::TubesMass, moves("side", "C", Dof::Uz), moves("pull", "F", Dof::Uy)]
}

fn counted(rows: &[Row], way: Way) -> usize {
    rows.iter().filter(|row| row.outcome.way == way).count()
}

#[test]
fn a_gauge_study_takes_one_analysis_whatever_its_size() {
    let mut study = study(&bracket(false), &asked());
    for name in ["sides", "front", "cross", "mast"] {
        // Each is another than the frame has.
        walls(&mut study, name, &[1.5, 2.5, 3.0, 3.5]);
    }
    let fast = Fast::new(&Cases, None);
    let rows = rows(&study, &fast, &[u64::MAX]);
    assert_eq!(counted(&rows, Way::Lanes), 256);
    let done = fast.done();
    // Its own solution, its variants and what is kept for corrections take an analysis each; the first and the last a
    // factorisation.
    assert_eq!((done.grounds, done.prepared.symbolic_analyses, done.prepared.factorisations), (1, 3, 2));
    // The first variant is looked at by itself beforehand.
    assert_eq!((done.work.variants, done.work.in_lanes, done.work.updates), (257, 257, 0));
    assert_eq!((done.work.whole, done.work.singly, done.work.doubtful), (0, 0, 0));
}

#[test]
fn diagonals_are_corrections_of_one_solution() {
    let mut study = study(&bracket(false), &asked());
    for tube in ["d1", "d2", "d3", "m1", "m2", "m3"] {
        switch(&mut study, tube);
    }
    study.design = Design::Subsets { most: 1 };
    let fast = Fast::new(&Cases, None);
    let rows = rows(&study, &fast, &[u64::MAX]);
    let apart = counted(&rows, Way::Whole(Why::ComesApart));
    let (updates, lanes) = (counted(&rows, Way::Update), counted(&rows, Way::Lanes));
    assert_eq!((rows.len(), updates + lanes + apart), (7, 7), "{rows:?}");
    assert!(updates >= 1, "{rows:?}");
    // The first variant, which changes nothing, is corrected twice.
    assert_eq!(fast.done().work.updates, updates as u64 + 1);
}

#[test]
fn bits_do_not_depend_on_pieces_nor_on_threads() {
    let mut study = study(&bracket(true), &asked());
    walls(&mut study, "sides", &[1.5, 2.0, 2.5, 3.0, 4.0]);
    walls(&mut study, "mast", &[1.5, 2.0, 2.5, 3.0, 4.0]);
    switch(&mut study, "d1");
    switch(&mut study, "d3");
    let shift = Change::Shift { joint: "F".to_owned(), axis: 0, partner: None };
    vary(&mut study, shift, &[0.0.into(), 30.0.into()]);
    let on = |threads: usize, pieces: &[u64]| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| rows(&study, &Fast::new(&Cases, None), pieces))
    };
    let one = on(1, &[u64::MAX]);
    assert_eq!(one.len(), 200);
    for (threads, pieces) in [(1, vec![1]), (2, vec![7, 30, 1]), (3, vec![64])] {
        let other = on(threads, &pieces);
        for (a, b) in one.iter().zip(&other) {
            assert_eq!(a.outcome.way, b.outcome.way);
            let bits =
                |row: &Row| row.outcome.responses.iter().map(|value| value.map(f64::to_bits)).collect::<Vec<_>>();
            assert_eq!(bits(a), bits(b), "{threads} threads, {pieces:?}: {a:?} {b:?}");
        }
    }
}

#[test]
fn places_that_few_have_in_common_go_the_whole_way() {
    let mut study = study(&bracket(false), &asked());
    let shift = Change::Shift { joint: "F".to_owned(), axis: 0, partner: None };
    vary(&mut study, shift, &[0.0.into(), 30.0.into()]);
    walls(&mut study, "mast", &[1.5, 2.0, 2.5]);
    let rows = rows(&study, &Fast::new(&Cases, None), &[u64::MAX]);
    assert_eq!(counted(&rows, Way::Whole(Why::FewAlike)), 6);
}

#[test]
fn masses_alone_need_no_solution() {
    let mut study = study(&bracket(true), &[Asked::TubesMass, Asked::TotalMass]);
    walls(&mut study, "sides", &[1.5, 2.0, 2.5]);
    let fast = Fast::new(&Cases, None);
    let rows = rows(&study, &fast, &[u64::MAX]);
    assert_eq!(counted(&rows, Way::Weighed), 3);
    assert_eq!((fast.done().work.variants, fast.done().prepared.factorisations), (0, 0));
}

/// Doubles the loads on frames with one pair of walls, neither of which does it by itself, nor the ends of their ranges.
struct Sly;

impl CaseSource for Sly {
    fn cases(&self, model: &Arc<Model>, _: Wanted<'_>) -> Result<LoadCases, Trouble> {
        let mut cases = derive_plain(model).map_err(|error| Trouble::from(&error))?;
        let wall = |tube: &str| match model.sections()[model.tubes()[model.tube_named(tube).unwrap()].section].shape {
            Shape::Hollow { wall, .. } => wall,
            other => panic!("{other:?}"),
        };
        if ["left", "m1"].into_iter().all(|tube| (wall(tube) - 2.5e-3).abs() < 1e-9) {
            cases.0.iter_mut().flat_map(|case| &mut case.joint_loads).for_each(|load| load.load[Dof::Uz] *= 2.0);
        }
        Ok(cases)
    }

    fn texts(&self) -> Vec<(String, String)> {
        Vec::new()
    }
}

#[test]
fn what_differs_from_the_whole_way_is_given_up_and_told() {
    let mut study = study(&bracket(false), &asked());
    walls(&mut study, "sides", &[1.5, 2.0, 2.5, 3.0]);
    walls(&mut study, "mast", &[1.5, 2.0, 2.5, 3.0]);
    let sly = [2.5.into(), 2.5.into()];
    let plain = [2.0.into(), 2.5.into()];
    study.design = listed(&[&sly, &plain, &plain]);
    let given_up = rows(&study, &Fast::new(&Sly, None), &[u64::MAX]);
    assert_eq!(counted(&given_up, Way::Whole(Why::Drift)), 3);
    let whole = rows(&study, &Exact::new(&Sly, None), &[u64::MAX]);
    for (a, b) in given_up.iter().zip(&whole) {
        assert_eq!(a.outcome.responses, b.outcome.responses);
    }
    assert!(study.count().unwrap() <= BLOCK, "all of them are looked at together");
}
