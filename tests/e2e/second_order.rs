//! Second order, where `run` is asked for it.

use std::path::Path;

use serde_json::Value;

use crate::harness::{copy_of, put, starter, strutwork, tests, text};

const LOADS: &str = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n";

fn column(csv: &str, wanted: &str) -> Vec<String> {
    let mut lines = csv.lines();
    let place = lines.next().unwrap().split(',').position(|key| key == wanted).unwrap();
    lines.map(|line| line.split(',').nth(place).unwrap().to_owned()).collect()
}

fn numbers(csv: &str, wanted: &str) -> Vec<f64> {
    column(csv, wanted).iter().map(|value| value.parse().unwrap()).collect()
}

/// A pinned tube of 2 m with EI = 14 700 N·m², pressed by a share of its Euler load and loaded across.
fn pinned(folder: &Path, share: f64, tube_loads: &str, point: &str) {
    std::fs::create_dir_all(folder).unwrap();
    put(
        &folder.join("model.toml"),
        "title = \"pinned\"\n[options]\nself_weight = false\n[sections.s]\nshape = \"properties\"\narea_mm2 = 300\niy_mm4 = 70000\n\
         iz_mm4 = 80000\nj_mm4 = 110000\n[materials.m]\ne_mpa = 210000\ng_mpa = 81000\ndensity_kg_m3 = 7850\n",
    );
    put(&folder.join("joints.csv"), "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,2000,0,0\n");
    put(&folder.join("tubes.csv"), "tube,from,to,section,material\nt,a,b,s,m\n");
    put(
        &folder.join("supports.csv"),
        "joint,ux,uy,uz,rx,ry,rz\na,fixed,fixed,fixed,fixed,free,free\nb,free,fixed,fixed,free,free,free\n",
    );
    let euler = std::f64::consts::PI.powi(2) * 14_700.0 / 4.0;
    put(&folder.join("loads.csv"), format!("{LOADS}p,b,{:?},0,0,0,0,0\n", -share * euler));
    put(&folder.join("tube_loads.csv"), format!("case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\n{tube_loads}"));
    put(&folder.join("tube_point_loads.csv"), format!("case,tube,axes,at,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n{point}"));
}

/// Timoshenko & Gere (1961), Theory of Elastic Stability, ch. 1 (from memory): uniform load 2(sec v − 1)/v², centre load
/// tan v / v.
#[test]
fn a_pinned_tube_grows_as_the_closed_form_says() {
    let place = copy_of(&tests().join("suite/_base"));
    for share in [0.2, 0.5, 0.8] {
        let v = std::f64::consts::FRAC_PI_2 * f64::sqrt(share);
        for (loads, point, growth) in [
            ("p,t,local,0,0,-50\n", "", 2.0 * (1.0 / v.cos() - 1.0) / (v * v)),
            ("", "p,t,local,0.5,0,0,-80,0,0,0\n", v.tan() / v),
        ] {
            let folder = place.path().join("pinned");
            let _ = std::fs::remove_dir_all(&folder);
            pinned(&folder, share, loads, point);
            strutwork(place.path(), &["run", "pinned", "--second-order"]).expect_done();
            let told = text(&folder.join("results/second_order.csv"));
            assert_eq!(column(&told, "quantity"), ["displacement", "moment"], "{told}");
            let found = numbers(&told, "amplification")[1];
            assert!((found / growth - 1.0).abs() < 1e-5, "{share}: {found} {growth}");
            // The stations hold the moment in the middle, and it balances there: N·v and the load.
            let forces = text(&folder.join("results/member_forces.csv"));
            let (at, my) = (numbers(&forces, "station"), numbers(&forces, "my_nm"));
            let middle = at.iter().position(|at| *at == 0.5).expect("a station in the middle");
            let most = my.iter().fold(0.0_f64, |most, my| most.max(my.abs()));
            assert!((my[middle].abs() - most).abs() < 1e-9 * most, "{forces}");
        }
    }
}

#[test]
fn it_is_written_only_where_it_is_asked_for_and_all_places_agree() {
    let place = starter();
    let results = place.path().join("frame/results");
    strutwork(place.path(), &["run", "frame"]).expect_done();
    for name in ["second_order.csv", "second_order_tubes.csv", "second_order_passes.csv"] {
        assert!(!results.join(name).exists(), "{name}");
    }
    let first = text(&results.join("member_forces.csv"));
    let run: Value = serde_json::from_str(&text(&results.join("run.json"))).unwrap();
    assert!(run["second_order"].is_null());
    let ran = strutwork(place.path(), &["run", "frame", "--second-order"]);
    ran.expect_done();
    assert!(ran.stdout.contains("second order"), "{}", ran.stdout);
    assert_ne!(first, text(&results.join("member_forces.csv")));
    let run: Value = serde_json::from_str(&text(&results.join("run.json"))).unwrap();
    let told = text(&results.join("second_order.csv"));
    for (case, growth) in
        run["second_order"]["cases"].as_array().unwrap().iter().zip(numbers(&told, "amplification").chunks(2))
    {
        for (key, growth) in ["displacement_growth", "moment_growth"].into_iter().zip(growth) {
            // The reader of JSON here may lose the last bit.
            assert!((case[key].as_f64().unwrap() / growth - 1.0).abs() < 1e-15, "{told}");
        }
    }
    assert!(run["options"]["text"].as_str().unwrap().contains("second order"), "{}", run["options"]);
    assert!(run["counters"]["factorisations"].as_u64().unwrap() > 1);
    let report = text(&results.join("report.html"));
    for words in
        ["<h3>Second order</h3>", "5.2.2(7)b", "imperfections (EN 1993-1-1 5.3) are not added", "second_order.csv"]
    {
        assert!(report.contains(words), "{words}");
    }
    let findings = text(&results.join("findings.csv"));
    assert!(findings.contains("outside scope: imperfections") && findings.contains("D024"), "{findings}");
    assert!(!findings.contains("outside scope: frame buckling"), "{findings}");
}

/// A case that buckles is an error with its share; no other table has a row of it.
#[test]
fn a_case_that_buckles_is_nowhere_but_among_the_errors() {
    let place = copy_of(&tests().join("suite/_base"));
    let folder = place.path().join("post");
    put(&folder.join("loads.csv"), format!("{LOADS}light,head,10,0,-300,0,0,0\nheavy,head,10,0,-1000,0,0,0\n"));
    strutwork(place.path(), &["run", "post", "--second-order", "--buckling", "1"]).expect(1);
    let read = |name: &str| text(&folder.join("results").join(name));
    for name in ["member_forces.csv", "displacements.csv", "reactions.csv", "cases.csv", "buckling.csv"] {
        assert!(!read(name).contains("heavy") && read(name).contains("light"), "{name}");
    }
    let told = read("second_order.csv");
    let heavy = told.lines().find(|line| line.starts_with("heavy")).unwrap();
    assert!(heavy.starts_with("heavy,buckles,,,,,,,0.75"), "{heavy}");
    let error = read("findings.csv").lines().find(|line| line.starts_with("D024,error,heavy")).map(str::to_owned);
    assert!(error.is_some(), "{}", read("findings.csv"));
    let report = read("report.html");
    assert!(report.contains("does not stand under these cases") && report.contains("heavy"));
    let run: Value = serde_json::from_str(&read("run.json")).unwrap();
    assert_eq!(run["second_order"]["refused"][0]["code"], "S007");
    // The page behind a check says what its forces are.
    let page = strutwork(place.path(), &["working", "post", "post", "--check", "D022", "--second-order"]);
    assert!(page.stdout.contains("second order: these are the forces of the bent frame"), "{}", page.stdout);
}
