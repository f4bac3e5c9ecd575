//! How tubes bow off the curve that the view draws from the movement of their joints alone: under loads between their ends,
//! and in shapes of tubes that are divided.

use nalgebra::Vector3;
use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, JointId, Model, TubeId};
use strutwork_solve::CaseResult;
use strutwork_solve::modes::BentPiece;

use crate::figures::{deformed, shape};

use super::is_hinged;
use super::told::Packed;

/// A bow below this share of the largest movement is not seen beside it.
const LEAST: f64 = 1.0 / 60.0;
/// Tubes told of a case or a shape, those that bow most: a bound on the size of the page.
const MOST: usize = 300;
/// Where a tube is looked at.
const PLACES: [f64; 3] = [0.25, 0.5, 0.75];
/// 16 s² (1 − s)² at a quarter.
const AT_QUARTER: f64 = 0.5625;

/// The tubes that bow, and the largest movement of all, m.
pub(super) struct Bows {
    /// For each tube its place, and two vectors m and d, mm: it bows by 16 s² (1 − s)² (m + d (s − ½)).
    pub(super) told: Packed,
    /// The largest movement between the ends of tubes, m.
    pub(super) most: f64,
}

/// Movement of a tube at [`PLACES`], m, global axes.
type Places = [Vector3<f64>; 3];

impl Bows {
    /// Of a load case; `most` is the largest movement of joints, m.
    pub(super) fn of_case(model: &Model, result: &CaseResult, most: f64) -> Self {
        let all = result.tubes.iter_with_id().filter_map(|(id, tube)| {
            let [from, to] = model.tube_ends(id).map(Vector3::from);
            let points = deformed::axis_points(model, id, tube, 4, 1.0);
            let at = |place: usize| {
                let straight = from + (to - from) * PLACES[place];
                Some(Vector3::from(*points.get(place + 1)?) - straight)
            };
            Some((id, [at(0)?, at(1)?, at(2)?]))
        });
        Self::of(model, &result.displacements, most, all)
    }

    /// Of a shape of a divided frame, whose pieces stand tube by tube.
    pub(super) fn of_shape(
        model: &Model,
        joints: &IndexVec<JointId, [f64; 6]>,
        pieces: &[BentPiece],
        most: f64,
    ) -> Self {
        let all = pieces.chunk_by(|a, b| a.tube == b.tube).map(|tube| {
            let at = |s: f64| {
                let piece = tube.iter().find(|piece| s <= piece.along[1]).unwrap_or(&tube[tube.len() - 1]);
                let share = piece.along[1] - piece.along[0];
                Vector3::from(shape::curve_at(piece, (s - piece.along[0]) / share))
            };
            (tube[0].tube, PLACES.map(at))
        });
        Self::of(model, joints, most, all)
    }

    fn of(
        model: &Model,
        joints: &IndexVec<JointId, [f64; 6]>,
        most: f64,
        all: impl Iterator<Item = (TubeId, Places)>,
    ) -> Self {
        let all: Vec<(TubeId, Places)> = all.collect();
        let most = all.iter().flat_map(|(_, places)| places).map(Vector3::norm).fold(most, f64::max);
        let bow = |(tube, places): &(TubeId, Places)| {
            let off: Places = std::array::from_fn(|at| places[at] - drawn(model, joints, *tube, PLACES[at]));
            let size = off.iter().map(Vector3::norm).fold(0.0, f64::max);
            (size > LEAST * most).then(|| (size, *tube, off[1], (off[2] - off[0]) * (2.0 / AT_QUARTER)))
        };
        let mut bows: Vec<_> = all.iter().filter_map(bow).collect();
        bows.sort_by(|a, b| b.0.total_cmp(&a.0));
        bows.truncate(MOST);
        let told = bows.iter().flat_map(|(_, tube, middle, lean)| {
            let millimetres = middle.iter().chain(lean).map(|metres| metres * 1000.0);
            std::iter::once(tube.index() as f64).chain(millimetres).collect::<Vec<f64>>()
        });
        Self { told: told.collect(), most }
    }
}

/// The movement that the view draws of a tube from that of its joints: `alongTube` of its program.
fn drawn(model: &Model, joints: &IndexVec<JointId, [f64; 6]>, id: TubeId, s: f64) -> Vector3<f64> {
    let tube = &model.tubes()[id];
    let ends = model.tube_ends(id).map(Vector3::from);
    let along = ends[1] - ends[0];
    let (length, ex) = (along.norm(), along.normalize());
    let joint = |end: usize| if end == 0 { tube.from } else { tube.to };
    let turn = |end: usize| Vector3::from_column_slice(&joints[joint(end)][3..]);
    let moved = [0, 1].map(|end| {
        let arm = ends[end] - Vector3::from(model.joints()[joint(end)].at);
        Vector3::from_column_slice(&joints[joint(end)][..3]) + turn(end).cross(&arm)
    });
    let chord = (moved[1] - moved[0]) / length;
    let hinged = [&tube.release_from, &tube.release_to].map(is_hinged);
    let slope = |end: usize| if hinged[end] { chord - ex * chord.dot(&ex) } else { turn(end).cross(&ex) };
    let t = 1.0 - s;
    let cubic =
        moved[0] * (t * t * (1.0 + 2.0 * s)) + moved[1] * (s * s * (3.0 - 2.0 * s)) + slope(0) * (length * s * t * t)
            - slope(1) * (length * s * s * t);
    let even = moved[0].dot(&ex) * t + moved[1].dot(&ex) * s - cubic.dot(&ex);
    cubic + ex * even
}
