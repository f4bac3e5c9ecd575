//! Buckling against exact load factors from stability functions (`tests/fixtures/buckling/oracle.py`): never below them, above
//! them by no more than the bound says.

use std::path::{Path, PathBuf};

use strutwork_loads::derive_plain;
use strutwork_solve::buckling::{Buckling, BucklingMode};
use strutwork_solve::{BucklingWanted, Pieces, buckle_cases, solve_cases};
use strutwork_testkit::Folder;

/// What rounding leaves.
const ROUNDING: f64 = 1e-8;

fn frames() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/buckling");
    let mut frames: Vec<PathBuf> =
        folder.read_dir().unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_dir()).collect();
    frames.sort();
    assert!(frames.len() >= 15);
    frames
}

fn read(folder: &Path, name: &str) -> String {
    std::fs::read_to_string(folder.join(name)).unwrap()
}

/// Case, mode (negative where the loads are turned round), load factor.
fn expected(folder: &Path) -> Vec<(String, i32, f64)> {
    let row = |line: &str| {
        let cells: Vec<&str> = line.split(',').collect();
        (cells[0].to_owned(), cells[1].parse().unwrap(), cells[2].parse().unwrap())
    };
    read(folder, "expected.csv").lines().skip(1).map(row).collect()
}

fn buckled(folder: &Path, count: usize, pieces: Pieces) -> Vec<Buckling> {
    let mut model = Folder::default();
    for name in ["model.toml", "joints.csv", "tubes.csv", "supports.csv", "loads.csv"] {
        model = model.with(name, read(folder, name));
    }
    let model = model.model();
    let cases = derive_plain(&model).unwrap();
    let results = solve_cases(&model, &cases).unwrap();
    buckle_cases(&model, &cases, &[], &results, BucklingWanted { count, pieces }).unwrap().cases
}

/// The mode of a row, and how far above the exact load factor it is.
fn over<'a>(found: &'a [Buckling], row: &(String, i32, f64)) -> (&'a BucklingMode, f64) {
    let of = found.iter().find(|of| of.case == row.0).unwrap();
    let (modes, proof) = if row.1 > 0 { (&of.positive, of.proof) } else { (&of.negative, of.reversed_proof) };
    let [counted, found] = proof.unwrap_or_else(|| panic!("{}: nothing counted", row.0));
    assert_eq!(counted, found, "{}", row.0);
    let mode = &modes[row.1.unsigned_abs() as usize - 1];
    (mode, mode.factor / row.2 - 1.0)
}

#[test]
fn as_many_pieces_as_needed_keep_the_bound() {
    let (mut rows, mut sharpest) = (0, 0.0_f64);
    for frame in frames() {
        let found = buckled(&frame, 4, Pieces::AUTOMATIC);
        for row in expected(&frame) {
            let (mode, over) = over(&found, &row);
            let bound = mode.error_bound.unwrap_or_else(|| panic!("{} {row:?}: no bound", frame.display()));
            assert!(bound <= 5e-4, "{} {row:?}: {bound}", frame.display());
            assert!(over > -ROUNDING, "{} {row:?}: below by {over}", frame.display());
            // The exact is at least λ (1 − bound).
            assert!(over / (1.0 + over) <= bound + ROUNDING, "{} {row:?}: {over} over {bound}", frame.display());
            sharpest = sharpest.max(over / bound);
            rows += 1;
        }
    }
    assert_eq!(rows, 168);
    // A bound that were far too wide would be no use.
    assert!(sharpest > 0.9, "{sharpest}");
}

#[test]
fn pieces_that_are_given_keep_their_bound_too() {
    let mut bounded = [0; 3];
    for frame in frames() {
        for (place, pieces) in [1, 2, 5].into_iter().enumerate() {
            let found = buckled(&frame, 2, Pieces::Each(pieces));
            for row in expected(&frame).iter().filter(|row| row.1.abs() <= 2) {
                let case = found.iter().find(|of| of.case == row.0).unwrap();
                // Pieces may be so few that there are not as many modes.
                let modes = if row.1 > 0 { &case.positive } else { &case.negative };
                if modes.len() < row.1.unsigned_abs() as usize {
                    assert_eq!(pieces, 1, "{} {row:?}", frame.display());
                    continue;
                }
                let (mode, over) = over(&found, row);
                assert!(over > -ROUNDING, "{} {row:?} in {pieces}: below by {over}", frame.display());
                if let Some(bound) = mode.error_bound {
                    assert!(over / (1.0 + over) <= bound + ROUNDING, "{row:?} in {pieces}: {over} over {bound}");
                    bounded[place] += 1;
                }
            }
        }
    }
    // Few pieces leave some without a bound, which then say so.
    assert!(bounded[0] >= 70 && bounded[1] >= 79 && bounded[2] == 84, "{bounded:?}");
}
