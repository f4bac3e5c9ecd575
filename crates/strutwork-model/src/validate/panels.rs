//! Panels: corners in order round a plane edge, a thickness, a material, a fixing, and tubes along the edges.

use std::collections::{BTreeMap, BTreeSet};

use super::bodies::Bodies;
use super::{Log, Lookup, names};
use crate::codes;
use crate::grades;
use crate::ids::{FixingId, Id, IndexVec, JointId, MaterialId};
use crate::model::{Joint, Panel, Tube};
use crate::spec::{ModelSpec, PanelRow};
use crate::units::{MM, to_mm};
use shape::Fault;

mod edges;
mod shape;

/// A warp past this is said.
const WARPED: f64 = 1.0 / 50.0;
/// A warp past this is refused.
const TWISTED: f64 = 1.0 / 10.0;
/// Thicknesses of skins, mm.
const USUAL_MM: std::ops::RangeInclusive<f64> = 0.2..=50.0;

/// The panels, `None` where faulty.
pub(super) fn check(
    spec: &ModelSpec,
    look: &Lookup<'_>,
    joints: &IndexVec<JointId, Joint>,
    tubes: &[Option<Tube>],
    bodies: &Bodies,
    log: &mut Log,
) -> Vec<Option<Panel>> {
    names::Names::of("panel", spec.panels.iter().map(|row| &row.panel), log);
    let mut on_corners: BTreeMap<BTreeSet<JointId>, &PanelRow> = BTreeMap::new();
    let mut panels = Vec::with_capacity(spec.panels.len());
    for row in &spec.panels {
        let panel = one(row, look, joints, log);
        if let Some(panel) = &panel
            && let Some(first) = on_corners.insert(panel.joints.iter().copied().collect(), row)
        {
            let message = format!("the panels `{}` and `{}` have the same corners", first.panel.value, row.panel.value);
            let help = "take one out; two skins on one bay are one panel with the thickness of both";
            log.error(codes::DOUBLED_PANEL, row.panel.spot, &row.panel, message, help);
        }
        panels.push(panel);
    }
    thick(spec, &panels, log);
    used(spec, &panels, log);
    if tubes.iter().all(Option::is_some) && bodies.complete {
        edges::check(spec, joints, tubes, bodies, &panels, log);
    }
    panels
}

fn one(row: &PanelRow, look: &Lookup<'_>, joints: &IndexVec<JointId, Joint>, log: &mut Log) -> Option<Panel> {
    let who = format!("panel `{}`", row.panel.value);
    let corners = corners(row, &who, look, log);
    let material = look.materials.find(&row.material, codes::UNKNOWN_MATERIAL, "model.toml", &who, log);
    let fixing = if row.fixing.is_empty() {
        Some(None)
    } else {
        look.fixings.find(&row.fixing, codes::UNKNOWN_FIXING, "model.toml", &who, log).map(Some)
    };
    let thickness = thickness(row, &who, log);
    let corners = corners?;
    flat(row, &who, &corners.iter().map(|&joint| joints[joint].at).collect::<Vec<_>>(), log)?;
    Some(Panel {
        name: row.panel.value.clone(),
        joints: corners,
        material: MaterialId::new(material?),
        thickness: thickness? * MM,
        fixing: fixing?.map(FixingId::new),
        note: row.note.clone(),
    })
}

/// Three or four joints, each once.
fn corners(row: &PanelRow, who: &str, look: &Lookup<'_>, log: &mut Log) -> Option<Vec<JointId>> {
    if !matches!(row.joints.len(), 3 | 4) {
        let spot = row.joints.first().and_then(|joint| joint.spot).or(row.panel.spot);
        let message = format!("{who} has {} corners", row.joints.len());
        let help = "write the names of 3 or 4 joints in order round the edge, separated by blanks";
        log.error(codes::PANEL_CORNERS, spot, &row.panel, message, help);
        return None;
    }
    let mut found: Vec<JointId> = Vec::new();
    let mut good = true;
    for name in &row.joints {
        match look.joint(name, who, log) {
            Some(joint) if found.contains(&joint) => {
                let message = format!("{who} names the joint `{}` twice", name.value);
                log.error(codes::JOINT_LISTED_TWICE, name.spot, name, message, "name each corner once");
                good = false;
            }
            Some(joint) => found.push(joint),
            None => good = false,
        }
    }
    good.then_some(found)
}

fn thickness(row: &PanelRow, who: &str, log: &mut Log) -> Option<f64> {
    let thickness = log.finite(&row.thickness_mm, &row.panel, "`thickness_mm`");
    if thickness <= 0.0 {
        let message = format!("{who} is {thickness} mm thick");
        let help = "write a thickness greater than 0, or take the row out";
        log.error(codes::PANEL_THICKNESS, row.thickness_mm.spot, &row.panel, message, help);
    } else if thickness.is_finite() && !USUAL_MM.contains(&thickness) {
        let message = format!("{who} is {thickness} mm thick");
        log.warning(codes::ODD_THICKNESS, row.thickness_mm.spot, &row.panel, message, "write mm");
    }
    (thickness > 0.0).then_some(thickness)
}

/// Corners that go round a convex edge, near enough to one plane.
fn flat(row: &PanelRow, who: &str, corners: &[[f64; 3]], log: &mut Log) -> Option<()> {
    let spot = row.joints[0].spot;
    let names =
        |order: &[usize]| order.iter().map(|&corner| row.joints[corner].value.as_str()).collect::<Vec<_>>().join(" ");
    match shape::judge(corners) {
        // Said where it is written.
        Err(Fault::NoNumbers) => None,
        Err(Fault::NoArea) => {
            let message = format!("the corners of {who} lie on one line");
            log.error(codes::PANEL_AREA, spot, &row.panel, message, "correct a corner, or a joint's place");
            None
        }
        Err(Fault::Crossing(order)) => {
            let message = format!("the edges of {who} cross: its corners do not stand in order round the edge");
            log.error(codes::PANEL_SHAPE, spot, &row.panel, message, format!("write `{}`", names(&order)));
            None
        }
        Err(Fault::Inward(corner)) => {
            let joint = &row.joints[corner];
            let message = format!("the corner `{}` of {who} does not point outwards", joint.value);
            let help = "split the skin into triangles or quadrilaterals whose corners all point outwards";
            log.error(codes::PANEL_SHAPE, joint.spot, &row.panel, message, help);
            None
        }
        Ok(shape::Warp { share, gap }) => {
            if share <= WARPED {
                return Some(());
            }
            let message = format!(
                "{who} is warped: its diagonals pass {:.1} mm apart, 1/{:.0} of the shorter one",
                to_mm(gap),
                1.0 / share
            );
            if share > TWISTED {
                let help =
                    "past 1/10 it carries its load otherwise: split it into two triangles with a tube in the fold";
                log.error(codes::PANEL_WARPED, spot, &row.panel, message, help);
                return None;
            }
            let help = "past 1/50 the result is a rough one: check the joints' places, or split it into two triangles";
            log.warning(codes::PANEL_WARPED, spot, &row.panel, message, help);
            Some(())
        }
    }
}

/// Notes fixings that no panel uses.
fn used(spec: &ModelSpec, panels: &[Option<Panel>], log: &mut Log) {
    if panels.iter().any(Option::is_none) {
        return;
    }
    for (place, entry) in spec.fixings.iter().enumerate() {
        if panels.iter().flatten().all(|panel| panel.fixing.is_none_or(|fixing| fixing.index() != place)) {
            let name = &entry.name;
            let message = format!("no panel uses the fixing `{}`", name.value);
            log.note(codes::UNUSED, name.spot, name, message, "leave it or take it out: it changes nothing");
        }
    }
}

/// Warns once for each grade and thickness outside what the grade's strengths hold for.
fn thick(spec: &ModelSpec, panels: &[Option<Panel>], log: &mut Log) {
    let mut said = BTreeSet::new();
    for (row, panel) in spec.panels.iter().zip(panels) {
        let Some(panel) = panel else { continue };
        let grade = spec.materials[panel.material.index()].grade.as_ref().and_then(|name| grades::find(name));
        let thickness = row.thickness_mm.value;
        if let Some(grade) = grade
            && let Some(most) = grade.most_wall_mm
            && thickness > most * (1.0 + 1e-9)
            && said.insert((panel.material, thickness.to_bits()))
        {
            let message =
                format!("the strengths of `{}` hold up to {most} mm; the panel has {thickness} mm", grade.name);
            let help = "give the material its strengths for this thickness, and their source";
            log.warning(codes::GRADE_WALL, row.thickness_mm.spot, &row.panel, message, help);
        }
    }
}
