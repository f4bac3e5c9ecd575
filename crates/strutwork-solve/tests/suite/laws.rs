//! Mechanics holds, whatever the code: properties over random frames.

use std::fmt::Write as _;

use proptest::prelude::*;
use strutwork_model::Model;
use strutwork_model::ids::Id;
use strutwork_solve::Results;
use strutwork_testkit::{Folder, assert_close_by, solve};

/// A random frame: joints on a jittered 2 × 2 × n grid, all neighbours connected, some rolled, held at one end.
#[derive(Debug, Clone)]
struct Random {
    jitter: Vec<[f64; 3]>,
    rolls: Vec<f64>,
    loads: Vec<[f64; 6]>,
    line: [f64; 3],
}

fn randoms() -> impl Strategy<Value = Random> {
    (2_usize..4).prop_flat_map(|bays| {
        let joints = 4 * (bays + 1);
        (
            prop::collection::vec(prop::array::uniform3(-120.0..120.0_f64), joints),
            prop::collection::vec(-90.0..90.0_f64, 12 * bays),
            prop::collection::vec(prop::array::uniform6(-500.0..500.0_f64), joints),
            prop::array::uniform3(-200.0..200.0_f64),
        )
            .prop_map(|(jitter, rolls, loads, line)| Random { jitter, rolls, loads, line })
    })
}

impl Random {
    fn places(&self) -> Vec<[f64; 3]> {
        let place = |(i, jitter): (usize, &[f64; 3])| {
            let grid = [(i / 4) as f64 * 700.0, (i % 2) as f64 * 600.0, ((i / 2) % 2) as f64 * 500.0];
            [0, 1, 2].map(|axis| grid[axis] + jitter[axis])
        };
        self.jitter.iter().enumerate().map(place).collect()
    }

    fn pairs(&self) -> Vec<(usize, usize)> {
        let mut pairs = Vec::new();
        for bay in 0..self.jitter.len() / 4 {
            let j = 4 * bay;
            pairs.extend([(j, j + 1), (j, j + 2), (j + 1, j + 3), (j + 2, j + 3)]);
            if bay > 0 {
                pairs.extend((0..4).map(|corner| (j - 4 + corner, j + corner)));
                pairs.push((j - 4, j + 1));
            }
        }
        pairs
    }

    /// The folder with joints in this order, moved by a rigid motion.
    fn folder(&self, order: &[usize], turn: impl Fn([f64; 3]) -> [f64; 3], scale: f64) -> Folder {
        let (places, mut joints) = (self.places(), String::from("joint,x_mm,y_mm,z_mm\n"));
        for &i in order {
            let [x, y, z] = turn(places[i]);
            writeln!(joints, "j{i},{x:?},{y:?},{z:?}").unwrap();
        }
        let mut tubes = String::from("tube,from,to,section,material,roll_deg\n");
        for (t, ((a, b), roll)) in self.pairs().into_iter().zip(self.rolls.iter().cycle()).enumerate() {
            writeln!(tubes, "t{t},j{a},j{b},deep,mild,{roll:?}").unwrap();
        }
        let mut loads = String::from("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n");
        for (i, load) in self.loads.iter().enumerate() {
            let (force, moment) = (turn([load[0], load[1], load[2]]), turn([load[3], load[4], load[5]]));
            let values: Vec<String> = force.iter().chain(&moment).map(|v| format!("{:?}", v * scale)).collect();
            writeln!(loads, "all,j{i},{}", values.join(",")).unwrap();
        }
        let supports: String = (0..4).map(|i| format!("j{i},fixed,fixed,fixed,fixed,fixed,fixed\n")).collect();
        Folder::steel()
            .and(
                "model.toml",
                "[sections.deep]\nshape = \"rectangular\"\nheight_mm = 40.0\nwidth_mm = 20.0\nwall_mm = 2.0\n",
            )
            .with("joints.csv", joints)
            .with("tubes.csv", tubes)
            .with("loads.csv", loads)
            .with("supports.csv", format!("joint,ux,uy,uz,rx,ry,rz\n{supports}"))
    }

    fn plain(&self) -> Folder {
        self.folder(&(0..self.jitter.len()).collect::<Vec<_>>(), |v| v, 1.0)
    }
}

fn solved(folder: &Folder) -> (Model, Results) {
    let model = folder.model();
    let results = solve(&model).unwrap();
    (model, results)
}

fn displacement(model: &Model, results: &Results, joint: &str) -> [f64; 6] {
    results.cases[0].displacements[model.joint_named(joint).unwrap()]
}

fn largest(results: &Results) -> f64 {
    results.cases[0].displacements.iter().flatten().fold(0.0, |most: f64, v| most.max(v.abs()))
}

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
