//! The sheet beside the model: ratio of stiffnesses with its interval, bays and stations that depart.

use strutwork_model::Severity;
use strutwork_model::model::RigSheet;
use strutwork_model::units::to_nm_per_deg;

use super::Judgement;
use crate::modelled::Modelled;
use crate::remark::{Remark, codes};
use crate::words::rounded;

/// Models with rigid joints over-predict by so much, as the least ratio: common practice, no source.
const USUAL: f64 = 0.8;
// The next four: own choice, tried on synthetic sheets (tests/suite/modelled.rs).
/// A bay departs where its twist is off the model's by this factor, beside what the frame as a whole is off, and by so many
/// halves of its interval.
const DEPARTS: f64 = 1.25;
const HALVES: f64 = 1.5;
/// Bays with less than this share of the modelled twist are not judged.
const SMALL: f64 = 0.04;
/// Two neighbouring bays that depart against each other and cancel to within this share: the station between them.
const CANCEL: f64 = 0.4;

/// How the measured stiffness stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Within the band of soft joints, or what is usual where there is no band, its interval considered.
    Within,
    /// Softer than that.
    Softer,
    /// Stiffer than the model with rigid joints.
    Stiffer,
}

impl Standing {
    /// Its word in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Within => "within the band",
            Self::Softer => "softer",
            Self::Stiffer => "stiffer",
        }
    }
}

/// The sheet beside the model.
#[derive(Debug, Clone, PartialEq)]
pub struct Against {
    /// K of the model between the same stations, N·m/rad.
    pub rigid: f64,
    /// The same with soft joints; `None` where the rule makes none soft.
    pub soft: Option<f64>,
    /// Measured over modelled.
    pub ratio: f64,
    /// Its 95 % interval.
    pub interval: [f64; 2],
    /// How that stands.
    pub standing: Standing,
    /// Bays between neighbouring stations, in order of x.
    pub bays: Vec<Bay>,
    /// Stations that alone depart, by place.
    pub odd: Vec<usize>,
}

/// The frame between two neighbouring stations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bay {
    /// Its stations, by place, in order of x.
    pub between: [usize; 2],
    /// Twist over couple across it, rad/(N·m), positive where it adds to the twist from what is held to what is loaded.
    pub twist: f64,
    /// Half of its 95 % interval.
    pub half: f64,
    /// What the model says.
    pub modelled: f64,
    /// Its measured over modelled twist, over the same of the whole: 1 where it is off as much as the frame.
    pub ratio: f64,
    /// Whether it departs beyond its interval.
    pub departs: bool,
}

/// Compares; `None` where the model says nothing of the two stations. `bay` gives twist over couple across two stations, and
/// half of its interval.
pub(super) fn compare(
    sheet: &RigSheet,
    judgement: &Judgement,
    modelled: &Modelled,
    bay: impl Fn([usize; 2]) -> Option<[f64; 2]>,
) -> Option<Against> {
    let (measured, [a, b]) = (judgement.stiffness.as_ref()?, judgement.between?);
    let over = |of: &[Option<f64>]| Some(1.0 / (of[a]? - of[b]?).abs()).filter(|stiffness| stiffness.is_finite());
    let rigid = over(&modelled.rigid)?;
    let soft = modelled.soft.as_ref().and_then(|soft| over(soft)).filter(|soft| *soft < rigid);
    let interval = measured.interval.map(|end| end / rigid);
    let least = soft.map_or(USUAL, |soft| soft / rigid);
    let standing = if interval[1] < least {
        Standing::Softer
    } else if interval[0] > 1.0 {
        Standing::Stiffer
    } else {
        Standing::Within
    };
    let bays = bays(sheet, judgement, modelled, rigid / measured.stiffness, bay);
    let odd = odd(&bays);
    Some(Against { rigid, soft, ratio: measured.stiffness / rigid, interval, standing, bays, odd })
}

fn bays(
    sheet: &RigSheet,
    judgement: &Judgement,
    modelled: &Modelled,
    whole: f64,
    bay: impl Fn([usize; 2]) -> Option<[f64; 2]>,
) -> Vec<Bay> {
    let usable = |station: &usize| {
        let based = judgement.base.contains(station);
        modelled.rigid[*station].is_some() && (based || judgement.stations[*station].twist.is_some())
    };
    let mut order: Vec<usize> = (0..sheet.stations.len()).filter(usable).collect();
    order.sort_by(|a, b| sheet.stations[*a].x.total_cmp(&sheet.stations[*b].x));
    let total = modelled.rigid.iter().flatten().fold(0.0_f64, |most, twist| most.max(twist.abs()));
    let one = |pair: &[usize]| {
        let [near, far] = [pair[0], pair[1]];
        let should = modelled.rigid[far]? - modelled.rigid[near]?;
        let [twist, half] = bay([near, far])?;
        let sense = should.signum();
        let ratio = twist / should / whole;
        let large = should.abs() > SMALL * total;
        let off = twist - should * whole;
        let departs = large && !(1.0 / DEPARTS..DEPARTS).contains(&ratio) && off.abs() > HALVES * half;
        Some(Bay { between: [near, far], twist: sense * twist, half, modelled: sense * should, ratio, departs })
    };
    order.windows(2).filter_map(one).collect()
}

/// Stations between two bays that depart against each other and cancel.
fn odd(bays: &[Bay]) -> Vec<usize> {
    let found = bays.windows(2).filter_map(|pair| {
        let off = |bay: &Bay| bay.twist * (1.0 - 1.0 / bay.ratio);
        let (one, other) = (off(&pair[0]), off(&pair[1]));
        let cancel = one * other < 0.0 && (one + other).abs() < CANCEL * one.abs().max(other.abs());
        (pair[0].departs && pair[1].departs && cancel).then_some(pair[0].between[1])
    });
    found.collect()
}

/// How it stands, bay by bay.
pub(super) fn remarks(sheet: &RigSheet, judgement: &Judgement) -> Vec<Remark> {
    let Some(against) = &judgement.against else { return Vec::new() };
    let mut remarks = vec![whole(against, judgement)];
    let name = |station: usize| sheet.stations[station].name.as_str();
    for &station in &against.odd {
        let message = format!(
            "station {} alone departs: the bay on one side of it is softer than the model says, the one on the other side as much stiffer",
            name(station)
        );
        let remedy = "its gauge rather than the frame: spacing, a foot on a soft sheet, a dial that leans; measure it again (common practice, no source)";
        remarks.push(Remark::rig(codes::STATION, name(station), sheet.stations[station].line, message, remedy));
    }
    for bay in against
        .bays
        .iter()
        .filter(|bay| bay.departs && !bay.between.iter().any(|station| against.odd.contains(station)))
    {
        let [near, far] = bay.between.map(name);
        let (way, causes) = if bay.ratio > 1.0 {
            (
                "more",
                "a joint softer than welded (thin chord face, a bolted brace), a skin that is fixed less stiffly than the model says, a tube or diagonal that is missing or thinner, a cut-out",
            )
        } else {
            (
                "less",
                "a skin, bracket or module that the model leaves out, a wall thicker than drawn, a dial foot on the neighbouring bay",
            )
        };
        let message = format!(
            "between {near} and {far} the frame twists {} times as much as the model says, beside what the whole is off: {way} than its share",
            rounded(bay.ratio, 2)
        );
        let remedy = format!("what usually causes it: {causes} (common practice, no source)");
        remarks.push(
            Remark::rig(codes::BAY, &format!("{near} to {far}"), sheet.stations[bay.between[1]].line, message, remedy)
                .with(bay.ratio, ""),
        );
    }
    remarks
}

fn whole(against: &Against, judgement: &Judgement) -> Remark {
    let k = |value: f64| rounded(to_nm_per_deg(value), 0);
    let measured = judgement.stiffness.as_ref().map_or(f64::NAN, |measured| measured.stiffness);
    let [low, high] = against.interval.map(|end| rounded(end, 3));
    let beside = format!(
        "measured {} N·m/deg, modelled {} N·m/deg: ratio {} ({low} to {high} with 95 % confidence)",
        k(measured),
        k(against.rigid),
        rounded(against.ratio, 3)
    );
    let band = against.soft.map_or_else(
        || "no joint of the model is soft by rule; models with rigid joints mostly over-predict by 0 to 20 % (common practice, no source)".to_owned(),
        |soft| format!("with soft joints the model says {} N·m/deg", k(soft)),
    );
    let (code, severity, message, remedy) = match against.standing {
        Standing::Within => (
            codes::AGREES,
            Severity::Note,
            format!("{beside}. Within the band: {band}"),
            "nothing: the model may be believed as far as this test goes, which is twist alone",
        ),
        Standing::Softer => (
            codes::DIFFERS,
            Severity::Warning,
            format!("{beside}. The frame is softer: {band}"),
            "softer joints than the rule's, bolted modules that slide, skins that are fixed less stiffly, walls thinner than nominal; or the couple and the spacing (common practice, no source)",
        ),
        Standing::Stiffer => (
            codes::DIFFERS,
            Severity::Warning,
            format!("{beside}. The frame is stiffer: {band}"),
            "brackets, skins and gussets that the model leaves out; friction at the pivot; a rig that holds more than it should; or the couple and the spacing (common practice, no source)",
        ),
    };
    Remark { severity, ..Remark::rig(code, "", 0, message, remedy).with(against.ratio, "") }
}
