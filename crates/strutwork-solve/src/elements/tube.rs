//! The mechanics of one tube, ready for use: axes, stiffness, how its ends are joined.

use nalgebra::Matrix6;
use strutwork_element::beam::{EndSprings, Ends, Joined, Mat6, Vec6};
use strutwork_element::{Beam, LocalAxes, Mat12, Vec12};
use strutwork_model::ids::Id;
use strutwork_model::model::Tube;
use strutwork_model::{Dof, Model, TubeId};

use crate::reanalysis::TubeStiffness;

/// One tube's mechanics.
#[derive(Debug, Clone)]
pub struct Element {
    /// Local axes, between the tube's own ends.
    pub axes: LocalAxes,
    /// Stiffness values.
    pub beam: Beam,
    /// How its ends are joined, where that is not rigidly and at the joints.
    pub joined: Option<Box<Joined>>,
    /// Joints, as indices.
    pub joints: [usize; 2],
}

impl Element {
    pub(super) fn of(model: &Model, id: TubeId) -> Self {
        let tube = &model.tubes()[id];
        let (section, material) = (&model.sections()[tube.section], &model.materials()[tube.material]);
        let [from, to] = model.tube_ends(id);
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
        let ends = ends(tube, &axes);
        let joined = (ends != Ends::RIGID).then(|| Box::new(beam.join(&ends)));
        Self { axes, beam, joined, joints: [tube.from.index(), tube.to.index()] }
    }

    /// Gives the tube another stiffness, its ends joined as they are.
    pub(crate) fn change(&mut self, stiffness: &TubeStiffness) {
        // With E = G = 1 the section's values are those of the stiffness.
        let TubeStiffness { ea: area, gj: j, eiy: iy, eiz: iz } = *stiffness;
        self.beam = Beam { youngs: 1.0, shear: 1.0, area, iy, iz, j, length: self.axes.length };
        self.joined = self.joined.as_ref().map(|joined| Box::new(self.beam.join(joined.ends())));
    }

    /// Springs and releases between its ends and its joints; `tube` is the one that it was made of.
    pub(crate) fn springs(&self, tube: &Tube) -> EndSprings {
        ends(tube, &self.axes).springs
    }

    /// Stiffness seen by the joints, local axes.
    pub fn stiffness(&self) -> Mat12 {
        self.joined.as_ref().map_or_else(|| self.beam.stiffness(), |joined| joined.stiffness())
    }

    /// Stiffness seen by the joints, global axes.
    pub fn global_stiffness(&self) -> Mat12 {
        self.axes.mat_to_global(&self.stiffness())
    }

    /// The quarters of the global stiffness that an end's joint takes: what the end itself resists, and what its
    /// movement brings to the other end (rows of the other end).
    pub(crate) fn quarters(&self, end: usize) -> [Matrix6<f64>; 2] {
        if self.joined.is_some() {
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
    pub fn deformation(&self, joints: &Vec12) -> (Vec6, Mat6) {
        let local = self.axes.vec_to_local(joints);
        match &self.joined {
            Some(joined) => joined.deformation(&local),
            None => (self.beam.deformations(&local), self.beam.deformation_stiffness()),
        }
    }

    /// Displacements of the tube's own ends and forces on them, local axes, from the joints' displacements (global axes)
    /// and the end loads of what acts between the ends.
    pub(crate) fn own_ends(&self, joints: &Vec12, acting: &Vec12) -> (Vec12, Vec12) {
        let local = self.axes.vec_to_local(joints);
        match &self.joined {
            Some(joined) => joined.own_ends(&local, acting),
            None => (local, self.beam.stiffness() * local - acting),
        }
    }

    /// How its ends are joined.
    pub fn ends(&self) -> &Ends {
        self.joined.as_ref().map_or(&Ends::RIGID, |joined| joined.ends())
    }

    /// Forces that the joints exert on the tube, at the joints, global axes: likewise.
    pub(crate) fn joint_forces(&self, joints: &Vec12, acting: &Vec12) -> Vec12 {
        let (_, forces) = self.own_ends(joints, acting);
        self.axes.vec_to_global(&self.joined.as_ref().map_or(forces, |joined| joined.to_joints(&forces)))
    }

    /// What reaches the joints, global axes, of end loads on the tube's own ends, local axes.
    pub(crate) fn joint_loads(&self, acting: &Vec12) -> Vec12 {
        self.axes.vec_to_global(&self.joined.as_ref().map_or(*acting, |joined| joined.joint_loads(acting)))
    }
}

/// How a tube's ends are joined: a release is a spring of zero stiffness.
fn ends(tube: &Tube, axes: &LocalAxes) -> Ends {
    let mut ends = Ends::RIGID;
    for (place, (end, released)) in
        [(&tube.end_from, &tube.release_from), (&tube.end_to, &tube.release_to)].into_iter().enumerate()
    {
        if end.offset != [0.0; 3] {
            ends.arms[place] = axes.to_local(end.offset);
        }
        for dof in Dof::ALL {
            ends.springs[6 * place + dof.index()] = if released[dof] { Some(0.0) } else { end.springs[dof] };
        }
    }
    ends
}

/// The quarters of a rigidly joined tube's stiffness, from outer products of the axes instead of triple products.
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
