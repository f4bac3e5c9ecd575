//! What each finding means.

mod fitted;
mod trust;
mod tubes;
mod welded;
mod whole;

use strutwork_model::explain::{Page, join, length};

const PARTS: &[&[Page]] =
    &[trust::PAGES, tubes::PAGES, welded::PAGES, fitted::PAGES, whole::PAGES, strutwork_rig::PAGES];

/// The pages of this crate's codes, by subject.
pub const PAGES: &[Page] = &join::<{ length(PARTS) }>(PARTS);
