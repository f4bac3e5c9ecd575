//! What acts on a joint, as the frame's analysis gives it.

use super::Chord;

/// What one brace and the chord beside it bring to the joint, without the margin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Acting {
    /// Axial force of the brace at the joint, N, tension positive.
    pub axial: f64,
    /// Moments of the brace at the joint, in the plane of chord and brace and out of it, N·m.
    pub moments: [f64; 2],
    /// The end of the chord at the joint that is compressed most.
    pub chord: ChordForces,
    /// Greatest axial force of the chord at the joint, magnitude, N: what a gap between braces carries across.
    pub chord_axial: f64,
    /// What all of it is multiplied by.
    pub margin: f64,
}

/// Forces in the chord at the joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChordForces {
    /// N, tension positive.
    pub axial: f64,
    /// About the chord's own y and z, N·m.
    pub moments: [f64; 2],
    /// Elastic moduli about its y and z, m³.
    pub elastic: [f64; 2],
    /// Whether it is round: then the two moments make one.
    pub round: bool,
}

impl ChordForces {
    /// Nothing acts in the chord.
    pub const NONE: Self = Self { axial: 0.0, moments: [0.0; 2], elastic: [1.0; 2], round: false };

    /// Greatest compressive stress over a section of this area (m²), Pa, compression positive; below 0 where all of it is
    /// pulled.
    ///
    /// ```text
    /// σ_0 = |M_y|/W_y + |M_z|/W_z − N/A          round: √(M_y² + M_z²)/W − N/A
    /// ```
    pub fn compression(&self, area: f64) -> f64 {
        let [my, mz] = self.moments;
        let bent = if self.round {
            my.hypot(mz) / self.elastic[0]
        } else {
            my.abs() / self.elastic[0] + mz.abs() / self.elastic[1]
        };
        bent - self.axial / area
    }
}

impl Acting {
    /// n = σ_0,Ed/f_y0 of the chord, the margin included; 0 where nothing is compressed.
    ///
    /// # Assumes
    /// The fibre that is compressed most, wherever it lies, on the side of the joint where that is greater: on the safe side
    /// for a brace on another face, and for n_p of a round chord, which leaves the braces' own components out.
    ///
    /// # Source
    /// EN 1993-1-8:2005 1.5(6) (from memory). It divides by γ_M5 as well, which is 1.0 by recommendation and left out here.
    pub fn stress_ratio(&self, chord: &Chord) -> f64 {
        (self.margin * self.chord.compression(chord.area) / chord.yield_stress).max(0.0)
    }
}
