//! Joints of hollow sections.

use std::f64::consts::FRAC_PI_2;

use strutwork_checks::code::joint::{Brace, Chord, Kind, Mode, Outline, axial, bending};

use super::{Row, table};

fn chord(row: &Row) -> Chord {
    let hot = row.get("curve").is_some_and(|curve| curve == "a");
    let stress = row.get("n").or_else(|| row.get("n_p")).unwrap_or("0");
    Chord {
        outline: match row.given("d0_mm") {
            Some(diameter) => Outline::Round { diameter },
            None => Outline::Rectangular { depth: row.si("h0_mm"), width: row.si("b0_mm") },
        },
        wall: row.si("t0_mm"),
        yield_stress: row.si("f_y0_mpa"),
        youngs: 210e9,
        area: 1e-3,
        imperfection: if hot { 0.21 } else { 0.49 },
        stress_ratio: stress.parse().expect("a number"),
    }
}

/// The brace whose columns end in `which`.
fn brace(row: &Row, which: &str) -> Brace {
    let theta = row.given(&format!("theta{}_deg", which.trim_start_matches('1'))).or_else(|| row.given("theta1_deg"));
    let strength = row.given(&format!("f_y{which}_mpa"));
    Brace {
        outline: match row.given(&format!("d{which}_mm")) {
            Some(diameter) => Outline::Round { diameter },
            None => {
                let [depth, width] = ["h", "b"].map(|side| row.given(&format!("{side}{which}_mm")));
                let width = width.expect("a width");
                Outline::Rectangular { depth: depth.unwrap_or(width), width }
            }
        },
        wall: row.given(&format!("t{which}_mm")).unwrap_or(1e-3),
        yield_stress: strength.unwrap_or_else(|| row.si("f_y0_mpa")),
        area: 1e-4,
        plastic: ["W_pl_ip_mm3", "W_pl_op_mm3"].map(|column| row.given(column).unwrap_or(1e-6)),
        elastic: [1e-6; 2],
        angle: theta.unwrap_or(FRAC_PI_2),
        compressed: row.get("pressed").is_none_or(|pressed| pressed == "yes"),
    }
}

/// Each mode is what the table has, γ_M5 taken off; where the table has none there is none.
fn same_modes(row: &Row, found: &[Option<f64>; 6], columns: &[(&str, Mode)]) {
    let gamma = row.si("gamma_m5");
    for (column, mode) in columns {
        match found[*mode as usize] {
            Some(value) => row.same(column, value / gamma),
            None => assert_eq!(row.given(column), None, "{}: {column}", row.place()),
        }
    }
}

#[test]
fn one_brace_on_a_rectangular_chord() {
    for row in table("joints_rectangular") {
        let kind = if row.text("kind") == "X" { Kind::X } else { Kind::Y };
        let found = axial(&chord(&row), &brace(&row, "1"), kind);
        row.same("k_n", found.k);
        let columns = [
            ("face_n", Mode::ChordFace),
            ("between_n", Mode::SideWall),
            ("brace_n", Mode::Brace),
            ("punching_n", Mode::Punching),
        ];
        same_modes(&row, &found.modes, &columns);
        row.same("N_Rd_n", found.governing().1 / row.si("gamma_m5"));
    }
}

#[test]
fn two_braces_with_a_gap() {
    for row in table("joints_gap") {
        for (own, other) in [("1", "2"), ("2", "1")] {
            let partner = brace(&row, other).as_partner();
            let kind = Kind::Gap { partner, gap: row.si("gap_mm"), eccentricity: 0.0 };
            let found = axial(&chord(&row), &brace(&row, own), kind);
            let face = format!("face{own}_n");
            if row.text("face_alone") == "yes" {
                same_modes(&row, &found.modes, &[(&face, Mode::ChordFace)]);
                assert_eq!(found.governing().0, Mode::ChordFace, "{}", row.place());
                assert_eq!(found.modes.iter().flatten().count(), 1, "{}", row.place());
                continue;
            }
            row.same("A_v_mm2", found.shear_area);
            let [shear, of_brace, punching] = ["shear", "brace", "punching"].map(|mode| format!("{mode}{own}_n"));
            let columns = [
                (face.as_str(), Mode::ChordFace),
                (shear.as_str(), Mode::ChordShear),
                (of_brace.as_str(), Mode::Brace),
                (punching.as_str(), Mode::Punching),
            ];
            same_modes(&row, &found.modes, &columns);
        }
    }
}

#[test]
fn a_brace_that_laps_onto_another() {
    for row in table("joints_overlap") {
        let under = Brace { angle: FRAC_PI_2, ..brace(&row, "j") };
        let share = row.si("overlap_pct") / 100.0;
        let kind = Kind::Overlap { partner: under.as_partner(), share, on_top: true, eccentricity: 0.0 };
        let found = axial(&chord(&row), &brace(&row, "1"), kind);
        same_modes(&row, &found.modes, &[("N_i_Rd_n", Mode::Brace)]);
    }
}

#[test]
fn round_braces_on_round_chords() {
    for row in table("joints_round") {
        let (chord, brace) = (chord(&row), brace(&row, "1"));
        let kind = match row.text("kind") {
            "T" => Kind::Y,
            "X" => Kind::X,
            _ => Kind::Gap { partner: brace.as_partner(), gap: row.si("gap_mm"), eccentricity: 0.0 },
        };
        let found = axial(&chord, &brace, kind);
        row.same("k_p", found.k);
        same_modes(&row, &found.modes, &[("face_n", Mode::ChordFace), ("punching_n", Mode::Punching)]);
        let bent = bending(&chord, &brace, row.text("kind") == "X");
        let gamma = row.si("gamma_m5");
        for (modes, which) in [(bent.in_plane, "ip"), (bent.out_of_plane, "op")] {
            for (mode, name) in [(Mode::ChordFace, "face"), (Mode::Punching, "punching")] {
                if let Some(value) = modes[mode as usize] {
                    row.same(&format!("M_{which}_{name}_nm"), value / gamma);
                } else {
                    let stands_inside = row.si("d1_mm") <= row.si("d0_mm") - 2.0 * row.si("t0_mm");
                    assert!(mode == Mode::Punching && !stands_inside, "{}: M_{which} {name}", row.place());
                }
            }
        }
    }
}

#[test]
fn moments_of_a_brace_on_a_rectangular_chord() {
    for row in table("joints_moments") {
        let bent = bending(&chord(&row), &brace(&row, "1"), row.text("kind") == "X");
        let in_plane =
            [("M_ip_face_nm", Mode::ChordFace), ("M_ip_side_nm", Mode::SideWall), ("M_ip_brace_nm", Mode::Brace)];
        same_modes(&row, &bent.in_plane, &in_plane);
        let out_of_plane = [
            ("M_op_face_nm", Mode::ChordFace),
            ("M_op_side_nm", Mode::SideWall),
            ("M_op_brace_nm", Mode::Brace),
            ("M_op_distortion_nm", Mode::Distortion),
        ];
        same_modes(&row, &bent.out_of_plane, &out_of_plane);
    }
}
