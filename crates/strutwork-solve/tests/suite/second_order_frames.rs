//! Random frames against an independent solution: `tests/fixtures/second_order/`, made by `oracle.py` there.

use std::path::{Path, PathBuf};

use strutwork_element::beam::Division;
use strutwork_loads::derive_plain;
use strutwork_model::Model;
use strutwork_model::files::{InputFile, InputFiles};
use strutwork_model::units::{to_deg, to_mm};
use strutwork_solve::recover::forces_at;
use strutwork_solve::results::CaseResult;
use strutwork_solve::{SecondOrderWanted, solve_cases, solve_second_order};

fn folders() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/second_order");
    let mut folders: Vec<PathBuf> = std::fs::read_dir(root)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.join("expected").is_dir())
        .collect();
    folders.sort();
    folders
}

fn model(folder: &Path) -> Model {
    let mut files: Vec<InputFile> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.is_file())
        .map(|path| InputFile {
            name: path.file_name().unwrap().to_string_lossy().into_owned(),
            bytes: std::fs::read(&path).unwrap(),
        })
        .collect();
    files.sort_by(|a, b| a.name.cmp(&b.name));
    strutwork_model::read_model(&InputFiles(files)).unwrap().value
}

/// Rows of an expected table: the texts before the numbers, and the numbers.
fn rows(folder: &Path, name: &str, texts: usize) -> Vec<(Vec<String>, Vec<f64>)> {
    let text = std::fs::read_to_string(folder.join("expected").join(name)).unwrap();
    let cells = text.lines().skip(1).map(|line| line.split(',').map(str::to_owned).collect::<Vec<_>>());
    cells.map(|row| (row[..texts].to_vec(), row[texts..].iter().map(|cell| cell.parse().unwrap()).collect())).collect()
}

/// The greatest departure over the greatest value of its kind: the first three numbers of a row are of one kind, the others of
/// another.
fn departure(pairs: &[(Vec<f64>, Vec<f64>)]) -> f64 {
    (0..2)
        .map(|kind| {
            let part = |values: &[f64]| if kind == 0 { values[..3].to_vec() } else { values[3..].to_vec() };
            let all = pairs.iter().flat_map(|(expected, got)| part(expected).into_iter().zip(part(got)));
            let size = all.clone().map(|(expected, _)| expected.abs()).fold(0.0, f64::max);
            all.map(|(expected, got)| (got - expected).abs()).fold(0.0, f64::max) / size
        })
        .fold(0.0, f64::max)
}

/// Displacements, reactions and forces along tubes: the greatest departure of each.
fn departures(folder: &Path, model: &Model, result: &CaseResult) -> [f64; 3] {
    let cases = derive_plain(model).unwrap();
    let moved = rows(folder, "displacements.csv", 2).into_iter().map(|(key, expected)| {
        let [x, y, z, rx, ry, rz] = result.displacements[model.joint_named(&key[1]).unwrap()];
        (expected, vec![to_mm(x), to_mm(y), to_mm(z), to_deg(rx), to_deg(ry), to_deg(rz)])
    });
    let reactions = rows(folder, "reactions.csv", 2).into_iter().map(|(key, expected)| {
        let joint = model.joint_named(&key[1]).unwrap();
        (expected, result.reactions.iter().find(|(held, _)| *held == joint).unwrap().1.to_vec())
    });
    let forces = rows(folder, "member_forces.csv", 3).into_iter().map(|(key, expected)| {
        let tube = model.tube_named(&key[1]).unwrap();
        let at = forces_at(model, &cases.0[0], result, tube, key[2].parse().unwrap());
        (expected, vec![at.n, at.vy, at.vz, at.t, at.my, at.mz])
    });
    [moved.collect::<Vec<_>>(), reactions.collect(), forces.collect()].map(|pairs| {
        assert!(pairs.len() >= 4);
        departure(&pairs)
    })
}

/// With the usual pieces to a few millionths of the greatest value of a kind (moments between the ends of pieces to a few more), with
/// finer ones closer: what is left then is how an uneven load along a tube makes its axial force run within a piece.
#[test]
fn frames_agree_with_an_independent_solution() {
    let all = folders();
    assert_eq!(all.len(), 6, "{all:?}");
    for folder in &all {
        let model = model(folder);
        let cases = derive_plain(&model).unwrap();
        let first = solve_cases(&model, &cases).unwrap();
        for (division, close) in
            [(Division::Within(1e-7), [5e-6, 5e-6, 2e-5]), (Division::Within(1e-9), [2e-7, 1e-7, 1e-6])]
        {
            let wanted = SecondOrderWanted { division, ..Default::default() };
            let second = solve_second_order(&model, &cases, &first, wanted).unwrap();
            assert!(second.refused.is_empty(), "{}: {:?}", folder.display(), second.refused);
            let found = departures(folder, &model, &second.cases[0]);
            let agrees = found.iter().zip(close).all(|(departure, close)| *departure < close);
            assert!(agrees, "{} {division:?}: {found:?}", folder.display());
            // First order is far off: the frames are not ones where it does not matter.
            assert!(departures(folder, &model, &first.cases[0])[0] > 0.1, "{}", folder.display());
        }
    }
}
