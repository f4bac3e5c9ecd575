//! The centre of gravity from corner weights, and its height from a weighing with one axle raised.

use strutwork_loads::masses::MassModel;
use strutwork_loads::wheels::cg_height;
use strutwork_model::files::MODEL;
use strutwork_model::model::{Raised, Vehicle, Weighed, Wheel};
use strutwork_model::units::to_mm;

use super::uncertainty;
use crate::remark::{Remark, codes};
use crate::words::rounded;

// All of these: own choice.
/// A centre of gravity is elsewhere than in the model where it is off by more than this share of wheelbase or track, beside
/// what the scales leave open; its height by this share of itself.
const AWAY: f64 = 0.01;
const HIGHER: f64 = 0.05;
/// A height that is not known better than this share of itself says little.
const VAGUE: f64 = 0.15;

/// Centre of gravity in plan, m: x, y.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeighedCentre {
    /// From the corners: Σ W r / Σ W.
    pub at: [f64; 2],
    /// How far that may be out, two standard uncertainties, m.
    pub uncertainty: [f64; 2],
    /// The model's.
    pub model: [f64; 2],
}

/// Height of the centre of gravity above the ground, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeighedHeight {
    /// From the raised axle.
    pub height: f64,
    /// How far that may be out, two standard uncertainties of the scales, m.
    pub uncertainty: f64,
    /// The model's.
    pub model: f64,
    /// Angle of the tilt, rad.
    pub tilt: f64,
    /// Weight that went to the lower axle, kg.
    pub shifted: f64,
}

/// From four corners: Σ W r / Σ W, with u² = Σ ((r − r_cg)/W)² a²/3 of scales that may be out by ±a.
pub(super) fn of_corners(vehicle: &Vehicle, weighed: &Weighed, corners: [f64; 4], mass: &MassModel) -> WeighedCentre {
    let total: f64 = corners.iter().sum();
    let place = |wheel: usize, axis: usize| vehicle.corner(Wheel::ALL[wheel]).contact[axis];
    let at = [0, 1].map(|axis| (0..4).map(|wheel| corners[wheel] * place(wheel, axis)).sum::<f64>() / total);
    let uncertainty = [0, 1].map(|axis| {
        let arms: f64 = (0..4).map(|wheel| ((place(wheel, axis) - at[axis]) / total).powi(2)).sum();
        uncertainty(weighed.tolerance, arms)
    });
    WeighedCentre { at, uncertainty, model: [mass.centre[0], mass.centre[1]] }
}

impl WeighedCentre {
    /// That it is elsewhere than in the model, where it is.
    pub(super) fn remark(&self, vehicle: &Vehicle) -> Option<Remark> {
        let sizes = [vehicle.wheelbase(), vehicle.track_front().min(vehicle.track_rear())];
        let off = [0, 1].map(|axis| self.at[axis] - self.model[axis]);
        let beyond = |axis: usize| off[axis].abs() > (AWAY * sizes[axis].abs()).max(self.uncertainty[axis]);
        if !beyond(0) && !beyond(1) {
            return None;
        }
        let mm = |value: f64| rounded(to_mm(value), 0);
        let told = |axis: usize| {
            let name = ["x", "y"][axis];
            format!(
                "{name} {} mm on the scales (±{} mm), {} mm in the model",
                mm(self.at[axis]),
                mm(self.uncertainty[axis]),
                mm(self.model[axis])
            )
        };
        let message = format!(
            "the centre of gravity is elsewhere than in the model: {}",
            [0, 1].into_iter().filter(|axis| beyond(*axis)).map(told).collect::<Vec<_>>().join("; ")
        );
        let remedy = "a mass at the wrong place or missing in masses.csv, tanks and people as weighed or not, wheels not where [vehicle] has them (common practice, no source)";
        Some(
            Remark::rig(codes::CENTRE_DIFFERS, "corners_kg", 0, message, remedy)
                .of_file(MODEL)
                .with(to_mm(off[0].hypot(off[1])), "mm"),
        )
    }
}

/// The height of the centre of gravity from the weight that goes to the lower axle when the other is raised.
///
/// ```text
/// tan θ = H/√(L² − H²)      h = r + ΔW L/(W tan θ)      r: height of the wheels' centres, at the place of the centre of gravity
/// ```
///
/// # Assumes
/// Suspension locked, wheels free to roll, nothing that flows or swings.
///
/// # Source
/// Derived: moments about the centre of a lower wheel, W (a cos θ − h′ sin θ) = W_raised L cos θ, with h′ above the line of the
/// wheels' centres; on the level W a = W_raised,0 L.
pub(super) fn height(
    vehicle: &Vehicle,
    tolerance: f64,
    corners: [f64; 4],
    raised: &Raised,
    mass: &MassModel,
    centre: WeighedCentre,
) -> (Option<WeighedHeight>, Vec<Remark>) {
    let said =
        |code, message: String, remedy: &str| vec![Remark::rig(code, "raised_mm", 0, message, remedy).of_file(MODEL)];
    let [Some(front), Some(rear)] = [vehicle.axles[0].wheel_radius, vehicle.axles[1].wheel_radius] else {
        let message = "the height of the centre of gravity needs the height of the wheels' centres".to_owned();
        return (
            None,
            said(
                codes::HEIGHT_VAGUE,
                message,
                "write wheel_radius_mm under [vehicle.axles.front] and [vehicle.axles.rear]",
            ),
        );
    };
    let (total, base) = (corners.iter().sum::<f64>(), vehicle.wheelbase());
    if raised.by >= base {
        let message =
            format!("the axle was raised by {} mm, as far as the wheelbase or farther", rounded(to_mm(raised.by), 0));
        return (
            None,
            said(codes::HEIGHT_VAGUE, message, "write how far its wheels stood above those of the other axle, in mm"),
        );
    }
    let tangent = raised.by / (base * base - raised.by * raised.by).sqrt();
    let lower = if raised.axle == 0 { corners[2] + corners[3] } else { corners[0] + corners[1] };
    let shifted = raised.lower - lower;
    let rear_x = (vehicle.corner(Wheel::RearLeft).contact[0] + vehicle.corner(Wheel::RearRight).contact[0]) / 2.0;
    let share = ((centre.at[0] - rear_x) / base).clamp(0.0, 1.0);
    let radius = rear + (front - rear) * share;
    let lever = base / (total * tangent);
    let found = WeighedHeight {
        height: radius + shifted * lever,
        // Two scales on the level, two with the axle raised.
        uncertainty: uncertainty(tolerance, 4.0) * lever,
        model: cg_height(vehicle, mass.centre),
        tilt: tangent.atan(),
        shifted,
    };
    let mm = |value: f64| rounded(to_mm(value), 0);
    let told = format!(
        "{} mm above the ground on the scales (±{} mm), {} mm in the model",
        mm(found.height),
        mm(found.uncertainty),
        mm(found.model)
    );
    let remarks = if shifted <= 0.0 || found.height <= 0.0 {
        let message = format!(
            "with the axle raised the lower one weighs {} kg less than on the level: it should weigh more",
            rounded(-shifted, 1)
        );
        said(
            codes::HEIGHT_VAGUE,
            message,
            "raised_axle names the axle that was lifted, lower_axle_kg is what the other one weighed then",
        )
    } else if found.uncertainty > VAGUE * found.height {
        said(
            codes::HEIGHT_VAGUE,
            format!("the height of the centre of gravity is hardly known: {told}"),
            "raise the axle farther: 300 to 600 mm move enough weight (common practice, no source); or weigh on finer scales",
        )
    } else if (found.height - found.model).abs() > (HIGHER * found.model.abs()).max(found.uncertainty) {
        said(
            codes::CENTRE_DIFFERS,
            format!("the centre of gravity is higher or lower than in the model: {told}"),
            if vehicle.cg_height.is_some() {
                "`cg_height_mm` under [vehicle]: without it heights of people, motor and tank in masses.csv decide; a suspension that was not locked lifts it in the weighing (common practice, no source)"
            } else {
                "heights of people, motor and tank in masses.csv; a suspension that was not locked lifts it in the weighing (common practice, no source)"
            },
        )
    } else {
        Vec::new()
    };
    (Some(found), remarks)
}
