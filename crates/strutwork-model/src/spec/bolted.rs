//! Kinds of bolts, as the user wrote them.

use serde::Serialize;

use super::Written;
use super::keys::{Document, Keys};
use crate::reference;

/// A table `[bolts.NAME]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct BoltEntry {
    /// Its name.
    pub name: Written<String>,
    /// Size as written.
    pub size: Option<Written<String>>,
    /// Property class as written.
    pub grade: Option<Written<String>>,
    /// Along the bolt, global axes, of any length.
    pub axis: Option<Written<[f64; 3]>>,
    /// `thread` or `shank`; thread where not given.
    pub shear_plane: Option<Written<String>>,
    /// 1 or 2; 1 where not given.
    pub shear_planes: Option<Written<f64>>,
    /// `tube`, `sleeve` or `plate`.
    pub clamps: Option<Written<String>>,
    /// Outer diameter of the sleeve, mm.
    pub sleeve_outer_mm: Option<Written<f64>>,
    /// Wall of the sleeve, mm.
    pub sleeve_wall_mm: Option<Written<f64>>,
    /// Thickness of the plate, mm.
    pub plate_mm: Option<Written<f64>>,
    /// The name of the plate's material; that of the tube where not given.
    pub plate_material: Option<Written<String>>,
    /// From the middle of the hole to the nearest edge, mm.
    pub edge_mm: Option<Written<f64>>,
    /// Diameter of the hole, mm.
    pub hole_mm: Option<Written<f64>>,
    /// N.
    pub preload_n: Option<Written<f64>>,
    /// Slip factor of the clamped faces.
    pub friction: Option<Written<f64>>,
    /// Whether the head is countersunk.
    pub countersunk: bool,
}

pub(super) fn bolt(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> BoltEntry {
    keys.known(&reference::BOLT, document);
    BoltEntry {
        name,
        size: keys.text("size", document),
        grade: keys.text("grade", document),
        axis: keys.direction("axis", document),
        shear_plane: keys.text("shear_plane", document),
        shear_planes: keys.number("shear_planes", document),
        clamps: keys.text("clamps", document),
        sleeve_outer_mm: keys.number("sleeve_outer_mm", document),
        sleeve_wall_mm: keys.number("sleeve_wall_mm", document),
        plate_mm: keys.number("plate_mm", document),
        plate_material: keys.text("plate_material", document),
        edge_mm: keys.number("edge_mm", document),
        hole_mm: keys.number("hole_mm", document),
        preload_n: keys.number("preload_n", document),
        friction: keys.number("friction", document),
        countersunk: keys.flag("countersunk", false, document),
    }
}
