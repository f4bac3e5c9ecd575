//! The factors between what acts and strength, as the model's basis has them; nothing is computed.

use strutwork_checks::code::Partial;
use strutwork_loads::case::Nature;
use strutwork_model::model::{BasisKind, Gamma};

use crate::run::Run;

/// The margin on yield that [`MARGIN_SOURCE`] stands for.
const USUAL_MARGIN: f64 = 1.5;
/// Where it comes from.
const MARGIN_SOURCE: &str = "Garrett (1953) as quoted by Brown, Robertson & Serpento (2002), Motor Vehicle Structures, § 2.5 \
                             (from memory): 1.5 on yield for loads with their dynamic factor";
const RECOMMENDED_M2: &str = "EN 1993-1-8 Table 2.1, recommended (design guides were read)";
const OWN_MARGIN: &str = "set by the model ([options] yield_margin), no source stated";

/// A factor, and what it works on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factor<'a> {
    /// Its symbol, or its name where it has none.
    pub name: &'static str,
    /// Its value.
    pub value: f64,
    /// What it multiplies or divides.
    pub on: &'static str,
    /// Where it comes from.
    pub source: &'a str,
}

/// Every factor that the basis uses.
pub fn factors<'a>(run: &Run<'a>) -> Vec<Factor<'a>> {
    let (basis, margin) = (run.model.basis(), run.model.options().yield_margin);
    let gamma = |name, on, gamma: &'a Gamma| Factor { name, value: gamma.value, on, source: gamma.source.as_str() };
    let mut factors = match basis.kind {
        BasisKind::Vehicle => vec![
            Factor {
                name: "margin on yield",
                value: margin,
                on: "what acts, in every case that is not ultimate; strengths are then divided by 1",
                source: if margin == USUAL_MARGIN { MARGIN_SOURCE } else { OWN_MARGIN },
            },
            Factor {
                name: "γ_M2",
                value: Partial::RECOMMENDED.m2,
                on: "strength of bolts and welds in ultimate cases, whose margin is 1",
                source: RECOMMENDED_M2,
            },
        ],
        BasisKind::Eurocode => vec![
            gamma("γ_F", "what acts, in service cases that are derived from the vehicle", &basis.gamma_f),
            gamma("γ_M0", "strength of sections", &basis.gamma_m0),
            gamma("γ_M1", "strength of members that may buckle", &basis.gamma_m1),
            gamma("γ_M2", "strength of bolts and welds, and where sections break", &basis.gamma_m2),
            gamma("γ_M5", "strength of the walls of tubes at joints", &basis.gamma_m5),
        ],
    };
    factors.push(gamma("γ_Mf", "fatigue strength, where fatigue is ranked", &basis.gamma_mf));
    factors
}

/// What the factors come to in the cases of one nature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OfNature {
    /// The nature.
    pub nature: Nature,
    /// How many cases have it.
    pub cases: usize,
    /// What acts is multiplied by this.
    pub margin: f64,
    /// Strengths are divided by these.
    pub partial: Partial,
}

/// By nature of case, of the natures that occur.
pub fn by_nature(run: &Run<'_>) -> Vec<OfNature> {
    let judged = run.judged();
    let natures = [Nature::Plain, Nature::Physical, Nature::Ultimate, Nature::Notional];
    let of = |nature| {
        let mut cases = run.cases.0.iter().enumerate().filter(|(_, case)| case.nature == nature);
        let (first, _) = cases.next()?;
        Some(OfNature {
            nature,
            cases: 1 + cases.count(),
            margin: judged.margin(first),
            partial: judged.partial(first),
        })
    };
    natures.into_iter().filter_map(of).collect()
}
