//! The twist rig in two graphs: couple against twist with its loop, and twist along the frame over the model's.

use strutwork_model::model::RigSheet;
use strutwork_model::units::{to_deg, to_deg_per_knm, to_mm};
use strutwork_rig::RigEvidence;

use super::Figure;
use super::graph::{Graph, Scale, Series, draw};

/// Couple against twist of the cycles that are kept, with the line.
pub fn loop_of(sheet: &RigSheet, evidence: &RigEvidence) -> Option<Figure> {
    let judgement = &evidence.judgement;
    let [a, b] = judgement.between?;
    let point = |step: usize| {
        let twist = judgement.twists[a][step]? - judgement.twists[b][step]?;
        Some((step, to_deg(twist), sheet.steps[step].couple))
    };
    let points: Vec<(usize, f64, f64)> =
        (0..sheet.steps.len()).filter(|step| judgement.keeps(sheet.steps[*step].cycle)).filter_map(point).collect();
    let mut cycles: Vec<u32> = points.iter().map(|(step, ..)| sheet.steps[*step].cycle).collect();
    cycles.dedup();
    let last = *cycles.last()?;
    let mut series = Vec::new();
    for cycle in cycles {
        // Every cycle starts from its own zero.
        let zero = points.iter().find(|(step, ..)| sheet.steps[*step].cycle == cycle)?.1;
        for unloading in [false, true] {
            let of = |(step, ..): &&(usize, f64, f64)| {
                sheet.steps[*step].cycle == cycle && sheet.steps[*step].unloading == unloading
            };
            let name = if cycle == last { ["loading", "unloading"][usize::from(unloading)] } else { "" };
            let points = points.iter().filter(of).map(|(_, twist, couple)| (twist - zero, *couple)).collect();
            series.push(Series { name: name.to_owned(), points, marked: cycle == last });
        }
    }
    let caption = format!(
        "Couple against the twist between {} and {}, each cycle from its own zero: the last one with its readings, those before it dashed. The wider the loop, the more slides; a bend is a frame whose stiffness changes with load.",
        sheet.stations[a].name, sheet.stations[b].name
    );
    let names = ["twist, deg".to_owned(), "couple, N·m".to_owned()];
    draw(&Graph { names, scales: [Scale::Linear; 2], series, caption })
}

/// Twist along the frame under 1 kN·m over the model's, with rigid and with soft joints.
pub fn profile(sheet: &RigSheet, evidence: &RigEvidence) -> Option<Figure> {
    let judgement = &evidence.judgement;
    let along = |values: Vec<Option<f64>>| -> Vec<(f64, f64)> {
        let mut points: Vec<(f64, f64)> = sheet
            .stations
            .iter()
            .zip(values)
            .filter_map(|(station, value)| Some((to_mm(station.x), to_deg_per_knm(value?))))
            .collect();
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        points
    };
    let lines = || judgement.stations.iter();
    let mut series = vec![Series {
        name: "measured".to_owned(),
        points: along(lines().map(|line| line.twist).collect()),
        marked: true,
    }];
    if let Some(modelled) = &evidence.modelled {
        let curve = modelled.curve.iter().map(|[x, twist]| (to_mm(*x), to_deg_per_knm(*twist))).collect();
        series.push(Series { name: "model".to_owned(), points: curve, marked: false });
        let soft = along(lines().map(|line| line.soft).collect());
        if !soft.is_empty() {
            series.push(Series { name: "soft joints".to_owned(), points: soft, marked: false });
        }
    }
    let caption = "Twist along the frame under 1 kN·m, relative to what is held, measured (points) over the model's (dashes; the upper ones with soft joints). Where the \
                   measured line is steeper than the model's, the bay is softer than modelled; a kink at one station alone is mostly its gauge."
        .to_owned();
    let names = ["x, mm".to_owned(), "twist, deg/kN·m".to_owned()];
    draw(&Graph { names, scales: [Scale::Linear; 2], series, caption })
}
