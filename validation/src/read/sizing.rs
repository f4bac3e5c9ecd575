//! The table `[sizing]` of a case.

use serde::Deserialize;
use strutwork_model::Dof;
use strutwork_model::units::{MM, MM2, MPA, NM_PER_DEG};

use crate::fault::CaseFault;
use crate::sizing::{LeastStiffness, Sizes, Sizing};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SizingText {
    between_mm2: Option<[f64; 2]>,
    areas_mm2: Option<Vec<f64>>,
    stock: Option<Vec<String>>,
    #[serde(default)]
    group: Vec<GroupText>,
    #[serde(default)]
    movement: Vec<MovementText>,
    stiffness: Option<StiffnessText>,
    #[serde(default)]
    within_yield: bool,
    #[serde(default)]
    proven: bool,
    #[serde(default)]
    rounds: usize,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct GroupText {
    name: String,
    tension_mpa: f64,
    compression_mpa: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MovementText {
    joint: String,
    dof: String,
    at_most_mm: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StiffnessText {
    case: String,
    front: [String; 2],
    rear: [String; 2],
    couple_nm: f64,
    at_least_nm_per_deg: f64,
}

/// What a case asks to be chosen.
pub(super) fn read(text: SizingText) -> Result<Sizing, CaseFault> {
    let sizes = match (text.between_mm2, text.areas_mm2, text.stock) {
        (Some(bounds), None, None) => Sizes::Between(bounds.map(|area| area * MM2)),
        (None, Some(areas), None) => Sizes::Areas(areas.into_iter().map(|area| area * MM2).collect()),
        (None, None, Some(names)) => Sizes::Stock(names),
        _ => return Err(CaseFault::Sizes),
    };
    let movement = |row: MovementText| {
        let dof = Dof::from_name(&row.dof).filter(|dof| !dof.is_rotation());
        let dof = dof.ok_or(CaseFault::Word { kind: "displacement", written: row.dof })?;
        Ok((row.joint, dof, row.at_most_mm * MM))
    };
    Ok(Sizing {
        sizes,
        axial: (text.group.into_iter())
            .map(|group| (group.name, [group.tension_mpa * MPA, group.compression_mpa * MPA]))
            .collect(),
        movements: text.movement.into_iter().map(movement).collect::<Result<_, CaseFault>>()?,
        stiffness: text.stiffness.map(|row| LeastStiffness {
            case: row.case,
            front: row.front,
            rear: row.rear,
            couple: row.couple_nm,
            at_least: row.at_least_nm_per_deg * NM_PER_DEG,
        }),
        within_yield: text.within_yield,
        proven: text.proven,
        rounds: text.rounds,
    })
}
