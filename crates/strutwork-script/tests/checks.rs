//! What a script sees of the checks, and how it changes what they judge by.

mod common;

use std::sync::Arc;

use common::{Memory, printed, run, run_on};
use strutwork_script::{Limits, ScriptErrorKind};
use strutwork_testkit::buggy;

/// The buggy solved in its bending case.
const SOLVED: &str = "let f = model(); let r = f.solve(f.cases_of(\"bending\"));";

fn after(text: &str) -> Vec<String> {
    printed(&format!("{SOLVED}{text}"))
}

fn number(line: &str) -> f64 {
    line.parse().unwrap_or_else(|_| panic!("{line:?} is no number"))
}

#[test]
fn governing_tells_each_item_once_and_the_worst_first() {
    let lines = after("for g in r.governing() { print(`${g.kind} ${g.subject}`); print(g.utilisation); }");
    let (items, used): (Vec<&String>, Vec<f64>) = lines.chunks(2).map(|pair| (&pair[0], number(&pair[1]))).unzip();
    assert!(items.len() >= buggy().model().tubes().len(), "{items:?}");
    assert!(used.windows(2).all(|pair| pair[0] >= pair[1]), "{used:?}");
    let mut once = items.clone();
    once.sort();
    once.dedup();
    assert_eq!(once.len(), items.len(), "{items:?}");
}

#[test]
fn what_governs_is_no_less_than_anything_else_found_on_the_item() {
    let lines = after(
        "for g in r.governing() { for f in r.findings_on(g.subject) {
            if f.kind == g.kind && f.utilisation != () { print(g.utilisation >= f.utilisation); } } }",
    );
    assert!(lines.len() > 10 && lines.iter().all(|line| line == "true"), "{lines:?}");
}

#[test]
fn the_worst_of_a_kind_is_the_first_that_governs_and_nothing_where_there_is_none() {
    let lines = after(
        "let first = r.governing().filter(|g| g.kind == \"tube\")[0]; let w = r.worst(\"tube\");
         print(w.subject == first.subject && w.code == first.code && w.load_case == \"bending\");
         print(r.worst(\"panel\") == ());",
    );
    assert_eq!(lines, ["true", "true"]);
}

#[test]
fn a_finding_has_every_property_that_the_reference_names() {
    let page = strutwork_script::reference_markdown();
    let intro = page.split("## Checks").nth(1).expect("the subject is there");
    let mut told = 0;
    for item in intro.lines().skip_while(|line| !line.starts_with("- ")).take_while(|line| line.starts_with("- ")) {
        for name in item.split(": ").next().expect("split gives one").split('`').skip(1).step_by(2) {
            after(&format!("print(r.governing()[0].{name});"));
            told += 1;
        }
    }
    assert_eq!(told, 13);
}

#[test]
fn properties_tell_what_was_judged() {
    let lines = after(
        "let w = r.findings().filter(|f| f.code == \"D001\" && f.subject == \"rail-left\")[0];
         print(w.severity); print(w.kind); print(w.load_case); print(w.unit); print(w.outside);
         print(near(w.value / w.limit, w.utilisation, 1e-12)); print(w.clause.contains(\"yield\")); print(w);",
    );
    assert_eq!(lines[..7], ["note", "tube", "bending", "MPa", "false", "true", "true"]);
    assert!(lines[7].starts_with("D001 tube rail-left, bending: 0."), "{}", lines[7]);
    // A finding without a limit has none, and its missing numbers can be asked for.
    let lines = after("let t = r.findings().filter(|f| f.limit == () && f.utilisation == ()); print(t.len() > 0);");
    assert_eq!(lines, ["true"]);
    assert_eq!(after("print(r.findings().filter(|f| f.code == \"D002\" && f.outside).len() > 0);"), ["true"]);
}

#[test]
fn numbers_that_entered_have_symbol_value_and_unit() {
    let lines = after(
        "for f in r.findings() { for e in f.entered { print(e.symbol != \"\" && e.value.is_finite() && e.unit.len() >= 0); } }",
    );
    assert!(lines.iter().all(|line| line == "true"), "{lines:?}");
}

#[test]
fn a_calculation_is_written_out_where_there_is_a_formula() {
    let lines = after(
        "for g in r.governing() {
            let c = g.calculation();
            if c == () { continue; }
            print(near(c.utilisation, g.utilisation, 1e-9 * g.utilisation) && c.title != \"\" && c.source != \"\"
                && c.lines.len() > 2 && c.text.contains(c.title) && c.text.contains(\"Utilisation\"));
        }
        print(r.findings().filter(|f| f.code == \"T001\")[0].calculation() == ());",
    );
    assert!(lines.iter().all(|line| line == "true"), "{lines:?}");
}

#[test]
fn a_thicker_wall_lowers_what_governs_in_a_sweep() {
    let lines = printed(
        "let used = [];
         for wall in [1.5, 2, 2.5, 3.0] {
             let f = model().duplicate();
             f.set_wall(\"rail\", wall);
             let r = f.solve(f.cases_of(\"bending\"));
             used.push(r.tube_utilisation(\"rail-left\"));
         }
         print(used);
         // Each step adds weight as well: only from end to end the stress must fall.
         print(used[0] > used[3]);",
    );
    assert_eq!(lines[1], "true", "{}", lines[0]);
}

#[test]
fn names_that_do_not_exist_come_with_the_nearest() {
    for (call, name, nearest) in [
        ("r.worst(\"weldd\")", "weldd", "weld"),
        ("r.findings_on(\"rail-lfet\")", "rail-lfet", "rail-left"),
        ("f.set_basis(\"eurocod\")", "eurocod", "eurocode"),
        ("f.set_gamma(\"gamma_m3\", 1.1, \"s\")", "gamma_m3", "gamma_m"),
        ("f.switch_off(\"D0023\", \"why\")", "D0023", "`D0"),
        ("f.switch_off(\"D002\", \"not this one\")", "D002", ""),
        ("f.switch_on(\"\")", "", ""),
        ("f.buckling_lengths(\"nothing\")", "nothing", ""),
    ] {
        let error = run(&format!("{SOLVED}{call};")).expect_err(call);
        assert_eq!(error.code.0, "R016", "{call}: {error:?}");
        assert!(error.message.contains(&format!("`{name}`")) && error.help.contains(nearest), "{call}: {error:?}");
    }
    let error = run(&format!("{SOLVED}print(r.governing()[0].utilization);")).expect_err("spelling");
    assert_eq!((error.code.0, error.help.as_str()), ("R004", "did you mean `utilisation`?"));
}

#[test]
fn findings_are_read_and_not_written() {
    for script in
        ["let all = r.governing(); all[0].utilisation = 0.1;", "let g = r.worst(\"tube\"); g.subject = \"x\";"]
    {
        let error = run(&format!("{SOLVED}{script}")).expect_err(script);
        assert_eq!(error.kind, ScriptErrorKind::UnknownProperty, "{error:?}");
    }
}

#[test]
fn more_findings_than_an_array_may_hold_end_in_an_error() {
    let limits = Limits { list_items: 5, ..Limits::default() };
    let error = run_on(Arc::new(Memory::new()), &format!("{SOLVED}let all = r.findings(); print(all.len());"), limits)
        .expect_err("too many");
    assert_eq!(error.code.0, "R009", "{error:?}");
    // A finding counts as one item, however much it holds: a few thousand are no map of a few thousand entries.
    let limits = Limits { map_entries: 20, ..Limits::default() };
    run_on(Arc::new(Memory::new()), &format!("{SOLVED}let all = r.findings(); print(all.len());"), limits)
        .unwrap_or_else(|error| panic!("{error:?}"));
}

#[test]
fn the_basis_is_one_or_the_other_and_never_both() {
    let lines = printed(
        "let f = model(); print(f.basis().kind); print(f.basis().yield_margin); print(f.basis().gamma_m2.value);
         f.set_yield_margin(2); let strict = f.solve(f.cases_of(\"bending\")).utilisation();
         f.set_yield_margin(1.0); let plain = f.solve(f.cases_of(\"bending\")).utilisation();
         print(strict > plain);
         f.set_yield_margin(3); f.set_basis(\"eurocode\"); f.set_gamma(\"gamma_m1\", 2, \"test\");
         print(f.basis().kind); print(f.basis().gamma_m1.source);
         f.set_basis(\"vehicle\"); print(f.basis().gamma_m1.value == 1 && f.basis().yield_margin == 1.5);",
    );
    assert_eq!(lines, ["vehicle", "1.5", "1.25", "true", "eurocode", "test", "true"]);
    for (script, code) in [
        ("f.set_basis(\"eurocode\"); f.set_yield_margin(2);", "R017"),
        ("f.set_gamma(\"gamma_m1\", 1.1, \"test\"); f.validate();", "R019"),
        ("f.set_basis(\"eurocode\"); f.set_gamma(\"gamma_m1\", 0.9, \"test\"); f.validate();", "R019"),
        ("f.set_basis(\"eurocode\"); f.set_gamma(\"gamma_m1\", 1.1, \"\"); f.validate();", "R019"),
        ("f.set_yield_margin(0.5); f.validate();", "R019"),
        ("f.set_yield_margin(\"2\");", "R005"),
    ] {
        let error = run(&format!("let f = model(); {script}")).expect_err(script);
        assert_eq!(error.code.0, code, "{script}: {error:?}");
    }
}

#[test]
fn a_factor_of_fatigue_stays_with_either_basis() {
    let lines = printed(
        "let f = model(); f.set_gamma(\"gamma_mf\", 1.15, \"test\"); f.set_basis(\"eurocode\"); f.set_basis(\"vehicle\");
         print(f.basis().gamma_mf.value);",
    );
    assert_eq!(lines, ["1.15"]);
}

#[test]
fn a_check_is_switched_off_with_a_reason_alone() {
    let lines = printed(
        "let f = model(); f.switch_off(\"D001\", \"judged elsewhere\");
         print(f.solve(f.cases_of(\"bending\")).findings().filter(|x| x.code == \"D001\").len());
         print(f.switched_off()[0].check); print(f.switched_off()[0].reason);
         f.switch_on(\"D001\"); print(f.switched_off().len());
         print(f.solve(f.cases_of(\"bending\")).findings().filter(|x| x.code == \"D001\").len() > 0);
         print(checks().contains(\"D001\"));",
    );
    assert_eq!(lines, ["0", "D001", "judged elsewhere", "0", "true", "true"]);
    let error = run("let f = model(); f.switch_off(\"D001\", \" \"); f.validate();").expect_err("no reason");
    assert_eq!(error.code.0, "R019", "{error:?}");
}

#[test]
fn buckling_lengths_follow_rule_group_and_tube() {
    let lines = printed(
        "let f = model(); let own = f.tube(\"rail-left\").length_mm;
         print(near(f.buckling_lengths(\"rail-left\").y_mm, own, 1e-9));
         f.set_members(#{ chords: [\"rails\"], slenderness_limit: 150 });
         print(near(f.buckling_lengths(\"rail-left\").z_mm, 0.9 * own, 1e-9));
         f.set_tube(\"rail-left\", #{ buckling_y_mm: 700, buckling_factor_z: 2 });
         let b = f.buckling_lengths(\"rail-left\"); print(near(b.y_mm, 700, 1e-9) && near(b.z_mm, 2 * own, 1e-9));
         f.set_tube(\"rail-left\", #{ buckling_factor_y: 0.5 });
         print(near(f.buckling_lengths(\"rail-left\").y_mm, 0.5 * own, 1e-9)); print(f.buckling_lengths(\"rail-left\").y_rule);",
    );
    assert_eq!(lines, ["true", "true", "true", "true", "factor given in tubes.csv"]);
    for script in [
        "f.set_tube(\"rail-left\", #{ buckling_y_mm: 700, buckling_factor_y: 1 });",
        "f.set_tube(\"rail-left\", #{ buckling_y_mm: -1 });",
        "f.set_members(#{ braces: [\"nobody\"] });",
        "f.set_members(#{ slenderness_limit: 0 });",
        "f.set_section(\"rail\", #{ route: \"drawn\" });",
    ] {
        let error = run(&format!("let f = model(); {script} f.validate();")).expect_err(script);
        assert_eq!(error.code.0, "R019", "{script}: {error:?}");
    }
    run("let f = model(); f.set_section(\"rail\", #{ route: \"hot-finished\" }); f.validate();").expect("a route");
}
