//! Which kind a joint is, and what it bears.

use strutwork_testkit::assert_close_by;

use super::*;

/// 25 × 1.5 square on 40 × 2 in S235 at 90°: 940/0.375·(1.25 + 4·0.61237) = 9273.4 N; margin 1.5 on 1000 N.
#[test]
fn t_joint() {
    let told = spider("wide", vec![leg("brace", [0.0, 0.0, 300.0], -1000.0)]).told();
    assert_eq!(told.0.len(), 1, "the rail is the chord, tips are free");
    assert_close("force", told.entered("L1 at J", "N_1,Ed"), 1500.0, 1e-9);
    assert_close("resistance", told.entered("L1 at J", "N_1,Rd"), 9273.4, 1e-5);
    let found = told.of("L1 at J");
    assert_close("utilisation", found.utilisation.unwrap(), 1500.0 / 9273.4, 1e-5);
    assert_eq!(found.severity, Severity::Note);
    assert!(found.message.contains("compression") && found.message.contains("T joint"), "{}", found.message);
    assert!(
        found.clause.starts_with("outside scope: chord wall 2.00 mm, less than 2.5 mm; EN 1993-1-8"),
        "{}",
        found.clause
    );
}

/// The diagonal of the hand calculation: 14.95 kN, 47 % of its own strength.
#[test]
fn y_joint() {
    let told = spider("wide", vec![leg("brace", [300.0, 0.0, 300.0], 2000.0)]).told();
    assert_close("resistance", told.entered("L1 at J", "N_1,Rd"), 14_950.0, 1e-4);
    assert_close("efficiency", told.entered("L1 at J", "efficiency"), 0.4706, 1e-3);
    assert_close("utilisation", told.of("L1 at J").utilisation.unwrap(), 3000.0 / 14_950.0, 1e-4);
    assert!(told.of("L1 at J").message.contains("47 % of the tube's own strength"), "{}", told.of("L1 at J").message);
}

/// Both push: an X joint, whose face bears as much as a T's. One pushes, one pulls: the chord's shear carries both.
#[test]
fn x_joint() {
    let both = |below: f64| {
        spider("thick", vec![leg("stout", [0.0, 0.0, 500.0], -5000.0), leg("stout", [0.0, 0.0, -500.0], below)]).told()
    };
    assert!(both(-5000.0).lines("L1 at J").contains("read in this case as X."));
    assert!(both(5000.0).lines("L1 at J").contains("read in this case as T."));
    let part = both(-2000.0).lines("L1 at J");
    assert!(part.contains("read in this case as X, T.") && part.contains("s_X = 0.4"), "{part}");
    assert!(part.contains("s_X = min(|C − Z|, |C_o − Z_o|) / C") && part.contains("s_T = 1 − s_X"), "{part}");
    assert!(part.contains("as in an X joint"), "{part}");
    assert!(both(-2000.0).lines("L2 at J").contains("read in this case as X."));
}

/// The pair of the hand calculation: 23.38 kN each, with a gap of 40 − 25·√2 = 4.64 mm.
#[test]
fn k_gap() {
    let told =
        spider("wide", vec![leg("brace", [300.0, 0.0, 300.0], 2000.0), leg("brace", [-300.0, 0.0, 300.0], -2000.0)])
            .told();
    for end in ["L1 at J", "L2 at J"] {
        assert_close("resistance", told.entered(end, "N_1,Rd"), 23_383.9, 1e-4);
        assert!(told.lines(end).contains("read in this case as K gap with tube"), "{}", told.lines(end));
        assert!(told.lines(end).contains("= 4.64466 mm  (gap between the toes"), "{}", told.lines(end));
        for said in [
            "s_K2 = min(C, Z) / ",
            "g_2 = (e_2 + h_0 / 2) · ",
            "e_2/h_0 = e_2 / h_0",
            "b₁/b₀ = 0.62 within 0.35 to 1.00",
        ] {
            assert!(told.lines(end).contains(said), "{said}: {}", told.lines(end));
        }
    }
    assert!(told.outside("L1 at J").iter().any(|why| why.starts_with("g/b₀ = 0.12, less than 0.19")));
}

/// Half of the pull is balanced beside it, the rest is a Y joint: 1/(0.5/23.3839 + 0.5/14.95).
#[test]
fn a_force_that_is_balanced_in_part() {
    let told =
        spider("wide", vec![leg("brace", [300.0, 0.0, 300.0], 2000.0), leg("brace", [-300.0, 0.0, 300.0], -1000.0)])
            .told();
    assert_close("resistance", told.entered("L1 at J", "N_1,Rd"), 1e3 / (0.5 / 23.3839 + 0.5 / 14.95), 1e-4);
    assert_close("the other", told.entered("L2 at J", "N_1,Rd"), 23_383.9, 1e-4);
}

/// 35 × 2 at 60° on 40 × 2: g = 40/√3 − 35·2/√3 = −17.32 mm, q/p = 17.32/40.41 = 42.9 %. b_eff = 0.5·35 = 17.5, b_e,ov =
/// 10·2/35·35 = 20: 470·(17.5 + 20 + 70·0.42857/0.5 − 8) = 42.06 kN.
#[test]
fn k_overlap() {
    let told = spider(
        "wide",
        vec![leg("broad", [200.0, 0.0, 346.410_161_5], 2000.0), leg("broad", [-200.0, 0.0, 346.410_161_5], -2000.0)],
    )
    .told();
    for end in ["L1 at J", "L2 at J"] {
        assert!(told.lines(end).contains("read in this case as K overlap with tube"), "{}", told.lines(end));
        assert_close("resistance", told.entered(end, "N_1,Rd"), 42_065.0, 1e-4);
    }
    assert!(told.lines("L2 at J").contains("this brace is on top"));
    assert!(told.lines("L1 at J").contains("the other brace is on top"));
}

/// The chord's depth is what lies in the plane: 60 high and 40 wide from above, 40 deep and 60 wide from the side. So is the
/// brace's: 30 high and 20 wide, upright by its roll or not.
#[test]
fn faces_and_roll_decide_on_depth_and_width() {
    let lines = |tip: [f64; 3], roll: f64| {
        let mut one = leg("strip", tip, -1000.0);
        one.3 = roll;
        spider("tall", vec![one]).told().lines("L1 at J")
    };
    let above = lines([300.0, 0.0, 300.0], 0.0);
    for size in ["h_0 = 60 mm", "b_0 = 40 mm", "h_1 = 30 mm", "b_1 = 20 mm", "face towards local +z"] {
        assert!(above.contains(size), "{size}: {above}");
    }
    let rolled = lines([300.0, 0.0, 300.0], 90.0);
    assert!(rolled.contains("h_1 = 20 mm") && rolled.contains("b_1 = 30 mm"), "{rolled}");
    let beside = lines([300.0, -300.0, 0.0], 0.0);
    for size in ["h_0 = 40 mm", "b_0 = 60 mm", "h_1 = 20 mm", "b_1 = 30 mm", "face towards local −y"] {
        assert!(beside.contains(size), "{size}: {beside}");
    }
}

/// A force across the tip of a post bends it in the plane of post and rail, or out of it: 100 N at 300 mm, margin 1.5.
#[test]
fn moments_in_and_out_of_the_plane() {
    let bent = |force: [f64; 3]| spider("wide", vec![Leg("brace", [0.0, 0.0, 300.0], force, 0.0)]).told();
    for (force, expected) in [([100.0, 0.0, 0.0], [45.0, 0.0]), ([0.0, 100.0, 0.0], [0.0, 45.0])] {
        let told = bent(force);
        for (symbol, expected) in ["M_ip,Ed", "M_op,Ed"].into_iter().zip(expected) {
            assert_close_by(symbol, told.entered("L1 at J", symbol), expected, 1e-6);
        }
    }
}

/// Round on round, 30 × 2 on 50 × 2.5 in S235: 1.58489·235·6.25·7.912 = 18.42 kN.
#[test]
fn round_tubes() {
    let told = spider("pipe", vec![leg("small_pipe", [0.0, 400.0, 300.0], 1.0)]).told();
    assert_close("resistance", told.entered("L1 at J", "N_1,Rd"), 27_822.6 * 235.0 / 355.0, 1e-4);
    assert!(told.of("L1 at J").clause.contains("Tables 7.2 and 7.5"));
    // Round on flat: π/4 of (940/0.25·(1.5 + 4·0.5)) = 10.336 kN.
    let told = spider("wide", vec![leg("small_pipe", [0.0, 0.0, 300.0], 1000.0)]).told();
    assert_close("on a flat face", told.entered("L1 at J", "N_1,Rd"), 10_335.7, 1e-4);
}

/// An offset moves the foot of a brace along the chord: 10 mm further apart is 10 mm more gap, and an eccentricity.
#[test]
fn offsets_move_the_toes() {
    let folder = spider("wide", Vec::new()).folder();
    let tubes = "tube,from,to,section,material,offset_from_x_mm,offset_from_y_mm,offset_from_z_mm\n\
                 R1,A,J,wide,mild,,,\nR2,J,B,wide,mild,,,\nL1,J,T1,brace,mild,10,0,0\nL2,J,T2,brace,mild,,,\n";
    let folder = folder.with("tubes.csv", tubes).and("joints.csv", "T1,310,0,300\nT2,-300,0,300\n").with(
        "loads.csv",
        "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,T1,700,0,700,0,0,0\npush,T2,700,0,-700,0,0,0\n",
    );
    let told = told(&folder);
    assert!(told.lines("L1 at J").contains("= 14.6447 mm  (gap between the toes"), "{}", told.lines("L1 at J"));
}

/// Partial factors: a case of loads.csv gives design values, γ_M5 divides.
#[test]
fn the_basis_decides_on_margin_and_factor() {
    let one = || spider("wide", vec![leg("brace", [0.0, 0.0, 300.0], -1000.0)]).folder();
    let basis = "[basis]\nkind = \"eurocode\"\ngamma_m5 = { value = 1.25, source = \"a test\" }\n";
    let told = told(&one().and("model.toml", basis));
    assert_close("utilisation", told.of("L1 at J").utilisation.unwrap(), 1.25 * 1000.0 / 9273.4, 1e-5);
}

/// All loads grown by one factor never lower any utilisation: the parts stay, all grows.
#[test]
fn more_load_never_lowers_it() {
    let grown = |factor: f64| {
        let legs = [([300.0, 0.0, 300.0], 900.0), ([-300.0, 0.0, 300.0], -700.0), ([200.0, 0.0, -250.0], -300.0)];
        let legs = legs.map(|(tip, pull)| leg("brace", tip, factor * pull)).into_iter().collect::<Vec<_>>();
        let told = spider("wide", legs).told();
        ["L1 at J", "L2 at J", "L3 at J"].map(|end| told.of(end).utilisation.unwrap())
    };
    let mut before = grown(0.5);
    for step in 2..12 {
        let now = grown(0.5 * step as f64);
        for (now, before) in now.iter().zip(&before) {
            assert!(now >= before, "{now} after {before}");
        }
        before = now;
    }
}

/// Round tubes have no faces: turning the whole plane about the chord changes nothing.
#[test]
fn a_plane_of_round_tubes_may_be_turned() {
    let used = |turn: f64| {
        let (sin, cos) = turn.to_radians().sin_cos();
        let legs = [([300.0, 250.0], 900.0), ([-300.0, 280.0], -700.0), ([150.0, -300.0], -400.0)];
        let legs = legs.map(|([along, out], pull)| leg("small_pipe", [along, out * cos, out * sin], pull));
        let told = spider("pipe", legs.into_iter().collect()).told();
        ["L1 at J", "L2 at J", "L3 at J"].map(|end| told.of(end).utilisation.unwrap())
    };
    let upright = used(90.0);
    for turn in [-150.0, -17.0, 0.0, 33.0, 100.0] {
        for (now, before) in used(turn).into_iter().zip(upright) {
            assert_close("utilisation", now, before, 1e-7);
        }
    }
}

/// Mirrored along the chord, each brace is the same; a rail of two tubes in the other sense too.
#[test]
fn a_joint_may_be_mirrored() {
    let used = |sign: f64, swap: bool| {
        let legs = [([300.0, 250.0], 900.0), ([-200.0, 280.0], -700.0)];
        let legs = legs.map(|([along, up], pull)| leg("brace", [sign * along, 0.0, up], pull));
        let folder = spider("wide", legs.into_iter().collect()).folder();
        let rail = "tube,from,to,section,material\nR1,J,A,wide,mild\nR2,B,J,wide,mild\n";
        let rows = "L1,J,T1,brace,mild\nL2,T2,J,brace,mild\n";
        let folder = if swap { folder.with("tubes.csv", format!("{rail}{rows}")) } else { folder };
        let told = told(&folder);
        ["L1 at J", "L2 at J"].map(|end| told.of(end).utilisation.unwrap())
    };
    let plain = used(1.0, false);
    for other in [used(-1.0, false), used(1.0, true), used(-1.0, true)] {
        for (now, before) in other.into_iter().zip(plain) {
            assert_close("utilisation", now, before, 1e-9);
        }
    }
}

/// A tube that is only bent is told without a force, one that is only pulled without a moment; both with the margin of 1.5.
#[test]
fn messages_name_what_acts_and_no_more() {
    let message = |force: [f64; 3]| {
        let one = Leg("stout", [0.0, 0.0, 500.0], force, 0.0);
        spider("thick", vec![one]).told().of("L1 at J").message.clone()
    };
    for (force, expected) in [
        ([100.0, 0.0, 0.0], "75 N·m of tube L1 at joint J use "),
        ([0.0, 0.0, 2000.0], "3.00 kN tension of tube L1 at joint J use "),
        ([100.0, 0.0, -2000.0], "3.00 kN compression and 75 N·m of tube L1 "),
    ] {
        let said = message(force);
        assert!(said.starts_with(expected), "{said}");
    }
}

/// Braces of which one is balanced partly beside it and partly by the chord name the tables of both.
#[test]
fn a_mixed_joint_names_all_its_tables() {
    let told =
        spider("wide", vec![leg("brace", [300.0, 0.0, 300.0], 2000.0), leg("brace", [-300.0, 0.0, 300.0], -1000.0)])
            .told();
    assert!(told.of("L1 at J").clause.contains("Tables 7.10, 7.11, 7.12 and 7.14"), "{}", told.of("L1 at J").clause);
    assert!(told.of("L2 at J").clause.contains("Tables 7.10, 7.12 and 7.14"), "{}", told.of("L2 at J").clause);
}
