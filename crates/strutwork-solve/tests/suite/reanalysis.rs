//! Variants of a family against the frame solved anew from its own folder.

use strutwork_loads::LoadCases;
use strutwork_model::{Model, TubeId};
use strutwork_solve::error::SolveError;
use strutwork_solve::reanalysis::{Family, Outcome, TubeSet, TubeStiffness, Variant};
use strutwork_solve::solve_cases;
use strutwork_testkit::{Folder, Lattice, assert_close_by, buggy};

/// Walls of the rails and of the braces, mm, and the thickness of the floor.
type Sizes = [f64; 3];

/// The buggy with a bolted module on a rigid and on soft bolts, a floor panel, an offset brace, springs and releases, held in
/// part at one joint, on a spring at another, and at a joint that is bolted to the module.
fn rich([rail, brace, floor]: Sizes) -> Folder {
    let model = format!(
        "title = \"rich\"\n[options]\nself_weight = false\n[materials.mild]\ngrade = \"S235JRH\"\n\
         [sections.rail]\nshape = \"square\"\nwidth_mm = 30.0\nwall_mm = {rail}\n\
         [sections.brace]\nshape = \"rectangular\"\nwidth_mm = 25.0\nheight_mm = 40.0\nwall_mm = {brace}\n"
    );
    let joints = "joint,x_mm,y_mm,z_mm\nFL,1800,400,0\nFR,1800,-400,0\nRL,0,420,0\nRR,0,-420,0\nFLT,1780,380,350\n\
                  FRT,1780,-380,350\nRLT,20,400,350\nRRT,20,-400,350\n";
    let mut tubes = String::from(
        "tube,from,to,section,material,group,release_from,release_to,roll_deg,offset_from_z_mm,offset_to_z_mm,\
         spring_from_ry_nm_per_deg,spring_to_rz_nm_per_deg,spring_to_ux_n_per_mm\n",
    );
    let plain = [
        "rail-left,RL,FL,rail",
        "rail-right,RR,FR,rail",
        "top-left,RLT,FLT,rail",
        "top-right,RRT,FRT,rail",
        "front-low,FL,FR,rail",
        "front-top,FLT,FRT,rail",
        "rear-low,RL,RR,rail",
        "rear-top,RLT,RRT,rail",
        "upright-FL,FL,FLT,rail",
        "upright-FR,FR,FRT,rail",
        "upright-RL,RL,RLT,rail",
        "upright-RR,RR,RRT,rail",
    ];
    for row in plain {
        tubes.push_str(&format!("{row},mild,rails,,,,,,,,\n"));
    }
    tubes.push_str("diagonal-left,RL,FLT,brace,mild,braces,ry,ry rz,20,,,,,\n");
    tubes.push_str("diagonal-right,RR,FRT,brace,mild,braces,,,0,30,-20,,,\n");
    tubes.push_str("diagonal-floor,RL,FR,brace,mild,braces,,,0,,,400,250,20000\n");
    tubes.push_str("diagonal-top,RLT,FRT,brace,mild,braces,uz,rx ry,0,15,,,300,\n");
    tubes.push_str("diagonal-front,FL,FRT,brace,mild,braces,,,45,,,,,\n");
    tubes.push_str("diagonal-rear,RL,RRT,brace,mild,braces,rx ry rz,ry rz,0,,,,,\n");
    Folder::default()
        .with("model.toml", model)
        .with("joints.csv", joints)
        .with("tubes.csv", tubes)
        .with(
            "bodies.csv",
            "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,axis\nmodule,RL,,,,y\nmodule,RR,,,,y\nmodule,RLT,,,,\n\
             module,RRT,20000,20000,15000,x\n",
        )
        .with("panels.csv", format!("panel,joints,material,thickness_mm\nfloor,RL RR FR FL,mild,{floor}\n"))
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nRL,fixed,fixed,fixed,free,free,free\nFR,free,fixed,800,free,free,free\n\
             FLT,fixed,free,fixed,free,20,free\n",
        )
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\none,FRT,100,-300,-900,0,0,0\ntwo,FL,0,500,200,30,20,10\n\
             three,RR,250,0,-100,0,40,0\nfour,FRT,0,0,700,0,0,0\nfive,RRT,1,2,3,4,5,6\n",
        )
}

struct Frame {
    model: Model,
    cases: LoadCases,
}

impl Frame {
    fn of(folder: &Folder) -> Self {
        let model = folder.model();
        let cases = strutwork_loads::derive_plain(&model).unwrap();
        Self { model, cases }
    }

    fn group(&self, group: &str) -> Vec<TubeId> {
        self.model.tubes().iter_with_id().filter(|(_, tube)| tube.group == group).map(|(id, _)| id).collect()
    }

    fn stiffness(&self, tube: TubeId) -> TubeStiffness {
        let row = &self.model.tubes()[tube];
        TubeStiffness::new(&self.model.sections()[row.section], &self.model.materials()[row.material])
    }
}

/// Greatest difference of any displacement from those of the frame solved anew, over the greatest of its case and kind.
#[track_caller]
fn difference(frame: &Frame, joints: impl Fn(usize) -> Vec<[f64; 6]>) -> f64 {
    let anew = solve_cases(&frame.model, &frame.cases).unwrap();
    let mut worst = 0.0_f64;
    for (case, result) in anew.cases.iter().enumerate() {
        let got = joints(case);
        for kind in [0..3, 3..6] {
            let values =
                |rows: &[[f64; 6]]| -> Vec<f64> { rows.iter().flat_map(|row| row[kind.clone()].to_vec()).collect() };
            let expected: Vec<f64> = values(&result.displacements.iter().copied().collect::<Vec<_>>());
            let size = expected.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
            for (a, b) in values(&got).iter().zip(&expected) {
                worst = worst.max(if a.is_nan() { f64::INFINITY } else { (a - b).abs() / size });
            }
        }
    }
    worst
}

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

/// A lattice whose edges and diagonals have areas of their own.
fn lattice(edges: f64, diagonals: f64) -> Folder {
    let folder = Lattice { cubes: [4, 2, 2], cases: 8 }.folder();
    let tubes = String::from_utf8(folder.files().get("tubes.csv").unwrap().to_vec()).unwrap();
    let section = |name: &str, times: f64| {
        format!(
            "[sections.{name}]\nshape = \"properties\"\narea_mm2 = {}\niy_mm4 = {}\niz_mm4 = {}\nj_mm4 = {}\n",
            214.0 * times,
            27200.0 * times,
            27200.0 * times,
            45400.0 * times
        )
    };
    folder.with("tubes.csv", tubes.replace("bar,plain,diagonals", "brace,plain,diagonals")).with(
        "model.toml",
        format!(
            "title = \"lattice\"\n[options]\nself_weight = false\n{}{}[materials.plain]\ne_mpa = 210000.0\n\
                 g_mpa = 81000.0\ndensity_kg_m3 = 7850.0\nyield_mpa = 235.0\nultimate_mpa = 360.0\n",
            section("bar", edges),
            section("brace", diagonals)
        ),
    )
}

fn lattice_variants(count: usize) -> (Frame, Vec<(f64, f64)>) {
    let times = |i: usize| (0.6 + 0.1 * (i % 11) as f64, 1.6 - 0.07 * (i % 13) as f64);
    (Frame::of(&lattice(1.0, 1.0)), (0..count).map(times).collect())
}

fn with_times(frame: &Frame, sets: [(TubeSet, TubeId); 2], (edges, diagonals): (f64, f64)) -> Variant {
    let scaled = |tube: TubeId, times: f64| {
        let s = frame.stiffness(tube);
        TubeStiffness { ea: times * s.ea, gj: times * s.gj, eiy: times * s.eiy, eiz: times * s.eiz }
    };
    Variant::new().with(sets[0].0, scaled(sets[0].1, edges)).with(sets[1].0, scaled(sets[1].1, diagonals))
}

#[test]
fn a_gauge_study_takes_one_analysis_and_one_factorisation_a_set_of_lanes() {
    let (frame, times) = lattice_variants(37);
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let sets = ["edges", "diagonals"].map(|name| {
        let tubes = frame.group(name);
        (family.tubes(&tubes), tubes[0])
    });
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

#[test]
fn bits_do_not_depend_on_what_stands_beside() {
    let (frame, times) = lattice_variants(19);
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let sets = ["edges", "diagonals"].map(|name| {
        let tubes = frame.group(name);
        (family.tubes(&tubes), tubes[0])
    });
    let variants: Vec<Variant> = times.iter().map(|times| with_times(&frame, sets, *times)).collect();
    let bits = |variants: &[Variant]| {
        let mut bits = Vec::new();
        family.worker().solve(variants, |_, outcome| {
            let Outcome::Solved(moved) = outcome else { panic!("it fails") };
            bits.push(moved.equations(3).map(f64::to_bits).collect::<Vec<u64>>());
        });
        bits
    };
    let together = bits(&variants);
    let one_by_one: Vec<Vec<u64>> = variants.iter().flat_map(|variant| bits(std::slice::from_ref(variant))).collect();
    assert!(together == one_by_one);
}

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

/// The buggy, held at its rear, with one more joint on a single leg.
fn buggy_on_legs() -> Folder {
    buggy()
        .and("joints.csv", "foot,1800,0,-100\n")
        .and("tubes.csv", "leg,FL,foot,rail,mild,legs\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nRL,fixed,fixed,fixed,free,free,free\nRR,fixed,fixed,fixed,free,free,free\n\
             RLT,fixed,free,free,free,free,free\n",
        )
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npull,foot,0,0,-500,0,0,0\n")
}

/// A folder without some tubes.
fn without(folder: &Folder, tubes: &[&str]) -> Folder {
    let text = String::from_utf8(folder.files().get("tubes.csv").unwrap().to_vec()).unwrap();
    let stays = |line: &&str| !tubes.iter().any(|tube| line.starts_with(&format!("{tube},")));
    let lines: Vec<&str> = text.lines().filter(stays).collect();
    folder.clone().with("tubes.csv", lines.join("\n") + "\n")
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
    let solutions = |family: &Family<'_>| {
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

#[test]
fn the_same_bits_and_the_same_work_on_any_number_of_threads() {
    let (frame, times) = lattice_variants(150);
    let mut family = Family::of(&frame.model, &frame.cases).unwrap();
    let sets = ["edges", "diagonals"].map(|name| {
        let tubes = frame.group(name);
        (family.tubes(&tubes), tubes[0])
    });
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

/// A frame under its own weight, held or free.
fn heavy(edges: f64, diagonals: f64, free: bool) -> Folder {
    let folder = lattice(edges, diagonals);
    let text = String::from_utf8(folder.files().get("model.toml").unwrap().to_vec()).unwrap();
    let options = if free { "inertia_relief = true" } else { "self_weight = true" };
    let folder = folder.with("model.toml", text.replace("self_weight = false", options));
    if free { folder.with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\n") } else { folder }
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
