//! The pages of the `L` codes.

use strutwork_model::explain::Page;

/// One page for each `L` code, in order.
pub const PAGES: &[Page] = &[];
