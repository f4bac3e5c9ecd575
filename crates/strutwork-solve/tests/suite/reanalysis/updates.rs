//! A few tubes changed or gone: kept solutions corrected, and what cannot stand.

use strutwork_solve::error::SolveError;
use strutwork_solve::reanalysis::{Family, Outcome, TubeSet, TubeStiffness, Variant};

use super::frames::{Frame, buggy_on_legs, difference, lattice_variants, rich, without};

#[test]
fn a_variant_that_is_a_mechanism_is_told_as_such() {
    let frame = Frame::of(&buggy_on_legs());
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let upright = family.tubes(&[frame.model.tube_named("leg").unwrap()]);
    let brace = family.tubes(&[frame.model.tube_named("diagonal-left").unwrap()]);
    let variants = [Variant::new().without(brace), Variant::new().without(upright), Variant::new()];
    let mut told = Vec::new();
    let mut worker = family.worker();
    worker.solve(&variants, |_, outcome| {
        told.push(match outcome {
            Outcome::Solved(_) => "stands".to_owned(),
            Outcome::Failed(SolveError::Mechanism { motions, .. }) => format!("{} motions", motions.len()),
            Outcome::Failed(other) => panic!("{other:?}"),
        });
    });
    // The leg alone holds the joint: what is told is the one of its six freedoms that is loaded.
    assert_eq!(told, ["stands", "1 motions", "stands"]);
    assert_eq!((worker.work().doubtful, worker.work().singly), (1, 1));
}

/// Every set of up to `most` of these.
fn choices<'n>(names: &[&'n str], most: usize) -> Vec<Vec<&'n str>> {
    let chosen = |bits: u32| -> Vec<&'n str> {
        names.iter().enumerate().filter(|(i, _)| bits >> i & 1 == 1).map(|(_, name)| *name).collect()
    };
    (0..1_u32 << names.len()).map(chosen).filter(|set| set.len() <= most).collect()
}

#[test]
fn an_update_agrees_with_the_frame_solved_anew() {
    let folder = rich([2.0, 1.5, 0.8]);
    let frame = Frame::of(&folder);
    let names =
        ["diagonal-left", "diagonal-right", "diagonal-floor", "diagonal-top", "diagonal-front", "diagonal-rear"];
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let sets = names.map(|name| family.tubes(&[frame.model.tube_named(name).unwrap()]));
    family.keep(&sets);
    let chosen = choices(&names, 2);
    let set = |name: &&str| sets[names.iter().position(|other| other == name).unwrap()];
    let variants: Vec<Variant> = chosen
        .iter()
        .map(|gone| gone.iter().fold(Variant::new(), |variant, name| variant.without(set(name))))
        .collect();
    let mut worker = family.worker();
    let mut seen = 0;
    worker.solve(&variants, |place, outcome| {
        let Outcome::Solved(moved) = outcome else { panic!("variant {place} fails") };
        let other = Frame::of(&without(&folder, &chosen[place]));
        let worst = difference(&other, |case| moved.joints(case).iter().copied().collect());
        assert!(worst < 1e-9, "without {:?}: {worst:e}", chosen[place]);
        seen += 1;
    });
    assert_eq!(seen, 22);
    let work = worker.work();
    // Two tubes of a frame this small are dearer to update than to factor anew, unless releases have left little of them.
    assert_eq!((work.updates + work.in_lanes, work.drifted, work.near_nothing, work.singly), (22, 0, 0, 0));
    assert!(work.updates >= 7, "{work:?}");
}

#[test]
fn stiffer_and_softer_and_missing_tubes_at_once() {
    let (frame, _) = lattice_variants(0);
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let diagonals = frame.group("diagonals");
    let sets: Vec<TubeSet> = diagonals.iter().map(|tube| family.tubes(&[*tube])).collect();
    family.keep(&sets);
    let s = frame.stiffness(diagonals[0]);
    let scaled =
        |times: f64| TubeStiffness { ea: times * s.ea, gj: times * s.gj, eiy: times * s.eiy, eiz: times * s.eiz };
    // The factor of each changed diagonal; the last one given counts.
    let changes: [&[(usize, f64)]; 5] = [
        &[],
        &[(3, 2.5)],
        &[(0, 0.0), (7, 3.0), (11, 0.4)],
        &[(5, 9.0), (5, 0.0), (20, 1.0), (21, 1e4)],
        &[(1, 0.0), (2, 0.0), (4, 0.5), (8, 7.0), (9, 0.0)],
    ];
    let variants: Vec<Variant> = changes
        .iter()
        .map(|list| list.iter().fold(Variant::new(), |variant, (i, times)| variant.with(sets[*i], scaled(*times))))
        .collect();
    let solutions = |family: &Family| {
        let mut solutions = vec![Vec::new(); variants.len()];
        let mut worker = family.worker();
        worker.solve(&variants, |place, outcome| {
            let Outcome::Solved(moved) = outcome else { panic!("variant {place} fails") };
            solutions[place] =
                (0..frame.cases.0.len()).flat_map(|case| moved.equations(case).collect::<Vec<_>>()).collect();
        });
        (solutions, worker.work())
    };
    let (updated, work) = solutions(&family);
    assert_eq!((work.updates, work.in_lanes, work.drifted), (5, 0, 0));
    family.keep(&[]);
    let (anew, work) = solutions(&family);
    // The variant that changes nothing is the family itself.
    assert_eq!((work.updates, work.in_lanes, work.lane_factorisations), (1, 4, 4_u64.div_ceil(family.lanes() as u64)));
    for (place, (a, b)) in updated.iter().zip(&anew).enumerate() {
        let size = b.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
        let worst = a.iter().zip(b).fold(0.0_f64, |worst, (a, b)| worst.max((a - b).abs())) / size;
        assert!(worst < 1e-10, "variant {place}: {worst:e}");
    }
}

#[test]
fn an_update_that_leaves_next_to_nothing_is_given_up_and_counted() {
    let frame = Frame::of(&buggy_on_legs());
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let tube = frame.model.tube_named("leg").unwrap();
    let leg = family.tubes(&[tube]);
    family.keep(&[leg]);
    let s = frame.stiffness(tube);
    let scaled =
        |times: f64| TubeStiffness { ea: times * s.ea, gj: times * s.gj, eiy: times * s.eiy, eiz: times * s.eiz };
    let variants =
        [Variant::new().with(leg, scaled(1e-7)), Variant::new().without(leg), Variant::new().with(leg, scaled(0.5))];
    let mut worker = family.worker();
    let mut told = vec![String::new(); 3];
    let foot = frame.model.joint_named("foot").unwrap();
    worker.solve(&variants, |place, outcome| {
        told[place] = match outcome {
            Outcome::Solved(moved) => format!("{:.0} mm", moved.joint(0, foot)[2] * -1e3),
            Outcome::Failed(SolveError::Mechanism { .. }) => "mechanism".to_owned(),
            Outcome::Failed(other) => panic!("{other:?}"),
        };
    });
    assert_eq!(told[1], "mechanism");
    assert!(told[0].trim_end_matches(" mm").parse::<f64>().unwrap() > 1e6, "{told:?}");
    let work = worker.work();
    assert_eq!((work.updates, work.near_nothing, work.doubtful, work.singly, work.in_lanes), (1, 2, 1, 1, 2));
}
