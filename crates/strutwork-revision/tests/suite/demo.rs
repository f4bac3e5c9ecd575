//! The demo car from one revision to the next: everything that was changed is found, and nothing else.

use strutwork_revision::inputs::{How, Part};

use crate::common::{car, compared, happened, renamed, told, with};

#[test]
fn the_demo_car_and_itself_differ_in_nothing() {
    assert!(told(&car(), &car()).is_empty());
}

#[test]
fn everything_that_was_changed_is_found_and_nothing_else() {
    let mut files = renamed(car(), "4-low-L", "firewall-foot-L");
    files = with(files, "joints.csv", "nose-L,2750,180,40", "nose-L,2770,180,40");
    files = with(files, "joints.csv", "front-spring-R,2400", "front-spring-R,2390");
    files = with(
        files,
        "model.toml",
        "shape = \"square\"\nwidth_mm = 20.0\nwall_mm = 1.5",
        "shape = \"square\"\nwidth_mm = 20.0\nwall_mm = 2",
    );
    files = with(files, "tubes.csv", "sill-2-L,5-low-L,6-low-L,sill-40x20", "sill-2-L,5-low-L,6-low-L,rail-30");
    files = with(files, "tubes.csv", "lower-rail-3-R,3-low-R,4-low-R", "lower-rail-3-R,4-low-R,3-low-R");
    files = with(files, "tubes.csv", "engine-brace-2,3-top-L,4-top-R", "new-brace,3-top-R,4-top-L");
    files = with(files, "masses.csv", "engine,78", "engine,80");
    files = with(files, "panels.csv", "floor-sheet,1.2,rivets-30", "floor-sheet,1.5,rivets-30");
    let found = happened(&compared(&car(), &files));
    let expected: Vec<(Part, How, String)> = [
        (Part::Joint, How::Renamed, "firewall-foot-L"),
        (Part::Joint, How::Moved, "front-spring-R"),
        (Part::Joint, How::Moved, "nose-L"),
        (Part::Tube, How::Added, "new-brace"),
        (Part::Tube, How::Gone, "engine-brace-2"),
        (Part::Tube, How::Reversed, "lower-rail-3-R"),
        (Part::Tube, How::Changed, "sill-2-L"),
        (Part::Section, How::Changed, "brace-20"),
        (Part::Mass, How::Changed, "engine"),
        (Part::Panel, How::Changed, "floor-1-L"),
    ]
    .map(|(part, how, name)| (part, how, name.to_owned()))
    .into();
    assert_eq!(found, expected);
}

/// The wheelbase is one change, not that and the contact patches which follow from it.
#[test]
fn the_vehicle_is_told_once() {
    let text = &car().into_iter().find(|(name, _)| name == "model.toml").expect("settings").1;
    let line = text.lines().find(|line| line.starts_with("wheelbase_mm")).expect("a wheelbase").to_owned();
    let files = with(car(), "model.toml", &line, "wheelbase_mm = 2317");
    let told = told(&car(), &files);
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].starts_with("vehicle: wheelbase ") && told[0].ends_with(" → 2317 mm"), "{}", told[0]);
}
