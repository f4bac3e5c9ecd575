//! Wheel loads of a standing, cornering, braking or accelerating vehicle, by statics and the roll share.

mod rest;
mod step;

use nalgebra::{Matrix4, Vector4};
use strutwork_model::model::{Vehicle, Wheel};
use strutwork_model::units::STANDARD_GRAVITY;

use crate::error::LoadError;
use crate::roll::RollModel;

pub use rest::{StaticLoads, static_loads};
pub use step::step_force;

/// Height of the ground: the mean height of the four contact points, m.
pub fn ground_height(vehicle: &Vehicle) -> f64 {
    vehicle.corners.iter().map(|corner| corner.contact[2]).sum::<f64>() / 4.0
}

/// Height of the centre of gravity above the ground, m: the user's where given, otherwise what the masses give.
pub fn cg_height(vehicle: &Vehicle, cg: [f64; 3]) -> f64 {
    vehicle.cg_height.unwrap_or(cg[2] - ground_height(vehicle))
}

/// The state of motion that wheel loads are wanted for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ride {
    /// Steady acceleration, m/s²: forward, to the left.
    pub acceleration: [f64; 2],
    /// Weight felt over weight; 1 on a level road.
    pub vertical_g: f64,
    /// Torsional stiffness of the frame between the axles, N·m/rad; `None`: it does not twist.
    pub frame_stiffness: Option<f64>,
}

impl Ride {
    /// Standing on a level road.
    pub const REST: Self = Self { acceleration: [0.0; 2], vertical_g: 1.0, frame_stiffness: None };

    /// A steady acceleration on a level road, m/s²: forward, to the left.
    pub const fn steady(acceleration: [f64; 2]) -> Self {
        Self { acceleration, ..Self::REST }
    }
}

/// Vertical force of the road on each wheel under steady acceleration.
///
/// With h the height of the centre of gravity above the ground, W = m·g·n the weight felt, and n = `vertical_g`:
/// ```text
/// vertical   Σ N                        =  W
/// pitch      Σ (x − x_cg) N             = −m a_x h
/// roll       Σ (y − y_cg) N             = −m a_y h
/// roll share (1 − s) C_f − s C_r        = −(s′ − s) m a_y h,       C = (N_left − N_right) · track/2
/// ```
/// The last says that the front axle takes the share s of the roll couple C_f + C_r at rest, and the share s′ of what
/// cornering adds. s′ = s for a frame that does not twist; otherwise s′ = w + (s − w)·K_c/(K_c + K_s), with w the front
/// axle's share of the mass: see [`RollModel`].
///
/// # Units and shapes
/// | argument | unit | meaning |
/// |---|---|---|
/// | `mass` | kg | total |
/// | `cg` | m | centre of gravity |
/// | `ride` | | the state of motion |
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
/// [`LoadError::DegenerateWheels`] where the contact points have no wheelbase or no track;
/// [`LoadError::NoRollStiffness`] where the frame's stiffness is given and an axle's roll stiffness is not.
///
/// # Source
/// Standard statics (derived); lateral transfer m·a_y·h/t and longitudinal transfer m·a_x·h/L are its special cases.
pub fn wheel_loads(vehicle: &Vehicle, mass: f64, cg: [f64; 3], ride: &Ride) -> Result<[f64; 4], LoadError> {
    let h = cg_height(vehicle, cg);
    let s = vehicle.front_roll_share;
    let (half_front, half_rear) = (vehicle.track_front() / 2.0, vehicle.track_rear() / 2.0);
    if !(vehicle.wheelbase() > 0.0 && half_front > 0.0 && half_rear > 0.0) {
        return Err(LoadError::DegenerateWheels);
    }
    let arm = |axis: usize| Vector4::from(vehicle.corners.each_ref().map(|c| c.contact[axis] - cg[axis])).transpose();
    let share = Vector4::new((1.0 - s) * half_front, -(1.0 - s) * half_front, -s * half_rear, s * half_rear);
    let equations = Matrix4::from_rows(&[Vector4::repeat(1.0).transpose(), arm(0), arm(1), share.transpose()]);
    let [ax, ay] = ride.acceleration;
    let right = Vector4::new(
        mass * STANDARD_GRAVITY * ride.vertical_g,
        -mass * ax * h,
        -mass * ay * h,
        -(carried_share(vehicle, cg, ride.frame_stiffness)? - s) * mass * ay * h,
    );
    let loads: [f64; 4] = equations.lu().solve(&right).ok_or(LoadError::DegenerateWheels)?.into();
    match Wheel::ALL.into_iter().find(|&wheel| !loads[wheel as usize].is_finite()) {
        None => Ok(loads),
        Some(wheel) => {
            Err(LoadError::NotFinite { what: format!("the wheel load {}", wheel.name()), value: loads[wheel as usize] })
        }
    }
}

/// The front axle's share of the roll couple that cornering adds, with a frame of this torsional stiffness, N·m/rad.
///
/// # Errors
/// [`LoadError::NoRollStiffness`]; [`LoadError::OutOfRange`] where a stiffness is not above zero.
pub fn carried_share(vehicle: &Vehicle, cg: [f64; 3], frame_stiffness: Option<f64>) -> Result<f64, LoadError> {
    if frame_stiffness.is_none() {
        return Ok(vehicle.front_roll_share);
    }
    let model = roll_model(vehicle, frame_stiffness)?;
    Ok(model.carried_share(front_mass_share(vehicle, cg)))
}

/// The two-mass roll model of a vehicle, with the torsional stiffness of its frame, N·m/rad; `None`: it does not twist.
///
/// # Errors
/// [`LoadError::NoRollStiffness`]; [`LoadError::OutOfRange`] where a stiffness is not above zero.
pub fn roll_model(vehicle: &Vehicle, frame_stiffness: Option<f64>) -> Result<RollModel, LoadError> {
    let of_axle =
        |axle: usize| vehicle.axles[axle].roll_stiffness.ok_or(LoadError::NoRollStiffness { axle: AXLES[axle] });
    RollModel::new(of_axle(0)?, of_axle(1)?, frame_stiffness)
}

/// The front axle's share of the mass by the place of the centre of gravity along the wheelbase.
pub fn front_mass_share(vehicle: &Vehicle, cg: [f64; 3]) -> f64 {
    let x = |wheel| vehicle.corner(wheel).contact[0];
    (cg[0] - (x(Wheel::RearLeft) + x(Wheel::RearRight)) / 2.0) / vehicle.wheelbase()
}

/// Names of the axles, front and rear.
pub(crate) const AXLES: [&str; 2] = ["front", "rear"];

/// The wheel on the other side of the same axle.
pub const fn mirrored(wheel: Wheel) -> Wheel {
    match wheel {
        Wheel::FrontLeft => Wheel::FrontRight,
        Wheel::FrontRight => Wheel::FrontLeft,
        Wheel::RearLeft => Wheel::RearRight,
        Wheel::RearRight => Wheel::RearLeft,
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
        let rest = wheel_loads(&car, 800.0, cg, &Ride::REST).unwrap();
        assert_relative_eq!(rest[0] + rest[1], 0.48 * 800.0 * STANDARD_GRAVITY, max_relative = 1e-12);

        let turn = wheel_loads(&car, 800.0, cg, &Ride::steady([0.0, STANDARD_GRAVITY])).unwrap();
        let transfer = 800.0 * STANDARD_GRAVITY * 0.45 / 1.42;
        assert_relative_eq!(turn[1] + turn[3] - rest[1] - rest[3], transfer, max_relative = 1e-12);
        assert_relative_eq!(turn[1] - rest[1], 0.6 * transfer, max_relative = 1e-12);
        assert!((transfer - 2487.0).abs() < 1.0);

        let brake = wheel_loads(&car, 800.0, cg, &Ride::steady([-STANDARD_GRAVITY, 0.0])).unwrap();
        let shift = 800.0 * STANDARD_GRAVITY * 0.45 / 2.35;
        assert_relative_eq!(brake[0] + brake[1] - rest[0] - rest[1], shift, max_relative = 1e-12);
    }

    fn with_roll(front: f64, rear: f64) -> Vehicle {
        let mut car = vehicle(2.4, [1.4, 1.4], front / (front + rear));
        car.axles[0].roll_stiffness = Some(front);
        car.axles[1].roll_stiffness = Some(rear);
        car
    }

    /// K_f = 600, K_r = 400, mass half and half: a rigid frame gives the front axle 60 % of the roll couple, a limp one
    /// 50 %, and one as stiff as both axles together (K_c = 1000, K_s = 240) 50 + 10·0.806 = 58.06 % (derived).
    #[test]
    fn a_twisting_frame_shares_by_hand() {
        let car = with_roll(600.0, 400.0);
        let (mass, cg) = (800.0, [1.2, 0.0, 0.45]);
        let couple = -mass * 9.0 * 0.45;
        for (stiffness, share) in [(None, 0.6), (Some(1000.0), 0.5 + 0.1 * 1000.0 / 1240.0), (Some(1e-9), 0.5)] {
            let ride = Ride { frame_stiffness: stiffness, ..Ride::steady([0.0, 9.0]) };
            let loads = wheel_loads(&car, mass, cg, &ride).unwrap();
            let front = (loads[0] - loads[1]) * 0.7;
            assert_relative_eq!(front / couple, share, max_relative = 1e-9);
            assert_relative_eq!(loads.iter().sum::<f64>(), mass * STANDARD_GRAVITY, max_relative = 1e-12);
        }
        let rest = Ride { frame_stiffness: Some(1000.0), ..Ride::REST };
        assert_eq!(wheel_loads(&car, mass, cg, &rest), wheel_loads(&car, mass, cg, &Ride::REST));
        let without = vehicle(2.4, [1.4, 1.4], 0.5);
        assert_eq!(wheel_loads(&without, mass, cg, &rest), Err(LoadError::NoRollStiffness { axle: "front" }));
    }

    #[test]
    fn mirrored_wheels_are_on_their_axle() {
        for wheel in Wheel::ALL {
            assert_eq!((mirrored(mirrored(wheel)), mirrored(wheel).axle()), (wheel, wheel.axle()));
            assert_ne!(mirrored(wheel), wheel);
        }
    }

    #[test]
    fn no_track_is_an_error() {
        let car = vehicle(2.0, [0.0, 1.4], 0.5);
        assert_eq!(wheel_loads(&car, 500.0, [1.0, 0.0, 0.4], &Ride::REST), Err(LoadError::DegenerateWheels));
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
            let loads = wheel_loads(&car, mass, cg, &Ride { vertical_g: n, ..Ride::steady([ax, ay]) }).unwrap();
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
