//! Every function that a script can call, by subject. A script function is a thin wrapper of a public Rust function.
#![expect(unreachable_pub, reason = "the engine's macro registers `pub` functions only")]

mod acting;
mod building;
mod checks;
mod editing;
mod evidence;
mod finding;
mod holding;
mod inertia;
mod judging;
mod math;
mod models;
mod output;
mod parts;
mod places;
mod results;
mod revisions;
mod second_order;
mod shapes;
mod solving;
mod studies;
mod vehicle_results;
mod wheels;

use rhai::{Engine, EvalAltResult};

use crate::handle::{Case, Frame, Judgement, Solved};

pub(crate) use finding::PROPERTIES as OF_FINDINGS;

/// What a function returns to the script engine when it fails.
pub(crate) type Raised = Box<EvalAltResult>;

/// A subject of the script reference.
pub(crate) struct Subject {
    /// Its heading.
    pub(crate) title: &'static str,
    /// What a reader needs before the functions.
    pub(crate) intro: &'static str,
    /// Makes its functions known.
    pub(crate) register: fn(&mut Engine),
}

/// The one list of subjects, in the order of the reference.
pub(crate) const SUBJECTS: &[Subject] = &[
    Subject {
        title: "Models",
        intro: "Opening a model and looking at it. A frame is a handle: two names for one frame see the same changes.",
        register: models::register,
    },
    Subject {
        title: "Changing a model",
        intro: "For free-standing scripts. A change is checked as a whole when the model is next needed, so that several \
                changes may pass through a state that would not be valid.",
        register: editing::register,
    },
    Subject {
        title: "What a frame is judged by",
        intro: "The basis of the checks, the rules for members, the checks that are switched off. What changes it is for \
                free-standing scripts.",
        register: judging::register,
    },
    Subject {
        title: "Load cases",
        intro: "A load case is built step by step, and its story goes into the report: factors with their sources, steps \
                with their numbers, remarks.",
        register: building::register,
    },
    Subject {
        title: "What acts",
        intro: "Forces, moments and temperatures at joints and along tubes. Values that are not given are zero.",
        register: acting::register,
    },
    Subject {
        title: "Gravity and inertia",
        intro: "What acts on every tube and every mass at once.",
        register: inertia::register,
    },
    Subject {
        title: "Wheels",
        intro: "Wheels are `front-left`, `front-right`, `rear-left` and `rear-right`. Axes: x forward, y left, z up.",
        register: wheels::register,
    },
    Subject {
        title: "Places",
        intro: "Where standard cases act besides the wheels: `[places.NAME]` in model.toml.",
        register: places::register,
    },
    Subject {
        title: "Holding and measuring",
        intro: "How the frame is held in a case, and what is to be read off the solution.",
        register: holding::register,
    },
    Subject { title: "Solving", intro: "From load cases to results.", register: solving::register },
    Subject { title: "Results", intro: "What came out.", register: results::register },
    Subject {
        title: "Second order",
        intro: "Balance on the frame as it bends: pushed tubes that lean bend more.",
        register: second_order::register,
    },
    Subject {
        title: "Results of modules, links and skins",
        intro: "What bolts, suspension links and panels carry, and what each tube sees over all cases.",
        register: vehicle_results::register,
    },
    Subject {
        title: "Natural modes and buckling",
        intro: "What the frame swings like, and at how many times its loads it would bow out.",
        register: shapes::register,
    },
    Subject { title: "Checks", intro: checks::INTRO, register: checks::register },
    Subject {
        title: "Parts by themselves",
        intro: "The same clauses for one section, member, joint, weld or bolt under forces that the script gives, for trying \
                sizes. Forces are design values: no margin is added. Where `outside` names a reason no clause covers the part, \
                and however small its utilisation is, it is not a pass.",
        register: parts::register,
    },
    Subject {
        title: "Revisions",
        intro: "What differs between two frames, and between the results of two runs.",
        register: revisions::register,
    },
    Subject {
        title: "Measurements",
        intro: "The twist rig and the scales against the model, and the line through readings of your own.",
        register: evidence::register,
    },
    Subject { title: "Studies", intro: studies::INTRO, register: studies::register },
    Subject { title: "Sizing", intro: studies::sizing::INTRO, register: studies::sizing::register },
    Subject { title: "Tolerances", intro: studies::tolerances::INTRO, register: studies::tolerances::register },
    Subject { title: "Output", intro: "Besides `print(text)`, which shows a line.", register: output::register },
    Subject {
        title: "Arithmetic",
        intro: "Besides the language's own. Every function takes `5` and `5.0` alike. `5 / 2` is 2.5, and a division by \
                zero stops the script.",
        register: math::register,
    },
];

/// Makes every type and function known to an engine.
pub(crate) fn register(engine: &mut Engine) {
    register_types(engine);
    finding::register(engine);
    for subject in SUBJECTS {
        (subject.register)(engine);
    }
}

/// The types under the names that scripts see.
pub(crate) fn register_types(engine: &mut Engine) {
    engine
        .register_type_with_name::<Frame>("Frame")
        .register_type_with_name::<Case>("Case")
        .register_type_with_name::<Solved>("Results")
        .register_type_with_name::<Judgement>("Finding")
        .register_type_with_name::<studies::StudyHandle>("Study")
        .register_type_with_name::<studies::Ran>("Variants")
        .register_type_with_name::<studies::SizingHandle>("Sizing")
        .register_type_with_name::<studies::TolerancesHandle>("Tolerances");
}
