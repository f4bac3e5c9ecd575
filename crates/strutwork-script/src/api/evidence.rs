//! What was measured: lines through readings, the twist rig, the scales.

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_model::Model;
use strutwork_model::units::{to_deg_per_knm, to_mm, to_nm_per_deg};
use strutwork_rig::line::CONFIDENCE;
use strutwork_rig::{Measured, Remark, Sample, fit_line, mass_sheet, rig_evidence};

use super::Raised;
use super::math::numbers;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{PerhapsMap, map, optional};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

fn fitted(xs: &Array, ys: &Array) -> Result<Dynamic, Fault> {
    let (xs, ys) = (numbers(xs)?, numbers(ys)?);
    if xs.len() != ys.len() {
        let what = format!("the number of y beside {} x", xs.len());
        return Err(Fault::OutOfRange { what, value: ys.len() as f64, range: "the same" });
    }
    let samples: Vec<Sample> = xs.into_iter().zip(ys).map(|(x, y)| Sample { x, y, group: 0 }).collect();
    Ok(fit_line(&samples).map_or(Dynamic::UNIT, |line| {
        let level = line.levels.first().map_or(0.0, |level| level.1);
        Dynamic::from(map([
            ("slope", line.slope),
            ("level", level),
            ("half", line.half_width(CONFIDENCE)),
            ("scatter", line.scatter),
            ("r2", line.taken_up),
        ]))
    }))
}

fn told(remarks: &[Remark]) -> Array {
    let one = |remark: &Remark| {
        let mut told = Map::new();
        told.insert("code".into(), remark.code.0.into());
        told.insert("severity".into(), remark.severity.word().into());
        told.insert("subject".into(), remark.subject.clone().into());
        told.insert("line".into(), Dynamic::from(remark.place.1 as i64));
        told.insert("message".into(), remark.message.clone().into());
        told.insert("remedy".into(), remark.remedy.clone().into());
        Dynamic::from(told)
    };
    remarks.iter().map(one).collect()
}

fn rig(model: &Model) -> Dynamic {
    let (Some(sheet), Some(evidence)) = (model.rig(), rig_evidence(model)) else { return Dynamic::UNIT };
    let judgement = &evidence.judgement;
    let k = |measured: &Option<Measured>| measured.as_ref().map(|measured| to_nm_per_deg(measured.stiffness));
    let end = |place: usize| judgement.stiffness.as_ref().map(|measured| to_nm_per_deg(measured.interval[place]));
    let against = judgement.against.as_ref();
    let figures = [
        ("k_nm_per_deg", k(&judgement.stiffness)),
        ("k_low_nm_per_deg", end(0)),
        ("k_high_nm_per_deg", end(1)),
        ("k_loading_nm_per_deg", k(&judgement.loading)),
        ("k_unloading_nm_per_deg", k(&judgement.unloading)),
        ("model_nm_per_deg", against.map(|against| to_nm_per_deg(against.rigid))),
        ("model_soft_nm_per_deg", against.and_then(|against| against.soft).map(to_nm_per_deg)),
        ("ratio", against.map(|against| against.ratio)),
        ("ratio_low", against.map(|against| against.interval[0])),
        ("ratio_high", against.map(|against| against.interval[1])),
        ("loop_percent", judgement.hysteresis.map(|of| of.width * 100.0)),
    ];
    let mut told_of: Map = figures.into_iter().map(|(name, value)| (name.into(), optional(value))).collect();
    let station = |(station, line): (&strutwork_model::model::RigStation, &strutwork_rig::StationLine)| {
        let mut one = map([("x_mm", to_mm(station.x)), ("spacing_mm", to_mm(station.spacing))]);
        one.insert("station".into(), station.name.clone().into());
        one.insert("twist_deg_per_knm".into(), optional(line.twist.map(to_deg_per_knm)));
        one.insert("modelled_deg_per_knm".into(), optional(line.modelled.map(to_deg_per_knm)));
        Dynamic::from(one)
    };
    told_of.insert(
        "stations".into(),
        sheet.stations.iter().zip(&judgement.stations).map(station).collect::<Array>().into(),
    );
    told_of.insert("verdict".into(), judgement.verdict.iter().cloned().map(Dynamic::from).collect::<Array>().into());
    told_of.insert("remarks".into(), told(&judgement.remarks).into());
    Dynamic::from(told_of)
}

fn scales(model: &Model) -> Map {
    let sheet = mass_sheet(model);
    let mut told_of = Map::new();
    let part = |part: &strutwork_rig::WeighedPartRow| {
        let mut one =
            map([("weighed_kg", part.weighed), ("model_kg", part.model), ("uncertainty_kg", part.uncertainty)]);
        one.insert("part".into(), part.name.clone().into());
        Dynamic::from(one)
    };
    told_of.insert("parts".into(), sheet.parts.iter().map(part).collect::<Array>().into());
    told_of.insert("corners_kg".into(), optional(sheet.corners));
    let of = |axis: usize| sheet.centre.map(|centre| to_mm(centre.at[axis]));
    told_of.insert("cg_x_mm".into(), optional(of(0)));
    told_of.insert("cg_y_mm".into(), optional(of(1)));
    told_of.insert("cg_height_mm".into(), optional(sheet.height.map(|height| to_mm(height.height))));
    told_of.insert("remarks".into(), told(&sheet.remarks).into());
    told_of
}

#[export_module]
mod functions {
    use super::*;

    /// The least-squares line through points: `slope`, `level` at x = 0, `half` of the 95 % confidence interval of the slope by
    /// Student's t, `scatter` (standard deviation about the line) and `r2`. Nothing, `()`, where fewer than three points or no
    /// two different x are given. Units are those of what is given.
    ///
    /// ```rhai
    /// let line = fit_line([0, 300, 600, 900], [0.00, 0.10, 0.21, 0.30]);
    /// print(1 / line.slope);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn fit_line(x: Array, y: Array) -> Result<PerhapsMap, Raised> {
        Ok(fitted(&x, &y)?)
    }

    /// The twist rig's sheet of the model's `rig.csv`, judged beside the model: `k_nm_per_deg` with `k_low_nm_per_deg` and
    /// `k_high_nm_per_deg` (95 %), the same of loading and unloading, `model_nm_per_deg`, `model_soft_nm_per_deg`, `ratio` with
    /// its interval, `loop_percent`, `stations`, `verdict` (sentences) and `remarks` (maps with `code`, `severity`, `subject`,
    /// `line`, `message`, `remedy`). What cannot be told is `()`; without a sheet all of it is `()`.
    ///
    /// ```rhai
    /// let rig = rig_sheet(open_model("my-frame"));
    /// if rig != () { print(`${rig.k_nm_per_deg} N·m/deg, ${rig.ratio} of the model`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn rig_sheet(frame: Frame) -> Result<PerhapsMap, Raised> {
        Ok(rig(&*frame.model()?))
    }

    /// What the scales say beside the model: `parts` of weighed.csv, the sum `corners_kg`, the centre of gravity `cg_x_mm`,
    /// `cg_y_mm` that the corners give, its `cg_height_mm` from a raised axle, and `remarks`. What was not weighed is `()`.
    ///
    /// ```rhai
    /// for part in scales(open_model("my-frame")).parts { print(`${part.part}: ${part.weighed_kg - part.model_kg} kg`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn scales(frame: Frame) -> Result<Map, Raised> {
        Ok(super::scales(&*frame.model()?))
    }
}
