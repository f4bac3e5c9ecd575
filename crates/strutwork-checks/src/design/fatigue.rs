//! D050: screening of the tubes' welded ends for fatigue.

use strutwork_model::model::{FatigueCurve, FatiguePair, Section, Shape};
use strutwork_model::{Code, Severity, TubeId};
use strutwork_solve::results::SectionForces;

use super::cases;
use crate::aside;
use crate::calculation::{Calculation, Pages, Silent, Unit};
use crate::code::fatigue::{self, Curve, Damage, Detail, End, Swing};
use crate::{Finding, Judged, Subject};

const CODE: &str = "D050";
const SOURCE: &str = "EN 1993-1-9:2005, 7.1, Tables 8.6 and 8.7, Annex A.5 (from memory; slopes and knees of the curve were \
                      read in a design guide)";
/// Young's moduli that steel has, Pa: from memory.
const STEEL: std::ops::RangeInclusive<f64> = 180e9..=230e9;
/// A stress range under this is rounding, Pa.
const NO_RANGE: f64 = 1.0;
/// Symbols of stress ranges among the numbers that entered; a page has them all.
const RANGES: [&str; 6] = ["Δσ_1", "Δσ_2", "Δσ_3", "Δσ_4", "Δσ_5", "Δσ_6"];

/// A pair with the places of its two cases; `None`: unloaded.
type Found<'a> = (&'a FatiguePair, usize, Option<usize>);

/// The Miner sum of every tube's end over all pairs of cases, against 1; nothing without pairs. Tubes whose section is given
/// by properties alone have no stresses, which D002 says.
///
/// Loads are those of the cases, without the margin of the basis: damage goes by what happens, not by what might. What it
/// leaves out: shear and torsion, the wall of the tube that it is welded to, cracks elsewhere than at the ends, ranges within
/// one case. It is a ranking.
///
/// # Source
/// EN 1993-1-9 (see `code/fatigue`). Default category 36: rectangular hollow sections, fillet-welded end to end through an
/// intermediate plate, Table 8.6 (from memory), the lowest there is.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let (pairs, mut findings) = pairs(judged);
    // A sum that leaves a pair out would be no sum.
    if !findings.is_empty() || pairs.is_empty() {
        return findings;
    }
    for tube in judged.model.tubes().ids() {
        for at_to in [false, true] {
            let Some((end, detail)) = end(judged, tube) else { continue };
            let swings: Vec<Swing<'_>> = swings(judged, &pairs, tube, at_to);
            let damage = fatigue::damage(&end, &detail, &swings, &mut Silent);
            findings.push(finding(judged, (tube, at_to), (&end, &detail), &swings, &damage));
        }
    }
    findings
}

/// The calculation behind a finding.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let Subject::End { tube, at_to } = finding.subject else { return None };
    let (pairs, unknown) = pairs(judged);
    if !unknown.is_empty() {
        return None;
    }
    let (end, detail) = end(judged, tube)?;
    let mut pages = Pages::default();
    let damage = fatigue::damage(&end, &detail, &swings(judged, &pairs, tube, at_to), &mut pages);
    let title = format!("Fatigue of tube {}, a ranking", finding.subject.name(judged.model));
    Some(pages.finish(title, finding.clause.clone(), SOURCE, damage.verdict.utilisation))
}

/// The pairs whose cases are there, and a finding for each name that no case has.
fn pairs(judged: Judged<'_>) -> (Vec<Found<'_>>, Vec<Finding>) {
    let (mut found, mut unknown) = (Vec::new(), Vec::new());
    for pair in &judged.model.fatigue().pairs {
        let who = || format!("fatigue pair {}", pair.name);
        let from = cases::find(judged, &pair.from);
        let to = pair.to.as_deref().map(|to| (to, cases::find(judged, to)));
        if from.is_none() {
            unknown.push(cases::unknown(judged, CODE, &who(), &pair.from));
        }
        if let Some((name, None)) = to {
            unknown.push(cases::unknown(judged, CODE, &who(), name));
        }
        found.extend(from.map(|from| (pair, from, to.and_then(|(_, place)| place))));
    }
    (found, unknown)
}

/// What counts of a tube's ends; `None` without stresses.
fn end(judged: Judged<'_>, tube: TubeId) -> Option<(End, Detail)> {
    let row = &judged.model.tubes()[tube];
    let section: &Section = &judged.model.sections()[row.section];
    let material = &judged.model.materials()[row.material];
    let wall = match section.shape {
        Shape::Hollow { wall, .. } | Shape::Round { wall, .. } => Some(wall),
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => None,
    };
    let end = End {
        area: section.area,
        elastic: [section.wel_y?, section.wel_z?],
        round: section.round_radius.is_some(),
        wall,
        steel: STEEL.contains(&material.youngs),
        yield_stress: material.strength.map(|strength| strength.yield_stress),
    };
    let detail = judged.model.fatigue_detail(tube);
    let curve = match detail.curve {
        FatigueCurve::Member => Curve::Member,
        FatigueCurve::NodeJoint => Curve::NodeJoint,
    };
    let detail = Detail {
        category: detail.category,
        curve,
        gamma_mf: judged.model.basis().gamma_mf.value,
        moment_factor: judged.model.fatigue().moment_factor,
    };
    Some((end, detail))
}

/// What acts at a tube's end in every pair.
fn swings<'a>(judged: Judged<'a>, pairs: &[Found<'a>], tube: TubeId, at_to: bool) -> Vec<Swing<'a>> {
    let at = |case: usize| {
        let stations = &judged.results.cases[case].tubes[tube].stations;
        let station = if at_to { stations.last() } else { stations.first() };
        let forces = station.map_or_else(SectionForces::default, |station| station.forces);
        [forces.n, forces.my, forces.mz]
    };
    let name = |case: usize| judged.results.cases[case].name.as_str();
    pairs
        .iter()
        .map(|&(pair, from, to)| Swing {
            name: &pair.name,
            cases: [name(from), to.map_or("unloaded", name)],
            forces: [at(from), to.map_or([0.0; 3], at)],
            share: pair.share,
            cycles: pair.cycles,
        })
        .collect()
}

fn finding(
    judged: Judged<'_>,
    (tube, at_to): (TubeId, bool),
    (end, detail): (&End, &Detail),
    swings: &[Swing<'_>],
    damage: &Damage,
) -> Finding {
    let subject = Subject::End { tube, at_to };
    let sum = damage.verdict.utilisation;
    let over = sum > 1.0;
    let ranges = swings.iter().map(|swing| fatigue::range(end, detail.moment_factor, swing, 0, &mut Silent));
    let mut entered: Vec<(&'static str, f64, Unit)> =
        RANGES.into_iter().zip(ranges).map(|(symbol, range)| (symbol, range, Unit::MPA)).collect();
    entered.extend([("Δσ_C", detail.category, Unit::MPA), ("γ_Mf", detail.gamma_mf, Unit::ONE)]);
    let named = if judged.model.fatigue_detail(tube).named { "" } else { " (the lowest, as none is named)" };
    let category = Unit::MPA.of(detail.category);
    let ranking = format!("EN 1993-1-9 A.5, category {category}{named}: a ranking, not a life");
    let clause = match damage.verdict.outside {
        Some(why) => format!("outside scope: {why}; {ranking}"),
        None => ranking,
    };
    let name = subject.name(judged.model);
    let scope = damage.verdict.outside.map(|why| format!("{}: {why}", aside::OUTSIDE)).unwrap_or_default();
    let message = if damage.range < NO_RANGE {
        format!(
            "tube {name}: no stress range at this end in any pair, so no damage. This ranks welds and is no life{scope}"
        )
    } else {
        // Outside scope a sum under 1 is no pass, and is not told as one.
        let verdict = match (over, damage.verdict.outside) {
            (true, _) => ", over 1",
            (false, None) => ", within 1",
            (false, Some(_)) => "",
        };
        format!(
            "tube {name}: fatigue damage {sum:.3}{verdict}, most of it by {:.0} MPa to and fro in the pair {}. This ranks welds and is \
             no life{scope}",
            damage.range / 1e6,
            swings[damage.worst].name,
        )
    };
    Finding {
        entered,
        code: Code(CODE),
        severity: if over { Severity::Error } else { Severity::Note },
        case: String::new(),
        subject,
        value: sum,
        limit: Some(1.0),
        unit: "",
        utilisation: Some(sum),
        clause,
        message,
    }
}
