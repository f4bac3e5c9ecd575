//! Pages of names: unknown, doubled, unused.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::DUPLICATE_NAME,
        "a name stands twice",
        "Two rows of one kind have the same name, so nothing that uses it can tell them apart.",
        "A,0,0,0\nA,500,0,0   in joints.csv",
        "Give each its own name.",
    ),
    page(
        codes::UNKNOWN_JOINT,
        "a joint that is not in joints.csv",
        "A tube, load, support, mass or corner names a joint that does not exist. Names are compared exactly: a1 is not A1.",
        "AB,A,Bx,rail,mild   in tubes.csv",
        "Correct the name, or add the joint.",
    ),
    page(
        codes::UNKNOWN_TUBE,
        "a tube that is not in tubes.csv",
        "A load or a temperature names a tube that does not exist.",
        "snow,A-B,global,0,0,-50   in tube_loads.csv, the tube is called AB",
        "Correct the name, or add the tube.",
    ),
    page(
        codes::UNKNOWN_SECTION,
        "a section that is not in model.toml",
        "A tube names a section that no table [sections.NAME] defines.",
        "AB,A,B,rial,mild   in tubes.csv",
        "Correct the name, or add the table to model.toml.",
    ),
    page(
        codes::UNKNOWN_MATERIAL,
        "a material that is not in model.toml",
        "A tube names a material that no table [materials.NAME] defines.",
        "AB,A,B,rail,steel   in tubes.csv",
        "Correct the name, or add the table to model.toml.",
    ),
    page(
        codes::UNKNOWN_GRADE,
        "a grade that is not in the built-in list",
        "The list holds grades whose values have a source. Cold-worked tube and rarer grades are not in it.",
        "[materials.mild]\ngrade = \"S235\"",
        "Use a name of the list (S235JRH), or give e_mpa, g_mpa, the strengths and their source.",
    ),
    page(
        codes::UNUSED,
        "nothing uses it",
        "A section, material or bolt is defined and not used. That changes nothing; it is noted because a tube may have been meant to use it.",
        "[sections.spare] in model.toml, and no tube with it",
        "Nothing, or take it out.",
    ),
    page(
        codes::DUPLICATE_ROW,
        "the same row of loads twice",
        "Several loads of one case on one joint or tube add. Two rows that are the same in everything were perhaps pasted twice.",
        "brake,A,1000,0,0,0,0,0\nbrake,A,1000,0,0,0,0,0",
        "Take one out, or write the sum in one row.",
    ),
    page(
        codes::LOOK_ALIKE,
        "two load cases with nearly one name",
        "The names differ only in upper and lower case, spaces, - or _. They are two cases, each with its part of the loads.",
        "brake in loads.csv, Brake in tube_loads.csv",
        "Write both alike if one case was meant.",
    ),
    page(
        codes::JOINT_LISTED_TWICE,
        "a joint stands twice in one list",
        "The list of joints that carry a mass or a wheel names one of them twice.",
        "battery,40,500,0,200,A B A   in masses.csv",
        "List it once.",
    ),
];
