//! Sections: the keys that the shape wants, and sizes that make a tube.

use super::{Log, words_help};
use crate::codes;
use crate::gauges;
use crate::model::section::{SectionError, standard_outer_radius};
use crate::model::{Route, Section};
use crate::nearest::nearest;
use crate::spec::{ModelSpec, SectionEntry, Spot, Written};
use crate::stock;
use crate::units::{MM, MM2, MM4, to_mm};

const SHAPES: [&str; 6] = ["square", "rectangular", "round", "solid-round", "flat", "properties"];

/// The sections, `None` where faulty.
pub(super) fn check(spec: &ModelSpec, log: &mut Log) -> Vec<Option<Section>> {
    spec.sections.iter().map(|entry| one(entry, log)).collect()
}

/// One section; `None` where it is faulty.
pub(super) fn one(entry: &SectionEntry, log: &mut Log) -> Option<Section> {
    let route = route(entry, log)?;
    if let Some(stock) = &entry.stock {
        return from_stock(entry, stock, log).map(|section| made_by(section, route));
    }
    let Some(shape) = &entry.shape else {
        let help = format!("`shape = \"square\"`; the shapes are {}", SHAPES.join(", "));
        missing(entry, "shape", help, log);
        return None;
    };
    let keys = Keys { entry, shape: shape.as_str() };
    let name = entry.name.value.clone();
    let made = match shape.as_str() {
        "square" => {
            keys.only(&["width_mm", "height_mm", "wall_mm", "wall", "outer_radius_mm", "route"], log);
            let width = keys.size("width_mm", &entry.width_mm, log);
            if let (Some(height), Some(width)) = (&entry.height_mm, &entry.width_mm)
                && height.is_finite()
                && height.value != width.value
            {
                let message = format!("the section `{name}` is square, and its height is not its width");
                log.error(codes::KEYS_DISAGREE, height.spot, &name, message, "write `shape = \"rectangular\"`");
                return None;
            }
            let wall = keys.wall(log);
            let (width, wall) = (width?, wall?);
            Section::hollow(name, width, width, wall, keys.radius(log)?)
        }
        "rectangular" => {
            keys.only(&["height_mm", "width_mm", "wall_mm", "wall", "outer_radius_mm", "route"], log);
            let height = keys.size("height_mm", &entry.height_mm, log);
            let width = keys.size("width_mm", &entry.width_mm, log);
            let wall = keys.wall(log);
            let (height, width, wall) = (height?, width?, wall?);
            Section::hollow(name, height, width, wall, keys.radius(log)?)
        }
        "round" => {
            keys.only(&["diameter_mm", "wall_mm", "wall", "route"], log);
            let diameter = keys.size("diameter_mm", &entry.diameter_mm, log);
            let wall = keys.wall(log);
            Section::round(name, diameter?, wall?)
        }
        "solid-round" => {
            keys.only(&["diameter_mm"], log);
            let diameter = keys.size("diameter_mm", &entry.diameter_mm, log)?;
            Section::from_shape(name, crate::model::Shape::SolidRound { diameter })
        }
        "flat" => {
            keys.only(&["height_mm", "width_mm"], log);
            let height = keys.size("height_mm", &entry.height_mm, log);
            let width = keys.size("width_mm", &entry.width_mm, log);
            Section::from_shape(name, crate::model::Shape::Flat { height: height?, width: width? })
        }
        "properties" => {
            keys.only(&["area_mm2", "iy_mm4", "iz_mm4", "j_mm4"], log);
            let area = keys.value("area_mm2", &entry.area_mm2, MM2, log);
            let [iy, iz, j] = [("iy_mm4", &entry.iy_mm4), ("iz_mm4", &entry.iz_mm4), ("j_mm4", &entry.j_mm4)]
                .map(|(key, value)| keys.value(key, value, MM4, log));
            Section::properties(name, area?, iy?, iz?, j?)
        }
        other => {
            let message = format!("the section `{name}` has the unknown shape `{other}`");
            log.error(codes::UNKNOWN_WORD, shape.spot, &name, message, words_help(other, &SHAPES));
            return None;
        }
    };
    match made {
        Ok(section) => {
            plausible(entry, &section, log);
            Some(made_by(section, route))
        }
        Err(fault) => {
            refused(entry, &fault, log);
            None
        }
    }
}

/// How the section was made; the outer `None` is a fault.
#[expect(clippy::option_option, reason = "not given and wrong are two things")]
fn route(entry: &SectionEntry, log: &mut Log) -> Option<Option<Route>> {
    let Some(word) = &entry.route else { return Some(None) };
    let routes = [Route::ColdFormed, Route::HotFinished];
    let found = routes.into_iter().find(|route| route.word() == word.as_str());
    if found.is_none() {
        let message = format!("the section `{}`: `{}` is not a way to make tube", entry.name.value, word.value);
        log.error(codes::UNKNOWN_WORD, word.spot, &entry.name, message, words_help(word, &routes.map(Route::word)));
    }
    found.map(Some)
}

/// Hollow sections have a route, cold-formed where none is given.
fn made_by(section: Section, route: Option<Route>) -> Section {
    Section { route: section.route.map(|usual| route.unwrap_or(usual)), ..section }
}

fn from_stock(entry: &SectionEntry, text: &Written<String>, log: &mut Log) -> Option<Section> {
    let name = &entry.name.value;
    if let Some((key, spot)) = given(entry).into_iter().find(|(key, _)| !["stock", "route"].contains(key)) {
        let message = format!("the section `{name}` has both `stock` and `{key}`");
        log.error(codes::KEYS_DISAGREE, spot, name, message, "keep `stock`, or the shape and its sizes");
        return None;
    }
    let Some(size) = stock::find(text) else {
        let names: Vec<String> = stock::all().map(|size| size.name()).collect();
        let help = match nearest(text, names.iter().map(String::as_str)) {
            Some(found) => format!("did you mean `{found}`? otherwise give the shape and its sizes"),
            None => {
                "written like `square 30x2`, `rectangular 40x20x2`, `round 42.4x2.5`; for other sizes give the shape"
                    .to_owned()
            }
        };
        let message = format!("the section `{name}`: `{}` is not in the list of stock sizes", text.value);
        log.error(codes::UNKNOWN_STOCK, text.spot, name, message, help);
        return None;
    };
    size.section(name.clone()).ok()
}

/// The keys that were given, each with its place.
fn given(entry: &SectionEntry) -> Vec<(&'static str, Option<Spot>)> {
    let texts = [("shape", &entry.shape), ("stock", &entry.stock), ("wall", &entry.wall), ("route", &entry.route)];
    let numbers = [
        ("height_mm", &entry.height_mm),
        ("width_mm", &entry.width_mm),
        ("diameter_mm", &entry.diameter_mm),
        ("wall_mm", &entry.wall_mm),
        ("outer_radius_mm", &entry.outer_radius_mm),
        ("area_mm2", &entry.area_mm2),
        ("iy_mm4", &entry.iy_mm4),
        ("iz_mm4", &entry.iz_mm4),
        ("j_mm4", &entry.j_mm4),
    ];
    let texts = texts.into_iter().filter_map(|(key, text)| text.as_ref().map(|text| (key, text.spot)));
    texts
        .chain(numbers.into_iter().filter_map(|(key, number)| number.as_ref().map(|number| (key, number.spot))))
        .collect()
}

fn missing(entry: &SectionEntry, key: &str, help: impl Into<String>, log: &mut Log) {
    let message = format!("the section `{}` has no `{key}`", entry.name.value);
    log.error(codes::MISSING_KEY, entry.name.spot, &entry.name, message, help);
}

/// The keys of a section with a known shape.
struct Keys<'e> {
    entry: &'e SectionEntry,
    shape: &'e str,
}

impl Keys<'_> {
    /// Names every key that the shape does not have.
    fn only(&self, keys: &[&str], log: &mut Log) {
        let name = &self.entry.name.value;
        for (key, spot) in given(self.entry) {
            if key != "shape" && !keys.contains(&key) {
                let message = format!("the section `{name}` is of shape `{}`, which has no `{key}`", self.shape);
                let help = format!("its keys are {}", keys.join(", "));
                log.error(codes::KEYS_DISAGREE, spot, name, message, help);
            }
        }
    }

    fn value(&self, key: &str, value: &Option<Written<f64>>, unit: f64, log: &mut Log) -> Option<f64> {
        let Some(value) = value else {
            missing(self.entry, key, format!("add `{key} = …`"), log);
            return None;
        };
        let number = log.finite(value, &self.entry.name, &format!("`{key}`"));
        if number <= 0.0 {
            let message = format!("the section `{}`: `{key}` is {number}", self.entry.name.value);
            log.error(codes::SIZE_NOT_POSITIVE, value.spot, &self.entry.name, message, "write a size greater than 0");
        }
        (number > 0.0).then_some(number * unit)
    }

    fn size(&self, key: &str, value: &Option<Written<f64>>, log: &mut Log) -> Option<f64> {
        self.value(key, value, MM, log)
    }

    /// The wall, from `wall_mm` or `wall`, m.
    fn wall(&self, log: &mut Log) -> Option<f64> {
        let name = &self.entry.name.value;
        match (&self.entry.wall_mm, &self.entry.wall) {
            (Some(_), Some(text)) => {
                let message = format!("the section `{name}` has both `wall_mm` and `wall`");
                log.error(codes::KEYS_DISAGREE, text.spot, name, message, "keep one of them");
                None
            }
            (None, None) => {
                missing(self.entry, "wall_mm", "add `wall_mm = 2.0` or `wall = \"16 swg\"`", log);
                None
            }
            (wall, None) => self.size("wall_mm", wall, log),
            (None, Some(text)) => match gauges::wall_mm(text) {
                Some(wall) if wall > 0.0 => Some(wall * MM),
                Some(_) => {
                    let message = format!("the section `{name}`: the wall is {}", text.value);
                    log.error(codes::SIZE_NOT_POSITIVE, text.spot, name, message, "write a size greater than 0");
                    None
                }
                None => {
                    let message = format!("the section `{name}`: `{}` is no wall thickness", text.value);
                    let help =
                        "write `16 swg` (8 to 22) or `1.5 mm`; other gauges (American, sheet) are other sizes: give mm";
                    log.error(codes::UNKNOWN_GAUGE, text.spot, name, message, help);
                    None
                }
            },
        }
    }

    /// The outer radius that the user gave; the outer `None` is a fault.
    #[expect(clippy::option_option, reason = "not given and wrong are two things")]
    fn radius(&self, log: &mut Log) -> Option<Option<f64>> {
        let Some(radius) = &self.entry.outer_radius_mm else { return Some(None) };
        let radius = log.finite(radius, &self.entry.name, "`outer_radius_mm`");
        radius.is_finite().then_some(Some(radius * MM))
    }
}

/// Says in the user's terms why the sizes make no section.
fn refused(entry: &SectionEntry, fault: &SectionError, log: &mut Log) {
    let name = &entry.name;
    let spot = |value: &Option<Written<f64>>| value.as_ref().and_then(|value| value.spot);
    let wall_spot = spot(&entry.wall_mm).or_else(|| entry.wall.as_ref().and_then(|wall| wall.spot));
    let message = format!("the section `{}`: {fault}", name.value);
    match fault {
        SectionError::NotPositive { .. } => {
            log.error(codes::SIZE_NOT_POSITIVE, name.spot, name, message, "write a size greater than 0");
        }
        SectionError::WallTooThick { .. } => {
            let help = "the wall must be less than half the smaller outside size; for a bar without a hole use `solid-round` or `flat`";
            log.error(codes::WALL_TOO_THICK, wall_spot, name, message, help);
        }
        SectionError::CornerRadius { .. } if entry.outer_radius_mm.is_none() => {
            let help = "the wall is so thick that the standard's corner radius does not fit: measure it and give `outer_radius_mm`";
            log.error(codes::CORNER_RADIUS, wall_spot, name, message, help);
        }
        SectionError::CornerRadius { .. } => {
            let help = "give the outside radius of the corner in mm, or leave the key out for that of EN 10219-2";
            log.error(codes::CORNER_RADIUS, spot(&entry.outer_radius_mm), name, message, help);
        }
    }
}

/// Warns of sizes that no frame tube has: another unit, most likely.
fn plausible(entry: &SectionEntry, section: &Section, log: &mut Log) {
    let name = &entry.name;
    let depth = section.depth().map(to_mm);
    let wall = section.thickness().map(to_mm);
    let odd = match (depth, wall) {
        (Some(depth), _) if depth < 3.0 => Some(format!("is {depth} mm across")),
        (Some(depth), _) if depth > 1000.0 => Some(format!("is {depth} mm across")),
        (_, Some(wall)) if wall < 0.2 => Some(format!("has a wall of {wall} mm")),
        (_, Some(wall)) if wall > 500.0 => Some(format!("is {wall} mm thick")),
        _ => None,
    };
    if let Some(odd) = odd {
        let message = format!("the section `{}` {odd}", name.value);
        log.warning(codes::ODD_SECTION, name.spot, name, message, "sizes are in mm, not in m or inches");
    }
    if let Some(radius) = entry.outer_radius_mm.as_ref()
        && let Some(wall) = wall
        && radius.value > 0.0
        && !(0.5..=4.0).contains(&(radius.value / wall))
    {
        let usual = to_mm(standard_outer_radius(wall * MM));
        let message = format!("the section `{}` has an outer corner radius of {} mm", name.value, radius.value);
        let help = format!("EN 10219-2 calculates with {usual:.1} mm for this wall; is it the outside radius, in mm?");
        log.warning(codes::ODD_SECTION, radius.spot, name, message, help);
    }
}
