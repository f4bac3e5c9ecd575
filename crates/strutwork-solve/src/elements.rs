//! The mechanics of every tube, ready for use: axes, stiffness, releases.

use nalgebra::Matrix6;
use rayon::prelude::*;
use strutwork_element::beam::{Freed, Released};
use strutwork_element::{Beam, LocalAxes, Mat12, Vec12};
use strutwork_model::ids::Id;
use strutwork_model::{Model, TubeId};

/// Every tube's mechanics, in the order of the model's tubes.
#[derive(Debug, Clone)]
pub struct Elements(Vec<Element>);

/// One tube's mechanics.
#[derive(Debug, Clone)]
pub struct Element {
    /// Local axes.
    pub axes: LocalAxes,
    /// Stiffness values.
    pub beam: Beam,
    /// Its releases, where it has any.
    pub released: Option<Box<Released>>,
    /// Freed end freedoms, local axes.
    pub freed: Freed,
    /// Joints, as indices.
    pub joints: [usize; 2],
}

impl Elements {
    /// The mechanics of every tube of the model.
    pub fn of(model: &Model) -> Self {
        let ids: Vec<TubeId> = model.tubes().ids().collect();
        Self(ids.par_iter().with_min_len(64).map(|&id| Element::of(model, id)).collect())
    }

    /// One tube's.
    pub fn get(&self, tube: TubeId) -> &Element {
        &self.0[tube.index()]
    }

    /// All, in order.
    pub(crate) fn as_slice(&self) -> &[Element] {
        &self.0
    }

    /// All, in order.
    pub fn iter(&self) -> std::slice::Iter<'_, Element> {
        self.0.iter()
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Element {
    fn of(model: &Model, id: TubeId) -> Self {
        let tube = &model.tubes()[id];
        let (section, material) = (&model.sections()[tube.section], &model.materials()[tube.material]);
        let (from, to) = (model.joints()[tube.from].at, model.joints()[tube.to].at);
        let axes = LocalAxes::between(from, to, tube.roll).expect("bug: validation refuses a tube without length");
        let beam = Beam {
            youngs: material.youngs,
            shear: material.shear,
            area: section.area,
            iy: section.iy,
            iz: section.iz,
            j: section.j,
            length: axes.length,
        };
        let mut freed: Freed = [false; 12];
        freed[..6].copy_from_slice(&tube.release_from.0);
        freed[6..].copy_from_slice(&tube.release_to.0);
        let released = freed.iter().any(|f| *f).then(|| Box::new(beam.release(&freed)));
        Self { axes, beam, released, freed, joints: [tube.from.index(), tube.to.index()] }
    }

    /// Stiffness seen by the joints, local axes.
    pub fn stiffness(&self) -> Mat12 {
        self.released.as_ref().map_or_else(|| self.beam.stiffness(), |released| released.stiffness)
    }

    /// Stiffness seen by the joints, global axes.
    pub fn global_stiffness(&self) -> Mat12 {
        self.axes.mat_to_global(&self.stiffness())
    }

    /// The quarters of the global stiffness that an end's joint takes: what the end itself resists, and what its
    /// movement brings to the other end (rows of the other end).
    pub(crate) fn quarters(&self, end: usize) -> [Matrix6<f64>; 2] {
        if self.released.is_some() {
            let k = self.global_stiffness();
            let other = 1 - end;
            return [
                k.fixed_view::<6, 6>(6 * end, 6 * end).into_owned(),
                k.fixed_view::<6, 6>(6 * other, 6 * end).into_owned(),
            ];
        }
        direct(&self.beam, &self.axes, end)
    }

    /// Deformations that cost energy, from the joints' displacements in global axes, and the stiffness over them:
    /// energy = ½ qᵀ k q, free of the cancellation of whole-frame motions.
    pub fn deformation(&self, joints: &Vec12) -> ([f64; 6], [[f64; 6]; 6]) {
        // The motion of end 2 and of both ends' slopes, seen from end 1.
        const KEPT: [usize; 6] = [6, 9, 4, 10, 5, 11];
        let u = self.axes.vec_to_local(joints);
        let l = self.axes.length;
        let q = [
            u[6] - u[0],
            u[9] - u[3],
            u[4] + (u[8] - u[2]) / l,
            u[10] + (u[8] - u[2]) / l,
            u[5] - (u[7] - u[1]) / l,
            u[11] - (u[7] - u[1]) / l,
        ];
        let k = self.stiffness();
        (q, KEPT.map(|i| KEPT.map(|j| k[(i, j)])))
    }
}

/// The quarters of the unreleased stiffness, from outer products of the axes instead of triple products.
///
/// ```text
/// K_uu = EA/L x xᵀ + 12EIz/L³ y yᵀ + 12EIy/L³ z zᵀ      K_uθ = ±(6EIz/L² y zᵀ − 6EIy/L² z yᵀ), + at end 1
/// K_θθ = GJ/L x xᵀ + 4EIy/L y yᵀ + 4EIz/L z zᵀ          far end: −GJ/L, 2EIy/L, 2EIz/L
/// ```
fn direct(beam: &Beam, axes: &LocalAxes, end: usize) -> [Matrix6<f64>; 2] {
    let l = axes.length;
    let r = &axes.rotation;
    let (eiy, eiz) = (beam.youngs * beam.iy / l, beam.youngs * beam.iz / l);
    let (axial, shear_y, shear_z) = (beam.youngs * beam.area / l, 12.0 * eiz / (l * l), 12.0 * eiy / (l * l));
    let torsion = beam.shear * beam.j / l;
    let sign = if end == 0 { 1.0 } else { -1.0 };
    let (couple_z, couple_y) = (sign * 6.0 * eiz / l, sign * 6.0 * eiy / l);
    let mut own = Matrix6::zeros();
    let mut other = Matrix6::zeros();
    for j in 0..3 {
        for i in 0..3 {
            let (xx, yy, zz) = (r[(0, i)] * r[(0, j)], r[(1, i)] * r[(1, j)], r[(2, i)] * r[(2, j)]);
            let uu = axial * xx + shear_y * yy + shear_z * zz;
            let ut = couple_z * r[(1, i)] * r[(2, j)] - couple_y * r[(2, i)] * r[(1, j)];
            let (twist, bend) = (torsion * xx, 2.0 * (eiy * yy + eiz * zz));
            own[(i, j)] = uu;
            own[(i, j + 3)] = ut;
            own[(j + 3, i)] = ut;
            own[(i + 3, j + 3)] = twist + 2.0 * bend;
            other[(i, j)] = -uu;
            other[(i, j + 3)] = -ut;
            other[(j + 3, i)] = ut;
            other[(i + 3, j + 3)] = bend - twist;
        }
    }
    [own, other]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outer_products_give_the_turned_stiffness() {
        let beam = Beam { youngs: 210e9, shear: 81e9, area: 2e-4, iy: 3e-8, iz: 7e-8, j: 5e-8, length: 0.0 };
        for (to, roll) in [([0.3, -0.8, 0.5], 0.7), ([0.0, 0.0, -1.2], -0.3), ([1.0, 0.0, 0.0], 0.0)] {
            let axes = LocalAxes::between([0.0; 3], to, roll).unwrap();
            let beam = Beam { length: axes.length, ..beam };
            let turned = axes.mat_to_global(&beam.stiffness());
            for end in 0..2 {
                let [own, other] = direct(&beam, &axes, end);
                let quarter = |row: usize| turned.fixed_view::<6, 6>(6 * row, 6 * end).into_owned();
                assert!((own - quarter(end)).amax() <= 1e-12 * turned.amax());
                assert!((other - quarter(1 - end)).amax() <= 1e-12 * turned.amax());
            }
        }
    }
}
