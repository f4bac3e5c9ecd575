//! Times each stage of a run on regular lattices of several sizes: medians over repetitions, in one process.
//!
//! `cargo run --release -p strutwork-bench -- [REPETITIONS]` prints the table;
//! `cargo run --release -p strutwork-bench -- --process PROGRAM FOLDER` times the whole `run` of a model as a process;
//! `cargo run --release -p strutwork-bench -- --write NX NY NZ FOLDER` writes a lattice as a model folder;
//! `cargo run --release -p strutwork-bench -- --variants FOLDER COUNT [PASSES]` times many variants of a model folder in the engine alone;
//! `cargo run --release -p strutwork-bench -- --studies FOLDER COUNT [PASSES]` times the same through the study layer, and from a script.
#![allow(clippy::print_stdout, reason = "a bench prints its table")]

use std::time::Instant;

use strutwork_loads::derive_plain;
use strutwork_solve::stages::{Numbering, Pattern, SpanLoads, Symbolic, System, recover_tubes};
use strutwork_solve::{Elements, solve_cases};
use strutwork_testkit::Lattice;

/// Cubes along x, y, z: about 400, 4 000, 20 000 and 200 000 free freedoms.
const SIZES: [[usize; 3]; 4] = [[8, 2, 2], [20, 5, 5], [40, 8, 8], [100, 17, 17]];

mod peak;
mod studies;
mod variants;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match arguments.first().map(String::as_str) {
        Some("--write") => write(&arguments[1..]),
        Some("--process") => process(&arguments[1..]),
        Some("--variants") => variants::run(&arguments[1..]),
        Some("--studies") => studies::run_all(&arguments[1..]),
        Some(repetitions) => table(repetitions.parse().expect("a number of repetitions")),
        None => table(5),
    }
}

fn write(arguments: &[String]) {
    let [nx, ny, nz, folder] = arguments else { panic!("--write NX NY NZ FOLDER") };
    let cubes = [nx, ny, nz].map(|n| n.parse().expect("a number of cubes"));
    std::fs::create_dir_all(folder).expect("the folder can be made");
    let files = Lattice { cubes, cases: 8 }.folder().files();
    for file in files.0 {
        std::fs::write(std::path::Path::new(folder).join(&file.name), &file.bytes).expect("the file can be written");
    }
}

/// Processor time of `PROGRAM run FOLDER` as a process of its own, mean of forty runs.
fn process(arguments: &[String]) {
    let [program, folder] = arguments else { panic!("--process PROGRAM FOLDER") };
    let out = std::env::temp_dir().join(format!("strutwork-bench-{}", std::process::id()));
    let before = children_seconds();
    const RUNS: u32 = 40;
    let start = Instant::now();
    for _ in 0..RUNS {
        let mut run = std::process::Command::new(program);
        let output = run.args(["run", folder, "--out"]).arg(&out).output().expect("the program starts");
        assert!(matches!(output.status.code(), Some(0 | 1)), "{}", String::from_utf8_lossy(&output.stderr));
    }
    let wall = start.elapsed().as_secs_f64() / f64::from(RUNS);
    let processor = (children_seconds() - before) / f64::from(RUNS);
    std::fs::remove_dir_all(&out).expect("the results can be removed");
    println!("run {folder}: {:.0} ms of processor time, {:.0} ms by the clock", processor * 1e3, wall * 1e3);
}

/// Processor time of the finished child processes, s, in steps of a hundredth.
fn children_seconds() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let fields: Vec<&str> = stat.rsplit(')').next().unwrap_or_default().split_whitespace().collect();
    // Fields 16 and 17 of the whole line, counted from 1; the first two stand before the parenthesis.
    [13, 14].iter().filter_map(|place| fields.get(*place)?.parse::<f64>().ok()).sum::<f64>() / 100.0
}

fn table(repetitions: usize) {
    println!(
        "| freedoms | tubes | read ms | geometry ms | assemble ms | analyse ms | factor ms | solve 8 ms | recover 1 ms | whole ms | factor MB | peak MB |"
    );
    println!("|---|---|---|---|---|---|---|---|---|---|---|---|");
    for cubes in SIZES {
        let repetitions = if cubes[0] > 80 { 1 } else { repetitions };
        let files = Lattice { cubes, cases: 8 }.folder().files();
        let (read, model) = median(1, || strutwork_model::read_model(&files).expect("the lattice is sound").value);
        let cases = derive_plain(&model).expect("the lattice is held");
        let supports = model.supports();
        let numbering = Numbering::of(&model, supports);
        let (geometry, elements) = median(repetitions, || Elements::of(&model));
        let pattern = Pattern::of(&elements, &numbering);
        let mut system = System::empty(&pattern);
        let (assemble, ()) = median(repetitions, || system.fill(&elements, &numbering, &pattern, supports));
        let places: Vec<[f64; 3]> = model.joints().iter().map(|joint| joint.at).collect();
        let (analyse, symbolic) = median(repetitions, || Symbolic::analyse(&pattern, &numbering, &places));
        let (factor, factored) = median(repetitions, || symbolic.factor(system.stiffness()).expect("sound"));
        let right = vec![1.0; 8 * numbering.len()];
        let (solve, _) = median(repetitions, || {
            let mut block = right.clone();
            factored.solve(&mut block, 8);
            block
        });
        let moved = model.joints().iter().map(|joint| [joint.at[2] * 1e-3; 6]).collect();
        let spans = SpanLoads::of(&model, &elements, &cases.0[0]);
        let (recover, _) = median(repetitions, || recover_tubes(&model, &elements, &spans, &moved));
        let factor_bytes = 8 * symbolic.factor_entries();
        // The analysis keeps a large factor's memory for the next; the run below has its own.
        drop((factored, system));
        drop(symbolic);
        let (whole, _) = median(repetitions, || solve_cases(&model, &cases).expect("sound").counters);
        println!(
            "| {} | {} | {read:.2} | {geometry:.3} | {assemble:.3} | {analyse:.2} | {factor:.3} | {solve:.3} | {recover:.3} | {whole:.2} | {:.1} | {:.1} |",
            numbering.len(),
            model.tubes().len(),
            factor_bytes as f64 / 1e6,
            peak_megabytes(),
        );
    }
}

/// Median time in ms, and the last value.
fn median<T>(repetitions: usize, mut work: impl FnMut() -> T) -> (f64, T) {
    let mut times = Vec::new();
    let mut value = None;
    for _ in 0..repetitions.max(1) {
        drop(value.take());
        let start = Instant::now();
        let result = work();
        times.push(start.elapsed().as_secs_f64() * 1e3);
        value = Some(result);
    }
    times.sort_by(f64::total_cmp);
    (times[times.len() / 2], value.expect("at least one repetition"))
}

/// The process' greatest resident memory so far, MB; 0 where the system does not say.
fn peak_megabytes() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM:"));
    line.and_then(|line| line.split_whitespace().nth(1)?.parse::<f64>().ok()).map_or(0.0, |kb| kb / 1e3)
}
