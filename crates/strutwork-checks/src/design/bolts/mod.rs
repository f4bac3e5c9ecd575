//! Bolts of bodies and what they clamp.
//!
//! - [`strength`]: D040, the bolt, bearing, pulling through.
//! - [`clamped`]: D041, what tightening does to a tube or sleeve, and slip.
//! - [`stated`]: D009, loads of bolts that cannot be checked.

pub mod clamped;
pub mod stated;
pub mod strength;

#[cfg(test)]
mod tests;

use strutwork_model::model::{BasisKind, Clamps, Material, Mount, Shape, ShearPlane, Strength};
use strutwork_model::units::{MM, MM2, MPA};
use strutwork_model::{Model, MountId, TubeId};
use strutwork_solve::results::MountResult;

use crate::calculation::{Sink, Unit};
use crate::code::bolt::{Acting, Bolt, Face, Outline, Ply, Sleeve, Through};
use crate::design::beside_weld::{BesideWeld, beside_weld, is_steel};
use crate::design::margin;
use crate::{Finding, Judged, Subject};

/// A mount whose bolt can be checked.
struct Bolted<'m> {
    id: MountId,
    mount: &'m Mount,
    /// As the user described it.
    given: &'m strutwork_model::model::Bolt,
    /// As the code sees it.
    bolt: Bolt,
    /// What it goes through on the frame's side.
    through: Through,
    /// The hollow tube of the thinnest wall at the joint.
    tube: Option<TubeId>,
}

impl<'m> Bolted<'m> {
    /// The mount; `None` where its bolt has no size or no class.
    fn of(model: &'m Model, id: MountId) -> Option<Self> {
        let mount = &model.mounts()[id];
        let given = &model.bolts()[mount.bolt?];
        let (size, class) = (given.size?, given.class?);
        let bolt = Bolt {
            diameter: size.diameter_mm * MM,
            hole: given.hole()?,
            stress_area: size.stress_area_mm2 * MM2,
            flats: size.flats_mm * MM,
            points: size.points_mm * MM,
            yield_stress: class.yield_mpa * MPA,
            ultimate: class.ultimate_mpa * MPA,
            thread_in_shear: class.thread_in_shear,
            shank_in_shear: given.shear_plane == ShearPlane::Shank,
            planes: given.shear_planes,
            countersunk: given.countersunk,
            inch: size.inch,
            class_in_code: class.in_code,
        };
        let tube = thinnest(model, mount);
        let through = through(model, given, tube);
        Some(Self { id, mount, given, bolt, through, tube })
    }

    /// `M10 8.8`.
    fn label(&self) -> String {
        let (size, class) =
            (self.given.size.map_or("", |size| size.name), self.given.class.map_or("", |class| class.name));
        format!("{size} {class}")
    }

    /// `the bolt M10 8.8 of rear-module at joint A`.
    fn whose(&self, model: &Model) -> String {
        let (body, joint) = (&model.bodies()[self.mount.body].name, &model.joints()[self.mount.joint].name);
        format!("the bolt {} of {body} at joint {joint}", self.label())
    }

    /// The mount that a finding is about.
    fn behind(model: &'m Model, finding: &Finding) -> Option<Self> {
        match finding.subject {
            Subject::Mount(id) => Self::of(model, id),
            _ => None,
        }
    }
}

/// Shape and wall of a hollow tube, m; `None` for any other section.
fn outline(model: &Model, tube: TubeId) -> Option<(Outline, f64)> {
    match model.sections()[model.tubes()[tube].section].shape {
        Shape::Hollow { height, width, wall, .. } => Some((Outline::Flat(height.max(width)), wall)),
        Shape::Round { diameter, wall } => Some((Outline::Round(diameter), wall)),
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => None,
    }
}

/// The lower of a material's strength and that beside its welds: what a plate has that is welded on.
fn welded_strength(material: &Material) -> Option<Strength> {
    let parent = material.strength?;
    let beside = material.heat_affected.unwrap_or(parent);
    Some(Strength {
        yield_stress: parent.yield_stress.min(beside.yield_stress),
        ultimate: parent.ultimate.min(beside.ultimate),
    })
}

/// The hollow tube of the thinnest wall at a mount's joint; of equal walls the weaker, then the first.
fn thinnest(model: &Model, mount: &Mount) -> Option<TubeId> {
    let weak = |tube: TubeId| beside_weld(model, tube).map_or(0.0, |beside| beside.strength.ultimate);
    model
        .tubes()
        .iter_with_id()
        .filter(|(_, tube)| tube.from == mount.joint || tube.to == mount.joint)
        .filter_map(|(id, _)| Some((outline(model, id)?.1, id)))
        .min_by(|a, b| a.0.total_cmp(&b.0).then_with(|| weak(a.1).total_cmp(&weak(b.1))))
        .map(|(_, id)| id)
}

/// What a bolt goes through, with its strength beside the welds.
fn through(model: &Model, given: &strutwork_model::model::Bolt, tube: Option<TubeId>) -> Through {
    let edges = given.edge.map(|edge| [edge; 2]);
    match given.clamps {
        None => Through::Unknown("bearing and pull-through: what the bolt clamps is not given"),
        Some(Clamps::Plate { thickness, material: Some(material) }) => {
            let material = &model.materials()[material];
            match welded_strength(material) {
                Some(Strength { ultimate, .. }) => {
                    Through::Plate(Ply { thickness, ultimate, edges, steel: is_steel(material) })
                }
                None => Through::Unknown("bearing and pull-through: the plate's material has no strength"),
            }
        }
        Some(clamps) => {
            let Some((tube, (outline, wall))) = tube.and_then(|tube| Some((tube, outline(model, tube)?))) else {
                return Through::Unknown("bearing and pull-through: no hollow tube reaches the joint");
            };
            let Some(BesideWeld { strength: Strength { yield_stress, ultimate }, steel, .. }) =
                beside_weld(model, tube)
            else {
                return Through::Unknown("bearing and pull-through: the tube's material has no strength");
            };
            let ply = Ply { thickness: wall, ultimate, edges, steel };
            let face = Face { outline, wall, yield_stress };
            match clamps {
                Clamps::Tube => Through::Walls(ply, face),
                Clamps::Sleeve { outer, wall } => Through::Sleeve(Sleeve { outer, wall, yield_stress }, ply, face),
                Clamps::Plate { thickness, .. } => Through::Plate(Ply { thickness, ..ply }),
            }
        }
    }
}

/// Where the factors on strength come from.
fn partial_words(judged: Judged<'_>, case: usize) -> &'static str {
    match (judged.model.basis().kind, judged.is_ultimate(case)) {
        (BasisKind::Vehicle, true) => {
            "Strengths, vehicle practice: γ_M2 of EN 1993-1-8 remains in an ultimate case, the others are 1."
        }
        (BasisKind::Vehicle, false) => "Strengths, vehicle practice: every γ is 1, the margin stands for them.",
        (BasisKind::Eurocode, _) => "Strengths, Eurocode: γ of [basis].",
    }
}

/// What acts on a bolt with its margin, N.
fn acting(sink: &mut impl Sink, judged: Judged<'_>, case: usize, load: &MountResult) -> Acting {
    let margin = judged.margin(case);
    if sink.writes() {
        margin::write(judged, case, sink);
    }
    let mut times = |symbol: &str, of: &str, force: f64, note: &str| {
        let with = margin * force;
        if sink.writes() {
            sink.given(of, force, Unit::N, note);
            let formula = format!("margin · {of}");
            sink.step(symbol, &formula, &[("margin", margin, Unit::ONE), (of, force, Unit::N)], with, Unit::N, "");
        }
        with
    };
    match (load.axial, load.shear) {
        (Some(axial), Some(shear)) => Acting::Split {
            shear: times("F_v,Ed", "F_v", shear, "across the bolt"),
            tension: times("F_t,Ed", "F_t", axial.abs(), "along the bolt, taken as tension whichever way it acts"),
        },
        _ => {
            let [x, y, z] = [load.on_frame[0], load.on_frame[1], load.on_frame[2]];
            let force = margin * (x * x + y * y + z * z).sqrt();
            if sink.writes() {
                for (symbol, part) in [("F_x", x), ("F_y", y), ("F_z", z)] {
                    sink.given(symbol, part, Unit::N, "what the body exerts on the frame");
                }
                let with =
                    [("margin", margin, Unit::ONE), ("F_x", x, Unit::N), ("F_y", y, Unit::N), ("F_z", z, Unit::N)];
                let note = "the bolt's axis is not given: the whole force in its worst direction";
                sink.step("F_Ed", "margin · √(F_x² + F_y² + F_z²)", &with, force, Unit::N, note);
            }
            Acting::Whole(force)
        }
    }
}
