//! Variants of a family against the frame solved anew from its own folder.

mod exact;
mod frames;
mod lanes;
mod updates;
