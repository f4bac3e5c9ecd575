//! Natural modes of one frame in several states: with and without the driver, and under load.

use std::f64::consts::PI;

use strutwork_loads::carried_inertia;
use strutwork_solve::modes::bent_pieces;
use strutwork_solve::{
    Modes, ModesWanted, SolveError, frequency_shift, natural_modes, natural_modes_of_each, natural_modes_under,
};
use strutwork_testkit::{Folder, assert_close, solve};

const SUPPORTS: &str = "joint,ux,uy,uz,rx,ry,rz\n";
const PINNED: &str = "a,fixed,fixed,fixed,fixed,free,free\nb,free,fixed,fixed,free,free,free\n";
const CLAMPED: &str = "a,fixed,fixed,fixed,fixed,fixed,fixed\n";
/// E I of the weaker way, N·m², and ρ A, kg/m, of [`beam`].
const EI: f64 = 210e9 * 7e-8;
const LINE: f64 = 7850.0 * 3e-4;
/// π² E I / L².
const EULER: f64 = PI * PI * EI / 4.0;

/// A tube of 2 m along x.
fn beam(iz: u32) -> Folder {
    Folder::default()
        .with(
            "model.toml",
            format!(
                "title = \"beam\"\n[sections.s]\nshape = \"properties\"\narea_mm2 = 300\niy_mm4 = 70000\niz_mm4 = {iz}\n\
                 j_mm4 = 110000\n[materials.m]\ne_mpa = 210000\ng_mpa = 81000\ndensity_kg_m3 = 7850\n"
            ),
        )
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,2000,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nt,a,b,s,m\n")
}

fn wanted(count: usize, pieces: usize) -> ModesWanted {
    ModesWanted { count, pieces, ..ModesWanted::default() }
}

fn under(folder: &Folder, wanted: ModesWanted) -> Result<Modes, SolveError> {
    let model = folder.model();
    let results = solve(&model).unwrap();
    natural_modes_under(&model, model.supports(), &carried_inertia(&model).unwrap(), &results.cases[0], wanted)
}

/// Two masses at the tip, one of them driven: both states by [`natural_modes`] of their own, from one factor here.
#[test]
fn what_gets_in_is_taken_out_again_with_one_factor() {
    let header = "mass,kg,x_mm,y_mm,z_mm,joints,when\n";
    let stays = "seat,5,2000,0,0,b,\n";
    let held = beam(90000).with("supports.csv", format!("{SUPPORTS}{CLAMPED}"));
    let both = held.clone().with("masses.csv", format!("{header}{stays}driver,80,2000,0,0,b,driven\n"));
    let empty = held.clone().with("masses.csv", format!("{header}{stays}"));
    let alone = |folder: &Folder, count: usize| {
        let model = folder.model();
        natural_modes(&model, model.supports(), &carried_inertia(&model).unwrap(), wanted(count, 4)).unwrap()
    };
    let model = both.model();
    let carried = carried_inertia(&model).unwrap();
    let found = frequency_shift(&model, model.supports(), &carried, wanted(4, 4)).unwrap();
    let (driven, shift) = found.expect("a mass is driven");
    assert_eq!(shift.mass, 80.0);
    assert_eq!(shift.work.factorisations, 1);
    assert!(shift.empty.proof.complete() && driven.proof.complete());
    let frequencies = |modes: &Modes| modes.modes.iter().take(4).map(|mode| mode.frequency).collect::<Vec<_>>();
    for (ours, other) in [(&driven, &alone(&both, 4)), (&shift.empty, &alone(&empty, 4))] {
        for (a, b) in frequencies(ours).iter().zip(frequencies(other)) {
            assert_close("frequency", *a, b, 1e-11);
        }
    }
    for (place, pair) in shift.pairs.iter().enumerate().take(4) {
        assert_eq!((pair.empty, pair.driven), (Some(place), Some(place)));
        let [empty, with, change] = shift.shift(pair, &driven).unwrap();
        assert!(change < 0.0 && (with / empty - 1.0 - change).abs() < 1e-15 && pair.alike <= 1.0 + 1e-12);
    }
    let of_empty = empty.model();
    let carried = carried_inertia(&of_empty).unwrap();
    assert_eq!(frequency_shift(&of_empty, of_empty.supports(), &carried, wanted(4, 4)).unwrap(), None);
}

/// Many loads of masses on one frame: one factor, one count each where none was missed at the first try.
#[test]
fn many_masses_are_tried_with_one_factor() {
    let model = beam(90000)
        .with("supports.csv", format!("{SUPPORTS}{CLAMPED}"))
        .with("masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints\nm,40,2000,0,0,b\n")
        .model();
    let mut carried = carried_inertia(&model).unwrap();
    let tried: Vec<_> = [1.0, 0.5, 0.25]
        .iter()
        .map(|times| {
            carried[0].matrix *= *times;
            carried.clone()
        })
        .collect();
    let each: Vec<&[_]> = tried.iter().map(Vec::as_slice).collect();
    let found = natural_modes_of_each(&model, model.supports(), &each, wanted(1, 1)).unwrap();
    let work = found.last().unwrap().work;
    assert_eq!((work.factorisations, work.counts), (1, 3));
    for (modes, carried) in found.iter().zip(&tried) {
        let alone = natural_modes(&model, model.supports(), carried, wanted(1, 1)).unwrap();
        assert_eq!(modes.modes, alone.modes);
    }
}

/// f = n² f₁ √(1 − P/(n² P_cr)), Timoshenko, Vibration Problems in Engineering (from memory).
#[test]
fn an_axial_force_moves_the_frequencies_of_a_pinned_beam() {
    let folder = |force: f64| {
        beam(90000)
            .with("supports.csv", format!("{SUPPORTS}{PINNED}"))
            .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\nend,b,{force},0,0,0,0,0\n"))
    };
    for share in [-0.4, -0.999, 2.5] {
        let modes = under(&folder(share * EULER), wanted(3, 16)).unwrap();
        assert!(modes.proof.complete());
        let first = PI * PI / (2.0 * PI * 4.0) * (EI / LINE).sqrt();
        let weaker = first * (1.0 + share).sqrt();
        assert_close("first", modes.modes[0].frequency, weaker, if share < -0.9 { 5e-3 } else { 3e-6 });
        let stiffer = first * (9.0 / 7.0 + share).sqrt();
        assert_close("first the stiffer way", modes.modes[1].frequency, stiffer, 1e-5);
        assert_close("energy of the only tube", modes.modes[0].energy.iter().sum(), 1.0, 1e-9);
    }
    let refused = under(&folder(-1.01 * EULER), wanted(1, 16));
    assert!(matches!(refused, Err(SolveError::Buckled { .. })), "{refused:?}");
}

/// A free beam that is pulled at both ends.
fn pulled(force: f64) -> Folder {
    beam(90000).and("model.toml", "[options]\ninertia_relief = true\n").with(
        "loads.csv",
        format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npull,a,{},0,0,0,0,0\npull,b,{force},0,0,0,0,0\n", -force),
    )
}

/// Modes of a free beam that are alike on both sides of its middle are square to every rigid motion, and so those of dead
/// forces. w = A cos ax + B cosh bx with a² − b² = P/EI, ab = ω√(ρA/EI), at the ends w″ = 0 and EI w‴ + P w′ = 0:
///
/// a³ tanh bl + b³ tan al = 0, l = L/2 (derived; with P = 0 it is tanh + tan = 0 of the free beam).
fn symmetric(p: f64) -> f64 {
    let value = |omega: f64| {
        let (half, root) = (p / (2.0 * EI), (p * p / (4.0 * EI * EI) + omega * omega * LINE / EI).sqrt());
        let (a, b) = ((root + half).sqrt(), (root - half).sqrt());
        a.powi(3) * b.tanh() * a.cos() + b.powi(3) * a.sin()
    };
    let (mut low, mut high) = (1e-3, 1e-3);
    while value(low) * value(high) > 0.0 {
        (low, high) = (high, high * 1.02);
    }
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if value(low) * value(middle) > 0.0 { low = middle } else { high = middle }
    }
    low / (2.0 * PI)
}

#[test]
fn a_free_beam_vibrates_under_forces_in_balance() {
    let model = beam(90000).model();
    let carried = carried_inertia(&model).unwrap();
    let at = |share: f64, count: usize| under(&pulled(share * EULER), wanted(count, 32));
    for share in [-0.5, 1.5] {
        let modes = at(share, 4).unwrap();
        assert_eq!(modes.rigid, 6);
        assert!(modes.proof.complete(), "{:?}", modes.proof);
        assert_close("first", modes.modes[0].frequency, symmetric(-share * EULER), 1e-6);
        for mode in &modes.modes {
            assert!(mode.residual < 1e-10 && mode.participation.iter().all(|part| part.abs() < 1e-7), "{mode:?}");
        }
    }
    let none = natural_modes(&model, &[], &carried, wanted(4, 32)).unwrap();
    let hardly = at(1e-9, 4).unwrap();
    for (a, b) in none.modes.iter().zip(&hardly.modes) {
        assert_close("without load", a.frequency, b.frequency, 1e-7);
    }
    assert!(matches!(at(-1.01, 1), Err(SolveError::Buckled { .. })));
    assert!(at(-0.99, 1).unwrap().modes[0].frequency < 0.2 * none.modes[0].frequency);
}

/// Where it is divided the curve is that of the joints, and it leaves by their turns; a hinge turns by itself.
#[test]
fn curves_meet_at_the_joints_of_a_divided_tube() {
    let hinged = "tube,from,to,section,material,release_to\nt,a,b,s,m,ry rz\n";
    let folder = beam(90000).with("tubes.csv", hinged).with(
        "supports.csv",
        format!("{SUPPORTS}a,fixed,fixed,fixed,fixed,fixed,fixed\nb,free,fixed,fixed,free,fixed,fixed\n"),
    );
    let model = folder.model();
    let modes = natural_modes(&model, model.supports(), &[], wanted(1, 4)).unwrap();
    let curves = bent_pieces(&model.subdivided(4), &modes.modes[0].joints);
    assert_eq!(curves.len(), 4);
    for pair in curves.windows(2) {
        for axis in 0..3 {
            assert!((pair[0].moved[1][axis] - pair[1].moved[0][axis]).abs() < 1e-12);
            assert!((pair[0].slopes[1][axis] - pair[1].slopes[0][axis]).abs() < 1e-9);
        }
    }
    // Its end turns although the joint cannot: by hand, a clamped and pinned beam.
    assert!(curves[3].slopes[1].iter().any(|slope| slope.abs() > 0.1), "{:?}", curves[3]);
    assert_close("frequency", modes.modes[0].frequency, 15.4182 / (2.0 * PI * 4.0) * (EI / LINE).sqrt(), 1e-3);
}
