//! Searches for sizes, against all choices tried one by one.

use crate::common::{self, stiffness, twisted};
use strutwork_loads::LoadCases;
use strutwork_model::model::Section;
use strutwork_model::spec::ModelSpec;
use strutwork_model::stock;
use strutwork_model::units::NM_PER_DEG;
use strutwork_model::validate::validate;
use strutwork_model::{Dof, Model};
use strutwork_study::sizing::{
    Aim, Choice, Limits, MovementCap, Proof, Size, SizingFault, Strength, Task, Variable, front, size,
    variables_of_groups, variables_of_mirrored_tubes,
};
use strutwork_testkit::assert_close;

fn sizes(names: &[&str]) -> Vec<Size> {
    names.iter().map(|name| Size::stock(&stock::find(name).expect("in the list")).expect("a tube")).collect()
}

fn list(names: &[&str]) -> Choice {
    Choice::List(sizes(names))
}

const FOUR: [&str; 4] = ["square 20x2", "square 25x2", "square 30x2", "square 40x2"];

fn buggy() -> ModelSpec {
    common::spec(&strutwork_testkit::buggy())
}

fn twist(model: &Model) -> Result<LoadCases, String> {
    Ok(twisted(model))
}

fn stiff(nm_per_deg: f64) -> Limits {
    Limits { stiffness: vec![("twist".to_owned(), nm_per_deg * NM_PER_DEG)], ..Limits::default() }
}

/// The lightest of all choices for three groups, diagonals left out among them, by a loop.
#[test]
fn the_lightest_of_all_choices_is_found_and_proven() {
    let spec = buggy();
    let model = validate(&spec).expect("a good spec").value;
    let mut variables = variables_of_groups(&model, &list(&FOUR));
    assert_eq!(variables.len(), 3);
    // The diagonals of floor and top may be left out, each by itself.
    let braces: Vec<String> = variables[2].tubes.clone();
    variables[2].tubes.retain(|tube| tube != "diagonal-floor" && tube != "diagonal-top");
    for tube in braces.iter().filter(|tube| *tube == "diagonal-floor" || *tube == "diagonal-top") {
        variables.push(Variable::new(tube, vec![tube.clone()], list(&["square 20x2", "square 30x2"])).optional());
    }
    let wanted = 5000.0 * NM_PER_DEG;
    let mut lightest = (f64::INFINITY, Vec::new());
    let all = sizes(&FOUR);
    for picks in 0..4 * 4 * 4 * 3 * 3 {
        let groups = [picks % 4, picks / 4 % 4, picks / 16 % 4];
        let single = [picks / 64 % 3, picks / 192];
        let mut with = spec.clone();
        with.sections.clear();
        for (place, size) in all.iter().enumerate() {
            with.sections.push(strutwork_model::spec::SectionEntry {
                name: format!("s{place}").as_str().into(),
                stock: Some(size.name.as_str().into()),
                ..Default::default()
            });
        }
        let mut gone = Vec::new();
        for row in &mut with.tubes {
            let name = row.tube.value.clone();
            let pick = match name.as_str() {
                "diagonal-floor" | "diagonal-top" => match single[usize::from(name == "diagonal-top")] {
                    0 => {
                        gone.push(name);
                        continue;
                    }
                    1 => 0,
                    _ => 2,
                },
                _ => {
                    groups[["rails", "uprights", "diagonals"]
                        .iter()
                        .position(|g| *g == row.group.value)
                        .expect("a group")]
                }
            };
            row.section = format!("s{pick}").as_str().into();
        }
        with.tubes.retain(|row| !gone.contains(&row.tube.value));
        let model = validate(&with).expect("a good spec").value;
        let mass: f64 = model.tubes().ids().map(|tube| model.tube_mass(tube)).sum();
        if mass < lightest.0 && stiffness(&model, &twisted(&model)) >= wanted {
            lightest = (mass, groups.iter().chain(&single).copied().collect());
        }
    }
    let mut task = Task::new(&spec, &twist, variables);
    task.limits = stiff(5000.0);
    let outcome = size(&task).expect("a task");
    let best = outcome.best.expect("a design");
    assert_close("mass", best.mass_kg, lightest.0, 1e-9);
    assert!(matches!(outcome.proof, Proof::Proven { .. }), "{:?}", outcome.proof);
    assert!(outcome.runners_up.iter().all(|other| other.mass_kg >= best.mass_kg));
    assert!(outcome.runners_up.iter().all(|other| other.limits.iter().all(|limit| limit.kept())));
    assert!(best.limits[0].value >= 5000.0 && best.limits[0].unit == "N·m/deg");
    // With the largest sizes everywhere the limit is kept by far: something had to be left out or thinned.
    assert!(best.chosen.iter().any(|chosen| chosen.size == "left out" || chosen.size == "square 20x2"), "{best:?}");
}

#[test]
fn few_different_sizes_are_few() {
    let spec = buggy();
    let model = validate(&spec).expect("a good spec").value;
    let variables = variables_of_mirrored_tubes(&model, 0.0, &list(&FOUR));
    // Left and right share a variable; tubes across the frame and skew braces stand alone.
    let pairs = variables.iter().filter(|variable| variable.tubes.len() == 2).count();
    assert_eq!((variables.len(), pairs), (13, 5));
    let masses = [Some(1), Some(2), None].map(|most_sizes| {
        let mut task = Task::new(&spec, &twist, variables.clone());
        task.limits = stiff(5000.0);
        task.most_sizes = most_sizes;
        task.search.rounds = 0;
        task.search.most_solutions = 200;
        let outcome = size(&task).expect("a task");
        let best = outcome.best.expect("a design");
        assert!(best.limits.iter().all(|limit| limit.kept()));
        let mut names: Vec<&String> = best.chosen.iter().map(|chosen| &chosen.size).collect();
        names.sort();
        names.dedup();
        assert!(most_sizes.is_none_or(|most| names.len() <= most), "{names:?}");
        best.mass_kg
    });
    assert!(masses[0] > masses[1] && masses[1] > masses[2], "{masses:?}");
}

#[test]
fn walls_between_bounds_end_on_the_limit() {
    let spec = buggy();
    let model = validate(&spec).expect("a good spec").value;
    let like = model.sections().iter().next().expect("there").clone();
    let mut task =
        Task::new(&spec, &twist, variables_of_groups(&model, &Choice::Wall { least: 0.001, most: 0.004, like }));
    task.limits = stiff(5000.0);
    let outcome = size(&task).expect("a task");
    let best = outcome.best.expect("a design");
    assert_close("stiffness", best.limits[0].value, 5000.0, 1e-6);
    assert!(best.active().count() == 1 && best.limits[0].kept());
    assert!(matches!(outcome.proof, Proof::Local { last_change } if last_change < 1e-4));
    // No wall can be thinned without breaking the limit or its bound; the mass is stationary along the limit:
    // the grams for stiffness are equal for all walls inside their bounds.
    let mut sized = spec.clone();
    for (row, name) in sized.tubes.iter_mut().map(|row| (row.group.value.clone(), row)).map(|(group, row)| (row, group))
    {
        row.section = format!("w {name}").as_str().into();
    }
    sized.sections.clear();
    for chosen in &best.chosen {
        sized.sections.push(strutwork_model::spec::SectionEntry {
            name: format!("w {}", chosen.variable).as_str().into(),
            shape: Some("square".into()),
            width_mm: Some(30.0.into()),
            wall_mm: Some(chosen.wall_mm.expect("a wall").into()),
            ..Default::default()
        });
    }
    let model = validate(&sized).expect("a good spec").value;
    let response = strutwork_study::sensitivity::Response::Twist { case: 0 };
    let found = strutwork_study::sensitivity::section_rates(&model, &twisted(&model), &[response]).expect("rates");
    let ranks = strutwork_study::sensitivity::ranking_of_groups(&model, &found.responses[0]);
    let inside: Vec<f64> = ranks
        .iter()
        .filter(|rank| {
            let chosen = best.chosen.iter().find(|chosen| chosen.variable == rank.name).expect("there");
            chosen.wall_mm.is_some_and(|wall| wall > 1.001 && wall < 3.999)
        })
        .filter_map(|rank| rank.grams_per_nm_per_deg)
        .collect();
    for price in &inside {
        assert_close("grams for stiffness", *price, inside[0], 1e-3);
    }
}

#[test]
fn the_cheapest_is_not_the_lightest() {
    let spec = buggy();
    let model = validate(&spec).expect("a good spec").value;
    // Thin tube is dear here.
    let prices = [9.0, 4.0, 5.0, 6.0];
    let priced: Vec<Size> = sizes(&FOUR).into_iter().zip(prices).map(|(size, price)| size.priced(price)).collect();
    let variables = variables_of_groups(&model, &Choice::List(priced));
    let run = |aim| {
        let mut task = Task::new(&spec, &twist, variables.clone());
        task.limits = stiff(2000.0);
        task.aim = aim;
        size(&task).expect("a task").best.expect("a design")
    };
    let (light, cheap) = (run(Aim::Mass), run(Aim::Price));
    assert!(light.mass_kg < cheap.mass_kg && light.price.is_none());
    let length: f64 = model.tubes().ids().map(|tube| model.length(tube)).sum();
    assert_close("price", cheap.price.expect("a price"), 4.0 * length, 1e-9);
}

#[test]
fn strength_frequency_and_movement_are_kept() {
    let folder = strutwork_testkit::Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,700,0,0\nC,700,0,400\nD,0,0,400\nE,350,500,0\n")
        .with(
            "tubes.csv",
            "tube,from,to,section,material,group\n1,A,B,rail,mild,low\n2,B,C,rail,mild,post\n3,C,D,rail,mild,high\n\
             4,A,C,rail,mild,brace\n5,A,E,rail,mild,low\n6,B,E,rail,mild,low\n7,C,E,rail,mild,brace\n",
        )
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\nD,fixed,fixed,fixed,fixed,fixed,fixed\n",
        )
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\ndown,B,0,0,-9000,0,0,0\nside,E,0,4000,-3000,0,0,0\n",
        );
    let spec = common::spec(&folder);
    let model = folder.model();
    let derive = |model: &Model| strutwork_loads::derive_plain(model).map_err(|fault| fault.to_string());
    let names =
        ["square 20x2", "square 25x2", "square 30x2", "square 40x2", "square 40x3", "square 50x3", "square 60x4"];
    let variables = variables_of_groups(&model, &list(&names));
    let mut mass = 0.0;
    let cap = MovementCap { case: Some("side".to_owned()), joint: "E".to_owned(), dof: Dof::Uz, at_most: 2.5e-3 };
    for (strength, frequency, movements) in
        [(Strength::Yield, None, vec![]), (Strength::Checks, None, vec![]), (Strength::Checks, Some(60.0), vec![cap])]
    {
        let mut task = Task::new(&spec, &derive, variables.clone());
        task.limits = Limits { stiffness: Vec::new(), movements, frequency, strength };
        task.search.prove_up_to = 0;
        task.search.rounds = 1;
        let outcome = size(&task).expect("a task");
        let best = outcome.best.unwrap_or_else(|| panic!("{:?}", outcome.proof));
        assert!(best.limits.iter().all(|limit| limit.kept()), "{:?}", best.limits[0]);
        // More limits never make it lighter.
        assert!(best.mass_kg >= mass, "{} {mass}", best.mass_kg);
        mass = best.mass_kg;
        assert!(best.limits[0].utilisation > 0.7, "nearest: {:?}", best.limits[0]);
    }
}

#[test]
fn what_cannot_be_kept_is_said_in_words() {
    let spec = buggy();
    let model = validate(&spec).expect("a good spec").value;
    let mut task = Task::new(&spec, &twist, variables_of_groups(&model, &list(&FOUR)));
    task.limits = stiff(1e6);
    let outcome = size(&task).expect("a task");
    assert!(outcome.best.is_none());
    let Proof::NothingKept { nearest } = &outcome.proof else { panic!("{:?}", outcome.proof) };
    assert!(nearest.starts_with("torsional stiffness, case twist: ") && nearest.contains("1000000"), "{nearest}");
}

#[test]
fn the_same_task_gives_the_same_answer_to_the_last_bit() {
    let spec = buggy();
    let model = validate(&spec).expect("a good spec").value;
    let run = || {
        let mut task = Task::new(&spec, &twist, variables_of_mirrored_tubes(&model, 0.0, &list(&FOUR)));
        task.limits = stiff(5000.0);
        task.search.most_solutions = 150;
        size(&task).expect("a task")
    };
    assert_eq!(run(), run());
}

/// The work of a search: one analysis of the frame as it is and one for all designs, which are factored side by side.
#[test]
fn a_search_solves_its_designs_on_one_analysis() {
    let spec = buggy();
    let model = validate(&spec).expect("a good spec").value;
    let mut task = Task::new(&spec, &twist, variables_of_groups(&model, &list(&FOUR)));
    task.limits = stiff(5000.0);
    let effort = size(&task).expect("a task").effort;
    let work = effort.work;
    assert_eq!((effort.analyses, work.whole, work.singly, work.doubtful), (2, 0, 0, 0), "{effort:?}");
    // All but the end of the search between the sizes, which is solved the whole way.
    assert_eq!((effort.solutions, work.variants, work.in_lanes), (74, 73, 73), "{effort:?}");
}

#[test]
fn tasks_that_say_no_sense_are_refused_with_a_reason() {
    let spec = buggy();
    let model = validate(&spec).expect("a good spec").value;
    let groups = variables_of_groups(&model, &list(&FOUR));
    let fault = |change: &dyn Fn(&mut Task<'_>)| {
        let mut task = Task::new(&spec, &twist, groups.clone());
        task.limits = stiff(2000.0);
        change(&mut task);
        size(&task).expect_err("refused")
    };
    assert_eq!(fault(&|task| task.variables.clear()), SizingFault::NoVariables);
    let like = Section::round("r", 0.03, 0.002).expect("a tube");
    let mixed = Choice::Wall { least: 0.001, most: 0.002, like: like.clone() };
    assert_eq!(fault(&|task| task.variables[0].choice = mixed.clone()), SizingFault::Mixed);
    assert!(matches!(fault(&|task| task.variables[0].choice = Choice::List(vec![])), SizingFault::Choice { .. }));
    assert!(matches!(fault(&|task| task.variables[0].tubes = vec![]), SizingFault::Choice { .. }));
    assert!(matches!(fault(&|task| task.aim = Aim::Price), SizingFault::Choice { .. }));
    assert!(matches!(fault(&|task| task.most_sizes = Some(0)), SizingFault::Choice { .. }));
    assert!(matches!(
        fault(&|task| task.variables[0].tubes.push("nobody".to_owned())),
        SizingFault::Unknown { kind: "tube", .. }
    ));
    assert!(matches!(
        fault(&|task| {
            let twice = task.variables[0].tubes[0].clone();
            task.variables[1].tubes.push(twice);
        }),
        SizingFault::Choice { .. }
    ));
    assert!(matches!(
        fault(&|task| task.limits.stiffness[0].0.clear()),
        SizingFault::Unknown { kind: "load case", .. }
    ));
    assert!(matches!(fault(&|task| task.limits.stiffness[0].1 = f64::NAN), SizingFault::Limit { .. }));
    assert!(matches!(
        fault(&|task| {
            let cap = MovementCap { case: None, joint: "nowhere".to_owned(), dof: Dof::Uz, at_most: 1e-3 };
            task.limits.movements.push(cap);
        }),
        SizingFault::Unknown { kind: "joint", .. }
    ));
    let upside_down = Choice::Wall { least: 0.002, most: 0.001, like };
    assert!(matches!(
        fault(&|task| task.variables.iter_mut().for_each(|variable| variable.choice = upside_down.clone())),
        SizingFault::Choice { .. }
    ));
}

#[test]
fn a_front_rises_in_mass_and_stiffness() {
    let spec = buggy();
    let model = validate(&spec).expect("a good spec").value;
    let mut task = Task::new(&spec, &twist, variables_of_groups(&model, &list(&FOUR)));
    let asked = [3500.0, 5000.0, 5001.0, 6500.0, 1e6].map(|stiffness| stiffness * NM_PER_DEG);
    let points = front(&mut task, "twist", &asked).expect("a front");
    // Two that ask for nearly the same are one design; what no choice reaches is no point.
    assert_eq!(points.len(), 3);
    assert!(points.iter().all(|point| point.stiffness_nm_per_deg >= point.asked_nm_per_deg));
    assert!(points.is_sorted_by(|a, b| a.mass_kg < b.mass_kg && a.stiffness_nm_per_deg < b.stiffness_nm_per_deg));
}
