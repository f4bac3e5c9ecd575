//! Laws of second order, over random frames.

use proptest::prelude::*;
use strutwork_loads::derive_plain;
use strutwork_model::Model;
use strutwork_solve::{Results, SecondOrderWanted, solve_cases, solve_second_order};
use strutwork_testkit::Folder;

use crate::random::{Random, displacement, largest, randoms};

fn both(folder: &Folder) -> (Model, Results, Results) {
    let model = folder.model();
    let cases = derive_plain(&model).unwrap();
    let first = solve_cases(&model, &cases).unwrap();
    let second = solve_second_order(&model, &cases, &first, SecondOrderWanted::default()).unwrap();
    (model, first, second)
}

/// Loads that bend the frame by a few per cent more than first order says, without buckling it.
const HEAVY: f64 = 8.0;

fn heavy(random: &Random, order: &[usize], turn: impl Fn([f64; 3]) -> [f64; 3]) -> Folder {
    random.folder(order, turn, HEAVY)
}

fn in_order(random: &Random) -> Vec<usize> {
    (0..random.jitter.len()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    #[test]
    fn a_bent_frame_is_in_balance(random in randoms()) {
        let (_, first, second) = both(&heavy(&random, &in_order(&random), |v| v));
        prop_assume!(second.refused.is_empty());
        let trust = second.cases[0].trust;
        prop_assert!(trust.imbalance < 1e-10 && trust.residual < 1e-14, "{trust:?}");
        // The couples are what first order leaves out of balance on the bent frame: they are not nothing here.
        prop_assert!(trust.couples.iter().any(|couple| couple.abs() > 1e-3), "{trust:?}");
        prop_assert!((largest(&second) / largest(&first) - 1.0).abs() > 1e-5);
        let last = second.cases[0].second_order.as_ref().unwrap().passes.last().unwrap();
        prop_assert!(last.forces <= 1e-9 && last.movements <= 1e-9);
    }

    #[test]
    fn joints_in_another_order_give_the_same(random in randoms()) {
        let order: Vec<usize> = in_order(&random).into_iter().rev().collect();
        let (model, _, one) = both(&heavy(&random, &in_order(&random), |v| v));
        let (other, _, two) = both(&heavy(&random, &order, |v| v));
        prop_assume!(one.refused.is_empty());
        let size = largest(&one);
        for i in 0..random.jitter.len() {
            let name = format!("j{i}");
            let (a, b) = (displacement(&model, &one, &name), displacement(&other, &two, &name));
            for dof in 0..6 {
                prop_assert!((a[dof] - b[dof]).abs() < 1e-8 * size, "{name} {dof}: {a:?} {b:?}");
            }
        }
    }

    /// A frame turned by 90 degrees about z, and its loads with it, moves as before, turned.
    #[test]
    fn a_turned_frame_gives_the_same(random in randoms()) {
        let turn = |[x, y, z]: [f64; 3]| [-y, x, z];
        let (model, _, one) = both(&heavy(&random, &in_order(&random), |v| v));
        let (other, _, two) = both(&heavy(&random, &in_order(&random), turn));
        prop_assume!(one.refused.is_empty());
        let size = largest(&one);
        for i in 0..random.jitter.len() {
            let name = format!("j{i}");
            let (a, b) = (displacement(&model, &one, &name), displacement(&other, &two, &name));
            let turned: Vec<f64> = [turn([a[0], a[1], a[2]]), turn([a[3], a[4], a[5]])].concat();
            for dof in 0..6 {
                prop_assert!((turned[dof] - b[dof]).abs() < 1e-7 * size, "{name} {dof}: {turned:?} {b:?}");
            }
        }
    }

    /// Small loads: second order is first order.
    #[test]
    fn small_loads_change_nothing(random in randoms()) {
        let (_, first, second) = both(&random.folder(&in_order(&random), |v| v, 1e-6));
        let pairs = first.cases[0].displacements.iter().zip(&second.cases[0].displacements);
        let size = largest(&first);
        for (a, b) in pairs {
            prop_assert!((0..6).all(|dof| (a[dof] - b[dof]).abs() < 1e-6 * size));
        }
    }
}
