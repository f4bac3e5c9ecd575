//! Linear static analysis of all cases: one factorisation for each set of supports.

pub(crate) mod case;
pub(crate) mod ground;
mod group;

use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::Model;
use strutwork_model::ids::Id;
use strutwork_model::model::Support;

use crate::assembly::LoadVectors;
use crate::counters::Counters;
use crate::elements::Elements;
use crate::error::{SolveError, Stage};
use crate::numbering::{Misfit, Numbering};
use crate::results::{CaseResult, Results, SystemTrust};
pub(crate) use case::{Held, Recovery, SecondOrderPart, SolvedCase};
pub(crate) use group::{Group, finite};

/// Solves every case of a model.
///
/// # Errors
/// [`SolveError`] when the frame can move without resistance, or a number stops being a number.
///
/// # Example
/// ```
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// use strutwork_model::files::{InputFile, InputFiles};
/// let file = |name: &str, text: &str| InputFile { name: name.into(), bytes: text.into() };
/// let files = InputFiles(vec![
///     file("model.toml", "title = 'one tube'\n[materials.mild]\ngrade = 'S235JRH'\n[sections.rail]\nshape = 'square'\nwidth_mm = 30\nwall_mm = 2\n"),
///     file("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,500,0,0\n"),
///     file("tubes.csv", "tube,from,to,section,material\nT1,wall,tip,rail,mild\n"),
///     file("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\n"),
///     file("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npull down,tip,0,0,-100,0,0,0\n"),
/// ]);
/// let model = strutwork_model::read_model(&files)?.value;
/// let results = strutwork_solve::solve_cases(&model, &strutwork_loads::derive_plain(&model)?)?;
/// let tip = model.joint_named("tip").unwrap();
/// let sag = results.cases[0].displacements[tip][2]; // F L³ / 3EI
/// let iy = model.sections().iter().next().unwrap().iy;
/// assert!((sag + 100.0 * 0.5_f64.powi(3) / (3.0 * 210e9 * iy)).abs() < 1e-12);
/// # Ok(())
/// # }
/// ```
pub fn solve_cases(model: &Model, cases: &LoadCases) -> Result<Results, SolveError> {
    let elements = Elements::of(model);
    let mut counters = Counters::default();
    let mut systems = Vec::new();
    let mut results: Vec<Option<CaseResult>> = cases.0.iter().map(|_| None).collect();
    for group in grouped(&cases.0) {
        let members: Vec<&LoadCase> = group.iter().map(|i| &cases.0[*i]).collect();
        let (solved, trust) = solve_group(model, &elements, &members, systems.len(), &mut counters)?;
        systems.push(trust);
        for (place, result) in group.into_iter().zip(solved) {
            results[place] = Some(result);
        }
    }
    Ok(Results { cases: results.into_iter().flatten().collect(), systems, counters, refused: Vec::new() })
}

/// The cases that are held alike, by their places; in the order of each group's first.
pub(crate) fn grouped(cases: &[LoadCase]) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (place, case) in cases.iter().enumerate() {
        let alike = |group: &&mut Vec<usize>| {
            let first = &cases[group[0]];
            case.supports == first.supports && case.free == first.free
        };
        match groups.iter_mut().find(alike) {
            Some(group) => group.push(place),
            None => groups.push(vec![place]),
        }
    }
    groups
}

/// What acts in cases that are held alike, one entry a case.
pub(crate) struct Prepared {
    pub loads: Vec<LoadVectors>,
    /// What movements prescribed at supports do to each node.
    pub prescribed: Vec<Vec<(usize, [f64; 6])>>,
    /// Over the equations.
    pub rights: Vec<Vec<f64>>,
}

/// Right-hand sides of cases that are held alike.
pub(crate) fn prepare(
    model: &Model,
    elements: &Elements,
    numbering: &Numbering,
    supports: &[Support],
    cases: &[&LoadCase],
) -> Result<Prepared, SolveError> {
    let loads: Vec<LoadVectors> =
        cases.iter().map(|case| LoadVectors::of(model, elements, case)).collect::<Result<_, _>>()?;
    let mut prescribed = Vec::with_capacity(cases.len());
    let mut rights = Vec::with_capacity(cases.len());
    for (case, loads) in cases.iter().zip(&loads) {
        let moved = numbering.prescribed(&loads.settlements).map_err(|misfit| strained(numbering, case, misfit))?;
        let right = loads.right_side(elements, numbering, supports, &moved, &|_, element| element.global_stiffness());
        finite(numbering, &right, &case.name, Stage::Assembly)?;
        prescribed.push(moved);
        rights.push(right);
    }
    Ok(Prepared { loads, prescribed, rights })
}

/// Solves cases that are held alike, over their equations.
pub(crate) fn solve_prepared(
    model: &Model,
    elements: &Elements,
    numbering: &Numbering,
    supports: &[Support],
    cases: &[&LoadCase],
    prepared: &Prepared,
    counters: &mut Counters,
) -> Result<group::Solved, SolveError> {
    let mut group = Group { model, elements, numbering, supports, cases, rights: &prepared.rights, counters };
    if numbering.is_empty() { Ok(group.nothing_free()) } else { group.solve() }
}

/// Solves cases that are held alike.
fn solve_group(
    model: &Model,
    elements: &Elements,
    cases: &[&LoadCase],
    system: usize,
    counters: &mut Counters,
) -> Result<(Vec<CaseResult>, SystemTrust), SolveError> {
    let held = Held::of(model, elements, cases[0]);
    let supports = held.supports();
    let numbering = Numbering::of(model, supports);
    let prepared = prepare(model, elements, &numbering, supports, cases)?;
    let (solutions, refined, trust) =
        solve_prepared(model, elements, &numbering, supports, cases, &prepared, counters)?;
    let recovery = Recovery { model, elements, numbering: &numbering, held: &held, system };
    let results = (0..cases.len())
        .map(|index| {
            let work: f64 = solutions[index].iter().zip(&prepared.rights[index]).map(|(u, f)| u * f).sum();
            recovery.recover(SolvedCase {
                case: cases[index],
                loads: &prepared.loads[index],
                prescribed: &prepared.prescribed[index],
                solution: &solutions[index],
                refined: refined[index],
                energy: work / 2.0,
                bent: None,
            })
        })
        .collect();
    Ok((results, trust))
}

fn strained(numbering: &Numbering, case: &LoadCase, misfit: Misfit) -> SolveError {
    SolveError::StrainedBody {
        case: case.name.clone(),
        body: numbering.body_of(misfit.body),
        joint: Id::new(misfit.joint),
        dof: misfit.dof,
        by: misfit.by,
    }
}
