//! Kinds of bolts: sizes and classes that are known, what each clamps, and values that can be.

use std::ops::RangeInclusive;

use super::bodies::unit;
use super::{Log, Lookup, words_help};
use crate::bolts::{self, BoltSize, CLASSES, SIZES};
use crate::codes;
use crate::ids::{BoltId, Id, IndexVec, MaterialId};
use crate::model::{Bolt, Clamps, ShearPlane, normal_clearance};
use crate::nearest::nearest;
use crate::spec::{BoltEntry, ModelSpec, Written};
use crate::units::{MM, to_mm};

const PLANES: [&str; 2] = ["thread", "shank"];
const CLAMPED: [&str; 3] = ["tube", "sleeve", "plate"];

/// The kinds of bolts; one with a fault stays in, so that ids and names agree.
pub(super) fn check(spec: &ModelSpec, look: &Lookup<'_>, log: &mut Log) -> IndexVec<BoltId, Bolt> {
    spec.bolts.iter().map(|entry| Keys { entry, log: &mut *log }.bolt(look)).collect()
}

/// An entry, and where its faults go.
struct Keys<'e, 'l> {
    entry: &'e BoltEntry,
    log: &'l mut Log,
}

impl Keys<'_, '_> {
    fn bolt(mut self, look: &Lookup<'_>) -> Bolt {
        let name = &self.entry.name;
        let axis = self.entry.axis.as_ref();
        let axis = axis.and_then(|axis| unit(axis, name, &format!("the axis of the bolt `{}`", name.value), self.log));
        let size = self.size();
        let diameter = size.map(|size| size.diameter_mm * MM);
        let hole = self.hole(diameter);
        let clamps = self.clamps(look, diameter);
        let drilled = match clamps {
            Some(Clamps::Sleeve { outer, .. }) => Some(outer),
            _ => hole.or_else(|| diameter.map(|diameter| diameter + normal_clearance(diameter))),
        };
        Bolt {
            name: name.value.clone(),
            size,
            class: self.class(),
            axis,
            shear_plane: self.shear_plane(),
            shear_planes: self.planes(),
            clamps,
            edge: self.edge(drilled),
            hole,
            preload: self.value("preload_n", &self.entry.preload_n, 200.0..=400_000.0),
            friction: self.value("friction", &self.entry.friction, 0.08..=0.6),
            countersunk: self.entry.countersunk,
        }
    }

    /// The size, where it is one that is known.
    fn size(&mut self) -> Option<&'static BoltSize> {
        let written = self.entry.size.as_ref().filter(|text| !text.trim().is_empty())?;
        let found = bolts::size(written);
        if found.is_none() {
            let names: Vec<&str> = SIZES.iter().map(|size| size.name).collect();
            let meant = nearest(written, names.iter().copied()).map(|found| format!("did you mean `{found}`? "));
            let help = format!("{}known are {}", meant.unwrap_or_default(), names.join(", "));
            let name = &self.entry.name;
            let message = format!("the bolt `{}`: the size `{}` is not in the list", name.value, written.value);
            self.log.error(codes::BOLT_SIZE, written.spot, name, message, help);
        }
        found
    }

    fn shear_plane(&mut self) -> ShearPlane {
        let Some(word) = &self.entry.shear_plane else { return ShearPlane::Thread };
        match word.as_str() {
            "thread" => ShearPlane::Thread,
            "shank" => ShearPlane::Shank,
            other => {
                let name = &self.entry.name;
                let message = format!("the bolt `{}`: `{other}` is nothing that can be in a shear plane", name.value);
                self.log.error(codes::UNKNOWN_WORD, word.spot, name, message, words_help(other, &PLANES));
                ShearPlane::Thread
            }
        }
    }

    fn class(&mut self) -> Option<&'static bolts::BoltClass> {
        let written = self.entry.grade.as_ref().filter(|text| !text.trim().is_empty())?;
        let found = bolts::class_named(written);
        if found.is_none() {
            let names: Vec<&str> = CLASSES.iter().map(|class| class.name).collect();
            let help = format!("known are {}", names.join(", "));
            let name = &self.entry.name;
            let message = format!("the bolt `{}`: the class `{}` is not in the list", name.value, written.value);
            self.log.error(codes::BOLT_CLASS, written.spot, name, message, help);
        }
        found
    }

    fn planes(&mut self) -> u8 {
        let Some(written) = &self.entry.shear_planes else { return 1 };
        if written.value == 2.0 {
            return 2;
        }
        if written.value != 1.0 && !written.is_nan() {
            let name = &self.entry.name;
            let message = format!("the bolt `{}`: `shear_planes` is {}", name.value, written.value);
            self.log.error(codes::SHEAR_PLANES, written.spot, name, message, "write 1, or 2 between two plates");
        }
        1
    }

    /// What the bolt clamps; keys that belong to something else are faults.
    fn clamps(&mut self, look: &Lookup<'_>, diameter: Option<f64>) -> Option<Clamps> {
        let entry = self.entry;
        let word = entry.clamps.as_ref();
        let clamped = word.map_or("", |word| word.as_str());
        if let Some(word) = word
            && !CLAMPED.contains(&clamped)
        {
            let message = format!("the bolt `{}`: `{clamped}` is not what a bolt can clamp here", entry.name.value);
            self.log.error(codes::UNKNOWN_WORD, word.spot, &entry.name, message, words_help(clamped, &CLAMPED));
            return None;
        }
        let owned = [
            ("sleeve", "sleeve_outer_mm", entry.sleeve_outer_mm.as_ref().map(|key| key.spot)),
            ("sleeve", "sleeve_wall_mm", entry.sleeve_wall_mm.as_ref().map(|key| key.spot)),
            ("plate", "plate_mm", entry.plate_mm.as_ref().map(|key| key.spot)),
            ("plate", "plate_material", entry.plate_material.as_ref().map(|key| key.spot)),
        ];
        for (owner, key, given) in owned {
            if let Some(spot) = given
                && owner != clamped
            {
                let message = format!("the bolt `{}` has `{key}` and does not clamp a {owner}", entry.name.value);
                let help = format!("write `clamps = \"{owner}\"`, or take `{key}` out");
                self.log.error(codes::KEYS_DISAGREE, spot, &entry.name, message, help);
            }
        }
        if let Some(hole) = &entry.hole_mm
            && clamped == "sleeve"
        {
            let message = format!("the bolt `{}` goes through a sleeve, and has `hole_mm`", entry.name.value);
            let help = "the bore of the sleeve is its hole: take `hole_mm` out";
            self.log.error(codes::KEYS_DISAGREE, hole.spot, &entry.name, message, help);
        }
        match clamped {
            "tube" => Some(Clamps::Tube),
            "sleeve" => self.sleeve(diameter),
            "plate" => self.plate(look),
            _ => None,
        }
    }

    fn sleeve(&mut self, diameter: Option<f64>) -> Option<Clamps> {
        let entry = self.entry;
        let outer = self.needed("sleeve", "sleeve_outer_mm", &entry.sleeve_outer_mm, 8.0..=60.0);
        let wall = self.needed("sleeve", "sleeve_wall_mm", &entry.sleeve_wall_mm, 1.0..=15.0);
        let (outer, wall) = (outer? * MM, wall? * MM);
        let bore = outer - 2.0 * wall;
        // A bore that is reamed to the bolt fits.
        if bore < diameter.unwrap_or(f64::MIN_POSITIVE) * (1.0 - 1e-9) {
            let spot = entry.sleeve_wall_mm.as_ref().and_then(|key| key.spot);
            let message = format!("the bolt `{}`: the bore of its sleeve is {:.1} mm", entry.name.value, to_mm(bore));
            let help = "the bore is the outer diameter less twice the wall; the bolt must go through it";
            self.log.error(codes::SLEEVE_BORE, spot, &entry.name, message, help);
            return None;
        }
        Some(Clamps::Sleeve { outer, wall })
    }

    fn plate(&mut self, look: &Lookup<'_>) -> Option<Clamps> {
        let entry = self.entry;
        let material = entry.plate_material.as_ref().map(|name| {
            let who = format!("bolt `{}`", entry.name.value);
            look.materials.find(name, codes::UNKNOWN_MATERIAL, "model.toml", &who, self.log).map(MaterialId::new)
        });
        let thickness = self.needed("plate", "plate_mm", &entry.plate_mm, 1.0..=40.0)? * MM;
        match material {
            None => Some(Clamps::Plate { thickness, material: None }),
            Some(found) => Some(Clamps::Plate { thickness, material: Some(found?) }),
        }
    }

    fn needed(
        &mut self,
        clamped: &str,
        key: &str,
        given: &Option<Written<f64>>,
        usual: RangeInclusive<f64>,
    ) -> Option<f64> {
        if given.is_none() {
            let entry = self.entry;
            let spot = entry.clamps.as_ref().and_then(|word| word.spot).or(entry.name.spot);
            let message = format!("the bolt `{}` clamps a {clamped} and has no `{key}`", entry.name.value);
            self.log.error(codes::MISSING_KEY, spot, &entry.name, message, format!("add `{key} = …`"));
        }
        self.value(key, given, usual)
    }

    fn hole(&mut self, diameter: Option<f64>) -> Option<f64> {
        let written = self.entry.hole_mm.as_ref()?;
        let hole = self.value("hole_mm", &self.entry.hole_mm, 3.0..=60.0)? * MM;
        if let Some(diameter) = diameter
            && hole < diameter * (1.0 - 1e-9)
        {
            let name = &self.entry.name;
            let message = format!("the bolt `{}` of {} mm does not go through its hole", name.value, to_mm(diameter));
            let help = "write the diameter of the hole, or leave it out for the normal clearance";
            self.log.error(codes::BOLT_HOLE, written.spot, name, message, help);
        }
        Some(hole)
    }

    fn edge(&mut self, hole: Option<f64>) -> Option<f64> {
        let written = self.entry.edge_mm.as_ref()?;
        let edge = self.value("edge_mm", &self.entry.edge_mm, 3.0..=500.0)? * MM;
        if let Some(hole) = hole
            && edge <= hole / 2.0
        {
            let name = &self.entry.name;
            let message = format!(
                "the bolt `{}`: a hole of {:.1} mm breaks an edge {} mm away",
                name.value,
                to_mm(hole),
                written.value
            );
            let help = "measure from the middle of the hole";
            self.log.error(codes::BOLT_EDGE, written.spot, name, message, help);
        }
        Some(edge)
    }

    /// A value in door units; `None` where it is not there or faulty.
    fn value(&mut self, key: &str, given: &Option<Written<f64>>, usual: RangeInclusive<f64>) -> Option<f64> {
        let given = given.as_ref()?;
        let name = &self.entry.name;
        let value = self.log.finite(given, name, &format!("`{key}`"));
        if value <= 0.0 {
            let message = format!("the bolt `{}`: `{key}` is {value}", name.value);
            self.log.error(codes::BOLT_VALUE, given.spot, name, message, "write a value greater than 0");
        } else if value.is_finite() && !usual.contains(&value) {
            let message = format!("the bolt `{}`: `{key}` is {value}", name.value);
            let help = format!("usual are {} to {}; check the unit", usual.start(), usual.end());
            self.log.warning(codes::ODD_BOLT, given.spot, name, message, help);
        }
        (value > 0.0 && value.is_finite()).then_some(value)
    }
}
