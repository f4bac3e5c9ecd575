//! Loop, slip, zero, bend and scatter as remarks, and the verdict in sentences.

use strutwork_model::model::RigSheet;
use strutwork_model::units::{MM, to_deg, to_nm_per_deg};

use super::Judgement;
use super::against::Standing;
use super::settle::stays_away;
use super::slip::Jump;
use crate::readings::Readings;
use crate::remark::{Remark, codes};
use crate::screen::DialJump;
use crate::twist::Base;
use crate::words::{listed, rounded};

// But for the first: own choice, tried on synthetic sheets (tests/suite/known.rs, faults.rs).
/// A loop wider than this share of the twist wants a look (common practice, no source); a narrower one is a note, below the second
/// share, or below so many standard deviations that chance gives it, nothing.
const LOOP: f64 = 0.03;
const NARROW: f64 = 0.01;
const CHANCES: f64 = 4.0;
/// Change of slope over the range that wants a look.
const BENDS: f64 = 0.05;
/// Scatter that wants a look, in what the dials have at least; and as a share of the twist's range.
const SCATTER: f64 = 4.0;
const SCATTER_SHARE: f64 = 0.01;
/// Sink of the rig that wants a look, as a share of the loaded station's turn.
const SINK: f64 = 0.1;

const SLIPS: &str = "a bolted or riveted joint that slides under load (a loop \"due to slippage at mounting bolts\": Brown, Robertson and \
                     Serpento 2002, Fig. 3.22, p. 44, after Swallow 1938); tighten, settle the frame with more cycles, and read again";

/// Jumps, those of one step together: a joint that slips moves everything beyond it.
pub(super) fn jumps(
    readings: &Readings<'_>,
    base: &Base,
    jumps: &[Jump],
    unknown: &[(usize, usize)],
    of_dials: &[DialJump],
) -> Vec<Remark> {
    let mut remarks = Vec::new();
    for jump in of_dials {
        let name = readings.name(jump.station);
        let line = readings.cells[jump.station][jump.step].line;
        let message = format!(
            "the {} dial of station {name} alone jumps by {} mm before {}: its foot or what it touches moved, not the frame. Readings before and after it have a line of their own",
            jump.side.word(),
            rounded(jump.by / MM, 3),
            readings.step_name(jump.step)
        );
        let remedy = "fix the dial's foot and the target, and repeat the cycle";
        remarks.push(Remark::rig(codes::SLIP, name, line, message, remedy).with(jump.by / MM, "mm"));
    }
    let known = |jump: &&Jump| !of_dials.iter().any(|dial| dial.station == jump.station && dial.step == jump.step);
    let mut steps: Vec<usize> = jumps.iter().filter(known).map(|jump| jump.step).collect();
    steps.sort_unstable();
    steps.dedup();
    for step in steps {
        let mut here: Vec<&Jump> = jumps.iter().filter(known).filter(|jump| jump.step == step).collect();
        let away = |station: usize| {
            let x = |station: usize| readings.sheet.stations[station].x;
            base.stations.iter().map(|held| (x(*held) - x(station)).abs()).fold(f64::INFINITY, f64::min)
        };
        here.sort_by(|a, b| away(a.station).total_cmp(&away(b.station)));
        let names: Vec<&str> = here.iter().map(|jump| readings.name(jump.station)).collect();
        let by =
            here.iter().map(|jump| jump.by).fold(0.0_f64, |most, by| if by.abs() > most.abs() { by } else { most });
        let first = away(here[0].station);
        let steady: Vec<usize> = (0..readings.cells.len())
            .filter(|station| here.iter().all(|jump| jump.station != *station) && !unknown.contains(&(step, *station)))
            .collect();
        let beyond = steady.iter().any(|station| away(*station) > first + MM && !base.stations.contains(station));
        let before = steady
            .iter()
            .copied()
            .filter(|station| away(*station) < first)
            .max_by(|a, b| away(*a).total_cmp(&away(*b)));
        let place = match before {
            _ if beyond => "Stations farther from what is held do not jump with it, so that it is rather the dials or their target there than the frame".to_owned(),
            Some(before) => format!("It lies between stations {} and {}", readings.name(before), names[0]),
            None => "It lies at what is held".to_owned(),
        };
        let message = format!(
            "slip: before {} the twist jumps by {}° at {}. {place}. The lines of twist against couple have a level of their own before and after it, so that their slopes leave it out",
            readings.step_name(step),
            rounded(to_deg(by), 4),
            listed(&names)
        );
        let line = readings.cells[here[0].station][step].line;
        remarks.push(Remark::rig(codes::SLIP, &names.join(" "), line, message, SLIPS).with(to_deg(by), "deg"));
    }
    remarks
}

/// Loop, zero, bend, scatter, settling cycles, sink; and that there is no stiffness.
pub(super) fn behaviour(readings: &Readings<'_>, judgement: &Judgement, floor: f64, noise: f64) -> Vec<Remark> {
    let mut remarks = Vec::new();
    let line = readings.steps().first().map_or(0, |step| step.line);
    let dropped: Vec<String> =
        judgement.cycles.iter().filter(|cycle| !cycle.kept).map(|cycle| cycle.cycle.to_string()).collect();
    if !dropped.is_empty() {
        let why = if readings.sheet.settling_cycles.is_some() {
            "as [rig] says"
        } else {
            "their zero comes back worse than a later one's"
        };
        let message = format!("settling: cycle {} left out of the lines, {why}", dropped.join(", "));
        let remedy =
            "two or three full cycles before the first that counts are good practice (common practice, no source)";
        remarks
            .push(Remark::rig(codes::SETTLING, "", line, message, remedy).with(dropped.len() as f64, "cycles").noted());
    }
    for cycle in judgement.cycles.iter().filter(|cycle| stays_away(cycle, noise)) {
        let at = readings.steps().iter().rev().find(|step| step.cycle == cycle.cycle).map_or(0, |step| step.line);
        let moved = to_deg(cycle.moved.unwrap_or_default());
        let message = format!(
            "the zero of cycle {} does not come back: {}° of twist stay, {} % of the greatest",
            cycle.cycle,
            rounded(moved, 4),
            rounded(cycle.share.unwrap_or_default() * 100.0, 1)
        );
        let remedy = "what stays has slid or yielded: bolts and rivets, dial feet, the points that hold the frame; settle it with more cycles, with bolts tightened (common practice, no source)";
        let remark = Remark::rig(codes::ZERO, "", at, message, remedy).with(moved, "deg");
        remarks.push(if cycle.kept { remark } else { remark.noted() });
    }
    if let Some(of) = judgement.hysteresis.filter(|of| of.width.abs() > NARROW.max(CHANCES * of.chance)) {
        let share = rounded(of.width.abs() * 100.0, 1);
        let remark = if of.width < 0.0 {
            let message = format!(
                "the loop runs backwards, {share} % of the twist wide: unloading lies below loading, as if the frame gave energy away"
            );
            Remark::rig(
                codes::HYSTERESIS,
                "",
                line,
                message,
                "`direction` may be exchanged, or the steps stand in another order than they were taken in: look at the clipboard",
            )
        } else {
            let message = format!(
                "hysteresis: the loop between loading and unloading is {share} % of the twist wide and takes {} % of the energy put in",
                rounded(of.energy * 100.0, 1)
            );
            let remark = Remark::rig(
                codes::HYSTERESIS,
                "",
                line,
                message,
                "friction: bolted modules and skins that slide (Brown, Robertson and Serpento 2002, Fig. 3.22, p. 44, after Swallow 1938), a pivot or an arm of the rig that rubs (common practice, no source). A welded bare frame has next to none",
            );
            if of.width > LOOP { remark } else { remark.noted() }
        };
        remarks.push(remark.with(of.width * 100.0, "%"));
    }
    if let Some(bend) = judgement.curvature.filter(|bend| bend.beyond_chance > 1.0 && bend.change.abs() > BENDS) {
        let (way, cause) = if bend.change > 0.0 {
            ("softer", "skins that buckle, joints that begin to slide or yield, a mount that lifts")
        } else {
            ("stiffer", "play that is taken up: a preload that is too small, clearances of bolts, a pivot that binds")
        };
        let message = format!(
            "the line bends: at the greatest couple the frame is {} % {way} than at the least",
            rounded(bend.change.abs() * 100.0, 1)
        );
        let remedy = format!("{cause} (common practice, no source). One stiffness stands for the mean of it");
        remarks.push(Remark::rig(codes::CURVED, "", line, message, remedy).with(bend.change * 100.0, "%"));
    }
    remarks.extend(scatter(readings, judgement, floor, noise));
    if let Some(sink) = judgement.sink.filter(|sink| sink.abs() > SINK) {
        let message = format!(
            "the rig yields: {} % of the turn at the loaded station is its own. It is subtracted",
            rounded(sink * 100.0, 1)
        );
        let remedy = "what is subtracted is only as good as the held pair's dials: stiffen what holds the frame";
        remarks.push(Remark::rig(codes::SINK, "", line, message, remedy).with(sink * 100.0, "%"));
    }
    if judgement.stiffness.is_none() {
        let message = match judgement.between {
            None => "no stiffness can be stated: there are no two stations to state it between".to_owned(),
            Some([a, b]) => format!(
                "no stiffness can be stated between {} and {}: too few readings are left, or their twist does not grow with the couple beyond doubt",
                readings.name(a),
                readings.name(b)
            ),
        };
        remarks.push(Remark::rig(
            codes::NO_STIFFNESS,
            "",
            line,
            message,
            "mend what the other remarks name, or read again",
        ));
    }
    remarks
}

fn scatter(readings: &Readings<'_>, judgement: &Judgement, floor: f64, noise: f64) -> Option<Remark> {
    let range = judgement.stiffness.as_ref()?.line.slope.abs() * readings.reach();
    if noise <= SCATTER * floor || noise <= SCATTER_SHARE * range {
        return None;
    }
    let message = format!(
        "readings scatter by {}° beside loop and bend, {} % of the twist: more than dials that repeat within {} mm do",
        rounded(to_deg(noise), 4),
        rounded(noise / range * 100.0, 1),
        rounded(readings.sheet.repeatability / MM, 3)
    );
    let remedy = "dial feet on something that moves, a frame that was touched, weights that swing; or write the dials' true repeatability_mm under [rig]";
    let at = readings.steps().first().map_or(0, |step| step.line);
    Some(Remark::rig(codes::SCATTER, "", at, message, remedy).with(to_deg(noise), "deg"))
}

/// The verdict.
pub(super) fn verdict(sheet: &RigSheet, judgement: &Judgement) -> Vec<String> {
    let (Some(measured), Some([a, b])) = (&judgement.stiffness, judgement.between) else {
        return vec!["The sheet gives no torsional stiffness: see what is wrong with it below.".to_owned()];
    };
    let k = |value: f64| rounded(to_nm_per_deg(value), 0);
    let mut said = vec![format!(
        "Between {} and {} the frame twists by one degree under {} N·m: {} to {} N·m/deg with 95 % confidence, tolerances of couple and spacing included.",
        sheet.stations[a].name,
        sheet.stations[b].name,
        k(measured.stiffness),
        k(measured.interval[0]),
        k(measured.interval[1])
    )];
    if judgement.size_in_doubt {
        said.push("A unit seems to be wrong throughout: do not use this figure before that is mended.".to_owned());
    }
    let resting: Vec<&str> = judgement.assumed.iter().map(|station| sheet.stations[*station].name.as_str()).collect();
    if !resting.is_empty() {
        said.push(format!(
            "This takes for granted that the readings of {} are mended as the remarks say: correct rig.csv and run again.",
            listed(&resting)
        ));
    }
    if let Some(with) = &judgement.with_jumps {
        said.push(format!(
            "A slip is left out of the slope; with it the sheet would say {} N·m/deg.",
            k(with.stiffness)
        ));
    }
    if let Some(against) = &judgement.against {
        let [low, high] = against.interval.map(|ratio| rounded(ratio, 3));
        let mut text = format!(
            "The model, held and loaded as the rig, says {} N·m/deg: measured over modelled is {} ({low} to {high}).",
            k(against.rigid),
            rounded(against.ratio, 3)
        );
        text.push_str(&match against.standing {
            Standing::Within => match against.soft {
                Some(soft) => format!(" That lies within the band of soft joints, {} to {} N·m/deg.", k(soft), k(against.rigid)),
                None => " That is within what models with rigid joints mostly over-predict, 0 to 20 % (common practice, no source).".to_owned(),
            },
            Standing::Softer => format!(
                " The frame is softer than the model{}: see the bays that depart.",
                against.soft.map_or_else(String::new, |soft| format!(" even with soft joints ({} N·m/deg)", k(soft)))
            ),
            Standing::Stiffer => " The frame is stiffer than the model: look for what the model leaves out, and for friction in the rig.".to_owned(),
        });
        said.push(text);
    }
    said
}
