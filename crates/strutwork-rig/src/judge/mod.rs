//! From a sheet to a judgement: what was left out, the stiffness with its interval, loop, slip and zero, the profile along the
//! frame, and how all of it stands beside the model.

mod against;
pub(crate) mod fit;
mod loops;
pub(crate) mod roles;
mod settle;
mod slip;
mod told;

use strutwork_model::model::RigSheet;

use crate::line::along;
use crate::modelled::Modelled;
use crate::readings::Readings;
use crate::remark::Remark;
use crate::screen;
use crate::suspect::{self, Expected};
use crate::twist::Base;
pub use against::{Against, Bay, Standing};
pub use fit::Measured;
use fit::{Branch, Wanted};
pub use loops::{Curvature, Hysteresis};
pub use settle::CycleZero;
use slip::Jump;

/// What a sheet says.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// Everything that has a code, in the order in which it was found.
    pub remarks: Vec<Remark>,
    /// Twist of each station over the steps, rad: sink subtracted, left-out readings `None`.
    pub twists: Vec<Vec<Option<f64>>>,
    /// Each station's line, in the order of the sheet.
    pub stations: Vec<StationLine>,
    /// The two stations between which the stiffness is stated; `None` where there are none.
    pub between: Option<[usize; 2]>,
    /// The stations whose turn is subtracted.
    pub base: Vec<usize>,
    /// The cycles, with how far their zeros came back.
    pub cycles: Vec<CycleZero>,
    /// The stiffness from loading and unloading together; `None` where none can be stated.
    pub stiffness: Option<Measured>,
    /// From loading alone.
    pub loading: Option<Measured>,
    /// From unloading alone.
    pub unloading: Option<Measured>,
    /// With the jumps left in; `None` where there are none.
    pub with_jumps: Option<Measured>,
    /// The loop; `None` where it was not unloaded.
    pub hysteresis: Option<Hysteresis>,
    /// How much the line bends; `None` where it cannot be told.
    pub curvature: Option<Curvature>,
    /// Sink of the rig at the loaded station over the twist there, a share; `None` without a held pair.
    pub sink: Option<f64>,
    /// Stations whose readings were taken otherwise than written.
    pub assumed: Vec<usize>,
    /// Whether the size of the couple or of all readings is in doubt.
    pub size_in_doubt: bool,
    /// How the sheet stands beside the model; `None` where that cannot be told.
    pub against: Option<Against>,
    /// The verdict, in sentences.
    pub verdict: Vec<String>,
}

impl Judgement {
    /// Whether the readings of a cycle of the sheet are in the lines, left-out ones apart: not those of cycles that settle.
    pub fn keeps(&self, cycle: u32) -> bool {
        settle::keeps(&self.cycles, cycle)
    }
}

/// The line of one station.
#[derive(Debug, Clone, PartialEq)]
pub struct StationLine {
    /// Twist over couple relative to the base, rad/(N·m); `None` where too little was read.
    pub twist: Option<f64>,
    /// Half of its 95 % interval, tolerances included, rad/(N·m).
    pub half: f64,
    /// Readings that were left out or missing, of twice the steps.
    pub left_out: usize,
    /// What the model says, rad/(N·m); `None` where it says nothing.
    pub modelled: Option<f64>,
    /// What it says with soft joints.
    pub soft: Option<f64>,
}

/// Judges a sheet, beside a model where there is one.
pub fn judge(sheet: &RigSheet, modelled: Option<&Modelled>) -> Judgement {
    let mut readings = Readings::of(sheet);
    let mut remarks = roles::check(&readings);
    let (found, dial_jumps) = screen::screen(&mut readings);
    remarks.extend(found);
    let expected = expected(&readings, modelled);
    let suspicions = suspect::suspect(&mut readings, &expected);
    remarks.extend(suspicions.remarks);
    let loaded = modelled.map_or_else(|| suspect::loaded(&readings), |modelled| Some(modelled.loaded));
    let base = Base::of(sheet, loaded);
    let twists = base.twists(&readings);
    let between = sheet.between.or_else(|| roles::between(&readings, loaded, &base));
    let floor = |station: usize| {
        readings.turn_floor(station).hypot(base.stations.first().map_or(0.0, |held| readings.turn_floor(*held)))
    };
    let jumps: Vec<Jump> = (0..twists.len())
        .filter(|station| !base.stations.contains(station))
        .flat_map(|station| slip::jumps(&readings, station, &twists[station]))
        .collect();
    let (jumps, unknown) = spread(&readings, &base, &twists, jumps, &dial_jumps);
    remarks.extend(told::jumps(&readings, &base, &jumps, &unknown, &dial_jumps));

    let difference = |[a, b]: [usize; 2]| -> Vec<Option<f64>> {
        twists[a].iter().zip(&twists[b]).map(|(a, b)| Some((*a)? - (*b)?)).collect()
    };
    let main = between.map(difference);
    let main_floor = between.map_or(0.0, |[a, b]| floor(a).max(floor(b)));
    let own_jumps = |stations: &[usize]| -> Vec<Jump> {
        jumps.iter().filter(|jump| stations.contains(&jump.station)).copied().collect()
    };
    let smooth = main.as_ref().zip(between).map(|(main, pair)| without(&readings, main, &own_jumps(&pair), pair[0]));
    // What readings scatter by beside a smooth loop, jumps taken out.
    let noise = smooth
        .as_ref()
        .and_then(|smooth| screen::select::scatter(&readings.plain(smooth), &readings.unloading()))
        .map_or(main_floor, |scatter| scatter.max(main_floor));
    let cycles = main.as_ref().map_or_else(Vec::new, |main| settle::cycles(&readings, main, noise));
    let kept: Vec<bool> = sheet.steps.iter().map(|step| settle::keeps(&cycles, step.cycle)).collect();

    // Tolerances of the couple, and of the spacing of the narrowest of the dials that count.
    let tolerance = |stations: &[usize]| {
        let narrow = stations.iter().map(|station| sheet.stations[*station].spacing).fold(f64::INFINITY, f64::min);
        (sheet.couple_tolerance.hypot(sheet.spacing_tolerance / narrow)) / 3.0_f64.sqrt()
    };
    let stations: Vec<StationLine> = (0..twists.len())
        .map(|station| {
            let groups = slip::split(&readings, &own_jumps(&[station]));
            let wanted =
                Wanted { groups: &groups, kept: &kept, tolerance: tolerance(&[station]), floor: floor(station) };
            let line = fit::line(&readings, &twists[station], Branch::Both, &wanted);
            let still = base.stations.as_slice() == [station];
            StationLine {
                twist: line.as_ref().map(|line| line.slope),
                half: line.as_ref().map_or(f64::INFINITY, |line| if still { 0.0 } else { fit::half(line, &wanted) }),
                left_out: readings.cells[station].iter().flat_map(|cell| cell.dials).filter(Option::is_none).count(),
                modelled: modelled.and_then(|modelled| modelled.rigid[station]),
                soft: modelled.and_then(|modelled| modelled.soft.as_ref()?[station]),
            }
        })
        .collect();

    let split = between.map_or_else(|| readings.groups.clone(), |pair| slip::split(&readings, &own_jumps(&pair)));
    let wanted = Wanted {
        groups: &split,
        kept: &kept,
        tolerance: between.map_or(0.0, |pair| tolerance(&pair)),
        floor: main_floor,
    };
    let measure = |branch: Branch, wanted: &Wanted<'_>| {
        let line = fit::line(&readings, main.as_ref()?, branch, wanted)?;
        fit::measured(line, wanted)
    };
    let stiffness = measure(Branch::Both, &wanted);
    let whole = Wanted { groups: &readings.groups, ..wanted };
    let jumped = between.is_some_and(|pair| !own_jumps(&pair).is_empty());
    let hysteresis = smooth.as_ref().and_then(|smooth| loops::hysteresis(&readings, smooth, &kept, noise));
    let both_ways = hysteresis.is_some();
    let curvature = main
        .as_ref()
        .and_then(|main| loops::curvature(&fit::samples(&readings, main, Branch::Both, &wanted), both_ways));
    let mut judgement = Judgement {
        loading: measure(Branch::Loading, &wanted),
        unloading: measure(Branch::Unloading, &wanted),
        with_jumps: if jumped { measure(Branch::Both, &whole) } else { None },
        sink: sink(&readings, &base, loaded),
        assumed: suspicions.assumed,
        size_in_doubt: suspicions.size_in_doubt,
        against: None,
        verdict: Vec::new(),
        remarks: Vec::new(),
        base: base.stations.clone(),
        twists: twists.clone(),
        stations,
        between,
        cycles,
        stiffness,
        hysteresis,
        curvature,
    };
    remarks.extend(told::behaviour(&readings, &judgement, main_floor, noise));
    let bay = |pair: [usize; 2]| {
        let groups = slip::split(&readings, &own_jumps(&pair));
        // No floor: a bay is judged by what its own readings scatter by, whatever the dials leave open.
        let wanted = Wanted { groups: &groups, kept: &kept, tolerance: tolerance(&pair), floor: 0.0 };
        let line = fit::line(&readings, &difference([pair[1], pair[0]]), Branch::Both, &wanted)?;
        Some([line.slope, fit::half(&line, &wanted)])
    };
    judgement.against = modelled.and_then(|modelled| against::compare(sheet, &judgement, modelled, bay));
    remarks.extend(against::remarks(sheet, &judgement));
    judgement.verdict = told::verdict(sheet, &judgement);
    judgement.remarks = remarks;
    judgement
}

/// The jumps of single stations with those of the others that share them; and which stations cannot tell, with the step.
fn spread(
    readings: &Readings<'_>,
    base: &Base,
    twists: &[Vec<Option<f64>>],
    mut jumps: Vec<Jump>,
    of_dials: &[screen::DialJump],
) -> (Vec<Jump>, Vec<(usize, usize)>) {
    let mut unknown = Vec::new();
    let mut steps: Vec<usize> = jumps.iter().map(|jump| jump.step).collect();
    steps.sort_unstable();
    steps.dedup();
    for step in steps {
        let of_dial = |jump: &&Jump| of_dials.iter().any(|dial| dial.station == jump.station && dial.step == step);
        let here = jumps.iter().filter(|jump| jump.step == step && !of_dial(jump));
        let Some(most) = here.max_by(|a, b| a.by.abs().total_cmp(&b.by.abs())).copied() else { continue };
        for station in (0..twists.len()).filter(|station| !base.stations.contains(station)) {
            if jumps.iter().any(|jump| jump.station == station && jump.step == step) {
                continue;
            }
            match slip::shares(readings, station, &twists[station], &most) {
                slip::Shares::Jumps(by) => jumps.push(Jump { station, step, by }),
                slip::Shares::Unknown => unknown.push((step, station)),
                slip::Shares::Stays => {}
            }
        }
    }
    (jumps, unknown)
}

/// What twist the stations should show: the model's, or one that grows evenly from the base to the loaded station.
fn expected(readings: &Readings<'_>, modelled: Option<&Modelled>) -> Expected {
    let stations = &readings.sheet.stations;
    let loaded = modelled.map_or_else(|| suspect::loaded(readings), |modelled| Some(modelled.loaded));
    if let Some(modelled) = modelled.filter(|modelled| modelled.rigid.iter().flatten().any(|twist| *twist > 0.0)) {
        return Expected { twist: modelled.rigid.clone(), of_model: true, breadth: modelled.breadth.clone(), loaded };
    }
    let base = Base::of(readings.sheet, loaded);
    let from = loaded.and_then(|loaded| {
        let near = |held: &usize| (stations[*held].x - stations[loaded].x).abs();
        let held = base.stations.iter().min_by(|a, b| near(a).total_cmp(&near(b)))?;
        Some((stations[*held].x, stations[loaded].x))
    });
    let even = |x: f64| {
        from.map(|(held, loaded)| ((x - held) / (loaded - held)).clamp(0.0, 1.0)).filter(|share| share.is_finite())
    };
    Expected {
        twist: stations.iter().map(|station| even(station.x)).collect(),
        of_model: false,
        breadth: vec![None; stations.len()],
        loaded,
    }
}

/// A series without its jumps: from each on, to the end of its cycle, it is set back.
fn without(readings: &Readings<'_>, series: &[Option<f64>], jumps: &[Jump], first: usize) -> Vec<Option<f64>> {
    let steps = readings.steps();
    let mut smooth = series.to_vec();
    for jump in jumps {
        let sign = if jump.station == first { 1.0 } else { -1.0 };
        for step in (jump.step..steps.len()).filter(|step| steps[*step].cycle == steps[jump.step].cycle) {
            smooth[step] = smooth[step].map(|value| value - sign * jump.by);
        }
    }
    smooth
}

/// What the rig yields at the loaded station's place, over the turn there.
fn sink(readings: &Readings<'_>, base: &Base, loaded: Option<usize>) -> Option<f64> {
    let loaded = loaded.filter(|_| base.named)?;
    let slope =
        |station: usize| crate::line::steady_line(&readings.plain(&readings.turns(station))).map(|line| line.slope);
    let places: Option<Vec<[f64; 2]>> =
        base.stations.iter().map(|held| Some([readings.sheet.stations[*held].x, slope(*held)?])).collect();
    let sink = along(&places?, readings.sheet.stations[loaded].x)?;
    let turn = slope(loaded)?;
    (turn != 0.0).then(|| sink / turn)
}
