//! Formulas of strength that a case asks for by their inputs, without a frame: `[[formula]]`.

mod bolt;
mod fatigue;
mod joint;
mod member;
mod panel;
mod profile;
mod weld;

use strutwork_checks::Calculation;
use toml::{Table, Value};

use crate::fault::CaseFault;
use crate::read::Entry;

/// A calculation that a case asks for.
#[derive(Debug, Clone, PartialEq)]
pub struct Formula {
    /// What quantities call it.
    pub name: String,
    /// Its kind: `member`, `weld`, … as the case writes it.
    pub of: String,
    /// Its inputs as the case writes them, for readers and sketches: key and value.
    pub(crate) inputs: Vec<(String, Value)>,
    asked: Asked,
}

/// Which formula, with its inputs.
#[derive(Debug, Clone, PartialEq)]
enum Asked {
    Curve(member::CurveAsked),
    Section(member::SectionAsked),
    Member(member::MemberAsked),
    Joint(joint::JointAsked),
    Weld(weld::WeldAsked),
    Bolt(bolt::BoltAsked),
    Fatigue(fatigue::FatigueAsked),
    Panel(panel::PanelAsked),
}

impl Formula {
    /// Reads the formula at a place (counted from 1).
    ///
    /// # Errors
    /// [`CaseFault`]: a key that is missing, unknown or not what it should be.
    pub(crate) fn read(number: usize, table: Table) -> Result<Self, CaseFault> {
        let inputs = table.iter().filter(|(key, _)| *key != "name" && *key != "of");
        let inputs = inputs.map(|(key, value)| (key.clone(), value.clone())).collect();
        let mut entry = Entry::new(number, table);
        let (name, of) = (entry.text("name")?, entry.text("of")?);
        let asked = match of.as_str() {
            "curve" => Asked::Curve(member::CurveAsked::read(&mut entry)?),
            "section" => Asked::Section(member::SectionAsked::read(&mut entry)?),
            "member" => Asked::Member(member::MemberAsked::read(&mut entry)?),
            "joint" => Asked::Joint(joint::JointAsked::read(&mut entry)?),
            "weld" => Asked::Weld(weld::WeldAsked::read(&mut entry)?),
            "bolt" => Asked::Bolt(bolt::BoltAsked::read(&mut entry)?),
            "fatigue" => Asked::Fatigue(fatigue::FatigueAsked::read(&mut entry)?),
            "panel" => Asked::Panel(panel::PanelAsked::read(&mut entry)?),
            _ => return Err(CaseFault::Word { kind: "formula", written: of }),
        };
        entry.nothing_left()?;
        Ok(Self { name, of, inputs, asked })
    }

    /// A number among its inputs.
    pub(crate) fn number(&self, key: &str) -> Option<f64> {
        let (_, value) = self.inputs.iter().find(|(known, _)| known == key)?;
        value.as_float().or_else(|| value.as_integer().map(|whole| whole as f64))
    }

    /// A text among its inputs.
    pub(crate) fn text(&self, key: &str) -> Option<&str> {
        self.inputs.iter().find(|(known, _)| known == key)?.1.as_str()
    }

    /// The calculation, written out.
    pub(crate) fn page(&self) -> Calculation {
        match &self.asked {
            Asked::Curve(asked) => asked.page(),
            Asked::Section(asked) => asked.page(),
            Asked::Member(asked) => asked.page(),
            Asked::Joint(asked) => asked.page(),
            Asked::Weld(asked) => asked.page(),
            Asked::Bolt(asked) => asked.page(),
            Asked::Fatigue(asked) => asked.page(),
            Asked::Panel(asked) => asked.page(),
        }
    }
}

/// Millimetres, their powers, MPa and degrees in SI.
const MM: f64 = 1e-3;
const MM2: f64 = 1e-6;
const MM3: f64 = 1e-9;
const MM4: f64 = 1e-12;
const MPA: f64 = 1e6;

#[cfg(test)]
mod tests {
    use super::*;

    const BOLT: &str = "name = \"b\"\nof = \"bolt\"\nd_mm = 8\nd0_mm = 9\narea_mm2 = 36.6\nfyb_mpa = 640\nfub_mpa = 800\n\
                        alpha_v = 0.6\nt_mm = 5\nfu_mpa = 360\ne1_mm = 20\ne2_mm = 20\ngamma_m2 = 1.25\n";

    fn read(text: &str) -> Result<Formula, CaseFault> {
        Formula::read(1, toml::from_str(text).unwrap())
    }

    #[test]
    fn a_formula_gives_its_page() {
        let page = read(BOLT).unwrap().page();
        let shear = page.lines.iter().find(|line| line.symbol == "F_v,Rd").expect("the shear resistance");
        assert!((shear.value - 0.6 * 800.0 * 36.6 / 1.25).abs() < 1e-6);
    }

    #[test]
    fn what_does_not_belong_to_a_formula_is_an_error() {
        for (old, new) in
            [("d_mm", "d_m"), ("of = \"bolt\"", "of = \"rope\""), ("\n", "\nx = 1\n"), ("= 640", "= \"f\"")]
        {
            assert!(BOLT.contains(old) && read(&BOLT.replacen(old, new, 1)).is_err(), "{new}");
        }
    }
}
