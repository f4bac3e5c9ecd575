//! `report.pdf` read as an engineer with a pocket calculator reads it: each load case and each calculation is worked out anew
//! from what is printed on its own page, to the printed digits.

use std::path::Path;
use std::process::Command;

use strutwork_testkit::{Range, evaluate, printed};

use crate::browser::{LIMIT, tool};
use crate::harness::{copy_of, finish, project, strutwork};

/// The text of the pages of a PDF, in the order in which it was written.
fn pages(pdf: &Path) -> Vec<String> {
    let mut command = Command::new(tool(&["pdftotext"], "poppler-utils"));
    command.arg("-raw").arg(pdf).arg("-");
    let ran = finish(command, LIMIT);
    ran.expect(0);
    ran.stdout.split('\u{c}').map(whole_numbers).collect()
}

/// Numbers whose thousands are set apart, as one word: `14 121.8` is 14121.8.
fn whole_numbers(page: &str) -> String {
    let letters: Vec<char> = page.chars().collect();
    let digit = |at: usize| letters.get(at).is_some_and(char::is_ascii_digit);
    let parts = |at: usize| {
        let before = (0..at).rev().take_while(|at| digit(*at)).count();
        let point = at > before && letters[at - before - 1] == '.';
        (1..=3).contains(&before) && !point && (at + 1..at + 4).all(digit) && !digit(at + 4)
    };
    let blank = |letter: char| matches!(letter, ' ' | '\u{a0}' | '\u{202f}');
    let kept = letters.iter().enumerate().filter(|(at, letter)| !(blank(**letter) && parts(*at)));
    kept.map(|(_, letter)| *letter).collect()
}

/// The demo on paper.
fn demo() -> (tempfile::TempDir, Vec<String>) {
    let copy = copy_of(&project().join("demo-models/trials-car"));
    strutwork(copy.path(), &["run", ".", "--pdf"]).expect_done();
    let pages = pages(&copy.path().join("results/report.pdf"));
    (copy, pages)
}

/// A number as printed, with what it can have been before it was rounded.
fn number(text: &str) -> Option<(f64, f64)> {
    let plain = text.replace('−', "-");
    let value: f64 = plain.parse().ok()?;
    let decimals = plain.split_once('.').map_or(0, |(_, behind)| behind.len() as i32);
    Some((value, 0.5 * 10.0_f64.powi(-decimals)))
}

/// The numbers of a line, in order; what is none is left out.
fn numbers(line: &str) -> Vec<(f64, f64)> {
    line.split_whitespace().map(|word| word.trim_matches([';', ',', '/', '('])).filter_map(number).collect()
}

// ---- load cases ----

/// A line of the table of what acts: where, and forces and moments.
struct Acts {
    name: String,
    at: Option<[f64; 3]>,
    load: [f64; 6],
}

/// The table of what acts on a case's page: its lines, the last of them the sum.
fn account(page: &str) -> Vec<Acts> {
    let mut lines = page.lines().skip_while(|line| !line.contains("What acts, and that it is in balance"));
    let mut acts = Vec::new();
    // A name may stand on lines above its numbers.
    let mut name: Vec<&str> = Vec::new();
    for line in lines.by_ref() {
        let words: Vec<&str> = line.split_whitespace().collect();
        let cells = words.len().saturating_sub(9);
        let (before, cells) = words.split_at(cells);
        let value = |cell: &&str| number(cell).map_or(f64::NAN, |(value, _)| value);
        if cells.len() < 9 || !cells.iter().all(|cell| *cell == "–" || number(cell).is_some()) {
            name = if line.ends_with("N·m") { Vec::new() } else { [name, words].concat() };
            continue;
        }
        let all: Vec<f64> = cells.iter().map(value).collect();
        if all[3..].iter().any(|value| value.is_nan()) {
            continue;
        }
        let at = all[..3].iter().all(|value| value.is_finite()).then(|| [all[0], all[1], all[2]]);
        let load = std::array::from_fn(|place| all[3 + place]);
        let whole = [std::mem::take(&mut name), before.to_vec()].concat().join(" ");
        let done = whole == "sum";
        acts.push(Acts { name: whole, at, load });
        if done {
            break;
        }
    }
    acts
}

/// What follows a word on the page, as numbers.
fn after(page: &str, word: &str, count: usize) -> Vec<f64> {
    let page = &page.split_whitespace().collect::<Vec<_>>().join(" ");
    let start = page.find(word).unwrap_or_else(|| panic!("`{word}` is not on the page:\n{page}")) + word.len();
    numbers(&page[start..]).into_iter().take(count).map(|(value, _)| value).collect()
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

#[test]
fn every_load_case_adds_up_on_its_own_page() {
    let (_folder, pages) = demo();
    let first = pages.iter().position(|page| page.contains("5.1 Pure torsion")).map_or(0, |contents| contents + 1);
    let first =
        first + pages[first..].iter().position(|page| page.contains("5.1 Pure torsion")).expect("the first case");
    let mut whole = 0;
    for case in 1..=28 {
        let page = &pages[first + case - 1];
        assert!(page.contains(&format!("5.{case} ")), "case {case} has a page of its own:\n{page}");
        let other = format!("5.{} ", case + 1);
        assert!(!page.lines().any(|line| line.trim_start().starts_with(&other)), "{case}");
        let acts = account(page);
        let (sum, lines) = acts.split_last().expect("a table of what acts");
        assert_eq!(sum.name, "sum", "{page}");
        let [x, y, z]: [f64; 3] = after(page, "centre of gravity at", 3).try_into().expect("three numbers");
        let mass = after(page, "m =", 1)[0];
        // A tenth of a millimetre and of a newton are printed; rounding adds up line by line.
        let size = lines.iter().flat_map(|line| line.load).map(f64::abs).fold(1.0, f64::max);
        let rounding = 0.06 * lines.len() as f64 + 2e-4 * size;
        for part in 0..6 {
            let total: f64 = lines.iter().map(|line| line.load[part]).sum();
            assert!((total - sum.load[part]).abs() <= rounding, "case {case}, column {part}: {total}\n{page}");
            assert!(sum.load[part].abs() <= 0.06, "case {case} is not balanced:\n{page}");
        }
        for line in lines {
            let force = [line.load[0], line.load[1], line.load[2]];
            let Some(at) = line.at else { continue };
            let arm = [at[0] - x, at[1] - y, at[2] - z].map(|mm| mm / 1000.0);
            let moment = cross(arm, force);
            if line.name.starts_with("weight") {
                let times = -force[2] / mass / 9.80665;
                assert!(
                    [1.0, 1.2, 1.3, 2.5].iter().any(|n| (times - n).abs() < 1e-4),
                    "{case}: {times} times its weight"
                );
            } else if line.name.starts_with("inertia") {
                let a = after(page, "a = ΣF/m =", 3);
                for axis in 0..3 {
                    assert!(
                        (force[axis] + mass * a[axis]).abs() <= 0.1 + 1e-4 * force[axis].abs(),
                        "{case}: {a:?}\n{page}"
                    );
                }
                let alpha: [f64; 3] = after(page, "α = I⁻¹·ΣM =", 3).try_into().expect("three numbers");
                let [xx, yy, zz, xy, xz, yz]: [f64; 6] = after(page, "I about it:", 6).try_into().expect("six numbers");
                for (axis, row) in [[xx, xy, xz], [xy, yy, yz], [xz, yz, zz]].iter().enumerate() {
                    let made: f64 = row.iter().zip(alpha).map(|(i, a)| i * a).sum();
                    let off = (made + line.load[3 + axis]).abs();
                    assert!(off <= 0.1 + 2e-4 * size, "{case}: I·α = {made} about axis {axis}\n{page}");
                }
                whole += 1;
            } else {
                for axis in 0..3 {
                    let off = (moment[axis] - line.load[3 + axis]).abs();
                    assert!(off <= 0.1 + 2e-4 * size, "case {case}, {}: {moment:?}\n{page}", line.name);
                }
            }
        }
    }
    assert!(whole > 15, "{whole} cases have inertia");
}

// ---- calculations ----

/// A step as printed: its symbol, what is equal, and the value.
struct Step {
    symbol: String,
    formula: String,
    put: String,
    value: f64,
}

/// Whether a formula goes on: a bracket is open, or a sign waits for its other side.
fn goes_on(text: &str) -> bool {
    let open = text.matches('(').count() > text.matches(')').count() || text.matches('|').count() % 2 == 1;
    open || text.ends_with(['·', '+', '−', '/', '='])
}

/// Whether what stands behind an equals sign is a value with its note, and no formula.
fn is_given(text: &str) -> bool {
    let mut words = text.split_whitespace();
    words.next().and_then(number).is_some()
        && !words.next().is_some_and(|word| word.starts_with(['·', '+', '−', '/', '^']))
}

/// All that is given or worked out in a text, in the order in which it stands.
fn steps(text: &str) -> Vec<Step> {
    let mut whole: Vec<String> = Vec::new();
    for line in text.lines().map(str::trim) {
        // A power stands on a line of its own, as it stands higher; a long formula goes on in the next line.
        let begins = line.starts_with("= ") || line.starts_with(['^', '·', '+', '−', '/', ')']);
        match whole.last_mut() {
            Some(last) if last.contains(" = ") && (begins || goes_on(last)) => {
                last.push(' ');
                last.push_str(line);
            }
            _ if line.contains(" = ") => whole.push(line.to_owned()),
            _ => {}
        }
    }
    let mut steps = Vec::new();
    for line in whole {
        let parts: Vec<&str> = line.split(" = ").map(str::trim).collect();
        let first = |text: &str| text.split_whitespace().next().and_then(number).map(|(value, _)| value);
        if parts[1..].iter().all(|part| is_given(part)) {
            // Inputs, one or two on a line.
            for (place, part) in parts.iter().enumerate().skip(1) {
                let symbol = parts[place - 1].split_whitespace().last().unwrap_or_default().to_owned();
                let value = first(part).expect("a number stands first");
                steps.push(Step { symbol, formula: String::new(), put: String::new(), value });
            }
            continue;
        }
        let (Some(value), [symbol, sides @ ..]) = (first(parts[parts.len() - 1]), &parts[..parts.len() - 1]) else {
            continue;
        };
        let [formula, put] = [sides.first(), sides.last()].map(|side| side.copied().unwrap_or_default().to_owned());
        steps.push(Step { symbol: (*symbol).to_owned(), formula, put, value });
    }
    steps
}

/// The numbers in an expression.
fn operands(text: &str) -> Vec<String> {
    let split = |letter: char| !(letter.is_ascii_digit() || letter == '.');
    text.split(split).filter(|word| word.starts_with(|c: char| c.is_ascii_digit())).map(str::to_owned).collect()
}

/// Works a calculation out from its text; how many steps were worked out, and the values that were found.
fn work_out(text: &str) -> (usize, Vec<f64>) {
    let steps = steps(text);
    let mut known: Vec<f64> = Vec::new();
    let mut worked = 0;
    for step in &steps {
        if !step.put.is_empty() {
            let [low, high]: Range =
                evaluate(&step.put).unwrap_or_else(|why| panic!("{why}: {} = {}\n{text}", step.symbol, step.put));
            let [least, most] = printed(step.value);
            assert!(low <= most && least <= high, "{} = {} = {}: {low} to {high}", step.symbol, step.put, step.value);
            // What was put in for a symbol stands above.
            for operand in operands(&step.put) {
                let value: f64 = operand.parse().expect("digits");
                let given = operands(&step.formula).contains(&operand);
                let above = known.iter().any(|known| (known.abs() - value).abs() <= 1e-9 * value.abs().max(1e-9));
                assert!(given || above, "{operand} of {} = {} does not stand above\n{text}", step.symbol, step.put);
            }
            worked += 1;
        }
        known.push(step.value);
    }
    (worked, known)
}

#[test]
fn the_worst_of_each_kind_is_worked_out_from_its_own_page() {
    let (_folder, pages) = demo();
    let heading = |page: &str, number: usize| {
        page.lines().position(|line| line.starts_with(&format!("6.{number} ")) && !line.contains(". . ."))
    };
    let mut kinds = Vec::new();
    for number in 1..=6 {
        let at = pages.iter().position(|page| heading(page, number).is_some()).unwrap_or_else(|| panic!("6.{number}"));
        let from = heading(&pages[at], number).expect("found");
        // The calculation of a joint may take two pages that face each other; all others take one.
        let mut text: String = pages[at].lines().skip(from).map(|line| format!("{line}\n")).collect();
        let mut taken = 1;
        let outcome = |text: &str| text.lines().any(|line| line.trim_start().starts_with("Utilisation "));
        while !outcome(&text) {
            text.push_str(&pages[at + taken]);
            taken += 1;
        }
        let title = text.lines().next().expect("a title").to_owned();
        assert!(taken == 1 || (taken == 2 && title.contains("joint")), "{title} takes {taken} pages");
        let end = text.lines().position(|line| line.trim_start().starts_with("Utilisation ")).expect("an outcome");
        let own: String = text.lines().take(end).map(|line| format!("{line}\n")).collect();
        let (worked, known) = work_out(&own);
        assert!(worked >= 5, "{title}: {worked} steps\n{own}");
        let said = numbers(text.lines().nth(end).expect("the outcome"))[0].0;
        assert!(known.contains(&said), "{title}: no step gives {said}");
        kinds.push(title);
    }
    for kind in ["Fatigue", "Bolt", "joint", "Tube", "Limit", "Panel"] {
        assert!(kinds.iter().any(|title| title.contains(kind)), "{kind}: {kinds:?}");
    }
}

#[test]
fn a_wrong_digit_on_a_page_is_noticed() {
    let page = "  A = 4 mm²   area\n  N = 2 N\n  σ = N · 3 / A = 2 · 3 / 4 = 1.5 MPa   stress\n";
    assert_eq!(work_out(page).0, 1);
    for (sound, wrong) in [("= 1.5 MPa", "= 1.6 MPa"), ("A = 4 mm²", "A = 5 mm²"), ("2 · 3 / 4", "2 · 3 / 5")] {
        let changed = page.replace(sound, wrong);
        assert!(std::panic::catch_unwind(|| work_out(&changed)).is_err(), "{wrong} passes");
    }
}
