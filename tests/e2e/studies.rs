//! Studies: the same bytes on any number of threads, killed at any moment, in shards; damaged journals; flat memory.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Stdio;
use std::time::Duration;

use crate::harness::{Ran, copy_of, entries, finish, program, project, put, strutwork, tests, text};

/// What a study leaves behind.
const FILES: [&str; 4] = ["csv", "parquet", "journal", "json"];

/// Long enough for a slow machine that does other things too.
const LIMIT: Duration = Duration::from_secs(240);

/// A model of two tubes with one load.
fn arm() -> tempfile::TempDir {
    let place = copy_of(&tests().join("suite/_base/arm"));
    let tubes = place.path().join("tubes.csv");
    put(&tubes, "tube,from,to,section,material,group\nAB,A,B,rail,mild,root\nBC,B,C,rail,mild,tip\n");
    place
}

/// A study of an arm's walls with so many samples, asked for strength or for mass alone.
fn script(place: &Path, samples: u32, asked: &str) {
    put(
        &place.join("walls.rhai"),
        format!(
            "let s = open_model(arguments()[0]).new_study(\"walls\");\n\
             s.vary_wall(\"root\", #{{ from: 1.0, to: 3.0 }});\n\
             s.vary_wall(\"tip\", [1.5, 2.0, 2.5, 17.0]);\n\
             s.latin_hypercube({samples}, 3);\n\
             s.ask_mass();\n{asked}\n\
             s.run();\nprint(\"the end\");\n"
        ),
    );
}

const STRENGTH: &str = "s.ask_utilisation(); s.at_most(\"utilisation\", 1);";

fn study(place: &Path, args: &[&str]) -> Ran {
    let mut all = vec!["study", "walls.rhai", "."];
    all.extend(args);
    finish(program(place, &all), LIMIT)
}

/// The bytes of all files of a study.
fn bytes(folder: &Path, stem: &str) -> Vec<Vec<u8>> {
    FILES.iter().map(|kind| fs::read(folder.join(format!("{stem}.{kind}"))).expect("a file of the study")).collect()
}

#[track_caller]
fn same(one: &[Vec<u8>], other: &[Vec<u8>]) {
    for ((name, one), other) in FILES.iter().zip(one).zip(other) {
        assert!(one == other, "the {name} differs");
    }
}

fn rows(file: &Path) -> Vec<Vec<String>> {
    let mut reader = csv::Reader::from_path(file).expect("a table");
    let header = reader.headers().expect("a header").iter().map(str::to_owned).collect();
    let rest = reader.records().map(|row| row.expect("a row").iter().map(str::to_owned).collect());
    std::iter::once(header).chain(rest).collect()
}

/// The place of a column.
fn column_of(table: &[Vec<String>], name: &str) -> usize {
    table[0].iter().position(|column| column == name).unwrap_or_else(|| panic!("no column {name}: {:?}", table[0]))
}

/// Variants that are solved together agree with a run to a thousand-millionth, not to the last bit.
#[track_caller]
fn close(run: &str, variant: &str, row: &[String]) {
    let [a, b] = [run, variant].map(|text| text.parse::<f64>().expect("a number"));
    assert!((a - b).abs() <= 1e-9 * b.abs(), "{a} and {b}: {row:?}");
}

#[test]
fn any_number_of_threads_gives_the_same_bytes() {
    let place = arm();
    script(place.path(), 60, STRENGTH);
    let mut first: Option<Vec<Vec<u8>>> = None;
    for threads in ["1", "2", "7"] {
        let out = format!("out-{threads}");
        study(place.path(), &["--threads", threads, "--out", &out]).expect(0).says("60 variants");
        let found = bytes(&place.path().join(out), "walls");
        same(first.get_or_insert_with(|| found.clone()), &found);
    }
}

#[test]
fn a_variant_is_what_a_run_of_the_changed_model_gives() {
    let place = arm();
    script(place.path(), 12, "s.ask_utilisation(); s.ask_movement(\"tip\", \"C\", \"uz\");");
    study(place.path(), &[]).expect(0);
    let table = rows(&place.path().join("studies/walls.csv"));
    let sheet = text(&place.path().join("model.toml"));
    for row in [&table[1], &table[6], &table[11]].into_iter().filter(|row| row[column_of(&table, "status")] == "solved")
    {
        let changed = format!(
            "{sheet}\n[sections.one]\nshape = \"square\"\nwidth_mm = 30.0\nwall_mm = {}\n\
             [sections.two]\nshape = \"square\"\nwidth_mm = 30.0\nwall_mm = {}\n",
            row[1], row[2]
        );
        let again = arm();
        put(&again.path().join("model.toml"), &changed);
        put(
            &again.path().join("tubes.csv"),
            "tube,from,to,section,material,group\nAB,A,B,one,mild,root\nBC,B,C,two,mild,tip\n",
        );
        strutwork(again.path(), &["run", "."]).expect_done();
        let moved = rows(&again.path().join("results/displacements.csv"));
        let column = moved[0].iter().position(|name| name == "uz_mm").expect("a column");
        let tip = moved.iter().find(|line| line[1] == "C").expect("the tip");
        close(&tip[column], &row[column_of(&table, "tip C uz_mm")], row);
        let findings = rows(&again.path().join("results/findings.csv"));
        let used = findings[0].iter().position(|name| name == "utilisation").expect("a column");
        let worst = findings[1..].iter().filter_map(|line| line[used].parse::<f64>().ok()).fold(0.0, f64::max);
        close(&worst.to_string(), &row[column_of(&table, "utilisation")], row);
    }
}

#[test]
fn killed_at_any_moment_it_goes_on_and_ends_with_the_same_bytes() {
    let place = arm();
    script(place.path(), 1500, STRENGTH);
    study(place.path(), &["--out", "whole"]).expect(0);
    let whole = bytes(&place.path().join("whole"), "walls");
    let mut random = 0x2545_f491_4f6c_dd1d_u64;
    let mut kills = 0;
    for _ in 0..200 {
        let mut child = program(place.path(), &["study", "walls.rhai", ".", "--out", "killed"])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("starts");
        random ^= random << 13;
        random ^= random >> 7;
        random ^= random << 17;
        std::thread::sleep(Duration::from_millis(40 + random % 400));
        if child.try_wait().expect("ours").is_some() {
            break;
        }
        child.kill().expect("ours");
        child.wait().expect("ours");
        kills += 1;
        if kills == 12 {
            break;
        }
    }
    study(place.path(), &["--out", "killed"]).expect(0);
    assert!(kills >= 2, "the study was over before it could be killed");
    same(&bytes(&place.path().join("killed"), "walls"), &whole);
    let left: Vec<PathBuf> = entries(&place.path().join("killed"));
    let stray = left.iter().filter(|path| !path.file_name().unwrap().to_string_lossy().starts_with(".strutwork-"));
    // The page and the folder of its pictures too.
    assert_eq!(stray.count(), FILES.len() + 2, "{left:?}");
    let page = |folder: &str| fs::read(place.path().join(folder).join("study.html")).expect("a page");
    assert!(page("killed") == page("whole"), "the page differs");
}

#[cfg(unix)]
#[test]
fn asked_to_stop_it_finishes_the_batch_and_says_how_to_go_on() {
    let place = arm();
    script(place.path(), 4000, STRENGTH);
    let mut command = program(place.path(), &["study", "walls.rhai", "."]);
    let child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("starts");
    let journal = place.path().join("studies/walls.journal");
    while fs::metadata(&journal).map_or(0, |about| about.len()) < 2000 {
        std::thread::sleep(Duration::from_millis(5));
    }
    let asked = std::process::Command::new("kill").args(["-INT", &child.id().to_string()]).status().expect("kill");
    assert!(asked.success());
    let ended = child.wait_with_output().expect("ours");
    let told = String::from_utf8_lossy(&ended.stderr).into_owned();
    assert_eq!(ended.status.code(), Some(130), "{told}");
    assert!(told.contains("Stopped after") && told.contains("The same command goes on"), "{told}");
    assert!(!String::from_utf8_lossy(&ended.stdout).contains("the end"), "the rest of the script waits");
    assert!(text(&journal).ends_with("}\n"), "only whole lines");
    assert!(!place.path().join("studies/walls.csv").exists());
}

#[test]
fn a_torn_line_is_dropped_and_a_damaged_one_named() {
    let place = arm();
    script(place.path(), 30, STRENGTH);
    study(place.path(), &[]).expect(0);
    let folder = place.path().join("studies");
    let whole = bytes(&folder, "walls");
    let journal = folder.join("walls.journal");
    let kept = fs::read(&journal).unwrap();
    for cut in [0, 1, kept.len() / 3, kept.len() / 2, kept.len() - 1] {
        fs::write(&journal, &kept[..cut]).unwrap();
        study(place.path(), &[]).expect(0);
        same(&bytes(&folder, "walls"), &whole);
    }
    let mut damaged = kept.clone();
    let third = kept.iter().enumerate().filter(|(_, byte)| **byte == b'\n').nth(1).unwrap().0 + 30;
    damaged[third] ^= 1;
    fs::write(&journal, &damaged).unwrap();
    study(place.path(), &[]).expect(2).says("line 3 is damaged").says("head -n 2");
    assert_eq!(fs::read(&journal).unwrap(), damaged, "left as it is");
    study(place.path(), &["--fresh"]).expect(0);
    same(&bytes(&folder, "walls"), &whole);
}

#[test]
fn a_journal_of_another_study_is_refused() {
    let place = arm();
    script(place.path(), 30, STRENGTH);
    study(place.path(), &[]).expect(0);
    let before = bytes(&place.path().join("studies"), "walls");
    script(place.path(), 31, STRENGTH);
    study(place.path(), &[]).expect(2).says("another study").says("--fresh");
    same(&bytes(&place.path().join("studies"), "walls"), &before);
    // The model counts as well.
    script(place.path(), 30, STRENGTH);
    put(&place.path().join("joints.csv"), "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,501,0,0\nC,500,400,0\n");
    study(place.path(), &[]).expect(2).says("another study");
    study(place.path(), &["--fresh"]).expect(0);
    // What nobody here wrote is not written over.
    put(&place.path().join("studies/walls.csv"), "mine");
    study(place.path(), &["--fresh"]).expect(4).says("no study wrote it");
    assert_eq!(text(&place.path().join("studies/walls.csv")), "mine");
}

#[test]
fn shards_put_together_are_the_undivided_run() {
    let place = arm();
    script(place.path(), 50, STRENGTH);
    study(place.path(), &["--out", "whole"]).expect(0);
    for k in ["1/4", "3/4", "4/4"] {
        let ran = study(place.path(), &["--out", "parts", "--shard", k]);
        ran.expect(0).says("strutwork study merge parts");
        assert!(!ran.stdout.contains("the end"), "the rest of the script waits for all shards");
    }
    let merge = |args: &[&str]| strutwork(place.path(), &[&["study", "merge"], args].concat());
    merge(&["parts"]).expect(2).says("missing: 12 to 24");
    assert!(!place.path().join("parts/walls.csv").exists());
    study(place.path(), &["--out", "parts", "--shard", "2/4"]).expect(0);
    merge(&["parts", "parts/walls.shard-2-of-4.journal"]).expect(2).says("in more than one journal: 12 to 24");
    merge(&["parts"]).expect(0);
    same(&bytes(&place.path().join("parts"), "walls"), &bytes(&place.path().join("whole"), "walls"));
    // A shard that belongs to something else.
    script(place.path(), 51, STRENGTH);
    study(place.path(), &["--out", "other", "--shard", "1/4"]).expect(0);
    merge(&["parts", "other"]).expect(2).says("another study");
}

#[test]
fn diagonals_that_leave_a_mechanism_are_a_result() {
    let place = copy_of(&tests().join("suite/_base/arm"));
    put(
        &place.path().join("tubes.csv"),
        "tube,from,to,section,material,group\nAB,A,B,rail,mild,\nBC,B,C,rail,mild,braces\nAC,A,C,rail,mild,braces\n",
    );
    let ran = strutwork(place.path(), &["study", ".", "--diagonals", "braces"]);
    ran.expect(0);
    let table = rows(&place.path().join("studies/diagonals.csv"));
    assert_eq!(table.len(), 5, "{table:?}");
    let status = table[0].iter().position(|name| name == "status").expect("a column");
    let words: Vec<&str> = table[1..].iter().map(|row| row[status].as_str()).collect();
    assert_eq!(words[..3], ["solved", "solved", "solved"], "{table:?}");
    ran.says("Found: ").says("leaves a joint, a part or a group by itself").says("Load cases: ");
    assert_ne!(words[3], "solved", "a load on a joint that nothing holds: {table:?}");
    assert!(!table[4][status + 1].is_empty(), "{table:?}");
}

#[test]
fn the_usual_questions_need_no_script() {
    let place = arm();
    let ran = strutwork(place.path(), &["study", ".", "--gauges", "--at-most", "utilisation=1", "--json"]);
    ran.expect(0);
    let told: serde_json::Value = serde_json::from_str(&ran.stdout).expect("JSON");
    assert_eq!(told["variants"], 9, "two groups of three walls: {told}");
    assert_eq!(told["ended"]["solved"], 9);
    let found = |way: &str| told["found"][way].as_u64().unwrap_or(0);
    assert_eq!(found("side_by_side") + found("corrected"), 9, "together, on one analysis: {told}");
    assert_eq!(told["found"]["the_whole_way"], serde_json::json!({}));
    let table = rows(&place.path().join("studies/gauges.csv"));
    assert_eq!(table[0][..4], ["variant", "root.wall_mm", "tip.wall_mm", "tubes_kg"]);
    strutwork(place.path(), &["study", "."]).expect(2).says("--gauges");
    strutwork(place.path(), &["study", ".", "--gauges", "--at-most", "utilization=1"]).expect(2).says("utilisation");
    strutwork(place.path(), &["study", ".", "--gauges", "--at-most", "utilisation=0.000001", "--out", "none"])
        .expect(1);
    strutwork(place.path(), &["study", ".", "--diagonals", "tips"]).expect(2).says("did you mean `tip`");
}

#[test]
fn functions_of_a_script_read_variants_that_are_solved_together() {
    let place = arm();
    let asked = "s.ask_movement(\"tip\", \"C\", \"uz\"); s.ask_utilisation(); s.ask_utilisation_of(\"D001\");\n\
                 s.ask(\"own_mm\", |r| r.displacement(\"tip\", \"C\").uz_mm);\n\
                 s.ask(\"own_use\", |r| r.utilisation());\n\
                 s.ask(\"own_count\", |r| r.case_names().len());\n\
                 s.ask(\"own_mpa\", |r| r.worst_tube(\"tip\").von_mises_mpa);";
    script(place.path(), 40, asked);
    study(place.path(), &["--json"]).expect(0);
    let told: serde_json::Value =
        serde_json::from_str(&text(&place.path().join("studies/walls.json"))).expect("what came out");
    // A wall of 17 mm makes no tube: those ten go the whole way to say so.
    let found = |way: &str| told["found"][way].as_u64().unwrap_or(0);
    assert_eq!(found("side_by_side") + found("corrected"), 30, "{told}");
    assert_eq!(told["found"]["the_whole_way"], serde_json::json!({ "value": 10 }), "{told}");
    let table = rows(&place.path().join("studies/walls.csv"));
    let column = |name: &str| column_of(&table, name);
    let solved: Vec<&Vec<String>> = table[1..].iter().filter(|row| row[column("status")] == "solved").collect();
    assert_eq!(solved.len(), 30);
    for row in solved {
        assert_eq!(row[column("own_mm")], row[column("tip C uz_mm")]);
        assert_eq!(row[column("own_use")], row[column("utilisation")]);
        assert_eq!(row[column("own_count")], "1");
        let [own, of_check] = ["own_mpa", "utilisation of D001"].map(|name| row[column(name)].parse::<f64>().unwrap());
        assert!(own > 1.0 && of_check > 0.0, "{row:?}");
    }
}

#[test]
fn what_no_variant_has_is_told_before_hours_are_spent() {
    let place = arm();
    script(place.path(), 5, "s.ask_movement(\"tipp\", \"C\", \"uz\");");
    study(place.path(), &[]).expect(2).says("there is no load case named `tipp`; did you mean `tip`?");
    script(place.path(), 5, "s.ask_frequency(1); s.solve_only([\"tip\"]); s.ask_buckling(); s.ask_total_mass();");
    study(place.path(), &["--fresh"]).expect(0);
}

/// The most memory that a run had, kB.
#[cfg(target_os = "linux")]
fn peak(place: &Path, samples: u32) -> u64 {
    script(place, samples, "");
    let out = format!("of-{samples}");
    let mut child = program(place, &["study", "walls.rhai", ".", "--threads", "2", "--out", &out])
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("starts");
    let mut most = 0;
    while child.try_wait().expect("ours").is_none() {
        let status = fs::read_to_string(format!("/proc/{}/status", child.id())).unwrap_or_default();
        let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
        let size = line.and_then(|line| line.trim().trim_end_matches("kB").trim().parse().ok());
        most = size.unwrap_or(most);
        std::thread::sleep(Duration::from_millis(1));
    }
    assert!(place.join(out).join("walls.csv").exists());
    most
}

#[cfg(target_os = "linux")]
#[test]
fn memory_does_not_grow_with_the_number_of_variants() {
    let place = arm();
    // Above the number of rows that are kept for a script, and of a row group.
    let (few, many) = (peak(place.path(), 11_000), peak(place.path(), 26_000));
    assert!(few > 0 && many < few + few / 5, "{few} kB for 11 000 variants, {many} kB for 26 000");
}

#[test]
fn the_worked_studies_run_on_the_demo_car() {
    let place = tempfile::tempdir().unwrap();
    let car = project().join("demo-models/trials-car");
    let scripts = project().join("scripts/studies");
    let run_by = |command: &str, script: &str, args: &[&str]| {
        let file = scripts.join(script);
        let mut all = vec![command, "--out", "out", file.to_str().unwrap(), car.to_str().unwrap()];
        all.extend(args);
        let ran = finish(program(place.path(), &all), LIMIT);
        ran.expect(0);
        ran.stdout
    };
    let run = |script: &str, args: &[&str]| run_by("study", script, args);
    let swept = run("gauge-sweep.rhai", &["floor", "1.5", "2"]);
    assert!(swept.contains("1.500") && swept.contains("2.000"), "{swept}");
    assert!(place.path().join("out/gauge-sweep.csv").exists());
    let searched = run("triangulation.rhai", &["side-brace", "1", "5000"]);
    assert!(searched.contains("gives N·m/deg") && searched.contains("without "), "{searched}");
    let sized = run_by("script", "size-to-target.rhai", &["6000", "floor", "walls", "1.5", "2", "strength", "none"]);
    assert!(sized.contains("proven: each of the 0 cheaper choices") && sized.contains("1.5 mm"), "{sized}");
    let band = run_by("script", "tolerance-band.rhai", &["3", "2", "none"]);
    assert!(band.contains("3 frames drawn, 3 solved") && band.contains("torsional stiffness N·m/deg:"), "{band}");
}
