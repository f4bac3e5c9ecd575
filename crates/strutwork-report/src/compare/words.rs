//! What a change did to the frame, and what was changed, in the fabricator's words.

use std::collections::BTreeMap;

use strutwork_revision::differences::{FindingChange, Verdict, Worst};
use strutwork_revision::inputs::{Change, How, Inputs, Part};
use strutwork_revision::{Comparison, differences};

use crate::number::{decimals_for, fixed};

/// A figure before and after.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it is.
    pub what: &'static str,
    /// What it was.
    pub before: String,
    /// What it is.
    pub after: String,
    /// Its unit; empty for a ratio.
    pub unit: &'static str,
    /// How much it changed, with its sign and in per cent; `unchanged` where it did not.
    pub change: String,
    /// What else is to be known; empty for nothing.
    pub note: String,
    /// Whether it is over its limit now.
    pub over: bool,
}

/// What a change did, in a few figures: stiffness, mass, grams for stiffness, worst utilisation.
pub fn verdict(verdict: &Verdict) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut add = |what, pair: Option<[f64; 2]>, unit, decimals, note: String| {
        if let Some(pair) = pair {
            lines.push(figure(what, pair, unit, decimals, note));
        }
    };
    add("Torsional stiffness", verdict.stiffness, "N·m/deg", 0, String::new());
    add("Tubes weigh", verdict.frame_mass, "kg", 2, String::new());
    add("All weighs", verdict.mass, "kg", 2, String::new());
    let price = verdict.grams_of_change().map_or_else(String::new, |grams| {
        let [was, is] = verdict.stiffness.unwrap_or_default();
        let what = match (grams < 0.0, is > was) {
            (false, true) => "each N·m/deg more costs",
            (false, false) => "each N·m/deg less saves",
            (true, true) => return "stiffer and lighter".to_owned(),
            (true, false) => return "softer and heavier".to_owned(),
        };
        format!("{what} {} g of tube", fixed(grams.abs(), decimals_for(grams, 3).min(2)))
    });
    add("Tube for stiffness", verdict.grams, "g per N·m/deg", 2, price);
    if let [Some(was), Some(is)] = &verdict.worst {
        let mut line = figure("Worst utilisation", [was.utilisation, is.utilisation], "", 2, String::new());
        let [before, after] = [worst(was), worst(is)];
        line.note = if before == after { after } else { format!("{after}; was {before}") };
        line.over = is.utilisation > 1.0;
        lines.push(line);
    }
    lines
}

/// `bolt rear-module at J7, D040, in pothole-left; outside the scope of its clause: no pass`.
fn worst(of: &Worst) -> String {
    let case = if of.case.is_empty() { String::new() } else { format!(", in {}", of.case) };
    let scope = if of.scope == "outside" { ", outside the scope of its clause: no pass" } else { "" };
    format!("{} {}, {}{case}{scope}", of.kind, of.item, of.code)
}

fn figure(what: &'static str, [was, is]: [f64; 2], unit: &'static str, decimals: usize, note: String) -> Line {
    let change = is - was;
    let same = change.abs() <= differences::SAME * was.abs().max(is.abs());
    // As many decimals as show the change.
    let decimals = if same { decimals } else { decimals.max(decimals_for(change, 2)).min(decimals + 4) };
    let change = if same {
        "unchanged".to_owned()
    } else if was == 0.0 {
        signed(change, decimals)
    } else {
        format!("{}, {} %", signed(change, decimals), percent(100.0 * change / was.abs()))
    };
    Line { what, before: fixed(was, decimals), after: fixed(is, decimals), unit, change, note, over: false }
}

/// A number with its sign, also where it is positive.
pub fn signed(value: f64, decimals: usize) -> String {
    if value > 0.0 { format!("+{}", fixed(value, decimals)) } else { fixed(value, decimals) }
}

/// Per cent with as many decimals as show two digits of it.
pub fn percent(value: f64) -> String {
    signed(value, decimals_for(value, 2).clamp(1, 4))
}

/// Changes of which the same happened to several parts, told together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// What happened, as a word: `added`, `moved`.
    pub how: How,
    /// Of what: `tubes t1, t2 and 3 more`.
    pub subject: String,
    /// What happened: `wall 1.5 → 2 mm`.
    pub happened: String,
    /// How many changes these are.
    pub number: usize,
}

/// How many names of one entry are told.
const NAMES: usize = 6;

/// Every change in a sentence; those alike together, at the place of the first.
pub fn changes(inputs: &Inputs) -> Vec<Told> {
    let mut groups: Vec<(String, Vec<&Change>)> = Vec::new();
    let mut places: BTreeMap<(Part, How, String), usize> = BTreeMap::new();
    for change in &inputs.changes {
        let happened = change.happened();
        // What was renamed, and of what there is only one, is told by itself.
        let alone = change.old_name.is_some() || change.name.is_empty();
        let next = groups.len();
        let place =
            if alone { next } else { *places.entry((change.part, change.how, happened.clone())).or_insert(next) };
        match groups.get_mut(place) {
            Some((_, group)) => group.push(change),
            None => groups.push((happened, vec![change])),
        }
    }
    groups
        .into_iter()
        .map(|(happened, group)| {
            let first = group[0];
            let subject = match group.len() {
                1 if first.how == How::Renamed => format!("{} {}", first.part.word(), first.name),
                1 => first.subject(),
                number => {
                    let names: Vec<&str> = group.iter().take(NAMES).map(|change| change.name.as_str()).collect();
                    let more = if number > NAMES { format!(" and {} more", number - NAMES) } else { String::new() };
                    format!("{} {}{more}", plural(first.part.word()), names.join(", "))
                }
            };
            Told { how: first.how, subject, happened, number: group.len() }
        })
        .collect()
}

fn plural(word: &str) -> String {
    match word {
        "body" => "bodies".to_owned(),
        "mass" => "masses".to_owned(),
        word => format!("{word}s"),
    }
}

/// A finding that came, went or crossed its limit: `D022 of tube t1 in braking: 0.95 → 1.08, over its limit now`.
pub fn finding(of: &FindingChange) -> String {
    let number = |value: Option<f64>| value.map_or_else(|| "–".to_owned(), |value| fixed(value, 2));
    let case = match (of.case.as_str(), of.cases) {
        ("", _) => String::new(),
        (case, 1) => format!(" in {case}"),
        (case, cases) => format!(" in {case} and {} more", cases - 1),
    };
    let values = if of.before.is_none() && of.after.is_none() {
        String::new()
    } else {
        format!(": {} → {}", number(of.before), number(of.after))
    };
    format!("{} of {}{case}{values}, {}", of.code, of.subject, of.fate.words())
}

/// What cannot be held against each other, one sentence an entry.
pub fn left_out(comparison: &Comparison) -> Vec<String> {
    let mut said = Vec::new();
    let mut cases = |names: &[String], which: &str| {
        if !names.is_empty() {
            let (word, are) = if names.len() == 1 { ("case", "stands") } else { ("cases", "stand") };
            said.push(format!("{} {word} {are} in {which} revision alone: {}.", names.len(), names.join(", ")));
        }
    };
    cases(&comparison.cases_gone, "the first");
    cases(&comparison.cases_new, "the second");
    let [gone, new] = comparison.alone;
    for (number, which, parts) in [(gone, "first", "are gone"), (new, "second", "are new")] {
        if number > 0 {
            said.push(format!(
                "{number} number{} of the {which} revision belong{} to parts that {parts}, or were not computed in the other \
                 run: nothing to hold {} against.",
                if number == 1 { "" } else { "s" },
                if number == 1 { "s" } else { "" },
                if number == 1 { "it" } else { "them" },
            ));
        }
    }
    if comparison.tubes_reordered && !comparison.differences.is_empty() {
        said.push(
            "The rows of tubes.csv stand in another order: where several equal tubes meet, the first counts as the one that \
             the others are welded to, which can move utilisations of joints and welds."
                .to_owned(),
        );
    }
    said.extend(comparison.scripts.iter().map(|script| format!("Case script {script}.")));
    if comparison.before.version != comparison.after.version {
        let [was, is] = [&comparison.before.version, &comparison.after.version];
        said.push(format!("The two were computed with different versions of the program: {was} and {is}."));
    }
    if comparison.before.options != comparison.after.options {
        let told = |options: &str| if options.is_empty() { "none".to_owned() } else { options.to_owned() };
        let [was, is] = [told(&comparison.before.options), told(&comparison.after.options)];
        said.push(format!("The two were computed with different options: {was}; {is}."));
    }
    said
}

/// Endings of names of quantities that are units, which stand in a column of their own.
const UNITS: [&str; 12] =
    ["_n_per_mm", "_nm_per_deg", "_kg_m2", "_percent", "_mpa", "_deg", "_mm", "_nm", "_hz", "_kg", "_n", "_g"];

/// A quantity as a reader sees it: `von Mises greatest` for `von_mises_greatest_mpa`.
pub fn quantity(name: &str) -> String {
    let bare = UNITS.iter().find_map(|unit| name.strip_suffix(unit)).unwrap_or(name);
    bare.replace("von_mises", "von Mises").replace('_', " ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantities_are_told_without_their_unit() {
        for (name, told) in [
            ("von_mises_greatest_mpa", "von Mises greatest"),
            ("ux_mm", "ux"),
            ("ry_nm_per_deg", "ry"),
            ("frame_mass_per_stiffness", "frame mass per stiffness"),
            ("cg_x", "cg x"),
        ] {
            assert_eq!(quantity(name), told);
        }
    }

    #[test]
    fn changes_alike_are_told_together_at_the_place_of_the_first() {
        use strutwork_model::{InputFile, InputFiles, read_model};
        let model = |z: [f64; 8]| {
            let joints: String = (0..8).map(|joint| format!("J{joint},{},0,{}\n", 100 * joint, z[joint])).collect();
            let tubes: String = (0..7).map(|tube| format!("T{tube},J{tube},J{},bar,mild\n", tube + 1)).collect();
            let settings = "title = \"bars\"\n[materials.mild]\ngrade = \"S235JRH\"\n[sections.bar]\nshape = \"round\"\n\
                            diameter_mm = 30\nwall_mm = 2\n";
            let files = [
                InputFile::new("model.toml", settings),
                InputFile::new("joints.csv", format!("joint,x_mm,y_mm,z_mm\n{joints}")),
                InputFile::new("tubes.csv", format!("tube,from,to,section,material\n{tubes}")),
            ];
            read_model(&InputFiles(files.into())).unwrap().value
        };
        let after = model([10.0, 20.0, 10.0, 10.0, 10.0, 10.0, 10.0, 10.0]);
        let inputs = strutwork_revision::compare_models(&model([0.0; 8]), &after, [None, None]);
        let told: Vec<(String, usize)> = changes(&inputs).into_iter().map(|told| (told.subject, told.number)).collect();
        assert_eq!(told, [("joints J0, J2, J3, J4, J5, J6 and 1 more".to_owned(), 7), ("joint J1".to_owned(), 1)]);
    }

    #[test]
    fn a_figure_shows_its_change_however_small() {
        let told = figure("K", [6684.89, 6685.12], "N·m/deg", 0, String::new());
        assert_eq!(
            (told.before.as_str(), told.after.as_str(), told.change.as_str()),
            ("6684.89", "6685.12", "+0.23, +0.0034 %")
        );
        let told = figure("K", [6000.0, 6000.0 * (1.0 + 1e-12)], "N·m/deg", 0, String::new());
        assert_eq!((told.after.as_str(), told.change.as_str()), ("6000", "unchanged"));
        let told = figure("mass", [0.0, 2.0], "kg", 2, String::new());
        assert_eq!(told.change, "+2.00");
    }
}
