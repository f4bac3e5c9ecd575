//! Natural modes and buckling, where `run` is asked for them.

use crate::harness::{copy_of, put, starter, strutwork, tests, text};

fn columns(csv: &str, wanted: &str) -> Vec<String> {
    let mut lines = csv.lines();
    let place = lines.next().unwrap().split(',').position(|key| key == wanted).unwrap();
    lines.map(|line| line.split(',').nth(place).unwrap().to_owned()).collect()
}

#[test]
fn they_are_written_only_when_asked_for() {
    let place = starter();
    strutwork(place.path(), &["run", "frame"]).expect(0);
    let results = place.path().join("frame/results");
    for name in ["modes.csv", "buckling.csv", "effective_lengths.csv"] {
        assert!(!results.join(name).exists(), "{name}");
    }
    strutwork(place.path(), &["run", "frame", "--modes", "0", "--buckling", "0"]).expect(0);
    assert!(!results.join("modes.csv").exists());
}

#[test]
fn modes_of_the_starter_are_counted_and_named() {
    let place = starter();
    let ran = strutwork(place.path(), &["run", "frame", "--modes", "5"]);
    ran.expect(0);
    assert!(ran.stdout.contains("counted, 5 found"), "{}", ran.stdout);
    let modes = text(&place.path().join("frame/results/modes.csv"));
    let header = "mode,frequency_hz,ex_kg,ey_kg,ez_kg,erx_kg_m2,ery_kg_m2,erz_kg_m2,tube,tube_energy_share,name\n";
    assert!(modes.starts_with(header), "{modes}");
    assert_eq!(columns(&modes, "mode"), ["1", "2", "3", "4", "5"]);
    let hz: Vec<f64> = columns(&modes, "frequency_hz").iter().map(|hz| hz.parse().unwrap()).collect();
    assert!(hz[0] > 1.0 && hz.is_sorted(), "{hz:?}");
    let told = text(&place.path().join("frame/results/run.json"));
    assert!(told.contains("\"counted\": 5"), "{told}");
}

#[test]
fn a_model_without_loads_has_modes_and_a_free_one_rigid_ones() {
    let place = starter();
    let frame = place.path().join("frame");
    for name in ["loads.csv", "supports.csv"] {
        std::fs::remove_file(frame.join(name)).unwrap();
    }
    strutwork(place.path(), &["run", "frame", "--modes", "3"]).expect_done();
    let modes = text(&frame.join("results/modes.csv"));
    assert_eq!(columns(&modes, "frequency_hz")[..6], ["0"; 6], "{modes}");
    assert_eq!(columns(&modes, "mode").len(), 9);
    strutwork(place.path(), &["run", "frame"]).expect(2).says("nothing to solve");
}

/// A pinned tube with so many times its Euler load along it.
fn column(folder: &std::path::Path, times: f64) {
    put(
        &folder.join("model.toml"),
        "title = \"column\"\n[options]\nself_weight = false\n[sections.s]\nshape = \"properties\"\narea_mm2 = 300\n\
         iy_mm4 = 70000\niz_mm4 = 80000\nj_mm4 = 110000\n[materials.m]\ne_mpa = 210000\ng_mpa = 81000\n\
         density_kg_m3 = 7850\n",
    );
    put(&folder.join("joints.csv"), "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,2000,0,0\n");
    put(&folder.join("tubes.csv"), "tube,from,to,section,material\nt,a,b,s,m\n");
    put(
        &folder.join("supports.csv"),
        "joint,ux,uy,uz,rx,ry,rz\na,fixed,fixed,fixed,fixed,free,free\nb,free,fixed,fixed,free,free,free\n",
    );
    let euler = std::f64::consts::PI.powi(2) * 210e9 * 7e-8 / 4.0;
    put(
        &folder.join("loads.csv"),
        format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npressed,b,{},0,0,0,0,0\n", times * euler),
    );
}

/// A pinned square tube under its Euler load: the factor is 1, and its buckling length its own length.
#[test]
fn a_column_buckles_at_its_euler_load() {
    let place = copy_of(&tests().join("suite/_base"));
    let folder = place.path().join("column");
    std::fs::create_dir(&folder).unwrap();
    column(&folder, -1.0);
    let ran = strutwork(place.path(), &["run", "column", "--buckling", "2"]);
    ran.expect_done();
    assert!(ran.stdout.contains("2 load factors up to 1.14"), "{}", ran.stdout);
    let rows = text(&folder.join("results/buckling.csv"));
    assert_eq!(columns(&rows, "case"), ["pressed", "pressed"]);
    let factors: Vec<f64> = columns(&rows, "load_factor").iter().map(|factor| factor.parse().unwrap()).collect();
    // Four cubic pieces: (π/4)⁴/720 = 0.053 % too high at most.
    assert!(factors[0] >= 1.0 && factors[0] < 1.00053, "{factors:?}");
    assert!((factors[1] / factors[0] - 8.0 / 7.0).abs() < 1e-6, "{factors:?}");
    assert_eq!(columns(&rows, "tube_1"), ["t", "t"]);
    let bound: f64 = columns(&rows, "error_bound")[0].parse().unwrap();
    assert!(bound <= 5e-4 && factors[0] * (1.0 - bound) <= 1.0, "{bound} {factors:?}");
    assert!(ran.stdout.contains("no load factor is above the exact one by more than 0.0"), "{}", ran.stdout);
    let lengths = text(&folder.join("results/effective_lengths.csv"));
    let weak: f64 = columns(&lengths, "lcr_weak_mm")[0].parse().unwrap();
    assert!((weak - 2000.0).abs() < 1.0, "{lengths}");
}

/// The starter with a rider: what sits on it only while it is driven makes every mode slower, and the report and run.json tell.
#[test]
fn the_driver_shifts_the_frequencies() {
    let place = starter();
    let frame = place.path().join("frame");
    put(
        &frame.join("masses.csv"),
        "mass,kg,x_mm,y_mm,z_mm,joints,when\nrider,90,400,300,500,rear-left-top rear-right-top,driven\n",
    );
    let ran = strutwork(place.path(), &["run", "frame", "--modes", "3"]);
    ran.expect_done();
    assert!(ran.stdout.contains("The 90.0 kg that are there only while driven"), "{}", ran.stdout);
    let rows = text(&frame.join("results/frequency_shift.csv"));
    assert!(rows.starts_with("mode,empty_mode,empty_hz,driven_hz,shift_percent,mac,name\n"), "{rows}");
    let cells = |column| columns(&rows, column).iter().map(|cell| cell.parse().ok()).collect::<Vec<Option<f64>>>();
    let (empty, driven, shift) = (cells("empty_hz"), cells("driven_hz"), cells("shift_percent"));
    let found = columns(&text(&frame.join("results/modes.csv")), "frequency_hz");
    assert_eq!(driven.iter().flatten().take(3).map(f64::to_string).collect::<Vec<_>>(), found);
    for ((empty, driven), shift) in empty.iter().zip(&driven).zip(&shift) {
        if let (Some(empty), Some(driven), Some(shift)) = (empty, driven, shift) {
            assert!((driven / empty - 1.0 - shift / 100.0).abs() < 1e-9);
        }
    }
    assert!(shift.iter().flatten().any(|shift| *shift < -1.0), "{shift:?}");
    let told: serde_json::Value = serde_json::from_str(&text(&frame.join("results/run.json"))).unwrap();
    assert_eq!(told["modes"]["driven_kg"], 90.0);
    assert_eq!(told["modes"]["frequency_shift"][0]["driven_hz"].as_f64(), driven[0]);
    assert!(text(&frame.join("results/report.html")).contains("When the driver sits in"));
}

/// A pinned beam pressed with 0.4 of its Euler load: f √0.6, Timoshenko (from memory).
#[test]
fn modes_under_a_case_are_written_beside_the_others() {
    let place = copy_of(&tests().join("suite/_base"));
    let folder = place.path().join("column");
    std::fs::create_dir(&folder).unwrap();
    column(&folder, -0.4);
    let ran = strutwork(place.path(), &["run", "column", "--modes", "1", "--modes-under", "pressed", "--pieces", "16"]);
    ran.expect_done();
    let results = folder.join("results");
    let first = |file: &str| columns(&text(&results.join(file)), "frequency_hz")[0].parse::<f64>().unwrap();
    let share = first("modes_under.csv") / first("modes.csv");
    assert!((share - 0.6_f64.sqrt()).abs() < 1e-6, "{share}");
    assert!(text(&results.join("report.html")).contains("Natural modes under case pressed"));
    strutwork(place.path(), &["run", "column", "--modes-under", "pressed"]).expect(2).says("--modes");
}

/// A post that may shift is judged by the length that the frame's load factor gives, and the report and the page say so; one piece
/// is too coarse for a bound, and is told so.
#[test]
fn members_are_judged_by_the_load_factor_of_the_frame() {
    let place = copy_of(&tests().join("suite/_base"));
    let folder = place.path().join("slim-post");
    std::fs::create_dir(&folder).unwrap();
    put(
        &folder.join("model.toml"),
        "title = \"post\"\n[options]\nself_weight = false\n[sections.s]\nshape = \"square\"\nwidth_mm = 30\nwall_mm = 2\n\
         [materials.m]\ngrade = \"S235JRH\"\n",
    );
    put(&folder.join("joints.csv"), "joint,x_mm,y_mm,z_mm\nfoot,0,0,0\nhead,0,0,1000\n");
    put(&folder.join("tubes.csv"), "tube,from,to,section,material\npost,foot,head,s,m\n");
    put(&folder.join("supports.csv"), "joint,ux,uy,uz,rx,ry,rz\nfoot,fixed,fixed,fixed,fixed,fixed,fixed\n");
    put(&folder.join("loads.csv"), "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npress,head,0,0,-3000,0,0,0\n");
    let page = |more: &[&str]| {
        let mut command = vec!["working", "slim-post", "post", "--check", "D022"];
        command.extend(more);
        let ran = strutwork(place.path(), &command);
        ran.expect_done();
        ran.stdout.clone()
    };
    let (rule, frame) = (page(&[]), page(&["--buckling", "1"]));
    assert!(rule.contains("the tube's own length") && !rule.contains("whole frame"), "{rule}");
    assert!(frame.contains("load factor of mode 1 of the whole frame") && frame.contains("1 − δ,y"), "{frame}");
    strutwork(place.path(), &["run", "slim-post", "--buckling", "2"]).expect_done();
    let report = text(&folder.join("results/report.html"));
    assert!(report.contains("Before that rule comes the load factor of the whole frame"), "no basis");
    // The report's own page of the post has the same length.
    assert!(report.contains("load factor of mode 1 of the whole frame"), "no page");
    put(&folder.join("loads.csv"), "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\nlift,head,0,0,3000,0,0,0\n");
    let ran = strutwork(place.path(), &["run", "slim-post", "--buckling", "1"]);
    ran.expect_done();
    assert!(ran.stdout.contains("No case buckles the frame"), "{}", ran.stdout);
    let reversed = text(&folder.join("results/buckling_reversed.csv"));
    assert!(columns(&reversed, "load_factor")[0].starts_with('-'), "{reversed}");
}
