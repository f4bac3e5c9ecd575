//! The result files: columns, order, exact numbers.

use strutwork_model::units::{to_deg, to_mm};
use strutwork_testkit::assert_close;

use crate::fixture::{Finished, cantilever, twisted_box};

/// The columns that readers outside the program rely on.
#[test]
fn columns_are_those_of_the_contract() {
    let finished = Finished::plain(&cantilever(-100.0));
    for (file, header) in [
        ("displacements.csv", "case,joint,ux_mm,uy_mm,uz_mm,rx_deg,ry_deg,rz_deg"),
        (
            "member_forces.csv",
            "case,tube,station,x_mm,n_n,vy_n,vz_n,t_nm,my_nm,mz_nm,sigma_max_mpa,tau_max_mpa,von_mises_mpa",
        ),
        ("reactions.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm"),
        ("cases.csv", "case,quantity,value,unit"),
        ("findings.csv", "code,severity,case,subject,value,limit,utilisation,clause,message,entered"),
        (
            "governing.csv",
            "kind,item,code,case,utilisation,value,limit,unit,clause,scope,severity,message,outside_checks",
        ),
    ] {
        assert_eq!(finished.csv(file).lines().next().unwrap(), header, "{file}");
    }
}

#[test]
fn displacements_stand_in_input_order_with_every_bit() {
    let finished = twisted_box();
    let rows = finished.rows("displacements.csv");
    assert_eq!(rows.len(), 1 + finished.model.joints().len());
    for ((id, movement), row) in finished.results.cases[0].displacements.iter_with_id().zip(&rows[1..]) {
        assert_eq!((row[0].as_str(), &row[1]), ("twist", &finished.model.joints()[id].name));
        for axis in 0..3 {
            assert_eq!(row[2 + axis].parse::<f64>().unwrap(), to_mm(movement[axis]) + 0.0);
            assert_eq!(row[5 + axis].parse::<f64>().unwrap(), to_deg(movement[3 + axis]) + 0.0);
        }
    }
    assert!(!finished.csv("displacements.csv").contains("-0,"), "a negative zero");
}

/// F = 100 N down at 500 mm: the wall gives 100 N up and −50 N·m about y; σ = F L / Wel.
#[test]
fn forces_reactions_and_sums_follow_a_hand_calculation() {
    let finished = Finished::plain(&cantilever(-100.0));
    let reactions = finished.rows("reactions.csv");
    assert_eq!(reactions.len(), 2);
    assert_eq!(&reactions[1][..2], ["pull", "wall"]);
    assert_close("Fz", reactions[1][4].parse().unwrap(), 100.0, 1e-9);
    assert_close("My", reactions[1][6].parse().unwrap(), -50.0, 1e-9);

    let forces = finished.rows("member_forces.csv");
    let (first, last) = (&forces[1], forces.last().unwrap());
    assert_eq!((first[2].as_str(), first[3].as_str()), ("0", "0"));
    assert_eq!((last[2].as_str(), last[3].as_str()), ("1", "500"));
    let wel = finished.model.sections().iter().next().unwrap().wel_y.unwrap();
    assert_close("σ", first[10].parse::<f64>().unwrap().abs(), 50.0 / wel / 1e6, 1e-9);

    let cases = finished.rows("cases.csv");
    let value = |quantity: &str| {
        let row = cases.iter().find(|row| row[1] == quantity).unwrap_or_else(|| panic!("no {quantity}"));
        (row[2].parse::<f64>().unwrap(), row[3].clone())
    };
    assert_close("applied", value("applied_fz").0, -100.0, 1e-12);
    assert_close("reacted", value("reaction_fz").0, 100.0, 1e-9);
    assert_close("moment", value("reaction_my").0, -50.0, 1e-9);
    assert_eq!(value("mass").1, "kg");
    assert_close("mass", value("mass").0, 0.5 * finished.model.sections().iter().next().unwrap().area * 7850.0, 1e-12);
    assert!(value("residual").0 < 1e-12 && value("imbalance").0 < 1e-12);
    assert_eq!(value("largest_uz").1, "mm");
}

#[test]
fn twist_wheels_and_accelerations_are_quantities_of_their_case() {
    let finished = twisted_box();
    let cases = finished.rows("cases.csv");
    let value = |quantity: &str| {
        let row = cases.iter().find(|row| row[1] == quantity).unwrap_or_else(|| panic!("no {quantity}"));
        (row[2].parse::<f64>().unwrap(), row[3].as_str())
    };
    let (stiffness, unit) = value("torsional_stiffness");
    assert_eq!(unit, "N·m/deg");
    assert_close("K = T / φ", stiffness, value("couple").0 / value("twist").0.abs(), 1e-12);
    assert_eq!(value("acceleration_x"), (1.0, "g"));
    assert_eq!(value("acceleration_ry"), (0.5, "rad/s²"));
    assert_eq!(value("wheel_front_right_fz"), (-100.0, "N"));
    let moved = finished.rows("displacements.csv");
    let front = moved.iter().find(|row| row[1] == "front-top-L").unwrap();
    assert_eq!(value("movement_front-top-L_uz").0, front[4].parse::<f64>().unwrap());
    let twist = finished.rows("twist.csv");
    let station = twist.iter().find(|row| row[2] == "front-low-L").unwrap();
    assert_eq!(station[4].parse::<f64>().unwrap(), value("twist").0);
}

#[test]
fn a_section_given_by_properties_leaves_its_stress_cells_empty() {
    let folder = cantilever(-100.0)
        .and("model.toml", "[sections.bar]\nshape = \"properties\"\narea_mm2 = 200.0\niy_mm4 = 27000.0\niz_mm4 = 27000.0\nj_mm4 = 45000.0\n")
        .with("tubes.csv", "tube,from,to,section,material\nT1,wall,tip,bar,mild\n");
    let finished = Finished::plain(&folder);
    let rows = finished.rows("member_forces.csv");
    assert!(rows.len() > 2);
    for row in &rows[1..] {
        assert_eq!(&row[10..], ["", "", ""]);
        assert!(row[4..10].iter().all(|cell| cell.parse::<f64>().is_ok()));
    }
    let html = strutwork_report::report_html(&finished.run());
    assert!(html.contains("No tube has a section shape"));
    assert!(html.contains("not checked against yield"));
}

#[test]
fn names_with_commas_and_quotes_read_back() {
    let folder = cantilever(-100.0)
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\n\"wall, left\",0,0,0\n\"the \"\"tip\"\"\",500,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nT1,\"wall, left\",\"the \"\"tip\"\"\",rail,mild\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\n\"wall, left\",fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n\"#1, pull\",\"the \"\"tip\"\"\",0,0,-100,0,0,0\n",
        );
    let finished = Finished::plain(&folder);
    let rows = finished.rows("displacements.csv");
    assert_eq!(&rows[1][..2], ["#1, pull", "wall, left"]);
    assert_eq!(&rows[2][..2], ["#1, pull", "the \"tip\""]);
    // Unquoted, the row would be taken for a comment.
    assert!(finished.csv("displacements.csv").lines().skip(1).all(|line| line.starts_with("\"#1, pull\"")));
}

#[test]
fn findings_carry_value_limit_and_subject() {
    let finished = Finished::plain(&cantilever(-4000.0));
    let rows = finished.rows("findings.csv");
    let yielding = rows.iter().find(|row| row[0] == "D001").unwrap();
    assert_eq!(&yielding[1..4], ["error", "pull", "T1"]);
    let [value, limit, used] = [4, 5, 6].map(|at| yielding[at].parse::<f64>().unwrap());
    assert_close("utilisation", used, value / limit, 1e-12);
    assert!(used > 1.0);
    let outside = rows.iter().find(|row| row[0] == "D002").unwrap();
    assert_eq!((outside[5].as_str(), outside[6].as_str()), ("", ""));
}

#[test]
fn everything_that_acts_is_listed() {
    let finished = Finished::plain(
        &cantilever(-100.0)
            .with(
                "tube_loads.csv",
                "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m,wx_to_n_per_m,wy_to_n_per_m,wz_to_n_per_m\n\
                 pull,T1,local,0,0,-20,0,0,-40\n",
            )
            .with("temperatures.csv", "case,tube,rise_k\npull,T1,30\n")
            .with("settlements.csv", "case,joint,ux_mm,uy_mm,uz_mm,rx_deg,ry_deg,rz_deg\npull,wall,,,-2.5,,,\n"),
    );
    let rows = finished.rows("applied_loads.csv");
    let lines: Vec<String> = rows[1..].iter().map(|row| row[1..].join(",")).collect();
    assert_eq!(
        lines,
        [
            "joint,tip,global,,fz,-100,N",
            "tube,T1,local,0,wz,-20,N/m",
            "tube,T1,local,1,wz,-40,N/m",
            "temperature,T1,local,,rise,30,K",
            "settlement,wall,global,,uz,-2.5,mm",
        ]
    );
}
