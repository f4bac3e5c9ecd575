//! Bolts.

use strutwork_checks::calculation::Pages;
use strutwork_checks::code::Partial;
use strutwork_checks::code::bolt::{Acting, Bolt, Ply, Through, check};

use super::{line, table};

#[test]
fn a_bolt_through_a_plate() {
    for row in table("bolts") {
        let [ultimate, share, thread] = match row.text("grade") {
            "4.6" => [400e6, 0.6, 0.6],
            "5.6" => [500e6, 0.6, 0.6],
            "8.8" => [800e6, 0.8, 0.6],
            _ => [1000e6, 0.9, 0.5],
        };
        let bolt = Bolt {
            diameter: row.si("d_mm"),
            hole: row.si("d0_mm"),
            stress_area: row.si("A_s_mm2"),
            flats: row.si("flats_mm"),
            points: row.si("flats_mm") * 2.0 / 3.0_f64.sqrt(),
            yield_stress: share * ultimate,
            ultimate,
            thread_in_shear: thread,
            shank_in_shear: false,
            planes: if row.text("planes") == "2" { 2 } else { 1 },
            countersunk: false,
            inch: false,
            class_in_code: true,
        };
        let ply = Ply {
            thickness: row.si("t_mm"),
            ultimate: row.si("f_u_mpa"),
            edges: Some([row.si("e1_mm"), row.si("e2_mm")]),
            steel: true,
        };
        let partial = Partial { m2: row.si("gamma_m2"), ..Partial::NONE };
        let acting = Acting::Split { tension: row.si("f_t_n"), shear: row.si("f_v_n") };
        let mut pages = Pages::default();
        let found = check(&mut pages, &bolt, &Through::Plate(ply), acting, partial);
        let page = pages.finish("bolt", found.mode.clause(), "", found.utilisation);
        let steps = [
            ("F_v_Rd_n", "F_v,Rd"),
            ("F_t_Rd_n", "F_t,Rd"),
            ("alpha_b", "α_b"),
            ("k_1", "k_1"),
            ("F_b_Rd_n", "F_b,Rd"),
            ("B_p_Rd_n", "B_p,Rd"),
            ("combined", "U_vt"),
        ];
        for (column, symbol) in steps {
            row.same(column, line(&page, symbol).unwrap_or_else(|| panic!("{}: no {symbol}", row.place())));
        }
        row.same("U", page.utilisation);
    }
}
