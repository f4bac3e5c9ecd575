//! What the language does here that it does not do by itself.

use crate::common::printed;

#[test]
fn whole_numbers_divide_like_numbers() {
    assert_eq!(
        printed("print(5 / 2); print(5.0 / 2); let i = 5; print(i / 2); i /= 2; print(i); print(6 / 3);"),
        ["2.5", "2.5", "2.5", "2.5", "2.0"]
    );
    assert_eq!(
        printed("let m = #{ a: 3 }; m.a /= 2; print(m.a); let l = [3]; l[0] /= 2; print(l[0]);"),
        ["1.5", "1.5"]
    );
    assert_eq!(printed("let x = 3.0; x /= 2; print(x); print(7 % 4);"), ["1.5", "3"]);
}

#[test]
fn handles_are_shared_by_their_copies() {
    let lines = printed(
        "fn weigh(c) { c.gravity(1); }\n\
         let f = model(); let c = f.new_case(\"a\", \"\", \"notional\"); weigh(c); c.hold_vehicle();\n\
         let r = f.solve([c]); print(r.reaction(\"a\", \"RLT\").fz_n > 0);\n\
         const F = f; print(F.joints().len());",
    );
    assert_eq!(lines, ["true", "8"]);
}

#[test]
fn a_variant_leaves_the_original_alone() {
    let lines = printed(
        "let f = model(); let before = f.mass().tubes_kg; let v = f.duplicate(); v.set_wall(\"rail\", 3);\n\
         print(f.mass().tubes_kg == before); print(v.mass().tubes_kg > before);",
    );
    assert_eq!(lines, ["true", "true"]);
}

#[test]
fn a_section_from_the_stock_list_can_be_changed() {
    let lines = printed(
        "let f = model(); f.set_section(\"rail\", #{ stock: \"square 40x2\" }); let a = f.mass().tubes_kg;\n\
         f.set_wall(\"rail\", 2); print(near(f.mass().tubes_kg, a, 1e-9)); f.set_wall(\"rail\", 3); print(f.mass().tubes_kg > a);",
    );
    assert_eq!(lines, ["true", "true"]);
}

#[test]
fn a_failed_change_changes_nothing() {
    let lines = printed(
        "let f = model(); let before = f.mass().total_kg;\n\
         try { f.set_mass(\"driver\", #{ kg: 5, joints: 3 }); } catch { }\n\
         try { f.set_tube(\"rail-left\", #{ section: \"brace\", roll_deg: \"a\" }); } catch { }\n\
         print(f.mass().total_kg == before); print(f.tube(\"rail-left\").section);",
    );
    assert_eq!(lines, ["true", "rail"]);
}

#[test]
fn a_sweep_gives_stiffer_frames_for_thicker_walls() {
    let lines = printed(
        "let f = model(); let last = 0;\n\
         for wall in spaced(1.5, 3, 4) {\n\
           f.set_wall(\"brace\", wall);\n\
           let k = f.solve(f.cases_of(\"twist\")).torsional_stiffness(\"twist\");\n\
           print(k > last); last = k;\n\
         }",
    );
    assert_eq!(lines, ["true"; 4]);
}

#[test]
fn texts_are_formatted_in_full() {
    assert_eq!(
        printed("print(fixed(2.0 / 3.0, 3)); print(fixed(2, 0)); print(csv_row([0.1 + 0.2]));"),
        ["0.667", "2", "0.30000000000000004\n"]
    );
}
