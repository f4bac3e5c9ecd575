//! What can be wrong with the text of a case.

use crate::unit::Dimension;

/// What is wrong with the text of a case.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum CaseFault {
    /// A file that every case has is not there.
    #[error("{file} is not there")]
    Missing {
        /// The file.
        file: &'static str,
    },
    /// The text is no TOML, or lacks or has a key that it should not.
    #[error("case.toml: {0}")]
    Toml(String),
    /// What tubes may take is said twice or not at all.
    #[error("[sizing] wants one of between_mm2, areas_mm2 and stock")]
    Sizes,
    /// A quantity lacks a key.
    #[error("quantity {quantity}: `{key}` is missing, or not what it should be")]
    Key {
        /// Counted from 1.
        quantity: usize,
        /// The key.
        key: &'static str,
    },
    /// A quantity has keys that do not belong to it.
    #[error("quantity {quantity}: `{}` does not belong to a quantity of this kind", .keys.join("`, `"))]
    UnknownKeys {
        /// Counted from 1.
        quantity: usize,
        /// The keys.
        keys: Vec<String>,
    },
    /// A word that is not in the list of its kind.
    #[error("`{written}` is no {kind}")]
    Word {
        /// What it should be.
        kind: &'static str,
        /// As written.
        written: String,
    },
    /// The unit does not measure the quantity.
    #[error("quantity {quantity}: the unit `{unit}` does not measure {dimension:?}")]
    Unit {
        /// Counted from 1.
        quantity: usize,
        /// As written.
        unit: &'static str,
        /// What the quantity is.
        dimension: Dimension,
    },
    /// A ratio of two results that do not measure the same.
    #[error("quantity {quantity}: `of` and `to` do not measure the same")]
    Ratio {
        /// Counted from 1.
        quantity: usize,
    },
    /// A force of brake or drive that is not along x.
    #[error("wheel force of case `{case}`: brake and drive act along x alone")]
    Along {
        /// The load case.
        case: String,
    },
    /// A printed value whose precision cannot be told.
    #[error("`{0}` is no printed value: write digits, with a decimal point or an exponent where an integer ends in 0")]
    Printed(String),
    /// A tolerance without its reason, or the reverse, or one that is not above zero.
    #[error("quantity {quantity}: `allow` above zero and `because` go together")]
    Allowed {
        /// Counted from 1.
        quantity: usize,
    },
    /// A refinement is not what it should be.
    #[error("refinement {number}: {fault}")]
    Refine {
        /// Counted from 1.
        number: usize,
        /// What is wrong with it.
        fault: String,
    },
    /// A row of `printed.csv` does not fit its header.
    #[error("printed.csv:{line}: {cells} cells under {columns} columns")]
    Cells {
        /// Counted from 1.
        line: usize,
        /// Cells of the row.
        cells: usize,
        /// Columns of the header.
        columns: usize,
    },
    /// There is nothing to compare.
    #[error("there is no quantity")]
    NothingPrinted,
}
