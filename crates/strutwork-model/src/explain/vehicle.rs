//! Pages of the vehicle, of factors and options.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::CONTACT_MISSING,
        "nothing says where a wheel stands",
        "The contact points come from front_axle_x_mm, wheelbase_mm and the two tracks, or from contact_mm of each corner. Neither is complete.",
        "[vehicle] without wheelbase_mm, and a rear corner without contact_mm",
        "Give the one or the other.",
    ),
    page(
        codes::CONTACTS_DISAGREE,
        "contact point and wheelbase or track disagree",
        "Both are given and differ by more than 1 mm.",
        "track_front_mm = 1400 and contact_mm = [0, 650, 0] for the front left wheel",
        "Correct one, or leave one out.",
    ),
    page(
        codes::WHEEL_SIDES,
        "a wheel on the wrong side",
        "x points forward and y to the left: front wheels have the larger x, left wheels the larger y. Otherwise cornering and braking would act the wrong way.",
        "[vehicle.corners.front-left]\ncontact_mm = [0, -700, 0]",
        "Correct the sign, or swap the wheels.",
    ),
    page(
        codes::SHARE_RANGE,
        "a share outside 0 to 1",
        "A share is a part of the whole: 0 none, 1 all. A percentage was perhaps typed.",
        "front_roll_share = 55",
        "front_roll_share = 0.55",
    ),
    page(
        codes::CORNER_NOT_CARRIED,
        "a corner that nothing carries",
        "The wheel's force must reach the frame: through joints, through a body, or through the links of suspension.csv.",
        "[vehicle.corners.front-left]\njoints = []",
        "Name the joints of the suspension's pick-ups or the body that carries the wheel, or give its links in suspension.csv.",
    ),
    page(
        codes::VEHICLE_SIZE,
        "a vehicle size that is zero or negative",
        "Wheelbase, tracks, the height of the centre of gravity, wheel radius and roll stiffness are greater than 0.",
        "wheelbase_mm = -2400",
        "Write it without a sign, or leave the key out where it may be left out.",
    ),
    page(
        codes::NO_SOURCE,
        "a factor without a source",
        "A factor of your own replaces one that has a source. The report prints where it comes from, so that a reviewer can judge it.",
        "[factors.bump]\nvalue = 2.5\nsource = \"\"",
        "Name the source, if only: own choice, and why.",
    ),
    page(
        codes::YIELD_MARGIN,
        "a margin on yield below 1",
        "With a margin below 1 a tube stressed beyond yield would pass.",
        "[options]\nyield_margin = 0.67",
        "Write its inverse: 1.5.",
    ),
];
