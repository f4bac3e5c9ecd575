//! Section forces between the ends, against hand calculations.

use strutwork_testkit::{Folder, assert_close, solve};

fn clamped() -> Folder {
    Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,2000,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nT,A,B,rail,mild\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\nB,fixed,fixed,fixed,fixed,fixed,fixed\n",
        )
}

/// Uniform load on a clamped tube: −wL²/12 at the ends, wL²/24 at the middle, and the stations hold the middle.
#[test]
fn the_extreme_between_the_ends_is_a_station() {
    let folder =
        clamped().with("tube_loads.csv", "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\nw,T,global,0,0,-120\n");
    let results = solve(&folder.model()).unwrap();
    let stations = &results.cases[0].tubes.iter().next().unwrap().stations;
    let middle = stations.iter().find(|station| (station.at - 0.5).abs() < 1e-9).unwrap();
    assert_close("middle", middle.forces.my, -120.0 * 4.0 / 24.0, 1e-12);
    assert_close("end", stations[0].forces.my, 120.0 * 4.0 / 12.0, 1e-12);
    assert_eq!((stations[0].at, stations.last().unwrap().at), (0.0, 1.0));
}

/// A triangular load's greatest moment lies off the middle, where the shear is nil.
#[test]
fn a_triangular_load_has_its_extreme_where_the_shear_is_nil() {
    let folder = clamped().with(
        "tube_loads.csv",
        "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m,wx_to_n_per_m,wy_to_n_per_m,wz_to_n_per_m\nw,T,local,0,0,0,0,0,-300\n",
    );
    let results = solve(&folder.model()).unwrap();
    let stations = &results.cases[0].tubes.iter().next().unwrap().stations;
    let sag = stations.iter().min_by(|a, b| a.forces.my.total_cmp(&b.forces.my)).unwrap();
    // Clamped, load rising to w: shear 3wL/20 − w x²/2L is nil at x = L√0.3; moment there wL²(√0.3·0.1 − 1/30).
    assert_close("place", sag.at, 0.3_f64.sqrt(), 1e-9);
    let expected = 300.0 * 4.0 * (0.3_f64.sqrt() * 0.1 - 1.0 / 30.0);
    assert_close("moment", sag.forces.my, -expected, 1e-9);
}

#[test]
fn both_sides_of_a_point_load_are_stations() {
    let folder = clamped().with(
        "tube_point_loads.csv",
        "case,tube,axes,at,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\np,T,local,0.25,0,0,-100,0,0,0\n",
    );
    let results = solve(&folder.model()).unwrap();
    let stations = &results.cases[0].tubes.iter().next().unwrap().stations;
    let at: Vec<f64> = stations.iter().filter(|s| (s.at - 0.25).abs() < 1e-12).map(|s| s.forces.vz).collect();
    assert_eq!(at.len(), 2);
    assert_close("jump", at[1] - at[0], 100.0, 1e-12);
}
