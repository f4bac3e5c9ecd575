//! A closed quadrilateral on its way to becoming a bay: what lies inside it, and what that makes of it.

use strutwork_model::ids::Id;
use strutwork_model::{JointId, Model, PanelId, TubeId};

use super::outline::Outline;
use super::plane_frame::PlaneFrame;
use super::sides::{Chain, Sides};
use super::{Bay, BayKind, Bracing, Side};
use crate::elements::Elements;

/// Tubes inside that are no diagonals brace a bay if they make it this many times as stiff as its sides alone.
const BRACES: f64 = 3.0;
/// Corners within 3° of right angles make a rectangle.
const RECTANGLE_DEG: f64 = 3.0;

/// A closed quadrilateral.
#[derive(Debug)]
pub(super) struct Candidate<'s> {
    pub(super) outline: Outline,
    /// From corner to corner, in order round.
    pub(super) chains: [&'s Chain; 4],
    /// All of its tubes along each side.
    pub(super) along: [Vec<TubeId>; 4],
    /// Tubes inside, in the model's order.
    pub(super) inner: Vec<TubeId>,
    /// Panels that have all their corners at its joints, in the model's order.
    panels: Vec<PanelId>,
    pub(super) kind: BayKind,
    /// Whether a panel spans it from corner to corner.
    pub(super) spanned: bool,
    /// Its own joints, sorted.
    pub(super) joints: Vec<JointId>,
}

impl<'s> Candidate<'s> {
    /// Looks for what lies along and inside a quadrilateral.
    pub(super) fn new(
        model: &Model,
        elements: &Elements,
        sides: &'s Sides,
        panels_at: &[Vec<PanelId>],
        (outline, chains): (Outline, [&'s Chain; 4]),
        spanned: bool,
    ) -> Self {
        let edge: Vec<JointId> = {
            let mut edge: Vec<JointId> = chains.iter().flat_map(|chain| chain.joints.iter().copied()).collect();
            edge.sort_unstable();
            edge.dedup();
            edge
        };
        let mut along = chains.map(|chain| chain.tubes.clone());
        let (mut inner, mut joints) = (Vec::new(), edge.clone());
        let mut place = 0;
        let mut waiting = edge.clone();
        while place < waiting.len() {
            let from = waiting[place];
            place += 1;
            for &(tube, to) in &sides.at[from.index()] {
                if along.iter().any(|side| side.contains(&tube)) || inner.contains(&tube) {
                    continue;
                }
                if let Some(side) =
                    chains.iter().position(|chain| chain.joints.contains(&from) && chain.joints.contains(&to))
                {
                    along[side].push(tube);
                    continue;
                }
                let on_edge = edge.binary_search(&to).is_ok();
                let Some(end) = outline.project(sides.place(to)) else { continue };
                let middle = outline.project((sides.place(from) + sides.place(to)) / 2.0);
                if middle.is_some_and(|at| outline.holds(at)) && (on_edge || outline.holds(end)) {
                    inner.push(tube);
                    if !on_edge && !waiting.contains(&to) {
                        waiting.push(to);
                        joints.push(to);
                    }
                }
            }
        }
        inner.sort_unstable();
        joints.sort_unstable();
        let mut panels: Vec<PanelId> =
            joints.iter().flat_map(|joint| panels_at[joint.index()].iter().copied()).collect();
        panels.sort_unstable();
        panels.dedup();
        panels.retain(|panel| model.panels()[*panel].joints.iter().all(|joint| joints.binary_search(joint).is_ok()));
        let mut found = Self { outline, chains, along, inner, panels, kind: BayKind::Open, spanned, joints };
        found.kind = found.stiffened_by(model, elements, sides);
        found
    }

    pub(super) fn corners(&self) -> [JointId; 4] {
        self.chains.map(Chain::first)
    }

    fn stiffened_by(&self, model: &Model, elements: &Elements, sides: &Sides) -> BayKind {
        if !self.panels.is_empty() {
            return BayKind::Panelled;
        }
        if self.inner.is_empty() {
            return BayKind::Open;
        }
        let corners = self.corners();
        let diagonal = |from: usize| {
            let chains = sides.between(corners[from], corners[from + 2]);
            chains.iter().any(|chain| chain.tubes.iter().all(|tube| self.inner.contains(tube)))
        };
        match (diagonal(0), diagonal(1)) {
            (true, true) => BayKind::Braced(Bracing::Crossed),
            (true, false) | (false, true) => BayKind::Braced(Bracing::Diagonal),
            (false, false) => {
                let (whole, bare) = (self.frame(model, elements, true), self.frame(model, elements, false));
                let stiffened = whole.shear_stiffness() >= BRACES * bare.shear_stiffness();
                if stiffened { BayKind::Braced(Bracing::Other) } else { BayKind::Open }
            }
        }
    }

    /// The plane frame of its sides, with what is inside or without.
    fn frame<'m>(&self, model: &'m Model, elements: &Elements, with_inner: bool) -> PlaneFrame<'m> {
        let mut frame = PlaneFrame::new(model, self.outline, self.corners());
        for tube in self.along.iter().flatten().chain(self.inner.iter().filter(|_| with_inner)) {
            frame.add_tube(elements.get(*tube));
        }
        for panel in self.panels.iter().filter(|_| with_inner) {
            frame.add_panel(&elements.sheets()[panel.index()]);
        }
        frame
    }

    pub(super) fn into_bay(self, model: &Model, elements: &Elements) -> Bay {
        let stiffness = self.frame(model, elements, true).shear_stiffness();
        let bare = self.frame(model, elements, false).shear_stiffness();
        let corners = self.corners();
        let [mut a, mut b] =
            [0, 1].map(|i| (self.chains[i].direction.norm() + self.chains[i + 2].direction.norm()) / 2.0);
        if a < b {
            std::mem::swap(&mut a, &mut b);
        }
        let rectangle = self.outline.skewness() <= RECTANGLE_DEG;
        let mut along = self.along.into_iter();
        let sides =
            self.chains.map(|chain| Side { joints: chain.joints.clone(), tubes: along.next().unwrap_or_default() });
        Bay {
            corners,
            sides,
            inner: self.inner,
            panels: self.panels,
            kind: self.kind,
            stiffness,
            bare,
            along: rectangle.then(|| stiffness * a / b),
            normal: self.outline.axes[2].into(),
            area: self.outline.area(),
            warp: self.outline.warp,
        }
    }
}
