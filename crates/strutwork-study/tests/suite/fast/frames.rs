//! Frames, studies, and the two ways of evaluating them.

use std::ops::Range;
use std::sync::Arc;

use strutwork_loads::{CaseBuilder, LoadCases, derive_plain};
use strutwork_model::{Dof, Model, spec};
use strutwork_study::evaluate::Wanted;
use strutwork_study::{
    Asked, CaseSource, Change, Design, Evaluate, Exact, Fast, Levels, Parameter, Response, Row, Status, Study, Trouble,
    Tubes, Value, Way,
};
use strutwork_testkit::Folder;

use crate::bracket;

/// The cases of the load files, and for a vehicle a twist and a free one under its own weight.
pub(crate) struct Cases;

impl CaseSource for Cases {
    fn cases(&self, model: &Arc<Model>, wanted: Wanted<'_>) -> Result<LoadCases, Trouble> {
        let mut cases = derive_plain(model).map_err(|error| Trouble::from(&error))?;
        if model.vehicle().is_some() {
            let build = || {
                let mut twist =
                    CaseBuilder::new(Arc::clone(model), "twist", "", strutwork_loads::case::Nature::Notional)?;
                twist.twist_axles(500.0)?;
                twist.balance()?;
                let mut heave =
                    CaseBuilder::new(Arc::clone(model), "heave", "", strutwork_loads::case::Nature::Physical)?;
                heave.gravity(2.0)?;
                heave.joint_load(heave.joint("FL")?, [0.0, 0.0, 900.0], [0.0; 3])?;
                heave.balance()?;
                Ok::<_, strutwork_loads::LoadError>([twist.finish()?, heave.finish()?])
            };
            let [twist, heave] = build().map_err(|error| Trouble::from(&error))?;
            cases.0.push(twist);
            if wanted != Wanted::Twist {
                cases.0.push(heave);
            }
        }
        Ok(cases)
    }

    fn texts(&self) -> Vec<(String, String)> {
        Vec::new()
    }
}

/// The bracket with a mast of three braces on it.
pub(crate) fn bracket(weight: bool) -> Folder {
    bracket::bracket(weight)
        .and("joints.csv", "F,300,0,400\n")
        .and("tubes.csv", "m1,A,F,brace,mild,mast\nm2,B,F,brace,mild,mast\nm3,C,F,brace,mild,mast\n")
        .and("loads.csv", "pull,F,0,250,0,0,0,0\n")
}

/// A study of a frame in which nothing is varied yet.
pub(crate) fn study(folder: &Folder, asked: &[Asked]) -> Study {
    let mut study = Study::new("test", spec::parse(&folder.files()).0);
    let named = asked.iter().enumerate();
    study.responses =
        named.map(|(place, asked)| Response { name: format!("r{place}"), asked: asked.clone() }).collect();
    study
}

pub(crate) fn moves(case: &str, joint: &str, dof: Dof) -> Asked {
    Asked::Movement { case: case.to_owned(), joint: joint.to_owned(), dof }
}

pub(crate) fn group(name: &str) -> Tubes {
    Tubes::Group(name.to_owned())
}

pub(crate) fn vary(study: &mut Study, change: Change, values: &[Value]) {
    let name = format!("p{}", study.parameters.len());
    let parameter = Parameter::new(&study.base, Some(&name), change, Levels::List(values.to_vec()));
    study.parameters.push(parameter.unwrap_or_else(|fault| panic!("{fault}")));
}

pub(crate) fn walls(study: &mut Study, name: &str, walls: &[f64]) {
    let values: Vec<Value> = walls.iter().map(|wall| Value::Number(*wall)).collect();
    vary(study, Change::Wall(group(name)), &values);
}

pub(crate) fn switch(study: &mut Study, tube: &str) {
    vary(study, Change::Presence(vec![tube.to_owned()]), &["on".into(), "off".into()]);
}

/// All rows, in pieces of these sizes by turns.
pub(crate) fn rows(study: &Study, evaluator: &dyn Evaluate, pieces: &[u64]) -> Vec<Row> {
    let count = study.count().unwrap();
    let (mut next, mut rows) = (0, Vec::new());
    for piece in pieces.iter().cycle() {
        if next == count {
            break;
        }
        let range: Range<u64> = next..(next + piece).min(count);
        next = range.end;
        rows.extend(evaluator.evaluate(study, range));
    }
    rows
}

/// Evaluates a study both ways and holds them against each other.
#[track_caller]
pub(crate) fn both(study: &Study, cases: &dyn CaseSource) -> Vec<Row> {
    let fast = rows(study, &Fast::new(cases, None), &[u64::MAX]);
    let whole = rows(study, &Exact::new(cases, None), &[u64::MAX]);
    assert_eq!(fast.len(), whole.len());
    for (one, other) in fast.iter().zip(&whole) {
        assert_eq!((one.variant, &one.values), (other.variant, &other.values));
        let (a, b) = (&one.outcome, &other.outcome);
        assert_eq!(a.status, b.status, "{one:?}\n{other:?}");
        assert_eq!(a.note, b.note, "variant {}", one.variant);
        assert_eq!(a.feasible, b.feasible);
        let moved = |place: usize| matches!(study.responses[place].asked, Asked::Movement { .. });
        let most = b.responses.iter().enumerate().filter(|(place, _)| moved(*place));
        let most = most.filter_map(|(_, value)| *value).fold(0.0_f64, |most, value| most.max(value.abs()));
        for (place, (a, b)) in a.responses.iter().zip(&b.responses).enumerate() {
            let (Some(a), Some(b)) = (a, b) else {
                assert_eq!(a, b, "variant {} response {place}", one.variant);
                continue;
            };
            let size = if moved(place) { most } else { b.abs() };
            let close = a == b || (a - b).abs() <= 1e-9 * size;
            assert!(close, "variant {} {:?} response {place}: {a} and {b}", one.variant, one.values);
        }
    }
    fast
}

/// How many ended so.
pub(crate) fn ended(rows: &[Row], status: Status) -> usize {
    rows.iter().filter(|row| row.outcome.status == status).count()
}

/// Whether a variant was solved together with others.
pub(crate) fn together(row: &Row) -> bool {
    matches!(row.outcome.way, Way::Lanes | Way::Update)
}

/// A list of variants.
pub(crate) fn listed(rows: &[&[Value]]) -> Design {
    Design::List(rows.iter().map(|row| row.to_vec()).collect())
}
