//! Tolerances: the band of the answers when walls, outsides and joints vary.

use std::sync::{Arc, Mutex};

use rhai::plugin::*;
use rhai::{Array, FnPtr, Map};
use strutwork_model::units::MM;
use strutwork_study::robustness::{Band, BandOutcome, BandTask, OutsideTolerance, Sharing, Spread, Tolerances, band};
use strutwork_study::sizing::Strength;

use super::derived::Tried;
use super::sizing::strength;
use crate::api::Raised;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{AnyValue, count, map_of, number, text, whole};
use crate::session::{Session, lock};

/// What a reader needs before the functions.
pub(in crate::api) const INTRO: &str = "\
How far the answers may lie from the drawing: frames are drawn by lot within tolerances of walls, outsides and joints, and each is \
solved as a whole. Unless told otherwise: walls ± 10 % and outsides after EN 10219-2:2006 (as the Blue Book of Steel for Life \
prints it; the standard itself was not at hand), joints ± 2 mm in each coordinate (common practice, no source), values evenly spread, tubes cut from one \
bar of 6 m vary together. For free-standing scripts only.

A band is that of the frames that were drawn: its ends are no bounds of what can be.";

/// A task in the making; copies of the handle are one task.
#[derive(Clone)]
pub(crate) struct TolerancesHandle(Arc<Mutex<Wanted>>);

/// What a script asked for.
#[derive(Clone)]
struct Wanted {
    tried: Tried,
    tolerances: Tolerances,
    twist_case: Option<String>,
    strength: Strength,
}

impl TolerancesHandle {
    fn set(&self, set: impl FnOnce(&mut Wanted)) {
        set(&mut lock(&self.0));
    }
}

pub(in crate::api) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

fn drawn(context: &NativeCallContext<'_>, wanted: &Wanted, samples: usize, seed: u64) -> Result<Map, Raised> {
    let named = match (&wanted.twist_case, wanted.strength) {
        (Some(case), Strength::None) => Some(vec![case.clone()]),
        _ => None,
    };
    let outcome = wanted.tried.run(context, named, |derive| {
        let task = BandTask {
            spec: &wanted.tried.spec,
            derive,
            tolerances: wanted.tolerances,
            twist_case: wanted.twist_case.clone(),
            strength: wanted.strength,
            samples,
            seed,
        };
        band(&task).map_err(|fault| Fault::Task(fault.to_string()))
    })?;
    Ok(told(&outcome))
}

fn told(outcome: &BandOutcome) -> Map {
    let bands: Array = outcome.bands.iter().map(|band| of_band(band).into()).collect();
    let linear = outcome.linear.as_ref().map_or(Dynamic::UNIT, |linear| {
        let swing = |swing: &strutwork_study::robustness::Swing| -> Dynamic {
            map_of([("of", swing.of.clone().into()), ("change_nm_per_deg", swing.change_nm_per_deg.into())]).into()
        };
        let swings: Array = linear.swings.iter().map(swing).collect();
        let [five, ninety_five] = linear.five_to_ninety_five;
        map_of([
            ("nominal_nm_per_deg", linear.nominal_nm_per_deg.into()),
            ("deviation_nm_per_deg", linear.deviation_nm_per_deg.into()),
            ("five_nm_per_deg", five.into()),
            ("ninety_five_nm_per_deg", ninety_five.into()),
            ("swings", swings.into()),
            ("left_out", count(linear.left_out)),
        ])
        .into()
    });
    let remarks: Array = outcome.remarks.iter().map(|remark| Dynamic::from(remark.clone())).collect();
    let solved = outcome.samples.iter().filter(|sample| sample.values.is_ok()).count();
    map_of([
        ("bands", bands.into()),
        ("linear", linear),
        ("samples", count(outcome.samples.len())),
        ("solved", count(solved)),
        ("remarks", remarks.into()),
    ])
}

fn of_band(band: &Band) -> Map {
    let [least, greatest] = band.extremes;
    let [five, fifty, ninety_five] = band.percentiles;
    map_of([
        ("name", band.name.into()),
        ("unit", band.unit.into()),
        ("nominal", band.nominal.into()),
        ("count", count(band.count)),
        ("mean", band.mean.into()),
        ("deviation", band.deviation.into()),
        ("mean_error", band.mean_error.into()),
        ("least", least.into()),
        ("greatest", greatest.into()),
        ("five", five.value.into()),
        ("fifty", fifty.value.into()),
        ("ninety_five", ninety_five.value.into()),
        ("five_between", between(five.between)),
        ("ninety_five_between", between(ninety_five.between)),
    ])
}

fn between(ends: Option<[f64; 2]>) -> Dynamic {
    ends.map_or(Dynamic::UNIT, |ends| ends.map(Dynamic::from).to_vec().into())
}

#[export_module]
mod functions {
    use super::*;

    /// The tolerances of a frame as it is now, as the introduction says, and nothing read but the mass of its tubes.
    ///
    /// ```rhai
    /// let t = model().new_tolerances();
    /// t.read_stiffness("twist");
    /// for band in t.find_band(8, 1).bands { print(`${band.name}: ${band.five} to ${band.ninety_five} ${band.unit}`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn new_tolerances(context: NativeCallContext, frame: Frame) -> Result<TolerancesHandle, Raised> {
        Session::of(&context).only_free("new_tolerances")?;
        frame.model()?;
        let tried = Tried::new(frame.spec("new_tolerances")?, frame.own_cases());
        let (tolerances, strength) = (Tolerances::default(), Strength::None);
        Ok(TolerancesHandle(Arc::new(Mutex::new(Wanted { tried, tolerances, twist_case: None, strength }))))
    }

    /// Walls are off by up to this share either way.
    ///
    /// # Units
    /// %, from 0 to 50; EN 10219-2 allows 10 % up to 5 mm.
    ///
    /// ```rhai
    /// model().new_tolerances().wall_within(8);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn wall_within(tolerances: TolerancesHandle, per_cent: Dynamic) -> Result<(), Raised> {
        let share = number("the tolerance of walls", &per_cent)? / 100.0;
        tolerances.set(|wanted| wanted.tolerances.wall = share);
        Ok(())
    }

    /// Outsides are off as a standard allows, `"EN 10219-2"`, or not at all, `"none"`.
    ///
    /// ```rhai
    /// model().new_tolerances().outside_within("none");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn outside_within(tolerances: TolerancesHandle, standard: &str) -> Result<(), Raised> {
        let outside = match standard {
            "EN 10219-2" => OutsideTolerance::En10219,
            "none" => OutsideTolerance::None,
            other => return Err(Fault::unknown("standard", other, ["EN 10219-2", "none"].into_iter()).into()),
        };
        tolerances.set(|wanted| wanted.tolerances.outside = outside);
        Ok(())
    }

    /// Each coordinate of each joint is off by up to this either way.
    ///
    /// # Units
    /// mm, from 0 to 100.
    ///
    /// ```rhai
    /// model().new_tolerances().joints_within(1);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn joints_within(tolerances: TolerancesHandle, millimetres: Dynamic) -> Result<(), Raised> {
        let metres = number("the tolerance of joints", &millimetres)? * MM;
        tolerances.set(|wanted| wanted.tolerances.joints = metres);
        Ok(())
    }

    /// How values lie within their tolerance: `"even"`, all alike likely; `"bell"`, normal with the tolerance at two standard
    /// deviations, what lies beyond drawn again.
    ///
    /// ```rhai
    /// model().new_tolerances().spread_as("bell");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn spread_as(tolerances: TolerancesHandle, spread: &str) -> Result<(), Raised> {
        let spread = match spread {
            "even" => Spread::Even,
            "bell" => Spread::Bell,
            other => return Err(Fault::unknown("spread", other, ["even", "bell"].into_iter()).into()),
        };
        tolerances.set(|wanted| wanted.tolerances.spread = spread);
        Ok(())
    }

    /// Which tubes vary together: `"tube"`, each by itself; `"section"`, all of one section and material, as from one delivery;
    /// or a number, those cut from one bar of this length.
    ///
    /// # Units
    /// m.
    ///
    /// ```rhai
    /// model().new_tolerances().vary_together(6);
    /// model().new_tolerances().vary_together("section");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn vary_together(tolerances: TolerancesHandle, which: AnyValue) -> Result<(), Raised> {
        let sharing = if which.is_string() {
            match text("which tubes vary together", &which)?.as_str() {
                "tube" => Sharing::Tube,
                "section" => Sharing::Section,
                other => return Err(Fault::unknown("way to vary", other, ["tube", "section"].into_iter()).into()),
            }
        } else {
            Sharing::Bar { length: number("the length of a bar", &which)? }
        };
        tolerances.set(|wanted| wanted.tolerances.sharing = sharing);
        Ok(())
    }

    /// Draws whose cross-section is off by more than this share are drawn again: a mill that sells by weight keeps to it.
    ///
    /// # Units
    /// %, above 0, to 100; EN 10219-2 allows a length 6 % of its mass.
    ///
    /// ```rhai
    /// model().new_tolerances().mass_within(6);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn mass_within(tolerances: TolerancesHandle, per_cent: Dynamic) -> Result<(), Raised> {
        let share = number("the tolerance of mass", &per_cent)? / 100.0;
        tolerances.set(|wanted| wanted.tolerances.mass = Some(share));
        Ok(())
    }

    /// Reads the torsional stiffness that a load case measures.
    ///
    /// ```rhai
    /// model().new_tolerances().read_stiffness("twist");
    /// ```
    pub fn read_stiffness(tolerances: TolerancesHandle, case: &str) {
        tolerances.set(|wanted| wanted.twist_case = Some(case.to_owned()));
    }

    /// Reads the worst utilisation over all load cases: of `"yield"` (check D001), of all design `"checks"`, or `"none"`.
    ///
    /// ```rhai
    /// model().new_tolerances().read_strength("yield");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn read_strength(tolerances: TolerancesHandle, strength: &str) -> Result<(), Raised> {
        let strength = super::strength(strength)?;
        tolerances.set(|wanted| wanted.strength = strength);
        Ok(())
    }

    /// Solves the load cases that a function of the script builds: it is called with every frame that is drawn, and gives an
    /// array of load cases. Otherwise those that a run of the model would solve.
    ///
    /// ```rhai
    /// model().new_tolerances().draw_on(|frame| frame.cases_of("twist"));
    /// ```
    pub fn draw_on(tolerances: TolerancesHandle, build: FnPtr) {
        tolerances.set(|wanted| wanted.tried.builds = Some(build));
    }

    /// Draws so many frames and solves each, on all cores. The same seed gives the same frames, and a longer run starts with
    /// those of a shorter one.
    ///
    /// * A map: `bands`, an array of maps; `linear`, what derivatives say of the torsional stiffness, or `()`; `samples`, `solved`;
    ///   `remarks`, what a reader must know.
    /// * A band is a map: `name`, `unit`, `nominal`, `count`, `mean`, `deviation`, `mean_error`, `least` and `greatest` of the frames
    ///   drawn, `five`, `fifty`, `ninety_five` per cent; `five_between`, `ninety_five_between`: 95 times in 100 the percentile of all such
    ///   frames lies there, `()` where too few were drawn.
    /// * `linear` is a map: `nominal_nm_per_deg`, `deviation_nm_per_deg`, `five_nm_per_deg`, `ninety_five_nm_per_deg`; `swings`, what
    ///   each deviation does at its whole tolerance, `#{ of, change_nm_per_deg }`, the greatest first; `left_out`.
    /// * Ctrl-C ends it after the frames in hand, and the script with it.
    ///
    /// # Units
    /// A whole number of frames, 2 or more; the seed is a whole number.
    ///
    /// ```rhai
    /// let t = model().new_tolerances();
    /// t.read_stiffness("twist");
    /// print(t.find_band(8, 1).linear.deviation_nm_per_deg);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn find_band(
        context: NativeCallContext,
        tolerances: TolerancesHandle,
        samples: Dynamic,
        seed: Dynamic,
    ) -> Result<Map, Raised> {
        let samples = whole("the number of frames", &samples, 2, 10_000_000, "a whole number from 2 to 10000000")?;
        let seed = whole("the seed", &seed, 0, u32::MAX, "a whole number from 0 to 4294967295")?;
        let wanted = lock(&tolerances.0).clone();
        drawn(&context, &wanted, samples as usize, u64::from(seed))
    }
}
