//! The model loaded as the rig loads the frame: twist of every station under a couple of 1 N·m.

mod fault;
mod pairs;

use strutwork_loads::case::{Measure, Nature};
use strutwork_loads::{CaseBuilder, LoadCase, LoadCases, LoadError};
use strutwork_model::model::{Point, RigSheet};
use strutwork_model::{Dof, Model};
use strutwork_solve::results::{MeasureResult, TwistStation, main_stations};
use strutwork_solve::solve_cases;

pub use fault::NotModelled;
use pairs::{NEAR, breadth, pair};

use crate::judge::roles;
use crate::line::along;
use crate::twist::{Base, PIVOT};

/// The couple of the case, N·m: what twists is over couple as it comes. The frame is linear, and turns are so small that the
/// arc tangent with which they are read off changes nothing (own choice).
const COUPLE: f64 = 1.0;

/// What the model says of the rig's stations.
#[derive(Debug, Clone, PartialEq)]
pub struct Modelled {
    /// The station where the couple acts, by place.
    pub loaded: usize,
    /// Twist over couple relative to what is held, rad/(N·m), in the order of the sheet; `None` where it says nothing.
    pub rigid: Vec<Option<f64>>,
    /// The same with soft joints; `None` where the rule makes none soft.
    pub soft: Option<Vec<Option<f64>>>,
    /// Places and twists over couple along the frame, m and rad/(N·m), for a picture.
    pub curve: Vec<[f64; 2]>,
    /// Distance along y of the joints at each station, m; `None` where it is interpolated.
    pub breadth: Vec<Option<f64>>,
    /// How it was held and loaded, in a sentence.
    pub how: String,
}

/// Loads and holds the model as the sheet says, and reads its twist off.
///
/// One held pair: equal and opposite couples at the loaded and the held pair, balanced and free, which twists the frame as any
/// statically determinate rig does. Two or more: each held joint is fixed in z, the first pair along x and y too. A held pair at
/// the loaded station stands on the pivot's post and holds nothing.
///
/// # Errors
/// [`NotModelled`].
pub fn modelled(model: &Model, sheet: &RigSheet) -> Result<Modelled, NotModelled> {
    let bare;
    let model = if sheet.panels_fitted || model.panels().iter().next().is_none() {
        model
    } else {
        bare = model.without_panels();
        &bare
    };
    let rig = Rig::of(model, sheet)?;
    let rigid = rig.solve(model)?;
    let soft_model = (!model.soft_ends().is_empty()).then(|| model.with_soft_joints());
    let soft = soft_model.map(|soft| rig.solve(&soft)).transpose()?;
    Ok(Modelled {
        loaded: rig.loaded,
        breadth: rig.pairs.iter().map(|pair| pair.map(|pair| breadth(model, pair))).collect(),
        how: rig.how(model, sheet),
        curve: rigid.1,
        rigid: rigid.0,
        soft: soft.map(|soft| soft.0),
    })
}

/// Twist over couple of the stations, and places and twists along the frame.
type Twisted = (Vec<Option<f64>>, Vec<[f64; 2]>);

/// Which joints stand for which stations.
struct Rig<'s> {
    sheet: &'s RigSheet,
    pairs: Vec<Option<[Point; 2]>>,
    loaded: usize,
    /// Those that hold twist.
    held: Vec<usize>,
    /// Held pairs at the pivot of the loaded one: they stand on the rig, not on the frame.
    posts: Vec<usize>,
}

impl<'s> Rig<'s> {
    fn of(model: &Model, sheet: &'s RigSheet) -> Result<Self, NotModelled> {
        let loaded = roles::loaded(sheet).ok_or(NotModelled::NoStations)?;
        let mut held = Base::of(sheet, Some(loaded)).stations;
        let x = |station: &usize| sheet.stations[*station].x;
        let at_pivot = |station: &usize| (x(station) - x(&loaded)).abs() <= PIVOT;
        let posts: Vec<usize> =
            if held.iter().all(at_pivot) { Vec::new() } else { held.iter().copied().filter(at_pivot).collect() };
        held.retain(|station| !posts.contains(station));
        if held.is_empty() {
            return Err(NotModelled::NoStations);
        }
        let pairs: Vec<Option<[Point; 2]>> = (0..sheet.stations.len())
            .map(|station| pair(model, sheet, station, station == loaded || held.contains(&station)))
            .collect();
        let flat = |(_, pair): &(usize, [Point; 2])| breadth(model, *pair) <= 0.0;
        let known = pairs.iter().enumerate().filter_map(|(station, pair)| Some((station, (*pair)?)));
        if let Some((station, pair)) = known.into_iter().find(flat) {
            let joints = pair.map(|point| point.name(model).to_owned());
            return Err(NotModelled::NoBreadth { station: sheet.stations[station].name.clone(), joints });
        }
        Ok(Self { sheet, pairs, loaded, held, posts })
    }

    fn needed(&self, station: usize, role: &'static str) -> Result<[Point; 2], NotModelled> {
        self.pairs[station]
            .ok_or_else(|| NotModelled::NoPair { role, station: self.sheet.stations[station].name.clone() })
    }

    fn case(&self, model: &Model) -> Result<LoadCase, NotModelled> {
        let mut case =
            CaseBuilder::new(model, "rig", "The model as the twist rig holds and loads it", Nature::Notional)?;
        let loaded = self.needed(self.loaded, "loaded")?;
        let held = self.held.iter().map(|station| self.needed(*station, "held")).collect::<Result<Vec<_>, _>>()?;
        couple(&mut case, loaded, COUPLE)?;
        let joints: Option<Vec<_>> = held
            .iter()
            .flatten()
            .map(|point| match point {
                Point::Joint(joint) => Some(*joint),
                Point::OnBody { .. } => None,
            })
            .collect();
        match joints.filter(|_| held.len() > 1) {
            Some(joints) => {
                joints.iter().for_each(|joint| case.hold(*joint, &[Dof::Uz]));
                case.hold(joints[0], &[Dof::Ux, Dof::Uy]);
                case.hold(joints[1], &[Dof::Ux]);
            }
            None => {
                // Of several pairs on bodies the one nearest to the couple holds it.
                let far =
                    |station: &usize| (self.sheet.stations[*station].x - self.sheet.stations[self.loaded].x).abs();
                let nearest = (0..held.len()).min_by(|a, b| far(&self.held[*a]).total_cmp(&far(&self.held[*b])));
                couple(&mut case, held[nearest.unwrap_or_default()], -COUPLE)?;
                case.balance()?;
            }
        }
        case.measure_twist(loaded, held[0], COUPLE)?;
        for pair in self.pairs.iter().flatten() {
            case.measure_twist(*pair, held[0], COUPLE)?;
        }
        Ok(case.finish()?)
    }

    /// Twist over couple of the stations, and along the frame, relative to the held ones.
    fn solve(&self, model: &Model) -> Result<Twisted, NotModelled> {
        let case = self.case(model)?;
        let main = match case.measures.first() {
            Some(Measure::Twist { front, rear, .. }) => [*front, *rear],
            _ => return Err(NotModelled::NoStations),
        };
        let results = solve_cases(model, &LoadCases(vec![case]))?;
        let measures = results.cases.first().map_or(&[][..], |case| &case.measures);
        let mut read = measures.iter().filter_map(|measure| match measure {
            MeasureResult::Twist { twist, profile, .. } => Some((*twist, profile)),
            MeasureResult::Movement { .. } => None,
        });
        let profile = read.next().map_or(&[][..], |(_, profile)| profile);
        let curve: Vec<[f64; 2]> = main_stations(model, main, profile)
            .iter()
            .map(|station: &TwistStation| [station.x, station.twist])
            .collect();
        let own: Vec<Option<f64>> = self.pairs.iter().map(|pair| pair.and_then(|_| Some(read.next()?.0))).collect();
        let raw = |station: usize| own[station].or_else(|| near(&curve, self.sheet.stations[station].x));
        let places: Vec<[f64; 2]> =
            self.held.iter().filter_map(|held| Some([self.sheet.stations[*held].x, raw(*held)?])).collect();
        let less = |x: f64, twist: f64| along(&places, x).map(|sink| twist - sink);
        let stations =
            (0..own.len())
                .map(|station| {
                    if self.posts.contains(&station) {
                        None
                    } else {
                        less(self.sheet.stations[station].x, raw(station)?)
                    }
                })
                .collect();
        Ok((stations, curve.iter().filter_map(|[x, twist]| Some([*x, less(*x, *twist)?])).collect()))
    }

    fn how(&self, model: &Model, sheet: &RigSheet) -> String {
        let at = |station: usize| {
            let joints = self.pairs[station].map(|pair| pair.map(|point| point.name(model)).join(" and "));
            format!("{} ({})", sheet.stations[station].name, joints.unwrap_or_default())
        };
        let held: Vec<String> = self.held.iter().map(|station| at(*station)).collect();
        let panels = if sheet.panels_fitted { "" } else { " Its panels are left out." };
        let over = if self.held.len() > 1 {
            " Held at more than one station it cannot warp there, and is stiffer than on a rig that is statically determinate."
        } else {
            ""
        };
        format!(
            "The model is held at {} and loaded by a couple at {}.{panels}{over}",
            held.join(" and "),
            at(self.loaded)
        )
    }
}

/// A couple about x as two vertical forces, N·m; positive: the left one up.
fn couple(case: &mut CaseBuilder<&Model>, pair: [Point; 2], couple: f64) -> Result<(), LoadError> {
    let force = couple / breadth(case.model(), pair);
    for (point, force) in [(pair[0], force), (pair[1], -force)] {
        match point {
            Point::Joint(joint) => case.joint_load(joint, [0.0, 0.0, force], [0.0; 3])?,
            Point::OnBody { body, at } => case.body_load(body, [0.0, 0.0, force], [0.0; 3], Some(at))?,
        }
    }
    Ok(())
}

/// The curve at a place, that of its end within reach of it; `None` beyond.
fn near(curve: &[[f64; 2]], x: f64) -> Option<f64> {
    let (first, last) = (curve.first()?, curve.last()?);
    if x < first[0] - NEAR || x > last[0] + NEAR { None } else { along(curve, x) }
}
