//! Recording, reading back and holding, from the quantities of a run that is made up here.

use std::borrow::Cow;

use proptest::prelude::*;
use quick_xml::events::Event;
use sha2::{Digest as _, Sha256};
use strutwork_model::Severity;

use super::*;
use crate::results::{About, InputHash, ItemRow, Kind, Quantity, ResultSet};

fn one(kind: Kind, case: &str, subject: &str, quantity: &'static str, unit: &'static str, value: f64) -> Quantity {
    let (case, subject) = (case.to_owned(), subject.to_owned());
    Quantity { kind, case, subject, quantity: Cow::Borrowed(quantity), unit: Cow::Borrowed(unit), value }
}

fn item(item: &str, code: &str, utilisation: f64) -> ItemRow {
    ItemRow {
        kind: "tube".into(),
        item: item.into(),
        code: code.into(),
        case: "kerb".into(),
        utilisation: Some(utilisation),
        scope: "in".into(),
        severity: "note".into(),
    }
}

/// A run of two joints, one of which does not move sideways for reasons of symmetry.
fn set() -> ResultSet {
    ResultSet {
        quantities: vec![
            one(Kind::Frame, "", "", "mass", "kg", 412.5),
            one(Kind::Frame, "", "", "cg_y", "mm", 3e-14),
            one(Kind::Frame, "", "", "torsional_stiffness", "N·m/deg", 6685.3),
            one(Kind::Case, "kerb", "", "worst_utilisation", "", 0.84),
            one(Kind::Trust, "kerb", "", "residual", "", 1e-15),
            one(Kind::Joint, "kerb", "front, left", "ux_mm", "mm", 3.0),
            one(Kind::Joint, "kerb", "front, left", "uy_mm", "mm", 1e-13),
            one(Kind::Joint, "kerb", "front, left", "uz_mm", "mm", -4.0),
            one(Kind::Reaction, "kerb", "foot", "fx_n", "N", 300.0),
            one(Kind::Reaction, "kerb", "foot", "fy_n", "N", 0.0),
            one(Kind::Reaction, "kerb", "foot", "fz_n", "N", -400.0),
            one(Kind::Load, "kerb", "joint front, left", "fx", "N", 1e-17),
            one(Kind::Load, "kerb", "joint front, left", "fz", "N", 400.0),
        ],
        items: vec![item("b", "D022", 0.84), item("a", "D001", 0.84 - 1e-12), item("c", "D003", 0.5)],
        cases: vec!["kerb".into()],
        about: about("1.2.3", &[("joints.csv", "ab"), ("tubes.csv", "cd")]),
        ..ResultSet::default()
    }
}

fn about(version: &str, inputs: &[(&str, &str)]) -> About {
    let input = |(file, hash): &(&str, &str)| InputHash { file: (*file).to_owned(), sha256: (*hash).to_owned() };
    About { version: version.to_owned(), inputs: inputs.iter().map(input).collect(), ..About::default() }
}

fn circumstances() -> Circumstances {
    Circumstances {
        options: vec![Setting { name: "modes".into(), value: "6".into(), line: 0 }],
        size_m: 2.0,
        steady: None,
    }
}

fn patterns(texts: &[&str]) -> Vec<Pattern> {
    texts.iter().map(|text| Pattern::new(text).unwrap()).collect()
}

fn recorded(texts: &[&str]) -> Baseline {
    record(&set(), &patterns(texts), &circumstances(), None)
}

/// A row of a baseline by the end of its name.
fn entry<'b>(baseline: &'b Baseline, quantity: &str) -> &'b Entry {
    baseline.entries.iter().find(|entry| entry.kept.key.quantity == quantity).unwrap_or_else(|| panic!("no {quantity}"))
}

/// As it is read back, with its lines.
fn read_back(baseline: &Baseline) -> Baseline {
    read_baseline(write_baseline(baseline).as_bytes()).unwrap_or_else(|faults| panic!("{faults}"))
}

#[test]
fn the_usual_choice_sums_up_what_the_tables_say() {
    let baseline = recorded(&["usual"]);
    assert_eq!(baseline.entries[0].kept.key.quantity, "torsional_stiffness", "what a frame is ordered by stands first");
    assert_eq!(entry(&baseline, "greatest_movement").kept.value, Value::Number(5.0), "3 and 4 make 5");
    assert_eq!(entry(&baseline, "greatest_force").kept.value, Value::Number(500.0));
    assert_eq!(entry(&baseline, "items_judged").kept.value, Value::Number(3.0));
    // Two tubes are worst, but for rounding: neither is said to govern alone.
    assert_eq!(entry(&baseline, "governing_item").kept.value, Value::Text("a; b".into()));
    assert_eq!(entry(&baseline, "governing_check").kept.value, Value::Text("D001; D022".into()));
    assert!(baseline.entries.iter().all(|entry| entry.kept.key.kind != Kind::Joint));
}

#[test]
fn tolerances_follow_the_scale_and_name_their_rule() {
    let baseline = recorded(&["usual", "joint", "reaction"]);
    for (quantity, tolerance, rule) in [
        ("torsional_stiffness", 7e-6, "own"),
        ("cg_y", 2e-6, "size"),
        ("uy_mm", 4e-9, "case"),
        ("fy_n", 4e-7, "case"),
        ("items_judged", 0.0, "same"),
        ("governing_item", 0.0, "same"),
    ] {
        let found = entry(&baseline, quantity);
        assert_eq!((found.tolerance, found.why.as_str()), (tolerance, rule), "{quantity}");
        assert!(baseline.rule(rule).is_some_and(|rule| !rule.why.is_empty()));
    }
}

#[test]
fn rounding_is_never_kept() {
    let all = recorded(&["*"]);
    assert!(all.entries.iter().all(|entry| entry.kept.key.kind != Kind::Trust));
    let loads: Vec<&str> = all
        .entries
        .iter()
        .filter(|one| one.kept.key.kind == Kind::Load)
        .map(|one| one.kept.key.quantity.as_str())
        .collect();
    assert_eq!(loads, ["fz"], "a load of 1e-17 N is none");
}

#[test]
fn what_is_written_reads_back_to_the_last_bit() {
    let baseline = recorded(&["usual", "*"]);
    let mut read = read_back(&baseline);
    let lines: Vec<usize> = read.entries.iter().map(|entry| entry.line).collect();
    assert!(lines.windows(2).all(|pair| pair[0] + 1 == pair[1]), "a line a quantity: {lines:?}");
    let text = write_baseline(&baseline);
    for entry in &read.entries {
        assert!(text.lines().nth(entry.line - 1).unwrap().contains(&entry.kept.key.quantity));
    }
    read.entries.iter_mut().for_each(|entry| entry.line = 0);
    read.options.iter_mut().for_each(|option| option.line = 0);
    assert_eq!(read, baseline);
}

#[test]
fn a_spreadsheets_habits_do_no_harm() {
    let text = write_baseline(&recorded(&["usual"]));
    let mut lines: Vec<&str> = text.lines().collect();
    lines.push(",,,,,,,");
    lines.insert(6, "");
    let saved = format!("\u{feff}{}\r\n", lines.join("\r\n"));
    let read = read_baseline(saved.as_bytes()).unwrap();
    assert_eq!(read.entries.len(), recorded(&["usual"]).entries.len());
    assert_eq!(entry(&read, "mass").why, "own");
}

#[test]
fn the_same_run_holds() {
    let baseline = read_back(&recorded(&["usual", "joint"]));
    let set = set();
    let held = hold(&baseline, &set);
    assert!(held.holds() && held.new.is_empty() && held.inputs.is_empty());
    assert_eq!(held.rows.len(), baseline.entries.len());
    assert!(held.by_importance().is_empty());
}

/// The set with one value replaced.
fn with(quantity: &str, value: f64) -> ResultSet {
    let mut set = set();
    set.quantities.iter_mut().find(|one| one.quantity == quantity).unwrap().value = value;
    set
}

#[test]
fn a_value_departs_from_its_tolerance_on() {
    let baseline = read_back(&recorded(&["joint"]));
    for (value, holds) in [(4e-9, true), (-3.9e-9, true), (4.2e-9, false), (-1.0, false)] {
        assert_eq!(hold(&baseline, &with("uy_mm", value)).holds(), holds, "{value}");
    }
    let changed = with("ux_mm", 3.3);
    let held = hold(&baseline, &changed);
    let [row] = held.by_importance()[..] else { panic!("one departs") };
    let Standing::Departs(departure) = &row.standing else { panic!("it departs") };
    assert!((departure.per_cent.unwrap() - 10.0).abs() < 1e-12);
    assert!((departure.tolerances * 4e-9 - 0.3).abs() < 1e-12);
    assert_eq!(
        wording::of(row).unwrap().1,
        "joint front, left: ux_mm, case kerb: 3 mm → 3.3 mm, +10.00 % (7.5e7 tolerances)"
    );
}

#[test]
fn what_matters_most_is_told_first() {
    let baseline = read_back(&recorded(&["usual", "joint", "reaction"]));
    let mut other = set();
    for one in &mut other.quantities {
        // The smaller the matter, the larger the departure.
        one.value += match one.kind {
            Kind::Frame => 1e-3 * one.value,
            Kind::Case => 0.1,
            _ => 10.0,
        };
    }
    other.items.clear();
    let held = hold(&baseline, &other);
    let order: Vec<&str> = held.by_importance().iter().map(|row| row.entry.kept.key.quantity.as_str()).collect();
    assert_eq!(order[..2], ["torsional_stiffness", "mass"]);
    let place = |quantity: &str| order.iter().position(|one| *one == quantity).unwrap();
    assert!(place("worst") < place("worst_utilisation") && place("worst_utilisation") < place("greatest_force"));
    assert!(place("greatest_force") < place("ux_mm"));
}

#[test]
fn missing_new_and_changed_are_told_and_only_missing_fails() {
    let baseline = read_back(&recorded(&["usual", "joint"]));
    let mut other = set();
    other.quantities.push(one(Kind::Joint, "kerb", "rear", "ux_mm", "mm", 1.0));
    other.about = about("2.0.0", &[("joints.csv", "ab"), ("tubes.csv", "ee"), ("masses.csv", "ff")]);
    let held = hold(&baseline, &other);
    assert!(held.holds(), "what the baseline says nothing of cannot fail");
    assert_eq!(held.new.len(), 1);
    assert_eq!(held.inputs, [InputChange::Differs("tubes.csv".into()), InputChange::Added("masses.csv".into())]);
    assert_eq!((held.recorded_by, held.version), ("1.2.3", "2.0.0"));
    other.quantities.retain(|one| one.quantity != "uz_mm");
    let held = hold(&baseline, &other);
    assert!(held.by_importance().iter().any(|row| row.standing == Standing::Missing) && !held.holds());
}

#[test]
fn an_update_keeps_what_its_author_decided() {
    let mut earlier = read_back(&recorded(&["usual"]));
    let mass = earlier.entries.iter_mut().find(|entry| entry.kept.key.quantity == "mass").unwrap();
    (mass.tolerance, mass.why) = (2.0, "the scales in the workshop".into());
    let own = earlier.rules.iter_mut().find(|rule| rule.name == "own").unwrap();
    (own.share, own.why) = (1e-6, "our two build machines".into());
    let by_hand = Kept::number(Key::new(Kind::Joint, "kerb", "front, left", "uz_mm"), -4.0, "mm");
    earlier.entries.push(Entry { kept: by_hand, tolerance: 0.5, why: "ground clearance".into(), line: 0 });
    let fresh = record(&with("mass", 413.0), &earlier.keep, &circumstances(), Some(&earlier));
    let mass = entry(&fresh, "mass");
    assert_eq!((&mass.kept.value, mass.tolerance), (&Value::Number(413.0), 2.0));
    assert_eq!(entry(&fresh, "torsional_stiffness").tolerance, 7e-3, "the author's share of the rule");
    assert_eq!(entry(&fresh, "uz_mm").why, "ground clearance", "a row that no pattern means");
}

#[test]
fn patterns_that_keep_nothing_are_found() {
    let keep = patterns(&["usual", "joint:::ux_mm", "mount", "joint:kerb:rear"]);
    let idle: Vec<String> = idle(&set(), &keep).into_iter().map(ToString::to_string).collect();
    assert_eq!(idle, ["mount", "joint:kerb:rear"]);
}

/// Codes and lines of what is wrong with a text.
fn faults(text: &str) -> Vec<(&'static str, usize)> {
    let faults = read_baseline(text.as_bytes()).unwrap_err().0;
    assert!(faults.iter().all(|fault| fault.severity == Severity::Error && !fault.help.is_empty()));
    faults.iter().map(|fault| (fault.code.0, fault.place.as_ref().map_or(0, |place| place.line))).collect()
}

#[test]
fn every_fault_is_told_with_its_line() {
    let head = "kind,case,subject,quantity,value,unit,tolerance,why\n";
    let format = "baseline,,,format,1,,,\n";
    assert_eq!(faults(""), [("B001", 1)]);
    assert_eq!(faults("# a comment\nkind,case\n"), [("B001", 2)]);
    assert_eq!(faults(&format!("{head}frame,,,mass,1,kg,0,own\n")), [("B001", 0)], "no format");
    assert_eq!(faults(&format!("{head}baseline,,,format,9,,,\nframe,,,mass,1,kg,0,own\n")), [("B001", 0)]);
    assert_eq!(faults(&format!("{head}{format}")), [("B001", 0)], "nothing to check");
    let rows = "frame,,,mass,1,kg,0,own\nframe,,,mass,2,kg,0,own\nfrome,,,mass,1,kg,0,own\nframe,,,a,x,kg,0,own\n\
                frame,,,b,1,kg,-1,own\nframe,,,c,1,kg,1,\nframe,,,d,inf,kg,1,own\nkeep,,,,a:b:c:d:e,,,\nframe,,,e,1\n";
    assert_eq!(
        faults(&format!("{head}{format}{rows}")),
        [
            ("B003", 4),
            ("B002", 5),
            ("B002", 6),
            ("B002", 7),
            ("B002", 8),
            ("B002", 9),
            ("B002", 10),
            // Neither tolerance nor reason.
            ("B002", 11),
            ("B002", 11)
        ]
    );
    let by_hand = "# what the scales said\n\n# twice\nframe,,,a,x,kg,0,own\n";
    assert_eq!(faults(&format!("\u{feff}{head}{format}{by_hand}")), [("B002", 6)], "comments are passed over");
    assert_eq!(faults("\n# a comment\n\nkind,case\n1,2\n"), [("B001", 4)]);
    assert!(read_baseline(&[0xff, 0xfe, 0x00]).is_err());
}

#[test]
fn junit_is_well_formed_whatever_the_names_are() {
    let hostile = "a\u{1}<b>&\"'\u{fffe}]]>";
    let mut set = set();
    set.quantities.push(one(Kind::Joint, "kerb", hostile, "ux_mm", "mm", 1.0));
    let baseline = record(&set, &patterns(&["usual", "joint"]), &circumstances(), None);
    let mut now = set.clone();
    now.quantities.iter_mut().filter(|one| one.kind == Kind::Joint).for_each(|one| one.value += 1.0);
    now.quantities.push(one(Kind::Mount, "kerb", hostile, "fx_n", "N", 1.0));
    let held = hold(&baseline, &now);
    let xml = junit(&[
        Checked { model: hostile, file: "a/baseline.csv", outcome: Outcome::Held(&held) },
        Checked { model: "other", file: "b/baseline.csv", outcome: Outcome::Failed("first line\nsecond <line>") },
    ]);
    let mut reader = quick_xml::Reader::from_str(&xml);
    let mut count = std::collections::BTreeMap::new();
    loop {
        match reader.read_event().unwrap_or_else(|fault| panic!("{fault}:\n{xml}")) {
            Event::Start(start) | Event::Empty(start) => {
                for attribute in start.attributes() {
                    attribute.unwrap();
                }
                *count.entry(start.name().as_ref().to_owned()).or_insert(0) += 1;
            }
            Event::Eof => break,
            _ => {}
        }
    }
    let failed = held.by_importance().len();
    assert_eq!(count["testcase"], held.rows.len() + held.new.len() + 1);
    assert_eq!((count["failure"], count["error"], count["skipped"]), (failed, 1, held.new.len()));
    assert!(xml.contains(&format!("failures=\"{failed}\" errors=\"1\"")), "{xml}");
    assert!(!xml.contains('\u{1}') && !xml.contains('\u{fffe}'));
}

#[test]
fn remarks_escape_what_a_service_would_obey() {
    let subject = "x,y:\n::error::100%;]";
    let mut set = set();
    set.quantities.push(one(Kind::Joint, "kerb", subject, "ux_mm", "mm", 1.0));
    let baseline = read_back(&record(&set, &patterns(&["joint"]), &circumstances(), None));
    let mut now = set.clone();
    now.quantities.iter_mut().filter(|one| one.subject == subject).for_each(|one| one.value = 2.0);
    let held = hold(&baseline, &now);
    let file = "my,frames:1/base;line].csv";
    let line = held.by_importance()[0].entry.line;
    let github = annotations(&[(&held, file)], Service::Github);
    assert!(
        github.starts_with(&format!("::error file=my%2Cframes%3A1/base;line].csv,line={line},title=B010::")),
        "{github}"
    );
    assert!(github.contains("x,y:%0A::error::100%25;]: ux_mm") && github.lines().count() == 1, "{github}");
    let azure = annotations(&[(&held, file)], Service::Azure);
    assert!(azure.contains("sourcepath=my,frames:1/base_line_.csv;") && azure.lines().count() == 1, "{azure}");
    let gitlab: serde_json::Value = serde_json::from_str(&annotations(&[(&held, file)], Service::Gitlab)).unwrap();
    assert_eq!(gitlab[0]["location"]["path"], file);
    assert_eq!(gitlab[0]["location"]["lines"]["begin"], line);
    assert_eq!(gitlab[0]["fingerprint"].as_str().unwrap().len(), 64);
}

#[test]
fn a_remark_is_known_again_by_what_it_is_of() {
    let subjects = ["a → b", "a → c", "left: top", "left: foot"];
    let mut set = set();
    set.quantities.extend(subjects.map(|subject| one(Kind::Joint, "kerb", subject, "ux_mm", "mm", 1.0)));
    let baseline = read_back(&record(&set, &patterns(&["joint"]), &circumstances(), None));
    let prints = |by: f64| {
        let mut now = set.clone();
        now.quantities.iter_mut().filter(|one| subjects.contains(&&*one.subject)).for_each(|one| one.value += by);
        let text = annotations(&[(&hold(&baseline, &now), "baseline.csv")], Service::Gitlab);
        let list: Vec<serde_json::Value> = serde_json::from_str(&text).unwrap();
        list.iter().map(|one| one["fingerprint"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let known: Vec<String> = subjects
        .map(|subject| {
            let print = Sha256::digest(format!("B010 baseline.csv joint {subject}: ux_mm, case kerb"));
            print.iter().map(|byte| format!("{byte:02x}")).collect()
        })
        .to_vec();
    assert_eq!(prints(1.0), known);
    assert_eq!(prints(2.0), known, "its numbers do not count");
}

proptest! {
    #[test]
    fn any_values_and_names_read_back(
        rows in prop::collection::vec(("\\PC{0,12}", "\\PC{1,12}", prop::num::f64::NORMAL | prop::num::f64::ZERO), 1..20)
    ) {
        let quantities: Vec<Quantity> = rows
            .iter()
            .enumerate()
            .map(|(place, (case, subject, value))| one(Kind::Joint, case, &format!("{place}{subject}"), "ux_mm", "mm", *value))
            .collect();
        let set = ResultSet { quantities, ..ResultSet::default() };
        let baseline = record(&set, &patterns(&["*"]), &circumstances(), None);
        let read = read_back(&baseline);
        prop_assert_eq!(read.entries.len(), rows.len());
        prop_assert!(hold(&read, &set).holds());
        for (read, kept) in read.entries.iter().zip(&baseline.entries) {
            prop_assert_eq!(&read.kept, &kept.kept);
            prop_assert_eq!(read.tolerance.to_bits(), kept.tolerance.to_bits());
        }
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in "(kind,case,subject,quantity,value,unit,tolerance,why\n)?([a-z\",\n0-9.-]{0,40}\n){0,6}") {
        let _ = read_baseline(text.as_bytes());
    }
}
