//! The standard load cases: scripts in `scripts/cases/`, embedded so that the program needs no files to find them.

/// The standard load cases of a vehicle, in the order in which they are run: name and text of each script.
///
/// The name is the file's without `.rhai`; a script imports it as `cases/NAME`.
pub const STANDARD_CASES: &[(&str, &str)] = &[
    ("twist", include_str!("../../../scripts/cases/twist.rhai")),
    ("bending", include_str!("../../../scripts/cases/bending.rhai")),
    ("cornering", include_str!("../../../scripts/cases/cornering.rhai")),
    ("bump", include_str!("../../../scripts/cases/bump.rhai")),
    ("braking", include_str!("../../../scripts/cases/braking.rhai")),
    ("acceleration", include_str!("../../../scripts/cases/acceleration.rhai")),
    ("kerb", include_str!("../../../scripts/cases/kerb.rhai")),
    ("towing", include_str!("../../../scripts/cases/towing.rhai")),
    ("jacking", include_str!("../../../scripts/cases/jacking.rhai")),
    ("anchorages", include_str!("../../../scripts/cases/anchorages.rhai")),
    ("hoops", include_str!("../../../scripts/cases/hoops.rhai")),
];
