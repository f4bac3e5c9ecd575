//! Derivatives against differences of whole solutions.

use crate::common::{self, Random, differences, random_frame, twisted};
use proptest::prelude::*;
use strutwork_loads::{LoadCases, derive_plain};
use strutwork_model::model::Section;
use strutwork_model::spec::{ModelSpec, SectionEntry};
use strutwork_model::validate::validate;
use strutwork_model::{Dof, Model};
use strutwork_solve::{BucklingWanted, Pieces, buckling, solve_cases};
use strutwork_study::sensitivity::{
    Response, buckling_rates, energy_shares, frequency_rate, position_rates, ranking, ranking_of_groups, section_rates,
    wall_rate,
};
use strutwork_testkit::{assert_close, assert_close_by};

/// A spec in which every tube has a section of its own, given by properties; and those properties in door units.
fn own_sections(mut spec: ModelSpec) -> ModelSpec {
    let model = validate(&spec).expect("a good spec").value;
    spec.sections.clear();
    for (row, tube) in spec.tubes.iter_mut().zip(model.tubes()) {
        let section: &Section = &model.sections()[tube.section];
        let name = format!("own {}", tube.name);
        spec.sections.push(SectionEntry {
            name: name.as_str().into(),
            shape: Some("properties".into()),
            area_mm2: Some((section.area * 1e6).into()),
            iy_mm4: Some((section.iy * 1e12).into()),
            iz_mm4: Some((section.iz * 1e12).into()),
            j_mm4: Some((section.j * 1e12).into()),
            ..SectionEntry::default()
        });
        row.section = name.as_str().into();
    }
    spec
}

/// One property of a tube's own section, door units.
fn property(spec: &mut ModelSpec, tube: usize, which: usize) -> &mut f64 {
    let section = &mut spec.sections[tube];
    let value = match which {
        0 => &mut section.area_mm2,
        1 => &mut section.iy_mm4,
        2 => &mut section.iz_mm4,
        _ => &mut section.j_mm4,
    };
    &mut value.as_mut().expect("given").value
}

/// Compares every derivative of a response with a difference of whole solutions.
fn check(
    spec: &ModelSpec,
    derive: &dyn Fn(&Model) -> LoadCases,
    response: Response,
    value: &dyn Fn(&Model, &LoadCases) -> f64,
) {
    let spec = own_sections(spec.clone());
    let model = validate(&spec).expect("a good spec").value;
    let cases = derive(&model);
    let found = section_rates(&model, &cases, &[response]).expect("derivatives");
    let rates = &found.responses[0];
    assert_close("value", rates.value, value(&model, &cases), 1e-9);
    // Each property's derivative times its size: what a change by its own size would bring, were it linear.
    let sizes: Vec<f64> = model
        .tubes()
        .iter_with_id()
        .flat_map(|(id, tube)| {
            let section = &model.sections()[tube.section];
            let sizes = [section.area, section.iy, section.iz, section.j];
            rates.tubes[id].values().into_iter().zip(sizes).map(|(rate, size)| rate * size)
        })
        .collect();
    let most = sizes.iter().fold(0.0_f64, |most, size| most.max(size.abs()));
    for (place, size) in sizes.iter().enumerate() {
        let (tube, which) = (place / 4, place % 4);
        let by_difference = differences(|share| {
            let mut spec = spec.clone();
            *property(&mut spec, tube, which) *= 1.0 + share;
            let model = validate(&spec).expect("a good spec").value;
            value(&model, &derive(&model))
        });
        let what = format!("{response:?}, tube {tube}, property {which}");
        assert_close_by(&what, *size, by_difference, 1e-7 * most + 1e-6 * by_difference.abs());
    }
}

fn plain(model: &Model) -> LoadCases {
    derive_plain(model).expect("cases")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2, ..ProptestConfig::default() })]

    /// Joints askew, rolled tubes, releases, end springs, offsets, a panel, loads along tubes, heat, self weight.
    #[test]
    fn movements_of_random_frames(seed in 0_u64..1000) {
        let spec = random_frame(&mut Random(seed));
        let model = validate(&spec).expect("a good spec").value;
        let joint = model.joint_named("J7").expect("there");
        let (case, dof) = [(0, Dof::Uz), (1, Dof::Ry)][seed as usize % 2];
        let read = |model: &Model, cases: &LoadCases| {
            solve_cases(model, cases).expect("solved").cases[case].displacements[joint][dof.index()]
        };
        check(&spec, &plain, Response::Movement { case, joint, dof }, &read);
    }

    /// The stretch of a tube of the same frames.
    #[test]
    fn stretches_of_random_frames(seed in 0_u64..1000) {
        let spec = random_frame(&mut Random(seed));
        let model = validate(&spec).expect("a good spec").value;
        let tube = model.tube_named("T3").expect("there");
        let read = |model: &Model, cases: &LoadCases| {
            let ends = solve_cases(model, cases).expect("solved").cases[0].tubes[tube].end_displacements;
            ends[6] - ends[0]
        };
        check(&spec, &plain, Response::Stretch { case: 0, tube }, &read);
    }
}

#[test]
fn a_twist_needs_no_further_solution() {
    let spec = common::spec(&strutwork_testkit::buggy());
    let derive = |model: &Model| twisted(model);
    let model = validate(&spec).expect("a good spec").value;
    let found = section_rates(&model, &derive(&model), &[Response::Twist { case: 0 }]).expect("derivatives");
    assert!(found.responses[0].self_adjoint);
    assert_eq!(found.added, 0);
    let counters = found.results.counters;
    assert_eq!((counters.symbolic_analyses, counters.factorisations, counters.solves), (1, 1, 1));
    check(&spec, &derive, Response::Twist { case: 0 }, &common::stiffness);
}

#[test]
fn a_movement_takes_one_further_solution_however_many_tubes_there_are() {
    let spec = random_frame(&mut Random(7));
    let model = validate(&spec).expect("a good spec").value;
    let joint = model.joint_named("J7").expect("there");
    let asked =
        [Response::Movement { case: 0, joint, dof: Dof::Uz }, Response::Movement { case: 1, joint, dof: Dof::Uz }];
    let found = section_rates(&model, &plain(&model), &asked).expect("derivatives");
    // Both cases are held alike: one adjoint solution serves both.
    assert_eq!(found.added, 1);
    let counters = found.results.counters;
    assert_eq!((counters.symbolic_analyses, counters.factorisations, counters.solves), (1, 1, 3));
}

#[test]
fn a_load_and_its_own_movement_are_self_adjoint() {
    let folder = strutwork_testkit::Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,500,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nT1,wall,tip,rail,mild\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\ndown,tip,0,0,-100,0,0,0\n");
    let model = folder.model();
    let joint = model.joint_named("tip").expect("there");
    let asked = [Response::Movement { case: 0, joint, dof: Dof::Uz }];
    let found = section_rates(&model, &plain(&model), &asked).expect("derivatives");
    assert!(found.responses[0].self_adjoint);
    // u = −F L³/3EI: du/dI = −u/I.
    let iy = model.sections().iter().next().expect("there").iy;
    let rate = found.responses[0].tubes.iter().next().expect("there").iy;
    assert_close("du/dIy", rate, -found.responses[0].value / iy, 1e-10);
}

#[test]
fn walls_change_properties_as_the_formulas_say() {
    let tube = Section::round("r", 0.04, 0.002).expect("a tube");
    let rate = wall_rate(&tube).expect("it has a wall").properties;
    // A = π t (D − t): dA/dt = π (D − 2t).  I = π (D⁴ − d⁴)/64: dI/dt = π d³/8.
    assert_close("dA/dt", rate[0], std::f64::consts::PI * 0.036, 1e-11);
    assert_close("dI/dt", rate[1], std::f64::consts::PI * 0.036_f64.powi(3) / 8.0, 1e-11);
    assert_close("dJ/dt", rate[3], std::f64::consts::PI * 0.036_f64.powi(3) / 4.0, 1e-11);
    let square = Section::hollow("s", 0.03, 0.03, 0.002, None).expect("a tube");
    let area = |t: f64| Section::hollow("s", 0.03, 0.03, t, None).expect("a tube").area;
    let rate = wall_rate(&square).expect("it has a wall").properties[0];
    assert_close("dA/dt of a square", rate, (area(0.002_01) - area(0.001_99)) / 0.000_02, 1e-6);
    assert!(wall_rate(&Section::properties("p", 1e-4, 1e-8, 1e-8, 1e-8).expect("a section")).is_none());
}

/// A millimetre of wall on every tube of a group, by whole solutions.
#[test]
fn the_ranking_tells_what_a_wall_brings() {
    let spec = common::spec(&strutwork_testkit::buggy());
    let model = validate(&spec).expect("a good spec").value;
    let found = section_rates(&model, &twisted(&model), &[Response::Twist { case: 0 }]).expect("derivatives");
    let groups = ranking_of_groups(&model, &found.responses[0]);
    assert_eq!(groups.len(), 3);
    let diagonals = groups.iter().find(|rank| rank.name == "diagonals").expect("there");
    let (stiffer, heavier) = {
        let with = |share: f64| {
            let mut spec = spec.clone();
            let brace = spec.sections.iter_mut().find(|section| *section.name == "brace").expect("there");
            brace.wall_mm.as_mut().expect("given").value *= 1.0 + share;
            validate(&spec).expect("a good spec").value
        };
        let stiffness = differences(|share| common::stiffness(&with(share), &twisted(&with(share))));
        let mass = differences(|share| {
            let model = with(share);
            model.tubes().ids().map(|tube| model.tube_mass(tube)).sum()
        });
        // By a share of the wall of 1.5 mm; N·m/rad and kg.
        (stiffness / 1.5 * std::f64::consts::PI / 180.0, mass / 1.5 * 1e3)
    };
    assert_close("stiffness a mm", diagonals.stiffness_nm_per_deg_per_mm, stiffer, 1e-6);
    assert_close("mass a mm", diagonals.mass_g_per_mm, heavier, 1e-9);
    assert_close("price", diagonals.grams_per_nm_per_deg.expect("some"), heavier / stiffer, 1e-6);
    let tubes = ranking(&model, &found.responses[0]);
    assert_eq!(tubes.len(), model.tubes().len());
    assert!(tubes.is_sorted_by_key(|rank| rank.grams_per_nm_per_deg.unwrap_or(f64::INFINITY)));
    let shares = energy_shares(&model, &found.results.cases[0]);
    assert_close("all energy", shares.iter().sum(), 1.0, 1e-12);
    // Σ EA dK/dA + … = K: stiffness grows in proportion when all of it does.
    let sum: f64 = model
        .tubes()
        .iter_with_id()
        .map(|(id, tube)| {
            let section = &model.sections()[tube.section];
            found.responses[0].tubes[id].along([section.area, section.iy, section.iz, section.j])
        })
        .sum();
    assert_close("Euler's theorem", sum, found.responses[0].value, 1e-9);
}

/// Every coordinate of every joint, against differences of whole solutions.
#[test]
fn places_of_joints() {
    let spec = common::spec(&strutwork_testkit::buggy());
    let model = validate(&spec).expect("a good spec").value;
    let cases = twisted(&model);
    let rates = position_rates(&model, &cases, 0).expect("derivatives");
    let counters = rates.results.counters;
    assert_eq!((counters.factorisations, counters.solves), (1, 1));
    let mut left_out = 0;
    let most = 2e4;
    for (joint, row) in rates.joints.iter_with_id() {
        let name = &model.joints()[joint].name;
        for axis in 0..3 {
            let Some(rate) = row[axis] else {
                left_out += 1;
                assert!(axis == 0 && name.ends_with('T'), "{name}");
                continue;
            };
            let by_difference = differences(|share| {
                let mut spec = spec.clone();
                let place = spec.joints.iter().position(|joint| joint.joint.value == *name).expect("there");
                let joint = &mut spec.joints[place];
                // A share of a metre.
                *[&mut joint.x_mm, &mut joint.y_mm, &mut joint.z_mm][axis] = {
                    let known = [joint.x_mm.value, joint.y_mm.value, joint.z_mm.value][axis];
                    (known + 1e3 * share).into()
                };
                let model = validate(&spec).expect("a good spec").value;
                common::stiffness(&model, &twisted(&model))
            });
            assert_close_by(&format!("{name}, {axis}"), rate, by_difference, 1e-6 * by_difference.abs().max(most));
        }
    }
    assert_eq!(left_out, 4);
}

#[test]
fn frequencies() {
    let spec = own_sections(random_frame(&mut Random(11)));
    let model = validate(&spec).expect("a good spec").value;
    let rates = frequency_rate(&model).expect("derivatives");
    let frequency = |spec: &ModelSpec| {
        let model = validate(spec).expect("a good spec").value;
        frequency_rate(&model).expect("a mode").frequency
    };
    for tube in [0, 5, 9, 14] {
        for which in 0..4 {
            let id = model.tube_named(&format!("T{tube}")).expect("there");
            let section = &model.sections()[model.tubes()[id].section];
            let size = [section.area, section.iy, section.iz, section.j][which];
            let got = rates.tubes[id].values()[which] * size;
            let by_difference = differences(|share| {
                let mut spec = spec.clone();
                *property(&mut spec, tube, which) *= 1.0 + share;
                frequency(&spec)
            });
            assert_close_by(&format!("tube {tube}, {which}"), got, by_difference, 2e-6 * rates.frequency);
        }
    }
}

/// The load factor of a frame that is pressed down on its rear, by every property of every tube.
#[test]
fn load_factors() {
    let folder = strutwork_testkit::buggy()
        .and("model.toml", "[options]\nself_weight = false\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nFL,fixed,fixed,fixed,free,free,free\nFR,fixed,free,fixed,free,free,free\n\
             RL,free,fixed,fixed,free,free,free\nRR,free,free,fixed,free,free,free\n",
        )
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npress,FLT,-4000,0,-2000,0,0,0\npress,RRT,3000,500,-9000,0,0,0\n\
             press,RLT,0,300,-7000,0,0,0\n",
        );
    let spec = own_sections(common::spec(&folder));
    let model = validate(&spec).expect("a good spec").value;
    // As many whatever the section: with as many as needed a step of the difference might change their number.
    let pieces = Pieces::Each(3);
    let rates = buckling_rates(&model, &plain(&model), 0, pieces).expect("derivatives");
    assert!(rates.factor > 1.0);
    let factor = |spec: &ModelSpec| {
        let model = validate(spec).expect("a good spec").value;
        let cases = plain(&model);
        let results = solve_cases(&model, &cases).expect("solved");
        let wanted = BucklingWanted { count: 1, pieces };
        let found = buckling(&model, model.supports(), &[], &results.cases[0], wanted).expect("load factors");
        found.positive[0].factor
    };
    let sizes = |place: usize, which: usize| {
        let (id, tube) = model.tubes().iter_with_id().nth(place).expect("there");
        let section = &model.sections()[tube.section];
        rates.tubes[id].values()[which] * [section.area, section.iy, section.iz, section.j][which]
    };
    let most = (0..spec.tubes.len()).flat_map(|tube| (0..4).map(move |which| (tube, which)));
    let most = most.map(|(tube, which)| sizes(tube, which).abs()).fold(0.0, f64::max);
    assert!(most > 1e-2 * rates.factor);
    // Every third of them; the sum below holds all.
    for tube in (0..spec.tubes.len()).step_by(3) {
        for which in 0..4 {
            let by_difference = differences(|share| {
                let mut spec = spec.clone();
                *property(&mut spec, tube, which) *= 1.0 + share;
                factor(&spec)
            });
            assert_close_by(&format!("tube {tube}, {which}"), sizes(tube, which), by_difference, 2e-6 * most);
        }
    }
    // All stiffnesses together: the load factor is in proportion to them.
    let sum: f64 =
        (0..spec.tubes.len()).flat_map(|tube| (0..4).map(move |which| (tube, which))).map(|(t, w)| sizes(t, w)).sum();
    assert_close("sum", sum, rates.factor, 1e-7);
}

/// Stresses through the forces on a tube's ends.
#[test]
fn forces_on_ends() {
    let spec = random_frame(&mut Random(3));
    let model = validate(&spec).expect("a good spec").value;
    let tube = model.tube_named("T8").expect("there");
    let weights = [0.3, -0.2, 0.5, 1.0, -2.0, 3.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
    let read = |model: &Model, cases: &LoadCases| {
        let results = solve_cases(model, cases).expect("solved");
        let forces = &results.cases[0].tubes[tube].stations[0].forces;
        // The forces on the end are those of its section, turned round.
        let on_end = [forces.n, forces.vy, forces.vz, forces.t, forces.my, forces.mz];
        -weights.iter().zip(on_end).map(|(weight, force)| weight * force).sum::<f64>()
    };
    let spec = own_sections(spec);
    let model = validate(&spec).expect("a good spec").value;
    let found = section_rates(&model, &plain(&model), &[Response::Forces { case: 0, tube, weights }]).expect("rates");
    for (other, which) in [("T0", 0), ("T5", 1), ("T7", 2), ("T8", 1), ("T8", 2), ("T8", 3), ("T13", 0)] {
        let id = model.tube_named(other).expect("there");
        let section = &model.sections()[model.tubes()[id].section];
        let size = [section.area, section.iy, section.iz, section.j][which];
        let got = found.responses[0].tubes[id].values()[which] * size;
        let place: usize = other[1..].parse().expect("a number");
        let by_difference = differences(|share| {
            let mut spec = spec.clone();
            *property(&mut spec, place, which) *= 1.0 + share;
            let model = validate(&spec).expect("a good spec").value;
            read(&model, &plain(&model))
        });
        assert_close_by(&format!("{other}, {which}"), got, by_difference, 1e-6 * by_difference.abs() + 1e-6);
    }
}

/// The demo car: bodies, panels, suspension links, inertia relief; some tubes of every kind and some joints.
#[test]
fn the_demo_car() {
    let spec = common::demo();
    let model = validate(&spec).expect("a good spec").value;
    let cases = twisted(&model);
    let found = section_rates(&model, &cases, &[Response::Twist { case: 0 }]).expect("derivatives");
    assert!(found.responses[0].self_adjoint && found.added == 0);
    let spec = own_sections(spec);
    let most = found.responses[0].value;
    for tube in [3, 41, 87, 150] {
        let id = model.tubes().ids().nth(tube).expect("there");
        let section = &model.sections()[model.tubes()[id].section];
        let sizes = [section.area, section.iy, section.iz, section.j];
        for (which, size) in sizes.into_iter().enumerate() {
            let got = found.responses[0].tubes[id].values()[which] * size;
            let by_difference = differences(|share| {
                let mut spec = spec.clone();
                *property(&mut spec, tube, which) *= 1.0 + share;
                let model = validate(&spec).expect("a good spec").value;
                common::stiffness(&model, &twisted(&model))
            });
            assert_close_by(
                &format!("tube {tube}, {which}"),
                got,
                by_difference,
                1e-6 * by_difference.abs() + 1e-8 * most,
            );
        }
    }
}
