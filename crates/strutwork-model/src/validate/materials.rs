//! Materials: from a grade, from the user's values, or from a grade with values replaced.

use super::{Log, Materials};
use crate::codes;
use crate::grades::{self, GRADES, Grade};
use crate::model::{Material, Strength};
use crate::nearest::nearest;
use crate::spec::{MaterialEntry, ModelSpec, Written};
use crate::units::MPA;

/// The materials, `None` where faulty.
pub(super) fn check(spec: &ModelSpec, log: &mut Log) -> Materials {
    spec.materials.iter().map(|entry| one(entry, log)).collect()
}

fn one(entry: &MaterialEntry, log: &mut Log) -> Option<Material> {
    let before = log.0.len();
    let grade = match &entry.grade {
        None => None,
        Some(name) => Some(grade(entry, name, log)?),
    };
    let take = |key: &'static str, own: &Option<Written<f64>>, listed: Option<f64>, zero: bool, log: &mut Log| {
        own.as_ref().map_or(listed, |own| Some(value(entry, key, own, zero, log)))
    };
    let e = take("e_mpa", &entry.e_mpa, grade.map(|g| g.e_mpa), false, log);
    let g = take("g_mpa", &entry.g_mpa, grade.map(|g| g.g_mpa), false, log);
    let density = take("density_kg_m3", &entry.density_kg_m3, grade.map(|g| g.density_kg_m3), true, log);
    let expansion = match &entry.thermal_per_k {
        Some(own) => Some(log.finite(own, &entry.name, "`thermal_per_k`")),
        None => grade.and_then(|g| g.thermal_per_k),
    };
    let parent = grade.and_then(|g| g.strength_mpa);
    let yielding = take("yield_mpa", &entry.yield_mpa, parent.map(|[yielding, _]| yielding), false, log);
    let ultimate = take("ultimate_mpa", &entry.ultimate_mpa, parent.map(|[_, most]| most), false, log);
    let haz = grade.and_then(|g| g.haz_mpa);
    let haz_yield = take("haz_yield_mpa", &entry.haz_yield_mpa, haz.map(|[proof, _]| proof), false, log);
    let haz_ultimate = take("haz_ultimate_mpa", &entry.haz_ultimate_mpa, haz.map(|[_, most]| most), false, log);
    let listed = grade.and_then(|g| g.shear_strength_mpa);
    let shear_strength = take("shear_strength_mpa", &entry.shear_strength_mpa, listed, false, log);
    for (key, there) in [("e_mpa", e.is_some()), ("g_mpa", g.is_some())] {
        if !there {
            let message = format!("the material `{}` has no `{key}`", entry.name.value);
            let help = "give `grade = \"…\"` from the built-in list, or at least `e_mpa` and `g_mpa`";
            log.error(codes::MISSING_KEY, entry.name.spot, &entry.name, message, help);
        }
    }
    let strength = pair(entry, ["yield_mpa", "ultimate_mpa"], yielding, ultimate, log);
    let heat_affected = pair(entry, ["haz_yield_mpa", "haz_ultimate_mpa"], haz_yield, haz_ultimate, log);
    if let (Some(parent), Some(beside)) = (strength, heat_affected)
        && (beside.yield_stress > parent.yield_stress || beside.ultimate > parent.ultimate)
    {
        let message = format!("the material `{}` is stronger beside a weld than away from it", entry.name.value);
        log.error(codes::MATERIAL_VALUE, entry.name.spot, &entry.name, message, "check the four strengths");
    }
    if log.0.len() > before {
        return None;
    }
    let (e, g) = (e?, g?);
    plausible(entry, e, g, grade, density, log);
    Some(Material {
        name: entry.name.value.clone(),
        grade: grade.map(|g| g.name.to_owned()).unwrap_or_default(),
        youngs: e * MPA,
        shear: g * MPA,
        density: density.unwrap_or(0.0),
        expansion,
        strength,
        heat_affected,
        shear_strength: shear_strength.map(|strength| strength * MPA),
        source: source(entry, grade),
        verified: grade.is_some_and(|g| g.verified) && replaced(entry).is_empty(),
    })
}

fn grade(entry: &MaterialEntry, name: &Written<String>, log: &mut Log) -> Option<&'static Grade> {
    let found = grades::find(name);
    if found.is_none() {
        let help = match nearest(name, GRADES.iter().map(|grade| grade.name)) {
            Some(nearest) => format!("did you mean `{nearest}`?"),
            None => {
                let names: Vec<&str> = GRADES.iter().map(|grade| grade.name).collect();
                format!("the list has {}; for another give e_mpa, g_mpa and its source", names.join(", "))
            }
        };
        let message = format!("the material `{}`: the grade `{}` is not in the list", entry.name.value, name.value);
        log.error(codes::UNKNOWN_GRADE, name.spot, &entry.name, message, help);
    }
    found
}

/// A value of the user's own; a fault where it is not positive (or not at least zero).
fn value(entry: &MaterialEntry, key: &str, own: &Written<f64>, zero: bool, log: &mut Log) -> f64 {
    let number = log.finite(own, &entry.name, &format!("`{key}`"));
    if number < 0.0 || (number == 0.0 && !zero) {
        let message = format!("the material `{}`: `{key}` is {number}", entry.name.value);
        log.error(codes::MATERIAL_VALUE, own.spot, &entry.name, message, "write a value greater than 0");
    }
    number
}

/// Two strengths that need each other.
fn pair(
    entry: &MaterialEntry,
    [low, high]: [&str; 2],
    yielding: Option<f64>,
    ultimate: Option<f64>,
    log: &mut Log,
) -> Option<Strength> {
    let name = &entry.name;
    match (yielding, ultimate) {
        (Some(yielding), Some(ultimate)) => {
            if yielding > ultimate {
                let message = format!("the material `{}`: `{low}` is above `{high}`", name.value);
                log.error(codes::MATERIAL_VALUE, name.spot, name, message, "the two are probably swapped");
            }
            Some(Strength { yield_stress: yielding * MPA, ultimate: ultimate * MPA })
        }
        (None, None) => None,
        (given, _) => {
            let (there, not_there) = if given.is_some() { (low, high) } else { (high, low) };
            let message = format!("the material `{}` has `{there}` and no `{not_there}`", name.value);
            log.error(codes::MISSING_KEY, name.spot, name, message, format!("add `{not_there} = …`"));
            None
        }
    }
}

/// The keys that replace values of the grade.
fn replaced(entry: &MaterialEntry) -> Vec<&'static str> {
    [
        ("e_mpa", &entry.e_mpa),
        ("g_mpa", &entry.g_mpa),
        ("density_kg_m3", &entry.density_kg_m3),
        ("yield_mpa", &entry.yield_mpa),
        ("ultimate_mpa", &entry.ultimate_mpa),
        ("thermal_per_k", &entry.thermal_per_k),
        ("shear_strength_mpa", &entry.shear_strength_mpa),
        ("haz_yield_mpa", &entry.haz_yield_mpa),
        ("haz_ultimate_mpa", &entry.haz_ultimate_mpa),
    ]
    .into_iter()
    .filter(|(_, value)| value.is_some())
    .map(|(key, _)| key)
    .collect()
}

fn source(entry: &MaterialEntry, grade: Option<&Grade>) -> String {
    let own = entry.source.as_ref().map(|source| source.trim()).filter(|source| !source.is_empty());
    let Some(grade) = grade else {
        return own.unwrap_or("as given in model.toml, no source named").to_owned();
    };
    let listed = format!("{}; {}", grade.source, grade.stiffness_source);
    let replaced = replaced(entry);
    if replaced.is_empty() {
        return own.map_or(listed.clone(), |own| format!("{listed}; {own}"));
    }
    let own = own.unwrap_or("no source named");
    format!("{listed}; replaced in model.toml: {} ({own})", replaced.join(", "))
}

/// Warns of values that look like another unit.
fn plausible(entry: &MaterialEntry, e: f64, g: f64, grade: Option<&Grade>, density: Option<f64>, log: &mut Log) {
    let name = &entry.name;
    // Sheets of the list, such as plywood, need not be isotropic.
    let as_listed = grade.is_some_and(|grade| grade.e_mpa == e && grade.g_mpa == g);
    let mut warn = |value: &Option<Written<f64>>, message: String, help: &str| {
        let spot = value.as_ref().and_then(|value| value.spot).or(name.spot);
        log.warning(codes::ODD_MATERIAL, spot, name, message, help);
    };
    if !(1e3..=1e6).contains(&e) {
        let message = format!("the material `{}`: E = {e} MPa is no structural material", name.value);
        warn(&entry.e_mpa, message, "MPa is N/mm²: steel has 210000, aluminium 70000");
    } else if !as_listed && !(e / 3.0 * (1.0 - 1e-6)..=e / 2.0 * (1.0 + 1e-6)).contains(&g) {
        let message = format!("the material `{}`: G = {g} MPa does not belong to E = {e} MPa", name.value);
        warn(
            &entry.g_mpa,
            message,
            "for metals G is about E/2.6; it lies between E/3 and E/2 for every isotropic material",
        );
    }
    if let Some(density) = density
        && density != 0.0
        && !(500.0..=25_000.0).contains(&density)
    {
        let message = format!("the material `{}`: {density} kg/m³ is no structural material", name.value);
        warn(&entry.density_kg_m3, message, "in kg/m³ steel has 7850, aluminium 2700");
    }
}
