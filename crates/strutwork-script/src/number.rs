//! Numbers and maps of named numbers at the doors: `5` and `5.0` alike, never infinite, never an unknown key.

use rhai::{Array, Dynamic, ImmutableString, Map};

use crate::fault::Fault;

/// A finding, or `()`: the reference tells it so.
pub(crate) type PerhapsFinding = Dynamic;

/// A number, or `()`.
pub(crate) type PerhapsNumber = Dynamic;

/// An array of values, or a range.
pub(crate) type Values = Dynamic;

/// A number or a text.
pub(crate) type AnyValue = Dynamic;

/// The name of a tube, or an array of such.
pub(crate) type SomeTubes = Dynamic;

/// A map, or `()`.
pub(crate) type PerhapsMap = Dynamic;

/// A number that a script gave, whole or with decimals.
///
/// # Errors
/// [`Fault::WrongType`], [`Fault::NotFinite`].
pub(crate) fn number(what: &str, value: &Dynamic) -> Result<f64, Fault> {
    // Whole numbers above 2^53 lose their last digits, as everywhere in floating point.
    let number = value
        .as_float()
        .or_else(|_| value.as_int().map(|whole| whole as f64))
        .map_err(|_| Fault::WrongType { what: what.to_owned(), expected: "a number", got: kind(value) })?;
    if number.is_finite() { Ok(number) } else { Err(Fault::NotFinite { what: what.to_owned(), value: number }) }
}

/// A whole number from `least` to `most`.
///
/// # Errors
/// [`Fault::WrongType`], [`Fault::NotFinite`], [`Fault::OutOfRange`].
pub(crate) fn whole(what: &str, value: &Dynamic, least: u32, most: u32, range: &'static str) -> Result<u32, Fault> {
    let number = number(what, value)?;
    if number.fract() == 0.0 && number >= f64::from(least) && number <= f64::from(most) {
        Ok(number as u32)
    } else {
        Err(Fault::OutOfRange { what: what.to_owned(), value: number, range })
    }
}

/// The type of a value, in a script author's words.
pub(crate) fn kind(value: &Dynamic) -> String {
    type_word(value.type_name())
}

/// A type's name, in a script author's words.
pub(crate) fn type_word(name: &str) -> String {
    match name.trim() {
        "i64" | "INT" => "a whole number".to_owned(),
        "f64" | "FLOAT" => "a number".to_owned(),
        "bool" => "true or false".to_owned(),
        "char" => "a character".to_owned(),
        "()" => "nothing".to_owned(),
        "map" => "a map".to_owned(),
        "array" => "an array".to_owned(),
        "string" | "&str" | "ImmutableString" | "&str | ImmutableString | String" => "a text".to_owned(),
        "Fn" => "a function".to_owned(),
        other if other.contains("ImmutableString") => "a text".to_owned(),
        other => format!("a {}", other.rsplit("::").next().unwrap_or(other)),
    }
}

/// The named values of a call: `#{ fx_n: 100 }`.
pub(crate) struct Named<'m> {
    function: &'static str,
    map: &'m Map,
}

impl<'m> Named<'m> {
    /// The map, if it holds nothing but known keys.
    ///
    /// # Errors
    /// [`Fault::UnknownKey`] for the first in alphabetical order.
    pub(crate) fn new(function: &'static str, map: &'m Map, known: &[&'static str]) -> Result<Self, Fault> {
        match map.keys().find(|key| !known.contains(&key.as_str())) {
            None => Ok(Self { function, map }),
            Some(key) => Err(Fault::UnknownKey { function, key: key.to_string(), known: known.to_vec() }),
        }
    }

    /// A number, where given.
    ///
    /// # Errors
    /// [`Fault::WrongType`], [`Fault::NotFinite`].
    pub(crate) fn number(&self, key: &str) -> Result<Option<f64>, Fault> {
        self.map.get(key).map(|value| number(&self.what(key), value)).transpose()
    }

    /// A number; zero where not given.
    ///
    /// # Errors
    /// As [`Named::number`].
    pub(crate) fn or_zero(&self, key: &str) -> Result<f64, Fault> {
        Ok(self.number(key)?.unwrap_or(0.0))
    }

    /// Three numbers; zero where not given.
    ///
    /// # Errors
    /// As [`Named::number`].
    pub(crate) fn vector(&self, keys: [&str; 3]) -> Result<[f64; 3], Fault> {
        Ok([self.or_zero(keys[0])?, self.or_zero(keys[1])?, self.or_zero(keys[2])?])
    }

    /// A number that must be given.
    ///
    /// # Errors
    /// [`Fault::MissingKey`], or as [`Named::number`].
    pub(crate) fn needed(&self, key: &'static str) -> Result<f64, Fault> {
        self.number(key)?.ok_or(Fault::MissingKey { function: self.function, key })
    }

    /// A text, where given.
    ///
    /// # Errors
    /// [`Fault::WrongType`].
    pub(crate) fn text(&self, key: &str) -> Result<Option<ImmutableString>, Fault> {
        self.map.get(key).map(|value| text(&self.what(key), value)).transpose()
    }

    /// True or false, where given.
    ///
    /// # Errors
    /// [`Fault::WrongType`].
    pub(crate) fn flag(&self, key: &str) -> Result<Option<bool>, Fault> {
        let Some(value) = self.map.get(key) else { return Ok(None) };
        let wrong = || Fault::WrongType { what: self.what(key), expected: "true or false", got: kind(value) };
        value.as_bool().map(Some).map_err(|_| wrong())
    }

    /// A text that must be given.
    ///
    /// # Errors
    /// [`Fault::MissingKey`], [`Fault::WrongType`].
    pub(crate) fn needed_text(&self, key: &'static str) -> Result<ImmutableString, Fault> {
        self.text(key)?.ok_or(Fault::MissingKey { function: self.function, key })
    }

    /// An array of texts, where given.
    ///
    /// # Errors
    /// [`Fault::WrongType`].
    pub(crate) fn texts(&self, key: &str) -> Result<Option<Vec<ImmutableString>>, Fault> {
        let Some(value) = self.map.get(key) else { return Ok(None) };
        let Ok(items) = value.as_array_ref() else {
            return Err(Fault::WrongType { what: self.what(key), expected: "an array of texts", got: kind(value) });
        };
        items.iter().map(|item| text(&self.what(key), item)).collect::<Result<_, _>>().map(Some)
    }

    fn what(&self, key: &str) -> String {
        format!("`{key}` of {}", self.function)
    }
}

/// A text that a script gave.
///
/// # Errors
/// [`Fault::WrongType`].
pub(crate) fn text(what: &str, value: &Dynamic) -> Result<ImmutableString, Fault> {
    value.clone().into_immutable_string().map_err(|_| Fault::WrongType {
        what: what.to_owned(),
        expected: "a text",
        got: kind(value),
    })
}

/// A value for a script to read: `()` where there is none.
pub(crate) fn optional<T: Into<Dynamic>>(value: Option<T>) -> Dynamic {
    value.map_or(Dynamic::UNIT, Into::into)
}

/// How many, for a script to read.
pub(crate) fn count(number: usize) -> Dynamic {
    i64::try_from(number).unwrap_or(i64::MAX).into()
}

/// A map of named numbers, for a script to read.
pub(crate) fn map<const N: usize>(entries: [(&str, f64); N]) -> Map {
    map_of(entries.map(|(key, value)| (key, value.into())))
}

/// A map of named values, for a script to read.
pub(crate) fn map_of<const N: usize>(entries: [(&str, Dynamic); N]) -> Map {
    entries.into_iter().map(|(key, value)| (key.into(), value)).collect()
}

/// An array of texts, for a script to read.
pub(crate) fn names<'a>(names: impl Iterator<Item = &'a str>) -> Array {
    names.map(|name| name.into()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn five_and_five_point_nought_are_one_number() {
        assert_eq!(number("x", &Dynamic::from(5_i64)), Ok(5.0));
        assert_eq!(number("x", &Dynamic::from(5.0_f64)), Ok(5.0));
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for value in [Dynamic::from("5"), Dynamic::UNIT, Dynamic::TRUE, Dynamic::from(Map::new())] {
            assert!(matches!(number("x", &value), Err(Fault::WrongType { .. })), "{value:?}");
        }
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert!(matches!(number("x", &Dynamic::from(value)), Err(Fault::NotFinite { .. })));
        }
    }

    #[test]
    fn whole_numbers_are_whole_and_in_range() {
        assert_eq!(whole("n", &Dynamic::from(3.0), 0, 9, "0 to 9"), Ok(3));
        assert!(whole("n", &Dynamic::from(3.5), 0, 9, "0 to 9").is_err());
        assert!(whole("n", &Dynamic::from(10_i64), 0, 9, "0 to 9").is_err());
        assert!(whole("n", &Dynamic::from(-1_i64), 0, 9, "0 to 9").is_err());
    }

    #[test]
    fn unknown_keys_are_refused_with_the_known_ones() {
        let given = map([("fx_n", 1.0), ("fy", 2.0)]);
        let Err(Fault::UnknownKey { key, known, .. }) = Named::new("joint_load", &given, &["fx_n", "fy_n"]) else {
            panic!("bug: passed")
        };
        assert_eq!((key.as_str(), known.as_slice()), ("fy", ["fx_n", "fy_n"].as_slice()));
    }
}
