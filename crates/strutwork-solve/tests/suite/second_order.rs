//! Second order against closed forms.
//!
//! Beam-columns: Timoshenko & Gere (1961), Theory of Elastic Stability, 2nd ed., ch. 1 (from memory); each formula is also the
//! solution of EI v″ = M + P v, which can be checked by hand.

use std::f64::consts::PI;

use strutwork_element::beam::Division;
use strutwork_loads::case::Nature;
use strutwork_loads::{CaseBuilder, LoadCases, derive_plain};
use strutwork_model::Model;
use strutwork_solve::results::CaseResult;
use strutwork_solve::{
    BucklingWanted, Results, SecondOrder, SecondOrderWanted, SolveError, buckling, solve_cases, solve_second_order,
};
use strutwork_testkit::{Folder, Lattice, assert_close, assert_close_by, solve};

const EI: f64 = 210e9 * 5e-8;
const L: f64 = 1.5;
const EULER: f64 = PI * PI * EI / (L * L);
const LOADS: &str = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n";
const HELD: &str = "fixed,fixed,fixed,fixed,fixed,fixed\n";

/// A post of 1.5 m that stands up, its weaker second moment 50 000 mm⁴ about y.
fn post(supports: &str, loads: &str) -> Folder {
    Folder::default()
        .with(
            "model.toml",
            "title = \"post\"\n[sections.s]\nshape = \"properties\"\narea_mm2 = 300\niy_mm4 = 50000\niz_mm4 = 90000\n\
             j_mm4 = 110000\n[materials.m]\ne_mpa = 210000\ng_mpa = 81000\ndensity_kg_m3 = 7850\nthermal_per_k = 12e-6\n",
        )
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,0,0,1500\n")
        .with("tubes.csv", "tube,from,to,section,material\nt,a,b,s,m\n")
        .with("supports.csv", format!("joint,ux,uy,uz,rx,ry,rz\n{supports}"))
        .with("loads.csv", format!("{LOADS}{loads}"))
}

const PINNED: &str = "a,fixed,fixed,fixed,free,free,fixed\nb,fixed,fixed,free,free,free,free\n";

fn both_by(folder: &Folder, wanted: SecondOrderWanted) -> (Model, Vec<CaseResult>, Results) {
    let model = folder.model();
    let cases = derive_plain(&model).unwrap();
    let first = solve_cases(&model, &cases).unwrap();
    let second = solve_second_order(&model, &cases, &first, wanted).unwrap();
    for case in &second.cases {
        assert!(case.trust.imbalance < 1e-9 && case.trust.residual < 1e-13, "{:?}", case.trust);
        assert!(case.second_order.is_some());
    }
    (model, first.cases, second)
}

fn both(folder: &Folder) -> (Model, Vec<CaseResult>, Results) {
    both_by(folder, SecondOrderWanted::default())
}

/// The one case, solved.
fn grown(folder: &Folder) -> (Model, CaseResult, CaseResult, SecondOrder) {
    let (model, mut first, mut second) = both(folder);
    assert!(second.refused.is_empty(), "{:?}", second.refused);
    let result = second.cases.remove(0);
    let told = *result.second_order.clone().unwrap();
    (model, first.remove(0), result, told)
}

fn moved(model: &Model, case: &CaseResult, joint: &str) -> [f64; 6] {
    case.displacements[model.joint_named(joint).unwrap()]
}

/// My of the only tube at a share of its length.
fn my(case: &CaseResult, at: f64) -> f64 {
    let tube = case.tubes.iter().next().unwrap();
    let found = tube.stations.iter().find(|station| (station.at - at).abs() < 1e-12);
    found.unwrap_or_else(|| panic!("no station at {at}")).forces.my
}

/// tan u / u for the moment, 3 (tan u − u)/u³ for the tip; pulled: tanh.
#[test]
fn a_cantilever_pushed_and_pulled_at_its_tip() {
    for share in [0.1, 0.5, 0.9, 0.97] {
        let critical = EULER / 4.0;
        let load = share * critical;
        let (model, first, second, told) = grown(&post(&format!("a,{HELD}"), &format!("p,b,30,0,{:?},0,0,0\n", -load)));
        let u = L * (load / EI).sqrt();
        // The growth multiplies what the pieces leave.
        let near = 1e-6 * (1.0 + 1.0 / (1.0 - share));
        let tip = moved(&model, &second, "b")[0];
        assert_close("first", moved(&model, &first, "b")[0], 30.0 * L.powi(3) / (3.0 * EI), 1e-12);
        assert_close("tip", tip, 30.0 * L.powi(3) / (3.0 * EI) * 3.0 * (u.tan() - u) / u.powi(3), near);
        assert_close("foot", my(&second, 0.0).abs(), 30.0 * L * u.tan() / u, near);
        assert_close("as a sum", my(&second, 0.0).abs(), 30.0 * L + load * tip, 1e-9);
        assert_close("reaction", second.reactions[0].1[4].abs(), 30.0 * L * u.tan() / u, near);
        let growth = told.growth;
        assert_close("growth", growth.moment.1.factor().unwrap(), u.tan() / u, near);
    }
    let load: f64 = 5000.0;
    let (model, _, second, _) = grown(&post(&format!("a,{HELD}"), "p,b,30,0,5000,0,0,0\n"));
    let u = L * (load / EI).sqrt();
    let tip = 30.0 * L.powi(3) / (3.0 * EI) * 3.0 * (u - u.tanh()) / u.powi(3);
    assert_close("pulled tip", moved(&model, &second, "b")[0], tip, 1e-6);
    assert_close("pulled foot", my(&second, 0.0).abs(), 30.0 * L * u.tanh() / u, 1e-6);
}

/// Uniform load: 2(sec v − 1)/v² for the moment, 12 (2 sec v − 2 − v²)/(5 v⁴) for the deflection; equal end moments: sec v.
#[test]
fn a_pinned_post_under_uniform_load_and_end_moments() {
    for share in [0.2, 0.5, 0.8] {
        let load = share * EULER;
        let v = L / 2.0 * (load / EI).sqrt();
        let push = format!("p,b,0,0,{:?},0,0,0\n", -load);
        let folder = post(PINNED, &push)
            .with("tube_loads.csv", "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\np,t,global,40,0,0\n");
        let (_, _, second, _) = grown(&folder);
        let sec = 1.0 / v.cos();
        assert_close("middle", my(&second, 0.5).abs(), 40.0 * L * L / 8.0 * 2.0 * (sec - 1.0) / (v * v), 1e-5);
        let tube = second.tubes.iter().next().unwrap();
        let bow = tube.stations.iter().find(|station| station.at == 0.5).unwrap().displacement[2].abs();
        let first = 5.0 * 40.0 * L.powi(4) / (384.0 * EI);
        assert_close("bow", bow, first * 12.0 * (2.0 * sec - 2.0 - v * v) / (5.0 * v.powi(4)), 1e-5);
        assert!(my(&second, 0.0).abs() < 1e-6);
        let ends = format!("{push}p,a,0,0,0,0,25,0\np,b,0,0,0,0,-25,0\n");
        let (_, _, second, _) = grown(&post(PINNED, &ends));
        assert_close("middle of end moments", my(&second, 0.5).abs(), 25.0 * sec, 1e-5);
        assert_close("end moment", my(&second, 0.0).abs(), 25.0, 1e-9);
    }
}

/// Clamped ends: 3 (tan v − v)/(v² tan v) at the ends, 6 (v − sin v)/(v² sin v) in the middle.
#[test]
fn a_clamped_post_under_uniform_load_and_with_a_settled_end() {
    let guided = "a,fixed,fixed,fixed,fixed,fixed,fixed\nb,fixed,fixed,free,fixed,fixed,fixed\n";
    let load = 2.5 * EULER;
    let v = L / 2.0 * (load / EI).sqrt();
    let push = format!("p,b,0,0,{:?},0,0,0\n", -load);
    let folder = post(guided, &push)
        .with("tube_loads.csv", "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\np,t,local,0,0,40\n");
    let (_, _, second, _) = grown(&folder);
    let ends = 40.0 * L * L / 12.0 * 3.0 * (v.tan() - v) / (v * v * v.tan());
    let middle = 40.0 * L * L / 24.0 * 6.0 * (v - v.sin()) / (v * v * v.sin());
    assert_close("end", my(&second, 0.0).abs(), ends, 1e-5);
    assert_close("middle", my(&second, 0.5).abs(), middle, 1e-5);
    assert!(my(&second, 0.0) * my(&second, 0.5) < 0.0);
    let settled =
        post(guided, &push).with("settlements.csv", "case,joint,ux_mm,uy_mm,uz_mm,rx_deg,ry_deg,rz_deg\np,b,4,,,,,\n");
    let (_, _, second, _) = grown(&settled);
    let u = 2.0 * v;
    let both_turns = u * u * (1.0 - u.cos()) / (2.0 - 2.0 * u.cos() - u * u.sin());
    assert_close("settled end", my(&second, 0.0).abs(), EI / (L * L) * both_turns * 0.004, 1e-5);
    let shear = 2.0 * EI / L.powi(3) * both_turns * 0.004 - load / L * 0.004;
    assert_close("across at the end", second.reactions[0].1[0].abs(), shear.abs(), 1e-5);
}

/// Held along as well: the rise of temperature is what pushes.
#[test]
fn warmth_pushes_a_held_post_and_bends_it() {
    let held = "a,fixed,fixed,fixed,free,free,fixed\nb,fixed,fixed,fixed,free,free,free\n";
    let folder = post(held, "")
        .with("temperatures.csv", "case,tube,rise_k,gradient_y_k_per_m,gradient_z_k_per_m\np,t,20,0,500\n");
    let (_, _, second, _) = grown(&folder);
    let load: f64 = 210e9 * 300e-6 * 12e-6 * 20.0;
    let v = L / 2.0 * (load / EI).sqrt();
    // v″ + k² v = κ: P v in the middle = EI κ (sec v − 1).
    assert_close("force", second.tubes.iter().next().unwrap().stations[0].forces.n, -load, 1e-9);
    assert_close("middle", my(&second, 0.5).abs(), EI * 12e-6 * 500.0 * (1.0 / v.cos() - 1.0), 1e-5);
}

/// A rigid body on two posts: they sway without turning, and the force on each follows from the balance of the bent frame.
#[test]
fn a_body_on_two_posts_sways() {
    let folder = post(&format!("a,{HELD}c,{HELD}"), "p,body: slab,300,0,-14000,0,0,0\n")
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,0,0,1500\nc,1000,0,0\nd,1000,0,1500\n")
        .with("tubes.csv", "tube,from,to,section,material\nt,a,b,s,m\ns,c,d,s,m\n")
        .with("bodies.csv", "body,joint\nslab,b\nslab,d\n")
        // Inextensible posts.
        .with(
            "model.toml",
            "title = \"slab\"\n[sections.s]\nshape = \"properties\"\narea_mm2 = 3000000\niy_mm4 = 50000\niz_mm4 = 90000\n\
             j_mm4 = 110000\n[materials.m]\ne_mpa = 210000\ng_mpa = 81000\ndensity_kg_m3 = 7850\n",
        );
    let (model, _, second, told) = grown(&folder);
    let turns = |force: f64| {
        let u = L * (-force / EI).sqrt();
        EI / (L * L) * u * u * (1.0 - u.cos()) / (2.0 - 2.0 * u.cos() - u * u.sin())
    };
    let stiffness = |force: f64| 2.0 * turns(force) / L + force / L;
    let (mut sway, mut forces) = (0.0, [-7000.0, -7000.0]);
    for _ in 0..100 {
        sway = 300.0 / forces.iter().map(|force| stiffness(*force)).sum::<f64>();
        let feet: f64 = forces.iter().map(|force| turns(*force) * sway).sum();
        // About the feet: what acts, less the moments of the feet, over the distance of the posts.
        let over = (300.0 * L + 14000.0 * sway - feet) / 1.0;
        forces = [-7000.0 + over, -7000.0 - over];
    }
    // The weight acts at the body, midway; the sway moves it and the tops together.
    assert_close("sway", moved(&model, &second, "b")[0], sway, 1e-5);
    let axial = |tube: usize| second.tubes.iter().nth(tube).unwrap().stations[0].forces.n;
    assert_close("left", axial(0), forces[0], 1e-3);
    assert_close("right", axial(1), forces[1], 1e-3);
    assert!(told.passes.len() >= 3, "the forces change: {:?}", told.passes);
}

/// A free bar pushed at both ends and loaded across in its middle; its own inertia takes the load, evenly along it.
/// η″ + k²η = q x²/2EI, η(0) = 0, η′(L/2) = 0.
#[test]
fn a_free_bar_pushed_at_both_ends() {
    let joints: String = (0..=8).map(|i| format!("b{i},{:?},0,0\n", 1500.0 * f64::from(i) / 8.0)).collect();
    let tubes: String = (0..8).map(|i| format!("t{i},b{i},b{},s,m\n", i + 1)).collect();
    let load = 0.6 * EULER;
    let folder = post("", &format!("p,b0,{load:?},0,0,0,0,0\np,b8,{:?},0,0,0,0,0\np,b4,0,0,200,0,0,0\n", -load))
        .and("model.toml", "[options]\ninertia_relief = true\nself_weight = false\n")
        .with("joints.csv", format!("joint,x_mm,y_mm,z_mm\n{joints}"))
        .with("tubes.csv", format!("tube,from,to,section,material\n{tubes}"));
    let (model, first, second, told) = grown(&folder);
    let (q, k) = (200.0 / L, (load / EI).sqrt());
    let half = L / 2.0;
    let a = q / (EI * k.powi(4));
    let b = (a * k * (k * half).sin() - q * half / (EI * k * k)) / (k * (k * half).cos());
    let moment = |x: f64| EI * (q / (EI * k * k) - a * k * k * (k * x).cos() - b * k * k * (k * x).sin());
    let middle = second.tubes.iter().nth(4).unwrap().stations[0].forces.my.abs();
    assert_close("middle", middle, moment(half).abs(), 1e-5);
    let bow = |case: &CaseResult| moved(&model, case, "b4")[2] - moved(&model, case, "b0")[2];
    let eta = q / (2.0 * EI * k * k) * (half * half - 2.0 / (k * k)) + a * (k * half).cos() + b * (k * half).sin();
    assert_close("bow", bow(&second).abs(), eta.abs(), 1e-5);
    assert!(bow(&second).abs() > 2.0 * bow(&first).abs());
    let relief = second.relief.as_ref().unwrap();
    assert!(relief.left_over < 1e-9, "{relief:?}");
    // By symmetry nothing is left for the inertia to take.
    assert!(told.acceleration.unwrap().iter().all(|a| a.abs() < 1e-6), "{:?}", told.acceleration);
    // Pushed beyond its own load it is refused, as buckling says.
    let beyond = folder
        .with("loads.csv", format!("{LOADS}p,b0,{:?},0,0,0,0,0\np,b8,{:?},0,0,0,0,0\n", 1.25 * EULER, -1.25 * EULER));
    let (_, _, second) = both(&beyond);
    let SolveError::Buckles { factor, .. } = &second.refused[0].error else { panic!("{:?}", second.refused) };
    assert_close("share", *factor, 0.8, 3e-4);
}

/// A lopsided free frame: what couples leave unbalanced is taken by its inertia, and all is in balance as it bends.
#[test]
fn a_lopsided_free_frame_is_in_balance() {
    let model = strutwork_testkit::buggy().model();
    let shared = std::sync::Arc::new(model.clone());
    let mut builder = CaseBuilder::new(shared, "corner", "", Nature::Physical).unwrap();
    builder.twist_axles(4000.0).unwrap();
    builder.balance().unwrap();
    let cases = LoadCases(vec![builder.finish().unwrap()]);
    let first = solve_cases(&model, &cases).unwrap();
    let second = solve_second_order(&model, &cases, &first, SecondOrderWanted::default()).unwrap();
    let case = &second.cases[0];
    assert!(case.trust.imbalance < 1e-10, "{:?}", case.trust);
    assert!(case.relief.as_ref().unwrap().left_over < 1e-9, "{:?}", case.relief);
    // The couples are there, and inertia takes them.
    assert!(case.trust.couples.iter().any(|couple| couple.abs() > 1e-3), "{:?}", case.trust);
    assert!(
        case.second_order.as_ref().unwrap().acceleration.unwrap()[3..].iter().any(|turn| turn.abs() > 1e-6),
        "{:?}",
        case.second_order
    );
}

#[test]
fn beyond_the_buckling_load_a_case_is_refused_and_the_others_stand() {
    let loads = format!(
        "light,b,10,0,{:?},0,0,0\nheavy,b,10,0,{:?},0,0,0\npulled,b,10,0,900,0,0,0\n",
        -0.1 * EULER / 4.0,
        -1.6 * EULER / 4.0
    );
    let folder = post(&format!("a,{HELD}"), &loads);
    let (model, _, second) = both(&folder);
    let names: Vec<&str> = second.cases.iter().map(|case| case.name.as_str()).collect();
    assert_eq!(names, ["light", "pulled"]);
    let refused = &second.refused[0];
    assert_eq!((refused.case.as_str(), second.refused.len()), ("heavy", 1));
    let SolveError::Buckles { factor, .. } = refused.error else { panic!("{:?}", refused.error) };
    assert_close("share", factor, 1.0 / 1.6, 2e-4);
    assert!(factor <= 1.0 / 1.6 * (1.0 + 1e-6));
    let told = strutwork_solve::explain::explain(&model, &refused.error);
    assert_eq!(told[0].code.0, "S007");
    assert!(told[0].message.contains("heavy") && told[0].message.contains("62.5 %"), "{}", told[0].message);
    // As the load factor of buckling.
    let results = solve(&model).unwrap();
    let wanted = BucklingWanted { count: 1, pieces: strutwork_solve::Pieces::Each(16) };
    let found = buckling(&model, model.supports(), &[], &results.cases[1], wanted).unwrap();
    assert_close("load factor", factor, found.positive[0].factor, 3e-4);
}

#[test]
fn too_few_passes_are_told() {
    let folder = post(&format!("a,{HELD}"), &format!("p,b,30,0,{:?},0,0,0\n", -0.9 * EULER / 4.0));
    let (model, _, second) = both_by(&folder, SecondOrderWanted { most_passes: 1, ..Default::default() });
    let error = &second.refused[0].error;
    assert!(matches!(error, SolveError::Unsteady { passes: 1, .. }), "{error:?}");
    let told = strutwork_solve::explain::explain(&model, error);
    assert_eq!(told[0].code.0, "S008");
    assert!(second.cases.is_empty());
}

/// The error falls with the fourth power of the pieces, and lies within what is said of it.
#[test]
fn pieces_converge_with_the_fourth_power() {
    let load = 0.8 * EULER;
    let folder = post(PINNED, &format!("p,b,0,0,{:?},0,0,0\np,a,0,0,0,0,25,0\np,b,0,0,0,0,-25,0\n", -load));
    let exact = 25.0 / (L / 2.0 * (load / EI).sqrt()).cos();
    let error = |pieces| {
        let wanted = SecondOrderWanted { division: Division::Into(pieces), ..Default::default() };
        let (_, _, second) = both_by(&folder, wanted);
        let told = second.cases[0].second_order.as_ref().unwrap();
        let error = (my(&second.cases[0], 0.5).abs() / exact - 1.0).abs();
        // A load factor that is high by ε makes what grows fivefold low by 4ε.
        let bound = told.piece_error * (told.growth.moment.1.factor().unwrap() - 1.0);
        assert!(error < bound, "{pieces}: {error} {bound}");
        assert_eq!(told.pieces, pieces);
        error
    };
    for pieces in [2, 4, 8] {
        let order = (error(pieces) / error(2 * pieces)).log2();
        assert!((order - 4.0).abs() < 0.2, "{pieces}: {order}");
    }
}

#[test]
fn work_is_counted() {
    let model = Lattice { cubes: [3, 2, 1], cases: 5 }.folder().model();
    let cases = derive_plain(&model).unwrap();
    let first = solve_cases(&model, &cases).unwrap();
    let second = solve_second_order(&model, &cases, &first, SecondOrderWanted::default()).unwrap();
    let passes: u64 = second.cases.iter().map(|case| case.second_order.as_ref().unwrap().passes.len() as u64).sum();
    assert!((5 * 2..=5 * 4).contains(&passes), "{passes}");
    let (all, before) = (second.counters, first.counters);
    // One analysis and one factorisation for what first order holds, then one factorisation and one solve a pass.
    assert_eq!(all.symbolic_analyses - before.symbolic_analyses, 1);
    assert_eq!(all.factorisations - before.factorisations, 1 + passes);
    assert_eq!(all.solves - before.solves, passes);
}

#[test]
fn the_same_bits_on_any_number_of_threads() {
    let model = Lattice { cubes: [4, 3, 2], cases: 4 }.folder().model();
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| {
            let cases = derive_plain(&model).unwrap();
            let first = solve_cases(&model, &cases).unwrap();
            solve_second_order(&model, &cases, &first, SecondOrderWanted::default()).unwrap()
        })
    };
    let one = on(1);
    assert_eq!(one, on(2));
    assert_eq!(one, on(8));
}

/// Held everywhere: the tube alone bends between its ends.
#[test]
fn a_post_whose_ends_are_held() {
    let folder = post(&format!("a,{HELD}b,{HELD}"), "")
        .with("temperatures.csv", "case,tube,rise_k,gradient_y_k_per_m,gradient_z_k_per_m\np,t,30,,\n")
        .with("tube_loads.csv", "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\np,t,local,0,0,40\n");
    let (_, _, second, _) = grown(&folder);
    let load: f64 = 210e9 * 300e-6 * 12e-6 * 30.0;
    let v = L / 2.0 * (load / EI).sqrt();
    assert_close("end", my(&second, 0.0).abs(), 40.0 * L * L / 12.0 * 3.0 * (v.tan() - v) / (v * v * v.tan()), 1e-5);
    assert_close_by("force", second.tubes.iter().next().unwrap().stations[0].forces.n, -load, 1e-6);
}
