//! One `[[quantity]]` of a case.

use strutwork_model::Dof;
use toml::{Table, Value};

use crate::case::{Allowed, Quantity};
use crate::fault::CaseFault;
use crate::printed::Printed;
use crate::property::{MassProperty, SectionProperty};
use crate::unit::Unit;
use crate::what::{Component, End, StressComponent, What};

/// Reads quantity `number` (counted from 1).
pub(super) fn read(number: usize, table: Table) -> Result<Quantity, CaseFault> {
    let mut entry = Entry { number, table };
    let quantity = Quantity {
        what: entry.what()?,
        unit: Unit::named(&entry.text("unit")?)?,
        printed: Printed::read(&entry.text("printed")?)?,
        formula: entry.optional("formula")?.unwrap_or_default(),
        allowed: entry.allowed()?,
        seen: entry.optional("seen")?.map(super::seen).transpose()?,
    };
    if !entry.table.is_empty() {
        return Err(CaseFault::UnknownKeys { quantity: number, keys: entry.table.keys().cloned().collect() });
    }
    let dimension = quantity.what.dimension();
    if quantity.unit.dimension != dimension {
        return Err(CaseFault::Unit { quantity: number, unit: quantity.unit.name, dimension });
    }
    Ok(quantity)
}

/// The keys not yet read.
struct Entry {
    number: usize,
    table: Table,
}

impl Entry {
    fn missing(&self, key: &'static str) -> CaseFault {
        CaseFault::Key { quantity: self.number, key }
    }

    fn optional(&mut self, key: &'static str) -> Result<Option<String>, CaseFault> {
        match self.table.remove(key) {
            None => Ok(None),
            Some(Value::String(text)) => Ok(Some(text)),
            Some(_) => Err(self.missing(key)),
        }
    }

    fn text(&mut self, key: &'static str) -> Result<String, CaseFault> {
        self.optional(key)?.ok_or_else(|| self.missing(key))
    }

    fn number(&mut self, key: &'static str) -> Result<f64, CaseFault> {
        match self.table.remove(key) {
            Some(Value::Float(value)) if value.is_finite() => Ok(value),
            Some(Value::Integer(value)) => Ok(value as f64),
            _ => Err(self.missing(key)),
        }
    }

    fn pair(&mut self, key: &'static str) -> Result<[String; 2], CaseFault> {
        match self.table.remove(key).as_ref().and_then(Value::as_array).map(Vec::as_slice) {
            Some([Value::String(left), Value::String(right)]) => Ok([left.clone(), right.clone()]),
            _ => Err(self.missing(key)),
        }
    }

    fn at(&mut self) -> Result<f64, CaseFault> {
        let at = self.number("at")?;
        if (0.0..=1.0).contains(&at) { Ok(at) } else { Err(self.missing("at")) }
    }

    fn one_of<T: Copy>(&mut self, key: &'static str, list: &[(T, &'static str)]) -> Result<T, CaseFault> {
        let written = self.text(key)?;
        let found = list.iter().find(|(_, name)| *name == written);
        found.map(|(value, _)| *value).ok_or(CaseFault::Word { kind: key, written })
    }

    fn dof(&mut self) -> Result<Dof, CaseFault> {
        let written = self.text("dof")?;
        Dof::from_name(&written).ok_or(CaseFault::Word { kind: "freedom", written })
    }

    fn what(&mut self) -> Result<What, CaseFault> {
        let kind = self.text("what")?;
        Ok(match kind.as_str() {
            "displacement" => What::Displacement {
                case: self.text("case")?,
                joint: self.text("joint")?,
                minus_joint: self.optional("minus_joint")?,
                dof: self.dof()?,
            },
            "reaction" => What::Reaction { case: self.text("case")?, joint: self.text("joint")?, dof: self.dof()? },
            "member_force" => What::MemberForce {
                case: self.text("case")?,
                tube: self.text("tube")?,
                at: self.at()?,
                component: self.one_of("component", &Component::NAMED)?,
            },
            "end_force" => What::EndForce {
                case: self.text("case")?,
                tube: self.text("tube")?,
                end: self.one_of("end", &End::NAMED)?,
                component: self.one_of("component", &Component::NAMED)?,
            },
            "stress" => What::Stress {
                case: self.text("case")?,
                tube: self.text("tube")?,
                at: self.at()?,
                component: self.one_of("component", &StressComponent::NAMED)?,
            },
            "section" => {
                let (section, written) = (self.text("section")?, self.text("property")?);
                let property = SectionProperty::named(&written);
                What::Section { section, property: property.ok_or(CaseFault::Word { kind: "property", written })? }
            }
            "mass" => {
                let written = self.text("property")?;
                let property = MassProperty::named(&written);
                What::Mass { property: property.ok_or(CaseFault::Word { kind: "property", written })? }
            }
            "acceleration" => What::Acceleration { case: self.text("case")?, dof: self.dof()? },
            "torsional_stiffness" => What::TorsionalStiffness {
                case: self.text("case")?,
                front: self.pair("front")?,
                rear: self.pair("rear")?,
                couple: self.number("couple_nm")?,
            },
            _ => return Err(CaseFault::Word { kind: "kind of quantity", written: kind }),
        })
    }

    fn allowed(&mut self) -> Result<Option<Allowed>, CaseFault> {
        let because = self.optional("because")?.filter(|because| !because.trim().is_empty());
        let difference = if self.table.contains_key("allow") { Some(self.number("allow")?) } else { None };
        match (difference, because) {
            (None, None) => Ok(None),
            (Some(difference), Some(because)) if difference > 0.0 => Ok(Some(Allowed { difference, because })),
            _ => Err(CaseFault::Allowed { quantity: self.number }),
        }
    }
}
