//! Every function that a script can call: documented, with units, with an example that runs.

use crate::common;
use std::collections::BTreeSet;

use strutwork_script::{Limits, definitions, functions, reference_markdown};

#[test]
fn there_are_functions() {
    assert!(functions().len() > 60, "{}", functions().len());
}

#[test]
fn names_are_snake_case_and_unique() {
    let mut seen = BTreeSet::new();
    for function in functions() {
        let name = &function.name;
        assert!(name.chars().all(|sign| sign.is_ascii_lowercase() || sign == '_'), "{name}");
        assert!(seen.insert(name.clone()), "{name} twice");
    }
}

#[test]
fn every_function_says_what_it_does() {
    for function in functions() {
        let first = function.docs.lines().next().unwrap_or_default();
        assert!(first.len() > 10 && !first.starts_with('#'), "{}: {first:?}", function.name);
    }
}

#[test]
fn numbers_carry_units() {
    for function in functions() {
        let numbers = function.parameters.iter().any(|(_, kind)| kind == "number") || function.returns == "number";
        let documented = function.docs.contains("# Units");
        assert!(documented || !numbers, "{} takes or gives a number without its unit", function.name);
    }
}

#[test]
fn every_parameter_takes_five_and_five_point_nought() {
    // A parameter of a numeric Rust type takes one of the two only; `number` is the type that takes both.
    for function in functions() {
        for (name, kind) in &function.parameters {
            let plain = ["number", "text", "map", "array", "true or false", "function"];
            let either = ["array or range", "number or text", "text or array"];
            let handles = ["Frame", "Case", "Results", "Finding", "Study", "Variants", "Sizing", "Tolerances"];
            let known = [&plain[..], &either[..], &handles[..]].concat();
            assert!(known.contains(&kind.as_str()), "{}: {name} is {kind}", function.name);
        }
        assert!(!function.returns.contains("::") && !function.returns.contains('<'), "{}", function.call);
    }
}

#[test]
fn every_example_runs() {
    let mut wrong = Vec::new();
    for function in functions() {
        let example = function.example();
        assert!(example.contains(&function.name), "the example of {} does not call it", function.name);
        if let Err(error) = common::run(example) {
            wrong.push(format!("{} at {}:{}: {} ({})", function.name, error.line, error.column, error, error.help));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The examples with every whole number written with a decimal: a door that takes `5` only would fail.
#[test]
fn every_example_runs_with_decimals() {
    let mut wrong = Vec::new();
    for function in functions().iter().filter(|function| !function.example().contains(")[0]")) {
        let example = with_decimals(function.example());
        if let Err(error) = common::run(&example) {
            wrong.push(format!("{}: {error}\n{example}", function.name));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// `5` as `5.0`, outside texts, names and numbers that have a decimal point already.
fn with_decimals(text: &str) -> String {
    let mut out = String::new();
    let mut in_text = false;
    let mut signs = text.chars().peekable();
    let mut last = ' ';
    while let Some(sign) = signs.next() {
        in_text ^= sign == '"' || sign == '`';
        out.push(sign);
        let starts = sign.is_ascii_digit() && !(last.is_alphanumeric() || last == '_' || last == '.') && !in_text;
        last = sign;
        if starts {
            let mut plain = true;
            let part =
                |next: &char, last: char| next.is_ascii_alphanumeric() || *next == '.' || (*next == '-' && last == 'e');
            while let Some(next) = signs.next_if(|next| part(next, last)) {
                plain &= next.is_ascii_digit();
                out.push(next);
                last = next;
            }
            if plain {
                out.push_str(".0");
            }
        }
    }
    out
}

#[test]
fn decimals_are_added_where_they_belong() {
    assert_eq!(with_decimals("f(5, 1.5, \"a5\", x_1, -12, 1e-9);"), "f(5.0, 1.5, \"a5\", x_1, -12.0, 1e-9);");
}

#[test]
fn the_reference_names_every_function_and_no_rust_type() {
    for page in [reference_markdown(), definitions()] {
        for function in functions() {
            assert!(page.contains(&function.name), "{}", function.name);
        }
        for rust in
            ["Result<", "EvalAltResult", "ImmutableString", "Dynamic", "&str", "NativeCallContext", "f64", "i64"]
        {
            assert!(!page.contains(rust), "{rust}");
        }
        assert_eq!(page, if page.starts_with('#') { reference_markdown() } else { definitions() });
    }
    assert!(reference_markdown().contains(&Limits::default().operations.to_string()));
}
