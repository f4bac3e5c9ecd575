//! Linear static analysis of all cases: one factorisation for each set of supports.

use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::ids::Id;
use strutwork_model::model::Support;
use strutwork_model::{IndexVec, JointId, Model};

use crate::assembly::{LoadVectors, Pattern, System};
use crate::counters::Counters;
use crate::elements::Elements;
use crate::equilibrium;
use crate::error::{Motion, SolveError, Stage};
use crate::linear::{Factored, Symbolic};
use crate::mechanism;
use crate::numbering::Numbering;
use crate::recover;
use crate::results::{CaseResult, CaseTrust, LeftOut, Results, SystemTrust};
use crate::trust;

/// A pivot this small beside its diagonal entry makes us look for free motions although the factorisation went through.
const SUSPICIOUS_PIVOT: f64 = 1e-9;
/// Work of the loads along a free motion, over the loads' size, above which the motion is loaded.
const LOADED: f64 = 1e-9;

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
/// let results = strutwork_solve::solve_cases(&model, &strutwork_loads::derive_plain(&model))?;
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
    for first in 0..cases.0.len() {
        if results[first].is_some() {
            continue;
        }
        let supports = &cases.0[first].supports;
        let group: Vec<usize> =
            (first..cases.0.len()).filter(|i| results[*i].is_none() && cases.0[*i].supports == *supports).collect();
        let members: Vec<&LoadCase> = group.iter().map(|i| &cases.0[*i]).collect();
        let (solved, trust) = solve_group(model, &elements, supports, &members, systems.len(), &mut counters)?;
        systems.push(trust);
        for (place, result) in group.into_iter().zip(solved) {
            results[place] = Some(result);
        }
    }
    Ok(Results { cases: results.into_iter().flatten().collect(), systems, counters })
}

/// Solves cases that share their supports.
fn solve_group(
    model: &Model,
    elements: &Elements,
    supports: &[Support],
    cases: &[&LoadCase],
    system_index: usize,
    counters: &mut Counters,
) -> Result<(Vec<CaseResult>, SystemTrust), SolveError> {
    let numbering = Numbering::of(model, supports);
    let loads: Vec<LoadVectors> =
        cases.iter().map(|case| LoadVectors::of(model, elements, case)).collect::<Result<_, _>>()?;
    let rights: Vec<Vec<f64>> = loads.iter().map(|loads| right_side(elements, &numbering, loads)).collect();
    for (case, right) in cases.iter().zip(&rights) {
        finite(&numbering, right, &case.name, Stage::Assembly)?;
    }
    let mut group = Group { model, elements, numbering: &numbering, supports, cases, rights: &rights, counters };
    let (solutions, refined, trust) = if numbering.is_empty() { group.nothing_free() } else { group.solve()? };
    let results = cases
        .iter()
        .enumerate()
        .map(|(index, case)| {
            let work: f64 = solutions[index].iter().zip(&rights[index]).map(|(u, f)| u * f).sum();
            let solved = SolvedCase { solution: &solutions[index], refined: refined[index], energy: work / 2.0 };
            recover_case(model, elements, &numbering, supports, case, &loads[index], solved, system_index)
        })
        .collect();
    Ok((results, trust))
}

/// Cases that share their supports, on the way to their solution.
struct Group<'a> {
    model: &'a Model,
    elements: &'a Elements,
    numbering: &'a Numbering,
    supports: &'a [Support],
    cases: &'a [&'a LoadCase],
    rights: &'a [Vec<f64>],
    counters: &'a mut Counters,
}

type Solved = (Vec<Vec<f64>>, Vec<trust::Refined>, SystemTrust);

impl Group<'_> {
    /// Every freedom is held: there is nothing to solve.
    fn nothing_free(&self) -> Solved {
        let none = trust::Refined { residual: 0.0, steps: 0 };
        let trust = SystemTrust { equations: 0, condition: 1.0, smallest_pivot: 1.0, left_out: Vec::new() };
        (vec![Vec::new(); self.cases.len()], vec![none; self.cases.len()], trust)
    }

    fn solve(&mut self) -> Result<Solved, SolveError> {
        let places: Vec<[f64; 3]> = self.model.joints().iter().map(|joint| joint.at).collect();
        let pattern = Pattern::of(self.elements, self.numbering);
        let mut system = System::assemble(self.elements, self.numbering, &pattern, self.supports);
        finite(self.numbering, &system.diagonal(), "", Stage::Assembly)?;
        let symbolic = Symbolic::analyse(&pattern, self.numbering, &places);
        self.counters.symbolic_analyses += 1;
        self.counters.equations = self.counters.equations.max(self.numbering.len() as u64);
        self.counters.stiffness_entries = self.counters.stiffness_entries.max(pattern.entries() as u64);
        self.counters.factor_entries = self.counters.factor_entries.max(symbolic.factor_entries() as u64);

        let mut left_out = mechanism::unstiffened(self.elements, self.numbering, &system);
        self.refuse_loaded(&left_out)?;
        let typical = typical_stiffness(&system, self.numbering);
        for left in &left_out {
            ground(&mut system, self.numbering, left, typical);
        }
        self.counters.factorisations += 1;
        let mut outcome = symbolic.factor(system.stiffness());
        let sound = outcome.as_ref().is_ok_and(|factored| factored.smallest_pivot().0 > SUSPICIOUS_PIVOT);
        let mut idle: Vec<Vec<f64>> = Vec::new();
        if !sound {
            idle = mechanism::free_motions(
                self.elements,
                self.numbering,
                &system,
                &symbolic,
                self.supports,
                &left_out,
                typical,
            );
            if !idle.is_empty() {
                self.refuse_mechanism(&mut idle)?;
                left_out.extend(self.pin(&mut system, &mut idle, typical));
                self.counters.factorisations += 1;
                outcome = symbolic.factor(system.stiffness());
            }
        }
        let factored = outcome.map_err(|failed| {
            let (joint, dof) = self.numbering.freedom(failed.equation);
            SolveError::IllConditioned { case: self.cases[0].name.clone(), joint, dof, pivot: 0.0 }
        })?;
        let (solutions, refined) = self.solve_block(&system, &factored, &idle)?;
        let (condition, solves) = trust::condition(&system, &factored);
        self.counters.condition_solves += solves;
        let trust = SystemTrust {
            equations: self.numbering.len(),
            condition,
            smallest_pivot: factored.smallest_pivot().0,
            left_out,
        };
        Ok((solutions, refined, trust))
    }

    /// All cases in one block, in order: the last bits of a solution depend on the block it is solved in.
    fn solve_block(
        &mut self,
        system: &System,
        factored: &Factored<'_>,
        idle: &[Vec<f64>],
    ) -> Result<(Vec<Vec<f64>>, Vec<trust::Refined>), SolveError> {
        let mut block: Vec<f64> = self.rights.concat();
        factored.solve(&mut block, self.cases.len());
        self.counters.solves += self.cases.len() as u64;
        let norm = system.norm();
        let mut solutions = Vec::with_capacity(self.cases.len());
        let mut refined = Vec::with_capacity(self.cases.len());
        for (index, column) in block.chunks_exact(self.numbering.len()).enumerate() {
            let mut solution = column.to_vec();
            finite(self.numbering, &solution, &self.cases[index].name, Stage::Solution)?;
            let done = trust::refine(system, factored, norm, &self.rights[index], &mut solution);
            finite(self.numbering, &solution, &self.cases[index].name, Stage::Solution)?;
            self.counters.refinement_solves += u64::from(done.steps);
            for motion in idle {
                let along: f64 = motion.iter().zip(&solution).map(|(m, u)| m * u).sum();
                for (u, m) in solution.iter_mut().zip(motion) {
                    *u -= along * m;
                }
            }
            solutions.push(solution);
            refined.push(done);
        }
        Ok((solutions, refined))
    }

    /// A freedom of one joint that nothing stiffens must not be loaded.
    fn refuse_loaded(&self, left_out: &[LeftOut]) -> Result<(), SolveError> {
        let mut motions = Vec::new();
        let mut name = String::new();
        for left in left_out {
            let joint = left.joint.index();
            let loaded = self.cases.iter().zip(self.rights).find(|(_, right)| {
                let values = self.numbering.joint_values(joint, right);
                let size = values.iter().map(|v| v * v).sum::<f64>().sqrt();
                let along: f64 = values.iter().zip(left.direction).map(|(a, b)| a * b).sum();
                along.abs() > LOADED * size
            });
            if let Some((case, _)) = loaded {
                if name.is_empty() {
                    name = case.name.clone();
                }
                motions.push(Motion::Part { joints: vec![(left.joint, left.direction)] });
            }
        }
        if motions.is_empty() { Ok(()) } else { Err(SolveError::Mechanism { case: name, motions }) }
    }

    /// A free motion of several joints is a mechanism, unless it only turns joints and no case loads it.
    fn refuse_mechanism(&self, idle: &mut [Vec<f64>]) -> Result<(), SolveError> {
        let size = mechanism::size(self.model);
        mechanism::come_apart(self.numbering, idle, size);
        let harmless = |motion: &&Vec<f64>| {
            mechanism::only_turns(self.numbering, motion, size)
                && self.rights.iter().all(|right| {
                    let length = |v: &[f64]| v.iter().map(|x| x * x).sum::<f64>().sqrt();
                    let along: f64 = motion.iter().zip(right).map(|(m, f)| m * f).sum();
                    along.abs() <= LOADED * length(right) * length(motion)
                })
        };
        let harmful: Vec<Vec<f64>> = idle.iter().filter(|motion| !harmless(motion)).cloned().collect();
        if harmful.is_empty() {
            return Ok(());
        }
        let motions = mechanism::describe(self.model, self.numbering, self.supports, &harmful);
        Err(SolveError::Mechanism { case: self.cases[0].name.clone(), motions })
    }

    /// Grounds one freedom for each idle motion, so that the rest can be factored, and makes the motions orthonormal.
    fn pin(&self, system: &mut System, idle: &mut [Vec<f64>], typical: [f64; 2]) -> Vec<LeftOut> {
        let mut rows: Vec<Vec<f64>> = idle.to_vec();
        let mut pinned = Vec::new();
        for row in 0..rows.len() {
            let largest = (0..rows[row].len())
                .max_by(|a, b| rows[row][*a].abs().total_cmp(&rows[row][*b].abs()).then(b.cmp(a)))
                .expect("an idle motion has components");
            let done = rows[row].clone();
            for other in rows.iter_mut().skip(row + 1) {
                let factor = other[largest] / done[largest];
                for (value, d) in other.iter_mut().zip(&done) {
                    *value -= factor * d;
                }
            }
            let (joint, dof) = self.numbering.freedom(largest);
            system.add_diagonal(largest, typical[usize::from(dof.is_rotation())]);
            let mut direction = [0.0; 6];
            direction[dof.index()] = 1.0;
            pinned.push(LeftOut { joint, dof, direction });
        }
        for row in 0..idle.len() {
            let (done, rest) = idle.split_at_mut(row);
            for other in done.iter() {
                let along: f64 = rest[0].iter().zip(other).map(|(a, b)| a * b).sum();
                for (value, b) in rest[0].iter_mut().zip(other) {
                    *value -= along * b;
                }
            }
            let norm = rest[0].iter().map(|v| v * v).sum::<f64>().sqrt();
            rest[0].iter_mut().for_each(|v| *v /= norm);
        }
        pinned
    }
}

/// The middle of the diagonal, for translations and for rotations: what a grounded freedom is given.
fn typical_stiffness(system: &System, numbering: &Numbering) -> [f64; 2] {
    let mut kinds = [Vec::new(), Vec::new()];
    for (equation, value) in system.diagonal().into_iter().enumerate() {
        if value > 0.0 {
            kinds[usize::from(numbering.freedom(equation).1.is_rotation())].push(value);
        }
    }
    kinds.map(|mut values| {
        values.sort_by(f64::total_cmp);
        values.get(values.len() / 2).copied().unwrap_or(1.0)
    })
}

/// Holds a left-out freedom with a stiffness along its own direction: exact, as nothing else acts along it.
fn ground(system: &mut System, numbering: &Numbering, left: &LeftOut, typical: [f64; 2]) {
    let free: Vec<(usize, usize)> = numbering.free(left.joint.index()).collect();
    let direction: Vec<f64> = free.iter().map(|(dof, _)| left.direction[*dof]).collect();
    system.add_joint_block(free[0].1, &direction, typical[usize::from(left.dof.is_rotation())]);
}

/// What stands on the right: loads on free freedoms, less what prescribed movements of held ones bring.
fn right_side(elements: &Elements, numbering: &Numbering, loads: &LoadVectors) -> Vec<f64> {
    let mut right: Vec<f64> = (0..numbering.len())
        .map(|equation| {
            let (joint, dof) = numbering.freedom(equation);
            loads.joints[joint.index()][dof.index()]
        })
        .collect();
    if loads.settlements.is_empty() {
        return right;
    }
    let mut moved: Vec<Option<[f64; 6]>> = vec![None; numbering.joints()];
    for (joint, values) in &loads.settlements {
        moved[joint.index()] = Some(*values);
    }
    for element in elements.iter() {
        let [a, b] = element.joints;
        if moved[a].is_none() && moved[b].is_none() {
            continue;
        }
        let ends = moved[a].unwrap_or_default().into_iter().chain(moved[b].unwrap_or_default());
        let force = element.global_stiffness() * strutwork_element::Vec12::from_iterator(ends);
        for (end, joint) in element.joints.into_iter().enumerate() {
            for (dof, equation) in numbering.free(joint) {
                right[equation] -= force[6 * end + dof];
            }
        }
    }
    right
}

fn finite(numbering: &Numbering, values: &[f64], case: &str, stage: Stage) -> Result<(), SolveError> {
    match values.iter().position(|value| !value.is_finite()) {
        None => Ok(()),
        Some(equation) => {
            let (joint, dof) = numbering.freedom(equation);
            Err(SolveError::NotFinite { case: case.to_owned(), stage, joint, dof })
        }
    }
}

/// One case's solution and what the solving says of it.
#[derive(Clone, Copy)]
struct SolvedCase<'a> {
    solution: &'a [f64],
    refined: trust::Refined,
    energy: f64,
}

#[expect(clippy::too_many_arguments, reason = "the stages of one case, each used once")]
fn recover_case(
    model: &Model,
    elements: &Elements,
    numbering: &Numbering,
    supports: &[Support],
    case: &LoadCase,
    loads: &LoadVectors,
    solved: SolvedCase<'_>,
    system: usize,
) -> CaseResult {
    let mut displacements: IndexVec<JointId, [f64; 6]> =
        (0..numbering.joints()).map(|joint| numbering.joint_values(joint, solved.solution)).collect();
    for (joint, values) in &loads.settlements {
        for (own, value) in displacements[*joint].iter_mut().zip(values) {
            *own += value;
        }
    }
    let reactions = recover::reactions(model, elements, loads, supports, &displacements);
    let balance = equilibrium::balance(model, elements, loads, case, &reactions, &displacements);
    let trust = CaseTrust {
        residual: solved.refined.residual,
        refinements: solved.refined.steps,
        applied: balance.applied,
        reacted: balance.reacted,
        imbalance: balance.imbalance,
        energy: solved.energy,
    };
    CaseResult {
        name: case.name.clone(),
        bodies: IndexVec::new(),
        mounts: IndexVec::new(),
        panels: IndexVec::new(),
        relief: None,
        tubes: recover::recover_tubes(model, elements, &loads.spans, &displacements),
        measures: case.measures.iter().map(|wanted| recover::measure(model, wanted, &displacements)).collect(),
        displacements,
        reactions,
        trust,
        system,
    }
}
