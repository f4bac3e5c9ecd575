//! The report: complete, escaped, well-formed, self-contained.

use strutwork_report::{Run, report_html};

use crate::fixture::{Finished, cantilever, twisted_box};
use crate::turn::without_view_program;

/// Elements that HTML never closes.
const VOID: [&str; 3] = ["meta", "br", "input"];

/// Every element is closed in order; returns how many there were.
#[track_caller]
pub(crate) fn assert_balanced(html: &str) -> usize {
    let page = without_view_program(html);
    let mut open: Vec<&str> = Vec::new();
    let (mut rest, mut count) = (page.as_str(), 0);
    while let Some(start) = rest.find('<') {
        rest = &rest[start + 1..];
        let end = rest.find('>').expect("an unclosed tag");
        let tag = &rest[..end];
        rest = &rest[end + 1..];
        if tag.starts_with('!') {
            continue;
        }
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "closed out of order before: {:.80}", rest);
            continue;
        }
        let name = tag.split([' ', '\n', '/']).next().unwrap_or_default();
        count += 1;
        if name == "style" {
            rest = &rest[rest.find("</style>").expect("an unclosed style sheet")..];
        }
        if !tag.ends_with('/') && !VOID.contains(&name) {
            open.push(name);
        }
    }
    assert!(open.is_empty(), "left open: {open:?}");
    count
}

fn visible(html: &str) -> String {
    html.replace('\u{202f}', " ")
}

#[test]
fn the_report_is_well_formed_self_contained_and_the_same_every_time() {
    for finished in [Finished::plain(&cantilever(-100.0)), twisted_box()] {
        let html = report_html(&finished.run());
        assert!(assert_balanced(&html) > 300);
        for outside in ["<script", "<link", "<img", "<iframe", "@import", "url(", "src=", "@font-face"] {
            assert!(!without_view_program(&html).contains(outside), "{outside}");
        }
        let addresses = html.matches("http").count();
        assert_eq!(addresses, html.matches("xmlns=\"http://www.w3.org/2000/svg\"").count());
        assert_eq!(html, report_html(&finished.run()));
    }
}

#[test]
fn every_link_of_the_contents_leads_somewhere_and_ids_are_unique() {
    let html = report_html(&twisted_box().run());
    let ids: Vec<&str> = html.split(" id=\"").skip(1).filter_map(|tail| tail.split('"').next()).collect();
    let mut unique = ids.clone();
    unique.sort_unstable();
    unique.dedup();
    assert_eq!(unique.len(), ids.len());
    let links: Vec<&str> = html.split("href=\"#").skip(1).filter_map(|tail| tail.split('"').next()).collect();
    assert!(links.len() >= 11);
    assert!(links.iter().all(|link| ids.contains(link)), "{links:?}");
}

#[test]
fn every_picture_and_table_says_what_it_is() {
    let html = report_html(&twisted_box().run());
    assert_eq!(html.matches("<svg ").count(), html.matches("role=\"img\" aria-label=\"").count());
    assert_eq!(html.matches("<svg ").count(), html.matches("<figcaption>").count());
    assert_eq!(html.matches("<table>").count(), html.matches("<caption>").count());
    assert!(html.contains("<html lang=\"en\">"));
    assert!(!html.contains("<th>"), "a heading cell without a scope");
}

#[test]
fn a_case_is_told_from_its_factors_to_its_answer() {
    let finished = twisted_box();
    let html = visible(&report_html(&finished.run()));
    for said in [
        "Pure torsion",
        "cannot occur as it stands",
        "twist_dynamic",
        "a source of the test, Table 1",
        "set by the model",
        "Couple T = F·s.",
        "L901",
        "FR \u{2212}100 N",
        "a wheel that would have to pull on the road",
        "A couple of 400.0 N·m about x twists the frame",
        "joints front-low-L and front-low-R (x = 1000 and 1000 mm)",
        "what was fitted is what section 4 lists",
        "Deformed shape, displacements drawn",
        "M999",
        "tubes.csv, line 7",
        "SHA-256",
        "Sign-off by the reviewing engineer",
    ] {
        assert!(html.contains(said), "{said}");
    }
    assert!(html.contains(&"ab".repeat(32)));
}

#[test]
fn what_is_not_checked_is_never_a_pass() {
    let html = report_html(&Finished::plain(&cantilever(-100.0)).run());
    let outside = html.split("Outside the checks").nth(1).and_then(|tail| tail.split("</ul>").next()).unwrap();
    for what in ["weld", "buckling", "joints", "fatigue", "brackets", "rust", "crash"] {
        assert!(outside.contains(what), "{what} is not told to be outside");
    }
    assert!(outside.contains("counts neither as passed nor as failed"));
    let words: String = html.split(['<', '>']).collect::<Vec<_>>().join(" ").to_lowercase();
    for promise in ["is safe.", "all checks passed", "passed all", "certified", "approved for use"] {
        assert!(!words.contains(promise), "{promise}");
    }
    assert!(words.contains("not a proof of safety"));
}

#[test]
fn a_tube_over_its_limit_is_told_at_the_top() {
    let fine = report_html(&Finished::plain(&cantilever(-100.0)).run());
    let over = report_html(&Finished::plain(&cantilever(-4000.0)).run());
    assert!(over.contains("Over its limit.") && over.contains("checks exceed their limit"));
    assert!(over.contains("over 1</text>") && over.contains("class=\"n over\""));
    assert!(fine.contains("No check made here exceeds its limit"));
    assert!(!fine.contains("Over its limit.") && !fine.contains("class=\"n over\""));
}

#[test]
fn hostile_names_stay_text_everywhere() {
    let name = "<script>alert(1)</script>";
    let tube = "\"'><svg onload=alert(2)> & </style>";
    let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let (joint, tube_cell) = (quoted(name), quoted(tube));
    let folder = cantilever(-100.0)
        .with("joints.csv", format!("joint,x_mm,y_mm,z_mm,note\nwall,0,0,0,<b>note</b>\n{joint},500,0,0,\n"))
        .with("tubes.csv", format!("tube,from,to,section,material,group\n{tube_cell},wall,{joint},rail,mild,<g>\n"))
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n<case>,{joint},0,0,-4000,0,0,0\n"))
        .with("masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints\n<mass>,1,0,0,0,wall\n");
    let mut finished = Finished::plain(&folder);
    finished.info.command = "strutwork run <folder>".into();
    finished.info.date = "</style><script>alert(3)</script>".into();
    finished.info.inputs[0].file = "<file>.csv".into();
    finished.info.warnings[0].message = "<em>message</em>".into();
    finished.cases.0[0].title = "<title>".into();
    let html = report_html(&finished.run());
    assert_balanced(&html);
    let hostile = ["<script", "<b>note", "<g>\n", "<case>", "<mass>", "<folder>", "<file>", "<em>", "onload=alert(2)>"];
    for text in hostile {
        assert!(!without_view_program(&html).contains(text), "{text} came through");
    }
    // In tables (askama's escapes) and in pictures (ours).
    assert!(html.contains("&#60;script&#62;alert(1)&#60;/script&#62;"));
    assert!(html.contains("&lt;script&gt;alert(1)&lt;/script&gt;</text>"));
    assert_eq!(html.matches("</style>").count(), 1);
    let attributes = html.split("aria-label=\"").skip(1).filter_map(|tail| tail.split('"').next());
    assert!(attributes.clone().any(|label| label.contains("&lt;case&gt;")));
    assert!(attributes.clone().all(|label| !label.contains('<')));
}

#[test]
fn a_frame_without_cases_still_makes_a_report() {
    let finished = Finished::plain(&cantilever(-100.0));
    let none = (
        strutwork_loads::LoadCases::default(),
        strutwork_solve::Results { cases: Vec::new(), ..finished.results.clone() },
    );
    let run = Run { cases: &none.0, results: &none.1, findings: &[], figures: None, worth: None, ..finished.run() };
    let html = report_html(&run);
    assert_balanced(&html);
    assert!(html.contains("No load case was built"));
    assert!(html.contains("nothing was judged against a limit"));
}
