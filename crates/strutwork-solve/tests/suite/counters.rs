//! Work done is counted exactly: a lost reuse shows as a changed integer.

use strutwork_solve::solve_cases;
use strutwork_testkit::{Folder, Lattice, solve};

#[test]
fn forty_cases_take_one_analysis_one_factorisation_and_one_solve_each() {
    let model = Lattice { cubes: [4, 2, 2], cases: 40 }.folder().model();
    let counters = solve(&model).unwrap().counters;
    assert_eq!((counters.symbolic_analyses, counters.factorisations, counters.solves), (1, 1, 40));
    assert_eq!(counters.equations, 4 * 9 * 6);
    // A sound frame needs at most one step of refinement a case.
    assert!(counters.refinement_solves <= 40);
}

#[test]
fn cases_held_in_two_ways_take_two_systems() {
    let model = Lattice { cubes: [2, 1, 1], cases: 4 }.folder().model();
    let mut cases = strutwork_loads::derive_plain(&model).unwrap();
    cases.0[1].supports.pop();
    cases.0[3].supports.pop();
    let results = solve_cases(&model, &cases).unwrap();
    assert_eq!((results.counters.factorisations, results.counters.solves), (2, 4));
    assert_eq!(results.cases.iter().map(|case| case.system).collect::<Vec<_>>(), [0, 1, 0, 1]);
    let names: Vec<&str> = results.cases.iter().map(|case| case.name.as_str()).collect();
    assert_eq!(names, ["case-0", "case-1", "case-2", "case-3"]);
}

#[test]
fn a_frame_held_everywhere_needs_no_equations() {
    let model = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,2000,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nT,A,B,rail,mild\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\nB,fixed,fixed,fixed,fixed,fixed,fixed\n",
        )
        .with(
            "tube_point_loads.csv",
            "case,tube,axes,at,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\np,T,local,0.25,0,0,-100,0,0,0\n",
        )
        .model();
    let results = solve(&model).unwrap();
    assert_eq!(results.counters.factorisations, 0);
    // P a b² / L² with a = 0.5, b = 1.5, L = 2 m.
    let (_, reaction) = results.cases[0].reactions[0];
    strutwork_testkit::assert_close("moment at A", reaction[4], -100.0 * 0.5 * 1.5 * 1.5 / 4.0, 1e-12);
}

#[test]
fn the_same_bits_on_any_number_of_threads() {
    let model = Lattice { cubes: [5, 3, 2], cases: 5 }.folder().model();
    let on = |threads: usize| {
        rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap().install(|| solve(&model).unwrap())
    };
    let one = on(1);
    assert_eq!(one, on(2));
    assert_eq!(one, on(8));
}
