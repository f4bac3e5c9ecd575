//! What a case wants read off its solution.

use strutwork_loads::case::Measure;
use strutwork_model::model::Point;
use strutwork_model::{JointId, Model};

use super::Movement;
use crate::results::{MeasureResult, TwistStation};

/// Joints count as a left and right pair when their x and z agree within this, m, and y mirrors within it.
const PAIR: f64 = 1e-3;

/// Reads one measure.
pub(crate) fn measure(model: &Model, measure: &Measure, movement: &Movement) -> MeasureResult {
    match *measure {
        Measure::Twist { front, rear, couple } => {
            let turn = |pair: [Point; 2]| turn(model, movement, pair);
            let base = turn(rear);
            let twist = turn(front) - base;
            let centre = |pair: [Point; 2]| (pair[0].at(model)[1] + pair[1].at(model)[1]) / 2.0;
            let mut pairs = pairs(model, centre(front));
            for pair in [front, rear] {
                if !pairs.contains(&pair) {
                    pairs.push(pair);
                }
            }
            let (first, last) = (rear[0].at(model)[0], front[0].at(model)[0]);
            let mut profile: Vec<TwistStation> = pairs
                .into_iter()
                .map(|[left, right]| TwistStation {
                    x: left.at(model)[0],
                    left,
                    right,
                    twist: turn([left, right]) - base,
                })
                .filter(|station| station.x >= first.min(last) - PAIR && station.x <= first.max(last) + PAIR)
                .collect();
            profile.sort_by(|a, b| a.x.total_cmp(&b.x));
            MeasureResult::Twist { couple, twist, stiffness: (couple / twist).abs(), profile }
        }
        Measure::Movement { joint } => MeasureResult::Movement { joint, movement: movement.joints[joint] },
    }
}

/// Turn of a left and right pair about x, rad: their difference in height over their distance along y.
fn turn(model: &Model, movement: &Movement, [left, right]: [Point; 2]) -> f64 {
    let gauge = left.at(model)[1] - right.at(model)[1];
    ((movement.at(model, left)[2] - movement.at(model, right)[2]) / gauge).atan()
}

/// Pairs of joints that mirror each other across the plane y = `centre`, left first, in order of the left joint.
fn pairs(model: &Model, centre: f64) -> Vec<[Point; 2]> {
    let grid = |value: f64| (value / PAIR).round() as i64;
    let mut right: Vec<((i64, i64, i64), JointId)> = model
        .joints()
        .iter_with_id()
        .filter(|(_, joint)| joint.at[1] < centre - PAIR)
        .map(|(id, joint)| ((grid(joint.at[0]), grid(joint.at[2]), grid(centre - joint.at[1])), id))
        .collect();
    right.sort_unstable();
    model
        .joints()
        .iter_with_id()
        .filter(|(_, joint)| joint.at[1] > centre + PAIR)
        .filter_map(|(left, joint)| {
            let key = (grid(joint.at[0]), grid(joint.at[2]), grid(joint.at[1] - centre));
            let found = right.binary_search_by(|(other, _)| other.cmp(&key)).ok()?;
            Some([left, right[found].1].map(Point::Joint))
        })
        .collect()
}
