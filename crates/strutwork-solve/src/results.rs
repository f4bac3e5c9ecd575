//! What a solution says, in the model's own ids and SI units.

use strutwork_element::beam::Piece;
use strutwork_model::model::{Model, Point};
use strutwork_model::{BodyId, Dof, IndexVec, JointId, MountId, PanelId, TubeId};

use crate::counters::Counters;
use crate::error::SolveError;
use crate::second_order::{Pass, SecondOrder};

/// Results of all cases of a run.
#[derive(Debug, Clone, PartialEq)]
pub struct Results {
    /// In the order of the load cases.
    pub cases: Vec<CaseResult>,
    /// One for each distinct set of supports, in order of first use.
    pub systems: Vec<SystemTrust>,
    /// Work done.
    pub counters: Counters,
    /// Load cases that have no result, in order: in second order those that buckle or do not become steady. None in first order.
    pub refused: Vec<Refused>,
}

/// A load case that has no result.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// The case.
    pub case: String,
    /// Why.
    pub error: SolveError,
    /// What each pass changed, up to the last.
    pub passes: Vec<Pass>,
}

impl Results {
    /// Whether its cases are in balance on the frame as it bends.
    pub fn is_second_order(&self) -> bool {
        !self.refused.is_empty() || self.cases.iter().any(|case| case.second_order.is_some())
    }
}

/// Results of one case.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseResult {
    /// The case's name.
    pub name: String,
    /// ux, uy, uz in m; rx, ry, rz in rad; global axes.
    pub displacements: IndexVec<JointId, [f64; 6]>,
    /// Forces that the supports exert on the frame at each held joint, in support order: N, N·m, global axes.
    pub reactions: Vec<(JointId, [f64; 6])>,
    /// Movement of each body's reference point: ux, uy, uz in m; rx, ry, rz in rad; global axes.
    pub bodies: IndexVec<BodyId, [f64; 6]>,
    /// Loads of each mount.
    pub mounts: IndexVec<MountId, MountResult>,
    /// Shear of each panel.
    pub panels: IndexVec<PanelId, PanelResult>,
    /// How a free case was held inside, and what was left there; `None` for a held case.
    pub relief: Option<Relief>,
    /// Forces and stresses along each tube.
    pub tubes: IndexVec<TubeId, TubeResult>,
    /// What was read off the solution, in the order of the case's measures.
    pub measures: Vec<MeasureResult>,
    /// How far the numbers can be trusted.
    pub trust: CaseTrust,
    /// Which of [`Results::systems`] it was solved with.
    pub system: usize,
    /// How it came to be in balance on the frame as it bends; `None` in first order, on the frame as drawn.
    pub second_order: Option<Box<SecondOrder>>,
}

/// What one bolted joint of a body carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MountResult {
    /// What the body exerts on the frame through the bolt, at the joint: N, N·m, global axes.
    pub on_frame: [f64; 6],
    /// Force along the bolt's axis, N, positive along it: which sense parts the joint depends on the bolt's head. `None`
    /// where no axis is given.
    pub axial: Option<f64>,
    /// Force across the bolt, N; `None` where no axis is given.
    pub shear: Option<f64>,
    /// Magnitude of the moment, N·m.
    pub moment: f64,
}

/// What one panel carries.
#[derive(Debug, Clone, PartialEq)]
pub struct PanelResult {
    /// Mean shear flow along each edge, N/m, in the order of the edges (corner 1 to 2, 2 to 3, …); positive: the frame drags
    /// the edges towards corners 1 and 3, so that the angle at corner 1 closes. For a triangle the flow of the greatest shear
    /// on every edge.
    pub edge_flows: Vec<f64>,
    /// Shear flow that the panel is judged by, N/m, ≥ 0: the greatest of the edges'.
    pub flow: f64,
    /// `flow` over the thickness, Pa.
    pub stress: f64,
    /// Shear stress at which a flat panel with simply supported edges buckles, Pa.
    pub buckling_stress: f64,
    /// `stress` over `buckling_stress`: above 1 the linear answer no longer holds.
    pub buckling_ratio: f64,
    /// Load of one fastener, N; `None` where the panel is not fixed by fasteners.
    pub fastener: Option<f64>,
    /// Shear stress in the bond line, Pa; `None` where the panel is not bonded.
    pub bond_stress: Option<f64>,
}

/// How a free case was held while it was solved: by six freedoms that determine its place and strain nothing.
#[derive(Debug, Clone, PartialEq)]
pub struct Relief {
    /// The freedoms that were held.
    pub held: Vec<(JointId, Dof)>,
    /// Greatest reaction at them over the loads' size: rounding alone, as the case is balanced.
    pub left_over: f64,
}

/// Forces and stresses along one tube.
#[derive(Debug, Clone, PartialEq)]
pub struct TubeResult {
    /// Both ends, and enough places between to hold every extreme; a place where a point load acts appears twice.
    pub stations: Vec<Station>,
    /// Displacements of the tube's own two ends in local axes (an end release moves apart from its joint): m, rad.
    pub end_displacements: [f64; 12],
    /// Second order: the section forces, piece by piece. Empty in first order, where they follow from the displacements.
    pub pieces: Vec<Piece>,
}

/// A place along a tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// 0 at `from`, 1 at `to`.
    pub at: f64,
    /// What the part on the `to` side exerts on the part on the `from` side.
    pub forces: SectionForces,
    /// `None` for a section given by its properties alone.
    pub stress: Option<Stress>,
    /// Displacement of the axis in local axes, m, cubic plus the load's own part; for pictures.
    pub displacement: [f64; 3],
}

/// Section forces, local axes: N, N·m.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SectionForces {
    /// Axial, tension positive.
    pub n: f64,
    /// Shear along +y.
    pub vy: f64,
    /// Shear along +z.
    pub vz: f64,
    /// Torque about +x.
    pub t: f64,
    /// Moment about +y.
    pub my: f64,
    /// Moment about +z.
    pub mz: f64,
}

/// Stresses at a station, Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stress {
    /// N/A, tension positive.
    pub axial: f64,
    /// |My|/Wel,y, or the greater of both planes together for a round section.
    pub bending_y: f64,
    /// |Mz|/Wel,z; 0 for a round section, whose bending stands in `bending_y`.
    pub bending_z: f64,
    /// Normal stress of the greatest magnitude over the fibres, with its sign.
    pub sigma_max: f64,
    /// Shear from torsion, |T|/Wt.
    pub torsion: f64,
    /// Shear from the shear forces, the greater of |Vy|/Ay and |Vz|/Az (round: of their resultant).
    pub shear: f64,
    /// `torsion` + `shear`.
    pub tau_max: f64,
    /// √(σ² + 3τ²) of `sigma_max` and `tau_max`: an upper bound, as the two need not meet in one point.
    pub von_mises: f64,
}

/// What a [`Measure`](strutwork_loads::case::Measure) gave.
#[derive(Debug, Clone, PartialEq)]
pub enum MeasureResult {
    /// Torsional stiffness.
    Twist {
        /// N·m.
        couple: f64,
        /// Turn of the front station about x less that of the rear, rad.
        twist: f64,
        /// |couple / twist|, N·m/rad.
        stiffness: f64,
        /// Twist along the length, from rear to front.
        profile: Vec<TwistStation>,
    },
    /// Movement of one joint, m and rad, global axes.
    Movement {
        /// The joint.
        joint: JointId,
        /// ux … rz.
        movement: [f64; 6],
    },
}

/// The turn of a left and right pair of places about x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwistStation {
    /// m.
    pub x: f64,
    /// Left place.
    pub left: Point,
    /// Right place.
    pub right: Point,
    /// atan((uz left − uz right) / distance along y), less the rear station's: rad.
    pub twist: f64,
}

/// How far one case's numbers can be trusted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CaseTrust {
    /// ‖f − K u‖∞ / (‖K‖∞‖u‖∞ + ‖f‖∞) after refinement.
    pub residual: f64,
    /// Refinement steps taken.
    pub refinements: u32,
    /// Everything applied, reduced to the origin: N, N·m.
    pub applied: [f64; 6],
    /// All reactions, reduced to the origin: N, N·m.
    pub reacted: [f64; 6],
    /// Greatest of |applied + reacted|, moments over the sum of moment magnitudes (forces times the frame's reach among
    /// them), forces over the same sum divided by that reach.
    /// Where only settlements and temperatures act, the sums are those of the tubes' end forces before they cancel.
    pub imbalance: f64,
    /// Second order: the couples that the axial forces make on the bent tubes, summed, N·m; 0 in first order. Applied loads and
    /// reactions, both where they stood before the frame moved, are out of balance by the opposite.
    pub couples: [f64; 3],
    /// ½ uᵀf, J.
    pub energy: f64,
}

/// What is known of one factored system.
#[derive(Debug, Clone, PartialEq)]
pub struct SystemTrust {
    /// Free equations.
    pub equations: usize,
    /// Estimate of the 1-norm condition number of the diagonally scaled stiffness.
    pub condition: f64,
    /// Smallest pivot over its diagonal entry.
    pub smallest_pivot: f64,
    /// Freedoms that nothing stiffens and nothing loads, left out: joint and the direction of the freedom.
    pub left_out: Vec<LeftOut>,
    /// Bodies whose bolted joints are held at more freedoms than determine the body: the reactions there are those of the
    /// least sum of squares, one choice of many.
    pub over_held: Vec<BodyId>,
}

/// A freedom that nothing stiffens and nothing loads.
#[derive(Debug, Clone, PartialEq)]
pub struct LeftOut {
    /// The joint.
    pub joint: JointId,
    /// Its largest component.
    pub dof: Dof,
    /// Unit direction in the six freedoms (a skew truss joint's is not along an axis).
    pub direction: [f64; 6],
}

/// Pairs at one x, within this, m, belong to one station.
const ONE_STATION: f64 = 1e-3;

/// Of the pairs at each x of a profile the measured one, or else the one whose joints lie farthest apart along y.
pub fn main_stations(model: &Model, measured: [[Point; 2]; 2], profile: &[TwistStation]) -> Vec<TwistStation> {
    let y = |point: Point| point.at(model)[1];
    let weight = |station: &TwistStation| {
        if measured.contains(&[station.left, station.right]) {
            return f64::INFINITY;
        }
        (y(station.left) - y(station.right)).abs()
    };
    let mut main: Vec<TwistStation> = Vec::new();
    for station in profile {
        match main.last_mut() {
            Some(last) if (last.x - station.x).abs() <= ONE_STATION => {
                if weight(station) > weight(last) {
                    *last = *station;
                }
            }
            _ => main.push(*station),
        }
    }
    main
}
