//! The two-mass roll model: how a frame that twists shares the roll couple between the axles.

use crate::error::LoadError;

/// Roll stiffness of the axles, and of the frame between them.
///
/// ```text
/// K_f φ_f + K_c (φ_f − φ_r) = M_f,    K_r φ_r − K_c (φ_f − φ_r) = M_r
/// ```
///
/// # Units and shapes
/// N·m/rad.
///
/// # Source
/// Two rigid halves on the roll stiffness of their axles, joined by the frame's torsional stiffness: equilibrium (derived).
/// On what it means for handling: A. Deakin, D. Crolla, J. P. Ramirez and R. Hanley, The Effect of Chassis Stiffness on
/// Race Car Handling Balance, SAE 2000-01-3554 (title page read; its conclusions from memory).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RollModel {
    front: f64,
    rear: f64,
    frame: Option<f64>,
}

/// What the roll model gives under roll couples on its halves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rolled {
    /// Roll of the front and the rear half, rad.
    pub roll: [f64; 2],
    /// Roll couple that each axle carries, N·m.
    pub carried: [f64; 2],
}

impl RollModel {
    /// Roll stiffness of the front and the rear axle, and the torsional stiffness of the frame between them, `None` for a
    /// frame that does not twist; N·m/rad.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`]; [`LoadError::OutOfRange`] where one is not above zero.
    pub fn new(front: f64, rear: f64, frame: Option<f64>) -> Result<Self, LoadError> {
        let above_zero = |what: &'static str, value: f64| match value {
            value if !value.is_finite() => Err(LoadError::NotFinite { what: what.to_owned(), value }),
            value if value <= 0.0 => Err(LoadError::OutOfRange { what, value, range: "above zero" }),
            _ => Ok(()),
        };
        above_zero("the roll stiffness of the front axle", front)?;
        above_zero("the roll stiffness of the rear axle", rear)?;
        frame.map_or(Ok(()), |frame| above_zero("the torsional stiffness of the frame", frame))?;
        Ok(Self { front, rear, frame })
    }

    /// The axles' roll stiffness in series, K_s = K_f·K_r/(K_f + K_r), N·m/rad: what the frame's stiffness is to be held
    /// against.
    pub fn in_series(&self) -> f64 {
        self.front * self.rear / (self.front + self.rear)
    }

    /// Share of a shift of roll couple between the axles that reaches the tyres: K_c/(K_c + K_s); 1 for a frame that does
    /// not twist.
    pub fn reaching(&self) -> f64 {
        self.frame.map_or(1.0, |frame| frame / (frame + self.in_series()))
    }

    /// The front axle's share of the roll stiffness, K_f/(K_f + K_r).
    pub fn front_share(&self) -> f64 {
        self.front / (self.front + self.rear)
    }

    /// Roll and carried couples under a roll couple on the front and on the rear half, N·m.
    pub fn under(&self, [front, rear]: [f64; 2]) -> Rolled {
        // What the frame passes from the front to the rear half: all that a rigid one would, times the share.
        let passed = (front * (1.0 - self.front_share()) - rear * self.front_share()) * self.reaching();
        let carried = [front - passed, rear + passed];
        Rolled { roll: [carried[0] / self.front, carried[1] / self.rear], carried }
    }

    /// The front axle's share of the roll couple where the front half is subject to the share `of_mass` of it.
    pub fn carried_share(&self, of_mass: f64) -> f64 {
        of_mass + (self.front_share() - of_mass) * self.reaching()
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    use super::*;

    /// K_f = 600, K_r = 400: a frame of 1, 3 and 5 times the total lets 80.6, 92.6 and 95.4 % through (derived).
    #[test]
    fn shares_by_hand() {
        for (times, percent) in [(1.0, 80.6), (3.0, 92.6), (5.0, 95.4)] {
            let model = RollModel::new(600.0, 400.0, Some(times * 1000.0)).expect("above zero");
            assert_relative_eq!(model.in_series(), 240.0, max_relative = 1e-14);
            assert!((100.0 * model.reaching() - percent).abs() < 0.05, "{}", model.reaching());
        }
        let rigid = RollModel::new(600.0, 400.0, None).expect("above zero");
        assert_eq!((rigid.reaching(), rigid.front_share()), (1.0, 0.6));
        assert_eq!(rigid.under([500.0, 500.0]).carried, [600.0, 400.0]);
    }

    #[test]
    fn what_is_not_above_zero_is_refused() {
        for wrong in [(0.0, 1.0, None), (1.0, -1.0, None), (1.0, 1.0, Some(0.0))] {
            let code = RollModel::new(wrong.0, wrong.1, wrong.2).map_err(|error| error.code().0);
            assert_eq!(code, Err("L009"));
        }
        assert_eq!(RollModel::new(f64::NAN, 1.0, None).map_err(|error| error.code().0), Err("L005"));
    }

    proptest! {
        #[test]
        fn the_equations_hold(kf in 1e2..1e5, kr in 1e2..1e5, kc in 1e2..1e6, mf in -1e4..1e4, mr in -1e4..1e4) {
            let model = RollModel::new(kf, kr, Some(kc)).expect("above zero");
            let Rolled { roll: [front, rear], carried } = model.under([mf, mr]);
            let size = 1e4 * (1.0 + kc * (1.0 / kf + 1.0 / kr));
            prop_assert!((kf * front + kc * (front - rear) - mf).abs() < 1e-13 * size);
            prop_assert!((kr * rear - kc * (front - rear) - mr).abs() < 1e-13 * size);
            let share = model.carried_share(mf / (mf + mr));
            prop_assert!((share * (mf + mr) - carried[0]).abs() < 1e-9 * 1e4);
        }
    }
}
