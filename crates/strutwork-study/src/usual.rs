//! The questions that need no script: which gauge for which group, which diagonals earn their weight.

use strutwork_model::spec::{ModelSpec, SectionEntry, TubeRow};
use strutwork_model::{gauges, stock};

use crate::design::Design;
use crate::fault::StudyFault;
use crate::parameter::{Change, Levels, OFF, ON, Parameter, Tubes, wall_of};
use crate::response::{Asked, Response};
use crate::study::Study;
use crate::value::Value;

/// A full grid of more variants than this becomes one at a time.
pub const SMALL_GRID: u64 = 729;

/// Every group's wall, one size down and one up in the stock list: the full grid where it is small, one at a time otherwise.
///
/// Tubes that belong to no group are taken together by their section; sections without a wall are left out.
///
/// # Errors
/// [`StudyFault::Needs`] where nothing has a wall with a neighbour.
pub fn gauges(spec: &ModelSpec, name: &str) -> Result<Study, StudyFault> {
    let mut study = Study::new(name, spec.clone());
    for tubes in groups(spec) {
        let section = spec.tubes.iter().find(|row| tubes.holds(row)).and_then(|row| section_of(spec, row));
        let Some(levels) = section.and_then(neighbours) else { continue };
        let change = Change::Wall(tubes);
        match Parameter::new(spec, None, change, Levels::List(levels)) {
            Ok(parameter) => study.parameters.push(parameter),
            Err(StudyFault::NoWall { .. }) => {}
            Err(fault) => return Err(fault),
        }
    }
    if study.parameters.is_empty() {
        return Err(StudyFault::Needs("tubes whose wall has a thinner or thicker neighbour in the stock list"));
    }
    study.design = Design::FullGrid;
    if study.design.count(&study.parameters).map_or(true, |count| count > SMALL_GRID) {
        study.design = Design::OneAtATime;
    }
    Ok(study)
}

/// The tubes of a group, each on or off: sets of up to `most` that are left out.
///
/// # Errors
/// [`StudyFault::UnknownName`] for a group without tubes; [`StudyFault::Design`] for too many sets.
pub fn diagonals(spec: &ModelSpec, name: &str, group: &str, most: usize) -> Result<Study, StudyFault> {
    let mut study = Study::new(name, spec.clone());
    let tubes = Tubes::Group(group.to_owned());
    for row in spec.tubes.iter().filter(|row| tubes.holds(row)) {
        let change = Change::Presence(vec![row.tube.value.clone()]);
        let levels = Levels::List(vec![ON.into(), OFF.into()]);
        study.parameters.push(Parameter::new(spec, None, change, levels)?);
    }
    if study.parameters.is_empty() {
        let groups = spec.tubes.iter().map(|row| row.group.value.as_str()).filter(|group| !group.is_empty());
        return Err(StudyFault::unknown("group of tubes", group, groups));
    }
    study.design = Design::Subsets { most };
    study.design.count(&study.parameters)?;
    Ok(study)
}

/// Asks what is usually asked: mass, torsional stiffness where something can be twisted, utilisation where there are cases.
pub fn ask(study: &mut Study, twist: bool, cases: bool) {
    let mut add = |name: &str, asked| study.responses.push(Response { name: name.to_owned(), asked });
    add("tubes_kg", Asked::TubesMass);
    if twist {
        add("stiffness_nm_per_deg", Asked::TwistStiffness);
    }
    if cases {
        add("utilisation", Asked::Utilisation(None));
        add("items_outside_scope", Asked::OutsideScope);
    }
}

/// Groups in order of first use, and sections of tubes without a group.
fn groups(spec: &ModelSpec) -> Vec<Tubes> {
    let mut groups: Vec<Tubes> = Vec::new();
    for row in &spec.tubes {
        let tubes = if row.group.is_empty() {
            Tubes::Section(row.section.value.clone())
        } else {
            Tubes::Group(row.group.value.clone())
        };
        if !groups.contains(&tubes) {
            groups.push(tubes);
        }
    }
    groups
}

fn section_of<'s>(spec: &'s ModelSpec, row: &TubeRow) -> Option<&'s SectionEntry> {
    spec.sections.iter().find(|section| section.name == row.section)
}

/// The wall of a section between the next thinner and the next thicker that its outer size is sold in, mm; for an outer size
/// that the stock list does not have, of the standard wire gauges. `None` where it has no wall.
fn neighbours(section: &SectionEntry) -> Option<Vec<Value>> {
    let own = wall_of(section)?;
    let mut row = section.clone();
    crate::change::write_out(&mut row);
    let number = |cell: &Option<strutwork_model::spec::Written<f64>>| cell.as_ref().map(|cell| cell.value);
    let shape = row.shape.as_ref().map(|shape| shape.value.as_str());
    let width = number(&row.diameter_mm).or_else(|| number(&row.width_mm));
    let height = number(&row.diameter_mm).or_else(|| number(&row.height_mm)).or(width);
    let alike = |size: &stock::StockSize| {
        let of_shape = match size.shape {
            stock::StockShape::Square => shape == Some("square"),
            stock::StockShape::Rectangular => shape == Some("rectangular"),
            stock::StockShape::Round => shape == Some("round"),
        };
        of_shape && Some(size.height_mm) == height && Some(size.width_mm) == width
    };
    let mut walls: Vec<f64> = stock::all().filter(alike).map(|size| size.wall_mm).collect();
    if walls.is_empty() {
        walls = gauges::SWG.iter().map(|&(_, wall)| wall).collect();
    }
    let thinner = walls.iter().copied().filter(|wall| *wall < own).reduce(f64::max);
    let thicker = walls.iter().copied().filter(|wall| *wall > own).reduce(f64::min);
    if thinner.is_none() && thicker.is_none() {
        return None;
    }
    Some([thinner, Some(own), thicker].into_iter().flatten().map(Value::Number).collect())
}
