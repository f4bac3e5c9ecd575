//! Scripts that mean harm, or loop by mistake: each ends in an error, none in a panic, none without end.

use crate::common;
use std::sync::Arc;

use common::{Memory, run_on, run_within};
use strutwork_script::{CaseScript, Limits, ScriptErrorKind, run_cases};
use strutwork_testkit::buggy;

/// Limits that a hostile script meets soon.
fn tight() -> Limits {
    Limits { operations: 2_000_000, ..Limits::default() }
}

/// Runs a script that must end at a limit, and gives the code.
fn limit(script: &str) -> &'static str {
    let error = run_within(script, tight()).expect_err(script);
    assert_eq!(error.kind, ScriptErrorKind::Limit, "{script}: {error:?}");
    error.code.0
}

#[test]
fn loops_without_end() {
    assert_eq!(limit("loop { }"), "R006");
    assert_eq!(limit("let i = 0; while true { i += 1; }"), "R006");
    assert_eq!(limit("let s = 0; for i in 0..9000000000000000000 { s = i; }"), "R006");
    assert_eq!(limit("let s = 0; for i in range(0.0, 1e300, 1e-9) { s = i; }"), "R006");
}

#[test]
fn a_limit_cannot_be_caught() {
    assert_eq!(limit("try { loop { } } catch { } loop { }"), "R006");
}

#[test]
fn closures_share_one_budget() {
    let script = "let f = |x| { let s = 0; for i in 0..1000 { s += i; } s }; for i in 0..1000000 { f.call(i); }";
    assert_eq!(limit(script), "R006");
}

#[test]
fn case_scripts_share_the_budget_of_the_script_that_runs_them() {
    let limits = Limits { operations: 50_000, ..Limits::default() };
    let error = run_within("let f = model(); loop { f.cases_of(\"bending\"); }", limits).expect_err("endless");
    assert_eq!(error.code.0, "R006");
}

#[test]
fn time_is_limited_by_the_hosts_clock() {
    let mut host = Memory::new();
    host.seconds = 11.0;
    let limits = Limits { seconds: 10.0, ..Limits::default() };
    let error = run_on(Arc::new(host), "loop { }", limits).expect_err("late");
    assert_eq!(error.code.0, "R007");
    assert!(error.help.contains("--max-seconds"));
}

#[test]
fn recursion_without_end() {
    assert_eq!(limit("fn f(n) { f(n + 1) } f(0);"), "R008");
    assert_eq!(limit("fn f(n) { g(n) } fn g(n) { f(n) } f(0);"), "R008");
}

#[test]
fn recursion_as_deep_as_may_be_asked_for() {
    let limits = Limits { depth: usize::MAX, ..tight() };
    let error = run_within("fn f(n) { f(n + 1) + 1 } f(0);", limits).expect_err("endless");
    assert_eq!(error.code.0, "R008");
    run_within("fn f(n) { if n == 0 { 0 } else { 1 + f(n - 1) } } print(f(900));", limits)
        .expect("deep, but not endless");
}

#[test]
fn texts_arrays_and_maps_that_grow() {
    assert_eq!(limit("let s = \"x\"; loop { s += s; }"), "R009");
    assert_eq!(limit("let a = []; loop { a.push(1); }"), "R009");
    assert_eq!(limit("let a = [0]; loop { a += a; }"), "R009");
    assert_eq!(limit("let a = []; a.pad(1000000000, 0);"), "R009");
    assert_eq!(limit("let b = blob(1000000000000);"), "R009");
    assert_eq!(limit("let s = \"\"; s.pad(1000000000000, 'x');"), "R009");
    let codes = ["R006", "R009"];
    assert!(codes.contains(&limit("let m = #{}; let i = 0; loop { m[i.to_string()] = i; i += 1; }")));
}

#[test]
fn values_within_values() {
    let limits = Limits { list_items: 2000, map_entries: 2000, ..Limits::default() };
    for script in [
        "let a = []; loop { a = [a]; }",
        "let m = #{}; loop { m = #{ m: m }; }",
        "let f = || 0; loop { let g = f; f = || g.call(); }",
        "let f = || 0; loop { let g = f; f = |x| g.call(x); }",
        "let a = []; loop { let b = a; let f = || b; a = [f]; }",
        "let m = #{}; loop { let b = m; m = #{ f: || b }; }",
        "let a = []; loop { let b = a; a = [|| b, || b, || b]; }",
        "let f = 0; f = || f; loop { f.call(); }",
    ] {
        let error = run_within(script, limits).expect_err(script);
        assert_eq!((error.code.0, &error.kind), ("R009", &ScriptErrorKind::Limit), "{script}: {error:?}");
    }
}

/// Function pointers that hold copies of each other would double at every step.
#[test]
fn currying_is_refused() {
    for script in [
        "fn a(x) { x } let f = Fn(\"a\"); for i in 0..60 { f = f.curry(f); }",
        "fn a(x) { x } let f = Fn(\"a\"); for i in 0..60 { f = curry(f, f); }",
        "let c = Fn(\"curry\"); let f = c; for i in 0..60 { f = c.call(f, f); }",
        "let e = Fn(\"eval\"); e.call(\"loop { }\");",
        "let e = Fn(\"sleep\"); e.call(1);",
    ] {
        run_within(script, tight()).expect_err(script);
    }
}

/// Captured variables are shared cells: reading and writing one at the same time must end in an error, not in a wait.
#[test]
fn captured_variables_do_not_wait_for_each_other() {
    for script in [
        "let a = [1, 2]; let f = || { a.push(1); }; a.for_each(f);",
        "let a = [1, 2]; let f = |x| { a.clear(); x }; let b = a.map(f); print(b);",
        "let x = 1; let f = || { x += 1; x }; x += f.call(); print(x);",
        "let x = 1; let f = || x; let a = [x, f]; a.push(x); let m = #{ x: x, f: f }; m.y = x; print(m.y + a[0]);",
        "let m = #{ a: 1 }; let f = || { m.a += 1; m }; m.a = f.call().a; print(m);",
        "let a = [3, 1, 2]; a.sort(|x, y| { a.len(); x - y });",
        "let a = [3, 1, 2]; let f = |x| a.len() > x; a.retain(f);",
        "let a = [1]; let f = || a; a = [f, f]; a += a; a[0].call();",
        "let s = \"x\"; let f = || { s += \"y\"; s }; s += f.call();",
        "let a = [[1]]; let f = || { a[0] = a; }; f.call(); a.push(a);",
    ] {
        let limits = Limits { operations: 20_000, ..Limits::default() };
        if let Err(error) = run_within(script, limits) {
            assert!(!error.message.is_empty(), "{script}");
        }
    }
}

#[test]
fn expressions_nested_beyond_reason() {
    let script = format!("let x = {}1{};", "(".repeat(5000), ")".repeat(5000));
    let error = run_within(&script, tight()).expect_err("too deep");
    assert_eq!(error.code.0, "R001");
    let script = format!("let x = {}1;", "-".repeat(100_000));
    run_within(&script, tight()).expect_err("too deep");
    let script = format!("let x = {}{};", "[".repeat(100_000), "]".repeat(100_000));
    run_within(&script, tight()).expect_err("too deep");
    let script = format!("let x = {}1;", "1 + ".repeat(100_000));
    run_within(&script, tight()).expect_err("too deep");
}

#[test]
fn texts_that_are_no_scripts() {
    for script in ["\u{0}", "\u{feff}?", "🚗", "let let let", "#{#{#{", "\"", "`${", "'", "fn", "import", "0x"] {
        run_within(script, tight()).expect_err(script);
    }
}

#[test]
fn files_outside_are_out_of_reach() {
    for path in ["../../secret", "/etc/passwd", "a/../../b", "..", "C:/windows", "\\\\server\\share", "a\\..\\b", ""] {
        let path = path.replace('\\', "\\\\");
        for call in [
            format!("import \"{path}\" as s;"),
            format!("open_model(\"{path}\");"),
            format!("write_text(\"{path}\", \"x\");"),
        ] {
            let error = run_within(&call, tight()).expect_err(&call);
            assert_eq!(error.code.0, "R010", "{call}: {error:?}");
        }
    }
}

#[test]
fn a_script_cannot_import_its_way_around_the_limit() {
    let mut host = Memory::new();
    for i in 0..200 {
        host = host.with_script(&format!("m{i}.rhai"), &format!("import \"m{}\" as next;", i + 1));
    }
    host = host.with_script("m200.rhai", "loop { }");
    let error = run_on(Arc::new(host), "import \"m0\" as m;", tight()).expect_err("endless");
    assert_eq!(error.kind, ScriptErrorKind::Limit, "{error:?}");
}

#[test]
fn numbers_that_are_none_stop_at_every_door() {
    for call in [
        "c.gravity(x)",
        "c.act(#{ x_g: x })",
        "c.accelerate(#{ ax_g: x })",
        "c.joint_load(\"FL\", #{ mx_nm: x })",
        "c.spread_load([\"FL\"], #{ x_mm: x })",
        "c.tube_load(\"rail-left\", \"local\", #{ wy_to_n_per_m: x })",
        "c.tube_point_load(\"rail-left\", \"local\", x, #{})",
        "c.temperature(\"rail-left\", #{ rise_k: x })",
        "c.settle(\"FL\", \"uz\", x)",
        "c.wheel_force(\"front-left\", #{ fz_n: x })",
        "c.wheel_loads(#{ ay_g: x })",
        "c.hold_by_spring(\"FL\", \"uz\", x)",
        "c.measure_vehicle_twist(x)",
        "c.factor(\"f\", x, \"\", \"\")",
        "c.step(\"s\", x, \"\")",
        "model().move_joint(\"FL\", #{ x_mm: x })",
        "model().set_wall(\"rail\", x)",
        "model().set_mass(\"driver\", #{ kg: x })",
        "model().set_yield_margin(x)",
        "model().set_gamma(\"gamma_mf\", x, \"s\")",
        "model().set_members(#{ slenderness_limit: x })",
        "model().set_tube(\"rail-left\", #{ buckling_factor_y: x })",
        "square_root(x)",
        "sum([x])",
        "fixed(x, 1)",
        "csv_row([x])",
    ] {
        for x in ["1e308 * 10.0", "-(1e308 * 10.0)", "(1e308 * 10.0) - (1e308 * 10.0)"] {
            let script = format!("let x = {x}; let c = model().new_case(\"c\", \"\", \"notional\"); {call};");
            let error = run_within(&script, tight()).expect_err(&script);
            assert_eq!(error.code.0, "R014", "{call}: {error:?}");
        }
    }
}

#[test]
fn loads_of_absurd_size_end_in_an_error() {
    let script = "let f = model(); let c = f.new_case(\"c\", \"\", \"physical\"); \
        for i in 0..20 { c.wheel_force(\"front-left\", #{ fz_n: 1.7e308 }); } c.hold_vehicle(); c.balance(); f.solve([c]);";
    let error = run_within(script, tight()).expect_err("overflow");
    assert_eq!(error.code.0, "L005", "{error:?}");
}

#[test]
fn case_scripts_have_the_same_limits() {
    let model = buggy().model();
    let error = run_cases(&model, &[CaseScript::new("cases.rhai", "loop { }")], tight()).expect_err("endless");
    assert_eq!(error.code.0, "R006");
    assert!(error.help.contains("--max-operations"));
}
