//! From the text of a case folder to a [`Case`]: anything that is not known is an error.

mod quantity;
mod sizing;
pub(crate) use quantity::Entry;
mod refine;
mod table;
mod what;

use serde::Deserialize;
use strutwork_model::files::InputFiles;
use strutwork_model::model::Wheel;

use crate::case::{Basis, Case, How, Seen, Source, WheelForce};
use crate::fault::CaseFault;
use crate::formula::Formula;

/// Source, notes and printed values.
const CASE: &str = "case.toml";
/// Printed values of sections, as a table.
const TABLE: &str = "printed.csv";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CaseText {
    title: String,
    #[serde(default)]
    notes: Vec<String>,
    #[serde(default)]
    balance: bool,
    source: SourceText,
    #[serde(default)]
    wheel_force: Vec<WheelForceText>,
    sizing: Option<sizing::SizingText>,
    #[serde(default)]
    formula: Vec<toml::Table>,
    #[serde(default)]
    quantity: Vec<toml::Table>,
    #[serde(default)]
    refine: Vec<toml::Table>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WheelForceText {
    case: String,
    wheel: String,
    how: String,
    force_n: [f64; 3],
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SourceText {
    author: String,
    title: String,
    #[serde(default)]
    edition: String,
    place: String,
    basis: String,
    seen: String,
}

/// Reads a case from the files of its folder.
///
/// # Errors
/// [`CaseFault`]: the first thing that is wrong with `case.toml` or `printed.csv`. The model is read when it is run.
pub fn read_case(family: &str, name: &str, mut files: InputFiles) -> Result<Case, CaseFault> {
    let case: CaseText = toml::from_str(text(&files, CASE).ok_or(CaseFault::Missing { file: CASE })??)
        .map_err(|fault| CaseFault::Toml(fault.to_string()))?;
    let mut quantities = Vec::new();
    for (place, entry) in case.quantity.into_iter().enumerate() {
        quantities.push(quantity::read(place + 1, entry)?);
    }
    if let Some(table) = text(&files, TABLE) {
        quantities.extend(table::read(table?)?);
    }
    if quantities.is_empty() {
        return Err(CaseFault::NothingPrinted);
    }
    let models = refine::take_models(&mut files);
    let mut refinements = Vec::new();
    for (place, entry) in case.refine.into_iter().enumerate() {
        refinements.push(refine::read(place + 1, entry, &models)?);
    }
    let mut formulas = Vec::new();
    for (place, entry) in case.formula.into_iter().enumerate() {
        formulas.push(Formula::read(place + 1, entry)?);
    }
    files.0.retain(|file| file.name != CASE && file.name != TABLE);
    Ok(Case {
        family: family.to_owned(),
        name: name.to_owned(),
        title: case.title,
        notes: case.notes,
        source: source(case.source)?,
        balance: case.balance,
        wheel_forces: case.wheel_force.into_iter().map(wheel_force).collect::<Result<_, _>>()?,
        files,
        sizing: case.sizing.map(sizing::read).transpose()?,
        formulas,
        quantities,
        refinements,
    })
}

fn text<'f>(files: &'f InputFiles, name: &str) -> Option<Result<&'f str, CaseFault>> {
    let bytes = files.get(name)?;
    Some(std::str::from_utf8(bytes).map_err(|_| CaseFault::Toml(format!("{name} is no text"))))
}

fn source(text: SourceText) -> Result<Source, CaseFault> {
    let basis = Basis::ALL.into_iter().find(|basis| basis.word() == text.basis);
    Ok(Source {
        author: text.author,
        title: text.title,
        edition: text.edition,
        place: text.place,
        basis: basis.ok_or(CaseFault::Word { kind: "basis", written: text.basis })?,
        seen: seen(text.seen)?,
    })
}

fn wheel_force(text: WheelForceText) -> Result<WheelForce, CaseFault> {
    let wheel = Wheel::from_name(&text.wheel).ok_or(CaseFault::Word { kind: "wheel", written: text.wheel })?;
    let how = How::NAMED.into_iter().find(|(_, name)| *name == text.how).map(|(how, _)| how);
    let how = how.ok_or(CaseFault::Word { kind: "way in which a force acts on a wheel", written: text.how })?;
    let along_only = matches!(how, How::Brake | How::Drive);
    if along_only && text.force_n[1..] != [0.0; 2] {
        return Err(CaseFault::Along { case: text.case });
    }
    Ok(WheelForce { case: text.case, wheel, how, force: text.force_n })
}

fn seen(written: String) -> Result<Seen, CaseFault> {
    let seen = Seen::ALL.into_iter().find(|seen| seen.word() == written);
    seen.ok_or(CaseFault::Word { kind: "way in which a source was seen", written })
}

#[cfg(test)]
mod tests {
    use strutwork_model::files::InputFile;

    use super::*;

    const HEAD: &str = "title = \"t\"\n[source]\nauthor = \"a\"\ntitle = \"b\"\nplace = \"p\"\n\
                        basis = \"closed form\"\nseen = \"from memory\"\n";
    const REACTION: &str =
        "[[quantity]]\nwhat = \"reaction\"\ncase = \"c\"\njoint = \"j\"\ndof = \"uz\"\nunit = \"N\"\n";

    fn read(text: &str) -> Result<Case, CaseFault> {
        read_case("beams", "one", InputFiles(vec![InputFile::new(CASE, text)]))
    }

    #[test]
    fn a_whole_case_is_read() {
        let case = read(&format!("{HEAD}{REACTION}printed = \"2.50\"\n")).unwrap();
        assert_eq!((case.quantities.len(), case.source.basis), (1, Basis::ClosedForm));
        assert!(case.files.0.is_empty(), "what the model reader does not know is taken out");
    }

    #[test]
    fn a_force_on_a_wheel_is_read_and_its_faults_are_errors() {
        let force = "[[wheel_force]]\ncase = \"c\"\nwheel = \"front-left\"\nhow = \"brake\"\nforce_n = [-10, 0, 0]\n";
        let whole = format!("{HEAD}{force}{REACTION}printed = \"2.50\"\n");
        let case = read(&whole).unwrap();
        assert_eq!((case.wheel_forces[0].how, case.wheel_forces[0].force), (How::Brake, [-10.0, 0.0, 0.0]));
        for (old, new) in [("-left", ""), ("brake", "shove"), ("[-10, 0, 0]", "[-10, 5, 0]"), ("[-10, 0, 0]", "[-10]")]
        {
            assert!(whole.contains(old) && read(&whole.replace(old, new)).is_err(), "{new}");
        }
    }

    #[test]
    fn a_ratio_is_of_two_results_of_one_kind() {
        let bay = "{ what = \"bay\", joints = [\"a\", \"b\", \"c\", \"d\"], part = \"shear\" }";
        let ratio = format!("[[quantity]]\nwhat = \"ratio\"\nof = {bay}\nto = {bay}\nunit = \"%\"\nprinted = \"8\"\n");
        assert!(read(&format!("{HEAD}{ratio}")).is_ok());
        for (old, new) in
            [("shear", "share"), ("of = ", "off = "), ("\"%\"", "\"N\""), ("\"d\"], part", "\"d\"], x = 1, part")]
        {
            assert!(ratio.contains(old) && read(&format!("{HEAD}{}", ratio.replacen(old, new, 1))).is_err(), "{new}");
        }
        let mass = ratio.replacen(bay, "{ what = \"mass\", property = \"total\" }", 1);
        assert!(read(&format!("{HEAD}{mass}")).is_err(), "a mass over a stiffness");
    }

    #[test]
    fn lines_of_checks_and_formulas_are_read() {
        let check = "[[quantity]]\nwhat = \"check\"\ncase = \"c\"\ncheck = \"D022\"\ntube = \"t\"\nsymbol = \"χ_y\"\n\
                     unit = \"1\"\nprinted = \"0.5\"\n";
        assert!(read(&format!("{HEAD}{check}")).is_ok());
        let formula = "[[formula]]\nname = \"f\"\nof = \"curve\"\ncurve = \"c\"\nslenderness = 1.0\n[[quantity]]\n\
                       what = \"formula\"\nformula = \"f\"\nsymbol = \"χ\"\nunit = \"1\"\nprinted = \"0.5399\"\n";
        let case = read(&format!("{HEAD}{formula}")).unwrap();
        let report = crate::run(&case);
        assert!(report.agrees(), "{report:?}");
        for (old, new) in [("\"χ\"", "\"ψ\""), ("formula = \"f\"", "formula = \"g\""), ("unit = \"1\"", "unit = \"N\"")]
        {
            let case = read(&format!("{HEAD}{}", formula.replacen(old, new, 1))).unwrap();
            assert!(!crate::run(&case).agrees(), "{new}");
        }
        assert!(
            read(&format!("{HEAD}{}", formula.replacen("slenderness = 1.0", "slenderness = 1.0\nx = 2", 1))).is_err()
        );
    }

    #[test]
    fn what_is_not_known_is_an_error() {
        let whole = format!("{HEAD}{REACTION}printed = \"2.50\"\n");
        for (old, new) in [
            ("seen = \"from memory\"", "seen = \"somewhere\""),
            ("basis = \"closed form\"", "basis = \"rumour\""),
            ("place = \"p\"\n", "place = \"p\"\npage = 3\n"),
            ("title = \"t\"\n", "title = \"t\"\ntolerance = 1\n"),
            ("what = \"reaction\"", "what = \"reaction\"\ntube = \"t\""),
            ("what = \"reaction\"", "what = \"whatever\""),
            ("dof = \"uz\"", "dof = \"UZ\""),
            ("unit = \"N\"", "unit = \"mm\""),
            ("unit = \"N\"", "unit = \"newton\""),
            ("printed = \"2.50\"", "printed = 2.50"),
            ("printed = \"2.50\"", "printed = \"250\""),
            ("printed = \"2.50\"", "printed = \"2.50\"\nallow = 0.1"),
            ("printed = \"2.50\"", "printed = \"2.50\"\nallow = -0.1\nbecause = \"x\""),
            ("joint = \"j\"\n", ""),
        ] {
            assert!(whole.contains(old) && read(&whole.replace(old, new)).is_err(), "{new}");
        }
        assert_eq!(read(HEAD), Err(CaseFault::NothingPrinted));
    }
}
