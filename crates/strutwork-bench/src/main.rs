//! Times each stage of a run on regular lattices of several sizes: medians over repetitions, in one process.
//!
//! `cargo run --release -p strutwork-bench -- [REPETITIONS]` prints the table;
//! `cargo run --release -p strutwork-bench -- --write NX NY NZ FOLDER` writes a lattice as a model folder.
#![allow(clippy::print_stdout, reason = "a bench prints its table")]

use std::time::Instant;

use strutwork_loads::derive_plain;
use strutwork_solve::stages::{Numbering, Pattern, Symbolic, System};
use strutwork_solve::{Elements, solve_cases};
use strutwork_testkit::Lattice;

/// Cubes along x, y, z: about 400, 4 000, 20 000 and 200 000 free freedoms.
const SIZES: [[usize; 3]; 4] = [[8, 2, 2], [20, 5, 5], [40, 8, 8], [100, 17, 17]];

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match arguments.first().map(String::as_str) {
        Some("--write") => write(&arguments[1..]),
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

fn table(repetitions: usize) {
    println!(
        "| freedoms | tubes | read ms | geometry ms | assemble ms | analyse ms | factor ms | solve 8 ms | whole ms | factor MB | peak MB |"
    );
    println!("|---|---|---|---|---|---|---|---|---|---|---|");
    for cubes in SIZES {
        let repetitions = if cubes[0] > 80 { 1 } else { repetitions };
        let files = Lattice { cubes, cases: 8 }.folder().files();
        let (read, model) = median(1, || strutwork_model::read_model(&files).expect("the lattice is sound").value);
        let cases = derive_plain(&model);
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
        let factor_bytes = 8 * symbolic.factor_entries();
        drop((factored, system));
        let (whole, _) = median(repetitions, || solve_cases(&model, &cases).expect("sound").counters);
        println!(
            "| {} | {} | {read:.2} | {geometry:.3} | {assemble:.3} | {analyse:.2} | {factor:.3} | {solve:.3} | {whole:.2} | {:.1} | {:.1} |",
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
