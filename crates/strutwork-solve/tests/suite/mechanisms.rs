//! Mechanisms are explained by joint and direction; harmless freedoms are left out and noted.

use strutwork_model::Dof;
use strutwork_solve::SolveError;
use strutwork_solve::error::{Motion, Node};
use strutwork_solve::explain::explain;
use strutwork_testkit::{Folder, assert_close, assert_close_by, solve};

const CORNERS: &str = "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,1000,0,0\nC,1000,0,800\nD,0,0,800\n";
const PINNED: &str = "tube,from,to,section,material,release_from,release_to\n\
    T1,A,B,rail,mild,ry rz,ry rz\nT2,B,C,rail,mild,ry rz,ry rz\nT3,C,D,rail,mild,ry rz,ry rz\nT4,D,A,rail,mild,ry rz,ry rz\n";
const RIGID: &str =
    "tube,from,to,section,material\nT1,A,B,rail,mild\nT2,B,C,rail,mild\nT3,C,D,rail,mild\nT4,D,A,rail,mild\n";
const PLANE: &str = "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\nB,fixed,fixed,fixed,fixed,fixed,fixed\n\
    C,free,fixed,free,free,free,free\nD,free,fixed,free,free,free,free\n";
const DOWN: &str = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\ndown,C,0,0,-100,0,0,0\n";

fn folder(tubes: &str, supports: &str) -> Folder {
    Folder::steel()
        .with("joints.csv", CORNERS)
        .with("tubes.csv", tubes)
        .with("supports.csv", supports)
        .with("loads.csv", DOWN)
}

fn told(folder: &Folder) -> (Vec<Motion>, Vec<String>) {
    let model = folder.model();
    let error = solve(&model).map(|_| "solved").unwrap_err();
    let words = explain(&model, &error).iter().map(ToString::to_string).collect();
    match error {
        SolveError::Mechanism { motions, .. } => (motions, words),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_pinned_square_folds_sideways_and_says_which_joints() {
    let (motions, words) = told(&folder(PINNED, PLANE));
    assert_eq!(motions.len(), 1, "{words:?}");
    assert!(words[0].contains("S001") && words[0].contains("joint C can move along x"), "{words:?}");
    assert!(words[0].contains("joint D can move along x"), "{words:?}");
}

#[test]
fn the_diagonal_makes_a_truss_of_it_and_loose_rotations_are_noted() {
    let tubes = format!("{PINNED}T5,A,C,rail,mild,ry rz,ry rz\n");
    let results = solve(&folder(&tubes, PLANE).model()).unwrap();
    let left = &results.systems[0].left_out;
    assert!(left.iter().any(|l| l.dof == Dof::Ry), "{left:?}");
    let case = &results.cases[0];
    // Straight down over B: the post T2 takes it all.
    assert_close("N in T2", case.tubes.iter().nth(1).unwrap().stations[0].forces.n, -100.0, 1e-12);
}

#[test]
fn a_loaded_loose_rotation_is_a_mechanism() {
    let tubes = format!("{PINNED}T5,A,C,rail,mild,ry rz,ry rz\n");
    let loads = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\ntwist,C,0,0,0,0,10,0\n";
    let (_, words) = told(&folder(&tubes, PLANE).with("loads.csv", loads));
    assert!(words[0].contains("joint C can turn about the y axis"), "{words:?}");
}

#[test]
fn a_frame_without_supports_floats_in_six_ways() {
    let (motions, words) = told(&folder(RIGID, "joint,ux,uy,uz,rx,ry,rz\nA,free,free,free,free,free,free\n"));
    assert_eq!(motions.len(), 6);
    assert!(motions.iter().all(|motion| matches!(motion, Motion::Whole { .. })));
    assert!(words.iter().all(|word| word.contains("S002") && word.contains("floats")), "{words:?}");
}

#[test]
fn a_frame_held_too_little_says_how_it_turns() {
    let (motions, words) = told(&folder(
        RIGID,
        "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,free,free,free\nB,free,fixed,fixed,free,free,free\n",
    ));
    assert_eq!(motions.len(), 1, "{words:?}");
    assert!(words[0].contains("turn about the x axis through (500, 0, 0) mm"), "{words:?}");
}

/// Two arms that swing on a sound frame, and the frame itself floats: all eight motions, the arms by name.
#[test]
fn all_independent_motions_are_told_at_once() {
    let joints = format!("{CORNERS}E,1500,200,900\nF,-700,-300,1100\n");
    let tubes = "tube,from,to,section,material,release_from,release_to\n\
        T1,A,B,rail,mild,,\nT2,B,C,rail,mild,,\nT3,C,D,rail,mild,,\nT4,D,A,rail,mild,,\n\
        T6,C,E,rail,mild,ry,\nT7,D,F,rail,mild,rz,\n";
    let free = "joint,ux,uy,uz,rx,ry,rz\nA,free,free,free,free,free,free\n";
    let (motions, words) = told(&folder(tubes, free).with("joints.csv", joints.clone()));
    assert_eq!(motions.len(), 8, "{words:?}");
    let parts: Vec<&String> = words.iter().filter(|word| word.contains("S001")).collect();
    assert_eq!(parts.len(), 2, "{words:?}");
    assert!(parts.iter().any(|w| w.contains("joint E")) && parts.iter().any(|w| w.contains("joint F")), "{parts:?}");
    assert!(!parts.iter().any(|w| w.contains("joint A") || w.contains("joint B")), "{parts:?}");
}

/// The hinge line lies askew, so the singular stiffness factors with a tiny positive pivot now and then.
#[test]
fn a_mechanism_that_slips_through_the_factorisation_is_caught() {
    for lean in 0..40 {
        let (x, y) = (1500.0 + 13.7 * f64::from(lean), 211.3 + 7.1 * f64::from(lean));
        let joints = format!("{CORNERS}E,{x},{y},923.1\n");
        let tubes = "tube,from,to,section,material,release_from,release_to\n\
            T1,A,B,rail,mild,,\nT2,B,C,rail,mild,,\nT3,C,D,rail,mild,,\nT4,D,A,rail,mild,,\nT6,C,E,rail,mild,ry,\n";
        let held = "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\n";
        let (motions, words) = told(&folder(tubes, held).with("joints.csv", joints));
        assert_eq!(motions.len(), 1, "{words:?}");
        assert!(words[0].contains("joint E can move"), "{words:?}");
    }
}

/// A pin-jointed tripod standing askew: each joint's rotations hang together only through torsion, and are loose as a set.
#[test]
fn a_space_truss_with_torsion_in_its_bars_is_solved() {
    let model = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,900,100,0\nC,300,800,50\ntop,400,300,700\n")
        .with(
            "tubes.csv",
            "tube,from,to,section,material,release_from,release_to\n\
             T1,A,top,rail,mild,ry rz,ry rz\nT2,B,top,rail,mild,ry rz,ry rz\nT3,C,top,rail,mild,ry rz,ry rz\n",
        )
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,free,free,free\nB,fixed,fixed,fixed,free,free,free\nC,fixed,fixed,fixed,free,free,free\n",
        )
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,top,30,-20,-100,0,0,0\n")
        .model();
    let case = &solve(&model).unwrap().cases[0];
    // Statics alone: the three bars' forces along their axes carry the load.
    let mut sum = [30.0, -20.0, -100.0];
    for (id, tube) in model.tubes().iter_with_id() {
        let n = case.tubes[id].stations[0].forces.n;
        let (from, to) = (model.joints()[tube.from].at, model.joints()[tube.to].at);
        for axis in 0..3 {
            sum[axis] -= n * (to[axis] - from[axis]) / model.length(id);
        }
        assert_close_by("no bending", case.tubes[id].stations[0].forces.my, 0.0, 1e-9);
    }
    for rest in sum {
        assert_close_by("equilibrium at the top", rest, 0.0, 1e-9);
    }
}

/// No frame that validation lets through is known to end here, so the error itself is told.
#[test]
fn an_uneven_stiffness_names_its_joint() {
    let model = folder(RIGID, PLANE).model();
    let joint = model.joint_named("C").unwrap();
    let error =
        SolveError::IllConditioned { case: "down".to_owned(), node: Node::Joint(joint), dof: Dof::Rx, pivot: 0.0 };
    let told = explain(&model, &error);
    assert_eq!((told[0].code.0, told[0].subject.as_str()), ("S004", "C"));
    assert!(told[0].message.contains("joint C (rx)"), "{}", told[0].message);
}
