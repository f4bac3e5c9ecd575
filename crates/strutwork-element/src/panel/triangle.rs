//! The triangular panel: constant strain, its shear part alone.

use nalgebra::Vector3;

use super::{NONE, NoPanel, Panel, Skin};

/// The panel on three corners.
///
/// ```text
/// energy = ½ (Gt)_eff A ((εx − εy)² + γ²)        1/(Gt)_eff = 1/(Gt) + c P/A
/// ```
///
/// Edges of a triangle carry its shear partly along and partly across themselves, with the same resultant on each: the
/// fixings slip under that resultant, all round the perimeter P.
///
/// # Source
/// Derived here; constant strain triangle: Zienkiewicz & Taylor (2000), The Finite Element Method, 5th ed., vol. 1, §4.2
/// (from memory).
pub(super) fn panel(corners: [Vector3<f64>; 3], skin: Skin) -> Result<Panel, NoPanel> {
    let edge = |i: usize| corners[(i + 1) % 3] - corners[i];
    let lengths = [0, 1, 2].map(|i| edge(i).norm());
    let perimeter: f64 = lengths.iter().sum();
    let longest = lengths.iter().copied().fold(0.0, f64::max);
    let normal = edge(0).cross(&edge(1));
    let area = normal.norm() / 2.0;
    if !(area.is_finite() && area > NONE * longest * longest) {
        return Err(NoPanel::NoArea);
    }
    let x = edge(0) / lengths[0];
    let y = normal.normalize().cross(&x);
    // Forces at corner i: the resultant of the tractions on the half edges beside it, ½ of the opposite edge turned square.
    let mut states = vec![Vec::new(), Vec::new()];
    for i in 0..3 {
        let opposite = edge((i + 1) % 3);
        let (dx, dy) = (-opposite.dot(&y) / 2.0, opposite.dot(&x) / 2.0);
        states[0].push(x * dx - y * dy);
        states[1].push(x * dy + y * dx);
    }
    let slip = skin.fixing * perimeter;
    Ok(Panel {
        states,
        flexibility: area / (skin.shear * skin.thickness) + slip,
        slip,
        edges: Vec::new(),
        diagonals: Vec::new(),
        area,
        sides: [longest, 2.0 * area / longest],
        warp: 0.0,
        skin,
    })
}
