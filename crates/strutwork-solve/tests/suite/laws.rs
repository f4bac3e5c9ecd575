//! Mechanics holds, whatever the code: properties over random frames.

use proptest::prelude::*;
use strutwork_model::ids::Id;
use strutwork_testkit::assert_close_by;

use crate::random::{displacement, largest, randoms, solved};

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn reactions_balance_loads_and_energy_is_positive(random in randoms()) {
        let (_, results) = solved(&random.plain());
        let trust = results.cases[0].trust;
        prop_assert!(trust.imbalance < 1e-10, "{trust:?}");
        prop_assert!(trust.residual < 1e-14, "{trust:?}");
        prop_assert!(trust.energy > 0.0);
    }

    #[test]
    fn renumbering_changes_nothing(random in randoms(), seed in any::<u64>()) {
        let mut order: Vec<usize> = (0..random.jitter.len()).collect();
        order.sort_by_key(|i| (*i as u64 + 1).wrapping_mul(seed | 1));
        let (model, results) = solved(&random.plain());
        let (other_model, other) = solved(&random.folder(&order, |v| v, 1.0));
        for joint in model.joints() {
            let (a, b) = (displacement(&model, &results, &joint.name), displacement(&other_model, &other, &joint.name));
            for (a, b) in a.into_iter().zip(b) {
                assert_close_by("renumbered", a, b, 1e-10 * largest(&results));
            }
        }
    }

    #[test]
    fn turning_the_frame_about_z_turns_the_answer(random in randoms(), angle in -3.0..3.0_f64) {
        // The walls of a vertical tube stand along global axes, whichever way the frame is turned.
        prop_assume!(random.steepest() < 0.99999);
        let turn = |[x, y, z]: [f64; 3]| [x * angle.cos() - y * angle.sin(), x * angle.sin() + y * angle.cos(), z];
        let order: Vec<usize> = (0..random.jitter.len()).collect();
        let (model, results) = solved(&random.plain());
        let (_, turned) = solved(&random.folder(&order, turn, 1.0));
        for id in model.joints().ids() {
            let (u, v) = (results.cases[0].displacements[id], turned.cases[0].displacements[id]);
            let expected = turn([u[0], u[1], u[2]]).into_iter().chain(turn([u[3], u[4], u[5]]));
            for (e, v) in expected.zip(v) {
                assert_close_by("turned", v, e, 1e-9 * largest(&results));
            }
        }
    }

    #[test]
    fn twice_the_load_gives_twice_the_answer(random in randoms()) {
        let order: Vec<usize> = (0..random.jitter.len()).collect();
        let (_, one) = solved(&random.plain());
        let (_, two) = solved(&random.folder(&order, |v| v, 2.0));
        for (a, b) in one.cases[0].displacements.iter().flatten().zip(two.cases[0].displacements.iter().flatten()) {
            assert_close_by("doubled", 2.0 * a, *b, 1e-11 * largest(&two));
        }
    }

    #[test]
    fn a_load_here_moves_there_as_a_load_there_moves_here(random in randoms()) {
        let folder = random.plain();
        let last = random.jitter.len() - 1;
        let header = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n";
        let (model, results) = solved(&folder.with(
            "loads.csv",
            format!("{header}a,j{},100,0,0,0,0,0\nb,j{last},0,0,0,0,100,0\n", last - 3),
        ));
        let at = |name: String| model.joint_named(&name).unwrap();
        let a = results.cases[0].displacements[at(format!("j{last}"))][4];
        let b = results.cases[1].displacements[at(format!("j{}", last - 3))][0];
        assert_close_by("reciprocity", a, b, 1e-10 * largest(&results));
    }

    #[test]
    fn splitting_a_tube_changes_nothing_elsewhere(random in randoms(), share in 0.2..0.8_f64) {
        let folder = random.plain();
        let line = |tube: &str| {
            let [x, y, z] = random.line;
            format!("all,{tube},global,{x:?},{y:?},{z:?}\n")
        };
        let header = "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\n";
        let (model, whole) = solved(&folder.clone().with("tube_loads.csv", format!("{header}{}", line("t4"))));
        let tube = model.tubes().iter().nth(4).unwrap();
        let (from, to) = (&model.joints()[tube.from], &model.joints()[tube.to]);
        let middle = [0, 1, 2].map(|i| 1e3 * (from.at[i] + share * (to.at[i] - from.at[i])));
        let row = format!("t4,{},{},deep,mild,{:?}\n", from.name, to.name, random.rolls[4 % random.rolls.len()]);
        let roll = random.rolls[4 % random.rolls.len()];
        let text = |name: &str| {
            let files = folder.files();
            let file = files.0.iter().find(|file| file.name == name).unwrap();
            String::from_utf8(file.bytes.clone()).unwrap()
        };
        let tubes = text("tubes.csv");
        prop_assert!(tubes.contains(&row));
        let halves = format!("t4,{},mid,deep,mild,{roll:?}\nt4b,mid,{},deep,mild,{roll:?}\n", from.name, to.name);
        let split = folder
            .and("joints.csv", &format!("mid,{:?},{:?},{:?}\n", middle[0], middle[1], middle[2]))
            .with("tubes.csv", tubes.replace(&row, &halves))
            .with("tube_loads.csv", format!("{header}{}{}", line("t4"), line("t4b")));
        let (_, split) = solved(&split);
        for id in 0..model.joints().len() {
            let id = Id::new(id);
            for (a, b) in whole.cases[0].displacements[id].into_iter().zip(split.cases[0].displacements[id]) {
                assert_close_by("split", a, b, 1e-9 * largest(&whole));
            }
        }
    }
}
