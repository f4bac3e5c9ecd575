//! Random frames for laws.

use std::fmt::Write as _;

use proptest::prelude::*;
use strutwork_model::Model;
use strutwork_solve::Results;
use strutwork_testkit::{Folder, solve};

/// A random frame: joints on a jittered 2 × 2 × n grid, all neighbours connected, some rolled, held at one end.
#[derive(Debug, Clone)]
pub(crate) struct Random {
    pub(crate) jitter: Vec<[f64; 3]>,
    pub(crate) rolls: Vec<f64>,
    pub(crate) loads: Vec<[f64; 6]>,
    pub(crate) line: [f64; 3],
}

pub(crate) fn randoms() -> impl Strategy<Value = Random> {
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
    pub(crate) fn places(&self) -> Vec<[f64; 3]> {
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

    /// The height of the steepest tube over its length.
    pub(crate) fn steepest(&self) -> f64 {
        let places = self.places();
        let steepness = |(a, b): (usize, usize)| {
            let along = [0, 1, 2].map(|axis| places[b][axis] - places[a][axis]);
            along[2].abs() / along.iter().map(|d| d * d).sum::<f64>().sqrt()
        };
        self.pairs().into_iter().map(steepness).fold(0.0, f64::max)
    }

    /// The folder with joints in this order, moved by a rigid motion.
    pub(crate) fn folder(&self, order: &[usize], turn: impl Fn([f64; 3]) -> [f64; 3], scale: f64) -> Folder {
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

    pub(crate) fn plain(&self) -> Folder {
        self.folder(&(0..self.jitter.len()).collect::<Vec<_>>(), |v| v, 1.0)
    }
}

pub(crate) fn solved(folder: &Folder) -> (Model, Results) {
    let model = folder.model();
    let results = solve(&model).unwrap();
    (model, results)
}

pub(crate) fn displacement(model: &Model, results: &Results, joint: &str) -> [f64; 6] {
    results.cases[0].displacements[model.joint_named(joint).unwrap()]
}

pub(crate) fn largest(results: &Results) -> f64 {
    results.cases[0].displacements.iter().flatten().fold(0.0, |most: f64, v| most.max(v.abs()))
}
