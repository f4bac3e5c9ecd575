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
    pub(super) ups: Packed,
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
    pub(super) ramp: Vec<String>,
    pub(super) low: [f64; 3],
    pub(super) high: [f64; 3],
    pub(super) first: &'static str,
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
    pub(super) moved: Packed,
    pub(super) bows: Packed,
    pub(super) most: f64,
    pub(super) forces: Packed,
    pub(super) acting: Packed,
    pub(super) reactions: Packed,
    pub(super) mounts: Packed,
}

#[derive(Serialize)]
pub(super) struct Moved {
    pub(super) key: String,
    pub(super) kind: &'static str,
    pub(super) title: String,
    pub(super) note: String,
    pub(super) moved: Packed,
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

/// Numbers as little-endian 32-bit floats in base64: seven digits are more than a picture shows.
pub(super) struct Packed(Vec<f32>);

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
