//! Wheel loads of a standing, cornering, braking or accelerating vehicle, by statics and the roll share.

use nalgebra::{Matrix4, Vector4};
use strutwork_model::model::{Vehicle, Wheel};
use strutwork_model::units::STANDARD_GRAVITY;

use crate::error::LoadError;

/// Height of the ground: the mean height of the four contact points, m.
pub fn ground_height(vehicle: &Vehicle) -> f64 {
    vehicle.corners.iter().map(|corner| corner.contact[2]).sum::<f64>() / 4.0
}

/// Height of the centre of gravity above the ground, m: the user's where given, otherwise what the masses give.
pub fn cg_height(vehicle: &Vehicle, cg: [f64; 3]) -> f64 {
    vehicle.cg_height.unwrap_or(cg[2] - ground_height(vehicle))
}

/// Vertical force of the road on each wheel under steady acceleration.
///
/// With h the height of the centre of gravity above the ground, W = m·g·n the weight felt, and n = `vertical_g`:
/// ```text
/// vertical   Σ N                        =  W
/// pitch      Σ (x − x_cg) N             = −m a_x h
/// roll       Σ (y − y_cg) N             = −m a_y h
/// roll share (1 − s) C_f − s C_r        =  0,       C = (N_left − N_right) · track/2
/// ```
/// The last says that the front axle takes the share s of the whole roll couple, C_f + C_r.
///
/// # Units and shapes
/// | argument | unit | meaning |
/// |---|---|---|
/// | `mass` | kg | total |
/// | `cg` | m | centre of gravity |
/// | `acceleration` | m/s² | a_x forward, a_y to the left |
/// | `vertical_g` | – | weight felt over weight; 1 on a level road |
/// | returned | N | in the order of [`Wheel::ALL`] |
///
/// # Signs and order
/// Upwards on the vehicle positive. Negative: the wheel would have to pull on the road, so the case cannot occur as it is.
/// Turning left (a_y > 0) loads the right wheels; braking (a_x < 0) loads the front wheels.
///
/// # Assumes
/// All horizontal forces act at the height of the ground; steady state; roll-centre heights, anti-dive and lift left out:
/// the whole roll couple goes by roll stiffness.
///
/// # Errors
/// [`LoadError::DegenerateWheels`] where the contact points have no wheelbase or no track.
///
/// # Source
/// Standard statics (derived); lateral transfer m·a_y·h/t and longitudinal transfer m·a_x·h/L are its special cases.
pub fn wheel_loads(
    vehicle: &Vehicle,
    mass: f64,
    cg: [f64; 3],
    acceleration: [f64; 2],
    vertical_g: f64,
) -> Result<[f64; 4], LoadError> {
    let h = cg_height(vehicle, cg);
    let s = vehicle.front_roll_share;
    let (half_front, half_rear) = (vehicle.track_front() / 2.0, vehicle.track_rear() / 2.0);
    if !(vehicle.wheelbase() > 0.0 && half_front > 0.0 && half_rear > 0.0) {
        return Err(LoadError::DegenerateWheels);
    }
    let arm = |axis: usize| Vector4::from(vehicle.corners.each_ref().map(|c| c.contact[axis] - cg[axis])).transpose();
    let share = Vector4::new((1.0 - s) * half_front, -(1.0 - s) * half_front, -s * half_rear, s * half_rear);
    let equations = Matrix4::from_rows(&[Vector4::repeat(1.0).transpose(), arm(0), arm(1), share.transpose()]);
    let right = Vector4::new(
        mass * STANDARD_GRAVITY * vertical_g,
        -mass * acceleration[0] * h,
        -mass * acceleration[1] * h,
        0.0,
    );
    let loads: [f64; 4] = equations.lu().solve(&right).ok_or(LoadError::DegenerateWheels)?.into();
    match Wheel::ALL.into_iter().find(|&wheel| !loads[wheel as usize].is_finite()) {
        None => Ok(loads),
        Some(wheel) => {
            Err(LoadError::NotFinite { what: format!("the wheel load {}", wheel.name()), value: loads[wheel as usize] })
        }
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;
    use proptest::prelude::*;
    use strutwork_model::JointId;
    use strutwork_model::ids::Id;
    use strutwork_model::model::{Axle, Carrier, Corner, Point, Suspension};

    use super::*;

    fn vehicle(wheelbase: f64, track: [f64; 2], share: f64) -> Vehicle {
        let corner = |x: f64, y: f64| Corner {
            contact: [x, y, 0.0],
            suspension: Suspension::Rigid(Carrier::Joints(vec![JointId::new(0)])),
            spring: Point::Joint(JointId::new(0)),
        };
        Vehicle {
            corners: [
                corner(wheelbase, track[0] / 2.0),
                corner(wheelbase, -track[0] / 2.0),
                corner(0.0, track[1] / 2.0),
                corner(0.0, -track[1] / 2.0),
            ],
            axles: [Axle::default(), Axle::default()],
            front_roll_share: share,
            front_brake_share: None,
            front_drive_share: 0.0,
            cg_height: None,
        }
    }

    /// 800 kg, h = 0.45 m, track 1.42 m: 2487 N from the left to the right wheels per g of lateral acceleration, and over
    /// a wheelbase of 2.35 m 1502 N from front to rear per g of longitudinal acceleration (m·a·h/t and m·a·h/L).
    #[test]
    fn transfer_by_hand() {
        let car = vehicle(2.35, [1.42, 1.42], 0.6);
        let cg = [0.48 * 2.35, 0.0, 0.45];
        let rest = wheel_loads(&car, 800.0, cg, [0.0, 0.0], 1.0).unwrap();
        assert_relative_eq!(rest[0] + rest[1], 0.48 * 800.0 * STANDARD_GRAVITY, max_relative = 1e-12);

        let turn = wheel_loads(&car, 800.0, cg, [0.0, STANDARD_GRAVITY], 1.0).unwrap();
        let transfer = 800.0 * STANDARD_GRAVITY * 0.45 / 1.42;
        assert_relative_eq!(turn[1] + turn[3] - rest[1] - rest[3], transfer, max_relative = 1e-12);
        assert_relative_eq!(turn[1] - rest[1], 0.6 * transfer, max_relative = 1e-12);
        assert!((transfer - 2487.0).abs() < 1.0);

        let brake = wheel_loads(&car, 800.0, cg, [-STANDARD_GRAVITY, 0.0], 1.0).unwrap();
        let shift = 800.0 * STANDARD_GRAVITY * 0.45 / 2.35;
        assert_relative_eq!(brake[0] + brake[1] - rest[0] - rest[1], shift, max_relative = 1e-12);
    }

    #[test]
    fn no_track_is_an_error() {
        let car = vehicle(2.0, [0.0, 1.4], 0.5);
        assert_eq!(wheel_loads(&car, 500.0, [1.0, 0.0, 0.4], [0.0; 2], 1.0), Err(LoadError::DegenerateWheels));
    }

    #[test]
    fn the_users_height_wins() {
        let mut car = vehicle(2.0, [1.4, 1.4], 0.5);
        car.cg_height = Some(0.6);
        assert_eq!(cg_height(&car, [1.0, 0.0, 0.4]), 0.6);
    }

    proptest! {
        #[test]
        fn equilibrium_holds(wheelbase in 1.0..4.0, front in 0.8..2.0, rear in 0.8..2.0, share in 0.0..1.0,
                             x in 0.1..0.9, y in -0.1..0.1, ax in -12.0..12.0, ay in -12.0..12.0, n in 0.0..4.0) {
            let car = vehicle(wheelbase, [front, rear], share);
            let (mass, cg) = (700.0, [x * wheelbase, y, 0.4]);
            let loads = wheel_loads(&car, mass, cg, [ax, ay], n).unwrap();
            let about = |axis: usize| -> f64 {
                car.corners.iter().zip(loads).map(|(c, load)| (c.contact[axis] - cg[axis]) * load).sum()
            };
            let size = mass * 50.0;
            prop_assert!((loads.iter().sum::<f64>() - mass * STANDARD_GRAVITY * n).abs() < 1e-11 * size);
            prop_assert!((about(0) + mass * ax * 0.4).abs() < 1e-11 * size);
            prop_assert!((about(1) + mass * ay * 0.4).abs() < 1e-11 * size);
            let (cf, cr) = ((loads[0] - loads[1]) * front / 2.0, (loads[2] - loads[3]) * rear / 2.0);
            prop_assert!((cf - share * (cf + cr)).abs() < 1e-11 * size);
        }
    }
}
