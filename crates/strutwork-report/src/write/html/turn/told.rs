//! What the page hands to its view: the names of its fields are those that the view reads.

use std::collections::BTreeMap;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Frame<'a> {
    pub(super) joints: Vec<&'a str>,
    pub(super) at: Packed,
    pub(super) ends: Packed,
    pub(super) ups: Coarse,
    pub(super) tubes: Vec<Tube<'a>>,
    pub(super) sections: Vec<Section<'a>>,
    pub(super) groups: Vec<&'a str>,
    pub(super) panels: Vec<Panel>,
    pub(super) bodies: Vec<Placed<'a>>,
    pub(super) mounts: Vec<Mount<'a>>,
    pub(super) masses: Vec<Mass<'a>>,
    pub(super) cases: Vec<Case<'a>>,
    pub(super) shapes: Vec<Moved>,
    pub(super) said: BTreeMap<&'a str, Said>,
    /// Where a case measures a twist.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) worth: Option<Worth>,
    pub(super) ramp: Vec<String>,
    pub(super) low: [f64; 3],
    pub(super) high: [f64; 3],
    pub(super) first: &'static str,
}

/// What each tube is worth, and the bounds between the shades that tell it.
#[derive(Serialize)]
pub(super) struct Worth {
    /// g for each N·m/deg, finely: the view parts them by bounds. Not a number where more wall brings none.
    pub(super) grams: Packed,
    pub(super) edges: Vec<f64>,
    pub(super) case: String,
}

#[derive(Serialize)]
pub(super) struct Tube<'a> {
    pub(super) name: &'a str,
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) section: usize,
    pub(super) group: usize,
    /// 1: its `from` end turns with the joint; 2: its `to` end.
    pub(super) bends: u8,
}

#[derive(Serialize)]
pub(super) struct Section<'a> {
    pub(super) label: &'a str,
    pub(super) round: bool,
    pub(super) width: f64,
    pub(super) height: f64,
}

#[derive(Serialize)]
pub(super) struct Panel {
    pub(super) joints: Vec<usize>,
}

#[derive(Serialize)]
pub(super) struct Placed<'a> {
    pub(super) name: &'a str,
    pub(super) at: [f64; 3],
}

#[derive(Serialize)]
pub(super) struct Mount<'a> {
    pub(super) body: &'a str,
    pub(super) joint: usize,
}

#[derive(Serialize)]
pub(super) struct Mass<'a> {
    pub(super) name: &'a str,
    pub(super) kg: f64,
    pub(super) at: [f64; 3],
}

#[derive(Serialize)]
pub(super) struct Case<'a> {
    pub(super) key: String,
    pub(super) title: &'a str,
    pub(super) moved: Coarse,
    pub(super) bows: Packed,
    pub(super) most: f64,
    pub(super) forces: Coarse,
    pub(super) acting: Sparse,
    pub(super) reactions: Sparse,
    pub(super) mounts: Coarse,
}

#[derive(Serialize)]
pub(super) struct Moved {
    pub(super) key: String,
    pub(super) kind: &'static str,
    pub(super) title: String,
    pub(super) note: String,
    pub(super) moved: Coarse,
    pub(super) bows: Packed,
    pub(super) most: f64,
}

#[derive(Serialize)]
pub(super) struct Said {
    pub(super) words: String,
    pub(super) helps: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) anchor: Option<String>,
}

/// Numbers as little-endian 32-bit floats in base64: seven digits, for places that are told to a tenth of a millimetre.
pub(super) struct Packed(Vec<f32>);

/// Numbers as 32-bit floats without their last byte, rounded, little-endian, in base64: four digits and a half, where the view
/// shows three, and no padding.
pub(super) struct Coarse(Vec<f32>);

/// Triples of which most are nothing: the places of the others, and those themselves.
#[derive(Serialize)]
pub(super) struct Sparse {
    at: Vec<usize>,
    all: Coarse,
}

impl Serialize for Packed {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let bytes: Vec<u8> = self.0.iter().flat_map(|value| value.to_le_bytes()).collect();
        serializer.serialize_str(&STANDARD.encode(bytes))
    }
}

impl FromIterator<f64> for Packed {
    fn from_iter<I: IntoIterator<Item = f64>>(values: I) -> Self {
        Self(values.into_iter().map(|value| value as f32).collect())
    }
}

impl Serialize for Coarse {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let bytes: Vec<u8> = self.0.iter().flat_map(|value| shortened(*value)).collect();
        serializer.serialize_str(&STANDARD.encode(bytes))
    }
}

impl FromIterator<f64> for Coarse {
    fn from_iter<I: IntoIterator<Item = f64>>(values: I) -> Self {
        Self(values.into_iter().map(|value| value as f32).collect())
    }
}

/// The three upper bytes of a number, rounded to the nearest that they can tell.
fn shortened(value: f32) -> [u8; 3] {
    let bits = value.to_bits();
    // What is not a number stays so: rounding up would make another sign of it.
    let rounded = if value.is_finite() { bits.saturating_add(0x80) } else { bits };
    let [_, low, middle, high] = rounded.to_le_bytes();
    [low, middle, high]
}

impl FromIterator<[f64; 3]> for Sparse {
    fn from_iter<I: IntoIterator<Item = [f64; 3]>>(triples: I) -> Self {
        let there = |(_, triple): &(usize, [f64; 3])| *triple != [0.0; 3];
        let (at, all): (Vec<usize>, Vec<[f64; 3]>) = triples.into_iter().enumerate().filter(there).unzip();
        Self { at, all: all.into_iter().flatten().collect() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_bytes_keep_four_digits_and_what_is_no_number() {
        let back = |[low, middle, high]: [u8; 3]| f32::from_le_bytes([0, low, middle, high]);
        for value in [0.0, 1.0, -1234.567, 9.9999e-7, 6.02e23, f32::MIN_POSITIVE] {
            let off = (back(shortened(value)) - value).abs();
            assert!(off <= value.abs() * 2.0_f32.powi(-16), "{value}");
        }
        assert!(back(shortened(f32::NAN)).is_nan() && back(shortened(-f32::NAN)).is_nan());
    }
}
