//! What the frame and its load weigh: total mass, centre of gravity, inertia; and the resultant of a load case.

use nalgebra::{Matrix3, Vector3};
use strutwork_element::LocalAxes;
use strutwork_model::model::{Axes, Model};
use strutwork_model::{MaterialId, TubeId};

use crate::case::LoadCase;

/// Mass, centre of gravity and inertia of a model: its tubes and the masses it carries.
#[derive(Debug, Clone, PartialEq)]
pub struct MassModel {
    /// One for each group of tubes in order of first use (ungrouped tubes under an empty name), then one for each mass.
    pub items: Vec<MassItem>,
    /// kg.
    pub total: f64,
    /// Centre of gravity, m; the origin where there is no mass.
    pub centre: [f64; 3],
    /// Inertia tensor about the centre of gravity, kg·m², rows and columns x, y, z.
    pub inertia: [[f64; 3]; 3],
    /// Materials in use that have no density, in order of first use: their tubes weigh nothing here.
    pub without_density: Vec<MaterialId>,
}

/// One row of the table of masses.
#[derive(Debug, Clone, PartialEq)]
pub struct MassItem {
    /// The group's or the mass's name.
    pub name: String,
    /// What it is.
    pub kind: MassKind,
    /// kg.
    pub mass: f64,
    /// Its centre of gravity, m; the origin where it weighs nothing.
    pub centre: [f64; 3],
}

/// What a row of the table of masses is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MassKind {
    /// All tubes of one group.
    Tubes,
    /// A mass that the frame carries.
    Carried,
}

impl MassModel {
    /// Mass, centre of gravity and inertia of a model.
    ///
    /// ```text
    /// I = Σ [ m(|r|² 1 − r rᵀ) + m L²/12 (1 − e eᵀ) ]     r from the centre of gravity, e along the tube
    /// ```
    ///
    /// # Units and shapes
    /// kg, m, kg·m².
    ///
    /// # Assumes
    /// Tubes are thin rods between their joints: the overlap at joints counts twice, a tube has no inertia about its own
    /// axis. Masses are points.
    ///
    /// # Source
    /// Standard mechanics (derived): thin rod m·L²/12, parallel axes.
    pub fn of(model: &Model) -> Self {
        let mut pieces = Pieces::default();
        let mut without_density = Vec::new();
        for (tube, row) in model.tubes().iter_with_id() {
            let material = &model.materials()[row.material];
            if material.density <= 0.0 && !without_density.contains(&row.material) {
                without_density.push(row.material);
            }
            pieces.add_tube(model, tube);
        }
        for mass in model.masses() {
            pieces.rows.push((mass.name.clone(), MassKind::Carried, Sum::default()));
            let last = pieces.rows.len() - 1;
            pieces.add(last, mass.mass, Vector3::from(mass.at), Matrix3::zeros());
        }
        let centre = pieces.whole.centre();
        let inertia = pieces.inertia_about(centre);
        Self {
            items: pieces
                .rows
                .into_iter()
                .map(|(name, kind, sum)| MassItem { name, kind, mass: sum.mass, centre: sum.centre().into() })
                .collect(),
            total: pieces.whole.mass,
            centre: centre.into(),
            inertia: std::array::from_fn(|row| std::array::from_fn(|column| inertia[(row, column)])),
            without_density,
        }
    }
}

/// Mass and first moment.
#[derive(Debug, Clone, Copy, Default)]
struct Sum {
    mass: f64,
    moment: Vector3<f64>,
}

impl Sum {
    fn add(&mut self, mass: f64, at: Vector3<f64>) {
        self.mass += mass;
        self.moment += at * mass;
    }

    fn centre(&self) -> Vector3<f64> {
        if self.mass > 0.0 { self.moment / self.mass } else { Vector3::zeros() }
    }
}

/// Everything that has mass, gathered before the centre is known.
#[derive(Default)]
struct Pieces {
    rows: Vec<(String, MassKind, Sum)>,
    whole: Sum,
    /// Mass, centre, inertia about the piece's own centre.
    pieces: Vec<(f64, Vector3<f64>, Matrix3<f64>)>,
}

impl Pieces {
    fn add_tube(&mut self, model: &Model, tube: TubeId) {
        let row = &model.tubes()[tube];
        let (from, to) = (Vector3::from(model.joints()[row.from].at), Vector3::from(model.joints()[row.to].at));
        let span = to - from;
        let mass = model.tube_mass(tube);
        let rod = (Matrix3::identity() * span.norm_squared() - span * span.transpose()) * (mass / 12.0);
        let place = self.rows.iter().position(|(name, _, _)| *name == row.group).unwrap_or_else(|| {
            self.rows.push((row.group.clone(), MassKind::Tubes, Sum::default()));
            self.rows.len() - 1
        });
        self.add(place, mass, (from + to) / 2.0, rod);
    }

    fn add(&mut self, row: usize, mass: f64, at: Vector3<f64>, own_inertia: Matrix3<f64>) {
        self.rows[row].2.add(mass, at);
        self.whole.add(mass, at);
        self.pieces.push((mass, at, own_inertia));
    }

    fn inertia_about(&self, centre: Vector3<f64>) -> Matrix3<f64> {
        self.pieces
            .iter()
            .map(|(mass, at, own)| {
                let r = at - centre;
                own + (Matrix3::identity() * r.norm_squared() - r * r.transpose()) * *mass
            })
            .sum()
    }
}

/// Sum of everything applied in a case (not reactions), reduced to the origin.
///
/// # Units and shapes
/// fx, fy, fz in N; mx, my, mz in N·m; global axes. Temperatures and settlements have no resultant.
pub fn resultant(case: &LoadCase, model: &Model) -> [f64; 6] {
    resultant_about(case, model, [0.0; 3])
}

/// Sum of everything applied in a case (not reactions), reduced to a point. Loads along tubes are integrated exactly.
///
/// ```text
/// w(s) = w₁ + (w₂ − w₁)s, r(s) = r₁ + s d:   F = L (w₁ + w₂)/2,   M = L [ r₁ × (w₁ + w₂)/2 + d × (w₁/6 + w₂/3) ]
/// ```
///
/// # Units and shapes
/// `point` in m; fx, fy, fz in N; mx, my, mz in N·m; global axes.
///
/// # Source
/// Derived.
pub fn resultant_about(case: &LoadCase, model: &Model, point: [f64; 3]) -> [f64; 6] {
    let point = Vector3::from(point);
    let (mut force, mut moment) = (Vector3::zeros(), Vector3::zeros());
    for load in &case.joint_loads {
        let [fx, fy, fz, mx, my, mz] = load.load.0;
        let f = Vector3::new(fx, fy, fz);
        force += f;
        moment += Vector3::new(mx, my, mz) + (Vector3::from(model.joints()[load.joint].at) - point).cross(&f);
    }
    for load in &case.tube_loads {
        let span = Span::of(model, load.tube);
        let (w1, w2) = (span.global(load.axes, load.from), span.global(load.axes, load.to));
        let mean = (w1 + w2) / 2.0;
        force += mean * span.length();
        moment += ((span.from - point).cross(&mean) + span.along.cross(&(w1 / 6.0 + w2 / 3.0))) * span.length();
    }
    for load in &case.tube_point_loads {
        let span = Span::of(model, load.tube);
        let f = span.global(load.axes, load.force);
        force += f;
        moment += span.global(load.axes, load.moment) + (span.from + span.along * load.at - point).cross(&f);
    }
    [force.x, force.y, force.z, moment.x, moment.y, moment.z]
}

/// A tube's place and axes.
struct Span {
    from: Vector3<f64>,
    along: Vector3<f64>,
    axes: Option<LocalAxes>,
}

impl Span {
    fn of(model: &Model, tube: TubeId) -> Self {
        let row = &model.tubes()[tube];
        let (from, to) = (model.joints()[row.from].at, model.joints()[row.to].at);
        Self {
            from: Vector3::from(from),
            along: Vector3::from(to) - Vector3::from(from),
            // Validation refuses a tube without length; such a tube would carry nothing here either.
            axes: LocalAxes::between(from, to, row.roll).ok(),
        }
    }

    fn length(&self) -> f64 {
        self.along.norm()
    }

    fn global(&self, axes: Axes, vector: [f64; 3]) -> Vector3<f64> {
        match (axes, &self.axes) {
            (Axes::Local, Some(local)) => local.rotation.tr_mul(&Vector3::from(vector)),
            _ => Vector3::from(vector),
        }
    }
}
