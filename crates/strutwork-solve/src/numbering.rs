//! Which freedom of which joint is which equation.

use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};
use strutwork_model::{Dof, JointId, Model};

/// No equation: the freedom is held fixed.
const HELD: u32 = u32::MAX;

/// The equations of the free freedoms, joint by joint in model order.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbering {
    /// One entry a joint and freedom.
    equations: Vec<[u32; 6]>,
    /// Joint and freedom of each equation.
    freedoms: Vec<(u32, Dof)>,
}

impl Numbering {
    /// Numbers the freedoms that these supports do not hold fixed (a spring leaves its freedom free).
    pub fn of(model: &Model, supports: &[Support]) -> Self {
        let joints = model.joints().len();
        let mut equations = vec![[0; 6]; joints];
        for support in supports {
            for dof in Dof::ALL {
                if support.holds[dof] == Hold::Fixed {
                    equations[support.joint.index()][dof.index()] = HELD;
                }
            }
        }
        let mut freedoms = Vec::with_capacity(6 * joints);
        for (joint, row) in equations.iter_mut().enumerate() {
            for dof in Dof::ALL {
                if row[dof.index()] != HELD {
                    row[dof.index()] = freedoms.len() as u32;
                    freedoms.push((joint as u32, dof));
                }
            }
        }
        Self { equations, freedoms }
    }

    /// How many equations there are.
    pub fn len(&self) -> usize {
        self.freedoms.len()
    }

    /// Whether every freedom is held.
    pub fn is_empty(&self) -> bool {
        self.freedoms.is_empty()
    }

    /// How many joints there are.
    pub fn joints(&self) -> usize {
        self.equations.len()
    }

    /// The equation of a joint's freedom; `None` where it is held fixed.
    pub fn equation(&self, joint: usize, dof: Dof) -> Option<usize> {
        let equation = self.equations[joint][dof.index()];
        (equation != HELD).then_some(equation as usize)
    }

    /// How many of a joint's freedoms are free.
    pub fn count(&self, joint: usize) -> usize {
        self.equations[joint].iter().filter(|equation| **equation != HELD).count()
    }

    /// Equations of a joint's free freedoms: freedom and equation, consecutive.
    pub fn free(&self, joint: usize) -> impl Iterator<Item = (usize, usize)> + '_ {
        self.equations[joint]
            .iter()
            .enumerate()
            .filter(|(_, equation)| **equation != HELD)
            .map(|(dof, equation)| (dof, *equation as usize))
    }

    /// Joint and freedom of an equation.
    pub fn freedom(&self, equation: usize) -> (JointId, Dof) {
        let (joint, dof) = self.freedoms[equation];
        (JointId::new(joint as usize), dof)
    }

    /// Displacements of a joint, from a solution over the equations; held freedoms are 0.
    pub fn joint_values(&self, joint: usize, solution: &[f64]) -> [f64; 6] {
        self.equations[joint].map(|equation| if equation == HELD { 0.0 } else { solution[equation as usize] })
    }
}
