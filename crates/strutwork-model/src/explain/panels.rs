//! Pages of panels, fixings, ends of tubes and soft joints.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::UNKNOWN_FIXING,
        "a fixing that is not in model.toml",
        "A row of panels.csv names a fixing that no table `[fixings.NAME]` describes.",
        "floor,A B C D,sheet,1.0,rivet",
        "Correct the name, or add the table. An empty cell means edges that do not slip, as if welded all along.",
    ),
    page(
        codes::PANEL_CORNERS,
        "a panel with neither three nor four corners",
        "A panel is a triangle or a quadrilateral with a joint at each corner.",
        "floor,A B C D E,sheet,1.0,",
        "Split a skin over several bays into one panel for each bay.",
    ),
    page(
        codes::PANEL_SHAPE,
        "corners that do not go round the edge",
        "The corners stand in the order in which one meets them round the edge, and every corner points outwards. Crossed edges, an inward corner or three corners on one line carry no plain shear.",
        "floor,A C B D,sheet,1.0, where A B C D goes round",
        "Put the corners in order, or split the skin.",
    ),
    page(
        codes::PANEL_AREA,
        "a panel without area",
        "The corners lie on one line, or nearly.",
        "three joints of one rail as corners",
        "Correct a corner, or a joint's place.",
    ),
    page(
        codes::PANEL_WARPED,
        "a panel whose corners do not lie in one plane",
        "The warp is the distance between the two diagonals over the shorter of them. The panel is taken as flat between its diagonals. Past 1/50 the result is a rough one, past 1/10 it is refused: a skin so twisted carries its load by other means.",
        "one corner of a 500 × 400 mm floor raised by 40 mm",
        "Correct a joint's place, or split the skin into two triangles along the fold, with a tube in the fold.",
    ),
    page(
        codes::PANEL_THICKNESS,
        "a thickness that is zero or negative",
        "A panel without thickness carries nothing.",
        "floor,A B C D,sheet,0,",
        "Write the thickness in mm, or take the row out.",
    ),
    page(
        codes::ODD_THICKNESS,
        "a thickness that looks like another unit",
        "Skins are 0.2 to 50 mm thick. It is used as written, in mm.",
        "floor,A B C D,sheet,0.001,",
        "Write mm; a gauge number is no thickness (20 swg is 0.914 mm).",
    ),
    page(
        codes::DOUBLED_PANEL,
        "two panels on the same corners",
        "The bay would be stiffer and heavier than meant. Mostly a row was pasted twice.",
        "floor,A B C D,… and tray,B C D A,…",
        "Take one out. Two skins on one bay are one panel with the thickness of both.",
    ),
    page(
        codes::BARE_EDGE,
        "a panel edge without a tube",
        "A skin hands its shear to the tubes along its edges. Where none runs the edge would bend away and the panel holds nothing, but it is computed as if it held.",
        "floor,A B C D,… and no tube between B and C",
        "Add the tube, or leave the panel out. A chain of tubes along a straight edge, or one body at both corners, counts as a tube.",
    ),
    page(
        codes::FIXING_VALUE,
        "a fixing value that is zero or negative",
        "Thickness, width, shear modulus, pitch, slip and strength must be greater than 0.",
        "kind = \"bond\", width_mm = 0",
        "Write the value. For edges that do not slip leave the fixing out of panels.csv.",
    ),
    page(
        codes::ODD_FIXING,
        "a fixing value that looks like another unit",
        "A line of adhesive is 0.05 to 20 mm thick and 2 to 200 mm wide, its shear modulus 0.05 to 5000 MPa; fasteners stand 5 to 500 mm apart and slip 0.005 to 20 mm a kN. It is used as written.",
        "slip_mm_per_kn = 0.0003",
        "Check the unit in the key's name.",
    ),
    page(
        codes::SPRING_AND_RELEASE,
        "an end both released and on a spring",
        "A released freedom takes no force, a spring takes some: it is one or the other.",
        "release_from = ry and spring_from_ry_nm_per_deg = 500",
        "Take the freedom out of the release, or empty the spring's cell.",
    ),
    page(
        codes::END_SPRING,
        "an end spring of zero or less",
        "A spring of no stiffness is a release; a negative one is nothing.",
        "spring_from_ry_nm_per_deg = 0",
        "For an end that turns freely name the freedom under release_from or release_to; for a rigid one leave the cell empty.",
    ),
    page(
        codes::OFFSET_TOO_LONG,
        "an offset longer than the tube",
        "An offset is the short rigid arm from the joint to where the tube really ends. One longer than the tube itself, or one that turns the tube round, is mostly a slip of sign or unit.",
        "offset_from_x_mm = 900 on a tube of 800 mm",
        "Correct the offset: it is measured from the joint to the tube's end, along the axes of the frame.",
    ),
    page(
        codes::SOFT_LIMIT,
        "a limit of the rule for soft joints outside 0 to 1",
        "`narrower_than` is the share of the wider tube's face below which a narrower tube's end counts as soft.",
        "narrower_than = 85",
        "Write a number from 0 to 1; 0.85 is where EN 1993-1-8 Table 7.10 ends failure of the chord's face (table read, clause from memory).",
    ),
];
