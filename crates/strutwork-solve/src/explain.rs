//! A solve error in the fabricator's words.

use strutwork_model::explain::Page;
use strutwork_model::units::{to_deg, to_mm};
use strutwork_model::{BodyId, Code, Diagnostic, JointId, Model, Severity};

use crate::error::{Motion, Node, SolveError};
use crate::rigid;

/// Joints named for one motion before the rest are counted.
const NAMED: usize = 6;

/// The pages of this crate's codes.
pub const PAGES: &[Page] = &[
    Page {
        code: "S001",
        title: "part of the frame can move without resistance",
        meaning: "Some joints or bodies can move, or turn, without any tube, panel or bush being strained: a mechanism. \
                  Each independent motion is listed with the bodies and joints that move and the way they go.",
        example: "Four tubes pinned at their ends (`release_from = \"ry rz\"`, `release_to = \"ry rz\"`) form a square \
                  that folds sideways. A body on one bush swings about it.",
        remedy: "Add a diagonal across the bay that folds, take releases away at one of the joints named, or hold that \
                 joint in supports.csv. Give a body that swings another bolt, or its bushes a stiffness against the motion.",
    },
    Page {
        code: "S002",
        title: "the frame floats: its supports do not hold it",
        meaning: "The frame as a whole can slide or turn in the ways listed, because the supports (if any) do not stop it. \
                  A vehicle is held by nothing on the road, but a computed case needs something to hold it.",
        example: "A frame with loads.csv but no supports.csv, or one held at a single joint against sliding only.",
        remedy: "Add supports.csv with enough held freedoms (three along z, two along y, one along x, not in one line, hold \
                 a frame without straining it), or give [vehicle] in model.toml so that the standard cases hold it.",
    },
    Page {
        code: "S003",
        title: "a number stopped being a number",
        meaning: "The computation met a value that is infinite or not a number, at the joint named. Inputs that are finite \
                  but enormous overflow like this.",
        example: "A load of 1e300 N on a tube of 1e-300 mm² area.",
        remedy: "Look at the joint named and at the tubes and loads there for a value of absurd size.",
    },
    Page {
        code: "S004",
        title: "the stiffness is too uneven to solve",
        meaning: "No free motion was found, yet the equations are singular to working precision: stiffnesses differ by more \
                  than about fifteen powers of ten.",
        example: "A tube with an area of 1e12 mm² beside one with 1e-6 mm².",
        remedy: "Look at the joint named for a tube with absurd section properties.",
    },
    Page {
        code: "S005",
        title: "a tube's own releases let it move under its load",
        meaning: "The tube is freed at both ends in a direction in which it is loaded: it would spin or slide without limit.",
        example: "A tube with `rx` freed at both ends and a torque in the middle.",
        remedy: "Free that direction at one end only, or take the load off the tube.",
    },
    Page {
        code: "S006",
        title: "settlements would strain a rigid body",
        meaning: "Joints that are bolted rigidly to one body are prescribed movements that no rigid body can make: the body \
                  named would have to stretch, bend or twist.",
        example: "Four joints of one body held along z, one of them settled by 2 mm and the others not.",
        remedy: "Settle the joints so that they stay in place to each other, hold fewer of them, or give a bolt a stiffness in \
                 bodies.csv.",
    },
    Page {
        code: "S007",
        title: "the frame buckles before it carries the case",
        meaning: "In second order (`--second-order`) the pushed tubes of this case take more stiffness from the frame than it \
                  has: it would bow or lean out further and further. The message says at which share of the case's loads that \
                  begins. There are no forces to report for such a case: it has no state in which it stands still.",
        example: "A post of 20x20x1.5 tube, 2 m long and clamped at its foot, under 1 kN: it buckles under about 0.75 kN.",
        remedy: "Look at the tubes that bow: `strutwork run FOLDER --buckling 1` without `--second-order` names them. Brace them, \
                 shorten them, take a larger section, or reduce what pushes them. Check the loads first: a wrong unit looks like this.",
    },
    Page {
        code: "S008",
        title: "second order did not become steady",
        meaning: "Each pass solves the frame with the axial forces of the pass before. Here they went on changing: the message says \
                  by how much in the last pass. This happens close to buckling, and where tension that holds the frame comes \
                  only from its bending.",
        example: "A flat arch that is close to snapping through.",
        remedy: "Allow more passes (`--passes N`), or compare with the load factors of `--buckling 1`: a factor near 1 says that the \
                 case is at its limit. Then brace the frame.",
    },
    Page {
        code: "S009",
        title: "the case buckles the frame before it can vibrate under it",
        meaning: "Natural modes were asked for under a load case. Compression takes stiffness away, and in this case it takes all: \
                  the frame's lowest load factor is 1 or less, and what has buckled does not swing about its place.",
        example: "`strutwork run my-frame --modes 5 --modes-under pressed` where `pressed` is twice what a post bears by Euler.",
        remedy: "Run with `--buckling 3` and read the load factor of that case in buckling.csv and which tubes bow. Ask for modes \
                 under a smaller load, or brace what bows.",
    },
];

impl SolveError {
    /// Its stable code.
    pub fn code(&self) -> Code {
        match self {
            Self::Mechanism { motions, .. } => {
                Code(if motions.iter().any(|m| matches!(m, Motion::Whole { .. })) { "S002" } else { "S001" })
            }
            Self::NotFinite { .. } => Code("S003"),
            Self::IllConditioned { .. } => Code("S004"),
            Self::LoadedRelease { .. } => Code("S005"),
            Self::StrainedBody { .. } => Code("S006"),
            Self::Buckles { .. } => Code("S007"),
            Self::Unsteady { .. } => Code("S008"),
            Self::Buckled { .. } => Code("S009"),
        }
    }
}

/// One diagnostic for each independent fault, with the model's own names.
pub fn explain(model: &Model, error: &SolveError) -> Vec<Diagnostic> {
    let one = |code: &'static str, subject: String, message: String, help: &str| Diagnostic {
        code: Code(code),
        severity: Severity::Error,
        place: None,
        subject,
        message,
        help: help.to_owned(),
    };
    let name = |joint: JointId| model.joints()[joint].name.clone();
    match error {
        SolveError::Mechanism { case, motions } => motions
            .iter()
            .map(|motion| match motion {
                Motion::Whole { slide, turn, about } => one(
                    "S002",
                    String::new(),
                    format!("case {case}: the whole frame {}", whole(slide, turn, about)),
                    if motions.len() >= 6 && motions.iter().all(|m| matches!(m, Motion::Whole { .. })) {
                        "the frame floats: nothing holds it. Add supports.csv, or [vehicle] in model.toml for the standard cases"
                    } else {
                        "hold it in supports.csv against this motion"
                    },
                ),
                Motion::Part { joints, bodies } => {
                    let body = bodies.first().map(|(body, _)| model.bodies()[*body].name.clone());
                    let joint = joints.first().map(|(joint, _)| name(*joint));
                    one(
                        "S001",
                        body.or(joint).unwrap_or_default(),
                        format!("case {case}: {}", part(model, joints, bodies)),
                        if bodies.is_empty() {
                            "brace it: add a diagonal or take away a release where it turns, or hold the joint in supports.csv"
                        } else {
                            "give the body another bolt in bodies.csv, or a bush a stiffness against this motion"
                        },
                    )
                }
            })
            .collect(),
        SolveError::NotFinite { case, stage, node, dof } => {
            let of = if case.is_empty() { "the stiffness".to_owned() } else { format!("case {case}") };
            vec![one(
                "S003",
                node_name(model, *node),
                format!("{of} is not a finite number after {stage}, first at {} ({})", told(model, *node), dof.name()),
                "look there for a section, material or load of absurd size",
            )]
        }
        SolveError::IllConditioned { case, node, dof, .. } => vec![one(
            "S004",
            node_name(model, *node),
            format!(
                "case {case}: the equations are singular to working precision at {} ({}), though no free motion was found",
                told(model, *node),
                dof.name()
            ),
            "look there for tubes whose stiffness differs by many powers of ten",
        )],
        SolveError::LoadedRelease { case, tube, dof } => {
            let tube = model.tubes()[*tube].name.clone();
            vec![one(
                "S005",
                tube.clone(),
                format!("case {case}: tube {tube} is freed at both ends in {} (local axes) and loaded in it", dof.name()),
                "free that direction at one end only, or take the load off the tube",
            )]
        }
        SolveError::StrainedBody { case, body, joint, dof, by } => {
            let (body, joint) = (model.bodies()[*body].name.clone(), name(*joint));
            let by = if dof.is_rotation() { format!("{:.4} degrees", to_deg(*by)) } else { format!("{:.4} mm", to_mm(*by)) };
            vec![one(
                "S006",
                body.clone(),
                format!(
                    "case {case}: body {body} is rigid, but the settlements of its joints do not fit together: {} of joint \
                     {joint} is off by {by} from what the others allow",
                    dof.name()
                ),
                "settle the joints as one rigid piece moves, hold fewer of them, or give a bolt a stiffness",
            )]
        }
        SolveError::Buckles { case, factor } => vec![one(
            "S007",
            String::new(),
            format!(
                "case {case}: the frame buckles under {:.1} % of this load: it does not stand under the whole of it",
                factor * 100.0
            ),
            "brace or strengthen the tubes that bow (`--buckling 1` without `--second-order` names them), or check the loads",
        )],
        SolveError::Unsteady { case, passes, change } => vec![one(
            "S008",
            String::new(),
            format!(
                "case {case}: forces and movements are not steady after {passes} pass{}: the last changed them by {change:.1e} of \
                 themselves",
                if *passes == 1 { "" } else { "es" }
            ),
            "allow more passes (`--passes N`), or see with `--buckling 1` how close the case is to buckling",
        )],
        SolveError::Buckled { case } => vec![one(
            "S009",
            String::new(),
            format!("case {case} buckles the frame: it has no natural modes under it"),
            "run with --buckling 3 for its load factor and the tubes that bow; ask for modes under a smaller load",
        )],
    }
}

fn node_name(model: &Model, node: Node) -> String {
    match node {
        Node::Joint(joint) => model.joints()[joint].name.clone(),
        Node::Body(body) => model.bodies()[body].name.clone(),
    }
}

fn told(model: &Model, node: Node) -> String {
    let kind = match node {
        Node::Joint(_) => "joint",
        Node::Body(_) => "body",
    };
    format!("{kind} {}", node_name(model, node))
}

fn whole(slide: &[f64; 3], turn: &[f64; 3], about: &[f64; 3]) -> String {
    if turn.iter().all(|t| t.abs() < 1e-9) {
        return format!("can slide {}", along(slide));
    }
    let rate = turn.iter().map(|t| t * t).sum::<f64>().sqrt();
    let advance: f64 = slide.iter().zip(turn).map(|(s, t)| s * t / rate).sum();
    let mm = about.map(|x| (x * 1e3).round() + 0.0);
    let turning = format!("can turn about {} through ({}, {}, {}) mm", axis(turn), mm[0], mm[1], mm[2]);
    if advance.abs() > 1e-6 { format!("{turning} while it slides along that axis") } else { turning }
}

fn part(model: &Model, joints: &[(JointId, [f64; 6])], bodies: &[(BodyId, [f64; 6])]) -> String {
    let of_bodies = bodies.iter().map(|(body, motion)| {
        format!("body {} can {}", model.bodies()[*body].name, body_moves(motion, model.bodies()[*body].at))
    });
    let of_joints =
        joints.iter().map(|(joint, motion)| format!("joint {} can {}", model.joints()[*joint].name, moves(motion)));
    let count = bodies.len() + joints.len();
    let told: Vec<String> = of_bodies.chain(of_joints).take(NAMED).collect();
    let more = count.saturating_sub(NAMED);
    let rest = if more > 0 { format!(", and {more} more joints with them") } else { String::new() };
    let still = if count > 1 { " (all in one motion)" } else { "" };
    format!("{}{rest}{still} without resistance", told.join(", "))
}

/// A body's motion: a slide, or a turn about the axis that stays in place.
fn body_moves(motion: &[f64; 6], at: [f64; 3]) -> String {
    let (slide, turn) = ([motion[0], motion[1], motion[2]], [motion[3], motion[4], motion[5]]);
    let rate: f64 = turn.iter().map(|t| t * t).sum();
    if rate.sqrt() < 1e-6 {
        return format!("move {}", along(&slide));
    }
    let cross = rigid::cross(turn, slide);
    let mm = [0, 1, 2].map(|i| (to_mm(at[i] + cross[i] / rate)).round() + 0.0);
    format!("turn about {} through ({}, {}, {}) mm", axis(&turn), mm[0], mm[1], mm[2])
}

fn moves(motion: &[f64; 6]) -> String {
    let (slide, turn) = ([motion[0], motion[1], motion[2]], [motion[3], motion[4], motion[5]]);
    let (slides, turns) = (slide.iter().any(|v| v.abs() > 1e-6), turn.iter().any(|v| v.abs() > 1e-6));
    match (slides, turns) {
        (true, false) => format!("move {}", along(&slide)),
        (false, _) => format!("turn about {}", axis(&turn)),
        (true, true) => format!("move {} and turn about {}", along(&slide), axis(&turn)),
    }
}

/// A direction in words: an axis where one dominates, the unit vector otherwise.
fn along(direction: &[f64; 3]) -> String {
    match dominant(direction) {
        Some(0) => "along x (fore and aft)".to_owned(),
        Some(1) => "along y (sideways)".to_owned(),
        Some(2) => "along z (up and down)".to_owned(),
        _ => format!("in direction {}", unit(direction)),
    }
}

fn axis(direction: &[f64; 3]) -> String {
    match dominant(direction) {
        Some(i) => format!("the {} axis", ["x", "y", "z"][i]),
        None => format!("the direction {}", unit(direction)),
    }
}

fn dominant(direction: &[f64; 3]) -> Option<usize> {
    let size = direction.iter().map(|v| v * v).sum::<f64>().sqrt();
    (0..3).find(|i| direction[*i].abs() > 0.999 * size)
}

fn unit(direction: &[f64; 3]) -> String {
    let size = direction.iter().map(|v| v * v).sum::<f64>().sqrt();
    let [x, y, z] = direction.map(|v| (v / size * 100.0).round() / 100.0 + 0.0);
    format!("({x}, {y}, {z})")
}

impl std::fmt::Display for Motion {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Whole { slide, turn, about } => f.write_str(&whole(slide, turn, about)),
            Self::Part { joints, bodies } => write!(f, "{} joints and {} bodies move", joints.len(), bodies.len()),
        }
    }
}
