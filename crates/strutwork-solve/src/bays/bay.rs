//! What is known of one bay.

use strutwork_model::{JointId, Model, PanelId, TubeId};

/// A normal this close to a global axis (cos 15°) gives its bay the name of a global plane.
const ALONG_AXIS: f64 = 0.965_925_826_289_068_3;

/// A plane quadrilateral of tubes.
#[derive(Debug, Clone, PartialEq)]
pub struct Bay {
    /// Its corners in order round the edge.
    pub corners: [JointId; 4],
    /// Its sides; side i runs from corner i to the next.
    pub sides: [Side; 4],
    /// Tubes inside it, diagonals and others, in the model's order.
    pub inner: Vec<TubeId>,
    /// Panels in it, in the model's order.
    pub panels: Vec<PanelId>,
    /// How it is stiffened.
    pub kind: BayKind,
    /// Shear stiffness as the G·t that a skin alone would need, N/m, so that bays of different sizes compare.
    pub stiffness: f64,
    /// The same of its sides alone, without what is inside, N/m.
    pub bare: f64,
    /// Force along the longer side over the movement of that side against the other, N/m; `None` unless its corners are
    /// within 3° of right angles.
    pub along: Option<f64>,
    /// Unit normal of its mean plane.
    pub normal: [f64; 3],
    /// m².
    pub area: f64,
    /// Distance between its diagonals over the shorter of them; 0 where it is plane.
    pub warp: f64,
}

/// A side of a bay: one tube, or a chain of tubes in a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Side {
    /// From corner to corner, both included.
    pub joints: Vec<JointId>,
    /// In order from the first joint to the last; with every further tube that lies along it after them.
    pub tubes: Vec<TubeId>,
}

/// How a bay is stiffened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BayKind {
    /// By its own corners alone.
    Open,
    /// By tubes inside it.
    Braced(Bracing),
    /// By a panel, whatever else is inside.
    Panelled,
}

/// The tubes that brace a bay.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bracing {
    /// From corner to corner.
    Diagonal,
    /// Both diagonals.
    Crossed,
    /// Others, such as a K, that make the bay at least three times as stiff as its sides alone.
    Other,
}

impl BayKind {
    /// Its words in files.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Braced(Bracing::Diagonal) => "one diagonal",
            Self::Braced(Bracing::Crossed) => "crossed diagonals",
            Self::Braced(Bracing::Other) => "other bracing",
            Self::Panelled => "panel",
        }
    }
}

impl Bay {
    /// Whether nothing stiffens it but its own corners.
    pub fn is_open(&self) -> bool {
        self.kind == BayKind::Open
    }

    /// The global plane that it lies in within 15°: `x-y` (floors), `x-z` (sides), `y-z` (bulkheads), or `skew`.
    pub fn plane(&self) -> &'static str {
        match (0..3).find(|axis| self.normal[*axis].abs() >= ALONG_AXIS) {
            Some(0) => "y-z",
            Some(1) => "x-z",
            Some(2) => "x-y",
            _ => "skew",
        }
    }

    /// The names of its corners in order, separated by blanks.
    pub fn name(&self, model: &Model) -> String {
        self.corners.map(|joint| model.joints()[joint].name.as_str()).join(" ")
    }

    /// Lengths of its sides between corners, m.
    pub fn side_lengths(&self, model: &Model) -> [f64; 4] {
        [0, 1, 2, 3].map(|i| {
            let [a, b] = [self.corners[i], self.corners[(i + 1) % 4]].map(|joint| model.joints()[joint].at);
            ((b[0] - a[0]).powi(2) + (b[1] - a[1]).powi(2) + (b[2] - a[2]).powi(2)).sqrt()
        })
    }
}
