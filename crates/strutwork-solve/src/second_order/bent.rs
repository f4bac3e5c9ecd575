//! All tubes of a frame as their axial forces bend them.

use rayon::prelude::*;
use strutwork_element::beam::{Chain, Division, LoadedChain, SpanLoad};
use strutwork_element::{Mat12, Vec12};
use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, JointId, Model, TubeId};

use crate::assembly::{Pattern, SpanLoads, System};
use crate::elements::{Element, Elements};
use crate::numbering::Numbering;
use crate::quantity::Quantity;
use crate::recover::{joint_values, stations};
use crate::results::{Station, TubeResult};

/// Every tube under its axial force, in pieces.
pub(crate) struct Bent<'e> {
    elements: &'e Elements,
    chains: Vec<LoadedChain>,
}

impl<'e> Bent<'e> {
    /// Tubes whose axial force at the `from` end is the first of `starts`, N, tension positive, which are divided as if it were
    /// the second, and which are loaded so.
    pub(super) fn of(elements: &'e Elements, spans: &SpanLoads, starts: &[[f64; 2]], division: Division) -> Self {
        let chain = |(place, [start, divided_for]): (usize, &[f64; 2])| {
            let element = &elements.tubes()[place];
            Chain::of_tube(element.beam, element.ends(), *start, *divided_for, spans.on(TubeId::new(place)), division)
        };
        let chains = starts.par_iter().enumerate().with_min_len(16).map(chain).collect();
        Self { elements, chains }
    }

    /// Ways in which tubes would have bowed out between held joints.
    pub(super) fn bowed(&self) -> usize {
        self.chains.iter().map(LoadedChain::bowed).sum()
    }

    /// What the axial forces add to the stiffness.
    pub(super) fn added(&self, numbering: &Numbering, pattern: &Pattern) -> System {
        System::of_tubes(self.elements, numbering, pattern, |place, element| {
            element.axes.mat_to_global(&(self.chains[place].stiffness() - element.stiffness()))
        })
    }

    /// Stiffness of one tube over its joints, global axes.
    pub(super) fn stiffness(&self, place: usize, element: &Element) -> Mat12 {
        element.axes.mat_to_global(&self.chains[place].stiffness())
    }

    /// What acts on every node, directly and through the tubes: N, N·m, global axes.
    pub(super) fn node_loads(&self, direct: &[[f64; 6]], spans: &SpanLoads) -> Vec<[f64; 6]> {
        let mut nodes = direct.to_vec();
        for (place, chain) in
            self.chains.iter().enumerate().filter(|(place, _)| !spans.on(TubeId::new(*place)).is_empty())
        {
            let element = &self.elements.tubes()[place];
            let passed = element.axes.vec_to_global(&chain.joint_loads());
            for (end, joint) in element.joints.into_iter().enumerate() {
                nodes[joint].iter_mut().zip(&passed.as_slice()[6 * end..]).for_each(|(sum, part)| *sum += part);
            }
        }
        nodes
    }

    /// The axial force at the `from` end of every tube, N, from the joints' movements.
    pub(super) fn starts(&self, joints: &IndexVec<JointId, [f64; 6]>) -> Vec<f64> {
        self.own(joints).map(|(_, _, (_, forces))| -forces[0]).collect()
    }

    /// Forces that the joints exert on a tube, global axes, from their movements.
    pub(crate) fn joint_forces(&self, tube: TubeId, joints: &Vec12) -> Vec12 {
        let axes = &self.elements.get(tube).axes;
        axes.vec_to_global(&self.chains[tube.index()].joint_forces(&axes.vec_to_local(joints)))
    }

    /// The couples that axial forces make on bent tubes, summed: N·m, global axes.
    pub(crate) fn couples(&self, joints: &IndexVec<JointId, [f64; 6]>) -> [f64; 3] {
        let mut sum = [0.0; 3];
        for (element, chain, (own, _)) in self.own(joints) {
            let local = nalgebra::Vector3::from(chain.couple(&own));
            let global = element.axes.rotation.tr_mul(&local);
            sum.iter_mut().zip(global.iter()).for_each(|(sum, part)| *sum += part);
        }
        sum
    }

    /// Every tube's stations.
    pub(crate) fn recover(&self, model: &Model, joints: &IndexVec<JointId, [f64; 6]>) -> IndexVec<TubeId, TubeResult> {
        let tubes = model.tubes().iter().zip(self.own(joints));
        tubes
            .map(|(tube, (element, chain, (own, forces)))| {
                let along = chain.along(&own, &forces);
                let stations = thinned(stations(&along, element, &model.sections()[tube.section]));
                TubeResult { stations, end_displacements: own.into(), pieces: along.pieces().to_vec() }
            })
            .collect()
    }

    /// The greatest number of pieces of a tube, and the greatest (kℓ)⁴/720 of a piece.
    pub(super) fn fineness(&self) -> (usize, f64) {
        let each = self.chains.iter().map(|chain| (chain.cuts().len(), chain.piece_error()));
        each.fold((0, 0.0), |(pieces, error): (usize, f64), (p, e)| (pieces.max(p), error.max(e)))
    }

    /// Every tube with the movement of its own ends and the forces on them, local axes.
    fn own<'s>(
        &'s self,
        joints: &'s IndexVec<JointId, [f64; 6]>,
    ) -> impl Iterator<Item = (&'s Element, &'s LoadedChain, (Vec12, Vec12))> {
        self.elements.tubes().iter().zip(&self.chains).map(|(element, chain)| {
            let [from, to] = element.joints.map(|joint| &joints[JointId::new(joint)]);
            (element, chain, chain.own_ends(&element.axes.vec_to_local(&joint_values(from, to))))
        })
    }
}

/// The axial force at the `from` end of every tube in first order, N, from its joints' movements.
pub(super) fn first_starts(elements: &Elements, spans: &SpanLoads, joints: &IndexVec<JointId, [f64; 6]>) -> Vec<f64> {
    let each = elements.tubes().iter().enumerate().map(|(place, element)| {
        let [from, to] = element.joints.map(|joint| &joints[JointId::new(joint)]);
        let loads: &[SpanLoad] = spans.on(TubeId::new(place));
        let (_, forces) = element.own_ends(&joint_values(from, to), &crate::assembly::end_loads(element, loads));
        -forces[0]
    });
    each.collect()
}

/// Stations between pieces that are kept whatever they hold, about: enough to draw the bow.
const DRAWN: usize = 8;
/// A value that is an extreme by less than this share of the greatest is none.
const ROUNDING: f64 = 1e-9;

/// Without the places where pieces merely meet: what stays are the ends, the middle, both sides of point loads, extremes, and
/// some between.
fn thinned(stations: Vec<Station>) -> Vec<Station> {
    let step = stations.len().div_ceil(DRAWN);
    if step < 2 {
        return stations;
    }
    let greatest = Quantity::ALL.map(|quantity| {
        stations.iter().filter_map(|station| quantity.at(station)).fold(0.0_f64, |most, value| most.max(value.abs()))
    });
    let is_kept = |place: usize| {
        let Some([before, here, after]) = place.checked_sub(1).and_then(|from| stations.get(from..from + 3)) else {
            return true;
        };
        let is_extreme = |(quantity, greatest): (Quantity, f64)| {
            let at = |station: &Station| quantity.at(station).unwrap_or(0.0);
            let [up, down] = [at(here) - at(before), at(here) - at(after)];
            up * down > 0.0 && up.abs().max(down.abs()) > ROUNDING * greatest
        };
        place.is_multiple_of(step)
            || here.at == 0.5
            || here.at == before.at
            || here.at == after.at
            || Quantity::ALL.into_iter().zip(greatest).any(is_extreme)
    };
    let kept: Vec<bool> = (0..stations.len()).map(is_kept).collect();
    stations.into_iter().zip(kept).filter_map(|(station, kept)| kept.then_some(station)).collect()
}
