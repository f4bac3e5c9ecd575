//! Laws of frames with bodies, over random frames.

use proptest::prelude::*;
use strutwork_model::ids::Id;
use strutwork_solve::Results;
use strutwork_testkit::{Folder, assert_close_by};

use crate::random::{Random, displacement, largest, randoms, solved};

/// The frame with a body bolted to four joints in its middle and one on bushes at its end.
fn with_bodies(folder: Folder, random: &Random, scale: f64, turn: impl Fn([f64; 3]) -> [f64; 3]) -> Folder {
    let last = random.jitter.len() - 1;
    let mut rows =
        String::from("body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,krx_nm_per_deg,kry_nm_per_deg,krz_nm_per_deg\n");
    for joint in 4..8 {
        rows += &format!("cradle,j{joint},,,,,,\n");
    }
    for (joint, k, kr) in [(last, "700", "40"), (last - 1, "300", "free"), (last - 3, "450", "15")] {
        rows += &format!("unit,j{joint},{k},{k},{k},{kr},{kr},{kr}\n");
    }
    let [x, y, z] = random.line;
    let force = turn([3.0 * x, 2.0 * y, 4.0 * z]).map(|v| v * scale);
    let moment = turn([y, z, x]).map(|v| v * scale);
    let load = |body: &str| {
        let values: Vec<String> = force.iter().chain(&moment).map(|v| format!("{v:?}")).collect();
        format!("all,body: {body},{}\n", values.join(","))
    };
    folder.with("bodies.csv", rows).and("loads.csv", &(load("cradle") + &load("unit")))
}

fn plain(random: &Random) -> Folder {
    with_bodies(random.plain(), random, 1.0, |v| v)
}

fn mount_sums(results: &Results, model: &strutwork_model::Model, body: &str) -> [f64; 6] {
    let body = model.body_named(body).unwrap();
    let about = model.bodies()[body].at;
    let mut sum = [0.0; 6];
    for (id, mount) in model.mounts().iter_with_id().filter(|(_, mount)| mount.body == body) {
        let f = results.cases[0].mounts[id].on_frame;
        let r = [0, 1, 2].map(|i| model.joints()[mount.joint].at[i] - about[i]);
        let moved = [r[1] * f[2] - r[2] * f[1], r[2] * f[0] - r[0] * f[2], r[0] * f[1] - r[1] * f[0]];
        for i in 0..3 {
            sum[i] += f[i];
            sum[i + 3] += f[i + 3] + moved[i];
        }
    }
    sum
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    #[test]
    fn mounts_carry_what_acts_on_their_body(random in randoms()) {
        let (model, results) = solved(&plain(&random));
        let trust = results.cases[0].trust;
        prop_assert!(trust.imbalance < 1e-10 && trust.residual < 1e-14 && trust.energy > 0.0, "{trust:?}");
        let [x, y, z] = random.line;
        let size = results.cases[0].mounts.iter().flat_map(|mount| mount.on_frame).fold(0.0, |most: f64, f| most.max(f.abs()));
        for body in ["cradle", "unit"] {
            let sums = mount_sums(&results, &model, body);
            for (sum, load) in sums.into_iter().zip([3.0 * x, 2.0 * y, 4.0 * z, y, z, x]) {
                assert_close_by(body, sum, load, 1e-9 * size);
            }
        }
    }

    /// A rigid body is the limit of very stiff tubes between its joints.
    #[test]
    fn a_rigid_body_is_as_very_stiff_tubes(random in randoms()) {
        let frame = random.plain();
        let bolted = frame.clone().with("bodies.csv", "body,joint\ncradle,j4\ncradle,j5\ncradle,j6\ncradle,j7\n");
        let mut stiff = frame.and(
            "model.toml",
            "[sections.block]\nshape = \"properties\"\narea_mm2 = 2e9\niy_mm4 = 4e12\niz_mm4 = 4e12\nj_mm4 = 4e12\n",
        );
        let file = stiff.files().0.into_iter().find(|file| file.name == "tubes.csv").unwrap();
        let mut tubes = String::from_utf8(file.bytes).unwrap();
        for (a, b) in [(4, 5), (4, 6), (5, 7), (6, 7)] {
            tubes = tubes.replace(&format!(",j{a},j{b},deep"), &format!(",j{a},j{b},block"));
        }
        stiff = stiff.with("tubes.csv", tubes + "block1,j4,j7,block,mild,0\nblock2,j5,j6,block,mild,0\n");
        let (_, bolted) = solved(&bolted);
        let (_, stiff) = solved(&stiff);
        let most = largest(&bolted);
        for (a, b) in bolted.cases[0].displacements.iter().flatten().zip(stiff.cases[0].displacements.iter().flatten()) {
            assert_close_by("stiff", *b, *a, 2e-6 * most);
        }
    }

    #[test]
    fn renumbering_changes_nothing(random in randoms(), seed in any::<u64>()) {
        let mut order: Vec<usize> = (0..random.jitter.len()).collect();
        order.sort_by_key(|i| (*i as u64 + 1).wrapping_mul(seed | 1));
        let (model, results) = solved(&plain(&random));
        let (other_model, other) = solved(&with_bodies(random.folder(&order, |v| v, 1.0), &random, 1.0, |v| v));
        for joint in model.joints() {
            let (a, b) = (displacement(&model, &results, &joint.name), displacement(&other_model, &other, &joint.name));
            for (a, b) in a.into_iter().zip(b) {
                assert_close_by("renumbered", a, b, 1e-10 * largest(&results));
            }
        }
        for (a, b) in results.cases[0].mounts.iter().zip(&other.cases[0].mounts) {
            for (a, b) in a.on_frame.into_iter().zip(b.on_frame) {
                assert_close_by("mount", a, b, 1e-5);
            }
        }
    }

    #[test]
    fn turning_the_frame_about_z_turns_the_answer(random in randoms(), angle in -3.0..3.0_f64) {
        let turn = |[x, y, z]: [f64; 3]| [x * angle.cos() - y * angle.sin(), x * angle.sin() + y * angle.cos(), z];
        let order: Vec<usize> = (0..random.jitter.len()).collect();
        let (model, results) = solved(&plain(&random));
        let (_, turned) = solved(&with_bodies(random.folder(&order, turn, 1.0), &random, 1.0, turn));
        let halves = |v: [f64; 6]| turn([v[0], v[1], v[2]]).into_iter().chain(turn([v[3], v[4], v[5]]));
        for id in (0..model.joints().len()).map(Id::new) {
            for (e, v) in halves(results.cases[0].displacements[id]).zip(turned.cases[0].displacements[id]) {
                assert_close_by("turned", v, e, 1e-9 * largest(&results));
            }
        }
        for (a, b) in results.cases[0].mounts.iter().zip(&turned.cases[0].mounts) {
            for (a, b) in halves(a.on_frame).zip(b.on_frame) {
                assert_close_by("mount", a, b, 1e-4);
            }
        }
    }
}
