//! From a [`ModelSpec`], which may be wrong, to a [`Model`], which cannot be: every fault is said, not the first alone.

mod axles;
mod bodies;
mod bolts;
mod carriers;
mod cases;
mod connected;
mod corners;
mod fatigue;
mod fixings;
mod joints;
mod judging;
mod limits;
mod masses;
mod materials;
mod names;
mod panels;
mod places;
mod plausible;
mod rig;
mod scales;
mod sections;
mod settings;
mod supports;
mod suspension;
mod tube_ends;
mod tubes;
mod vehicle;
mod welds;

use crate::codes;
use crate::diagnostic::{Code, Diagnostic, Faults, Severity, Warned};
use crate::ids::{Id, JointId, TubeId};
use crate::model::{Material, Model, Section, Wheel};
use crate::nearest::nearest;
use crate::spec::{ModelSpec, SectionEntry, Spot, Written};
use names::Names;

/// Checks a spec and makes the model of it.
///
/// # Errors
/// Every fault found, with the warnings and notes found on the way; a fault that is only a consequence of another (a joint
/// that no tube reaches because the tube's joint is misspelt) is left out.
pub fn validate(spec: &ModelSpec) -> Result<Warned<Model>, Faults> {
    let mut log = Log::default();
    let title = settings::title(spec, &mut log);
    let options = settings::options(spec, &mut log);
    let factors = settings::factors(spec, &mut log);
    let sections = sections::check(spec, &mut log);
    let materials = materials::check(spec, &mut log);
    let joints = joints::check(spec, &mut log);
    let look = Lookup::new(spec, &mut log);
    let tubes = tubes::check(spec, &look, &joints, &sections, &mut log);
    let bolts = bolts::check(spec, &look, &mut log);
    let bodies = bodies::check(spec, &look, &joints, &bolts, &mut log);
    let fixings = fixings::check(spec, &mut log);
    let panels = panels::check(spec, &look, &joints, &tubes, &bodies, &mut log);
    tubes::used(spec, &tubes, &panels, &bolts, &mut log);
    connected::check(spec, &look, &tubes, &bodies, &panels, &mut log);
    plausible::check(spec, &mut log);
    let supports = supports::check(spec, &look, &mut log);
    let plain_cases = cases::check(spec, &look, &bodies.bodies, &supports, &tubes, &materials, &mut log);
    let masses = masses::check(spec, &look, &mut log);
    let links = suspension::check(spec, &look, &joints, &mut log);
    let vehicle = vehicle::check(spec, &look, &links, &mut log);
    let places = places::check(spec, &look, &joints, &mut log);
    let weighed = scales::weighed(spec, &look, &mut log);
    let rig = rig::check(spec, &look, &mut log);
    let basis = judging::basis(spec, &mut log);
    let members = judging::members(spec, &mut log);
    let switched_off = judging::switched_off(spec, &mut log);
    let welds = welds::check(spec, &tubes, &sections, &mut log);
    let fatigue = fatigue::check(spec, &mut log);
    let limits = limits::check(spec, &look, &mut log);
    settings::weight(spec, &options, &tubes, &panels, &materials, &mut log);
    settings::held(spec, &options, &mut log);

    let made = (|| {
        Some(Model {
            title,
            options,
            joints,
            tubes: tubes.into_iter().collect::<Option<_>>()?,
            sections: sections.into_iter().collect::<Option<_>>()?,
            materials: materials.into_iter().collect::<Option<_>>()?,
            supports: supports.into_iter().collect::<Option<_>>()?,
            masses: masses?,
            plain_cases: plain_cases?,
            bodies: bodies.bodies,
            mounts: bodies.mounts,
            bolts,
            panels: panels.into_iter().collect::<Option<_>>()?,
            fixings: fixings.into_iter().collect::<Option<_>>()?,
            vehicle: vehicle.ok()?,
            places: places?,
            weighed: weighed?,
            rig: rig.ok()?,
            factors,
            basis,
            members,
            switched_off,
            welds,
            fatigue,
            limits: limits.into_iter().collect::<Option<_>>()?,
        })
    })();
    if log.0.iter().any(|fault| fault.severity == Severity::Error) {
        return Err(Faults(log.0));
    }
    let value = made.expect("bug: a part of the model was refused without a fault");
    Ok(Warned { value, warnings: log.0 })
}

/// One section by itself; `None` where it is faulty, which [`validate`] tells with its reason.
pub fn section(entry: &SectionEntry) -> Option<Section> {
    sections::one(entry, &mut Log::default())
}

/// The faults found so far.
#[derive(Default)]
struct Log(Vec<Diagnostic>);

impl Log {
    /// How many of the faults so far are errors.
    fn errors(&self) -> usize {
        self.0.iter().filter(|fault| fault.severity == Severity::Error).count()
    }

    fn error(
        &mut self,
        code: Code,
        spot: Option<Spot>,
        subject: &str,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.0.push(Diagnostic::error(code, spot, subject, message, help));
    }

    fn warning(
        &mut self,
        code: Code,
        spot: Option<Spot>,
        subject: &str,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.0.push(Diagnostic::error(code, spot, subject, message, help).into_warning());
    }

    fn note(
        &mut self,
        code: Code,
        spot: Option<Spot>,
        subject: &str,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.0.push(Diagnostic::error(code, spot, subject, message, help).into_note());
    }

    /// The number if it is one, NaN and a fault otherwise.
    fn finite(&mut self, number: &Written<f64>, subject: &str, what: &str) -> f64 {
        if number.is_finite() {
            return number.value;
        }
        let message = format!("{what} of `{subject}` is not a number that can be worked with");
        self.error(codes::NOT_FINITE, number.spot, subject, message, "write a finite number");
        f64::NAN
    }
}

/// The names of the spec, to find rows by.
struct Lookup<'s> {
    joints: Names<'s>,
    tubes: Names<'s>,
    sections: Names<'s>,
    materials: Names<'s>,
    bodies: Names<'s>,
    bolts: Names<'s>,
    fixings: Names<'s>,
    /// Which corners have rows in suspension.csv, in the order of [`Wheel::ALL`].
    linked: [bool; 4],
    /// Whether every row of suspension.csv names a corner: otherwise it is not known which corners are linked.
    corners_known: bool,
}

impl<'s> Lookup<'s> {
    /// Registers every name; duplicates and names that are none are faults.
    fn new(spec: &'s ModelSpec, log: &mut Log) -> Self {
        Self {
            sections: Names::of("section", spec.sections.iter().map(|row| &row.name), log),
            materials: Names::of("material", spec.materials.iter().map(|row| &row.name), log),
            joints: Names::of("joint", spec.joints.iter().map(|row| &row.joint), log),
            tubes: Names::of("tube", spec.tubes.iter().map(|row| &row.tube), log),
            bodies: Names::grouped("body", spec.bodies.iter().map(|row| &row.body), log),
            bolts: Names::of("bolt", spec.bolts.iter().map(|entry| &entry.name), log),
            fixings: Names::of("fixing", spec.fixings.iter().map(|entry| &entry.name), log),
            corners_known: spec.suspension.iter().all(|row| Wheel::from_name(&row.corner).is_some()),
            linked: Wheel::ALL.map(|wheel| spec.suspension.iter().any(|row| row.corner.value == wheel.name())),
        }
    }

    /// The joint with this name, or a fault. `who` says what names it: `tube `A``.
    fn joint(&self, name: &Written<String>, who: &str, log: &mut Log) -> Option<JointId> {
        self.joints.find(name, codes::UNKNOWN_JOINT, "joints.csv", who, log).map(JointId::new)
    }

    /// The tube with this name, or a fault.
    fn tube(&self, name: &Written<String>, who: &str, log: &mut Log) -> Option<TubeId> {
        self.tubes.find(name, codes::UNKNOWN_TUBE, "tubes.csv", who, log).map(TubeId::new)
    }
}

/// Materials by their row; `None` where faulty.
type Materials = Vec<Option<Material>>;

/// A text without blanks at its ends; empty where not given.
fn text(given: Option<&Written<String>>) -> String {
    given.map(|given| given.trim().to_owned()).unwrap_or_default()
}

/// Help for a word that is not one of a few.
fn words_help(word: &str, known: &[&'static str]) -> String {
    match nearest(word, known.iter().copied()) {
        Some(found) => format!("did you mean `{found}`?"),
        None => format!("one of: {}", known.join(", ")),
    }
}
