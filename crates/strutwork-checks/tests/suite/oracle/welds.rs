//! Fillets all round a tube's end.

use std::f64::consts::FRAC_PI_2;

use strutwork_checks::code::Partial;
use strutwork_checks::code::weld::{AtEnd, Fillet, Outline, stressed};

use super::table;

#[test]
fn fillets_by_both_methods() {
    for row in table("welds") {
        let outline = match row.text("shape") {
            "rhs" => Outline::Rectangular {
                depth: row.si("depth_mm"),
                width: row.si("width_mm"),
                corner: row.si("corner_mm"),
            },
            _ => Outline::Round { diameter: row.si("depth_mm") },
        };
        let square = row.text("theta_deg") == "90";
        let weld = Fillet {
            outline,
            angle: if square { FRAC_PI_2 } else { row.si("theta_deg") },
            wall: 2e-3,
            throat: row.si("a_mm"),
            yield_stress: 235e6,
            ultimate: row.si("f_u_mpa"),
            correlation: row.si("beta_w"),
        };
        let acting = AtEnd {
            axial: row.si("n_n"),
            shear: [row.si("v_ip_n"), row.si("v_op_n")],
            torque: row.si("t_nm"),
            moments: [row.si("m_ip_nm"), row.si("m_op_nm")],
        };
        let partial = Partial { m2: row.si("gamma_m2"), ..Partial::NONE };
        let found = stressed(&weld, &acting, &partial);
        for (column, value) in [
            ("p_n_per_mm", found.flows[0]),
            ("q_n_per_mm", found.flows[1]),
            ("mises_mpa", found.combined),
            ("limit_mpa", found.limits[0]),
            ("limit_sigma_mpa", found.limits[1]),
            ("directional", found.used[0]),
            ("simplified", found.used[1]),
        ] {
            row.same(column, value);
        }
    }
}
