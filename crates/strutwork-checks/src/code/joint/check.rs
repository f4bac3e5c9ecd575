//! The check of one brace of a joint: forces and moments together against what the joint bears.

use super::written::write_out;
use super::{Acting, Axial, Bending, Brace, Chord, Kind, Mode, Outline, axial, bending};
use crate::calculation::Sink;

/// How the brace's force is balanced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance<'a> {
    /// Each way with its share of the force; the shares add up to 1.
    pub ways: &'a [(f64, Kind)],
    /// Whether a brace stands on the chord's other side: then moments are held against the table's X joint, else against its
    /// T joint.
    pub across: bool,
}

/// What the check says of one brace.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// Of the joint: above 1 it bears less than what acts. Infinite where it bears nothing.
    pub utilisation: f64,
    /// Parts of it: axial force, moment in the plane, moment out of it, as they add up.
    pub parts: [f64; 3],
    /// N_1,Rd, N: what the joint bears of axial force alone, balanced as it is.
    pub axial_resistance: f64,
    /// M_ip,Rd and M_op,Rd, N·m.
    pub moment_resistances: [f64; 2],
    /// N_1,Rd over A₁ f_y1: how much of the brace's own strength the joint lets through.
    pub efficiency: f64,
    /// The mode that limits the axial force, in the way that uses up most.
    pub mode: Mode,
    /// The way that the greatest share of the force takes.
    pub main: Kind,
    /// n: compression in the chord over its yield strength, margin included.
    pub stress_ratio: f64,
    /// What acts, margin included: N in magnitude, M_ip, M_op.
    pub design: [f64; 3],
}

/// A way with what it bears, for the check and for its page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Borne {
    pub(super) share: f64,
    pub(super) kind: Kind,
    pub(super) axial: Axial,
    /// N_Rd of this way, N.
    pub(super) resistance: f64,
    /// Chord in the gap: V_Ed, V_Rd, N_0,Rd, N, and its utilisation; `None` where the table does not ask for it.
    pub(super) gap: Option<[f64; 4]>,
}

/// All that the check computes, for its page.
pub(super) struct Computed<'a> {
    pub(super) chord: Chord,
    pub(super) brace: Brace,
    pub(super) acting: &'a Acting,
    pub(super) across: bool,
    pub(super) gamma: f64,
    pub(super) ways: &'a [Borne],
    pub(super) bending: Bending,
    /// Punching of a rectangular brace through a round chord by all stresses together.
    pub(super) punched: Option<f64>,
    pub(super) outcome: Outcome,
}

/// The brace's force and moments against the resistance of the joint.
///
/// ```text
/// rectangular chord: Σ s N/N_Rd + M_ip/M_ip,Rd + M_op/M_op,Rd      round: Σ s N/N_Rd + (M_ip/M_ip,Rd)² + M_op/M_op,Rd
/// chord in a gap, where the table asks for it: N_0/N_0,Rd,  N_0,Rd = ((A₀ − A_v) + A_v √(1 − (V/V_Rd)²)) f_y0/γ_M5
/// rectangular brace on a round chord: (N/A₁ + M_ip/W_ip + M_op/W_op) t₁ √3 γ_M5/(t₀ f_y0)
/// ```
///
/// The greatest of these is the utilisation. `stress_ratio` of `chord` and `compressed` of `brace` are taken from what acts.
///
/// # Units and shapes
/// SI; `gamma` is γ_M5.
///
/// # Signs and order
/// More force, more moment, or more compression of the chord never lowers it while the shares stand.
///
/// # Assumes
/// Shear and torsion of the brace are left out, as in the tables.
///
/// # Source
/// EN 1993-1-8:2005 7.4.2(2), 7.5.2.1(6), Tables 7.3 and 7.12 (from memory); the sum over ways: see [`super::shares()`].
pub fn check(
    chord: &Chord,
    brace: &Brace,
    balance: Balance<'_>,
    acting: &Acting,
    gamma: f64,
    sink: &mut impl Sink,
) -> Outcome {
    let chord = Chord { stress_ratio: acting.stress_ratio(chord), ..*chord };
    let brace = Brace { compressed: acting.axial < 0.0, ..*brace };
    let force = acting.margin * acting.axial.abs();
    let moments = acting.moments.map(|moment| acting.margin * moment.abs());
    let borne: Vec<Borne> =
        balance.ways.iter().map(|&(share, kind)| bear(&chord, &brace, share, kind, force, acting, gamma)).collect();
    let bent = bending(&chord, &brace, balance.across);
    let [in_plane, out_of_plane] = bent.governing().map(|(_, value)| value / gamma);
    let square = if chord.outline.is_round() { over(moments[0], in_plane).powi(2) } else { over(moments[0], in_plane) };
    let axial_part = borne.iter().map(|way| over(way.share * force, way.resistance)).sum();
    let parts = [axial_part, square, over(moments[1], out_of_plane)];
    let punched = punched(&chord, &brace, [force, moments[0], moments[1]], gamma);
    let gaps = borne.iter().filter_map(|way| way.gap.map(|[.., used]| used));
    let utilisation = gaps.chain(punched).fold(parts.iter().sum(), f64::max);
    let resistance = 1.0 / borne.iter().map(|way| over(way.share, way.resistance)).sum::<f64>();
    let outcome = Outcome {
        utilisation,
        parts,
        axial_resistance: resistance,
        moment_resistances: [in_plane, out_of_plane],
        efficiency: resistance / brace.squash(),
        mode: first_greatest(&borne, |way| way.share / way.resistance)
            .map_or(Mode::ChordFace, |w| w.axial.governing().0),
        main: first_greatest(&borne, |way| way.share).map_or(Kind::Y, |way| way.kind),
        stress_ratio: chord.stress_ratio,
        design: [force, moments[0], moments[1]],
    };
    if sink.writes() {
        let ways = &borne;
        let across = balance.across;
        write_out(&Computed { chord, brace, acting, across, gamma, ways, bending: bent, punched, outcome }, sink);
    }
    outcome
}

fn bear(chord: &Chord, brace: &Brace, share: f64, kind: Kind, force: f64, acting: &Acting, gamma: f64) -> Borne {
    let axial = axial(chord, brace, kind);
    let resistance = axial.governing().1 / gamma;
    let gap = (matches!(kind, Kind::Gap { .. }) && axial.shear_area > 0.0).then(|| {
        let shear = share * force * brace.angle.sin();
        let area = axial.shear_area.min(chord.area);
        let shear_resistance = chord.yield_stress * area / (3.0_f64.sqrt() * gamma);
        let left = (1.0 - (shear / shear_resistance).min(1.0).powi(2)).sqrt();
        let axial_resistance = ((chord.area - area) + area * left) * chord.yield_stress / gamma;
        let used = over(acting.margin * acting.chord_axial, axial_resistance);
        [shear, shear_resistance, axial_resistance, used]
    });
    Borne { share, kind, axial, resistance, gap }
}

/// σ_max t₁ ≤ t₀ f_y0/√3 of a rectangular brace on a round chord, Table 7.3; `None` elsewhere.
fn punched(chord: &Chord, brace: &Brace, [force, in_plane, out_of_plane]: [f64; 3], gamma: f64) -> Option<f64> {
    let flat_on_round = chord.outline.is_round() && matches!(brace.outline, Outline::Rectangular { .. });
    let stress = force / brace.area + in_plane / brace.elastic[0] + out_of_plane / brace.elastic[1];
    flat_on_round.then(|| stress * brace.wall * 3.0_f64.sqrt() * gamma / (chord.wall * chord.yield_stress))
}

/// The way for which a number is greatest; the first of equals.
fn first_greatest(ways: &[Borne], of: impl Fn(&Borne) -> f64) -> Option<&Borne> {
    ways.iter().reduce(|best, way| if of(way) > of(best) { way } else { best })
}

/// A force over a resistance; nothing over nothing is nothing.
fn over(force: f64, resistance: f64) -> f64 {
    if force <= 0.0 { 0.0 } else { force / resistance.max(0.0) }
}
