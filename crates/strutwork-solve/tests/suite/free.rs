//! Free frames: held by nothing, balanced by their own inertia.

use strutwork_loads::derive_plain;
use strutwork_model::Model;
use strutwork_solve::explain::explain;
use strutwork_solve::results::CaseResult;
use strutwork_solve::{Results, solve_cases};
use strutwork_testkit::{Folder, assert_close, assert_close_by, solve};

/// E = 210 GPa, G = 80.77 GPa, ρ = 7850 kg/m³ and a section given by its properties.
fn free(ey: f64) -> Folder {
    Folder::default().with(
        "model.toml",
        format!(
            "title = \"free\"\n[options]\nself_weight = false\ninertia_relief = true\n\
             [sections.s]\nshape = \"properties\"\narea_mm2 = 293.69911184307746\niy_mm4 = {ey}\niz_mm4 = {ey}\n\
             j_mm4 = 112772.4064647433\n[materials.m]\ne_mpa = 210000.0\ng_mpa = 80769.23076923077\ndensity_kg_m3 = 7850.0\n"
        ),
    )
}

const I: f64 = 69402.13485770991;
const LOADS: &str = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n";

/// A bar of twelve tubes, 2 m long, along x.
fn bar() -> Folder {
    let joints: String = (0..=12).map(|i| format!("b{i},{:?},0,0\n", 2000.0 * f64::from(i) / 12.0)).collect();
    let tubes: String = (0..12).map(|i| format!("t{i},b{i},b{},s,m\n", i + 1)).collect();
    free(I)
        .with("joints.csv", format!("joint,x_mm,y_mm,z_mm\n{joints}"))
        .with("tubes.csv", format!("tube,from,to,section,material\n{tubes}"))
}

fn solved(folder: &Folder) -> (Model, Results) {
    let model = folder.model();
    let results = solve(&model).unwrap_or_else(|error| panic!("{:?}", explain(&model, &error)));
    (model, results)
}

fn movement(model: &Model, case: &CaseResult, joint: &str) -> [f64; 6] {
    case.displacements[model.joint_named(joint).unwrap()]
}

/// The case is free, and what is left at the six freedoms held is rounding.
fn balanced(case: &CaseResult) {
    let relief = case.relief.as_ref().unwrap();
    assert_eq!(relief.held.len(), 6, "{relief:?}");
    assert!(relief.left_over < 1e-9, "{relief:?}");
    assert!(case.reactions.is_empty());
    assert!(case.trust.imbalance < 1e-9 && case.trust.residual < 1e-14, "{:?}", case.trust);
}

/// N(x) = F x/L, elongation FL/2EA. Source: Bruhn, Analysis and Design of Flight Vehicle Structures, inertia loads (from
/// memory); Newton.
#[test]
fn a_free_bar_pulled_at_one_end() {
    let (model, results) = solved(&bar().with("loads.csv", format!("{LOADS}pull,b12,1000,0,0,0,0,0\n")));
    let case = &results.cases[0];
    balanced(case);
    let at = |tube: usize| case.tubes.iter().nth(tube).unwrap().stations.last().unwrap().forces.n;
    assert_close("N at L/12", at(0), 1000.0 / 12.0, 1e-9);
    assert_close("N at L/2", at(5), 500.0, 1e-9);
    assert_close("N at L", at(11), 1000.0, 1e-9);
    let stretch = movement(&model, case, "b12")[0] - movement(&model, case, "b0")[0];
    assert_close("elongation", stretch, 1.621354838978551e-5, 1e-9);
    // Free of rigid motion: the mean displacement, weighed by mass, is nil. u(x) = F/(2EAL)(x² − L²/3), so the middle moves
    // by −FL/24EA; the mean of straight lines between the joints, h apart, is F h²/12EAL higher than that of the parabola.
    let parabola = -1.621354838978551e-5 / 12.0;
    let lines = -1.621354838978551e-5 / 6.0 / 144.0;
    assert_close("middle", movement(&model, case, "b6")[0], parabola + lines, 1e-9);
}

/// Bending by −F/2L and deflection FL³/128EI between centre and ends. Source: statics with the inertia load F/L.
#[test]
fn a_free_bar_pushed_at_its_middle() {
    let (model, results) = solved(&bar().with("loads.csv", format!("{LOADS}push,b6,0,1000,0,0,0,0\n")));
    let case = &results.cases[0];
    balanced(case);
    let bend = movement(&model, case, "b6")[1] - movement(&model, case, "b0")[1];
    assert_close("deflection", bend, 0.004288326983445596, 1e-9);
    let middle = case.tubes.iter().nth(5).unwrap().stations.last().unwrap().forces;
    assert_close("Mz at the middle", middle.mz, -250.0, 1e-9);
    assert_close("Vy at the middle", middle.vy, 500.0, 1e-9);
    // Symmetric, and nothing turns it as a whole.
    assert_close_by("ends alike", movement(&model, case, "b0")[1], movement(&model, case, "b12")[1], 1e-12);
}

/// Torque along a bar that has no inertia about its own line can only be balanced by torque: nothing accelerates, and the
/// bar twists about its middle.
#[test]
fn a_free_bar_twisted_by_a_couple_in_balance() {
    let (model, results) =
        solved(&bar().with("loads.csv", format!("{LOADS}twist,b12,0,0,0,30,0,0\ntwist,b0,0,0,0,-30,0,0\n")));
    let case = &results.cases[0];
    balanced(case);
    let twist = 30.0 * 2.0 / (80769.23076923077e6 * 112772.4064647433e-12);
    assert_close("one end", movement(&model, case, "b12")[3], twist / 2.0, 1e-9);
    assert_close("other end", movement(&model, case, "b0")[3], -twist / 2.0, 1e-9);
    assert_close("torque", case.tubes.iter().nth(3).unwrap().stations[0].forces.t, 30.0, 1e-9);
}

/// Four point masses and six bars. Source: Newton–Euler and equilibrium of each joint (statically determinate).
fn tetrahedron(order: [usize; 4]) -> Folder {
    let joints = ["n0,0,0,0\n", "n1,1200,100,0\n", "n2,300,900,100\n", "n3,400,200,800\n"];
    let joints: String = order.iter().map(|i| joints[*i]).collect();
    let pins = "ry rz,ry rz\n";
    let tubes: String = [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)]
        .iter()
        .map(|(a, b)| format!("t{a}{b},n{a},n{b},s,m,{pins}"))
        .collect();
    let model = free(1e4).files().0.remove(0);
    Folder::default()
        .with("model.toml", String::from_utf8(model.bytes).unwrap().replace("7850.0", "1e-9"))
        .with("joints.csv", format!("joint,x_mm,y_mm,z_mm\n{joints}"))
        .with("tubes.csv", format!("tube,from,to,section,material,release_from,release_to\n{tubes}"))
        .with(
            "masses.csv",
            "mass,kg,x_mm,y_mm,z_mm,joints\na,3,0,0,0,n0\nb,5,1200,100,0,n1\nc,2,300,900,100,n2\nd,4,400,200,800,n3\n",
        )
        .with("loads.csv", format!("{LOADS}pull,n0,300,-150,500,0,0,0\npull,n2,0,200,0,0,0,0\n"))
}

#[test]
fn a_free_tetrahedron_of_point_masses() {
    let (_, results) = solved(&tetrahedron([0, 1, 2, 3]));
    let case = &results.cases[0];
    balanced(case);
    let expected = [
        -157.3239795121975,
        161.24243239983363,
        -330.76526597268895,
        41.49350444286897,
        83.4690712677184,
        65.95594373451053,
    ];
    for (tube, expected) in case.tubes.iter().zip(expected) {
        assert_close("bar", tube.stations[0].forces.n, expected, 1e-7);
    }
    // The bars' joints turn freely about them: left out and noted, not held.
    assert!(!results.systems[0].left_out.is_empty());
}

/// The same frame, its joints in another order, so that other freedoms are held inside.
#[test]
fn the_freedoms_held_inside_do_not_show() {
    let (model, results) = solved(&tetrahedron([0, 1, 2, 3]));
    let (other_model, other) = solved(&tetrahedron([3, 1, 0, 2]));
    let held = |model: &Model, results: &Results| -> Vec<String> {
        let relief = results.cases[0].relief.as_ref().unwrap();
        let mut names: Vec<String> =
            relief.held.iter().map(|(joint, dof)| format!("{} {}", model.joints()[*joint].name, dof.name())).collect();
        names.sort();
        names
    };
    let (case, other_case) = (&results.cases[0], &other.cases[0]);
    let same = held(&model, &results) == held(&other_model, &other);
    for joint in ["n0", "n1", "n2", "n3"] {
        let (a, b) = (movement(&model, case, joint), movement(&other_model, other_case, joint));
        for axis in 0..3 {
            assert_close_by(if same { "same freedoms" } else { "other freedoms" }, a[axis], b[axis], 1e-15);
        }
    }
    for (a, b) in case.tubes.iter().zip(&other_case.tubes) {
        assert_close_by("force", a.stations[0].forces.n, b.stations[0].forces.n, 1e-8);
    }
}

/// A box with a body on bushes and one bolted rigidly, masses on them, all held by nothing.
fn vehicle(order: &[usize]) -> Folder {
    let corner = |i: usize| [(i % 2) as f64 * 1500.0, (i / 2 % 2) as f64 * 800.0 - 400.0, (i / 4) as f64 * 500.0];
    let joints: String =
        order.iter().map(|i| (i, corner(*i))).map(|(i, [x, y, z])| format!("c{i},{x},{y},{z}\n")).collect();
    let mut tubes = String::new();
    for (a, b) in [
        (0, 1),
        (2, 3),
        (4, 5),
        (6, 7),
        (0, 2),
        (1, 3),
        (4, 6),
        (5, 7),
        (0, 4),
        (1, 5),
        (2, 6),
        (3, 7),
        (0, 5),
        (2, 7),
        (0, 3),
    ] {
        tubes += &format!("t{a}{b},c{a},c{b},s,m\n");
    }
    free(I)
        .with("joints.csv", format!("joint,x_mm,y_mm,z_mm\n{joints}"))
        .with("tubes.csv", format!("tube,from,to,section,material\n{tubes}"))
        .with(
            "bodies.csv",
            "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,axis\nrear,c0,,,,x\nrear,c2,,,,x\nrear,c4,,,,x\nrear,c6,,,,x\n\
             engine,c1,300,300,300,z\nengine,c3,300,300,300,z\nengine,c5,300,300,300,z\n",
        )
        .with(
            "masses.csv",
            "mass,kg,x_mm,y_mm,z_mm,joints,ixx_kg_m2,iyy_kg_m2,izz_kg_m2\nengine,120,1300,50,200,body: engine,4,6,5\n\
             rear,60,-300,0,250,body: rear,2,2,3\ndriver,80,800,200,200,c1 c3 c0 c2,,,\n",
        )
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm,x_mm,y_mm,z_mm\nbump,c5,100,0,4000,0,0,0,,,\n\
             bump,body: rear,-500,300,900,0,0,0,-300,500,-200\ntwist,c1,0,0,500,0,0,0,,,\ntwist,c3,0,0,-500,0,0,0,,,\n\
             twist,body: rear,0,0,0,400,0,0,,,\n",
        )
}

#[test]
fn a_vehicle_with_modules_held_by_nothing() {
    let (model, results) = solved(&vehicle(&[0, 1, 2, 3, 4, 5, 6, 7]));
    assert_eq!(results.systems.len(), 1);
    assert_eq!(
        (results.counters.symbolic_analyses, results.counters.factorisations, results.counters.solves),
        (1, 1, 2)
    );
    for case in &results.cases {
        balanced(case);
    }
    // The same again with the joints in another order: nothing shows of it.
    let (other_model, other) = solved(&vehicle(&[6, 3, 1, 0, 7, 2, 5, 4]));
    for (case, other_case) in results.cases.iter().zip(&other.cases) {
        let most = case.displacements.iter().flatten().fold(0.0, |most: f64, v| most.max(v.abs()));
        for joint in model.joints() {
            let (a, b) = (movement(&model, case, &joint.name), movement(&other_model, other_case, &joint.name));
            for (a, b) in a.into_iter().zip(b) {
                assert_close_by("joint", a, b, 1e-10 * most);
            }
        }
        for (a, b) in case.bodies.iter().flatten().zip(other_case.bodies.iter().flatten()) {
            assert_close_by("body", *a, *b, 1e-10 * most);
        }
        for (a, b) in case.mounts.iter().zip(&other_case.mounts) {
            for (a, b) in a.on_frame.into_iter().zip(b.on_frame) {
                assert_close_by("mount", a, b, 1e-7);
            }
        }
    }
    // A couple in balance accelerates nothing.
    let cases = derive_plain(&model).unwrap();
    assert_eq!(cases.0[1].derivation.acceleration, Some([0.0; 6]));
}

/// In a free case the momentum of the displacements vanishes: Σ m u = 0, checked where all mass sits in points.
#[test]
fn displacements_are_free_of_rigid_motion() {
    let (model, results) = solved(&tetrahedron([0, 1, 2, 3]));
    let case = &results.cases[0];
    let (mut slide, mut spin, mut gross) = ([0.0; 3], [0.0; 3], 0.0_f64);
    for (joint, mass) in [("n0", 3.0), ("n1", 5.0), ("n2", 2.0), ("n3", 4.0)] {
        let [x, y, z] = model.joints()[model.joint_named(joint).unwrap()].at;
        let u = movement(&model, case, joint);
        gross += u[..3].iter().map(|u| mass * u.abs()).sum::<f64>();
        for axis in 0..3 {
            slide[axis] += mass * u[axis];
        }
        for (sum, part) in spin.iter_mut().zip([y * u[2] - z * u[1], z * u[0] - x * u[2], x * u[1] - y * u[0]]) {
            *sum += mass * part;
        }
    }
    assert!(slide.iter().chain(&spin).all(|sum| sum.abs() < 1e-8 * gross), "{slide:?} {spin:?} {gross}");
}

/// All joints of the frame bolted to one rigid body: there is nothing to solve, and all tubes are idle.
#[test]
fn a_frame_whose_joints_all_belong_to_one_body() {
    let folder = bar()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,900,0,0\nc,0,500,100\n")
        .with("tubes.csv", "tube,from,to,section,material\nt1,a,b,s,m\nt2,b,c,s,m\n")
        .with("bodies.csv", "body,joint\nblock,a\nblock,b\nblock,c\n")
        .with(
            "masses.csv",
            "mass,kg,x_mm,y_mm,z_mm,joints,ixx_kg_m2,iyy_kg_m2,izz_kg_m2\nlump,50,300,200,0,body: block,1,1,1\n",
        )
        .with("loads.csv", format!("{LOADS}push,a,100,-50,30,0,0,0\n"));
    let (_, results) = solved(&folder);
    let case = &results.cases[0];
    balanced(case);
    assert_eq!(results.counters.equations, 0);
    assert!(case.displacements.iter().flatten().all(|u| u.abs() < 1e-15));
    // The bolt at a takes the push less what the tubes' own inertia adds there.
    let sum: f64 = case.mounts.iter().map(|mount| mount.on_frame[0]).sum();
    let tubes: f64 = (0.9 + (0.81_f64 + 0.25 + 0.01).sqrt()) * 293.69911184307746e-6 * 7850.0;
    let cases = derive_plain(&folder.model()).unwrap();
    let a = cases.0[0].derivation.acceleration.unwrap();
    assert!((sum + 100.0).abs() < 2.0 * tubes * (a[0].abs() + a[4].abs() + a[5].abs()), "{sum} {tubes} {a:?}");
}

/// A frame that is held needs its supports; free is what a case says, not what is missing.
#[test]
fn a_held_case_without_supports_still_floats() {
    let model = bar().with("loads.csv", format!("{LOADS}push,b6,0,1000,0,0,0,0\n")).model();
    let mut cases = derive_plain(&model).unwrap();
    cases.0[0].free = false;
    let error = solve_cases(&model, &cases).unwrap_err();
    let words: Vec<String> = explain(&model, &error).iter().map(ToString::to_string).collect();
    assert_eq!(words.len(), 6, "{words:?}");
    assert!(words.iter().all(|word| word.contains("S002") && word.contains("floats")), "{words:?}");
}

/// A free frame in which an arm swings is a mechanism like any other.
#[test]
fn a_free_frame_with_a_hinge_names_it() {
    let folder = vehicle(&[0, 1, 2, 3, 4, 5, 6, 7]).with(
        "bodies.csv",
        "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm\nrear,c0,,,\nengine,c1,300,300,300\nengine,c3,300,300,300\n",
    );
    let model = folder.model();
    let words: Vec<String> = explain(&model, &solve(&model).unwrap_err()).iter().map(ToString::to_string).collect();
    assert_eq!(words.len(), 1, "{words:?}");
    assert!(
        words[0].contains("S001") && words[0].contains("body engine can turn about the y axis through (1500, "),
        "{words:?}"
    );
}

#[test]
fn the_same_bits_on_any_number_of_threads() {
    let model = vehicle(&[0, 1, 2, 3, 4, 5, 6, 7]).model();
    let on = |threads: usize| {
        rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap().install(|| solve(&model).unwrap())
    };
    let one = on(1);
    assert_eq!(one, on(2));
    assert_eq!(one, on(8));
}

/// A stiffness that overflows is refused with its place, before anything inside is held.
#[test]
fn absurd_sizes_are_refused_in_free_frames() {
    let folder = vehicle(&[0, 1, 2, 3, 4, 5, 6, 7]);
    let file = folder.files().0.into_iter().find(|file| file.name == "model.toml").unwrap();
    let text = String::from_utf8(file.bytes).unwrap();
    let absurd =
        text.replace("210000.0", "1e302").replace("80769.23076923077", "4e301").replace(&format!("{I}"), "1e20");
    let model = folder.with("model.toml", absurd).model();
    let error = solve(&model).unwrap_err();
    assert_eq!(error.code().0, "S003", "{error:?}");
}
