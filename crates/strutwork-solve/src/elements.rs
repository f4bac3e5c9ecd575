//! The mechanics of every tube, ready for use: axes, stiffness, releases.

use nalgebra::Matrix3;
use rayon::prelude::*;
use strutwork_element::beam::{Freed, Released};
use strutwork_element::{Beam, LocalAxes, Mat12, Vec12};
use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, Model, TubeId};

/// Every tube's mechanics, in the order of the model's tubes.
#[derive(Debug, Clone)]
pub struct Elements(IndexVec<TubeId, Element>);

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
        let list: Vec<Element> = ids.par_iter().map(|&id| Element::of(model, id)).collect();
        Self(list.into_iter().collect())
    }

    /// One tube's.
    pub fn get(&self, tube: TubeId) -> &Element {
        &self.0[tube]
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

    /// Stiffness seen by the joints, global axes, as four 6×6 quarters of 3×3 blocks.
    pub fn global_stiffness(&self) -> Mat12 {
        match &self.released {
            Some(released) => self.axes.mat_to_global(&released.stiffness),
            None => direct(&self.beam, &self.axes),
        }
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

/// The unreleased stiffness in global axes, from outer products of the axes instead of triple products.
///
/// ```text
/// K_uu = EA/L x xᵀ + 12EIz/L³ y yᵀ + 12EIy/L³ z zᵀ      K_uθ = 6EIz/L² y zᵀ − 6EIy/L² z yᵀ
/// K_θθ = ±GJ/L x xᵀ + (4 or 2)EIy/L y yᵀ + (4 or 2)EIz/L z zᵀ
/// ```
fn direct(beam: &Beam, axes: &LocalAxes) -> Mat12 {
    let l = axes.length;
    let row = |i: usize| axes.rotation.row(i).transpose();
    let (x, y, z) = (row(0), row(1), row(2));
    let (xx, yy, zz) = (x * x.transpose(), y * y.transpose(), z * z.transpose());
    let (eiy, eiz) = (beam.youngs * beam.iy / l, beam.youngs * beam.iz / l);
    let uu = xx * (beam.youngs * beam.area / l) + yy * (12.0 * eiz / (l * l)) + zz * (12.0 * eiy / (l * l));
    let yz = y * z.transpose();
    let ut = yz * (6.0 * eiz / l) - yz.transpose() * (6.0 * eiy / l);
    let torsion = xx * (beam.shear * beam.j / l);
    let bend = yy * (2.0 * eiy) + zz * (2.0 * eiz);
    let (near, far) = (torsion + bend * 2.0, bend - torsion);
    let tu = ut.transpose();
    let mut k = Mat12::zeros();
    let mut put = |i: usize, j: usize, block: &Matrix3<f64>| k.fixed_view_mut::<3, 3>(3 * i, 3 * j).copy_from(block);
    put(0, 0, &uu);
    put(0, 1, &ut);
    put(0, 2, &-uu);
    put(0, 3, &ut);
    put(1, 0, &tu);
    put(1, 1, &near);
    put(1, 2, &-tu);
    put(1, 3, &far);
    put(2, 0, &-uu);
    put(2, 1, &-ut);
    put(2, 2, &uu);
    put(2, 3, &-ut);
    put(3, 0, &tu);
    put(3, 1, &far);
    put(3, 2, &-tu);
    put(3, 3, &near);
    k
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
            assert!((direct(&beam, &axes) - turned).amax() <= 1e-12 * turned.amax());
        }
    }
}
