//! Designs: every variant once, and the same each time.

use strutwork_model::spec::{JointRow, ModelSpec, TubeRow};

use super::*;

fn spec() -> ModelSpec {
    let joint = |name: &str| JointRow { joint: name.into(), ..JointRow::default() };
    let tube = |name: &str| TubeRow { tube: name.into(), from: "A".into(), to: "B".into(), ..TubeRow::default() };
    ModelSpec {
        joints: vec![joint("A"), joint("B")],
        tubes: vec![tube("t1"), tube("t2"), tube("t3")],
        ..ModelSpec::default()
    }
}

fn shift(joint: &str, levels: Levels) -> Parameter {
    let change = Change::Shift { joint: joint.to_owned(), axis: 2, partner: None };
    Parameter::new(&spec(), None, change, levels).unwrap()
}

fn numbers(levels: &[f64]) -> Levels {
    Levels::List(levels.iter().copied().map(Value::Number).collect())
}

fn presence(tube: &str) -> Parameter {
    let levels = Levels::List(vec![ON.into(), OFF.into()]);
    Parameter::new(&spec(), None, Change::Presence(vec![tube.to_owned()]), levels).unwrap()
}

fn all(design: &Design, parameters: &[Parameter]) -> Vec<String> {
    let told = |values: Vec<Value>| values.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
    let count = design.count(parameters).unwrap();
    (0..count).map(|variant| told(design.values(parameters, variant))).collect()
}

#[test]
fn a_grid_has_every_combination_the_last_fastest() {
    let parameters = [shift("A", numbers(&[0.0, 1.0])), shift("B", numbers(&[0.0, 5.0, 7.0]))];
    assert_eq!(all(&Design::FullGrid, &parameters), ["0 0", "0 5", "0 7", "1 0", "1 5", "1 7"]);
}

#[test]
fn one_at_a_time_starts_with_the_frame_as_it_is() {
    let parameters = [shift("A", numbers(&[0.0, 1.0])), shift("B", numbers(&[5.0, 7.0]))];
    assert_eq!(all(&Design::OneAtATime, &parameters), ["0 0", "1 0", "0 5", "0 7"]);
}

#[test]
fn subsets_switch_diagonals_and_cross_the_grid() {
    let parameters =
        [presence("t1"), shift("A", numbers(&[0.0, 1.0])), presence("t2"), presence("t3").starting(OFF.into())];
    let told = all(&Design::Subsets { most: 1 }, &parameters);
    assert_eq!(
        told,
        [
            "on 0 on off",
            "on 1 on off",
            "off 0 on off",
            "off 1 on off",
            "on 0 off off",
            "on 1 off off",
            "on 0 on on",
            "on 1 on on"
        ]
    );
}

#[test]
fn samples_take_each_level_equally_often() {
    let parameters = [shift("A", numbers(&[0.0, 1.0, 2.0])), shift("B", Levels::Range { from: -1.0, to: 1.0 })];
    for design in [Design::LatinHypercube { count: 30, seed: 7 }, Design::Sobol { count: 32, seed: 7 }] {
        let count = design.count(&parameters).unwrap();
        let rows: Vec<Vec<Value>> = (0..count).map(|variant| design.values(&parameters, variant)).collect();
        for level in [0.0, 1.0, 2.0] {
            let times = rows.iter().filter(|row| row[0] == Value::Number(level)).count();
            assert!((10..=11).contains(&times), "{design:?}: {level} {times} times");
        }
        let second: Vec<f64> = rows.iter().filter_map(|row| row[1].number()).collect();
        assert!(second.iter().all(|value| (-1.0..1.0).contains(value)));
        assert!((second.iter().sum::<f64>() / count as f64).abs() < 0.05, "{design:?}");
        assert_eq!(rows, (0..count).map(|variant| design.values(&parameters, variant)).collect::<Vec<_>>());
    }
}

#[test]
fn what_does_not_go_together_is_told() {
    let range = [shift("A", Levels::Range { from: 0.0, to: 1.0 })];
    assert!(matches!(Design::FullGrid.count(&range), Err(StudyFault::Levels { .. })));
    assert!(matches!(Design::Subsets { most: 1 }.count(&range), Err(StudyFault::Design(_))));
    assert!(matches!(Design::Sobol { count: 65_537, seed: 0 }.count(&range), Err(StudyFault::Design(_))));
    assert!(matches!(Design::List(vec![vec![]]).count(&range), Err(StudyFault::Design(_))));
    let many: Vec<f64> = (0..100).map(f64::from).collect();
    let huge: Vec<Parameter> = (0..10).map(|_| shift("A", numbers(&many))).collect();
    assert!(matches!(Design::FullGrid.count(&huge), Err(StudyFault::Design(_))));
}
