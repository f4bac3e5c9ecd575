//! What a good folder becomes: SI units, ids, defaults, order, sources; however the files are written.

use approx::assert_relative_eq;
use strutwork_model::files::KNOWN_FILES;
use strutwork_model::model::{
    Axes, Carrier, Hold, JointLoad, Point, Settlement, Strength, Suspension, Temperature, Wheel,
};
use strutwork_model::{Dof, DofMap, Faults, InputFile, InputFiles, Model, codes, read_model, spec, validate};

use crate::folder::{change, file, folder, model, toml_with_vehicle, with};

#[test]
fn a_good_folder_becomes_a_model_in_si_units() {
    let model = model(&folder()).value;
    assert_eq!((model.title().title.as_str(), model.title().revision.as_str()), ("Triangle", "A"));
    assert!(model.options().self_weight && model.options().standard_cases);
    assert_eq!(model.options().yield_margin, 1.5);
    let [a, b, c] = ["A", "B", "C"].map(|name| model.joint_named(name).expect("a joint"));
    assert_eq!(model.joints()[c].at, [0.5, 0.0, 0.8]);
    let ca = model.tube_named("CA").expect("a tube");
    assert_eq!((model.tubes()[ca].from, model.tubes()[ca].to), (c, a));
    assert_relative_eq!(model.length(ca), 0.89_f64.sqrt(), max_relative = 1e-15);
    assert_relative_eq!(model.tube_mass(ca), 0.89_f64.sqrt() * 213.699_112e-6 * 7850.0, max_relative = 1e-8);

    let [first, second] = model.supports() else { panic!("two supports") };
    assert_eq!((first.joint, first.holds[Dof::Uz], first.holds[Dof::Ry]), (a, Hold::Fixed, Hold::Free));
    assert_eq!(second.holds[Dof::Uz], Hold::Spring(12_500.0));
    let Hold::Spring(turning) = second.holds[Dof::Ry] else { panic!("a spring") };
    assert_relative_eq!(turning, 100.0 * 57.295_779_513_082_32, max_relative = 1e-15);

    let names: Vec<&str> = model.plain_cases().iter().map(|case| case.name.as_str()).collect();
    assert_eq!(names, ["brake", "snow", "sun", "sink"]);
    let [brake, snow, sun, sink] = model.plain_cases() else { panic!("four cases") };
    assert_eq!(brake.joint_loads, [JointLoad { joint: c, load: DofMap([1000.0, 0.0, 0.0, 0.0, 0.0, 0.0]) }]);
    assert_eq!((brake.tube_point_loads[0].at, brake.tube_point_loads[0].force), (0.25, [0.0, 0.0, -10.0]));
    assert_eq!(brake.tube_point_loads[0].axes, Axes::Local);
    assert_eq!((snow.tube_loads[0].from, snow.tube_loads[0].to), ([0.0, 0.0, -50.0], [0.0, 0.0, -100.0]));
    let bc = model.tube_named("BC").expect("a tube");
    assert_eq!(sun.temperatures, [Temperature { tube: bc, rise: 30.0, gradient_y: 0.0, gradient_z: 100.0 }]);
    assert_eq!(sink.settlements, [Settlement { joint: a, dof: Dof::Uz, value: -0.005 }]);

    let [battery] = model.masses() else { panic!("one mass") };
    assert_eq!((battery.mass, battery.at), (40.0, [0.5, 0.0, 0.1]));
    assert_eq!(battery.carrier, Carrier::Joints(vec![a, b]));
    assert_eq!(battery.note, "under, the floor");
    assert_eq!((model.factors()[0].name.as_str(), model.factors()[0].value), ("bump", 2.5));
}

#[test]
fn a_vehicle_takes_its_contact_points_from_wheelbase_and_tracks() {
    let model = model(&toml_with_vehicle()).value;
    let vehicle = model.vehicle().expect("a vehicle");
    assert_relative_eq!(vehicle.wheelbase(), 2.4, max_relative = 1e-15);
    assert_relative_eq!(vehicle.track_front(), 1.4, max_relative = 1e-15);
    assert_relative_eq!(vehicle.corner(Wheel::FrontLeft).contact[..], [1.2, 0.7, 0.0], max_relative = 1e-15);
    assert_relative_eq!(vehicle.corner(Wheel::RearRight).contact[..], [-1.2, -0.7104, 0.0], max_relative = 1e-15);
    let b = model.joint_named("B").expect("a joint");
    assert_eq!(vehicle.corner(Wheel::FrontRight).spring, Point::Joint(b));
    let corner = vehicle.corner(Wheel::FrontLeft);
    let Suspension::Rigid(Carrier::Joints(joints)) = &corner.suspension else { panic!("a rigid corner") };
    assert_eq!(corner.spring, Point::Joint(joints[0]));
    assert_eq!((vehicle.front_roll_share, vehicle.front_brake_share, vehicle.front_drive_share), (0.55, None, 0.0));
    assert_eq!(vehicle.cg_height, None);
}

/// The model with what is only text for the reader of the report taken as given.
fn same(files: &InputFiles) -> Model {
    model(files).value
}

#[test]
fn marks_line_ends_quotes_column_order_and_comments_change_nothing() {
    let plain = same(&folder());
    let mut windows = folder();
    for file in &mut windows.0 {
        let text = String::from_utf8(file.bytes.clone()).expect("text").replace('\n', "\r\n");
        file.bytes = [&[0xef, 0xbb, 0xbf], text.as_bytes()].concat();
    }
    assert_eq!(same(&windows), plain);
    let other = "# by hand\n\"z_mm\", joint ,x_mm,y_mm,note,\n0,\"A\",0,0,,\n\n,,,,,\n0 , B, 1e3, 0,\"\",\n800,C,+500.0,-0,,,,\n# end";
    assert_eq!(same(&file("joints.csv", other)).joints(), plain.joints());
}

#[test]
fn releases_roll_groups_and_names_with_spaces() {
    let text = "tube,from,to,section,material,group,roll_deg,release_from,release_to,note\n\
                top rail,A,B,rail,mild,rails,45,ry rz,  rx,\"a \"\"note\"\"\"\nBC,B,C,rail,mild,,,,,\nCA,C,A,rail,mild,,,,,\n";
    let mut files = file("tubes.csv", text);
    change(&mut files, "tube_point_loads.csv", "AB", "top rail");
    let model = model(&files).value;
    let tube = &model.tubes()[model.tube_named("top rail").expect("a tube")];
    assert_eq!(tube.release_from, DofMap([false, false, false, false, true, true]));
    assert_eq!(tube.release_to, DofMap([false, false, false, true, false, false]));
    assert_relative_eq!(tube.roll, std::f64::consts::FRAC_PI_4, max_relative = 1e-15);
    assert_eq!((tube.group.as_str(), tube.note.as_str()), ("rails", "a \"note\""));
}

#[test]
fn materials_say_where_their_values_come_from() {
    let listed = model(&folder()).value;
    let mild = listed.materials().iter().next().expect("a material").clone();
    assert_eq!((mild.youngs, mild.shear, mild.density), (210e9, 81e9, 7850.0));
    assert_eq!(mild.strength, Some(Strength { yield_stress: 235e6, ultimate: 360e6 }));
    assert!(mild.verified && mild.source.contains("EN 10210-1") && mild.source.contains("from memory"));

    let replaced =
        model(&with("model.toml", "\"S235JRH\"", "\"S235JRH\"\nyield_mpa = 300\nsource = \"mill certificate 17\""))
            .value;
    let mild = replaced.materials().iter().next().expect("a material").clone();
    assert_eq!(mild.strength, Some(Strength { yield_stress: 300e6, ultimate: 360e6 }));
    assert!(!mild.verified && mild.source.contains("replaced in model.toml: yield_mpa (mill certificate 17)"));

    let own = "e_mpa = 70000\ng_mpa = 26900\ndensity_kg_m3 = 2700\nthermal_per_k = 23e-6";
    let own = model(&with("model.toml", "grade = \"S235JRH\"", own)).value;
    let mild = own.materials().iter().next().expect("a material").clone();
    assert_eq!((mild.strength, mild.heat_affected, mild.verified), (None, None, false));
    assert_eq!(mild.source, "as given in model.toml, no source named");
}

#[test]
fn sections_in_every_way_of_writing() {
    let section = |from: &str, to: &str| {
        model(&with("model.toml", from, to)).value.sections().iter().next().expect("a section").clone()
    };
    let plain = section("", "");
    assert_eq!(plain.label, "square 30 × 30 × 2 mm");
    let sizes = "shape = \"square\"\nwidth_mm = 30.0\nwall_mm = 2.0";
    assert_eq!(section(sizes, "stock = \"square 30x2\""), plain);
    assert_eq!(section(sizes, "shape = \"rectangular\"\nheight_mm = 30\nwidth_mm = 30\nwall = \"2 mm\""), plain);
    assert_eq!(section("wall_mm = 2.0", "wall = \"16 swg\"").label, "square 30 × 30 × 1.626 mm");
    assert_eq!(
        section("wall_mm = 2.0", "wall_mm = 2\nouter_radius_mm = 0").label,
        "square 30 × 30 × 2 mm, sharp corners"
    );
    assert_eq!(section(sizes, "shape = \"round\"\ndiameter_mm = 42.4\nwall_mm = 2.6").label, "round 42.4 × 2.6 mm");
    assert_eq!(section(sizes, "shape = \"solid-round\"\ndiameter_mm = 20").label, "solid round 20 mm");
    assert_eq!(section(sizes, "shape = \"flat\"\nheight_mm = 40\nwidth_mm = 5").label, "flat 40 × 5 mm");
    let given = section(sizes, "shape = \"properties\"\narea_mm2 = 200\niy_mm4 = 3e4\niz_mm4 = 2e4\nj_mm4 = 4e4");
    assert_relative_eq!(given.area, 200e-6, max_relative = 1e-15);
    assert_relative_eq!(given.iy, 3e-8, max_relative = 1e-15);
    assert_eq!((given.wel_y, given.fibres.len()), (None, 0));
}

#[test]
fn loads_on_one_joint_stay_apart_and_a_bare_case_may_have_no_rows_elsewhere() {
    let files = with("loads.csv", "snow,C", "brake,C,1,0,0,0,0,0\nsnow,C");
    let model = model(&files).value;
    assert_eq!(model.plain_cases()[0].joint_loads.len(), 2);
}

#[test]
fn a_script_may_change_a_spec_and_validate_it_again() {
    let (mut spec, faults) = spec::parse(&folder());
    assert!(faults.is_empty());
    spec.tubes[0].section = "thin".into();
    let faults = validate::validate(&spec).expect_err("no such section").0;
    assert_eq!(faults.iter().map(|fault| fault.code).collect::<Vec<_>>(), [codes::UNKNOWN_SECTION]);
    spec.tubes[0].section = "rail".into();
    spec.sections[0].wall_mm = Some(1.5.into());
    let thinner = validate::validate(&spec).expect("good").value;
    assert!(thinner.sections().iter().next().expect("a section").area < 200e-6);
}

#[test]
fn the_known_files_name_the_required_ones() {
    let required: Vec<&str> = KNOWN_FILES.iter().filter(|file| file.required).map(|file| file.name).collect();
    assert_eq!(required, ["model.toml", "joints.csv", "tubes.csv"]);
    let bare = InputFiles(folder().0.into_iter().filter(|file| required.contains(&file.name.as_str())).collect());
    assert_eq!(read_model(&bare).expect("good").value.plain_cases(), []);
}

/// A lattice of tens of thousands of tubes, good and then with every name wrong: every fault is said, each with a near name.
#[test]
fn a_large_frame_is_read_and_its_faults_are_all_said() {
    const SIDE: usize = 200;
    let mut joints = String::from("joint,x_mm,y_mm,z_mm\n");
    let mut tubes = String::from("tube,from,to,section,material\n");
    for row in 0..SIDE {
        for column in 0..SIDE {
            joints += &format!("J{row}-{column},0,{},{}\n", row * 100, column * 100);
            if row > 0 {
                tubes += &format!("R{row}-{column},J{}-{column},J{row}-{column},rail,mild\n", row - 1);
            }
            if column > 0 {
                tubes += &format!("C{row}-{column},J{row}-{},J{row}-{column},rail,mild\n", column - 1);
            }
        }
    }
    let toml = folder().get("model.toml").expect("there").to_vec();
    let files = InputFiles(vec![
        InputFile::new("model.toml", toml),
        InputFile::new("joints.csv", joints),
        InputFile::new("tubes.csv", tubes),
    ]);
    let model = read_model(&files).expect("good").value;
    assert_eq!(model.tubes().len(), 2 * SIDE * (SIDE - 1));

    // Every name wrong: every fault is said, and the search for near names does not hold it up.
    let mut wrong = files;
    let tubes = String::from_utf8(std::mem::take(&mut wrong.0[2].bytes)).expect("text").replace(",J", ",K");
    wrong.0[2].bytes = tubes.into_bytes();
    let Faults(faults) = read_model(&wrong).expect_err("no such joints");
    assert_eq!(faults.len(), 2 * 2 * SIDE * (SIDE - 1));
    assert!(faults[0].help.contains("did you mean"));
}

/// What was done in which revision, with the date in quotes or without.
#[test]
fn revisions_are_read_in_their_order() {
    let files = with(
        "model.toml",
        "revision = \"A\"\n",
        "revision = \"B.1\"\nrevisions.A = { date = 2026-01-05, by = \"R. Weld\", note = \"first frame\" }\n\
         revisions.\"B.1\" = { date = \"2024-02-29\", note = [\"thicker walls\", \"lower engine\"] }\n",
    );
    let read = read_model(&files).unwrap();
    assert_eq!(read.warnings, []);
    let title = read.value.title();
    let told: Vec<_> =
        title.revisions.iter().map(|one| (one.name.as_str(), one.date.as_str(), one.by.as_str())).collect();
    assert_eq!(told, [("A", "2026-01-05", "R. Weld"), ("B.1", "2024-02-29", "")]);
    assert_eq!(title.revisions[1].note, ["thicker walls", "lower engine"]);
}
