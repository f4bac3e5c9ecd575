//! The page of a study: of bounded size however many variants there are, and sane where there is little to tell.

use strutwork_model::spec::ModelSpec;
use strutwork_report::study::StudyRun;
use strutwork_report::{Sheet, study_files};
use strutwork_study::{
    Asked, Change, Constraint, Design, Levels, Limit, Outcome, Overview, Parameter, Response, Row, Start, Status,
    Study, Value, Way,
};

/// A study of four numbers, with a mass, a stiffness and one more answer, of which at most 4.5 is required.
fn study(design: Design) -> Study {
    let mut study = Study::new("numbers", ModelSpec::default());
    for name in ["a_mm", "b_mm", "c_mm", "<d>"] {
        let levels = Levels::Range { from: 0.0, to: 1.0 };
        let parameter = Parameter::new(&study.base, Some(name), Change::Own, levels).expect("a parameter");
        study.parameters.push(parameter.starting(0.0.into()));
    }
    for (name, asked) in [("tubes_kg", Asked::TubesMass), ("k", Asked::TwistStiffness), ("more", Asked::Own)] {
        study.responses.push(Response { name: name.to_owned(), asked });
    }
    study.constraints.push(Constraint { response: 2, limit: Limit::AtMost(4.5) });
    study.design = design;
    study
}

/// What comes of it, where every fifth variant is a mechanism.
fn overview(study: &Study, solved: impl Fn(u64) -> bool) -> Overview {
    let mut overview = Overview::new(study);
    for variant in 0..study.count().expect("variants") {
        let values = study.values(variant);
        let [a, b, c, d] = [0, 1, 2, 3].map(|place: usize| values[place].number().expect("a number"));
        let outcome = if solved(variant) {
            let answers = [20.0 + a + b + c + d, 3000.0 + 800.0 * (a + 0.5 * b * c).sqrt() + 100.0 * d, 1.0 + 4.0 * a];
            study.solved(answers.map(Some).to_vec(), Way::Lanes)
        } else {
            study.unsolved(
                Status::Mechanism,
                format!("mechanism at <joint {variant}>: {}", "long ".repeat(100)),
                Way::Lanes,
            )
        };
        overview.add(&Row { variant, values, outcome });
    }
    overview
}

#[track_caller]
fn page(study: &Study, overview: &Overview) -> String {
    let start = Start { model: None, worth: Err("there is no model".to_owned()) };
    let run = StudyRun { study, overview, start: &start, identity: "ab12", version: "1", stem: "numbers" };
    let plain = study_files(&run, None).expect("a page");
    let mut files = study_files(&run, Some(Sheet::A4)).expect("a page");
    let (name, paper) = files.pop().expect("the page on paper");
    assert!(name == "study.pdf" && paper.starts_with(b"%PDF-"));
    assert_eq!(files, plain, "the paper comes on top");
    assert_eq!(files[0].0, "study.html");
    for (name, bytes) in &files[1..] {
        assert!(!bytes.is_empty() && name.starts_with("pictures/numbers-"), "{name}");
    }
    let page = String::from_utf8(files[0].1.clone()).expect("text");
    assert!(!page.contains("<d>") && !page.contains("<joint"), "names are escaped");
    let told = page.split("<script>").next().expect("the page before its program");
    assert!(!told.contains("NaN") && !told.contains("not a number") && !told.contains(">inf<"), "no bare numbers");
    page
}

#[test]
fn many_variants_give_a_page_no_larger_than_some_do() {
    let [some, many] = [20_000, 100_000].map(|count| {
        let study = study(Design::LatinHypercube { count, seed: 3 });
        let overview = overview(&study, |variant| variant % 5 != 4);
        assert_eq!(overview.tally.variants, count);
        assert!(!overview.chosen.complete && overview.cloud.points.is_empty());
        assert!(overview.shown().len() < 1100, "{}", overview.shown().len());
        let cells: u64 = overview.cloud.density.as_ref().expect("cells").cells().flat_map(|(_, counts)| counts).sum();
        assert_eq!(cells, count / 5 * 4, "every solved variant is in the picture");
        page(&study, &overview)
    });
    assert!(many.len() < 1_000_000 && many.len() < some.len() * 2, "{} and {}", some.len(), many.len());
    assert!(
        many.contains("100\u{202f}000 variants, 80000 solved.") && many.contains("Every variant stands in numbers.csv")
    );
    assert!(many.contains("20\u{202f}000 variants: mechanism. The first, variant 4"));
}

#[test]
fn all_variants_stand_in_the_page_while_they_are_few() {
    let study = study(Design::Sobol { count: 256, seed: 1 });
    let overview = overview(&study, |variant| variant != 7);
    let page = page(&study, &overview);
    assert!(overview.chosen.complete);
    assert_eq!(
        page.split("id=\"variants\"")
            .nth(1)
            .expect("the table")
            .split("</table>")
            .next()
            .unwrap()
            .matches("<tr>")
            .count(),
        257
    );
    assert!(page.contains("256 variants, 255 solved."));
    // Samples enough for what the numbers do one by one; a and b, c are told of two by two only where they stand out.
    assert!(page.contains("What each parameter does to torsional stiffness K"));
}

#[test]
fn little_to_tell_is_told_as_such() {
    let one = |values: [f64; 4]| values.iter().copied().map(Value::Number).collect();
    let list = study(Design::List(vec![one([0.0; 4])]));
    let none = overview(&list, |_| false);
    let text = page(&list, &none);
    assert!(text.contains("None of 1 variant could be solved") && text.contains("there is no front"), "{text:.300}");
    let single = overview(&list, |_| true);
    let text = page(&list, &single);
    assert!(
        text.contains(
            "1 variant, all solved. One keeps what is required. Least mass of the tubes: 20.000 kg, variant 0"
        )
    );
    assert!(text.contains("Nothing is said of it: there is no model."));
    let failing = study(Design::List(vec![one([1.0, 0.0, 0.0, 0.0]), one([0.95, 0.0, 0.0, 1.0])]));
    let all = overview(&failing, |_| true);
    let text = page(&failing, &all);
    assert!(text.contains("No variant keeps what is required.") && text.contains("keeps not all that is required"));
    assert!(text.contains("No two variants differ by one parameter alone"));
}

#[test]
fn what_has_no_bounds_is_no_number_of_a_picture() {
    let study = study(Design::Sobol { count: 64, seed: 1 });
    let mut overview = Overview::new(&study);
    for variant in 0..64 {
        let more = if variant % 2 == 0 { f64::INFINITY } else { variant as f64 };
        let outcome: Outcome = study.solved(vec![Some(variant as f64), Some(f64::INFINITY), Some(more)], Way::Lanes);
        overview.add(&Row { variant, values: study.values(variant), outcome });
    }
    let page = page(&study, &overview);
    assert!(page.contains('∞') && overview.front.members.is_empty());
}
