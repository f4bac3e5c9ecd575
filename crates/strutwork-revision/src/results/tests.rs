//! Reading results: what comes out of a small folder, and what is told of a broken one.

use strutwork_model::{InputFile, InputFiles, Severity};

use super::*;

/// A result folder as small as it may be.
fn folder() -> Vec<(&'static str, String)> {
    let header = "case,tube,station,x_mm,n_n,vy_n,vz_n,t_nm,my_nm,mz_nm,sigma_max_mpa,tau_max_mpa,von_mises_mpa\n";
    vec![
        ("run.json", r#"{"version":"0.1.0","date":"2024-01-02","model":{"title":"T","revision":"B"},"inputs":[{"file":"joints.csv","sha256":"ab"}]}"#.into()),
        ("displacements.csv", "joint,case,ux_mm,uy_mm,uz_mm,rx_deg,ry_deg,rz_deg\n\"A, b\",push,1,2,3,4,5,6\n".into()),
        (
            "member_forces.csv",
            format!("{header}push,t1,0,0,-5,0,0,0,1,0,10,1,11\npush,t1,0.5,50,-5,0,0,0,-9,0,90,1,91\npush,t1,1,100,-5,0,0,0,2,0,,1,\n"),
        ),
        ("reactions.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n# by hand\npush,J,1,0,0,0,0,0\n".into()),
        ("cases.csv", "case,quantity,value,unit\npush,mass,7,kg\npush,residual,1e-16,\npush,movement_front top_uz,-2,mm\npush,torsional_stiffness,6000,N·m/deg\npush,frame_mass_per_stiffness,4,g per N·m/deg\n".into()),
        ("findings.csv", "code,severity,case,subject,value,limit,utilisation,clause,message,entered\nD001,note,push,t1,91,100,0.91,c,,\nT001,note,push,frame,1,2,0.95,c,,\n".into()),
        ("governing.csv", "kind,item,code,case,utilisation,value,limit,unit,clause,scope,severity,message,outside_checks\ntube,t1,D001,push,0.91,91,100,MPa,c,in,note,,\n".into()),
        ("mass_table.csv", "kind,item,kg,x_mm,y_mm,z_mm,ixx_kg_m2,iyy_kg_m2,izz_kg_m2,ixy_kg_m2,ixz_kg_m2,iyz_kg_m2\ntubes,rail,3,1,2,3,,,,,,\ncarried,seat,4,1,2,3,,,,,,\ntotal,,7,1,2,3,1,2,3,0,0,0\n".into()),
    ]
}

fn files(of: &[(&'static str, String)]) -> InputFiles {
    InputFiles(of.iter().map(|(name, text)| InputFile::new(*name, text.as_bytes())).collect())
}

fn value(set: &ResultSet, kind: Kind, case: &str, subject: &str, quantity: &str) -> Option<f64> {
    let mut all = set
        .quantities
        .iter()
        .filter(|one| one.kind == kind && one.case == case && one.subject == subject && one.quantity == quantity);
    let first = all.next().map(|one| one.value);
    assert!(all.next().is_none(), "{kind:?} {case} {subject} {quantity} stands twice");
    first
}

#[test]
fn every_number_has_its_name() {
    let read = read_results(&files(&folder())).unwrap();
    assert!(read.warnings.is_empty(), "{:?}", read.warnings);
    let set = read.value;
    assert_eq!((set.about.revision.as_str(), set.about.inputs[0].sha256.as_str()), ("B", "ab"));
    assert_eq!(set.cases, ["push"]);
    assert_eq!(value(&set, Kind::Joint, "push", "A, b", "uz_mm"), Some(3.0));
    assert_eq!(value(&set, Kind::Reaction, "push", "J", "fx_n"), Some(1.0));
    assert_eq!(value(&set, Kind::Movement, "push", "front top", "uz"), Some(-2.0));
    assert_eq!(value(&set, Kind::Trust, "push", "", "residual"), Some(1e-16));
    assert_eq!(value(&set, Kind::Utilisation, "", "t1", "tube_utilisation"), Some(0.91));
    assert_eq!(value(&set, Kind::Mass, "", "carried seat", "mass"), Some(4.0));
    // The ends with their signs, the greatest wherever it stands, and nothing where a cell is empty.
    for (quantity, expected) in [
        ("n_from_n", -5.0),
        ("n_greatest_n", 5.0),
        ("my_from_nm", 1.0),
        ("my_to_nm", 2.0),
        ("my_greatest_nm", 9.0),
        ("von_mises_greatest_mpa", 91.0),
    ] {
        assert_eq!(value(&set, Kind::Tube, "push", "t1", quantity), Some(expected), "{quantity}");
    }
    // Findings of trust are no utilisations of strength.
    assert_eq!(value(&set, Kind::Case, "push", "", "worst_utilisation"), Some(0.91));
    for (quantity, expected) in [
        ("mass", 7.0),
        ("frame_mass", 3.0),
        ("cg_x", 1.0),
        ("izz_kg_m2", 3.0),
        ("torsional_stiffness", 6000.0),
        ("frame_mass_per_stiffness", 4.0),
        ("worst_utilisation", 0.91),
    ] {
        assert_eq!(set.of_frame(quantity), Some(expected), "{quantity}");
    }
}

#[test]
fn every_fault_is_told_with_its_line() {
    let broken = |file: &str, text: &str| {
        let mut folder = folder();
        folder.iter_mut().find(|(name, _)| *name == file).unwrap().1 = text.to_owned();
        let faults = read_results(&files(&folder)).unwrap_err().0;
        let told = |one: &Diagnostic| (one.code.0, one.place.as_ref().map_or(0, |place| place.line));
        faults.iter().filter(|one| one.severity == Severity::Error).map(told).collect::<Vec<_>>()
    };
    assert_eq!(broken("run.json", "{"), [("C005", 1)]);
    assert_eq!(broken("run.json", "{\"version\":\"1\"}"), [("C005", 0)]);
    assert_eq!(broken("cases.csv", "case,quantity,value\n"), [("C002", 1)]);
    assert_eq!(broken("cases.csv", "# by hand\n\ncase,quantity,value\n"), [("C002", 3)]);
    let cells = "case,quantity,value,unit\npush,mass,7\n\npush,energy,1e999,J\npush,energy,nan,J\npush,energy,1,J,J\n";
    assert_eq!(broken("cases.csv", cells), [("C003", 2), ("C003", 6), ("C004", 4), ("C004", 5)]);
    let mut binary = files(&folder());
    binary.0[1].bytes = vec![0xff, 0xfe, 0, 1];
    assert_eq!(read_results(&binary).unwrap_err().0[0].code.0, "C001");
    assert_eq!(read_results(&InputFiles::default()).unwrap_err().0[0].code.0, "C006");
}

#[test]
fn kinds_are_ordered_as_they_are_listed() {
    assert!(Kind::ALL.is_sorted());
}

#[test]
fn a_table_that_is_missing_is_a_warning() {
    let without: Vec<_> = folder().into_iter().filter(|(name, _)| *name != "reactions.csv").collect();
    let read = read_results(&files(&without)).unwrap();
    let told: Vec<_> = read.warnings.iter().map(|one| (one.code.0, one.severity)).collect();
    assert_eq!(told, [("C007", Severity::Warning)]);
    assert_eq!(read.value.of_frame("mass"), Some(7.0));
}
