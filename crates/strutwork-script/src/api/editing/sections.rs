//! Sections: added, changed, given to tubes.

use rhai::Map;
use rhai::plugin::*;
use strutwork_model::gauges;
use strutwork_model::spec::{SectionEntry, Written};
use strutwork_study::change::write_out;
use strutwork_study::parameter::common_wall;
use strutwork_study::{StudyFault, Tubes};

use super::{find, free};
use crate::api::Raised;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{Named, PerhapsNumber, number, optional};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const SECTION: &[&str] =
    &["shape", "stock", "route", "height_mm", "width_mm", "diameter_mm", "wall_mm", "outer_radius_mm"];

const fn section_name(row: &SectionEntry) -> &Written<String> {
    &row.name
}

/// Puts what the map names into a section; the rest stays. A stock size replaces shape and sizes.
fn put_section(row: &mut SectionEntry, change: &Named<'_>) -> Result<(), Fault> {
    if change.text("stock")?.is_some() {
        *row = SectionEntry { name: row.name.clone(), route: row.route.take(), ..SectionEntry::default() };
    }
    if change.number("wall_mm")?.is_some() {
        row.wall = None;
    }
    for (key, cell) in [("shape", &mut row.shape), ("stock", &mut row.stock), ("route", &mut row.route)] {
        if let Some(text) = change.text(key)? {
            *cell = Some(text.as_str().into());
        }
    }
    for (key, cell) in [
        ("height_mm", &mut row.height_mm),
        ("width_mm", &mut row.width_mm),
        ("diameter_mm", &mut row.diameter_mm),
        ("wall_mm", &mut row.wall_mm),
        ("outer_radius_mm", &mut row.outer_radius_mm),
    ] {
        if let Some(number) = change.number(key)? {
            *cell = Some(number.into());
        }
    }
    Ok(())
}

#[export_module]
mod functions {
    use super::*;

    /// Adds a section: `shape` with its sizes, or `stock` with a size of the built-in list.
    ///
    /// * `shape` is `square`, `rectangular`, `round`, `solid-round` or `flat`.
    /// * `route` is `cold-formed` or `hot-finished`: how a tube was made decides on its buckling curve.
    ///
    /// # Units
    /// `height_mm`, `width_mm`, `diameter_mm`, `wall_mm`, `outer_radius_mm` in mm.
    ///
    /// ```rhai
    /// model().add_section("stiff", #{ shape: "rectangular", height_mm: 50, width_mm: 30, wall_mm: 2.5 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn add_section(frame: Frame, name: &str, section: Map) -> Result<(), Raised> {
        let section = Named::new("add_section", &section, SECTION)?;
        Ok(frame.change("add_section", |spec| {
            free("section", &spec.sections, name, section_name)?;
            let mut row = SectionEntry { name: name.into(), ..SectionEntry::default() };
            put_section(&mut row, &section)?;
            spec.sections.push(row);
            Ok(())
        })?)
    }

    /// Changes a section: any of `shape`, `stock`, `route`, `height_mm`, `width_mm`, `diameter_mm`, `wall_mm`,
    /// `outer_radius_mm`. What is not given stays.
    ///
    /// # Units
    /// Sizes in mm.
    ///
    /// ```rhai
    /// model().set_section("brace", #{ width_mm: 30, wall_mm: 2 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_section(frame: Frame, name: &str, change: Map) -> Result<(), Raised> {
        let named = Named::new("set_section", &change, SECTION)?;
        Ok(frame.change("set_section", |spec| {
            let row = find("section", &mut spec.sections, name, section_name)?;
            let mut changed = row.clone();
            write_out(&mut changed);
            put_section(&mut changed, &named)?;
            *row = changed;
            Ok(())
        })?)
    }

    /// Adds a section that is like another, to be changed by itself.
    ///
    /// ```rhai
    /// let frame = model();
    /// frame.copy_section("brace", "brace of the floor");
    /// frame.set_tube("diagonal-floor", #{ section: "brace of the floor" });
    /// frame.set_wall("brace of the floor", 2);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn copy_section(frame: Frame, section: &str, name: &str) -> Result<(), Raised> {
        Ok(frame.change("copy_section", |spec| {
            free("section", &spec.sections, name, section_name)?;
            let mut row = find("section", &mut spec.sections, section, section_name)?.clone();
            row.name = name.into();
            spec.sections.push(row);
            Ok(())
        })?)
    }

    /// Changes the wall of a section, and with it that of every tube that has the section.
    ///
    /// # Units
    /// `wall_mm` in mm; `gauge_mm("16 swg")` gives that of a gauge.
    ///
    /// ```rhai
    /// model().set_wall("brace", gauge_mm("16 swg"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_wall(frame: Frame, section: &str, wall_mm: Dynamic) -> Result<(), Raised> {
        let wall = number("the wall", &wall_mm)?;
        Ok(frame.change("set_wall", |spec| {
            let row = find("section", &mut spec.sections, section, section_name)?;
            write_out(row);
            row.wall = None;
            row.wall_mm = Some(wall.into());
            Ok(())
        })?)
    }

    /// The wall that all tubes of a group have; `()` where it differs from tube to tube, or they have none.
    ///
    /// * A group without tubes is an unknown name.
    ///
    /// # Units
    /// mm.
    ///
    /// ```rhai
    /// print(model().wall_of("diagonals"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn wall_of(frame: Frame, group: &str) -> Result<PerhapsNumber, Raised> {
        let spec = frame.spec("wall_of")?;
        match common_wall(&spec, &Tubes::Group(group.to_owned())) {
            Ok(wall) => Ok(optional(wall)),
            Err(StudyFault::NoWall { .. }) => Ok(Dynamic::UNIT),
            Err(fault) => Err(Fault::from(fault).into()),
        }
    }

    /// The wall of a gauge, such as `16 swg`.
    ///
    /// # Units
    /// mm.
    ///
    /// ```rhai
    /// print(gauge_mm("16 swg"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn gauge_mm(gauge: &str) -> Result<f64, Raised> {
        let names: Vec<String> = gauges::SWG.iter().map(|(number, _)| format!("{number} swg")).collect();
        gauges::wall_mm(gauge).ok_or_else(|| Fault::unknown("gauge", gauge, names.iter().map(String::as_str)).into())
    }

    /// Gives every tube of a group one section.
    ///
    /// * A group without tubes is an unknown name.
    ///
    /// ```rhai
    /// model().set_group_section("diagonals", "rail");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_group_section(frame: Frame, group: &str, section: &str) -> Result<(), Raised> {
        Ok(frame.change("set_group_section", |spec| {
            find("section", &mut spec.sections, section, section_name)?;
            if spec.tubes.iter().all(|row| row.group.value != group) {
                let known = spec.tubes.iter().map(|row| row.group.value.as_str()).filter(|name| !name.is_empty());
                return Err(Fault::unknown("group of tubes", group, known));
            }
            for row in spec.tubes.iter_mut().filter(|row| row.group.value == group) {
                row.section = section.into();
            }
            Ok(())
        })?)
    }
}
