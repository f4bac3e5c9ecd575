//! What each code of the rig and of the scales means.

use strutwork_model::explain::Page;

pub const PAGES: &[Page] = &[];
