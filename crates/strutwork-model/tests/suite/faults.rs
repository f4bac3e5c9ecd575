//! Every code of this crate, brought about by spoiling a good folder in one place: the fault is found where it is, says
//! what to do, and brings no other fault along.

use crate::faults_bolts;
use crate::faults_judging;
use crate::faults_modules;
use crate::faults_panels;
use crate::faults_rig;
use crate::faults_screening;
use crate::folder::{change, file, folder, toml_with_vehicle, with, without};
use strutwork_model::{Code, Diagnostic, Faults, InputFiles, codes, read_model};

fn all(files: &InputFiles) -> Vec<Diagnostic> {
    match read_model(files) {
        Ok(model) => model.warnings,
        Err(Faults(faults)) => faults,
    }
}

/// File, line, column and width of the only fault there should be.
pub(crate) type At = (&'static str, usize, usize, usize);

/// Code, place, a piece of the message or help, and the folder.
pub(crate) type Case = (Code, At, &'static str, InputFiles);

const NOWHERE: At = ("", 0, 0, 0);

fn toml(from: &str, to: &str) -> InputFiles {
    with("model.toml", from, to)
}

fn joints(from: &str, to: &str) -> InputFiles {
    with("joints.csv", from, to)
}

fn tubes(from: &str, to: &str) -> InputFiles {
    with("tubes.csv", from, to)
}

fn vehicle(from: &str, to: &str) -> InputFiles {
    let mut files = toml_with_vehicle();
    change(&mut files, "model.toml", from, to);
    files
}

/// A settlement row added.
fn settled(row: &str) -> InputFiles {
    with("settlements.csv", "sink,A,,,-5,,,\n", row)
}

fn of_files() -> Vec<Case> {
    let old_mac = "case,joint,fx_n\rbrake,C,1\r";
    let unnamed = "joint,x_mm,y_mm,z_mm,\nA,0,0,0,front\nB,1000,0,0,\nC,500,0,800,\n";
    vec![
        (codes::MISSING_FILE, ("tubes.csv", 0, 0, 0), "model folder needs", without("tubes.csv")),
        (codes::NOT_UTF8, ("joints.csv", 0, 0, 0), "UTF-16", file("joints.csv", [0xff, 0xfe, b'j', 0])),
        (codes::NOT_UTF8, ("masses.csv", 2, 0, 0), "0xE4", file("masses.csv", b"mass\nk\xe4se".to_vec())),
        (codes::NUL_BYTE, ("masses.csv", 2, 0, 0), "NUL", file("masses.csv", b"mass\nb\0".to_vec())),
        (codes::LINE_ENDS, ("masses.csv", 1, 0, 0), "carriage return", file("masses.csv", old_mac)),
        (codes::UNKNOWN_FILE, ("support.csv", 0, 0, 0), "`supports.csv`", file("support.csv", "x")),
        (codes::EMPTY_TABLE, ("joints.csv", 0, 0, 0), "empty", file("joints.csv", "# nothing\n\n")),
        (codes::EMPTY_TABLE, ("tubes.csv", 0, 0, 0), "no rows", file("tubes.csv", "tube,from,to,section,material\n")),
        (
            codes::SEPARATOR,
            ("joints.csv", 1, 0, 0),
            "semicolons",
            file("joints.csv", "joint;x_mm;y_mm;z_mm\nA;0;0;0\n"),
        ),
        (
            codes::SEPARATOR,
            ("joints.csv", 1, 0, 0),
            "tabs",
            file("joints.csv", "joint\tx_mm\ty_mm\tz_mm\nA\t0\t0\t0\n"),
        ),
        (
            codes::UNKNOWN_COLUMN,
            ("joints.csv", 2, 22, 5),
            "`note`",
            joints("z_mm\nA,0,0,0\nB,1000,0,0\nC,500,0,800", "z_mm,notes\nA,0,0,0,\nB,1000,0,0,\nC,500,0,800,"),
        ),
        (codes::MISSING_COLUMN, ("joints.csv", 2, 0, 0), "`z_mm`", joints(",z_mm", "")),
        (
            codes::DUPLICATE_COLUMN,
            ("joints.csv", 2, 22, 4),
            "twice",
            joints("z_mm\nA,0,0,0\nB,1000,0,0\nC,500,0,800", "z_mm,y_mm\nA,0,0,0,0\nB,1000,0,0,0\nC,500,0,800,0"),
        ),
        (codes::WRONG_UNIT, ("joints.csv", 2, 7, 3), "multiply metres by 1000", joints("x_mm", "x_m")),
        (
            codes::WRONG_UNIT,
            ("tube_loads.csv", 1, 16, 11),
            "multiply by 1000",
            with("tube_loads.csv", "wx_n_per_m", "wx_n_per_mm"),
        ),
        (codes::UNNAMED_COLUMN, ("joints.csv", 2, 9, 5), "`front`", file("joints.csv", unnamed)),
        (codes::CELL_COUNT, ("joints.csv", 4, 0, 0), "decimal comma", joints("B,1000,0,0", "B,1000,5,0,0")),
        (codes::CELL_COUNT, ("joints.csv", 4, 0, 0), "a comma for every column", joints("B,1000,0,0", "B,1000,0")),
        (codes::QUOTES, ("masses.csv", 2, 26, 1), "not closed", with("masses.csv", "floor\"", "floor")),
        (codes::QUOTES, ("masses.csv", 2, 26, 1), "follows", with("masses.csv", "floor\"", "floor\" x")),
        (codes::NOT_A_NUMBER, ("joints.csv", 4, 3, 4), "`1000`", joints("1000", "1o0o")),
        (codes::NOT_A_NUMBER, ("joints.csv", 4, 3, 5), "`1.5`", joints("1000", "\"1,5\"")),
        (codes::NOT_FINITE, ("joints.csv", 5, 9, 3), "finite", joints("500,0,800", "500,0,nan")),
        (codes::NOT_FINITE, ("loads.csv", 2, 9, 5), "finite", with("loads.csv", "1000", "1e999")),
        (codes::BLANK_CELL, ("loads.csv", 2, 14, 1), "0 where nothing acts", with("loads.csv", "1000,0,0", "1000,,0")),
        (codes::BLANK_CELL, ("supports.csv", 2, 31, 1), "fixed", with("supports.csv", "free,fixed\nB", "free,\nB")),
        (codes::UNKNOWN_WORD, ("supports.csv", 2, 3, 3), "`fixed`", with("supports.csv", "A,fixed", "A,fix")),
        (codes::UNKNOWN_WORD, ("tube_loads.csv", 2, 9, 5), "local", with("tube_loads.csv", "global", "world")),
        (
            codes::UNKNOWN_WORD,
            ("tubes.csv", 2, 20, 2),
            "`rx`",
            tubes(
                "material\nAB,A,B,rail,mild\nBC,B,C,rail,mild\nCA,C,A,rail,mild",
                "material,release_to\nAB,A,B,rail,mild  ,rv\nBC,B,C,rail,mild,\nCA,C,A,rail,mild,ry rz",
            ),
        ),
        (codes::UNKNOWN_WORD, ("model.toml", 6, 9, 8), "`square`", toml("\"square\"", "\"sqaure\"")),
        (codes::EMPTY_NAME, ("masses.csv", 2, 1, 1), "no name", with("masses.csv", "battery", "")),
        (codes::EMPTY_NAME, ("tubes.csv", 3, 4, 1), "names no joint", tubes("BC,B,C", "BC,,C")),
        (codes::EMPTY_NAME, ("loads.csv", 2, 1, 1), "load case", with("loads.csv", "brake", "")),
        (codes::CONTROL_CHARACTER, ("masses.csv", 2, 0, 0), "U+000A", with("masses.csv", "battery", "\"bat\ntery\"")),
        (codes::TOML_SYNTAX, ("model.toml", 1, 9, 8), "quotes", toml("\"Triangle\"", "Triangle")),
        (codes::TOML_SYNTAX, ("model.toml", 8, 1, 8), "duplicate key", toml("wall_mm", "width_mm = 30\nwall_mm")),
        (codes::UNKNOWN_KEY, ("model.toml", 4, 1, 11), "`self_weight`", toml("self_weight", "self_wieght")),
        (codes::UNKNOWN_KEY, ("model.toml", 3, 2, 6), "`options`", toml("options", "option")),
        (codes::MISSING_KEY, ("model.toml", 5, 11, 4), "16 swg", toml("wall_mm = 2.0\n", "")),
        (
            codes::MISSING_KEY,
            ("model.toml", 9, 12, 4),
            "grade",
            toml("grade = \"S235JRH\"", "e_mpa = 210000\ndensity_kg_m3 = 7850\nthermal_per_k = 12e-6"),
        ),
        (codes::MISSING_KEY, ("model.toml", 11, 10, 4), "value", toml("value = 2.5\n", "")),
        (codes::WRONG_KIND, ("model.toml", 8, 11, 5), "a number", toml("2.0", "\"2.0\"")),
        (codes::WRONG_KIND, ("model.toml", 4, 15, 3), "`true` or `false`", toml("true", "\"y\"")),
        (
            codes::KEYS_DISAGREE,
            ("model.toml", 9, 8, 8),
            "both",
            toml("wall_mm = 2.0", "wall_mm = 2.0\nwall = \"16 swg\""),
        ),
        (
            codes::KEYS_DISAGREE,
            ("model.toml", 9, 15, 2),
            "no `diameter_mm`",
            toml("wall_mm = 2.0", "wall_mm = 2.0\ndiameter_mm = 30"),
        ),
        (codes::KEYS_DISAGREE, ("model.toml", 7, 9, 8), "`stock`", toml("shape", "stock = \"square 30x2\"\nshape")),
        (codes::NO_TITLE, NOWHERE, "`title", toml("title = \"Triangle\"\n", "")),
    ]
}

/// The model's revision, and what is said of others.
fn revisions(said: &str) -> InputFiles {
    toml("revision = \"A\"\n", &format!("revision = \"A\"\n{said}\n"))
}

fn of_revisions() -> Vec<Case> {
    vec![
        (
            codes::NOT_A_DATE,
            ("model.toml", 3, 22, 11),
            "year, month",
            revisions("revisions.A = { date=\"31.1.2026\" }"),
        ),
        (
            codes::NOT_A_DATE,
            ("model.toml", 3, 22, 12),
            "`2025-02-29`",
            revisions("revisions.A = { date=\"2025-02-29\" }"),
        ),
        (
            codes::NOT_A_DATE,
            ("model.toml", 3, 22, 12),
            "`2026-13-01`",
            revisions("revisions.A = { date=\"2026-13-01\" }"),
        ),
        (codes::WRONG_KIND, ("model.toml", 3, 22, 4), "a number", revisions("revisions.A = { date=2026 }")),
        (codes::UNKNOWN_KEY, ("model.toml", 3, 17, 3), "`note`", revisions("revisions.A = { not=\"x\" }")),
        (codes::REVISION_WITHOUT_NOTE, ("model.toml", 2, 12, 3), "[revisions.\"A\"]", revisions("revisions.0 = {}")),
        (codes::REVISION_WITHOUT_NOTE, ("model.toml", 2, 12, 3), "`AA`", revisions("revisions.AA = {}")),
    ]
}

fn of_names() -> Vec<Case> {
    vec![
        (
            codes::DUPLICATE_NAME,
            ("joints.csv", 6, 1, 1),
            "first on line 3",
            joints("C,500,0,800", "C,500,0,800\nA,1,2,3"),
        ),
        (codes::DUPLICATE_NAME, ("tubes.csv", 4, 1, 2), "first on line 2", tubes("CA", "AB")),
        (
            codes::DUPLICATE_NAME,
            ("masses.csv", 3, 1, 7),
            "two masses",
            with("masses.csv", "battery", "battery,1,0,0,0,A,\nbattery"),
        ),
        (codes::UNKNOWN_JOINT, ("tubes.csv", 3, 6, 1), "`C`", tubes("BC,B,C", "BC,B,c")),
        (codes::UNKNOWN_JOINT, ("supports.csv", 3, 1, 1), "add it to", with("supports.csv", "B,free", "X,free")),
        (codes::UNKNOWN_JOINT, ("masses.csv", 2, 24, 1), "parted by spaces", with("masses.csv", "A B", "A Q")),
        (codes::UNKNOWN_TUBE, ("tube_loads.csv", 2, 6, 3), "`BC`", with("tube_loads.csv", "BC", "B-C")),
        (codes::UNKNOWN_SECTION, ("tubes.csv", 2, 8, 4), "`rail`", tubes("rail", "rial")),
        (codes::UNKNOWN_MATERIAL, ("tubes.csv", 2, 13, 4), "`mild`", tubes("mild", "midl")),
        (codes::UNKNOWN_GRADE, ("model.toml", 10, 9, 6), "`S235JRH`", toml("S235JRH", "S235")),
        (
            codes::UNUSED,
            ("model.toml", 9, 12, 5),
            "no tube and no panel uses",
            toml("[materials", "[materials.spare]\ngrade = \"6082-T6\"\n[materials"),
        ),
        (
            codes::DUPLICATE_ROW,
            ("loads.csv", 3, 1, 5),
            "add",
            with("loads.csv", "snow", "brake,C,1000,0,0,0,0,0\nsnow"),
        ),
        (codes::LOOK_ALIKE, ("loads.csv", 3, 1, 5), "exactly", with("loads.csv", "snow", "Brake")),
        (codes::JOINT_LISTED_TWICE, ("masses.csv", 2, 24, 1), "once", with("masses.csv", "A B", "A A")),
    ]
}

fn of_geometry() -> Vec<Case> {
    let apart = "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,1000,0,0\nC,500,0,800\nD,0,500,0\nE,1000,500,0\n";
    let mut parts = file("joints.csv", apart);
    change(&mut parts, "tubes.csv", "AB,", "DE,D,E,rail,mild\nAB,");
    vec![
        (codes::SAME_PLACE, ("joints.csv", 6, 1, 1), "`C`", {
            let mut files = joints("C,500,0,800", "C,500,0,800\nD,500,0,800.005");
            change(&mut files, "tubes.csv", "AB,", "BD,B,D,rail,mild\nAB,");
            files
        }),
        (
            codes::TUBE_TO_ITSELF,
            ("tubes.csv", 5, 6, 1),
            "itself",
            tubes("CA,C,A,rail,mild", "CA,C,A,rail,mild\nAA,A,A,rail,mild"),
        ),
        (
            codes::DOUBLED_TUBE,
            ("tubes.csv", 5, 1, 2),
            "`AB` and `BA`",
            tubes("CA,C,A,rail,mild", "CA,C,A,rail,mild\nBA,B,A,rail,mild"),
        ),
        (codes::SHORT_TUBE, ("tubes.csv", 5, 1, 2), "29.0 mm long", {
            let mut files = joints("C,500,0,800", "C,500,0,800\nD,500,0,829");
            change(&mut files, "tubes.csv", "CA,C,A,rail,mild", "CA,C,A,rail,mild\nCD,C,D,rail,mild");
            files
        }),
        (
            codes::LOOSE_JOINT,
            ("joints.csv", 6, 1, 1),
            "no tube reaches",
            joints("C,500,0,800", "C,500,0,800\nD,0,0,400"),
        ),
        (
            codes::SEPARATE_PARTS,
            ("joints.csv", 5, 1, 1),
            "`D`, `E` are not connected to the joints `A`, `B`, `C`",
            parts,
        ),
        (codes::ODD_FRAME, ("joints.csv", 0, 0, 0), "multiply metres", {
            let mut files = file("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,49,0,0\nC,20,0,35\n");
            change(&mut files, "model.toml", "width_mm = 30", "width_mm = 10");
            files
        }),
        (codes::ODD_FRAME, ("joints.csv", 0, 0, 0), "too many digits", joints("1000", "100000")),
        (codes::ODD_COORDINATE, ("joints.csv", 5, 3, 3), "write 500", joints("C,500", "C,0.5")),
    ]
}

fn of_sections() -> Vec<Case> {
    let own = |text: &str| toml("grade = \"S235JRH\"", &format!("density_kg_m3 = 7850\nthermal_per_k = 12e-6\n{text}"));
    vec![
        (codes::SIZE_NOT_POSITIVE, ("model.toml", 7, 12, 3), "greater than 0", toml("30.0", "-30")),
        (codes::WALL_TOO_THICK, ("model.toml", 8, 11, 4), "no hole", toml("2.0", "15.0")),
        (
            codes::CORNER_RADIUS,
            ("model.toml", 9, 19, 4),
            "0 to 15 mm",
            toml("wall_mm = 2.0", "wall_mm = 2.0\nouter_radius_mm = 15.1"),
        ),
        (codes::CORNER_RADIUS, ("model.toml", 8, 11, 3), "measure it", toml("2.0", "8.0")),
        (codes::ODD_SECTION, ("model.toml", 5, 11, 4), "wall of 0.1 mm", toml("2.0", "0.1")),
        (
            codes::ODD_SECTION,
            ("model.toml", 9, 19, 4),
            "outside radius",
            toml("wall_mm = 2.0", "wall_mm = 2.0\nouter_radius_mm = 15.0"),
        ),
        (codes::UNKNOWN_GAUGE, ("model.toml", 8, 8, 7), "swg", toml("wall_mm = 2.0", "wall = \"16 ga\"")),
        (
            codes::UNKNOWN_STOCK,
            ("model.toml", 6, 9, 13),
            "`square 30x2`",
            toml("shape = \"square\"\nwidth_mm = 30.0\nwall_mm = 2.0", "stock = \"square 31x2\""),
        ),
        (
            codes::MATERIAL_VALUE,
            ("model.toml", 9, 12, 4),
            "swapped",
            toml("\"S235JRH\"", "\"S235JRH\"\nyield_mpa = 400"),
        ),
        (codes::MATERIAL_VALUE, ("model.toml", 12, 9, 2), "greater than 0", own("e_mpa = -2\ng_mpa = 81000")),
        (codes::ODD_MATERIAL, ("model.toml", 12, 9, 3), "210000", own("e_mpa = 210\ng_mpa = 81000")),
        (codes::ODD_MATERIAL, ("model.toml", 13, 9, 3), "E/2.6", own("e_mpa = 210000\ng_mpa = 810")),
        (
            codes::ODD_MATERIAL,
            ("model.toml", 11, 17, 4),
            "7850",
            toml("\"S235JRH\"", "\"S235JRH\"\ndensity_kg_m3 = 7.85"),
        ),
        (codes::GRADE_WALL, ("tubes.csv", 2, 13, 4), "up to 5 mm", {
            let mut files = toml("S235JRH", "6005A-T6");
            change(&mut files, "model.toml", "30.0\nwall_mm = 2.0", "60\nwall_mm = 6");
            files
        }),
    ]
}

fn of_loads() -> Vec<Case> {
    let bare = "e_mpa = 210000\ng_mpa = 81000\ndensity_kg_m3 = 7850";
    let weightless = "e_mpa = 210000\ng_mpa = 81000\nthermal_per_k = 12e-6";
    let mut floating = without("supports.csv");
    floating.0.retain(|file| file.name != "settlements.csv");
    vec![
        (
            codes::SUPPORT_TWICE,
            ("supports.csv", 4, 1, 1),
            "first on line 3",
            with("supports.csv", "100,free\n", "100,free\nB,free,free,fixed,free,free,free\n"),
        ),
        (codes::SPRING_NOT_POSITIVE, ("supports.csv", 3, 14, 1), "`free`", with("supports.csv", "12.5", "0")),
        (
            codes::HOLDS_NOTHING,
            ("supports.csv", 3, 1, 1),
            "nothing",
            with("supports.csv", "B,free,fixed,12.5,free,100,free", "B,free,free,free,free,free,free"),
        ),
        (
            codes::SETTLEMENT_NOT_FIXED,
            ("settlements.csv", 2, 10, 2),
            "leave the cell empty",
            settled("sink,B,,,-5,,,\n"),
        ),
        (codes::SETTLED_TWICE, ("settlements.csv", 3, 10, 1), "twice", settled("sink,A,,,-5,,,\nsink,A,,,1,,,\n")),
        (codes::NO_EXPANSION, ("temperatures.csv", 2, 5, 2), "thermal_per_k", toml("grade = \"S235JRH\"", bare)),
        (codes::NO_DENSITY, ("model.toml", 9, 12, 4), "7850", toml("grade = \"S235JRH\"", weightless)),
        (
            codes::OUTSIDE_TUBE,
            ("tube_point_loads.csv", 2, 16, 3),
            "0.5 in the middle",
            with("tube_point_loads.csv", "0.25", "250"),
        ),
        (codes::MASS_NOT_POSITIVE, ("masses.csv", 2, 9, 1), "greater than 0", with("masses.csv", "40", "0")),
        (codes::MASS_NOT_CARRIED, ("masses.csv", 2, 1, 7), "separated by spaces", with("masses.csv", "A B", "")),
        (codes::FLOATS, NOWHERE, "supports.csv", floating),
    ]
}

fn of_vehicle() -> Vec<Case> {
    vec![
        (codes::MISSING_KEY, ("model.toml", 3, 2, 7), "front_roll_share", vehicle("front_roll_share = 0.55\n", "")),
        (
            codes::MISSING_KEY,
            ("model.toml", 3, 2, 7),
            "all four",
            vehicle("[vehicle.corners.rear-left]\njoints = [\"C\"]\n", ""),
        ),
        (codes::UNKNOWN_KEY, ("model.toml", 9, 18, 9), "`front-left`", {
            let mut files =
                vehicle("[vehicle.corners.front-left]", "[vehicle.corners.frontleft]\n[vehicle.corners.front-left]");
            change(&mut files, "model.toml", "corners.frontleft]\n", "corners.frontleft]\njoints = [\"A\"]\n");
            files
        }),
        (codes::CONTACT_MISSING, ("model.toml", 13, 18, 9), "wheelbase_mm", vehicle("wheelbase_mm = 2400\n", "")),
        (codes::CONTACTS_DISAGREE, ("model.toml", 18, 14, 16), "y = -705", vehicle("-710.4", "-705")),
        (codes::WHEEL_SIDES, ("model.toml", 9, 14, 15), "to the left", {
            let mut files = vehicle("joints = [\"A\"]", "contact_mm = [1200, -800, 0]\njoints = [\"A\"]");
            change(
                &mut files,
                "model.toml",
                "joints = [\"A\", \"B\"]",
                "contact_mm = [1200, -700, 0]\njoints = [\"A\", \"B\"]",
            );
            change(&mut files, "model.toml", "track_front_mm = 1400\n", "");
            files
        }),
        (codes::SHARE_RANGE, ("model.toml", 8, 20, 2), "0.55", vehicle("0.55", "55")),
        (
            codes::CORNER_NOT_CARRIED,
            ("model.toml", 14, 18, 9),
            "takes the wheel's force",
            vehicle("rear-left]\njoints = [\"C\"]", "rear-left]\njoints = []"),
        ),
        (codes::VEHICLE_SIZE, ("model.toml", 5, 18, 2), "greater than 0", vehicle("1400", "-7")),
        (codes::UNKNOWN_JOINT, ("model.toml", 12, 16, 3), "corner", vehicle("\"A\", \"B\"]", "\"A\", \"X\"]")),
        (codes::JOINT_LISTED_TWICE, ("model.toml", 12, 16, 3), "once", vehicle("\"A\", \"B\"]", "\"A\", \"A\"]")),
        (
            codes::NO_SOURCE,
            ("model.toml", 13, 10, 2),
            "where the value comes from",
            toml("\"own choice, for this test\"", "\"\""),
        ),
        (codes::YIELD_MARGIN, ("model.toml", 4, 16, 4), "1.5", toml("self_weight = true", "yield_margin = 0.67")),
    ]
}

fn every() -> Vec<Case> {
    [
        of_files(),
        of_revisions(),
        of_names(),
        of_geometry(),
        of_sections(),
        of_loads(),
        of_vehicle(),
        faults_modules::cases(),
        faults_panels::cases(),
        faults_rig::cases(),
        faults_bolts::cases(),
        faults_judging::cases(),
        crate::welds::cases(),
        faults_screening::cases(),
    ]
    .into_iter()
    .flatten()
    .collect()
}

#[test]
fn the_good_folder_is_good() {
    assert_eq!(all(&folder()), []);
    assert_eq!(all(&toml_with_vehicle()), []);
    assert_eq!(all(&crate::vehicle::vehicle()), []);
}

#[test]
fn each_fault_is_found_alone_where_it_is() {
    let mut wrong = String::new();
    for (row, (code, (name, line, column, width), piece, files)) in every().into_iter().enumerate() {
        let found = all(&files);
        let text: Vec<String> = found
            .iter()
            .map(|fault| {
                format!("{fault} at {:?}", fault.place.as_ref().map(|at| (&at.file, at.line, at.column, at.width)))
            })
            .collect();
        let good = match found.as_slice() {
            [fault] => {
                let at =
                    fault.place.as_ref().map_or(("", 0, 0, 0), |at| (at.file.as_str(), at.line, at.column, at.width));
                fault.code == code
                    && at == (name, line, column, width)
                    && (fault.message.contains(piece) || fault.help.contains(piece))
                    && !fault.help.is_empty()
            }
            _ => false,
        };
        if !good {
            wrong += &format!(
                "case {row}: {code} at {name}:{line}:{column}+{width} with `{piece}`, found\n  {}\n",
                text.join("\n  ")
            );
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn every_code_has_a_case() {
    let cases = every();
    let without: Vec<&Code> = codes::ALL.iter().filter(|code| cases.iter().all(|case| case.0 != **code)).collect();
    assert_eq!(without, Vec::<&Code>::new());
}

#[test]
fn all_faults_of_a_folder_come_in_order_of_files_and_lines() {
    let mut files = joints("B,1000", "B,1o00");
    change(&mut files, "joints.csv", "C,500,0,800", "C,500,0,800\nC,0,0,inf");
    change(&mut files, "tubes.csv", "CA,C", "CA,Z");
    change(&mut files, "model.toml", "30.0", "0");
    change(&mut files, "masses.csv", "40", "-4");
    change(&mut files, "loads.csv", "snow,C", "snow,c");
    let found: Vec<(String, usize)> =
        all(&files).into_iter().filter_map(|fault| fault.place.map(|at| (at.file, at.line))).collect();
    let expected = [
        ("model.toml", 7),
        ("joints.csv", 4),
        ("joints.csv", 6),
        ("joints.csv", 6),
        ("tubes.csv", 4),
        ("loads.csv", 3),
        ("masses.csv", 2),
    ];
    assert_eq!(found, expected.map(|(file, line)| (file.to_owned(), line)));
}
