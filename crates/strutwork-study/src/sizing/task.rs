//! What is asked for.

use strutwork_loads::LoadCases;
use strutwork_model::Model;
use strutwork_model::spec::ModelSpec;

use super::{Choice, Limits, SizingFault, Variable};

/// Makes the load cases of a frame; what is wrong with them in words.
pub type Derive<'a> = dyn Fn(&Model) -> Result<LoadCases, String> + Sync + 'a;

/// What is to be least.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Aim {
    /// Mass of all tubes.
    #[default]
    Mass,
    /// Price of the tubes that are chosen, by the metre.
    Price,
}

/// How long to search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Search {
    /// Where the numbers drawn by lot start: the same seed gives the same search.
    pub seed: u64,
    /// How often the best design is shaken and improved again.
    pub rounds: usize,
    /// All choices that are cheaper than the best are tried where there are no more than this many; then it is proven.
    pub prove_up_to: usize,
    /// Whole solutions that the search may take, the proof not counted.
    pub most_solutions: usize,
}

impl Default for Search {
    fn default() -> Self {
        Self { seed: 1, rounds: 4, prove_up_to: 5000, most_solutions: 4000 }
    }
}

/// A sizing task.
pub struct Task<'a> {
    /// The frame as written; the sections of the tubes that are chosen do not matter.
    pub spec: &'a ModelSpec,
    /// Its load cases, made anew for every choice: weight and inertia follow the sizes.
    pub derive: &'a Derive<'a>,
    /// What is chosen.
    pub variables: Vec<Variable>,
    /// What is to be least.
    pub aim: Aim,
    /// What must be kept.
    pub limits: Limits,
    /// At most this many different sizes among the tubes that are chosen.
    pub most_sizes: Option<usize>,
    /// How long to search.
    pub search: Search,
}

impl<'a> Task<'a> {
    /// A task for least mass without limits yet.
    pub fn new(spec: &'a ModelSpec, derive: &'a Derive<'a>, variables: Vec<Variable>) -> Self {
        Self {
            spec,
            derive,
            variables,
            aim: Aim::Mass,
            limits: Limits::default(),
            most_sizes: None,
            search: Search::default(),
        }
    }

    /// Whether sizes lie between bounds, not in lists.
    pub(super) fn is_continuous(&self) -> bool {
        !self.variables.iter().any(|variable| matches!(variable.choice, Choice::List(_)))
    }

    /// Whether the choices say sense.
    pub(super) fn check(&self) -> Result<(), SizingFault> {
        if self.variables.is_empty() {
            return Err(SizingFault::NoVariables);
        }
        let lists = self.variables.iter().filter(|variable| matches!(variable.choice, Choice::List(_))).count();
        if lists != 0 && lists != self.variables.len() {
            return Err(SizingFault::Mixed);
        }
        for variable in &self.variables {
            let wrong = |why: &str| Err(SizingFault::Choice { variable: variable.name.clone(), why: why.to_owned() });
            if variable.tubes.is_empty() {
                return wrong("it names no tubes");
            }
            match &variable.choice {
                Choice::List(sizes) if sizes.is_empty() => return wrong("its list of sizes is empty"),
                Choice::List(sizes)
                    if self.aim == Aim::Price
                        && !sizes.iter().all(|size| size.price_per_m.is_some_and(|price| price >= 0.0)) =>
                {
                    return wrong("the price is to be least, and a size has no price a metre");
                }
                Choice::List(_) => {}
                Choice::Area { least, most, .. } | Choice::Wall { least, most, .. } => {
                    if !(*least > 0.0 && most > least && most.is_finite()) {
                        return wrong("the bounds must be numbers above 0, the least below the most");
                    }
                    if variable.optional {
                        return wrong("only tubes that choose from a list may be left out");
                    }
                    if self.aim == Aim::Price {
                        return wrong("the price is to be least: give a list of sizes with a price a metre each");
                    }
                }
            }
            if let Choice::Wall { most, like, .. } = &variable.choice {
                let fits =
                    crate::sensitivity::wall_rate(like).is_some() && super::relaxed::with_wall(like, *most).is_some();
                if !fits {
                    return wrong("walls can be chosen for hollow sections, and must leave a hole in them");
                }
            }
        }
        if self.most_sizes == Some(0) {
            let why = "at most 0 different sizes: allow at least one".to_owned();
            return Err(SizingFault::Choice { variable: self.variables[0].name.clone(), why });
        }
        Ok(())
    }
}

/// One variable for each group of tubes, tubes without a group by themselves, all with the same choice.
pub fn variables_of_groups(model: &Model, choice: &Choice) -> Vec<Variable> {
    let mut variables: Vec<Variable> = Vec::new();
    for tube in model.tubes() {
        let name = if tube.group.is_empty() { &tube.name } else { &tube.group };
        match variables.iter_mut().find(|variable| !tube.group.is_empty() && variable.name == *name) {
            Some(variable) => variable.tubes.push(tube.name.clone()),
            None => variables.push(Variable::new(name, vec![tube.name.clone()], choice.clone())),
        }
    }
    variables
}

/// Ends that mirror each other within this, m, make tubes mirrored.
const MIRRORED: f64 = 1e-3;

/// One variable for each tube and its mirror image across the plane y = `centre`, m, all with the same choice.
pub fn variables_of_mirrored_tubes(model: &Model, centre: f64, choice: &Choice) -> Vec<Variable> {
    let ends: Vec<[[f64; 3]; 2]> = model.tubes().ids().map(|tube| model.tube_ends(tube)).collect();
    let near = |a: [f64; 3], b: [f64; 3]| (0..3).all(|axis| (a[axis] - b[axis]).abs() < MIRRORED);
    let mirror = |[x, y, z]: [f64; 3]| [x, 2.0 * centre - y, z];
    let mut taken = vec![false; ends.len()];
    let mut variables = Vec::new();
    let names: Vec<&String> = model.tubes().iter().map(|tube| &tube.name).collect();
    for place in 0..ends.len() {
        if std::mem::replace(&mut taken[place], true) {
            continue;
        }
        let [a, b] = ends[place].map(mirror);
        let twin = (place + 1..ends.len()).find(|other| {
            let [c, d] = ends[*other];
            !taken[*other] && ((near(a, c) && near(b, d)) || (near(a, d) && near(b, c)))
        });
        let mut tubes = vec![names[place].clone()];
        let mut name = names[place].clone();
        if let Some(twin) = twin {
            taken[twin] = true;
            tubes.push(names[twin].clone());
            name = format!("{name} + {}", names[twin]);
        }
        variables.push(Variable::new(name, tubes, choice.clone()));
    }
    variables
}
