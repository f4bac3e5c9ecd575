//! Element matrices against exact ones: integrals of shape functions by computer algebra, 30 digits (`tests/second/exact.py`).

use std::path::Path;

use strutwork_element::beam::LineMass;
use strutwork_element::{Beam, Mat12};

/// Agreement asked for, over the size that an entry's row and column have.
const CLOSE: f64 = 1e-13;

/// The tube of the script.
const TUBE: Beam = Beam { youngs: 210e9, shear: 81e9, area: 241e-6, iy: 31e-9, iz: 57e-9, j: 61e-9, length: 1.3 };
const DENSITY: f64 = 7850.0;

fn table(name: &str) -> Vec<Vec<String>> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/exact").join(name);
    let text = std::fs::read_to_string(&file).unwrap_or_else(|cause| panic!("{}: {cause}", file.display()));
    text.lines().skip(1).map(|line| line.split(',').map(str::to_owned).collect()).collect()
}

#[test]
fn stiffness_mass_and_geometric_stiffness_are_the_integrals() {
    let line = LineMass { mass: TUBE.area * DENSITY, polar: (TUBE.iy + TUBE.iz) * DENSITY };
    let ours = [
        ("stiffness", TUBE.stiffness()),
        ("mass", TUBE.mass(line)),
        ("geometric", TUBE.geometric_stiffness(-1700.0, 2300.0)),
    ];
    let rows = table("element.csv");
    assert_eq!(rows.len(), 3 * 78);
    for row in rows {
        let matrix: &Mat12 = &ours.iter().find(|(name, _)| *name == row[0]).expect("a matrix of ours").1;
        let (i, j) = row[1].split_once(' ').map(|(i, j)| (i.parse().unwrap(), j.parse().unwrap())).unwrap();
        let expected: f64 = row[2].parse().unwrap();
        let whole = (matrix[(i, i)] * matrix[(j, j)]).abs().sqrt();
        for entry in [matrix[(i, j)], matrix[(j, i)]] {
            assert!(
                (entry - expected).abs() <= CLOSE * whole.max(expected.abs()),
                "{} {i} {j}: {entry} {expected}",
                row[0]
            );
        }
    }
}
