//! Where a script ends and why: the code, the place and the help of every kind of error, and that each is typed.

use crate::common;
use std::sync::Arc;

use common::{Memory, printed, run, run_on};
use strutwork_script::{CaseScript, Fault, Limits, ScriptError, ScriptErrorKind, explain, run_cases, run_script};
use strutwork_testkit::{Folder, buggy};

/// A script, what it must end with: code, line, words of the message, words of the help. Each starts on line 2.
const SCRIPTS: &[(&str, &str, u32, &str, &str)] = &[
    ("let wall = 2\nprint(wall);", "R001", 3, "cannot be read", ""),
    ("model().new_cas(\"a\", \"\", \"physical\");", "R002", 2, "no function `new_cas`", "`new_case`"),
    ("model().new_case(\"a\");", "R002", 2, "`new_case` cannot take", "new_case(name: text"),
    ("let walls = [1];\nprint(wall);", "R003", 3, "no variable `wall`", "`walls`"),
    ("print(model().joint(\"FL\").x);", "R004", 2, "`x`", "spelling"),
    ("let c = model().new_case(\"a\", \"\", \"physical\");\nc.gravity(\"1\");", "R005", 3, "a text", "a number"),
    ("throw \"enough\";", "R011", 2, "enough", ""),
    ("let walls = [1.5, 2];\nprint(walls[2]);", "R012", 3, "no item 2", "number 0"),
    ("print(model().tubes.len());", "R004", 2, "a Frame has no property `tubes`", "`tubes()`"),
    ("print(1 + [2]);", "R002", 2, "`+` does not go with a whole number and an array", ""),
    ("let i = 9223372036854775807;\ni += 1;", "R012", 3, "", ""),
    ("sleep(1);", "R013", 2, "`sleep`", "same result"),
    ("sleep(0.5);", "R013", 2, "`sleep`", ""),
    ("print(timestamp());", "R013", 2, "`timestamp`", ""),
    ("eval(\"1 + 1\");", "R001", 2, "", ""),
    ("print(1 / 0);", "R014", 2, "division by zero", ""),
    ("print(1.0 / 0.0);", "R014", 2, "division by zero", ""),
    ("let x = 1; x /= 0;", "R014", 2, "division by zero", ""),
    (
        "let c = model().new_case(\"a\", \"\", \"physical\");\nc.joint_load(\"FL\", #{ fz_n: 1e308 * 10.0 });",
        "R014",
        3,
        "`fz_n`",
        "",
    ),
    ("let c = model().new_case(\"a\", \"\", \"physical\");\nc.joint_load(\"FL\", #{ fz: 5 });", "R015", 3, "`fz`", ""),
    ("model().add_joint(\"J\", #{ x_mm: 1 });", "R015", 2, "needs `y_mm`", "add `y_mm`"),
    ("model().set_wall(\"brase\", 2);", "R016", 2, "`brase`", "`brace`"),
    ("model().add_joint(\"FL\", #{ x_mm: 1, y_mm: 2, z_mm: 3 });", "R016", 2, "already", ""),
    ("let c = model().plain_cases();\nc[0].gravity(1);", "R012", 3, "", ""),
    ("let f = model(); let c = f.standard_cases(); f.set_wall(\"rail\", 3);\nf.solve(c);", "R018", 3, "twist", "build"),
    ("let f = model(); f.set_wall(\"rail\", 40);\nf.validate();", "R019", 3, "not valid", ""),
    ("open_model(\"my-fram\");", "R020", 2, "my-fram", ""),
    ("open_model(\"../other\");", "R010", 2, "..", ""),
    ("write_text(\"/etc/x\", \"\");", "R010", 2, "absolute", ""),
    ("import \"../../secret\" as s;", "R010", 2, "..", ""),
    ("import \"/etc/passwd\" as s;", "R010", 2, "absolute", ""),
    ("import \"nothing-here\" as s;", "R020", 2, "nothing-here.rhai", ""),
    ("spaced(1, 3, 1);", "R021", 2, "1", ""),
    ("let f = model();\nf.solve(f.cases_of(\"bending\")).torsional_stiffness(\"bending\");", "R022", 3, "bending", ""),
    (
        "model().add_section(\"bar\", #{ shape: \"solid-round\", diameter_mm: 20 });\nmodel().fillet_check(\"bar\", \"mild\", #{});",
        "R023",
        3,
        "fillet_check needs a section",
        "shape",
    ),
    ("let s = model().new_study(\"s\"); s.ask_mass();\ns.run();", "R024", 3, "a parameter", "Studies"),
    ("compare_results(\"old/results\", \"no/results\");", "R030", 2, "`no/results` cannot be read", "run the model"),
    ("compare_results(\"old/results\", \"../results\");", "R010", 2, "..", ""),
    ("model().cases_of(\"bendin\");", "R016", 2, "`bendin`", "`bending`"),
    ("let f = model(); let c = f.new_case(\"a\", \"\", \"physical\");\nf.solve([c, c]);", "L004", 3, "`a`", ""),
    (
        "let c = model().new_case(\"a\", \"\", \"physical\");\nc.joint_load(\"FFL\", #{ fz_n: 1 });",
        "L006",
        3,
        "`FFL`",
        "`FL`",
    ),
    ("model().new_case(\"\", \"\", \"physical\");", "L012", 2, "name", ""),
    (
        "let f = model(); let c = f.new_case(\"a\", \"\", \"physical\"); c.hold(\"FL\", \"uz\"); c.gravity(1);\nf.solve([c]);",
        "S002",
        3,
        "cannot be solved",
        "",
    ),
    ("fn inner() {\n    model().set_wall(\"nothing\", 2);\n}\ninner();", "R016", 3, "`nothing`", ""),
    ("[1, 2].for_each(|| model().tube(\"nothing\"));", "R016", 2, "`nothing`", ""),
];

#[test]
fn every_error_has_its_code_and_place() {
    let mut wrong = Vec::new();
    for (script, code, line, message, help) in SCRIPTS {
        match run(&format!("\n{script}")) {
            Ok(_) => wrong.push(format!("{script}\n  passed, wanted {code}")),
            Err(error) => {
                let good = error.code.0 == *code
                    && error.line == *line
                    && error.column > 0
                    && error.file == "test.rhai"
                    && error.message.contains(message)
                    && error.help.contains(help);
                if !good {
                    wrong.push(format!(
                        "{script}\n  {} {}:{}:{} {} | {}\n  wanted {code} line {line} {message} | {help}",
                        error.code, error.file, error.line, error.column, error.message, error.help
                    ));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_code_has_a_page_and_an_error_that_shows_it() {
    // The rest is shown by the tests of hostile scripts and by `case_scripts_build_cases_only`.
    let elsewhere = ["R006", "R007", "R008", "R009", "R017"];
    for page in explain::PAGES {
        let shown = SCRIPTS.iter().any(|(_, code, ..)| *code == page.code) || elsewhere.contains(&page.code);
        assert!(shown, "nothing shows {}", page.code);
    }
    for (_, code, ..) in SCRIPTS.iter().filter(|(_, code, ..)| code.starts_with('R')) {
        assert!(explain::PAGES.iter().any(|page| page.code == *code), "{code} has no page");
    }
}

#[test]
fn the_word_at_the_place_is_measured() {
    let error = run("\nlet f = model(); f.set_wall(\"brase\", 2);").expect_err("unknown");
    let pointed: String = "let f = model(); f.set_wall(\"brase\", 2);"
        .chars()
        .skip(error.column as usize - 1)
        .take(error.width as usize)
        .collect();
    assert_eq!(pointed, "set_wall");
}

#[test]
fn typed_errors_come_back_whole() {
    let error = run("let f = model(); let c = f.new_case(\"a\", \"\", \"physical\"); c.hold(\"FL\", \"uz\"); c.gravity(1); f.solve([c]);")
        .expect_err("it floats");
    let Some(Fault::Solve { error: strutwork_solve::SolveError::Mechanism { case, motions }, explained }) =
        error.fault()
    else {
        panic!("{error:?}")
    };
    assert_eq!(case, "a");
    assert_eq!(motions.len(), 5);
    assert!(!explained.is_empty());
    assert_eq!(error.diagnostics().len(), 1 + explained.len());

    let error = run("let f = model(); f.set_wall(\"rail\", 40); f.mass();").expect_err("no such tube");
    let Some(Fault::Model(faults)) = error.fault() else { panic!("{error:?}") };
    assert!(!faults.0.is_empty());
    assert_eq!(error.diagnostics()[0].code.0, "R019");
    assert_eq!(error.diagnostics().len(), 1 + faults.0.len());
}

#[test]
fn a_caught_error_can_be_read() {
    let lines = printed(
        "try { model().set_wall(\"brase\", 2); } catch (e) { print(e.code); print(e.message); print(e.help); print(e); }",
    );
    assert_eq!(lines[0], "R016");
    assert_eq!(lines[1], "there is no section named `brase`");
    assert_eq!(lines[2], "did you mean `brace`?");
    assert_eq!(lines[3], lines[1]);
}

#[test]
fn an_error_thrown_again_keeps_its_type() {
    let error = run("try { model().tube(\"x\"); } catch (e) { throw e; }").expect_err("thrown again");
    assert!(matches!(error.fault(), Some(Fault::UnknownName { kind: "tube", .. })), "{error:?}");
}

#[test]
fn what_a_script_throws_is_shown_whatever_it_is() {
    for (thrown, shown) in [
        ("()", "nothing"),
        ("42", "42"),
        ("#{ a: 1 }", "a"),
        ("[1, [2, 3]]", "2"),
        ("|x| x", ""),
        ("model()", ""),
        ("'c'", "c"),
        ("model().new_case(\"n\", \"\", \"physical\")", ""),
    ] {
        let error = run(&format!("throw {thrown};")).expect_err("thrown");
        assert_eq!((error.code.0, &error.kind), ("R011", &ScriptErrorKind::Thrown), "{thrown}");
        assert!(error.message.contains(shown), "{thrown}: {}", error.message);
    }
    let error = run("let s = \"long \"; for i in 0..12 { s += s; } throw s;").expect_err("thrown");
    assert!(error.message.len() < 600);
}

#[test]
fn errors_in_imported_scripts_name_their_file() {
    let host = Memory::new()
        .with_script("lib/walls.rhai", "// helpers\nfn thick(f) {\n    f.set_wall(\"nothing\", 3);\n}\n")
        .with_script("broken.rhai", "let a = 1;\nlet b = ;\n")
        .with_script("late.rhai", "// top\n\nmodel().tube(\"nothing\");\n")
        .with_script("round.rhai", "import \"trip\" as t;\n")
        .with_script("trip.rhai", "import \"round\" as r;\n");
    let host = Arc::new(host);
    for (script, file, code, line) in [
        ("import \"lib/walls\" as w;\nw::thick(model());", "lib/walls.rhai", "R016", 3),
        ("import \"broken\" as b;", "broken.rhai", "R001", 2),
        ("import \"late\" as l;", "late.rhai", "R016", 3),
        ("import \"round\" as r;", "trip.rhai", "R010", 1),
    ] {
        let error = run_on(Arc::clone(&host), script, Limits::default()).expect_err(script);
        assert_eq!((error.file.as_str(), error.code.0, error.line), (file, code, line), "{script}: {error:?}");
    }
}

#[test]
fn case_scripts_build_cases_only() {
    let model = buggy().model();
    for call in [
        "open_model(\"my-frame\")",
        "model().solve([])",
        "write_text(\"a\", \"b\")",
        "model().standard_cases()",
        "model().own_cases()",
        "model().cases_of(\"twist\")",
        "model().set_wall(\"rail\", 2)",
        "model().duplicate()",
        "model().set_basis(\"eurocode\")",
        "model().switch_off(\"D001\", \"why\")",
    ] {
        let script = CaseScript::new("cases.rhai", format!("\n{call};"));
        let error = run_cases(&model, &[script], Limits::default()).expect_err(call);
        assert_eq!((error.code.0, error.line, error.file.as_str()), ("R017", 2, "cases.rhai"), "{call}: {error:?}");
    }
    let error =
        run_script(Arc::new(Memory::new()), "s.rhai", "model();", &[], Limits::default()).expect_err("none open");
    assert_eq!(error.code.0, "R017");
}

#[test]
fn two_cases_of_one_name_are_refused() {
    let model = buggy().model();
    let script = |name: &str| CaseScript::new(name, "model().new_case(\"same\", \"\", \"notional\");");
    let error = run_cases(&model, &[script("a.rhai"), script("b.rhai")], Limits::default()).expect_err("twice");
    assert_eq!((error.code.0, error.file.as_str()), ("L004", "b.rhai"));
}

#[test]
fn errors_inside_standard_cases_name_the_standard_script() {
    // No vehicle: the first standard script cannot do anything.
    let plain = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,500,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nAB,A,B,rail,mild\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\n");
    let mut host = Memory::new();
    host.models.insert("my-frame".to_owned(), plain.files());
    let error: ScriptError =
        run_on(Arc::new(host), "model().standard_cases();", Limits::default()).expect_err("no vehicle");
    assert_eq!((error.code.0, error.file.as_str()), ("L003", "cases/twist.rhai"), "{error:?}");
    assert!(error.line > 1);
}
