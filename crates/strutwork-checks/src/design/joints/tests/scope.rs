//! What is outside the code, and what is no joint of it.

use super::*;

#[test]
fn more_than_the_wall_bears_is_an_error_though_it_is_outside_scope() {
    let told = spider("wide", vec![leg("brace", [0.0, 0.0, 300.0], -8000.0)]).told();
    let found = told.of("L1 at J");
    assert!(found.utilisation.unwrap() > 1.0 && found.is_outside());
    assert_eq!(found.severity, Severity::Error);
}

/// A joint within every limit is no screening: 60 × 4 on 100 × 4.
#[test]
fn a_joint_within_the_tables() {
    let told = spider("thick", vec![leg("stout", [0.0, 0.0, 500.0], -5000.0)]).told();
    assert_eq!(told.of("L1 at J").clause, "EN 1993-1-8 7.5.2, Tables 7.10, 7.11 and 7.14 (T, Y, X joint)");
    assert!(told.outside("L1 at J").is_empty());
}

/// Both push: two Y joints, and said to stand too near for that.
#[test]
fn neighbours_that_do_not_balance_are_told() {
    let overlapping = [[200.0, 0.0, 346.41], [-200.0, 0.0, 346.41]];
    let told = spider("wide", overlapping.map(|tip| leg("broad", tip, -1000.0)).into_iter().collect::<Vec<_>>()).told();
    assert!(told.lines("L1 at J").contains("read in this case as Y."));
    assert!(told.outside("L1 at J").iter().any(|why| why.contains("overlaps a brace beside it by 43 %")));
}

#[test]
fn a_corner_is_screening() {
    let folder = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nJ,500,0,0\nB,500,0,400\n")
        .with("tubes.csv", "tube,from,to,section,material\nR1,A,J,rail,mild\nR2,J,B,rail,mild\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,B,0,0,-300,0,0,0\n");
    let told = told(&folder);
    assert!(told.of("R2 at J").clause.starts_with("outside scope: end of chord"), "{}", told.of("R2 at J").clause);
    assert!(told.lines("R2 at J").contains("R1 ends here and is taken for the chord"));
    assert_eq!(told.0.len(), 1, "one of both is the chord");
}

#[test]
fn braces_in_two_planes_are_judged_plane_by_plane() {
    let told =
        spider("thick", vec![leg("stout", [0.0, 0.0, 500.0], -5000.0), leg("stout", [0.0, 500.0, 0.0], 5000.0)]).told();
    for end in ["L1 at J", "L2 at J"] {
        assert!(
            told.of(end).clause.starts_with("outside scope: multi-planar: braces in 2 planes"),
            "{}",
            told.of(end).clause
        );
        assert!(told.lines(end).contains("read in this case as T."), "{}", told.lines(end));
    }
}

#[test]
fn a_brace_over_the_chords_corner_is_skew() {
    let skew = |y: f64| spider("thick", vec![leg("stout", [0.0, y, 500.0], -5000.0)]).told();
    assert!(skew(500.0).of("L1 at J").clause.starts_with("outside scope: skew to the chord's faces by 45°"));
    assert!(!skew(100.0).of("L1 at J").is_outside(), "11° off the face is near enough");
}

#[test]
fn a_brace_turned_about_its_own_axis_is_told() {
    let mut turned = leg("stout", [0.0, 0.0, 500.0], -5000.0);
    turned.3 = 45.0;
    let told = spider("thick", vec![turned]).told();
    assert!(told.of("L1 at J").clause.starts_with("outside scope: brace turned 45° about its own axis"));
}

/// Three on one face are judged in pairs.
#[test]
fn three_braces_on_one_face() {
    let told = spider(
        "thick",
        vec![
            leg("stout", [500.0, 0.0, 500.0], 5000.0),
            leg("stout", [-500.0, 0.0, 500.0], 5000.0),
            leg("stout", [0.0, 0.0, 500.0], -7_071.067_811_865_5),
        ],
    )
    .told();
    assert!(
        told.of("L3 at J").clause.starts_with("outside scope: 3 braces on one face"),
        "{}",
        told.of("L3 at J").clause
    );
    let page = told.lines("L3 at J");
    assert!(page.contains("tube L1, N") && page.contains("tube L2.") && page.contains("s_N2 = 0.5"), "{page}");
}

#[test]
fn what_is_no_joint_of_hollow_sections_is_said_once() {
    let told = spider("wide", vec![leg("bar", [0.0, 0.0, 300.0], 1000.0)]).told();
    let found = told.of("L1 at J");
    assert_eq!((&*found.clause, found.utilisation), ("outside scope: not a hollow section joint", None));
    assert_eq!((found.severity, &*found.case), (Severity::Note, ""));
    let on_bar = spider("bar", vec![leg("brace", [0.0, 0.0, 300.0], 1.0)]).told();
    // The tube is larger than the bar, but the bar runs through.
    assert_eq!(on_bar.of("L1 at J").utilisation, None);
}

#[test]
fn a_tube_that_only_goes_on_is_no_joint_and_another_size_is_told() {
    assert!(spider("wide", Vec::new()).folder().and("loads.csv", "push,J,0,0,-100,0,0,0\n").read().is_ok());
    let told_of = |folder: Folder| told(&folder);
    assert!(told_of(spider("wide", Vec::new()).folder().and("loads.csv", "push,J,0,0,-100,0,0,0\n")).0.is_empty());
    let stepped = spider("wide", Vec::new())
        .folder()
        .and("loads.csv", "push,J,0,0,-100,0,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nR1,A,J,wide,mild\nR2,J,B,brace,mild\n");
    assert_eq!(told_of(stepped).of("R2 at J").clause, "outside scope: in line with the chord, not on its face");
}
