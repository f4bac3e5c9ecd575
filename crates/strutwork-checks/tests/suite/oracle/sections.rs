//! Classes, effective sections, resistance of cross-sections.

use strutwork_checks::Calculation;
use strutwork_checks::calculation::Pages;
use strutwork_checks::code::class::{Under, class};
use strutwork_checks::code::profile::{Forces, Form, Profile};
use strutwork_checks::code::section::{self, CrossSection};
use strutwork_checks::design::steel_tube::profile_of;
use strutwork_model::model::Section;

use super::{Row, line, table};

/// The tube of a row.
pub(super) fn profile(row: &Row) -> Profile {
    let (h, b, t) = (row.si("h_mm"), row.si("b_mm"), row.si("t_mm"));
    let section = match row.text("shape") {
        "rhs" => Section::hollow("tube", h, b, t, None),
        "chs" => Section::round("tube", h, t),
        other => panic!("no shape `{other}`"),
    };
    profile_of(&section.expect("sizes of a tube"), row.si("f_y_mpa"), 210e9).expect("a tube has sizes")
}

#[test]
fn classes_change_where_the_limits_are() {
    for row in table("class_limits") {
        let under = Under { compression: row.si("compression_n"), moment: [row.si("my_ed_nm"), 0.0] };
        row.same("section_class", f64::from(class(&profile(&row), under).number()));
    }
    for row in table("round_classes") {
        let mut tube = profile_of(&Section::round("tube", 0.05, 0.002).expect("a tube"), row.si("f_y_mpa"), 210e9)
            .expect("a tube has sizes");
        tube.form = Form::Round { diameter: 0.002 * row.si("d_over_t"), wall: 0.002 };
        let found = class(&tube, Under { compression: 1e3, moment: [0.0; 2] });
        row.same("wall_class", f64::from(found.number()));
    }
}

#[test]
fn what_is_left_of_thin_walls() {
    for row in table("effective") {
        let profile = profile(&row);
        let found = class(&profile, Under { compression: 1e3, moment: [0.0; 2] });
        row.same("class_compression", f64::from(found.number()));
        let left = strutwork_checks::code::effective::effective(&profile);
        row.same("A_eff_mm2", left.area);
        row.same("W_eff_y_mm3", left.moduli[0]);
        row.same("W_eff_z_mm3", left.moduli[1]);
    }
}

/// The page of a section under the forces of a row.
fn page(row: &Row, acting: Forces, gamma: f64) -> Calculation {
    let mut pages = Pages::default();
    let verdict = section::check(&CrossSection::new(profile(row)), &acting, gamma, &mut pages);
    pages.finish("section", verdict.clause, section::SOURCE, verdict.utilisation)
}

#[test]
fn plastic_sections_under_everything() {
    for row in table("resistance") {
        let acting = Forces {
            n: -row.si("n_ed_n"),
            moment: [row.si("my_ed_nm"), row.si("mz_ed_nm")],
            shear: [row.si("vy_ed_n"), row.si("vz_ed_n")],
            torque: row.si("t_ed_nm"),
        };
        let page = page(&row, acting, row.si("gamma_m0"));
        let round = row.text("shape") == "chs";
        // A step that nothing asks for is not written: resistance beside a torque that is not there, the sum of one moment.
        let (twisted, both) = (acting.torque > 0.0, acting.moment.iter().all(|moment| *moment > 0.0));
        let mut steps = vec![("rho", "ρ"), ("N_pl_n", "N_pl,Rd"), ("n", "n")];
        if round {
            steps.extend([("V_pl_z_n", "V_pl,Rd"), ("V_T_z_n", "V_pl,T,Rd"), ("M_pl_y_nm", "M_pl,Rd")]);
            steps.extend([("M_N_y_nm", "M_N,Rd"), ("together", "r")]);
        } else {
            steps.extend([("V_pl_z_n", "V_pl,z,Rd"), ("V_pl_y_n", "V_pl,y,Rd"), ("V_T_z_n", "V_pl,T,z,Rd")]);
            steps.extend([("V_T_y_n", "V_pl,T,y,Rd"), ("M_pl_y_nm", "M_pl,y,Rd"), ("M_pl_z_nm", "M_pl,z,Rd")]);
            steps.extend([("M_N_y_nm", "M_N,y,Rd"), ("M_N_z_nm", "M_N,z,Rd"), ("alpha", "α"), ("together", "s")]);
        }
        for (column, symbol) in steps {
            let asked = match symbol {
                "ρ" => row.si("rho") > 0.0,
                "V_pl,T,Rd" | "V_pl,T,z,Rd" | "V_pl,T,y,Rd" => twisted,
                "α" | "s" => both,
                "V_pl,Rd" | "V_pl,z,Rd" | "V_pl,y,Rd" => true,
                _ => acting.moment != [0.0; 2] && (acting.n != 0.0 || (both && !round)),
            };
            match line(&page, symbol) {
                Some(value) => row.same(column, value),
                None => assert!(!asked, "{}: {symbol} is not on the page", row.place()),
            }
        }
        row.same("U", page.utilisation);
    }
}

#[test]
fn slender_sections_under_axial_force_and_moments() {
    for row in table("combined") {
        let (compression, moment) = (row.si("compression_n"), [row.si("my_ed_nm"), row.si("mz_ed_nm")]);
        let found = class(&profile(&row), Under { compression, moment });
        row.same("section_class", f64::from(found.number()));
        let page = page(&row, Forces { n: -compression, moment, ..Forces::default() }, 1.0);
        let of_y = if row.text("shape") == "chs" { "u_M" } else { "u_M,y" };
        for (column, symbol) in [("u_N", "u_N"), ("u_My", of_y), ("u_Mz", "u_M,z"), ("sum", "u_sum")] {
            let asked = row.given(column).unwrap_or(0.0) > 0.0;
            match line(&page, symbol) {
                Some(value) => row.same(column, value),
                None => assert!(!asked, "{symbol} is not on the page: {:#?}", page.lines),
            }
        }
    }
}
