//! What a variant gives is what the frame solved anew gives.

use strutwork_loads::LoadCases;
use strutwork_solve::reanalysis::{Family, Outcome, Variant};
use strutwork_solve::solve_cases;
use strutwork_testkit::assert_close_by;

use super::frames::{Frame, Sizes, difference, heavy, rich, with_times};

#[test]
fn everything_that_a_frame_can_have_moves_as_if_solved_anew() {
    let base = [2.0, 1.5, 0.8];
    let frame = Frame::of(&rich(base));
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let (rails, braces) = (family.tubes(&frame.group("rails")), family.tubes(&frame.group("braces")));
    let sizes: Vec<Sizes> = (0..11)
        .map(|i| [1.5 + 0.25 * f64::from(i % 4), 1.0 + 0.5 * f64::from(i % 3), 0.4 + 0.3 * f64::from(i % 5)])
        .collect();
    let others: Vec<Frame> = sizes.iter().map(|size| Frame::of(&rich(*size))).collect();
    let floor = frame.model.panel_named("floor").unwrap();
    let variants: Vec<Variant> = others
        .iter()
        .zip(&sizes)
        .map(|(other, size)| {
            Variant::new()
                .with(rails, other.stiffness(other.group("rails")[0]))
                .with(braces, other.stiffness(other.group("braces")[0]))
                .with_panel(floor, size[2] / base[2])
        })
        .collect();
    let mut worker = family.worker();
    let mut seen = 0;
    worker.solve(&variants, |place, outcome| {
        let Outcome::Solved(moved) = outcome else { panic!("variant {place} fails") };
        let worst = difference(&others[place], |case| moved.joints(case).iter().copied().collect());
        assert!(worst < 1e-11, "variant {place}: {worst:e}");
        seen += 1;
    });
    assert_eq!(seen, variants.len());
    let work = worker.work();
    assert_eq!((work.variants, work.in_lanes, work.singly, work.doubtful), (11, 11, 0, 0));
}

#[test]
fn one_joint_at_a_time_is_the_same_as_all() {
    let frame = Frame::of(&rich([2.0, 1.5, 0.8]));
    let family = Family::of(&frame.model, &frame.cases).unwrap();
    family.worker().solve(&[Variant::new()], |_, outcome| {
        let Outcome::Solved(moved) = outcome else { panic!("it fails") };
        for case in 0..frame.cases.0.len() {
            for (joint, all) in moved.joints(case).iter_with_id() {
                assert_eq!(moved.joint(case, joint), *all);
            }
        }
    });
}

#[test]
fn loads_that_follow_from_the_sections_are_given_anew() {
    for free in [false, true] {
        let frame = Frame::of(&heavy(1.0, 1.0, free));
        let mut family = Family::of(&frame.model, &frame.cases).unwrap();
        let sets = ["edges", "diagonals"].map(|name| {
            let tubes = frame.group(name);
            (family.tubes(&tubes), tubes[0])
        });
        let times = [(1.3, 0.7), (0.8, 0.9), (2.0, 1.5)];
        let others = times.map(|(edges, diagonals)| Frame::of(&heavy(edges, diagonals, free)));
        let variants: Vec<Variant> = times
            .iter()
            .zip(&others)
            .map(|(times, other)| {
                with_times(&frame, sets, *times).under(family.rights(&other.model, &other.cases).unwrap())
            })
            .collect();
        family.worker().solve(&variants, |place, outcome| {
            let Outcome::Solved(moved) = outcome else { panic!("variant {place} fails") };
            let worst = difference(&others[place], |case| moved.joints(case).iter().copied().collect());
            assert!(worst < 1e-11, "free: {free}, variant {place}: {worst:e}");
        });
        let few = LoadCases(frame.cases.0[1..].to_vec());
        assert!(family.rights(&frame.model, &few).is_err());
    }
}

#[test]
fn a_warm_tube_is_solved_through_all_steps_as_its_load_follows_from_its_section() {
    let warm = |brace: f64| {
        Frame::of(&rich([2.0, brace, 0.8]).with("temperatures.csv", "case,tube,rise_k\none,diagonal-front,40\n"))
    };
    let (frame, other) = (warm(1.5), warm(2.5));
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let braces = frame.group("braces");
    let set = family.tubes(&braces);
    let mut worker = family.worker();
    worker.solve(&[Variant::new().with(set, other.stiffness(braces[0]))], |_, outcome| {
        let Outcome::Solved(moved) = outcome else { panic!("it fails") };
        let worst = difference(&other, |case| moved.joints(case).iter().copied().collect());
        assert!(worst < 1e-11, "{worst:e}");
    });
    assert_eq!((worker.work().singly, worker.work().in_lanes), (1, 0));
}

#[test]
fn forces_reactions_and_measures_are_those_of_the_frame_solved_anew() {
    let frame = Frame::of(&rich([2.0, 1.5, 0.8]));
    let other = Frame::of(&rich([2.5, 1.0, 0.8]));
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let change = ["rails", "braces"].map(|name| {
        let tubes = frame.group(name);
        (family.tubes(&tubes), other.stiffness(tubes[0]))
    });
    let variant = change.iter().fold(Variant::new(), |variant, (set, stiffness)| variant.with(*set, *stiffness));
    let anew = solve_cases(&other.model, &other.cases).unwrap();
    family.worker().solve(&[variant], |_, outcome| {
        let Outcome::Solved(moved) = outcome else { panic!("it fails") };
        let results = moved.results(&other.model, &other.cases).unwrap();
        for (got, expected) in results.iter().zip(&anew.cases) {
            assert_eq!(got.name, expected.name);
            assert!(got.trust.residual < 1e-12 && got.trust.imbalance < 1e-10, "{:?}", got.trust);
            for ((joint, a), (other, b)) in got.reactions.iter().zip(&expected.reactions) {
                assert_eq!(joint, other);
                (0..6).for_each(|i| assert_close_by("reaction", a[i], b[i], 1e-7));
            }
            for (a, b) in got.tubes.iter().zip(expected.tubes.iter()) {
                for (a, b) in a.stations.iter().zip(&b.stations) {
                    assert_close_by("axial force", a.forces.n, b.forces.n, 1e-6);
                    assert_close_by("moment", a.forces.my, b.forces.my, 1e-7);
                }
            }
        }
        // Of another model the movements are not.
        let wrong = moved.results(&frame.model, &frame.cases).unwrap();
        assert!(wrong.iter().any(|case| case.trust.residual > 1e-6));
    });
}
