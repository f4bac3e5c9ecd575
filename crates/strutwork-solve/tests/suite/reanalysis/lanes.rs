//! Variants side by side: the work is counted, and the bits do not depend on company or threads.

use strutwork_model::TubeId;
use strutwork_solve::reanalysis::{Family, Outcome, TubeSet, TubeStiffness, Variant};
use strutwork_testkit::Lattice;

use super::frames::{Frame, difference, lattice, lattice_variants, with_times};

/// The family of a lattice, with the set of each of its groups and one tube of it.
fn family_of(frame: &Frame) -> (Family, [(TubeSet, TubeId); 2]) {
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let sets = ["edges", "diagonals"].map(|name| {
        let tubes = frame.group(name);
        (family.tubes(&tubes), tubes[0])
    });
    (family, sets)
}

#[test]
fn a_gauge_study_takes_one_analysis_and_one_factorisation_a_set_of_lanes() {
    let (frame, times) = lattice_variants(37);
    let (family, sets) = family_of(&frame);
    let variants: Vec<Variant> = times.iter().map(|times| with_times(&frame, sets, *times)).collect();
    let mut worker = family.worker();
    worker.solve(&variants, |place, outcome| {
        let Outcome::Solved(moved) = outcome else { panic!("variant {place} fails") };
        if place % 9 == 0 {
            let (edges, diagonals) = times[place];
            let other = Frame::of(&lattice(edges, diagonals));
            let worst = difference(&other, |case| moved.joints(case).iter().copied().collect());
            assert!(worst < 1e-12, "variant {place}: {worst:e}");
        }
    });
    // The family itself takes one analysis for its own solution, and one for its variants.
    assert_eq!((family.counters().symbolic_analyses, family.counters().factorisations), (2, 1));
    let work = worker.work();
    assert_eq!((work.variants, work.in_lanes), (37, 37));
    assert_eq!(work.lane_factorisations as usize, 37_usize.div_ceil(family.lanes()));
    assert_eq!((work.whole, work.singly, work.doubtful), (0, 0, 0));
}

/// The bits of a case's solution for each of variants that stand.
fn bits(family: &Family, variants: &[Variant], case: usize) -> Vec<Vec<u64>> {
    let mut bits = Vec::new();
    family.worker().solve(variants, |_, outcome| {
        let Outcome::Solved(moved) = outcome else { panic!("it fails") };
        bits.push(moved.equations(case).map(f64::to_bits).collect());
    });
    bits
}

#[test]
fn bits_do_not_depend_on_what_stands_beside() {
    let (frame, times) = lattice_variants(19);
    let (family, sets) = family_of(&frame);
    let variants: Vec<Variant> = times.iter().map(|times| with_times(&frame, sets, *times)).collect();
    let bits = |variants: &[Variant]| bits(&family, variants, 3);
    let together = bits(&variants);
    let one_by_one: Vec<Vec<u64>> = variants.iter().flat_map(|variant| bits(std::slice::from_ref(variant))).collect();
    assert!(together == one_by_one);
}

#[test]
fn sets_are_named_in_any_order_and_a_tube_is_as_it_was_named_last() {
    let (frame, times) = lattice_variants(16);
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let edges = frame.group("edges");
    let (all, few) = (family.tubes(&edges), family.tubes(&edges[..5]));
    let own = |times: f64| {
        let s = frame.stiffness(edges[0]);
        TubeStiffness { ea: times * s.ea, gj: times * s.gj, eiy: times * s.eiy, eiz: times * s.eiz }
    };
    let named = |(place, (a, b)): (usize, &(f64, f64))| match place % 3 {
        0 => Variant::new().with(all, own(*a)).with(few, own(*b)),
        // The few are as all.
        1 => Variant::new().with(few, own(*b)).with(all, own(*a)),
        _ => Variant::new().with(all, own(*b)).with(all, own(*a)),
    };
    let variants: Vec<Variant> = times.iter().enumerate().map(named).collect();
    let bits = |variants: &[Variant]| bits(&family, variants, 0);
    let together = bits(&variants);
    for (place, (a, b)) in times.iter().enumerate() {
        let plain = Variant::new().with(all, own(*a));
        let alone = bits(&[if place % 3 == 0 { plain.with(few, own(*b)) } else { plain }]);
        assert!(together[place] == alone[0], "variant {place}");
    }
    assert!(together[0] != bits(&[Variant::new().with(all, own(times[0].0))])[0], "the few are their own");
}

#[test]
fn what_is_kept_stays_when_the_worker_goes_on() {
    let (frame, times) = lattice_variants(21);
    let (family, sets) = family_of(&frame);
    let variants: Vec<Variant> = times.iter().map(|times| with_times(&frame, sets, *times)).collect();
    let mut worker = family.worker();
    let (mut seen, mut kept) = (Vec::new(), Vec::new());
    worker.solve(&variants, |place, outcome| {
        let Outcome::Solved(moved) = outcome else { panic!("variant {place} fails") };
        seen.push(moved.equations(1).collect::<Vec<f64>>());
        // Some are dropped, so that memory is used again beside memory that is not.
        kept.push((place % 5 != 0 || place < 9).then(|| moved.keep()));
    });
    worker.solve(&variants[..3], |_, _| {});
    for (seen, kept) in seen.iter().zip(kept.iter()).filter_map(|(seen, kept)| Some((seen, kept.as_ref()?))) {
        assert!(kept.of(&family).equations(1).eq(seen.iter().copied()));
        assert!(kept.clone().of(&family).keep().of(&family).equations(1).eq(seen.iter().copied()));
    }
    assert!(seen[0] != seen[8], "variants differ");
}

#[test]
fn the_same_bits_and_the_same_work_on_any_number_of_threads() {
    let (frame, times) = lattice_variants(150);
    let (mut family, sets) = family_of(&frame);
    let diagonals: Vec<TubeSet> = frame.group("diagonals").iter().map(|tube| family.tubes(&[*tube])).collect();
    family.keep(&diagonals);
    let gone = |place: usize| Variant::new().without(diagonals[place % diagonals.len()]).without(diagonals[place % 7]);
    let variant = |(place, times): (usize, &(f64, f64))| {
        if place % 3 == 0 { gone(place) } else { with_times(&frame, sets, *times) }
    };
    let variants: Vec<Variant> = times.iter().enumerate().map(variant).collect();
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| {
            family.solve_all(&variants, |place, outcome| {
                let Outcome::Solved(moved) = outcome else { panic!("variant {place} fails") };
                (
                    place,
                    (0..8)
                        .flat_map(|case| moved.equations(case).map(f64::to_bits).collect::<Vec<_>>())
                        .collect::<Vec<u64>>(),
                )
            })
        })
    };
    let (one, work) = on(1);
    assert!(one.iter().map(|(place, _)| *place).eq(0..150));
    assert_eq!((work.variants, work.updates, work.in_lanes), (150, 50, 100));
    for threads in [2, 3] {
        let (other, same) = on(threads);
        assert!(other == one, "{threads} threads");
        assert_eq!(same, work);
    }
}

#[test]
fn a_large_frame_is_factored_by_itself() {
    let folder = |wall: f64| {
        let folder = Lattice { cubes: [12, 8, 8], cases: 2 }.folder();
        let text = String::from_utf8(folder.files().get("model.toml").unwrap().to_vec()).unwrap();
        folder.with("model.toml", text.replace("area_mm2 = 214", &format!("area_mm2 = {}", 214.0 * wall)))
    };
    let (frame, other) = (Frame::of(&folder(1.0)), Frame::of(&folder(1.5)));
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let all: Vec<TubeId> = frame.model.tubes().ids().collect();
    let set = family.tubes(&all);
    let mut worker = family.worker();
    let variants = [Variant::new().with(set, other.stiffness(all[0])), Variant::new()];
    worker.solve(&variants, |place, outcome| {
        let Outcome::Solved(moved) = outcome else { panic!("variant {place} fails") };
        let anew = if place == 0 { &other } else { &frame };
        let worst = difference(anew, |case| moved.joints(case).iter().copied().collect());
        assert!(worst < 1e-11, "variant {place}: {worst:e}");
    });
    assert_eq!((worker.work().whole, worker.work().singly, worker.work().in_lanes), (2, 0, 0));
}
