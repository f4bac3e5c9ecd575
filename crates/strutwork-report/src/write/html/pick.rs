//! The greatest over all cases, with the case in which it occurs.

use strutwork_loads::LoadCase;
use strutwork_loads::case::Nature;

use crate::envelope::InCase;
use crate::table::{Cell, Column, Digits};

/// A case's name, marked where it is one that the frame need only survive, or one that cannot occur.
pub(super) fn case_words(case: &LoadCase) -> String {
    match case.nature {
        Nature::Ultimate | Nature::Notional => format!("{} ({})", case.name, case.nature.word()),
        Nature::Plain | Nature::Physical => case.name.clone(),
    }
}

/// The value and its case; two empty cells for none.
pub(super) fn cells<'a>(picked: Option<InCase<'_>>) -> [Cell<'a>; 2] {
    match picked {
        Some(picked) => [Cell::Number(picked.value), Cell::from(case_words(picked.case))],
        None => [Cell::Empty, Cell::Empty],
    }
}

/// The columns of three components of a force, each with its case, as three times [`cells`] fills them.
pub(super) fn component_columns() -> [Column; 6] {
    let digits = Digits::Column(4);
    [
        Column::number("fx_n", "Fx", "N", digits),
        Column::text("fx_case", "in case"),
        Column::number("fy_n", "Fy", "N", digits),
        Column::text("fy_case", "in case"),
        Column::number("fz_n", "Fz", "N", digits),
        Column::text("fz_case", "in case"),
    ]
}

/// The greatest, sign counted; the first of equals.
pub(super) fn greatest<'a>(all: impl Iterator<Item = InCase<'a>>) -> Option<InCase<'a>> {
    all.reduce(|best, next| if next.value > best.value { next } else { best })
}

/// The least, sign counted; the first of equals.
pub(super) fn least<'a>(all: impl Iterator<Item = InCase<'a>>) -> Option<InCase<'a>> {
    all.reduce(|best, next| if next.value < best.value { next } else { best })
}

/// The one of greatest magnitude, with its sign; the first of equals.
pub(super) fn signed_greatest<'a>(all: impl Iterator<Item = InCase<'a>>) -> Option<InCase<'a>> {
    all.reduce(|best, next| if next.value.abs() > best.value.abs() { next } else { best })
}
