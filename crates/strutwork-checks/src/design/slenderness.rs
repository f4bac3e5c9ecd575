//! D023: slenderness of tubes in compression.

use strutwork_model::{Code, Severity, TubeId};

use super::member::{compressed, member_of, write_frame_lengths};
use super::steel_tube::{SteelTube, tube_of};
use crate::calculation::{Calculation, Pages, Unit};
use crate::code::class::Class;
use crate::code::member::{self, Member};
use crate::{Finding, Judged, Subject};

/// What the limit is, as a finding names it.
const CLAUSE: &str = "slenderness L_cr/i, [members] slenderness_limit";

/// Where the formulas come from, as a page prints it.
const SOURCE: &str = "i = √(I/A), λ = L_cr/i: elementary; limit: BS 5950-1:1990 4.7.3.2 (from memory), unless the model gives another; \
                      λ̄ ≤ 0.2: EN 1993-1-1:2005 6.3.1.2(4) (read)";

/// Slenderness λ̄ up to which buckling plays no part.
const STOCKY: f64 = 0.2;

/// L_cr/i of each tube that some case compresses, by its weaker axis; a warning above the limit of `[members]`, a note where the
/// tube is so stocky that buckling plays no part.
///
/// A limit of good practice, not of strength: it has no utilisation. D022 says whether the tube carries its load. A slender one
/// bows visibly, hums, and is bent by a knock.
///
/// # Source
/// Limit: BS 5950-1:1990 4.7.3.2 (from memory), unless the user gives another. λ̄ ≤ 0.2: EN 1993-1-1:2005 6.3.1.2(4) (read).
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    judged.model.tubes().ids().filter_map(|tube| of_tube(judged, tube)).collect()
}

/// The case that presses a tube most, the first of equals, and the tube as a member in it; `None` where none presses it.
fn pressed(judged: Judged<'_>, tube: TubeId, steel: &SteelTube) -> Option<(usize, Member)> {
    let mut pressed: Option<(usize, f64)> = None;
    for (at, case) in judged.results.cases.iter().enumerate() {
        let Some(compression) = compressed(&case.tubes[tube].stations, steel) else { continue };
        if pressed.is_none_or(|(_, most)| compression > most) {
            pressed = Some((at, compression));
        }
    }
    pressed.map(|(case, _)| (case, member_of(judged, case, tube, steel)))
}

fn of_tube(judged: Judged<'_>, tube: TubeId) -> Option<Finding> {
    let steel = SteelTube::of(judged, tube)?;
    let (case, member) = pressed(judged, tube, &steel)?;
    let [y, z] = member.slenderness();
    let axis = usize::from(z > y);
    let limit = judged.model.members().slenderness_limit;
    let value = y.max(z);
    let relative = [0, 1].map(|axis| member.reduced(axis, Class::One).slenderness);
    let is_stocky = relative.iter().all(|slenderness| *slenderness <= STOCKY);
    let exceeds = value > limit;
    let name = &judged.model.tubes()[tube].name;
    let word = if exceeds {
        "more slender than it should be: it bows out early and is easily bent"
    } else if is_stocky {
        "so stocky that buckling plays no part"
    } else {
        "within the limit"
    };
    Some(Finding {
        code: Code("D023"),
        severity: if exceeds { Severity::Warning } else { Severity::Note },
        case: judged.results.cases[case].name.clone(),
        subject: Subject::Tube(tube),
        value,
        limit: Some(limit),
        unit: "",
        utilisation: None,
        clause: CLAUSE.to_owned(),
        entered: vec![
            ("L_cr", member.axes[axis].length, Unit::MM),
            ("i", steel.section.profile.radii()[axis], Unit::MM),
            ("λ̄", relative[axis], Unit::ONE),
        ],
        message: format!("tube {name} is pressed and has a slenderness of {value:.0} of {limit:.0}: {word}"),
    })
}

/// The calculation behind a finding.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let tube = tube_of(finding)?;
    let steel = SteelTube::of(judged, tube)?;
    let (case, member) = pressed(judged, tube, &steel)?;
    let mut pages = Pages::default();
    write_frame_lengths(judged, case, tube, &member, &mut pages);
    let used = member::slender(&member, judged.model.members().slenderness_limit, &mut pages);
    let row = &judged.model.tubes()[tube];
    let section = &judged.model.sections()[row.section];
    let title = format!("Tube {} ({}), case {}: slenderness", row.name, section.label, finding.case);
    Some(pages.finish(title, CLAUSE, SOURCE, used))
}
