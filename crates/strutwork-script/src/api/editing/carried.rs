//! What the frame carries, and the factors of its load cases.

use rhai::Map;
use rhai::plugin::*;
use strutwork_model::spec::{CarrierWritten, FactorEntry, MassRow, Written};

use super::{find, free, put_place};
use crate::api::Raised;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{Named, number};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const MASS: &[&str] = &["kg", "x_mm", "y_mm", "z_mm", "joints", "when"];

const fn mass_name(row: &MassRow) -> &Written<String> {
    &row.mass
}

fn carried(joints: &[rhai::ImmutableString]) -> CarrierWritten {
    CarrierWritten::Joints(joints.iter().map(|joint| joint.as_str().into()).collect())
}

const fn factor_name(row: &FactorEntry) -> &Written<String> {
    &row.name
}

#[export_module]
mod functions {
    use super::*;

    /// Adds a mass that joints carry.
    ///
    /// # Units
    /// `kg` in kg; `x_mm`, `y_mm`, `z_mm` of its centre in mm; `joints` an array of names: these are needed. `when`:
    /// "driven" for what is there only while the vehicle is driven; without it, always.
    ///
    /// ```rhai
    /// model().add_mass("toolbox", #{ kg: 12, x_mm: 300, y_mm: 0, z_mm: 250, joints: ["RL", "RR"] });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn add_mass(frame: Frame, name: &str, mass: Map) -> Result<(), Raised> {
        let mass = Named::new("add_mass", &mass, MASS)?;
        let [x, y, z] = [mass.needed("x_mm")?, mass.needed("y_mm")?, mass.needed("z_mm")?];
        let kg = mass.needed("kg")?;
        let when = mass.text("when")?;
        let joints = mass.texts("joints")?.ok_or(Fault::MissingKey { function: "add_mass", key: "joints" })?;
        Ok(frame.change("add_mass", |spec| {
            free("mass", &spec.masses, name, mass_name)?;
            spec.masses.push(MassRow {
                mass: name.into(),
                kg: kg.into(),
                x_mm: x.into(),
                y_mm: y.into(),
                z_mm: z.into(),
                carrier: carried(&joints),
                when: when.as_deref().unwrap_or_default().into(),
                ..MassRow::default()
            });
            Ok(())
        })?)
    }

    /// Changes a mass: any of `kg`, `x_mm`, `y_mm`, `z_mm`, `joints`, `when`. What is not given stays.
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
        let (kg, joints, when) = (change.number("kg")?, change.texts("joints")?, change.text("when")?);
        Ok(frame.change("set_mass", |spec| {
            let row = find("mass", &mut spec.masses, name, mass_name)?;
            let mut changed = row.clone();
            put_place(&change, [&mut changed.x_mm, &mut changed.y_mm, &mut changed.z_mm])?;
            if let Some(kg) = kg {
                changed.kg = kg.into();
            }
            if let Some(joints) = joints {
                changed.carrier = carried(&joints);
            }
            if let Some(when) = when {
                changed.when = when.as_str().into();
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
