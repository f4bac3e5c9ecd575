//! Fixings of panels: the keys that each kind has, and values that can be.

use super::{Log, text, words_help};
use crate::codes;
use crate::model::{Fixing, FixingKind};
use crate::spec::{FixingEntry, ModelSpec, Written};
use crate::units::{MM, MPA};

const KINDS: [&str; 2] = ["bond", "fasteners"];

/// A key: its name, its value, and what is usual, door units.
type Given<'e> = (&'static str, &'e Option<Written<f64>>, std::ops::RangeInclusive<f64>);

/// The fixings, `None` where faulty.
pub(super) fn check(spec: &ModelSpec, log: &mut Log) -> Vec<Option<Fixing>> {
    spec.fixings.iter().map(|entry| one(entry, log)).collect()
}

fn one(entry: &FixingEntry, log: &mut Log) -> Option<Fixing> {
    let bond: [Given<'_>; 4] = [
        ("thickness_mm", &entry.thickness_mm, 0.05..=20.0),
        ("width_mm", &entry.width_mm, 2.0..=200.0),
        ("shear_mpa", &entry.shear_mpa, 0.05..=5000.0),
        ("strength_mpa", &entry.strength_mpa, 0.05..=100.0),
    ];
    let fasteners: [Given<'_>; 3] = [
        ("pitch_mm", &entry.pitch_mm, 5.0..=500.0),
        ("slip_mm_per_kn", &entry.slip_mm_per_kn, 0.005..=20.0),
        ("strength_n", &entry.strength_n, 50.0..=100_000.0),
    ];
    let name = &entry.name;
    let Some(kind) = &entry.kind else {
        let message = format!("the fixing `{}` has no `kind`", name.value);
        log.error(codes::MISSING_KEY, name.spot, name, message, "add `kind = \"bond\"` or `kind = \"fasteners\"`");
        return None;
    };
    let kind = match kind.as_str() {
        "bond" => {
            let [thickness, width, shear, strength] = values(entry, "bond", bond, &fasteners, log)?;
            FixingKind::Bond {
                thickness: thickness? * MM,
                width: width? * MM,
                shear: shear? * MPA,
                strength: strength.map(|strength| strength * MPA),
            }
        }
        "fasteners" => {
            let [pitch, slip, strength] = values(entry, "fasteners", fasteners, &bond, log)?;
            FixingKind::Fasteners { pitch: pitch? * MM, slip: slip? * MM / 1000.0, strength }
        }
        word => {
            let message = format!("the fixing `{}`: `{word}` is not a kind of fixing", name.value);
            log.error(codes::UNKNOWN_WORD, kind.spot, name, message, words_help(word, &KINDS));
            return None;
        }
    };
    let source = text(entry.source.as_ref());
    Some(Fixing { name: name.value.clone(), kind, source })
}

/// The values of a kind, the last optional; `None` where one is faulty or missing, or a key of the other kind is there.
fn values<const N: usize>(
    entry: &FixingEntry,
    kind: &str,
    own: [Given<'_>; N],
    other: &[Given<'_>],
    log: &mut Log,
) -> Option<[Option<f64>; N]> {
    let name = &entry.name;
    let mut good = true;
    let mut found = [None; N];
    for (place, (key, given, usual)) in own.into_iter().enumerate() {
        let Some(given) = given else {
            if place + 1 < N {
                let message = format!("the fixing `{}` has no `{key}`", name.value);
                log.error(
                    codes::MISSING_KEY,
                    name.spot,
                    name,
                    message,
                    format!("`kind = \"{kind}\"` wants `{key} = …`"),
                );
                good = false;
            }
            continue;
        };
        let value = log.finite(given, name, &format!("`{key}`"));
        if value <= 0.0 {
            let message = format!("the fixing `{}`: `{key}` is {value}", name.value);
            log.error(codes::FIXING_VALUE, given.spot, name, message, "write a value greater than 0");
        } else if value.is_finite() && !usual.contains(&value) {
            let message = format!("the fixing `{}`: `{key}` is {value}", name.value);
            let help = format!("usual are {} to {}; check the unit", usual.start(), usual.end());
            log.warning(codes::ODD_FIXING, given.spot, name, message, help);
        }
        good &= value > 0.0;
        found[place] = Some(value);
    }
    for (key, given, _) in other {
        if let Some(given) = given {
            let message = format!("the fixing `{}` is `{kind}`, which has no `{key}`", name.value);
            let help = "take the key out, or write the other `kind`";
            log.error(codes::KEYS_DISAGREE, given.spot, name, message, help);
            good = false;
        }
    }
    good.then_some(found)
}
