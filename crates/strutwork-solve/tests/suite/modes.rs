//! Natural modes against closed forms.

use std::f64::consts::PI;

use strutwork_loads::carried_inertia;
use strutwork_model::Model;
use strutwork_solve::modes::TubeMass;
use strutwork_solve::{Modes, ModesWanted, SolveError, natural_modes};
use strutwork_testkit::{Folder, assert_close};

const JOINTS: &str = "joint,x_mm,y_mm,z_mm\n";
const TUBES: &str = "tube,from,to,section,material\n";
const SUPPORTS: &str = "joint,ux,uy,uz,rx,ry,rz\n";
/// E I, N·m², and ρ A, kg/m, of [`beam`].
const EI: f64 = 210e9 * 7e-8;
const LINE: f64 = 7850.0 * 3e-4;

/// A tube of 2 m along x with the same second moment both ways.
fn beam() -> Folder {
    Folder::default()
        .with(
            "model.toml",
            "title = \"beam\"\n[sections.s]\nshape = \"properties\"\narea_mm2 = 300\niy_mm4 = 70000\niz_mm4 = 70000\n\
             j_mm4 = 110000\n[materials.m]\ne_mpa = 210000\ng_mpa = 81000\ndensity_kg_m3 = 7850\n",
        )
        .with("joints.csv", format!("{JOINTS}a,0,0,0\nb,2000,0,0\n"))
        .with("tubes.csv", format!("{TUBES}t,a,b,s,m\n"))
}

fn found(model: &Model, wanted: ModesWanted) -> Modes {
    let modes = natural_modes(model, model.supports(), &carried_inertia(model).unwrap(), wanted).unwrap();
    assert!(modes.proof.complete(), "{:?}", modes.proof);
    for mode in &modes.modes {
        assert!(mode.residual < 1e-11);
    }
    modes
}

fn frequencies(folder: &Folder, pieces: usize, count: usize) -> Vec<f64> {
    let wanted = ModesWanted { count, pieces, ..ModesWanted::default() };
    found(&folder.model(), wanted).modes.iter().map(|mode| mode.frequency).collect()
}

/// f = (βL)²/(2πL²) √(EI/ρA).
fn bending(beta: f64) -> f64 {
    beta * beta / (2.0 * PI * 4.0) * (EI / LINE).sqrt()
}

/// The same with the error of 16 cubic pieces, (βh)⁴/720 of ω² (from memory; the tests confirm its constant).
fn in_sixteen(beta: f64) -> f64 {
    bending(beta) * (1.0 + (beta / 16.0).powi(4) / 1440.0)
}

/// Blevins (1979), Formulas for Natural Frequency and Mode Shape, Table 8-1 (from memory): βL = nπ.
#[test]
fn a_pinned_beam_vibrates_both_ways_alike() {
    let folder = beam().with(
        "supports.csv",
        format!("{SUPPORTS}a,fixed,fixed,fixed,fixed,free,free\nb,free,fixed,fixed,free,free,free\n"),
    );
    let f = frequencies(&folder, 16, 6);
    for (pair, n) in [(0, 1.0), (2, 2.0), (4, 3.0)] {
        for mode in [pair, pair + 1] {
            assert_close("frequency", f[mode], in_sixteen(n * PI), 3e-6);
        }
    }
}

/// Likewise: cos βL cosh βL = 1, and six modes of frequency 0.
#[test]
fn a_free_beam_has_six_rigid_modes() {
    let model = beam().model();
    let modes = found(&model, ModesWanted { count: 4, pieces: 16, ..ModesWanted::default() });
    assert_eq!(modes.rigid, 6);
    for (pair, beta) in [(0, 4.730_040_744_862_704), (2, 7.853_204_624_095_838)] {
        for mode in [pair, pair + 1] {
            assert_close("frequency", modes.modes[mode].frequency, in_sixteen(beta), 3e-6);
            // Square to every rigid motion.
            assert!(modes.modes[mode].participation.iter().all(|part| part.abs() < 1e-9));
        }
    }
    let mass = LINE * 2.0;
    assert_close("mass", modes.whole[0][0], mass, 1e-12);
    assert_close("inertia about the middle", modes.whole[4][4], mass * 4.0 / 12.0, 1e-12);
    assert_close("energy of the only tube", modes.modes[0].energy.iter().sum(), 1.0, 1e-9);
}

/// A clamped beam in 1, 2 and 4 cubic pieces: what exact arithmetic makes of the same few shapes, to 30 digits, and the exact
/// root of 1 + cos z cosh z = 0 from above with the fourth power of a piece (`tests/second/exact.py`).
#[test]
fn few_pieces_give_what_exact_arithmetic_gives() {
    let folder = beam().with("supports.csv", format!("{SUPPORTS}a,fixed,fixed,fixed,fixed,fixed,fixed\n"));
    let table = include_str!("../../../strutwork-element/tests/exact/cantilever.csv");
    let unit = (EI / (LINE * 16.0)).sqrt() / (2.0 * PI);
    let exact = 1.875_104_068_711_961_2_f64.powi(2);
    for row in table.lines().skip(1) {
        let cells: Vec<f64> = row.split(',').map(|cell| cell.parse().unwrap()).collect();
        let [pieces, mode, value] = cells[..] else { panic!("{row}") };
        // Each bending mode comes twice; the axial and torsional ones of few pieces lie among the higher.
        let f = frequencies(&folder, pieces as usize, 10);
        let near = f.iter().filter(|f| (*f / (value * unit) - 1.0).abs() < 1e-11).count();
        assert_eq!(near, 2, "mode {mode} of {pieces} pieces: {} of {f:?}", value * unit);
    }
    let [eight, sixteen] = [8, 16].map(|pieces| frequencies(&folder, pieces, 1)[0] / unit / exact - 1.0);
    let order = (eight / sixteen).log2();
    assert!((order - 4.0).abs() < 0.02, "observed order {order}: {eight} {sixteen}");
}

/// A mass at the end of a light cantilever: ω² = 3EI/(L³(m + 33/140 ρAL)) (Rayleigh, from memory), within its own error.
#[test]
fn a_mass_at_the_tip() {
    let folder = beam()
        .with("supports.csv", format!("{SUPPORTS}a,fixed,fixed,fixed,fixed,fixed,fixed\n"))
        .with("masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints\nm,40,2000,0,0,b\n");
    let f = frequencies(&folder, 4, 2);
    let expected = (3.0 * EI / (8.0 * (40.0 + 33.0 / 140.0 * LINE * 2.0))).sqrt() / (2.0 * PI);
    assert_close("frequency", f[0], expected, 2e-4);
}

/// A mass carried by both ends moves as their mean: in the middle between two springs, ω² = 2k/m.
#[test]
fn a_mass_on_two_joints_moves_as_their_mean() {
    let folder = beam()
        .with(
            "supports.csv",
            format!("{SUPPORTS}a,fixed,fixed,100,fixed,fixed,fixed\nb,fixed,fixed,100,fixed,fixed,fixed\n"),
        )
        .with("masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints\nm,4000,1000,0,0,a b\n");
    let f = frequencies(&folder, 2, 1);
    let expected = (2.0 * 100e3 / (4000.0 + LINE * 2.0)).sqrt() / (2.0 * PI);
    assert_close("frequency", f[0], expected, 1e-3);
}

/// Lumping converges to the same from the other side.
#[test]
fn lumped_and_consistent_mass_meet() {
    let folder = beam().with(
        "supports.csv",
        format!("{SUPPORTS}a,fixed,fixed,fixed,fixed,free,free\nb,free,fixed,fixed,free,free,free\n"),
    );
    let model = folder.model();
    let of = |mass| found(&model, ModesWanted { count: 1, pieces: 32, mass }).modes[0].frequency;
    assert_close("frequency", of(TubeMass::Lumped), of(TubeMass::Consistent), 2e-3);
    assert!(of(TubeMass::Lumped) < of(TubeMass::Consistent));
}

#[test]
fn effective_masses_of_a_clamped_beam_add_up() {
    let folder = beam().with("supports.csv", format!("{SUPPORTS}a,fixed,fixed,fixed,fixed,fixed,fixed\n"));
    let modes = found(&folder.model(), ModesWanted { count: 40, pieces: 8, ..ModesWanted::default() });
    // 0.6131 of the mass in the first bending mode (Blevins, from memory: participation of a clamped-free beam).
    let whole = modes.whole[2][2];
    let first: f64 = modes.modes[..2].iter().map(|mode| mode.effective()[2]).sum();
    assert_close("first mode", first / (LINE * 2.0), 0.6131, 2e-3);
    let all: f64 = modes.modes.iter().map(|mode| mode.effective()[2]).sum();
    assert!(all <= whole * (1.0 + 1e-9) && all > 0.97 * whole, "{all} of {whole}");
}

#[test]
fn a_mechanism_is_refused() {
    let hinged = "tube,from,to,section,material,release_from\nt,a,b,s,m,ry rz\n";
    let folder = beam()
        .with("tubes.csv", hinged)
        .with("supports.csv", format!("{SUPPORTS}a,fixed,fixed,fixed,fixed,fixed,fixed\n"));
    let model = folder.model();
    let refused = natural_modes(&model, model.supports(), &[], ModesWanted::default());
    assert!(matches!(refused, Err(SolveError::Mechanism { .. })), "{refused:?}");
}

/// Held at one end that may turn: two rigid modes, and tan βL = tanh βL both ways (Blevins, as above).
#[test]
fn a_beam_that_is_held_in_part_has_as_many_rigid_modes_as_it_lacks_supports() {
    let model = beam().with("supports.csv", format!("{SUPPORTS}a,fixed,fixed,fixed,fixed,free,free\n")).model();
    let modes = found(&model, ModesWanted { count: 4, pieces: 16, ..ModesWanted::default() });
    assert_eq!((modes.rigid, modes.rigid_modes().len()), (2, 2));
    for (pair, beta) in [(0, 3.926_602_312_047_919), (2, 7.068_582_745_628_732)] {
        for mode in [pair, pair + 1] {
            assert_close("frequency", modes.modes[mode].frequency, in_sixteen(beta), 3e-6);
        }
    }
}

/// A free beam whose ends supports keep in a plane: three rigid modes. Across the plane it is clamped, and a clamped beam has
/// the frequencies of a free one (Blevins, as above): each comes twice.
#[test]
fn a_beam_that_is_kept_in_a_plane_is_free_in_it() {
    let planar = "a,free,free,fixed,fixed,fixed,free\nb,free,free,fixed,fixed,fixed,free\n";
    let model = beam().with("supports.csv", format!("{SUPPORTS}{planar}")).model();
    let modes = found(&model, ModesWanted { count: 40, pieces: 16, ..ModesWanted::default() });
    assert_eq!(modes.rigid, 3);
    for beta in [4.730_040_744_862_704, 7.853_204_624_095_838] {
        let near = |mode: &&strutwork_solve::modes::Mode| (mode.frequency / in_sixteen(beta) - 1.0).abs() < 3e-6;
        assert_eq!(modes.modes.iter().filter(near).count(), 2);
    }
}
