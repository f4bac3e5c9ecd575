//! Hand calculations: every number that is expected here was worked out with a pocket calculator from the tables.

use super::*;

#[track_caller]
fn near(got: f64, expected: f64) {
    assert!((got / expected - 1.0).abs() < 1e-4, "{got} against {expected}");
}

/// 25 × 1.5 at 45° on the face of 40 × 2, S235: β = 0.625; 940/(0.375·0.70711)·(2·0.625/0.70711 + 4·0.61237) = 14.95 kN, which
/// is 47 % of A f_y with A = 135.2 mm² of the rounded section.
#[test]
fn y_joint_of_a_diagonal() {
    let found = axial(&square_chord(40.0, 2.0, 235.0), &brace([25.0, 25.0, 1.5], 235.0, 45.0), Kind::Y);
    assert_eq!((found.beta, found.governing().0), (0.625, Mode::ChordFace));
    near(found.governing().1, 14_950.0);
    near(found.governing().1 / (135.18e-6 * 235e6), 0.4706);
}

/// The same pair with a gap: 8.9·√10·940/0.70711·0.625 = 23.38 kN. Table 7.9 holds, so that no other mode is asked for.
#[test]
fn k_gap_of_two_diagonals() {
    let one = brace([25.0, 25.0, 1.5], 235.0, 45.0);
    let found = axial(&square_chord(40.0, 2.0, 235.0), &one, gap(&one, 4.64));
    near(found.governing().1, 23_383.9);
    assert_eq!(found.modes.iter().flatten().count(), 1);
}

/// A rectangular chord asks for all modes. 60 high, 40 wide, 3 thick, S355; braces 30 × 3 at 45°, g = 8: γ = 6.6667, β = 0.75.
/// Face 8.9·√6.6667·355·9/0.70711·0.75 = 77.87 kN; A_v = (120 + 40/√(1 + 4·64/27))·3 = 397.06 mm², shear
/// 355·397.06/(1.73205·0.70711) = 115.09 kN; b_eff = 10·3/40·1·30 = 22.5: 355·3·(60 − 12 + 30 + 22.5) = 107.03 kN; punching
/// (β ≤ 0.85): 355·3/1.22474·(84.853 + 30 + 22.5) = 119.44 kN.
#[test]
fn k_gap_on_a_rectangular_chord() {
    let one = brace([30.0, 30.0, 3.0], 355.0, 45.0);
    let found = axial(&rectangular_chord(60.0, 40.0, 3.0, 355.0), &one, gap(&one, 8.0));
    near(mode(&found, Mode::ChordFace), 77_868.0);
    near(found.shear_area, 397.06e-6);
    near(mode(&found, Mode::ChordShear), 115_092.0);
    near(mode(&found, Mode::Brace), 107_032.5);
    near(mode(&found, Mode::Punching), 119_438.0);
}

/// 40 × 2 on 40 × 2 at 90°, S235, β = 1. Compression: λ̄ = 3.46·18/(π·√(210000/235)) = 0.66317; Φ = 0.5(1 + 0.49·0.46317 +
/// 0.43979) = 0.83337; χ = 0.74735; N = 0.74735·235·2·(80 + 20) = 35.13 kN, tension 47.0 kN, X in compression 0.8 of the former.
/// Brace: b_eff = 10·2/40·40 = 20: 470·(80 − 8 + 40) = 52.64 kN.
#[test]
fn full_width_t_and_x_joints() {
    let chord = square_chord(40.0, 2.0, 235.0);
    let pushing = brace([40.0, 40.0, 2.0], 235.0, 90.0);
    let found = axial(&chord, &pushing, Kind::Y);
    near(found.side[0], 0.74735);
    near(mode(&found, Mode::SideWall), 35_125.3);
    near(mode(&found, Mode::Brace), 52_640.0);
    assert_eq!(found.modes[Mode::Punching as usize], None);
    near(mode(&axial(&chord, &pushing, Kind::X), Mode::SideWall), 0.8 * 35_125.3);
    let pulling = Brace { compressed: false, ..pushing };
    near(mode(&axial(&chord, &pulling, Kind::Y), Mode::SideWall), 47_000.0);
}

/// X joint at 30° of 40 wide, 20 deep braces on 40 × 2: cos 30° = 0.866 > 0.5, so the side walls' shear counts:
/// 235·160/(1.73205·0.5) = 43.42 kN, under the crushing in tension of 235·2/0.5·(80 + 20) = 94 kN.
#[test]
fn flat_x_joint_shears_the_chord() {
    let crossing = Brace { compressed: false, ..brace([20.0, 40.0, 2.0], 235.0, 30.0) };
    let found = axial(&square_chord(40.0, 2.0, 235.0), &crossing, Kind::X);
    near(mode(&found, Mode::SideWall), 43_416.0);
}

/// 30 × 2 on 40 × 2, S235, overlap 50 %: b_eff = 0.5·30 = 15, b_e,ov = 10·2/30·30 = 20: 470·(15 + 20 + 60 − 8) = 40.89 kN.
/// At 30 %: 470·(15 + 20 + 36 − 8) = 29.61 kN; at 80 %: 470·(30 + 20 + 60 − 8) = 47.94 kN. The lower brace, here of twice the
/// wall, has the same efficiency.
#[test]
fn overlap() {
    let chord = square_chord(40.0, 2.0, 235.0);
    let top = brace([30.0, 30.0, 2.0], 235.0, 45.0);
    let force = |share: f64| axial(&chord, &top, super::overlap(&top, share, true)).governing();
    near(force(0.5).1, 40_890.0);
    near(force(0.3).1, 29_610.0);
    near(force(0.8).1, 47_940.0);
    assert_eq!(force(0.5).0, Mode::Brace);
    let under = brace([30.0, 30.0, 4.0], 235.0, 45.0);
    let of_top = axial(&chord, &top, super::overlap(&under, 0.5, true)).governing().1;
    let of_under = axial(&chord, &under, super::overlap(&top, 0.5, false)).governing().1;
    near(of_under / under.squash(), of_top / top.squash());
}

/// k_n at β = 0.625: n = 0.5 gives 1.3 − 0.32 = 0.98; n = 0.8 gives 0.788; up to 0.46875 it is 1.
#[test]
fn chord_stress_lowers_the_resistance() {
    let one = brace([25.0, 25.0, 1.5], 235.0, 45.0);
    let at = |n: f64| axial(&Chord { stress_ratio: n, ..square_chord(40.0, 2.0, 235.0) }, &one, Kind::Y);
    near(at(0.46875).k, 1.0);
    near(at(0.5).k, 0.98);
    near(at(0.8).k, 0.788);
    near(at(0.8).governing().1, 0.788 * 14_950.0);
    assert_eq!(at(10.0).governing().1, 0.0);
}

/// 30 × 2 round on 50 × 2.5 round, S355, 90° and 60°: β = 0.6, γ = 10, γ^0.2 = 1.58489.
/// T: 1.58489·355·6.25·(2.8 + 5.112) = 27.82 kN; X: 355·6.25·5.2/0.514 = 22.45 kN; punching 355·2.5/1.73205·π·30·1 = 48.29 kN.
/// At 60° T becomes 27.82/0.86603 and punching 48.29·1.86603/1.5.
#[test]
fn round_t_and_x_joints() {
    let chord = round_chord(50.0, 2.5, 355.0);
    let found = axial(&chord, &round_brace(30.0, 2.0, 355.0, 90.0), Kind::Y);
    near(mode(&found, Mode::ChordFace), 27_822.6);
    near(mode(&found, Mode::Punching), 48_292.0);
    near(axial(&chord, &round_brace(30.0, 2.0, 355.0, 90.0), Kind::X).governing().1, 22_446.5);
    let found = axial(&chord, &round_brace(30.0, 2.0, 355.0, 60.0), Kind::Y);
    near(mode(&found, Mode::ChordFace), 27_822.6 / 0.866_025);
    near(mode(&found, Mode::Punching), 48_292.0 * 1.866_025 / 1.5);
}

/// k_g of a published calculation sheet (scribd.com/document/596988910, "CHS connection", 2021, page 1: 508 × 16 chord with
/// braces 114.3 × 6.3 and 114.3 × 5, g = 11.3 mm): γ = 15.875, k_g = 2.575. The rest by hand from it: N = 2.5749·355·256·(1.8 +
/// 10.2·0.225) = 958.2 kN at 90°, the other at 30° twice that.
#[test]
fn round_k_gap() {
    let (one, two) = (round_brace(114.3, 6.3, 355.0, 90.0), round_brace(114.3, 5.0, 355.0, 30.0));
    let chord = round_chord(508.0, 16.0, 355.0);
    let found = axial(&chord, &one, gap(&two, 11.3));
    assert_eq!(found.gamma, 15.875);
    assert!((found.k_g - 2.575).abs() < 0.000_5, "{}", found.k_g);
    near(mode(&found, Mode::ChordFace), 958_220.0);
    let other = axial(&chord, &Brace { compressed: false, ..two }, gap(&one, 11.3));
    near(mode(&other, Mode::ChordFace), 2.0 * 958_220.0);
}

/// k_p = 1 − 0.3·0.5·1.5 = 0.775 at n = 0.5. The smaller brace, pulled, is measured by the larger one that pushes.
#[test]
fn round_chord_stress_and_the_brace_that_counts() {
    let chord = Chord { stress_ratio: 0.5, ..round_chord(50.0, 2.5, 355.0) };
    let (large, small) = (round_brace(30.0, 2.0, 355.0, 45.0), round_brace(20.0, 2.0, 355.0, 45.0));
    near(axial(&chord, &large, Kind::Y).k, 0.775);
    let pulled = Brace { compressed: false, ..small };
    near(
        mode(&axial(&chord, &pulled, gap(&large, 5.0)), Mode::ChordFace),
        mode(&axial(&chord, &large, gap(&pulled, 5.0)), Mode::ChordFace),
    );
}

/// A 20 × 20 × 2 brace on 50 × 2.5 round, S235: 235·6.25·(4 + 20·0.16)·(1 + 0.25·0.4) = 11.6325 kN; X 5·1468.75/0.676·1.1 =
/// 11.950 kN; punching 235·2.5/1.73205·144/2 = 24.42 kN. Moments 20 mm and 10 mm times the former.
#[test]
fn rectangular_brace_on_a_round_chord() {
    let chord = round_chord(50.0, 2.5, 235.0);
    let one = brace([20.0, 20.0, 2.0], 235.0, 90.0);
    let found = axial(&chord, &one, Kind::Y);
    near(mode(&found, Mode::ChordFace), 11_632.5);
    near(mode(&found, Mode::Punching), 24_422.0);
    near(mode(&axial(&chord, &one, Kind::X), Mode::ChordFace), 11_949.8);
    let [(_, in_plane), (_, out_of_plane)] = bending(&chord, &one, false).governing();
    near(in_plane, 232.65);
    near(out_of_plane, 116.325);
}

/// 25 × 25 on 40 × 2, S235, 90°: 940·25·(0.8 + 2/0.61237 + 0.625/0.375) = 134.72 N·m in the plane; 940·(25·1.625/0.75 +
/// √(2·40·25·1.625/0.375)) = 138.42 N·m out of it; distortion 2·235·2·(25·2 + √(40·40·2·80)) = 522.6 N·m.
#[test]
fn moments_on_a_wide_face() {
    let found = bending(&square_chord(40.0, 2.0, 235.0), &brace([25.0, 25.0, 1.5], 235.0, 90.0), false);
    let [(_, in_plane), (_, out_of_plane)] = found.governing();
    near(in_plane, 134.72);
    near(out_of_plane, 138.43);
    near(found.out_of_plane[Mode::Distortion as usize].unwrap(), 522.61);
    let across = bending(&square_chord(40.0, 2.0, 235.0), &brace([25.0, 25.0, 1.5], 235.0, 90.0), true);
    assert_eq!(across.out_of_plane[Mode::Distortion as usize], None);
}

/// 40 × 40 × 2 on 40 × 2, S235: in plane 0.5·235·2·50² = 587.5 N·m, out of plane 235·2·38·50 = 893 N·m, both 0.8 of it for X;
/// brace: W_pl of sharp corners 4336 mm³ (= (64000 − 36·36²)/4), b_eff/b₁ = 0.5: 235·(4336 − 0.5·40·38·2) = 661.8 N·m and
/// 235·(4336 − 0.5·0.25·1600·2) = 925.0 N·m.
#[test]
fn moments_at_full_width() {
    let (chord, one) = (square_chord(40.0, 2.0, 235.0), brace([40.0, 40.0, 2.0], 235.0, 90.0));
    let found = bending(&chord, &one, false);
    near(found.in_plane[Mode::SideWall as usize].unwrap(), 587.5);
    near(found.out_of_plane[Mode::SideWall as usize].unwrap(), 893.0);
    near(found.in_plane[Mode::Brace as usize].unwrap(), 661.76);
    near(found.out_of_plane[Mode::Brace as usize].unwrap(), 924.96);
    let across = bending(&chord, &one, true);
    near(across.in_plane[Mode::SideWall as usize].unwrap(), 470.0);
}

/// 30 × 2 round on 50 × 2.5 round, S355, 90°: in plane 4.85·355·6.25·30·√10·0.6 = 612.5 N·m; out of plane 355·6.25·30·2.7/0.514
/// = 349.65 N·m; punching 355·2.5·900/1.73205 = 461.15 N·m for both.
#[test]
fn moments_of_round_tubes() {
    let found = bending(&round_chord(50.0, 2.5, 355.0), &round_brace(30.0, 2.0, 355.0, 90.0), false);
    near(found.in_plane[Mode::ChordFace as usize].unwrap(), 612.51);
    near(found.in_plane[Mode::Punching as usize].unwrap(), 461.16);
    near(found.out_of_plane[Mode::ChordFace as usize].unwrap(), 349.65);
    near(found.out_of_plane[Mode::Punching as usize].unwrap(), 461.16);
}

/// A round brace on a flat face counts with π/4; above 355 MPa 0.9, above 460 MPa 0.8.
#[test]
fn factors_on_all_modes() {
    let flat =
        |strength: f64| axial(&square_chord(40.0, 2.0, strength), &brace([25.0, 25.0, 2.0], strength, 90.0), Kind::Y);
    let of = |strength: f64| flat(strength).governing().1 / strength;
    near(of(355.0) / of(235.0), 1.0);
    near(of(420.0) / of(235.0), 0.9);
    near(of(460.0) / of(235.0), 0.9);
    near(of(500.0) / of(235.0), 0.8);
    let round = axial(&square_chord(40.0, 2.0, 235.0), &round_brace(25.0, 2.0, 235.0, 90.0), Kind::Y);
    near(round.governing().1 / flat(235.0).governing().1, PI / 4.0);
}

/// Half as K, half as Y, and moments: 5 kN·(0.5/23.3839 + 0.5/14.9500) + 20/134.72 + 10/138.43 with γ = 1.
#[test]
fn parts_add_up() {
    let one = brace([25.0, 25.0, 1.5], 235.0, 45.0);
    let ways = [(0.5, gap(&one, 4.64)), (0.5, Kind::Y)];
    let balance = Balance { ways: &ways, across: false };
    let found = check(
        &square_chord(40.0, 2.0, 235.0),
        &one,
        balance,
        &acting(-5000.0, 20.0, -10.0),
        1.0,
        &mut crate::calculation::Silent,
    );
    near(found.utilisation, 5.0 * (0.5 / 23.3839 + 0.5 / 14.9500) + 20.0 / 134.72 + 10.0 / 138.43);
    near(found.axial_resistance, 1000.0 / (0.5 / 23.3839 + 0.5 / 14.9500));
}

/// Round: 20 kN/27.8226 kN + (100/461.16)² + 50/349.65; γ_M5 = 1.1 divides every resistance.
#[test]
fn round_chords_square_the_moment_in_the_plane() {
    let balance = Balance { ways: &[(1.0, Kind::Y)], across: false };
    let (chord, one) = (round_chord(50.0, 2.5, 355.0), round_brace(30.0, 2.0, 355.0, 90.0));
    let of = |gamma: f64| {
        check(&chord, &one, balance, &acting(20e3, 100.0, 50.0), gamma, &mut crate::calculation::Silent).utilisation
    };
    near(of(1.0), 20.0 / 27.8226 + (100.0_f64 / 461.16).powi(2) + 50.0 / 349.65);
    near(of(1.1), 1.1 * 20.0 / 27.8226 + (110.0_f64 / 461.16).powi(2) + 55.0 / 349.65);
}

/// A chord whose gap carries 60 kN across: A₀ = 564 mm², A_v = 397.06 mm², V = 30·0.70711 = 21.213 kN, V_Rd = 81.381 kN:
/// N_0,Rd = 355·(166.94 + 397.06·√(1 − 0.067945)) = 195.35 kN.
#[test]
fn the_chord_in_the_gap() {
    let one = brace([30.0, 30.0, 3.0], 355.0, 45.0);
    let ways = [(1.0, gap(&one, 8.0))];
    let heavy = Acting { chord_axial: 180e3, ..acting(-30e3, 0.0, 0.0) };
    let balance = Balance { ways: &ways, across: false };
    let chord = rectangular_chord(60.0, 40.0, 3.0, 355.0);
    let found = check(&chord, &one, balance, &heavy, 1.0, &mut crate::calculation::Silent);
    near(found.utilisation, 180.0 / 195.35);
    let light = Acting { chord_axial: 10e3, ..heavy };
    near(check(&chord, &one, balance, &light, 1.0, &mut crate::calculation::Silent).utilisation, 30.0 / 77.868);
}
