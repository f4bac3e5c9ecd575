//! The few colours of the drawings. Each stands off white paper by contrast, and none carries a meaning alone.

/// Lines and text.
pub const INK: &str = "#16202a";
/// Names of tubes, dimensions, what is secondary.
pub const BLUE: &str = "#1f5582";
/// Loads and what exceeds a limit.
pub const RED: &str = "#a3210f";
/// The frame at rest, under its deformed shape.
pub const GREY: &str = "#9aa3ab";
/// The grid of a chart.
pub const FAINT: &str = "#d3d9de";
/// Bodies and their mounts.
pub const BODY: &str = "#59636c";
/// The tint of a panel.
pub const TINT: &str = "#e6ebef";
/// Paper.
pub const PAPER: &str = "#ffffff";
