//! Readings that cannot be: those that are missing, of a dial that stands still, of a step whose couple is mistyped, of a
//! row that was exchanged with another, and single ones that fit nothing. What is found is left out and said, never mended.

mod couples;
mod exchanged;
mod missing;
mod outliers;
pub(crate) mod select;
mod stuck;

use crate::readings::{Readings, Side};
use crate::remark::Remark;

/// A jump of one dial that the other dial of its station does not share: its foot or its target moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct DialJump {
    pub(crate) station: usize,
    pub(crate) side: Side,
    /// The first step after it.
    pub(crate) step: usize,
    /// m.
    pub(crate) by: f64,
}

/// Leaves out what cannot be; what was left out and why, and which single dials jump.
pub(crate) fn screen(readings: &mut Readings<'_>) -> (Vec<Remark>, Vec<DialJump>) {
    let mut remarks = missing::find(readings);
    remarks.extend(stuck::leave_out(readings));
    remarks.extend(couples::leave_out(readings));
    remarks.extend(exchanged::leave_out(readings));
    let (found, jumps) = outliers::leave_out(readings);
    remarks.extend(found);
    (remarks, jumps)
}
