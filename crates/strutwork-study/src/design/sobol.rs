//! Points of a scrambled Sobol sequence.
//!
//! Points have 24 bits: enough for levels and for sizes in millimetres.

use crate::fault::StudyFault;

/// Points that the sequence has.
const MOST: u64 = 65_536;
/// Parameters that it has directions for.
const DIMENSIONS: usize = sobol_burley::NUM_DIMENSIONS as usize;

/// Holds the design against what the sequence has.
///
/// # Errors
/// [`StudyFault::Design`].
pub(super) fn check(count: u64, parameters: usize) -> Result<(), StudyFault> {
    if count > MOST {
        return Err(StudyFault::Design(format!(
            "a sobol design has at most {MOST} variants: take latin_hypercube for {count}"
        )));
    }
    if parameters > DIMENSIONS {
        return Err(StudyFault::Design(format!(
            "a sobol design has at most {DIMENSIONS} parameters, not {parameters}"
        )));
    }
    Ok(())
}

/// A coordinate of a point, 0 ≤ x < 1.
///
/// # Source
/// Burley (2020), Practical Hash-based Owen Scrambling, JCGT 9(4), through the crate `sobol_burley`.
pub(super) fn sample(variant: u64, parameter: usize, seed: u32) -> f64 {
    f64::from(sobol_burley::sample(variant as u32, parameter as u32, seed))
}
