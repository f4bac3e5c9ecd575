//! What a change did to the frame, in a few numbers.

use super::naming::Naming;
use crate::results::ResultSet;

/// What a change did. Each pair is before and after; `None` where one of the revisions does not say it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Verdict {
    /// Torsional stiffness, N·m/deg.
    pub stiffness: Option<[f64; 2]>,
    /// What the tubes weigh, kg.
    pub frame_mass: Option<[f64; 2]>,
    /// What everything weighs, kg.
    pub mass: Option<[f64; 2]>,
    /// Grams of tube for each N·m/deg.
    pub grams: Option<[f64; 2]>,
    /// The item nearest to its limit.
    pub worst: [Option<Worst>; 2],
}

/// The item nearest to its limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Worst {
    /// Value over limit.
    pub utilisation: f64,
    /// What kind of item.
    pub kind: String,
    /// Its name, by the second revision's.
    pub item: String,
    /// The check that governs it.
    pub code: String,
    /// In which case; empty where it holds for all.
    pub case: String,
    /// Whether a clause covers it: `in` or `outside`, which is never a pass.
    pub scope: String,
}

impl Verdict {
    pub(super) fn of(a: &ResultSet, b: &ResultSet, naming: &Naming) -> Self {
        let pair =
            |quantity: &str| a.of_frame(quantity).zip(b.of_frame(quantity)).map(|(before, after)| [before, after]);
        let worst = |set: &ResultSet, named: &dyn Fn(&str, &str) -> String| {
            set.items.iter().find_map(|item| {
                Some(Worst {
                    utilisation: item.utilisation?,
                    kind: item.kind.clone(),
                    item: named(&item.kind, &item.item),
                    code: item.code.clone(),
                    case: item.case.clone(),
                    scope: item.scope.clone(),
                })
            })
        };
        Self {
            stiffness: pair("torsional_stiffness"),
            frame_mass: pair("frame_mass"),
            mass: pair("mass"),
            grams: pair("frame_mass_per_stiffness"),
            worst: [worst(a, &|kind, item| naming.item(kind, item).into_owned()), worst(b, &|_, item| item.to_owned())],
        }
    }

    /// Grams of tube that each N·m/deg of change cost: mass more over stiffness more. `None` where either does not change.
    pub fn grams_of_change(&self) -> Option<f64> {
        let (stiffness, mass) = (self.stiffness?, self.frame_mass?);
        let (more_stiff, more_mass) = (stiffness[1] - stiffness[0], mass[1] - mass[0]);
        let worth =
            more_stiff.abs() > super::SAME * stiffness[1].abs() && more_mass.abs() > super::SAME * mass[1].abs();
        worth.then(|| 1000.0 * more_mass / more_stiff)
    }
}
