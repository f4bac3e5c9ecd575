//! Buckling against closed forms.

use std::f64::consts::PI;

use strutwork_loads::{carried_inertia, derive_plain};
use strutwork_solve::{Buckling, BucklingWanted, Pieces, buckle_cases, buckling};
use strutwork_testkit::{Folder, Lattice, assert_close, solve};

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
    // Both ways of bowing, and no other.
    assert_eq!(found.proof, Some([2, 2]));
    assert_close("the stiffer way", found.positive[1].factor, euler * 1.8, 1e-5);
    let bound = found.positive[0].error_bound.unwrap();
    assert!(found.positive[0].factor * (1.0 - bound) <= euler * (1.0 + 1e-9) && bound < 1e-5, "{bound}");
}

/// A free frame has the load factors of the same frame held at six freedoms that strain nothing, as long as its inertia keeps it
/// from turning as well as these do: here nothing turns, by symmetry.
#[test]
fn a_free_ring_under_loads_in_balance() {
    let model = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,800,0,0\nc,800,0,600\nd,0,0,600\n")
        .with(
            "tubes.csv",
            "tube,from,to,section,material\nab,a,b,rail,mild\nbc,b,c,rail,mild\ncd,c,d,rail,mild\nda,d,a,rail,mild\n",
        )
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\np,a,1000,0,0,0,0,0\np,d,1000,0,0,0,0,0\np,b,-1000,0,0,0,0,0\n\
             p,c,-1000,0,0,0,0,0\n",
        )
        .with(
            "model.toml",
            "title = \"ring\"\n[options]\nself_weight = false\ninertia_relief = true\n[materials.mild]\ngrade = \"S235JRH\"\n\
             [sections.rail]\nshape = \"square\"\nwidth_mm = 30.0\nwall_mm = 2.0\n",
        )
        .model();
    let results = solve(&model).unwrap();
    let carried = carried_inertia(&model).unwrap();
    let found = buckling(
        &model,
        model.supports(),
        &carried,
        &results.cases[0],
        BucklingWanted { count: 6, ..Default::default() },
    )
    .unwrap();
    let [counted, searched] = found.proof.unwrap();
    assert!(counted == searched && counted >= 6, "{counted} {searched}");
    assert!(found.positive.iter().all(|mode| mode.error_bound.is_some_and(|bound| bound <= 5e-4)));
    // The pressed tubes alone bow, both alike.
    let most = found.positive[0].bowing();
    assert_close("shares", most[0].1, most[1].1, 1e-6);
}

/// One factorisation for all cases held alike: three divisions are enough for all of them.
#[test]
fn cases_share_their_factorisations() {
    let model = Lattice { cubes: [1, 1, 1], cases: 3 }.folder().model();
    let cases = derive_plain(&model).unwrap();
    let results = solve(&model).unwrap();
    let with = |pieces: Pieces| {
        buckle_cases(&model, &cases, &[], &results, BucklingWanted { count: 2, pieces }).unwrap().counters
    };
    let each = with(Pieces::Each(2));
    // For each of three cases and two signs one count of the search and one for each of two bounds, and more where the cube has
    // equal load factors, which are looked for again.
    assert_eq!((each.symbolic_analyses, each.factorisations, each.sign_counts), (1, 1, 25));
    let automatic = with(Pieces::AUTOMATIC);
    assert_eq!((automatic.symbolic_analyses, automatic.factorisations, automatic.sign_counts), (3, 3, 18));
    assert_eq!((each.solves, automatic.solves), (192, 516));
}

#[test]
fn the_same_bits_on_any_number_of_threads() {
    let model = Lattice { cubes: [1, 1, 1], cases: 3 }.folder().model();
    let cases = derive_plain(&model).unwrap();
    let results = solve(&model).unwrap();
    let wanted = BucklingWanted { count: 1, ..BucklingWanted::default() };
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| buckle_cases(&model, &cases, &[], &results, wanted).unwrap())
    };
    let one = on(1);
    assert_eq!(one, on(3));
    // One case by itself: the same load factors, whatever the others asked for.
    let alone = buckling(&model, &cases.0[1].supports, &[], &results.cases[1], wanted).unwrap();
    for (a, b) in alone.positive.iter().zip(&one.cases[1].positive) {
        assert_close("alone", a.factor, b.factor, 5e-4);
    }
}

/// A force along a tube makes its axial force jump: the tube is cut there, and is as good as two tubes that meet there.
#[test]
fn a_force_along_a_tube_cuts_it() {
    let whole = column("a,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n")
        .with(
            "tube_point_loads.csv",
            "case,tube,axes,at,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,t,global,0.7,0,0,-1000,0,0,0\n",
        );
    let parted = column("a,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nm,0,0,1050\nb,0,0,1500\n")
        .with("tubes.csv", "tube,from,to,section,material\nt,a,m,s,m\nu,m,b,s,m\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,m,0,0,-1000,0,0,0\n");
    // The part above carries nothing: a cantilever of 1.05 m.
    let expected = PI * PI * EI / 2.1_f64.powi(2) / 1000.0;
    for folder in [whole, parted] {
        let model = folder.model();
        let results = solve(&model).unwrap();
        let found = buckling(&model, model.supports(), &[], &results.cases[0], BucklingWanted::default()).unwrap();
        let over = found.positive[0].factor / expected - 1.0;
        assert!((-1e-9..=found.positive[0].error_bound.unwrap() * 1.001).contains(&over), "{over}");
    }
}

/// A portal that sways: the columns bow, π/√7.379 of their height; the beam, hardly pressed, is bent by them and gets no length.
#[test]
fn a_beam_that_columns_bend_has_no_buckling_length() {
    let model = column("a,fixed,fixed,fixed,fixed,fixed,fixed\nd,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,0,0,1500\nc,1500,0,1500\nd,1500,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material,roll_deg\nleft,a,b,s,m,0\nbeam,b,c,s,m,0\nright,d,c,s,m,0\n")
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,b,5,0,-1000,0,0,0\npush,c,0,0,-1000,0,0,0\n",
        )
        .model();
    let results = solve(&model).unwrap();
    let found = buckling(&model, model.supports(), &[], &results.cases[0], BucklingWanted::default()).unwrap();
    let lengths = found.effective_lengths(&model, &results.cases[0]);
    let names: Vec<&str> = lengths.iter().map(|of| model.tubes()[of.tube].name.as_str()).collect();
    assert_eq!(names, ["left", "right"]);
    for of in &lengths {
        let in_plane: Vec<f64> =
            of.axes.iter().flatten().filter(|axis| axis.mode == 1).map(|axis| axis.length).collect();
        assert_eq!(in_plane.len(), 1, "{of:?}");
    }
    let share: f64 = found.positive[0].pressing.iter().flatten().sum();
    assert_close("work of the axial forces", share, 1.0, 1e-9);
}
