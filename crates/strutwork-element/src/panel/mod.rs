//! The shear panel: a thin skin between three or four joints that carries shear in its own plane.

mod quadrilateral;
mod triangle;

#[cfg(test)]
mod laws;

use nalgebra::{DMatrix, Vector3};

/// Sizes below this share of the panel's own are none.
const NONE: f64 = 1e-9;

/// Range of Poisson's ratio in which E and G may belong to one isotropic material.
const ISOTROPIC: std::ops::RangeInclusive<f64> = 0.0..=0.5;

/// What a panel is made of, and how its edges are fixed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Skin {
    /// t, m, > 0.
    pub thickness: f64,
    /// E, Pa.
    pub youngs: f64,
    /// G, Pa.
    pub shear: f64,
    /// c: slip of an edge a unit of shear flow along it, m²/N, ≥ 0.
    pub fixing: f64,
}

/// Why corners make no panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoPanel {
    /// Neither three nor four corners.
    Corners,
    /// Corners on one line, coinciding or not finite, or crossing edges whose halves cancel.
    NoArea,
    /// A quadrilateral with an inward corner, or with crossing edges.
    NotConvex,
}

/// A shear panel over the translations of its corners.
///
/// ```text
/// q = g·u / C        f = g q        K = Σ g gᵀ / C        energy = ½ C q²
/// ```
///
/// One state of self-balanced corner forces g a unit of flow (quadrilateral), or two (triangle), and their flexibility C.
///
/// # Assumes
/// Small displacements, one flow a state and no buckling; edges that tubes stiffen: a panel without them holds nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// g of each state: forces on the panel's corners a unit of flow, N a N/m.
    states: Vec<Vec<Vector3<f64>>>,
    /// C, m³/N: skin and fixings.
    flexibility: f64,
    /// The part of C that the fixings have.
    slip: f64,
    /// Flow along each edge over the panel's mean flow; empty for a triangle.
    edges: Vec<f64>,
    /// Forces in a bar along either diagonal in balance with a unit of mean flow, and its length; empty for a triangle.
    diagonals: Vec<[f64; 2]>,
    /// Area, m².
    area: f64,
    /// Mean length of opposite edges (of a triangle: longest edge and the height on it), m, longer first.
    sides: [f64; 2],
    /// Distance between the diagonals over the shorter of them.
    warp: f64,
    skin: Skin,
}

/// Shear flows of a panel, N/m.
#[derive(Debug, Clone, PartialEq)]
pub struct Flows {
    /// Mean flow. Quadrilateral: positive where the edges are dragged towards corners 1 and 3, so that the angle at corner
    /// 1 closes. Triangle: the greatest shear flow in any direction, ≥ 0.
    pub mean: f64,
    /// Along each edge (corner 1 to 2, 2 to 3, …), with the sign of `mean`; on every edge of a triangle its greatest.
    pub edges: Vec<f64>,
}

impl Panel {
    /// The panel between these corners, m, in order round the edge.
    ///
    /// # Errors
    /// [`NoPanel`].
    ///
    /// # Example
    /// ```
    /// use strutwork_element::panel::{Panel, Skin};
    ///
    /// let skin = Skin { thickness: 1e-3, youngs: 70e9, shear: 26.3e9, fixing: 0.0 };
    /// let corners = [[0.0, 0.0, 0.0], [0.5, 0.0, 0.0], [0.5, 0.4, 0.0], [0.0, 0.4, 0.0]];
    /// let panel = Panel::new(&corners, skin).unwrap();
    /// // Its far edge, two corners, moved along x against the near one: G t a/b.
    /// let k = panel.stiffness();
    /// let sum = k[(6, 6)] + k[(6, 9)] + k[(9, 6)] + k[(9, 9)];
    /// assert!((sum - 26.3e6 * 0.5 / 0.4).abs() < 1.0);
    /// ```
    pub fn new(corners: &[[f64; 3]], skin: Skin) -> Result<Self, NoPanel> {
        let places: Vec<Vector3<f64>> = corners.iter().map(|&at| Vector3::from(at)).collect();
        match *places.as_slice() {
            [a, b, c] => triangle::panel([a, b, c], skin),
            [a, b, c, d] => quadrilateral::panel([a, b, c, d], skin),
            _ => Err(NoPanel::Corners),
        }
    }

    /// Stiffness over the corners' translations, global axes.
    ///
    /// # Units and shapes
    /// 3 rows and columns a corner, in the order of the corners, N/m.
    pub fn stiffness(&self) -> DMatrix<f64> {
        let states: Vec<Vec<f64>> =
            self.states.iter().map(|state| state.iter().flat_map(|force| force.iter().copied()).collect()).collect();
        let n = states[0].len();
        DMatrix::from_fn(n, n, |i, j| states.iter().map(|g| g[i] * g[j]).sum::<f64>() / self.flexibility)
    }

    /// Forces on the panel's corners, N, global axes, from the corners' displacements, m.
    pub fn corner_forces(&self, displacements: &[[f64; 3]]) -> Vec<[f64; 3]> {
        let mut forces = vec![Vector3::zeros(); self.states[0].len()];
        for (state, flow) in self.states.iter().zip(self.state_flows(displacements)) {
            for (force, unit) in forces.iter_mut().zip(state) {
                *force += unit * flow;
            }
        }
        forces.into_iter().map(Into::into).collect()
    }

    /// Shear flows from the corners' displacements, m.
    pub fn flows(&self, displacements: &[[f64; 3]]) -> Flows {
        let flows = self.state_flows(displacements);
        if self.edges.is_empty() {
            let greatest = flows.iter().fold(0.0_f64, |sum, flow| sum.hypot(*flow));
            return Flows { mean: greatest, edges: vec![greatest; 3] };
        }
        Flows { mean: flows[0], edges: self.edges.iter().map(|share| share * flows[0]).collect() }
    }

    /// Strain energy of these displacements, N·m: skin and fixings.
    pub fn energy(&self, displacements: &[[f64; 3]]) -> f64 {
        self.state_flows(displacements).iter().map(|flow| 0.5 * self.flexibility * flow * flow).sum()
    }

    /// (G t) that a panel without fixings and without slanting corners would need to be as stiff, N/m.
    ///
    /// For a rectangle a × b: 1/(Gt)_eff = 1/(Gt) + 2c(1/a + 1/b).
    pub fn effective_shear(&self) -> f64 {
        self.area / self.flexibility
    }

    /// The same panel so many times as stiff, fixings and all.
    pub fn times(&self, times: f64) -> Self {
        Self { flexibility: self.flexibility / times, slip: self.slip / times, ..self.clone() }
    }

    /// The same panel, its fixings without slip.
    pub fn without_slip(&self) -> Self {
        let skin = Skin { fixing: 0.0, ..self.skin };
        Self { flexibility: self.flexibility - self.slip, slip: 0.0, skin, ..self.clone() }
    }

    /// Areas of a bar along the diagonal 1–3, and along 2–4, that alone would hold the bay as stiffly, m²; `None` for a
    /// triangle, which its edges hold. `youngs` is that of the bar, Pa.
    ///
    /// For a rectangle a × b with diagonal d: A = (Gt)_eff d³/(E a b).
    pub fn equivalent_diagonals(&self, youngs: f64) -> Option<[f64; 2]> {
        let area = |&[force, length]: &[f64; 2]| force * force * length / (youngs * self.flexibility);
        match self.diagonals.as_slice() {
            [first, second] => Some([area(first), area(second)]),
            _ => None,
        }
    }

    /// Shear stress at which the flat skin buckles, Pa, its edges simply supported: τ = k π²E/(12(1−ν²)) (t/b)²,
    /// k = 5.34 + 4 (b/a)².
    ///
    /// # Assumes
    /// a and b are the mean lengths of opposite edges, b the shorter; of a triangle its longest edge and the height on it,
    /// which is on the safe side, as the third corner's edges hold it better than a rectangle's. ν = E/(2G) − 1 where that
    /// is a Poisson's ratio, else (plywood) 0.
    ///
    /// # Source
    /// Timoshenko & Gere (1961), Theory of Elastic Stability, 2nd ed., §9.7 (from memory).
    pub fn buckling_stress(&self) -> f64 {
        let [a, b] = self.sides;
        let Skin { thickness, youngs, shear, .. } = self.skin;
        let nu = youngs / (2.0 * shear) - 1.0;
        let nu = if ISOTROPIC.contains(&nu) { nu } else { 0.0 };
        let k = 5.34 + 4.0 * (b / a).powi(2);
        let plate = std::f64::consts::PI.powi(2) * youngs / (12.0 * (1.0 - nu * nu));
        k * plate * (thickness / b).powi(2)
    }

    /// The sides that [`Self::buckling_stress`] goes by, m, the longer first.
    pub fn sides(&self) -> [f64; 2] {
        self.sides
    }

    /// Area, m²; of a warped quadrilateral its area seen along the normal of both diagonals.
    pub fn area(&self) -> f64 {
        self.area
    }

    /// How warped it is: the distance between the lines of the two diagonals over the length of the shorter diagonal; 0
    /// for a flat one.
    pub fn warp(&self) -> f64 {
        self.warp
    }

    /// Flow of each state: g·u / C.
    fn state_flows(&self, displacements: &[[f64; 3]]) -> Vec<f64> {
        let along = |state: &Vec<Vector3<f64>>| {
            state.iter().zip(displacements).map(|(force, moved)| force.dot(&Vector3::from(*moved))).sum::<f64>()
        };
        self.states.iter().map(|state| along(state) / self.flexibility).collect()
    }
}
