//! Which result a `[[quantity]]` means: its key `what` and the keys that belong to it.

use strutwork_model::model::Wheel;
use strutwork_model::units::NM_PER_DEG;

use super::quantity::Entry;
use crate::fault::CaseFault;
use crate::part::{BayPart, Component, End, LinkPart, MountPart, PanelPart, RollPart, StressComponent};
use crate::place::Place;
use crate::property::{MassProperty, SectionProperty};
use crate::rig::RigPart;
use crate::sizing::SizedPart;
use crate::what::{CaseWhat, What};

/// Takes the keys of one result.
pub(super) fn read(entry: &mut Entry) -> Result<What, CaseFault> {
    let kind = entry.text("what")?;
    Ok(match kind.as_str() {
        "section" => {
            let (section, written) = (entry.text("section")?, entry.text("property")?);
            let property = SectionProperty::named(&written);
            What::Section { section, property: property.ok_or(CaseFault::Word { kind: "property", written })? }
        }
        "mass" => {
            let written = entry.text("property")?;
            let property = MassProperty::named(&written);
            What::Mass { property: property.ok_or(CaseFault::Word { kind: "property", written })? }
        }
        "frequency" => What::Frequency {
            mode: entry.count("mode")?,
            pieces: entry.count("pieces")?,
            under: entry.optional("under")?,
        },
        "formula" => What::Formula { formula: entry.text("formula")?, symbol: entry.text("symbol")? },
        "panel_diagonal" => What::PanelDiagonal {
            panel: entry.text("panel")?,
            diagonal: entry.one_of("diagonal", &[(0, "1-3"), (1, "2-4")])?,
            material: entry.text("material")?,
        },
        "bay" => What::Bay { joints: entry.texts("joints")?, part: entry.one_of("part", &BayPart::NAMED)? },
        "roll_share" => What::Roll { frame: frame(entry)?, part: RollPart::Reaching },
        "roll_couple" => What::Roll {
            frame: frame(entry)?,
            part: RollPart::Carried {
                axle: entry.one_of("axle", &[(0, "front"), (1, "rear")])?,
                couples: entry.numbers("couples_nm")?,
            },
        },
        "rig" => What::Rig { part: entry.one_of("part", &RigPart::NAMED)? },
        "rig_bay" => What::RigBay { station: entry.text("station")? },
        "sized_mass" => What::SizedMass(SizedPart::Best),
        "sized_runner_up" => What::SizedMass(SizedPart::RunnerUp),
        "ratio" => {
            let (of, to) = (entry.inner("of", read)?, entry.inner("to", read)?);
            if of.dimension() != to.dimension() || of.dimension().is_none() {
                return Err(CaseFault::Ratio { quantity: entry.place() });
            }
            What::Ratio { of: Box::new(of), to: Box::new(to) }
        }
        _ => {
            let second_order = entry.has("second_order") && entry.truth("second_order")?;
            let result = of_case(entry, kind)?;
            let result = if second_order { CaseWhat::SecondOrder { of: Box::new(result) } } else { result };
            What::OfCase { result, case: entry.text("case")? }
        }
    })
}

fn of_case(entry: &mut Entry, kind: String) -> Result<CaseWhat, CaseFault> {
    Ok(match kind.as_str() {
        "displacement" => CaseWhat::Displacement {
            joint: entry.text("joint")?,
            minus_joint: entry.optional("minus_joint")?,
            dof: entry.dof()?,
        },
        "body_movement" => CaseWhat::BodyMovement { body: entry.text("body")?, dof: entry.dof()? },
        "reaction" => CaseWhat::Reaction { joint: entry.text("joint")?, dof: entry.dof()? },
        "member_force" => CaseWhat::MemberForce {
            tube: entry.text("tube")?,
            at: entry.at()?,
            component: entry.one_of("component", &Component::NAMED)?,
        },
        "end_force" => CaseWhat::EndForce {
            tube: entry.text("tube")?,
            end: entry.one_of("end", &End::NAMED)?,
            component: entry.one_of("component", &Component::NAMED)?,
        },
        "stress" => CaseWhat::Stress {
            tube: entry.text("tube")?,
            at: entry.at()?,
            component: entry.one_of("component", &StressComponent::NAMED)?,
        },
        "mount" => CaseWhat::Mount {
            body: entry.text("body")?,
            joint: entry.text("joint")?,
            part: entry.one_of("part", &MountPart::NAMED)?,
        },
        "link" => CaseWhat::Link {
            wheel: entry.one_of("wheel", &Wheel::ALL.map(|wheel| (wheel, wheel.name())))?,
            link: entry.text("link")?,
            part: entry.one_of("part", &LinkPart::NAMED)?,
        },
        "panel" => CaseWhat::Panel { panel: entry.text("panel")?, part: entry.one_of("part", &PanelPart::NAMED)? },
        "acceleration" => CaseWhat::Acceleration { dof: entry.dof()? },
        "load_factor" => CaseWhat::LoadFactor { mode: entry.count("mode")?, pieces: entry.maybe_count("pieces")? },
        "left_over" => CaseWhat::LeftOver,
        "stands_share" => CaseWhat::StandsShare,
        "check" => CaseWhat::Check { check: entry.text("check")?, place: place(entry)?, symbol: entry.text("symbol")? },
        "torsional_stiffness" => CaseWhat::TorsionalStiffness {
            front: entry.texts("front")?,
            rear: entry.texts("rear")?,
            couple: entry.number("couple_nm")?,
        },
        _ => return Err(CaseFault::Word { kind: "kind of quantity", written: kind }),
    })
}

/// What a check judges, by the keys that name it; the frame where none does.
fn place(entry: &mut Entry) -> Result<Place, CaseFault> {
    if let Some(tube) = entry.optional("tube")? {
        return Ok(match entry.has("end") {
            true => Place::End(tube, entry.one_of("end", &End::NAMED)?),
            false => Place::Tube(tube),
        });
    }
    if let Some(body) = entry.optional("body")? {
        return Ok(Place::Mount(body, entry.text("joint")?));
    }
    if let Some(panel) = entry.optional("panel")? {
        return Ok(Place::Panel(panel));
    }
    Ok(entry.optional("joint")?.map_or(Place::Frame, Place::Joint))
}

/// Torsional stiffness of the frame, N·m/rad.
fn frame(entry: &mut Entry) -> Result<f64, CaseFault> {
    Ok(entry.number("frame_nm_per_deg")? * NM_PER_DEG)
}
