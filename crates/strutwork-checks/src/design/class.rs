//! D020: walls so thin that they buckle before they yield, and walls thinner than the standard was written for.

use strutwork_model::model::Shape;
use strutwork_model::{Code, Severity, TubeId};

use super::steel_tube::{SteelTube, forces};
use crate::calculation::Silent;
use crate::code::class::Class;
use crate::code::profile::Form;
use crate::code::section::{ROUND_CLASS_4, class_of};
use crate::{Finding, Judged, Subject};

/// Thickness from which on EN 1993-1-1 gives its rules, m.
const THIN: f64 = 3e-3;

/// A note for each tube that is class 4 in some case, and for each section whose wall is thinner than 3 mm.
///
/// Neither is a limit: D021 and D022 hold what is left of a class 4 section against its forces. A round tube of class 4 is a
/// shell, which EN 1993-1-1 does not cover.
///
/// # Source
/// Classes: EN 1993-1-1:2005 5.5 and Table 5.2. Thickness: 1.1.2(1) of the same (from memory); EN 1993-1-3 1.1(3) (read) sends
/// cold formed hollow sections of EN 10219 back to EN 1993-1-1 and EN 1993-1-8.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let tubes = judged.model.tubes().ids().filter_map(|tube| of_tube(judged, tube));
    thin_sections(judged).into_iter().chain(tubes).collect()
}

fn of_tube(judged: Judged<'_>, tube: TubeId) -> Option<Finding> {
    let steel = SteelTube::of(judged, tube)?;
    let profile = &steel.section.profile;
    if steel.section.severest() != Class::Four {
        return None;
    }
    let case = judged.results.cases.iter().enumerate().find(|(at, case)| {
        let margin = judged.margin(*at);
        let stations = case.tubes[tube].stations.iter();
        stations
            .map(|station| forces(station).with_margin(margin, "", &mut Silent))
            .any(|acting| class_of(profile, &acting) == Class::Four)
    });
    let (_, case) = case?;
    let name = &judged.model.tubes()[tube].name;
    let is_round = matches!(profile.form, Form::Round { .. });
    let (severity, clause, message) = if is_round {
        let message = format!(
            "the wall of tube {name} is so thin for its diameter that it buckles before it yields (class 4): {ROUND_CLASS_4}, \
             and D021 and D022 are no proof"
        );
        (Severity::Warning, format!("outside scope: {ROUND_CLASS_4}"), message)
    } else {
        let message = format!(
            "walls of tube {name} are so thin that they buckle before they yield (class 4): its strength is that of an \
             effective section"
        );
        (Severity::Note, "EN 1993-1-1 5.5 and Table 5.2; EN 1993-1-5 4.4".to_owned(), message)
    };
    Some(Finding {
        code: Code("D020"),
        severity,
        case: case.name.clone(),
        subject: Subject::Tube(tube),
        value: f64::from(Class::Four.number()),
        limit: None,
        unit: "",
        utilisation: None,
        clause,
        entered: Vec::new(),
        message,
    })
}

/// One note for each section of thin tube that a tube has.
fn thin_sections(judged: Judged<'_>) -> Vec<Finding> {
    let model = judged.model;
    let sections = model.sections().iter_with_id();
    sections
        .filter_map(|(id, section)| {
            let (Shape::Hollow { wall, .. } | Shape::Round { wall, .. }) = section.shape else { return None };
            let is_used = model.tubes().iter().any(|tube| tube.section == id);
            (is_used && wall < THIN * (1.0 - 1e-9)).then(|| Finding {
                code: Code("D020"),
                severity: Severity::Note,
                case: String::new(),
                subject: Subject::Frame,
                value: wall * 1e3,
                limit: Some(THIN * 1e3),
                unit: "mm",
                utilisation: None,
                clause: "outside scope: walls under 3 mm, EN 1993-1-1 1.1.2(1) (from memory)".to_owned(),
                entered: Vec::new(),
                message: format!(
                    "section {} has a wall of {} mm: EN 1993-1-1 gives its rules for 3 mm and more. EN 1993-1-3 sends tubes of \
                     EN 10219 back to it, so they are used here; that they hold for so thin a wall is for the engineer to accept",
                    section.name,
                    (wall * 1e6).round() / 1e3
                ),
            })
        })
        .collect()
}
