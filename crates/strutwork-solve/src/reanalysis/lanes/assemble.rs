//! The stiffness of the columns of one place, for every lane.

use pulp::Simd;

use crate::reanalysis::blocks::Blocks;
use crate::reanalysis::pieces::{Geometry, NONE, Pieces, TubeEnd};

/// Fills in the blocks of a place's columns that are not fill alone: what no variant changes, then the tubes, then all other
/// pieces.
#[inline(always)]
pub(super) fn assemble<S: Simd>(
    simd: S,
    pieces: &Pieces,
    blocks: &Blocks,
    place: usize,
    values: &[S::f64s],
    factor: &mut [[S::f64s; 6]],
) {
    let zero = simd.splat_f64s(0.0);
    let ranks = blocks.columns[place]..blocks.columns[place + 1];
    for rank in ranks.filter(|rank| !pieces.begun[*rank]) {
        let (block, fixed) = (&blocks.blocks[rank], &pieces.fixed_of[rank]);
        let target = &mut factor[6 * block.at as usize..][..6];
        if *fixed == NONE {
            target.fill([zero; 6]);
        } else {
            for (column, entries) in target.iter_mut().zip(pieces.fixed[*fixed as usize].as_chunks::<6>().0) {
                for (register, entry) in column.iter_mut().zip(entries) {
                    *register = simd.splat_f64s(*entry);
                }
            }
        }
    }
    let diagonal = blocks.column(place)[0].at as usize;
    for end in &pieces.ends[pieces.end_starts[place]..pieces.end_starts[place + 1]] {
        tube_end(simd, &pieces.geometry[end.tube as usize], end, values, diagonal, factor);
    }
    for share in &pieces.shares[pieces.share_starts[place]..pieces.share_starts[place + 1]] {
        let target = &mut factor[6 * share.block as usize..][..6];
        let values = &values[share.value as usize..][..share.count as usize];
        let shapes = &pieces.shapes[share.shape as usize..][..share.count as usize];
        for (value, shape) in values.iter().zip(shapes) {
            for (column, entries) in target.iter_mut().zip(shape.as_chunks::<6>().0) {
                for (register, entry) in column.iter_mut().zip(entries) {
                    *register = simd.mul_add_f64s(*value, simd.splat_f64s(*entry), *register);
                }
            }
        }
    }
}

/// Adds what a rigidly joined tube brings to the columns of one of its ends: what the end itself resists, and, where the
/// other end is eliminated later, what its movement brings there.
///
/// ```text
/// K_uu = EA/L x xᵀ + 12EIz/L³ y yᵀ + 12EIy/L³ z zᵀ      K_uθ = ±(6EIz/L² y zᵀ − 6EIy/L² z yᵀ), + at end 1
/// K_θθ = GJ/L x xᵀ + 4EIy/L y yᵀ + 4EIz/L z zᵀ          far end: −GJ/L, 2EIy/L, 2EIz/L
/// ```
#[inline(always)]
fn tube_end<S: Simd>(
    simd: S,
    geometry: &Geometry,
    end: &TubeEnd,
    values: &[S::f64s],
    diagonal: usize,
    factor: &mut [[S::f64s; 6]],
) {
    let &[axial, torsion, bend_y, bend_z] =
        values[end.value as usize..].first_chunk::<4>().expect("four values a tube");
    let splat = |value: f64| simd.splat_f64s(value);
    let zero = splat(0.0);
    let sign = splat(end.sign);
    let (signed_y, signed_z) = (simd.mul_f64s(sign, bend_y), simd.mul_f64s(sign, bend_z));
    let two = splat(2.0);
    // Lower triangles of K_uu, of half the bending part of K_θθ, and of its twisting part; K_uθ in full.
    let mut uu = [[zero; 3]; 3];
    let mut half = [[zero; 3]; 3];
    let mut twist = [[zero; 3]; 3];
    let mut ut = [[zero; 3]; 3];
    for j in 0..3 {
        for i in j..3 {
            let mut sum = simd.mul_f64s(axial, splat(geometry.xx[j][i]));
            sum = simd.mul_add_f64s(bend_z, splat(geometry.yy_shear[j][i]), sum);
            uu[j][i] = simd.mul_add_f64s(bend_y, splat(geometry.zz_shear[j][i]), sum);
            twist[j][i] = simd.mul_f64s(torsion, splat(geometry.xx[j][i]));
            let bend = simd.mul_f64s(bend_y, splat(geometry.yy[j][i]));
            half[j][i] = simd.mul_f64s(two, simd.mul_add_f64s(bend_z, splat(geometry.zz[j][i]), bend));
        }
        for i in 0..3 {
            let first = simd.mul_f64s(signed_z, splat(geometry.yz[j][i]));
            ut[j][i] = simd.negate_mul_add_f64s(signed_y, splat(geometry.yz[i][j]), first);
        }
    }
    let [begins, begins_other] = end.begins;
    let own = &mut factor[6 * diagonal..][..6];
    // The lower triangle; row of the turn j, column of the movement i: K_uθ(i, j).
    if begins {
        for j in 0..3 {
            for i in j..3 {
                own[j][i] = uu[j][i];
                own[3 + j][3 + i] = simd.mul_add_f64s(two, half[j][i], twist[j][i]);
            }
            for i in 0..3 {
                own[i][3 + j] = ut[j][i];
            }
        }
    } else {
        for j in 0..3 {
            for i in j..3 {
                own[j][i] = simd.add_f64s(own[j][i], uu[j][i]);
                let bend = simd.mul_add_f64s(two, half[j][i], twist[j][i]);
                own[3 + j][3 + i] = simd.add_f64s(own[3 + j][3 + i], bend);
            }
            for i in 0..3 {
                own[i][3 + j] = simd.add_f64s(own[i][3 + j], ut[j][i]);
            }
        }
    }
    if end.other == NONE {
        return;
    }
    let other = &mut factor[6 * end.other as usize..][..6];
    if begins_other {
        for j in 0..3 {
            for i in 0..3 {
                let (high, low) = (i.max(j), i.min(j));
                other[j][i] = simd.neg_f64s(uu[low][high]);
                other[3 + j][3 + i] = simd.sub_f64s(half[low][high], twist[low][high]);
                other[3 + j][i] = simd.neg_f64s(ut[j][i]);
                other[i][3 + j] = ut[j][i];
            }
        }
        return;
    }
    for j in 0..3 {
        for i in 0..3 {
            let (high, low) = (i.max(j), i.min(j));
            other[j][i] = simd.sub_f64s(other[j][i], uu[low][high]);
            other[3 + j][3 + i] = simd.add_f64s(other[3 + j][3 + i], simd.sub_f64s(half[low][high], twist[low][high]));
            other[3 + j][i] = simd.sub_f64s(other[3 + j][i], ut[j][i]);
            other[i][3 + j] = simd.add_f64s(other[i][3 + j], ut[j][i]);
        }
    }
}
