//! Pages of places and tubes.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::SAME_PLACE,
        "two joints at one place",
        "Joints nearer than 0.01 mm are one joint with two names: tubes that end at the one are not connected to those at the other.",
        "A,0,0,0\nB,0,0,0",
        "Keep one and use its name for the tubes of both.",
    ),
    page(
        codes::TUBE_TO_ITSELF,
        "a tube from a joint to itself",
        "The tube has no length and no direction.",
        "AA,A,A,rail,mild",
        "Correct `from` or `to`.",
    ),
    page(
        codes::DOUBLED_TUBE,
        "two tubes between the same two joints",
        "The frame would be stiffer and heavier than meant. Mostly a row was pasted twice.",
        "AB,A,B,rail,mild\nBA,B,A,rail,mild",
        "Take one out. Two tubes side by side are modelled as one section with the properties of both.",
    ),
    page(
        codes::SHORT_TUBE,
        "a tube shorter than its section is wide",
        "Between joints this near there is no tube, only the joint itself. The stiffness computed for such a stub means nothing, and it makes the equations worse.",
        "A at 0, B at 12 mm, a 30 mm tube between them",
        "Merge the two joints, or correct a place.",
    ),
    page(
        codes::LOOSE_JOINT,
        "a joint that no tube and no body reaches",
        "Nothing holds the joint: it would fly away under the least load. Mostly a tube is missing.",
        "C in joints.csv, and no tube with from or to C",
        "Add the tube, or take the joint out.",
    ),
    page(
        codes::SEPARATE_PARTS,
        "the frame falls into parts",
        "Some joints are reached from each other along tubes, bodies and panels, and not from the rest. The parts would move as they like.",
        "AB joins A and B, CD joins C and D, and nothing joins the two",
        "Add the tube that connects them. Look for two joints with different names at nearly one place.",
    ),
    page(
        codes::ODD_FRAME,
        "the frame is far too small or too large",
        "The whole frame measures less than 50 mm or more than 50 m. Places are in mm: metres or inches were probably typed, or one digit too many.",
        "B,2.5,0,0 for a frame of 2.5 m",
        "Multiply metres by 1000 and inches by 25.4.",
    ),
    page(
        codes::ODD_COORDINATE,
        "a coordinate that looks like metres",
        "One coordinate is a few units with a fraction, in a frame of metres. It is used as written, in mm.",
        "C,1.2,400,300 in a frame 2400 mm long",
        "If 1.2 m was meant write 1200. If 1.2 mm was meant there is nothing to do.",
    ),
];
