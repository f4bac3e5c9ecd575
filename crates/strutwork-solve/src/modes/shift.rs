//! What the driver does to the frequencies: modes without and with what is there only while driven, paired by shape.

use strutwork_loads::CarriedInertia;
use strutwork_loads::masses::PieceOf;
use strutwork_model::Model;
use strutwork_model::model::Support;

use super::ready::{Found, ready};
use super::{ModeWork, Modes, ModesWanted};
use crate::eigen::dot;
use crate::error::SolveError;

/// Modes of the empty frame that are found beyond those of the driven one: partners may stand in another order.
const BEYOND: usize = 8;
/// Shape in common below which two modes are not called the same: no other can have more in common with either (common
/// practice, no source).
const SAME: f64 = 0.5;
/// Modes of the empty frame whose frequencies differ by less than this share count as equal: any mixture of them is a mode.
const EQUAL: f64 = 1e-6;

/// The modes of a frame without what is there only while driven, against those with it.
#[derive(Debug, Clone, PartialEq)]
pub struct FrequencyShift {
    /// What gets in, kg.
    pub mass: f64,
    /// The modes without it; a few more than were wanted, as partners.
    pub empty: Modes,
    /// The wanted modes with it in order, each beside its partner; then the wanted ones without it that have none.
    pub pairs: Vec<ShiftedMode>,
    /// What both together took: one factorisation serves both.
    pub work: ModeWork,
}

/// A mode without and with what gets in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShiftedMode {
    /// Its place among the modes of the empty frame; `None` where none has half of its shape.
    pub empty: Option<usize>,
    /// Its place among the modes of the driven frame; likewise.
    pub driven: Option<usize>,
    /// What the two shapes have in common, 0 to 1, weighed by the mass of the empty frame; without a partner the most that
    /// any has.
    pub alike: f64,
}

impl FrequencyShift {
    /// Both frequencies of a pair, Hz, and driven over empty less 1; `None` where it has no partner. `driven` are the modes
    /// that came with this shift.
    pub fn shift(&self, pair: &ShiftedMode, driven: &Modes) -> Option<[f64; 3]> {
        let [empty, driven] = [(pair.empty, &self.empty), (pair.driven, driven)]
            .map(|(place, modes)| Some(modes.modes.get(place?)?.frequency));
        let (empty, driven) = (empty?, driven?);
        Some([empty, driven, driven / empty - 1.0])
    }
}

/// The lowest natural modes with everything aboard, and how they differ from those without what `when` in masses.csv calls
/// driven; `None` where nothing is called so.
///
/// ```text
/// MAC = (φₑᵀ Mₑ φ_d)² / (φₑᵀ Mₑ φₑ  φ_dᵀ Mₑ φ_d),    summed over modes of the empty frame that have one frequency
/// ```
///
/// The stiffness is the same and is factored once.
///
/// # Errors
/// As [`super::natural_modes`].
///
/// # Source
/// Modal assurance criterion: Allemang & Brown (1982), A correlation coefficient for modal vector analysis, Proc. 1st IMAC,
/// p. 110 (from memory); weighed by mass: common practice, no source.
pub fn frequency_shift(
    model: &Model,
    supports: &[Support],
    carried: &[CarriedInertia],
    wanted: ModesWanted,
) -> Result<Option<(Modes, FrequencyShift)>, SolveError> {
    let gets_in = |thing: &CarriedInertia| matches!(thing.of, PieceOf::Mass(place) if model.masses()[place].driven);
    let stays: Vec<CarriedInertia> = carried.iter().filter(|thing| !gets_in(thing)).cloned().collect();
    if stays.len() == carried.len() {
        return Ok(None);
    }
    let mass = carried.iter().filter(|thing| gets_in(thing)).map(|thing| thing.matrix[(0, 0)]).sum();
    ready(model, supports, None, wanted.pieces, |frame| {
        let driven = frame.modes(carried, wanted.count, wanted.mass)?;
        let empty = frame.modes(&stays, wanted.count + BEYOND, wanted.mass)?;
        let pairs = paired(&in_common(&empty, &driven), &equal(&empty.modes), wanted.count);
        Ok(Some((driven.modes, FrequencyShift { mass, empty: empty.modes, pairs, work: frame.work() })))
    })
}

/// For each driven mode what it has in common with each of the empty frame.
fn in_common(empty: &Found, driven: &Found) -> Vec<Vec<f64>> {
    let of_driven = |vector: &[f64]| {
        let weighed = empty.masses.multiply(vector);
        let own = dot(vector, &weighed);
        // Those of the empty frame have weight 1.
        empty.pairs.iter().map(|pair| dot(&pair.vector, &weighed).powi(2) / own).collect()
    };
    driven.pairs.iter().map(|pair| of_driven(&pair.vector)).collect()
}

/// For each mode the first of those of its frequency.
fn equal(modes: &Modes) -> Vec<usize> {
    let mut first = Vec::new();
    for (place, mode) in modes.modes.iter().enumerate() {
        let before = place.checked_sub(1);
        let same = before.filter(|before| mode.frequency <= modes.modes[*before].frequency * (1.0 + EQUAL));
        first.push(same.map_or(place, |before| first[before]));
    }
    first
}

/// Pairs of most in common first, then in order of the driven modes.
fn paired(common: &[Vec<f64>], first: &[usize], wanted: usize) -> Vec<ShiftedMode> {
    let mut offers: Vec<(f64, usize, usize)> = Vec::new();
    let mut most = vec![0.0_f64; common.len()];
    for (driven, row) in common.iter().enumerate() {
        for head in (0..first.len()).filter(|place| first[*place] == *place) {
            let alike = (0..first.len()).filter(|place| first[*place] == head).map(|place| row[place]).sum::<f64>();
            most[driven] = most[driven].max(alike);
            if alike >= SAME {
                offers.push((alike, driven, head));
            }
        }
    }
    // Stable: of equal offers the lower mode has the first choice.
    offers.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut partner = vec![None; common.len()];
    let mut taken = vec![false; first.len()];
    for (alike, driven, head) in offers {
        let open = (head..first.len()).take_while(|place| first[*place] == head).find(|place| !taken[*place]);
        if let (None, Some(place)) = (partner[driven], open) {
            partner[driven] = Some((place, alike));
            taken[place] = true;
        }
    }
    let mut pairs: Vec<ShiftedMode> = partner
        .iter()
        .enumerate()
        .map(|(driven, found)| ShiftedMode {
            empty: found.map(|(place, _)| place),
            driven: Some(driven),
            alike: found.map_or(most[driven], |(_, alike)| alike),
        })
        .collect();
    pairs.extend((0..first.len().min(wanted)).filter(|place| !taken[*place]).map(|place| ShiftedMode {
        empty: Some(place),
        driven: None,
        alike: common.iter().map(|row| row[place]).fold(0.0, f64::max),
    }));
    pairs
}

#[cfg(test)]
mod tests {
    use super::paired;

    fn places(common: &[Vec<f64>], first: &[usize], wanted: usize) -> Vec<(Option<usize>, Option<usize>)> {
        paired(common, first, wanted).iter().map(|pair| (pair.empty, pair.driven)).collect()
    }

    #[test]
    fn modes_that_change_places_are_found_again() {
        let common = vec![vec![0.1, 0.85, 0.0], vec![0.88, 0.1, 0.0], vec![0.0, 0.0, 0.9]];
        let pairs = places(&common, &[0, 1, 2], 3);
        assert_eq!(pairs, [(Some(1), Some(0)), (Some(0), Some(1)), (Some(2), Some(2))]);
    }

    #[test]
    fn what_is_no_ones_shape_has_no_partner() {
        let common = vec![vec![0.9, 0.0], vec![0.4, 0.45]];
        let pairs = places(&common, &[0, 1], 2);
        assert_eq!(pairs, [(Some(0), Some(0)), (None, Some(1)), (Some(1), None)]);
    }

    /// Two modes of one frequency in any mixture: what counts is the plane that they span.
    #[test]
    fn modes_of_one_frequency_are_taken_together() {
        let common = vec![vec![0.45, 0.5, 0.0], vec![0.5, 0.45, 0.0], vec![0.04, 0.02, 0.9]];
        let pairs = places(&common, &[0, 0, 2], 3);
        assert_eq!(pairs, [(Some(0), Some(0)), (Some(1), Some(1)), (Some(2), Some(2))]);
    }
}
