//! Corner weights: units, sum, corners in each other's place, the diagonal.

use strutwork_loads::LoadError;
use strutwork_loads::masses::{MassKind, MassModel};
use strutwork_model::files::MODEL;
use strutwork_model::model::{Weighed, Wheel};

use super::parts::other_unit;
use super::uncertainty;
use crate::remark::{Remark, codes};
use crate::words::{kg, rounded};

/// Corners are exchanged where that leaves less than this share of the misfit, and the misfit was above this share of the
/// total beside what the scales leave open. Own choice.
const LEFT: f64 = 0.4;
const MISFIT: f64 = 0.03;
/// Difference of the diagonal's share that is worth a word: common practice, no source.
const CROSS: f64 = 0.015;

fn remark(code: strutwork_model::Code, subject: &str, message: String, remedy: &str) -> Remark {
    Remark::rig(code, subject, 0, message, remedy).of_file(MODEL)
}

/// The model's own loads on its corners cannot be told.
pub(super) fn unheld(why: &LoadError) -> Remark {
    let message = format!("the corners cannot be held against the model: {why}");
    let remedy = format!("{}; the other weights are held against the model as they are", why.help());
    remark(codes::CORNERS_UNHELD, "corners_kg", message, &remedy)
}

/// Frame and vehicle in another unit.
pub(super) fn units(weighed: &Weighed, mass: &MassModel) -> Vec<Remark> {
    let told =
        [("frame_kg", weighed.frame, mass.of_kind(MassKind::Tubes)), ("vehicle_kg", weighed.vehicle, mass.total)];
    let slip = |(key, weighed, model): (&str, Option<f64>, f64)| {
        let weighed = weighed?;
        let words = other_unit(weighed, model)?;
        let message = format!("`{key}` is {} and the model weighs {} kg: {words}?", kg(weighed), kg(model));
        Some(remark(codes::WEIGHT_UNIT, key, message, "write kg: 1 lb is 0.4536 kg, 9.81 N weigh 1 kg"))
    };
    told.into_iter().filter_map(slip).collect()
}

/// The four corners against the model and against the total; and whether they can be used for a centre of gravity.
pub(super) fn compare(weighed: &Weighed, corners: [f64; 4], modelled: [f64; 4]) -> (Vec<Remark>, bool) {
    let mut remarks = Vec::new();
    let (sum, model): (f64, f64) = (corners.iter().sum(), modelled.iter().sum());
    // All four in one other unit, or one of them.
    if let Some(words) = other_unit(sum, model) {
        let message = format!("the four corners add up to {} and the model weighs {} kg: {words}?", kg(sum), kg(model));
        remarks.push(remark(
            codes::WEIGHT_UNIT,
            "corners_kg",
            message,
            "write kg: 1 lb is 0.4536 kg, 9.81 N weigh 1 kg",
        ));
        return (remarks, false);
    }
    let off = |wheel: usize| other_unit(corners[wheel], modelled[wheel]);
    let slipped: Vec<usize> = (0..4).filter(|wheel| off(*wheel).is_some()).collect();
    for &wheel in &slipped {
        let name = Wheel::ALL[wheel].name();
        let message = format!(
            "the {name} corner is {} and {} kg in the model: {}?",
            kg(corners[wheel]),
            kg(modelled[wheel]),
            off(wheel).unwrap_or_default()
        );
        remarks.push(remark(codes::WEIGHT_UNIT, name, message, "write kg, and look at the display of that scale"));
    }
    if !slipped.is_empty() {
        return (remarks, false);
    }
    let open = uncertainty(weighed.tolerance, 5.0);
    // A total in another unit is told by itself.
    let total = weighed.vehicle.filter(|total| other_unit(*total, model).is_none());
    if let Some(total) = total.filter(|total| (total - sum).abs() > open) {
        let message = format!(
            "the four corners add up to {} kg and the vehicle weighs {} kg: {} kg are more than the {} kg that five scales of ±{} kg leave open",
            kg(sum),
            kg(total),
            kg((sum - total).abs()),
            kg(open),
            kg(weighed.tolerance)
        );
        let remedy = "a wheel not quite on its pad, a person in or out, fuel, a mistyped digit; scales that were not zeroed: weigh again";
        remarks.push(remark(codes::CORNERS_SUM, "corners_kg", message, remedy).with(sum - total, "kg"));
    }
    let swapped = exchanged(weighed, corners, modelled);
    if let Some((a, b)) = swapped {
        let [a, b] = [a, b].map(|wheel| Wheel::ALL[wheel].name());
        let message =
            format!("the corners {a} and {b} fit the model when they are exchanged, and not as they are written");
        let remedy = "look which pad showed which number, and correct [weighed.corners_kg]; nothing is exchanged here";
        remarks.push(remark(codes::CORNERS_SWAPPED, &format!("{a} and {b}"), message, remedy));
        return (remarks, false);
    }
    let [own, should] = [corners, modelled].map(diagonal);
    let cross = own - should;
    if cross.abs() > CROSS.max(uncertainty(weighed.tolerance, 4.0) / 2.0 / sum) {
        let message = format!(
            "the diagonal front-left to rear-right carries {} % of the weight and {} % in the model",
            rounded(own * 100.0, 1),
            rounded(should * 100.0, 1)
        );
        let remedy = "pads that do not stand level, springs of unequal preload, an anti-roll bar under load, a frame that is twisted: none of it moves the centre of gravity (common practice, no source)";
        remarks.push(remark(codes::CROSS_WEIGHT, "corners_kg", message, remedy).with(cross * 100.0, "%"));
    }
    (remarks, true)
}

/// Share of the total that the diagonal front left to rear right carries.
pub(super) fn diagonal(corners: [f64; 4]) -> f64 {
    (corners[0] + corners[3]) / corners.iter().sum::<f64>()
}

/// The two corners whose exchange mends most of the misfit.
fn exchanged(weighed: &Weighed, corners: [f64; 4], modelled: [f64; 4]) -> Option<(usize, usize)> {
    let (sum, model): (f64, f64) = (corners.iter().sum(), modelled.iter().sum());
    let misfit = |of: [f64; 4]| (0..4).map(|wheel| (of[wheel] / sum - modelled[wheel] / model).abs()).sum::<f64>();
    let before = misfit(corners);
    let open = uncertainty(weighed.tolerance, 4.0) / sum;
    if before < MISFIT.max(2.0 * open) {
        return None;
    }
    let pairs = (0..4).flat_map(|a| (a + 1..4).map(move |b| (a, b)));
    let after = |(a, b): (usize, usize)| {
        let mut other = corners;
        other.swap(a, b);
        ((a, b), misfit(other))
    };
    let ((a, b), left) = pairs.map(after).min_by(|x, y| x.1.total_cmp(&y.1))?;
    (left < LEFT * before).then_some((a, b))
}
