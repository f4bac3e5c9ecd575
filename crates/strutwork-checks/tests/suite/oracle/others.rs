//! Fatigue and panels.

use strutwork_checks::calculation::Silent;
use strutwork_checks::code::fatigue::{Curve, Detail, End, Swing, damage};
use strutwork_checks::code::panel::{Skin, buckling};

use super::table;

#[test]
fn lives_and_their_sum() {
    for row in table("fatigue") {
        let curve = if row.text("curve") == "lattice" { Curve::NodeJoint } else { Curve::Member };
        let (category, gamma_mf) = (row.si("category") * 1e6, row.si("gamma_mf"));
        let ranges = ["range1_mpa", "range2_mpa"].map(|column| row.si(column));
        for (column, range) in ["N_R1", "N_R2"].into_iter().zip(ranges) {
            row.same(column, curve.cycles_to_failure(category / gamma_mf, range));
        }
        let area = 1e-4;
        let end =
            End { area, elastic: [1e-6; 2], round: false, wall: Some(4e-3), steel: true, yield_stress: Some(235e6) };
        let detail = Detail { category, curve, gamma_mf, moment_factor: 1.0 };
        let swings = [0, 1].map(|at| Swing {
            name: "pair",
            cases: ["up", "down"],
            forces: [[ranges[at] * area, 0.0, 0.0], [0.0; 3]],
            share: 1.0,
            cycles: row.si(["cycles1", "cycles2"][at]),
        });
        let found = damage(&end, &detail, &swings, &mut Silent);
        row.same("D", found.verdict.utilisation);
    }
}

#[test]
fn panels_that_buckle_in_shear() {
    for row in table("panels") {
        let youngs = row.si("e_mpa");
        let skin = Skin {
            thickness: row.si("t_mm"),
            sides: [row.si("a_mm"), row.si("b_mm")],
            youngs,
            shear: youngs / (2.0 * (1.0 + row.si("nu"))),
        };
        row.same("tau_cr_mpa", buckling(1.0, &skin, &mut Silent).bears);
    }
}
