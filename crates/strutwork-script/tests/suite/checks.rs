//! What a script sees of the checks, and how it changes what they judge by.

use crate::common;
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
    assert_eq!(told, 14);
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

/// Welds of 2 mm tube lie outside the clause: their items never stand as passed.
#[test]
fn an_item_that_no_clause_covers_never_stands_as_passed() {
    let lines = after(
        "for g in r.governing() {
            print(g.standing == \"passed\" && r.findings_on(g.subject).some(|f| f.kind == g.kind && f.outside));
            print(g.standing == \"exceeded\" && g.utilisation <= 1);
        }
        print(r.governing().some(|g| g.kind == \"weld\" && g.standing == \"outside\"));
        print(r.findings()[0].standing == ());",
    );
    let (each, last) = lines.split_at(lines.len() - 2);
    assert_eq!(last, ["true", "true"]);
    assert!(!each.is_empty() && each.iter().all(|line| line == "false"), "{each:?}");
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
        ("f.section_check(\"rial\", \"mild\", #{})", "rial", "rail"),
        ("f.member_check(\"rail\", \"milt\", #{ buckling_y_mm: 1, buckling_z_mm: 1 })", "milt", "mild"),
        ("f.joint_check(\"rail\", \"brace\", \"mild\", #{ kind: \"gapp\" })", "gapp", "gap"),
        ("f.fillet_check(\"rail\", \"mild\", #{ method: \"simplifyed\" })", "simplifyed", "simplified"),
        ("bolt_check(\"M9\", \"8.8\", #{})", "M9", "M6"),
        ("bolt_check(\"M8\", \"8.9\", #{})", "8.9", "8.8"),
        ("buckling_factor(1, \"e\")", "e", ""),
        ("cycles_to_failure(36, 50, \"memebr\")", "memebr", "member"),
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

#[test]
fn parts_are_judged_by_the_same_clauses_as_frames() {
    let lines = printed(
        "let f = model();
         let c = f.section_check(\"rail\", \"mild\", #{ n_n: 10000 });
         print(near(c.utilisation, 10000 / (f.section(\"rail\").area_mm2 * 235), 1e-12));
         print(c.class); print(c.text.contains(\"N_t,Rd\")); print(c.outside.len());
         let short = f.member_check(\"rail\", \"mild\", #{ n_n: -10000, buckling_y_mm: 500, buckling_z_mm: 500.0 });
         let long = f.member_check(\"rail\", \"mild\", #{ n_n: -10000, buckling_y_mm: 1500, buckling_z_mm: 500 });
         let bent = f.member_check(\"rail\", \"mild\",
            #{ n_n: -10000, my_nm: 100, my_to_nm: -100, buckling_y_mm: 1500, buckling_z_mm: 500 });
         print(short.utilisation < long.utilisation && long.utilisation < bent.utilisation);
         print(f.member_check(\"rail\", \"mild\", #{ n_n: 5, buckling_y_mm: 9, buckling_z_mm: 9 }).utilisation);
         let t = f.joint_check(\"rail\", \"brace\", \"mild\", #{ n_n: -4000 });
         print(near(t.utilisation, 4000 / t.resistance_n, 1e-9)); print(t.outside.len() > 0);
         print(f.joint_check(\"rail\", \"brace\", \"mild\", #{ n_n: 4000, kind: \"overlap\", overlap_percent: 40, angle_deg: 45 }).efficiency > 0);
         let w = f.fillet_check(\"rail\", \"mild\", #{ n_n: 20000, throat_mm: 3, method: \"simplified\" });
         let x = f.fillet_check(\"rail\", \"mild\", #{ n_n: 20000, throat_mm: 6.0, method: \"simplified\" });
         print(near(w.utilisation, 2 * x.utilisation, 1e-12)); print(w.outside.len() > 0);
         let b = bolt_check(\"M8\", \"8.8\", #{ shear_n: 14054.4 });
         print(near(b.utilisation, 1, 1e-9)); print(near(b.tension_resistance_n, 21081.6, 1e-6)); print(b.outside.len());
         print(near(full_strength_throat(2, 235, 360), 1.8465, 1e-3));
         print(near(buckling_factor(1, \"a\"), 0.6656, 1e-4)); print(buckling_factor(0.1, \"c\"));
         print(cycles_to_failure(36, 72, \"member\")); print(cycles_to_failure(36, 5, \"member\") == ());",
    );
    assert_eq!(
        lines,
        [
            "true", "1", "true", "1", "true", "0.0", "true", "true", "true", "true", "true", "true", "true", "1",
            "true", "true", "1.0", "250000.0", "true"
        ]
    );
}

#[test]
fn parts_refuse_what_is_out_of_range() {
    for (call, code) in [
        ("f.member_check(\"rail\", \"mild\", #{ n_n: -5 })", "R015"),
        ("f.member_check(\"rail\", \"mild\", #{ buckling_y_mm: 0, buckling_z_mm: 1 })", "R021"),
        ("f.section_check(\"rail\", \"mild\", #{ gamma_m0: -1 })", "R021"),
        ("f.section_check(\"rail\", \"mild\", #{ n: 1 })", "R015"),
        ("f.joint_check(\"rail\", \"brace\", \"mild\", #{ angle_deg: 91 })", "R021"),
        ("f.joint_check(\"rail\", \"brace\", \"mild\", #{ angle_deg: 0 })", "R021"),
        ("f.joint_check(\"rail\", \"brace\", \"mild\", #{ kind: \"gap\" })", "R015"),
        ("f.joint_check(\"rail\", \"brace\", \"mild\", #{ kind: \"overlap\", overlap_percent: 0 })", "R021"),
        ("f.fillet_check(\"rail\", \"mild\", #{ throat_mm: 0 })", "R021"),
        ("bolt_check(\"M8\", \"8.8\", #{ plate_mm: 3 })", "R015"),
        ("bolt_check(\"M8\", \"8.8\", #{ shear_n: \"many\" })", "R005"),
        ("buckling_factor(0, \"c\")", "R021"),
        ("buckling_factor(\"one\", \"c\")", "R005"),
        ("cycles_to_failure(-1, 5, \"member\")", "R021"),
        ("full_strength_throat(2, 0, 360)", "R021"),
        ("f.set_bolt(\"b\", #{ countersunk: 1 })", "R005"),
        ("f.set_members(#{ sway: \"yes\" })", "R005"),
    ] {
        let error = run(&format!("let f = model(); {call};")).expect_err(call);
        assert_eq!(error.code.0, code, "{call}: {error:?}");
    }
}

/// Forces of any size end in numbers or in an error, never in a panic.
#[test]
fn parts_bear_absurd_numbers() {
    for number in ["0", "-1e-300", "1e300", "-1e300", "5e-324"] {
        for call in [
            "f.section_check(\"rail\", \"mild\", #{ n_n: x, my_nm: x, mz_nm: x, vy_n: x, vz_n: x, t_nm: x })",
            "f.member_check(\"rail\", \"mild\", #{ n_n: x, my_nm: x, buckling_y_mm: 1e-300, buckling_z_mm: 1e300 })",
            "f.joint_check(\"rail\", \"brace\", \"mild\", #{ n_n: x, m_in_nm: x, chord_n_n: x, angle_deg: 1e-9 })",
            "f.joint_check(\"rail\", \"rail\", \"mild\", #{ n_n: x, kind: \"gap\", gap_mm: x })",
            "f.fillet_check(\"rail\", \"mild\", #{ n_n: x, throat_mm: 1e-300, t_nm: x, angle_deg: 1e-9 })",
            "bolt_check(\"M8\", \"8.8\", #{ tension_n: x, shear_n: x, plate_mm: 1e300, plate_ultimate_mpa: 1e-300 })",
        ] {
            let script = format!("let f = model(); let x = {number}; let c = {call}; print(c.text.len() > 0);");
            assert_eq!(printed(&script), ["true"], "{script}");
        }
    }
}

#[test]
fn welds_are_listed_and_set() {
    let lines = printed(
        "let f = model(); let all = f.welds(); print(all.len() > 10);
         print(all.filter(|w| w.throat_given).len()); print(near(all[0].throat_mm, 2, 1e-9) || near(all[0].throat_mm, 1.5, 1e-9));
         f.set_welds(#{ throat_mm: 3 }); f.set_weld_group(\"diagonals\", #{ throat_mm: 4.0 });
         let thick = f.welds().filter(|w| near(w.throat_mm, 4, 1e-9));
         print(thick.len() > 0 && thick.all(|w| f.tube(w.tube).group == \"diagonals\"));
         print(f.welds().all(|w| w.throat_given && w.length_mm > 50 && w.metal_kg > 0 && w.full_strength_throat_mm > 0));
         let before = f.solve(f.cases_of(\"bending\")).worst(\"weld\").utilisation;
         f.set_welds(#{ throat_mm: 6, method: \"simplified\" }); f.set_weld_group(\"diagonals\", #{ throat_mm: 8 });
         print(f.solve(f.cases_of(\"bending\")).worst(\"weld\").utilisation < before);",
    );
    assert_eq!(lines, ["true", "0", "true", "true", "true", "true"]);
    for script in [
        "f.set_welds(#{ throat_mm: -1 });",
        "f.set_welds(#{ method: \"by eye\" });",
        "f.set_weld_group(\"nobody\", #{ throat_mm: 2 });",
        "f.set_bolt(\"b\", #{ size: \"M9\" });",
        "f.set_limit(\"l\", #{ joint: \"nowhere\", most_mm: 1 });",
        "f.set_limit(\"l\", #{ joint: \"FL\" });",
        "f.set_fatigue(#{ category_mpa: 37 });",
        "f.set_fatigue_group(\"nobody\", #{ category_mpa: 36 });",
        "f.set_fatigue_pair(\"p\", #{ from: \"bending\" });",
    ] {
        let error = run(&format!("let f = model(); {script} f.validate();")).expect_err(script);
        assert_eq!(error.code.0, "R019", "{script}: {error:?}");
    }
}

#[test]
fn limits_and_fatigue_pairs_make_findings() {
    let lines = printed(
        "let f = model();
         f.set_limit(\"door\", #{ between: [\"FLT\", \"RLT\"], most_mm: 1 });
         let wide = f.solve(f.cases_of(\"bending\")).worst(\"movement\");
         f.set_limit(\"door\", #{ most_mm: 0.5 });
         let narrow = f.solve(f.cases_of(\"bending\")).worst(\"movement\");
         print(wide.code); print(near(narrow.utilisation, 2 * wide.utilisation, 1e-9)); print(wide.calculation().lines.len() > 2);
         f.set_fatigue_pair(\"road\", #{ from: \"bending\", to: \"none\", cycles: 1000000, source: \"a guess\" });
         let many = f.solve(f.cases_of(\"bending\")).findings().filter(|x| x.code == \"D050\");
         print(many.len() > 10);
         let of = |all, name| all.filter(|x| x.subject == name)[0].utilisation;
         let name = many[0].subject; let before = of.call(many, name);
         f.set_fatigue_pair(\"road\", #{ cycles: 4e6 });
         let after = of.call(f.solve(f.cases_of(\"bending\")).findings().filter(|x| x.code == \"D050\"), name);
         print(after >= before);",
    );
    assert_eq!(lines, ["D060", "true", "true", "true", "true"]);
}
