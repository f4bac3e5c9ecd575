//! Welds: kinds and methods that there are, throats that fit the walls.

use super::{Log, words_help};
use crate::codes;
use crate::ids::Id;
use crate::model::{Section, Tube, WeldGroup, WeldKind, WeldMethod, WeldProcess, Welds};
use crate::nearest::nearest;
use crate::spec::{ModelSpec, WeldEntry, Written};
use crate::units::{MM, to_mm};

/// Throat over wall above which the throat is doubted (common practice, no source).
const THICK: f64 = 1.5;
/// Throat below which it is doubted, mm (common practice, no source).
const THIN_MM: f64 = 1.0;

/// How the tubes are welded.
pub(super) fn check(spec: &ModelSpec, tubes: &[Option<Tube>], sections: &[Option<Section>], log: &mut Log) -> Welds {
    let entry = &spec.welds;
    let methods = [WeldMethod::Directional, WeldMethod::Simplified].map(|method| (method.word(), method));
    let processes = [WeldProcess::Tig, WeldProcess::Mig].map(|process| (process.word(), process));
    let method = word(entry.method.as_ref(), "a method of judging welds", &methods, log);
    let process = word(entry.process.as_ref(), "a way of welding that is known here", &processes, log);
    let all = one(&entry.all, WeldKind::Fillet, log);
    let kind = all.kind.unwrap_or(WeldKind::Fillet);
    let groups: Vec<WeldGroup> = entry
        .groups
        .iter()
        .map(|entry| {
            known(entry, spec, log);
            one(entry, kind, log)
        })
        .collect();
    for (own, entry) in groups.iter().zip(&entry.groups) {
        let theirs = |tube: &Tube| tube.group == own.group;
        odd(entry, own.kind.unwrap_or(kind), theirs, tubes, sections, log);
    }
    // Tubes whose group has a throat or a kind of its own go by that.
    let fillet = |own: &WeldGroup| own.throat.is_none() && own.kind != Some(WeldKind::Butt);
    let rest = |tube: &Tube| groups.iter().find(|own| own.group == tube.group).is_none_or(fillet);
    odd(&entry.all, kind, rest, tubes, sections, log);
    Welds {
        kind,
        throat: all.throat,
        method: method.unwrap_or(WeldMethod::Directional),
        process: process.unwrap_or(WeldProcess::Tig),
        groups,
    }
}

/// One of a few words.
fn word<T: Copy>(
    written: Option<&Written<String>>,
    what: &str,
    words: &[(&'static str, T)],
    log: &mut Log,
) -> Option<T> {
    let written = written?;
    let found = words.iter().find(|(word, _)| *word == written.value).map(|&(_, value)| value);
    if found.is_none() {
        let names: Vec<&'static str> = words.iter().map(|&(word, _)| word).collect();
        let message = format!("`{}` is not {what}", written.value);
        log.error(codes::UNKNOWN_WORD, written.spot, "welds", message, words_help(written, &names));
    }
    found
}

/// Kind and throat of one table; `inherited` is the kind that holds where it says none.
fn one(entry: &WeldEntry, inherited: WeldKind, log: &mut Log) -> WeldGroup {
    let kinds = [WeldKind::Fillet, WeldKind::Butt].map(|kind| (kind.word(), kind));
    let kind = word(entry.kind.as_ref(), "a kind of weld", &kinds, log);
    let throat = entry.throat_mm.as_ref().map(|throat| {
        let value = log.finite(throat, "welds", "`throat_mm`");
        if value <= 0.0 {
            let message = format!("`throat_mm` is {value}");
            let help =
                "write the throat of the fillet, 0.7 of its leg, in mm; without the key it is the wall of the tube";
            log.error(codes::WELD_THROAT, throat.spot, "throat_mm", message, help);
        }
        if kind.unwrap_or(inherited) == WeldKind::Butt {
            let message = "a butt weld has no throat: it is taken as one of full penetration";
            let help = "take `throat_mm` out, or write `kind = \"fillet\"`; partial penetration is not covered";
            log.error(codes::BUTT_THROAT, throat.spot, "throat_mm", message, help);
        }
        value * MM
    });
    WeldGroup { group: entry.group.value.clone(), kind, throat }
}

/// That a tube has the group.
fn known(entry: &WeldEntry, spec: &ModelSpec, log: &mut Log) {
    let group = &entry.group;
    if spec.tubes.iter().any(|row| row.group.value == group.value) {
        return;
    }
    let message = format!("[welds.groups.{0}]: no tube has the group `{0}`", group.value);
    let groups = spec.tubes.iter().map(|row| row.group.as_str()).filter(|name| !name.is_empty());
    let help = nearest(group, groups).map_or_else(
        || "write the text that stands under `group` in tubes.csv".to_owned(),
        |found| format!("did you mean `{found}`?"),
    );
    log.error(codes::WELD_GROUP, group.spot, group, message, help);
}

/// Warns of a throat that the thinnest of its tubes would not bear, or that is hardly there.
fn odd(
    entry: &WeldEntry,
    kind: WeldKind,
    theirs: impl Fn(&Tube) -> bool,
    tubes: &[Option<Tube>],
    sections: &[Option<Section>],
    log: &mut Log,
) {
    let Some(throat) = entry.throat_mm.as_ref().filter(|throat| throat.value > 0.0 && throat.is_finite()) else {
        return;
    };
    if kind == WeldKind::Butt {
        return;
    }
    if throat.value < THIN_MM {
        let message = format!("the throat of the fillet welds is {} mm, less than {THIN_MM} mm", throat.value);
        let help = "the throat is 0.7 of the leg, in mm; so thin a weld cannot be told from none";
        log.warning(codes::ODD_THROAT, throat.spot, "throat_mm", message, help);
    }
    let walls = tubes.iter().flatten().filter(|tube| theirs(tube)).filter_map(|tube| {
        let wall = sections[tube.section.index()].as_ref()?.wall()?;
        Some((tube, to_mm(wall)))
    });
    // The first of the thinnest.
    let thinnest = walls.reduce(|best, next| if next.1 < best.1 { next } else { best });
    if let Some((tube, wall)) = thinnest
        && throat.value > THICK * wall * (1.0 + 1e-9)
    {
        let message = format!(
            "the throat of the fillet welds is {} mm, and the wall of tube `{}` {wall:.2} mm",
            throat.value, tube.name
        );
        let help = "write the throat, 0.7 of the leg, in mm; thinner tubes get their own table [welds.groups.NAME]";
        log.warning(codes::ODD_THROAT, throat.spot, "throat_mm", message, help);
    }
}
