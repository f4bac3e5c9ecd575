//! Basis, member rules and switched-off checks, as the user wrote them.

use serde::Serialize;

use super::Written;
use super::keys::{Document, Keys};
use crate::codes;
use crate::reference;

/// The table `[basis]`: only the keys that the user gave.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct BasisEntry {
    /// `vehicle` or `eurocode`.
    pub kind: Option<Written<String>>,
    /// γ_F.
    pub gamma_f: Option<GammaEntry>,
    /// γ_M0.
    pub gamma_m0: Option<GammaEntry>,
    /// γ_M1.
    pub gamma_m1: Option<GammaEntry>,
    /// γ_M2.
    pub gamma_m2: Option<GammaEntry>,
    /// γ_M5.
    pub gamma_m5: Option<GammaEntry>,
    /// γ_Mf.
    pub gamma_mf: Option<GammaEntry>,
}

/// A partial factor: `{ value = 1.1, source = "…" }`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct GammaEntry {
    /// Its key, with its place.
    pub key: Written<String>,
    /// Its value.
    pub value: Written<f64>,
    /// Where it comes from.
    pub source: Written<String>,
}

/// The table `[members]`: only the keys that the user gave.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct MembersEntry {
    /// Groups of tubes that are braces.
    pub braces: Vec<Written<String>>,
    /// Groups of tubes that are chords.
    pub chords: Vec<Written<String>>,
    /// L_cr/i.
    pub slenderness_limit: Option<Written<f64>>,
    /// Whether the frame is not braced.
    pub sway: bool,
}

/// A table `[checks.D0xx]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct CheckEntry {
    /// Its code.
    pub check: Written<String>,
    /// Whether it is switched off.
    pub off: bool,
    /// Why.
    pub reason: Option<Written<String>>,
}

/// Buckling length of a tube for one axis, from `tubes.csv`: one of the two or neither.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct BucklingWritten {
    /// mm.
    pub length_mm: Option<Written<f64>>,
    /// On the tube's own length.
    pub factor: Option<Written<f64>>,
}

/// The keys of the partial factors, on loads and on strength.
const GAMMAS: [&str; 6] = ["gamma_f", "gamma_m0", "gamma_m1", "gamma_m2", "gamma_m5", "gamma_mf"];

pub(super) fn basis(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> BasisEntry {
    let Some((table, spot)) = root.table("basis", document) else { return BasisEntry::default() };
    let keys = Keys { called: "[basis]", table, spot };
    keys.known(&reference::BASIS, document);
    let [gamma_f, gamma_m0, gamma_m1, gamma_m2, gamma_m5, gamma_mf] = GAMMAS.map(|name| gamma(&keys, name, document));
    BasisEntry { kind: keys.text("kind", document), gamma_f, gamma_m0, gamma_m1, gamma_m2, gamma_m5, gamma_mf }
}

fn gamma(basis: &Keys<'_, '_>, name: &'static str, document: &mut Document<'_, '_>) -> Option<GammaEntry> {
    let (table, spot) = basis.table(name, document)?;
    let called = format!("[basis.{name}]");
    let keys = Keys { called: &called, table, spot };
    keys.known(&reference::GAMMA, document);
    let value = keys.number("value", document);
    if value.is_none() {
        let message = format!("the factor `{name}` has no `value`");
        let help = format!("write `{name} = {{ value = …, source = \"…\" }}`");
        document.fault(codes::MISSING_KEY, spot, name, message, help);
    }
    Some(GammaEntry {
        key: Written::at(name.to_owned(), spot),
        value: value.unwrap_or_else(|| Written::at(f64::NAN, spot)),
        source: keys.text("source", document).unwrap_or_else(|| Written::at(String::new(), spot)),
    })
}

pub(super) fn members(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> MembersEntry {
    let Some((table, spot)) = root.table("members", document) else { return MembersEntry::default() };
    let keys = Keys { called: "[members]", table, spot };
    keys.known(&reference::MEMBERS, document);
    MembersEntry {
        braces: keys.texts("braces", document),
        chords: keys.texts("chords", document),
        slenderness_limit: keys.number("slenderness_limit", document),
        sway: keys.flag("sway", false, document),
    }
}

pub(super) fn check(check: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> CheckEntry {
    keys.known(&reference::CHECK, document);
    let off = keys.flag("off", false, document);
    CheckEntry { check, off, reason: keys.text("reason", document) }
}
