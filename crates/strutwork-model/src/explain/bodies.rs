//! Pages of bodies and their bolts.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::UNKNOWN_BODY,
        "a body that is not in bodies.csv",
        "A mass, a load, a link, a corner, a place or a shaft names a body that no row of bodies.csv has. Names are compared exactly.",
        "motor,110,-900,0,150,body: rear-module   in masses.csv; the body is called rear module",
        "Correct the name, or add the body's rows: one for each joint that it bolts to.",
    ),
    page(
        codes::UNKNOWN_BOLT,
        "a bolt that is not in model.toml",
        "A row of bodies.csv names a bolt that no table [bolts.NAME] defines.",
        "rear module,R1,M12   in bodies.csv, and [bolts.M10] in model.toml",
        "Correct the name, add the table, or leave the cell empty: a bolt need not be named.",
    ),
    page(
        codes::DOUBLED_BOLT,
        "a doubled bolt",
        "Two rows bolt the same body to the same joint. The mount would be twice as stiff as meant; mostly a row was pasted twice.",
        "engine,E1,900,900,1500\nengine,E1,900,900,1500",
        "Keep one row. Two bolts side by side at one joint are one mount with the stiffness of both.",
    ),
    page(
        codes::RIGID_TO_TWO,
        "a joint bolted rigidly to two bodies",
        "A rigid mount ties the joint to its body exactly. Tied rigidly to two bodies, the two are one rigid piece there, and how they share the bolt's load cannot be told.",
        "front module,J1,rigid,rigid,rigid\nrear module,J1,rigid,rigid,rigid",
        "Give one of the two a stiffness in each direction in which it holds, or give both bodies one name.",
    ),
    page(
        codes::MOUNT_HOLDS_NOTHING,
        "a bolt that holds nothing",
        "Every direction of the row is free: the body is given nothing at this joint.",
        "engine,E1,free,free,free",
        "Write rigid (or leave the cell empty) or a stiffness where the bolt holds, or take the row out.",
    ),
    page(
        codes::MOUNT_STIFFNESS,
        "a mount stiffness that is zero or negative",
        "A bush of stiffness 0 holds nothing, one below 0 pushes the wrong way.",
        "engine,E1,0,900,1500   below   body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm",
        "Write free where the bolt does not hold, rigid where it does not give.",
    ),
    page(
        codes::NO_DIRECTION,
        "an axis that points nowhere",
        "The axis of a bolt tells its axial from its shear load. Three zeros are no direction.",
        "[bolts.M10]\naxis = [0, 0, 0]",
        "Write x, y or z, or three numbers that are not all 0; their size does not count.",
    ),
    page(
        codes::NO_CARRIER,
        "nothing on the frame takes the force",
        "The force of a link or of a place (a belt anchorage, a towing eye) must reach the frame: at joints or at a body. An upright is on the wheel's side and cannot take it.",
        "[places.eye]\nrole = \"towing-eye\"",
        "Name the joints or the body that it is fixed to.",
    ),
    page(
        codes::POINT_MISSING,
        "where the force acts is not clear",
        "A single joint says where it is; a body or several joints do not: then the point is needed, with all its three coordinates. A load at a joint acts at the joint and takes no point.",
        "front-left,lower front,a1 a2,1600,620,-60   in suspension.csv, without chassis_x_mm, chassis_y_mm, chassis_z_mm",
        "Give all three coordinates, or leave all three empty where one joint says it.",
    ),
];
