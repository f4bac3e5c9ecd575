//! What the frame was judged by, what governs, and the calculations written out.

use serde_json::Value;
use strutwork_checks::calculation::{Unit, digits};
use strutwork_checks::{Finding, Subject, written};
use strutwork_model::ids::Id;
use strutwork_model::{Code, Severity, TubeId};
use strutwork_report::{report_html, run_json};
use strutwork_testkit::Folder;

use crate::fixture::{Finished, cantilever, twisted_box};
use crate::html::assert_balanced;
use crate::turn::without_view_program;

/// A brace on a chord that runs through, both square tubes; `names` are those of the brace and of the joint where they meet.
fn tee([brace, joint]: [&str; 2], load: f64) -> Folder {
    let [brace, joint] = [brace, joint].map(|name| format!("\"{}\"", name.replace('"', "\"\"")));
    Folder::steel()
        .with("joints.csv", format!("joint,x_mm,y_mm,z_mm\nleft,-500,0,0\n{joint},0,0,0\nright,500,0,0\ntop,0,0,400\n"))
        .with(
            "tubes.csv",
            format!("tube,from,to,section,material\nC1,left,{joint},rail,mild\nC2,{joint},right,rail,mild\n{brace},top,{joint},rail,mild\n"),
        )
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nleft,fixed,fixed,fixed,fixed,fixed,fixed\nright,fixed,fixed,fixed,fixed,fixed,fixed\n",
        )
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,top,{load},0,0,0,0,0\n"))
}

fn finding(code: &'static str, subject: Subject, utilisation: f64, clause: &str) -> Finding {
    Finding {
        code: Code(code),
        severity: if utilisation > 1.0 { Severity::Error } else { Severity::Note },
        case: "twist".to_owned(),
        subject,
        value: utilisation * 100.0,
        limit: Some(100.0),
        unit: "MPa",
        utilisation: Some(utilisation),
        clause: clause.to_owned(),
        entered: vec![("N_Ed", -12_345.0, Unit::N), ("M_y,Ed", 12.3, Unit::NM), ("χ", 0.871_234_56, Unit::ONE)],
        message: String::new(),
    }
}

const OUTSIDE: &str = "outside scope: wall 1.5 mm, under 2.5 mm; EN 1993-1-8 7.1.1";

/// The box, with findings of our own in place of those of the design checks.
fn box_with(findings: Vec<Finding>) -> Finished {
    let mut finished = twisted_box();
    finished.findings.retain(|finding| finding.code.0.starts_with('T') || finding.code.0 == "D002");
    finished.findings.extend(findings);
    finished
}

/// Text of a page as a reader sees it: without tags, thin spaces as spaces.
fn seen(html: &str) -> String {
    let mut text = String::new();
    let mut rest = html;
    while let Some((before, after)) = rest.split_once('<') {
        text.push_str(before);
        rest = after.split_once('>').map_or("", |(_, tail)| tail);
    }
    text.push_str(rest);
    text.replace('\u{202f}', " ")
        .replace("&#39;", "'")
        .replace("&#60;", "<")
        .replace("&#62;", ">")
        .replace("&amp;", "&")
}

fn section<'h>(html: &'h str, id: &str) -> &'h str {
    html.split(&format!("<section id=\"{id}\"")).nth(1).and_then(|tail| tail.split("</section>").next()).unwrap()
}

#[test]
fn the_numbers_that_entered_stand_in_the_last_column() {
    let tube = Subject::Tube(TubeId::new(0));
    let rows = box_with(vec![finding("D021", tube, 0.4, "6.2")]).rows("findings.csv");
    let row = rows.iter().find(|row| row[0] == "D021").unwrap();
    assert_eq!(row.last().unwrap(), "N_Ed=-12345 N; M_y,Ed=12.3 N·m; χ=0.871235");
    assert_eq!(rows.iter().find(|row| row[0] == "D002").unwrap().last().unwrap(), "");
}

#[test]
fn governing_has_a_row_an_item_with_the_worst_first() {
    let (tube, end) = (TubeId::new(0), Subject::End { tube: TubeId::new(0), at_to: true });
    let finished = box_with(vec![
        finding("D021", Subject::Tube(tube), 0.4, "EN 1993-1-1 6.2"),
        finding("D022", Subject::Tube(tube), 0.6, "EN 1993-1-1 6.3.3"),
        finding("D030", end, 0.3, OUTSIDE),
        finding("D031", end, 0.7, "EN 1993-1-8 4.5.3.2"),
        finding("D032", end, 0.2, OUTSIDE),
    ]);
    let rows = finished.rows("governing.csv");
    let told: Vec<String> = rows[1..]
        .iter()
        .map(|row| [&row[0], &row[2], &row[4], &row[9], &row[12]].map(String::as_str).join(","))
        .collect();
    assert_eq!(told, ["weld,D031,0.7,in,D032", "tube,D022,0.6,in,", "joint,D030,0.3,outside,D030"]);
    let joint = &finished.model.joints()[finished.model.tubes()[tube].to].name;
    assert_eq!(rows[1][1], format!("{} at {joint}", finished.model.tubes()[tube].name));
    assert_eq!(&rows[1][5..9], ["70", "100", "MPa", "EN 1993-1-8 4.5.3.2"]);
}

/// A weld whose governing check is in scope, with another check of it that is not; and one that is outside altogether.
#[test]
fn what_is_outside_a_clause_is_never_shown_as_a_pass() {
    let ends = [false, true].map(|at_to| Subject::End { tube: TubeId::new(3), at_to });
    let tube = Subject::Tube(TubeId::new(3));
    let finished = box_with(vec![
        finding("D021", tube, 0.4, "EN 1993-1-1 6.2"),
        finding("D031", ends[0], 0.7, "EN 1993-1-8 4.5.3.2"),
        finding("D032", ends[0], 0.1, OUTSIDE),
        finding("D031", ends[1], 0.2, OUTSIDE),
    ]);
    let html = report_html(&finished.run());
    let shown = section(&html, "utilisation");
    let row = |about: &str| {
        let tail =
            shown.split(&format!("<th scope=\"row\">{about}</th>")).nth(1).unwrap_or_else(|| panic!("no {about}"));
        seen(tail.split("</tr>").next().unwrap())
    };
    for subject in ends {
        let told = row(&finished.run().about(subject));
        assert!(told.contains("outside scope") && !told.contains("within"), "{told}");
    }
    assert!(row(&finished.run().about(ends[0])).contains("also outside scope: D032"));
    assert!(row(&finished.run().about(tube)).contains("within"));
    assert!(seen(section(&html, "summary")).contains("2 items exceed nothing but lie outside the scope of a clause"));
    // In the count of items: none of the two welds is within its limits.
    let counted = shown.split("Welds, and the steel beside them").nth(1).unwrap().split("</tr>").next().unwrap();
    let counts: Vec<&str> = counted.split("<td>").skip(1).filter_map(|cell| cell.split('<').next()).collect();
    assert_eq!(counts, ["0", "2", "0", "0"]);
    // The picture: an open ring for a joint outside, told in words.
    assert!(shown.contains("an open ring lies outside it and is no pass"));
    let json: Value = serde_json::from_str(&run_json(&finished.run())).unwrap();
    let welds = json["judging"]["items"].as_array().unwrap().iter().find(|items| items["kind"] == "weld").unwrap();
    assert_eq!((&welds["outside_scope"], &welds["passed"]), (&Value::from(2), &Value::from(0)));
    let worst = json["judging"]["worst"].as_array().unwrap();
    assert!(worst.iter().any(|worst| worst["kind"] == "weld" && worst["scope"] == "in" && worst["code"] == "D031"));
}

#[test]
fn an_item_over_its_limit_is_over_even_outside_its_clause() {
    let end = Subject::End { tube: TubeId::new(0), at_to: false };
    let html = report_html(&box_with(vec![finding("D030", end, 1.4, OUTSIDE)]).run());
    let shown = section(&html, "utilisation");
    assert!(shown.contains("class=\"n over\">1.40") && shown.contains("<span class=\"tag error\">over</span>"));
    assert!(section(&html, "summary").contains("One check exceeds its limit"));
}

#[test]
fn a_basis_is_printed_with_every_factor_and_its_source() {
    let vehicle = report_html(&twisted_box().run());
    let told = seen(section(&vehicle, "assumptions"));
    for part in ["What the frame is judged by: vehicle practice", "margin on yield", "Garrett (1953)", "γMf"] {
        assert!(told.contains(part), "{part}");
    }
    assert!(!told.contains("γM5 strength") && !told.contains("γF"));
    let basis = "[basis]\nkind = \"eurocode\"\ngamma_m0 = { value = 1.1, source = \"an annex <of the test>\" }\n";
    let finished = Finished::plain(&cantilever(-100.0).and("model.toml", basis));
    let html = report_html(&finished.run());
    let told = seen(section(&html, "assumptions"));
    for part in
        ["Eurocode partial factors", "γF", "γM0", "an annex <of the test>", "γM1", "γM2", "γM5", "γMf", "EN 1990"]
    {
        assert!(told.contains(part), "{part}");
    }
    assert!(!told.contains("margin on yield"), "one basis, not both");
    let json: Value = serde_json::from_str(&run_json(&finished.run())).unwrap();
    assert_eq!(json["judging"]["basis"], "eurocode");
    let factors = json["judging"]["factors"].as_array().unwrap();
    assert!(factors.iter().any(|factor| factor["name"] == "γ_M0" && factor["value"] == 1.1));
    // A case of loads.csv gives design values.
    assert_eq!(json["judging"]["by_nature"][0]["margin"], 1.0);
    assert_eq!(json["judging"]["by_nature"][0]["gamma_m0"], 1.1);
}

#[test]
fn a_check_that_is_switched_off_is_told_where_it_cannot_be_missed() {
    let off = "[checks.D001]\noff = true\nreason = \"judged <by hand>\"\n";
    let finished = Finished::plain(&cantilever(-4000.0).and("model.toml", off));
    let html = report_html(&finished.run());
    assert_balanced(&html);
    assert!(
        seen(section(&html, "summary"))
            .contains("Switched off by the model's author: check D001 (stress against yield).")
    );
    let told = seen(section(&html, "assumptions"));
    assert!(told.contains("D001, stress against yield: not checked. Reason given: judged <by hand>"), "{told}");
    assert!(seen(section(&html, "findings")).contains("switched off: judged <by hand>"));
    let json: Value = serde_json::from_str(&run_json(&finished.run())).unwrap();
    assert_eq!(json["judging"]["switched_off"], serde_json::json!([{ "check": "D001", "reason": "judged <by hand>" }]));
    assert!(!report_html(&Finished::plain(&cantilever(-100.0)).run()).contains("Switched off"));
}

#[test]
fn checks_are_counted_by_code_and_severity() {
    let tube = |at| Subject::Tube(TubeId::new(at));
    let finished = box_with(vec![
        finding("D021", tube(0), 0.4, "6.2"),
        finding("D021", tube(1), 1.4, "6.2"),
        finding("D021", tube(2), 0.4, OUTSIDE),
    ]);
    let json: Value = serde_json::from_str(&run_json(&finished.run())).unwrap();
    let checks = json["judging"]["checks"].as_array().unwrap();
    let section = checks.iter().find(|check| check["code"] == "D021").unwrap();
    let told = ["errors", "warnings", "notes", "outside_scope"].map(|key| section[key].as_u64().unwrap());
    assert_eq!(told, [1, 0, 2, 1]);
    let tubes = &json["judging"]["items"][0];
    let all = finished.model.tubes().len() as u64;
    let told = ["exceeded", "outside_scope", "passed", "not_judged"].map(|key| tubes[key].as_u64().unwrap());
    assert_eq!((tubes["kind"].as_str(), told), (Some("tube"), [1, 1, 1, all - 3]));
}

/// Every line of a calculation is on the page with its formula, its numbers and its result.
#[test]
fn a_calculation_is_written_out_whole() {
    let finished = Finished::plain(&tee(["brace", "node"], 300.0));
    let html = report_html(&finished.run());
    let shown = seen(&html);
    let page = |text: &str| text.replace('_', "").replace('-', "\u{2212}");
    let mut lines = 0;
    let weld = finished.findings.iter().filter(|finding| finding.code.0 == "D031");
    let worst = weld.max_by(|a, b| a.utilisation.partial_cmp(&b.utilisation).unwrap()).unwrap();
    let calculation = written(finished.run().judged(), worst).unwrap();
    for line in calculation.lines.iter().filter(|line| !line.symbol.is_empty()) {
        let [symbol, formula, put] = [&line.symbol, &line.formula, &line.substituted].map(|text| page(text));
        let value = digits(line.value).replace('-', "\u{2212}");
        let unit = if line.unit.is_empty() { String::new() } else { format!(" {}", line.unit) };
        let text = match (formula.as_str(), put == formula) {
            ("", _) => format!("{symbol} = {value}{unit}"),
            (_, true) => format!("{symbol} = {formula} = {value}{unit}"),
            (_, false) => format!("{symbol} = {formula} = {put} = {value}{unit}"),
        };
        assert!(shown.contains(&text), "`{text}` is not on the page");
        lines += 1;
    }
    assert!(lines > 10);
    assert!(shown.contains(&format!("Utilisation {}", digits(calculation.utilisation))));
    // The table of what governs leads to it.
    assert!(section(&html, "utilisation").contains("href=\"#calculation-1\">6.1</a>"));
    for why in &calculation.outside {
        assert!(shown.contains(&format!("Outside scope: {why}")), "{why}");
    }
}

#[test]
fn hostile_names_stay_text_in_calculations() {
    let names = ["<img src=x onerror=alert(1)>", "</article><script>alert(2)</script>"];
    let finished = Finished::plain(&tee(names, 300.0));
    let html = report_html(&finished.run());
    assert_balanced(&html);
    assert!(html.contains("id=\"calculation-1\""));
    for hostile in ["<img", "<script", "onerror=alert(1)>"] {
        assert!(!without_view_program(&html).contains(hostile), "{hostile} came through");
    }
    assert!(html.contains("&#60;img src=x onerror=alert(1)&#62;"));
}

/// 10^5 findings: all in the file, the report as small as before.
#[test]
fn a_hundred_thousand_findings_do_not_make_the_report_grow() {
    let few = report_html(&twisted_box().run()).len();
    let count = twisted_box().model.tubes().len();
    let many = (0..100_000_usize).map(|place| {
        let tube = TubeId::new(place % count);
        let used = 0.1 + (place % 997) as f64 / 2000.0;
        let clause = format!("outside scope: tube at {:.1}°; EN 1993-1-8 4.5.3.2", (place % 890) as f64 / 10.0);
        match place % 4 {
            0 => finding("D021", Subject::Tube(tube), used, "EN 1993-1-1 6.2"),
            1 => finding("D022", Subject::Tube(tube), used, "EN 1993-1-1 6.3.3"),
            2 => finding("D030", Subject::End { tube, at_to: false }, used, &clause),
            _ => finding("D031", Subject::End { tube, at_to: true }, used, &clause),
        }
    });
    let finished = box_with(many.collect());
    let html = report_html(&finished.run());
    assert!(html.len() < few + 150_000, "{} bytes after {few}", html.len());
    let csv = finished.csv("findings.csv");
    assert_eq!(csv.matches("\nD0").count(), finished.findings.iter().filter(|f| f.code.0.starts_with('D')).count());
}

#[test]
fn each_case_tells_what_governs_in_it() {
    let html = report_html(&Finished::plain(&tee(["brace", "node"], 300.0)).run());
    let case = html.split("id=\"case-1\"").nth(1).unwrap().split("</article>").next().unwrap();
    let told = seen(case.split("What governs in this case").nth(1).unwrap().split("</table>").next().unwrap());
    assert!(told.contains("Tubes between their joints") && told.contains("Welds, and the steel beside them"), "{told}");
    assert!(told.contains("tube brace at joint node") && told.contains("outside scope, no pass"), "{told}");
}

#[test]
fn welds_are_listed_and_added_up() {
    let finished = Finished::plain(&tee(["brace", "node"], 300.0));
    let rows = finished.rows("welds.csv");
    assert_eq!(
        rows[0].join(","),
        "tube,joint,welded_to,kind,angle_deg,throat_mm,throat_source,length_mm,metal_g,full_strength_throat_mm,section,material"
    );
    assert_eq!(rows.len(), 2, "the chord runs through: one weld");
    assert_eq!(&rows[1][..4], ["brace", "node", "C1", "fillet"]);
    let number = |column: usize| rows[1][column].parse::<f64>().unwrap();
    assert_eq!((number(4), number(5), rows[1][6].as_str()), (90.0, 2.0, "assumed"));
    // All round a 30 mm square, less its corners; metal: a triangle of legs √2 a.
    assert!((100.0..120.0).contains(&number(7)));
    let metal = number(5).powi(2) * number(7) * 7850.0 * 1e-6;
    assert!((number(8) / metal - 1.0).abs() < 0.2, "{} g beside {metal} g", number(8));
    let told = seen(section(&report_html(&finished.run()), "utilisation"));
    assert!(
        told.contains("1 weld of tubes all round: 0.1") && told.contains("No throat is given for 1 of them"),
        "{told}"
    );
    assert!(!Finished::plain(&cantilever(-100.0)).writes("welds.csv"));
}
