//! Natural modes of a frame in several states, as a script finds them.

use crate::common::{printed, run};

#[test]
fn the_driver_shifts_the_frequencies() {
    let lines = printed(
        "let f = model(); print(f.frequency_shift(3).len());
         f.set_mass(\"driver\", #{ when: \"driven\" });
         let shift = f.frequency_shift(3); let driven = f.modes(3);
         print(shift.len()); print(near(shift[0].driven_hz, driven[0].frequency_hz, 1e-9));
         f.remove_mass(\"driver\"); let empty = f.modes(3);
         for of in shift {
             if of.empty_hz != () { print(near(of.driven_hz / of.empty_hz - 1, of.shift_percent / 100, 1e-9)); }
         }
         print(shift.some(|of| of.empty_hz != () && near(of.empty_hz, empty[0].frequency_hz, 1e-9)));",
    );
    assert_eq!(lines[..3], ["0", "3", "true"]);
    assert!(lines.len() > 4 && lines[3..].iter().all(|line| line == "true"), "{lines:?}");
    let error =
        run("let f = model(); f.set_mass(\"driver\", #{ when: \"sometimes\" }); f.validate();").expect_err("no word");
    assert_eq!(error.code.0, "R019", "{error:?}");
}

#[test]
fn modes_under_a_case_are_near_those_without_and_a_missing_case_is_told() {
    let lines = printed(
        "let f = model(); let r = f.solve(f.cases_of(\"bending\"));
         let loaded = r.modes_under(\"bending\", 2); let plain = f.modes(2);
         print(loaded.len()); print(near(loaded[0].frequency_hz, plain[0].frequency_hz, 0.05 * plain[0].frequency_hz));
         print(loaded[0].frequency_hz != plain[0].frequency_hz);",
    );
    assert_eq!(lines, ["2", "true", "true"]);
    let error = run("let f = model(); let r = f.solve(f.cases_of(\"bending\")); r.modes_under(\"nothing\", 1);");
    assert_eq!(error.expect_err("no case").code.0, "R016");
}
