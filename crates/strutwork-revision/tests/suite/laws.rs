//! Random edits of the demo car: the comparison finds exactly these.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use proptest::prelude::*;
use strutwork_model::spec::ModelSpec;
use strutwork_revision::compare_models;
use strutwork_revision::inputs::{How, Part};

use crate::common::{car_spec, happened, valid};

/// Kinds of edits, each of which makes one change known beforehand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Edit {
    MoveJoint,
    RenameTube,
    TurnTube,
    AnotherSection,
    AnotherGroup,
    RollTube,
    RemoveTube,
    AddTube,
    ThickerWall,
    HeavierMass,
    MoveMass,
    ThickerPanel,
    StrongerMaterial,
    ShiftBraking,
    SofterMount,
}

const EDITS: [Edit; 15] = [
    Edit::MoveJoint,
    Edit::RenameTube,
    Edit::TurnTube,
    Edit::AnotherSection,
    Edit::AnotherGroup,
    Edit::RollTube,
    Edit::RemoveTube,
    Edit::AddTube,
    Edit::ThickerWall,
    Edit::HeavierMass,
    Edit::MoveMass,
    Edit::ThickerPanel,
    Edit::StrongerMaterial,
    Edit::ShiftBraking,
    Edit::SofterMount,
];

/// What an edit is expected to be told as; `None` where it cannot be made at this place.
fn apply(
    edit: Edit,
    at: usize,
    spec: &mut ModelSpec,
    used: &mut BTreeSet<(Part, String)>,
) -> Option<(Part, How, String)> {
    let mut once = |part: Part, name: &str| used.insert((part, name.to_owned()));
    match edit {
        Edit::MoveJoint => {
            let place = at % spec.joints.len();
            let joint = &mut spec.joints[place];
            once(Part::Joint, &joint.joint).then_some(())?;
            joint.y_mm.value += 3.5;
            Some((Part::Joint, How::Moved, joint.joint.value.clone()))
        }
        Edit::RenameTube
        | Edit::TurnTube
        | Edit::AnotherSection
        | Edit::AnotherGroup
        | Edit::RollTube
        | Edit::RemoveTube => {
            let place = at % spec.tubes.len();
            let name = spec.tubes[place].tube.value.clone();
            once(Part::Tube, &name).then_some(())?;
            let tube = &mut spec.tubes[place];
            let how = match edit {
                Edit::RenameTube => {
                    tube.tube.value = format!("{name} again");
                    once(Part::Tube, &tube.tube);
                    return Some((Part::Tube, How::Renamed, format!("{name} again")));
                }
                Edit::TurnTube => {
                    std::mem::swap(&mut tube.from, &mut tube.to);
                    How::Reversed
                }
                Edit::AnotherSection => {
                    let other = if tube.section.value == "rail-30" { "upper-25" } else { "rail-30" };
                    other.clone_into(&mut tube.section.value);
                    How::Changed
                }
                Edit::AnotherGroup => {
                    // Groups that the model's rules name have more to them; a new one has not.
                    "a group of its own".clone_into(&mut tube.group.value);
                    How::Changed
                }
                Edit::RollTube => {
                    tube.roll_deg.value += 30.0;
                    How::Changed
                }
                _ => {
                    spec.tubes.remove(place);
                    How::Gone
                }
            };
            Some((Part::Tube, how, name))
        }
        Edit::AddTube => {
            let number = spec.joints.len();
            let (from, to) =
                (spec.joints[at % number].joint.value.clone(), spec.joints[(at / 7 + 11) % number].joint.value.clone());
            let between = |tube: &&strutwork_model::spec::TubeRow| {
                (tube.from.value == from && tube.to.value == to) || (tube.from.value == to && tube.to.value == from)
            };
            if from == to || spec.tubes.iter().any(|tube| between(&tube)) {
                return None;
            }
            let name = format!("new from {from} to {to}");
            once(Part::Tube, &name).then_some(())?;
            let mut tube = spec.tubes[0].clone();
            (tube.tube.value, tube.from.value, tube.to.value) = (name.clone(), from, to);
            spec.tubes.push(tube);
            Some((Part::Tube, How::Added, name))
        }
        Edit::ThickerWall => {
            let place = at % spec.sections.len();
            let section = &mut spec.sections[place];
            once(Part::Section, &section.name).then_some(())?;
            section.wall = None;
            section.wall_mm = Some(2.25.into());
            Some((Part::Section, How::Changed, section.name.value.clone()))
        }
        Edit::HeavierMass | Edit::MoveMass => {
            let place = at % spec.masses.len();
            let mass = &mut spec.masses[place];
            once(Part::Mass, &mass.mass).then_some(())?;
            if edit == Edit::HeavierMass {
                mass.kg.value *= 1.25;
            } else {
                mass.z_mm.value += 12.0;
            }
            Some((Part::Mass, How::Changed, mass.mass.value.clone()))
        }
        Edit::ThickerPanel => {
            let place = at % spec.panels.len();
            let panel = &mut spec.panels[place];
            once(Part::Panel, &panel.panel).then_some(())?;
            panel.thickness_mm.value += 0.25;
            Some((Part::Panel, How::Changed, panel.panel.value.clone()))
        }
        Edit::StrongerMaterial => {
            let place = at % spec.materials.len();
            let material = &mut spec.materials[place];
            once(Part::Material, &material.name).then_some(())?;
            material.e_mpa = Some(199_000.0.into());
            material.g_mpa = Some(77_000.0.into());
            Some((Part::Material, How::Changed, material.name.value.clone()))
        }
        Edit::ShiftBraking => {
            once(Part::Vehicle, "").then_some(())?;
            spec.vehicle.as_mut()?.front_brake_share = Some(0.613.into());
            Some((Part::Vehicle, How::Changed, String::new()))
        }
        Edit::SofterMount => {
            let place = at % spec.bodies.len();
            let row = &mut spec.bodies[place];
            let name = format!("{} at {}", row.body.value, row.joint.value);
            once(Part::Mount, &name).then_some(())?;
            row.bonds[0] = strutwork_model::spec::BondWritten::Stiffness(4321.0).into();
            Some((Part::Mount, How::Changed, name))
        }
    }
}

/// The demo car as it is written: read once.
static CAR: LazyLock<ModelSpec> = LazyLock::new(car_spec);

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn exactly_the_edits_are_found(
        edits in prop::collection::vec((prop::sample::select(&EDITS[..]), any::<prop::sample::Index>()), 1..12),
        turn in any::<prop::sample::Index>(),
    ) {
        let before = valid(&CAR).expect("the demo car is valid");
        let mut spec = CAR.clone();
        let mut used = BTreeSet::new();
        let mut expected = Vec::new();
        for (edit, at) in &edits {
            expected.extend(apply(*edit, at.index(10_007), &mut spec, &mut used));
        }
        // Rows in another order are no change.
        let by = turn.index(spec.tubes.len());
        spec.tubes.rotate_left(by);
        spec.joints.reverse();
        spec.masses.reverse();
        let Some(after) = valid(&spec) else { return Err(TestCaseError::reject("not a valid model any more")) };
        let inputs = compare_models(&before, &after, [None, None]);
        expected.sort();
        let told: Vec<String> = inputs.changes.iter().map(|change| change.sentence()).collect();
        prop_assert_eq!(happened(&inputs), expected, "{:#?}", told);
        // And back again: as many, with added and gone changed round.
        let back = compare_models(&after, &before, [None, None]);
        prop_assert_eq!(back.changes.len(), inputs.changes.len());
        let count = |of: &strutwork_revision::Inputs, how: How| of.changes.iter().filter(|one| one.how == how).count();
        prop_assert_eq!(count(&back, How::Added), count(&inputs, How::Gone));
    }
}
