//! Synthetic rig sheets: a frame of known stiffness read with noise, sink, loop and slip, from a seed.

use std::f64::consts::TAU;
use std::fmt::Write as _;

use strutwork_model::model::{RigReading, RigRole, RigSheet, RigStation, RigStep, RigWords};

/// A station of a synthetic rig.
#[derive(Debug, Clone)]
pub struct PlannedStation {
    /// Its name.
    pub name: &'static str,
    /// x, m.
    pub x: f64,
    /// Spacing of its dials, m.
    pub spacing: f64,
    /// What it is for.
    pub role: RigRole,
    /// True twist over couple relative to what is held, rad/(N·m).
    pub twist: f64,
}

/// A slip: all stations from a place on jump.
#[derive(Debug, Clone, Copy)]
pub struct PlannedSlip {
    /// The cycle, from 1.
    pub cycle: u32,
    /// The loading step, by its number, before which it slips.
    pub step: u32,
    /// Stations with an x at least this, m, jump.
    pub from_x: f64,
    /// By how much, rad.
    pub by: f64,
}

/// A synthetic rig and how it is read.
#[derive(Debug, Clone)]
pub struct Plan {
    /// The stations.
    pub stations: Vec<PlannedStation>,
    /// The couples of loading, from the preload up, N·m; unloading comes back the same way.
    pub couples: Vec<f64>,
    /// How many cycles.
    pub cycles: u32,
    /// Standard deviation of a reading, m.
    pub noise: f64,
    /// Step to which readings are rounded, m.
    pub resolution: f64,
    /// Turn of what holds the frame over couple, rad/(N·m), and how much of it a metre along x adds.
    pub sink: [f64; 2],
    /// Width of the loop, a share of the twist's range.
    pub hysteresis: f64,
    /// Lift of the whole frame over couple, m/(N·m): a pivot beside its middle.
    pub lift: f64,
    /// A slip.
    pub slip: Option<PlannedSlip>,
    /// Where random numbers start.
    pub seed: u64,
}

impl Plan {
    /// A frame of five stations that twists evenly but for a soft bay in the middle; `stiffness` between front and rear,
    /// N·m/rad.
    pub fn plain(stiffness: f64, seed: u64) -> Self {
        let shares = [0.0, 0.12, 0.5, 0.8, 1.0];
        let names = ["rear", "seat", "door", "dash", "front"];
        let stations = (0..5)
            .map(|place| PlannedStation {
                name: names[place],
                x: 0.3 + 0.5 * place as f64,
                spacing: [0.9, 1.0, 1.1, 1.0, 0.8][place],
                role: [RigRole::Held, RigRole::Read, RigRole::Read, RigRole::Read, RigRole::Loaded][place],
                twist: shares[place] / stiffness,
            })
            .collect();
        Self {
            stations,
            couples: (0..7).map(|step| 150.0 + 225.0 * f64::from(step)).collect(),
            cycles: 3,
            noise: 0.01e-3,
            resolution: 0.01e-3,
            sink: [0.04 / stiffness, 0.0],
            hysteresis: 0.0,
            lift: 0.0,
            slip: None,
            seed,
        }
    }

    /// The sheet as it would be typed.
    pub fn sheet(&self) -> RigSheet {
        let mut random = Random(self.seed);
        let mut steps = Vec::new();
        let mut readings = Vec::new();
        let offsets: Vec<[f64; 2]> =
            self.stations.iter().map(|_| [random.normal() * 0.5e-3, random.normal() * 0.5e-3]).collect();
        let (least, most) = (self.couples[0], self.couples[self.couples.len() - 1]);
        for cycle in 1..=self.cycles {
            let up = self.couples.iter().enumerate().map(|(number, couple)| (number, *couple, false));
            let down = self.couples.iter().enumerate().rev().skip(1).map(|(number, couple)| (number, *couple, true));
            for (number, couple, unloading) in up.chain(down) {
                let step = steps.len();
                let share = (couple - least) / (most - least);
                let bow = 2.0 * share * (1.0 - share) * self.hysteresis * if unloading { 1.0 } else { -1.0 };
                steps.push(RigStep { cycle, number: number as u32, unloading, couple, line: 0 });
                for (station, of) in self.stations.iter().enumerate() {
                    let mut twist =
                        of.twist * (couple + bow * (most - least)) + (self.sink[0] + self.sink[1] * of.x) * couple;
                    let slipped = self.slip.filter(|slip| {
                        of.x >= slip.from_x
                            && (cycle > slip.cycle || cycle == slip.cycle && (unloading || number as u32 >= slip.step))
                    });
                    twist += slipped.map_or(0.0, |slip| slip.by);
                    let half = twist.tan() * of.spacing / 2.0;
                    let mut read = |move_by: f64, side: usize| {
                        let value =
                            move_by + self.lift * couple + offsets[station][side] + self.noise * random.normal();
                        Some(if self.resolution > 0.0 {
                            (value / self.resolution).round() * self.resolution
                        } else {
                            value
                        })
                    };
                    readings.push(RigReading {
                        station,
                        step,
                        left: read(half, 0),
                        right: read(-half, 1),
                        line: readings.len() + 2,
                    });
                }
            }
        }
        RigSheet {
            stations: self
                .stations
                .iter()
                .map(|of| RigStation {
                    name: of.name.to_owned(),
                    x: of.x,
                    spacing: of.spacing,
                    role: of.role,
                    joints: None,
                    line: 2,
                })
                .collect(),
            steps,
            readings,
            dials_down: false,
            resolution: self.resolution.max(1e-6),
            repeatability: self.noise,
            couple_tolerance: 0.01,
            spacing_tolerance: 1e-3,
            settling_cycles: None,
            between: None,
            panels_fitted: true,
            words: RigWords::default(),
        }
    }
}

/// A sheet as `rig.csv`.
pub fn rig_csv(sheet: &RigSheet) -> String {
    let mut text = "station,x_mm,spacing_mm,role,cycle,direction,step,couple_nm,left_mm,right_mm\n".to_owned();
    let mut known = vec![false; sheet.stations.len()];
    let mut told = vec![false; sheet.steps.len()];
    for reading in &sheet.readings {
        let (of, step) = (&sheet.stations[reading.station], &sheet.steps[reading.step]);
        let first = !std::mem::replace(&mut known[reading.station], true);
        let place = if first {
            format!("{:.0},{:.0},{}", of.x * 1e3, of.spacing * 1e3, of.role.word())
        } else {
            ",,".to_owned()
        };
        let couple = if std::mem::replace(&mut told[reading.step], true) {
            String::new()
        } else {
            format!("{:.0}", step.couple)
        };
        let way = if step.unloading { "unloading" } else { "loading" };
        let dial = |value: Option<f64>| value.map_or_else(String::new, |value| format!("{:.2}", value * 1e3 + 0.0));
        let _ = writeln!(
            text,
            "{},{place},{},{way},{},{couple},{},{}",
            of.name,
            step.cycle,
            step.number,
            dial(reading.left),
            dial(reading.right)
        );
    }
    text
}

/// Random numbers, the same on every machine.
///
/// # Source
/// Sequence: G. L. Steele, D. Lea, C. H. Flood 2014, SplitMix64; normal deviates: G. E. P. Box, M. E. Muller 1958 (both from
/// memory).
#[derive(Debug, Clone)]
pub struct Random(pub u64);

impl Random {
    /// Even between 0 and 1, both left out.
    pub fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((bits ^ (bits >> 31)) >> 11) as f64 / 9_007_199_254_740_992.0 + 1e-17
    }

    /// Normal, mean 0, standard deviation 1.
    pub fn normal(&mut self) -> f64 {
        (-2.0 * self.even().ln()).sqrt() * (TAU * self.even()).cos()
    }
}
