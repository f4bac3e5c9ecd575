//! Joints read from whole models: which kind they are, what they bear, what is said.

use strutwork_loads::derive_plain;
use strutwork_solve::find_bays;
use strutwork_testkit::{Folder, assert_close, solve};

use super::*;
use crate::code::worked::recomputes;

/// A rail along x with its middle at joint J, fixed at both ends, and tubes from J that end free with a force at the tip.
struct Spider {
    rail: &'static str,
    sections: String,
    legs: Vec<Leg>,
}

/// A tube from J: section, tip in mm from J, force at the tip in N, roll in degrees.
struct Leg(&'static str, [f64; 3], [f64; 3], f64);

/// A leg whose force acts along it: pull positive.
fn leg(section: &'static str, tip: [f64; 3], pull: f64) -> Leg {
    let length = (tip[0] * tip[0] + tip[1] * tip[1] + tip[2] * tip[2]).sqrt();
    Leg(section, tip, tip.map(|part| pull * part / length), 0.0)
}

fn spider(rail: &'static str, legs: Vec<Leg>) -> Spider {
    let sections = "[sections.thick]\nshape = \"square\"\nwidth_mm = 100.0\nwall_mm = 4.0\n\
                    [sections.stout]\nshape = \"square\"\nwidth_mm = 60.0\nwall_mm = 4.0\n\
                    [sections.wide]\nshape = \"square\"\nwidth_mm = 40.0\nwall_mm = 2.0\n\
                    [sections.brace]\nshape = \"square\"\nwidth_mm = 25.0\nwall_mm = 1.5\n\
                    [sections.broad]\nshape = \"square\"\nwidth_mm = 35.0\nwall_mm = 2.0\n\
                    [sections.tall]\nshape = \"rectangular\"\nheight_mm = 60.0\nwidth_mm = 40.0\nwall_mm = 3.0\n\
                    [sections.strip]\nshape = \"rectangular\"\nheight_mm = 30.0\nwidth_mm = 20.0\nwall_mm = 2.0\n\
                    [sections.pipe]\nshape = \"round\"\ndiameter_mm = 50.0\nwall_mm = 2.5\n\
                    [sections.small_pipe]\nshape = \"round\"\ndiameter_mm = 30.0\nwall_mm = 2.0\n\
                    [sections.bar]\nshape = \"solid-round\"\ndiameter_mm = 12.0\n";
    Spider { rail, sections: sections.to_owned(), legs }
}

impl Spider {
    fn folder(&self) -> Folder {
        let mut joints = "joint,x_mm,y_mm,z_mm\nA,-150,0,0\nJ,0,0,0\nB,150,0,0\n".to_owned();
        let mut tubes =
            format!("tube,from,to,section,material,roll_deg\nR1,A,J,{0},mild,0\nR2,J,B,{0},mild,0\n", self.rail);
        let mut loads = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n".to_owned();
        for (number, Leg(section, tip, force, roll)) in self.legs.iter().enumerate() {
            let n = number + 1;
            joints += &format!("T{n},{},{},{}\n", tip[0], tip[1], tip[2]);
            tubes += &format!("L{n},J,T{n},{section},mild,{roll}\n");
            loads += &format!("push,T{n},{},{},{},0,0,0\n", force[0], force[1], force[2]);
        }
        let all = "fixed,fixed,fixed,fixed,fixed,fixed\n";
        Folder::steel()
            .and("model.toml", &self.sections)
            .with("joints.csv", joints)
            .with("tubes.csv", tubes)
            .with("supports.csv", format!("joint,ux,uy,uz,rx,ry,rz\nA,{all}B,{all}"))
            .with("loads.csv", loads)
    }

    fn told(&self) -> Told {
        told(&self.folder())
    }
}

/// The findings of the rule, each with its page.
struct Told(Vec<(Finding, String, Option<Calculation>)>);

fn told(folder: &Folder) -> Told {
    let model = folder.model();
    let cases = derive_plain(&model).unwrap();
    let results = solve(&model).unwrap();
    let judged = Judged { model: &model, cases: &cases, results: &results, bays: &find_bays(&model) };
    let found = check(judged).into_iter().map(|finding| {
        let page = write(judged, &finding);
        if let Some(page) = &page {
            recomputes(page);
            assert_eq!(Some(page.utilisation), finding.utilisation, "the page is that of the finding");
            // What is outside is said in both, and the page's first reason stands in the finding.
            assert_eq!(finding.is_outside(), !page.outside.is_empty(), "{}: {:?}", finding.clause, page.outside);
        }
        assert_eq!(page.is_some(), finding.utilisation.is_some());
        let name = finding.subject.name(&model).into_owned();
        (finding, name, page)
    });
    Told(found.collect())
}

impl Told {
    #[track_caller]
    fn of(&self, end: &str) -> &Finding {
        let found: Vec<_> = self.0.iter().filter(|(_, name, _)| name == end).collect();
        assert_eq!(found.len(), 1, "{end} among {:?}", self.0.iter().map(|(_, name, _)| name).collect::<Vec<_>>());
        &found[0].0
    }

    #[track_caller]
    fn entered(&self, end: &str, symbol: &str) -> f64 {
        let found = self.of(end).entered.iter().find(|(known, ..)| *known == symbol);
        found.unwrap_or_else(|| panic!("{symbol} did not enter")).1
    }

    #[track_caller]
    fn outside(&self, end: &str) -> &[String] {
        let found = self.0.iter().find(|(_, name, _)| name == end).and_then(|(.., page)| page.as_ref());
        &found.unwrap_or_else(|| panic!("no page of {end}")).outside
    }

    #[track_caller]
    fn lines(&self, end: &str) -> String {
        let found = self.0.iter().find(|(_, name, _)| name == end).and_then(|(.., page)| page.as_ref());
        let lines = &found.unwrap_or_else(|| panic!("no page of {end}")).lines;
        lines.iter().map(|line| line.text() + "\n").collect()
    }
}

/// 25 × 1.5 square on 40 × 2 in S235 at 90°: 940/0.375·(1.25 + 4·0.61237) = 9273.4 N; margin 1.5 on 1000 N.
#[test]
fn t_joint() {
    let told = spider("wide", vec![leg("brace", [0.0, 0.0, 300.0], -1000.0)]).told();
    assert_eq!(told.0.len(), 1, "the rail is the chord, tips are free");
    assert_close("force", told.entered("L1 at J", "N_1,Ed"), 1500.0, 1e-9);
    assert_close("resistance", told.entered("L1 at J", "N_1,Rd"), 9273.4, 1e-5);
    let found = told.of("L1 at J");
    assert_close("utilisation", found.utilisation.unwrap(), 1500.0 / 9273.4, 1e-5);
    assert_eq!(found.severity, Severity::Note);
    assert!(found.message.contains("compression") && found.message.contains("T joint"), "{}", found.message);
    assert!(
        found.clause.starts_with("outside scope: chord wall 2.00 mm, less than 2.5 mm; EN 1993-1-8"),
        "{}",
        found.clause
    );
}

/// The diagonal of the hand calculation: 14.95 kN, 47 % of its own strength.
#[test]
fn y_joint() {
    let told = spider("wide", vec![leg("brace", [300.0, 0.0, 300.0], 2000.0)]).told();
    assert_close("resistance", told.entered("L1 at J", "N_1,Rd"), 14_950.0, 1e-4);
    assert_close("efficiency", told.entered("L1 at J", "efficiency"), 0.4706, 1e-3);
    assert_close("utilisation", told.of("L1 at J").utilisation.unwrap(), 3000.0 / 14_950.0, 1e-4);
    assert!(told.of("L1 at J").message.contains("47 % of the tube's own strength"), "{}", told.of("L1 at J").message);
}

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

/// Both push: an X joint, whose face bears as much as a T's. One pushes, one pulls: the chord's shear carries both.
#[test]
fn x_joint() {
    let both = |below: f64| {
        spider("thick", vec![leg("stout", [0.0, 0.0, 500.0], -5000.0), leg("stout", [0.0, 0.0, -500.0], below)]).told()
    };
    assert!(both(-5000.0).lines("L1 at J").contains("read in this case as X."));
    assert!(both(5000.0).lines("L1 at J").contains("read in this case as T."));
    let part = both(-2000.0).lines("L1 at J");
    assert!(part.contains("read in this case as X, T.") && part.contains("s_X = 0.4"), "{part}");
    assert!(both(-2000.0).lines("L2 at J").contains("read in this case as X."));
}

/// The pair of the hand calculation: 23.38 kN each, with a gap of 40 − 25·√2 = 4.64 mm.
#[test]
fn k_gap() {
    let told =
        spider("wide", vec![leg("brace", [300.0, 0.0, 300.0], 2000.0), leg("brace", [-300.0, 0.0, 300.0], -2000.0)])
            .told();
    for end in ["L1 at J", "L2 at J"] {
        assert_close("resistance", told.entered(end, "N_1,Rd"), 23_383.9, 1e-4);
        assert!(told.lines(end).contains("read in this case as K gap with tube"), "{}", told.lines(end));
        assert!(told.lines(end).contains("= 4.64466 mm  (gap between the toes"), "{}", told.lines(end));
    }
    assert!(told.outside("L1 at J").iter().any(|why| why.starts_with("g/b₀ = 0.12, less than 0.19")));
}

/// Half of the pull is balanced beside it, the rest is a Y joint: 1/(0.5/23.3839 + 0.5/14.95).
#[test]
fn a_force_that_is_balanced_in_part() {
    let told =
        spider("wide", vec![leg("brace", [300.0, 0.0, 300.0], 2000.0), leg("brace", [-300.0, 0.0, 300.0], -1000.0)])
            .told();
    assert_close("resistance", told.entered("L1 at J", "N_1,Rd"), 1e3 / (0.5 / 23.3839 + 0.5 / 14.95), 1e-4);
    assert_close("the other", told.entered("L2 at J", "N_1,Rd"), 23_383.9, 1e-4);
}

/// Both push: two Y joints, and said to stand too near for that.
#[test]
fn neighbours_that_do_not_balance_are_told() {
    let overlapping = [[200.0, 0.0, 346.41], [-200.0, 0.0, 346.41]];
    let told = spider("wide", overlapping.map(|tip| leg("broad", tip, -1000.0)).into_iter().collect::<Vec<_>>()).told();
    assert!(told.lines("L1 at J").contains("read in this case as Y."));
    assert!(told.outside("L1 at J").iter().any(|why| why.contains("overlaps a brace beside it by 43 %")));
}

/// 35 × 2 at 60° on 40 × 2: g = 40/√3 − 35·2/√3 = −17.32 mm, q/p = 17.32/40.41 = 42.9 %. b_eff = 0.5·35 = 17.5, b_e,ov =
/// 10·2/35·35 = 20: 470·(17.5 + 20 + 70·0.42857/0.5 − 8) = 42.06 kN.
#[test]
fn k_overlap() {
    let told = spider(
        "wide",
        vec![leg("broad", [200.0, 0.0, 346.410_161_5], 2000.0), leg("broad", [-200.0, 0.0, 346.410_161_5], -2000.0)],
    )
    .told();
    for end in ["L1 at J", "L2 at J"] {
        assert!(told.lines(end).contains("read in this case as K overlap with tube"), "{}", told.lines(end));
        assert_close("resistance", told.entered(end, "N_1,Rd"), 42_065.0, 1e-4);
    }
    assert!(told.lines("L2 at J").contains("this brace is on top"));
    assert!(told.lines("L1 at J").contains("the other brace is on top"));
}

/// The chord's depth is what lies in the plane: 60 high and 40 wide from above, 40 deep and 60 wide from the side. So is the
/// brace's: 30 high and 20 wide, upright by its roll or not.
#[test]
fn faces_and_roll_decide_on_depth_and_width() {
    let lines = |tip: [f64; 3], roll: f64| {
        let mut one = leg("strip", tip, -1000.0);
        one.3 = roll;
        spider("tall", vec![one]).told().lines("L1 at J")
    };
    let above = lines([300.0, 0.0, 300.0], 0.0);
    for size in ["h_0 = 60 mm", "b_0 = 40 mm", "h_1 = 30 mm", "b_1 = 20 mm", "face towards local +z"] {
        assert!(above.contains(size), "{size}: {above}");
    }
    let rolled = lines([300.0, 0.0, 300.0], 90.0);
    assert!(rolled.contains("h_1 = 20 mm") && rolled.contains("b_1 = 30 mm"), "{rolled}");
    let beside = lines([300.0, -300.0, 0.0], 0.0);
    for size in ["h_0 = 40 mm", "b_0 = 60 mm", "h_1 = 20 mm", "b_1 = 30 mm", "face towards local −y"] {
        assert!(beside.contains(size), "{size}: {beside}");
    }
}

/// A force across the tip of a post bends it in the plane of post and rail, or out of it: 100 N at 300 mm, margin 1.5.
#[test]
fn moments_in_and_out_of_the_plane() {
    let bent = |force: [f64; 3]| spider("wide", vec![Leg("brace", [0.0, 0.0, 300.0], force, 0.0)]).told();
    for (force, expected) in [([100.0, 0.0, 0.0], [45.0, 0.0]), ([0.0, 100.0, 0.0], [0.0, 45.0])] {
        let told = bent(force);
        for (symbol, expected) in ["M_ip,Ed", "M_op,Ed"].into_iter().zip(expected) {
            strutwork_testkit::assert_close_by(symbol, told.entered("L1 at J", symbol), expected, 1e-6);
        }
    }
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

/// Round on round, 30 × 2 on 50 × 2.5 in S235: 1.58489·235·6.25·7.912 = 18.42 kN.
#[test]
fn round_tubes() {
    let told = spider("pipe", vec![leg("small_pipe", [0.0, 400.0, 300.0], 1.0)]).told();
    assert_close("resistance", told.entered("L1 at J", "N_1,Rd"), 27_822.6 * 235.0 / 355.0, 1e-4);
    assert!(told.of("L1 at J").clause.contains("Tables 7.2 and 7.5"));
    // Round on flat: π/4 of (940/0.25·(1.5 + 4·0.5)) = 10.336 kN.
    let told = spider("wide", vec![leg("small_pipe", [0.0, 0.0, 300.0], 1000.0)]).told();
    assert_close("on a flat face", told.entered("L1 at J", "N_1,Rd"), 10_335.7, 1e-4);
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

/// An offset moves the foot of a brace along the chord: 10 mm further apart is 10 mm more gap, and an eccentricity.
#[test]
fn offsets_move_the_toes() {
    let folder = spider("wide", Vec::new()).folder();
    let tubes = "tube,from,to,section,material,offset_from_x_mm,offset_from_y_mm,offset_from_z_mm\n\
                 R1,A,J,wide,mild,,,\nR2,J,B,wide,mild,,,\nL1,J,T1,brace,mild,10,0,0\nL2,J,T2,brace,mild,,,\n";
    let folder = folder.with("tubes.csv", tubes).and("joints.csv", "T1,310,0,300\nT2,-300,0,300\n").with(
        "loads.csv",
        "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,T1,700,0,700,0,0,0\npush,T2,700,0,-700,0,0,0\n",
    );
    let told = told(&folder);
    assert!(told.lines("L1 at J").contains("= 14.6447 mm  (gap between the toes"), "{}", told.lines("L1 at J"));
}

/// Partial factors: a case of loads.csv gives design values, γ_M5 divides.
#[test]
fn the_basis_decides_on_margin_and_factor() {
    let one = || spider("wide", vec![leg("brace", [0.0, 0.0, 300.0], -1000.0)]).folder();
    let basis = "[basis]\nkind = \"eurocode\"\ngamma_m5 = { value = 1.25, source = \"a test\" }\n";
    let told = told(&one().and("model.toml", basis));
    assert_close("utilisation", told.of("L1 at J").utilisation.unwrap(), 1.25 * 1000.0 / 9273.4, 1e-5);
}

/// All loads grown by one factor never lower any utilisation: the parts stay, all grows.
#[test]
fn more_load_never_lowers_it() {
    let grown = |factor: f64| {
        let legs = [([300.0, 0.0, 300.0], 900.0), ([-300.0, 0.0, 300.0], -700.0), ([200.0, 0.0, -250.0], -300.0)];
        let legs = legs.map(|(tip, pull)| leg("brace", tip, factor * pull)).into_iter().collect::<Vec<_>>();
        let told = spider("wide", legs).told();
        ["L1 at J", "L2 at J", "L3 at J"].map(|end| told.of(end).utilisation.unwrap())
    };
    let mut before = grown(0.5);
    for step in 2..12 {
        let now = grown(0.5 * step as f64);
        for (now, before) in now.iter().zip(&before) {
            assert!(now >= before, "{now} after {before}");
        }
        before = now;
    }
}
