//! Members in compression and bending.

use strutwork_checks::calculation::Pages;
use strutwork_checks::code::class::{Under, class};
use strutwork_checks::code::member::{Along, Axis, Curve, Diagram, Member, check};
use strutwork_checks::code::section::CrossSection;

use super::sections::profile;
use super::{line, table};

#[test]
fn members_in_compression_and_bending() {
    for row in table("members") {
        let profile = profile(&row);
        let lengths = ["l_cr_y_mm", "l_cr_z_mm"].map(|column| row.si(column));
        let member = Member {
            section: CrossSection::new(profile),
            axes: [0, 1].map(|axis| Axis::of_length(profile.youngs, profile.second[axis], lengths[axis], "")),
            curve: match row.text("curve") {
                "a0" => Curve::A0,
                "a" => Curve::A,
                _ => Curve::C,
            },
            is_sway: false,
        };
        let moment = ["my_ed_nm", "mz_ed_nm"].map(|column| row.si(column));
        let psi = ["psi_y", "psi_z"].map(|column| row.si(column));
        let along = Along {
            compression: row.si("n_ed_n"),
            moment,
            diagrams: [0, 1].map(|axis| Diagram {
                ends: [moment[axis], psi[axis] * moment[axis]],
                span: None,
                is_concentrated: false,
            }),
        };
        let under = Under { compression: along.compression, moment };
        row.same("section_class", f64::from(class(&profile, under).number()));
        let mut pages = Pages::default();
        let verdict = check(&member, &along, row.si("gamma_m1"), &mut pages);
        let page = pages.finish("member", verdict.clause, "", verdict.utilisation);
        let steps = [
            ("N_cr_y_n", "N_cr,y"),
            ("N_cr_z_n", "N_cr,z"),
            ("N_b_y_n", "N_b,y,Rd"),
            ("N_b_z_n", "N_b,z,Rd"),
            ("N_Rk_n", "N_Rk"),
            ("M_y_Rk_nm", "M_y,Rk"),
            ("M_z_Rk_nm", "M_z,Rk"),
            ("lambda_y", "λ̄_y"),
            ("lambda_z", "λ̄_z"),
            ("chi_y", "χ_y"),
            ("chi_z", "χ_z"),
            ("k_yy", "k_yy"),
            ("k_zz", "k_zz"),
            ("k_yz", "k_yz"),
            ("k_zy", "k_zy"),
            ("eq_661", "u_6.61"),
            ("eq_662", "u_6.62"),
        ];
        for (column, symbol) in steps {
            if row.given(column).is_some() {
                row.same(column, line(&page, symbol).unwrap_or_else(|| panic!("{}: no {symbol}", row.place())));
            }
        }
        row.same("U", page.utilisation);
    }
}

#[test]
fn equivalent_uniform_moments() {
    for row in table("equivalent_moments") {
        let (hogging, psi) = (row.si("m_h_nm"), row.si("psi"));
        let diagram = Diagram {
            ends: [hogging, psi * hogging],
            span: row.given("m_s_nm"),
            is_concentrated: row.text("load") == "point",
        };
        row.same("C_m", diagram.factor());
    }
}
