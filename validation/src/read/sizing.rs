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

#[cfg(test)]
mod tests {
    use super::*;

    fn sizing(text: &str) -> Result<Sizing, String> {
        let text: SizingText = toml::from_str(text).map_err(|fault| fault.to_string())?;
        read(text).map_err(|fault| fault.to_string())
    }

    #[test]
    fn limits_are_read_in_their_units() {
        let read = sizing(
            "between_mm2 = [10, 200]\n[[group]]\nname = \"g\"\ntension_mpa = 150\ncompression_mpa = 100\n\
             [[movement]]\njoint = \"j\"\ndof = \"uy\"\nat_most_mm = 5\n",
        )
        .unwrap();
        assert_eq!(read.sizes, Sizes::Between([10.0 * MM2, 200.0 * MM2]));
        assert_eq!(read.axial, [("g".to_owned(), [150e6, 100e6])]);
        assert_eq!(read.movements, [("j".to_owned(), Dof::Uy, 5e-3)]);
    }

    #[test]
    fn what_says_no_sense_is_an_error() {
        for text in [
            "",
            "areas_mm2 = [1.0]\nstock = [\"square 30x2\"]",
            "areas_mm2 = [1.0]\nweight = 3",
            "areas_mm2 = [1.0]\n[[group]]\nname = \"g\"",
            "areas_mm2 = [1.0]\n[[movement]]\njoint = \"j\"\ndof = \"rx\"\nat_most_mm = 5",
        ] {
            assert!(sizing(text).is_err(), "{text}");
        }
    }
}
