//! The keys of a TOML table, asked for by name and kind, every value with its place.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::number::{self, shown};
use super::unit_hint::other_unit;
use super::{Spot, Written};
use crate::codes;
use crate::diagnostic::{Code, Diagnostic};
use crate::files;
use crate::nearest::did_you_mean;
use crate::reference::KeyTable;

/// The text of `model.toml`, to tell places, and the faults found in it.
pub(super) struct Document<'t, 'f> {
    text: &'t str,
    /// Byte offset of the start of each line.
    lines: Vec<usize>,
    pub(super) faults: &'f mut Vec<Diagnostic>,
}

impl<'t, 'f> Document<'t, 'f> {
    pub(super) fn new(text: &'t str, faults: &'f mut Vec<Diagnostic>) -> Self {
        let starts = text.bytes().enumerate().filter(|&(_, byte)| byte == b'\n').map(|(at, _)| at + 1);
        Self { text, lines: std::iter::once(0).chain(starts).collect(), faults }
    }

    /// Where a range of bytes is; a range over several lines is shown by its first line.
    pub(super) fn spot(&self, range: Range<usize>) -> Spot {
        let small = |number: usize| u32::try_from(number).unwrap_or(u32::MAX);
        let from = range.start.min(self.text.len());
        let line = self.lines.partition_point(|&start| start <= from);
        let start = self.lines[line - 1];
        let line_end = self.text[from..].find(['\r', '\n']).map_or(self.text.len(), |end| from + end);
        let to = range.end.clamp(from, line_end);
        let count = |from: usize, to: usize| self.text.get(from..to).map_or(0, |part| part.chars().count());
        Spot {
            file: files::MODEL,
            line: small(line),
            column: small(count(start, from) + 1),
            width: small(count(from, to).max(1)),
        }
    }

    pub(super) fn fault(
        &mut self,
        code: Code,
        spot: Spot,
        subject: &str,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.faults.push(Diagnostic::error(code, Some(spot), subject, message, help));
    }

    fn wrong_kind(&mut self, key: &str, value: &Spanned<DeValue<'_>>, wanted: &str) {
        let spot = self.spot(value.span());
        let found = kind(value.get_ref());
        let message = format!("`{key}` is {found}, it should be {wanted}");
        let help = "texts stand in quotes; numbers, `true` and `false` without; lists in [ ], tables in { }";
        self.fault(codes::WRONG_KIND, spot, key, message, help);
    }
}

fn kind(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "a text in quotes",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "`true` or `false`",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

/// A table of `model.toml`.
#[derive(Clone, Copy)]
pub(super) struct Keys<'k, 't> {
    /// `[sections.rail]`; empty at the top.
    pub(super) called: &'k str,
    pub(super) table: &'k DeTable<'t>,
    /// Where its name stands.
    pub(super) spot: Spot,
}

impl<'k, 't> Keys<'k, 't> {
    fn get(&self, key: &str) -> Option<&'k Spanned<DeValue<'t>>> {
        self.table.get(key)
    }

    /// Names every key that is not in the list.
    pub(super) fn only(&self, known: &[&'static str], document: &mut Document<'_, '_>) {
        let mut unknown: Vec<_> = self.table.keys().filter(|key| !known.contains(&key.get_ref().as_ref())).collect();
        unknown.sort_by_key(|key| key.span().start);
        let free: Vec<&'static str> = known.iter().copied().filter(|&name| self.get(name).is_none()).collect();
        for key in unknown {
            let name = shown(key.get_ref());
            let spot = document.spot(key.span());
            let place = if self.called.is_empty() { "model.toml".to_owned() } else { self.called.to_owned() };
            if let Some(hint) = other_unit(key.get_ref(), &free) {
                let message = format!("`{name}` is in another unit: `{}` in {} is wanted", hint.wanted, hint.unit);
                let help = format!("{}, under the name `{}`", hint.how, hint.wanted);
                document.fault(codes::WRONG_UNIT, spot, &name, message, help);
            } else {
                let help = did_you_mean(key.get_ref(), known.iter().copied())
                    .unwrap_or_else(|| format!("known here: {}", known.join(", ")));
                document.fault(codes::UNKNOWN_KEY, spot, &name, format!("`{name}` is not a key of {place}"), help);
            }
        }
    }

    /// Names every key that is not in the reference.
    pub(super) fn known(&self, table: &KeyTable, document: &mut Document<'_, '_>) {
        self.only(&table.names().collect::<Vec<_>>(), document);
    }

    /// Whether the key is there.
    pub(super) fn has(&self, key: &str) -> bool {
        self.get(key).is_some()
    }

    /// A text.
    pub(super) fn text(&self, key: &str, document: &mut Document<'_, '_>) -> Option<Written<String>> {
        let value = self.get(key)?;
        match value.get_ref() {
            DeValue::String(text) => Some(Written::at(text.to_string(), document.spot(value.span()))),
            _ => {
                document.wrong_kind(key, value, "a text in quotes");
                None
            }
        }
    }

    /// A date, in quotes or without.
    pub(super) fn date(&self, key: &str, document: &mut Document<'_, '_>) -> Option<Written<String>> {
        let value = self.get(key)?;
        match value.get_ref() {
            DeValue::Datetime(date) => Some(Written::at(date.to_string(), document.spot(value.span()))),
            _ => self.text(key, document),
        }
    }

    /// A number, NaN and a fault where it is something else.
    pub(super) fn number(&self, key: &str, document: &mut Document<'_, '_>) -> Option<Written<f64>> {
        let value = self.get(key)?;
        Some(Written::at(number_of(key, value, document), document.spot(value.span())))
    }

    /// `true` or `false`.
    pub(super) fn flag(&self, key: &str, default: bool, document: &mut Document<'_, '_>) -> bool {
        match self.get(key) {
            None => default,
            Some(value) => value.get_ref().as_bool().unwrap_or_else(|| {
                document.wrong_kind(key, value, "`true` or `false`, without quotes");
                default
            }),
        }
    }

    /// A list of texts; a single text counts as a list of one.
    pub(super) fn texts(&self, key: &str, document: &mut Document<'_, '_>) -> Vec<Written<String>> {
        let Some(value) = self.get(key) else { return Vec::new() };
        let one = std::slice::from_ref(value);
        let entries: &[Spanned<DeValue<'_>>] = match value.get_ref() {
            DeValue::Array(entries) => entries,
            _ => one,
        };
        let mut texts = Vec::new();
        for entry in entries {
            match entry.get_ref() {
                DeValue::String(text) => texts.push(Written::at(text.to_string(), document.spot(entry.span()))),
                _ => document.wrong_kind(key, entry, "a list of texts: `[\"…\", \"…\"]`"),
            }
        }
        texts
    }

    /// A list of three numbers.
    pub(super) fn point(&self, key: &str, document: &mut Document<'_, '_>) -> Option<Written<[f64; 3]>> {
        let value = self.get(key)?;
        let spot = document.spot(value.span());
        match value.get_ref() {
            DeValue::Array(entries) if entries.len() == 3 => {
                let mut point = [0.0; 3];
                for (number, entry) in point.iter_mut().zip(entries.iter()) {
                    *number = number_of(key, entry, document);
                }
                Some(Written::at(point, spot))
            }
            _ => {
                document.wrong_kind(key, value, "a list of three numbers: `[x, y, z]`");
                Some(Written::at([f64::NAN; 3], spot))
            }
        }
    }

    /// A direction: `"x"`, `"y"`, `"z"`, or three numbers as a text or a list.
    pub(super) fn direction(&self, key: &str, document: &mut Document<'_, '_>) -> Option<Written<[f64; 3]>> {
        if !matches!(self.get(key)?.get_ref(), DeValue::String(_)) {
            return self.point(key, document);
        }
        let text = self.text(key, document)?;
        let direction = number::direction(&text).unwrap_or_else(|fault| {
            let spot = text.spot.unwrap_or(self.spot);
            document.fault(fault.code, spot, key, fault.message, fault.help);
            [f64::NAN; 3]
        });
        Some(Written { value: direction, spot: text.spot })
    }

    /// A table below this one.
    pub(super) fn table(&self, key: &str, document: &mut Document<'_, '_>) -> Option<(&'k DeTable<'t>, Spot)> {
        let (name, value) = self.table.get_key_value(key)?;
        let spot = document.spot(name.span());
        match value.get_ref() {
            DeValue::Table(table) => Some((table, spot)),
            _ => {
                // `[basis]` and `gamma_m0` make `[basis.gamma_m0]`.
                let path = self.called.trim_matches(['[', ']']);
                let whole = if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") };
                document.wrong_kind(key, value, &format!("a table: `[{whole}]`, or `{key} = {{ … }}`"));
                None
            }
        }
    }

    /// The tables below this one, each with its name, in the order of the file.
    pub(super) fn tables(&self, document: &mut Document<'_, '_>) -> Vec<(Written<String>, &'k DeTable<'t>)> {
        let mut entries: Vec<_> = self.table.iter().collect();
        entries.sort_by_key(|(name, _)| name.span().start);
        let mut tables = Vec::new();
        for (name, value) in entries {
            match value.get_ref() {
                DeValue::Table(table) => {
                    tables.push((Written::at(name.get_ref().to_string(), document.spot(name.span())), table));
                }
                _ => document.wrong_kind(name.get_ref(), value, "a table with a name of its own"),
            }
        }
        tables
    }
}

fn number_of(key: &str, value: &Spanned<DeValue<'_>>, document: &mut Document<'_, '_>) -> f64 {
    let text = match value.get_ref() {
        #[expect(clippy::cast_precision_loss, reason = "a hexadecimal size above 2^53 is no size")]
        DeValue::Integer(integer) if integer.radix() != 10 => {
            return i64::from_str_radix(integer.as_str(), integer.radix()).map_or(f64::NAN, |number| number as f64);
        }
        DeValue::Integer(integer) => integer.as_str(),
        DeValue::Float(float) => float.as_str(),
        _ => {
            document.wrong_kind(key, value, "a number, without quotes");
            return f64::NAN;
        }
    };
    number::parse(text).unwrap_or_else(|fault| {
        let spot = document.spot(value.span());
        document.fault(fault.code, spot, key, fault.message, fault.help);
        f64::NAN
    })
}
