//! Limits of use: how far something may move, and which loads come again and again.

use rhai::Map;
use rhai::plugin::*;
use strutwork_model::spec::{DetailEntry, LimitEntry, PairEntry, Written};

use super::connections::{known, put_back, put_number, put_text};
use crate::api::Raised;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::Named;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const LIMIT: &[&str] = &["joint", "relative_to", "between", "direction", "most_mm", "cases", "source", "note"];
const FATIGUE: &[&str] = &["category_mpa", "curve", "moment_factor"];
const DETAIL: &[&str] = &["category_mpa", "curve"];
const PAIR: &[&str] = &["from", "to", "cycles", "share", "source", "note"];

const fn limit_name(row: &LimitEntry) -> &Written<String> {
    &row.name
}

const fn detail_group(row: &DetailEntry) -> &Written<String> {
    &row.group
}

const fn pair_name(row: &PairEntry) -> &Written<String> {
    &row.name
}

fn put_texts(cell: &mut Vec<Written<String>>, change: &Named<'_>, key: &str) -> Result<(), Fault> {
    if let Some(texts) = change.texts(key)? {
        *cell = texts.iter().map(|text| text.as_str().into()).collect();
    }
    Ok(())
}

fn put_detail(detail: &mut DetailEntry, change: &Named<'_>) -> Result<(), Fault> {
    put_number(&mut detail.category_mpa, change, "category_mpa")?;
    put_text(&mut detail.curve, change, "curve")
}

#[export_module]
mod functions {
    use super::*;

    /// Sets a limit on movement, as `[limits.NAME]` in model.toml does: `joint`, perhaps `relative_to` another, or `between` two
    /// joints; `most_mm`; any of `direction`, `cases`, `source`, `note`. What is not given stays; a limit that is not there is
    /// added.
    ///
    /// # Units
    /// `most_mm` in mm.
    ///
    /// ```rhai
    /// let frame = model();
    /// frame.set_limit("door opening", #{ between: ["FLT", "RLT"], most_mm: 2 });
    /// print(frame.solve(frame.cases_of("twist")).worst("movement").utilisation);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_limit(frame: Frame, name: &str, limit: Map) -> Result<(), Raised> {
        let limit = Named::new("set_limit", &limit, LIMIT)?;
        Ok(frame.change("set_limit", |spec| {
            let mut row = known(&spec.limits, name, limit_name)
                .unwrap_or_else(|| LimitEntry { name: name.into(), ..LimitEntry::default() });
            for (key, cell) in [
                ("joint", &mut row.joint),
                ("relative_to", &mut row.relative_to),
                ("direction", &mut row.direction),
                ("source", &mut row.source),
                ("note", &mut row.note),
            ] {
                put_text(cell, &limit, key)?;
            }
            put_number(&mut row.most_mm, &limit, "most_mm")?;
            put_texts(&mut row.between, &limit, "between")?;
            put_texts(&mut row.cases, &limit, "cases")?;
            put_back(&mut spec.limits, row, limit_name);
            Ok(())
        })?)
    }

    /// Sets the detail that tube ends are welded in, as `[fatigue]` in model.toml does: any of `category_mpa`, `curve`,
    /// `moment_factor`. What is not given stays.
    ///
    /// # Units
    /// `category_mpa` in MPa; `moment_factor` is a plain multiplier, at least 1.
    ///
    /// ```rhai
    /// model().set_fatigue(#{ category_mpa: 45 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_fatigue(frame: Frame, change: Map) -> Result<(), Raised> {
        let change = Named::new("set_fatigue", &change, FATIGUE)?;
        Ok(frame.change("set_fatigue", |spec| {
            let mut fatigue = spec.fatigue.clone();
            put_detail(&mut fatigue.detail, &change)?;
            put_number(&mut fatigue.moment_factor, &change, "moment_factor")?;
            spec.fatigue = fatigue;
            Ok(())
        })?)
    }

    /// Sets the detail that the ends of a group's tubes are welded in: any of `category_mpa`, `curve`. What is not given stays.
    ///
    /// # Units
    /// `category_mpa` in MPa.
    ///
    /// ```rhai
    /// model().set_fatigue_group("diagonals", #{ category_mpa: 56, curve: "node-joint" });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_fatigue_group(frame: Frame, group: &str, change: Map) -> Result<(), Raised> {
        let change = Named::new("set_fatigue_group", &change, DETAIL)?;
        Ok(frame.change("set_fatigue_group", |spec| {
            let mut row = known(&spec.fatigue.groups, group, detail_group)
                .unwrap_or_else(|| DetailEntry { group: group.into(), ..DetailEntry::default() });
            put_detail(&mut row, &change)?;
            put_back(&mut spec.fatigue.groups, row, detail_group);
            Ok(())
        })?)
    }

    /// Sets two load cases that the frame goes between, as `[fatigue.pairs.NAME]` does: `from`, `to` (`none` for unloaded),
    /// `cycles`, perhaps `share`, `source`, `note`. What is not given stays; a pair that is not there is added.
    ///
    /// # Units
    /// `cycles` is how often it goes there and back; `share` a share of the range.
    ///
    /// ```rhai
    /// let frame = model();
    /// frame.set_fatigue_pair("bumps", #{ from: "bending", to: "none", cycles: 1e6, source: "a guess" });
    /// for f in frame.solve(frame.cases_of("bending")).findings().filter(|f| f.code == "D050") { print(f); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_fatigue_pair(frame: Frame, name: &str, pair: Map) -> Result<(), Raised> {
        let pair = Named::new("set_fatigue_pair", &pair, PAIR)?;
        Ok(frame.change("set_fatigue_pair", |spec| {
            let mut row = known(&spec.fatigue.pairs, name, pair_name)
                .unwrap_or_else(|| PairEntry { name: name.into(), ..PairEntry::default() });
            for (key, cell) in
                [("from", &mut row.from), ("to", &mut row.to), ("source", &mut row.source), ("note", &mut row.note)]
            {
                put_text(cell, &pair, key)?;
            }
            put_number(&mut row.cycles, &pair, "cycles")?;
            put_number(&mut row.share, &pair, "share")?;
            put_back(&mut spec.fatigue.pairs, row, pair_name);
            Ok(())
        })?)
    }
}
