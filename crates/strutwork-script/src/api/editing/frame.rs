//! Joints and tubes: added, changed, taken out.

use rhai::Map;
use rhai::plugin::*;
use strutwork_model::spec::{BucklingWritten, JointRow, ModelSpec, TubeRow, Written};

use super::{PLACE, find, free, put_place};
use crate::api::Raised;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::Named;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const TUBE: &[&str] = &[
    "from",
    "to",
    "section",
    "material",
    "group",
    "roll_deg",
    "release_from",
    "release_to",
    "buckling_y_mm",
    "buckling_z_mm",
    "buckling_factor_y",
    "buckling_factor_z",
];

const fn joint_name(row: &JointRow) -> &Written<String> {
    &row.joint
}

const fn tube_name(row: &TubeRow) -> &Written<String> {
    &row.tube
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
    put_buckling(&mut row.buckling, change)
}

/// Puts buckling lengths into a tube: of length and factor the one that is given takes the other's place.
fn put_buckling(buckling: &mut [BucklingWritten; 2], change: &Named<'_>) -> Result<(), Fault> {
    let keys = [("buckling_y_mm", "buckling_factor_y"), ("buckling_z_mm", "buckling_factor_z")];
    for ((length, factor), cell) in keys.into_iter().zip(buckling) {
        let (length, factor) = (change.number(length)?, change.number(factor)?);
        if length.is_some() || factor.is_some() {
            *cell = BucklingWritten { length_mm: length.map(Written::from), factor: factor.map(Written::from) };
        }
    }
    Ok(())
}

/// Takes a tube out, and the loads on it.
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

    /// Adds a tube: `from`, `to`, `section` and `material` are needed; `group`, `roll_deg`, `release_from`, `release_to`,
    /// and for each axis `buckling_y_mm` or `buckling_factor_y` may follow.
    ///
    /// # Units
    /// `roll_deg` in degrees; `buckling_y_mm`, `buckling_z_mm` in mm; their factors are on the tube's own length.
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

    /// Changes a tube: any of `from`, `to`, `section`, `material`, `group`, `roll_deg`, `release_from`, `release_to`,
    /// `buckling_y_mm` or `buckling_factor_y`, `buckling_z_mm` or `buckling_factor_z`. What is not given stays.
    ///
    /// # Units
    /// `roll_deg` in degrees; `buckling_y_mm`, `buckling_z_mm` in mm, for bending about the tube's own y and z; their
    /// factors are on the tube's own length.
    ///
    /// ```rhai
    /// model().set_tube("rail-left", #{ section: "brace", roll_deg: 45 });
    /// model().set_tube("rail-right", #{ buckling_y_mm: 900, buckling_factor_z: 0.75 });
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
}
