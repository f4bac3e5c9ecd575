//! What the frame and its load weigh: total mass, centre of gravity, inertia; and the resultant of a load case.

mod overlap;
mod pieces;
mod resultant;
mod weighed;

use nalgebra::{Matrix3, Vector3};
use strutwork_model::model::{Carrier, Model};
use strutwork_model::{BodyId, MaterialId};

use crate::error::LoadError;

pub use overlap::overlap;
pub use pieces::{Piece, PieceOf, pieces};
pub(crate) use resultant::Total;
pub use resultant::{resultant, resultant_about};
pub use weighed::{Explanation, Scale, WeighedRow, Weighing, weighing};

/// Mass, centre of gravity and inertia of a model: its tubes, its panels and the masses it carries.
#[derive(Debug, Clone, PartialEq)]
pub struct MassModel {
    /// One for each group of tubes in order of first use (ungrouped tubes under an empty name), then one for each panel,
    /// then one for each mass.
    pub items: Vec<MassItem>,
    /// kg.
    pub total: f64,
    /// Centre of gravity, m; the origin where there is no mass.
    pub centre: [f64; 3],
    /// Inertia tensor about the centre of gravity, kg·m², rows and columns x, y, z.
    pub inertia: [[f64; 3]; 3],
    /// Materials in use that have no density, in order of first use: their tubes and panels weigh nothing here.
    pub without_density: Vec<MaterialId>,
    /// What has no mass and might be expected to: see [`Massless`].
    pub massless: Vec<Massless>,
}

/// One row of the table of masses.
#[derive(Debug, Clone, PartialEq)]
pub struct MassItem {
    /// The name of the group, the panel or the mass.
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
    /// A panel.
    Panel,
    /// A mass that the frame carries.
    Carried,
}

/// Something without mass.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Massless {
    /// A material without density: so many tubes and panels are of it.
    Material {
        /// The material.
        material: MaterialId,
        /// Tubes of it.
        tubes: usize,
        /// Panels of it.
        panels: usize,
    },
    /// A body that carries no mass.
    Body(BodyId),
    /// `masses.csv` lists nothing: no people, no battery, no motor.
    NothingCarried,
}

impl Massless {
    /// What it is, in words: `material `x` has no density (12 tubes, 1 panel)`.
    pub fn words(&self, model: &Model) -> String {
        match *self {
            Self::Material { material, tubes, panels } => {
                let count = |number: usize, what: &str| match number {
                    0 => None,
                    1 => Some(format!("1 {what}")),
                    _ => Some(format!("{number} {what}s")),
                };
                let used: Vec<String> = [count(tubes, "tube"), count(panels, "panel")].into_iter().flatten().collect();
                format!("material `{}` has no density ({})", model.materials()[material].name, used.join(", "))
            }
            Self::Body(body) => format!("body `{}` carries no mass", model.bodies()[body].name),
            Self::NothingCarried => "masses.csv lists nothing".to_owned(),
        }
    }
}

impl MassModel {
    /// Mass, centre of gravity and inertia of a model.
    ///
    /// ```text
    /// I = Σ [ I_own + m(|r|² 1 − r rᵀ) ]     r from the centre of gravity to a piece's centre
    /// ```
    ///
    /// # Units and shapes
    /// kg, m, kg·m².
    ///
    /// # Assumes
    /// Tubes are thin rods between their ends: without offsets the overlap at joints counts twice. Panels are thin
    /// plates. Masses have the inertia that the input gives them. See [`pieces()`].
    ///
    /// # Source
    /// Standard mechanics (derived): parallel axes.
    pub fn of(model: &Model) -> Self {
        let all: Vec<Piece> = pieces(model).collect();
        let mut whole = Sum::default();
        let mut rows: Vec<(String, MassKind, Sum)> = Vec::new();
        for piece in &all {
            whole.add(piece);
            let place = match piece.of {
                PieceOf::Tube(tube) => {
                    let group = &model.tubes()[tube].group;
                    rows.iter()
                        .position(|(name, _, _)| name == group)
                        .unwrap_or_else(|| pushed(&mut rows, group, MassKind::Tubes))
                }
                PieceOf::Panel(panel) => pushed(&mut rows, &model.panels()[panel].name, MassKind::Panel),
                PieceOf::Mass(place) => pushed(&mut rows, &model.masses()[place].name, MassKind::Carried),
            };
            rows[place].2.add(piece);
        }
        let centre = whole.centre();
        let inertia: Matrix3<f64> = all.iter().map(|piece| about(piece, centre)).sum();
        let massless = massless(model);
        Self {
            items: rows
                .into_iter()
                .map(|(name, kind, sum)| MassItem { name, kind, mass: sum.mass, centre: sum.centre().into() })
                .collect(),
            total: whole.mass,
            centre: centre.into(),
            inertia: std::array::from_fn(|row| std::array::from_fn(|column| inertia[(row, column)])),
            without_density: massless
                .iter()
                .filter_map(|one| match one {
                    Massless::Material { material, .. } => Some(*material),
                    _ => None,
                })
                .collect(),
            massless,
        }
    }

    /// Whether everything that must have mass for `wanted` has it: there is mass, and no material in use lacks density.
    ///
    /// # Errors
    /// [`LoadError::NoMass`] and [`LoadError::NoDensity`], each with the list of all that has none;
    /// [`LoadError::NotFinite`] where the total overflows.
    pub fn needed(&self, model: &Model, wanted: &'static str) -> Result<(), LoadError> {
        if !self.total.is_finite() {
            return Err(LoadError::NotFinite { what: "the total mass".to_owned(), value: self.total });
        }
        let missing = || self.massless.iter().map(|one| one.words(model)).collect();
        if self.total <= 0.0 {
            return Err(LoadError::NoMass { wanted, missing: missing() });
        }
        if self.without_density.is_empty() {
            return Ok(());
        }
        let name = |&material| model.materials()[material].name.clone();
        let materials = self.without_density.iter().map(name).collect();
        Err(LoadError::NoDensity { wanted, materials, missing: missing() })
    }

    /// Mass of all rows of one kind, kg.
    pub fn of_kind(&self, kind: MassKind) -> f64 {
        self.items.iter().filter(|item| item.kind == kind).map(|item| item.mass).sum()
    }
}

fn pushed(rows: &mut Vec<(String, MassKind, Sum)>, name: &str, kind: MassKind) -> usize {
    rows.push((name.to_owned(), kind, Sum::default()));
    rows.len() - 1
}

/// What has no mass: materials in use in order of first use, then bodies, then the list of masses itself.
fn massless(model: &Model) -> Vec<Massless> {
    let mut found: Vec<Massless> = Vec::new();
    let tubes = model.tubes().iter().map(|tube| (tube.material, 1, 0));
    let panels = model.panels().iter().map(|panel| (panel.material, 0, 1));
    for (used, tube, panel) in tubes.chain(panels) {
        if model.materials()[used].density > 0.0 {
            continue;
        }
        let known = found.iter_mut().find_map(|one| match one {
            Massless::Material { material, tubes, panels } if *material == used => Some((tubes, panels)),
            _ => None,
        });
        match known {
            Some((tubes, panels)) => {
                *tubes += tube;
                *panels += panel;
            }
            None => found.push(Massless::Material { material: used, tubes: tube, panels: panel }),
        }
    }
    let carries = |body| model.masses().iter().any(|mass| mass.carrier == Carrier::Body(body));
    found.extend(model.bodies().ids().filter(|&body| !carries(body)).map(Massless::Body));
    if model.masses().is_empty() {
        found.push(Massless::NothingCarried);
    }
    found
}

/// Mass and first moment.
#[derive(Debug, Clone, Copy, Default)]
struct Sum {
    mass: f64,
    moment: Vector3<f64>,
}

impl Sum {
    fn add(&mut self, piece: &Piece) {
        self.mass += piece.mass;
        self.moment += Vector3::from(piece.centre) * piece.mass;
    }

    fn centre(&self) -> Vector3<f64> {
        if self.mass > 0.0 { self.moment / self.mass } else { Vector3::zeros() }
    }
}

/// A piece's inertia about another point.
fn about(piece: &Piece, point: Vector3<f64>) -> Matrix3<f64> {
    let r = Vector3::from(piece.centre) - point;
    let own = Matrix3::from_fn(|row, column| piece.inertia[row][column]);
    own + (Matrix3::identity() * r.norm_squared() - r * r.transpose()) * piece.mass
}
