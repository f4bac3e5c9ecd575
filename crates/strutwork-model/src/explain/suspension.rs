//! Pages of linked corners, roll stiffness, weighing and inertia.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::LINKED_AND_CARRIED,
        "a corner that is linked and carried",
        "The rows of suspension.csv say how this wheel's force reaches the frame, and so do joints or a body in model.toml. It can go one way only.",
        "front-left,lower front,…   in suspension.csv, and [vehicle.corners.front-left] with joints = [\"A\"]",
        "Take joints and body out of the corner's table, or its rows out of suspension.csv.",
    ),
    page(
        codes::LINK_COUNT,
        "a corner whose unknown forces are not six",
        "The upright with its wheel is in equilibrium: three forces and three moments, so six unknown forces can be found. With fewer the upright can move; with more they cannot be told apart without knowing how stiff each link is. A link or spring brings one, a guide two, a strut or pivot three.",
        "a double wishbone of four legs and a spring, its track rod forgotten: five",
        "Double wishbone: four legs, track rod, spring. Strut: strut, two legs of the lower arm, track rod. Trailing arm: pivot, guide, spring. Leave anti-roll bars out: their stiffness belongs into roll_stiffness_nm_per_deg.",
    ),
    page(
        codes::LINK_OF_NO_LENGTH,
        "a link whose ends stand at one place",
        "The force of a link acts along its two ends. Where both are one point there is no such line. Only a pivot may be so.",
        "front-left,spring,A,1600,300,0,spring   and the joint A at 1600, 300, 0",
        "Correct the point on the upright or on the frame.",
    ),
    page(
        codes::NO_VEHICLE,
        "links and no vehicle",
        "suspension.csv says how wheels are linked to the frame, and model.toml has no [vehicle] table: nobody would read the links.",
        "suspension.csv in the folder, and model.toml without [vehicle]",
        "Add [vehicle], or take the file out.",
    ),
    page(
        codes::UPRIGHT_NOT_LINKED,
        "a mass on an upright that has no links",
        "A mass on an upright reaches the frame through the links of its corner. This corner has none.",
        "wheel FL,22,1200,700,0,upright: front-left   in masses.csv, without rows for front-left in suspension.csv",
        "Add the links, or name the joints or the body that carry the mass.",
    ),
    page(
        codes::ROLL_SHARES_DISAGREE,
        "roll share and roll stiffnesses disagree",
        "The front axle's share of the roll stiffness is given, and both axles give their roll stiffness, which says another share (by more than 0.005).",
        "front_roll_share = 0.5, roll_stiffness_nm_per_deg = 300 in front and 200 behind (0.6)",
        "Take front_roll_share out: it follows from the two. Or correct one of the three.",
    ),
    page(
        codes::WEIGHED_NOT_POSITIVE,
        "a weighed mass that is zero or negative",
        "What the scales say is compared with the model; nothing weighs 0, and no scales are never out.",
        "[weighed]\nframe_kg = 0",
        "Write what was weighed, or by how many kg the scales may be out; or leave the key out.",
    ),
    page(
        codes::MASS_INERTIA,
        "a moment of inertia that nothing can have",
        "A moment of inertia is 0 (a point) or more, and none is greater than the other two together: that follows from its definition.",
        "motor,110,-900,0,150,body: drive,-1,4,4   with ixx_kg_m2, iyy_kg_m2, izz_kg_m2",
        "Check the three, and that they are about the mass's own centre.",
    ),
];
