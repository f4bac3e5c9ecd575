//! The table files, column by column.

use super::{Column, RIG_SHEET, Table, WEIGHED_PARTS, may, need};
use crate::files;

/// Every table file: the frame first, then what it carries, then what acts.
pub const TABLES: &[&Table] = &[
    &JOINTS,
    &TUBES,
    &PANELS,
    &SUPPORTS,
    &BODIES,
    &SUSPENSION,
    &MASSES,
    &LOADS,
    &TUBE_LOADS,
    &TUBE_POINT_LOADS,
    &TEMPERATURES,
    &SETTLEMENTS,
    &RIG_SHEET,
    &WEIGHED_PARTS,
];

const NOTE: Column = may("note", "a remark; not used");

/// `joints.csv`.
pub const JOINTS: Table = Table {
    file: files::JOINTS,
    needed: true,
    about: "Where tubes meet, one row a joint. Each must be reached by a tube or by a mount of a body.",
    columns: &[
        need("joint", "its name, any text, unique"),
        need("x_mm", "forward"),
        need("y_mm", "to the left"),
        need("z_mm", "up"),
        NOTE,
    ],
    example: "joint,x_mm,y_mm,z_mm\nfront-low-L,1600,300,0\nfront-low-R,1600,-300,0\n",
};

/// `tubes.csv`.
pub const TUBES: Table = Table {
    file: files::TUBES,
    needed: true,
    about: "One row a tube, from joint to joint. Its own axes: x from `from` to `to`; z in the vertical plane through the \
            tube, on the upper side (a vertical tube: z is −x of the frame when the tube points up, +x when it points \
            down); y = z × x. The height of a section lies along z.",
    columns: &[
        need("tube", "its name, unique"),
        need("from", "the joint where it starts"),
        need("to", "the joint where it ends"),
        need("section", "a name of `[sections.NAME]`"),
        need("material", "a name of `[materials.NAME]`"),
        may("group", "tubes with the same text are one group, for tables and scripts"),
        may("roll_deg", "turn of the section about the tube, right-handed; empty: 0"),
        may(
            "release_from",
            "freedoms freed at `from`, separated by blanks: ux uy uz rx ry rz in the tube's axes; `ry rz` is a hinge",
        ),
        may("release_to", "the same at `to`"),
        may("offset_from_x_mm", "from the joint to the tube's end at `from`, a rigid arm, axes of the frame; empty: 0"),
        may("offset_from_y_mm", "the same along y"),
        may("offset_from_z_mm", "the same along z"),
        may("offset_to_x_mm", "from the joint to the tube's end at `to`"),
        may("offset_to_y_mm", "the same along y"),
        may("offset_to_z_mm", "the same along z"),
        may(
            "spring_from_ux_n_per_mm",
            "spring between the tube's end and the joint at `from`, along the tube; empty: rigid",
        ),
        may("spring_from_rx_nm_per_deg", "the same, about the tube's x"),
        may("spring_from_ry_nm_per_deg", "the same, about its y"),
        may("spring_from_rz_nm_per_deg", "the same, about its z"),
        may("spring_to_ux_n_per_mm", "the same at `to`, along the tube"),
        may("spring_to_rx_nm_per_deg", "the same, about the tube's x"),
        may("spring_to_ry_nm_per_deg", "the same, about its y"),
        may("spring_to_rz_nm_per_deg", "the same, about its z"),
        may(
            "buckling_y_mm",
            "buckling length for bending about its y (in its x–z plane); empty: by `[members]`, else its own length",
        ),
        may("buckling_z_mm", "the same about its z"),
        may("buckling_factor_y", "in place of `buckling_y_mm`: a factor on its own length"),
        may("buckling_factor_z", "the same about its z"),
        NOTE,
    ],
    example: "tube,from,to,section,material,group\nlow-L,rear-low-L,front-low-L,rail,mild,rails\n",
};

/// `panels.csv`.
pub const PANELS: Table = Table {
    file: files::PANELS,
    needed: false,
    about: "Skins that stiffen bays, one row a panel: a flat triangle or quadrilateral with a joint at each corner and a \
            tube along each edge. A panel carries shear in its own plane, nothing else. Openings, curvature, gel coat \
            and cores give no credit.",
    columns: &[
        need("panel", "its name, unique"),
        need("joints", "its 3 or 4 corners in order round the edge, separated by blanks"),
        need("material", "a name of `[materials.NAME]`"),
        need("thickness_mm", "of the skin"),
        may("fixing", "a name of `[fixings.NAME]`; empty: edges that do not slip, as if welded all along"),
        NOTE,
    ],
    example: "panel,joints,material,thickness_mm,fixing\nfloor,r1 r2 f2 f1,sheet,1.0,rivets\n",
};

/// `supports.csv`.
pub const SUPPORTS: Table = Table {
    file: files::SUPPORTS,
    needed: false,
    about: "What holds joints to the ground, one row a joint, axes of the frame. A vehicle needs none: its cases balance \
            themselves by inertia.",
    columns: &[
        need("joint", "the joint"),
        need("ux", "`fixed`, `free`, or a stiffness in N/mm"),
        need("uy", "the same along y"),
        need("uz", "the same along z"),
        need("rx", "`fixed`, `free`, or a stiffness in N·m/deg"),
        need("ry", "the same about y"),
        need("rz", "the same about z"),
    ],
    example: "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,free,free,free\nB,free,fixed,250,free,free,free\n",
};

/// `bodies.csv`.
pub const BODIES: Table = Table {
    file: files::BODIES,
    needed: false,
    about: "Rigid modules that bolt to the frame (a sub-frame, a drive unit), one row a bolted joint; rows with the same \
            `body` are one module. The bolt stands at the joint. A row without any stiffness is rigid in all six \
            freedoms; a bush with kx, ky, kz carries no moment. The reference point of a body, at which its movement is \
            given and loads act unless said otherwise, is the mean of its joints.",
    columns: &[
        need("body", "the name of the module"),
        need("joint", "the joint of the frame that it bolts to; each joint once a body, and rigid to one body only"),
        may("kx_n_per_mm", "along x of the frame: empty or `rigid`, `free`, or a stiffness"),
        may("ky_n_per_mm", "the same along y"),
        may("kz_n_per_mm", "the same along z"),
        may(
            "krx_nm_per_deg",
            "about x: `rigid`, `free`, or a stiffness; empty: rigid where kx, ky, kz are all rigid, else free",
        ),
        may("kry_nm_per_deg", "the same about y"),
        may("krz_nm_per_deg", "the same about z"),
        may("bolt", "a name of `[bolts.NAME]`"),
        may(
            "axis",
            "along the bolt: `x`, `y`, `z`, or three numbers separated by blanks; empty: that of the bolt. With an axis, axial and shear load are told apart",
        ),
        NOTE,
    ],
    example: "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,bolt,axis\n\
              rear module,R1,,,,M10,y\n\
              engine,E1,900,900,1500,,z\n",
};

/// `suspension.csv`.
pub const SUSPENSION: Table = Table {
    file: files::SUSPENSION,
    needed: false,
    about: "What holds the uprights of linked corners, one row a link. Wheel, hub and upright are one piece, held by \
            forces that follow from its equilibrium alone: the unknown forces of a corner must number six. `link`, one \
            along its two ends (each leg of a wishbone, a track rod, a pushrod); `spring`, the same, and it is the \
            spring; `strut`, three at its end on the frame, one of them the spring's along its two ends (the strut's \
            tube is part of the upright); `pivot`, three at its end on the frame, in any direction (a trailing arm's \
            pivot, the arm being the upright); `guide`, two at its end on the frame, across the line of its two ends (a \
            pivot that can slide along that line). Double wishbone: four legs, track rod and spring. Strut: strut, two legs, \
            track rod. Trailing arm: pivot, guide, spring.",
    columns: &[
        need("corner", "`front-left`, `front-right`, `rear-left` or `rear-right`"),
        need("link", "its name, unique within the corner"),
        need("joints", "what takes its force: joints separated by blanks, or `body: NAME`"),
        need("upright_x_mm", "its end on the upright (of a pivot: any point, such as the same as on the frame)"),
        need("upright_y_mm", "the same along y"),
        need("upright_z_mm", "the same along z"),
        may(
            "chassis_x_mm",
            "its end on the frame; needed for a body or several joints; empty: the joint. A point away from the joint is a bracket: the joint takes force and moment",
        ),
        may("chassis_y_mm", "the same along y"),
        may("chassis_z_mm", "the same along z"),
        may("kind", "`link`, `spring`, `strut`, `pivot` or `guide`; empty: link"),
        NOTE,
    ],
    example: "corner,link,joints,upright_x_mm,upright_y_mm,upright_z_mm,kind\n\
              front-left,lower front,fl1,1600,620,-60,\n\
              front-left,spring,fl5,1600,600,-50,spring\n",
};

/// `masses.csv`.
pub const MASSES: Table = Table {
    file: files::MASSES,
    needed: false,
    about: "What the vehicle carries besides its tubes and panels, one row a mass. Several joints share its force statically equivalent: force and moment are kept.",
    columns: &[
        need("mass", "its name, unique"),
        need("kg", "greater than 0"),
        need("x_mm", "its centre"),
        need("y_mm", "the same along y"),
        need("z_mm", "the same along z"),
        need(
            "joints",
            "what carries it: joints separated by blanks, `body: NAME`, or `upright: front-left` (unsprung parts of a linked corner)",
        ),
        may("ixx_kg_m2", "moment of inertia about the axis along x through its own centre; empty: 0, a point"),
        may("iyy_kg_m2", "the same along y"),
        may("izz_kg_m2", "the same along z"),
        may(
            "when",
            "`driven`: it is there only while the vehicle is driven, as people and luggage are; natural modes are then found with it and without. Empty: always. Load cases count all masses either way",
        ),
        NOTE,
    ],
    example: "mass,kg,x_mm,y_mm,z_mm,joints,when\n\
              driver,80,200,300,250,s1 s2 s3 s4,driven\n\
              motor,110,-900,0,150,body: rear module,\n\
              wheel FL,22,1200,700,0,upright: front-left,\n",
};

/// `loads.csv`.
pub const LOADS: Table = Table {
    file: files::LOADS,
    needed: false,
    about: "Forces and moments at joints and on bodies, axes of the frame, one row a load. Rows of one case add.",
    columns: &[
        need("case", "the load case"),
        need("joint", "a joint, or `body: NAME`"),
        need("fx_n", "force along x"),
        need("fy_n", "force along y"),
        need("fz_n", "force along z"),
        need("mx_nm", "moment about x, right-handed"),
        need("my_nm", "moment about y"),
        need("mz_nm", "moment about z"),
        may(
            "x_mm",
            "where the force on a body acts; only for bodies, all three or none. Empty: at the body's reference point",
        ),
        may("y_mm", "the same along y"),
        may("z_mm", "the same along z"),
    ],
    example: "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,A,0,0,-1000,0,0,0\n",
};

/// `tube_loads.csv`.
pub const TUBE_LOADS: Table = Table {
    file: files::TUBE_LOADS,
    needed: false,
    about: "Loads along whole tubes, uniform or linear from end to end, per metre of tube.",
    columns: &[
        need("case", "the load case"),
        need("tube", "the tube"),
        need("axes", "`local`, the tube's own, or `global`, the frame's"),
        need("wx_n_per_m", "along x, at `from`"),
        need("wy_n_per_m", "along y, at `from`"),
        need("wz_n_per_m", "along z, at `from`"),
        may("wx_to_n_per_m", "along x, at `to`; empty: as at `from`"),
        may("wy_to_n_per_m", "along y, at `to`"),
        may("wz_to_n_per_m", "along z, at `to`"),
    ],
    example: "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\nsnow,AB,global,0,0,-50\n",
};

/// `tube_point_loads.csv`.
pub const TUBE_POINT_LOADS: Table = Table {
    file: files::TUBE_POINT_LOADS,
    needed: false,
    about: "Forces and moments at places along tubes.",
    columns: &[
        need("case", "the load case"),
        need("tube", "the tube"),
        need("axes", "`local`, the tube's own, or `global`, the frame's"),
        need("at", "share of the tube's length: 0 at `from`, 1 at `to`"),
        need("fx_n", "force along x"),
        need("fy_n", "force along y"),
        need("fz_n", "force along z"),
        need("mx_nm", "moment about x, right-handed"),
        need("my_nm", "moment about y"),
        need("mz_nm", "moment about z"),
    ],
    example: "case,tube,axes,at,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,AB,global,0.5,0,0,-800,0,0,0\n",
};

/// `temperatures.csv`.
pub const TEMPERATURES: Table = Table {
    file: files::TEMPERATURES,
    needed: false,
    about: "Warm and cold tubes.",
    columns: &[
        need("case", "the load case"),
        need("tube", "the tube"),
        need("rise_k", "uniform rise of temperature"),
        may("gradient_y_k_per_m", "rise across the tube along its y: positive, the +y side is hotter; empty: 0"),
        may("gradient_z_k_per_m", "the same along its z"),
    ],
    example: "case,tube,rise_k\nexhaust,low-L,60\n",
};

/// `settlements.csv`.
pub const SETTLEMENTS: Table = Table {
    file: files::SETTLEMENTS,
    needed: false,
    about: "Movements of supports. A freedom that moves must be `fixed` in supports.csv; an empty cell: it stays.",
    columns: &[
        need("case", "the load case"),
        need("joint", "the supported joint"),
        need("ux_mm", "movement along x"),
        need("uy_mm", "movement along y"),
        need("uz_mm", "movement along z"),
        need("rx_deg", "turn about x, right-handed"),
        need("ry_deg", "turn about y"),
        need("rz_deg", "turn about z"),
    ],
    example: "case,joint,ux_mm,uy_mm,uz_mm,rx_deg,ry_deg,rz_deg\nsink,A,,,-5,,,\n",
};
