//! Welds round the end of a tube after EN 1993-1-8 section 4: fillets by the directional and the simplified method, butt welds
//! of full penetration.

mod line;
mod scope;
mod strength;
mod written;

pub use line::{Outline, WeldLine};
pub use scope::{Sizes, outside};
pub use strength::{Directional, correlation, directional, full_strength_throat, metal, shear_strength};

use std::f64::consts::{PI, SQRT_2};

use super::{Partial, Verdict};
use crate::calculation::Sink;

/// Where the formulas of fillets come from, as a page prints it.
pub const SOURCE: &str = "EN 1993-1-8:2005 4.5.3.2, 4.5.3.3, 4.6, Table 4.1 (read in several design guides and copies), 7.3.1 (a copy was \
                          read); the weld as a closed line of unit throat (derived); scope of walls and throats 4.1, 4.5.2 (from memory)";

/// Where the rule for butt welds comes from, as a page prints it.
pub const BUTT_SOURCE: &str = "EN 1993-1-8:2005 4.7.1(1): a full penetration butt weld is as strong as the weaker of the parts (a copy \
                               was read); EN 1993-1-1:2005 6.2.1(5): elastic check (from memory)";

/// The clause of a butt weld: it is judged as the tube's section with the strength of the weaker part, by
/// [`elastic::check`](super::elastic::check). Partial penetration is not covered.
pub const BUTT_CLAUSE: &str = "EN 1993-1-8 4.7.1: butt weld of full penetration, strength of the weaker part";

/// A fillet all round the end of a tube that stands on a face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fillet {
    /// Sizes of the tube.
    pub outline: Outline,
    /// θ between tube and face, rad, 0 < θ ≤ π/2; π/2 is a square cut.
    pub angle: f64,
    /// Wall of the tube, m; 0 for a bar, which no throat is as strong as.
    pub wall: f64,
    /// a, m.
    pub throat: f64,
    /// f_y of the tube beside the weld, Pa.
    pub yield_stress: f64,
    /// f_u of the weaker part joined, beside the weld, Pa.
    pub ultimate: f64,
    /// β_w of the weaker part.
    pub correlation: f64,
}

/// What acts at the tube's end, in the tube's own axes, margin included. Magnitudes: N, N·m.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct AtEnd {
    /// Axial force.
    pub axial: f64,
    /// Shear in the plane of tube and face normal, and across it.
    pub shear: [f64; 2],
    /// Torque.
    pub torque: f64,
    /// Moment that bends in that plane, and out of it.
    pub moments: [f64; 2],
}

/// What the tube brings to the face, in axes of the face. Magnitudes: N, N·m.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OnFace {
    /// Square to the face.
    pub normal: f64,
    /// In the face: in the plane of tube and face normal, and across it.
    pub shear: [f64; 2],
    /// Moments that bend in that plane, and out of it.
    pub moments: [f64; 2],
    /// Moment about the face's normal.
    pub torque: f64,
}

/// The methods of EN 1993-1-8 for fillets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// 4.5.3.2.
    Directional,
    /// 4.5.3.3.
    Simplified,
}

/// Every number of one check of a fillet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stressed {
    /// The weld's line.
    pub line: WeldLine,
    /// What acts on the face.
    pub face: OnFace,
    /// p square to the face and q along the weld, N/m.
    pub flows: [f64; 2],
    /// σ_⊥ = τ_⊥, Pa.
    pub across: f64,
    /// τ_∥, Pa.
    pub along: f64,
    /// √(σ_⊥² + 3(τ_⊥² + τ_∥²)), Pa.
    pub combined: f64,
    /// Its limit, and that of σ_⊥: [`Directional::limits`], Pa.
    pub limits: [f64; 2],
    /// a f_vw,d: what the simplified method allows for √(p² + q²), N/m.
    pub strength: f64,
    /// Utilisation by the directional and by the simplified method.
    pub used: [f64; 2],
}

impl Stressed {
    /// Whether σ_⊥ is nearer to its limit than all stresses together to theirs.
    fn across_governs(&self) -> bool {
        self.across / self.limits[1] > self.combined / self.limits[0]
    }

    /// The limit of what governs in the directional method, Pa.
    pub fn governing_limit(&self) -> f64 {
        self.limits[usize::from(self.across_governs())]
    }
}

impl AtEnd {
    /// Turned into the face's axes.
    ///
    /// ```text
    /// N_f = N sinθ + V_ip cosθ,  V_u = N cosθ + V_ip sinθ,  V_v = V_op
    /// M_f,ip = M_ip,  M_f,op = M_op sinθ + T cosθ,  T_f = T sinθ + M_op cosθ
    /// ```
    ///
    /// # Assumes
    /// All parts of a sum act the same way, which is on the safe side: signs do not enter.
    ///
    /// # Source
    /// Derived.
    pub fn on_face(&self, angle: f64) -> OnFace {
        let (sin, cos) = sines(angle);
        let [in_plane, out_of_plane] = self.shear.map(f64::abs);
        let [bends, out] = self.moments.map(f64::abs);
        let (axial, torque) = (self.axial.abs(), self.torque.abs());
        OnFace {
            normal: axial * sin + in_plane * cos,
            shear: [axial * cos + in_plane * sin, out_of_plane],
            moments: [bends, out * sin + torque * cos],
            torque: torque * sin + out * cos,
        }
    }
}

/// Sine and cosine of an angle up to π/2, whose cosine is nothing.
fn sines(angle: f64) -> (f64, f64) {
    (angle.sin(), if angle >= PI / 2.0 { 0.0 } else { angle.cos() })
}

/// Everything of the check but the verdict.
///
/// ```text
/// p = N_f/L + M_f,ip/W_ip + M_f,op/W_op   round: p = N_f/L + √((M_f,ip/W_ip)² + (M_f,op/W_op)²)
/// q = max(V_u/2u, V_v/2v) + T_f/2A_m      round: q = 2 √(V_u² + V_v²)/(π d) + T_f/2A_m
/// σ_⊥ = τ_⊥ = p/(√2 a),  τ_∥ = q/a
/// directional: √(σ_⊥² + 3(τ_⊥² + τ_∥²)) ≤ f_u/(β_w γ_M2)  and  σ_⊥ ≤ 0.9 f_u/γ_M2
/// simplified:  √(p² + q²) ≤ a f_vw,d
/// ```
///
/// # Units and shapes
/// SI.
///
/// # Assumes
/// A fillet of equal legs between faces square to each other; the greatest of everything in one point, so a bound; shear in
/// the two sides that lie along it, evenly (in a round tube its elastic greatest, that of the square cut). Starts and ends of a
/// weld that goes all round are sound: no length is taken off. Forces are those of the tube's end as modelled, which without an
/// offset is the crossing of the axes, not the face.
///
/// # Source
/// EN 1993-1-8:2005 4.5.3.2 and 4.5.3.3 (read in several design guides); flows derived.
pub fn stressed(weld: &Fillet, acting: &AtEnd, partial: &Partial) -> Stressed {
    let line = weld.outline.line(weld.angle);
    let face = acting.on_face(weld.angle);
    let [u, v] = line.sides;
    let [bends, bends_out] = [face.moments[0] / line.moduli[0], face.moments[1] / line.moduli[1]];
    let bending = if weld.outline.is_round() { bends.hypot(bends_out) } else { bends + bends_out };
    let square = face.normal / line.length + bending;
    let direct = match weld.outline {
        Outline::Round { diameter } => 2.0 * face.shear[0].hypot(face.shear[1]) / (PI * diameter),
        Outline::Rectangular { .. } => (face.shear[0] / (2.0 * u)).max(face.shear[1] / (2.0 * v)),
    };
    let along = direct + face.torque / (2.0 * line.enclosed);
    let across = square / (SQRT_2 * weld.throat);
    let parallel = along / weld.throat;
    let directional = directional([across, across, parallel], weld.ultimate, weld.correlation, partial.m2);
    let strength = weld.throat * shear_strength(weld.ultimate, weld.correlation, partial.m2);
    Stressed {
        line,
        face,
        flows: [square, along],
        across,
        along: parallel,
        combined: directional.combined,
        limits: directional.limits,
        strength,
        used: [directional.used[0].max(directional.used[1]), square.hypot(along) / strength],
    }
}

/// A fillet against what the tube brings, by the method chosen; the page shows the other one beside it.
///
/// # Source
/// As [`stressed`].
pub fn check(
    weld: &Fillet,
    acting: &AtEnd,
    method: Method,
    partial: &Partial,
    sink: &mut impl Sink,
) -> (Verdict, Stressed) {
    let found = stressed(weld, acting, partial);
    if sink.writes() {
        written::fillet(weld, acting, method, partial, &found, sink);
    }
    let verdict = match method {
        Method::Simplified => Verdict::of(found.used[1], "EN 1993-1-8 4.5.3.3: fillet weld, simplified method"),
        Method::Directional if found.across_governs() => {
            Verdict::of(found.used[0], "EN 1993-1-8 4.5.3.2: fillet weld, stress across the throat")
        }
        Method::Directional => Verdict::of(found.used[0], "EN 1993-1-8 4.5.3.2: fillet weld, directional method"),
    };
    (verdict, found)
}

#[cfg(test)]
mod tests;
