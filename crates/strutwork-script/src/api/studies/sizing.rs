//! Sizing: the lightest or cheapest sizes that keep to limits.

use std::sync::{Arc, Mutex};

use rhai::plugin::*;
use rhai::{Array, FnPtr, Map};
use strutwork_loads::build::freedoms;
use strutwork_model::Model;
use strutwork_model::units::{MM, NM_PER_DEG};
use strutwork_study::sizing::{
    Aim, Limits, MovementCap, Search, Strength, Task, Variable, size, variables_of_mirrored_tubes,
};

use super::derived::Tried;
use super::sized;
use super::sizes::{positive, sizes as sizes_of, walls_of};
use crate::api::Raised;
use crate::api::models::{joint_named, of_group};
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{Named, number, whole};
use crate::session::{Session, lock};

/// What a reader needs before the functions.
pub(in crate::api) const INTRO: &str = "\
Which sizes make the lightest frame that keeps to limits: what may be chosen (`choose_size`, `choose_mirrored`), what must be kept \
(`reach_…`, `keep_…`), and `find_sizes`. The search starts between the sizes of the lists, with exact derivatives, rounds up and \
exchanges; every design that it gives was solved as a whole. It says whether the best is proven (every cheaper choice was tried \
and breaks a limit) or only the best that was found. For free-standing scripts only.

Items outside the scope of a clause are no pass: they are counted beside each design. Build the frame that you choose as a model, \
run it, and read its report.";

/// A task in the making; copies of the handle are one task.
#[derive(Clone)]
pub(crate) struct SizingHandle(Arc<Mutex<Wanted>>);

/// What a script asked for.
#[derive(Clone)]
struct Wanted {
    tried: Tried,
    model: Arc<Model>,
    variables: Vec<Variable>,
    limits: Limits,
    aim: Aim,
    most_sizes: Option<usize>,
    search: Search,
}

impl SizingHandle {
    fn add<T>(&self, add: impl FnOnce(&mut Wanted) -> Result<T, Fault>) -> Result<T, Fault> {
        add(&mut lock(&self.0))
    }
}

pub(in crate::api) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

/// How strong a frame must be, as scripts name it.
pub(super) fn strength(name: &str) -> Result<Strength, Fault> {
    match name {
        "none" => Ok(Strength::None),
        "yield" => Ok(Strength::Yield),
        "checks" => Ok(Strength::Checks),
        other => Err(Fault::unknown("strength", other, ["none", "yield", "checks"].into_iter())),
    }
}

fn found(context: &NativeCallContext<'_>, wanted: &Wanted) -> Result<Map, Raised> {
    let by_name: Vec<String> = wanted.limits.stiffness.iter().map(|(case, _)| case.clone()).collect();
    let all = wanted.limits.strength != Strength::None
        || wanted.limits.movements.iter().any(|cap| cap.case.is_none())
        || by_name.is_empty() && wanted.limits.movements.is_empty();
    let of_movements = wanted.limits.movements.iter().filter_map(|cap| cap.case.clone());
    let named = (!all).then(|| by_name.into_iter().chain(of_movements).collect());
    let outcome = wanted.tried.run(context, named, |derive| {
        let task = Task {
            spec: &wanted.tried.spec,
            derive,
            variables: wanted.variables.clone(),
            aim: wanted.aim,
            limits: wanted.limits.clone(),
            most_sizes: wanted.most_sizes,
            search: wanted.search,
        };
        size(&task).map_err(|fault| Fault::Task(fault.to_string()))
    })?;
    Ok(sized::outcome(&outcome))
}

#[export_module]
mod functions {
    use super::*;

    /// A new sizing task on a frame as it is now: for least mass, without limits, with nothing to choose yet.
    ///
    /// ```rhai
    /// let s = model().new_sizing();
    /// s.choose_size("diagonals", ["square 25x2", "square 30x2"]);
    /// s.reach_stiffness("twist", 100);
    /// print(s.find_sizes().proof);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn new_sizing(context: NativeCallContext, frame: Frame) -> Result<SizingHandle, Raised> {
        Session::of(&context).only_free("new_sizing")?;
        let model = frame.model()?;
        let tried = Tried::new(frame.spec("new_sizing")?, frame.own_cases());
        let (variables, limits) = (Vec::new(), Limits::default());
        let (aim, most_sizes, search) = (Aim::Mass, None, Search::default());
        let wanted = Wanted { tried, model, variables, limits, aim, most_sizes, search };
        Ok(SizingHandle(Arc::new(Mutex::new(wanted))))
    }

    /// All tubes of a group take one of these sizes: sections of the model or sizes of the stock list, or maps
    /// `#{ size: "…", price_per_m: … }` where the price counts.
    ///
    /// ```rhai
    /// model().new_sizing().choose_size("diagonals", ["square 25x2", #{ size: "square 30x2", price_per_m: 9.5 }]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn choose_size(sizing: SizingHandle, group: &str, sizes: Array) -> Result<(), Raised> {
        Ok(sizing.add(|wanted| {
            let choice = sizes_of(&wanted.model, &sizes)?;
            let tubes = of_group(&wanted.model, group)?.into_iter().map(str::to_owned).collect();
            wanted.variables.push(Variable::new(group, tubes, choice));
            Ok(())
        })?)
    }

    /// All tubes of a group take one of these walls; their outside stays. They must have one section shape.
    ///
    /// # Units
    /// mm, or gauges such as `"16 swg"`.
    ///
    /// ```rhai
    /// model().new_sizing().choose_wall("diagonals", [1.5, 2, "16 swg"]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn choose_wall(sizing: SizingHandle, group: &str, walls: Array) -> Result<(), Raised> {
        Ok(sizing.add(|wanted| {
            let tubes = of_group(&wanted.model, group)?.into_iter().map(str::to_owned).collect();
            let choice = walls_of(&wanted.model, group, &walls.into())?;
            wanted.variables.push(Variable::new(group, tubes, choice));
            Ok(())
        })?)
    }

    /// Every tube with its mirror image across the middle of the frame takes one of these sizes by itself. Tubes that were
    /// chosen before, by group, are left out.
    ///
    /// # Units
    /// `centre_y_mm`: where the middle is, mm; mostly 0.
    ///
    /// ```rhai
    /// let s = model().new_sizing();
    /// s.choose_mirrored(0, ["square 25x2", "square 30x2"]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn choose_mirrored(sizing: SizingHandle, centre_y_mm: Dynamic, sizes: Array) -> Result<(), Raised> {
        let centre = number("the middle", &centre_y_mm)? * MM;
        Ok(sizing.add(|wanted| {
            let choice = sizes_of(&wanted.model, &sizes)?;
            let taken = |variable: &Variable| {
                wanted.variables.iter().any(|known| known.tubes.iter().any(|tube| variable.tubes.contains(tube)))
            };
            let all = variables_of_mirrored_tubes(&wanted.model, centre, &choice).into_iter();
            let free: Vec<Variable> = all.filter(|variable| !taken(variable)).collect();
            wanted.variables.extend(free);
            Ok(())
        })?)
    }

    /// The tubes of a group that was given sizes may be left out altogether.
    ///
    /// ```rhai
    /// let s = model().new_sizing();
    /// s.choose_size("diagonals", ["square 25x2"]);
    /// s.may_leave_out("diagonals");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn may_leave_out(sizing: SizingHandle, group: &str) -> Result<(), Raised> {
        Ok(sizing.add(|wanted| {
            let names: Vec<String> = wanted.variables.iter().map(|variable| variable.name.clone()).collect();
            let variable = wanted.variables.iter_mut().find(|variable| variable.name == group);
            let variable = variable
                .ok_or_else(|| Fault::unknown("group with sizes to choose", group, names.iter().map(String::as_str)))?;
            variable.optional = true;
            Ok(())
        })?)
    }

    /// The torsional stiffness that a case measures must reach this.
    ///
    /// # Units
    /// N·m/degree.
    ///
    /// ```rhai
    /// model().new_sizing().reach_stiffness("twist", 6700);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn reach_stiffness(sizing: SizingHandle, case: &str, stiffness_nm_per_deg: Dynamic) -> Result<(), Raised> {
        let least = positive("the stiffness to reach", &stiffness_nm_per_deg)? * NM_PER_DEG;
        Ok(sizing.add(|wanted| {
            wanted.limits.stiffness.push((case.to_owned(), least));
            Ok(())
        })?)
    }

    /// The first elastic mode of the frame, held by its supports, must swing at least so fast.
    ///
    /// # Units
    /// Hz.
    ///
    /// ```rhai
    /// model().new_sizing().reach_frequency(25);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn reach_frequency(sizing: SizingHandle, frequency_hz: Dynamic) -> Result<(), Raised> {
        let least = positive("the frequency to reach", &frequency_hz)?;
        Ok(sizing.add(|wanted| {
            wanted.limits.frequency = Some(least);
            Ok(())
        })?)
    }

    /// A joint may not move further than this, either way: in one load case, or with `""` in every one.
    ///
    /// # Units
    /// mm for `ux`, `uy`, `uz`; degrees for `rx`, `ry`, `rz`.
    ///
    /// ```rhai
    /// model().new_sizing().keep_movement("", "FL", "uz", 5);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn keep_movement(
        sizing: SizingHandle,
        case: &str,
        joint: &str,
        freedom: &str,
        at_most: Dynamic,
    ) -> Result<(), Raised> {
        let most = positive("the movement that is allowed", &at_most)?;
        let free = freedoms(freedom).map_err(Fault::from)?;
        Ok(sizing.add(|wanted| {
            joint_named(&wanted.model, joint)?;
            for dof in free {
                let at_most = if dof.is_rotation() { most.to_radians() } else { most * MM };
                let case = (!case.is_empty()).then(|| case.to_owned());
                wanted.limits.movements.push(MovementCap { case, joint: joint.to_owned(), dof, at_most });
            }
            Ok(())
        })?)
    }

    /// How strong the frame must be in every load case: `"yield"`, elastic stress within yield with its margins (check D001);
    /// `"checks"`, no design check over its limit; `"none"`, not looked at.
    ///
    /// ```rhai
    /// model().new_sizing().keep_strength("checks");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn keep_strength(sizing: SizingHandle, strength: &str) -> Result<(), Raised> {
        Ok(sizing.add(|wanted| {
            wanted.limits.strength = super::strength(strength)?;
            Ok(())
        })?)
    }

    /// At most so many different sizes among the tubes that are chosen.
    ///
    /// # Units
    /// A whole number of sizes.
    ///
    /// ```rhai
    /// model().new_sizing().limit_sizes(3);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn limit_sizes(sizing: SizingHandle, most: Dynamic) -> Result<(), Raised> {
        let most = whole("the number of different sizes", &most, 1, 10_000, "a whole number from 1 to 10000")?;
        Ok(sizing.add(|wanted| {
            wanted.most_sizes = Some(most as usize);
            Ok(())
        })?)
    }

    /// Looks for the lowest price in place of the lowest mass; every size then needs its `price_per_m`.
    ///
    /// ```rhai
    /// model().new_sizing().prefer_price();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn prefer_price(sizing: SizingHandle) -> Result<(), Raised> {
        Ok(sizing.add(|wanted| {
            wanted.aim = Aim::Price;
            Ok(())
        })?)
    }

    /// How long to search, as a map; what is not named is as it is. The same seed gives the same search.
    ///
    /// # Units
    /// Whole numbers: `seed` (1), `rounds` in which the best is shaken and improved again (4), `prove_up_to` so many cheaper
    /// choices are all tried (5000), `most_solutions` of the whole frame (4000).
    ///
    /// ```rhai
    /// model().new_sizing().search_with(#{ seed: 7, rounds: 8 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn search_with(sizing: SizingHandle, how: Map) -> Result<(), Raised> {
        let known = ["seed", "rounds", "prove_up_to", "most_solutions"];
        Named::new("search_with", &how, &known).map_err(Raised::from)?;
        let given = |key: &str| -> Result<Option<u32>, Fault> {
            let range = "a whole number from 0 to 4294967295";
            how.get(key).map(|value| whole(&format!("`{key}`"), value, 0, u32::MAX, range)).transpose()
        };
        Ok(sizing.add(|wanted| {
            let search = &mut wanted.search;
            search.seed = given("seed")?.map_or(search.seed, u64::from);
            for (key, place) in [
                ("rounds", &mut search.rounds),
                ("prove_up_to", &mut search.prove_up_to),
                ("most_solutions", &mut search.most_solutions),
            ] {
                *place = given(key)?.map_or(*place, |number| number as usize);
            }
            Ok(())
        })?)
    }

    /// Solves the load cases that a function of the script builds: it is called with every frame that is tried, and gives an
    /// array of load cases. Otherwise those that a run of the model would solve.
    ///
    /// ```rhai
    /// model().new_sizing().size_on(|frame| frame.cases_of("twist"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn size_on(sizing: SizingHandle, build: FnPtr) -> Result<(), Raised> {
        Ok(sizing.add(|wanted| {
            wanted.tried.builds = Some(build);
            Ok(())
        })?)
    }

    /// Searches, on all cores; the same task gives the same answer on any number of them.
    ///
    /// * A map: `best`, a design or `()` where none keeps to the limits; `runners_up`, the next best; `proof`, one of `proven`,
    ///   `best found`, `local` and `nothing kept`, and `proof_in_words`; `how`, a sentence a step; `solutions`, how many frames
    ///   were solved as a whole.
    /// * A design is a map: `mass_kg` of all tubes; `price` or `()`; `chosen`, an array of maps `#{ group, size, area_mm2, wall_mm }`;
    ///   `limits`, the five nearest, nearest first, an array of maps `#{ what, load_case, value, limit, unit, utilisation }`;
    ///   `active`, those of all limits that it reaches within a hundredth, five at most; `outside_scope`, how many items no
    ///   clause covers: they are no pass.
    /// * Ctrl-C ends the search after the frame in hand, and the script with it.
    ///
    /// ```rhai
    /// let s = model().new_sizing();
    /// s.choose_size("diagonals", ["square 25x2", "square 30x2"]);
    /// s.reach_stiffness("twist", 100);
    /// let r = s.find_sizes();
    /// if r.best != () { print(`${fixed(r.best.mass_kg, 2)} kg, ${r.proof_in_words}`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn find_sizes(context: NativeCallContext, sizing: SizingHandle) -> Result<Map, Raised> {
        let wanted = lock(&sizing.0).clone();
        found(&context, &wanted)
    }
}
