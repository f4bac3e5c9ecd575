//! Basis, member rules, buckling lengths, and checks that are switched off.

use super::{Log, text, words_help};
use crate::codes;
use crate::model::{Basis, BasisKind, Buckling, Gamma, Members, SWITCHABLE, SwitchedOff};
use crate::nearest::nearest;
use crate::spec::{BucklingWritten, GammaEntry, ModelSpec, TubeRow, Written};
use crate::units::MM;

/// L_cr/i that a member in compression should not exceed: BS 5950-1:1990, 4.7.3.2 (from memory).
const SLENDERNESS: f64 = 180.0;
const VARIABLE: &str = "EN 1990 Table A1.2(B), leading variable action (from memory); made for buildings";
const RECOMMENDED: &str = "EN 1993-1-1 6.1, recommended (from memory)";
const RECOMMENDED_M2: &str = "EN 1993-1-1 6.1 and EN 1993-1-8 Table 2.1, recommended (design guides were read)";
const RECOMMENDED_M5: &str = "EN 1993-1-8 Table 2.1, recommended (from memory)";
const SAFE_LIFE: &str = "EN 1993-1-9 Table 3.1, safe life, high consequence of failure (from memory)";

/// The basis, with every factor and its source.
pub(super) fn basis(spec: &ModelSpec, log: &mut Log) -> Basis {
    let entry = &spec.basis;
    let kind = entry.kind.as_ref().map_or(BasisKind::Vehicle, |word| match word.as_str() {
        "vehicle" => BasisKind::Vehicle,
        "eurocode" => BasisKind::Eurocode,
        other => {
            let message = format!("`{other}` is not a basis of the checks");
            log.error(codes::UNKNOWN_WORD, word.spot, "basis", message, words_help(other, &["vehicle", "eurocode"]));
            BasisKind::Vehicle
        }
    });
    let margin = &spec.options.yield_margin;
    match kind {
        BasisKind::Eurocode if margin.spot.is_some() => {
            let message =
                "the basis is `eurocode`, and `yield_margin` is given as well: both would count the margin twice";
            let help = "take `yield_margin` out, or write `kind = \"vehicle\"` under [basis]";
            log.error(codes::TWO_MARGINS, margin.spot, "yield_margin", message, help);
        }
        BasisKind::Vehicle => {
            let strength = [&entry.gamma_f, &entry.gamma_m0, &entry.gamma_m1, &entry.gamma_m2, &entry.gamma_m5];
            for gamma in strength.into_iter().flatten() {
                let message = format!(
                    "the basis is `vehicle`, and `{}` is given: partial factors belong to the basis `eurocode`",
                    gamma.key.value
                );
                let help = "write `kind = \"eurocode\"` under [basis], or take the factor out; `yield_margin` under [options] is the margin of the basis `vehicle`";
                log.error(codes::TWO_MARGINS, gamma.key.spot, &gamma.key, message, help);
            }
        }
        BasisKind::Eurocode => {}
    }
    let mut factor = |entry: &Option<GammaEntry>, value, source| gamma(entry.as_ref(), value, source, log);
    Basis {
        kind,
        gamma_f: factor(&entry.gamma_f, 1.5, VARIABLE),
        gamma_m0: factor(&entry.gamma_m0, 1.0, RECOMMENDED),
        gamma_m1: factor(&entry.gamma_m1, 1.0, RECOMMENDED),
        gamma_m2: factor(&entry.gamma_m2, 1.25, RECOMMENDED_M2),
        gamma_m5: factor(&entry.gamma_m5, 1.0, RECOMMENDED_M5),
        gamma_mf: factor(&entry.gamma_mf, 1.35, SAFE_LIFE),
    }
}

fn gamma(entry: Option<&GammaEntry>, value: f64, source: &str, log: &mut Log) -> Gamma {
    let Some(entry) = entry else { return Gamma { value, source: source.to_owned() } };
    let name = &entry.key;
    // A missing value was said when the file was read.
    if !entry.value.is_nan() {
        let given = log.finite(&entry.value, name, "the value");
        if given < 1.0 {
            let message =
                format!("`{}` is {given}: below 1 it would make the frame stronger than its material", name.value);
            log.error(codes::GAMMA_BELOW_ONE, entry.value.spot, name, message, "write 1 or more");
        }
    }
    if entry.source.trim().is_empty() {
        let message = format!("the factor `{}` has no source", name.value);
        let help = "say in `source` where it comes from, such as the national annex: the report prints it";
        log.error(codes::NO_SOURCE, entry.source.spot, name, message, help);
    }
    Gamma { value: entry.value.value, source: entry.source.value.clone() }
}

/// The rules for members.
pub(super) fn members(spec: &ModelSpec, log: &mut Log) -> Members {
    let entry = &spec.members;
    for group in entry.braces.iter().chain(&entry.chords) {
        if spec.tubes.iter().all(|row| row.group.value != group.value) {
            let message = format!("[members]: no tube has the group `{}`", group.value);
            let groups = spec.tubes.iter().map(|row| row.group.as_str()).filter(|name| !name.is_empty());
            let help = nearest(group, groups).map_or_else(
                || "write the text that stands under `group` in tubes.csv".to_owned(),
                |found| format!("did you mean `{found}`?"),
            );
            log.error(codes::MEMBER_GROUP, group.spot, group, message, help);
        }
    }
    for group in &entry.chords {
        if entry.braces.iter().any(|brace| brace.value == group.value) {
            let message = format!("[members]: the group `{}` is among the braces and among the chords", group.value);
            log.error(codes::MEMBER_GROUP, group.spot, group, message, "keep it in one of the two lists");
        }
    }
    let slenderness_limit = entry.slenderness_limit.as_ref().map_or(SLENDERNESS, |limit| {
        let value = log.finite(limit, "members", "`slenderness_limit`");
        if value <= 0.0 {
            let message = format!("`slenderness_limit` is {value}");
            let help = "write the greatest buckling length over radius of gyration: 180, or another number";
            log.error(codes::SLENDERNESS_LIMIT, limit.spot, "slenderness_limit", message, help);
        }
        value
    });
    let names = |groups: &[Written<String>]| groups.iter().map(|group| group.value.clone()).collect();
    Members { braces: names(&entry.braces), chords: names(&entry.chords), slenderness_limit, sway: entry.sway }
}

/// The checks that are switched off.
pub(super) fn switched_off(spec: &ModelSpec, log: &mut Log) -> Vec<SwitchedOff> {
    let mut off = Vec::new();
    for entry in &spec.checks {
        let check = &entry.check;
        if !SWITCHABLE.contains(&check.as_str()) {
            let message = format!("`{}` is not a check that can be switched off", check.value);
            log.error(
                codes::UNKNOWN_CHECK,
                check.spot,
                check,
                message,
                format!("these can: {}", SWITCHABLE.join(", ")),
            );
            continue;
        }
        let reason = text(entry.reason.as_ref());
        if reason.is_empty() && entry.off {
            let spot = entry.reason.as_ref().and_then(|reason| reason.spot).or(check.spot);
            let message = format!("the check `{}` is switched off without a reason", check.value);
            let help = "add `reason = \"…\"`: findings and report print it";
            log.error(codes::NO_REASON, spot, check, message, help);
        }
        if entry.off {
            off.push(SwitchedOff { check: check.value.clone(), reason });
        }
    }
    off
}

/// A tube's buckling lengths, about its y and its z.
pub(super) fn buckling(row: &TubeRow, log: &mut Log) -> Option<[Buckling; 2]> {
    let [y, z] = [("y", &row.buckling[0]), ("z", &row.buckling[1])].map(|(axis, written)| one(row, axis, written, log));
    Some([y?, z?])
}

fn one(row: &TubeRow, axis: &str, written: &BucklingWritten, log: &mut Log) -> Option<Buckling> {
    let name = &row.tube;
    let (given, column, made): (_, _, fn(f64) -> Buckling) = match (&written.length_mm, &written.factor) {
        (None, None) => return Some(Buckling::Rule),
        (Some(_), Some(factor)) => {
            let message = format!("tube `{}` has both `buckling_{axis}_mm` and `buckling_factor_{axis}`", name.value);
            log.error(codes::BUCKLING_LENGTH, factor.spot, name, message, "keep one of them");
            return None;
        }
        (Some(length), None) => (length, format!("`buckling_{axis}_mm`"), |mm| Buckling::Length(mm * MM)),
        (None, Some(factor)) => (factor, format!("`buckling_factor_{axis}`"), Buckling::Factor),
    };
    if given.is_nan() {
        // It was said when the file was read, or came from a script.
        log.finite(given, name, &column);
        return None;
    }
    let value = log.finite(given, name, &column);
    if value <= 0.0 {
        let message = format!("tube `{}`: {column} is {value}", name.value);
        let help = "write a length or factor greater than 0; an empty cell: the tube's own length";
        log.error(codes::BUCKLING_LENGTH, given.spot, name, message, help);
    }
    (value > 0.0 && value.is_finite()).then(|| made(value))
}

/// Warns of a buckling length that hardly any frame gives its tube.
pub(super) fn odd_buckling(row: &TubeRow, length_mm: f64, log: &mut Log) {
    for (axis, written) in ["y", "z"].into_iter().zip(&row.buckling) {
        let (given, factor) = match (&written.length_mm, &written.factor) {
            (Some(length), None) => (length, length.value / length_mm),
            (None, Some(factor)) => (factor, factor.value),
            _ => continue,
        };
        if factor.is_finite() && factor > 0.0 && !(0.25..=10.0).contains(&factor) {
            let message = format!(
                "tube `{}` is {length_mm:.0} mm long, and buckles about its {axis} as if {:.0} mm long",
                row.tube.value,
                factor * length_mm
            );
            let help = "buckling lengths are mostly 0.5 to 2 times the tube's length; lengths are in mm, factors plain numbers";
            log.warning(codes::ODD_BUCKLING_LENGTH, given.spot, &row.tube, message, help);
        }
    }
}
