//! One change after the other on a small frame: each is found, told once and in plain words, and nothing is invented.

use strutwork_revision::inputs::{How, Part};

use crate::common::{compared, happened, renamed, small, told, with};

#[test]
fn a_model_and_itself_differ_in_nothing() {
    assert!(told(&small(), &small()).is_empty());
}

#[test]
fn the_way_it_is_written_is_no_change() {
    let mut files = with(small(), "model.toml", "wall = \"16 swg\"", "wall_mm = 1.626  # the same gauge");
    files = with(files, "model.toml", "[options]\nself_weight = true\n", "");
    files = with(files, "model.toml", "[sections.leg]", "[options]\nself_weight = true\n[sections.leg]");
    files = with(files, "joints.csv", "f1,0,0,0\nf2,800,0,0\n", "# feet\nf2, 800.00 ,0e0,-0\n\nf1,0.0,0,0\n");
    files = with(
        files,
        "tubes.csv",
        "l1,f1,t1,leg,mild,legs,,,\nl2,f2,t2,leg,mild,legs,,,\n",
        "l2,f2,t2,leg,mild,legs,0,,\nl1,f1,t1,leg,mild,legs,,,\n",
    );
    files = with(files, "loads.csv", "push,t1,100,0,0,0,0,0\n", "push,t1,60,0,0,0,0,0\npush,t1,40,0,0,0,0,0\n");
    files = with(files, "panels.csv", "t1 t2 t3 t4", "t3 t2 t1 t4");
    files = with(files, "masses.csv", "t1 t2 t3 t4", "t4 t2 t3 t1");
    files = with(files, "cases.rhai", "// nothing of its own\n", "\n/* still nothing */\n");
    files = with(files, "model.toml", "revision = \"A\"", "revision = \"B\"");
    assert!(told(&small(), &files).is_empty(), "{:?}", told(&small(), &files));
}

/// Each change of the list by itself.
#[test]
fn every_change_is_told_in_plain_words() {
    let all: &[(&str, &str, &str, &[&str])] = &[
        ("joints.csv", "t3,800,600,700", "t3,812.5,600,690", &["joint t3: moved by 16.008 mm (x +12.5, z −10)"]),
        (
            "model.toml",
            "wall = \"16 swg\"",
            "wall_mm = 2",
            &["section leg: wall 1.626 → 2 mm: 8 tubes: l1, l2, l3 and 5 more"],
        ),
        ("model.toml", "grade = \"S235JRH\"", "grade = \"S355J2H\"", &[]),
        (
            "tubes.csv",
            "d1,f1,t2,brace,mild,braces",
            "d1,f1,t2,leg,mild,braces",
            &["tube d1: section round 20 × 1.5 mm (brace) → square 30 × 30 × 1.626 mm (leg)"],
        ),
        ("tubes.csv", "d1,f1,t2,brace,mild,braces", "d1,f1,t3,brace,mild,braces", &["tube d1: to t2 → t3"]),
        (
            "tubes.csv",
            "r2,t2,t3,leg,mild,top,,",
            "r2,t2,t3,leg,mild,sill,90,",
            &["tube r2: group top → sill; roll 0 → 90 deg"],
        ),
        ("tubes.csv", "braces,,ry rz,", "braces,,,", &["tube d1: release at from ry rz → none"]),
        ("tubes.csv", "r2,t2,t3,leg", "r2,t3,t2,leg", &["tube r2: runs the other way, nothing else of it differs"]),
        (
            "tubes.csv",
            "d1,f1,t2,brace,mild,braces,,ry rz,\n",
            "",
            &["tube d1: gone: from f1 to t2, round 20 × 1.5 mm of mild"],
        ),
        (
            "tubes.csv",
            "d1,f1,t2,brace,mild,braces,,ry rz,\n",
            "d1,f1,t2,brace,mild,braces,,ry rz,\nd2,f3,t4,brace,mild,braces,,,\n",
            &["tube d2: added: from f3 to t4, round 20 × 1.5 mm of mild"],
        ),
        ("supports.csv", "f4,fixed,fixed,1000", "f4,fixed,fixed,fixed", &["support f4: uz 1000 N/mm → fixed"]),
        (
            "supports.csv",
            "f4,fixed,fixed,1000,free,free,free\n",
            "",
            &["support f4: gone: ux fixed, uy fixed, uz 1000 N/mm"],
        ),
        ("loads.csv", "push,t1,100", "push,t1,120", &["load on joint t1 in case push: Fx 100 → 120 N"]),
        (
            "loads.csv",
            "push,t3,0,50,-20,0,0,0\n",
            "pull,t3,0,50,-20,0,0,0\n",
            &[
                "load on joint t3 in case push: gone: Fy 50 N, Fz -20 N",
                "load case pull: added: something acts on 1 place",
            ],
        ),
        (
            "tube_loads.csv",
            "push,r1,local,0,10,-100",
            "push,r1,local,0,10,-150",
            &["load on tube r1 in case push: wz at from, local -100 → -150 N/m"],
        ),
        ("masses.csv", "motor,40,400", "motor,42.5,410", &["mass motor: mass 40 → 42.5 kg; moved by 10 mm (x +10)"]),
        ("panels.csv", "mild,1.0,rivets", "mild,1.2,rivets", &["panel lid: thickness 1 → 1.2 mm"]),
        ("bodies.csv", "box,t2,500,500,500", "box,t2,500,500,800", &["mount box at t2: uz 500 → 800 N/mm"]),
        (
            "bodies.csv",
            "box,t2,500",
            "box,t3,500",
            &[
                "mount box at t3: added: ux 500 N/mm, uy 500 N/mm, uz 500 N/mm",
                "mount box at t2: gone: ux 500 N/mm, uy 500 N/mm, uz 500 N/mm",
            ],
        ),
        ("model.toml", "size = \"M8\"", "size = \"M10\"", &["bolt m8: size M8 → M10"]),
        ("model.toml", "pitch_mm = 30", "pitch_mm = 25", &["fixing rivets: pitch 30 → 25 mm"]),
        ("model.toml", "self_weight = true", "self_weight = false", &["options: self weight yes → no"]),
        ("model.toml", "title = \"Stand\"", "title = \"Bench\"", &["title block: title Stand → Bench"]),
        ("model.toml", "[options]", "[basis]\nkind = \"eurocode\"\n[options]", &[]),
        (
            "cases.rhai",
            "// nothing of its own",
            "let x = 1;",
            &["cases.rhai: changed: 1 line of code new or changed, 0 lines of code gone or as before the change"],
        ),
    ];
    for (file, from, to, expected) in all {
        let told = told(&small(), &with(small(), file, from, to));
        if expected.is_empty() {
            assert_eq!(told.len(), 1, "{from} to {to}: {told:?}");
        } else {
            assert_eq!(told, *expected, "{from} to {to}");
        }
    }
}

#[test]
fn a_renamed_part_is_told_once_and_not_what_names_it() {
    for (from, to, part) in [
        ("t3", "corner", Part::Joint),
        ("r2", "side", Part::Tube),
        ("leg", "post", Part::Section),
        ("mild", "plain", Part::Material),
        ("m8", "box-bolt", Part::Bolt),
        ("rivets", "pops", Part::Fixing),
        ("box", "case", Part::Body),
        ("lid", "cover", Part::Panel),
        ("motor", "engine", Part::Mass),
    ] {
        let other = renamed(small(), from, to);
        let inputs = compared(&small(), &other);
        assert_eq!(happened(&inputs), [(part, How::Renamed, to.to_owned())], "{from}");
        assert_eq!(inputs.changes[0].old_name.as_deref(), Some(from));
    }
}

/// A joint that was renamed and moved is known by its tubes; its tubes are not told, for they only follow.
#[test]
fn renamed_and_moved_at_once() {
    let other = with(renamed(small(), "t3", "corner"), "joints.csv", "corner,800,600,700", "corner,830,600,700");
    assert_eq!(told(&small(), &other), ["joint corner (was t3): moved by 30 mm (x +30)"]);
    // The tubes at it renamed as well: known by the joints that they run to.
    let other = renamed(renamed(renamed(other, "r2", "right"), "r3", "back"), "l3", "post");
    let expected = [
        (Part::Joint, How::Moved, "corner".to_owned()),
        (Part::Tube, How::Renamed, "back".to_owned()),
        (Part::Tube, How::Renamed, "post".to_owned()),
        (Part::Tube, How::Renamed, "right".to_owned()),
    ];
    assert_eq!(happened(&compared(&small(), &other)), expected);
}

/// Names that are dealt out anew are told as that, not as joints that fly about.
#[test]
fn names_dealt_out_anew() {
    let mut other = small();
    for (from, to) in
        [("t1", "x1"), ("t2", "x2"), ("t3", "x3"), ("t4", "x4"), ("x1", "t2"), ("x2", "t3"), ("x3", "t4"), ("x4", "t1")]
    {
        other = renamed(other, from, to);
    }
    let inputs = compared(&small(), &other);
    let expected: Vec<_> = ["t1", "t2", "t3", "t4"].map(|name| (Part::Joint, How::Renamed, name.to_owned())).into();
    assert_eq!(happened(&inputs), expected);
}

/// A tube turned round takes its releases, loads and roll with it.
#[test]
fn a_turned_tube_is_compared_from_its_other_end() {
    let mut other = with(small(), "tubes.csv", "r1,t1,t2,leg", "r1,t2,t1,leg");
    // From t2 to t1 the local y axis points the other way, z does not; the load begins where it ended.
    other = with(other, "tube_loads.csv", "push,r1,local,0,10,-100,0,20,-300", "push,r1,local,0,-20,-300,0,-10,-100");
    other = with(other, "tubes.csv", "d1,f1,t2,brace,mild,braces,,ry rz,", "d1,t2,f1,brace,mild,braces,,,ry rz");
    assert_eq!(
        told(&small(), &other),
        [
            "tube r1: runs the other way, nothing else of it differs",
            "tube d1: runs the other way, nothing else of it differs"
        ]
    );
    let released = with(other, "tubes.csv", "braces,,,ry rz", "braces,,ry rz,");
    let told = told(&small(), &released);
    assert_eq!(
        told[1],
        "tube d1: direction f1 to t2 → t2 to f1; release at from none → ry rz; release at to ry rz → none"
    );
}

#[test]
fn a_section_that_only_some_tubes_left_is_told_by_them() {
    let other = with(
        small(),
        "model.toml",
        "[sections.brace]",
        "[sections.leg-2]\nshape = \"square\"\nwidth_mm = 30\nwall_mm = 2\n[sections.brace]",
    );
    let other = with(other, "tubes.csv", "r1,t1,t2,leg", "r1,t1,t2,leg-2");
    assert_eq!(told(&small(), &other), ["tube r1: wall 1.626 → 2 mm"]);
}

/// A tube cut in two by a new joint: the old one ends there, the rest is new.
#[test]
fn a_tube_cut_in_two() {
    let other = with(small(), "joints.csv", "t1,0,0,700\n", "t1,0,0,700\nm,400,0,700\n");
    let other =
        with(other, "tubes.csv", "r1,t1,t2,leg,mild,top,,,\n", "r1,t1,m,leg,mild,top,,,\nr1b,m,t2,leg,mild,top,,,\n");
    assert_eq!(
        told(&small(), &other),
        [
            "joint m: added: at (400, 0, 700) mm",
            "tube r1: to t2 → m",
            "tube r1b: added: from m to t2, square 30 × 30 × 1.626 mm of mild",
        ]
    );
}

#[test]
fn a_case_script_that_came_or_went_is_told() {
    let without: Vec<_> = small().into_iter().filter(|(name, _)| name != "cases.rhai").collect();
    let with = with(small(), "cases.rhai", "// nothing of its own\n", "let x = 1;\nlet y = 2;\n");
    assert_eq!(told(&without, &with), ["cases.rhai: added: 2 lines of code"]);
    assert_eq!(told(&with, &without), ["cases.rhai: gone: 2 lines of code"]);
}
