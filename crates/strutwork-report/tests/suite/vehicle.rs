//! Bodies, links, panels, free cases, bays: in files and in the report.

use serde_json::Value;
use strutwork_model::units::{STANDARD_GRAVITY, to_mpa};
use strutwork_report::figures::{bays, frame, view::View};
use strutwork_report::report_html;
use strutwork_testkit::assert_close;

use crate::fixture::{Finished, cantilever, twisted_box};
use crate::html::assert_balanced;
use crate::rolling::{folder, narrow_braces, vehicle, vehicle_with};
use crate::turn::without_view_program;

/// The rows of a file that belong to a case.
fn of_case(finished: &Finished, file: &str, case: &str) -> Vec<Vec<String>> {
    finished.rows(file).into_iter().filter(|row| row[0] == case).collect()
}

fn number(cell: &str) -> f64 {
    cell.parse().unwrap_or_else(|_| panic!("`{cell}` is no number"))
}

fn quantity(finished: &Finished, case: &str, name: &str) -> (f64, String) {
    let rows = of_case(finished, "cases.csv", case);
    let row = rows.iter().find(|row| row[1] == name).unwrap_or_else(|| panic!("{case} has no {name}"));
    (number(&row[2]), row[3].clone())
}

#[test]
fn columns_are_those_of_the_contract() {
    let finished = vehicle();
    for (file, header) in [
        ("mounts.csv", "case,body,joint,fx_n,fy_n,fz_n,axial_n,shear_n,mx_nm,my_nm,mz_nm,moment_nm"),
        ("links.csv", "case,corner,link,kind,force_n,fx_n,fy_n,fz_n"),
        (
            "panels.csv",
            "case,panel,flow_n_per_mm,flow_1_n_per_mm,flow_2_n_per_mm,flow_3_n_per_mm,flow_4_n_per_mm,stress_mpa,\
             buckling_mpa,buckling_ratio,fastener_n,bond_mpa",
        ),
        ("body_movements.csv", "case,body,ux_mm,uy_mm,uz_mm,rx_deg,ry_deg,rz_deg"),
        ("envelope.csv", "tube,quantity,least,least_case,greatest,greatest_case,unit"),
        (
            "bays.csv",
            "bay,joints,plane,kind,stiffness_n_per_mm,bare_n_per_mm,along_n_per_mm,area_mm2,tubes_inside,panels,rings",
        ),
        ("mass_table.csv", "kind,item,kg,x_mm,y_mm,z_mm,ixx_kg_m2,iyy_kg_m2,izz_kg_m2,ixy_kg_m2,ixz_kg_m2,iyz_kg_m2"),
    ] {
        assert_eq!(finished.csv(file).lines().next().unwrap(), header, "{file}");
    }
}

#[test]
fn files_of_parts_that_a_model_lacks_are_not_written() {
    let plain = Finished::plain(&cantilever(-100.0));
    for file in ["mounts.csv", "links.csv", "panels.csv", "body_movements.csv", "bays.csv"] {
        assert!(!plain.writes(file), "{file}");
        assert!(vehicle().writes(file), "{file}");
    }
    for file in ["envelope.csv", "mass_table.csv"] {
        assert!(plain.writes(file), "{file}");
    }
}

/// What the bolts of the module exert on the frame is what acts on the module: its rear wheels' loads less its own weight.
#[test]
fn bolts_links_and_panels_stand_in_their_files() {
    let finished = vehicle();
    let bolts = of_case(&finished, "mounts.csv", "rest");
    assert_eq!(
        bolts.iter().map(|row| row[2].as_str()).collect::<Vec<_>>(),
        ["rear-low-L", "rear-low-R", "rear-top-L", "rear-top-R"]
    );
    let upward: f64 = bolts.iter().map(|row| number(&row[5])).sum();
    let wheels: f64 = ["rear_left", "rear_right"]
        .map(|wheel| quantity(&finished, "rest", &format!("wheel_{wheel}_fz")).0)
        .iter()
        .sum();
    assert_close("Σ Fz of the bolts", upward, wheels - 25.0 * STANDARD_GRAVITY, 1e-9);
    for row in &bolts[..3] {
        let [fx, fy, fz, along, across] = [3, 4, 5, 6, 7].map(|column| number(&row[column]));
        assert_close("along the bolt", along, fx, 1e-12);
        assert_close("across", across, fy.hypot(fz), 1e-12);
    }
    assert_eq!(&bolts[3][6..8], ["", ""], "a mount without an axis has no axial load");

    let links = of_case(&finished, "links.csv", "bump");
    assert_eq!(links.len(), 12);
    let damper = links.iter().find(|row| row[1] == "front-left" && row[2] == "damper").unwrap();
    assert_eq!(damper[3], "spring");
    let size = [5, 6, 7].map(|column| number(&damper[column])).iter().map(|f| f * f).sum::<f64>().sqrt();
    assert_close("|F| of a link", size, number(&damper[4]).abs(), 1e-9);
    let (ratio, _) = quantity(&finished, "bump", "spring_front_left_over_wheel");
    let (wheel, _) = quantity(&finished, "bump", "wheel_front_left_fz");
    assert_close("spring over wheel", ratio, -number(&damper[4]) / wheel, 1e-12);
    assert!(ratio > 0.0, "a wheel pushed up compresses its damper: {ratio}");

    let panels = of_case(&finished, "panels.csv", "bump");
    let [floor, nose] = [&panels[0], &panels[1]];
    assert_close("τ = q/t", number(&floor[7]), number(&floor[2]) / 0.3, 1e-12);
    assert_close("ratio", number(&floor[9]), number(&floor[7]) / number(&floor[8]), 1e-12);
    assert_close("rivet", number(&floor[10]), number(&floor[2]) * 50.0, 1e-9);
    assert_eq!(
        (floor[11].as_str(), nose[10].as_str(), nose[6].as_str()),
        ("", "", ""),
        "glue has no rivets, a triangle no edge 4"
    );
    assert_close("bond", number(&nose[11]), number(&nose[2]) / 20.0, 1e-9);
}

#[test]
fn a_free_case_tells_its_accelerations_and_what_was_left_over() {
    let finished = vehicle();
    assert!(finished.cases.0.iter().all(|case| case.free));
    let weight = quantity(&finished, "rest", "mass").0 * STANDARD_GRAVITY;
    let at_rest: f64 = ["front_left", "front_right", "rear_left", "rear_right"]
        .map(|wheel| quantity(&finished, "rest", &format!("static_{wheel}")).0)
        .iter()
        .sum();
    assert_close("Σ static loads", at_rest, weight, 1e-12);
    assert_eq!(quantity(&finished, "rest", "acceleration_z"), (0.0, "g".to_owned()));
    let (up, _) = quantity(&finished, "bump", "acceleration_z");
    let extra = 11.0 * quantity(&finished, "rest", "static_front_left").0;
    assert_close("a = F/m", up, extra / weight, 1e-9);
    for case in ["rest", "bump", "twist", "push"] {
        assert!(quantity(&finished, case, "relief_left_over").0 < 1e-9, "{case}");
    }
    assert_eq!(finished.rows("reactions.csv").len(), 1, "nothing holds the vehicle");
}

#[test]
fn the_envelope_holds_every_station_of_every_case() {
    let finished = vehicle();
    let forces = finished.rows("member_forces.csv");
    let tube = "rear-low-L>front-low-L";
    for (quantity, column) in [("n", 4), ("mz", 9), ("sigma_max", 10), ("von_mises", 12)] {
        let all = || forces[1..].iter().filter(|row| row[1] == tube).map(|row| (number(&row[column]), row[0].clone()));
        let least = all().reduce(|best, next| if next.0 < best.0 { next } else { best }).unwrap();
        let greatest = all().reduce(|best, next| if next.0 > best.0 { next } else { best }).unwrap();
        let rows = finished.rows("envelope.csv");
        let row = rows.iter().find(|row| row[0] == tube && row[1] == quantity).unwrap();
        assert_eq!((number(&row[2]), &row[3]), (least.0, &least.1), "{quantity}");
        assert_eq!((number(&row[4]), &row[5]), (greatest.0, &greatest.1), "{quantity}");
    }
}

#[test]
fn the_mass_table_adds_up() {
    let finished = vehicle();
    let rows = finished.rows("mass_table.csv");
    let (total, items) = rows[1..].split_last().unwrap();
    assert_eq!(total[0], "total");
    assert_close("Σ m", items.iter().map(|row| number(&row[2])).sum(), number(&total[2]), 1e-12);
    let floor = items.iter().find(|row| row[0] == "panel" && row[1] == "floor").unwrap();
    assert_close("ρ A t", number(&floor[2]), 2700.0 * 1.0 * 0.4 * 0.3e-3, 1e-12);
    assert!(number(&total[6]) > 0.0 && items.iter().all(|row| row[6].is_empty()));
}

#[test]
fn the_report_tells_the_whole_vehicle() {
    let finished = vehicle();
    let html = report_html(&finished.run()).replace('\u{202f}', " ");
    assert_balanced(&html);
    for said in [
        // The model.
        "Suspension links: ends on the upright",
        "Bodies: rigid modules bolted to the frame",
        "rigid in all six freedoms",
        "ux by 900 N/mm; uy by 900 N/mm; uz by 1200 N/mm; the rest free",
        "M10 8.8",
        "fasteners every 50 mm, slip 0.3 mm/kN, shear strength 1800 N",
        "bond line 2 mm thick and 20 mm wide, G 2 MPa, strength not given",
        "Inertia tensor about the centre of gravity",
        "What the wheels carry at rest",
        "The model beside the scales",
        "weld metal, 1.5 to 2 % of the tubes",
        // What it assumes and contains.
        "at front-left, front-right: forces of links are stated, their strength is not checked; outside the model at rear-left",
        "2 panels: shear, buckling and fixings",
        "1 body on 4 mounts: loads of bolts are stated; bolts are judged where the model says what they are",
        "A skin is only as stiff as its fixing",
        "Bolts are judged one by one",
        "A free vehicle's loads are as right as its masses",
        // The cases.
        "Already balanced: what acts, weight included, needs no inertia",
        "The check to make first",
        "Nothing holds the vehicle. While it was solved,",
        "The frame is free: rigid motion is taken out",
        "from memory: check before relying on it",
        "Spring against wheel: how many times",
        "What the bodies exert on the frame through their bolts",
        "<span class=\"tag ultimate\">ultimate</span>",
        "push (ultimate)",
        "twist (notional)",
        // Over all cases.
        "Envelope by group",
        "Bolts: the greatest load along (either way), across, and moment",
        "Mounts without a bolt axis",
        "Links: greatest tension (positive) and compression (negative)",
        "Panels, each in the case of its greatest shear",
        "buckles: the linear answer no longer holds",
        "Skin or tube: shear stiffness as G·t",
        "Bays, softest first",
    ] {
        assert!(html.replace("&#39;", "'").contains(said), "{said}");
    }
    // A vehicle that is free has no table of reactions, and no case is held.
    assert!(!html.contains("what the supports exert on the frame, global axes</caption>"));
}

#[test]
fn what_a_model_lacks_is_told_and_not_warned_of() {
    let html = report_html(&twisted_box().run());
    for said in [
        "The model has no bodies, or no case was solved.",
        "The model has no linked corners",
        "The model has no panels, or no case was solved.",
        "none: whatever skins the vehicle has are outside the model",
        "Joints are taken as rigid, and tubes as lines",
        "Nothing was weighed.",
    ] {
        assert!(html.contains(said), "{said}");
    }
    for caution in ["A skin is only as stiff", "Bolts are judged one by one", "A free vehicle"] {
        assert!(!html.contains(caution), "{caution}");
    }
}

#[test]
fn a_panel_that_buckles_is_told_in_its_case() {
    let finished = vehicle();
    let floor = |case: usize| finished.results.cases[case].panels.iter().next().unwrap();
    assert!(
        floor(1).buckling_ratio > 1.0 && floor(0).buckling_ratio < 1.0,
        "the fixture's floor buckles over the bump alone"
    );
    let html = report_html(&finished.run());
    let article = |number: usize| {
        let tail = html.split(&format!("id=\"case-{number}\"")).nth(1).unwrap();
        tail.split("</article>").next().unwrap()
    };
    assert!(article(2).contains("buckles in this case: floor (at"));
    assert!(!article(1).contains("in this case: floor"));
    let shown = format!("{:.3}", to_mpa(floor(1).buckling_stress));
    assert!(article(2).contains(&shown), "{shown}");
}

#[test]
fn bays_are_drawn_and_numbered_and_an_open_one_in_a_stiff_ring_is_marked() {
    let finished = vehicle();
    let run = finished.run();
    // Sides, ends and floor are stiffened; the top is open.
    let open: Vec<String> =
        bays::breaking(&finished.bays).keys().map(|place| finished.bays.bays[*place].name(run.model)).collect();
    assert_eq!(open.len(), 1, "{open:?}");
    assert!(open[0].contains("rear-top-L") && open[0].contains("front-top-R"), "{open:?}");
    let figure = bays::draw(&run, View::Isometric).unwrap();
    for number in 1..=finished.bays.bays.len() {
        assert!(figure.svg.contains(&format!(">{number}</text>")), "bay {number} is not numbered");
    }
    assert!(figure.caption.contains("Broken red edge"));
    let html = report_html(&run);
    assert!(html.contains("is open. It closes a box with bays"));
    assert!(bays::draw(&Finished::plain(&cantilever(-1.0)).run(), View::Isometric).is_none());
}

#[test]
fn figures_of_the_frame_are_told_with_what_they_rest_on() {
    let finished = vehicle();
    let figures = finished.figures.as_ref().unwrap();
    let (stiffness, _) = quantity(&finished, "twist", "torsional_stiffness");
    let grams = quantity(&finished, "twist", "frame_mass_per_stiffness");
    let tubes: f64 = finished.model.tubes().ids().map(|tube| finished.model.tube_mass(tube)).sum();
    assert_close("g per N·m/deg", grams.0, tubes * 1e3 / stiffness, 1e-12);
    // Kf = 120, Kr = 100 N·m/deg: Ks = 54.5; share K/(K + Ks).
    let series = 120.0 * 100.0 / 220.0;
    assert_close("Ks", quantity(&finished, "twist", "roll_stiffness_in_series").0, series, 1e-12);
    assert_close(
        "share",
        quantity(&finished, "twist", "chassis_share").0,
        100.0 * stiffness / (stiffness + series),
        1e-9,
    );
    let html = report_html(&finished.run());
    for said in ["Mass for stiffness", "Chassis against roll", "K/(K + Ks)", "g per N·m/deg", "reaches the tyres"] {
        assert!(html.contains(said), "{said}");
    }
    // All tubes are of one width: no end is soft, and no band is claimed.
    assert!(figures.band.is_none() && !finished.writes("soft_ends.csv") && !html.contains("Band of K"));
    assert_eq!(finished.rows("cases.csv").iter().filter(|row| row[1] == "chassis_share").count(), 1);
}

#[test]
fn a_band_of_stiffness_is_told_as_a_band() {
    let finished = vehicle_with(narrow_braces());
    let band = finished.figures.as_ref().and_then(|figures| figures.band).unwrap();
    let soft = quantity(&finished, "twist", "torsional_stiffness_soft").0;
    let rigid = quantity(&finished, "twist", "torsional_stiffness_rigid").0;
    assert!(soft < rigid && (rigid / quantity(&finished, "twist", "torsional_stiffness").0 - 1.0).abs() < 1e-12);
    let rows = finished.rows("soft_ends.csv");
    assert_eq!(rows[0].join(","), "tube,joint,chord,width_share,ux_n_per_mm,ry_nm_per_deg,rz_nm_per_deg");
    assert_eq!(rows.len() - 1, band.ends);
    assert!(rows[1..].iter().all(|row| row[0].contains("low") && number(&row[3]) < 0.85));
    let html = report_html(&finished.run()).replace('\u{202f}', " ");
    assert!(html.contains(&format!("{soft:.0} to {rigid:.0} N·m/deg")), "{soft} {rigid}");
    assert!(html.contains("does not bound what the built frame will show"));
    assert!(html.contains("The softness of joints is an estimate."));
    let json: Value = serde_json::from_str(&strutwork_report::run_json(&finished.run())).unwrap();
    let told = json["figures"]["torsional_stiffness_soft_nm_per_deg"].as_f64().unwrap();
    // The test's reader of JSON may be off by the last bit.
    assert_close("soft K", told, soft, 1e-15);
    assert_eq!(json["figures"]["soft_ends"].as_u64(), Some(band.ends as u64));
}

#[test]
fn the_drawing_shows_skins_bodies_and_links() {
    let finished = vehicle();
    let figure = frame::draw(&finished.run(), View::Side);
    for said in ["Hatched: panels", "Diamond with broken arms", "a zigzag for a spring", "Quartered circle"] {
        assert!(figure.caption.contains(said), "{said}: {}", figure.caption);
    }
    assert!(figure.svg.contains(">module</text>"));
    let bare = frame::draw(&twisted_box().run(), View::Isometric);
    assert!(!bare.caption.contains("Hatched") && !bare.caption.contains("Diamond"));
}

#[test]
fn offsets_and_springs_of_tube_ends_are_told() {
    let set_off = folder()
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,front-top-L,0,500,0,0,0,0\n")
        .with("tubes.csv", {
            let (_, tubes) = folder()
                .files()
                .0
                .into_iter()
                .find(|file| file.name == "tubes.csv")
                .map(|file| (file.name, String::from_utf8(file.bytes).unwrap()))
                .unwrap();
            let head = "tube,from,to,section,material,group,offset_from_z_mm,spring_to_rz_nm_per_deg";
            let rows: Vec<String> = tubes
                .lines()
                .skip(1)
                .enumerate()
                .map(|(place, row)| format!("{row},{}", if place == 0 { "15,120" } else { "," }))
                .collect();
            format!("{head}\n{}\n", rows.join("\n"))
        });
    let finished = Finished::plain(&set_off);
    let html = report_html(&finished.run());
    assert!(html.contains("from end set off by 0 / 0 / 15 mm; to end: rz by 120 N·m/deg"));
    assert!(html.contains("joint centres, or ends set off from them by rigid arms"));
    assert!(html.contains("Joints are rigid unless a tube&#39;s end is released or joined by springs."));
    assert!(frame::draw(&finished.run(), View::Isometric).caption.contains("a tube set off from it"));
}

#[test]
fn run_json_tells_masses_bays_and_free_cases() {
    let finished = vehicle();
    let text = strutwork_report::run_json(&finished.run());
    let json: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(json["model"]["panels"], 2);
    assert_eq!(json["model"]["mounts"], 4);
    assert_eq!(json["model"]["links"], 12);
    assert_close("mass", json["mass"]["total_kg"].as_f64().unwrap(), quantity(&finished, "rest", "mass").0, 1e-15);
    let shares = json["mass"]["static_wheel_shares_percent"].as_array().unwrap();
    assert_close("Σ shares", shares.iter().map(|share| share.as_f64().unwrap()).sum(), 100.0, 1e-12);
    assert_eq!(json["bays"]["number"], finished.bays.bays.len());
    assert_eq!(json["bays"]["open_in_stiffened_rings"], 1);
    let bump = &json["cases"][1];
    assert_eq!((bump["name"].as_str(), bump["free"].as_bool()), (Some("bump"), Some(true)));
    assert_eq!(bump["held_inside"].as_array().unwrap().len(), 6);
    assert!(bump["left_over"].as_f64().unwrap() < 1e-9);
    assert!(bump["greatest_buckling_ratio"].as_f64().unwrap() > 1.0);
    let upward = bump["acceleration_g"][2].as_f64().unwrap();
    assert_close("a_z", upward, quantity(&finished, "bump", "acceleration_z").0, 1e-15);
    assert!(!text.split([',', '\n', ' ']).any(|word| word == "-0.0"), "a negative zero");
}

#[test]
fn hostile_names_of_bodies_panels_and_links_stay_text() {
    let name = "<script>alert(1)</script>";
    let swap = |folder: strutwork_testkit::Folder, file: &str, from: &str| {
        let text =
            folder.files().0.into_iter().find(|one| one.name == file).map(|one| String::from_utf8(one.bytes).unwrap());
        folder.with(file, text.unwrap().replace(from, name))
    };
    let mut hostile =
        folder().with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,front-top-L,0,500,0,0,0,0\n");
    for (file, from) in
        [("bodies.csv", "module"), ("masses.csv", "module"), ("panels.csv", "floor"), ("suspension.csv", "damper")]
    {
        hostile = swap(hostile, file, from);
    }
    let quoted = format!("\"{name}\"");
    let text = hostile.files().0.into_iter().find(|one| one.name == "model.toml").unwrap();
    let text = String::from_utf8(text.bytes).unwrap().replace("\"module\"", &quoted);
    let hostile = hostile.with("model.toml", text);
    let html = report_html(&Finished::plain(&hostile).run());
    assert_balanced(&html);
    assert!(!without_view_program(&html).contains("<script"));
    assert!(html.matches("&lt;script&gt;").count() > 4 && html.matches("&#60;script&#62;").count() > 8);
}
