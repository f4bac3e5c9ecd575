//! What each code of the rig and of the scales means.

use strutwork_model::explain::{Page, page};

use crate::remark::codes;

/// The pages of this crate's codes, in order.
pub const PAGES: &[Page] = &[
    page(
        codes::DIAL_SIGN,
        "a dial of the rig counts the other way",
        "Where a frame turns, the dials of a station move against each other. Here they move together, and at the other stations they do not: one dial is mounted the other way up, or its sign was dropped. It is turned round for everything that follows, and the verdict says so.",
        "front,…,0.82,0.79 where the right side sinks",
        "Turn the readings of that dial round in rig.csv and say so under `note`.",
    ),
    page(
        codes::SIDES_SWAPPED,
        "left and right of a station are exchanged",
        "The station turns against all others, or a held pair against the couple; or one row alone fits with left and right exchanged. A whole station is exchanged back and the verdict says so; a single row is left out.",
        "front,…,-0.79,0.82 where the couple raises the left side",
        "Exchange the two readings in rig.csv and say so under `note`.",
    ),
    page(
        codes::STATIONS_SWAPPED,
        "the readings of two stations are exchanged",
        "Twist grows from what is held to what is loaded. Here it goes back and forth, and is in order where two stations are exchanged; or in one step two rows fit in each other's place. Whole stations are exchanged back and the verdict says so; single rows are left out.",
        "door and front with each other's dials",
        "Exchange the two names, or their x_mm, in rig.csv and say so under `note`.",
    ),
    page(
        codes::DIAL_UNIT,
        "a dial of the rig counts in another unit",
        "A dial, or both of a station, moves 25.4, 39.4, 100 or 1000 times too much or too little beside its partner or its neighbours: inches, thousandths, hundredths. It is converted for what follows. Where the whole sheet is off from the model by such a factor nothing is converted, and the figure is not to be used.",
        "0.032 written as mm where the dial shows inches (0.81 mm)",
        "Convert the readings in rig.csv: they are mm.",
    ),
    page(
        codes::COUPLE_UNIT,
        "the couple of a rig is in another unit, or mistyped",
        "Of one step: every station reads as if another couple had acted; the step is left out. Of the whole sheet: measured and modelled stiffness differ by 9.81 or another such factor; nothing is converted, and the figure is not to be used.",
        "couple_nm 91.8 where 91.8 kgf·m (900 N·m) acted",
        "Write N·m, or `weight_kg` and `arm_mm`, of which the program makes it.",
    ),
    page(
        codes::OUTLIER,
        "a reading of the rig that fits nothing",
        "Beside a smooth line through the other readings of its dial it is off by more than chance gives one sheet in a hundred thousand, and the readings before and after it are not. It is left out of every line.",
        "8.23 among 0.81, 0.82 and 0.84: the decimal point",
        "Look at the clipboard. Correct it in rig.csv and say so under `note`, or leave the cell empty.",
    ),
    page(
        codes::STUCK,
        "a dial of the rig that stands still",
        "It shows the same in three readings or more while its partner moves. All but the first of them are left out.",
        "0.42, 0.42, 0.42 on the left where the right goes from -0.40 to -0.81",
        "Free the plunger, tap the dial before each reading, check its foot, and repeat the cycle.",
    ),
    page(
        codes::MISSING,
        "readings of the rig that are missing",
        "A cell is empty, or a station has no row in a step that others have. The step is left out of that station's line.",
        "front,1,loading,3,,0.82",
        "Read it, if the rig still stands; else leave it.",
    ),
    page(
        codes::TOO_FEW,
        "too few steps of the rig",
        "Under five different couples a bent line and a wrong reading cannot be told apart; under three there is no interval at all.",
        "a sheet of 0 and 900 N·m alone",
        "Load in five steps or more, and unload the same way (common practice, no source).",
    ),
    page(
        codes::SPACING,
        "a spacing of dials that does not fit",
        "It is no distance that dials on a frame stand apart; or the station turns two, ten or 25.4 times what its neighbours and the model let expect, and another spacing would explain it.",
        "spacing_mm 45 where the dials stand 450 mm apart",
        "Measure from dial to dial, in mm, not from the centre line.",
    ),
    page(
        codes::ROLES,
        "nothing on the rig is called held, or nothing loaded",
        "The turn of the held pair is the rig's own and is subtracted from all; without one the rig's softness counts as the frame's. Without a loaded pair the one that turns most is taken.",
        "a sheet in which no row has `held` under `role`",
        "Set dials at each point that holds the frame, and write `held` and `loaded` once for these stations.",
    ),
    page(
        codes::AGAINST_COUPLE,
        "the rig's sheet twists against its couple",
        "A positive couple raises the left side at the loaded station. Here all stations sink there. The sheet is read the other way round: the stiffness does not depend on it, its reading does.",
        "[rig] dials = \"up\" where plungers point up, so that readings grow when the frame sinks",
        "Correct `dials` or `weights_hang` in [rig], or the sign of the couple.",
    ),
    page(
        codes::SLIP,
        "a jump between two steps of the rig",
        "Twist, or one dial, jumps and stays there: a joint slid, or a dial's foot moved. A joint that slides moves every station beyond it; a foot only its own. The lines have a level of their own before and after, so that the slope is that of the frame between slips; the figure with the slip is printed too.",
        "0.021° more at door, dash and front from step 3 on",
        "Tighten, settle the frame with two or three cycles, and read again.",
    ),
    page(
        codes::HYSTERESIS,
        "a loop between loading and unloading",
        "Unloading lies above loading: friction took energy. Bolted modules and skins slide (Brown, Robertson and Serpento 2002, Fig. 3.22, p. 44, after Swallow 1938), pivots rub. Above 3 % of the twist it wants a look (common practice, no source). A loop that runs the other way is a sheet in the wrong order.",
        "0.25° at 900 N·m going up, 0.28° coming down",
        "Tighten bolts, look at the pivot; or count on the smaller stiffness.",
    ),
    page(
        codes::ZERO,
        "a zero of the rig that does not come back",
        "After a cycle, under the couple that it began with, a twist stays that is more than 1 % of the greatest and 6.4 times what readings scatter by (own choice). Something slid or yielded.",
        "0.00 mm before and 0.12 mm after the cycle",
        "Settle with more cycles, tighten, look at dial feet and at what holds the frame.",
    ),
    page(
        codes::CURVED,
        "the rig's line bends",
        "Loading and unloading bend the same way by more than chance: the slope changes by over 5 % from the least to the greatest couple (own choice). One stiffness stands for the mean of it.",
        "0.10° a step at first, 0.13° a step at the end",
        "Softer: skins that buckle, joints that slide. Stiffer: play that is taken up; raise the preload (common practice, no source).",
    ),
    page(
        codes::SCATTER,
        "readings of the rig that scatter",
        "About their line they scatter by more than 1 % of the twist, and by four times what the dials repeat within (own choice).",
        "0.82, 0.79, 0.91 for one state",
        "Dial feet on something that moves, a frame that was touched; or write the true repeatability_mm under [rig].",
    ),
    page(
        codes::SETTLING,
        "settling cycles of the rig are left out",
        "The first cycles of a bolted or riveted frame only bed it in. They are left out as `settling_cycles` says, or by rule: as long as the zero comes back worse than 1 % and twice as badly as in the later cycles. One cycle is always kept.",
        "three cycles whose zeros move by 0.03°, 0.002° and 0.001°: the first is left out",
        "Nothing. Two or three cycles before the first that is written down are good practice (common practice, no source).",
    ),
    page(
        codes::SINK,
        "the rig yields",
        "More than a tenth of the turn at the loaded station is that of what holds the frame (own choice). It is subtracted, and what is subtracted is only as good as the held pair's dials.",
        "the held pair turns 0.05° where the loaded one turns 0.40°",
        "Stiffen what holds the frame.",
    ),
    page(
        codes::DIFFERS,
        "measured and modelled stiffness differ",
        "The model is held and loaded as the rig. The measured stiffness, with its whole interval, lies below the band of soft joints (without such a band, below 0.8 of the model, which is common practice and has no source), or above the model with rigid joints.",
        "measured 2100 N·m/deg, modelled 3000, with soft joints 2700",
        "Look at the bays that depart. Until it is explained, do not rest a claim on the model.",
    ),
    page(
        codes::AGREES,
        "measured and modelled stiffness agree",
        "The interval of the measured stiffness reaches into the band between soft and rigid joints. That speaks for the model in twist, and for nothing else.",
        "measured 2850 N·m/deg ± 60, modelled 3000, with soft joints 2700",
        "Nothing.",
    ),
    page(
        codes::BAY,
        "a bay twists more or less than the model says",
        "Beside what the frame as a whole is off, the twist between two stations is more than 1.25 times, or less than 0.8 times, the model's, and by more than 1.5 times half of its interval (own choice).",
        "door to dash 1.6 times",
        "More: a soft or sliding joint, a skin fixed less stiffly, a missing or thinner tube. Less: something that the model leaves out (common practice, no source).",
    ),
    page(
        codes::STATION,
        "a station of the rig alone departs",
        "The bay on one side is too soft and the one on the other as much too stiff: the frame does not do that, a gauge does.",
        "seat to door 1.5 times, door to dash 0.5 times",
        "Measure that station's spacing and look at its feet.",
    ),
    page(
        codes::NO_MODEL,
        "the rig's sheet cannot be held against the model",
        "No pair of joints stands for the loaded or the held station, or the model cannot be solved so. The sheet is judged by itself.",
        "a station at x = 2900 mm where the frame ends at 2400 mm",
        "Write `[rig.stations.NAME] joints = [\"LEFT\", \"RIGHT\"]` for the loaded and the held stations, or do what the remark says.",
    ),
    page(
        codes::NO_STIFFNESS,
        "the rig's sheet gives no stiffness",
        "Too few readings are left, or the twist does not grow with the couple beyond doubt.",
        "a sheet of two steps",
        "Mend what the other remarks name, or read again.",
    ),
    page(
        codes::CORNERS_SUM,
        "corner weights do not add up to the total",
        "The sum of the four corners and the vehicle's own weighing differ by more than five scales of that tolerance leave open.",
        "corners of 583 kg together, vehicle_kg = 620",
        "Weigh again: a wheel half on its pad, fuel, a person, a mistyped digit.",
    ),
    page(
        codes::CORNERS_SWAPPED,
        "two corner weights are exchanged",
        "As written they do not fit the model, and with two of them exchanged they do. Nothing is exchanged here; no centre of gravity is taken from them.",
        "front-left = 174, rear-right = 118 for a car that is heavier behind",
        "Look which pad showed which number.",
    ),
    page(
        codes::WEIGHT_UNIT,
        "a weight in another unit",
        "It is 2.2, 9.81 or 1000 times what the model says, or a tenth: pounds, newtons, grams, a decimal point.",
        "vehicle_kg = 1285 for a car of 583 kg",
        "Write kg.",
    ),
    page(
        codes::PART_DIFFERS,
        "a part weighs something else than in the model",
        "The scales and the model differ by more than 5 % (own choice) and by more than the scales leave open.",
        "driver,81.5 where masses.csv has 75 kg",
        "Correct masses.csv, or find what was weighed with it.",
    ),
    page(
        codes::CENTRE_DIFFERS,
        "the centre of gravity is elsewhere than in the model",
        "What corner weights, or the weighing with a raised axle, give is off by more than 1 % of wheelbase or track, 5 % of its height (own choice), and by more than the scales leave open.",
        "x 905 mm on the scales, 960 mm in the model",
        "Look for masses at the wrong place, or missing.",
    ),
    page(
        codes::HEIGHT_VAGUE,
        "a height of the centre of gravity that says little",
        "The scales leave more than 15 % of it open (own choice), the lower axle did not get heavier, or the radius of the wheels is not known.",
        "raised_mm = 60 on scales of ±0.5 kg",
        "Raise the axle by 300 to 600 mm (common practice, no source), write wheel_radius_mm.",
    ),
    page(
        codes::CROSS_WEIGHT,
        "a diagonal carries more than the model says",
        "Springs of unequal preload, pads that are not level or a twisted frame load one diagonal. The centre of gravity does not move by it (common practice, no source).",
        "front-left and rear-right carry 52 % where the model says 50 %",
        "Level the pads, set the springs, look whether the frame is true.",
    ),
    page(
        codes::CORNERS_UNHELD,
        "corner weights cannot be held against the model",
        "Corners were weighed, and what the model's own wheels carry cannot be told: it has no vehicle, something in it has no mass, or its wheels do not span wheelbase and track. No centre of gravity is taken from the corners; weighed parts, frame and vehicle are judged.",
        "[weighed.corners_kg] beside a material without density_kg_m3",
        "Do what the remark says: [vehicle], masses, densities.",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_code_has_its_page_in_order() {
        let pages: Vec<&str> = PAGES.iter().map(|page| page.code).collect();
        let codes: Vec<&str> = codes::ALL.iter().map(|code| code.0).collect();
        assert_eq!(pages, codes);
    }
}
