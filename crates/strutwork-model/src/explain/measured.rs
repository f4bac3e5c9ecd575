//! Pages of the rig sheet and the parts on the scales: what is wrong with their form.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::RIG_WITHOUT_READINGS,
        "a table [rig] and no readings",
        "The table says how a twist rig was read; without rig.csv nothing was.",
        "[rig]\nheld = \"rear spring tops\"   and no rig.csv in the folder",
        "Type the readings into rig.csv, or take the table out.",
    ),
    page(
        codes::RIG_STATION_PLACE,
        "a station of the rig without place or spacing",
        "The twist of a station is the difference of its two dials over their spacing, and its x says where along the frame it belongs.",
        "front,,,0,0.00,0.00   where no row of `front` has x_mm and spacing_mm",
        "Write both in one row of the station; its other rows may leave them empty.",
    ),
    page(
        codes::RIG_DISAGREES,
        "rows of one station or one step that disagree",
        "x, spacing and role hold for a whole station, couple or weight and arm for a whole step. Said twice, they must be the same.",
        "step 3 with couple_nm 900 in one row and 950 in the next",
        "Correct one of the two. If the couple did change between two stations, these are two steps.",
    ),
    page(
        codes::RIG_SPACING,
        "dials that stand no distance apart",
        "The spacing of a station's dials divides their difference; it is greater than 0.",
        "spacing_mm = 0",
        "Write the distance between the two dials, in mm.",
    ),
    page(
        codes::RIG_COUPLE,
        "a step without a couple, or with two",
        "Every step needs the couple that acted: `couple_nm`, or `weight_kg` and `arm_mm`, of which the program makes it. At rest it is 0, and is written.",
        "step 2 where all rows leave couple_nm, weight_kg and arm_mm empty",
        "Write one of the two in one row of the step.",
    ),
    page(
        codes::RIG_NUMBER,
        "a step or cycle that is no whole number",
        "Steps count from 0, cycles from 1; `settling_cycles` is a number of cycles.",
        "step = 2.5",
        "Write a whole number.",
    ),
    page(
        codes::RIG_READ_TWICE,
        "a station that is read twice in one step",
        "A row is one station in one step of one cycle, going up or coming down. Two rows with the same four are one too many.",
        "front, cycle 1, step 2 on lines 9 and 23, both without a direction",
        "Correct the step or the cycle. Where going up and coming down count from the same number, fill in `direction`.",
    ),
    page(
        codes::RIG_UNKNOWN_STATION,
        "a station that is not in rig.csv",
        "[rig.stations.NAME] and `between` name stations of rig.csv, letter by letter.",
        "[rig.stations.frnt] where the station is called `front`",
        "Correct the name.",
    ),
    page(
        codes::RIG_JOINTS,
        "not two different joints or stations",
        "A station stands at a left and a right joint; K is stated between two stations.",
        "joints = [\"front-L\"]",
        "Name two, and not the same twice.",
    ),
    page(
        codes::RIG_SIZE,
        "a negative size in [rig]",
        "Resolution, repeatability and tolerances are sizes: 0 or more.",
        "resolution_mm = -0.01",
        "Write the size without a sign.",
    ),
    page(
        codes::WEIGHED_UNKNOWN,
        "a weighed part that is not in the model",
        "A part is a name of masses.csv, or `group: NAME`, `tube: NAME` or `panel: NAME`.",
        "drivr,81.5   where masses.csv has `driver`",
        "Correct the name. A part that the model does not have yet: add it to masses.csv, with its place.",
    ),
    page(
        codes::RAISED,
        "a weighing with a raised axle that is not complete",
        "The height of the centre of gravity needs which axle was raised, by how much, and what the lower axle weighed then; and the vehicle's wheels and all four corners on the level.",
        "raised_mm = 400 without lower_axle_kg",
        "Write all three of `raised_axle`, `raised_mm` and `lower_axle_kg`, and the four corners; or take them out.",
    ),
];
