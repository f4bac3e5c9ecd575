//! Which capabilities of the program the book covers, and what that rests on.

use super::{Block, Table, link};
use crate::case::{Case, Seen, Suite};
use crate::run::CaseReport;
use crate::what::{CaseWhat, What};

/// A capability, and how to tell that a case uses it.
struct Capability {
    name: &'static str,
    in_case: fn(&Case) -> bool,
}

/// All that a case can show, in the order of the work: what is described, what acts, what is found, what is judged.
const CAPABILITIES: &[Capability] = &[
    Capability { name: "section properties", in_case: |case| what(case, |what| matches!(what, What::Section { .. })) },
    Capability {
        name: "mass, centre of gravity, inertia",
        in_case: |case| what(case, |what| matches!(what, What::Mass { .. })),
    },
    Capability { name: "sections turned about the tube", in_case: |case| filled(case, "tubes.csv", &["roll_deg"]) },
    Capability {
        name: "hinges and sleeves at ends of tubes",
        in_case: |case| filled(case, "tubes.csv", &["release_from", "release_to"]),
    },
    Capability { name: "springs at ends of tubes", in_case: |case| filled(case, "tubes.csv", &["spring_"]) },
    Capability { name: "tubes set off from their joints", in_case: |case| filled(case, "tubes.csv", &["offset_"]) },
    Capability { name: "supports that are springs", in_case: springy },
    Capability { name: "settlement and turning of supports", in_case: |case| has(case, "settlements.csv") },
    Capability { name: "warm tubes", in_case: |case| has(case, "temperatures.csv") },
    Capability { name: "forces and moments at joints", in_case: |case| has(case, "loads.csv") },
    Capability { name: "loads along tubes", in_case: |case| has(case, "tube_loads.csv") },
    Capability { name: "forces and moments within tubes", in_case: |case| has(case, "tube_point_loads.csv") },
    Capability { name: "own weight", in_case: |case| text(case, "model.toml").contains("self_weight = true") },
    Capability { name: "bodies and their mounts", in_case: |case| has(case, "bodies.csv") },
    Capability { name: "panels in shear", in_case: |case| has(case, "panels.csv") },
    Capability {
        name: "balance of free frames by inertia",
        in_case: |case| {
            case.balance || result(case, |what| matches!(what, CaseWhat::Acceleration { .. } | CaseWhat::LeftOver))
        },
    },
    Capability { name: "suspension links", in_case: |case| has(case, "suspension.csv") },
    Capability {
        name: "roll stiffness and its share",
        in_case: |case| what(case, |what| matches!(what, What::Roll { .. })),
    },
    Capability {
        name: "movements of joints",
        in_case: |case| {
            result(case, |what| matches!(what, CaseWhat::Displacement { .. } | CaseWhat::BodyMovement { .. }))
        },
    },
    Capability { name: "reactions", in_case: |case| result(case, |what| matches!(what, CaseWhat::Reaction { .. })) },
    Capability {
        name: "forces in tubes",
        in_case: |case| result(case, |what| matches!(what, CaseWhat::MemberForce { .. } | CaseWhat::EndForce { .. })),
    },
    Capability { name: "stresses", in_case: |case| result(case, |what| matches!(what, CaseWhat::Stress { .. })) },
    Capability {
        name: "torsional stiffness between stations",
        in_case: |case| result(case, |what| matches!(what, CaseWhat::TorsionalStiffness { .. })),
    },
    Capability {
        name: "readings of a twist rig, and the model held and loaded as the rig",
        in_case: |case| what(case, |what| matches!(what, What::Rig { .. } | What::RigBay { .. })),
    },
    Capability {
        name: "bays and their shear stiffness",
        in_case: |case| what(case, |what| matches!(what, What::Bay { .. } | What::PanelDiagonal { .. })),
    },
    Capability {
        name: "natural frequencies",
        in_case: |case| what(case, |what| matches!(what, What::Frequency { .. })),
    },
    Capability {
        name: "load factors of buckling",
        in_case: |case| result(case, |what| matches!(what, CaseWhat::LoadFactor { .. })),
    },
    Capability {
        name: "second order: equilibrium on the frame as it bends",
        in_case: |case| result(case, CaseWhat::is_second_order),
    },
    Capability {
        name: "strength of cross-sections",
        in_case: |case| formula(case, "section") || checks(case, &["D020", "D021"]),
    },
    Capability {
        name: "buckling of single tubes",
        in_case: |case| formula(case, "member") || formula(case, "curve") || checks(case, &["D022"]),
    },
    Capability { name: "joints of hollow sections", in_case: |case| formula(case, "joint") || checks(case, &["D05"]) },
    Capability { name: "welds", in_case: |case| formula(case, "weld") || checks(case, &["D03"]) },
    Capability {
        name: "bolts",
        in_case: |case| {
            formula(case, "bolt")
                || has(case, "bodies.csv") && result(case, |what| matches!(what, CaseWhat::Check { .. }))
        },
    },
    Capability { name: "fatigue", in_case: |case| formula(case, "fatigue") },
    Capability {
        name: "buckling of panels",
        in_case: |case| formula(case, "panel") || result(case, |what| matches!(what, CaseWhat::Panel { .. })),
    },
    Capability { name: "sizes chosen for least mass", in_case: |case| case.sizing.is_some() },
    Capability { name: "answers that are limits, with their order", in_case: |case| !case.refinements.is_empty() },
];

/// What the program does and no case shows.
const WITHOUT: &[&str] = &[
    "the rule for soft joints (an estimate with a band, not a bound)",
    "standard load cases of a vehicle: the arithmetic of their derivation is tested, their factors are quoted with their sources",
    "names and families of mode shapes, effective masses",
    "which tubes bow in a buckling shape, and buckling lengths taken from it",
    "limits on movement, ranking of bays, comparison with the scales",
    "heat-affected zones beside welds, haunches and gussets, save where a case says so",
    "reading of files, reports and scripts: these are tested, there is nothing published to compare them with",
];

fn has(case: &Case, file: &str) -> bool {
    case.files.get(file).is_some()
}

fn text<'c>(case: &'c Case, file: &str) -> &'c str {
    case.files.get(file).and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or_default()
}

/// Whether a column of a file whose name starts so holds anything but nothing.
fn filled(case: &Case, file: &str, starts: &[&str]) -> bool {
    let mut lines = text(case, file).lines().filter(|line| !line.starts_with('#'));
    let Some(head) = lines.next() else { return false };
    let wanted: Vec<usize> = head
        .split(',')
        .enumerate()
        .filter(|(_, name)| starts.iter().any(|start| name.trim().starts_with(start)))
        .map(|(place, _)| place)
        .collect();
    lines.any(|line| {
        let cells: Vec<&str> = line.split(',').map(str::trim).collect();
        wanted.iter().any(|&place| cells.get(place).is_some_and(|cell| !matches!(*cell, "" | "0" | "0.0")))
    })
}

/// Whether a support holds by a number, which is a stiffness.
fn springy(case: &Case) -> bool {
    let mut lines = text(case, "supports.csv").lines().skip(1);
    lines.any(|line| {
        line.split(',').skip(1).any(|cell| cell.trim().parse::<f64>().is_ok_and(|stiffness| stiffness > 0.0))
    })
}

fn what(case: &Case, fits: fn(&What) -> bool) -> bool {
    case.quantities.iter().any(|quantity| match &quantity.what {
        What::Ratio { of, to } => fits(of) || fits(to),
        other => fits(other),
    })
}

fn result(case: &Case, fits: fn(&CaseWhat) -> bool) -> bool {
    case.quantities.iter().any(|quantity| quantity.what.of_cases().iter().any(|(_, what)| fits(what)))
}

fn checks(case: &Case, codes: &[&str]) -> bool {
    case.quantities.iter().flat_map(|quantity| quantity.what.of_cases()).any(|(_, what)| match what {
        CaseWhat::Check { check, .. } => codes.iter().any(|code| check.starts_with(code)),
        _ => false,
    })
}

fn formula(case: &Case, of: &str) -> bool {
    case.formulas.iter().any(|formula| formula.of == of)
}

/// A table of capabilities by how their sources were seen, and what has less than a read text.
pub(super) fn blocks(suite: &Suite, reports: &[CaseReport]) -> Vec<Block> {
    let mut table = Table::new("", &["Capability", "#Text read", "#From memory", "#Derived here", "For example"]);
    let (mut unread, mut none): (Vec<&str>, Vec<&str>) = (Vec::new(), Vec::new());
    for capability in CAPABILITIES {
        let mut counts = [0; 3];
        let mut example: Option<(Seen, &CaseReport)> = None;
        for (case, report) in suite.cases.iter().zip(reports).filter(|(case, _)| (capability.in_case)(case)) {
            // A case with one value that was read has been read as far as that value.
            let seen =
                report.rows.iter().map(|row| row.seen).chain([case.source.seen]).min_by_key(|seen| *seen as usize);
            let seen = seen.unwrap_or(case.source.seen);
            counts[seen as usize] += 1;
            if example.is_none_or(|(best, _)| (seen as usize) < best as usize) {
                example = Some((seen, report));
            }
        }
        if counts[Seen::TextRead as usize] == 0 && counts.iter().sum::<usize>() > 0 {
            unread.push(capability.name);
        }
        let cell = match example {
            Some((_, report)) => link(&report.title, super::id_of(report)),
            None => {
                none.push(capability.name);
                "none".into()
            }
        };
        let numbers = counts.map(|count| count.to_string().into());
        let [read, memory, derived] = numbers;
        table.push(vec![capability.name.into(), read, memory, derived, cell], false);
    }
    let mut blocks = vec![
        Block::Text(
            "How many cases use each capability, by how their source came to us. One case may stand in several rows."
                .to_owned(),
        ),
        Block::Table(table),
    ];
    if !unread.is_empty() {
        blocks.push(Block::Warning(format!(
            "No text was read for: {}. Their cases are remembered or derived, which is weaker evidence.",
            unread.join(" · ")
        )));
    }
    if !none.is_empty() {
        blocks.push(Block::Warning(format!("No case at all for: {}.", none.join(" · "))));
    }
    blocks.push(Block::Heading("Not validated here".to_owned()));
    blocks.push(Block::List(WITHOUT.iter().map(|&line| line.to_owned()).collect()));
    blocks
}
