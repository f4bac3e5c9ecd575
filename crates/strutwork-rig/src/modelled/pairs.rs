//! Which joints of the model stand for a station.

use strutwork_model::Model;
use strutwork_model::model::{Point, RigSheet};

/// Pairs of joints count as being at a station within this along x, m; stations between pairs are interpolated. Own choice:
/// dials do not stand on the joints themselves.
pub(super) const NEAR: f64 = 0.1;

/// Distance along y from the right to the left one of a pair, m.
pub(super) fn breadth(model: &Model, [left, right]: [Point; 2]) -> f64 {
    left.at(model)[1] - right.at(model)[1]
}

/// The joints that stand for a station: those it names; for one that is loaded or held the spring places of an axle near it,
/// else the widest mirrored pair near it. One that is only read and names none is interpolated.
pub(super) fn pair(model: &Model, sheet: &RigSheet, station: usize, needed: bool) -> Option<[Point; 2]> {
    let of = &sheet.stations[station];
    if let Some(joints) = of.joints {
        return Some(joints.map(Point::Joint));
    }
    if !needed {
        return None;
    }
    let springs = model
        .vehicle()
        .into_iter()
        .flat_map(|vehicle| vehicle.corners.chunks(2).map(|axle| [axle[0].spring, axle[1].spring]).collect::<Vec<_>>());
    let off = |pair: &[Point; 2]| pair.iter().map(|point| (point.at(model)[0] - of.x).abs()).fold(0.0, f64::max);
    let near = springs.filter(|pair| off(pair) <= NEAR && breadth(model, *pair) > 0.0);
    near.min_by(|a, b| off(a).total_cmp(&off(b))).or_else(|| widest(model, of.x))
}

/// The widest left and right pair of joints near a place: at one x and z, one on either side of the middle, which is the mean
/// of all joints along y.
fn widest(model: &Model, x: f64) -> Option<[Point; 2]> {
    let middle = model.joints().iter().map(|joint| joint.at[1]).sum::<f64>() / model.joints().len() as f64;
    let joints: Vec<_> = model.joints().iter_with_id().filter(|(_, joint)| (joint.at[0] - x).abs() <= NEAR).collect();
    let same = |a: [f64; 3], b: [f64; 3]| {
        let beside = (a[0] - b[0]).abs() < 1e-3 && (a[2] - b[2]).abs() < 1e-3;
        beside && a[1] > middle + 1e-3 && b[1] < middle - 1e-3
    };
    let pairs = joints.iter().flat_map(|left| joints.iter().map(move |right| (left, right)));
    // The widest; of equally wide ones the nearest, then the first.
    let rank = |left: [f64; 3], right: [f64; 3]| (left[1] - right[1]) - 1e-3 * (left[0] - x).abs();
    let best = pairs.filter(|(left, right)| same(left.1.at, right.1.at)).reduce(|best, next| {
        if rank(next.0.1.at, next.1.1.at) > rank(best.0.1.at, best.1.1.at) + 1e-9 { next } else { best }
    });
    best.map(|(left, right)| [Point::Joint(left.0), Point::Joint(right.0)])
}
