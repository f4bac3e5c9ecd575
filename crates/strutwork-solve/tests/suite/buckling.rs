//! Buckling against closed forms.

use std::f64::consts::PI;

use strutwork_loads::carried_inertia;
use strutwork_solve::{Buckling, BucklingWanted, Pieces, buckling};
use strutwork_testkit::{Folder, assert_close, solve};

const EI: f64 = 210e9 * 5e-8;

/// A column of 1.5 m that stands up, with its weaker second moment 50 000 mm⁴ about y, and 1000 N on its top.
fn column(supports: &str) -> Folder {
    Folder::default()
        .with(
            "model.toml",
            "title = \"column\"\n[sections.s]\nshape = \"properties\"\narea_mm2 = 300\niy_mm4 = 50000\niz_mm4 = 90000\n\
             j_mm4 = 110000\n[materials.m]\ne_mpa = 210000\ng_mpa = 81000\ndensity_kg_m3 = 7850\n",
        )
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,0,0,1500\n")
        .with("tubes.csv", "tube,from,to,section,material\nt,a,b,s,m\n")
        .with("supports.csv", format!("joint,ux,uy,uz,rx,ry,rz\n{supports}"))
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,b,0,0,-1000,0,0,0\n")
}

fn buckled(folder: &Folder, pieces: usize) -> Buckling {
    let model = folder.model();
    let results = solve(&model).unwrap();
    let wanted = BucklingWanted { count: 2, pieces: Pieces::Each(pieces) };
    let carried = carried_inertia(&model).unwrap();
    let found = buckling(&model, model.supports(), &carried, &results.cases[0], wanted).unwrap();
    if let Some([counted, found]) = found.proof {
        assert_eq!(counted, found);
    }
    found
}

/// Euler's four columns: π²EI/(KL)².
#[test]
fn the_four_columns() {
    for (supports, factor) in [
        ("a,fixed,fixed,fixed,free,free,fixed\nb,fixed,fixed,free,free,free,free\n", 1.0),
        ("a,fixed,fixed,fixed,fixed,fixed,fixed\n", 2.0),
        ("a,fixed,fixed,fixed,fixed,fixed,fixed\nb,fixed,fixed,free,fixed,fixed,fixed\n", 0.5),
        ("a,fixed,fixed,fixed,fixed,fixed,fixed\nb,fixed,fixed,free,free,free,free\n", PI / 4.493_409_457_909_064),
    ] {
        let found = buckled(&column(supports), 16);
        let expected = PI * PI * EI / (factor * 1.5_f64).powi(2) / 1000.0;
        // Sixteen pieces: the error falls with the fourth power of a piece over the wave (tested below).
        assert_close(supports, found.positive[0].factor, expected, 5e-5);
        assert_close("the stiffer way", found.positive[1].factor, expected * 1.8, 5e-5);
        assert!(found.proof.is_some());
    }
}

/// One cubic element of a pinned column: 12EI/L², 21.6 % too high; two 0.75 %, four 0.05 %.
#[test]
fn pieces_bring_a_pinned_column_to_euler() {
    let folder = column("a,fixed,fixed,fixed,free,free,fixed\nb,fixed,fixed,free,free,free,free\n");
    let euler = PI * PI * EI / 1.5_f64.powi(2) / 1000.0;
    for (pieces, error) in [(1, 0.2159), (2, 0.0075), (4, 0.00052)] {
        let over = buckled(&folder, pieces).positive[0].factor / euler - 1.0;
        assert!((over - error).abs() < 0.03 * error, "{pieces}: {over}");
    }
}

#[test]
fn effective_length_of_a_cantilever_is_twice_its_own() {
    let folder = column("a,fixed,fixed,fixed,fixed,fixed,fixed\n");
    let model = folder.model();
    let results = solve(&model).unwrap();
    let found = buckled(&folder, 8).effective_lengths(&model, &results.cases[0]);
    // The only tube: all of the energy.
    assert_close("energy", found[0].energy, 1.0, 1e-9);
    assert_close("length", found[0].lengths[0], 3.0, 1e-4);
}

/// Pulled instead, it buckles at the same load turned round.
#[test]
fn a_pull_has_negative_factors() {
    let folder = column("a,fixed,fixed,fixed,free,free,fixed\nb,fixed,fixed,free,free,free,free\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npull,b,0,0,1000,0,0,0\n");
    let found = buckled(&folder, 8);
    assert!(found.positive.is_empty());
    assert_close("factor", found.negative[0].factor, -PI * PI * EI / 2.25 / 1000.0, 1e-4);
}

/// Greenhill (1881): a pinned-free column clamped below buckles under its own weight at q L³ = 7.8373 EI.
#[test]
fn a_column_under_its_own_weight() {
    let folder = column("a,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n")
        .with("tube_loads.csv", "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\nweight,t,global,0,0,-100\n");
    let expected = 7.837_347_438_9 * EI / 1.5_f64.powi(3) / 100.0;
    assert_close("factor", buckled(&folder, 16).positive[0].factor, expected, 2e-5);
}

/// A free bar pushed at both ends: no support is invented. Of the loads that are dead, inertia keeps it from turning, and it
/// buckles as a pinned column would.
#[test]
fn a_free_bar_pushed_at_both_ends() {
    let folder = column("").and("model.toml", "[options]\ninertia_relief = true\n").with(
        "loads.csv",
        "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,b,0,0,-1000,0,0,0\npush,a,0,0,1000,0,0,0\n",
    );
    let found = buckled(&folder, 16);
    let euler = PI * PI * EI / 2.25 / 1000.0;
    assert_close("factor", found.positive[0].factor, euler, 1e-5);
    assert!(found.proof.is_some());
}
