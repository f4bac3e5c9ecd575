//! Changing a model: joints, tubes, sections, masses, factors.

use rhai::Map;
use rhai::plugin::*;
use strutwork_model::gauges;
use strutwork_model::spec::{FactorEntry, JointRow, MassRow, ModelSpec, SectionEntry, TubeRow, Written};
use strutwork_model::stock::{self, StockShape};

use super::Raised;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{Named, number};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const PLACE: [&str; 3] = ["x_mm", "y_mm", "z_mm"];
const TUBE: &[&str] = &["from", "to", "section", "material", "group", "roll_deg", "release_from", "release_to"];
const SECTION: &[&str] = &["shape", "stock", "height_mm", "width_mm", "diameter_mm", "wall_mm", "outer_radius_mm"];
const MASS: &[&str] = &["kg", "x_mm", "y_mm", "z_mm", "joints"];

/// The row with this name, to be changed.
fn find<'s, T>(
    kind: &'static str,
    rows: &'s mut [T],
    name: &str,
    name_of: fn(&T) -> &Written<String>,
) -> Result<&'s mut T, Fault> {
    match rows.iter().position(|row| name_of(row).value == name) {
        Some(place) => Ok(&mut rows[place]),
        None => Err(Fault::unknown(kind, name, rows.iter().map(|row| name_of(row).value.as_str()))),
    }
}

/// Refuses a name that a row has already.
fn free<T>(kind: &'static str, rows: &[T], name: &str, name_of: fn(&T) -> &Written<String>) -> Result<(), Fault> {
    if rows.iter().any(|row| name_of(row).value == name) {
        return Err(Fault::NameTaken { kind, name: name.to_owned() });
    }
    Ok(())
}

const fn joint_name(row: &JointRow) -> &Written<String> {
    &row.joint
}

const fn tube_name(row: &TubeRow) -> &Written<String> {
    &row.tube
}

const fn section_name(row: &SectionEntry) -> &Written<String> {
    &row.name
}

const fn mass_name(row: &MassRow) -> &Written<String> {
    &row.mass
}

const fn factor_name(row: &FactorEntry) -> &Written<String> {
    &row.name
}

/// Puts what the map names into a tube; the rest stays.
fn put_tube(row: &mut TubeRow, change: &Named<'_>) -> Result<(), Fault> {
    for (key, cell) in [
        ("from", &mut row.from),
        ("to", &mut row.to),
        ("section", &mut row.section),
        ("material", &mut row.material),
        ("group", &mut row.group),
        ("release_from", &mut row.release_from),
        ("release_to", &mut row.release_to),
    ] {
        if let Some(text) = change.text(key)? {
            *cell = text.as_str().into();
        }
    }
    if let Some(roll) = change.number("roll_deg")? {
        row.roll_deg = roll.into();
    }
    Ok(())
}

/// Puts what the map names into a section; the rest stays. A stock size replaces shape and sizes.
fn put_section(row: &mut SectionEntry, change: &Named<'_>) -> Result<(), Fault> {
    if change.text("stock")?.is_some() {
        *row = SectionEntry { name: row.name.clone(), ..SectionEntry::default() };
    }
    if change.number("wall_mm")?.is_some() {
        row.wall = None;
    }
    for (key, cell) in [("shape", &mut row.shape), ("stock", &mut row.stock)] {
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

/// A section from the stock list, written out in its sizes, so that one of them can be changed.
fn write_out(row: &mut SectionEntry) {
    let Some(size) = row.stock.as_ref().and_then(|stock| stock::find(stock)) else { return };
    let (shape, height, width, diameter) = match size.shape {
        StockShape::Square => ("square", None, Some(size.width_mm), None),
        StockShape::Rectangular => ("rectangular", Some(size.height_mm), Some(size.width_mm), None),
        StockShape::Round => ("round", None, None, Some(size.height_mm)),
    };
    row.stock = None;
    row.shape = Some(shape.into());
    row.height_mm = height.map(Written::from);
    row.width_mm = width.map(Written::from);
    row.diameter_mm = diameter.map(Written::from);
    row.wall_mm = Some(size.wall_mm.into());
}

fn put_place(change: &Named<'_>, cells: [&mut Written<f64>; 3]) -> Result<(), Fault> {
    for (key, cell) in PLACE.into_iter().zip(cells) {
        if let Some(number) = change.number(key)? {
            *cell = number.into();
        }
    }
    Ok(())
}

fn remove_tube_from(spec: &mut ModelSpec, name: &str) -> Result<(), Fault> {
    find("tube", &mut spec.tubes, name, tube_name)?;
    spec.tubes.retain(|row| row.tube.value != name);
    spec.tube_loads.retain(|row| row.tube.value != name);
    spec.tube_point_loads.retain(|row| row.tube.value != name);
    spec.temperatures.retain(|row| row.tube.value != name);
    Ok(())
}

#[export_module]
mod functions {
    use super::*;

    /// Adds a joint.
    ///
    /// # Units
    /// `x_mm`, `y_mm`, `z_mm` in mm; all three are needed.
    ///
    /// ```rhai
    /// let frame = model();
    /// frame.add_joint("mid", #{ x_mm: 900, y_mm: 0, z_mm: 450 });
    /// frame.add_tube("brace-a", #{ from: "FL", to: "mid", section: "brace", material: "mild" });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn add_joint(frame: Frame, name: &str, place: Map) -> Result<(), Raised> {
        let place = Named::new("add_joint", &place, &PLACE)?;
        let [x, y, z] = [place.needed("x_mm")?, place.needed("y_mm")?, place.needed("z_mm")?];
        Ok(frame.change("add_joint", |spec| {
            free("joint", &spec.joints, name, joint_name)?;
            spec.joints.push(JointRow {
                joint: name.into(),
                x_mm: x.into(),
                y_mm: y.into(),
                z_mm: z.into(),
                note: String::new(),
            });
            Ok(())
        })?)
    }

    /// Moves a joint. What is not given stays.
    ///
    /// # Units
    /// `x_mm`, `y_mm`, `z_mm` in mm: the new place, not the distance.
    ///
    /// ```rhai
    /// model().move_joint("FLT", #{ z_mm: 620 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn move_joint(frame: Frame, name: &str, place: Map) -> Result<(), Raised> {
        let place = Named::new("move_joint", &place, &PLACE)?;
        Ok(frame.change("move_joint", |spec| {
            let row = find("joint", &mut spec.joints, name, joint_name)?;
            let mut moved = row.clone();
            put_place(&place, [&mut moved.x_mm, &mut moved.y_mm, &mut moved.z_mm])?;
            *row = moved;
            Ok(())
        })?)
    }

    /// Takes a joint out. What still names it is a fault when the model is next needed.
    ///
    /// ```rhai
    /// let frame = model();
    /// frame.add_joint("spare", #{ x_mm: 0, y_mm: 0, z_mm: 900 });
    /// frame.remove_joint("spare");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn remove_joint(frame: Frame, name: &str) -> Result<(), Raised> {
        Ok(frame.change("remove_joint", |spec| {
            find("joint", &mut spec.joints, name, joint_name)?;
            spec.joints.retain(|row| row.joint.value != name);
            Ok(())
        })?)
    }

    /// Adds a tube: `from`, `to`, `section` and `material` are needed; `group`, `roll_deg`, `release_from`, `release_to`
    /// may follow.
    ///
    /// # Units
    /// `roll_deg` in degrees.
    ///
    /// ```rhai
    /// model().add_tube("floor", #{ from: "FL", to: "RR", section: "brace", material: "mild", group: "diagonals" });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn add_tube(frame: Frame, name: &str, tube: Map) -> Result<(), Raised> {
        let tube = Named::new("add_tube", &tube, TUBE)?;
        for key in ["from", "to", "section", "material"] {
            tube.needed_text(key)?;
        }
        Ok(frame.change("add_tube", |spec| {
            free("tube", &spec.tubes, name, tube_name)?;
            let mut row = TubeRow { tube: name.into(), ..TubeRow::default() };
            put_tube(&mut row, &tube)?;
            spec.tubes.push(row);
            Ok(())
        })?)
    }

    /// Changes a tube: any of `from`, `to`, `section`, `material`, `group`, `roll_deg`, `release_from`, `release_to`. What
    /// is not given stays.
    ///
    /// # Units
    /// `roll_deg` in degrees.
    ///
    /// ```rhai
    /// model().set_tube("rail-left", #{ section: "brace", roll_deg: 45 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_tube(frame: Frame, name: &str, change: Map) -> Result<(), Raised> {
        let change = Named::new("set_tube", &change, TUBE)?;
        Ok(frame.change("set_tube", |spec| {
            let row = find("tube", &mut spec.tubes, name, tube_name)?;
            let mut changed = row.clone();
            put_tube(&mut changed, &change)?;
            *row = changed;
            Ok(())
        })?)
    }

    /// Takes a tube out, with the loads that the load files put on it.
    ///
    /// ```rhai
    /// model().remove_tube("diagonal-left");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn remove_tube(frame: Frame, name: &str) -> Result<(), Raised> {
        Ok(frame.change("remove_tube", |spec| remove_tube_from(spec, name))?)
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

    /// Adds a section: `shape` with its sizes, or `stock` with a size of the built-in list.
    ///
    /// * `shape` is `square`, `rectangular`, `round`, `solid-round` or `flat`.
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

    /// Changes a section: any of `shape`, `stock`, `height_mm`, `width_mm`, `diameter_mm`, `wall_mm`, `outer_radius_mm`.
    /// What is not given stays.
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

    /// Adds a mass that joints carry.
    ///
    /// # Units
    /// `kg` in kg; `x_mm`, `y_mm`, `z_mm` of its centre in mm; `joints` an array of names. All are needed.
    ///
    /// ```rhai
    /// model().add_mass("toolbox", #{ kg: 12, x_mm: 300, y_mm: 0, z_mm: 250, joints: ["RL", "RR"] });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn add_mass(frame: Frame, name: &str, mass: Map) -> Result<(), Raised> {
        let mass = Named::new("add_mass", &mass, MASS)?;
        let [x, y, z] = [mass.needed("x_mm")?, mass.needed("y_mm")?, mass.needed("z_mm")?];
        let kg = mass.needed("kg")?;
        let joints = mass.texts("joints")?.ok_or(Fault::MissingKey { function: "add_mass", key: "joints" })?;
        Ok(frame.change("add_mass", |spec| {
            free("mass", &spec.masses, name, mass_name)?;
            spec.masses.push(MassRow {
                mass: name.into(),
                kg: kg.into(),
                x_mm: x.into(),
                y_mm: y.into(),
                z_mm: z.into(),
                joints: joints.iter().map(|joint| joint.as_str().into()).collect(),
                ..MassRow::default()
            });
            Ok(())
        })?)
    }

    /// Changes a mass: any of `kg`, `x_mm`, `y_mm`, `z_mm`, `joints`. What is not given stays.
    ///
    /// # Units
    /// `kg` in kg; `x_mm`, `y_mm`, `z_mm` in mm.
    ///
    /// ```rhai
    /// model().set_mass("driver", #{ kg: 95 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_mass(frame: Frame, name: &str, change: Map) -> Result<(), Raised> {
        let change = Named::new("set_mass", &change, MASS)?;
        let (kg, joints) = (change.number("kg")?, change.texts("joints")?);
        Ok(frame.change("set_mass", |spec| {
            let row = find("mass", &mut spec.masses, name, mass_name)?;
            let mut changed = row.clone();
            put_place(&change, [&mut changed.x_mm, &mut changed.y_mm, &mut changed.z_mm])?;
            if let Some(kg) = kg {
                changed.kg = kg.into();
            }
            if let Some(joints) = joints {
                changed.joints = joints.iter().map(|joint| joint.as_str().into()).collect();
            }
            *row = changed;
            Ok(())
        })?)
    }

    /// Takes a mass out.
    ///
    /// ```rhai
    /// model().remove_mass("battery");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn remove_mass(frame: Frame, name: &str) -> Result<(), Raised> {
        Ok(frame.change("remove_mass", |spec| {
            find("mass", &mut spec.masses, name, mass_name)?;
            spec.masses.retain(|row| row.mass.value != name);
            Ok(())
        })?)
    }

    /// Sets a factor in place of the one that a case script has, as `[factors]` in model.toml does.
    ///
    /// # Units
    /// `value` in the unit that the case script asks for.
    ///
    /// ```rhai
    /// model().set_factor("braking_g", 0.9, "measured on our own test track");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_factor(frame: Frame, name: &str, value: Dynamic, source: &str) -> Result<(), Raised> {
        let value = number("the value of a factor", &value)?;
        Ok(frame.change("set_factor", |spec| {
            let entry = FactorEntry { name: name.into(), value: value.into(), source: source.into() };
            match find("factor", &mut spec.factors, name, factor_name) {
                Ok(known) => *known = entry,
                Err(_) => spec.factors.push(entry),
            }
            Ok(())
        })?)
    }
}
