//! What the analysis of this model assumes, and what the model contains and does not: told from the model, so that no sentence
//! speaks of a part that is not there or keeps silent on one that is.

use strutwork_model::Model;
use strutwork_model::model::{SoftWhen, Suspension, Vehicle, Wheel};

use crate::number::as_given;
use crate::run::Run;

/// What the analysis assumes.
pub(super) fn of(run: &Run<'_>) -> Vec<String> {
    let model = run.model;
    let mut said = vec![
        if run.results.is_second_order() {
            "Linear elastic material, small rotations. Second order: forces are in balance on the frame as it bends, with axial \
             forces working on the displacements across the tubes. Loads keep their directions and move with what they act on. \
             The frame is as straight as drawn before it is loaded: imperfections (EN 1993-1-1 5.3) are not added."
                .into()
        } else {
            "Linear elastic material, small displacements and rotations; the deformed shape does not change the loads.".into()
        },
        tubes(model),
        joints(model),
        "Tube masses are taken over their lengths as listed: between joint centres the overlap at joints counts twice; welds \
         and paint do not count."
            .into(),
        "Stresses are nominal: no stress concentration, no residual stress from welding. Beside a weld the lower strength \
         holds where the material gives one, else the parent's."
            .into(),
        "von Mises stress joins the greatest normal and the greatest shear stress of a station, which need not meet in one \
         point: it errs on the high side."
            .into(),
    ];
    if !model.bodies().is_empty() {
        said.push(
            "Bodies are rigid: their own give is left out. Joints follow them exactly, or through the springs listed. Bolts \
             neither slip nor open; preload is left out."
                .into(),
        );
    }
    if let Some(vehicle) = model.vehicle() {
        said.extend(corners(vehicle));
    }
    if !model.panels().is_empty() {
        said.push(
            "Panels are flat skins without openings that carry shear in their own plane: no direct stress, no bending, no \
             help to tubes against bending. Their fixings slip in proportion to the shear flow, evenly along each edge."
                .into(),
        );
    }
    if run.cases.0.iter().any(|case| case.free) {
        said.push(
            "A case without supports is balanced by the inertia of everything that has mass, as if the vehicle were rigid: \
             steady acceleration, no vibration. What the frame carries moves with it."
                .into(),
        );
    }
    said
}

fn tubes(model: &Model) -> String {
    let set_off = model.tubes().iter().any(|tube| tube.end_from.offset != [0.0; 3] || tube.end_to.offset != [0.0; 3]);
    let ends = if set_off { "joint centres, or ends set off from them by rigid arms" } else { "joint centres" };
    let left_out = if set_off { "other eccentricities" } else { "eccentricities" };
    format!(
        "Tubes are straight Euler–Bernoulli members between {ends}; shear deformation and warping are left out, and so are \
         {left_out} and the size of joints."
    )
}

fn joints(model: &Model) -> String {
    let springs = model
        .tubes()
        .iter()
        .flat_map(|tube| [&tube.end_from, &tube.end_to])
        .any(|end| end.springs.0.iter().any(Option::is_some));
    let rigid = if springs {
        "Joints are rigid unless a tube's end is released or joined by springs."
    } else {
        "Joints are rigid unless a tube's end is released."
    };
    let soft = model.options().soft_joints;
    let share = as_given(soft.narrower_than);
    match soft.when {
        SoftWhen::Off => rigid.to_owned(),
        SoftWhen::Band => format!(
            "{rigid} A second run, in which tubes narrower than {share} of the one they meet are joined softly by a derived \
             estimate, gives the band of the torsional stiffness and nothing else."
        ),
        SoftWhen::Always => format!(
            "Joints are rigid, but for released ends and for tubes narrower than {share} of the one they meet: those are \
             joined softly in every case, by a derived estimate."
        ),
    }
}

/// Names of the corners that are linked, and of those that are not.
fn by_kind(vehicle: &Vehicle) -> [Vec<&'static str>; 2] {
    let linked = |wheel: &Wheel| matches!(vehicle.corner(*wheel).suspension, Suspension::Linked(_));
    let named = |wanted: bool| {
        Wheel::ALL.into_iter().filter(|wheel| linked(wheel) == wanted).map(Wheel::name).collect::<Vec<_>>()
    };
    [named(true), named(false)]
}

fn corners(vehicle: &Vehicle) -> Vec<String> {
    let [linked, rigid] = by_kind(vehicle);
    let mut said = Vec::new();
    if !linked.is_empty() {
        said.push(format!(
            "Suspension at {}: links are straight, rigid and carry only the forces of their kind; their forces follow from \
             the balance of the upright in its place at rest. Friction, bushes and the travel of the wheel are left out.",
            linked.join(", ")
        ));
    }
    if !rigid.is_empty() {
        said.push(format!(
            "At {} wheel, upright and links are one rigid piece with what carries them: the wheel's force reaches the frame \
             statically equivalent, not link by link.",
            rigid.join(", ")
        ));
    }
    said
}

/// What the model contains and what it does not, part by part.
pub(super) fn contents(model: &Model) -> Vec<(&'static str, String)> {
    let count = |number: usize, one: &str, many: &str| format!("{number} {}", if number == 1 { one } else { many });
    let mut parts = Vec::new();
    parts.push((
        "Tubes",
        count(model.tubes().len(), "tube, judged as section and as member", "tubes, judged as sections and as members"),
    ));
    parts.push((
        "Skins",
        match model.panels().len() {
            0 => "none: whatever skins the vehicle has are outside the model, as stiffness and as mass".to_owned(),
            number => format!("{}: shear, buckling and fixings", count(number, "panel", "panels")),
        },
    ));
    parts.push((
        "Bolt-in modules",
        match model.bodies().len() {
            0 => "none: what is bolted to the frame counts as mass alone".to_owned(),
            number => format!(
                "{} on {}: loads of bolts are stated; bolts are judged where the model says what they are",
                count(number, "body", "bodies"),
                count(model.mounts().len(), "mount", "mounts")
            ),
        },
    ));
    if let Some(vehicle) = model.vehicle() {
        let [linked, rigid] = by_kind(vehicle);
        let mut text = Vec::new();
        if !linked.is_empty() {
            text.push(format!("at {}: forces of links are stated, their strength is not checked", linked.join(", ")));
        }
        if !rigid.is_empty() {
            text.push(format!("outside the model at {}", rigid.join(", ")));
        }
        parts.push(("Suspension links", text.join("; ")));
        parts.push((
            "Springs, dampers, tyres",
            "outside the model: they set what acts on the frame, not how stiff it is".to_owned(),
        ));
    }
    parts.push((
        "Softness of joints",
        match model.options().soft_joints.when {
            SoftWhen::Off => "outside the model but for releases and springs listed in section 4".to_owned(),
            SoftWhen::Band => "in a second run, for the band of the torsional stiffness alone".to_owned(),
            SoftWhen::Always => "by a derived estimate, in every case".to_owned(),
        },
    ));
    parts.push((
        "Welds",
        "judged as strength where tubes are welded; outside the model as stiffness and as mass".to_owned(),
    ));
    parts.push(("Brackets, gussets", "outside the model, as stiffness, as strength and as mass".to_owned()));
    parts
}
