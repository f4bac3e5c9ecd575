//! Variants of a frame: which tube, which gauge, which diagonal earns its weight.
