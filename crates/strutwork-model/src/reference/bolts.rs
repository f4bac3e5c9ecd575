//! The table of `model.toml` that describes bolts.

use super::Kind::{Direction, Flag, Number, Text};
use super::{KeyTable, key};

/// `[bolts.NAME]`.
pub const BOLT: KeyTable = KeyTable {
    heading: "[bolts.NAME]",
    about: "A kind of bolt that rows of bodies.csv name. All keys may be left out. With `size` and `grade` the bolt is \
            checked; with `clamps` what it bears on as well. One bolt stands at a mount.",
    keys: &[
        key(
            "size",
            Text,
            "`M6`, `M8`, `M10`, `M12`, `M14`, `M16`, `M18`, `M20`, `M22`, `M24`; fine pitch as `M10x1.25`; `3/8 UNF`, `7/16 UNF`, `1/2 UNF`",
        ),
        key("grade", Text, "property class: `4.6`, `4.8`, `5.6`, `5.8`, `6.8`, `8.8`, `10.9`, `12.9`"),
        key(
            "axis",
            Direction,
            "along the bolt, axes of the frame: \"x\", \"y\", \"z\" or [x, y, z]; without it the whole force is judged in its worst direction",
        ),
        key("shear_plane", Text, "what is in the shear plane: `thread` (default) or `shank`"),
        key("shear_planes", Number, "how many planes share the shear force: 1 (default) or, between two plates, 2"),
        key(
            "clamps",
            Text,
            "what the bolt goes through on the frame's side: `tube`, through both walls with nothing inside; `sleeve`, a sleeve welded into both walls; `plate`, a plate or bracket welded to the tube. Without it bearing is not checked, and that is said",
        ),
        key("sleeve_outer_mm", Number, "outer diameter of the sleeve"),
        key("sleeve_wall_mm", Number, "wall of the sleeve"),
        key("plate_mm", Number, "thickness of the plate"),
        key("plate_material", Text, "a name of `[materials.NAME]`; default: the material of the tube"),
        key(
            "edge_mm",
            Number,
            "from the middle of the hole to the nearest edge of the wall or plate, any direction; default: the least that is allowed, 1.2 of the hole (or of the sleeve)",
        ),
        key(
            "hole_mm",
            Number,
            "diameter of the hole in tube or plate; default: 1 mm more than the bolt up to 14 mm, 2 mm more above it",
        ),
        key("preload_n", Number, "force that the bolt is tightened to; slip, crushing and the sleeve are judged by it"),
        key(
            "friction",
            Number,
            "slip factor of the faces that the bolt clamps together, such as 0.2 for untreated steel",
        ),
        key("countersunk", Flag, "true: the head is sunk into what it clamps; default false"),
    ],
};
