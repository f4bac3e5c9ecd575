//! Joints read from whole models: which kind they are, what they bear, what is said.

use strutwork_loads::derive_plain;
use strutwork_solve::find_bays;
use strutwork_testkit::{Folder, assert_close, solve};

use super::*;
use crate::code::worked::recomputes;

mod kinds;
mod scope;

/// A rail along x with its middle at joint J, fixed at both ends, and tubes from J that end free with a force at the tip.
struct Spider {
    rail: &'static str,
    sections: String,
    legs: Vec<Leg>,
}

/// A tube from J: section, tip in mm from J, force at the tip in N, roll in degrees.
struct Leg(&'static str, [f64; 3], [f64; 3], f64);

/// A leg whose force acts along it: pull positive.
fn leg(section: &'static str, tip: [f64; 3], pull: f64) -> Leg {
    let length = (tip[0] * tip[0] + tip[1] * tip[1] + tip[2] * tip[2]).sqrt();
    Leg(section, tip, tip.map(|part| pull * part / length), 0.0)
}

fn spider(rail: &'static str, legs: Vec<Leg>) -> Spider {
    let sections = "[sections.thick]\nshape = \"square\"\nwidth_mm = 100.0\nwall_mm = 4.0\n\
                    [sections.stout]\nshape = \"square\"\nwidth_mm = 60.0\nwall_mm = 4.0\n\
                    [sections.wide]\nshape = \"square\"\nwidth_mm = 40.0\nwall_mm = 2.0\n\
                    [sections.brace]\nshape = \"square\"\nwidth_mm = 25.0\nwall_mm = 1.5\n\
                    [sections.broad]\nshape = \"square\"\nwidth_mm = 35.0\nwall_mm = 2.0\n\
                    [sections.tall]\nshape = \"rectangular\"\nheight_mm = 60.0\nwidth_mm = 40.0\nwall_mm = 3.0\n\
                    [sections.strip]\nshape = \"rectangular\"\nheight_mm = 30.0\nwidth_mm = 20.0\nwall_mm = 2.0\n\
                    [sections.pipe]\nshape = \"round\"\ndiameter_mm = 50.0\nwall_mm = 2.5\n\
                    [sections.small_pipe]\nshape = \"round\"\ndiameter_mm = 30.0\nwall_mm = 2.0\n\
                    [sections.bar]\nshape = \"solid-round\"\ndiameter_mm = 12.0\n";
    Spider { rail, sections: sections.to_owned(), legs }
}

impl Spider {
    fn folder(&self) -> Folder {
        let mut joints = "joint,x_mm,y_mm,z_mm\nA,-150,0,0\nJ,0,0,0\nB,150,0,0\n".to_owned();
        let mut tubes =
            format!("tube,from,to,section,material,roll_deg\nR1,A,J,{0},mild,0\nR2,J,B,{0},mild,0\n", self.rail);
        let mut loads = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n".to_owned();
        for (number, Leg(section, tip, force, roll)) in self.legs.iter().enumerate() {
            let n = number + 1;
            joints += &format!("T{n},{},{},{}\n", tip[0], tip[1], tip[2]);
            tubes += &format!("L{n},J,T{n},{section},mild,{roll}\n");
            loads += &format!("push,T{n},{},{},{},0,0,0\n", force[0], force[1], force[2]);
        }
        let all = "fixed,fixed,fixed,fixed,fixed,fixed\n";
        Folder::steel()
            .and("model.toml", &self.sections)
            .with("joints.csv", joints)
            .with("tubes.csv", tubes)
            .with("supports.csv", format!("joint,ux,uy,uz,rx,ry,rz\nA,{all}B,{all}"))
            .with("loads.csv", loads)
    }

    fn told(&self) -> Told {
        told(&self.folder())
    }
}

/// The findings of the rule, each with its page.
struct Told(Vec<(Finding, String, Option<Calculation>)>);

fn told(folder: &Folder) -> Told {
    let model = folder.model();
    let cases = derive_plain(&model).unwrap();
    let results = solve(&model).unwrap();
    let judged = Judged { model: &model, cases: &cases, results: &results, bays: &find_bays(&model), lengths: None };
    let found = check(judged).into_iter().map(|finding| {
        let page = write(judged, &finding);
        if let Some(page) = &page {
            recomputes(page);
            assert_eq!(Some(page.utilisation), finding.utilisation, "the page is that of the finding");
            // What is outside is said in both, and the page's first reason stands in the finding.
            assert_eq!(finding.is_outside(), !page.outside.is_empty(), "{}: {:?}", finding.clause, page.outside);
            if let Some(first) = page.outside.first() {
                assert!(finding.clause.starts_with(&format!("outside scope: {first};")), "{}: {first}", finding.clause);
            }
        }
        assert_eq!(page.is_some(), finding.utilisation.is_some());
        let name = finding.subject.name(&model).into_owned();
        (finding, name, page)
    });
    Told(found.collect())
}

impl Told {
    #[track_caller]
    fn of(&self, end: &str) -> &Finding {
        let found: Vec<_> = self.0.iter().filter(|(_, name, _)| name == end).collect();
        assert_eq!(found.len(), 1, "{end} among {:?}", self.0.iter().map(|(_, name, _)| name).collect::<Vec<_>>());
        &found[0].0
    }

    #[track_caller]
    fn entered(&self, end: &str, symbol: &str) -> f64 {
        let found = self.of(end).entered.iter().find(|(known, ..)| *known == symbol);
        found.unwrap_or_else(|| panic!("{symbol} did not enter")).1
    }

    #[track_caller]
    fn outside(&self, end: &str) -> &[String] {
        let found = self.0.iter().find(|(_, name, _)| name == end).and_then(|(.., page)| page.as_ref());
        &found.unwrap_or_else(|| panic!("no page of {end}")).outside
    }

    #[track_caller]
    fn lines(&self, end: &str) -> String {
        let found = self.0.iter().find(|(_, name, _)| name == end).and_then(|(.., page)| page.as_ref());
        let lines = &found.unwrap_or_else(|| panic!("no page of {end}")).lines;
        lines.iter().map(|line| line.text() + "\n").collect()
    }
}
