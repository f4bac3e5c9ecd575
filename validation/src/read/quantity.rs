//! One `[[quantity]]` of a case.

use strutwork_model::Dof;
use toml::{Table, Value};

use crate::case::{Allowed, Quantity};
use crate::fault::CaseFault;
use crate::printed::Printed;
use crate::unit::Unit;

use super::what;

/// Reads quantity `number` (counted from 1).
pub(super) fn read(number: usize, table: Table) -> Result<Quantity, CaseFault> {
    let mut entry = Entry::new(number, table);
    let quantity = Quantity {
        what: what::read(&mut entry)?,
        unit: Unit::named(&entry.text("unit")?)?,
        printed: Printed::read(&entry.text("printed")?)?,
        formula: entry.optional("formula")?.unwrap_or_default(),
        allowed: entry.allowed()?,
        seen: entry.optional("seen")?.map(super::seen).transpose()?,
    };
    entry.nothing_left()?;
    match quantity.what.dimension() {
        Some(dimension) if dimension != quantity.unit.dimension => {
            Err(CaseFault::Unit { quantity: number, unit: quantity.unit.name, dimension })
        }
        _ => Ok(quantity),
    }
}

/// The keys not yet read.
pub(crate) struct Entry {
    number: usize,
    table: Table,
}

impl Entry {
    /// The entry at a place, counted from 1.
    pub(crate) const fn new(number: usize, table: Table) -> Self {
        Self { number, table }
    }

    /// A table of its own within this one, all of whose keys `read` must take.
    pub(crate) fn inner<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&mut Self) -> Result<T, CaseFault>,
    ) -> Result<T, CaseFault> {
        let table = self.table(key)?;
        let mut inner = Self { number: self.number, table };
        let value = read(&mut inner)?;
        inner.nothing_left()?;
        Ok(value)
    }

    /// An error where a key was not read.
    pub(crate) fn nothing_left(&self) -> Result<(), CaseFault> {
        if self.table.is_empty() {
            return Ok(());
        }
        Err(CaseFault::UnknownKeys { quantity: self.number, keys: self.table.keys().cloned().collect() })
    }

    /// Counted from 1.
    pub(crate) const fn place(&self) -> usize {
        self.number
    }

    pub(crate) fn missing(&self, key: &'static str) -> CaseFault {
        CaseFault::Key { quantity: self.number, key }
    }

    pub(crate) fn has(&self, key: &'static str) -> bool {
        self.table.contains_key(key)
    }

    pub(crate) fn optional(&mut self, key: &'static str) -> Result<Option<String>, CaseFault> {
        match self.table.remove(key) {
            None => Ok(None),
            Some(Value::String(text)) => Ok(Some(text)),
            Some(_) => Err(self.missing(key)),
        }
    }

    pub(crate) fn text(&mut self, key: &'static str) -> Result<String, CaseFault> {
        self.optional(key)?.ok_or_else(|| self.missing(key))
    }

    pub(crate) fn number(&mut self, key: &'static str) -> Result<f64, CaseFault> {
        self.table.remove(key).as_ref().and_then(number).ok_or_else(|| self.missing(key))
    }

    /// A whole number from 1 to 100.
    pub(crate) fn count(&mut self, key: &'static str) -> Result<usize, CaseFault> {
        match self.table.remove(key) {
            Some(Value::Integer(value @ 1..=100)) => Ok(value.unsigned_abs() as usize),
            _ => Err(self.missing(key)),
        }
    }

    /// A whole number that need not be there.
    pub(crate) fn maybe_count(&mut self, key: &'static str) -> Result<Option<usize>, CaseFault> {
        if self.has(key) { self.count(key).map(Some) } else { Ok(None) }
    }

    /// A number that need not be there.
    pub(crate) fn maybe(&mut self, key: &'static str) -> Result<Option<f64>, CaseFault> {
        if self.has(key) { self.number(key).map(Some) } else { Ok(None) }
    }

    /// A table of its own.
    pub(crate) fn table(&mut self, key: &'static str) -> Result<Table, CaseFault> {
        match self.table.remove(key) {
            Some(Value::Table(table)) => Ok(table),
            _ => Err(self.missing(key)),
        }
    }

    /// Whole numbers from 1 up; none where the key is not there.
    pub(crate) fn counts(&mut self, key: &'static str) -> Result<Vec<usize>, CaseFault> {
        if !self.has(key) {
            return Ok(Vec::new());
        }
        self.list(key, |value| value.as_integer().filter(|count| *count > 0).and_then(|count| count.try_into().ok()))
    }

    pub(crate) fn truth(&mut self, key: &'static str) -> Result<bool, CaseFault> {
        self.table.remove(key).as_ref().and_then(Value::as_bool).ok_or_else(|| self.missing(key))
    }

    /// A list of exactly so many texts.
    pub(crate) fn texts<const N: usize>(&mut self, key: &'static str) -> Result<[String; N], CaseFault> {
        let list = self.list(key, |value| value.as_str().map(str::to_owned))?;
        list.try_into().map_err(|_| self.missing(key))
    }

    /// A list of exactly so many numbers.
    pub(crate) fn numbers<const N: usize>(&mut self, key: &'static str) -> Result<[f64; N], CaseFault> {
        let list = self.list(key, number)?;
        list.try_into().map_err(|_| self.missing(key))
    }

    fn list<T>(&mut self, key: &'static str, read: impl Fn(&Value) -> Option<T>) -> Result<Vec<T>, CaseFault> {
        let value = self.table.remove(key);
        let list = value.as_ref().and_then(Value::as_array).map(|list| list.iter().map(read).collect::<Option<_>>());
        list.flatten().ok_or_else(|| self.missing(key))
    }

    pub(crate) fn at(&mut self) -> Result<f64, CaseFault> {
        let at = self.number("at")?;
        if (0.0..=1.0).contains(&at) { Ok(at) } else { Err(self.missing("at")) }
    }

    pub(crate) fn one_of<T: Copy>(&mut self, key: &'static str, list: &[(T, &'static str)]) -> Result<T, CaseFault> {
        let written = self.text(key)?;
        let found = list.iter().find(|(_, name)| *name == written);
        found.map(|(value, _)| *value).ok_or(CaseFault::Word { kind: key, written })
    }

    pub(crate) fn dof(&mut self) -> Result<Dof, CaseFault> {
        let written = self.text("dof")?;
        Dof::from_name(&written).ok_or(CaseFault::Word { kind: "freedom", written })
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

fn number(value: &Value) -> Option<f64> {
    match value {
        Value::Float(value) if value.is_finite() => Some(*value),
        Value::Integer(value) => Some(*value as f64),
        _ => None,
    }
}
